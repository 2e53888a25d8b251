/** Dealing out short parts for the benchmark: 200 openings and 30 scarce kinds, as on a job and harder. */
import { chooseMost } from '../../src/lib/delivery/readiness/most/choose-most.ts';
import {
	fewOfEach,
	hiddenFit,
	likeAJob,
	scattered,
	veryShort
} from '../../src/lib/delivery/readiness/most/sample-sets.ts';

type BenchRow = readonly [what: string, value: string, goal: string];

/** Steps that dealing out has on the page. */
const usual = 40_000_000;

/**
 * How many sets of each kind are proved, and with how much work; the work is counted, so it is the same everywhere. The last
 * kind is never proved: it is here for its gap.
 */
export function dealingRows(): BenchRow[] {
	const kinds = [
		['like a job', (seed: number) => likeAJob(200, seed), 20],
		['three kinds each', (seed: number) => scattered(200, seed), 20],
		['three pieces of each kind', (seed: number) => fewOfEach(200, seed), 20],
		['exactly enough for 60', (seed: number) => hiddenFit(200, 60, seed), 20],
		['very short, five kinds each', (seed: number) => veryShort(200, seed), 3]
	] as const;
	return kinds.flatMap(([what, set, count]): BenchRow[] => {
		const found = Array.from({ length: count }, (_, i) => chooseMost(set(i + 1), usual));
		const steps = found.map((one) => one.steps).sort((a, b) => a - b);
		const millions = (at: number): string => ((steps[at] ?? 0) / 1e6).toFixed(2);
		const gap = Math.max(...found.map(({ chosen, bound }) => bound - chosen.length));
		const proved = found.filter((one) => one.proved).length;
		const earliest = found.filter((one) => one.earliest).length;
		return [
			[`dealing to 200 openings, 30 kinds, ${what}`, `${String(proved)} of ${String(count)} proved`, ''],
			[
				'proved to be the earliest; widest gap',
				`${String(earliest)} of ${String(count)}; ${String(gap)}`,
				''
			],
			[
				'million steps, median and most',
				`${millions(Math.floor((count - 1) / 2))}, ${millions(count - 1)}`,
				''
			]
		];
	});
}
