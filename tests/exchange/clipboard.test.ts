/**
 * The clipboard against what LibreOffice Calc puts there and takes from there. `fixtures/clipboard` holds captures of
 * its real clipboard, with the cells expected of each written from the plan of the sheet.
 */
import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { readClipboard, writeClipboard, type CopiedCell } from '../../src/lib/client/grid/clipboard.ts';
import { needs } from '../recalculate.ts';

const run = promisify(execFile);
const folder = join(import.meta.dirname, '../../fixtures/clipboard');
const fixture = (name: string): string => readFileSync(join(folder, name), 'utf8');

const cellsSchema = z.array(z.array(z.string()));
const expected = z
	.record(z.string(), z.object({ shown: cellsSchema, text: cellsSchema }))
	.parse(JSON.parse(fixture('expected.json')));

const parse = (html: string): Document => parseHTML(html).document;
const read = (text: string, html: string): string[][] => {
	const reading = readClipboard({ text, html }, parse);
	if (!reading.ok) throw new Error(reading.reason);
	return reading.cells;
};

describe('what LibreOffice Calc copied', () => {
	it.each(Object.entries(expected))('%s: the table is read where there is one', (name, { shown }) => {
		expect(read(fixture(`${name}.txt`), fixture(`${name}.html`))).toEqual(shown);
	});

	it.each(Object.entries(expected))('%s: the text alone has what the text has', (name, { text }) => {
		expect(read(fixture(`${name}.txt`), '')).toEqual(text);
	});

	it('only the table leaves hidden cells out and keeps line breaks and tabs of cells', () => {
		const flat = (cells: readonly (readonly string[])[]): string[] => cells.flat();
		const { shown = [], text = [] } = expected.schedule ?? {};
		expect(flat(shown)).toEqual(expect.arrayContaining(['two\nlines', 'a\ttab']));
		expect(flat(text)).toEqual(expect.arrayContaining(['two lines', 'a tab', 'C-107', 'inner 1']));
		expect(flat(shown)).not.toContain('C-107');
		expect(flat(shown)).not.toContain('inner 1');
	});
});

describe('what LibreOffice Calc saved', () => {
	const { shown = [], text = [] } = expected.schedule ?? {};

	it('the table it saves is the one it copies', () => {
		expect(read('', fixture('schedule-saved.html'))).toEqual(shown);
	});

	// Saved text quotes cells, so line breaks and tabs are in it; hidden cells are, too, and figures without their format.
	it('quoted text keeps line breaks and tabs', () => {
		const cells = read(fixture('schedule-saved.txt'), '');
		const unformatted = new Map([
			['two lines', 'two\nlines'],
			['a tab', 'a\ttab'],
			['$1,234.50', '1234.5'],
			['$0.50', '0.5'],
			['1,000,000.00', '1000000'],
			['€99.90', '99.9']
		]);
		expect(cells).toEqual(text.map((line) => line.map((cell) => unformatted.get(cell) ?? cell)));
	});
});

/** A spreadsheet’s cell: text, or a number. */
type SheetCell = string | number;

const words = (text: string): CopiedCell => ({ text, figure: null });

/** What a spreadsheet would like to take for dates, figures, conditions and formulas. */
const texts = [
	['C-101', '10-4', '1/2', '3-4-2020', '4 Oct', '12:30'],
	['007', '1e5', '12.5', 'TRUE', '=1+1', '+12', '-3', '@SUM(A1)'],
	[`12'-6 1/2"`, `8'-0"`, '150.5"', '3810 mm', '"quoted" start', 'say "so"'],
	['Tür Ä-1 ½ €', '<b>bold</b> & co', '&amp;', '10 %', '$5.00', '😀', '']
];

