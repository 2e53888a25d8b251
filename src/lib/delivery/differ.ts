/** Where a line of a packing list and the parts it may mean agree and disagree. */
import { formatLength, type LengthStyle } from '../quantity/length.ts';
import type { Part, PartKind } from '../takeoff/result.ts';
import type { Attribute, Difference } from './comparison.ts';
import type { Description } from './description.ts';
import { isCutShort, plainFinish } from './likeness.ts';
import type { PackingLine } from './line.ts';
import { measuresInSize, measuresOf } from './line-measures.ts';
import type { OpeningSizes, SizeMeaning } from './opening-sizes.ts';
import { readSize, sameFigure, sameSize, type Size } from './size.ts';
import type { Lot } from './wanted.ts';

/** How the lines of one list are to be read. */
export interface ListView {
	/** Its left is our right. */
	readonly mirrored: boolean;
	readonly sizes: SizeMeaning;
}

/** A line with everything about it that can be compared. */
export interface Claims {
	readonly line: PackingLine;
	readonly description: Description;
	readonly view: ListView;
	/** By its column, else by the words; seen from the coil side. */
	readonly hand: 'left' | 'right' | null;
	readonly size: Size | null;
	/** Empty when its column names none. */
	readonly finish: string;
}

type Compared = Extract<
	Attribute,
	'item' | 'hand' | 'side' | 'length' | 'width' | 'size' | 'finish' | 'revision'
>;

export interface Verdict {
	readonly lot: Lot;
	readonly differing: readonly Compared[];
	readonly agreeing: readonly Compared[];
	/** What it agrees with, were its sizes meant so; the list says nothing of the kind. */
	readonly assumed: 'opening' | 'overall' | 'part' | null;
	/** The older part whose measure it has. */
	readonly former: Part | null;
	/** The length that was compared, nm: of its column, or of the words or the width column. */
	readonly length: number | null;
	/** The same of the width. */
	readonly width: number | null;
	/** How far off the length is, nm. */
	readonly offLength: number;
}

export interface Measuring {
	/** Lengths that differ by no more are the same, nm. */
	readonly tolerance: number;
	readonly style: LengthStyle;
	readonly openings: OpeningSizes;
	/** Older revisions of parts, by id. */
	readonly former: ReadonlyMap<string, readonly Part[]>;
}

type Measured = 'agrees' | 'differs' | Exclude<Verdict['assumed'], null>;

/** Whether a figure is the measure of a part, by what the sizes of the list measure. Null where it can’t be told. */
function measureAgrees(
	figure: number,
	own: number,
	{ part }: Lot,
	{ meaning, said }: SizeMeaning,
	{ tolerance, openings }: Measuring
): Measured | null {
	const near = (other: number): boolean => Math.abs(figure - other) <= tolerance;
	const figures = openings.of(part.mark, part.openingId);
	if (meaning === 'part') {
		if (near(own)) return 'agrees';
		if (said) return 'differs';
		if (figures?.opening.some(near)) return 'opening';
		return figures?.overall.some(near) ? 'overall' : 'differs';
	}
	if (!figures) return near(own) ? 'agrees' : null;
	if (figures[meaning].some(near)) return 'agrees';
	if (!near(own)) return 'differs';
	return said && meaning === 'opening' ? 'part' : 'agrees';
}

/** Kinds that are called by their size: `bracket 16`. A number beside another word may be anything. */
const calledBySize: readonly PartKind[] = ['bracket', 'barrel', 'drive', 'anchor'];

const otherHand = { left: 'right', right: 'left' } as const;

