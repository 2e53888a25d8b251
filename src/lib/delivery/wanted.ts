/** The order side of a comparison: the parts taken off, found by id, opening, mark and kind. */
import { Decimal } from 'decimal.js';
import type { Part, PartKind } from '../takeoff/result.ts';
import type { Likeness } from './likeness.ts';
import { lookalike, misreadMark, plainMark, withoutSeparators } from './spelling.ts';

/** One ordered part with its place in the wanted order. */
export interface OrderedPart {
	readonly part: Part;
	/** Place in the wanted order, from 0. */
	readonly at: number;
	readonly ordered: Decimal;
}

/** Of what a line speaks: one part, an opening, a mark, a line of our order, parts a person named, the job. */
export type Reach = 'part' | 'opening' | 'mark' | 'orderLine' | 'decided' | 'job';

/** Parts that may stand in for one another, within one reach. */
export interface Lot {
	readonly reach: Reach;
	readonly kind: PartKind;
	/** In the wanted order; never empty. */
	readonly parts: readonly [OrderedPart, ...OrderedPart[]];
	/** The first of them; all agree in what is compared. */
	readonly part: Part;
	readonly likeness: Likeness;
	readonly ordered: Decimal;
	/** Hands of the parts; where parts have none, the sides they stand on. */
	readonly hands: ReadonlySet<'left' | 'right'>;
}

export type LotsByKind = ReadonlyMap<PartKind, readonly Lot[]>;

export interface Place {
	/** Mark or opening as it is written in the order. */
	readonly name: string;
	readonly mark: string;
	readonly reach: 'opening' | 'mark';
	readonly lots: LotsByKind;
}

export interface Wanted {
	readonly parts: readonly OrderedPart[];
	/** The lot of one part, by its id as written, then by the id in capitals. */
	readonly byId: ReadonlyMap<string, OrderedPart>;
	readonly byCapitals: ReadonlyMap<string, readonly OrderedPart[]>;
	/** By {@link lookalike} of the id. */
	readonly byLookalike: ReadonlyMap<string, readonly OrderedPart[]>;
	/** The part that took the place of the id, in capitals, over any number of revisions. */
	readonly bySuperseded: ReadonlyMap<string, OrderedPart>;
	/** Older revisions of a part, by its id; those that are known. */
	readonly former: ReadonlyMap<string, readonly Part[]>;
	/** By {@link plainMark}; more than one when marks differ only in spelling. */
	readonly places: ReadonlyMap<string, readonly Place[]>;
	/** By {@link misreadMark}. */
	readonly placesByMisreading: ReadonlyMap<string, readonly Place[]>;
	/** By {@link withoutSeparators} of the mark. */
	readonly placesWithoutSeparators: ReadonlyMap<string, readonly Place[]>;
	/** Over the whole job, whatever the mark. */
	readonly job: LotsByKind;
	/** Phrases of all items of a kind, and of all finishes. */
	readonly itemPhrases: ReadonlyMap<PartKind, readonly string[]>;
	readonly finishPhrases: readonly string[];
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
	const list = map.get(key);
	if (list) list.push(value);
	else map.set(key, [value]);
}

/** @throws Error when the text is not a plain decimal number */
export function amountOf(text: string, whose: string): Decimal {
	if (/^\d{1,12}(\.\d{1,12})?$/u.test(text)) return new Decimal(text);
	throw new Error(`${whose}: "${text}" is not a quantity; write 0 or more`);
}

/** Lots of some parts by kind, in the wanted order of their first parts. */
export class Lots {
	readonly #reach: Reach;
	readonly #likeness: (part: Part) => Likeness;
	readonly #parts = new Map<string, [OrderedPart, ...OrderedPart[]]>();

	constructor(reach: Reach, likeness: (part: Part) => Likeness) {
		this.#reach = reach;
		this.#likeness = likeness;
	}

	add(one: OrderedPart): void {
		const alike = this.#parts.get(one.part.interchangeKey);
		if (alike) alike.push(one);
		else this.#parts.set(one.part.interchangeKey, [one]);
	}

