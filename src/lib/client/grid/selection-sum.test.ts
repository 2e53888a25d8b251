import { describe, expect, it } from 'vitest';
import { sumOf } from './selection-sum.ts';

const show = (value: number, unit: string): string => `${String(value)} ${unit}`;
const word = (text: string) => ({ text, value: null, unit: null });
const figure = (value: number, unit: string) => ({ text: String(value), value, unit });

describe('what a selection comes to', () => {
	it('is how many cells hold something, and the sum of the figures among them', () => {
		const cells = [word('C-101'), figure(2, 'lb'), word(''), figure(3.5, 'lb'), word(' ')];
		expect(sumOf(cells, 3, show)).toEqual({ cells: 5, filled: 3, rows: 3, sum: '5.5 lb' });
	});

	it('has no sum of different kinds, of words, or of nothing', () => {
		expect(sumOf([figure(2, 'lb'), figure(3, 'ft')], 1, show).sum).toBeNull();
		expect(sumOf([word('C-101')], 1, show).sum).toBeNull();
		expect(sumOf([], 0, show)).toEqual({ cells: 0, filled: 0, rows: 0, sum: null });
	});

	it('has no sum where a figure is no number', () => {
		expect(sumOf([figure(NaN, 'lb'), figure(1, 'lb')], 2, show).sum).toBeNull();
	});

	it('adds plain counts', () => {
		expect(sumOf([figure(4, ''), figure(1, '')], 2, show).sum).toBe('5 ');
	});
});
