/** A packing list typed by hand gives the same reading and the same errors as a file. */
import { describe, expect, test } from 'vitest';
import { typedPackingList, type TypedLine } from '../../src/lib/exchange/packing-list.ts';
import { fromText, inches, ok } from './packing-text.ts';

const typed = (...rows: TypedLine[]) => ok(typedPackingList(rows, { measures: 'imperial' }));

test('the same lines as from a file that says the same', async () => {
	const fromFile = await fromText(
		'Lengths in inches\nPO line,Mark,Description,Qty,U/M,Length,Hand,Crate,Remarks\nL14,C-101,Guide,2 of 4,EA,110 1/2,LH,crate 3 of 7,one bent\n'
	);
	const byHand = typed({
		orderLine: 'L14',
		mark: 'C-101',
		description: 'Guide',
		quantity: '2 of 4',
		unit: 'EA',
		length: '110 1/2',
		hand: 'LH',
		crate: 'crate 3 of 7',
		remark: 'one bent'
	});
	expect(byHand.lines).toEqual(fromFile.lines.map((line) => ({ ...line, line: 1 })));
	expect(byHand.lines[0]).toMatchObject({
		orderLine: '14',
		quantity: 2,
		ordered: 4,
		length: inches(110.5),
		hand: 'left',
		crate: '3'
	});
	expect(byHand.questions).toEqual([]);
	expect(byHand.facts.crates.named).toEqual(['3']);
});

test('every field that can’t be read is asked by its line and name', () => {
	const list = typed(
		{ mark: 'C-1', description: 'Guide', quantity: 'a few', length: '110 12', hand: 'top' },
		{},
		{ mark: 'C-2', description: 'Guide' },
		{ quantity: '4' },
		{ description: 'x'.repeat(501), mark: 'C-3', quantity: '1' }
	);
	expect(list.questions.map(({ place, field }) => [place, field])).toEqual([
		['line 1, quantity on this list', 'quantity'],
		['line 1, length or height', 'length'],
		['line 1, hand', 'hand'],
		['line 3, quantity on this list', 'quantity'],
		['line 4, description', 'description'],
		['line 5, description', 'description']
	]);
	expect(list.lines.map(({ line, quantity }) => [line, quantity])).toEqual([
		[1, null],
		[3, null],
		[5, 1]
	]);
	expect(list.skipped.map(({ line }) => line)).toEqual([2, 4]);
});

describe('what is no list', () => {
	test.each([
		[[], 'no line says what came'],
		[[{}, { quantity: ' ' }], 'no line says what came'],
		[Array.from({ length: 2001 }, () => ({ mark: 'C-1', quantity: '1' })), '2,001 lines; at most 2,000']
	])('%#', (rows: readonly TypedLine[], message) => {
		const reading = typedPackingList(rows, { measures: 'imperial' });
		expect(reading.ok ? '' : reading.message).toContain(message);
	});
});

test('what the person says of the list stands, and is what lines are held against', () => {
	const list = ok(
		typedPackingList(
			[
				{ orderLine: '1042-01/14', quantity: '1', crate: '2' },
				{ orderLine: '1077-02/3', quantity: '1' }
			],
			{
				measures: 'metric',
				facts: { listNumber: 'PL-1', orderNumber: '1042-01', crates: { all: 2, named: [] } }
			}
		)
	);
	expect(list.lines.map(({ orderLine }) => orderLine)).toEqual(['14', '1077-02/3']);
	expect(list.facts).toMatchObject({ listNumber: 'PL-1', crates: { all: 2, named: ['2'] } });
	expect(list.missing.crates).toEqual(['1']);
});
