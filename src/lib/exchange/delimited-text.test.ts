import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readDelimited, writeDelimited, type Delimiter } from './delimited-text.ts';
import { textOf } from './sheet.ts';

const read = (text: string | Uint8Array) => {
	const reading = readDelimited('list.csv', typeof text === 'string' ? new TextEncoder().encode(text) : text);
	if (!reading.ok) throw new Error(reading.message);
	return reading;
};

const rowsOf = (text: string | Uint8Array): string[][] =>
	read(text).sheet.rows.map((row) => row.cells.map(textOf));

describe('writing', () => {
	test('fields are quoted where they need it, lines end with CRLF, UTF-8 is marked', () => {
		expect(
			writeDelimited([
				['a', 1.5, null],
				[`10'-0"`, 'b,c', 'd\ne']
			])
		).toBe(`\uFEFFa,1.5,\r\n"10'-0""","b,c","d\ne"\r\n`);
	});

	test('text that a spreadsheet would run as a formula is written as text', () => {
		const line = writeDelimited([['=cmd()', '+1+1', '-2+3', '@sum', '\t=1', '-5', '+0.25']]);
		expect(line).toBe(`\uFEFF'=cmd(),'+1+1,'-2+3,'@sum,"'\t=1",-5,+0.25\r\n`);
	});

	test('what is written is read back', () => {
		const cell = fc
			.string({ unit: 'grapheme', maxLength: 12 })
			.filter((text) => !/^['\s]|[\r\0]|^\uFEFF/u.test(text));
		const row = fc.tuple(fc.constant('first'), cell, cell, fc.constant('last'));
		fc.assert(
			fc.property(
				fc.array(row, { minLength: 1, maxLength: 8 }),
				fc.constantFrom<Delimiter>(',', ';', '\t', '|'),
				(rows, delimiter) => {
					const text = `sep=${delimiter}\n${writeDelimited(rows, delimiter).slice(1)}`;
					expect(rowsOf(text)).toEqual(rows);
				}
			),
			{ numRuns: 300 }
		);
	});
});

describe('reading', () => {
	test.each([
		['a;b;c\n1,5;2;3\n', ';'],
		['a\tb\n1,5\t2\n', '\t'],
		['title, with a comma\na|b|c\n1|2|3\n', '|'],
		['one\ntwo\n', ',']
	])('the delimiter of %j', (text, delimiter) => {
		expect(read(text).delimiter).toBe(delimiter);
	});

	test('each row has the line it begins on, blank lines and line breaks in fields counted', () => {
		const { rows } = read('\r\na,b\r\n\r\n"1\r\n2",3\r\n4,5').sheet;
		expect(rows.map(({ line, cells }) => [line, ...cells])).toEqual([
			[2, 'a', 'b'],
			[4, '1\n2', '3'],
			[6, '4', '5']
		]);
	});

	test('quotation marks in the middle of a field are inch marks', () => {
		expect(rowsOf(`a;b\n10'-0";4'-0"\n"6"" plate";x\n`)).toEqual([
			['a', 'b'],
			[`10'-0"`, `4'-0"`],
			['6" plate', 'x']
		]);
	});

	test('a quotation mark that is never closed is told with its line', () => {
		const reading = readDelimited('list.csv', new TextEncoder().encode('a,b\n1,"2\n3,4\n'));
		expect(reading).toEqual({
			ok: false,
			message: 'list.csv: a quotation mark that opens on line 2 is never closed.'
		});
	});

	test('bytes that are no text are refused', () => {
		const bytes = Uint8Array.from({ length: 400 }, (_, i) => (i * 37) % 256);
		expect(readDelimited('list.csv', bytes)).toMatchObject({ ok: false });
	});
});
