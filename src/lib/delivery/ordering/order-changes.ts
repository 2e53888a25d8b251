/** What changed from one revision of an order to another, line by line, for its history and its paper. */
import { Decimal } from 'decimal.js';
import type { LengthStyle } from '../../quantity/length.ts';
import { amountText } from '../sentence.ts';
import { isCancelled, lengthPair, lineName, nothing, orNothing } from './attributes.ts';
import type { PurchaseLine, PurchaseOrder } from './purchase-order.ts';

type ChangedAttribute =
	| 'line'
	| 'currency'
	| 'title'
	| 'item'
	| 'size'
	| 'width'
	| 'length'
	| 'hand'
	| 'finish'
	| 'quantity'
	| 'price'
	| 'needBy'
	| 'orderBy'
	| 'openings'
	| 'parts'
	| 'note';

export interface OrderChange {
	/** Null where it is about the whole order. */
	readonly line: number | null;
	readonly attribute: ChangedAttribute;
	/** Both as a person reads them. */
	readonly before: string;
	readonly after: string;
	/** One sentence with both. */
	readonly text: string;
	/** Prices: not for everybody. */
	readonly aboutMoney: boolean;
}

/** What an order says of a line, in words. */
export const attributeTitles: Readonly<Record<ChangedAttribute, string>> = {
	line: 'line',
	currency: 'currency',
	title: 'what it is',
	item: 'item',
	size: 'size',
	width: 'width',
	length: 'length',
	hand: 'hand',
	finish: 'finish',
	quantity: 'quantity',
	price: 'unit price',
	needBy: 'wanted on site',
	orderBy: 'sent no later than',
	openings: 'openings',
	parts: 'parts',
	note: 'note'
};

const quantityOf = ({ quantity, unit }: PurchaseLine): string => amountText(new Decimal(quantity), unit);

const samePrice = (a: string | null, b: string | null): boolean =>
	a === null || b === null ? a === b : new Decimal(a).eq(b);

/** `C-101.3 added`; what is in both lists is not told. */
function listChange(before: readonly string[], after: readonly string[]): [string, string] | null {
	const gone = before.filter((one) => !after.includes(one));
	const added = after.filter((one) => !before.includes(one));
	return gone.length + added.length === 0 ? null : [gone.join(', ') || nothing, added.join(', ') || nothing];
}

type Pair = readonly [attribute: ChangedAttribute, before: string, after: string];

function pairsOf(a: PurchaseLine, b: PurchaseLine, style: LengthStyle): Pair[] {
	const text = (attribute: ChangedAttribute, before: string | null, after: string | null): Pair[] =>
		before === after ? [] : [[attribute, orNothing(before), orNothing(after)]];
	const list = (attribute: ChangedAttribute, before: readonly string[], after: readonly string[]): Pair[] => {
		const change = listChange(before, after);
		return change ? [[attribute, ...change]] : [];
	};
	return [
		...text('title', a.title, b.title),
		...text('item', a.item, b.item),
		...text('size', a.size, b.size),
		...text('width', ...lengthPair(a.width, b.width, style)),
		...text('length', ...lengthPair(a.length, b.length, style)),
		...text('hand', a.hand, b.hand),
		...text('finish', a.finish, b.finish),
		...text('quantity', quantityOf(a), quantityOf(b)),
		...(samePrice(a.unitPrice, b.unitPrice) ? [] : text('price', a.unitPrice, b.unitPrice)),
		...text('needBy', a.needBy, b.needBy),
		...text('orderBy', a.orderBy, b.orderBy),
		...list('openings', a.openingIds, b.openingIds),
		...list('parts', a.partIds, b.partIds),
		...text('note', a.note, b.note)
	];
}

function lineChanges(a: PurchaseLine, b: PurchaseLine, style: LengthStyle): OrderChange[] {
	if (!isCancelled(a) && isCancelled(b))
		return [
			{
				line: b.number,
				attribute: 'line',
				before: quantityOf(a),
				after: 'cancelled',
				text: `${lineName(a)} is cancelled; it was ${quantityOf(a)}.`,
				aboutMoney: false
			}
		];
	return pairsOf(a, b, style).map(([attribute, before, after]) => ({
		line: b.number,
		attribute,
		before,
		after,
		text: sentence(b, attribute, before, after),
		aboutMoney: attribute === 'price'
	}));
}

function sentence(line: PurchaseLine, attribute: ChangedAttribute, before: string, after: string): string {
	const name = lineName(line);
	if (attribute !== 'openings' && attribute !== 'parts')
		return `${name}: ${attributeTitles[attribute]} ${after}, was ${before}.`;
	const changes = [
		...(before === nothing ? [] : [`without ${before}`]),
		...(after === nothing ? [] : [`now with ${after}`])
	];
	return `${name}: ${attributeTitles[attribute]} ${changes.join(', ')}.`;
}

const added = (line: PurchaseLine): OrderChange => ({
	line: line.number,
	attribute: 'line',
	before: nothing,
	after: quantityOf(line),
	text: `${lineName(line)} is new: ${quantityOf(line)}.`,
	aboutMoney: false
});

const removed = (line: PurchaseLine): OrderChange => ({
	line: line.number,
	attribute: 'line',
	before: quantityOf(line),
	after: nothing,
	text: `${lineName(line)} is not in it any more; it was ${quantityOf(line)}.`,
	aboutMoney: false
});

/**
 * What changed, in the order of the lines' numbers.
 *
 * @throws RangeError when the two are not of one order
 */
export function orderChanges(before: PurchaseOrder, after: PurchaseOrder, style: LengthStyle): OrderChange[] {
	if (before.orderId !== after.orderId)
		throw new RangeError(`orders ${before.number} and ${after.number} are not revisions of one order`);
	const changes: OrderChange[] = [];
	if (before.currency !== after.currency)
		changes.push({
			line: null,
			attribute: 'currency',
			before: before.currency,
			after: after.currency,
			text: `The order is in ${after.currency}, was in ${before.currency}.`,
			aboutMoney: true
		});
	const old = new Map(before.lines.map((line) => [line.number, line]));
	const present = new Set(after.lines.map(({ number }) => number));
	return [
		...changes,
		...[
			...after.lines.flatMap((line) => {
				const was = old.get(line.number);
				return was ? lineChanges(was, line, style) : [added(line)];
			}),
			...before.lines.filter(({ number }) => !present.has(number)).map(removed)
		].sort((a, b) => (a.line ?? 0) - (b.line ?? 0))
	];
}
