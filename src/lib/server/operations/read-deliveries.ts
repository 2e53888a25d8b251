import { Decimal } from 'decimal.js';
import type { DeliveriesAnswer, DeliveryPart } from '../../changes/deliveries.ts';
import type { Comparison } from '../../delivery/comparison.ts';
import { formatLength } from '../../quantity/length.ts';
import type { Actor } from '../identity/actor.ts';
import { lengthStyleOf } from '../../takeoff/inputs.ts';
import { comparisonOf, sentOrders } from './compare-job.ts';
import { readBuying, type JobBuying } from './job-buying.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** The material list with what is still to come of each part. */
function partsOf(buying: JobBuying, { parts }: Comparison): DeliveryPart[] {
	const style = lengthStyleOf(buying.job.measures);
	const byId = new Map(buying.parts.map((part) => [part.partId, part]));
	const orderLines = new Map(
		sentOrders(buying).flatMap(({ orderNumber, lines }) =>
			lines.flatMap(({ number, partIds }) =>
				partIds.map((id) => [id, `${orderNumber}, line ${number}`] as const)
			)
		)
	);
	return parts.flatMap(({ partId, ordered, received }) => {
		const part = byId.get(partId);
		if (!part) return [];
		const { openingId, mark, kind, item, title, hand, unit, supply, size, length, width } = part;
		const lengths = [length, width].flatMap((one) => (one === null ? [] : [formatLength(one, style)]));
		const toCome = Decimal.max(new Decimal(ordered).minus(received), 0);
		return [
			{
				...{ partId, openingId, mark, kind, item, title, hand, unit, supply, ordered },
				measures: [...(size === '' ? [] : [size]), ...lengths].join(', '),
				toCome: toCome.toFixed(),
				alike: `${mark}\n${part.interchangeKey}`,
				orderLine: orderLines.get(partId) ?? null
			}
		];
	});
}

/** The packing lists of a job, held against its material list as it is now. */
export async function readDeliveries(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<DeliveriesAnswer>> {
	const read = await readBuying(actor, services, jobId);
	if (!read.ok) return read;
	const buying = read.value;
	const comparison = comparisonOf(buying);
	const { lines } = comparison;
	const said = new Map(comparison.lists.map((list) => [list.deliveryId, list]));
	return done({
		deliveries: buying.everyDelivery.map((one) => {
			const { deliveryId: id, name, receivedAt, removed, supplierId, facts, answers, counted } = one;
			const list = said.get(id);
			return {
				...{ id, name, lines: one.lines.length, receivedAt, removed, supplierId, facts, answers, counted },
				question: list?.question ?? null,
				notes: list?.notes ?? [],
				asked: lines.filter(({ deliveryId, asked }) => deliveryId === id && asked).length
			};
		}),
		comparison: buying.deliveries.length === 0 ? null : { lines },
		parts: partsOf(buying, comparison),
		suppliers: buying.suppliers.map(({ id, name }) => ({ id, name }))
	});
}
