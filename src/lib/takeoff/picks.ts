/**
 * What is picked one by one after barrel, bracket and drive: hole pattern, anchors on a guide, lengths of anchors,
 * springs, conductor, breaker, lift. The first candidate whose flag is true is taken. Every try is a row for the same
 * compiled rules that everything else is computed with; nothing is restated here.
 */
import type { RuleBook } from '../rulebook/rule-book.ts';

export interface Pick {
	/** The chosen quantity. */
	readonly id: string;
	/** Flag that a candidate has to pass. */
	readonly flag: string;
	/** Flag without which there is nothing to pick. */
	readonly when?: string;
	/** Where none passes, the first candidate that passes one of these is taken, so that a stop can say how far off it is. */
	readonly otherwise?: readonly string[];
	/** What a try is judged by, for the working. */
	readonly shows: readonly string[];
	/** Keys: attribute the rows are tried by, least first; in the order of the table without. */
	readonly by?: string;
	/** Counts: rules for the least and the most; more never holds less. */
	readonly between?: readonly [least: string, most: string];
}

/** In the order they are picked: springs hang in the coil, and the coil on the brackets. */
export const picks: readonly Pick[] = [
	{
		id: 'springSet',
		flag: 'springSetHolds',
		when: 'handOperated',
		shows: ['springStress', 'springFatigueFactor', 'springBodyLength']
	},
	{
		id: 'holePattern',
		flag: 'bracketsHold',
		otherwise: ['patternIsLargest', 'patternFits'],
		shows: ['useBracketLeft', 'useBracketRight'],
		by: 'holePattern.columns'
	},
	...(['Left', 'Right'] as const).map((side) => ({
		id: `anchorsPerGuide${side}`,
		flag: `guideHolds${side}`,
		shows: [`anchorPitch${side}`, `useGuide${side}`],
		between: [`anchorsBySpacing${side}`, `anchorsMost${side}`] as const
	})),
	...(['Left', 'Right', 'Head'] as const).map((side) => ({
		id: `anchorStock${side}`,
		flag: `anchorReaches${side}`,
		shows: [`anchorLength${side}`],
		by: `anchorStock${side}.length`
	})),
	{
		id: 'conductor',
		flag: 'conductorHolds',
		when: 'motorised',
		shows: ['conductor.ampacity75', 'conductorAmpacityNeeded', 'voltageDropShare']
	},
	{
		id: 'breaker',
		flag: 'breakerHolds',
		when: 'motorised',
		shows: ['breaker.rating', 'breakerMost'],
		by: 'breaker.rating'
	},
	{ id: 'lift', flag: 'liftHolds', shows: ['lift.capacity', 'lift.reach'], by: 'lift.capacity' }
];

/** One candidate that was tried. */
interface Try {
	/** Row of the table, or the count. */
	readonly candidate: number;
	readonly passed: boolean;
	/** Values of `shows`, base units. */
	readonly values: readonly number[];
}

/** A pick compiled for blocks of openings. */
export interface CompiledPick {
	readonly pick: Pick;
	/** Columns the caller fills before each run; values it does not know yet are computed from these. */
	readonly given: readonly string[];
	/**
	 * @param read the column of a given name
	 * @param count rows in use
	 * @param out the chosen rows or counts; -1 or NaN where nothing was to be picked or nothing fits
	 */
	run(read: (name: string) => Float64Array, count: number, out: Float64Array): void;
	/** Everything tried for one opening, in the order tried, to the first that passes. */
	tries(read: (name: string) => number): readonly Try[];
}

/**
 * @param known names whose values are there before: inputs, rules that do not depend on a choice, earlier choices
 * @param capacity rows of a block
 */
