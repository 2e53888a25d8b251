/** What should be on a truck, by crate. */
import type { SiteCount } from '../count.ts';
import type { PackingLine } from '../line.ts';
import { countedThings, isOnTruck, keyOfLine, type CountedThing } from './counted-lines.ts';

export interface TruckCrate<C extends SiteCount = SiteCount> {
	/** As the packing list calls it; null for what is in none. */
	readonly name: string | null;
	readonly lines: readonly { readonly line: PackingLine; readonly counted: CountedThing<C> | null }[];
	/** Found in it, and on no line. */
	readonly found: readonly CountedThing<C>[];
	/** Lines that should be there, and how many of them are counted. */
	readonly toCount: number;
	readonly counted: number;
}

/** 2 before 10, letters by themselves; what is in no crate last. */
const order = new Intl.Collator('en', { numeric: true });
const byName = (a: string | null, b: string | null): number =>
	a === null ? (b === null ? 0 : 1) : b === null ? -1 : order.compare(a, b);

/** Every crate that a line or something found names. Lines stay in the order of the list. */
export function truckCrates<C extends SiteCount>(
	lines: readonly PackingLine[],
	counts: readonly C[]
): readonly TruckCrate<C>[] {
	const things = countedThings(counts);
	const found = [...things.values()].filter(({ latest }) => latest.line === null);
	const names = new Set([...lines.map(({ crate }) => crate), ...found.map(({ latest }) => latest.crate)]);
	return [...names].sort(byName).map((name) => {
		const inIt = lines
			.filter(({ crate }) => crate === name)
			.map((line) => ({ line, counted: things.get(keyOfLine(line.line)) ?? null }));
		const should = inIt.filter(({ line }) => isOnTruck(line));
		return {
			name,
			lines: inIt,
			found: found.filter(({ latest }) => latest.crate === name),
			toCount: should.length,
			counted: should.filter(({ counted }) => counted !== null).length
		};
	});
}
