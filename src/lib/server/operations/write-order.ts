import { z } from 'zod';
import type { OrderWritten } from '../../changes/orders.ts';
import { orderProposals } from '../../delivery/ordering/proposals.ts';
import type { Actor } from '../identity/actor.ts';
import { changeRecords } from './change-records.ts';
import { bodyProblem } from './job-bodies.ts';
import { lotText } from './open-items.ts';
import { orderedParts, readOrderMaking } from './order-making.ts';
import { nextOrderNumber } from './order-numbers.ts';
import { seen } from './order-standing.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { counted } from '../../quantity/counted.ts';

const body = z.strictObject({
	supplierId: z.string().min(1).max(200),
	phase: z.string().max(10_000),
	release: z.number().int().min(1).max(99),
	/** Of what was shown. */
	digest: z.string().min(1).max(64)
});

/**
 * Writes what is to be ordered of a supplier for a phase and release as an order, in its first revision. It does not go
 * out by that. Refused when it is not what the person saw any more, or its parts are on an order by now.
 */
export async function writeOrder(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<OrderWritten>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { supplierId, phase, release, digest } = parsed.data;
	const made = await readOrderMaking(actor, services, jobId);
	if (!made.ok) return made;
	const { buying, request: making } = made.value;
	const { proposals } = orderProposals({
		...making,
		ordered: new Set(orderedParts(buying.orders).keys())
	});
	const proposal = proposals.find(
		(one) => one.supplierId === supplierId && one.phase === phase && one.release === release
	);
	if (!proposal)
		return refuse(409, {
			message:
				'Nothing is left to order of this: somebody may have written it, or the plan changed. Nothing was stored; look at the list as it is now.'
		});
	if (seen(proposal) !== digest)
		return refuse(409, {
			message:
				'The takeoff, the plan, a price or the supplier changed since this list was shown. Nothing was stored; look at its lines as they are now, then write the order.'
		});
	const parts = proposal.lines.flatMap(({ partIds }) => partIds);
	return changeRecords(actor, services, jobId, async (inside, key, at) => {
		const orders = await inside.orders.all(key);
		const ordered = orderedParts(orders);
		const taken = parts.map((part) => ordered.get(part)).find((number) => number !== undefined);
		if (taken !== undefined)
			return refuse(409, {
				message: `Order ${taken}, written meanwhile, has parts of this already. Nothing was stored: nothing is ordered twice.`
			});
		const orderId = services.newId();
		const number = await nextOrderNumber(inside, key, orders);
		await inside.orders.add(key, { ...proposal, orderId, number, revision: 1 }, actor, at);
		const record = { record: 'Order', id: orderId, name: number };
		return done({
			kind: 'order' as const,
			title: `Write order ${number} to ${proposal.supplierName}`,
			records: [
				{
					...record,
					field: 'Phase and release',
					before: null,
					after: lotText(proposal)
				},
				{ ...record, field: 'Lines', before: null, after: counted(proposal.lines.length, 'line') }
			],
			value: { orderId, number }
		});
	});
}