describe.skipIf(needs('libreoffice'))('LibreOffice takes what is copied', () => {
	it(
		'texts from the table as texts, none as a date, figure or formula; figures as numbers',
		{ timeout: 120_000 },
		async () => {
			const figures: CopiedCell[] = [
				{ text: '12.5 lb', figure: 12.5 },
				{ text: `12'-6 1/2"`, figure: 150.5 },
				{ text: '-0.001', figure: -0.001 },
				{ text: '1,234', figure: 1234 },
				words('two\nlines')
			];
			const { html } = writeClipboard([...texts.map((line) => line.map(words)), figures]);
			const sheet = await sheetOf({ name: 'copied.html', content: html, filter: 'HTML (StarCalc)' });
			expect(sheet).toEqual([...texts, [12.5, 150.5, -0.001, 1234, 'two\nlines']].map(withoutEnd));
		}
	);

	it('texts from the text, each column read as text', { timeout: 120_000 }, async () => {
		const table = [...texts, ['two\nlines', 'a\ttab', '"', '""', 'a "b" c']];
		const { text } = writeClipboard(table.map((line) => line.map(words)));
		// Tab, double quote, UTF-8, from line 1, each column (2) as text.
		const columns = Array.from({ length: 8 }, (_, at) => `${String(at + 1)}/2`).join('/');
		const filter = `Text - txt - csv (StarCalc):9,34,76,1,${columns}`;
		const sheet = await sheetOf({ name: 'copied.txt', content: text, filter });
		expect(sheet).toEqual(table.map(withoutEnd));
	});

	it('a table of this very LibreOffice is read like the captured one', { timeout: 120_000 }, async () => {
		const html = await convert('schedule.fods', fixture('schedule.fods'), null, 'html:HTML (StarCalc)');
		// LibreOffice 7.4 does not read the tab of a cell back from its own format.
		const shown = expected.schedule?.shown.map((line) => line.map((cell) => cell.replace('\t', '')));
		expect(read('', html).map((line) => line.map((cell) => cell.replace('\t', '')))).toEqual(shown);
	});
});

/** Empty cells at the end of a row are not there in a sheet. */
const withoutEnd = (line: readonly SheetCell[]): SheetCell[] =>
	line.slice(0, line.findLastIndex((cell) => cell !== '') + 1);

/** Opens a file in LibreOffice and saves it as another. @returns the other’s text. */
async function convert(name: string, content: string, filter: string | null, to: string): Promise<string> {
	const place = await mkdtemp(join(tmpdir(), 'coilwright-clipboard-'));
	try {
		const file = join(place, name);
		await writeFile(file, content);
		const out = join(place, 'out');
		await run('soffice', [
			`-env:UserInstallation=${pathToFileURL(join(place, 'profile')).href}`,
			'--headless',
			...(filter === null ? [] : [`--infilter=${filter}`]),
			'--convert-to',
			to,
			'--outdir',
			out,
			file
		]);
		const ending = to.slice(0, to.includes(':') ? to.indexOf(':') : undefined);
		return await readFile(join(out, name.replace(/\w+$/u, ending)), 'utf8');
	} finally {
		await rm(place, { recursive: true, force: true });
	}
}

interface Copied {
	readonly name: string;
	readonly content: string;
	readonly filter: string;
}

/** The cells LibreOffice makes of a file, told apart by kind, read from the XML of its own format. */
async function sheetOf({ name, content, filter }: Copied): Promise<SheetCell[][]> {
	const xml = (await convert(name, content, filter, 'fods')).replaceAll('<text:tab/>', '\t');
	const page = parseHTML(
		`<html><body>${xml.slice(xml.indexOf('<office:spreadsheet'))}</body></html>`
	).document;
	const [table] = page.getElementsByTagName('table:table');
	return [...(table?.getElementsByTagName('table:table-row') ?? [])]
		.map((row) => withoutEnd([...row.getElementsByTagName('table:table-cell')].flatMap(cellsOf)))
		.filter((line) => line.length > 0);
}

function cellsOf(cell: Element): SheetCell[] {
	const kind = cell.getAttribute('office:value-type');
	const lines = [...cell.getElementsByTagName('text:p')].map((line) =>
		line.textContent.replace(/\n\s*/gu, '')
	);
	const value = kind === 'string' ? lines.join('\n') : Number(cell.getAttribute('office:value'));
	const repeated = Number(cell.getAttribute('table:number-columns-repeated') ?? 1);
	if (kind === null) return Array.from({ length: Math.min(repeated, 20) }, () => '');
	if (kind !== 'string' && kind !== 'float') throw new Error(`a cell is a ${kind}: ${lines.join(' ')}`);
	if (cell.hasAttribute('table:formula')) throw new Error(`a cell is a formula: ${lines.join(' ')}`);
	return Array.from({ length: repeated }, () => value);
}
