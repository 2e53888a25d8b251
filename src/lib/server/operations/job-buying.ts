/** Everything that is known of a job beside its sheet: what is wanted when, bought, answered, delivered, counted, measured. */
import type { Supplier, OpeningPlan } from '../../delivery/ordering/purchase-order.ts';
import type { SiteCount } from '../../delivery/count.ts';
import type { DecidedLine } from '../../delivery/line-decision.ts';
import type { FieldMeasure } from '../../fieldwork/field-measure.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredAcknowledgement, StoredDecision } from '../storage/acknowledgement.repository.ts';
import type { StoredDelivery } from '../storage/delivery.repository.ts';
import type { StoredMeasure } from '../storage/measure.repository.ts';
import type { StoredOrder } from '../storage/order.repository.ts';
import type { IssuedPart } from '../storage/part.repository.ts';
import type { StoredAlias } from '../storage/supplier.repository.ts';
import { keyOf } from './find-job.ts';
import { issueParts, type IssuedTakeoff } from './issue-parts.ts';
import { openingKeysOf, type OpeningKeys } from './opening-keys.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

export interface JobBuying extends IssuedTakeoff {
	readonly openingKeys: OpeningKeys;
	/** All parts ever issued, those replaced and needed no more too. */
	readonly issued: readonly IssuedPart[];
	readonly suppliers: readonly Supplier[];
	readonly aliases: readonly StoredAlias[];
	/** Every opening of the takeoff in the stored order; one that nobody planned has no start, release 1, bought by parts. */
	readonly plans: readonly OpeningPlan[];
	/** Phase of the sheet by opening; blank where it has none. */
	readonly phases: ReadonlyMap<string, string>;
	/** Place in the building by opening; blank where it has none. */
	readonly locations: ReadonlyMap<string, string>;
	readonly orders: readonly StoredOrder[];
	readonly acknowledgements: readonly StoredAcknowledgement[];
	readonly differenceDecisions: readonly StoredDecision[];
	/** Packing lists that are in, the first received first. */
	readonly deliveries: readonly (StoredDelivery & { readonly receivedAt: string })[];
	/** The same, with those that were taken out. */
	readonly everyDelivery: readonly (StoredDelivery & {
		readonly receivedAt: string;
		readonly removed: boolean;
	})[];
	readonly lineDecisions: readonly DecidedLine[];
	readonly counts: readonly (SiteCount & { readonly receivedAt: string })[];
	/** All measures of openings that are there, those withdrawn too, the first measured first. */
	readonly measures: readonly (StoredMeasure & { readonly openingId: string })[];
}

/** The measure that counts, by opening. */
export function measuresThatCount(measures: JobBuying['measures']): ReadonlyMap<string, FieldMeasure> {
	return new Map(
		measures.flatMap((measure) => (measure.withdrawn ? [] : [[measure.openingId, measure] as const]))
	);
}

/** What a row says, for each opening it stands for. */
const byOpening = (
	openings: readonly OpeningTakeoff[],
	said: (opening: OpeningTakeoff) => string
): ReadonlyMap<string, string> =>
	new Map(openings.flatMap((opening) => opening.openingIds.map((id) => [id, said(opening)] as const)));

/** Takes the job off, issues its parts, and reads the rest. */
export async function readBuying(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<JobBuying>> {
	const issued = await issueParts(actor, services, jobId);
	if (!issued.ok) return issued;
	const { takeoff } = issued.value;
	const key = keyOf(actor, jobId);
	const { storage } = services;
	const openingKeys = openingKeysOf(takeoff);
	const stored = new Map((await storage.plans.list(key)).map((plan) => [plan.openingKey, plan]));
	const plans = [...openingKeys.keys].map(([openingId, openingKey]): OpeningPlan => {
		const plan = stored.get(openingKey);
		return {
			openingId,
			startsOn: plan?.startsOn ?? null,
			release: plan?.release ?? 1,
			boughtAs: plan?.boughtAs ?? 'parts'
		};
	});
	const measures = (await storage.measures.list(key)).flatMap((measure) => {
		const openingId = openingKeys.openings.get(measure.openingKey);
		return openingId === undefined ? [] : [{ ...measure, openingId }];
	});
	const everyDelivery = await storage.deliveries.all(key);
	return done({
		...issued.value,
		openingKeys,
		issued: await storage.parts.issued(key),
		suppliers: await storage.suppliers.list(actor.companyId),
		aliases: await storage.suppliers.aliases(actor.companyId),
		plans,
		phases: byOpening(takeoff.openings, ({ phase }) => phase),
		locations: byOpening(takeoff.openings, ({ location }) => location),
		orders: await storage.orders.all(key),
		acknowledgements: await storage.acknowledgements.all(key),
		differenceDecisions: await storage.acknowledgements.decisions(key),
		deliveries: everyDelivery.filter(({ removed }) => !removed),
		everyDelivery,
		lineDecisions: await storage.lineDecisions.list(key),
		counts: await storage.counts.list(key),
		measures
	});
}
