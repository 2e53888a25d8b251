/** Plans made in one go, without looking back. */
import { fillBar } from './fill.ts';
import { runsOf, sum, takeOut, timesIn, type Bar, type Packing, type Steps } from './packing.ts';

/**
 * First-fit-decreasing: the largest piece first, each into the first bar that has room for it. What a careful person
 * does by hand; at most 11/9 of the fewest bars and 6/9 of one (Dósa, Li, Han and Tuza 2013).
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

/** Steps spent on filling one bar. */
const patience = 4000;

/** Bar after bar: the largest piece left, and with it whatever fills the bar best. */
export function fullestFirst({ room, sizes, counts }: Packing, steps: Steps): Bar[] {
	const left = [...counts];
	const bars: Bar[] = [];
	let largest = 0;
	for (;;) {
		while (largest < left.length && left[largest] === 0) largest++;
		if (largest === left.length) return bars;
		left[largest] = (left[largest] ?? 0) - 1;
		const rest = { room: room - (sizes[largest] ?? 0), sizes, counts: left };
		const { bar } = fillBar(rest, sizes, 0, patience, steps);
		left[largest] = (left[largest] ?? 0) + 1;
		const full = [largest, ...(bar ?? [])];
		const times = timesIn(full, left);
		for (let i = 0; i < times; i++) bars.push(full);
		takeOut(full, left, times);
	}
}

/** Whether every piece is on one bar and no bar is overfull. */
export function isPlan({ room, sizes, counts }: Packing, bars: readonly Bar[]): boolean {
	const left = [...counts];
	for (const bar of bars) takeOut(bar, left);
	return (
		left.every((count) => count === 0) &&
		bars.every((bar) => sum(runsOf(bar).map(({ size, count }) => (sizes[size] ?? 0) * count)) <= room)
	);
}
