/** Schedules against the readings written for them before the reader (`fixtures/schedules`). */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import {
	readSchedule,
	scheduleProblems,
	scheduleRows,
	unansweredQuestions,
	type ScheduleMapping,
	type SchedulePreview
} from '../../src/lib/exchange/schedule.ts';
import type { Sheet } from '../../src/lib/exchange/sheet.ts';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { inputs, type Cell, type Cells, type Measures } from '../../src/lib/takeoff/inputs.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';
import { needs, recalculate } from '../recalculate.ts';
import { saveAgain } from './save-again.ts';

const sizes = z.record(z.string(), z.number()).optional();
const expectedSchema = z.object({
	measures: z.enum(['imperial', 'metric']),
	sheet: z.string().optional(),
	headerRow: z.number().optional(),
	fields: z.record(z.string(), z.string().nullable()).optional(),
	rows: z
		.array(
			z.object({
				line: z.number(),
				cells: z.record(z.string(), z.string()),
				problems: z.array(z.object({ column: z.string(), field: z.string(), text: z.string() })).optional(),
				notes: z.boolean().optional(),
				inches: sizes,
				millimetres: sizes
			})
		)
		.optional(),
	skipped: z.array(z.object({ line: z.number(), why: z.string() })).optional(),
	ragged: z.array(z.number()).optional(),
	mustAnswer: z.array(z.string()).optional(),
	asks: z.array(z.string()).optional(),
	questionLines: z.array(z.number()).optional(),
	message: z.string().optional()
});

async function sheetsOf(name: string, bytes: Uint8Array): Promise<readonly Sheet[]> {
	const reading = await readTableFile(name, bytes);
	if (!reading.ok) throw new Error(reading.message);
	return reading.sheets;
}

const preview = (sheets: readonly Sheet[], measures: Measures, mapping?: ScheduleMapping): SchedulePreview =>
	readSchedule(sheets, { measures, keysFor: (input) => keysFor(demoTechnicalBook, input), mapping });

/** A cell as it was typed. */
const typed = (cell: Cell | undefined): string =>
	typeof cell === 'object' && cell !== null ? cell.typed : String(cell ?? '');

const typedCells = (cells: Cells): Record<string, string> =>
	Object.fromEntries(Object.entries(cells).map(([field, cell]) => [field, typed(cell)]));

/** A stored length in another unit: 1 in = 25 400 000 nm, 1 mm = 1 000 000 nm. */
const lengthIn = (cell: Cell | undefined, nm: number): number | null =>
	typeof cell === 'object' && cell !== null ? cell.amount / nm : null;

const folder = 'fixtures/schedules';
const withReading = [folder, join(folder, 'small')].flatMap((path) =>
	readdirSync(path)
		.filter((name) => name.endsWith('.expected.json'))
		.map((name) => {
			const file = name.replace('.expected.json', '');
			const data = readdirSync(path).find(
				(other) => other === file || other.replace(/\.(?:xlsx|csv)$/u, '') === file
			);
			return { file: join(path, data ?? file), reading: join(path, name) };
		})
);

