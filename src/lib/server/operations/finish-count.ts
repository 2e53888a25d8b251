import type { CountFinished } from '../../changes/site.ts';
import { countedThings, uncountedLines } from '../../delivery/counting/counted-lines.ts';
import type { Actor } from '../identity/actor.ts';
import { noSuchDelivery } from './change-deliveries.ts';
import { changeRecords } from './change-records.ts';
import { finishBody } from './count-bodies.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/**
 * Says that a truck is counted, or that its count is open again. A truck is counted when every line that should be on it
 * is: what did not come is counted as 0, so that nobody has to guess.
 */
export async function finishCount(
	actor: Actor,
	services: Services,
	jobId: string,
	deliveryId: string,
	request: unknown
): Promise<Outcome<CountFinished>> {
	const parsed = finishBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { finished, at } = parsed.data;
	return changeRecords(actor, services, jobId, async (inside, key) => {
		const delivery = (await inside.deliveries.all(key)).find((one) => one.deliveryId === deliveryId);
		if (!delivery) return noSuchDelivery;
		const { name, lines, counted } = delivery;
		const counts = (await inside.counts.list(key)).filter((count) => count.deliveryId === deliveryId);
		const open = finished ? uncountedLines(lines, countedThings(counts)).map(({ line }) => line) : [];
		if (open.length > 0)
			return refuse(422, {
				message: `${open.length === 1 ? 'Line' : 'Lines'} ${open.slice(0, 10).join(', ')}${open.length > 10 ? ' …' : ''} of ${name} ${open.length === 1 ? 'is' : 'are'} not counted. Count ${open.length === 1 ? 'it' : 'them'} first; what did not come is 0.`
			});
		const title = finished ? `${name} is counted` : `Open the count of ${name} again`;
		if (finished === (counted !== null))
			return done({ kind: 'count' as const, title, records: [], value: { finished: counted } });
		const next = finished ? { by: actor.name, at } : null;
		await inside.deliveries.change(key, deliveryId, { counted: next });
		const record = {
			record: 'Count',
			name,
			field: 'State',
			before: finished ? 'open' : `counted by ${counted?.by ?? ''}`,
			after: finished ? `counted by ${actor.name}` : 'open'
		};
		return done({ kind: 'count' as const, title, records: [record], value: { finished: next } });
	});
}
