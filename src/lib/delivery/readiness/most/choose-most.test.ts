import { describe, expect, it } from 'vitest';
import { chooseMost } from './choose-most.ts';
import type { Wanting } from './problem.ts';
import { dice, fewOfEach, hiddenFit, likeAJob, scattered, veryShort } from './sample-sets.ts';

/** Tries every set; of the largest that can be served the one that comes first. */
function bestByTrying({ needs, supply }: Wanting): number[] {
	let best: number[] = [];
	const search = (at: number, left: readonly number[], chosen: readonly number[]): void => {
		const one = needs[at];
		if (!one) {
			if (chosen.length > best.length) best = [...chosen];
			return;
		}
		if (chosen.length + needs.length - at <= best.length) return;
		const after = left.map((amount, row) => amount - (one.get(row) ?? 0));
		// Those with the next opening are tried first, so the first of a size is the earliest of its size.
		if (after.every((amount) => amount >= 0)) search(at + 1, after, [...chosen, at]);
		search(at + 1, left, chosen);
	};
	search(0, supply, []);
	return best;
}

function isServed({ needs, supply }: Wanting, chosen: readonly number[]): boolean {
	expect(new Set(chosen).size).toBe(chosen.length);
	return supply.every(
		(amount, row) => chosen.reduce((sum, at) => sum + (needs[at]?.get(row) ?? 0), 0) <= amount
	);
}

/** Up to 14 openings, 6 kinds, 20 to 80 % of each here; `size` makes the numbers large. */
function small(seed: number, size: (roll: (below: number) => number) => number): Wanting {
	const roll = dice(seed);
	const [openings, rows] = [5 + roll(10), 2 + roll(5)];
	const needs = Array.from(
		{ length: openings },
		() =>
			new Map(
				Array.from({ length: rows }, (_, row): [number, number] => [row, roll(4)])
					.filter(([, need]) => need > 0)
					.map(([row, need]) => [row, need * size(roll)])
			)
	);
	const supply = Array.from({ length: rows }, (_, row) =>
		Math.floor((needs.reduce((sum, one) => sum + (one.get(row) ?? 0), 0) * (20 + roll(61))) / 100)
	);
	return { needs, supply };
}

describe('small sets', () => {
	it.each([
		['pieces', 1, () => 1],
		['numbers of up to twelve digits', 2, (roll: (below: number) => number) => 1 + roll(99_999_999_999)]
	])('are chosen from as trying every set does: 500 sets of %s', (_, salt, size) => {
		for (let seed = 1; seed <= 500; seed++) {
			const wanting = small(seed * 1009 + salt, size);
			const best = bestByTrying(wanting);
			const found = chooseMost(wanting, 10_000_000);
			expect(found).toMatchObject({ chosen: best, bound: best.length, proved: true, earliest: true });
			expect(chooseMost(wanting, 10_000_000, true).chosen).toHaveLength(best.length);
		}
	});

	it('need no work where nothing is scarce, or nothing is here', () => {
		const needs = [new Map([[0, 2]]), new Map([[0, 1]])];
		expect(chooseMost({ needs, supply: [3] }, 1)).toMatchObject({ chosen: [0, 1], bound: 2, steps: 0 });
		expect(chooseMost({ needs, supply: [0] }, 1)).toMatchObject({ chosen: [], bound: 0, steps: 0 });
	});
});

/** Steps that dealing out has on the page. */
const usual = 40_000_000;

