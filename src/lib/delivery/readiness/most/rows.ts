/** A cluster laid out for the search, and the bound that is a proof. */
import type { Cluster } from './problem.ts';

/** What one opening is worth when prices are whole numbers: so the bound is exact whatever was rounded. */
export const whole = 2 ** 26;

/** Supplies in the rows of the bound go no higher, so that its sums are exact. */
const highest = 2 ** 16;

export interface Rows {
	readonly m: number;
	readonly n: number;
	/** Members of each group. */
	readonly most: Float64Array;
	/** Needs by group: rows and whole numbers. */
	readonly needs: readonly (readonly (readonly [row: number, need: number])[])[];
	readonly supply: Float64Array;
	/** The same with small numbers, a row weaker by less than 1/65536 where numbers were large. For the bound only. */
	readonly boundNeeds: readonly (readonly (readonly [row: number, need: number])[])[];
	readonly boundSupply: Float64Array;
	/** Groups that need no less of anything and more of something, by group. */
	readonly heavier: readonly (readonly number[])[];
}

/** Groups looked at for which needs no less than which; the work grows with its square. */
const comparable = 1000;

function heavierThan(needs: readonly ReadonlyMap<number, number>[]): number[][] {
	if (needs.length > comparable) return needs.map(() => []);
	return needs.map((light, at) =>
		needs.flatMap((heavy, other) => {
			if (other === at || heavy.size < light.size) return [];
			for (const [row, need] of light) if ((heavy.get(row) ?? 0) < need) return [];
			return [other];
		})
	);
}

export function layOut({ alike, rows }: Cluster): Rows {
	const place = new Map(rows.map(({ row }, at) => [row, at]));
	const supply = Float64Array.from(rows, (row) => row.supply);
	const needs = alike.map((group) =>
		[...group.needs].map(([row, need]): [number, number] => [place.get(row) ?? 0, need])
	);
	const smaller = (row: number, amount: number): number => {
		const all = supply[row] ?? 0;
		return all <= highest ? amount : Number((BigInt(amount) * BigInt(highest)) / BigInt(all));
	};
	return {
		m: rows.length,
		n: alike.length,
		most: Float64Array.from(alike, ({ members }) => members.length),
		needs,
		supply,
		boundNeeds: needs.map((group) => group.map(([row, need]): [number, number] => [row, smaller(row, need)])),
		boundSupply: supply.map((all) => Math.min(all, highest)),
		heavier: heavierThan(alike.map((group) => group.needs))
	};
}

/** Takes `count` of a group out of what is left of each row. */
export function takeFrom(
	left: Float64Array,
	needs: readonly (readonly [row: number, need: number])[] | undefined,
	count: number
): void {
	for (const [row, need] of needs ?? []) left[row] = (left[row] ?? 0) - need * count;
}

/** How many of a group what is left is enough for. */
export function enoughFor(
	left: Float64Array,
	needs: readonly (readonly [row: number, need: number])[] | undefined
): number {
	let most = Infinity;
	for (const [row, need] of needs ?? []) most = Math.min(most, Math.floor((left[row] ?? 0) / need));
	return most;
}

/** Prices as whole numbers, `whole` for an opening. */
export function wholePrices(prices: Float64Array, into: Float64Array): void {
	for (let row = 0; row < into.length; row++)
		into[row] = Math.min(whole, Math.max(0, Math.round((prices[row] ?? 0) * whole)));
}

/**
 * The most openings between `low` and `high`, times `whole`, proved by prices: for prices p of 0 or more nothing within
 * the supplies is worth more than Σ p·supply + Σ max(0, 1 − p·needs)·x. Every sum is of whole numbers; where one gets too
 * large to be exact there is no bound (Infinity).
 *
 * @param prices whole numbers of 0 to `whole`
 * @param gains filled with 1 − p·needs of each group, times `whole`
 */
export function boundOf(
	{ n, boundNeeds, boundSupply }: Rows,
	low: Float64Array,
	high: Float64Array,
	prices: Float64Array,
	gains: Float64Array
): number {
	let total = 0;
	prices.forEach((price, row) => (total += price * (boundSupply[row] ?? 0)));
	let chosen = 0;
	for (let group = 0; group < n; group++) {
		let price = 0;
		for (const [row, need] of boundNeeds[group] ?? []) price += (prices[row] ?? 0) * need;
		const gain = whole - price;
		gains[group] = gain;
		const [least, most] = [low[group] ?? 0, high[group] ?? 0];
		total += gain > 0 ? gain * most : 0;
		// What is chosen already is paid for out of the supplies, though it gains nothing.
		if (gain <= 0) chosen += gain * least;
	}
	return Number.isSafeInteger(total) && Number.isSafeInteger(chosen) ? total + chosen : Infinity;
}
