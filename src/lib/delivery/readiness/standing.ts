/** What is here for a part, and why the rest of it is not. */
import { Decimal } from 'decimal.js';
import type { Attribute } from '../comparison.ts';
import { amountOf } from '../wanted.ts';
import type { Arrival, Holder, OrderStanding, PartStanding, ReadinessInputs } from './inputs.ts';

/** Why pieces are not here. */
export type PartReason =
	| 'notCounted'
	| 'damaged'
	| 'wrong'
	| 'missing'
	| 'backordered'
	| 'notOrdered'
	| 'ordered'
	| 'acknowledged'
	| 'refused'
	| 'notListed';

/** Some pieces that are not here for one reason. */
export interface ShortPieces {
	readonly reason: PartReason;
	readonly amount: Decimal;
	/** `damaged`; `wrong length`; `promised for 2026-12-01`. */
	readonly words: string;
	/** `Truck 1, line 7`; `order 1042-03`; empty where there is none. */
	readonly where: string;
	readonly who: Holder;
	readonly since: string | null;
}

export type Counted = NonNullable<ReadinessInputs['counted']>;

const zero = new Decimal(0);

/** The shop's own stock holds nothing up unless a packing list names it. */
export const holdsUp = ({ part, listed }: PartStanding): boolean => part.supply === 'maker' || listed;

/** Pieces of an arrival that are taken to be here. */
const takenAsHere = ({ counted, amounts }: Arrival, by: Counted): Decimal =>
	counted || by === 'whereCounted' ? amountOf(amounts.whole, 'whole') : zero;

/** Whole and right, never more than needed. */
export function hereOf({ part, arrivals }: PartStanding, by: Counted): Decimal {
	const here = arrivals.reduce((sum, arrival) => sum.plus(takenAsHere(arrival, by)), zero);
	return Decimal.min(here, amountOf(part.quantity, part.partId));
}

function placeOf({ name, lines }: Arrival): string {
	if (lines.length === 0) return name;
	return `${name}, ${lines.length === 1 ? 'line' : 'lines'} ${lines.join(', ')}`;
}

const wrongWords = (wrongIn: readonly Attribute[]): string => ['wrong', wrongIn.join(', ')].join(' ').trim();

const supplierOf = (order: OrderStanding | null): Holder =>
	order === null || order.state === 'notOrdered' ? 'purchasing' : { supplier: order.supplier };

/** What an arrival says of pieces that cannot be used, the nearest to being used first. */
function unusable(arrival: Arrival, order: OrderStanding | null, by: Counted): ShortPieces[] {
	const { amounts, counted, receivedAt, wrongIn } = arrival;
	const pieces = (
		reason: PartReason,
		amount: string,
		words: string,
		who: Holder,
		since = receivedAt
	): ShortPieces => ({
		reason,
		amount: amountOf(amount, reason),
		words,
		where: placeOf(arrival),
		who,
		since
	});
	return [
		...(counted || by === 'whereCounted'
			? []
			: [pieces('notCounted', amounts.whole, 'listed, not counted yet', 'installer')]),
		pieces('damaged', amounts.damaged, 'damaged', 'purchasing'),
		pieces('wrong', amounts.wrong, wrongWords(wrongIn), 'purchasing'),
		pieces('missing', amounts.missing, 'missing', 'purchasing'),
		pieces('backordered', amounts.backordered, 'backordered', supplierOf(order))
	];
}

/** Why pieces that no arrival speaks of are not here. */
function notArrived(order: OrderStanding | null, listed: boolean, amount: Decimal): ShortPieces {
	const pieces = (
		reason: PartReason,
		words: string,
		where: string,
		who: Holder,
		since: string | null
	): ShortPieces => ({ reason, amount, words, where, who, since });
	if (order === null)
		return listed
			? pieces('missing', 'not on the packing lists so far', '', 'purchasing', null)
			: pieces('notListed', 'on no packing list', '', 'purchasing', null);
	if (order.state === 'notOrdered') return pieces('notOrdered', 'not ordered', '', 'purchasing', null);
	const where = `order ${order.orderNumber}`;
	const supplier = { supplier: order.supplier };
	if (order.state === 'ordered')
		return pieces('ordered', 'ordered, not acknowledged', where, supplier, order.sentAt);
	if (order.state === 'refused')
		return pieces('refused', 'refused by the supplier', where, 'purchasing', order.answeredAt);
	const words = order.promised === null ? 'acknowledged without a day' : `promised for ${order.promised}`;
	return pieces('acknowledged', words, where, supplier, order.answeredAt);
}

/** Why pieces of what came for a part, or was to come, are not here; adds up to what is needed less what is here. */
export function shortPieces(standing: PartStanding, by: Counted): ShortPieces[] {
	const { part, arrivals, listed, order } = standing;
	let short = amountOf(part.quantity, part.partId).minus(hereOf(standing, by));
	const found: ShortPieces[] = [];
	for (const pieces of arrivals.flatMap((arrival) => unusable(arrival, order, by))) {
		const amount = Decimal.min(short, pieces.amount);
		if (amount.lte(0)) continue;
		found.push({ ...pieces, amount });
		short = short.minus(amount);
	}
	if (short.gt(0)) found.push(notArrived(order, listed, short));
	return found;
}
