import { fraction, type Fraction } from '../quantity/units.ts';

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
