/** What the quantity of a matched line comes to for each lot it speaks of. */
import { Decimal } from 'decimal.js';
import type { Lot } from './order.ts';
import type { RemarkReading, Share } from './remark.ts';

/** Pieces of one line for one lot, in the unit of the order. */
interface LotShare {
	readonly lot: Lot;
	/** Whole and right. */
	readonly whole: Decimal;
	readonly damaged: Decimal;
	readonly wrong: Decimal;
	/** Null: as many as the lot still waits for; the line gives no number. */
	readonly backordered: Decimal | null;
	readonly missing: Decimal;
}

export interface LineShares {
	readonly shares: readonly LotShare[];
	/** Pieces of both hands together beyond what is ordered of both: of which hand is not known. */
	readonly surplus: Decimal;
	/** How the remark was read, where it could be read in two ways. */
	readonly notes: readonly string[];
}

const zero = new Decimal(0);
const atMost = (share: Share, factor: number, limit: Decimal): Decimal =>
	share === 'all' ? limit : Decimal.min(limit, new Decimal(share).times(factor));

/**
 * Splits a quantity. A number in the remark is part of the quantity (`4`, `1 damaged`: 3 whole), except a back order
 * that makes the line up to exactly what is ordered (`3`, `1 to follow`, 4 ordered). Of pieces of both hands together a
 * remark counts for each hand, because it does not say which.
 *
 * @param quantity pieces of the line, 0 or more
 * @param factor units of the order in one of the line
 * @param together the pieces of two lots counted in one
 * @param differs the line is wrong: nothing of it counts as whole
 */
export function shareLine(
	quantity: Decimal,
	lots: readonly [Lot] | readonly [Lot, Lot],
	factor: number,
	together: boolean,
	differs: boolean,
	remark: RemarkReading
): LineShares {
	const [first, second] = lots;
	const pieces = quantity.times(factor);
	const notes: string[] = [];
	const split = (lot: Lot, amount: Decimal): LotShare => {
		const { backordered: later } = remark;
		const toFollow = typeof later === 'number' && later > 0 ? new Decimal(later).times(factor) : zero;
		const added = toFollow.gt(0) && amount.plus(toFollow).eq(lot.ordered);
		if (toFollow.gt(0) && !added) notes.push('the back order is read as part of the quantity');
		const backordered =
			later === 'all' ? (amount.gt(0) ? amount : null) : added ? toFollow : atMost(later, factor, amount);
		let rest = added ? amount : amount.minus(backordered ?? zero);
		const take = (share: Share): Decimal => {
			const taken = atMost(share, factor, rest);
			rest = rest.minus(taken);
			return taken;
		};
		const wrong = take(differs ? 'all' : remark.wrong);
		const damaged = take(remark.damaged);
		const missing = take(remark.missing);
		return { lot, whole: rest, damaged, wrong, backordered, missing };
	};
	if (!second) return { shares: [split(first, pieces)], surplus: zero, notes };
	if (!together) return { shares: [split(first, pieces), split(second, pieces)], surplus: zero, notes };
	const both = first.ordered.plus(second.ordered);
	if (pieces.gte(both) && !differs)
		return {
			shares: [split(first, first.ordered), split(second, second.ordered)],
			surplus: pieces.minus(both),
			notes
		};
	const half = pieces.div(2).ceil();
	return { shares: [split(first, half), split(second, pieces.minus(half))], surplus: zero, notes };
}
