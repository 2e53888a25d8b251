/** Cutting stock for the benchmark: a large job, its plan against what first-fit-decreasing gives. */
import { firstFitDecreasing } from '../../src/lib/takeoff/cutting/greedy.ts';
import { planCuts, usualSteps } from '../../src/lib/takeoff/cutting/plan.ts';

const sixteenth = 1_587_500;
const stock = 288 * 16 * sixteenth;
const kerf = 2 * sixteenth;

/** Pieces between two lengths in inches, in sixteenths: Lehmer’s generator, so that every run has the same. */
function piecesBetween(least: number, most: number, count: number): { name: string; length: number }[] {
	let state = 20_011;
	return Array.from({ length: count }, (_, i) => {
		state = (state * 48_271) % 2_147_483_647;
		const length = (least * 16 + (state % ((most - least) * 16 + 1))) * sixteenth;
		return { name: String(i), length };
	});
}

type BenchRow = readonly [what: string, value: string, goal: string];

/** Guides for counters and shops, and the same with lengths of which hardly three fit a bar: the hard kind. */
export function cuttingRows(median: (runs: number, work: () => unknown) => number): BenchRow[] {
	const kinds = [
		['500 pieces of 42 to 132 in', piecesBetween(42, 132, 500)],
		['500 pieces of 60 to 140 in', piecesBetween(60, 140, 500)]
	] as const;
	return kinds.flatMap(([what, pieces]): BenchRow[] => {
		const plan = planCuts(pieces, stock, kerf);
		const lengths = [...new Set(pieces.map(({ length }) => length))].sort((a, b) => b - a);
		const packing = {
			room: stock + kerf,
			sizes: lengths.map((length) => length + kerf),
			counts: lengths.map((length) => pieces.filter((piece) => piece.length === length).length)
		};
		const time = median(5, () => planCuts(pieces, stock, kerf));
		const first = median(25, () => firstFitDecreasing(packing));
		const bars = plan.bars.length;
		return [
			[`${what} cut from 288 in`, `${time.toFixed(0)} ms`, '2000 ms'],
			['steps', `${(plan.steps / 1e6).toFixed(1)} of ${(usualSteps / 1e6).toFixed(0)} million`, ''],
			['bars, bound', `${String(bars)}, ${String(plan.lowerBound)}${plan.proved ? ' (proved)' : ''}`, ''],
			[
				'bars over first-fit-decreasing',
				`${(bars / plan.firstFitDecreasing).toFixed(3)} × (of ${String(plan.firstFitDecreasing)})`,
				''
			],
			['time over first-fit-decreasing', `${(time / first).toFixed(0)} ×`, '']
		];
	});
}
