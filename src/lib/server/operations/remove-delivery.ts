import type { Actor } from '../identity/actor.ts';
import { changeDeliveries, takenOut } from './change-deliveries.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Takes a packing list out of the comparison. It is kept, and can be put back. */
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
	const changed = await changeDeliveries(actor, services, jobId, async ({ deliveries }, key, at) => {
		const name = await deliveries.setRemoved(key, deliveryId, removed, at);
		if (name === null) return null;
		return removed
			? { title: `Take ${name} out`, id: deliveryId, name, before: 'in', after: takenOut }
			: { title: `Put ${name} back`, id: deliveryId, name, before: takenOut, after: 'in' };
	});
	return changed.ok ? done({ id: deliveryId }) : changed;
}
