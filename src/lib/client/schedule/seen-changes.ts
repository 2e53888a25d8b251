/** What a person saw of a job while choosing among changes: sent along, so that what was changed since is noticed. */
import type { Conflict } from '../../changes/message.ts';
import { choicesOf, nameOf, type RowChange } from '../../exchange/schedule-comparison.ts';
import { inputIds, type Cell, type Cells, type OpeningRow } from '../../takeoff/inputs.ts';

/** A cell that someone else changed while the changes were looked at. */
export interface ChangedMeanwhile {
	readonly name: string;
	readonly field: string;
	readonly yours: Cell;
	readonly theirs: Cell;
}

/** Ids of what is taken: the usual choices but for those that were made. */
export function takenChoices(
	changes: readonly RowChange[],
	made: (id: string) => boolean | undefined
): ReadonlySet<string> {
	const taken = changes.flatMap(choicesOf).filter(({ id, usual }) => made(id) ?? usual);
	return new Set(taken.map(({ id }) => id));
}

/** Changes of several cells in which one of these choices is: alone they come to something else then. */
export function changesWith(changes: readonly RowChange[], choices: readonly string[]): readonly string[] {
	const concerned = new Set(choices);
	return changes.flatMap((change) => {
		const own = choicesOf(change);
		return own.length > 1 && own.some(({ id }) => concerned.has(id)) ? [change.id] : [];
	});
}

/** Rows of the job that a change is about. */
const rowsOf = (change: RowChange): readonly OpeningRow[] =>
	change.kind === 'changed'
		? [change.row, ...change.followers]
		: change.kind === 'removed'
			? change.rows
			: [];

const whole = (cells: Cells): Cells =>
	Object.fromEntries(inputIds.map((field) => [field, cells[field] ?? null]));
const head = ({ mark = null, openingNumber = null }: Cells): Cells => ({ mark, openingNumber });

/** By row id: the cells that chosen changes replace, with what identifies the row; all of them where the row goes. */
export function seenCells(
	changes: readonly RowChange[],
	chosen: ReadonlySet<string>
): Readonly<Record<string, Cells>> {
	const taken = changes.filter((change) => choicesOf(change).some(({ id }) => chosen.has(id)));
	return Object.fromEntries(
		taken.flatMap((change) =>
			rowsOf(change).map(({ id, cells }): [string, Cells] => {
				if (change.kind === 'removed') return [id, whole(cells)];
				const replaced =
					change.kind === 'changed' && id === change.row.id
						? Object.fromEntries(change.cells.map(({ field, from }) => [field, from]))
						: {};
				return [id, { ...head(cells), ...replaced }];
			})
		)
	);
}

/** Conflicts with the names of their rows. */
export function changedMeanwhile(
	conflicts: readonly Conflict[],
	changes: readonly RowChange[]
): ChangedMeanwhile[] {
	const names = new Map(changes.flatMap(rowsOf).map(({ id, cells }) => [id, nameOf(cells)]));
	return conflicts.map(({ row, field, yours, theirs }) => ({
		name: names.get(row) ?? '',
		field,
		yours: yours as Cell,
		theirs: theirs as Cell
	}));
}