describe('schedules with their expected readings', () => {
	test('there are enough of them', () => {
		expect(withReading.length).toBeGreaterThanOrEqual(35);
	});

	for (const { file, reading } of withReading) {
		test(file, async () => {
			const expected = expectedSchema.parse(JSON.parse(readFileSync(reading, 'utf8')));
			const name = file.split('/').at(-1) ?? file;
			const table = await readTableFile(name, readFileSync(file));
			if (expected.message !== undefined) {
				const message = table.ok
					? preview(table.sheets, expected.measures)
							.problems.map(({ place, reason }) => `${place}: ${reason}`)
							.join('\n')
					: table.message;
				expect(message).toContain(expected.message);
				expect(message).toContain(name);
				return;
			}
			if (!table.ok) throw new Error(table.message);
			const read = preview(table.sheets, expected.measures);
			expect(read.problems).toEqual([]);
			if (expected.sheet !== undefined) expect(read.sheet).toBe(expected.sheet);
			expect(read.headerRow).toBe(expected.headerRow);
			if (expected.fields)
				expect(Object.fromEntries(read.columns.map(({ letter, field }) => [letter, field]))).toEqual(
					expected.fields
				);

			const openings = read.rows.filter((row) => row.status === 'opening');
			expect(openings.map((row) => row.line)).toEqual(expected.rows?.map((row) => row.line));
			for (const row of expected.rows ?? []) {
				const found = openings.find(({ line }) => line === row.line);
				if (!found) throw new Error(`no row ${row.line}`);
				expect(typedCells(found.cells), `row ${row.line}`).toEqual(row.cells);
				expect(
					found.problems.map(({ column, field, text }) => ({ column, field, text })),
					`row ${row.line}`
				).toEqual(row.problems ?? []);
				for (const problem of found.problems) {
					expect(problem.place).toContain(String(row.line));
					expect(problem.reason.length).toBeGreaterThan(10);
				}
				if (row.notes === true) expect(found.notes.length).toBeGreaterThan(0);
				for (const [unit, nm] of [
					['inches', 25_400_000],
					['millimetres', 1_000_000]
				] as const)
					for (const [field, value] of Object.entries(row[unit] ?? {}))
						expect(lengthIn(found.cells[field as keyof Cells], nm), `row ${row.line} ${field}`).toBe(value);
			}
			const skipped = read.rows.filter((row) => row.status === 'skipped');
			for (const { line, why } of expected.skipped ?? [])
				expect(skipped.find((row) => row.line === line)?.why, `row ${line}`).toContain(why);
			for (const line of expected.ragged ?? [])
				expect(skipped.find((row) => row.line === line)?.problems).toHaveLength(1);
			const open = unansweredQuestions(read);
			expect(open.map(({ id }) => id)).toEqual(expected.mustAnswer ?? []);
			if (expected.questionLines) expect(open[0]?.lines).toEqual(expected.questionLines);
			for (const id of expected.asks ?? [])
				expect(read.questions.map((question) => question.id)).toContain(id);
			// What goes in is what the preview shows, or nothing.
			expect(scheduleRows(read).map(({ line }) => line)).toEqual(
				open.length > 0 ? [] : openings.map(({ line }) => line)
			);
		});
	}
});

/** A schedule as text, headings first; sizes in feet and inches unless told otherwise. */
async function fromText(
	text: string,
	options: { measures?: Measures; mapping?: ScheduleMapping } = {}
): Promise<SchedulePreview> {
	const sheets = await sheetsOf('list.csv', new TextEncoder().encode(text));
	return preview(sheets, options.measures ?? 'imperial', options.mapping);
}

const fieldsOf = (read: SchedulePreview): Record<string, string | null> =>
	Object.fromEntries(read.columns.map(({ heading, field }) => [heading, field]));

const openingsOf = (read: SchedulePreview) => read.rows.filter((row) => row.status === 'opening');

