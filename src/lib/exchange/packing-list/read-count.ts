/** How many: `4`, `4 ea`, `2 of 4`, `1 ctn`. Whatever is no count is asked, with what it may have been. */

export type CountReading =
	| {
			readonly ok: true;
			readonly value: number;
			/** Of `2 of 4`: the 4. */
			readonly of: number | null;
			/** The word beside the number. */
			readonly unit: string | null;
	  }
	| { readonly ok: false; readonly reason: string; readonly readings: readonly string[] };

/** No line of a packing list counts more pieces. */
const most = 9_999_999;

const figure = String.raw`\d+(?:\.\d{1,4})?`;
const plain = new RegExp(
	String.raw`^(?:qty\.?:?\s*)?(${figure})(?:\s*(?:of|out of|/)\s*(\d+))?(?:\s*[x×])?(?:\s*(\p{L}{1,9}\.?))?$`,
	'iu'
);
const lookalikes: readonly (readonly [RegExp, string])[] = [
	[/o/giu, '0'],
	[/[il|!]/giu, '1'],
	[/s/giu, '5']
];

const refused = (reason: string, ...readings: readonly string[]): CountReading => ({
	ok: false,
	reason,
	readings
});

/** `1.250,00` and `2,5` with dots; null where a comma may stand for thousands or for decimals. */
function withDots(text: string): string | null {
	const [, whole, decimals] = /^(\d+),(\d+)(?=\D|$)/u.exec(text) ?? [];
	if (whole === undefined || decimals === undefined) return text;
	return decimals.length === 3 && whole.length <= 3 && !/^0+$/u.test(whole) ? null : text.replace(',', '.');
}

/** The text with letters that scanners take for figures put back; null when that makes no number. */
function asFigures(text: string): string | null {
	if (!/^[\doil|!s]+$/iu.test(text) || !/\d/u.test(text)) return null;
	return lookalikes.reduce((changed, [from, to]) => changed.replace(from, to), text);
}

/**
 * @param text of the cell, on one line, not empty
 * @param fractions whether other cells of the list are written `2/4`, so that `1/2` is one of two and no half
 */
export function readCount(text: string, fractions: boolean): CountReading {
	if (/^(?:nil|none|zero)$/iu.test(text)) return { ok: true, value: 0, of: null, unit: null };
	if (/^[-−–]\s*\d|^\(\s*\d+(?:\.\d+)?\s*\)$|^\d+(?:\.\d+)?\s*-$/u.test(text))
		return refused(
			'a count below 0 may be goods sent back or a credit; write what is on this list, 0 or more'
		);
	const dotted = withDots(text);
	if (dotted === null)
		return refused(
			'the comma may stand for thousands or for decimals; write the number without it',
			text.replace(',', ''),
			text.replace(',', '.').replace(/0+$/u, '').replace(/\.$/u, '')
		);
	// `1O` is a scanner's ten and no one `O`.
	const figures = asFigures(text);
	if (figures !== null && figures !== text)
		return refused(`not a count; a scanner may have taken figures for letters: ${figures}?`, figures);
	const [, number, of, unit] = plain.exec(dotted) ?? [];
	if (number === undefined) return refused('not a count; write a number, 0 or more');
	const [value, all] = [Number(number), of === undefined ? null : Number(of)];
	if (value > most || (all ?? 0) > most)
		return refused(`more than ${most.toLocaleString('en-US')} pieces; write the count that is meant`);
	if (all !== null && value > all)
		return refused(
			`${value} of ${all} is more than all; write the count that is on this list`,
			String(value)
		);
	if (all !== null && /^[13]\/[248]$/u.test(text) && !fractions)
		return refused(`${text} may be a part of one or ${value} of ${all}; write the count`, String(value));
	return { ok: true, value, of: all, unit: unit ?? null };
}
