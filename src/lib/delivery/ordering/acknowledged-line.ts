/** Where the answer to one line of an order says something else than the line. */
import { Decimal } from 'decimal.js';
import type { LengthStyle } from '../../quantity/length.ts';
import { readWords } from '../kind-words.ts';
import { plainFinish } from '../likeness.ts';
import { amountText } from '../sentence.ts';
import { readSize, sameSize } from '../size.ts';
import type { AcknowledgedAttribute, AcknowledgedLine } from './acknowledgement.ts';
import { lengthPair } from './attributes.ts';
import type { Day, PurchaseLine, Supplier } from './purchase-order.ts';
import { answeredUnit } from './unit-words.ts';

/** 1/16 in, nm. */
export const sixteenth = 1_587_500;

export interface ComparingOptions {
	readonly supplier: Pick<Supplier, 'handsFrom' | 'sizes'>;
	readonly style: LengthStyle;
	/** Lengths that differ by no more are the same, nm; 1/16 in without it. */
	readonly tolerance?: number;
}

/** One difference, before it is told. */
export interface Found {
	readonly attribute: AcknowledgedAttribute;
	readonly ordered: string;
	readonly answered: string;
	/** Both in one exact spelling: what the key is made of. */
	readonly exact: readonly [ordered: unknown, answered: unknown];
	/** What follows the name of the line. */
	readonly says: string;
}

export const plainNumber = (text: string): string => new Decimal(text).toFixed();

const otherHand = { left: 'right', right: 'left' } as const;

/** The hand of an answer as the order sees it, standing on the coil side: by its column, else by its words. */
export function handOf(
	{ hand, description }: AcknowledgedLine,
	{ handsFrom }: Pick<Supplier, 'handsFrom'>
): 'left' | 'right' | null {
	const said = hand ?? readWords(description).hand;
	return said === null || handsFrom === 'coilSide' ? said : otherHand[said];
}

/** Quantity and price, of all answers to a line together: a line may be sent in parts. */
function countDifferences(line: PurchaseLine, answers: readonly AcknowledgedLine[]): Found[] {
	const found: Found[] = [];
	let sum: Decimal | null = new Decimal(0);
	for (const answer of answers) {
		const unit = answeredUnit(answer.unit, line.unit, line.hand !== null);
		const written = answer.unit ?? line.unit;
		if (unit.differs)
			found.push({
				attribute: 'unit',
				ordered: amountText(new Decimal(line.quantity), line.unit),
				answered: `${answer.quantity === null ? '' : `${answer.quantity} `}${written}`,
				exact: [line.unit, written],
				says: `counted in ${written}, ordered in ${line.unit}`
			});
		sum =
			sum && unit.factor && answer.quantity !== null ? sum.plus(unit.factor.times(answer.quantity)) : null;
		if (answer.unitPrice === null || unit.factor === null) continue;
		const price = new Decimal(answer.unitPrice).div(unit.factor);
		if (line.unitPrice !== null && price.eq(line.unitPrice)) continue;
		const ordered = line.unitPrice ?? 'no price';
		const answered = price.toFixed(Math.max(2, price.decimalPlaces()));
		found.push({
			attribute: 'price',
			ordered,
			answered,
			exact: [line.unitPrice === null ? null : plainNumber(line.unitPrice), price.toFixed()],
			says: `unit price ${answered} answered, ${ordered} ordered`
		});
	}
	if (sum && !sum.eq(line.quantity)) {
		const [ordered, answered] = [new Decimal(line.quantity), sum].map((count) =>
			amountText(count, line.unit)
		);
		found.push({
			attribute: 'quantity',
			ordered: ordered ?? '',
			answered: answered ?? '',
			exact: [plainNumber(line.quantity), sum.toFixed()],
			says: `quantity ${answered} answered, ${ordered} ordered`
		});
	}
	return found;
}

function attributeDifferences(
	line: PurchaseLine,
	answer: AcknowledgedLine,
	options: ComparingOptions
): Found[] {
	const { supplier, style, tolerance = sixteenth } = options;
	const found: Found[] = [];
	const add = (
		attribute: AcknowledgedAttribute,
		ordered: string,
		answered: string,
		exact: Found['exact'],
		more = ''
	): void => {
		found.push({
			attribute,
			ordered,
			answered,
			exact,
			says: `${attribute} ${answered} answered, ${ordered} ordered${more}`
		});
	};
	if (answer.size !== null && line.size !== '' && !sameSize(readSize(answer.size), readSize(line.size)))
		add('size', line.size, answer.size, [line.size, answer.size]);
	for (const name of ['length', 'width'] as const) {
		const [ours, theirs] = [line[name], answer[name]];
		if (ours === null || theirs === null || Math.abs(ours - theirs) <= tolerance) continue;
		const [ordered, answered] = lengthPair(ours, theirs, style);
		const meant =
			supplier.sizes === 'part' || line.scope === 'unit'
				? ''
				: ' (their sizes measure the opening, ours the part)';
		add(name, ordered, answered, [ours, theirs], meant);
	}
	const hand = handOf(answer, supplier);
	if (hand !== null && line.hand !== null && hand !== line.hand)
		add('hand', line.hand, hand, [line.hand, hand], ', seen from the coil side');
	if (answer.finish !== null && line.finish !== '' && plainFinish(answer.finish) !== plainFinish(line.finish))
		add('finish', line.finish, answer.finish, [plainFinish(line.finish), plainFinish(answer.finish)]);
	return found;
}

export function promiseDifference(line: PurchaseLine, promised: Day | null): Found[] {
	// Days in one form compare as texts.
	if (promised === null || line.needBy === null || promised <= line.needBy) return [];
	return [
		{
			attribute: 'promised',
			ordered: line.needBy,
			answered: promised,
			exact: [line.needBy, promised],
			says: `promised for ${promised}, wanted on site by ${line.needBy}`
		}
	];
}

/** @param answers to this line, at least one @param promised for all that name no day */
export function answeredDifferences(
	line: PurchaseLine,
	answers: readonly AcknowledgedLine[],
	promised: Day | null,
	options: ComparingOptions
): Found[] {
	const taken = answers.filter((one) => one.answer !== 'refused');
	const refused: Found[] =
		taken.length === answers.length
			? []
			: [
					{
						attribute: 'refused',
						ordered: amountText(new Decimal(line.quantity), line.unit),
						answered: 'refused',
						exact: [plainNumber(line.quantity), 'refused'],
						says: `the supplier does not deliver ${taken.length === 0 ? 'it' : 'all of it'}`
					}
				];
	if (taken.length === 0) return refused;
	const differing = [
		...countDifferences(line, taken),
		...taken.flatMap((one) => [
			...attributeDifferences(line, one, options),
			...promiseDifference(line, one.promised ?? promised)
		])
	];
	const changed = taken.find((one) => one.answer === 'changed');
	if (changed && differing.length === 0)
		differing.push({
			attribute: 'line',
			ordered: line.title,
			answered: 'changed',
			exact: [line.title, ['changed', changed.description]],
			says: 'the supplier calls it changed, and nothing that could be compared differs: ask what changed'
		});
	return [...refused, ...differing];
}
