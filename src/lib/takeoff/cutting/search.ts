/** Plans with a given number of bars: looked for fast, and then looked for until there is one or there cannot be one. */
import { lengthBound } from './bounds.ts';
import { firstFitDecreasing, fullestFirst } from './greedy.ts';
import { sum, takeOut, timesIn, type Bar, type Packing, type Steps } from './packing.ts';
import { relax } from './relaxation.ts';

/** The better of the plans made in one go. */
export function greedyPlan(packing: Packing, steps: Steps): readonly Bar[] {
	const plans = [firstFitDecreasing(packing), fullestFirst(packing, steps)];
	return plans.reduce((least, plan) => (plan.length < least.length ? plan : least));
}

/**
 * Rounds the relaxation: whole shares are cut, the rest is relaxed again; where nothing is whole, the largest shares
 * are. After every round the rest is also planned in one go.
 *
 * @returns the best plan found
 */
export function dive(packing: Packing, target: number, pool: Bar[], steps: Steps): readonly Bar[] | null {
	const left = [...packing.counts];
	const bars: Bar[] = [];
	let best: readonly Bar[] | null = null;
	for (;;) {
		const rest = { ...packing, counts: left };
		const plan = [...bars, ...greedyPlan(rest, steps)];
		if (best === null || plan.length < best.length) best = plan;
		if (best.length <= target || !steps.take(0)) return best;
		const { bound, shares } = relax(rest, pool, target - bars.length, steps);
		if (bars.length + bound > target) return best;
		const before = bars.length;
		const cut = (bar: Bar, times: number): void => {
			for (let i = 0; i < times; i++) bars.push(bar);
			takeOut(bar, left, times);
		};
		for (const { bar, share } of shares) cut(bar, Math.min(Math.floor(share + 1e-3), timesIn(bar, left)));
		if (bars.length === before)
			for (const { bar, share } of shares)
				if ((bars.length === before || share > 0.7) && timesIn(bar, left) > 0) cut(bar, 1);
		if (bars.length === before) return best;
	}
}

/** How a search ended. */
export type Found = { readonly plan: readonly Bar[] } | 'none' | 'brokenOff';

/**
 * A plan with at most `target` bars, or `none` when there is none, by depth-first search. Each step fills one bar: with
 * the largest piece left, and so full that none of the pieces left would still fit (a piece that fits can be moved
 * there from a later bar). Bars with the same largest piece come in falling order. A branch ends where the waste is more
 * than the target allows, where the relaxation needs more bars than are left, or where the same pieces were left before.
 */
export function search(packing: Packing, target: number, pool: Bar[], steps: Steps): Found {
	const failed = new Set<string>();
	const { room, sizes } = packing;

	const visit = (counts: readonly number[], barsLeft: number, before: Bar | null): Found => {
		const rest = { ...packing, counts };
		if (lengthBound(rest) > barsLeft) return 'none';
		const key = `${String(barsLeft)}:${counts.join(',')}`;
		if (failed.has(key)) return 'none';
		const quick = greedyPlan(rest, steps);
		if (quick.length <= barsLeft) return { plan: quick };
		const { bound, shares } = relax(rest, pool, barsLeft, steps);
		if (bound > barsLeft) {
			failed.add(key);
			return 'none';
		}
		const waste = barsLeft * room - sum(sizes.map((size, i) => size * (counts[i] ?? 0)));
		const fillings = fullFillings(rest, waste, before, steps);
		if (fillings === null) return 'brokenOff';
		const share = new Map(shares.map((one) => [one.bar.join(','), one.share]));
		const ranked = fillings
			.map((one) => ({ ...one, share: share.get(one.bar.join(',')) ?? 0 }))
			.sort((a, b) => b.share - a.share || a.waste - b.waste);
		for (const { bar } of ranked) {
			const after = [...counts];
			takeOut(bar, after);
			const found = visit(after, barsLeft - 1, bar);
			if (found === 'brokenOff') return found;
			if (found !== 'none') return { plan: [bar, ...found.plan] };
		}
		// With an order asked for, only the fillings after `before` were tried.
		if (before === null || counts[before[0] ?? 0] === 0) failed.add(key);
		return 'none';
	};
	return visit(packing.counts, target, null);
}

/** Every filling with the largest piece left that no piece left still fits into, wasting no more than `waste`. */
function fullFillings(
	{ room, sizes, counts }: Packing,
	waste: number,
	before: Bar | null,
	steps: Steps
): { bar: Bar; waste: number }[] | null {
	const left = [...counts];
	const largest = left.findIndex((count) => count > 0);
	const fillings: { bar: Bar; waste: number }[] = [];
	const bar: number[] = [];
	/** Sizes passed over although one was left: the filling is full only where none of them fits. */
	const take = (size: number, open: number): boolean => {
		left[size] = (left[size] ?? 0) - 1;
		bar.push(size);
		const going = visit(size, open - (sizes[size] ?? 0));
		bar.pop();
		left[size] = (left[size] ?? 0) + 1;
		return going;
	};
	const visit = (from: number, open: number): boolean => {
		if (!steps.take(1)) return false;
		let fits = false;
		for (let i = 0; i < left.length; i++) {
			if ((left[i] ?? 0) === 0 || (sizes[i] ?? 0) > open) continue;
			fits = true;
			if (i < from) continue;
			if (!take(i, open)) return false;
		}
		if (!fits && open <= waste && (before === null || !comesBefore(bar, before)))
			fillings.push({ bar: [...bar], waste: open });
		return true;
	};
	if (largest < 0) return fillings;
	return take(largest, room) ? fillings : null;
}

/** Whether bar `a` comes before `b` in falling order of their pieces. */
function comesBefore(a: Bar, b: Bar): boolean {
	if (a[0] !== b[0]) return false;
	for (let i = 0; i < a.length; i++) {
		const [x, y] = [a[i] ?? 0, b[i]];
		if (y === undefined || x < y) return true;
		if (x > y) return false;
	}
	return false;
}
