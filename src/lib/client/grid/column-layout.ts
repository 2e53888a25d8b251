/** Which columns stand in the sheet, in what order and groups: from a view, and back from what a person did to it. */
import type { SheetView } from '../../changes/sheet-view.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { inputs, isInputId } from '../../takeoff/inputs.ts';
import { isUsual, resultGroups } from './result-columns.ts';

export const checksId = 'checks';

/** A view holds no more columns that stay in place than this. */
export const mostFrozen = 20;

export interface LaidColumn {
	readonly id: string;
	/** Title of its group; '' for none. */
	readonly group: string;
	readonly worked: boolean;
	/** Stays in place at the left. */
	readonly frozen: boolean;
}

/** Columns of one group that stand together. */
export interface LaidGroup {
	readonly title: string;
	readonly worked: boolean;
	readonly frozen: boolean;
	readonly columns: readonly LaidColumn[];
	/** Columns of the group that are folded away; 0 where none are. */
	readonly behind: number;
	/** Whether there is anything to fold or unfold. */
	readonly foldable: boolean;
}

type Known = Pick<LaidColumn, 'id' | 'group' | 'worked'>;

/** All columns there can be, in their usual order. */
export class ColumnCatalog {
	readonly #known: readonly Known[];
	readonly #byId: ReadonlyMap<string, Known>;

	constructor(quantities: readonly QuantityDefinition[]) {
		const groups = [...new Set(inputs.map((input) => input.group))];
		this.#known = [
			{ id: 'mark', group: '', worked: false },
			{ id: checksId, group: '', worked: false },
			...groups.flatMap((group) =>
				inputs
					.filter((input) => input.group === group && input.id !== 'mark' && input.id !== 'note')
					.map(({ id }) => ({ id, group, worked: false }))
			),
			// Long text stands behind what is measured.
			{ id: 'note', group: '', worked: false },
			...resultGroups(quantities).flatMap(({ title, quantities: results }) =>
				results.map(({ id }) => ({ id, group: title, worked: true }))
			)
		];
		this.#byId = new Map(this.#known.map((column) => [column.id, column]));
	}

	groupOf(id: string): string {
		return this.#byId.get(id)?.group ?? '';
	}

	/**
	 * The columns shown. Columns of a view that are not known here are passed over.
	 * @param filled inputs outside the usual ones that hold something in some row: shown until they are switched off
	 * @param narrow only the mark stays in place
	 */
	lay(view: SheetView, filled: ReadonlySet<string>, narrow: boolean): LaidGroup[] {
		const shown = this.#known.filter(({ id }) => isShown(id, view, filled));
		const folded = new Set(view.folded);
		const frozen = new Set(narrow ? [] : view.frozen);
		const ordered = inOrder(shown, view.order);
		const counts = new Map<string, number>();
		for (const { group } of ordered) counts.set(group, (counts.get(group) ?? 0) + 1);
		const begun = new Set<string>();
		const unfolded = ordered.filter(({ group }) => {
			const first = !begun.has(group);
			begun.add(group);
			return group === '' || first || !folded.has(group);
		});
		const laid = unfolded.map((column): LaidColumn => ({
			...column,
			frozen: column.id === 'mark' || frozen.has(column.id)
		}));
		const runs: LaidColumn[][] = [];
		for (const column of [...laid.filter((each) => each.frozen), ...laid.filter((each) => !each.frozen)]) {
			const run = runs.at(-1);
			const before = run?.[0];
			if (before?.group === column.group && before.frozen === column.frozen) run?.push(column);
			else runs.push([column]);
		}
		return runs.map((columns): LaidGroup => {
			const { group = '', worked = false, frozen: stays = false } = columns[0] ?? {};
			const all = group === '' ? 1 : (counts.get(group) ?? 1);
			return {
				title: group,
				worked,
				frozen: stays,
				columns,
				behind: folded.has(group) ? all - 1 : 0,
				foldable: all > 1
			};
		});
	}
}

function isShown(id: string, { side, choice }: SheetView, filled: ReadonlySet<string>): boolean {
	if (id === 'mark') return true;
	if (id === checksId) return choice[id] ?? true;
	if (side === (isInputId(id) ? 'worked' : 'typed')) return false;
	return choice[id] ?? (isUsual(id) || filled.has(id));
}

/** Columns a person placed, in that order; every other one right after the one it usually follows. The mark is first. */
function inOrder(usual: readonly Known[], order: readonly string[]): Known[] {
	const byId = new Map(usual.map((column) => [column.id, column]));
	const placed: Known[] = [...new Set(['mark', ...order])].flatMap((id) => byId.get(id) ?? []);
	const there = new Set(placed.map(({ id }) => id));
	let previous = 'mark';
	for (const column of usual) {
		if (!there.has(column.id)) placed.splice(placed.findIndex(({ id }) => id === previous) + 1, 0, column);
		previous = column.id;
	}
	return placed;
}

/** The view with the columns shown in this order. Columns that are named but not shown keep their names at the end. */
export const withOrder = (view: SheetView, shown: readonly string[]): SheetView => ({
	...view,
	order: [...shown, ...view.order.filter((id) => !shown.includes(id))]
});

/** The columns shown with one moved by a step within those that stay or those that move; null at the end of these. */
export function stepped(columns: readonly LaidColumn[], id: string, step: 1 | -1): string[] | null {
	const at = columns.findIndex((column) => column.id === id);
	const [column, other] = [columns[at], columns[at + step]];
	if (!column || !other) return null;
	if (column.frozen !== other.frozen || id === 'mark' || other.id === 'mark') return null;
	const ids = columns.map((each) => each.id);
	ids[at] = other.id;
	ids[at + step] = id;
	return ids;
}

/** A list with something in it, or without it when it was. */
export const toggled = (list: readonly string[], item: string): string[] =>
	list.includes(item) ? list.filter((other) => other !== item) : [...list, item];
