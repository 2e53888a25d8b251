/** What the quantity of a matched line comes to for each lot it speaks of. */
import { Decimal } from 'decimal.js';
import type { Match } from './matched.ts';
import type { Share } from './remark.ts';
import type { Lot } from './wanted.ts';

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
	/** Pieces of several lots together beyond what is ordered of all: of which is not known. */
	readonly surplus: Decimal;
	/** How the remark was read, where it could be read in two ways. */
	readonly notes: readonly string[];
}

/** What is known of the state of the pieces of a line, in the unit of the line. */
export interface PiecesState {
	readonly damaged: Share | Decimal;
	readonly missing: Share | Decimal;
	readonly wrong: Share | Decimal;
	readonly backordered: Share | Decimal;
	/** The back order has a column of its own: it is no part of the quantity. */
	readonly backorderApart: boolean;
}

const zero = new Decimal(0);
const atMost = (share: Share | Decimal, factor: Decimal.Value, limit: Decimal): Decimal =>
	share === 'all' ? limit : Decimal.min(limit, new Decimal(share).times(factor));

/** What each lot gets of the pieces, and what is beyond all of them. */
function splitPieces(
	{ lots, factor, split }: Match,
	quantity: Decimal,
	differs: boolean
): { amounts: readonly Decimal[]; surplus: Decimal } {
	const pieces = quantity.times(factor);
	if (split === 'each') return { amounts: lots.map(() => pieces), surplus: zero };
	if (split !== 'together') return { amounts: 'contents' in split ? split.contents : split, surplus: zero };
	let rest = pieces;
	const amounts = lots.map(({ ordered }) => {
		const taken = Decimal.min(rest, ordered);
		rest = rest.minus(taken);
		return taken;
	});
	// What is wrong is wrong for one of them; it is told at the first.
	if (differs && rest.gt(0))
		return { amounts: amounts.map((amount, at) => (at === 0 ? amount.plus(rest) : amount)), surplus: zero };
	return { amounts, surplus: rest };
}

/**
 * Splits a quantity. A number in the remark is part of the quantity (`4`, `1 damaged`: 3 whole), except a back order
 * that makes the line up to exactly what is ordered (`3`, `1 to follow`, 4 ordered), or that stands in a column of its
 * own. Of pieces of several lots together a remark counts for each of them, because it does not say which.
 *
 * @param quantity pieces of the line, 0 or more
 * @param differs the line is wrong: nothing of it counts as whole
 */
export function shareLine(match: Match, quantity: Decimal, differs: boolean, state: PiecesState): LineShares {
	const { lots, split: how } = match;
	const notes: string[] = [];
	const isKit = typeof how === 'object' && 'contents' in how;
	const split = (lot: Lot, amount: Decimal): LotShare => {
		// Of one kit in two that is damaged, half of everything is.
		const factor = !isKit ? match.factor : quantity.isZero() ? zero : amount.div(quantity);
		const { backordered: later, backorderApart } = state;
		const toFollow = later !== 'all' && new Decimal(later).gt(0) ? new Decimal(later).times(factor) : zero;
		const added = toFollow.gt(0) && (backorderApart || amount.plus(toFollow).eq(lot.ordered));
		if (toFollow.gt(0) && !added) notes.push('the back order is read as part of the quantity');
		const backordered =
			later === 'all' ? (amount.gt(0) ? amount : null) : added ? toFollow : atMost(later, factor, amount);
		let rest = added ? amount : amount.minus(backordered ?? zero);
		const take = (share: Share | Decimal): Decimal => {
			const taken = atMost(share, factor, rest);
			rest = rest.minus(taken);
			return taken;
		};
		const wrong = take(differs ? 'all' : state.wrong);
		const damaged = take(state.damaged);
		const missing = take(state.missing);
		return { lot, whole: rest, damaged, wrong, backordered, missing };
	};
	const { amounts, surplus } = splitPieces(match, quantity, differs);
	return { shares: lots.map((lot, at) => split(lot, amounts[at] ?? zero)), surplus, notes };
}
