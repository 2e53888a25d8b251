/** The grid out as a file and in again: 500 random jobs come back to the cell, also after LibreOffice saved the file. */
import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
	readWrittenSchedule,
	scheduleText,
	type ScheduleFile
} from '../../src/lib/exchange/schedule-file.ts';
import { readSchedule, type SchedulePreview } from '../../src/lib/exchange/schedule.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { writeScheduleWorkbook } from '../../src/lib/exchange/workbook/write-schedule.ts';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { readCell } from '../../src/lib/takeoff/cell.ts';
import { buildEngine } from '../../src/lib/takeoff/engine.ts';
import {
	inputs,
	type Cell,
	type Cells,
	type InputDefinition,
	type Measures
} from '../../src/lib/takeoff/inputs.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';
import { needs } from '../recalculate.ts';
import { saveAgain } from './save-again.ts';

const built = buildEngine(demoTechnicalBook);
if (!built.ok) throw new Error('the demo book has a problem');
const { engine } = built;
const keys = (input: InputDefinition) => keysFor(demoTechnicalBook, input);

/** Texts that spreadsheets like to turn into something else, and any other. */
const anyText = fc.oneof(
	fc.string({ unit: 'grapheme', maxLength: 24 }),
	fc.constantFrom(
		'10-4',
		'1/2',
		'0101',
		'1e5',
		'1.0',
		'007',
		'3.5%',
		'TRUE',
		'Oct 4',
		'4-Oct',
		'10:30',
		'=1+1',
		'+7',
		'-3',
		'@x',
		`'quoted`,
		`''10`,
		`'=x`,
		'a,b',
		'a;b',
		'tab\there',
		'two\nlines',
		'"',
		'12"',
		'﻿bom',
		'#REF!',
		'Market 3',
		'March 3',
		' 5 ',
		'1,234',
		'_x0041_',
		'<b>',
		'&amp;',
		'💡'
	)
);
const figure = fc.integer({ min: 1, max: 9999 });
const typedLength = fc.oneof(
	figure.map(String),
	fc
		.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 0, max: 11 }))
		.map(([ft, inch]) => `${ft}-${inch}`),
	fc
		.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 0, max: 11 }), fc.integer({ min: 1, max: 15 }))
		.map(([ft, inch, sixteenths]) => `${ft}'-${inch} ${sixteenths}/16"`),
	figure.map((n) => `${n} mm`),
	figure.map((n) => `${n}.50"`),
	figure.map((n) => `${(n / 1000).toFixed(3)} m`),
	figure.map((n) => `${n}.0`)
);

function cellsOf(input: InputDefinition): fc.Arbitrary<string> {
	switch (input.kind) {
		case 'text':
			return anyText;
		case 'count':
			return fc.integer({ min: 1, max: 40 }).map(String);
		case 'length':
			return typedLength;
		case 'key':
			return fc.constantFrom(...(input.options ?? keys(input)));
		case 'voltage':
			return fc.constantFrom('120', '208 V', '230', '480V');
		default:
			return fc.oneof(
				figure.map((n) => String(n % 200)),
				fc.constantFrom('20 psf', '1.5 kPa', '3000 psi', '21 MPa', '40 lb/ft', '0.6 kN/m', '30.0')
			);
	}
}

interface Job {
	readonly measures: Measures;
	readonly rows: readonly Cells[];
}

const anyRow = fc.record(
	Object.fromEntries(inputs.map((input) => [input.id, fc.option(cellsOf(input), { freq: 2 })]))
);
const anyJob: fc.Arbitrary<Job> = fc
	.record({
		measures: fc.constantFrom<Measures>('imperial', 'metric'),
		rows: fc.array(anyRow, { maxLength: 8 })
	})
	.map(({ measures, rows }) => ({
		measures,
		// Now and then a row that is altogether blank.
		rows: rows.map((texts, at): Cells =>
			at % 5 === 4
				? {}
				: Object.fromEntries(
						inputs.flatMap((input): [string, Cell][] => {
							const text = texts[input.id];
							if (typeof text !== 'string') return [];
							const read = readCell(input, text, { measures, keys: keys(input) });
							return read.ok && read.cell !== null ? [[input.id, read.cell]] : [];
						})
					)
		)
	}));

