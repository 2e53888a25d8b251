import { z } from 'zod';
import type { OrderChanged } from '../../changes/orders.ts';
import type { Actor } from '../identity/actor.ts';
import { changeOrder, meanwhile, noSuchOrder, toldChanges } from './change-order.ts';
import { bodyProblem } from './job-bodies.ts';
import { nextRevision } from './next-revision.ts';
import { readOrderMaking } from './order-making.ts';
import { latestOf } from './order-standing.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const body = z.strictObject({
	version: z.string().min(1).max(64),
	/** Of the changes that were shown. */
	digest: z.string().min(1).max(64)
});

/**
 * Writes the next revision of an order from the takeoff and the plan as they are now, with the changes the person saw.
 * It does not go out by that. What went out before stays as it was sent.
 */
export async function reviseJobOrder(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	request: unknown
): Promise<Outcome<OrderChanged>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { version, digest } = parsed.data;
	const made = await readOrderMaking(actor, services, jobId);
	if (!made.ok) return made;
	const standing = made.value.standings.find(({ stored }) => stored.orderId === orderId);
	if (!standing) return noSuchOrder;
	const next = nextRevision(standing, made.value);
	if (!next) return meanwhile(standing.stored);
	if (next.digest !== digest)
		return refuse(409, {
			message:
				'The takeoff or the plan changed since these changes were shown. Nothing was stored; look at them as they are now.'
		});
	const { order, changes } = next;
	return changeOrder(actor, services, jobId, { orderId, version }, async ({ stored, inside, key, at }) => {
		const { released } = latestOf(stored);
		await inside.orders.putRevision(key, order, actor, at);
		const told = toldChanges(changes);
		const started = { field: 'Revision', before: String(order.revision - 1), after: String(order.revision) };
		return done({
			title: `${released ? 'Write' : 'Write anew'} revision ${order.revision} of order ${stored.number}`,
			records: released || told.length === 0 ? [started, ...told] : told,
			value: { number: stored.number, revision: order.revision }
		});
	});
}

const dropBody = z.strictObject({ version: z.string().min(1).max(64) });

/** Takes back a revision that has not gone out: the one that did stands again. */
export async function dropRevision(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	request: unknown
): Promise<Outcome<OrderChanged>> {
	const parsed = dropBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { version } = parsed.data;
	return changeOrder(actor, services, jobId, { orderId, version }, async ({ stored, inside, key }) => {
		const { order, released } = latestOf(stored);
		const { revision } = order;
		if (released || revision === 1 || !(await inside.orders.dropRevision(key, { orderId, revision })))
			return refuse(409, {
				message: released
					? `Revision ${revision} of order ${stored.number} went out and stays. Write the next one, or withdraw the order.`
					: `Order ${stored.number} has no revision before this one. Withdraw the order instead.`
			});
		return done({
			title: `Take back revision ${revision} of order ${stored.number}`,
			records: [{ field: 'Revision', before: String(revision), after: String(revision - 1) }],
			value: { number: stored.number, revision: revision - 1 }
		});
	});
}
