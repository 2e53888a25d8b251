/** What a supplier answers against what was ordered: everything in which the two differ, for somebody to decide. */
import { Decimal } from 'decimal.js';
import { amountText } from '../sentence.ts';
import { plainMark } from '../spelling.ts';
import {
	answeredDifferences,
	handOf,
	plainNumber,
	promiseDifference,
	sixteenth,
	type ComparingOptions,
	type Found
} from './acknowledged-line.ts';
import type {
	AcknowledgedAttribute,
	AcknowledgedDifference,
	AcknowledgedLine,
	Acknowledgement
} from './acknowledgement.ts';
import { isCancelled, lineName } from './attributes.ts';
import { matchAnswer } from './match-answers.ts';
import type { PurchaseLine, PurchaseOrder } from './purchase-order.ts';

const moneyAttributes: ReadonlySet<AcknowledgedAttribute> = new Set(['price']);

/** The same wherever it is found again, another as soon as either side says something else. */
const keyOf = (line: number | null, { attribute, exact }: Found): string =>
	JSON.stringify([line ?? 'order', attribute, ...exact]);

const told = (line: PurchaseLine | null, found: Found): AcknowledgedDifference => ({
	key: keyOf(line?.number ?? null, found),
	orderLine: line?.number ?? null,
	attribute: found.attribute,
	ordered: found.ordered,
	answered: found.answered,
	text: line ? `${lineName(line)}: ${found.says}.` : `${found.says}.`,
	aboutMoney: moneyAttributes.has(found.attribute)
});

/** `1042-03`, `PO 1042-03` and `#1042-3` name one order. */
const orderName = (text: string): string =>
	plainMark(text)
		.replace(/^(?:PO|P\.O\.|ORDER|NO\.?|#|:)+/u, '')
		.replace(/(?<!\d)0+(?=\d)/gu, '');

function aboutOrder(order: PurchaseOrder, answer: Acknowledgement): Found[] {
	const found: Found[] = [];
	if (answer.orderNumber !== null && orderName(answer.orderNumber) !== orderName(order.number))
		found.push({
			attribute: 'revision',
			ordered: order.number,
			answered: answer.orderNumber,
			exact: [order.number, answer.orderNumber],
			says: `The answer is to order ${answer.orderNumber}, this is order ${order.number}`
		});
	if (answer.orderRevision !== null && answer.orderRevision !== order.revision)
		found.push({
			attribute: 'revision',
			ordered: String(order.revision),
			answered: String(answer.orderRevision),
			exact: [order.revision, answer.orderRevision],
			says: `The answer is to revision ${answer.orderRevision}, this is revision ${order.revision}`
		});
	if (answer.currency !== null && answer.currency !== order.currency)
		found.push({
			attribute: 'price',
			ordered: order.currency,
			answered: answer.currency,
			exact: [order.currency, answer.currency],
			says: `The answer is in ${answer.currency}, the order in ${order.currency}`
		});
	if (answer.whole === 'refused')
		found.push({
			attribute: 'refused',
			ordered: 'the whole order',
			answered: 'refused',
			exact: ['order', 'refused'],
			says: 'The supplier refuses the whole order'
		});
	return found;
}

function missing(line: PurchaseLine): Found {
	const ordered = amountText(new Decimal(line.quantity), line.unit);
	return {
		attribute: 'line',
		ordered,
		answered: 'not in the answer',
		exact: [plainNumber(line.quantity), null],
		says: `${ordered} ordered, and the answer says nothing of it`
	};
}

function notOrdered(answer: AcknowledgedLine, candidates: readonly PurchaseLine[]): Found {
	const { orderLine, mark, description, quantity } = answer;
	const words = [orderLine === null ? null : `order line ${orderLine}`, mark, description]
		.filter((text) => text !== null && text !== '')
		.join(', ');
	const why =
		candidates.length > 0
			? `could be lines ${candidates.map(({ number }) => number).join(', ')} of the order`
			: 'is no line of the order';
	return {
		attribute: 'line',
		ordered: candidates.length > 0 ? why : 'not ordered',
		answered: `${quantity === null ? '' : `${quantity} of `}${words}`,
		exact: [
			null,
			[orderLine, mark, description, quantity, answer.length, answer.width, answer.size, answer.hand]
		],
		says: `Line ${answer.line} of the answer (${words}) ${why}`
	};
}

/**
 * Everything in which an answer is not what was ordered, in the order of the lines, then what answers no line. What
 * the answer does not say is not compared; that a line of the order is not in it is.
 *
 * @param order the revision that was released
 */
export function compareAcknowledgement(
	order: PurchaseOrder,
	answer: Acknowledgement,
	options: ComparingOptions
): AcknowledgedDifference[] {
	const { supplier, tolerance = sixteenth } = options;
	const byLine = new Map<PurchaseLine, AcknowledgedLine[]>();
	const others: AcknowledgedDifference[] = [];
	for (const one of answer.lines) {
		const match = matchAnswer(one, handOf(one, supplier), order.lines, tolerance);
		if (match.line === null) others.push(told(null, notOrdered(one, match.candidates)));
		else byLine.set(match.line, [...(byLine.get(match.line) ?? []), one]);
	}
	const listed = answer.whole === null || answer.lines.length > 0;
	const lines = order.lines.flatMap((line): AcknowledgedDifference[] => {
		const answers = byLine.get(line);
		if (answers)
			return answeredDifferences(line, answers, answer.promised, options).map((found) => told(line, found));
		if (isCancelled(line)) return [];
		if (listed) return [told(line, missing(line))];
		return answer.whole === 'accepted'
			? promiseDifference(line, answer.promised).map((found) => told(line, found))
			: [];
	});
	const all = [...aboutOrder(order, answer).map((found) => told(null, found)), ...lines, ...others];
	return [...new Map(all.map((difference) => [difference.key, difference])).values()];
}
