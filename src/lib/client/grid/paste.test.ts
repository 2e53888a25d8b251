import { describe, expect, it } from 'vitest';
import { readCell } from '../../takeoff/cell.ts';
import { inputOf, type InputId } from '../../takeoff/inputs.ts';
import { pasteTitle, readPaste, refusedPlace, type Paste, type PasteTarget } from './paste.ts';

const read = (field: InputId, text: string) =>
	readCell(inputOf(field), text, { measures: 'imperial', keys: ['counter-slat'] });

const inches = (count: number): number => count * 25_400_000;

type Column = PasteTarget['columns'][number];
const field = (id: InputId): Column => ({ field: id });

const target = (
	rows: readonly string[],
	columns: readonly Column[],
	more?: Partial<PasteTarget>
): PasteTarget => ({
	rows,
	columns,
	selectedRows: 1,
	selectedColumns: 1,
	mayAddRows: true,
	...more
});

const places = ({ changes }: Paste): string[] =>
	changes.map(({ row, field: id, after }) => `${row} ${id} ${JSON.stringify(after)}`);

describe('a table pasted into the sheet', () => {
	it('falls on the rows and columns from the upper left of the selection on', () => {
		const cells = [
			["10'", "4'"],
			["8'", "5'"]
		];
		const paste = readPaste(
			cells,
			target(['r1', 'r2', 'r3'], [field('openingWidth'), field('openingHeight')]),
			read
		);
		expect(paste.changes.map(({ row, field: id }) => `${row} ${id}`)).toEqual([
			'r1 openingWidth',
			'r1 openingHeight',
			'r2 openingWidth',
			'r2 openingHeight'
		]);
		expect(paste.changes[2]?.after).toMatchObject({ amount: inches(96), typed: "8'" });
		expect(paste).toMatchObject({ added: [], count: 4, onResults: 0, beyond: 0 });
	});

	it('adds rows below the last and counts what falls beyond the last column', () => {
		const cells = [
			['A', '2'],
			['B', '3', 'beside', '']
		];
		const paste = readPaste(cells, target(['r1'], [field('mark'), field('quantity')]), read);
		expect(paste.changes).toEqual([
			{ row: 'r1', field: 'mark', after: 'A' },
			{ row: 'r1', field: 'quantity', after: 2 }
		]);
		expect(paste.added).toEqual([{ mark: 'B', quantity: 3 }]);
		expect(paste).toMatchObject({ count: 4, beyond: 1 });
	});

	it('adds no rows while it may not, and counts what was left out', () => {
		const cells = [['A'], ['B'], [''], ['C']];
		const paste = readPaste(cells, target(['r1'], [field('mark')], { mayAddRows: false }), read);
		expect(places(paste)).toEqual(['r1 mark "A"']);
		expect(paste).toMatchObject({ added: [], count: 1, beyond: 2 });
	});

	it('adds blank rows between others, and none at the end', () => {
		const cells = [
			['A', '1'],
			['', ''],
			['B', '2'],
			['', ''],
			['', '']
		];
		const paste = readPaste(cells, target([], [field('mark'), field('quantity')]), read);
		expect(paste.added).toEqual([{ mark: 'A', quantity: 1 }, {}, { mark: 'B', quantity: 2 }]);
	});

	it('leaves worked-out columns as they are, and goes on behind them', () => {
		const cells = [['A', "9'", '2']];
		const columns = [field('mark'), { result: 'guideDistance' }, field('quantity')];
		const paste = readPaste(cells, target(['r1'], columns), read);
		expect(places(paste)).toEqual(['r1 mark "A"', 'r1 quantity 2']);
		expect(paste).toMatchObject({ count: 2, onResults: 1, beyond: 0 });
	});

	it('empties cells that a blank one falls on, and changes nothing beside a shorter row', () => {
		const cells = [['', '2'], ['B']];
		const paste = readPaste(cells, target(['r1', 'r2'], [field('mark'), field('quantity')]), read);
		expect(places(paste)).toEqual(['r1 mark null', 'r1 quantity 2', 'r2 mark "B"']);
	});

	it('lists what cannot be read, with the added row it stands in, and takes the rest', () => {
		const cells = [
			['wide', 'counter-slat'],
			['B', ''],
			['', 'round']
		];
		const paste = readPaste(cells, target(['r1'], [field('openingWidth'), field('curtain')]), read);
		expect(paste.changes).toEqual([{ row: 'r1', field: 'curtain', after: 'counter-slat' }]);
		expect(paste.added).toEqual([{}, {}]);
		expect(paste.refused.map((cell) => [cell.row, cell.added, cell.field, cell.text])).toEqual([
			['r1', null, 'openingWidth', 'wide'],
			[null, 0, 'openingWidth', 'B'],
			[null, 1, 'curtain', 'round']
		]);
		expect(paste.refused.map((cell) => refusedPlace(cell, () => 'C-101'))).toEqual([
			'Opening width of C-101',
			'Opening width of a new row',
			'Curtain of a new row'
		]);
	});

	it('counts as left out on results only cells that hold something', () => {
		const cells = [['', 'x', ' ', 'y']];
		const columns = [{ result: 'barrel' }, { result: 'barrel' }, { result: 'barrel' }];
		expect(readPaste(cells, target(['r1'], columns), read)).toMatchObject({
			changes: [],
			onResults: 1,
			beyond: 1
		});
	});

	it('says how many cells', () => {
		expect([pasteTitle(1), pasteTitle(12)]).toEqual(['Paste 1 cell', 'Paste 12 cells']);
	});
});

describe('a paste onto a selection', () => {
	const rows = ['r1', 'r2', 'r3', 'r4', 'r5'];
	const columns = [field('location'), field('phase'), field('note')];
	const paste = (cells: string[][], selectedRows: number, selectedColumns: number): string[] =>
		places(readPaste(cells, target(rows, columns, { selectedRows, selectedColumns }), read));

	it('fills it with one cell', () => {
		expect(paste([['a']], 2, 3)).toEqual([
			'r1 location "a"',
			'r1 phase "a"',
			'r1 note "a"',
			'r2 location "a"',
			'r2 phase "a"',
			'r2 note "a"'
		]);
	});

	it('repeats a block where it is so many times as large, also in one direction only', () => {
		expect(paste([['a'], ['b']], 4, 1)).toEqual([
			'r1 location "a"',
			'r2 location "b"',
			'r3 location "a"',
			'r4 location "b"'
		]);
		expect(paste([['a', 'b']], 2, 1)).toEqual([
			'r1 location "a"',
			'r1 phase "b"',
			'r2 location "a"',
			'r2 phase "b"'
		]);
	});

	it('goes in once where it is not', () => {
		expect(paste([['a'], ['b']], 3, 1)).toEqual(['r1 location "a"', 'r2 location "b"']);
		expect(paste([['a', 'b']], 4, 3)).toEqual(['r1 location "a"', 'r1 phase "b"']);
	});

	it('is larger than the selection where the block is', () => {
		expect(paste([['a'], ['b'], ['c']], 2, 1)).toEqual([
			'r1 location "a"',
			'r2 location "b"',
			'r3 location "c"'
		]);
	});
});
