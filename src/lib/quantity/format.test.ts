import { describe, expect, it } from 'vitest';
import { decimalsOf, formatQuantity, inUnit } from './format.ts';
import { unit } from './units.ts';

const show = (value: number, text: string): string => formatQuantity(value * unit(text).scale, text);

describe('formatQuantity', () => {
	it.each([
		// Opening A worked by hand (invented demo book): 123 in × 69 in / 144 = 58.9375 ft²
		[(123 * 69) / 144, 'ft2', '58.94 ft²'],
		// 12.34 · 1.1 · 1.25 = 16.9675
		[12.34 * 1.1 * 1.25, 'lb-ft', '16.97 lb-ft'],
		[2.43, '1', '2.43'],
		[46, '1', '46'],
		[2.5, '1', '2.5'],
		[100, '1', '100'],
		[46, 'each', '46 each'],
		[3.34, 'turn', '3.34 turns'],
		[1, 'turn', '1 turn'],
		[14.4, 'in4', '14.40 in⁴'],
		[0.056, 'in', '0.056 in'],
		[124.25, 'lb', '124.3 lb'],
		[-124.25, 'lb', '-124.3 lb'],
		[-0.01, 'lb', '0.0 lb'],
		[23, 'N-m', '23.00 N·m'],
		[23, 'N·m', '23.00 N·m'],
		[5.4, 'm²', '5.40 m²'],
		[1.95, 'lb/ft2', '1.950 lb/ft²'],
		[55.1, 'money/h', '55.10 per h'],
		[55.1, 'money', '55.10'],
		[9.8, 'A', '9.8 A'],
		[0.00307, 'ohm/ft', '0.003070 Ω/ft'],
		[3000, 'psi', '3000 psi'],
		[0.1419, 'in2', '0.142 in²'],
		[0, '1', '0']
	])('%d %s', (value, text, expected) => {
		expect(show(value, text)).toBe(expected);
	});

	it('rounds halves away from zero on what a person reads, not on the binary float', () => {
		// 1.005 is stored a little below itself
		expect(show(1.005, '1')).toBe('1.01');
		expect(show(-1.005, '1')).toBe('-1.01');
	});

	it('writes lengths in the style asked for', () => {
		expect(formatQuantity(150.5 * 25_400_000, 'in', { style: 'feetInches' })).toBe(`12'-6 1/2"`);
		expect(formatQuantity(150.5 * 25_400_000, 'mm', { style: 'mm' })).toBe('3822.7 mm');
		expect(formatQuantity(2, '1', { style: 'mm' })).toBe('2');
	});

	it('refuses what is no figure and units it does not know', () => {
		expect(() => formatQuantity(NaN, 'ft2')).toThrow(RangeError);
		expect(() => formatQuantity(-Infinity, '1')).toThrow(RangeError);
		expect(() => formatQuantity(1, 'constructor')).toThrow('not a known unit');
	});
});

it('inUnit divides by the unit', () => {
	expect(inUnit(304_800_000, 'ft')).toBe(1);
	expect(inUnit(90, 'h')).toBe(1.5);
});

it('decimalsOf has an answer for every unit', () => {
	expect(decimalsOf('ft²')).toBe(2);
	expect(decimalsOf('N·m')).toBe(2);
	expect(decimalsOf('money/lb')).toBe(2);
	expect(decimalsOf('min/lb')).toBe(3);
});
