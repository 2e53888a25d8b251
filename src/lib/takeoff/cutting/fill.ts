/** The best filling of one bar: the bounded knapsack problem. */
import type { Bar, Packing, Steps } from './packing.ts';

export interface Filling {
	/** Null where no filling is worth more than what was to be beaten. */
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
 * @param beat only fillings worth more than this count
 * @param patience steps to go on after a filling has been found
 */
export function fillBar(
	{ room, sizes, counts }: Packing,
	worth: ArrayLike<number>,
	beat: number,
	patience: number,
	steps: Steps
): Filling {
	const order = sizes
		.map((_, i) => i)
		.filter((i) => (worth[i] ?? 0) > 0 && (counts[i] ?? 0) > 0 && (sizes[i] ?? 0) <= room)
		.sort((a, b) => (worth[b] ?? 0) / (sizes[b] ?? 1) - (worth[a] ?? 0) / (sizes[a] ?? 1) || a - b);
	const size = Float64Array.from(order, (i) => sizes[i] ?? 0);
	const value = Float64Array.from(order, (i) => worth[i] ?? 0);
	const density = value.map((v, k) => v / (size[k] ?? 1));
	const left = Int32Array.from(order, (i) => counts[i] ?? 0);
	/** Smallest size from here on. */
	const least = new Float64Array(order.length + 1).fill(Infinity);
	for (let k = order.length - 1; k >= 0; k--) least[k] = Math.min(size[k] ?? 0, least[k + 1] ?? 0);

	const taken: number[] = [];
	let found: number[] | null = null;
	let most = beat;
	let patient = Infinity;
	let best = true;

	const visit = (from: number, open: number, total: number): boolean => {
		let looked = 0;
		let going = true;
		for (let k = from; k < order.length && open >= (least[k] ?? 0); k++) {
			looked++;
			// Worths are whole, so a better filling is worth at least one more; the margin covers the division.
			if (total + open * (density[k] ?? 0) < most + 1 - 1e-3) break;
			const one = size[k] ?? 0;
			if (one > open || (left[k] ?? 0) === 0) continue;
			left[k] = (left[k] ?? 0) - 1;
			taken.push(k);
			const now = total + (value[k] ?? 0);
			if (now > most) {
				most = now;
				found = [...taken];
				patient = Math.min(patient, patience);
			}
			going = visit(k, open - one, now);
			taken.pop();
			left[k] = (left[k] ?? 0) + 1;
			if (!going) break;
		}
		patient -= looked;
		if (!steps.take(looked) || patient < 0) best = false;
		return going && best;
	};
	visit(0, room, 0);
	const bar = (found as number[] | null)?.map((k) => order[k] ?? 0).sort((a, b) => a - b) ?? null;
	return { bar, worth: most, best };
}
