/** Files that want to do harm, or are far too large: a clear message, the process alive and its memory sane. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readPackingList } from '../../src/lib/exchange/packing-list.ts';
import { readSchedule, scheduleMappingSchema } from '../../src/lib/exchange/schedule.ts';
import { textOf, type Sheet } from '../../src/lib/exchange/sheet.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { readWorkbook, type WorkbookLimits } from '../../src/lib/exchange/workbook/read-workbook.ts';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';
import { textRows, workbookFile, zip } from './zip-writer.ts';

const megabyte = 1024 * 1024;
const honest = readFileSync(resolve('fixtures/schedules/saltmarsh-pier.xlsx'));

async function refusal(bytes: Uint8Array, limits: Partial<WorkbookLimits> = {}): Promise<string> {
	const before = process.memoryUsage().rss;
	const reading = await readWorkbook('trap.xlsx', bytes, limits);
	expect((process.memoryUsage().rss - before) / megabyte).toBeLessThan(600);
	if (reading.ok) throw new Error('it was read');
	expect(reading.message).toMatch(/^trap\.xlsx is not read: .*\.$/u);
	return reading.message;
}

async function sheetOf(bytes: Uint8Array): Promise<Sheet> {
	const reading = await readWorkbook('file.xlsx', bytes);
	if (!reading.ok) throw new Error(reading.message);
	const [sheet] = reading.sheets;
	if (!sheet) throw new Error('no sheet');
	return sheet;
}

const texts = (sheet: Sheet): string[][] => sheet.rows.map((row) => row.cells.map(textOf));

describe('traps in a zip', () => {
	test('a part that unpacks to hundreds of times its size', async () => {
		const bomb = workbookFile({ sheetXml: Buffer.alloc(90 * megabyte, 0x20) });
		expect(bomb.length).toBeLessThan(megabyte);
		expect(await refusal(bomb)).toContain('as only a trap does');
	});

	test('a part that declares a small size and is huge', async () => {
		const bomb = zip([
			{ name: 'xl/workbook.xml', content: Buffer.alloc(120 * megabyte, 0x20), declared: 1000 },
			{ name: 'xl/_rels/workbook.xml.rels', content: '<Relationships/>' }
		]);
		expect(await refusal(bomb)).toContain('does not unpack to the size it declares');
	});

	test('parts beyond the sizes, and too many of them', async () => {
		const large = workbookFile({ sheetXml: Buffer.alloc(101 * megabyte, 0x20) });
		expect(await refusal(large, { ratio: 10_000 })).toContain('unpacks to 101.0 MB; at most 100.0 MB');
		const many = Array.from({ length: 3 }, (_, i) => ({
			name: `xl/part${i}`,
			content: Buffer.alloc(90 * megabyte, 0x20)
		}));
		expect(await refusal(workbookFile({ more: many }), { ratio: 10_000 })).toContain('more than 200.0 MB');
		const tiny = Array.from({ length: 2001 }, (_, i) => ({ name: `xl/part${i}`, content: '' }));
		expect(await refusal(workbookFile({ more: tiny }))).toContain('2,004 files inside; at most 2,000');
	});

	test('parts that share their bytes, names twice, archives inside, encryption', async () => {
		const shared = { name: 'xl/again', content: 'x', sharedWith: 2 };
		expect(await refusal(workbookFile({ more: [shared] }))).toMatch(/overlap|damaged/u);
		expect(await refusal(workbookFile({ more: [{ name: 'xl/workbook.xml', content: 'x' }] }))).toContain(
			'is in it twice'
		);
		expect(
			await refusal(workbookFile({ more: [{ name: 'xl/embeddings/more.zip', content: 'x' }] }))
		).toContain('another archive');
		expect(
			await refusal(workbookFile({ more: [{ name: 'xl/secret.xml', content: 'x', flags: 1 }] }))
		).toContain('encrypted');
	});

	test('cut off anywhere, it is refused and never throws', async () => {
		for (let part = 1; part < 24; part++)
			expect(await refusal(honest.subarray(0, Math.floor((honest.length * part) / 24)))).toMatch(
				/cut off or damaged/u
			);
	});

	test('with single bytes changed it is read or refused, and never throws', async () => {
		for (let i = 0; i < 8; i++) {
			const changed = Buffer.from(honest);
			const at = (i * 7919 + 31) % changed.length;
			changed[at] = (changed[at] ?? 0) ^ 0x55;
			const reading = await readWorkbook('changed.xlsx', changed);
			if (!reading.ok) expect(reading.message).toContain('changed.xlsx');
		}
	});
});

describe('traps in the workbook', () => {
	test('text that multiplies itself', async () => {
		const laughs =
			'<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]><worksheet><sheetData/></worksheet>';
		expect(await refusal(workbookFile({ sheetXml: laughs }))).toContain('defines its own text');
	});

	test('100,000 rows: the message names sheet, rows and limit', async () => {
		const rows = textRows(Array.from({ length: 100_000 }, (_, i) => [`C-${i}`, '1', "10'-0", "4'-0"]));
		const message = await refusal(workbookFile({ sheet: rows, sheetName: 'Openings' }));
		expect(message).toContain('sheet “Openings” has 100,000 filled rows; at most 20,000');
	});

	test('a column too far out, and more filled cells than are read', async () => {
		const far = '<sheetData><row r="3"><c r="XFD3"><v>1</v></c></row></sheetData>';
		expect(await refusal(workbookFile({ sheet: far }))).toContain('column 16384 of row 3; at most 2048');
		const rows = textRows(Array.from({ length: 30 }, () => Array.from({ length: 4 }, () => 'x')));
		expect(await refusal(workbookFile({ sheet: rows }), { cells: 100 })).toContain(
			'more than 100 filled cells'
		);
	});

	test('names of JavaScript itself change nothing', async () => {
		const names = ['__proto__', 'constructor', 'prototype']
			.map((name) => `<definedName name="${name}">'__proto__'!$A$1:$ZZ$9</definedName>`)
			.join('');
		const sheet = await sheetOf(
			workbookFile({
				sheetName: '__proto__',
				workbookEnd: `<definedNames>${names}</definedNames>`,
				sheet: textRows([
					['Mark', 'Qty', 'Width', 'Height', '__proto__', 'constructor'],
					['__proto__', '1', "10'-0", "4'-0", 'polluted', 'x'],
					['constructor', '1', "10'-0", "4'-0", 'y', 'z']
				])
			})
		);
		expect(sheet.name).toBe('__proto__');
		const mapping = scheduleMappingSchema.parse(
			JSON.parse('{"answers": {"__proto__": "x", "constructor": "y"}}')
		);
		const preview = readSchedule([sheet], {
			measures: 'imperial',
			keysFor: (input) => keysFor(demoTechnicalBook, input),
			mapping
		});
		expect(preview.rows.map((row) => row.cells.mark)).toEqual(['__proto__', 'constructor']);
		readPackingList([sheet], { measures: 'imperial' });
		expect(Object.keys(Object.prototype)).toEqual([]);
		expect(({} as Record<string, unknown>).polluted).toBeUndefined();
	});

	test('names and formulas that go round in circles: the stored values are read', async () => {
		const names =
			'<definedName name="one">two+1</definedName><definedName name="two">one+1</definedName><definedName name="self">self</definedName>';
		const sheet = await sheetOf(
			workbookFile({
				workbookEnd: `<definedNames>${names}</definedNames><calcPr iterate="1" iterateCount="32767" fullCalcOnLoad="1"/>`,
				sheet: `<sheetData><row r="1"><c r="A1"><f>B1+1</f><v>7</v></c><c r="B1"><f>A1+1</f><v>8</v></c><c r="C1"><f>one+self</f><v>0</v></c><c r="D1"><f>C1:D1</f></c></row></sheetData>`
			})
		);
		expect(sheet.rows).toEqual([
			{ line: 1, cells: ['7', '8', '0', { text: 'no stored result', kind: 'error' }], hidden: false }
		]);
	});

	test('whole columns merged, validated and formatted cost nothing', async () => {
		const blank = Array.from(
			{ length: 50_000 },
			(_, i) => `<row r="${i + 3}"><c r="A${i + 3}" s="1"/></row>`
		);
		const sheet = await sheetOf(
			workbookFile({
				sheet: `<sheetData><row r="2"><c r="B2" t="inlineStr"><is><t>here</t></is></c></row>${blank.join('')}</sheetData><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells><dataValidations><dataValidation type="list" sqref="A1:XFD1048576"><formula1>"x"</formula1></dataValidation></dataValidations>`
			})
		);
		expect(sheet.rows).toEqual([{ line: 2, cells: ['', 'here'], hidden: false }]);
		expect(sheet.merges).toEqual([{ top: 1, left: 0, bottom: 1_048_576, right: 16_383 }]);
	});

	test('it stops at its time and at its memory, and the next file is read', async () => {
		const rows = workbookFile({
			sheet: textRows(
				Array.from({ length: 15_000 }, (_, i) => Array.from({ length: 20 }, (_, j) => `${i}/${j}`))
			)
		});
		expect(await refusal(rows, { seconds: 0.05 })).toContain('takes more than 0.05 seconds');
		expect(await refusal(rows, { heapMegabytes: 24 })).toContain('too much memory');
		expect((await sheetOf(workbookFile({ sheet: textRows([['fine']]) }))).rows).toHaveLength(1);
	});

	test('broken inside: a message', async () => {
		for (const sheetXml of [
			'',
			'nothing',
			'<worksheet><sheetData><row><c><v>1',
			'<worksheet><sheetData><row r="0"><c><v>1</v></c></row></sheetData></worksheet>'
		])
			expect(await refusal(workbookFile({ sheetXml }))).toMatch(/damaged|empty/u);
		expect(
			await refusal(
				workbookFile({
					sheetXml:
						'<worksheet><sheetData><row><c t="inlineStr"><is><t>&nope;</b></is></c></row></sheetData></worksheet>'
				})
			)
		).toContain('damaged');
	});
});

describe('files that are too large', () => {
	test('50 MB under any name', async () => {
		const bytes = new Uint8Array(50 * megabyte).fill(0x41);
		for (const name of ['large.xlsx', 'large.csv']) {
			const reading = await readTableFile(name, bytes);
			expect(reading).toEqual({ ok: false, message: `${name} has 50.0 MB; at most 20.0 MB are read.` });
		}
	});

	test('100,000 lines, and 3,000 fields in a line', async () => {
		const encode = (text: string) => new TextEncoder().encode(text);
		const lines = await readTableFile(
			'long.csv',
			encode(`Mark,Qty,Width,Height\n${'C-1,1,10,4\n'.repeat(99_999)}`)
		);
		expect(lines).toMatchObject({
			ok: false,
			message: expect.stringContaining('100,000 lines; at most 20,000') as string
		});
		const fields = await readTableFile('wide.csv', encode(`Mark\n${'x,'.repeat(2999)}x\n`));
		expect(fields).toMatchObject({
			ok: false,
			message: expect.stringContaining('line 2: 3,000 fields; at most 2048') as string
		});
	});
});

describe('what a cell may hold', () => {
	test('figures without exponent or noise, units of the number format, dates and errors marked', async () => {
		const formats = [
			[164, '0.0&quot; mm&quot;'],
			[165, '0\\&quot;'],
			[166, 'd\\-mmm'],
			[167, '0.0\\ \\m\\m'],
			[168, '[Red]0.00']
		]
			.map(([id, code]) => `<numFmt numFmtId="${id}" formatCode="${code}"/>`)
			.join('');
		const styles = [0, 164, 165, 166, 167, 168].map((id) => `<xf numFmtId="${id}"/>`).join('');
		const sheet = await sheetOf(
			workbookFile({
				styles: `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts>${formats}</numFmts><fonts/><fills/><borders/><cellXfs>${styles}</cellXfs></styleSheet>`,
				sheet: `<sheetData><row>
<c><v>1E21</v></c><c><v>1.5E-7</v></c><c><v>0.30000000000000004</v></c>
<c s="1"><v>3050</v></c><c s="2"><v>120.5</v></c><c s="3"><v>48125</v></c><c s="4"><v>1220</v></c><c s="5"><v>7</v></c>
<c t="b"><v>1</v></c><c t="e"><v>#REF!</v></c><c t="str"><f>A1</f><v>text &amp; more</v></c><c><f>1+1</f><v>2</v></c><c><f>A9</f></c><c t="str"><f>""</f><v></v></c>
<c t="inlineStr"><is><r><t>C-</t></r><r><rPr><b/></rPr><t>101</t></r></is></c></row></sheetData>`
			})
		);
		expect(sheet.rows[0]?.cells).toEqual([
			'1000000000000000000000',
			'0.00000015',
			'0.3',
			'3050 mm',
			"120.5 ''",
			// Day 48125 of the calendar that counts 1 January 1900 as day 1 and a 29 February 1900: 4 October 2031.
			{ text: '2031-10-04', kind: 'date' },
			'1220 mm',
			'7',
			'TRUE',
			{ text: '#REF!', kind: 'error' },
			'text & more',
			'2',
			{ text: 'no stored result', kind: 'error' },
			'',
			'C-101'
		]);
	});

	test('a workbook written with prefixed tags, as some programs do', async () => {
		const sheetXml = `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData><x:row r="4"><x:c r="C4" t="str"><x:v>Mark</x:v></x:c></x:row></x:sheetData></x:worksheet>`;
		const sheet = await sheetOf(workbookFile({ sheetXml }));
		expect(sheet.rows).toEqual([{ line: 4, cells: ['', '', 'Mark'], hidden: false }]);
		expect(texts(sheet)).toEqual([['', '', 'Mark']]);
	});
});
