/** What people write into a size cell besides the size: words that hold it, rough marks, W and H, footnotes, a second size. */
import { takeFootnotes } from './footnotes.ts';

export interface SizeText {
	/** What is left to be read as a length; '' when nothing is. */
	readonly figure: string;
	/** It says that the size is not final: `V.I.F.`, `±`, `see plan`. */
	readonly held: boolean;
	/** It says that the size is a rough opening. */
	readonly rough: boolean;
	readonly footnotes: readonly string[];
	/** `W` or `H` stands with it. */
	readonly letter: 'width' | 'height' | null;
}

/** Letters of a cell that is taken apart; a longer one is no size. */
const longest = 120;

/** A word that stands on its own, whatever signs follow. */
const word = (inner: string): RegExp => new RegExp(`(?<![a-z])(?:${inner})(?![a-z])\\.?`, 'giu');

// Common practice, no source.
const heldWords: readonly RegExp[] = [
	/(?<![a-z])see (?:note|plan|drawing|dwg|arch|elev|detail|sketch|spec|section|sched|site|survey|struct).*$/giu,
	/(?<![a-z])(?:(?:as )?per|by|to match|match) (?:\p{L}.*)$/giu,
	word('v\\.?\\s?i\\.?\\s?f'),
	word(
		'(?:to be )?(?:field[- ])?verif(?:y|ied)(?: (?:in (?:the )?field|on[- ]site|at site|size|dims?|dimensions?))?'
	),
	word(
		'(?:to be )?(?:field|site|survey)[- ](?:verif(?:y|ied)|measured?|measurements?|dimensions?|dims?|check(?:ed)?|size)'
	),
	word('(?:to be )?(?:measured?|checked|confirmed|determined|advised|decided) on[- ]site'),
	word('t\\.?b\\.?[acdv]'),
	word('to be (?:determined|confirmed|advised|decided|announced|measured|checked|verified)'),
	word('n\\/a|n\\.\\s?a|na|n\\.?i\\.?c|not applicable|not known'),
	word(
		'approx(?:imate)?(?:ly)?|about|abt|circa|ca|varies|vary|unknown|(?:existing|exist\\.?|exst\\.?)(?: opening| opng\\.?| size)?|pending|hold|field|min(?:imum)?|max(?:imum)?'
	),
	/\+\s?\/\s?[-−–]|[-−–]\/\+|\+[-−–]|[±~≈∼?]/gu
];

/** `10'-0" ± 1/2"`: what follows is how much it may be off. */
const tolerance = /^(.*\d.*?)\s*(?:\+\s?\/\s?[-−–]|\+[-−–]|±).*$/u;

const roughWords = word('r\\.\\s?o|ro|rough(?:[- ]opening|[- ]opng)?|m\\.\\s?o|masonry opening');
/** Words that say what a size in this program always is. */
const finishedWords = word('f\\.\\s?o|fin(?:ished)?(?: opening)?|clr|clear(?: opening)?|net|nominal|nom');
const letters = {
	width: word('w|width|wide'),
	height: word('h|ht|hgt|height|high')
};

/** Takes every match away. */
function strip(text: string, pattern: RegExp): { text: string; found: boolean } {
	const rest = text.replace(pattern, ' ');
	return { text: rest, found: rest !== text };
}

/** Empty brackets, and separators that have nothing more to separate. */
const tidy = (text: string): string =>
	text
		.replace(/[([]\s*[)\]]/gu, ' ')
		.replace(/\s+/gu, ' ')
		.replace(/^[\s,;:=@]+|[\s,;:=@–—-]+$/gu, '')
		.replace(/^[–—-]\s+(?=\S)/u, '')
		.replace(/^\(([^()]*)\)$/u, '$1')
		.trim();

/** Takes apart what stands in a size cell, on one line. */
export function readSizeText(text: string): SizeText {
	if (text.length > longest) return { figure: text, held: false, rough: false, footnotes: [], letter: null };
	const within = tolerance.exec(text)?.[1];
	let held = within !== undefined;
	let rest = within ?? text;
	const marked = takeFootnotes(rest, true);
	const footnotes = [...marked.marks];
	rest = marked.text;
	for (const pattern of heldWords) {
		const { text: without, found } = strip(rest, pattern);
		if (!found) continue;
		held = true;
		rest = without;
	}
	const rough = strip(rest, roughWords);
	const finished = strip(rough.text, finishedWords);
	const width = strip(finished.text, letters.width);
	const height = strip(width.text, letters.height);
	rest = height.text;
	const taken = held || rough.found || finished.found || width.found || height.found;
	if (taken) rest = tidy(rest);
	// Behind a word that was taken there may be another footnote: `10'-0"* V.I.F.`
	if (taken && rest !== '') {
		const again = takeFootnotes(rest, true);
		footnotes.push(...again.marks);
		rest = again.text;
	}
	return {
		figure: rest,
		held,
		rough: rough.found,
		footnotes,
		letter: width.found === height.found ? null : width.found ? 'width' : 'height'
	};
}

const saysSize = (text: string): boolean => /\d/u.test(text) || readSizeText(text).figure === '';

/** `x`, `×` or `by` between two sizes; the letters W and H and units may touch it. */
const between =
	/(?:(?<![a-z])|(?<=(?:^|[^a-z])(?:[wh]|mm|cm|m|in|ft)))\s*(?:[x×✕✖]|\bby\b)\s*(?=[^a-z]|(?:w|h|tbd|tbc|vif|v\.|n\/a|see|verify)(?![a-z]))/giu;

