import type { ModelPreview } from '../../exchange/building-model/model-choice.ts';
import type { Actor } from '../identity/actor.ts';
import { done, type Outcome } from './outcome.ts';
import { readJobModel, rowsByMark } from './read-model.ts';
import type { ScheduleForm } from './read-schedule.ts';
import type { Services } from './services.ts';

/** The doors, windows and openings of a building model, to choose from. */
export async function previewModel(
	actor: Actor,
	services: Services,
	jobId: string,
	form: ScheduleForm
): Promise<Outcome<ModelPreview>> {
	const read = await readJobModel(actor, services, jobId, form);
	if (!read.ok) return read;
	const { model, rows } = read.value;
	return done({ ...model, marks: [...rowsByMark(rows).keys()] });
}
