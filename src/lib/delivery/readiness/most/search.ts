/** The search for the most openings of one cluster: branch and bound over how many of each group are chosen. */
import type { Steps } from '../../../takeoff/cutting/packing.ts';
import { DualSimplex } from './dual-simplex.ts';
import { boundOf, enoughFor, takeFrom, whole, wholePrices, type Rows } from './rows.ts';

export interface Found {
	/** How many of each group; null when nothing reaches what was asked for. */
	readonly chosen: Float64Array | null;
	/** Nothing is more than this. */
	readonly bound: number;
	/** The search came to its end. */
	readonly finished: boolean;
}

/** Numbers in the largest tableau that is worked with; beyond it, or with few steps, prices are walked to. */
const largest = 4_000_000;

export const total = (counts: Float64Array): number => counts.reduce((sum, count) => sum + count, 0);

/** Exchanges after which the tableau is made afresh, since what was rounded adds up. */
const worn = 2_000;

interface Bounds {
	readonly low: Float64Array;
	readonly high: Float64Array;
}

export class Search {
	readonly #rows: Rows;
	readonly #steps: Steps;
	readonly #levels: Bounds[] = [];
	/** Goes on from any bounds to any others, so one serves the whole search. */
	readonly #simplex: DualSimplex | null;
	readonly #rootLow: Float64Array;
	readonly #rootHigh: Float64Array;
	readonly #prices: Float64Array;
	readonly #wholePrices: Float64Array;
	readonly #gains: Float64Array;
	readonly #values: Float64Array;
	readonly #left: Float64Array;
	#best: Float64Array | null = null;
	/** Less than this is of no interest. */
	#target = 1;
	#enough = Infinity;
	#bound = Infinity;

	constructor(rows: Rows, steps: Steps) {
		const { m, n } = rows;
		this.#rows = rows;
		this.#steps = steps;
		this.#rootLow = new Float64Array(n);
		this.#rootHigh = new Float64Array(n);
		this.#prices = new Float64Array(m);
		this.#wholePrices = new Float64Array(m);
		this.#gains = new Float64Array(n);
		this.#values = new Float64Array(n);
		this.#left = new Float64Array(m);
		const small = m * n <= Math.min(largest, steps.left / 8) && steps.take(m * n);
		this.#simplex = small ? new DualSimplex(rows) : null;
	}

