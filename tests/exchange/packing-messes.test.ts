/** The ugly packing lists against the readings written for them before the reader (`fixtures/deliveries/messes` and `messes-blind`). */
import { describe, expect, test } from 'vitest';
import { readPackingList } from '../../src/lib/exchange/packing-list.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { messLists, type MessList } from '../mess-fixtures.ts';
import { inches, ok, type Read } from './packing-text.ts';

const tables = [...messLists(), ...messLists('messes-blind')].filter(({ name }) => !name.endsWith('.xml'));

async function readMess({ name, bytes }: MessList): Promise<Read> {
	const table = await readTableFile(name, bytes);
	if (!table.ok) throw new Error(table.message);
	return ok(readPackingList(table.sheets, { measures: 'imperial' }));
}

async function named(name: string): Promise<Read> {
	const list = tables.find((each) => each.name === name);
	if (!list) throw new Error(`${name} is not there`);
	return readMess(list);
}

test('there are some twenty of them', () => {
	expect(tables.length).toBeGreaterThanOrEqual(20);
});

describe('facts, lines, crates and rows left out', () => {
	for (const list of tables)
		test(list.name, async () => {
			const reading = await readMess(list);
			expect(reading.facts).toEqual(list.expected.list);
			expect(reading.lines.map(({ line, crate }) => ({ line, crate }))).toEqual(
				list.expected.lines.map(({ line, crate }) => ({ line, crate }))
			);
			expect(reading.skipped.map(({ line }) => line)).toEqual(list.expected.skipped.map(({ line }) => line));
		});
});

describe('lines, by hand from the files', () => {
	test.each([
		['numbers-only.csv', 74],
		['kits.txt', 49],
		['shuffled-columns.csv', 54],
		['millimetres.csv', 36]
	])('%s adds up to its own total', async (name, total) => {
		const { lines } = await named(name);
		expect(lines.reduce((sum, { quantity }) => sum + (quantity ?? 0), 0)).toBe(total);
	});

	test('shuffled columns: ordered, here and to follow', async () => {
		const { lines } = await named('shuffled-columns.csv');
		expect(
			lines.map(({ orderLine, ordered, quantity, backordered }) => [
				orderLine,
				ordered,
				quantity,
				backordered
			])
		).toEqual([
			['1', 4, 4, 0],
			['2', 4, 3, 1],
			['3', 4, 4, 0],
			['4', 4, 4, 0],
			['5', 4, 0, 4],
			['6', 9, 9, 0],
			['7', 9, 9, 0],
			['8', 7, 5, 2],
			['9', 4, 4, 0],
			['12', 3, 3, 0],
			['13', 3, 3, 0],
			['14', 3, 3, 0],
			['20', 2, 0, 2],
			['21', 2, 2, 0],
			['17', 2, 1, 0]
		]);
	});

	test('decimal feet: within the fourth decimal of what they stand for', async () => {
		const { lines } = await named('decimal-feet.txt');
		// 5.75 × 12 = 69, 4.1667 × 12 = 50.0004, 10.375 × 12 = 124.5, 11.3333 × 12 = 135.9996
		expect(lines.slice(0, 5).map(({ length }) => length)).toEqual(
			[69, 50.0004, 50.0004, 124.5, 135.9996].map(inches)
		);
	});

	test('millimetres with commas', async () => {
		const { lines } = await named('millimetres.csv');
		expect(lines.slice(0, 6).map(({ length, width }) => [length, width])).toEqual([
			[1_752_600_000, 3_124_200_000],
			[3_124_200_000, null],
			[1_270_000_000, null],
			[1_270_000_000, null],
			[3_162_300_000, null],
			[3_454_400_000, 4_997_450_000]
		]);
	});

	test('what a scanner lost is asked, and nothing else of that list', async () => {
		const { questions } = await named('scan.txt');
		expect(
			questions
				.filter(({ field }) => field !== null)
				.map(({ line, text, readings }) => [line, text, readings[0] ?? null])
		).toEqual([
			[8, '1241/2', '124 1/2"'],
			[13, '196 34', '196 3/4"'],
			[14, '11O', '110'],
			[16, '1101/2', '110 1/2"'],
			[17, '110 12', '110 1/2"'],
			[23, '9?', null]
		]);
	});

	test('crate 3 of 7: what is missing', async () => {
		const { missing } = await named('crate-3-of-7.xlsx');
		expect(missing).toEqual({ crates: ['1', '2', '5', '7'], pages: [2] });
	});
});
