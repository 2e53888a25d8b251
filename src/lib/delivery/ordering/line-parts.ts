/** What lines of an order are made with, and what all of them have: price, days, place in the order of hanging. */
import { Decimal } from 'decimal.js';
import type { LengthStyle } from '../../quantity/length.ts';
import type { PartKind } from '../../takeoff/result.ts';
import { needBy, orderBy } from './dates.ts';
import type { StockBoxes } from './full-boxes.ts';
import type { PartPrices } from './part-prices.ts';
import type { OpeningPlan, PurchaseLine, Supplier } from './purchase-order.ts';

/** A line that has no number yet. */
export type DraftLine = Omit<PurchaseLine, 'number'>;

/** What lines are made with. */
export interface Buying {
	/** By opening; one without a plan has no start, the first release, and is bought in parts. */
	readonly plans: ReadonlyMap<string, OpeningPlan>;
	readonly prices: PartPrices;
	readonly boxes: StockBoxes;
	/** Finished sizes by opening, nm: what a maker builds a complete unit to. Units without one have no size. */
	readonly openingSizes: ReadonlyMap<string, { readonly width: number; readonly height: number }>;
	readonly style: LengthStyle;
}

/** Kinds of parts as they are hung; then what is not hung. Common practice, no source. */
export const inOrderOfHanging: readonly PartKind[] = [
	'guide',
	'bracket',
	'barrel',
	'drive',
	'operator',
	'curtain',
	'bottomBar',
	'hoodSupport',
	'hoodPiece',
	'endCap',
	'control',
	'anchor',
	'consumable'
];

export const unique = (texts: readonly string[]): string[] => [...new Set(texts)];

/** Note of a line whose alike parts the book prices differently. */
export const severalPrices = 'Its parts have more than one price in the book: write the price of one.';

/** The one price of alike things; null where one is not known, or they differ, which is said. */
export function onePrice(prices: readonly (string | null)[]): { unitPrice: string | null; note: string } {
	const known = prices.filter((price) => price !== null);
	const [first = null] = known;
	if (first === null || known.length < prices.length) return { unitPrice: null, note: '' };
	return known.every((price) => new Decimal(price).eq(first))
		? { unitPrice: first, note: '' }
		: { unitPrice: null, note: severalPrices };
}

/** The days of a line, from the starts of its openings. */
export function datesOf(
	openingIds: readonly string[],
	{ plans }: Buying,
	supplier: Pick<Supplier, 'leadDays' | 'daysBefore'>
): Pick<PurchaseLine, 'needBy' | 'orderBy'> {
	const wanted = needBy(
		openingIds.map((openingId) => plans.get(openingId)?.startsOn ?? null),
		supplier
	);
	return { needBy: wanted, orderBy: orderBy(wanted, supplier) };
}