describe('headings', () => {
	test.each([
		['Door No.;Qty;W;H;Type', { 'Door No.': 'mark', W: 'openingWidth', H: 'openingHeight', Type: 'curtain' }],
		['Opening No.;Width;Height;Hand', { 'Opening No.': 'mark', Hand: 'driveSide' }],
		[
			'Mark;Clear Width;Clear Height;L.H. Jamb;R.H. Jamb',
			{ 'L.H. Jamb': 'leftSubstrate', 'R.H. Jamb': 'rightSubstrate' }
		],
		[
			'TAG;NO. OF OPENINGS;OPNG WIDTH;OPNG HT',
			{ TAG: 'mark', 'NO. OF OPENINGS': 'quantity', 'OPNG HT': 'openingHeight' }
		],
		['mark;openingWidth;openingHeight;finishBuildUp', { finishBuildUp: 'finishBuildUp' }],
		[
			'Mark;Width;Height;f′m;Left wall thickness;R.H. Wall Thk;Cracked/Uncracked;Wall finish',
			{
				'f′m': 'leftWallStrength',
				'Left wall thickness': 'leftWallThickness',
				'R.H. Wall Thk': 'rightWallThickness',
				'Cracked/Uncracked': 'wallCondition',
				'Wall finish': 'finishBuildUp'
			}
		],
		[
			"Mark;Width;Height;Left jamb f'c;Right jamb f'c;Windlock load",
			{
				"Left jamb f'c": 'leftWallStrength',
				"Right jamb f'c": 'rightWallStrength',
				'Windlock load': 'windlockPull'
			}
		],
		[
			'Mark;Frame Width;Glass Height;Width;Height',
			{ 'Frame Width': null, 'Glass Height': null, Width: 'openingWidth' }
		],
		[
			'Mark;Width;Height;R.O. Width;R.O. Height',
			{ 'R.O. Width': null, Width: 'openingWidth', 'R.O. Height': null }
		]
	])('%s', async (headings, expected) => {
		const values = headings
			.split(';')
			.map((heading) => ({ Type: 'counter slat', Hand: 'LH', W: "10'-0", H: "4'-0" })[heading] ?? '101');
		const read = await fromText(`Dimensions in feet and inches;\n${headings}\n${values.join(';')}\n`);
		expect(fieldsOf(read)).toMatchObject(expected);
	});

	test('a unit in the heading is that of figures without one, unless it is the job’s own', async () => {
		const text = 'Mark;Width;Height;Wall strength (UNIT);Windlock pull, PULL\nC-1;3000;1200;20;2\n';
		const typedIn = async (unit: string, pull: string) => {
			const file = text.replace('UNIT', unit).replace('PULL', pull);
			const [row] = openingsOf(await fromText(file, { measures: 'metric' }));
			return [typed(row?.cells.leftWallStrength), typed(row?.cells.windlockPull)];
		};
		expect(await typedIn('N/mm²', 'kN/m')).toEqual(['20', '2']);
		expect(await typedIn('ksi', 'kg/m')).toEqual(['20 ksi', '2 kg/m']);
		expect(await typedIn('MPa', 'plf')).toEqual(['20', '2 lb/ft']);
	});

	test('every input is known by its own title and id', async () => {
		for (const heading of [(input: { title: string }) => input.title, (input: { id: string }) => input.id]) {
			const read = await fromText(`${inputs.map(heading).join(';')}\nC-1${';'.repeat(inputs.length - 1)}\n`);
			expect(read.columns.map(({ field }) => field)).toEqual(inputs.map(({ id }) => id));
		}
	});

	test('one column for the walls counts for both sides, unless each has its own', async () => {
		const both = await fromText('Dims in inches\nMark,Width,Height,Jamb\nC-1,120,48,concrete\n');
		expect(both.columns[3]).toMatchObject({ field: 'leftSubstrate', also: 'rightSubstrate' });
		expect(openingsOf(both)[0]?.cells).toMatchObject({
			leftSubstrate: 'concrete',
			rightSubstrate: 'concrete'
		});
		const own = await fromText('Dims in inches\nMark,Width,Height,Jamb L,Jamb R\nC-1,120,48,concrete,wood\n');
		expect(openingsOf(own)[0]?.cells).toMatchObject({ leftSubstrate: 'concrete', rightSubstrate: 'wood' });
	});

	test('merged headings over two columns give theirs a meaning', () => {
		const sheet: Sheet = {
			name: 'Doors',
			rowWord: 'row',
			hidden: false,
			merges: [
				{ top: 1, left: 1, bottom: 1, right: 2 },
				{ top: 1, left: 3, bottom: 1, right: 4 },
				{ top: 1, left: 5, bottom: 1, right: 6 }
			],
			rows: [
				{ line: 1, cells: ['', 'ROUGH OPENING', '', 'OPENING', '', 'HOOD', ''], hidden: false },
				{ line: 2, cells: ['Mark', 'Width', 'Height', 'Width', 'Height', 'Type', 'Height'], hidden: false },
				{ line: 3, cells: ['C-1', `10'-2"`, `4'-1"`, `10'-0"`, `4'-0"`, 'steel-24ga', '12"'], hidden: false }
			]
		};
		const read = preview([sheet], 'imperial');
		expect(read.columns.map(({ field }) => field)).toEqual([
			'mark',
			null,
			null,
			'openingWidth',
			'openingHeight',
			'hood',
			null
		]);
		expect(typed(openingsOf(read)[0]?.cells.openingWidth)).toBe(`10'-0"`);
	});

	test('units may stand in the heading, or in a row of their own', async () => {
		const headed = await fromText('Mark,Width (mm),Height (ft),Feed (m)\nC-1,3050,4,18\n');
		const own = await fromText('Mark,Width,Height,Feed\n,mm,ft,m\nC-1,3050,4,18\n');
		for (const read of [headed, own]) {
			const { openingWidth, openingHeight, feedLength } = openingsOf(read)[0]?.cells ?? {};
			expect([openingWidth, openingHeight, feedLength].map((cell) => lengthIn(cell, 1_000_000))).toEqual([
				3050, 1219.2, 18_000
			]);
			expect(read.questions).toEqual([]);
		}
	});
});