export function compilePick(
	rules: RuleBook,
	pick: Pick,
	known: ReadonlySet<string>,
	capacity: number
): CompiledPick {
	const keys = rules.keysOf(pick.id);
	const { flag, when, otherwise = [], shows, between } = pick;
	const own = new Set([pick.id]);
	const free = rules.order.filter((id) => !rules.dependsOn(id, own));
	const trial = rules.program({
		rules: [flag, ...otherwise, ...shows],
		given: [...known, ...free, pick.id],
		capacity
	});
	const fixed = trial.given.filter((name) => name !== pick.id);
	const first = rules.program({
		rules: [...fixed.filter((name) => !known.has(name)), ...(when ? [when] : []), ...(between ?? [])],
		given: [...known],
		capacity
	});
	const given = [...new Set([...first.given, ...fixed.filter((name) => known.has(name))])];
	const candidates = keys ? ordered(rules, pick, keys) : [];
	const column = trial.column(pick.id);
	const flagColumn = trial.column(flag);

	/** Fills the fixed columns of the trial for these rows. */
	const load = (rows: readonly number[], read: (name: string) => Float64Array): void => {
		for (const name of fixed) {
			const from = known.has(name) ? read(name) : first.column(name);
			const to = trial.column(name);
			rows.forEach((row, i) => (to[i] = from[row] ?? Number.NaN));
		}
	};

	const prepare = (read: (name: string) => Float64Array, count: number): void => {
		for (const name of first.given) first.column(name).set(read(name).subarray(0, count));
		first.run(count);
	};

	const rowsToPick = (count: number): number[] => {
		const asked = when ? first.column(when) : null;
		return Array.from({ length: count }, (_, i) => i).filter((i) => asked === null || asked[i] === 1);
	};

	/** Rows, of those still open, that the first fitting candidate was found for are taken out. */
	function pickKeys(
		open: readonly number[],
		passing: string,
		read: (name: string) => Float64Array,
		out: Float64Array
	): number[] {
		let rows = [...open];
		const passed = trial.column(passing);
		load(rows, read);
		for (const candidate of candidates) {
			if (rows.length === 0) break;
			column.fill(candidate, 0, rows.length);
			trial.run(rows.length);
			const left = rows.filter((row, i) => {
				if (passed[i] !== 1) return true;
				out[row] = candidate;
				return false;
			});
			if (left.length < rows.length) load(left, read);
			rows = left;
		}
		return rows;
	}

	/** The fewest that hold, by halving between the least and the most; the least where even the most does not. */
	function pickCounts(
		rows: readonly number[],
		[least, most]: readonly [string, string],
		read: (name: string) => Float64Array,
		out: Float64Array
	): void {
		const low = Float64Array.from(rows, (row) => first.column(least)[row] ?? Number.NaN);
		const high = Float64Array.from(rows, (row, i) =>
			Math.max(low[i] ?? Number.NaN, first.column(most)[row] ?? Number.NaN)
		);
		const test = (open: readonly number[], value: (i: number) => number): boolean[] => {
			load(
				open.map((i) => rows[i] ?? 0),
				read
			);
			open.forEach((i, at) => (column[at] = value(i)));
			trial.run(open.length);
			return open.map((_, at) => flagColumn[at] === 1);
		};
		const all = rows.map((_, i) => i);
		rows.forEach((row, i) => (out[row] = low[i] ?? Number.NaN));
		const atLeast = test(all, (i) => low[i] ?? Number.NaN);
		let open = all.filter((i) => atLeast[i] !== true);
		const atMost = test(open, (i) => high[i] ?? Number.NaN);
		open = open.filter((_, at) => atMost[at] === true);
		while (open.length > 0) {
			// low does not hold, high does.
			const middle = (i: number): number => Math.floor(((low[i] ?? 0) + (high[i] ?? 0)) / 2);
			open = open.filter((i) => {
				if ((high[i] ?? 0) - (low[i] ?? 0) > 1) return true;
				out[rows[i] ?? 0] = high[i] ?? Number.NaN;
				return false;
			});
			const holds = test(open, middle);
			open.forEach((i, at) => {
				if (holds[at] === true) high[i] = middle(i);
				else low[i] = middle(i);
			});
		}
	}

	function run(read: (name: string) => Float64Array, count: number, out: Float64Array): void {
		prepare(read, count);
		out.fill(keys ? -1 : Number.NaN, 0, count);
		const rows = rowsToPick(count);
		if (between) {
			pickCounts(rows, between, read, out);
			return;
		}
		let open = pickKeys(rows, flag, read, out);
		for (const passing of otherwise) open = pickKeys(open, passing, read, out);
	}

	function tries(read: (name: string) => number): Try[] {
		const one = (name: string): Float64Array => Float64Array.of(read(name));
		prepare(one, 1);
		if (when && first.column(when)[0] !== 1) return [];
		load([0], one);
		const least = between ? (first.column(between[0])[0] ?? Number.NaN) : 0;
		const most = between ? (first.column(between[1])[0] ?? Number.NaN) : 0;
		const counts = Array.from(
			{ length: Math.max(1, Math.min(most - least + 1, 100)) || 1 },
			(_, i) => least + i
		);
		const list: Try[] = [];
		for (const candidate of between ? counts : candidates) {
			column[0] = candidate;
			trial.run(1);
			const passed = flagColumn[0] === 1;
			list.push({
				candidate,
				passed,
				values: shows.map((name) => trial.column(name)[0] ?? Number.NaN)
			});
			if (passed) break;
		}
		return list;
	}

	return { pick, given, run, tries };
}

/** Rows of the pick's table, the least first. */
function ordered(rules: RuleBook, { by }: Pick, keys: readonly string[]): number[] {
	const rows = keys.map((_, i) => i);
	if (by === undefined) return rows;
	const value = (row: number): number => {
		const read = rules.bookValue(by, keys[row] ?? null);
		return typeof read === 'number' ? read : Number.NaN;
	};
	return rows.sort((a, b) => value(a) - value(b));
}
