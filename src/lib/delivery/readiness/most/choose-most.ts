/** Chooses the most openings that can all have what they need, and of such choices the one the wanted order prefers. */
import { Steps } from '../../../takeoff/cutting/packing.ts';
import { reduce, type Cluster, type Wanting } from './problem.ts';
import { enoughFor, layOut, takeFrom, type Rows } from './rows.ts';
import { Search, total } from './search.ts';

export interface Choice {
	/** Places in the wanted order, in that order. */
	readonly chosen: readonly number[];
	/** No choice has more. */
	readonly bound: number;
	/** It is shown that no choice has more. */
	readonly proved: boolean;
	/**
	 * It is shown that of all choices of this size it comes first: where two differ, it has the opening that is wanted
	 * earlier.
	 */
	readonly earliest: boolean;
	/** Work that was done. */
	readonly steps: number;
}

interface Part extends Omit<Choice, 'steps'> {
	readonly chosen: readonly number[];
}

/** Members of the groups, the first wanted of each. */
const membersOf = ({ alike }: Cluster, counts: Float64Array): number[] =>
	alike.flatMap(({ members }, group) => members.slice(0, counts[group] ?? 0)).sort((a, b) => a - b);

/** Of all choices of a size the one that comes first, going from one that is known; as far as the steps go. */
function first(
	cluster: Cluster,
	search: Search,
	most: Float64Array,
	known: Float64Array,
	steps: Steps
): { counts: Float64Array; earliest: boolean } {
	const size = total(known);
	const low = new Float64Array(known.length);
	const high = Float64Array.from(most);
	let counts = known;
	let fixed = 0;
	const inOrder = cluster.alike
		.flatMap(({ members }, group) => members.map((member) => ({ member, group })))
		.sort((a, b) => a.member - b.member);
	for (const { group } of inOrder) {
		const sure = low[group] ?? 0;
		if (fixed === size) break;
		if (sure >= (high[group] ?? 0)) continue;
		low[group] = sure + 1;
		fixed++;
		if ((counts[group] ?? 0) > sure) continue;
		if (steps.left <= 0) return { counts, earliest: false };
		const { chosen, finished } = search.run(low, high, size, size);
		if (chosen) counts = chosen;
		else if (finished) {
			low[group] = high[group] = sure;
			fixed--;
		} else return { counts, earliest: false };
	}
	return { counts, earliest: true };
}

/** One opening after the other, each that can be served with what those before it left. */
function inTurn({ alike }: Cluster, { supply, needs, n }: Rows): Float64Array {
	const counts = new Float64Array(n);
	const left = Float64Array.from(supply);
	const turns = alike.flatMap(({ members }, group) => members.map((member) => ({ member, group })));
	for (const { group } of turns.sort((a, b) => a.member - b.member)) {
		if (enoughFor(left, needs[group]) < 1) continue;
		takeFrom(left, needs[group], 1);
		counts[group] = (counts[group] ?? 0) + 1;
	}
	return counts;
}

function solve(cluster: Cluster, steps: Steps, anyChoice: boolean): Part {
	const rows = layOut(cluster);
	const simple = inTurn(cluster, rows);
	const search = new Search(rows, steps);
	const better = search.run(new Float64Array(rows.n), rows.most, total(simple) + 1, Infinity);
	const chosen = better.chosen ?? simple;
	const proved = better.finished || total(chosen) >= better.bound;
	if (!proved || anyChoice)
		return {
			chosen: membersOf(cluster, chosen),
			bound: proved ? total(chosen) : better.bound,
			proved,
			earliest: false
		};
	const { counts, earliest } = first(cluster, search, rows.most, chosen, steps);
	return { chosen: membersOf(cluster, counts), bound: total(counts), proved, earliest };
}

/**
 * The most openings, proved where the work comes to its end; otherwise the best found with a bound that holds. Work is
 * counted in steps, never in time, so the same question has the same answer on every machine.
 *
 * @param patience steps of work in all, above 0
 * @param anyChoice only the number matters: which openings they are is left open, and `earliest` is not looked for
 */
export function chooseMost(wanting: Wanting, patience: number, anyChoice = false): Choice {
	const { free, clusters } = reduce(wanting);
	let left = patience;
	const parts = clusters.map((cluster, at): Part => {
		const share = left / (clusters.length - at);
		const steps = new Steps(share);
		const part = solve(cluster, steps, anyChoice);
		left -= share - Math.max(0, steps.left);
		return part;
	});
	return {
		chosen: [...free, ...parts.flatMap(({ chosen }) => chosen)].sort((a, b) => a - b),
		bound: parts.reduce((sum, { bound }) => sum + bound, free.length),
		proved: parts.every(({ proved }) => proved),
		earliest: parts.every(({ earliest }) => earliest),
		steps: Math.ceil(patience - left)
	};
}
