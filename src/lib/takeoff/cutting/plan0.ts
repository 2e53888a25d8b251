import { lengthBound, pairBound } from './bounds.ts';
import { firstFitDecreasing } from './greedy.ts';
import { type Bar, type Packing, Steps } from './packing.ts';
import { relax } from './relaxation.ts';
import { dive, greedyPlan, search } from './search.ts';

export function pack(packing: Packing, most: number) {
	const steps = new Steps(most);
	const log: string[] = [];
	const note = (s: string) => log.push(`${s} @${steps.taken} ${(performance.now() - t0).toFixed(0)}ms`);
	const t0 = performance.now();
	const ffd = firstFitDecreasing(packing).length;
	let bars = greedyPlan(packing, steps);
	let bound = Math.max(lengthBound(packing), pairBound(packing));
	note(`ffd ${ffd} greedy ${bars.length} bound ${bound}`);
	const pool: Bar[] = [...new Map(bars.map((b) => [b.join(','), b])).values()];
	if (bars.length > bound) {
		bound = Math.max(bound, relax(packing, pool, bound, steps).bound);
		note(`relax ${bound} pool ${pool.length}`);
	}
	if (bars.length > bound) {
		const plan = dive(packing, bound, pool, steps);
		if (plan && plan.length < bars.length) bars = plan;
		note(`dive ${plan?.length}`);
	}
	while (bars.length > bound && steps.take(0)) {
		const found = search(packing, bound, pool, steps);
		note(`search ${typeof found === 'string' ? found : found.plan.length}`);
		if (found === 'brokenOff') break;
		if (found === 'none') bound++;
		else bars = found.plan;
	}
	return { bars, bound, ffd, log, taken: steps.taken, ms: performance.now() - t0 };
}