export function claimsOf(line: PackingLine, description: Description, view: ListView): Claims {
	const said = line.hand ?? description.words.hand;
	return {
		line,
		description,
		view,
		hand: said !== null && view.mirrored ? otherHand[said] : said,
		size: line.size === null || line.size.trim() === '' ? null : readSize(line.size),
		finish: plainFinish(line.finish ?? '')
	};
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

/** Whether a figure is a length or width of the part, in inches or millimetres. */
function isMeasureOf(figure: number, { length, width }: Part, tolerance: number): boolean {
	return [length, width].some(
		(nm) =>
			nm !== null &&
			(Math.abs(figure * 25_400_000 - nm) <= tolerance || Math.abs(figure * 1_000_000 - nm) <= tolerance)
	);
}

function sizeAgrees(claims: Claims, lot: Lot, tolerance: number): boolean | null {
	const { line, description, size } = claims;
	const { part, likeness } = lot;
	const isLength = line.length === null && measuresInSize(claims, lot).length > 0;
	if (size !== null && !isLength) {
		// Lists by hand have one column for whatever measures a thing.
		const [only, ...more] = size.figures;
		if (only !== undefined && more.length === 0 && isMeasureOf(only, part, tolerance)) return true;
		return part.size === '' ? null : sameSize(size, likeness.size);
	}
	if (part.size === '') return null;
	const figures = calledBySize.includes(lot.kind) ? description.figures : [];
	if (figures.length === 0) return null;
	const isSize = (figure: number): boolean => likeness.size.figures.some((one) => sameFigure(figure, one));
	for (const figure of figures)
		if (!isSize(figure) && figure !== line.quantity && !isMeasureOf(figure, part, tolerance)) return false;
	return figures.some(isSize) ? true : null;
}

function finishAgrees({ description, finish }: Claims, { likeness }: Lot): boolean | null {
	if (likeness.finish === '') return null;
	if (finish !== '') return finish === likeness.finish || isCutShort(finish, likeness.finish);
	if (description.finishes.length === 0) return null;
	return description.finishes.includes(likeness.finishPhrase);
}

/** An older revision of a part of the lot that measures just so. */
function formerWith(
	attribute: 'length' | 'width',
	figure: number,
	{ parts }: Lot,
	{ former, tolerance }: Measuring
): Part | null {
	if (former.size === 0) return null;
	for (const { part } of parts)
		for (const old of former.get(part.partId) ?? []) {
			const own = old[attribute];
			if (own !== null && Math.abs(own - figure) <= tolerance) return old;
		}
	return null;
}

/** Compares a line with the parts of a lot. What only one of them says is not compared. */
export function compareWithLot(claims: Claims, lot: Lot, measuring: Measuring): Verdict {
	const { tolerance } = measuring;
	const { hand, view } = claims;
	const { part } = lot;
	const differing: Compared[] = [];
	const agreeing: Compared[] = [];
	const settle = (attribute: Compared, agrees: boolean | null): void => {
		if (agrees === true) agreeing.push(attribute);
		else if (agrees === false) differing.push(attribute);
	};
	settle('item', itemAgrees(claims.description, lot));
	if (hand !== null && lot.hands.size > 0) settle(part.hand === null ? 'side' : 'hand', lot.hands.has(hand));
	const { length, width } = measuresOf(claims, lot, tolerance);
	let assumed: Verdict['assumed'] = null;
	let former: Part | null = null;
	for (const [attribute, figure] of [
		['length', length],
		['width', width]
	] as const) {
		const own = part[attribute];
		if (figure === null || own === null) continue;
		const found = measureAgrees(figure, own, lot, view.sizes, measuring);
		if (found === 'agrees') settle(attribute, true);
		if (found === 'agrees' || found === null) continue;
		// An older revision of the part is nearer than the size of an opening.
		const old = formerWith(attribute, figure, lot, measuring);
		former ??= old;
		if (old || found === 'differs') settle(attribute, false);
		else assumed ??= found;
		if (old) settle('revision', false);
	}
	const offLength = length === null || part.length === null ? 0 : Math.abs(length - part.length);
	settle('size', sizeAgrees(claims, lot, tolerance));
	settle('finish', finishAgrees(claims, lot));
	return { lot, differing: [...new Set(differing)], agreeing, assumed, former, length, width, offLength };
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
			return lengthTexts(part.width ?? 0, verdict.width ?? 0, style);
		case 'size':
			return [part.size, claims.size === null ? sizes.join(' x ') : (line.size ?? '')];
		case 'revision': {
			const measure = ({ length, width }: Part): string =>
				[length, width].flatMap((nm) => (nm === null ? [] : formatLength(nm, style))).join(' × ');
			return [measure(part), verdict.former === null ? '' : measure(verdict.former)];
		}
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
		if (attribute === 'side' || attribute === 'revision') return [];
		if (attribute === 'hand') return [`${claims.hand ?? ''} hand`];
		if (attribute === 'item') return [part.item];
		if (attribute === 'length') return [`length ${formatLength(verdict.length ?? 0, style)}`];
		if (attribute === 'width') return [`width ${formatLength(verdict.width ?? 0, style)}`];
		return [`${attribute} ${attribute === 'size' ? part.size : part.finish}`];
	});
	const notes: string[] = [];
	if (verdict.length === null && part.length !== null && claims.description.lengths.length > 1)
		notes.push('the lengths in its words were not compared');
	const hasMeasure = part.length !== null || part.width !== null || part.size !== '';
	if (hasMeasure && !isMeasured(verdict)) notes.push('nothing on the line to measure it by');
	return { agreed, notes };
}
