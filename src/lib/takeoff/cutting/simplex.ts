/** The revised simplex method for the relaxation of cutting, with the inverse of the basis kept whole. */
import { runsOf, type Bar, type Steps } from './packing.ts';

const tolerance = 1e-9;
/** Divided by nothing smaller, so that the inverse stays in bounds. */
const leastPivot = 1e-7;

/**
 * Least Σx with Σ x·filling ≥ wanted, x ≥ 0. Rows are the sizes that are wanted; columns are fillings, brought in from
 * outside, and for every row a surplus (more of it is cut than wanted).
 */
export class Simplex {
	readonly #wanted: readonly number[];
	readonly #inverse: Float64Array;
	/** Value of the column in each place of the basis. */
	readonly #x: Float64Array;
	/** The filling in each place of the basis, or the row whose surplus is there. */
	readonly #basis: (Bar | number)[];
	/** What one piece of each row costs, as a share of a bar. */
	readonly prices: Float64Array;

	/**
	 * Begins with bars of one size each.
	 *
	 * @param wanted pieces of each row
	 * @param most pieces of each row on a bar of its own
	 */
	constructor(wanted: readonly number[], most: readonly number[]) {
		const m = wanted.length;
		this.#wanted = wanted;
		this.#inverse = new Float64Array(m * m);
		this.#x = new Float64Array(m);
		this.prices = Float64Array.from(most, (n) => 1 / n);
		this.#basis = most.map((n, row) => Array.from({ length: n }, () => row));
		most.forEach((n, row) => {
			this.#inverse[row * m + row] = 1 / n;
			// Unequal hair’s breadths more of everything, so that no two places tie and no pivot stands still.
			this.#x[row] = ((wanted[row] ?? 0) + 1e-4 * ((row * 0.618034) % 1)) / n;
		});
	}

	/** Bars of the solution at hand; the hair’s breadths are in it. */
	get bars(): number {
		let bars = 0;
		this.#basis.forEach((column, place) => {
			if (typeof column !== 'number') bars += this.#x[place] ?? 0;
		});
		return bars;
	}

	/** All pieces wanted at the prices of now: bars without the hair’s breadths. */
	get total(): number {
		return this.#wanted.reduce((total, n, row) => total + n * (this.prices[row] ?? 0), 0);
	}

	worthOf(bar: Bar): number {
		let worth = 0;
		for (const row of bar) worth += this.prices[row] ?? 0;
		return worth;
	}

	/** The row with the lowest price below nothing: its surplus helps. */
	cheapRow(): number | null {
		let found: number | null = null;
		let lowest = -tolerance;
		for (const [row, price] of this.prices.entries()) if (price < lowest) [lowest, found] = [price, row];
		return found;
	}

	/** Brings a filling, or the surplus of a row, into the basis. False where it would take the place of nothing. */
	enter(column: Bar | number, steps: Steps): boolean {
		const m = this.#wanted.length;
		const inverse = this.#inverse;
		const x = this.#x;
		const surplus = typeof column === 'number';
		const direction = new Float64Array(m);
		for (const { size: row, count } of surplus ? [{ size: column, count: -1 }] : runsOf(column))
			for (let place = 0; place < m; place++)
				direction[place] = (direction[place] ?? 0) + count * (inverse[place * m + row] ?? 0);

		let leaving = -1;
		let share = Infinity;
		for (let place = 0; place < m; place++) {
			const d = direction[place] ?? 0;
			if (d < leastPivot) continue;
			const most = (x[place] ?? 0) / d;
			if (most < share) [share, leaving] = [most, place];
		}
		if (leaving < 0) return false;

		const saving = surplus ? -(this.prices[column] ?? 0) : this.worthOf(column) - 1;
		const pivot = direction[leaving] ?? 1;
		const pivotRow = inverse.subarray(leaving * m, (leaving + 1) * m);
		for (let k = 0; k < m; k++) pivotRow[k] = (pivotRow[k] ?? 0) / pivot;
		let touched = 1;
		for (let place = 0; place < m; place++) {
			const d = direction[place] ?? 0;
			if (place === leaving || d === 0) continue;
			touched++;
			const at = place * m;
			for (let k = 0; k < m; k++) inverse[at + k] = (inverse[at + k] ?? 0) - d * (pivotRow[k] ?? 0);
			x[place] = Math.max(0, (x[place] ?? 0) - d * share);
		}
		for (let k = 0; k < m; k++) this.prices[k] = (this.prices[k] ?? 0) - saving * (pivotRow[k] ?? 0);
		x[leaving] = share;
		this.#basis[leaving] = column;
		steps.take((touched * m) / 8);
		return true;
	}

	/** Fillings in the solution and how many bars of each. */
	shares(): { bar: Bar; share: number }[] {
		return this.#basis.flatMap((bar, place) => {
			const share = this.#x[place] ?? 0;
			return typeof bar !== 'number' && share > 1e-3 ? [{ bar, share }] : [];
		});
	}
}
