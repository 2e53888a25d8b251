/** The columns of the sheet as a list to choose from, and what choosing does to a view. */
import { usualView, type SheetView } from '../../changes/sheet-view.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { inputs } from '../../takeoff/inputs.ts';
import { checksId, mostFrozen, stepped, withOrder } from '../grid/column-layout.ts';
import { resultGroups } from '../grid/result-columns.ts';

export interface ListedColumn {
	readonly id: string;
	readonly title: string;
	readonly sentence: string;
	/** Title of the group it stands in. */
	readonly group: string;
	/** Worked out, or typed. */
	readonly worked: boolean;
}

export interface ColumnGroup {
	readonly title: string;
	readonly columns: readonly ListedColumn[];
}

/** Not typed and not a quantity: how many stops, cautions and notes an opening has. */
const checks = { id: checksId, title: 'Checks', sentence: 'Stops, cautions and notes of the opening.' };

/** All columns that can be switched; the mark always stands there. The inputs by group, then the quantities of the rule book by chapter. */
export function columnGroups(quantities: readonly QuantityDefinition[]): ColumnGroup[] {
	const listed = (
		title: string,
		worked: boolean,
		columns: readonly { readonly id: string; readonly title: string; readonly sentence: string }[]
	): ColumnGroup => ({
		title,
		columns: columns.map((column) => ({
			id: column.id,
			title: column.title,
			sentence: column.sentence,
			group: title,
			worked
		}))
	});
	const typed = [...new Set(inputs.map((input) => input.group))].map((group) => {
		const columns = inputs.filter((input) => input.group === group && input.id !== 'mark');
		return listed(group, false, group === 'Opening' ? [checks, ...columns] : columns);
	});
	return [...typed, ...resultGroups(quantities).map((group) => listed(group.title, true, group.quantities))];
}

/** Titles of all columns by id. */
export const columnTitles = (quantities: readonly QuantityDefinition[]): ReadonlyMap<string, string> =>
	new Map([checks, ...inputs, ...quantities].map(({ id, title }) => [id, title]));

/**
 * The columns that have every word of a text in their title, id, sentence or group. Those that begin with the text come
 * first, then those with all words in the title, then in the id, then the others.
 */
export function findColumns(groups: readonly ColumnGroup[], text: string): ListedColumn[] {
	const plain = text.trim().toLowerCase();
	const words = plain.split(/\s+/u);
	const hasAll = (place: string): boolean => words.every((word) => place.includes(word));
	const rank = ({ id, title, sentence, group }: ListedColumn): number => {
		const heading = title.toLowerCase();
		if (heading.startsWith(plain)) return 0;
		if (hasAll(heading)) return 1;
		if (hasAll(id.toLowerCase())) return 2;
		return hasAll(`${heading} ${id} ${sentence} ${group}`.toLowerCase()) ? 3 : 4;
	};
	return groups
		.flatMap(({ columns }) => columns)
		.map((column) => ({ column, rank: rank(column) }))
		.filter((found) => found.rank < 4)
		.sort((a, b) => a.rank - b.rank)
		.map(({ column }) => column);
}

/** Switches columns on or off. What is switched on is also seen: its side is shown and its group unfolded. */
export function switchColumns(view: SheetView, columns: readonly ListedColumn[], on: boolean): SheetView {
	const choice = { ...view.choice, ...Object.fromEntries(columns.map(({ id }) => [id, on])) };
	if (!on) {
		const off = new Set(columns.map(({ id }) => id));
		return { ...view, choice, frozen: view.frozen.filter((id) => !off.has(id)) };
	}
	const hidden = columns.some(
		({ id, worked }) => id !== checksId && view.side === (worked ? 'typed' : 'worked')
	);
	const groups = new Set(columns.map(({ group }) => group));
	return {
		...view,
		choice,
		side: hidden ? 'both' : view.side,
		folded: view.folded.filter((group) => !groups.has(group))
	};
}

/** The columns shown with one moved a place to the left (-1) or right (1); null where it can't go. */
function movedColumns(
	view: SheetView,
	shown: readonly string[],
	id: string,
	step: -1 | 1
): readonly string[] | null {
	const stays = (column: string): boolean => column === 'mark' || view.frozen.includes(column);
	return stepped(
		shown.map((column) => ({ id: column, group: '', worked: false, frozen: stays(column) })),
		id,
		step
	);
}

/** Whether a column shown can change places with its neighbour: both stay in place, or neither. */
export const canMove = (view: SheetView, shown: readonly string[], id: string, step: -1 | 1): boolean =>
	movedColumns(view, shown, id, step) !== null;

/** Lets a column shown change places with its neighbour. */
export function moveColumn(view: SheetView, shown: readonly string[], id: string, step: -1 | 1): SheetView {
	const moved = movedColumns(view, shown, id, step);
	return moved ? withOrder(view, moved) : view;
}

/** Whether the column stays in place beside the mark when the sheet is scrolled sideways. */
export function freezeColumn(view: SheetView, id: string, on: boolean): SheetView {
	const others = view.frozen.filter((other) => other !== id);
	return { ...view, frozen: on ? [...others, id].slice(0, mostFrozen) : others };
}

/** The usual columns in their usual places; rows, their order and their height stay as they are. */
export const usualColumns = (view: SheetView): SheetView => ({
	...usualView,
	rowHeight: view.rowHeight,
	sort: view.sort,
	filter: view.filter
});
