import type { SiteAnswer } from '../../changes/site.ts';
import { countedThings, isOnTruck, uncountedLines } from '../../delivery/counting/counted-lines.ts';
import { damageNotes } from '../../delivery/counting/damage-notes.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** The trucks of a job and how far each is counted. */
export async function readSite(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<SiteAnswer>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const key = keyOf(actor, jobId);
	const { storage } = services;
	const suppliers = new Map(
		(await storage.suppliers.list(actor.companyId)).map(({ id, name }) => [id, name] as const)
	);
	const counts = await storage.counts.list(key);
	const trucks = (await storage.deliveries.counted(key)).map((delivery) => {
		const { deliveryId, lines, facts, supplierId } = delivery;
		const own = counts.filter((count) => count.deliveryId === deliveryId);
		const toCount = lines.filter(isOnTruck).length;
		return {
			deliveryId,
			name: delivery.name,
			listNumber: facts?.listNumber ?? null,
			supplier: suppliers.get(supplierId ?? '') ?? null,
			receivedAt: delivery.receivedAt,
			toCount,
			counted: toCount - uncountedLines(lines, countedThings(own)).length,
			notes: damageNotes(lines, own).notes.length,
			finished: delivery.counted
		};
	});
	return done({ trucks });
}