	byKind(): LotsByKind {
		const lots = new Map<PartKind, Lot[]>();
		for (const parts of this.#parts.values()) {
			const lot = lotOf(this.#reach, parts, this.#likeness);
			push(lots, lot.kind, lot);
		}
		return lots;
	}
}

export function lotOf(
	reach: Reach,
	parts: readonly [OrderedPart, ...OrderedPart[]],
	likeness: (part: Part) => Likeness
): Lot {
	const [{ part }] = parts;
	return {
		reach,
		kind: part.kind,
		parts,
		part,
		likeness: likeness(part),
		ordered: parts.reduce((sum, { ordered }) => sum.plus(ordered), new Decimal(0)),
		hands: new Set(parts.flatMap((one) => one.part.hand ?? one.part.side ?? []))
	};
}

/**
 * Reads the parts, given in the wanted order.
 * @param retired older revisions of the parts, as far as they are known
 * @throws Error when a part id stands twice or a quantity is not a plain decimal number
 */
export function readWanted(
	parts: readonly Part[],
	likeness: (part: Part) => Likeness,
	retired: readonly Part[] = []
): Wanted {
	const ordered = parts.map((part, at): OrderedPart => ({
		part,
		at,
		ordered: amountOf(part.quantity, `part ${part.partId}`)
	}));
	const byId = new Map<string, OrderedPart>();
	const byCapitals = new Map<string, OrderedPart[]>();
	const byLookalike = new Map<string, OrderedPart[]>();
	const bySuperseded = new Map<string, OrderedPart>();
	const former = new Map<string, Part[]>();
	const older = new Map(retired.map((part) => [plainMark(part.partId), part]));
	const job = new Lots('job', likeness);
	const marks = new Map<string, Lots>();
	const openings = new Map<string, { mark: string; lots: Lots }>();
	const itemPhrases = new Map<PartKind, Set<string>>();
	const finishPhrases = new Set<string>();
	for (const one of ordered) {
		const { part } = one;
		if (byId.has(part.partId)) throw new Error(`part ${part.partId} is in the material list twice`);
		byId.set(part.partId, one);
		push(byCapitals, plainMark(part.partId), one);
		push(byLookalike, lookalike(plainMark(part.partId)), one);
		for (let id = part.supersedes; id !== null;) {
			const plain = plainMark(id);
			if (bySuperseded.get(plain) === one) break;
			bySuperseded.set(plain, one);
			const old = older.get(plain);
			if (old) push(former, part.partId, old);
			id = old?.supersedes ?? null;
		}
		job.add(one);
		const mark = marks.get(part.mark) ?? new Lots('mark', likeness);
		marks.set(part.mark, mark);
		mark.add(one);
		const opening = openings.get(part.openingId) ?? {
			mark: part.mark,
			lots: new Lots('opening', likeness)
		};
		openings.set(part.openingId, opening);
		opening.lots.add(one);
		const read = likeness(part);
		const items = itemPhrases.get(part.kind) ?? new Set();
		itemPhrases.set(part.kind, items);
		for (const item of read.items) items.add(item);
		if (read.finish !== '') finishPhrases.add(read.finishPhrase);
	}

	const places = new Map<string, Place[]>();
	const placesByMisreading = new Map<string, Place[]>();
	const placesWithoutSeparators = new Map<string, Place[]>();
	const addPlace = (name: string, mark: string, reach: Place['reach'], lots: Lots): void => {
		const place: Place = { name, mark, reach, lots: lots.byKind() };
		const plain = plainMark(name);
		push(places, plain, place);
		push(placesByMisreading, misreadMark(plain), place);
		if (reach === 'mark') push(placesWithoutSeparators, withoutSeparators(plain), place);
	};
	for (const [mark, lots] of marks) if (mark.trim() !== '') addPlace(mark, mark, 'mark', lots);
	for (const [opening, { mark, lots }] of openings)
		if (plainMark(opening) !== plainMark(mark)) addPlace(opening, mark, 'opening', lots);

	return {
		parts: ordered,
		byId,
		byCapitals,
		byLookalike,
		bySuperseded,
		former,
		places,
		placesByMisreading,
		placesWithoutSeparators,
		job: job.byKind(),
		itemPhrases: new Map([...itemPhrases].map(([kind, phrases]) => [kind, [...phrases]])),
		finishPhrases: [...finishPhrases]
	};
}
