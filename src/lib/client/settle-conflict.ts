/** What is sent when a person has decided between their change and that of someone else. */
import type { Conflict, Edit } from '../changes/message.ts';

/**
 * `mine`: the same changes again, now replacing their values, but for cells of rows that are gone. `theirs`: without the cells in conflict.
 * @returns the changes that are left, none when all are given up.
 */
export function settleConflict(
	changes: Edit['changes'],
	conflicts: readonly Conflict[],
	choice: 'mine' | 'theirs'
): Edit['changes'] {
	const gone = new Set(conflicts.flatMap((conflict) => (conflict.gone ? [conflict.row] : [])));
	const theirs = new Map(conflicts.map(({ row, field, theirs: value }) => [`${row} ${field}`, value]));
	return changes.flatMap((change): Edit['changes'] => {
		if (change.kind === 'setCell') {
			const key = `${change.row} ${change.field}`;
			if (!theirs.has(key)) return [change];
			return choice === 'theirs' || gone.has(change.row)
				? []
				: [{ ...change, before: theirs.get(key) as typeof change.before }];
		}
		const concerned = conflicts.filter(({ row }) => row === change.row);
		if (change.kind !== 'removeRow' || concerned.length === 0) return [change];
		if (choice === 'theirs') return [];
		const now = Object.fromEntries(concerned.map((conflict) => [conflict.field, conflict.theirs]));
		return [{ ...change, cells: { ...change.cells, ...(now as typeof change.cells) } }];
	});
}
