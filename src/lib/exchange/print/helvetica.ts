/**
 * Helvetica, which every reader of PDF has (ISO 32000-1, 9.6.2.2) and no file has to carry: the letters it can write
 * (WinAnsiEncoding, annex D), and how wide they are.
 */

/** Widths in thousandths of the font size, from Adobe's font metrics of the regular cut (Core 14 AFM). */
const widths: readonly (readonly [width: number, letters: string])[] = [
	[191, `'`],
	[222, 'ijl’‘'],
	[260, '|'],
	[278, ` !,./:;I[\\]ft·`],
	[333, '()-`r²³“”'],
	[334, '{}'],
	[355, '"'],
	[389, '*'],
	[400, '°'],
	[469, '^'],
	[500, 'Jcksvxyz'],
	[556, '#$0123456789?L_abdeghnopqu–'],
	[584, '+<=>~×±'],
	[611, 'FTZ'],
	[667, '&ABEKPSVXY'],
	[722, 'CDHNRUw'],
	[778, 'GOQ'],
	[833, 'Mm'],
	[834, '½¼¾'],
	[889, '%'],
	[944, 'W'],
	[1000, '—…'],
	[1015, '@']
];

const widthOfLetter = new Map(
	widths.flatMap(([width, letters]) => Array.from(letters, (letter) => [letter, width] as const))
);

/** Letters with an accent are as wide as those without; whatever else there is, no wider than this. */
const unknownWidth = 1000;

const widthOf = (letter: string): number =>
	widthOfLetter.get(letter) ?? widthOfLetter.get(letter.normalize('NFD').charAt(0)) ?? unknownWidth;

/** Bold is never wider than this against the regular cut, over a few letters. */
const boldShare = 1.12;

/** Width of a text in the unit of the font size, without kerning. */
export const helveticaWidth = (text: string, fontSize: number, bold = false): number =>
	(Array.from(text).reduce((sum, letter) => sum + widthOf(letter), 0) / 1000) *
	fontSize *
	(bold ? boldShare : 1);

/** The part of WinAnsiEncoding that is not where Latin-1 has it. */
const winAnsi = new Set('€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ');

const isWritten = (letter: string): boolean => {
	const code = letter.codePointAt(0) ?? 0;
	return (
		(code >= 0x20 && code <= 0x7e) || (code >= 0xa0 && code <= 0xff && code !== 0xad) || winAnsi.has(letter)
	);
};

/** Signs of our own texts that the encoding lacks, and spaces; what has no width says nothing. */
const likeness: Readonly<Record<string, string>> = {
	'′': "'",
	'″': '"',
	'−': '-',
	'‐': '-',
	'‑': '-',
	'\u00ad': '-',
	'≈': '~',
	'≤': '<=',
	'≥': '>=',
	'≠': 'not ',
	'→': '->',
	'√': 'sqrt ',
	Ω: 'ohm',
	λ: 'lambda',
	π: 'pi',
	'⁄': '/',
	'\t': ' ',
	'\u200b': '',
	'\u200c': '',
	'\u200d': '',
	'\ufe0f': '',
	'\ufeff': ''
};

/** Fractions and small raised figures are spelled out: ⅜ is 3/8, ⁴ is 4. */
function spelledOut(letter: string): string | null {
	const plain = Array.from(letter.normalize('NFKD').replace(/\p{M}/gu, ''), (one) => likeness[one] ?? one);
	return plain.length > 0 && plain.every(isWritten) ? plain.join('') : null;
}

const codeOf = (letter: string): string =>
	`[U+${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}]`;

/**
 * A text in letters that Helvetica has. A letter that it has not is written as its likeness without accents, or else as
 * its code in square brackets, so that nothing is lost unseen. Line breaks stay.
 */
export function paperText(text: string): string {
	return Array.from(text.normalize('NFC'), (letter, i) => {
		if (letter === '\n' || isWritten(letter)) return letter;
		const alike = likeness[letter];
		if (alike !== undefined) return alike;
		const spelled = spelledOut(letter);
		if (spelled === null) return codeOf(letter);
		// 10⅜ is ten and three eighths.
		return spelled.includes('/') && /\d/u.test(text.charAt(i - 1)) ? ` ${spelled}` : spelled;
	}).join('');
}

/** Lines that a text takes in a column of this width: words go to the next line, a word that is too long is cut. */
export function linesIn(text: string, width: number, fontSize: number, bold = false): number {
	const size = (part: string): number => helveticaWidth(part, fontSize, bold);
	return text.split('\n').reduce((lines, line) => {
		let taken = 1;
		let at = 0;
		for (const word of line.split(' ')) {
			const length = size(word);
			const space = at === 0 ? 0 : size(' ');
			if (at + space + length <= width) at += space + length;
			else if (length <= width) {
				taken++;
				at = length;
			} else {
				const rows = Math.ceil(length / Math.max(1, width - fontSize));
				taken += rows - (at === 0 ? 1 : 0);
				at = length % width;
			}
		}
		return lines + taken;
	}, 0);
}

/** As much of a text as these lines hold, with an ellipsis where it goes on. */
export function shortened(text: string, width: number, fontSize: number, lines: number): string {
	const line = text.replaceAll('\n', ' ');
	if (linesIn(line, width, fontSize) <= lines) return line;
	const letters = Array.from(line);
	let [low, high] = [0, letters.length];
	while (low < high) {
		const middle = Math.ceil((low + high) / 2);
		if (linesIn(`${letters.slice(0, middle).join('').trimEnd()}…`, width, fontSize) <= lines) low = middle;
		else high = middle - 1;
	}
	return `${letters.slice(0, low).join('').trimEnd()}…`;
}
