/** What the next revision of an order would be. */
import { isCancelled } from '../../delivery/ordering/attributes.ts';
import { orderChanges, type OrderChange } from '../../delivery/ordering/order-changes.ts';
import type { PurchaseLine, PurchaseOrder } from '../../delivery/ordering/purchase-order.ts';
import { reviseOrder } from '../../delivery/ordering/revise-order.ts';
import { orderedParts, type OrderMaking } from './order-making.ts';
import { seen, type OrderStanding } from './order-standing.ts';

export interface NextRevision {
	readonly order: PurchaseOrder;
	/** Against the revision that stands now. */
	readonly changes: readonly OrderChange[];
	readonly digest: string;
}

/** A day that somebody typed stays where the plan says none. */
function keepDays(line: PurchaseLine, last: ReadonlyMap<number, PurchaseLine>): PurchaseLine {
	const before = last.get(line.number);
	if (!before || line.needBy !== null || isCancelled(line) || isCancelled(before)) return line;
	return { ...line, needBy: before.needBy, orderBy: before.orderBy };
}

/**
 * A revision that went out is followed by the next one; one that did not is written anew under its own number, and a line
 * that never went out is dropped rather than cancelled. Null where the order is withdrawn or its supplier is unknown.
 */
export function nextRevision(
	{ stored, latest, sent, supplier }: OrderStanding,
	{ buying, request, suppliers }: OrderMaking
): NextRevision | null {
	if (stored.withdrawn || !supplier) return null;
	const { order, released } = latest;
	const others = buying.orders.filter(({ orderId }) => orderId !== stored.orderId);
	const known = request.suppliers.some(({ id }) => id === stored.supplierId)
		? request.suppliers
		: [...request.suppliers, suppliers.get(stored.supplierId) ?? supplier];
	const revised = reviseOrder(released ? order : { ...order, revision: order.revision - 1 }, {
		...request,
		suppliers: known,
		elsewhere: new Set(orderedParts(others).keys())
	});
	const last = new Map(order.lines.map((line) => [line.number, line]));
	const went = new Set(sent?.order.lines.map(({ number }) => number));
	const next = {
		...revised,
		lines: revised.lines
			.filter((line) => !isCancelled(line) || went.has(line.number))
			.map((line) => keepDays(line, last))
	};
	const changes = orderChanges(order, next, request.style);
	return { order: next, changes, digest: seen({ next, changes }) };
}
