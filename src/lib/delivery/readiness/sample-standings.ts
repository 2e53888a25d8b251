/** What is here of what, for tests. Invented. */
import { part } from '../sample-parts.ts';
import type { Arrival, OrderStanding, PartStanding } from './inputs.ts';

/** What a truck brought; the first truck, whole, counted on the third day unless said otherwise. */
export function arrival(
	amounts: Partial<Arrival['amounts']>,
	more: Partial<Omit<Arrival, 'amounts'>> = {}
): Arrival {
	return {
		deliveryId: 'truck-1',
		name: 'Truck 1',
		receivedAt: '2026-11-03T09:00:00Z',
		counted: true,
		wrongIn: [],
		lines: [7],
		...more,
		amounts: { whole: '0', damaged: '0', wrong: '0', missing: '0', backordered: '0', ...amounts }
	};
}

const acknowledged: OrderStanding = {
	state: 'acknowledged',
	orderNumber: '1042-03',
	supplier: 'Northreach Shutter Works',
	answeredAt: '2026-10-12T08:00:00Z',
	promised: '2026-12-01'
};

/** A left guide of an opening. All are alike. */
export function guide(
	openingId: string,
	arrivals: readonly Arrival[],
	order: OrderStanding | null = acknowledged
): PartStanding {
	return {
		part: part({
			openingId,
			kind: 'guide',
			title: 'Guide, left',
			side: 'left',
			hand: 'left',
			task: 'guides'
		}),
		listed: arrivals.length > 0,
		arrivals,
		order
	};
}

/** The barrel of an opening. All are alike. */
export function barrel(
	openingId: string,
	arrivals: readonly Arrival[],
	order: OrderStanding | null = acknowledged
): PartStanding {
	return {
		part: part({ openingId, kind: 'barrel', title: 'Barrel', task: 'coil' }),
		listed: arrivals.length > 0,
		arrivals,
		order
	};
}
