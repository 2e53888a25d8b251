import { fraction, toNumber, type Fraction } from '../quantity/units.ts';

/** A decimal as written, kept exactly: sign and magnitude. */
export interface ExactDecimal {
	readonly negative: boolean;
	readonly magnitude: Fraction;
}

/** Reads `12`, `-0.25`, `1.5e-3`. Null when the text is not such a number (or its exponent is beyond 99). */
export function exactDecimal(text: string): ExactDecimal | null {
	const match = /^(-?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d{1,2}))?$/u.exec(text);
	const [, sign = '', whole = '', part = '', exponent = '0'] = match ?? [];
	if (!match || whole + part === '') return null;
	const shift = Number(exponent) - part.length;
	const digits = BigInt(whole + part);
	const magnitude =
		shift < 0 ? fraction(digits, 10n ** BigInt(-shift)) : fraction(digits * 10n ** BigInt(shift));
	return { negative: sign === '-' && digits !== 0n, magnitude };
}

/**
 * The fraction as a plain decimal, or null when it has no end or more than `digits` significant digits
 * (15 are what every spreadsheet program keeps of a written number).
 */
export function decimalText({ n, d }: Fraction, digits = 15): string | null {
	let [rest, twos, fives] = [d, 0, 0];
	for (; rest % 2n === 0n; twos++) rest /= 2n;
	for (; rest % 5n === 0n; fives++) rest /= 5n;
	if (rest !== 1n) return null;
	const places = Math.max(twos, fives);
	const scaled = ((n * 10n ** BigInt(places)) / d).toString();
	if (scaled.replace(/0+$/u, '').length > digits) return null;
	if (places === 0) return scaled;
	const padded = scaled.padStart(places + 1, '0');
	return `${padded.slice(0, -places)}.${padded.slice(-places)}`;
}

/**
 * The shortest way to write a factor between units: times one decimal, or over one, or both. Exact while both have at
 * most 15 significant digits, else the nearest number that has.
 */
export function factorTexts(by: Fraction): { readonly times: string | null; readonly over: string | null } {
	const direct = decimalText(by);
	const inverse = decimalText({ n: by.d, d: by.n });
	if (direct !== null && (inverse === null || direct.length <= inverse.length))
		return { times: direct, over: null };
	if (inverse !== null) return { times: null, over: inverse };
	// Tens go to the decimal above, so that it is 0.45359237 / 12 and not 45359237 / 1200000000.
	let [tens, rest] = [1n, by.d];
	for (; rest % 10n === 0n; rest /= 10n) tens *= 10n;
	const [times, over] = [decimalText({ n: by.n, d: tens }), decimalText({ n: rest, d: 1n })];
	return times === null || over === null ? { times: nearestText(by), over: null } : { times, over };
}

/** The nearest number of 15 significant digits: what a spreadsheet keeps of a written number. */
export const nearestText = (value: Fraction): string =>
	decimalText(value) ?? Number(toNumber(value).toPrecision(15)).toString().toUpperCase();
