import type { DamageSheet } from '../../changes/site.ts';
import type { Actor } from '../identity/actor.ts';
import { done, type Outcome } from './outcome.ts';
import { findTruck } from './read-count-sheet.ts';
import type { Services } from './services.ts';

/** What is needed for the damage notes of a truck. */
export async function readDamage(
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string
): Promise<Outcome<DamageSheet>> {
	const truck = await findTruck(actor, services, jobId, deliveryId);
	if (!truck.ok) return truck;
	const { sheet, supplier } = truck.value;
	return done({ ...sheet, concealedDamageDays: supplier?.concealedDamageDays ?? null });
}
