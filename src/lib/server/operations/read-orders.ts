import type { OrdersAnswer } from '../../changes/orders.ts';
import { orderProposals } from '../../delivery/ordering/proposals.ts';
import type { Actor } from '../identity/actor.ts';
import { openItems } from './open-items.ts';
import { orderedParts, readOrderMaking } from './order-making.ts';
import { proposalView, summaryOf } from './order-views.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** The plan of a job, what of it is still to be ordered, its orders, and what is open about them. */
export async function readOrders(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<OrdersAnswer>> {
	const made = await readOrderMaking(actor, services, jobId);
	if (!made.ok) return made;
	const { buying, today, request, standings, measured } = made.value;
	const { proposals, notPlaced, notes } = orderProposals({
		...request,
		ordered: new Set(orderedParts(buying.orders).keys())
	});
	const views = proposals.map((proposal) => proposalView(proposal, measured));
	return done({
		today,
		suppliers: buying.suppliers.map(({ id, name }) => ({ id, name })),
		plans: buying.plans.map((plan) => ({
			...plan,
			phase: buying.phases.get(plan.openingId) ?? '',
			location: buying.locations.get(plan.openingId) ?? ''
		})),
		proposals: views,
		notPlaced: notPlaced.map(({ scope, text }) => ({ scope, text })),
		notes,
		orders: standings.map(summaryOf),
		open: openItems(views, standings, today)
	});
}
