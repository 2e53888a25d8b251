import { sheetViewSchema } from '../../changes/sheet-view.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { sizeProblem } from './view-bodies.ts';

/** Keeps how the person leaves the sheet of a job, for the next time it is opened, wherever that is. */
export async function keepLastView(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<{ keptAt: string }>> {
	const parsed = sheetViewSchema.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const tooLarge = sizeProblem(parsed.data);
	if (tooLarge) return tooLarge;
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const at = services.now();
	await services.storage.views.keepLast(keyOf(actor, jobId), actor.id, parsed.data, at);
	return done({ keptAt: at.toISOString() });
}
