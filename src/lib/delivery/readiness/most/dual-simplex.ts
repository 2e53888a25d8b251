/** The dual simplex method for variables between bounds, with the tableau kept whole. It only ever advises. */
import type { Steps } from '../../../takeoff/cutting/packing.ts';
import type { Rows } from './rows.ts';

const tolerance = 1e-7;
const leastPivot = 1e-6;

/**
 * Most Σx with needs·x ≤ supply and low ≤ x ≤ high. Bounds may change between two runs; every run goes on from
 * where the one before ended. Rounded numbers all through: a bound that has to hold is reckoned from `prices` in whole
 * numbers elsewhere.
 */
export class DualSimplex {
	readonly #m: number;
	readonly #n: number;
	/** Row by row: the columns are the variables outside the basis. */
	readonly #tableau: Float64Array;
	/** Variables in the basis, by row; slack of row k is n + k. */
	readonly #basic: Int32Array;
	readonly #value: Float64Array;
	readonly #outside: Int32Array;
	readonly #at: Float64Array;
	readonly #gain: Float64Array;
	readonly #ratios: Float64Array;

	readonly #rows: Rows;
	/** Since the tableau was made. */
	exchanges = 0;

	constructor(rows: Rows) {
		const { m, n } = rows;
		this.#rows = rows;
		this.#m = m;
		this.#n = n;
		this.#tableau = new Float64Array(m * n);
		this.#basic = new Int32Array(m);
		this.#value = new Float64Array(m);
		this.#outside = new Int32Array(n);
		this.#at = new Float64Array(n);
		this.#gain = new Float64Array(n);
		this.#ratios = new Float64Array(n);
		this.begin();
	}

