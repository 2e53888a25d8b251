/** Dealing out what came: which part takes which piece. */
import { Decimal } from 'decimal.js';
import type { Lot } from './wanted.ts';

/** Pieces of one line that any part of the lot may take. */
export interface Supply {
	readonly lot: Lot;
	readonly amount: Decimal;
}

/** What one supply gave to the part at a place of the wanted order. */
interface Dealt {
	readonly at: number;
	readonly amount: Decimal;
}

export interface Deal {
	readonly dealt: readonly Dealt[];
	/** What no part of the lot had room for. */
	readonly left: Decimal;
}

/** The narrowest first; of lots as wide as one another the one that is wanted earlier. */
function narrower(a: Lot, b: Lot): number {
	if (a === b) return 0;
	const size = a.parts.length - b.parts.length;
	if (size !== 0) return size;
	for (const [index, { at }] of a.parts.entries()) {
		const other = b.parts[index]?.at ?? at;
		if (other !== at) return at - other;
	}
	return 0;
}

/**
 * Deals supplies to the parts of their lots in the wanted order. The narrowest lots go first (a line that names the part
 * before one that names only the mark), and lines of one lot in the order given. Lots of one interchange key mostly lie
 * within one another or apart, so this way as many pieces as possible find a part, and the wanted order is kept as far
 * as the lines allow. What each part gets does not depend on the order of the lines, and one more supply never makes it
 * less.
 *
 * @param room what each part can still take, by place in the wanted order; lowered by what is dealt
 * @returns one deal a supply, in the order given
 */
export function dealOut(room: Decimal[], supplies: readonly Supply[]): Deal[] {
	const deals = new Array<Deal>(supplies.length);
	// The first part of a lot that may have room; room only ever shrinks.
	const first = new Map<Lot, number>();
	const inTurn = supplies
		.map((supply, index) => ({ ...supply, index }))
		.sort((a, b) => narrower(a.lot, b.lot) || a.index - b.index);
	for (const { lot, amount, index } of inTurn) {
		let left = amount;
		const dealt: Dealt[] = [];
		let next = first.get(lot) ?? 0;
		while (left.gt(0)) {
			const at = lot.parts[next]?.at;
			if (at === undefined) break;
			const free = room[at] ?? new Decimal(0);
			const taken = Decimal.min(free, left);
			if (taken.gt(0)) {
				dealt.push({ at, amount: taken });
				room[at] = free.minus(taken);
				left = left.minus(taken);
			}
			if (left.gt(0)) next++;
		}
		first.set(lot, next);
		deals[index] = { dealt, left };
	}
	return deals;
}
