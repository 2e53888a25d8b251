/**
 * Fractions of bars: the linear relaxation of Gilmore and Gomory (1961). How many bars of each filling, fractions
 * allowed, so that every piece is cut; fillings are made as they are needed (column generation). It gives a bound that is
 * almost always the fewest bars, and the fillings a good plan is made of.
 */
import { fillBar } from './fill.ts';
import { runsOf, sum, timesIn, type Bar, type Packing, type Steps } from './packing.ts';

export interface Relaxation {
	/** Whole bars that any plan of these pieces needs; 0 where the work stopped before it was proved. */
	readonly bound: number;
	/** Fillings used and how much of a bar each, the largest share first. */
	readonly shares: readonly { readonly bar: Bar; readonly share: number }[];
}

/** A bar is worth this much when a piece's share of it is written as a whole number, so that the bound is exact. */
const barWorth = 2 ** 30;
const tolerance = 1e-9;

/** Steps for pricing on after a filling that helps has been found. */
const patience = 2000;

/** Revised simplex method with the inverse of the basis kept whole. Rows are sizes that are wanted. */
class Simplex {
	readonly #m: number;
	readonly #inverse: Float64Array;
	readonly #x: Float64Array;
	/** Filling in each place of the basis, or null for a surplus. */
	readonly #basis: (Bar | null)[];
	readonly price: Float64Array;

	/** Begins with bars of one size each. */
	constructor(wanted: readonly number[], most: readonly number[]) {
		const m = wanted.length;
		this.#m = m;
		this.#inverse = new Float64Array(m * m);
		this.#x = new Float64Array(m);
		this.price = new Float64Array(m);
		this.#basis = most.map((n, r) => Array.from({ length: n }, () => r));
		most.forEach((n, r) => {
			this.#inverse[r * m + r] = 1 / n;
			// Unequal hair's breadths more of everything: no two rows ever tie, so no pivot is made twice.
			this.#x[r] = ((wanted[r] ?? 0) + 1e-5 * ((r * 0.618034) % 1)) / n;
			this.price[r] = 1 / n;
		});
	}

	get bars(): number {
		let total = 0;
		for (let i = 0; i < this.#m; i++) if (this.#basis[i]) total += this.#x[i] ?? 0;
		return total;
	}

	worthOf(bar: Bar): number {
		let total = 0;
		for (const r of bar) total += this.price[r] ?? 0;
		return total;
	}

	/** Brings a filling into the basis, or (null) the surplus of a row. */
	enter(bar: Bar | null, row = 0): boolean {
		const m = this.#m;
		const inverse = this.#inverse;
		const runs = bar ? runsOf(bar) : [{ size: row, count: -1 }];
		const direction = new Float64Array(m);
		for (const { size, count } of runs)
			for (let i = 0; i < m; i++)
				direction[i] = (direction[i] ?? 0) + count * (inverse[i * m + size] ?? 0);
		let leaving = -1;
		let ratio = Infinity;
		for (let i = 0; i < m; i++) {
			const d = direction[i] ?? 0;
			if (d <= tolerance) continue;
			const step = (this.#x[i] ?? 0) / d;
			if (step < ratio) {
				ratio = step;
				leaving = i;
			}
		}
		if (leaving < 0) return false;
		const gain = (bar ? 1 : 0) - (bar ? this.worthOf(bar) : -(this.price[row] ?? 0));
		const pivot = direction[leaving] ?? 1;
		const pivotRow = inverse.subarray(leaving * m, (leaving + 1) * m);
		for (let k = 0; k < m; k++) pivotRow[k] = (pivotRow[k] ?? 0) / pivot;
		for (let i = 0; i < m; i++) {
			const d = direction[i] ?? 0;
			if (i === leaving || d === 0) continue;
			const at = i * m;
			for (let k = 0; k < m; k++) inverse[at + k] = (inverse[at + k] ?? 0) - d * (pivotRow[k] ?? 0);
			this.#x[i] = Math.max(0, (this.#x[i] ?? 0) - d * ratio);
		}
		this.#x[leaving] = ratio;
		this.#basis[leaving] = bar;
		for (let k = 0; k < m; k++) this.price[k] = (this.price[k] ?? 0) + gain * (pivotRow[k] ?? 0);
		return true;
	}

	shares(): { bar: Bar; share: number }[] {
		return this.#basis.flatMap((bar, i) => {
			const share = this.#x[i] ?? 0;
			return bar && share > 1e-4 ? [{ bar, share }] : [];
		});
	}
}

/**
 * @param pool fillings made before; new ones are added
 * @param enough the work may stop as soon as no bound above this can come of it
 */
export function relax(packing: Packing, pool: Bar[], enough: number, steps: Steps): Relaxation {
	const rows = packing.counts.flatMap((count, i) => (count > 0 ? [i] : []));
	const row = new Map(rows.map((size, r) => [size, r]));
	const m = rows.length;
	const inner: Packing = {
		room: packing.room,
		sizes: rows.map((i) => packing.sizes[i] ?? 0),
		counts: rows.map((i) => packing.counts[i] ?? 0)
	};
	const simplex = new Simplex(
		inner.counts,
		inner.counts.map((count, r) => Math.min(count, Math.floor(inner.room / (inner.sizes[r] ?? 1))))
	);
	const known = pool
		.filter((bar) => timesIn(bar, packing.counts) > 0)
		.map((bar) => bar.map((size) => row.get(size) ?? 0));
	const outer = (bar: Bar): Bar => bar.map((r) => rows[r] ?? 0);
	const ended = (bound: number): Relaxation => ({
		bound,
		shares: simplex
			.shares()
			.map(({ bar, share }) => ({ bar: outer(bar), share }))
			.sort((a, b) => b.share - a.share)
	});
	for (;;) {
		if (simplex.bars <= enough) return ended(0);
		if (!steps.take(m * (m / 8 + 1) + known.length)) return ended(0);
		let entering: Bar | null = null;
		let most = 1 + 1e-7;
		for (const bar of known) {
			const worth = simplex.worthOf(bar);
			if (worth > most) {
				most = worth;
				entering = bar;
			}
		}
		if (entering) {
			if (!simplex.enter(entering)) return ended(0);
			continue;
		}
		let cheapest = -1;
		let price = -tolerance;
		simplex.price.forEach((p, r) => {
			if (p < price) {
				price = p;
				cheapest = r;
			}
		});
		if (cheapest >= 0) {
			if (!simplex.enter(null, cheapest)) return ended(0);
			continue;
		}
		const worth = Array.from(simplex.price, (p) => Math.max(0, Math.floor(p * barWorth)));
		const { bar, best } = fillBar(inner, worth, barWorth, patience, steps);
		if (bar && simplex.worthOf(bar) > 1 + tolerance) {
			known.push(bar);
			pool.push(outer(bar));
			if (!simplex.enter(bar)) return ended(0);
			continue;
		}
		if (!best) return ended(0);
		// No filling is worth more than this, so a bar serves no more of the total worth: exact, whatever was rounded.
		const dearest = Math.max(barWorth, bar ? sum(bar.map((r) => worth[r] ?? 0)) : 0);
		return ended(Math.ceil(sum(worth.map((w, r) => w * (inner.counts[r] ?? 0))) / dearest));
	}
}
