/** What a carrier has to be told of a truck: everything that came damaged, wrong, short or too many. */
import { Decimal } from 'decimal.js';
import type { SiteCount } from '../count.ts';
import type { PackingLine } from '../line.ts';
import { daysAfter } from '../ordering/dates.ts';
import type { Day } from '../ordering/purchase-order.ts';
import { againstList } from './count-amounts.ts';
import { countedThings, isOnTruck, keyOfLine, uncountedLines } from './counted-lines.ts';

export interface DamageNote<C extends SiteCount = SiteCount> {
	/** Null for what is on no line. */
	readonly line: PackingLine | null;
	readonly count: C;
	/** `2 damaged`, `1 short`, `on no line of the list`. */
	readonly findings: readonly string[];
}

export interface DamageNotes<C extends SiteCount = SiteCount> {
	/** In the order of the list; what is on no line last. */
	readonly notes: readonly DamageNote<C>[];
	/** Lines nobody has counted: nothing is said of them. */
	readonly uncounted: number;
	/** Lines that were counted and agree with the list, whole. */
	readonly agreeing: number;
}

function findingsOf(count: SiteCount, listed: number | null, isOnList: boolean): string[] {
	const { damaged, wrong } = count.amounts;
	const difference = isOnList ? againstList(count.amounts, listed) : null;
	return [
		...(new Decimal(damaged).isZero() ? [] : [`${damaged} damaged`]),
		...(new Decimal(wrong).isZero() ? [] : [`${wrong} wrong`]),
		...(difference === null ? [] : [difference]),
		...(isOnList ? [] : ['on no line of the list'])
	];
}

/** @param counts of this truck; of several of one line the latest stands. */
export function damageNotes<C extends SiteCount>(
	lines: readonly PackingLine[],
	counts: readonly C[]
): DamageNotes<C> {
	const things = countedThings(counts);
	const onLines = lines.flatMap((line) => {
		const counted = things.get(keyOfLine(line.line));
		if (!counted) return [];
		// Of a line that is all still to come, more than none is more than listed.
		const findings = findingsOf(counted.latest, line.quantity, true);
		return [{ line, count: counted.latest, findings }];
	});
	const found = [...things.values()]
		.filter(({ latest }) => latest.line === null)
		.map(({ latest }) => ({ line: null, count: latest, findings: findingsOf(latest, null, false) }))
		.sort((a, b) => (a.count.description < b.count.description ? -1 : 1));
	return {
		notes: [...onLines.filter(({ findings }) => findings.length > 0), ...found],
		uncounted: uncountedLines(lines, things).length,
		agreeing: onLines.filter(({ line, findings }) => isOnTruck(line) && findings.length === 0).length
	};
}

/**
 * Days in which damage that shows only when a crate is opened is commonly to be told in road freight. *Common practice, no
 * source*: contracts, carriers and countries differ.
 */
const usualConcealedDays = 5;

export interface TellBy {
	readonly days: number;
	/** Written down with the supplier, or what is usual. */
	readonly basis: 'writtenDown' | 'usual';
	/** The day of delivery and so many days. Terms that count the day of delivery as the first end one day earlier. */
	readonly lastDay: Day;
}

/** @throws RangeError when `deliveredOn` is no day of the calendar. */
export const tellBy = (deliveredOn: Day, writtenDown: number | null): TellBy => {
	const days = writtenDown ?? usualConcealedDays;
	return {
		days,
		basis: writtenDown === null ? 'usual' : 'writtenDown',
		lastDay: daysAfter(deliveredOn, days)
	};
};
