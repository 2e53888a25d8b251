/** Changes as lines of the history, and how the rows in them are called. */
import { sameCell } from '../../changes/apply.ts';
import type { HistoryLine } from '../../changes/history.ts';
import type { Change } from '../../changes/message.ts';
import type { Cells } from '../../takeoff/inputs.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';

/** Rows that were removed, and whose removal is looked up, at most; an import that was taken back removes thousands. */
const mostLookedUp = 25;

/** `C-104`, `C-104.2`; null where the row has no mark. */
function rowName({ mark, openingNumber }: Cells): string | null {
	if (typeof mark !== 'string' || mark === '') return null;
	return typeof openingNumber === 'number' ? `${mark}.${openingNumber}` : mark;
}

/** The changes that say something, of these rows only where they are named. */
export const changesOfRows = (changes: readonly Change[], rowIds: readonly string[] | null): Change[] =>
	changes.filter(
		(change) =>
			!(change.kind === 'setCell' && sameCell(change.before, change.after)) &&
			(rowIds === null || rowIds.includes(change.row))
	);

/** Removals in these changes: the last that is told of a row that is not there any more. */
function namesTold(changes: readonly Change[]): Map<string, string | null> {
	const names = new Map<string, string | null>();
	for (const change of changes)
		if ((change.kind === 'removeRow' || change.kind === 'addRow') && !names.has(change.row))
			names.set(change.row, rowName(change.cells));
	return names;
}

/**
 * How the rows of changes are called now; a row that was removed by what it was called last, as far as that is easily told.
 * @param rowIds other rows that are wanted.
 * @param told further changes that may tell of rows removed since, the latest first.
 */
export async function rowNames(
	{ openings, history }: Repositories,
	key: JobKey,
	changes: readonly Change[],
	rowIds: readonly string[] = [],
	told: readonly Change[] = changes
): Promise<ReadonlyMap<string, string>> {
	const wanted = new Set([
		...rowIds,
		...changes.flatMap((change) =>
			change.kind === 'moveRow' && change.after !== null ? [change.row, change.after] : [change.row]
		)
	]);
	const names = new Map<string, string | null>();
	const gone: string[] = [];
	for (const row of await openings.some(key, [...wanted])) {
		if (row.removed) gone.push(row.id);
		else names.set(row.id, rowName(row.cells) ?? 'A row without a mark');
	}
	const known = namesTold(told);
	const unknown = gone.filter((id) => !known.has(id));
	for (const id of gone) names.set(id, known.get(id) ?? null);
	for (const id of unknown.slice(0, mostLookedUp)) {
		const [last] = await history.search(key, {
			before: null,
			until: null,
			rowIds: [id],
			actorId: null,
			kind: null,
			most: 1,
			largest: null
		});
		names.set(id, namesTold(last?.changes ?? []).get(id) ?? null);
	}
	return new Map([...names].flatMap(([id, name]) => (name === null ? [] : [[id, name] as const])));
}

export const linesOf = (changes: readonly Change[], names: ReadonlyMap<string, string>): HistoryLine[] =>
	changes.map((change): HistoryLine => {
		const { row } = change;
		const name = names.get(row) ?? null;
		switch (change.kind) {
			case 'setCell':
				return { kind: 'cell', row, name, field: change.field, before: change.before, after: change.after };
			case 'addRow':
				return { kind: 'added', row, name: name ?? rowName(change.cells), cells: change.cells };
			case 'removeRow':
				return { kind: 'removed', row, name: name ?? rowName(change.cells), cells: change.cells };
			case 'moveRow':
				return {
					kind: 'moved',
					row,
					name,
					below: change.after === null ? null : { name: names.get(change.after) ?? null }
				};
		}
	});