	/**
	 * @param low at least so many of each group
	 * @param high at most so many
	 * @param target fewer are of no interest
	 * @param enough the search ends when so many are found
	 */
	run(low: Float64Array, high: Float64Array, target: number, enough: number): Found {
		this.#rootLow.set(low);
		this.#rootHigh.set(high);
		this.#best = null;
		this.#target = target;
		this.#enough = enough;
		this.#bound = Infinity;
		if (!this.#simplex) return { ...this.#withoutTableau(low, high), finished: false };
		const root = this.#level(0);
		root.low.set(low);
		root.high.set(high);
		const finished = this.#visit(this.#simplex, 0);
		const bound = finished ? this.#target - 1 : Math.min(this.#bound, total(high));
		return { chosen: this.#best, bound, finished };
	}

	#level(depth: number): Bounds {
		const { n } = this.#rows;
		const level = this.#levels[depth] ?? { low: new Float64Array(n), high: new Float64Array(n) };
		this.#levels[depth] = level;
		return level;
	}

	/** False when the steps were used up before the end. */
	#visit(simplex: DualSimplex, depth: number): boolean {
		const { low, high } = this.#level(depth);
		const { m, n } = this.#rows;
		for (let round = 0; ; round++) {
			if (!this.#steps.take(4 * n)) return false;
			if (!this.#narrow(low, high)) return true;
			if (simplex.exchanges > worn) simplex.begin();
			simplex.run(low, high, 2 * (m + n) + 20, this.#steps);
			simplex.prices(this.#prices);
			wholePrices(this.#prices, this.#wholePrices);
			const bound = boundOf(this.#rows, low, high, this.#wholePrices, this.#gains);
			if (depth === 0) this.#bound = Math.min(this.#bound, Math.floor(bound / whole));
			if (bound < this.#target * whole) return true;
			simplex.solution(this.#values);
			this.#roundOff(low, high);
			if (this.#done() || bound < this.#target * whole) return true;
			if (round >= 3 || !this.#fix(low, high, bound)) break;
		}
		const group = this.#mostDivided(low, high);
		if (group < 0) return true;
		const value = this.#values[group] ?? 0;
		const below = Math.min((high[group] ?? 0) - 1, Math.max(low[group] ?? 0, Math.floor(value)));
		for (const up of [true, false]) {
			const child = this.#level(depth + 1);
			child.low.set(low);
			child.high.set(high);
			if (up) child.low[group] = below + 1;
			else child.high[group] = below;
			if (!this.#visit(simplex, depth + 1)) return false;
			if (this.#done()) return true;
		}
		return true;
	}

	#done(): boolean {
		return this.#best !== null && this.#target > this.#enough;
	}

	/**
	 * Draws the bounds together; false when nothing is left between them. Besides what is left of each row: of two groups
	 * of which one needs no less of anything the lighter is chosen first, since a heavier opening may always give way.
	 */
	#narrow(low: Float64Array, high: Float64Array): boolean {
		const { n, needs, heavier } = this.#rows;
		for (let changed = true; changed;) {
			changed = false;
			const left = this.#leftAfter(low);
			if (left.some((amount) => amount < 0)) return false;
			for (let light = 0; light < n; light++) {
				const least = low[light] ?? 0;
				const most = Math.min(high[light] ?? 0, least + enoughFor(left, needs[light]));
				if (most < least) return false;
				high[light] = most;
				const all = this.#rootHigh[light] ?? 0;
				for (const heavy of heavier[light] ?? []) {
					const first = this.#rootLow[heavy] ?? 0;
					if ((low[heavy] ?? 0) > first) {
						if (most < all) return false;
						if ((low[light] ?? 0) < all) {
							low[light] = all;
							changed = true;
						}
					}
					if (most < all && (high[heavy] ?? 0) > first) high[heavy] = first;
				}
			}
		}
		return true;
	}

	#leftAfter(counts: Float64Array): Float64Array {
		this.#left.set(this.#rows.supply);
		counts.forEach((count, group) => {
			if (count > 0) takeFrom(this.#left, this.#rows.needs[group], count);
		});
		return this.#left;
	}

	/** Rounds the fractions down and fills up with what is left, the largest fractions first. */
	#roundOff(low: Float64Array, high: Float64Array): void {
		const { needs } = this.#rows;
		const counts = this.#values.map((value, group) => {
			const least = low[group] ?? 0;
			return Math.max(least, Math.min(high[group] ?? 0, Math.floor(value + 1e-6)));
		});
		const left = this.#leftAfter(counts);
		// Only rounding can have brought too much together; then what stands at least is taken instead.
		if (left.some((amount) => amount < 0)) {
			counts.set(low);
			this.#leftAfter(counts);
		}
		const fraction = (group: number): number => (this.#values[group] ?? 0) - (counts[group] ?? 0);
		const order = Array.from(counts.keys()).sort((a, b) => fraction(b) - fraction(a) || a - b);
		for (const group of order) {
			const more = Math.min(
				(this.#rootHigh[group] ?? 0) - (counts[group] ?? 0),
				enoughFor(left, needs[group])
			);
			if (more <= 0) continue;
			counts[group] = (counts[group] ?? 0) + more;
			takeFrom(left, needs[group], more);
		}
		const found = total(counts);
		if (found < this.#target) return;
		this.#best = counts;
		this.#target = found + 1;
	}

	/** Bounds that no solution worth having goes beyond, by the gains of the proof. False when nothing changed. */
	#fix(low: Float64Array, high: Float64Array, bound: number): boolean {
		const spare = bound - this.#target * whole;
		let changed = false;
		this.#gains.forEach((gain, group) => {
			const [least, most] = [low[group] ?? 0, high[group] ?? 0];
			if (gain === 0 || least === most) return;
			const away = Math.floor(spare / Math.abs(gain));
			if (away >= most - least) return;
			changed = true;
			if (gain > 0) low[group] = most - away;
			else high[group] = least + away;
		});
		return changed;
	}

	/** The group whose value is furthest from a whole number; any that is not settled where all are whole; -1 for none. */
	#mostDivided(low: Float64Array, high: Float64Array): number {
		let found = -1;
		let furthest = -1;
		this.#values.forEach((value, group) => {
			if (low[group] === high[group]) return;
			const off = Math.abs(value - Math.round(value)) * (1 + (this.#rows.needs[group]?.length ?? 0) / 8);
			if (off > furthest) [furthest, found] = [off, group];
		});
		return found;
	}

	/** For what is too large for the tableau: one after the other, and a bound from prices that are walked to. */
	#withoutTableau(low: Float64Array, high: Float64Array): { chosen: Float64Array | null; bound: number } {
		const { m, n, needs, supply } = this.#rows;
		const narrowLow = Float64Array.from(low);
		const narrowHigh = Float64Array.from(high);
		let bound = total(high);
		for (let round = 0; round < 200 && this.#steps.take(4 * (m + n)); round++) {
			wholePrices(this.#prices, this.#wholePrices);
			const reached = boundOf(this.#rows, low, high, this.#wholePrices, this.#gains);
			bound = Math.min(bound, Math.floor(reached / whole));
			const short = Float64Array.from(supply);
			this.#gains.forEach((gain, group) => {
				if (gain > 0) takeFrom(short, needs[group], high[group] ?? 0);
			});
			const length = short.reduce((sum, amount) => sum + amount * amount, 0);
			if (length === 0) break;
			const step = (0.05 * reached) / whole / length;
			short.forEach((amount, row) => {
				this.#prices[row] = Math.max(0, (this.#prices[row] ?? 0) - step * amount);
			});
		}
		if (this.#narrow(narrowLow, narrowHigh)) {
			this.#values.set(this.#gains);
			this.#roundOff(narrowLow, narrowHigh);
		}
		return { chosen: this.#best, bound };
	}
}
