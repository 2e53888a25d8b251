/** Lines of one order, made from the parts that go into it. */
import { Decimal } from 'decimal.js';
import type { Part } from '../../takeoff/result.ts';
import { fillOf } from './full-boxes.ts';
import { datesOf, inOrderOfHanging, onePrice, unique, type Buying, type DraftLine } from './line-parts.ts';
import type { LineScope, Supplier } from './purchase-order.ts';
import { unitLines } from './unit-lines.ts';

/** A part, and how it is bought. */
export interface ScopedPart {
	readonly part: Part;
	readonly scope: LineScope;
}

/** How a part is bought, by its supply and the plan of its opening. */
export const scopeOf = (part: Part, plans: Buying['plans']): LineScope => {
	if (part.supply === 'stock') return 'stock';
	return plans.get(part.openingId)?.boughtAs === 'unit' ? 'unit' : 'part';
};

/** What all titles begin with, up to a comma: `Wedge anchor, left wall` and `Wedge anchor, right wall` are `Wedge anchor`. */
function sharedTitle(titles: readonly string[]): string {
	const [first = [], ...others] = unique(titles).map((title) => title.split(', '));
	const differs = first.findIndex((piece, at) => others.some((title) => title[at] !== piece));
	return (differs > 0 ? first.slice(0, differs) : differs === 0 ? first.slice(0, 1) : first).join(', ');
}

const sum = (parts: readonly Part[]): Decimal =>
	parts.reduce((total, { quantity }) => total.plus(quantity), new Decimal(0));

/** A lot of alike parts, at least one. */
type Alike = readonly [Part, ...Part[]];

function partLine(
	scope: 'part' | 'stock',
	alike: Alike,
	buying: Buying,
	supplier: Pick<Supplier, 'leadDays' | 'daysBefore'>
): DraftLine {
	const [first] = alike;
	const openingIds = unique(alike.map(({ openingId }) => openingId));
	return {
		scope,
		kind: first.kind,
		partIds: alike.map(({ partId }) => partId),
		openingIds,
		marks: unique(alike.map(({ mark }) => mark)),
		title: sharedTitle(alike.map(({ title }) => title)),
		item: first.item,
		size: first.size,
		length: first.length,
		width: first.width,
		hand: first.hand,
		finish: first.finish,
		quantity: sum(alike).toFixed(),
		unit: first.unit,
		...onePrice(alike.map(({ partId }) => buying.prices.get(partId) ?? null)),
		...datesOf(openingIds, buying, supplier)
	};
}

/** What fills up the boxes of a line; it covers no part. */
function fillLine(line: DraftLine, { boxes }: Buying): DraftLine[] {
	const box = boxes.get(line.item);
	const fill = box ? fillOf(new Decimal(line.quantity), box, line.unit) : null;
	if (!fill) return [];
	return [
		{
			...line,
			kind: null,
			partIds: [],
			openingIds: [],
			marks: [],
			title: `${line.title}, to fill up`,
			quantity: fill.quantity,
			note: fill.note
		}
	];
}

/**
 * The lines of one order: complete units by alike openings, parts by what may stand in for one another, stock likewise
 * with what fills up its boxes on a line of its own. In order of their first mark, then of hanging. A quantity of nothing
 * makes no line.
 *
 * @param parts in the wanted order
 */
export function draftLines(
	parts: readonly ScopedPart[],
	buying: Buying,
	supplier: Pick<Supplier, 'leadDays' | 'daysBefore'>
): DraftLine[] {
	const units: Part[] = [];
	const groups = new Map<string, { scope: 'part' | 'stock'; alike: [Part, ...Part[]] }>();
	const at = new Map<string, number>();
	const markAt = new Map<string, number>();
	for (const { part, scope } of parts) {
		at.set(part.partId, at.size);
		if (!markAt.has(part.mark)) markAt.set(part.mark, markAt.size);
		if (scope === 'unit') {
			units.push(part);
			continue;
		}
		const key = JSON.stringify([scope, part.interchangeKey, part.unit]);
		const group = groups.get(key);
		if (group) group.alike.push(part);
		else groups.set(key, { scope, alike: [part] });
	}
	const placeOf = ({ marks, kind, partIds }: DraftLine): readonly number[] => [
		markAt.get(marks[0] ?? '') ?? 0,
		kind === null ? -1 : inOrderOfHanging.indexOf(kind),
		at.get(partIds[0] ?? '') ?? 0
	];
	const compare = (a: DraftLine, b: DraftLine): number => {
		const [x, y] = [placeOf(a), placeOf(b)];
		const differs = x.findIndex((value, i) => value !== y[i]);
		return differs < 0 ? 0 : (x[differs] ?? 0) - (y[differs] ?? 0);
	};
	return [
		...unitLines(units, buying, supplier),
		...[...groups.values()].map(({ scope, alike }) => partLine(scope, alike, buying, supplier))
	]
		.filter(({ quantity }) => !new Decimal(quantity).isZero())
		.sort(compare)
		.flatMap((line) => (line.scope === 'stock' ? [line, ...fillLine(line, buying)] : [line]));
}
