/** The order side of a comparison: the parts taken off, found by id, opening, mark and kind. */
import { Decimal } from 'decimal.js';
import type { Part, PartKind } from '../takeoff/result.ts';
import { readWords } from './kind-words.ts';
import { readSize, type Size } from './size.ts';
import { phraseOf, wordsOf } from './words.ts';

/** One ordered part with its place in the wanted order. */
export interface OrderedPart {
	readonly part: Part;
	/** Place in the wanted order, from 0. */
	readonly at: number;
	readonly ordered: Decimal;
}

/** What parts of one interchange key are, read once. */
export interface Likeness {
	readonly item: string;
	/** Title without its side, as a phrase. */
	readonly title: string;
	/** Phrases that name the item: ` store face `; ` standard concrete ` and ` concrete `. */
	readonly items: readonly string[];
	readonly names: readonly string[];
	readonly size: Size;
	readonly finish: string;
	readonly finishPhrase: string;
}

/** How wide a line speaks: of one part, an opening, a mark, or the job. Narrow ones are dealt out first. */
export const reaches = ['part', 'opening', 'mark', 'job'] as const;
export type Reach = (typeof reaches)[number];

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

export interface Order {
	readonly parts: readonly OrderedPart[];
	/** The lot of one part, by its id as written, then by the id in capitals. */
	readonly byId: ReadonlyMap<string, OrderedPart>;
	readonly byCapitals: ReadonlyMap<string, readonly OrderedPart[]>;
	/** By {@link lookalike} of the id. */
	readonly byLookalike: ReadonlyMap<string, readonly OrderedPart[]>;
	/** The part that took the place of the id, in capitals. */
	readonly bySuperseded: ReadonlyMap<string, OrderedPart>;
	/** By {@link plainMark}; more than one when marks differ only in spelling. */
	readonly places: ReadonlyMap<string, readonly Place[]>;
	/** By {@link lookalike} of the mark without its separators. */
	readonly placesByLookalike: ReadonlyMap<string, readonly Place[]>;
	/** The same, without separators only. */
	readonly placesWithoutSeparators: ReadonlyMap<string, readonly Place[]>;
	/** Over the whole job, whatever the mark. */
	readonly job: LotsByKind;
	/** Phrases of all items of a kind, and of all finishes. */
	readonly itemPhrases: ReadonlyMap<PartKind, readonly string[]>;
	readonly finishPhrases: readonly string[];
}

/** A mark or id in one spelling: capitals, no spaces, one dash. */
export const plainMark = (text: string): string =>
	text
		.normalize('NFKC')
		.replace(/[‐‑‒–—−]/gu, '-')
		.replace(/\s+/gu, '')
		.toUpperCase();

/** Digits and letters that scans and eyes confuse become the same. */
export const lookalike = (text: string): string => text.replace(/O/gu, '0').replace(/[IL|]/gu, '1');

export const withoutSeparators = (text: string): string => text.replace(/[-_./]/gu, '');

/** Finish in one spelling, whatever the order of its words: `Powder coat, graphite` is `powder-graphite`. */
export const plainFinish = (text: string): string =>
	[...new Set(wordsOf(text))]
		.filter((word) => !['finish', 'coat', 'coated', 'coating'].includes(word))
		.sort()
		.join(' ');

const sideWords = new Set(['left', 'right', 'hand', 'side', 'drive', 'wall']);

function likenessOf(part: Part): Likeness {
	const items = [part.item, part.item.includes('.') ? part.item.slice(part.item.lastIndexOf('.') + 1) : '']
		.filter((item) => /\p{L}/u.test(item))
		.map((item) => phraseOf(wordsOf(item)));
	const title = wordsOf(part.title);
	const plain = title.filter((word) => !sideWords.has(word));
	return {
		item: part.item,
		title: phraseOf(plain.length > 0 ? plain : title),
		items,
		names: readWords(`${part.title}, ${part.item}`).names,
		size: readSize(part.size),
		finish: plainFinish(part.finish),
		finishPhrase: phraseOf(wordsOf(part.finish))
	};
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
	const list = map.get(key);
	if (list) list.push(value);
	else map.set(key, [value]);
}

function orderedOf(part: Part): Decimal {
	const amount = /^\d{1,12}(\.\d{1,12})?$/u.test(part.quantity) ? new Decimal(part.quantity) : null;
	if (!amount) throw new Error(`part ${part.partId}: "${part.quantity}" is not a quantity; write 0 or more`);
	return amount;
}

/** Lots of some parts by kind, in the wanted order of their first parts. */
class Lots {
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

/** Likeness of a part, kept by interchange key and title. */
export function likenessReader(): (part: Part) => Likeness {
	const known = new Map<string, Likeness>();
	return (part) => {
		const key = `${part.interchangeKey}\n${part.title}`;
		const kept = known.get(key) ?? likenessOf(part);
		known.set(key, kept);
		return kept;
	};
}

/**
 * Reads the parts, given in the wanted order.
 * @throws Error when a part id stands twice or a quantity is not a plain decimal number
 */
export function readOrder(parts: readonly Part[], likeness: (part: Part) => Likeness): Order {
	const ordered = parts.map((part, at): OrderedPart => ({ part, at, ordered: orderedOf(part) }));
	const byId = new Map<string, OrderedPart>();
	const byCapitals = new Map<string, OrderedPart[]>();
	const byLookalike = new Map<string, OrderedPart[]>();
	const bySuperseded = new Map<string, OrderedPart>();
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
		if (part.supersedes !== null) bySuperseded.set(plainMark(part.supersedes), one);
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
	const placesByLookalike = new Map<string, Place[]>();
	const placesWithoutSeparators = new Map<string, Place[]>();
	const addPlace = (name: string, mark: string, reach: Place['reach'], lots: Lots): void => {
		const place: Place = { name, mark, reach, lots: lots.byKind() };
		const plain = plainMark(name);
		push(places, plain, place);
		push(placesByLookalike, lookalike(withoutSeparators(plain)), place);
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
		places,
		placesByLookalike,
		placesWithoutSeparators,
		job: job.byKind(),
		itemPhrases: new Map([...itemPhrases].map(([kind, phrases]) => [kind, [...phrases]])),
		finishPhrases: [...finishPhrases]
	};
}