const jobs: readonly Job[] = fc.sample(anyJob, { numRuns: 500, seed: 4 });
const fileOf = (
	{ measures, rows }: Job,
	at: number,
	columns: readonly string[] = ['mark', 'curtainWidth', 'quantity', 'barrel', 'wound']
): ScheduleFile => ({
	name: `Saltmarsh ${at}`,
	measures,
	engine,
	openings: engine.takeoff(
		rows.map((cells, row) => ({ id: `r${row}`, cells })),
		measures
	).openings,
	columns
});

const options = (measures: Measures, sheet?: string) => ({
	measures,
	keysFor: keys,
	mapping: sheet === undefined ? undefined : { sheet }
});
const cellsBack = (preview: SchedulePreview | null): readonly Cells[] => {
	expect(preview?.rows.flatMap(({ problems }) => problems)).toEqual([]);
	return preview?.rows.map(({ cells }) => cells) ?? [];
};
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

async function sheetsOf(name: string, bytes: Uint8Array) {
	const reading = await readTableFile(name, bytes);
	if (!reading.ok) throw new Error(reading.message);
	return reading.sheets;
}

/** Twenty schedules in one workbook, so that it is opened twenty-five times and not five hundred. */
const perBook = 20;
const books = Array.from(
	{ length: jobs.length / perBook },
	(_, book) =>
		new Map(jobs.slice(book * perBook, (book + 1) * perBook).map((job, i) => [`S${i}`, job] as const))
);
const bookBytes = (book: ReadonlyMap<string, Job>): Promise<Uint8Array> =>
	writeScheduleWorkbook(
		new Map([...book].map(([name, job], at) => [name, fileOf(job, at)] as const)),
		new Date('2026-03-02T08:30:00Z')
	);

async function expectBook(book: ReadonlyMap<string, Job>, bytes: Uint8Array): Promise<void> {
	const sheets = await sheetsOf('schedule.xlsx', bytes);
	for (const [name, job] of book)
		expect(cellsBack(readSchedule(sheets, options(job.measures, name)))).toEqual(job.rows);
}

describe('500 random jobs come back the same, row by row and cell by cell', () => {
	it('as delimited text', async () => {
		for (const [at, job] of jobs.entries()) {
			const sheets = await sheetsOf('schedule.csv', bytesOf(scheduleText(fileOf(job, at))));
			expect(cellsBack(readSchedule(sheets, options(job.measures)))).toEqual(job.rows);
		}
	});

	it('as a workbook', async () => {
		for (const book of books) await expectBook(book, await bookBytes(book));
	});

	it('with measures of their own, whatever those of the job they are brought into', async () => {
		for (const [at, job] of jobs.slice(0, 50).entries()) {
			const sheets = await sheetsOf('schedule.csv', bytesOf(scheduleText(fileOf(job, at))));
			const other = job.measures === 'metric' ? 'imperial' : 'metric';
			expect(cellsBack(readWrittenSchedule(sheets, options(other)))).toEqual(job.rows);
		}
	});
});

describe.skipIf(needs('libreoffice'))('opened and saved again by LibreOffice', () => {
	const again = new Map<number, Uint8Array>();
	const texts = new Map<number, string>();
	beforeAll(async () => {
		for (const [at, book] of books.slice(0, 5).entries())
			again.set(at, await saveAgain(await bookBytes(book)));
		const folder = mkdtempSync(join(tmpdir(), 'coilwright-schedule-'));
		try {
			const some = jobs.slice(0, 40);
			some.forEach((job, at) => writeFileSync(join(folder, `s${at}.csv`), scheduleText(fileOf(job, at))));
			// Comma, double quote, UTF-8; in and out as a person gets them who changes nothing.
			await promisify(execFile)('soffice', [
				`-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`,
				'--headless',
				'--infilter=CSV:44,34,76,1,,0,false,false',
				'--convert-to',
				'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true',
				'--outdir',
				join(folder, 'out'),
				...some.map((_, at) => join(folder, `s${at}.csv`))
			]);
			some.forEach((_, at) => texts.set(at, readFileSync(join(folder, 'out', `s${at}.csv`), 'utf8')));
		} finally {
			rmSync(folder, { recursive: true, force: true });
		}
	}, 240_000);

	it('a workbook reads back the same', async () => {
		expect(again.size).toBe(5);
		for (const [at, bytes] of again) await expectBook(books[at] ?? new Map<string, Job>(), bytes);
	});

	it('delimited text reads back the same', async () => {
		expect(texts.size).toBe(40);
		for (const [at, text] of texts) {
			const job = jobs[at];
			const sheets = await sheetsOf('schedule.csv', bytesOf(text));
			expect(cellsBack(readSchedule(sheets, options(job?.measures ?? 'imperial')))).toEqual(job?.rows);
		}
	});
});

