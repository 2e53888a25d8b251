import type { SavedView, SheetView } from '../../changes/sheet-view.ts';
import type { Actor } from '../identity/actor.ts';
import type { PersonKey } from '../storage/view.repository.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

export const personOf = (actor: Actor): PersonKey => ({ companyId: actor.companyId, actorId: actor.id });

/** The views a person saved, by name. They are the same for every job. */
export async function readViews(actor: Actor, services: Services): Promise<Outcome<SavedView[]>> {
	return done(await services.storage.views.list(personOf(actor)));
}

/** How the person last left the sheet of a job; null when they never looked at it. */
export async function readLastView(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<SheetView | null>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	return done(await services.storage.views.last(keyOf(actor, jobId), actor.id));
}
