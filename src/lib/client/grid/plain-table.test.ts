import { describe, expect, it } from 'vitest';
import { plainCell, readPlainTable } from './plain-table.ts';

describe('tab-separated text from a clipboard', () => {
	it('reads rows and cells, with either line end', () => {
		expect(readPlainTable('C-101\t120\r\nC-102\t96\r\n')).toEqual([
			['C-101', '120'],
			['C-102', '96']
		]);
	});

	it('reads one cell without a line end', () => {
		expect(readPlainTable('10 ft')).toEqual([['10 ft']]);
	});

	it('keeps inch and foot marks', () => {
		expect(readPlainTable(`12'-6 1/2"\t8"`)).toEqual([[`12'-6 1/2"`, '8"']]);
	});

	it('reads quoted cells with tabs, line ends and doubled quotes', () => {
		expect(readPlainTable('"a\tb"\t"two\nlines"\t"10"" wide"\n')).toEqual([
			['a\tb', 'two\nlines', '10" wide']
		]);
	});

	it('keeps blank cells and blank rows in the middle', () => {
		expect(readPlainTable('a\t\tb\n\nc\n')).toEqual([['a', '', 'b'], [''], ['c']]);
	});

	it('writes what it reads', () => {
		for (const text of ['plain', 'a\tb', `10"`, '"quoted" start', 'two\nlines'])
			expect(readPlainTable(plainCell(text))).toEqual([[text]]);
	});
});