describe('sizes in a file', () => {
	const written = (width: Cell, measures: Measures): string => {
		const lines = scheduleText(
			fileOf({ measures, rows: [{ mark: 'C-1', openingWidth: width }] }, 1, ['openingWidth'])
		);
		return lines.split('\r\n')[3] ?? '';
	};

	it('stand with their unit where they were typed in that of another job', () => {
		// 3048 in a metric job: 3 048 000 000 nm, and not 3048 in.
		const metric: Cell = { amount: 3_048_000_000, unit: 'nm', typed: '3048' };
		expect(written(metric, 'metric')).toBe('1,3048,C-1');
		expect(written(metric, 'imperial')).toMatch(/^1,(?!'?3048,).+,C-1$/u);
	});

	it('stay as they were typed, with zeros in front', async () => {
		const job: Job = {
			measures: 'imperial',
			rows: [{ mark: 'C-1', openingWidth: { amount: 120 * 25_400_000, unit: 'nm', typed: '0120' } }]
		};
		const sheets = await sheetsOf('schedule.csv', bytesOf(scheduleText(fileOf(job, 1))));
		expect(cellsBack(readSchedule(sheets, options('imperial')))).toEqual(job.rows);
		const book = await writeScheduleWorkbook(
			new Map([['S', fileOf(job, 1)]]),
			new Date('2026-03-02T08:30:00Z')
		);
		expect(cellsBack(readSchedule(await sheetsOf('schedule.xlsx', book), options('imperial')))).toEqual(
			job.rows
		);
	});
});

describe('a file that was changed meanwhile', () => {
	const job: Job = {
		measures: 'imperial',
		rows: [
			{ mark: 'C-1', quantity: 2 },
			{ mark: 'C-2', quantity: 1 }
		]
	};
	const text = scheduleText(fileOf(job, 1, ['mark', 'quantity']));
	const read = async (changed: string): Promise<SchedulePreview> =>
		readSchedule(await sheetsOf('schedule.csv', bytesOf(changed)), options('imperial'));

	it('is read by the ids of its columns, in whatever order they stand', async () => {
		const [first, , , ...rows] = text.split('\r\n');
		const turned = [
			first,
			'How many,Row,Name',
			'quantity,row,mark',
			...rows.slice(0, 2).map((row) => {
				const [n, mark, quantity] = row.split(',');
				return [quantity, n, mark].join(',');
			}),
			'3,,C-9',
			''
		].join('\r\n');
		expect(cellsBack(await read(turned))).toEqual([...job.rows, { mark: 'C-9', quantity: 3 }]);
	});

	it('names the cell that cannot be read, and keeps the others', async () => {
		const preview = await read(text.replace('C-1,2', 'C-1,two'));
		expect(preview.rows[0]?.cells).toEqual({ mark: 'C-1' });
		expect(preview.rows[0]?.problems).toMatchObject([
			{ field: 'quantity', text: 'two', place: 'schedule.csv, line 4, C “Quantity”' }
		]);
	});

	it('keeps an apostrophe that a person typed before a word', async () => {
		const preview = await read(text.replace('C-1,2', `'n-1,2`).replace('C-2,1', `'10-4,1`));
		// The second one is there so that no spreadsheet makes a date of it.
		expect(cellsBack(preview).map(({ mark }) => mark)).toEqual([`'n-1`, '10-4']);
	});

	it('is a schedule like any other when its ids are gone', async () => {
		expect(
			readWrittenSchedule(
				await sheetsOf('schedule.csv', bytesOf(text.replace('row,mark,quantity\r\n', ''))),
				options('imperial')
			)
		).toBeNull();
	});
});