	/** Makes the tableau afresh, with nothing but slack in the basis. */
	begin(): void {
		const [m, n] = [this.#m, this.#n];
		const { needs, supply } = this.#rows;
		this.exchanges = 0;
		this.#tableau.fill(0);
		needs.forEach((group, j) => {
			for (const [row, need] of group) this.#tableau[row * n + j] = need;
			// A hair’s breadth more for the first wanted, so that ties fall their way.
			this.#gain[j] = 1 + (1e-4 * (n - j)) / n;
			this.#outside[j] = j;
		});
		this.#value.set(supply);
		this.#at.fill(0);
		for (let i = 0; i < m; i++) this.#basic[i] = n + i;
	}

	/** Works until the solution keeps all bounds, `most` exchanges are made or the steps are used up. */
	run(low: Float64Array, high: Float64Array, most: number, steps: Steps): void {
		this.#settle(low, high);
		for (let exchange = 0; exchange < most; exchange++) {
			if (!steps.take((this.#m * (this.#n + 2)) / 8 + 1)) return;
			if (!this.#exchange(low, high)) return;
		}
	}

	/** Puts variables outside the basis onto the bound their gain asks for. */
	#settle(low: Float64Array, high: Float64Array): void {
		const n = this.#n;
		for (let j = 0; j < n; j++) {
			const variable = this.#outside[j] ?? 0;
			this.#move(j, variable >= n ? 0 : (((this.#gain[j] ?? 0) > 0 ? high : low)[variable] ?? 0));
		}
	}

	/** One exchange; false when nothing is out of bounds, or nothing may come in. */
	#exchange(low: Float64Array, high: Float64Array): boolean {
		const [m, n] = [this.#m, this.#n];
		let leaving = -1;
		let worst = tolerance;
		let bound = 0;
		for (let i = 0; i < m; i++) {
			const variable = this.#basic[i] ?? 0;
			const value = this.#value[i] ?? 0;
			const least = variable >= n ? 0 : (low[variable] ?? 0);
			const greatest = variable >= n ? Infinity : (high[variable] ?? 0);
			if (least - value > worst) [worst, leaving, bound] = [least - value, i, least];
			else if (value - greatest > worst) [worst, leaving, bound] = [value - greatest, i, greatest];
		}
		if (leaving < 0) return false;
		const sign = (this.#value[leaving] ?? 0) > bound ? 1 : -1;
		const entering = this.#enteringFor(leaving, sign, worst, low, high);
		if (entering < 0) return false;
		this.#pivot(leaving, entering, bound);
		this.exchanges++;
		return true;
	}

	/**
	 * What comes into the basis: the first whose gain would turn, after those whose whole span does not make up for what
	 * is out of bounds. They are moved to their other bound on the way. -1 where nothing may come in.
	 */
	#enteringFor(row: number, sign: number, excess: number, low: Float64Array, high: Float64Array): number {
		const n = this.#n;
		const start = row * n;
		const ratios = this.#ratios;
		let first = -1;
		for (let j = 0; j < n; j++) {
			ratios[j] = Infinity;
			const pull = (this.#tableau[start + j] ?? 0) * sign;
			if (pull < leastPivot && pull > -leastPivot) continue;
			const variable = this.#outside[j] ?? 0;
			const gain = this.#gain[j] ?? 0;
			if (variable < n) {
				if (low[variable] === high[variable]) continue;
				if (gain > 0 ? pull > 0 : pull < 0) continue;
			} else if (pull < 0) continue;
			ratios[j] = Math.abs(gain / pull);
			if (first < 0 || (ratios[j] ?? 0) < (ratios[first] ?? 0)) first = j;
		}
		if (first < 0) return -1;
		const reach = (j: number): number => {
			const variable = this.#outside[j] ?? 0;
			if (variable >= n) return Infinity;
			return Math.abs(this.#tableau[start + j] ?? 0) * ((high[variable] ?? 0) - (low[variable] ?? 0));
		};
		if (reach(first) >= excess) return first;
		const candidates = Array.from(ratios.keys()).filter((j) => ratios[j] !== Infinity);
		candidates.sort((a, b) => (ratios[a] ?? 0) - (ratios[b] ?? 0));
		let left = excess;
		let at = 0;
		for (; at < candidates.length - 1 && reach(candidates[at] ?? 0) < left; at++)
			left -= reach(candidates[at] ?? 0);
		for (const j of candidates.slice(0, at)) {
			const variable = this.#outside[j] ?? 0;
			const [least, most] = [low[variable] ?? 0, high[variable] ?? 0];
			this.#move(j, this.#at[j] === most ? least : most);
		}
		return candidates[at] ?? -1;
	}

	/** Moves a variable outside the basis; the basis makes up for it. */
	#move(j: number, to: number): void {
		const change = to - (this.#at[j] ?? 0);
		if (change === 0) return;
		this.#at[j] = to;
		for (let i = 0; i < this.#m; i++)
			this.#value[i] = (this.#value[i] ?? 0) - (this.#tableau[i * this.#n + j] ?? 0) * change;
	}

	#pivot(leaving: number, entering: number, bound: number): void {
		const [m, n] = [this.#m, this.#n];
		const tableau = this.#tableau;
		const start = leaving * n;
		const pivot = tableau[start + entering] ?? 1;
		const change = ((this.#value[leaving] ?? 0) - bound) / pivot;
		for (let j = 0; j < n; j++) if (j !== entering) tableau[start + j] = (tableau[start + j] ?? 0) / pivot;
		tableau[start + entering] = 1 / pivot;
		for (let i = 0; i < m; i++) {
			if (i === leaving) continue;
			const row = i * n;
			const factor = tableau[row + entering] ?? 0;
			if (factor === 0) continue;
			this.#value[i] = (this.#value[i] ?? 0) - factor * change;
			tableau[row + entering] = 0;
			for (let j = 0; j < n; j++)
				tableau[row + j] = (tableau[row + j] ?? 0) - factor * (tableau[start + j] ?? 0);
		}
		const gain = this.#gain[entering] ?? 0;
		this.#gain[entering] = 0;
		for (let j = 0; j < n; j++) this.#gain[j] = (this.#gain[j] ?? 0) - gain * (tableau[start + j] ?? 0);
		this.#value[leaving] = (this.#at[entering] ?? 0) + change;
		this.#at[entering] = bound;
		const variable = this.#outside[entering] ?? 0;
		this.#outside[entering] = this.#basic[leaving] ?? 0;
		this.#basic[leaving] = variable;
	}

	/** Values of the variables. */
	solution(into: Float64Array): void {
		for (let j = 0; j < this.#n; j++) {
			const variable = this.#outside[j] ?? 0;
			if (variable < this.#n) into[variable] = this.#at[j] ?? 0;
		}
		for (let i = 0; i < this.#m; i++) {
			const variable = this.#basic[i] ?? 0;
			if (variable < this.#n) into[variable] = this.#value[i] ?? 0;
		}
	}

	/** What one piece of each row is worth; 0 or more. */
	prices(into: Float64Array): void {
		into.fill(0);
		for (let j = 0; j < this.#n; j++) {
			const variable = this.#outside[j] ?? 0;
			if (variable >= this.#n) into[variable - this.#n] = Math.max(0, -(this.#gain[j] ?? 0));
		}
	}
}
