/** What every part stands at: the comparison of the packing lists, with what is known of deliveries and orders. */
import { Decimal } from 'decimal.js';
import type { Part } from '../../takeoff/result.ts';
import type { Comparison } from '../comparison.ts';
import type { KeyQuantity } from './dealing.ts';
import type { OrderStanding, PartStanding } from './inputs.ts';

export interface DeliveryStanding {
	readonly deliveryId: string;
	/** ISO 8601, UTC; null where nobody wrote it down. */
	readonly receivedAt: string | null;
	/** Somebody said that all of it is counted. */
	readonly countFinished: boolean;
}

/**
 * @param parts the material list that was compared
 * @param deliveries one that is left out was received nobody knows when, and is not counted to its end
 * @param orders by part id; a part that is left out is not ordered. Null where orders were not looked at
 * @returns what `ReadinessInputs` wants of parts, and what came beyond the order, by interchange key
 */
export function standingsOf(
	parts: readonly Part[],
	comparison: Pick<Comparison, 'parts'>,
	deliveries: readonly DeliveryStanding[],
	orders: ReadonlyMap<string, OrderStanding> | null
): { parts: PartStanding[]; spare: KeyQuantity[] } {
	const compared = new Map(comparison.parts.map((one) => [one.partId, one]));
	const delivered = new Map(deliveries.map((one) => [one.deliveryId, one]));
	const spare: KeyQuantity[] = [];
	const standings = parts.map((part): PartStanding => {
		const found = compared.get(part.partId);
		if (found && new Decimal(found.over).gt(0))
			spare.push({ interchangeKey: part.interchangeKey, quantity: found.over });
		return {
			part,
			listed: found !== undefined && found.state !== 'notListed',
			arrivals: (found?.arrivals ?? []).map((arrival) => {
				const delivery = delivered.get(arrival.deliveryId);
				return {
					...arrival,
					counted: arrival.counted || (delivery?.countFinished ?? false),
					receivedAt: delivery?.receivedAt ?? null
				};
			}),
			order: orders === null ? null : (orders.get(part.partId) ?? { state: 'notOrdered' })
		};
	});
	return { parts: standings, spare };
}
