/** Cutting pieces from stock bars of one length with the fewest bars. */
import { lengthBound, pairBound } from './bounds.ts';
import { firstFitDecreasing, greedyPlan } from './greedy.ts';
import { Steps, type Bar, type Packing } from './packing.ts';
import { relax } from './relaxation.ts';
import { roundShares, search } from './search.ts';

/** One piece to cut. */
export interface Piece {
	/** What a person calls it. */
	readonly name: string;
	/** Whole nanometres above zero, at most the stock length. */
	readonly length: number;
}

/** What a bar becomes: its pieces one after the other from one end, a cut between them, the offcut last. */
export interface CutBar {
	/** Positions in the pieces given, the longest first. */
	readonly pieces: readonly number[];
	/** Length left over, nm. */
	readonly offcut: number;
	/** Length that the saw takes, nm. */
	readonly kerf: number;
}

/** Something that is not planned, and why. */
interface NotCuttable {
	/** Position in the pieces given; null where stock length or saw cut are wrong, so that nothing is planned. */
	readonly piece: number | null;
	readonly name: string;
	readonly reason: string;
}

export interface CutPlan {
	/** Bars that are cut alike stand together, those with the longest pieces first. */
	readonly bars: readonly CutBar[];
	/** Bars that any plan needs. */
	readonly lowerBound: number;
	/** The plan has no more bars than any plan needs. */
	readonly proved: boolean;
	/** Bars that first-fit-decreasing takes, for comparison. */
	readonly firstFitDecreasing: number;
	/** Work done. */
	readonly steps: number;
	readonly notCuttable: readonly NotCuttable[];
}

/** Work that five hundred pieces of as many lengths are worth: well under a second, and that only if it is needed. */
export const usualSteps = 4e7;

const noPlan = { bars: [], lowerBound: 0, proved: false, firstFitDecreasing: 0, steps: 0 };

/**
 * Fewest bars for the pieces, proved where the work allowed is enough; else the best plan found with its bound. The same
 * pieces in the same order give the same plan.
 *
 * A bar of pieces p₁ … pₙ needs Σp + (n − 1)·k ≤ S: the last piece needs a cut only where something is left of the bar,
 * and a piece as long as the stock needs none.
 *
 * First, bar by bar (first-fit-decreasing, sequential value correction) against the simple bounds; then the relaxation of
 * Gilmore and Gomory with its bound, rounded; then depth-first search for one bar fewer until there is none.
 *
 * @param stockLength S, whole nm above zero
 * @param kerf k, whole nm, zero or more
 * @param mostSteps work after which the best so far is given
 */
export function planCuts(
	pieces: readonly Piece[],
	stockLength: number,
	kerf: number,
	mostSteps = usualSteps
): CutPlan {
	const wrong: NotCuttable[] = [];
	if (!isLength(stockLength))
		wrong.push({
			piece: null,
			name: 'Stock length',
			reason: 'it is not a whole number of nanometres above zero'
		});
	if (!Number.isSafeInteger(kerf) || kerf < 0)
		wrong.push({
			piece: null,
			name: 'Saw cut',
			reason: 'it is not a whole number of nanometres, zero or more'
		});
	if (wrong.length > 0) return { ...noPlan, notCuttable: wrong };

	const positions = new Map<number, number[]>();
	pieces.forEach(({ name, length }, piece) => {
		if (!isLength(length))
			wrong.push({ piece, name, reason: 'its length is not a whole number of nanometres above zero' });
		else if (length > stockLength) wrong.push({ piece, name, reason: 'it is longer than the stock' });
		else {
			const same = positions.get(length);
			if (same) same.push(piece);
			else positions.set(length, [piece]);
		}
	});
	const lengths = [...positions.keys()].sort((a, b) => b - a);
	const packing: Packing = {
		room: stockLength + kerf,
		sizes: lengths.map((length) => length + kerf),
		counts: lengths.map((length) => positions.get(length)?.length ?? 0)
	};
	const steps = new Steps(mostSteps);
	const { bars, lowerBound } = fewestBars(packing, steps);

	const queues = lengths.map((length) => [...(positions.get(length) ?? [])].reverse());
	return {
		bars: bars.toSorted(byPieces).map((bar) => {
			const left = bar.reduce((rest, size) => rest - (lengths[size] ?? 0), stockLength);
			// A cut after every piece, as far as there is bar left to cut.
			const taken = Math.min(bar.length * kerf, left);
			return {
				pieces: bar.flatMap((size) => queues[size]?.pop() ?? []),
				offcut: left - taken,
				kerf: taken
			};
		}),
		lowerBound,
		proved: bars.length === lowerBound,
		firstFitDecreasing: firstFitDecreasing(packing).length,
		steps: mostSteps - steps.left,
		notCuttable: wrong
	};
}

const isLength = (length: number): boolean => Number.isSafeInteger(length) && length > 0;

/** The longest pieces first, and the fuller bar before one that ends where it goes on. */
function byPieces(a: Bar, b: Bar): number {
	const at = a.findIndex((size, i) => size !== b[i]);
	return at < 0 ? b.length - a.length : (a[at] ?? 0) - (b[at] ?? Infinity);
}

/** Rounds of sequential value correction before the relaxation is worth its work. */
const rounds = 20;

function fewestBars(packing: Packing, steps: Steps): { bars: readonly Bar[]; lowerBound: number } {
	let lowerBound = Math.max(lengthBound(packing), pairBound(packing));
	let bars = greedyPlan(packing, lowerBound, rounds, steps);
	if (bars.length === lowerBound) return { bars, lowerBound };

	const pool = [...new Map(bars.map((bar) => [bar.join(','), bar])).values()];
	const relaxed = relax(packing, pool, lowerBound, bars.length, steps);
	lowerBound = Math.max(lowerBound, relaxed.bound);
	if (bars.length > lowerBound) {
		const rounded = roundShares(packing, relaxed, lowerBound, pool, steps);
		if (rounded !== null && rounded.length < bars.length) bars = rounded;
	}
	while (bars.length > lowerBound) {
		const found = search(packing, lowerBound, pool, steps);
		if (found === 'brokenOff') break;
		if (found === 'none') lowerBound += 1;
		else bars = found.plan;
	}
	return { bars, lowerBound };
}
