/** What stands in single cells. Spellings and words: common practice, no source. */
import { describe, expect, test } from 'vitest';
import { footnoteLegend, takeFootnotes } from './footnotes.ts';
import { looksLikeMark, readMarkText } from './mark-text.ts';
import {
	dateIn,
	withoutGrouping,
	feetSlashInches,
	isFeetSlashZero,
	joinedFeet,
	probableSize,
	readSizeText,
	twoSizes
} from './size-text.ts';

describe('sizes (common practice, no source)', () => {
	const plain = { held: false, rough: false, footnotes: [], letter: null };
	test.each([
		[`10'-0"`, { figure: `10'-0"` }],
		[`10'-0" V.I.F.`, { figure: `10'-0"`, held: true }],
		[`10'-0" VIF`, { figure: `10'-0"`, held: true }],
		[`10'-0" (V.I.F.)`, { figure: `10'-0"`, held: true }],
		[`V.I.F.`, { figure: '', held: true }],
		[`±10'-0"`, { figure: `10'-0"`, held: true }],
		[`10'-0" ±`, { figure: `10'-0"`, held: true }],
		[`10'-0" +/-`, { figure: `10'-0"`, held: true }],
		[`+/- 3050`, { figure: '3050', held: true }],
		[`10'-0" ± 1/2"`, { figure: `10'-0"`, held: true }],
		[`3050 verify in field`, { figure: '3050', held: true }],
		[`TBD`, { figure: '', held: true }],
		[`10'-0" MIN.`, { figure: `10'-0"`, held: true }],
		[`exist. opening`, { figure: '', held: true }],
		[`N/A`, { figure: '', held: true }],
		[`see plan`, { figure: '', held: true }],
		[`SEE PLAN A-201`, { figure: '', held: true }],
		[`by others`, { figure: '', held: true }],
		[`10'-0" approx.`, { figure: `10'-0"`, held: true }],
		[`approx 10'-0"`, { figure: `10'-0"`, held: true }],
		[`10'-0"*`, { figure: `10'-0"`, footnotes: ['*'] }],
		[`10'-0" (2)`, { figure: `10'-0"`, footnotes: ['(2)'] }],
		[`10'-0"²`, { figure: `10'-0"`, footnotes: ['²'] }],
		[`3050†`, { figure: '3050', footnotes: ['†'] }],
		[`10'-0"* V.I.F.`, { figure: `10'-0"`, footnotes: ['*'], held: true }],
		[`10'-6½"`, { figure: `10'-6½"` }],
		[`10'-2" R.O.`, { figure: `10'-2"`, rough: true }],
		[`R.O. 10'-2"`, { figure: `10'-2"`, rough: true }],
		[`10'-2" (RO)`, { figure: `10'-2"`, rough: true }],
		[`10'-0"W`, { figure: `10'-0"`, letter: 'width' }],
		[`H 4'-0"`, { figure: `4'-0"`, letter: 'height' }],
		[`-120`, { figure: '-120' }],
		[`10..5`, { figure: '10..5' }],
		[`1O'-0"`, { figure: `1O'-0"` }]
	])('%s', (text, expected) => {
		expect(readSizeText(text)).toEqual({ ...plain, ...expected });
	});

	test.each([
		[`10'-0" x 4'-0"`, [`10'-0"`, `4'-0"`]],
		['10/0 x 4/0', ['10/0', '4/0']],
		['3050x1220', ['3050', '1220']],
		['3050 × 1220 mm', ['3050', '1220 mm']],
		[`10'-0" W x 4'-0" H`, [`10'-0" W`, `4'-0" H`]],
		[`10'-0"Wx4'-0"H`, [`10'-0"W`, `4'-0"H`]],
		[`W10'-0" X H4'-0"`, [`W10'-0"`, `H4'-0"`]],
		[`10'-0" by 4'-0"`, [`10'-0"`, `4'-0"`]],
		[`10'-0" x TBD`, [`10'-0"`, 'TBD']],
		[`approx 10'-0" x 4'-0"`, [`approx 10'-0"`, `4'-0"`]],
		[`10'-0" by others`, null],
		[`10'-0" approx`, null],
		['2 x 3 x 4', null],
		[`10'-0"`, null],
		['fixed', null]
	])('two sizes in %s', (text, expected) => {
		expect(twoSizes(text)).toEqual(expected);
	});

	test('feet over inches, feet less inches', () => {
		expect(['10/0', '10/4', '1/2'].map(isFeetSlashZero)).toEqual([true, false, false]);
		// Twelve inches would be another foot.
		expect(['10/0', '10/4', '9/6 1/2', '10/11.5', '10/12', '10/14'].map(feetSlashInches)).toEqual([
			`10'-0"`,
			`10'-4"`,
			`9'-6 1/2"`,
			`10'-11.5"`,
			null,
			null
		]);
		expect([`12' - 6"`, `12'-6"`, `12 ft – 6 in`].map(joinedFeet)).toEqual([
			`12'-6"`,
			`12'-6"`,
			`12 ft-6 in`
		]);
	});

	test('what was typed when a spreadsheet made a date of it', () => {
		const offered = (text: string, monthAndYear = false) => {
			const date = dateIn(text, monthAndYear);
			return date && probableSize(date);
		};
		// 10-4 becomes 4 October where the month comes first; 15 April can only be 15-4; Apr-00 was 4-0.
		expect(offered('2031-10-04')).toBe(`10'-4"`);
		expect(offered('2031-04-15')).toBe(`15'-4"`);
		expect(offered('2031-10-12')).toBe(`12'-10"`);
		expect(offered('2000-04-01', true)).toBe(`4'-0"`);
		expect(offered('2031-12-31')).toBe(null);
		expect(
			['4-Oct', 'Apr-00', '10/4/2031', '4-Oct-31', `10'-4"`, '10-4', '3050'].map((text) => offered(text))
		).toEqual([`10'-4"`, `4'-0"`, `10'-4"`, `10'-4"`, null, null, null]);
	});

	test('millimetres with their thousands parted', () => {
		expect(
			['3 000', '1,200', '3,813.5', '3 813,5', '12,345 mm', '3.813,5', '3,05', '1,2', '3000', '3.050'].map(
				withoutGrouping
			)
		).toEqual(['3000', '1200', '3813.5', '3813.5', '12345 mm', '3813.5', '3,05', '1,2', '3000', '3.050']);
	});
});