/** The two sizes of a cell such as `10'-0" x 4'-0"`; null when there are not two. */
export function twoSizes(text: string): readonly [string, string] | null {
	if (text.length > longest) return null;
	const found = Array.from(text.matchAll(between)).flatMap(({ index, 0: sign }) => {
		const [first, second] = [text.slice(0, index).trim(), text.slice(index + sign.length).trim()];
		return first !== '' && second !== '' && saysSize(first) && saysSize(second)
			? [[first, second] as const]
			: [];
	});
	const [only] = found;
	if (only === undefined || found.length > 1) return null;
	return /\d/u.test(text) || /[x×]/iu.test(text) ? only : null;
}

/** A size in feet and inches with the same in millimetres behind it: `10'-6" [3200]`, `10'-6" (3200 mm)`. */
export function withMillimetres(
	text: string
): { readonly figure: string; readonly millimetres: number } | null {
	const [, figure, again] =
		/^(\d.*?(?:["”″'’′]|in\.?|inches|ft\.?|feet))\s*[([]\s*(\d{1,3}(?:[ ,]\d{3})+|\d{3,5})\s*(?:mm)?\s*[)\]]$/iu.exec(
			text
		) ?? [];
	return figure === undefined || again === undefined
		? null
		: { figure, millimetres: Number(again.replace(/\D/gu, '')) };
}

/** `3.000`: three metres, three thousand or three; a figure of millimetres that nobody can tell. */
export const isPointedThousand = (text: string): boolean => /^\d{1,2}\.\d{3}$/u.test(text);

/** `10/0`: ten feet and no inches, since nothing is divided by nothing. */
export const isFeetSlashZero = (text: string): boolean => /^\d{1,3}\/0{1,2}$/u.test(text.trim());

/** `10/4` as `10'-4"`, for a column that is written so. */
export function feetSlashInches(text: string): string | null {
	const [, feet, inches] =
		/^(\d{1,3})\/(\d{1,2}(?:[ -]\d\/\d{1,2}|\.\d+|\s?[½¼¾⅛⅜⅝⅞])?)["”″]?$/u.exec(text.trim()) ?? [];
	return feet !== undefined && inches !== undefined && parseFloat(inches) < 12 ? `${feet}'-${inches}"` : null;
}

/**
 * Feet and inches as schedules write them, in the spelling that is read: `12' - 6"` subtracts where people reckon in a
 * cell, but in a schedule nobody subtracts.
 */
export const joinedFeet = (text: string): string =>
	text.replace(/^(\d+\s*(?:['’′´]|ft\.?|feet))\s+[-‐‑–—]\s+(?=\d)/iu, '$1-');

/**
 * Millimetres without the signs that part their thousands: `3 000`, `1,200`, `3,813.5`, `3 813,5`. Three figures behind
 * a comma are never decimals of a millimetre.
 */
export const withoutGrouping = (text: string): string => {
	const [, whole, decimals = '', unit = ''] =
		/^(\d{1,3}(?: \d{3})+|\d{1,3}(?:,\d{3})+(?!,)|\d{1,3}(?:\.\d{3})+(?=,))([.,]\d+)?(\s*mm)?$/iu.exec(
			text
		) ?? [];
	return whole === undefined ? text : `${whole.replace(/\D/gu, '')}${decimals.replace(',', '.')}${unit}`;
};

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const month = `(${months.join('|')})[a-z]*`;

/** A date, as far as it shows. */
export interface ShownDate {
	readonly month: number;
	/** The day; or two figures of the year where no day shows. */
	readonly second: number;
}

/** The date that a text shows, `4-Oct`, `Apr-00`, `10/4/2031` or `2031-10-04`; null for any other text. */
export function dateIn(text: string, monthAndYear = false): ShownDate | null {
	const iso = /^(\d{4})-(\d\d)-(\d\d)(?:[ T]|$)/u.exec(text);
	if (iso) return { month: Number(iso[2]), second: monthAndYear ? Number(iso[1]) % 100 : Number(iso[3]) };
	const dayFirst = new RegExp(`^(\\d{1,2})[-. /]${month}(?:[-. /,]+\\d{2,4})?$`, 'iu').exec(text);
	if (dayFirst)
		return { month: months.indexOf((dayFirst[2] ?? '').toLowerCase()) + 1, second: Number(dayFirst[1]) };
	const monthFirst = new RegExp(`^${month}[-. /]+(\\d{1,4})(?:,? \\d{4})?$`, 'iu').exec(text);
	if (monthFirst)
		return {
			month: months.indexOf((monthFirst[1] ?? '').toLowerCase()) + 1,
			second: Number(monthFirst[2]) % 100
		};
	const figures = /^(\d{1,2})([/.-])(\d{1,2})\2(?:\d{4}|\d{2})$/u.exec(text);
	return figures ? { month: Number(figures[1]), second: Number(figures[3]) } : null;
}

/** What was typed when a spreadsheet made that date of a size: `10-4` becomes 4 October, `4-0` becomes Apr-00. */
export function probableSize({ month: feet, second: inches }: ShownDate): string | null {
	if (inches < 12) return `${feet}'-${inches}"`;
	return feet < 12 ? `${inches}'-${feet}"` : null;
}
