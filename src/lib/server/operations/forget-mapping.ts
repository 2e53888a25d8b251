import type { Actor } from '../identity/actor.ts';
import { findJob } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Forgets how a kind of schedule was read; the next one is read from nothing. */
export async function forgetMapping(
	actor: Actor,
	services: Services,
	jobId: string,
	kind: string
): Promise<Outcome<null>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const forgotten = await services.storage.mappings.forget(actor.companyId, kind);
	return forgotten ? done(null) : refuse(404, { message: 'Nothing is remembered for files of this kind.' });
}
