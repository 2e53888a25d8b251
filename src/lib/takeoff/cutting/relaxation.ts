/**
 * Fractions of bars: the linear relaxation of Gilmore and Gomory (1961). How many bars of each filling, fractions
 * allowed, so that every piece is cut; fillings are made as they are needed (column generation). It gives a bound that is
 * almost always the fewest bars, and the fillings a good plan is made of.
 */
import { fillBar } from './fill.ts';
import { sum, timesIn, type Bar, type Packing, type Steps } from './packing.ts';
import { Simplex } from './simplex.ts';

export interface Relaxation {
	/** Whole bars that any plan of these pieces needs, as far as it is proved. */
	readonly bound: number;
	/** Fillings used and how much of a bar each, the largest share first. */
	readonly shares: readonly { readonly bar: Bar; readonly share: number }[];
}

/** A whole bar, where the worth of a piece is written as a whole number: so the bound is exact whatever was rounded. */
const barWorth = 2 ** 30;

/** Sizes looked at for one filling. */
const patience = 200_000;

const tolerance = 1e-7;

/**
 * @param pool fillings made before; new ones are added
 * @param enough the work ends when shares of no more bars than this are found
 * @param needed the work ends when this bound is proved
 */
export function relax(
	packing: Packing,
	pool: Bar[],
	enough: number,
	needed: number,
	steps: Steps
): Relaxation {
	const rows = packing.counts.flatMap((count, i) => (count > 0 ? [i] : []));
	const rowOf = new Map(rows.map((size, row) => [size, row]));
	// One pivot a row is the least that leads anywhere.
	if (rows.length ** 3 / 8 > steps.left) return { bound: 0, shares: [] };
	const sizes = rows.map((i) => packing.sizes[i] ?? 0);
	const counts = rows.map((i) => packing.counts[i] ?? 0);
	const inner: Packing = { room: packing.room, sizes, counts };
	const known: Bar[] = pool
		.filter((bar) => timesIn(bar, packing.counts) > 0)
		.map((bar) => bar.map((size) => rowOf.get(size) ?? 0));
	const simplex = new Simplex(
		counts,
		sizes.map((size, row) => Math.min(counts[row] ?? 0, Math.floor(inner.room / size)))
	);

	let bound = 0;
	const dearest = (): Bar | null => {
		let most = 1 + tolerance;
		let found: Bar | null = null;
		for (const bar of known) {
			const worth = simplex.worthOf(bar);
			if (worth > most) [most, found] = [worth, bar];
		}
		return found;
	};
	/** Makes a filling worth more than a bar at the prices of now; null when there is none, or none was found. */
	const make = (): Bar | null => {
		const worth = Array.from(simplex.prices, (price) =>
			price > 0 ? Math.floor(Math.min(1, price) * barWorth) : 0
		);
		const { bar, worth: most, best } = fillBar(inner, worth, patience, steps);
		if (bar === null) return null;
		// A bar serves no more than `most` of the worth of all pieces.
		if (best) bound = Math.max(bound, Math.ceil(sum(worth.map((w, row) => w * (counts[row] ?? 0))) / most));
		if (simplex.worthOf(bar) <= 1 + tolerance) return null;
		known.push(bar);
		pool.push(bar.map((row) => rows[row] ?? 0));
		return bar;
	};

	while (steps.take(known.length)) {
		if (simplex.bars <= enough || bound >= Math.min(needed, Math.ceil(simplex.total - tolerance))) break;
		const entering = dearest() ?? simplex.cheapRow() ?? make();
		if (entering === null || !simplex.enter(entering, steps)) break;
	}
	const shares = simplex
		.shares()
		.map(({ bar, share }) => ({ bar: bar.map((row) => rows[row] ?? 0), share }))
		.sort((a, b) => b.share - a.share);
	return { bound, shares };
}
