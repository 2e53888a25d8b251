import { createHash } from 'node:crypto';
import type { EditResult } from '../../changes/answer.ts';
import { sameCell } from '../../changes/apply.ts';
import { editSchema, type Change } from '../../changes/message.ts';
import { scheduleRows, unansweredQuestions } from '../../exchange/schedule.ts';
import { isInputId } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import { repeatedAnswer, storeEdit } from './apply-edit.ts';
import { refuse, type Outcome } from './outcome.ts';
import { openingKey, readJobSchedule, type ScheduleForm, type ScheduleReading } from './read-schedule.ts';
import type { Services } from './services.ts';

/** The same row of the same message always gets the same id. */
const rowId = (editId: string, line: number): string =>
	createHash('sha256').update(`${editId} ${line}`).digest('base64url').slice(0, 22);

/** The changes that bring the rows of a file into a job, after its last row. */
function changesOf({ preview, rows, existing }: ScheduleReading, editId: string): Change[] {
	const there = new Map(rows.map((row) => [openingKey(row.cells), row]));
	const changes: Change[] = [];
	let after = rows.at(-1)?.id ?? null;
	for (const { line, cells } of scheduleRows(preview)) {
		const opening = openingKey(cells);
		const same = opening === null || existing === 'all' ? undefined : there.get(opening);
		if (!same) {
			const row = rowId(editId, line);
			changes.push({ kind: 'addRow', row, after, cells });
			after = row;
		} else if (existing === 'update')
			for (const [field, cell] of Object.entries(cells)) {
				const before = isInputId(field) ? (same.cells[field] ?? null) : null;
				if (!isInputId(field) || sameCell(before, cell)) continue;
				changes.push({ kind: 'setCell', row: same.id, field, before, after: cell });
			}
	}
	return changes;
}

/** Brings a schedule in as one edit: all its rows or none, and one undo takes them back. */
export async function applySchedule(
	actor: Actor,
	services: Services,
	jobId: string,
	form: ScheduleForm
): Promise<Outcome<EditResult>> {
	const editId = form.field('editId') ?? '';
	const repeated = await repeatedAnswer(actor, services, jobId, editId);
	if (repeated) return repeated;
	const read = await readJobSchedule(actor, services, jobId, form);
	if (!read.ok) return read;
	const { preview } = read.value;
	const [problem] = preview.problems;
	if (problem) return refuse(422, { message: `${problem.reason}.`, place: problem.place });
	const [question] = unansweredQuestions(preview);
	if (question) return refuse(422, { message: `A question is open: ${question.text}`, field: question.id });
	const changes = changesOf(read.value, editId);
	if (changes.length === 0)
		return refuse(422, { message: `${form.name} has no row to bring in. Nothing was stored.` });
	const edit = editSchema.safeParse({ id: editId, title: `Bring in ${form.name}`.slice(0, 200), changes });
	if (!edit.success) return refuse(422, { message: 'The import has no id of its own.', field: 'editId' });
	return storeEdit(actor, services, jobId, edit.data, { duplicateMarks: 'kept' });
}
