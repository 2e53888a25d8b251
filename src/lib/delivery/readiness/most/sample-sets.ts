/** Openings that are hard to choose from, for tests and the benchmark. Invented, the same for the same seed. */
import type { Wanting } from './problem.ts';

/** Whole numbers from 0 to `below` less one, the same row for the same seed (a multiplicative generator of Lehmer's kind). */
export function dice(seed: number): (below: number) => number {
	let state = (seed % 2_147_483_646) + 1;
	return (below) => {
		state = (state * 48_271) % 2_147_483_647;
		return Math.floor((state / 2_147_483_647) * below);
	};
}

/** Supplies of a share of what is wanted, percent. */
function short(needs: readonly Map<number, number>[], rows: number, percent: () => number): Wanting {
	const wanted = new Array<number>(rows).fill(0);
	for (const one of needs) for (const [row, need] of one) wanted[row] = (wanted[row] ?? 0) + need;
	return { needs, supply: wanted.map((amount) => Math.floor((amount * percent()) / 100)) };
}

const rowsOfSet = 30;

/** Every opening needs one piece of `each` of 30 kinds. */
function anyKinds(openings: number, each: number, roll: (below: number) => number): Map<number, number>[] {
	return Array.from({ length: openings }, () => {
		const needs = new Map<number, number>();
		while (needs.size < each) needs.set(roll(rowsOfSet), 1);
		return needs;
	});
}

/**
 * As on a job: guides of four lengths left and right (one in five with a longer right one), pairs of brackets in three
 * sizes, six barrels, hood pieces of six lengths, four motors, three supports. Of each 30 to 90 % are here.
 */
export function likeAJob(openings: number, seed: number): Wanting {
	const roll = dice(seed);
	const needs = Array.from({ length: openings }, () => {
		const left = roll(4);
		const right = roll(5) === 0 ? roll(4) : left;
		return new Map([
			[left, 1],
			[4 + right, 1],
			[8 + roll(3), 2],
			[11 + roll(6), 1],
			[17 + roll(6), 1 + roll(3)],
			[23 + roll(4), 1],
			[27 + roll(3), 1 + roll(2)]
		]);
	});
	return short(needs, rowsOfSet, () => 30 + roll(61));
}

/** Three of 30 kinds each, 30 to 70 % here. */
export function scattered(openings: number, seed: number): Wanting {
	const roll = dice(seed);
	return short(anyKinds(openings, 3, roll), rowsOfSet, () => 30 + roll(41));
}

/** Four of 30 kinds each, and no more than three pieces of any kind. */
export function fewOfEach(openings: number, seed: number): Wanting {
	return {
		needs: anyKinds(openings, 4, dice(seed)),
		supply: new Array<number>(rowsOfSet).fill(3)
	};
}

/** Three of 30 kinds each; what is here is exactly what the first `hidden` of a shuffled row need. */
export function hiddenFit(openings: number, hidden: number, seed: number): Wanting {
	const roll = dice(seed);
	const needs = anyKinds(openings, 3, roll);
	const supply = new Array<number>(rowsOfSet).fill(0);
	const places = needs.map((_, at) => at);
	for (let i = 0; i < hidden; i++) {
		const [at] = places.splice(roll(places.length), 1);
		for (const [row, need] of needs[at ?? 0] ?? []) supply[row] = (supply[row] ?? 0) + need;
	}
	return { needs, supply };
}

/** The hardest: one or two of each of five of 30 kinds, and only 10 to 30 % here. */
export function veryShort(openings: number, seed: number): Wanting {
	const roll = dice(seed);
	const needs = anyKinds(openings, 5, roll).map(
		(one) => new Map([...one.keys()].map((row) => [row, 1 + roll(2)]))
	);
	return short(needs, rowsOfSet, () => 10 + roll(21));
}
