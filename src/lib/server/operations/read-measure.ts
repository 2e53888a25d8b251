import type { MeasureSheet, OpeningName } from '../../changes/measures.ts';
import type { OrderLineOfPart } from '../../fieldwork/part-changes.ts';
import type { StoredOrder } from '../storage/order.repository.ts';
import type { Actor } from '../identity/actor.ts';
import { noSuchOpening } from './find-opening.ts';
import { keyOf } from './find-job.ts';
import { readBuying } from './job-buying.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { mayWithdraw } from './withdraw-measure.ts';

/** Lines of orders that stand, by the id of the part: of each order the latest revision, and whether it went out. */
export function orderLinesOf(orders: readonly StoredOrder[]): ReadonlyMap<string, OrderLineOfPart[]> {
	const lines = new Map<string, OrderLineOfPart[]>();
	for (const { number, withdrawn, revisions } of orders) {
		if (withdrawn) continue;
		const gone = new Set(
			revisions
				.filter(({ released }) => released !== null)
				.flatMap(({ order }) => order.lines.flatMap(({ partIds }) => [...partIds]))
		);
		for (const line of revisions.at(-1)?.order.lines ?? [])
			for (const partId of line.partIds) {
				const own = lines.get(partId) ?? [];
				own.push({ orderNumber: number, line: line.number, ordered: gone.has(partId) });
				lines.set(partId, own);
			}
	}
	return lines;
}

/** Everything that the verdict on one opening is worked out from, and its measures. */
export async function readMeasure(
	actor: Actor,
	services: Services,
	jobId: string,
	openingKey: string
): Promise<Outcome<MeasureSheet>> {
	const read = await readBuying(actor, services, jobId);
	if (!read.ok) return read;
	const { takeoff, openingKeys, parts, orders, measures } = read.value;
	const openingId = openingKeys.openings.get(openingKey);
	const opening = takeoff.openings.find(({ openingIds }) => openingIds.some((id) => id === openingId));
	if (openingId === undefined || !opening) return noSuchOpening;
	const all = [...openingKeys.keys].map(([id, key]): OpeningName => ({ openingId: id, openingKey: key }));
	const place = all.findIndex((one) => one.openingKey === openingKey);
	const own = parts.filter((part) => part.openingId === openingId);
	const lines = orderLinesOf(orders);
	const { mark } = opening;
	return done({
		openingKey,
		openingId,
		location: opening.location,
		phase: opening.phase,
		rows: mark === '' ? [opening.row] : await services.storage.openings.ofMarks(keyOf(actor, jobId), [mark]),
		parts: own,
		orderLines: own.flatMap(({ partId }) => {
			const found = lines.get(partId);
			return found ? [[partId, found] as const] : [];
		}),
		measures: measures
			.filter((measure) => measure.openingKey === openingKey)
			.map(({ measureId, readings, note, by, byId, measuredAt, receivedAt, withdrawn }) => ({
				measureId,
				readings,
				note,
				by,
				measuredAt,
				receivedAt,
				withdrawn,
				mayWithdraw: mayWithdraw(actor, { byId })
			})),
		previous: all[place - 1] ?? null,
		next: all[place + 1] ?? null
	});
}
