/** Something in every table about buying, delivering and measuring. Invented; nothing here looks into it. */
import { nothing } from '../../src/lib/fieldwork/sample-measures.ts';
import type { Actor } from '../../src/lib/server/identity/actor.ts';
import type { JobKey } from '../../src/lib/server/storage/keys.ts';
import type { Storage } from '../../src/lib/server/storage/storage.ts';

/** @param text signs that databases and files are apt to get wrong */
export async function fillBuying(
	storage: Storage,
	key: JobKey,
	actor: Actor,
	text: string,
	at: Date
): Promise<void> {
	const moment = at.toISOString();
	const supplierId = `supplier ${key.jobId}`;
	await storage.suppliers.put(
		key.companyId,
		{
			id: supplierId,
			name: text,
			scopes: ['part'],
			leadDays: 42,
			daysBefore: 3,
			handsFrom: 'farSide',
			sizes: 'overall',
			concealedDamageDays: null
		},
		at
	);
	await storage.suppliers.addAlias(
		key.companyId,
		{ aliasId: 'word', supplierId, phrase: ' roll tube ', kind: 'barrel', item: null, hand: null },
		actor,
		at
	);
	await storage.plans.put(key, [
		{ openingKey: 'c1.1', startsOn: '2027-03-01', release: 2, boughtAs: 'unit' },
		{ openingKey: 'c2.1', startsOn: null, release: 1, boughtAs: 'parts' }
	]);
	const order = {
		orderId: 'order',
		number: 'K7QD0-01',
		revision: 1,
		supplierId,
		supplierName: text,
		phase: 'North',
		release: 1,
		currency: 'USD',
		lines: []
	};
	await storage.orders.add(key, order, actor, at);
	await storage.orders.release(
		key,
		{ orderId: 'order', revision: 1 },
		{ at: moment, by: text, reason: text }
	);
	await storage.orders.putRevision(key, { ...order, revision: 2 }, actor, at);
	const acknowledgement = { number: null, orderNumber: null, orderRevision: 1, currency: null };
	await storage.acknowledgements.add(
		key,
		{
			acknowledgementId: 'answer',
			orderId: 'order',
			name: text,
			content: { ...acknowledgement, promised: '2027-02-20', whole: 'accepted', lines: [] },
			digest: 'digest'
		},
		actor,
		at
	);
	const decision = { decision: 'signedOff', reason: text } as const;
	await storage.acknowledgements.decide(
		key,
		{ orderId: 'order', difference: '1/price' },
		decision,
		actor,
		at
	);
	await storage.lineDecisions.put(
		key,
		{ deliveryId: 'truck', line: 7 },
		{ kind: 'notOurs', reason: text },
		actor,
		at
	);
	await storage.counts.add(
		key,
		{
			countId: 'count',
			deliveryId: 'truck',
			line: 7,
			crate: '3',
			description: text,
			amounts: { whole: '1', damaged: '0', wrong: '0' },
			note: text,
			photoIds: ['photo'],
			countedAt: moment
		},
		actor,
		at
	);
	// Every byte there is.
	const bytes = Uint8Array.from({ length: 256 }, (_, byte) => byte);
	await storage.photos.add(
		key,
		{ photoId: 'photo', mediaType: 'image/jpeg', bytes, digest: 'digest' },
		actor,
		at
	);
	await storage.measures.add(
		key,
		{
			measureId: 'measure',
			openingKey: 'c1.1',
			readings: { ...nothing, widths: { ...nothing.widths, bottom: 3_048_000_000 } },
			note: text,
			measuredAt: moment
		},
		actor,
		at
	);
}
