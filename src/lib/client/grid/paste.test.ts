import { describe, expect, it } from 'vitest';
import { readCell } from '../../takeoff/cell.ts';
import { inputOf, type InputId } from '../../takeoff/inputs.ts';
import { pasteTitle, readPaste, refusedPlace } from './paste.ts';

const read = (field: InputId, text: string) =>
	readCell(inputOf(field), text, { measures: 'imperial', keys: ['counter-slat'] });

const inches = (count: number): number => count * 25_400_000;

describe('a table pasted into the sheet', () => {
	it('falls on the rows and columns from the focused cell', () => {
		const paste = readPaste(`10'\t4'\n8'\t5'\n`, ['r1', 'r2', 'r3'], ['openingWidth', 'openingHeight'], read);
		expect(paste.changes.map(({ row, field }) => `${row} ${field}`)).toEqual([
			'r1 openingWidth',
			'r1 openingHeight',
			'r2 openingWidth',
			'r2 openingHeight'
		]);
		expect(paste.changes[2]?.after).toMatchObject({ amount: inches(96), typed: `8'` });
		expect(paste.added).toEqual([]);
		expect(paste.count).toBe(4);
	});

	it('adds rows below the last and leaves out what falls beside the last column', () => {
		const paste = readPaste(`A\t2\nB\t3\tbeside`, ['r1'], ['mark', 'quantity'], read);
		expect(paste.changes).toEqual([
			{ row: 'r1', field: 'mark', after: 'A' },
			{ row: 'r1', field: 'quantity', after: 2 }
		]);
		expect(paste.added).toEqual([{ mark: 'B', quantity: 3 }]);
	});

	it('lists what cannot be read and takes the rest', () => {
		const paste = readPaste(`wide\tcounter-slat\nB`, ['r1'], ['openingWidth', 'curtain'], read);
		expect(paste.changes).toEqual([{ row: 'r1', field: 'curtain', after: 'counter-slat' }]);
		expect(paste.refused.map(({ row, field, text }) => [row, field, text])).toEqual([
			['r1', 'openingWidth', 'wide'],
			[null, 'openingWidth', 'B']
		]);
		expect(paste.refused.map((cell) => refusedPlace(cell, () => 'C-101'))).toEqual([
			'Opening width of C-101',
			'Opening width of a new row'
		]);
	});

	it('says how many cells', () => {
		expect([pasteTitle(1), pasteTitle(12)]).toEqual(['Paste 1 cell', 'Paste 12 cells']);
	});
});
