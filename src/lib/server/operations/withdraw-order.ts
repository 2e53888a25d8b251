import { z } from 'zod';
import type { OrderChanged } from '../../changes/orders.ts';
import type { Actor } from '../identity/actor.ts';
import { changeOrder, meanwhile } from './change-order.ts';
import { bodyProblem } from './job-bodies.ts';
import { orderedParts } from './order-making.ts';
import { latestOf, sentOf } from './order-standing.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const body = z.strictObject({ version: z.string().min(1).max(64) });

/** Withdraws an order: its parts are to be ordered again. Of one that went out the supplier has to be told by a person. */
export async function withdrawOrder(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	request: unknown
): Promise<Outcome<OrderChanged>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { version } = parsed.data;
	return changeOrder(actor, services, jobId, { orderId, version }, async ({ stored, inside, key, at }) => {
		if (stored.withdrawn) return meanwhile(stored);
		await inside.orders.setWithdrawn(key, orderId, true, at);
		const before = sentOf(stored) ? 'sent' : 'written';
		return done({
			title: `Withdraw order ${stored.number}`,
			records: [{ field: 'State', before, after: 'withdrawn' }],
			value: { number: stored.number, revision: latestOf(stored).order.revision }
		});
	});
}

/** Puts a withdrawn order up again, unless its parts are on another one by now. */
export async function restoreOrder(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	request: unknown
): Promise<Outcome<OrderChanged>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { version } = parsed.data;
	return changeOrder(actor, services, jobId, { orderId, version }, async (found) => {
		const { stored, orders, inside, key, at } = found;
		if (!stored.withdrawn) return meanwhile(stored);
		const { order } = latestOf(stored);
		const elsewhere = orderedParts(orders);
		const taken = order.lines
			.flatMap(({ partIds }) => partIds)
			.map((part) => elsewhere.get(part))
			.find((number) => number !== undefined);
		if (taken !== undefined)
			return refuse(409, {
				message: `Order ${taken} has parts of order ${stored.number} by now. Withdraw that one first: nothing is ordered twice.`
			});
		await inside.orders.setWithdrawn(key, orderId, false, at);
		const after = sentOf(stored) ? 'sent' : 'written';
		return done({
			title: `Put order ${stored.number} up again`,
			records: [{ field: 'State', before: 'withdrawn', after }],
			value: { number: stored.number, revision: order.revision }
		});
	});
}
