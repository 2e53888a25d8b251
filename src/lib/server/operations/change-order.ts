/** Changes of one order: inside the transaction the order is what the person saw, or nothing is stored. */
import type { RecordChange } from '../../changes/history.ts';
import { attributeTitles, type OrderChange } from '../../delivery/ordering/order-changes.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobKey } from '../storage/keys.ts';
import type { StoredOrder } from '../storage/order.repository.ts';
import type { Repositories } from '../storage/storage.ts';
import { changeRecords } from './change-records.ts';
import { latestOf, versionOf } from './order-standing.ts';
import { done, refuse, type Outcome, type Refused } from './outcome.ts';
import type { Services } from './services.ts';

export const noSuchOrder = refuse(404, {
	message: 'This job has no such order. The list of its orders shows those that are there.'
});

/** What has become of an order, for somebody who saw another state of it. */
export function meanwhile(stored: StoredOrder): Refused {
	const { order, madeBy, released } = latestOf(stored);
	const now = stored.withdrawn
		? 'it is withdrawn'
		: released
			? `revision ${order.revision} went out, released by ${released.by}`
			: `revision ${order.revision} stands as ${madeBy} wrote it`;
	return refuse(409, {
		message: `Order ${stored.number} was changed meanwhile: ${now}. Nothing was stored; look at it as it is now, then repeat it.`
	});
}

export interface OrderInside {
	readonly stored: StoredOrder;
	/** All of the job. */
	readonly orders: readonly StoredOrder[];
	readonly inside: Repositories;
	readonly key: JobKey;
	readonly at: Date;
}

/** What the history tells of a change; `records` without the order itself. */
export interface ToldChange<T> {
	readonly title: string;
	readonly records: readonly Pick<RecordChange, 'field' | 'before' | 'after'>[];
	readonly value: T;
}

/**
 * @param asked the order, and what was seen of it; null where the change itself compares what it relies on
 * @param change inside the transaction. With no records nothing was changed.
 */
export const changeOrder = <T>(
	actor: Actor,
	services: Services,
	jobId: string,
	asked: { readonly orderId: string; readonly version: string | null },
	change: (found: OrderInside) => Promise<Outcome<ToldChange<T>>>
): Promise<Outcome<T>> =>
	changeRecords(actor, services, jobId, async (inside, key, at) => {
		const orders = await inside.orders.all(key);
		const stored = orders.find(({ orderId }) => orderId === asked.orderId);
		if (!stored) return noSuchOrder;
		if (asked.version !== null && versionOf(stored) !== asked.version) return meanwhile(stored);
		const changed = await change({ stored, orders, inside, key, at });
		if (!changed.ok) return changed;
		const { title, records, value } = changed.value;
		const record = { record: 'Order', id: stored.orderId, name: stored.number };
		return done({
			kind: 'order' as const,
			title,
			records: records.map((one) => ({ ...record, ...one })),
			value
		});
	});

/** Changes told one by one in the history; more are counted. */
const mostTold = 200;

const wordsOf = { ...attributeTitles, line: 'in the order', price: 'price' };

/**
 * What changed in an order as its history tells it: everybody on the job reads that, so of prices and of notes, which
 * may name one, it says only that they changed.
 */
export function toldChanges(changes: readonly OrderChange[]): ToldChange<null>['records'] {
	const told = changes.slice(0, mostTold).map(({ line, attribute, before, after, aboutMoney }) => {
		const field = `${line === null ? 'Order' : `Line ${line}`}, ${wordsOf[attribute]}`;
		return aboutMoney || attribute === 'note'
			? { field, before: null, after: 'changed' }
			: { field, before, after };
	});
	const more = changes.length - told.length;
	return more === 0 ? told : [...told, { field: 'More', before: null, after: `${more} changes` }];
}
