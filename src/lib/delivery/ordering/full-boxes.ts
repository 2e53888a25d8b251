/** Stock is bought by the full box, and what is used up by the whole tube or foot: what that adds to the parts. */
import { Decimal } from 'decimal.js';
import { Money, shareOut } from '../../quantity/money.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import { anchorKey, stockKey } from '../../shopbook/tables.ts';
import type { Part } from '../../takeoff/result.ts';

/** How something is bought. */
export interface StockBox {
	/** Pieces in a box, decimal text above 0; `1` for what is bought by the whole one. */
	readonly perBox: string;
	/** Share bought on top for what is lost, decimal text, 0 or more. */
	readonly waste: string;
}

/** By shop-book key of what is bought. What is not in it is bought as counted. */
export type StockBoxes = ReadonlyMap<string, StockBox>;

/** Anchors by the box of their row, with the book’s waste; what is used up by the whole one, each with its own. */
export function stockBoxes(book: Pick<TechnicalBook, 'fixings' | 'consumables' | 'constants'>): StockBoxes {
	const boxes = new Map<string, StockBox>();
	for (const fixing of book.fixings)
		for (const { substrate, lengths, perBox } of fixing.anchors)
			for (const length of lengths)
				boxes.set(stockKey(anchorKey(fixing.key, substrate), length), {
					perBox,
					waste: book.constants.wasteAnchors
				});
	for (const { key, waste } of book.consumables) boxes.set(key, { perBox: '1', waste });
	return boxes;
}

export interface Fill {
	/** What has to be bought beyond the parts, decimal text above 0. */
	readonly quantity: string;
	/** How it comes about, with the numbers. */
	readonly note: string;
}

/** `10 %` */
const percent = (share: string): string => `${new Decimal(share).times(100).toFixed()} %`;

const filled: Readonly<Record<Part['unit'], string>> = {
	each: 'one',
	pair: 'pair',
	set: 'set',
	length: 'length',
	tube: 'tube',
	ft: 'foot'
};

/**
 * What fills up the boxes for a count, its waste taken first. Null where the count is full boxes already, or nothing.
 *
 * @param count decimal, 0 or more
 */
export function fillOf(count: Decimal, { perBox, waste }: StockBox, unit: Part['unit']): Fill | null {
	const wanted = count.times(new Decimal(waste).plus(1));
	const boxes = wanted.div(perBox).ceil();
	const quantity = boxes.times(perBox).minus(count);
	if (quantity.lte(0)) return null;
	const lost = new Decimal(waste).isZero() ? '' : `, with ${percent(waste)} for waste ${wanted.toFixed()}`;
	const bought = new Decimal(perBox).eq(1)
		? `to the whole ${filled[unit]}: ${boxes.toFixed()}`
		: `${boxes.toFixed()} full ${boxes.eq(1) ? 'box' : 'boxes'} of ${perBox}`;
	return { quantity: quantity.toFixed(), note: `Needed ${count.toFixed()}${lost}; bought ${bought}.` };
}

/**
 * Whom it is bought for: what fills up a box, shared out over openings by what each needs of it, to the hundredth, by
 * largest remainder. The shares add up to it exactly.
 *
 * @param fill decimal text with at most two decimals, 0 or more
 * @param parts those that it fills up, at least one
 * @throws RangeError when there are no parts or `fill` is finer
 */
export function fillShares(
	fill: string,
	parts: readonly Pick<Part, 'openingId' | 'quantity'>[]
): ReadonlyMap<string, string> {
	const needs = new Map<string, Decimal>();
	for (const { openingId, quantity } of parts)
		needs.set(openingId, (needs.get(openingId) ?? new Money(0)).plus(quantity));
	const shares = shareOut(new Money(fill), [...needs.values()]);
	return new Map(
		[...needs.keys()].map((openingId, at) => [openingId, (shares[at] ?? new Money(0)).toFixed()])
	);
}
