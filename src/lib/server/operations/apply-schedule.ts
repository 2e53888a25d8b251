import type { EditResult } from '../../changes/answer.ts';
import { editSchema } from '../../changes/message.ts';
import type { Actor } from '../identity/actor.ts';
import { repeatedAnswer, storeEdit } from './apply-edit.ts';
import { chooseChanges } from './chosen-changes.ts';
import { refuse, type Outcome } from './outcome.ts';
import { readJobSchedule, settled, type ScheduleForm } from './read-schedule.ts';
import type { Services } from './services.ts';

const changedMeanwhile = (what: string): Outcome<never> =>
	refuse(409, { message: `${what} changed meanwhile. Nothing was stored; look at the changes again.` });

/**
 * Brings in what a person chose of a schedule as one edit: all of it or nothing, and one undo takes it back. The way
 * the file was read is remembered for files of its kind.
 */
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
	const { preview, remembered, toKeep } = read.value;
	const whole = settled(preview);
	if (!whole.ok) return whole;
	/** When the remembered way of reading was confirmed that the person saw; blank for none. */
	const seenMemory = form.field('remembered');
	if (seenMemory !== null && seenMemory !== (remembered?.confirmedAt ?? ''))
		return changedMeanwhile('The way files of this kind are read was');

	const chosen = chooseChanges(form, read.value);
	if (!chosen.ok) return chosen;
	if (chosen.value.gone.length > 0) return changedMeanwhile('Rows of the job were');
	const open = chosen.value.comparison.renames.find(({ answer }) => answer === null);
	if (open)
		return refuse(422, {
			message: `A question is open: is ${open.to} the new name of ${open.from}?`,
			field: open.id
		});
	const changes = chosen.value.changes(chosen.value.chosen, editId);
	if (changes.length === 0)
		return refuse(422, {
			message: preview.rows.some(({ status }) => status === 'opening')
				? `${form.name} changes nothing of what was chosen. Nothing was stored.`
				: `${form.name} has no row to bring in. Nothing was stored.`
		});
	const edit = editSchema.safeParse({ id: editId, title: `Bring in ${form.name}`.slice(0, 200), changes });
	if (!edit.success) return refuse(422, { message: 'The import has no id of its own.', field: 'editId' });
	const stored = await storeEdit(actor, services, jobId, edit.data, { duplicateMarks: 'kept' });
	if (stored.ok && toKeep)
		await services.storage.mappings.put(actor.companyId, toKeep.kind, toKeep.mapping, services.now());
	return stored;
}