describe('what a person decides', () => {
	const plain = 'Mark,Width,Height,Hand\n';

	test('columns, sheet and heading row', async () => {
		const text = 'Dims in inches\nA,B,C,D\nC-1,120,48,left\n';
		expect((await fromText(text)).problems[0]?.reason).toContain('no heading row');
		const read = await fromText(text, {
			mapping: {
				headerRow: 2,
				columns: { '0': 'mark', '1': 'openingWidth', '2': 'openingHeight', '3': 'driveSide' }
			}
		});
		expect(typedCells(openingsOf(read)[0]?.cells ?? {})).toEqual({
			mark: 'C-1',
			quantity: '1',
			openingWidth: '120',
			openingHeight: '48',
			driveSide: 'left'
		});
		const swapped = await fromText(`Dims in inches\n${plain}C-1,48,120,left\n`, {
			mapping: { columns: { '2': 'openingWidth', '1': 'openingHeight', '3': null } }
		});
		expect(typedCells(openingsOf(swapped)[0]?.cells ?? {})).toEqual({
			mark: 'C-1',
			quantity: '1',
			openingWidth: '120',
			openingHeight: '48'
		});
		const [sheet] = await sheetsOf(
			'list.csv',
			new TextEncoder().encode(`Dims in inches\n${plain}C-1,120,48,left\n`)
		);
		if (!sheet) throw new Error('no sheet');
		const other = {
			...sheet,
			name: 'Other',
			rows: [...sheet.rows, { line: 4, cells: ['C-2', '96', '48'], hidden: false }]
		};
		expect(preview([sheet, other], 'imperial').sheet).toBe('Other');
		expect(preview([sheet, other], 'imperial', { sheet: 'list.csv' }).sheet).toBe('list.csv');
	});

	test('the unit of bare figures: asked, and then as answered', async () => {
		const text = `${plain}C-1,3050,1220,left\n`;
		const asked = await fromText(text);
		expect(unansweredQuestions(asked).map(({ id }) => id)).toEqual(['unit']);
		expect(scheduleRows(asked)).toEqual([]);
		const answered = await fromText(text, { mapping: { answers: { unit: 'mm' } } });
		expect(unansweredQuestions(answered)).toEqual([]);
		const [row] = scheduleRows(answered);
		expect(
			[row?.cells.openingWidth, row?.cells.openingHeight].map((cell) => lengthIn(cell, 1_000_000))
		).toEqual([3050, 1220]);
	});

	test('notes that contradict each other are asked about', async () => {
		const read = await fromText(`All dimensions in mm\nSizes in inches\n${plain}C-1,3050,1220,left\n`);
		expect(unansweredQuestions(read)[0]?.text).toMatch(/mm.*line 1.*inches.*line 2/u);
	});

	test('rough sizes', async () => {
		const text = 'Dims in inches\nMark,RO Width,RO Height\nC-1,122,49\n';
		expect(unansweredQuestions(await fromText(text)).map(({ id }) => id)).toEqual(['rough']);
		const used = await fromText(text, { mapping: { answers: { rough: 'finished' } } });
		expect(typed(scheduleRows(used)[0]?.cells.openingWidth)).toBe('122');
		const left = await fromText(text, { mapping: { answers: { rough: 'leave' } } });
		expect(scheduleRows(left).map(({ cells }) => typedCells(cells))).toEqual([
			{ mark: 'C-1', quantity: '1' }
		]);
	});

	test('the same mark twice: a revision, or an error to be put right in the grid', async () => {
		const text = `Dims in inches\n${plain}C-1,120,48,left\nC-1,126,48,left\n`;
		const lines = async (answer: string) =>
			scheduleRows(await fromText(text, { mapping: { answers: { 'duplicate:C-1': answer } } })).map(
				({ line }) => line
			);
		expect(await lines('revision')).toEqual([4]);
		expect(await lines('error')).toEqual([3, 4]);
		expect(await lines('whatever')).toEqual([]);
	});

	test('from which side left and right are seen', async () => {
		const rows = 'C-1,120,48,left\nC-2,96,48,right\n';
		const silent = await fromText(`Dims in inches\n${plain}${rows}`);
		expect(silent.questions.map(({ id, answer }) => [id, answer])).toEqual([['viewpoint', 'coilSide']]);
		expect(openingsOf(silent).map(({ cells }) => cells.drawnFrom)).toEqual([undefined, undefined]);
		const far = await fromText(`Dims in inches\n${plain}${rows}`, {
			mapping: { answers: { viewpoint: 'farSide' } }
		});
		expect(openingsOf(far).map(({ cells }) => cells.drawnFrom)).toEqual(['farSide', 'farSide']);
		const noted = await fromText(`Dims in inches\nHand is seen from the far side\n${plain}${rows}`);
		expect(noted.questions).toEqual([]);
		expect(openingsOf(noted).map(({ cells }) => cells.drawnFrom)).toEqual(['farSide', 'farSide']);
	});
});