describe('marks (common practice, no source)', () => {
	test.each([
		['C-101', ['C-101'], null],
		['4 x C-101', ['C-101'], 4],
		['4x C-101', ['C-101'], 4],
		['4 × C-101', ['C-101'], 4],
		['(4) C-101', ['C-101'], 4],
		['4 no. C-101', ['C-101'], 4],
		['C-101 (4)', ['C-101'], 4],
		['C-101(4)', ['C-101'], 4],
		['C-101 x 4', ['C-101'], 4],
		['C-101 (x4)', ['C-101'], 4],
		['C-101 (4 no.)', ['C-101'], 4],
		['C-101 - 4 off', ['C-101'], 4],
		['C-101A thru D', ['C-101A', 'C-101B', 'C-101C', 'C-101D'], null],
		['C-101A through C-101C', ['C-101A', 'C-101B', 'C-101C'], null],
		['C-101, 103–105', ['C-101', 'C-103', 'C-104', 'C-105'], null],
		['C-101, 103-105', ['C-101', 'C-103', 'C-104', 'C-105'], null],
		['C-101–C-103', ['C-101', 'C-102', 'C-103'], null],
		['C-101-C-103', ['C-101', 'C-102', 'C-103'], null],
		['C-101 to 103', ['C-101', 'C-102', 'C-103'], null],
		['C-109 – 12', ['C-109', 'C-110', 'C-111', 'C-112'], null],
		['C-101, C-103 & C-105', ['C-101', 'C-103', 'C-105'], null],
		['C-101 and C-102', ['C-101', 'C-102'], null],
		['C-101/102', ['C-101', 'C-102'], null],
		['C-101A, B', ['C-101A', 'C-101B'], null],
		['KF-01 – KF-03', ['KF-01', 'KF-02', 'KF-03'], null],
		['C-101A thru D (8)', ['C-101A', 'C-101B', 'C-101C', 'C-101D'], 8],
		['C-101A-C', ['C-101A', 'C-101B', 'C-101C'], null],
		['C-101 A-C', ['C-101 A', 'C-101 B', 'C-101 C'], null],
		['C-101 A, B', ['C-101 A', 'C-101 B'], null],
		['C-101A thru c', ['C-101A', 'C-101B', 'C-101C'], null],
		['103-105', ['103-105'], null],
		['C–101', ['C–101'], null],
		['North gate, left', ['North gate, left'], null],
		['2 X-1', ['2 X-1'], null]
	])('%s', (text, marks, count) => {
		expect(readMarkText(text)).toEqual({ marks, count, footnotes: [] });
	});

	test('footnotes', () => {
		expect(readMarkText('C-104†')).toEqual({ marks: ['C-104'], count: null, footnotes: ['†'] });
		expect(readMarkText('C-104²')).toEqual({ marks: ['C-104'], count: null, footnotes: ['²'] });
		expect(readMarkText('C-104 (2)*')).toEqual({ marks: ['C-104'], count: 2, footnotes: ['*'] });
		expect(takeFootnotes('*', true)).toEqual({ text: '*', marks: [] });
		const legend = footnoteLegend(['* Verify head.', '2. Stainless', '† – by others', 'Legend']);
		expect(['*', '²', '(2)', '†', '‡'].map(legend)).toEqual([
			'Verify head.',
			'Stainless',
			'Stainless',
			'by others',
			null
		]);
	});

	test('a range of at most 200 marks; a longer one is one mark as written', () => {
		expect(readMarkText('C-1 thru C-200').marks).toHaveLength(200);
		expect(readMarkText('C-1 thru C-201').marks).toEqual(['C-1 thru C-201']);
	});

	test('what looks like a mark', () => {
		expect(['C-101', '4 x C-101', 'C 101', 'Rev 2', 'Note 1', 'Total', 'CG'].map(looksLikeMark)).toEqual([
			true,
			true,
			true,
			false,
			false,
			false,
			false
		]);
	});
});
