/** What orders of a job are made from and held against: the takeoff as it is now, with its prices, sizes and holds. */
import { stockBoxes } from '../../delivery/ordering/full-boxes.ts';
import { predecessorsOf, type Predecessors } from '../../delivery/ordering/lineage.ts';
import type { ProposalRequest } from '../../delivery/ordering/proposals.ts';
import { partPrices } from '../../delivery/ordering/part-prices.ts';
import type { Day, Supplier } from '../../delivery/ordering/purchase-order.ts';
import type { ReleaseFacts } from '../../delivery/ordering/release.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import { stopsOf } from '../../takeoff/stops.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredOrder } from '../storage/order.repository.ts';
import { lengthStyleOf } from '../../takeoff/inputs.ts';
import { readBuying, type JobBuying } from './job-buying.ts';
import { verdictsOf } from './measure-verdicts.ts';
import { standingOrder, type OrderStanding } from './order-standing.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

export interface OrderMaking {
	readonly buying: JobBuying;
	readonly today: Day;
	readonly request: Omit<ProposalRequest, 'ordered'>;
	/** Every order as it stands, those withdrawn too. */
	readonly standings: readonly OrderStanding[];
	/** By id, those that orders name and that are taken out since too. */
	readonly suppliers: ReadonlyMap<string, Supplier>;
	readonly measured: Pick<ReleaseFacts, 'measures' | 'stops'>;
}

const two = (value: number): string => String(value).padStart(2, '0');

/** The day it is where the server is. */
export const dayOf = (moment: Date): Day =>
	`${String(moment.getFullYear()).padStart(4, '0')}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;

/** Parts that are on orders which stand, with the number of the order. */
export const orderedParts = (orders: readonly StoredOrder[]): ReadonlyMap<string, string> =>
	new Map(
		orders
			.filter(({ withdrawn }) => !withdrawn)
			.flatMap(({ number, revisions }) =>
				(revisions.at(-1)?.order.lines ?? []).flatMap(({ partIds }) =>
					partIds.map((partId) => [partId, number] as const)
				)
			)
	);

/** Suppliers by id: those of now, and those that orders name. */
export async function suppliersOf(
	{ companyId }: Actor,
	{ storage }: Services,
	{ orders, suppliers }: Pick<JobBuying, 'orders' | 'suppliers'>
): Promise<ReadonlyMap<string, Supplier>> {
	const known = new Map(suppliers.map((one) => [one.id, one]));
	for (const { supplierId } of orders) {
		if (known.has(supplierId)) continue;
		const supplier = await storage.suppliers.find(companyId, supplierId);
		// One that is taken out gets nothing new.
		if (supplier) known.set(supplierId, { ...supplier, scopes: [] });
	}
	return known;
}

/** Finished sizes by opening, of those that have both. */
function openingSizesOf(openings: readonly OpeningTakeoff[]): ProposalRequest['openingSizes'] {
	return new Map(
		openings.flatMap((opening) => {
			const width = opening.get('openingWidth');
			const height = opening.get('openingHeight');
			if (typeof width !== 'number' || typeof height !== 'number') return [];
			return opening.openingIds.map((openingId) => [openingId, { width, height }] as const);
		})
	);
}

/** Every order of a job as it stands, those withdrawn too. */
export function orderStandings(
	buying: JobBuying,
	suppliers: ReadonlyMap<string, Supplier>,
	predecessors: Predecessors,
	today: Day
): OrderStanding[] {
	const { orders, acknowledgements, differenceDecisions: decisions, parts, job } = buying;
	const facts = { acknowledgements, decisions, today, style: lengthStyleOf(job.measures) };
	return orders.map((stored) =>
		standingOrder(stored, suppliers.get(stored.supplierId) ?? null, {
			...facts,
			now: { parts, predecessors }
		})
	);
}

export async function readOrderMaking(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<OrderMaking>> {
	const read = await readBuying(actor, services, jobId);
	if (!read.ok) return read;
	const buying = read.value;
	const { job, engine, takeoff, parts } = buying;
	const { prices } = await services.engines.pricing(actor.companyId, job.technicalDigest, job.priceDigest);
	const today = dayOf(services.now());
	const suppliers = await suppliersOf(actor, services, buying);
	const predecessors = predecessorsOf(buying.issued.map(({ part }) => part));
	const style = lengthStyleOf(job.measures);
	return done({
		buying,
		today,
		suppliers,
		request: {
			parts,
			phases: buying.phases,
			suppliers: buying.suppliers,
			plans: new Map(buying.plans.map((plan) => [plan.openingId, plan])),
			prices: partPrices(engine.book, prices, takeoff, parts),
			boxes: stockBoxes(engine.book),
			openingSizes: openingSizesOf(takeoff.openings),
			predecessors,
			style,
			currency: prices.currency
		},
		standings: orderStandings(buying, suppliers, predecessors, today),
		measured: {
			measures: verdictsOf(buying),
			stops: new Map(stopsOf(takeoff).map(({ openingId, stops }) => [openingId, stops]))
		}
	});
}
