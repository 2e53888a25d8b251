/** Where a line of a packing list and the parts it may mean agree and disagree. */
import { formatLength, type LengthStyle } from '../quantity/length.ts';
import type { PartKind } from '../takeoff/result.ts';
import type { Attribute, Difference } from './comparison.ts';
import { readWords, type WordReading } from './kind-words.ts';
import type { PackingLine } from './line.ts';
import { plainFinish, type Lot, type Order } from './order.ts';
import { lengthsIn, readSize, sameFigure, sameSize, type Size } from './size.ts';
import { phraseOf, phrasesIn, wordsOf } from './words.ts';

/** What a description says, read once for all lines that have it. */
export interface Description {
	readonly phrase: string;
	readonly words: WordReading;
	/** Lengths of a foot or more, nm. */
	readonly lengths: readonly number[];
	/** Figures that stand where the trade puts a size. */
	readonly figures: readonly number[];
	/** Finishes of the order that it names. */
	readonly finishes: readonly string[];
	/** Items of the order, of one kind, that it names. */
	readonly items: (kind: PartKind) => readonly string[];
}

/** A line with everything about it that can be compared. */
export interface Claims {
	readonly line: PackingLine;
	readonly description: Description;
	/** By its column, else by the words. */
	readonly hand: 'left' | 'right' | null;
	readonly size: Size | null;
	/** Empty when its column names none. */
	readonly finish: string;
}

type Compared = Extract<Attribute, 'item' | 'hand' | 'side' | 'length' | 'width' | 'size' | 'finish'>;

export interface Verdict {
	readonly lot: Lot;
	readonly differing: readonly Compared[];
	readonly agreeing: readonly Compared[];
	/** The length that was compared, nm: of its column, or of the words or the width column. */
	readonly length: number | null;
	/** How far off the length is, nm. */
	readonly offLength: number;
}

export interface Measuring {
	/** Lengths that differ by no more are the same, nm. */
	readonly tolerance: number;
	readonly style: LengthStyle;
}

/** Kinds that are called by their size: `bracket 16`. A number beside another word may be anything. */
const calledBySize: readonly PartKind[] = ['bracket', 'barrel', 'drive', 'anchor'];

/** Reads descriptions against one order, each once. */
export function descriptionReader(order: Order): (text: string) => Description {
	const known = new Map<string, Description>();
	return (text) => {
		const kept = known.get(text);
		if (kept) return kept;
		const phrase = phraseOf(wordsOf(text));
		const words = readWords(text);
		const items = new Map<PartKind, readonly string[]>();
		const description: Description = {
			phrase,
			words,
			lengths: lengthsIn(text),
			figures: words.sizes.flatMap((size) => readSize(size).figures),
			finishes: phrasesIn(phrase, order.finishPhrases),
			items: (kind) => {
				const named = items.get(kind) ?? phrasesIn(phrase, order.itemPhrases.get(kind) ?? []);
				items.set(kind, named);
				return named;
			}
		};
		known.set(text, description);
		return description;
	};
}

export function claimsOf(line: PackingLine, description: Description): Claims {
	return {
		line,
		description,
		hand: line.hand ?? description.words.hand,
		size: line.size === null || line.size.trim() === '' ? null : readSize(line.size),
		finish: plainFinish(line.finish ?? '')
	};
}

/** Unlike parts share these kinds, so the word for the kind alone says too little. */
const mixedKinds: readonly PartKind[] = ['control', 'consumable'];

/** Whether the words can mean a part of this lot: a key switch is no lock cylinder, though both are controls. */
export function canMean(lot: Lot, { phrase, words }: Description): boolean {
	if (!mixedKinds.includes(lot.kind)) return true;
	const { title, items, names } = lot.likeness;
	return (
		phrase.includes(title) ||
		items.some((item) => phrase.includes(item)) ||
		(words.names.length === 0
			? words.kinds.includes(lot.kind)
			: words.names.some((one) => names.includes(one)))
	);
}

/** True or false where the words say which item it is, null where they don't. */
function itemAgrees({ words, items }: Description, { kind, likeness }: Lot): boolean | null {
	const named = items(kind);
	if (named.length > 0 && !named.some((item) => likeness.items.includes(item))) return false;
	if (
		words.names.length > 0 &&
		likeness.names.length > 0 &&
		!words.names.some((one) => likeness.names.includes(one))
	)
		return false;
	return named.length > 0 ? true : null;
}

/** The length a line gives for a part that has one. A length in the width column counts where it agrees. */
function lengthOf({ line, description }: Claims, { part }: Lot, tolerance: number): number | null {
	const { length, width } = part;
	if (line.length !== null || length === null) return line.length;
	if (line.width !== null && width === null && Math.abs(line.width - length) <= tolerance) return line.width;
	const said = description.lengths.filter((one) => width === null || Math.abs(one - width) > tolerance);
	const [only] = said.length === 1 ? said : said.filter((one) => Math.abs(one - length) <= tolerance);
	return only ?? null;
}

