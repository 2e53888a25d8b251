import { z } from 'zod';
import type { OrderChanged } from '../../changes/orders.ts';
import { release } from '../../delivery/ordering/release.ts';
import type { Actor } from '../identity/actor.ts';
import { changeOrder, meanwhile, noSuchOrder } from './change-order.ts';
import { bodyProblem } from './job-bodies.ts';
import { readOrderMaking } from './order-making.ts';
import { calledOrder, holdsOf, latestOf } from './order-standing.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const body = z.strictObject({
	version: z.string().min(1).max(64),
	/** Why it goes out although something holds it. */
	reason: z.string().max(2000, 'A reason has at most 2,000 characters.').nullable()
});

/** How often it is looked again when others change the job at the same moment. */
const attempts = 4;

/**
 * Lets the latest revision of an order go: freely where nothing holds it, else for a reason that somebody answers for.
 * What holds it is looked at in the job as it is at that moment.
 */
export async function releaseOrder(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	request: unknown
): Promise<Outcome<OrderChanged>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { version, reason } = parsed.data;
	for (let attempt = 1; ; attempt++) {
		const made = await readOrderMaking(actor, services, jobId);
		if (!made.ok) return made;
		const { buying, standings, measured } = made.value;
		const standing = standings.find(({ stored }) => stored.orderId === orderId);
		if (!standing) return noSuchOrder;
		const holds = holdsOf(standing, measured);
		const others = { moved: false };
		const outcome = await changeOrder(actor, services, jobId, { orderId, version }, async (found) => {
			const { stored, inside, key, at } = found;
			const { order, released } = latestOf(stored);
			if (stored.withdrawn) return meanwhile(stored);
			const called = calledOrder(order);
			if (released)
				return refuse(409, {
					message: `Order ${called} went out already, released by ${released.by}. Nothing was done twice.`
				});
			// This transaction has counted one more.
			const revision = (await inside.jobs.find(key))?.revision ?? 0;
			if (revision !== buying.job.revision + 1) {
				others.moved = true;
				return refuse(409, {
					message: 'The job is being changed at this moment. Nothing was stored; release the order again.'
				});
			}
			const going = release(holds, { reason, by: actor.name, at: at.toISOString() });
			if (!going.ok) return refuse(422, { message: going.message, field: 'reason' });
			const went = { orderId, revision: order.revision };
			if (!(await inside.orders.release(key, went, going.released)))
				throw new Error(`order ${called} was looked at and can’t be released`);
			const held =
				holds.length === 0
					? 'released'
					: `released although ${holds.length === 1 ? 'one thing holds' : `${holds.length} things hold`} it; the reason is with the order`;
			return done({
				title: `Release order ${called}`,
				records: [{ field: `Revision ${order.revision}`, before: 'written', after: held }],
				value: { number: stored.number, revision: order.revision }
			});
		});
		if (!others.moved || attempt === attempts) return outcome;
	}
}
