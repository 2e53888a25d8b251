/** The changes of a comparison that a person chose, as the changes of one edit. */
import { cellChoice, type ScheduleComparison } from '../exchange/schedule-comparison.ts';
import type { OpeningRow } from '../takeoff/inputs.ts';
import type { Change } from './message.ts';

/**
 * Cells first, then what goes, then what comes.
 *
 * @param rows the rows of the job that were compared, in order: the values they hold are those replaced.
 * @param chosen ids of choices, see `choicesOf`.
 * @param newId of the row of the job that a row of the file becomes.
 */
export function chosenChanges(
	{ changes }: Pick<ScheduleComparison, 'changes'>,
	rows: readonly OpeningRow[],
	chosen: ReadonlySet<string>,
	newId: (line: number, part: number) => string
): Change[] {
	const going = new Set(
		changes.flatMap((change) =>
			change.kind === 'removed' && chosen.has(change.id) ? change.rows.map(({ id }) => id) : []
		)
	);
	const cells: Change[] = [];
	const coming: Change[] = [];
	/** The row that came last after a row of the job. */
	const last = new Map<string | null, string>();
	for (const change of changes) {
		switch (change.kind) {
			case 'added': {
				if (!chosen.has(change.id)) break;
				const row = newId(change.line, change.part);
				const after = last.get(change.after) ?? change.after;
				coming.push({ kind: 'addRow', row, after, cells: change.cells });
				last.set(change.after, row);
				break;
			}
			case 'removed':
				break;
			case 'changed':
				for (const { field, from, to } of change.cells) {
					if (!chosen.has(cellChoice(change.row.id, field))) continue;
					cells.push({ kind: 'setCell', row: change.row.id, field, before: from, after: to });
					if (field !== 'mark') continue;
					for (const { id, cells: own } of change.followers)
						if (!going.has(id))
							cells.push({ kind: 'setCell', row: id, field, before: own.mark ?? null, after: to });
				}
		}
	}
	// From below, so that each goes while the row above it still stands.
	const leaving = [...rows.entries()]
		.filter(([, { id }]) => going.has(id))
		.reverse()
		.map(([at, row]): Change => ({
			kind: 'removeRow',
			row: row.id,
			after: rows[at - 1]?.id ?? null,
			cells: row.cells
		}));
	return [...cells, ...leaving, ...coming];
}
