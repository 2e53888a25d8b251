import type { ScheduleAnswer } from '../../changes/schedule-answer.ts';
import type { Actor } from '../identity/actor.ts';
import type { Outcome } from './outcome.ts';
import { done } from './outcome.ts';
import { readJobSchedule, type ScheduleForm } from './read-schedule.ts';
import type { Services } from './services.ts';

/** What each row of a file would become in the job, what can't be read, and what only a person can say. */
export async function previewSchedule(
	actor: Actor,
	services: Services,
	jobId: string,
	form: ScheduleForm
): Promise<Outcome<ScheduleAnswer>> {
	const read = await readJobSchedule(actor, services, jobId, form);
	if (!read.ok) return read;
	const { preview, remembered, rows } = read.value;
	return done({ ...preview, remembered, jobRows: rows.length });
}
