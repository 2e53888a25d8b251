import type { CountSheet } from '../../changes/site.ts';
import { missingIn } from '../../delivery/compared-list.ts';
import { corrected } from '../../delivery/decided.ts';
import type { Supplier } from '../../delivery/ordering/purchase-order.ts';
import type { Actor } from '../identity/actor.ts';
import { noSuchDelivery } from './change-deliveries.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** What should be on a truck and what was counted of it, with the supplier who sent it where that is known. */
export async function findTruck(
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string
): Promise<
	Outcome<{ readonly sheet: CountSheet; readonly supplier: Supplier | null; readonly jobName: string }>
> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const key = keyOf(actor, jobId);
	const { storage } = services;
	const all = await storage.deliveries.all(key);
	const delivery = all.find((one) => one.deliveryId === deliveryId);
	if (!delivery) return noSuchDelivery;
	const { name, facts, receivedAt, removed, counted, supplierId } = delivery;
	const decisions = new Map(
		(await storage.lineDecisions.list(key))
			.filter((one) => one.deliveryId === deliveryId)
			.map(({ line, decision }) => [line, decision] as const)
	);
	const counts = (await storage.counts.list(key)).filter((count) => count.deliveryId === deliveryId);
	const supplier = supplierId === null ? null : await storage.suppliers.find(actor.companyId, supplierId);
	const arrived = new Set(await storage.photos.ids(key));
	const lists = all.filter((one) => !one.removed || one === delivery);
	const sheet: CountSheet = {
		deliveryId,
		name,
		listNumber: facts?.listNumber ?? null,
		supplier: supplier?.name ?? null,
		receivedAt,
		removed,
		finished: counted,
		lines: delivery.lines.map((line) => corrected(line, decisions.get(line.line) ?? null)),
		missingCrates: missingIn(delivery, lists).missingCrates,
		counts,
		photos: [...new Set(counts.flatMap(({ photoIds }) => photoIds))].filter((id) => arrived.has(id))
	};
	return done({ sheet, supplier, jobName: found.value.name });
}

/** What should be on a truck, and what was counted of it. */
export async function readCountSheet(
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string
): Promise<Outcome<CountSheet>> {
	const truck = await findTruck(actor, services, jobId, deliveryId);
	return truck.ok ? done(truck.value.sheet) : truck;
}
