/** Packing lists against the readings written for them before the reader (`fixtures/deliveries`). */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { readPackingList, type PackingReading } from '../../src/lib/exchange/packing-list.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import type { PackingMapping } from '../../src/lib/exchange/packing-list.ts';
import type { Measures } from '../../src/lib/takeoff/inputs.ts';

const amount = z.number().nullable().optional();
const expectedSchema = z.object({
	measures: z.enum(['imperial', 'metric']),
	sheet: z.string(),
	headerRow: z.number(),
	fields: z.record(z.string(), z.string().nullable()),
	lines: z.array(
		z.looseObject({
			line: z.number(),
			lengthInches: amount,
			widthInches: amount,
			lengthMillimetres: amount,
			widthMillimetres: amount
		})
	),
	skipped: z.array(z.number())
});

/** 1 in = 25 400 000 nm, 1 mm = 1 000 000 nm. */
function nanometres(
	inches: number | null | undefined,
	millimetres: number | null | undefined
): number | null {
	if (inches !== null && inches !== undefined) return Math.round(inches * 25_400_000);
	return millimetres === null || millimetres === undefined ? null : Math.round(millimetres * 1_000_000);
}

const read = async (name: string, bytes: Uint8Array, measures: Measures, mapping?: PackingMapping) => {
	const table = await readTableFile(name, bytes);
	if (!table.ok) throw new Error(table.message);
	return readPackingList(table.sheets, { measures, mapping });
};

const fromText = (text: string, measures: Measures = 'imperial', mapping?: PackingMapping) =>
	read('list.csv', new TextEncoder().encode(text), measures, mapping);

function ok(reading: PackingReading): Extract<PackingReading, { ok: true }> {
	if (!reading.ok) throw new Error(`${reading.place}: ${reading.message}`);
	return reading;
}

const folder = 'fixtures/deliveries';

describe('packing lists with their expected readings', () => {
	const readings = readdirSync(folder).filter((name) => name.endsWith('.expected.json'));

	test('there are three', () => {
		expect(readings).toHaveLength(3);
	});

	for (const reading of readings) {
		test(reading, async () => {
			const expected = expectedSchema.parse(JSON.parse(readFileSync(`${folder}/${reading}`, 'utf8')));
			const stem = reading.replace('.expected.json', '.');
			const file = readdirSync(folder).find((name) => name.startsWith(stem) && !name.endsWith('.json')) ?? '';
			const list = ok(await read(file, readFileSync(`${folder}/${file}`), expected.measures));
			expect(list.sheet).toBe(expected.sheet);
			expect(list.headerRow).toBe(expected.headerRow);
			expect(Object.fromEntries(list.columns.map(({ letter, field }) => [letter, field]))).toEqual(
				expected.fields
			);
			expect(list.lines).toEqual(
				expected.lines.map(({ lengthInches, widthInches, lengthMillimetres, widthMillimetres, ...line }) => ({
					...line,
					length: nanometres(lengthInches, lengthMillimetres),
					width: nanometres(widthInches, widthMillimetres)
				}))
			);
			expect(list.questions).toEqual([]);
			expect(list.skipped.map(({ line }) => line)).toEqual(expected.skipped);
		});
	}
});

describe('what can go wrong in a packing list', () => {
	test('a cell that is no count, no length or no hand is null, and asked with its place', async () => {
		const list = ok(
			await fromText(
				'Lengths in inches\nMark,Item,Qty,Length,Hand\nC-1,Guide,a few,50,L\nC-1,Guide,2,long,R\nC-1,Guide,-1,50,both\n'
			)
		);
		expect(list.lines.map(({ quantity, length, hand }) => [quantity, length, hand])).toEqual([
			[null, 50 * 25_400_000, 'left'],
			[2, null, 'right'],
			[null, 50 * 25_400_000, null]
		]);
		expect(list.questions.map(({ place }) => place)).toEqual([
			'list.csv, line 3, C “Qty”',
			'list.csv, line 4, D “Length”',
			'list.csv, line 5, C “Qty”',
			'list.csv, line 5, E “Hand”'
		]);
	});

	test('lengths without any unit are taken in the unit of the job, and that is said', async () => {
		const list = ok(await fromText('Mark,Item,Qty,Length\nC-1,Guide,1,1250.8\n', 'metric'));
		expect(list.lines[0]?.length).toBe(1_250_800_000);
		expect(list.questions.map(({ reason }) => reason).join()).toContain('millimetres');
		const told = ok(await fromText('Mark,Item,Qty,Length\nC-1,Guide,1,50\n', 'metric', { unit: 'in' }));
		expect(told.lines[0]?.length).toBe(50 * 25_400_000);
		expect(told.questions).toEqual([]);
	});

	test('a unit in the heading counts for its column', async () => {
		const list = ok(await fromText('Mark,Item,Qty,Length (mm),Width (in)\nC-1,Curtain,1,1270,123\n'));
		expect([list.lines[0]?.length, list.lines[0]?.width]).toEqual([1_270_000_000, 123 * 25_400_000]);
	});

	test('a column can be told, and another left out', async () => {
		const list = ok(
			await fromText('Mark,Item,Qty,Stuff,Finish\nC-1,Guide,1,50",mill\n', 'imperial', {
				columns: { '3': 'length', '4': null }
			})
		);
		expect([list.lines[0]?.length, list.lines[0]?.finish]).toEqual([50 * 25_400_000, null]);
	});

	test('totals, repeated headings and remarks are left out with the reason', async () => {
		const list = ok(
			await fromText(
				'Mark,Item,Qty\nC-1,Guide,2\nMark,Item,Qty\nTotal,,2\nChecked by the yard,,\nC-2,Guide,1\n'
			)
		);
		expect(list.lines.map(({ line }) => line)).toEqual([2, 6]);
		expect(list.skipped.map(({ line }) => line)).toEqual([3, 4, 5]);
	});

	test.each([
		['Dear all\nthe goods are on their way\n', 'heading'],
		['Mark,Item,Qty\n,,\n', 'no lines of parts']
	])('no table of parts: a message with its place', async (text, message) => {
		const reading = await fromText(text);
		expect(reading.ok).toBe(false);
		if (!reading.ok) {
			expect(reading.message).toContain(message);
			expect(reading.place).toContain('list.csv');
		}
	});
});
