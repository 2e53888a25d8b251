/** What the cutting of stock comes to once cuts are part of the pieces: filling equal bars with sizes. */

/**
 * Sizes to be packed into bars. A cut of width k lies between two pieces, so pieces p₁ … pₙ fit a stock length S when
 * Σp + (n − 1)·k ≤ S, that is when Σ(p + k) ≤ S + k. Sizes are p + k and the room of a bar is S + k, in whole units.
 */
export interface Packing {
	readonly room: number;
	/** Each size once, largest first; every one from 1 to `room`. */
	readonly sizes: readonly number[];
	/** How many of each size. */
	readonly counts: readonly number[];
}

/** What is on one bar: positions in `sizes`, largest piece first, one entry a piece. */
export type Bar = readonly number[];

/**
 * Counts the work, so that it ends at the same place on every machine. A step is about one look at one size, or a few
 * multiplications.
 */
export class Steps {
	#left: number;

	constructor(most: number) {
		this.#left = most;
	}

	get left(): number {
		return this.#left;
	}

	/** False when more was taken than there was. */
	take(count: number): boolean {
		this.#left -= count;
		return this.#left > 0;
	}
}

export const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0);

export const lengthOf = (bar: Bar, sizes: readonly number[]): number =>
	sum(bar.map((size) => sizes[size] ?? 0));

/** How often each size is on a bar, as runs: `[0, 0, 3]` is two of size 0 and one of size 3. */
export function runsOf(bar: Bar): { size: number; count: number }[] {
	const runs: { size: number; count: number }[] = [];
	for (const size of bar) {
		const last = runs.at(-1);
		if (last?.size === size) last.count += 1;
		else runs.push({ size, count: 1 });
	}
	return runs;
}

/** How many times a bar can be filled like this from these counts. */
export const timesIn = (bar: Bar, counts: readonly number[]): number =>
	Math.min(...runsOf(bar).map(({ size, count }) => Math.floor((counts[size] ?? 0) / count)));

/** Takes the pieces of `times` such bars out of the counts. */
export function takeOut(bar: Bar, counts: number[], times = 1): void {
	for (const size of bar) counts[size] = (counts[size] ?? 0) - times;
}
