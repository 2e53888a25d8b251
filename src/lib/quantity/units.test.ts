import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	combine,
	convert,
	fraction,
	nameOfDimension,
	over,
	power,
	referenceScale,
	sameDimension,
	sameFraction,
	times,
	toNumber,
	unit
} from './units.ts';

describe('fractions', () => {
	it('are in lowest terms', () => {
		expect(fraction(6n, 4n)).toEqual({ n: 3n, d: 2n });
		expect(times(fraction(2n, 3n), fraction(3n, 4n))).toEqual({ n: 1n, d: 2n });
		expect(over(fraction(1n, 2n), fraction(1n, 4n))).toEqual({ n: 2n, d: 1n });
		expect(power(fraction(2n, 3n), -2)).toEqual({ n: 9n, d: 4n });
	});

	it('become the nearest float, as division of floats does for parts they hold exactly', () => {
		const part = fc.bigInt({ min: 1n, max: BigInt(Number.MAX_SAFE_INTEGER) });
		// IEEE 754: a quotient of two exact floats is rounded once. Common factors beyond 2^53 must not change it.
		fc.assert(
			fc.property(part, part, fc.bigInt({ min: 1n, max: 10n ** 40n }), (n, d, factor) => {
				expect(toNumber({ n: n * factor, d: d * factor })).toBe(Number(n) / Number(d));
			})
		);
	});
});

describe('unit', () => {
	it('reads symbols, exponents, products and what a / divides', () => {
		expect(unit('ft2').factor).toEqual(fraction(304_800_000n ** 2n));
		expect(unit('ft²')).toMatchObject({ dimension: [2, 0, 0, 0, 0, 0] });
		expect(unit('in⁴').dimension).toEqual([4, 0, 0, 0, 0, 0]);
		expect(unit('lb-ft').dimension).toEqual(unit('N·m').dimension);
		expect(unit('money/h').dimension).toEqual([0, 0, -1, 0, 0, 1]);
		expect(sameFraction(unit('psf').factor, unit('lb/ft2').factor)).toBe(true);
		expect(sameFraction(unit('day').factor, fraction(480n))).toBe(true);
	});

	it.each(['', 'furlong', 'ft/', 'in0', 'in45', '2ft', 'ft^2', 'constructor', '__proto__'])(
		'refuses %j and names it',
		(text) => {
			expect(() => unit(text)).toThrow('is not a known unit');
		}
	);

	it('says which dimension it is', () => {
		expect(nameOfDimension(unit('lb-ft').dimension)).toBe('torque');
		expect(nameOfDimension(unit('lb/ft').dimension)).toBe('weight per length');
		expect(nameOfDimension(unit('V/A').dimension)).toBe('resistance');
		expect(nameOfDimension(unit('ohm/ft').dimension)).toBe('resistance per length');
		expect(nameOfDimension(combine(unit('m').dimension, unit('s').dimension, -1))).toBe('length^1 · time^-1');
	});

	it('compares in inches', () => {
		expect(referenceScale(unit('ft2').dimension)).toBe(25_400_000 ** 2);
		expect(sameDimension(unit('ft').dimension, unit('lb').dimension)).toBe(false);
	});
});

describe('convert', () => {
	it('refuses units that measure different things', () => {
		expect(() => convert(1, 'ft', 'lb')).toThrow('ft and lb measure different things');
	});

	it('there and back gives the same to the last figures', () => {
		const pairs = [
			['ft2', 'm2'],
			['lb-ft', 'N-m'],
			['psf', 'kPa'],
			['lb/ft', 'kg/m'],
			['psi', 'MPa'],
			['ohm/ft', 'ohm/m']
		] as const;
		fc.assert(
			fc.property(
				fc.constantFrom(...pairs),
				fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
				([a, b], value) => {
					expect(Math.abs(convert(convert(value, a, b), b, a) / value - 1)).toBeLessThan(1e-14);
				}
			)
		);
	});
});
