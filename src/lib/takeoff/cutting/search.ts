/** Plans with a given number of bars: looked for fast, or looked for until there is one or there cannot be one. */
import { lengthBound } from './bounds.ts';
import { greedyPlan } from './greedy.ts';
import { lengthOf, sum, takeOut, timesIn, type Bar, type Packing, type Steps } from './packing.ts';
import { relax, type Relaxation } from './relaxation.ts';

/**
 * Rounds shares of bars to bars: whole shares are cut and the rest is relaxed again; where nothing is whole, the largest
 * share is cut and those near one with it. After every round the rest is planned bar by bar as well.
 *
 * @param first the relaxation of the packing
 * @returns the best plan found
 */
export function roundShares(
	packing: Packing,
	first: Relaxation,
	target: number,
	pool: Bar[],
	steps: Steps
): readonly Bar[] | null {
	const left = [...packing.counts];
	const bars: Bar[] = [];
	let best: readonly Bar[] | null = null;
	let { shares } = first;
	for (;;) {
		const before = bars.length;
		const cut = (bar: Bar, most: number): void => {
			const times = Math.min(most, timesIn(bar, left));
			for (let i = 0; i < times; i++) bars.push(bar);
			takeOut(bar, left, times);
		};
		for (const { bar, share } of shares) cut(bar, Math.floor(share + 1e-3));
		if (bars.length === before)
			for (const { bar, share } of shares) if (bars.length === before || share > 0.7) cut(bar, 1);
		if (bars.length === before || steps.left <= 0) return best;

		const rest = { ...packing, counts: left };
		const plan = [...bars, ...greedyPlan(rest, target - bars.length, 2, steps)];
		if (best === null || plan.length < best.length) best = plan;
		if (best.length <= target) return best;
		const relaxed = relax(rest, pool, target - bars.length, target - bars.length + 1, steps);
		if (bars.length + relaxed.bound > target) return best;
		({ shares } = relaxed);
	}
}

/** How a search ended. */
export type Found = { readonly plan: readonly Bar[] } | 'none' | 'brokenOff';

/**
 * A plan with at most `target` bars, or `none` when there is none, by depth-first search. Each step fills one bar: with
 * the largest piece left, and so full that no piece left still fits (a piece that fits could be moved there from a
 * later bar). Bars with the same largest piece come in falling order. A branch ends where the waste is more than the
 * target allows, where the relaxation needs more bars than are left, or where the same pieces were left before.
 */
export function search(packing: Packing, target: number, pool: Bar[], steps: Steps): Found {
	const { room, sizes } = packing;
	const failed = new Set<string>();

	const visit = (counts: readonly number[], barsLeft: number, before: Bar | null): Found => {
		const rest = { ...packing, counts };
		if (lengthBound(rest) > barsLeft) return 'none';
		const key = `${String(barsLeft)}:${counts.join(',')}`;
		if (failed.has(key)) return 'none';
		const plan = greedyPlan(rest, barsLeft, 1, steps);
		if (plan.length <= barsLeft) return { plan };
		const { bound, shares } = relax(rest, pool, barsLeft, barsLeft + 1, steps);
		if (bound > barsLeft) {
			failed.add(key);
			return 'none';
		}
		const waste = barsLeft * room - sum(sizes.map((size, i) => size * (counts[i] ?? 0)));
		const fillings = fullFillings(rest, waste, before, steps);
		if (fillings === null) return 'brokenOff';
		const shareOf = new Map(shares.map(({ bar, share }) => [bar.join(','), share]));
		const ranked = fillings
			.map((bar) => ({ bar, share: shareOf.get(bar.join(',')) ?? 0, filled: lengthOf(bar, sizes) }))
			.sort((a, b) => b.share - a.share || b.filled - a.filled);
		for (const { bar } of ranked) {
			const after = [...counts];
			takeOut(bar, after);
			const found = visit(after, barsLeft - 1, bar);
			if (found === 'brokenOff') return found;
			if (found !== 'none') return { plan: [bar, ...found.plan] };
		}
		// Where an order was asked for, fillings were left out, and another order may succeed.
		if (before === null || counts[before[0] ?? 0] === 0) failed.add(key);
		return 'none';
	};
	return visit(packing.counts, target, null);
}

/** Fillings kept for one bar of the search. */
const mostFillings = 20_000;

/**
 * Every filling with the largest piece left that no other piece left fits into, wasting no more than `waste` and not
 * coming before `before` in falling order. Null where there are too many.
 */
function fullFillings(
	{ room, sizes, counts }: Packing,
	waste: number,
	before: Bar | null,
	steps: Steps
): Bar[] | null {
	const left = [...counts];
	const fillings: Bar[] = [];
	const bar: number[] = [];
	const take = (size: number, open: number): boolean => {
		left[size] = (left[size] ?? 0) - 1;
		bar.push(size);
		const going = visit(size, open - (sizes[size] ?? 0));
		bar.pop();
		left[size] = (left[size] ?? 0) + 1;
		return going;
	};
	const visit = (from: number, open: number): boolean => {
		if (!steps.take(left.length)) return false;
		const fitting = left.flatMap((count, size) => (count > 0 && (sizes[size] ?? 0) <= open ? [size] : []));
		if (fitting.length === 0 && open <= waste && !(before && comesBefore(bar, before)))
			fillings.push([...bar]);
		return fillings.length <= mostFillings && fitting.every((size) => size < from || take(size, open));
	};
	return take(
		left.findIndex((count) => count > 0),
		room
	)
		? fillings
		: null;
}

/** Whether `a` comes before `b` in falling order: both with the same largest piece, `a` with the larger one after it. */
function comesBefore(a: Bar, b: Bar): boolean {
	if (a[0] !== b[0]) return false;
	const at = a.findIndex((size, i) => size !== b[i]);
	return at >= 0 && (b[at] === undefined || (a[at] ?? 0) < b[at]);
}
