/** Orders and proposals as the pages show them. */
import type { OrderLineView, OrderSummary, ProposalView, Total } from '../../changes/orders.ts';
import { isCancelled } from '../../delivery/ordering/attributes.ts';
import type { OrderProposal } from '../../delivery/ordering/proposals.ts';
import type { Day, PurchaseLine } from '../../delivery/ordering/purchase-order.ts';
import { releaseHolds, type ReleaseFacts } from '../../delivery/ordering/release.ts';
import { cents, Money } from '../../quantity/money.ts';
import { seen, type OrderStanding } from './order-standing.ts';

export function lineView(line: PurchaseLine): OrderLineView {
	const { number, scope, kind, marks, title, item, size, length, width, hand, finish } = line;
	const { quantity, unit, unitPrice, needBy, orderBy, note, partIds } = line;
	return {
		...{ number, scope, kind, marks, title, item, size, length, width, hand, finish },
		...{ quantity, unit, unitPrice, needBy, orderBy, note },
		parts: partIds.length,
		amount: unitPrice === null ? null : cents(new Money(unitPrice).times(quantity)).toFixed(2),
		cancelled: isCancelled(line)
	};
}

/** Null as long as a line that stands has no price. */
export function totalOf(lines: readonly OrderLineView[]): Total {
	let total = new Money(0);
	for (const { amount, cancelled } of lines) {
		if (cancelled) continue;
		if (amount === null) return null;
		total = total.plus(amount);
	}
	return total.toFixed(2);
}

/** The earliest of some days; null where none is known. */
export const earliest = (days: readonly (Day | null)[]): Day | null =>
	days.filter((day) => day !== null).sort()[0] ?? null;

export const standingLines = (lines: readonly PurchaseLine[]): PurchaseLine[] =>
	lines.filter((line) => !isCancelled(line));

export function proposalView(
	proposal: OrderProposal,
	measured: Pick<ReleaseFacts, 'measures' | 'stops'>
): ProposalView {
	const { lines, ...rest } = proposal;
	const views = lines.map(lineView);
	const asOrder = { ...proposal, orderId: '', number: '', revision: 1 };
	return {
		...rest,
		lines: views,
		total: totalOf(views),
		orderBy: earliest(lines.map((line) => line.orderBy)),
		needBy: earliest(lines.map((line) => line.needBy)),
		holds: releaseHolds(asOrder, { ...measured, undecided: [], outOfStep: [] }),
		digest: seen(proposal)
	};
}

export function summaryOf({ stored, latest, state, open, outOfStep }: OrderStanding): OrderSummary {
	const { order } = latest;
	const lines = standingLines(order.lines);
	const first = stored.revisions.find(({ released }) => released !== null);
	return {
		orderId: stored.orderId,
		number: stored.number,
		supplierName: order.supplierName,
		phase: order.phase,
		release: order.release,
		revision: order.revision,
		state,
		lines: lines.length,
		needBy: earliest(lines.map((line) => line.needBy)),
		orderBy: earliest(lines.map((line) => line.orderBy)),
		releasedAt: first?.released?.at ?? null,
		open: open.length,
		outOfStep: outOfStep.length
	};
}
