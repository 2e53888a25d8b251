/** The changes of a schedule that comes again, as a person saw them and chose among them. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import { filledCells } from '../../changes/apply.ts';
import { cellsSchema, type Change } from '../../changes/message.ts';
import { chosenChanges } from '../../changes/schedule-edit.ts';
import {
	choicesOf,
	compareSchedule,
	usualChoices,
	type ScheduleComparison
} from '../../exchange/schedule-comparison.ts';
import type { Cells, OpeningRow } from '../../takeoff/inputs.ts';
import { done, type Outcome } from './outcome.ts';
import { jsonField, type ScheduleForm, type ScheduleReading } from './read-schedule.ts';

export interface ChosenChanges {
	readonly comparison: ScheduleComparison;
	/** The rows that were compared: those of the job, with the values a person saw. */
	readonly rows: readonly OpeningRow[];
	readonly chosen: ReadonlySet<string>;
	/** Chosen, but not among the changes any more. */
	readonly gone: readonly string[];
	readonly changes: (chosen: ReadonlySet<string>, editId: string) => Change[];
}

const chosenSchema = z.array(z.string().max(200)).max(500_000);
const seenSchema = z.record(z.string().max(64), cellsSchema);

/** The same row of the same message always gets the same id. */
const rowId = (editId: string, line: number, part: number): string =>
	createHash('sha256').update(`${editId} ${line} ${part}`).digest('base64url').slice(0, 22);

/** The job's rows with the values that were seen, so that what was changed since is noticed when it is stored. */
function asSeen(rows: readonly OpeningRow[], seen: Readonly<Record<string, Cells>>): OpeningRow[] {
	const there = new Set(rows.map(({ id }) => id));
	return [
		...rows.map((row) => {
			const cells = seen[row.id];
			return cells ? { id: row.id, cells: filledCells({ ...row.cells, ...cells }) } : row;
		}),
		...Object.entries(seen).flatMap(([id, cells]) =>
			there.has(id) ? [] : [{ id, cells: filledCells(cells) }]
		)
	];
}

/**
 * Compares the file with the job.
 *
 * - `chosen`: ids of choices as a JSON list; without it the usual ones are taken.
 * - `seen`: by row id the cells a person saw, as JSON; without it those that stand there.
 */
export function chooseChanges(form: ScheduleForm, reading: ScheduleReading): Outcome<ChosenChanges> {
	const { preview, mapping } = reading;
	const seen = jsonField<Record<string, Cells>>(form, 'seen', seenSchema, {}, 'What was seen of the job');
	if (!seen.ok) return seen;
	const rows = asSeen(reading.rows, seen.value);
	const comparison = compareSchedule(preview, rows, mapping.answers ?? {});
	const asked = jsonField(form, 'chosen', chosenSchema, usualChoices(comparison), 'The choice of changes');
	if (!asked.ok) return asked;
	const offered = new Set(comparison.changes.flatMap((change) => choicesOf(change).map(({ id }) => id)));
	return done({
		comparison,
		rows,
		chosen: new Set(asked.value.filter((id) => offered.has(id))),
		gone: asked.value.filter((id) => !offered.has(id)),
		changes: (chosen, editId) =>
			chosenChanges(comparison, rows, chosen, (line, part) => rowId(editId, line, part))
	});
}
