import type { CountsTaken } from '../../changes/site.ts';
import type { RecordChange } from '../../changes/history.ts';
import type { SentCount, SiteCount } from '../../delivery/count.ts';
import { countWords, readAmounts } from '../../delivery/counting/count-amounts.ts';
import { countedThings, keyOfCount } from '../../delivery/counting/counted-lines.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredDelivery } from '../storage/delivery.repository.ts';
import { changeRecords } from './change-records.ts';
import { countsBody } from './count-bodies.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome, type Refused } from './outcome.ts';
import type { Services } from './services.ts';

/** @param row id of the count it is about */
const refuseCount = (status: Refused['status'], row: string, message: string, field?: string): Refused =>
	refuse(status, { message, row, ...(field === undefined ? {} : { field }) });

/** What was counted, as a person calls it. */
function nameOf({ line, description }: SentCount, delivery: StoredDelivery): string {
	if (line === null) return `${delivery.name}, on no line: ${description}`;
	const listed = delivery.lines.find((one) => one.line === line);
	return `${delivery.name}, line ${line}${listed ? `: ${listed.description}` : ''}`;
}

/** The count in one spelling, held against the packing list it names. A list that is taken out keeps its counts. */
function checked(sent: SentCount, deliveries: ReadonlyMap<string, StoredDelivery>): Outcome<SentCount> {
	const { countId, deliveryId, line } = sent;
	const delivery = deliveries.get(deliveryId);
	if (!delivery)
		return refuseCount(
			404,
			countId,
			'This job has no such packing list. Nothing was stored of these counts.'
		);
	const listed = line === null ? null : delivery.lines.find((one) => one.line === line);
	if (listed === undefined)
		return refuseCount(
			422,
			countId,
			`${delivery.name} has no line ${line ?? ''}. Load the page again and count what it is now; nothing was stored.`
		);
	const read = readAmounts(sent.amounts, listed?.unit ?? null);
	if (!read.ok) return refuseCount(422, countId, `${read.reason} Nothing was stored.`, read.condition);
	const description = listed === null ? sent.description : '';
	return done({ ...sent, description, amounts: read.amounts });
}

/** What the history says of it: the count whose place it takes, and what it says. */
function recordOf(count: SiteCount, before: readonly SiteCount[], delivery: StoredDelivery): RecordChange {
	const record = { record: 'Count', name: nameOf(count, delivery) };
	const latest = countedThings(before).get(keyOfCount(count))?.latest ?? null;
	const stands = countedThings([...before, count]).get(keyOfCount(count))?.latest.countId === count.countId;
	return stands
		? { ...record, field: 'Counted', before: latest && countWords(latest), after: countWords(count) }
		: { ...record, field: 'Counted before that', before: null, after: countWords(count) };
}

/**
 * Takes counts from a phone: all of them, or none. What came before under its id is not taken again; the same id with
 * other content is refused, and what came first stays. Photos may arrive later.
 */
export async function sendCounts(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<CountsTaken>> {
	const parsed = countsBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	return changeRecords(actor, services, jobId, async (inside, key, at) => {
		const all = await inside.deliveries.all(key);
		const deliveries = new Map(all.map((delivery) => [delivery.deliveryId, delivery]));
		const before: SiteCount[] = await inside.counts.list(key);
		const taken: string[] = [];
		const known: string[] = [];
		const names = new Set<string>();
		const records: RecordChange[] = [];
		const sentNow = new Map<string, SentCount>();
		for (const sent of parsed.data.counts) {
			const outcome = checked(sent, deliveries);
			if (!outcome.ok) return outcome;
			const count = outcome.value;
			const delivery = deliveries.get(count.deliveryId);
			if (!delivery) continue;
			const earlier = sentNow.get(count.countId) ?? (await inside.counts.find(key, count.countId));
			if (earlier && JSON.stringify(earlier) !== JSON.stringify(count))
				return refuseCount(
					409,
					count.countId,
					`This count came before and said ${countWords(earlier)}. That stays; count ${nameOf(count, delivery)} again to change it.`
				);
			if (earlier) {
				known.push(count.countId);
				continue;
			}
			await inside.counts.add(key, count, actor, at);
			sentNow.set(count.countId, count);
			taken.push(count.countId);
			names.add(delivery.name);
			const ofTruck = before.filter(({ deliveryId }) => deliveryId === count.deliveryId);
			const withName: SiteCount = { ...count, by: actor.name };
			records.push(recordOf(withName, ofTruck, delivery));
			before.push(withName);
		}
		const title = `Count ${[...names].join(', ')}: ${taken.length} ${taken.length === 1 ? 'count' : 'counts'}`;
		return done({ kind: 'count' as const, title: title.slice(0, 300), records, value: { taken, known } });
	});
}
