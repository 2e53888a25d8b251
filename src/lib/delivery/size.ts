/** Sizes as the trade writes them: `16`, `3/8" x 3 3/4"`, `tube-165`. */
import { parseLength, type LengthReading } from '../quantity/length.ts';
import { wordsOf } from './words.ts';

/** A size read into its figures and words. */
export interface Size {
	readonly figures: readonly number[];
	readonly words: readonly string[];
}

/** Words that only say how a size is meant. */
const sayNothing = new Set([
	'in',
	'inch',
	'ft',
	'lb',
	'x',
	'by',
	'no',
	'nom',
	'nominal',
	'size',
	'dia',
	'diameter',
	'od',
	'long',
	'lg'
]);

const figureOf = (text: string): number => {
	const [top = '', bottom] = text.split('/');
	return bottom === undefined ? Number(top) : Number(top) / Number(bottom);
};

/** `3/8" x 3 3/4"` is [0.375, 3.75]. A figure that can't be read stays a word. */
export function readSize(text: string): Size {
	const all = wordsOf(text);
	const figures: number[] = [];
	const words: string[] = [];
	for (let at = 0; at < all.length; at++) {
		const word = all[at] ?? '';
		const next = all[at + 1] ?? '';
		if (/^\d+$/u.test(word) && /^\d+\/[1-9]\d*$/u.test(next)) {
			figures.push(figureOf(word) + figureOf(next));
			at++;
		} else if (/^\d*\.?\d+$|^\d+\/[1-9]\d*$/u.test(word)) figures.push(figureOf(word));
		else if (!sayNothing.has(word)) words.push(word);
	}
	return { figures, words };
}

export const sameFigure = (a: number, b: number): boolean =>
	Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(b));

/** The same figures in the same order, and no word that the ordered size has not: `165` is `tube-165`, `16` is `16 in`. */
export const sameSize = (shipped: Size, ordered: Size): boolean =>
	shipped.figures.length === ordered.figures.length &&
	shipped.figures.every((figure, at) => sameFigure(figure, ordered.figures[at] ?? NaN)) &&
	shipped.words.every((word) => ordered.words.includes(word)) &&
	(shipped.figures.length > 0 || shipped.words.length === ordered.words.length);

const figureText = String.raw`\d{1,6}(?:\.\d{1,6}|[ -]\d{1,3}\/\d{1,3}|\/\d{1,3})?`;
const measure = new RegExp(
	String.raw`\d{1,4} ?['’′](?: ?-? ?${figureText} ?["”″]?)?|${figureText} ?(?:["”″]|(?:in|inch|inches|mm|cm|m|ft)\b)`,
	'giu'
);
/** A foot: what is shorter is a nominal size, not the length of a part. */
const shortestPart = 304_800_000;

/** Lengths of a foot or more, written with their unit somewhere in a text, in nm. */
export function lengthsIn(text: string): number[] {
	return (text.slice(0, 400).match(measure) ?? [])
		.map((found): LengthReading => parseLength(found, 'in'))
		.flatMap((read) => (read.ok && read.nm >= shortestPart ? [read.nm] : []));
}
