import { createHash } from 'node:crypto';
import type { EditResult } from '../../changes/answer.ts';
import { sameCell } from '../../changes/apply.ts';
import { editSchema, type Change } from '../../changes/message.ts';
import { modelChoiceSchema, type ModelChoice } from '../../exchange/building-model/model-choice.ts';
import { chosenRows, modelCells, modelRows } from '../../exchange/building-model/model-rows.ts';
import type { InputId } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import { repeatedAnswer, storeEdit } from './apply-edit.ts';
import { refuse, type Outcome } from './outcome.ts';
import { readJobModel, rowsByMark, type JobModel } from './read-model.ts';
import { jsonField, type ScheduleForm } from './read-schedule.ts';
import type { Services } from './services.ts';

/** What a row that is there already takes over from the model. */
const updated: readonly InputId[] = ['quantity', 'location', 'openingWidth', 'openingHeight', 'exposure'];

/** The same row of the same message always gets the same id. */
const rowId = (editId: string, line: number): string =>
	createHash('sha256').update(`${editId} ${line}`).digest('base64url').slice(0, 22);

/** The changes that bring the chosen openings into the job, after its last row. */
function changesOf(
	{ model, rows, job }: JobModel,
	choice: ModelChoice,
	name: string,
	editId: string
): Change[] {
	const there = rowsByMark(rows);
	const changes: Change[] = [];
	let after = rows.at(-1)?.id ?? null;
	for (const row of chosenRows(modelRows(model.openings, choice.grouping), new Set(choice.lines))) {
		const cells = modelCells(row, name, job.measures);
		const same = choice.existing === 'all' ? undefined : there.get(row.mark);
		if (!same) {
			const id = rowId(editId, row.openings[0].line);
			changes.push({ kind: 'addRow', row: id, after, cells });
			after = id;
		} else if (choice.existing === 'update')
			for (const field of updated) {
				const [before, cell] = [same.cells[field] ?? null, cells[field] ?? null];
				if (cell !== null && !sameCell(before, cell))
					changes.push({ kind: 'setCell', row: same.id, field, before, after: cell });
			}
	}
	return changes;
}

/** Brings the chosen openings of a building model in as one edit: all or none, and one undo takes them back. */
export async function applyModel(
	actor: Actor,
	services: Services,
	jobId: string,
	form: ScheduleForm
): Promise<Outcome<EditResult>> {
	const editId = form.field('editId') ?? '';
	const repeated = await repeatedAnswer(actor, services, jobId, editId);
	if (repeated) return repeated;
	const none: ModelChoice = { lines: [], grouping: 'each', existing: 'leave' };
	const choice = jsonField(form, 'choice', modelChoiceSchema, none, 'The choice of openings');
	if (!choice.ok) return choice;
	const read = await readJobModel(actor, services, jobId, form);
	if (!read.ok) return read;
	const there = new Set(read.value.model.openings.map(({ line }) => line));
	if (choice.value.lines.some((line) => !there.has(line)))
		return refuse(422, { message: `${form.name} is another file than the openings were chosen from.` });
	const changes = changesOf(read.value, choice.value, form.name, editId);
	if (changes.length === 0)
		return refuse(422, {
			message: `Nothing of ${form.name} was chosen that the job does not have. Nothing was stored.`
		});
	const edit = editSchema.safeParse({ id: editId, title: `Bring in ${form.name}`.slice(0, 200), changes });
	if (!edit.success) return refuse(422, { message: 'The import has no id of its own.', field: 'editId' });
	return storeEdit(actor, services, jobId, edit.data, { duplicateMarks: 'kept' });
}
