/**
 * Sizes of a model, exact: a number is taken from its text in the file, never from a float, and multiplied by the unit
 * as a whole-number fraction. So 3.048 m is 3 048 000 000 nm and nothing else.
 */
import { exactLength } from '../../quantity/length.ts';

/** `n / d`, `d` > 0. */
export interface Fraction {
	readonly n: bigint;
	readonly d: bigint;
}

const real = /^([+-]?)(\d{1,40})(?:\.(\d{0,60}))?(?:E([+-]?\d{1,3}))?$/iu;

/** 10^exponent. */
export const powerOfTen = (exponent: number): Fraction =>
	exponent < 0 ? { n: 1n, d: 10n ** BigInt(-exponent) } : { n: 10n ** BigInt(exponent), d: 1n };

export const times = (a: Fraction, b: Fraction): Fraction => ({ n: a.n * b.n, d: a.d * b.d });

/** Reads a REAL or INTEGER of ISO 10303-21 (`2100.`, `2.1E3`, `2100`); null for anything else. */
export function readReal(text: string): Fraction | null {
	const match = real.exec(text);
	if (!match) return null;
	const [, sign = '', whole = '', decimals = '', exponent = '0'] = match;
	const digits = BigInt(whole + decimals);
	return times({ n: sign === '-' ? -digits : digits, d: 1n }, powerOfTen(Number(exponent) - decimals.length));
}

/** What programs leave behind when they turn units with floats; up to here a size is taken for the round one beside it. */
const noiseNm = 1_000n;
/** 1/64 in and 0.01 mm: sizes finer than both are nobody's. */
const steps = [10_000n, 396_875n] as const;
/** 1 km, as for every length. */
const longestNm = 1_000_000_000_000n;

export type SizeReading = { ok: true; nm: number } | { ok: false; reason: string };

/** The whole number nearest to `n / d`, halves up; for `n` not below 0. */
const nearest = (n: bigint, d: bigint): bigint => (2n * n + d) / (2n * d);

/**
 * A size in nanometres. It is a whole number of hundredths of a millimetre or of 64ths of an inch, or within 1 µm of one
 * and then taken for it (the nearer); a single-precision number keeps that up to 16 m. Anything finer, not above 0 or
 * above 1 km is refused.
 *
 * @param value the number in the file
 * @param unit nanometres in one unit of the model, above 0
 */
export function sizeOf(value: Fraction, unit: Fraction): SizeReading {
	const { n, d } = times(value, unit);
	if (n <= 0n) return { ok: false, reason: 'is not above 0' };
	if (n > longestNm * d) return { ok: false, reason: 'is longer than 1 km' };
	const [best] = steps
		.map((step) => {
			const nm = nearest(n, step * d) * step;
			const off = nm * d - n;
			return { nm, off: off < 0n ? -off : off };
		})
		.sort((a, b) => (a.off < b.off ? -1 : a.off > b.off ? 1 : 0));
	if (best && best.nm > 0n && best.off <= noiseNm * d) return { ok: true, nm: Number(best.nm) };
	const shown = Number(nearest(n, d));
	return { ok: false, reason: `is ${exactLength(shown, 'mm')}, finer than 0.01 mm and than 1/64"` };
}
