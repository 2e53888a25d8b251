import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Takes a packing list out of the comparison; it keeps its lines and can be put back. */
export const removeDelivery = (
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string
): Promise<Outcome<{ id: string }>> => setRemoved(actor, services, jobId, deliveryId, true);

export const restoreDelivery = (
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string
): Promise<Outcome<{ id: string }>> => setRemoved(actor, services, jobId, deliveryId, false);

async function setRemoved(
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string,
	removed: boolean
): Promise<Outcome<{ id: string }>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { deliveries } = services.storage;
	const there = await deliveries.setRemoved(keyOf(actor, jobId), deliveryId, removed, services.now());
	return there ? done({ id: deliveryId }) : refuse(404, { message: 'This job has no such packing list.' });
}
