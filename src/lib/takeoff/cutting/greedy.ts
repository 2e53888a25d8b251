/** Plans made bar by bar, without taking a bar back. */
import { fillBar } from './fill.ts';
import { lengthOf, runsOf, sum, takeOut, timesIn, type Bar, type Packing, type Steps } from './packing.ts';

/**
 * First-fit-decreasing: the largest piece first, each into the first bar that has room for it. What a careful person
 * does by hand; never more than 11/9 of the fewest bars and 6/9 of one more (Dósa, Li, Han and Tuza 2013).
 */
export function firstFitDecreasing({ room, sizes, counts }: Packing): Bar[] {
	const bars: number[][] = [];
	const open: number[] = [];
	sizes.forEach((size, i) => {
		let at = 0;
		for (let piece = 0; piece < (counts[i] ?? 0); piece++) {
			while (at < bars.length && (open[at] ?? 0) < size) at++;
			const bar = bars[at];
			if (bar) bar.push(i);
			else bars.push([i]);
			open[at] = (open[at] ?? room) - size;
		}
	});
	return bars;
}

/** Sizes looked at for one bar. */
const patience = 3000;

/**
 * Sequential value correction (Mukhacheva; Belov and Scheithauer 2007): bar after bar is filled with the largest worth.
 * A piece is worth its length and a little more the longer it is; one that ended on a bar with much waste is worth more
 * in the next round, so that it finds better company there.
 *
 * @param target no more rounds once a plan has this few bars
 * @returns the best plan of all rounds
 */
function valuedPlan(packing: Packing, target: number, rounds: number, steps: Steps): readonly Bar[] | null {
	const { room, sizes, counts } = packing;
	const lengthWorth = sizes.map((size) => (size / room) * (1 + size / room / 16));
	const worth = [...lengthWorth];
	let best: readonly Bar[] | null = null;
	for (let round = 0; round < rounds; round++) {
		const left = [...counts];
		const bars: Bar[] = [];
		for (;;) {
			const whole = worth.map((w) => Math.max(1, Math.round(w * 2 ** 20)));
			const { bar } = fillBar({ room, sizes, counts: left }, whole, patience, steps);
			if (bar === null) break;
			if (steps.left <= 0) return best;
			const times = timesIn(bar, left);
			for (let i = 0; i < times; i++) bars.push(bar);
			const filled = lengthOf(bar, sizes) / room;
			for (const { size, count } of runsOf(bar)) {
				const wanted = (counts[size] ?? 0) + (left[size] ?? 0);
				const weight = (count * times) / (count * times + wanted);
				const corrected = (lengthWorth[size] ?? 0) / filled;
				worth[size] = (1 - weight) * (worth[size] ?? 0) + weight * corrected;
			}
			takeOut(bar, left, times);
		}
		if (best === null || bars.length < best.length) best = bars;
		if (best.length <= target) break;
	}
	return best;
}

/** The best plan that can be had fast. */
export function greedyPlan(packing: Packing, target: number, rounds: number, steps: Steps): readonly Bar[] {
	const first = firstFitDecreasing(packing);
	steps.take(sum(packing.counts));
	if (first.length <= target) return first;
	const valued = valuedPlan(packing, target, rounds, steps);
	return valued !== null && valued.length < first.length ? valued : first;
}