describe('rows', () => {
	test('an opening of its own needs its mark and a number the mark has', async () => {
		const read = await fromText(
			"Mark,Opening no.,Qty,Width,Height\nC-1,,2,10'-0,4'-0\nC-1,2,,10'-0,\nC-1,3,,9'-0,\nC-9,1,,9'-0,\n"
		);
		expect(read.rows.map(({ problems }) => problems.map(({ reason }) => reason).join())).toEqual([
			'',
			'',
			'opening 3 of C-1, but there are 2 of it; change the number or the quantity',
			'opening 1 of C-9, but there is no row for the mark; add one'
		]);
	});

	test('a size without a mark is an opening with a problem; words that mean several things are told apart', async () => {
		const read = await fromText("Mark,Width,Height,Left wall,Operation\n,10'-0,4'-0,CMU,manual\n");
		expect(openingsOf(read)[0]?.problems.map(({ field, reason }) => `${String(field)}: ${reason}`)).toEqual([
			'leftSubstrate: “CMU”: grouted or hollow? Write grouted block or hollow block',
			'operation: “manual”: by what? Write push up, crank or chain',
			'mark: no mark; write one'
		]);
	});

	test('a computed figure finer than a nanometre is rounded, and that is said', async () => {
		// 3000 mm / 25.4 = 118.110236220472 in; the fifth decimal is 0.13 µm.
		const read = await fromText('Dims in inches\nMark,Width,Height\nC-1,118.110236220472,48\n');
		const [row] = openingsOf(read);
		expect(typed(row?.cells.openingWidth)).toBe('118.11024');
		expect(row?.notes.join()).toContain('118.110236220472 rounded to 118.11024');
	});

	test('everything that is wrong is listed with its place', async () => {
		const read = await fromText("Mark,Qty,Width,Height\nC-1,some,10',4'-0\nC-2,1,0,4'-0\nC-2,1,wide,4'-0\n");
		expect(scheduleProblems(read).map(({ place }) => place)).toEqual([
			'list.csv, 3 and 4',
			'list.csv, line 2, B “Qty”',
			'list.csv, line 3, C “Width”',
			'list.csv, line 4, C “Width”'
		]);
	});
});

describe.skipIf(needs('libreoffice'))('beside LibreOffice', () => {
	const files = [
		'schedules/saltmarsh-pier.xlsx',
		'schedules/small/formula-cells.xlsx',
		'deliveries/saltmarsh-truck-1.xlsx'
	];

	test('every cell is read as LibreOffice reads it', async () => {
		const read = await recalculate(files.map((name) => ({ name, bytes: readFileSync(`fixtures/${name}`) })));
		for (const name of files) {
			let compared = 0;
			for (const sheet of await sheetsOf(name, readFileSync(`fixtures/${name}`))) {
				const theirs = read.get(name)?.get(sheet.name) ?? [];
				for (const { line, cells } of sheet.rows)
					for (const [index, cell] of cells.entries()) {
						// Dates are written there in the manner of the country.
						if (typeof cell !== 'string') continue;
						compared++;
						expect(cell, `${name}, ${sheet.name}, row ${line}, column ${index}`).toBe(
							theirs[line - 1]?.[index] ?? ''
						);
					}
			}
			expect(compared).toBeGreaterThan(20);
		}
	});

	test('saved again by LibreOffice, a file reads the same', async () => {
		for (const name of files) {
			const bytes = readFileSync(`fixtures/${name}`);
			const saved = await saveAgain(bytes);
			expect(saved.equals(bytes)).toBe(false);
			const [before, after] = [await sheetsOf(name, bytes), await sheetsOf(name, saved)];
			expect(after.map((sheet) => [sheet.name, sheet.rows])).toEqual(
				before.map((sheet) => [sheet.name, sheet.rows])
			);
		}
	});
});
