/** Counts gathered by what they count: the latest stands, the earlier ones stay beside it. */
import type { SiteCount } from '../count.ts';
import type { PackingLine } from '../line.ts';

/** What was counted of one line, or of one thing that is on none. */
export interface CountedThing<C extends SiteCount = SiteCount> {
	readonly latest: C;
	/** The latest of them first. */
	readonly earlier: readonly C[];
}

/** The same for all counts of one line of a truck; things on no line are told apart by crate and words. */
export const keyOfCount = ({
	line,
	crate,
	description
}: Pick<SiteCount, 'line' | 'crate' | 'description'>): string =>
	line === null ? JSON.stringify([crate, description]) : keyOfLine(line);

export const keyOfLine = (line: number): string => String(line);

/** By the clock of the phone, then by id: the same order for everybody who reads them. */
const latestFirst = (a: SiteCount, b: SiteCount): number =>
	a.countedAt === b.countedAt ? (a.countId < b.countId ? 1 : -1) : a.countedAt < b.countedAt ? 1 : -1;

/** @param counts of one delivery, in any order; a count that is named twice is one. */
export function countedThings<C extends SiteCount>(
	counts: readonly C[]
): ReadonlyMap<string, CountedThing<C>> {
	const once = new Map(counts.map((count) => [count.countId, count]));
	const things = new Map<string, CountedThing<C>>();
	for (const count of [...once.values()].sort(latestFirst)) {
		const key = keyOfCount(count);
		const known = things.get(key);
		things.set(
			key,
			known ? { ...known, earlier: [...known.earlier, count] } : { latest: count, earlier: [] }
		);
	}
	return things;
}

/** Whether something of the line should be on the truck: a line of which all is still to come needs no count. */
export const isOnTruck = ({ quantity }: Pick<PackingLine, 'quantity'>): boolean =>
	quantity === null || quantity > 0;

/** Lines that should be on the truck and nobody has counted, in the order of the list. */
export function uncountedLines(
	lines: readonly PackingLine[],
	things: ReadonlyMap<string, CountedThing>
): readonly PackingLine[] {
	return lines.filter((line) => isOnTruck(line) && !things.has(keyOfLine(line.line)));
}
