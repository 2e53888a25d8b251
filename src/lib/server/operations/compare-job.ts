/** The packing lists of a job held against its material list, with everything that is known of both. */
import { compareDelivery } from '../../delivery/compare.ts';
import type { Comparison } from '../../delivery/comparison.ts';
import type { PlaceSizes } from '../../delivery/opening-sizes.ts';
import type { SentOrder } from '../../delivery/order-lines.ts';
import type { OpeningPlan } from '../../delivery/ordering/purchase-order.ts';
import type { JobTakeoff } from '../../takeoff/engine.ts';
import type { Part } from '../../takeoff/result.ts';
import { stopsOf } from '../../takeoff/stops.ts';
import { lengthStyleOf } from '../../takeoff/inputs.ts';
import type { JobBuying } from './job-buying.ts';
import { sentOf } from './order-standing.ts';

/** Days of the calendar compare as text; an opening without one comes after all that have one. */
const never = '9999-12-31';

/** Openings in the order they are wanted: by their start, then by release, then as they stand in the sheet. */
export const inWantedOrder = (plans: readonly OpeningPlan[]): OpeningPlan[] =>
	plans.toSorted((a, b) => {
		const [first, second] = [a.startsOn ?? never, b.startsOn ?? never];
		return first === second ? a.release - b.release : first < second ? -1 : 1;
	});

/** The material list in the order the openings are wanted. */
export function wantedParts({ parts, plans }: Pick<JobBuying, 'parts' | 'plans'>): Part[] {
	const places = new Map(inWantedOrder(plans).map(({ openingId }, place) => [openingId, place]));
	const last = places.size;
	return parts.toSorted((a, b) => (places.get(a.openingId) ?? last) - (places.get(b.openingId) ?? last));
}

const lengthOf = (value: number | string | null): number | null =>
	typeof value === 'number' ? Math.round(value) : null;

/** Sizes by mark, and by opening where one differs. With its guides an opening is as wide as its brackets stand apart. */
const sizesOf = ({ openings }: JobTakeoff): PlaceSizes[] =>
	openings.map((opening) => ({
		name: opening.openingId ?? opening.mark,
		openingWidth: lengthOf(opening.get('openingWidth')),
		openingHeight: lengthOf(opening.get('openingHeight')),
		overallWidth: lengthOf(opening.get('bracketDistance'))
	}));

/** Orders that went out and stand, each as it was sent last. */
export const sentOrders = ({ orders }: Pick<JobBuying, 'orders'>): SentOrder[] =>
	orders.flatMap((stored): SentOrder[] => {
		const sent = stored.withdrawn ? null : sentOf(stored);
		if (!sent) return [];
		const { number, revision, lines } = sent.order;
		return [{ orderNumber: number, revision, lines }];
	});

export function comparisonOf(buying: JobBuying): Comparison {
	const { job, takeoff, issued, suppliers, aliases, deliveries, lineDecisions, counts, orders } = buying;
	const bySupplier = new Map(suppliers.map((supplier) => [supplier.id, supplier]));
	const lists = deliveries.map((delivery) => {
		const supplier = delivery.supplierId === null ? undefined : bySupplier.get(delivery.supplierId);
		return {
			...delivery,
			handsFrom: supplier?.handsFrom ?? null,
			sizes: supplier?.sizes ?? null
		};
	});
	return compareDelivery(wantedParts(buying), lists, {
		lengthStyle: lengthStyleOf(job.measures),
		stopped: stopsOf(takeoff),
		orders: sentOrders(buying),
		decisions: lineDecisions,
		aliases: aliases.filter(({ withdrawn }) => !withdrawn),
		counts,
		retired: issued.filter(({ retired }) => retired).map(({ part }) => part),
		placesSizes: sizesOf(takeoff),
		jobNames: [job.name],
		orderNumbers: orders.map(({ number }) => number)
	});
}