function sizeAgrees({ line, description, size }: Claims, lot: Lot, tolerance: number): boolean | null {
	const { part, likeness } = lot;
	if (part.size === '') return null;
	if (size !== null) return sameSize(size, likeness.size);
	const figures = calledBySize.includes(lot.kind) ? description.figures : [];
	if (figures.length === 0) return null;
	const isSize = (figure: number): boolean => likeness.size.figures.some((one) => sameFigure(figure, one));
	const isMeasure = (figure: number, nm: number | null): boolean =>
		nm !== null &&
		(Math.abs(figure * 25_400_000 - nm) <= tolerance || Math.abs(figure * 1_000_000 - nm) <= tolerance);
	for (const figure of figures)
		if (
			!isSize(figure) &&
			figure !== line.quantity &&
			!isMeasure(figure, part.length) &&
			!isMeasure(figure, part.width)
		)
			return false;
	return figures.some(isSize) ? true : null;
}

function finishAgrees({ description, finish }: Claims, { likeness }: Lot): boolean | null {
	if (likeness.finish === '') return null;
	if (finish !== '') return finish === likeness.finish;
	if (description.finishes.length === 0) return null;
	return description.finishes.includes(likeness.finishPhrase);
}

/** Compares a line with the parts of a lot. What only one of them says is not compared. */
export function compareWithLot(claims: Claims, lot: Lot, { tolerance }: Measuring): Verdict {
	const { line, hand } = claims;
	const { part } = lot;
	const differing: Compared[] = [];
	const agreeing: Compared[] = [];
	const settle = (attribute: Compared, agrees: boolean | null): void => {
		if (agrees === true) agreeing.push(attribute);
		else if (agrees === false) differing.push(attribute);
	};
	settle('item', itemAgrees(claims.description, lot));
	if (hand !== null && lot.hands.size > 0) settle(part.hand === null ? 'side' : 'hand', lot.hands.has(hand));
	const length = lengthOf(claims, lot, tolerance);
	const offLength = length === null || part.length === null ? 0 : Math.abs(length - part.length);
	if (length !== null && part.length !== null) settle('length', offLength <= tolerance);
	if (line.width !== null && part.width !== null)
		settle('width', Math.abs(line.width - part.width) <= tolerance);
	settle('size', sizeAgrees(claims, lot, tolerance));
	settle('finish', finishAgrees(claims, lot));
	return { lot, differing, agreeing, length, offLength };
}

const measures: readonly Compared[] = ['length', 'width', 'size'];

/** Length, width or size was among what was compared. */
export const isMeasured = ({ differing, agreeing }: Verdict): boolean =>
	[...differing, ...agreeing].some((attribute) => measures.includes(attribute));

/** Both lengths as a person reads them, in exact millimetres where the style can't tell them apart. */
function lengthTexts(ordered: number, shipped: number, style: LengthStyle): [string, string] {
	const [a, b] = [formatLength(ordered, style), formatLength(shipped, style)];
	return a === b ? [`${ordered / 1e6} mm`, `${shipped / 1e6} mm`] : [a, b];
}

/** What the line and the order say of one attribute, as a person reads it: ordered, then shipped. */
function textsOf(
	attribute: Compared,
	claims: Claims,
	verdict: Verdict,
	style: LengthStyle
): [string, string] {
	const { line, description } = claims;
	const { part, likeness, hands } = verdict.lot;
	const { names, sizes } = description.words;
	const items = description.items(part.kind);
	switch (attribute) {
		case 'item':
			if (items.length > 0) return [part.item, items.join(' and ').trim()];
			return [likeness.names.join(', '), names.join(', ')];
		case 'hand':
		case 'side':
			return [[...hands].join(' and '), claims.hand ?? ''];
		case 'length':
			return lengthTexts(part.length ?? 0, verdict.length ?? 0, style);
		case 'width':
			return lengthTexts(part.width ?? 0, line.width ?? 0, style);
		case 'size':
			return [part.size, claims.size === null ? sizes.join(' x ') : (line.size ?? '')];
		case 'finish':
			return [
				part.finish,
				claims.finish === '' ? description.finishes.join(' and ').trim() : (line.finish ?? '')
			];
	}
}

export function differencesOf(claims: Claims, verdict: Verdict, { style }: Measuring): Difference[] {
	return verdict.differing.map((attribute) => {
		const [ordered, shipped] = textsOf(attribute, claims, verdict, style);
		return { attribute, ordered, shipped };
	});
}

/** What agrees, and what could not be compared though the order has it: `left hand`, `length 9'-2"`. */
export function agreementOf(
	claims: Claims,
	verdict: Verdict,
	{ style }: Measuring
): { agreed: string[]; notes: string[] } {
	const { part } = verdict.lot;
	const agreed = verdict.agreeing.flatMap((attribute): string[] => {
		if (attribute === 'side') return [];
		if (attribute === 'hand') return [`${claims.hand ?? ''} hand`];
		if (attribute === 'item') return [part.item];
		if (attribute === 'length') return [`length ${formatLength(verdict.length ?? 0, style)}`];
		if (attribute === 'width') return [`width ${formatLength(claims.line.width ?? 0, style)}`];
		return [`${attribute} ${attribute === 'size' ? part.size : part.finish}`];
	});
	const notes: string[] = [];
	if (verdict.length === null && part.length !== null && claims.description.lengths.length > 1)
		notes.push('the lengths in its words were not compared');
	const hasMeasure = part.length !== null || part.width !== null || part.size !== '';
	if (hasMeasure && !isMeasured(verdict)) notes.push('nothing on the line to measure it by');
	return { agreed, notes };
}