describe('200 openings that share 30 scarce kinds of part', () => {
	// How many there are of each: HiGHS 1.15.3 (an integer solver, MIT), given the same sets as a linear program.
	it.each([
		[1, 94],
		[2, 102],
		[3, 104],
		[4, 90],
		[5, 96]
	])('like a job (%i): proved, the earliest, and as many as another solver finds', (seed, most) => {
		const wanting = likeAJob(200, seed);
		const found = chooseMost(wanting, usual);
		expect(found.chosen).toHaveLength(most);
		expect(found).toMatchObject({ bound: most, proved: true, earliest: true });
		expect(isServed(wanting, found.chosen)).toBe(true);
	});

	it.each([
		[1, 98],
		[2, 97],
		[3, 95],
		[4, 95],
		[5, 102]
	])(
		'three kinds each (%i): proved, as many as another solver finds, no more than the pieces are enough for',
		(seed, most) => {
			const wanting = scattered(200, seed);
			const found = chooseMost(wanting, usual);
			expect(found.chosen).toHaveLength(most);
			expect(found).toMatchObject({ bound: most, proved: true, earliest: true });
			expect(isServed(wanting, found.chosen)).toBe(true);
			const pieces = wanting.supply.reduce((sum, amount) => sum + amount, 0);
			expect(found.chosen.length).toBeLessThanOrEqual(Math.floor(pieces / 3));
		}
	);

	it.each([1, 2, 3])('three pieces of each kind, four each (%i): 22, since 30 · 3 / 4 = 22.5', (seed) => {
		const wanting = fewOfEach(200, seed);
		const found = chooseMost(wanting, usual);
		expect(found.chosen).toHaveLength(22);
		expect(found).toMatchObject({ bound: 22, proved: true, earliest: true });
		expect(isServed(wanting, found.chosen)).toBe(true);
	});

	it.each([1, 2, 3])('pieces for exactly 60 of them (%i): finds 60', (seed) => {
		const wanting = hiddenFit(200, 60, seed);
		const found = chooseMost(wanting, usual);
		// 180 pieces, three each: no set has more.
		expect(found).toMatchObject({ bound: 60, proved: true });
		expect(found.chosen).toHaveLength(60);
		expect(isServed(wanting, found.chosen)).toBe(true);
	});
});

describe('where the work is not brought to its end', () => {
	// HiGHS 1.15.3 takes half a minute for each of these, and is not done with seed 2 in one and a half.
	it.each([
		[1, 42],
		[3, 41]
	])('200 of the hardest (%i): the bound is no less than what another solver proves', (seed, most) => {
		const wanting = veryShort(200, seed);
		const found = chooseMost(wanting, 4_000_000, true);
		expect(isServed(wanting, found.chosen)).toBe(true);
		expect(found.chosen.length).toBeLessThanOrEqual(most);
		expect(found.chosen.length).toBeGreaterThanOrEqual(most - 2);
		expect(found.bound).toBeGreaterThanOrEqual(most);
	});

	/** One after the other in the wanted order, each that can be served. */
	function inTurn({ needs, supply }: Wanting): number {
		const left = [...supply];
		let count = 0;
		for (const one of needs) {
			if ([...one].some(([row, need]) => (left[row] ?? 0) < need)) continue;
			for (const [row, need] of one) left[row] = (left[row] ?? 0) - need;
			count++;
		}
		return count;
	}

	it.each([
		['200 of the hardest', veryShort(200, 1), 2_000_000],
		['600 like a job, hardly any work', likeAJob(600, 1), 20_000],
		['1500 scattered, some work', scattered(1500, 1), 300_000],
		['300, a single step', scattered(300, 2), 1]
	])('%s: what is found can be served, and the bound holds', (_, wanting, patience) => {
		const found = chooseMost(wanting, patience);
		expect(isServed(wanting, found.chosen)).toBe(true);
		expect(found.proved).toBe(false);
		expect(found.earliest).toBe(false);
		expect(found.chosen.length).toBeGreaterThanOrEqual(inTurn(wanting));
		expect(found.bound).toBeGreaterThan(found.chosen.length);
		expect(found.bound).toBeLessThanOrEqual(wanting.needs.length);
	});

	it('the bound of little work is no less than what more work finds', () => {
		for (let seed = 1; seed <= 4; seed++) {
			const wanting = likeAJob(400, seed);
			const { chosen } = chooseMost(wanting, 20_000_000, true);
			for (const patience of [1, 20_000, 200_000, 2_000_000])
				expect(chooseMost(wanting, patience, true).bound).toBeGreaterThanOrEqual(chosen.length);
		}
	});

	it('ends at the same place every time', () => {
		const wanting = veryShort(200, 3);
		expect(chooseMost(wanting, 1_000_000)).toEqual(chooseMost(wanting, 1_000_000));
	});
});
