/**
 * What one part costs by the price book: its own measure at its unit cost, without waste. Waste is what a shop loses
 * when it cuts; whoever sells a part made to length sells the part.
 */
import type { Decimal } from 'decimal.js';
import { cents, Money } from '../../quantity/money.ts';
import type { PartCosts, TechnicalBook } from '../../shopbook/schema.ts';
import type { JobTakeoff } from '../../takeoff/engine.ts';
import type { OpeningTakeoff, Part } from '../../takeoff/result.ts';

/** Price of one of its unit by part id, decimal text with two decimals or more; null where the book has none. */
export type PartPrices = ReadonlyMap<string, string | null>;

const footNm = 304_800_000;

/** To two decimals, half away from zero, noise in the ninth taken up: as the rules of the price round measures. */
const twoDecimals = (value: Decimal): Decimal =>
	value.toDecimalPlaces(9, Money.ROUND_HALF_UP).toDecimalPlaces(2, Money.ROUND_HALF_UP);

const feet = (nm: number): Decimal => twoDecimals(new Money(nm).div(footNm));
const squareFeet = (width: number, length: number): Decimal =>
	twoDecimals(new Money(width).times(length).div(footNm).div(footNm));

/** At least two decimals, as many as it takes. */
const priceText = (price: Decimal): string => price.toFixed(Math.max(2, price.decimalPlaces()));

interface Costs {
	readonly book: Pick<TechnicalBook, 'controls'>;
	readonly prices: PartCosts;
}

const costOf = <Row extends { readonly key: string }>(
	rows: readonly Row[],
	item: string,
	column: (row: Row) => string
): Decimal | null => {
	const row = rows.find(({ key }) => key === item);
	return row ? new Money(column(row)) : null;
};

const plain = ({ cost }: { readonly cost: string }): string => cost;

const figureOf = (opening: OpeningTakeoff | undefined, id: string): number | null => {
	const value = opening?.get(id);
	return typeof value === 'number' ? value : null;
};

const timesToCents = (measure: Decimal | null, cost: Decimal | null): Decimal | null =>
	measure && cost ? cents(measure.times(cost)) : null;

/** Pipe by the foot, and its springs by the pound where it has some. */
function barrelPrice({ prices }: Costs, part: Part, opening: OpeningTakeoff | undefined): Decimal | null {
	const pipe = timesToCents(
		part.length === null ? null : feet(part.length),
		costOf(prices.barrels, part.item, plain)
	);
	if (pipe === null || !opening) return null;
	const pounds = figureOf(opening, 'springWeight');
	if (pounds === null) return opening.get('springSet') === null ? pipe : null;
	return pipe.plus(cents(twoDecimals(new Money(pounds)).times(prices.springPound)));
}

/** Every piece is sheet of its own length, laps included, around the whole coil. */
function hoodPiecePrice({ prices }: Costs, part: Part, opening: OpeningTakeoff | undefined): Decimal | null {
	const girth = figureOf(opening, 'hoodGirth');
	return timesToCents(
		part.length === null || girth === null ? null : squareFeet(girth, part.length),
		costOf(prices.hoods, part.item, plain)
	);
}

/** The book prices sets of controls: a part has a price where it is the whole set. */
function controlPrice({ book, prices }: Costs, part: Part): Decimal | null {
	const sets = book.controls.filter(({ parts }) => parts.some(({ title }) => title === part.item));
	const [set, otherSet] = sets;
	const [piece, otherPiece] = set?.parts ?? [];
	if (!set || otherSet || !piece || otherPiece) return null;
	const price = costOf(prices.controls, set.key, plain)?.div(piece.quantity) ?? null;
	// A share that never ends is no price to write on an order.
	return price !== null && price.decimalPlaces() <= 6 ? price : null;
}

function priceOf(costs: Costs, part: Part, opening: OpeningTakeoff | undefined): Decimal | null {
	const { prices } = costs;
	const { item, length, width } = part;
	const byFoot = (cost: Decimal | null): Decimal | null =>
		timesToCents(length === null ? null : feet(length), cost);
	switch (part.kind) {
		case 'curtain':
			return timesToCents(
				length === null || width === null ? null : squareFeet(width, length),
				costOf(prices.curtains, item, plain)
			);
		case 'bottomBar':
			return byFoot(costOf(prices.curtains, item, ({ bar }) => bar));
		case 'guide':
			return byFoot(costOf(prices.guides, item, plain));
		case 'barrel':
			return barrelPrice(costs, part, opening);
		case 'bracket':
			// The book prices pairs with their wall plates. Half of one keeps its half cent, so that two are the pair.
			return costOf(prices.brackets, item, plain)?.div(2) ?? null;
		case 'drive':
			return costOf(prices.drives, item, plain);
		case 'operator':
			return costOf(prices.operators, item, plain);
		case 'hoodPiece':
			return hoodPiecePrice(costs, part, opening);
		case 'hoodSupport':
			return costOf(prices.hoods, item, ({ support }) => support);
		case 'endCap':
			return costOf(prices.hoods, item, ({ endCap }) => endCap);
		case 'anchor':
			return costOf(prices.anchors, item, plain);
		case 'control':
			return controlPrice(costs, part);
		case 'consumable':
			return costOf(prices.consumables, item, plain);
	}
}

/**
 * Prices of parts by the book: curtains by their area, bars, guides and barrels by the foot (each measure to two
 * decimals, the amount to the cent), springs by the pound with their barrel, brackets half a pair each, hood pieces by
 * their sheet with its laps, all else by the piece.
 *
 * @param takeoff of the same job: springs and the girth of hoods are known to it alone
 */
export function partPrices(
	book: Pick<TechnicalBook, 'controls'>,
	prices: PartCosts,
	takeoff: Pick<JobTakeoff, 'openings'>,
	parts: readonly Part[]
): PartPrices {
	const openings = new Map(
		takeoff.openings.flatMap((opening) => opening.openingIds.map((id) => [id, opening] as const))
	);
	return new Map(
		parts.map((part) => {
			const price = priceOf({ book, prices }, part, openings.get(part.openingId));
			return [part.partId, price === null ? null : priceText(price)] as const;
		})
	);
}
