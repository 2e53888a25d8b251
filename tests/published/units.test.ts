/**
 * Unit factors against publications. Weights here are forces, so a kilogram is the weight of a kilogram at standard
 * gravity and the factors between pounds and kilograms are those of the masses.
 */
import { describe, expect, it } from 'vitest';
import { compareDelivery } from '../../src/lib/delivery/compare.ts';
import { mark, packed } from '../../src/lib/delivery/sample-parts.ts';
import { formatLength, parseLength } from '../../src/lib/quantity/length.ts';
import { convert } from '../../src/lib/quantity/units.ts';

type Record20 = readonly [
	code: string,
	name: string,
	value: number,
	from: string,
	to: string,
	factor: number
];

/** Eight hood pieces of four openings, as a packing list may say it. */
function eightPieces(quantity: number, unit: string) {
	const lines = [packed({ line: 1, mark: 'S-201', description: 'Hood pieces', quantity, unit })];
	const list = { deliveryId: 'truck-1', name: 'Truck 1', lines };
	return compareDelivery(mark('S-201', 4), [list]).lines[0];
}

describe('published: UN/ECE Recommendation 20, units of measure codes, rev. 12e (2016)', () => {
	// The list rounds some factors; each is tested to the figures it prints.
	const records: readonly Record20[] = [
		['FOT', 'foot', 1, 'ft', 'm', 0.3048],
		['INH', 'inch', 1, 'in', 'm', 0.0254],
		['INK', 'square inch', 1, 'in2', 'm2', 0.00064516],
		['LBR', 'pound', 1, 'lb', 'kg', 0.45359237],
		['C78', 'pound-force', 1, 'lb', 'N', 4.448222],
		['F21', 'pound-force inch', 1, 'lb-in', 'N-m', 0.112985],
		['M92', 'pound-force foot', 1, 'lb-ft', 'N-m', 1.355818],
		['K85', 'pound-force per square foot', 1, 'psf', 'Pa', 47.88026],
		['PS', 'pound-force per square inch', 1, 'psi', 'Pa', 6894.757],
		['F17', 'pound-force per foot', 1, 'lb/ft', 'N/m', 14.5939],
		['F48', 'pound-force per inch', 1, 'lb/in', 'N/m', 175.127],
		['HUR', 'hour', 1, 'h', 's', 3600]
	];
	it.each(records)('%s %s: %d %s in %s', (_code, _name, value, from, to, factor) => {
		const figures = String(factor).replace(/^0\.0*|\./gu, '').length;
		expect(Number(convert(value, from, to).toPrecision(figures))).toBe(factor);
	});

	it('BHP, horsepower of 550 ft·lbf/s: 745.7 W', () => {
		expect(convert(550, 'lb-ft/s', 'N-m/s').toFixed(1)).toBe('745.7');
	});

	it.each([
		['EA', 8],
		['PR', 4]
	])('on a packing list eight hood pieces are %s %d', (unit, quantity) => {
		expect(eightPieces(quantity, unit)).toMatchObject({ state: 'exact', received: '8' });
	});
});

describe('common practice, no source: codes the list does not have, though people write them', () => {
	it('PCE is read as pieces', () => {
		expect(eightPieces(8, 'PCE')).toMatchObject({ state: 'exact', received: '8' });
	});
});

// Printed in a U.S. Navy training manual, navalfacilities.tpub.com/1004_6/1004_60046.htm.
describe('published: a U.S. Navy training table prints 1 lbf = 4.44822 N and 1 lbf·in = 0.112985 N·m', () => {
	it('agrees to the figures printed', () => {
		expect(convert(1, 'lb', 'N').toFixed(5)).toBe('4.44822');
		expect(convert(1, 'lb-in', 'N-m').toFixed(6)).toBe('0.112985');
	});
});

describe('from memory, to be confirmed: NIST SP 811 (2008) and NIST Handbook 44, appendix C', () => {
	// From 1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s², all exact.
	it.each([
		[1, 'lb-in', 'N-m', 0.1129848290276167],
		[1, 'lb-ft', 'N-m', 1.3558179483314003],
		[1, 'psf', 'Pa', 47.88025898033584],
		[1, 'lb/ft', 'kg/m', 1.4881639435695537],
		[550, 'lb-ft/s', 'N-m/s', 745.6998715822702],
		[1, 'lb/ft2', 'kg/m2', 4.882427636383051],
		[1, 'lb/in3', 'kg/m3', 27679.904710203125]
	])('%d %s in %s', (value, from, to, expected) => {
		expect(Math.abs(convert(value, from, to) / expected - 1)).toBeLessThan(1e-14);
	});
});

describe('from memory, to be confirmed: feet, inches and fractions as written, by hand', () => {
	// Inches by hand; millimetres are 25.4 times that. As we write it where that differs.
	it.each([
		[`10'-6 1/2"`, 126.5, 3213.1, `10'-6 1/2"`],
		[`7'-0"`, 84, 2133.6, `7'-0"`],
		[`3'-4 5/8"`, 40.625, 1031.875, `3'-4 5/8"`],
		[`0'-11 15/16"`, 11.9375, 303.2125, `0'-11 15/16"`],
		[`12'`, 144, 3657.6, `12'-0"`],
		[`83 1/16"`, 83.0625, 2109.7875, `6'-11 1/16"`]
	])('%s', (text, inches, millimetres, written) => {
		const read = parseLength(text, 'mm');
		expect(read).toEqual({ ok: true, nm: inches * 25_400_000 });
		expect(read.ok && read.nm / 1_000_000).toBe(millimetres);
		expect(read.ok && formatLength(read.nm, 'feetInches')).toBe(written);
	});

	it.each([[`10'-6-1/2"`], [`10' 6 1/2"`], [`10’-6 1/2”`], [`10 ft 6 1/2 in`], [`10'-6½"`]])(
		'a hyphen or a space before the fraction, curly marks and words: %s',
		(text) => {
			expect(parseLength(text, 'in')).toEqual({ ok: true, nm: 126.5 * 25_400_000 });
		}
	);
});

describe('from memory, to be confirmed: millimetres to the nearest sixteenth, by hand', () => {
	// 1000 / 25.4 · 16 = 629.92 → 630 sixteenths, 0.004921 in too much; and so on.
	it.each([
		[1000, 630, 0.004921, `3'-3 3/8"`],
		[2110, 1329, -0.008366, `6'-11 1/16"`],
		[910, 573, -0.014272, `2'-11 13/16"`]
	])('%d mm', (millimetres, sixteenths, error, written) => {
		expect(formatLength(millimetres * 1_000_000, 'feetInches')).toBe(written);
		const back = parseLength(written, 'in');
		expect(back).toEqual({ ok: true, nm: sixteenths * 1_587_500 });
		const off = back.ok ? (back.nm - millimetres * 1_000_000) / 25_400_000 : NaN;
		expect(off.toFixed(6)).toBe(error.toFixed(6));
	});
});
