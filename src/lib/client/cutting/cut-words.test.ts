import { describe, expect, it } from 'vitest';
import type { CutList } from '../../takeoff/cutting/cut-lists.ts';
import { marksOf, patternWords, percent, runsOf } from './cut-words.ts';

const inch = 25_400_000;
const pattern = {
	lengths: [50 * inch, 50 * inch, 24.25 * inch],
	offcut: 3.5 * inch,
	kerf: 0.375 * inch,
	bars: [
		['A.1', 'A.1', 'B.1'],
		['A.2', 'C.1', 'B.2']
	]
};
const list: CutList = {
	kind: 'guide',
	item: 'any',
	title: 'Any',
	stockLength: 128.125 * inch,
	kerf: inch / 8,
	pieces: [
		{ length: 50 * inch, mark: 'A', openingIds: ['A.1', 'A.1', 'A.2'] },
		{ length: 50 * inch, mark: 'C', openingIds: ['C.1'] },
		{ length: 24.25 * inch, mark: 'B', openingIds: ['B.1', 'B.2'] }
	],
	patterns: [pattern],
	bars: 2,
	lowerBound: 2,
	proved: true,
	firstFitDecreasing: 2,
	waste: { offcut: 7 * inch, kerf: 0.75 * inch, share: 7.75 / 256.25 },
	notCuttable: []
};

describe('a bar in words', () => {
	const marks = marksOf(list);

	it('says equal pieces once, with every mark they are for', () => {
		expect(runsOf(pattern, marks)).toEqual([
			{ length: 50 * inch, count: 2, marks: ['A', 'C'] },
			{ length: 24.25 * inch, count: 1, marks: ['B'] }
		]);
	});

	it('gives offcut and saw', () => {
		expect(patternWords(pattern, marks, 'imperial')).toBe(
			`2 × 4'-2" A, C; 24 1/4" B; offcut 3 1/2"; saw 3/8"`
		);
		expect(patternWords({ ...pattern, offcut: 0, kerf: 0 }, marks, 'metric')).toBe(
			'2 × 1270 mm A, C; 616 mm B; no offcut'
		);
	});

	it('keeps what is not a whole sixteenth', () => {
		// 24 1/64 in
		const fine = { ...pattern, lengths: [24.015625 * inch], bars: [['B.1']] };
		expect(patternWords(fine, marks, 'imperial')).toMatch(/^24\.01[56]/u);
	});

	it('gives shares to a tenth of a percent', () => {
		expect(percent(0.12797)).toBe('12.8 %');
	});
});
