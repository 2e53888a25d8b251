/** The best filling of one bar: the bounded knapsack problem. */
import type { Bar, Packing, Steps } from './packing.ts';

export interface Filling {
	/** Null where no filling is worth anything. */
	readonly bar: Bar | null;
	readonly worth: number;
	/** False when the search was broken off, so that a better one may exist. */
	readonly best: boolean;
}

/**
 * The filling of one bar with the largest total worth, by depth-first search: sizes by worth per length, a branch given
 * up as soon as the rest of the bar filled with the densest size left would not beat the best so far.
 *
 * @param worth of each size, whole numbers ≥ 0 (sizes worth nothing are left out)
 * @param patience sizes looked at before the search is broken off
 */
export function fillBar(
	{ room, sizes, counts }: Packing,
	worth: ArrayLike<number>,
	patience: number,
	steps: Steps
): Filling {
	const order = sizes
		.map((size, i) => ({ i, size, value: worth[i] ?? 0, density: (worth[i] ?? 0) / size }))
		.filter(({ i, value }) => value > 0 && (counts[i] ?? 0) > 0)
		.sort((a, b) => b.density - a.density || a.i - b.i);
	const size = Float64Array.from(order, (one) => one.size);
	const value = Float64Array.from(order, (one) => one.value);
	const density = Float64Array.from(order, (one) => one.density);
	const left = Int32Array.from(order, ({ i }) => counts[i] ?? 0);
	/** Smallest size from here on. */
	const least = new Float64Array(order.length + 1).fill(Infinity);
	for (let k = order.length - 1; k >= 0; k--) least[k] = Math.min(size[k] ?? 0, least[k + 1] ?? 0);

	const taken: number[] = [];
	let found: readonly number[] = [];
	let most = 0;
	let patient = patience;
	const visit = (from: number, open: number, total: number): void => {
		for (let k = from; k < order.length && open >= (least[k] ?? 0) && patient > 0; k++) {
			patient--;
			// Worths are whole, so a better filling is worth at least one more; the margin covers the division.
			if (total + open * (density[k] ?? 0) < most + 1 - 1e-3) return;
			const one = size[k] ?? 0;
			if (one > open || left[k] === 0) continue;
			left[k] = (left[k] ?? 0) - 1;
			taken.push(k);
			const now = total + (value[k] ?? 0);
			if (now > most) {
				most = now;
				found = [...taken];
			}
			visit(k, open - one, now);
			taken.pop();
			left[k] = (left[k] ?? 0) + 1;
		}
	};
	visit(0, room, 0);
	const going = steps.take(4 * (patience - patient) + 16 * order.length);
	const bar = found.map((k) => order[k]?.i ?? 0).sort((a, b) => a - b);
	return { bar: bar.length > 0 ? bar : null, worth: most, best: going && patient > 0 };
}
