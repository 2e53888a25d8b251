/**
 * Schedules as they really arrive: one thing at a time. What people write is common practice, no source; the readings
 * are reckoned by hand (1 ft = 12 in).
 */
import Excel from 'exceljs';
import { describe, expect, test } from 'vitest';
import {
	readSchedule,
	scheduleProblems,
	scheduleRows,
	unansweredQuestions,
	type ScheduleMapping,
	type SchedulePreview
} from '../../src/lib/exchange/schedule.ts';
import type { Merge, Sheet, SheetRow } from '../../src/lib/exchange/sheet.ts';
import { readWorkbook } from '../../src/lib/exchange/workbook/read-workbook.ts';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import type { Cell, Measures } from '../../src/lib/takeoff/inputs.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';

type Told = Partial<Omit<SheetRow, 'line' | 'cells'>>;

/** A sheet of rows of text, cells apart by bars; blank rows are left away but counted. */
function sheetOf(
	text: string,
	{ merges = [], told = {} }: { merges?: Merge[]; told?: Record<number, Told> } = {}
): Sheet {
	const rows = text
		.split('\n')
		.map((line, at): SheetRow => ({
			line: at + 1,
			cells: line.split('|').map((cell) => cell.trim()),
			hidden: false,
			...told[at + 1]
		}))
		.filter(({ cells }) => cells.some((cell) => cell !== ''));
	return { name: 'Schedule', rowWord: 'row', rows, merges, hidden: false };
}

function read(
	sheet: Sheet | string,
	answers: ScheduleMapping['answers'] = {},
	measures: Measures = 'imperial'
): SchedulePreview {
	return readSchedule([typeof sheet === 'string' ? sheetOf(sheet) : sheet], {
		measures,
		keysFor: (input) => keysFor(demoTechnicalBook, input),
		mapping: { answers }
	});
}

const inches = (cell: Cell | undefined): number | null =>
	typeof cell === 'object' && cell !== null ? cell.amount / 25_400_000 : null;
const millimetres = (cell: Cell | undefined): number | null =>
	typeof cell === 'object' && cell !== null ? cell.amount / 1_000_000 : null;

const openings = (preview: SchedulePreview) => preview.rows.filter(({ status }) => status === 'opening');
/** Mark, quantity, width and height in inches. */
const table = (preview: SchedulePreview) =>
	openings(preview).map(({ cells }) => [
		cells.mark,
		cells.quantity ?? null,
		inches(cells.openingWidth),
		inches(cells.openingHeight)
	]);
const leftOut = (preview: SchedulePreview) =>
	preview.rows.flatMap(({ line, reason }) => (reason === null ? [] : [[line, reason]]));
const asked = (preview: SchedulePreview) =>
	preview.questions.map(({ id, lines, choices, answer }) => ({
		id,
		lines,
		values: choices.map(({ value }) => value),
		answer
	}));
const column = (
	preview: SchedulePreview,
	field: 'curtain' | 'hood' | 'phase' | 'location' | 'note' | 'finish'
) => openings(preview).map(({ cells }) => cells[field] ?? null);

describe('headings', () => {
	const body = `C-101 | 2 | 10'-0" | 4'-0" | counter-slat\nC-102 | 1 | 8'-0" | 4'-0" | counter-slat`;
	const expected = [
		['C-101', 2, 120, 48],
		['C-102', 1, 96, 48]
	];

	test('two rows, the upper one merged over width and height and down over the others', () => {
		const sheet = sheetOf(
			`COUNTER SHUTTERS\n\nMark | Qty | OPENING | | Curtain\n | | Width | Height |\n${body}`,
			{
				merges: [
					{ top: 1, left: 0, bottom: 1, right: 4 },
					{ top: 3, left: 0, bottom: 4, right: 0 },
					{ top: 3, left: 1, bottom: 4, right: 1 },
					{ top: 3, left: 2, bottom: 3, right: 3 },
					{ top: 3, left: 4, bottom: 4, right: 4 }
				]
			}
		);
		const preview = read(sheet);
		expect(preview.headerRow).toBe(4);
		expect(preview.columns.map(({ field }) => field)).toEqual([
			'mark',
			'quantity',
			'openingWidth',
			'openingHeight',
			'curtain'
		]);
		expect(table(preview)).toEqual(expected);
		expect(preview.signature).toBe('mark|qty|opening/width|opening/height|curtain');
	});

	test('the same without merges, as delimited text has it, and units in a row below', () => {
		const preview = read(
			`Mark | Qty | OPENING | | Curtain\n | | Width | Height |\n | ea | ft-in | ft-in |\n${body}`
		);
		expect(preview.headerRow).toBe(2);
		expect(table(preview)).toEqual(expected);
		const metric = read(
			'Mark | Qty | OPENING | | Curtain\n | | Width | Height |\n | | mm | mm |\nC-1 | 1 | 3048 | 1219.2 | counter-slat'
		);
		expect(table(metric)).toEqual([['C-1', 1, 120, 48]]);
		expect(metric.questions).toEqual([]);
	});

	test('groups over groups, also with a blank row between', () => {
		const preview = read(
			`Mark | Qty | OPENING | | Curtain\n\n | | FINISHED | |\n | | Width | Height |\nC-1 | 1 | 10'-0" | 4'-0" | counter-slat`
		);
		expect(preview.signature).toBe('mark|qty|opening finished/width|opening finished/height|curtain');
		expect(table(preview)).toEqual([['C-1', 1, 120, 48]]);
	});

	test('the row of units chosen for the headings is their last row', () => {
		const sheet = sheetOf(`Ref | W1 | H1\n | (mm) | (mm)\nC-1 | 3048 | 1524`);
		const preview = readSchedule([sheet], {
			measures: 'imperial',
			keysFor: (input) => keysFor(demoTechnicalBook, input),
			mapping: { headerRow: 2, columns: { '0': 'mark', '1': 'openingWidth', '2': 'openingHeight' } }
		});
		expect(preview.headerRow).toBe(2);
		expect(preview.columns.map(({ heading }) => heading)).toEqual(['Ref', 'W1', 'H1']);
		// 3048 mm = 120 in, 1524 mm = 60 in.
		expect(table(preview)).toEqual([['C-1', 1, 120, 60]]);
	});

	test('a group of another thing keeps its width and height to itself', () => {
		const preview = read(
			`Mark | OPENING | | HOOD | \n | Width | Height | Type | Height\nC-1 | 10'-0" | 4'-0" | steel-24ga | 12"`
		);
		expect(preview.columns.map(({ field }) => field)).toEqual([
			'mark',
			'openingWidth',
			'openingHeight',
			'hood',
			null
		]);
	});

	test('a title over some of the columns is no group', () => {
		const sheet = sheetOf(
			`COUNTER SHUTTERS | | | | 4 March\nMark | Qty | Width | Height | Curtain\n${body}`,
			{
				merges: [{ top: 1, left: 0, bottom: 1, right: 3 }]
			}
		);
		expect(table(read(sheet))).toEqual(expected);
	});

	test('rough openings beside finished ones are left, and named where the finished one is blank', () => {
		const preview = read(
			`Mark | Qty | ROUGH OPENING | | FINISHED OPENING | \n | | W | H | W | H\nC-1 | 1 | 10'-2" | 4'-1" | 10'-0" | 4'-0"\nC-2 | 1 | 8'-2" | 4'-1" | | `
		);
		expect(table(preview)).toEqual([
			['C-1', 1, 120, 48],
			['C-2', 1, null, null]
		]);
		expect(column(preview, 'note')).toEqual([null, `W, rough opening: 8'-2"; H, rough opening: 4'-1"`]);
		const pairs = read(`Mark | R.O. | F.O. (W x H) | Qty\nC-1 | 10'-2" x 4'-1" | 10'-0" x 4'-0" | 1`);
		expect(table(pairs)).toEqual([['C-1', 1, 120, 48]]);
		expect(pairs.questions).toEqual([]);
		const beside = read(
			`Mark | Rough width | Rough height | F.O. (W x H) | Qty\nC-1 | 10'-2" | 4'-1" | 10'-0" x 4'-0" | 1`
		);
		expect(table(beside)).toEqual([['C-1', 1, 120, 48]]);
		expect(beside.questions).toEqual([]);
	});

	test('title block, revisions above, legend and signature below', () => {
		const preview = read(
			`SALTMARSH PIER MARKET HALL\nProject no. | 3107 | Date | 4 March\nRev | Date | Description\nB | 5 May | C-102 added, was 9'-0"\n\nMark | Qty | Width | Height | Curtain\n${body}\n\nLEGEND\nCS | counter slat | interior\nC-100 | see plan\n1. All grilles by one maker\nPrepared by: | N. N. | Date: | 1 May`
		);
		expect(table(preview)).toEqual(expected);
		expect(leftOut(preview)).toEqual([
			[10, 'remark'],
			[11, 'remark'],
			[12, 'remark'],
			[13, 'remark'],
			[14, 'remark']
		]);
	});

	test('a legend between the rows ends with the next opening', () => {
		const preview = read(
			`Mark | Qty | Width | Height | Curtain\nC-1 | 1 | 10'-0" | 4'-0" | counter-slat\nLEGEND\nC-100 | see plan\nC-2 | 1 | 9'-0" | 4'-0" | counter-slat\nC-3 | 2 | | | counter-slat`
		);
		expect(table(preview)).toEqual([
			['C-1', 1, 120, 48],
			['C-2', 1, 108, 48],
			['C-3', 2, null, null]
		]);
	});

	test('repeated on every page, with the rows of groups, the title and the page number', () => {
		const head = `Mark | Qty | OPENING | | Curtain\n | | Width | Height |`;
		const preview = read(
			`MARKET HALL\n${head}\nC-101 | 2 | 10'-0" | 4'-0" | counter-slat\nPage 1 of 2\nMARKET HALL\n${head}\nC-102 | 1 | 8'-0" | 4'-0" | counter-slat\nPage 2 of 2`
		);
		expect(table(preview)).toEqual(expected);
		expect(leftOut(preview)).toEqual([
			[5, 'remark'],
			[6, 'remark'],
			[7, 'headings'],
			[8, 'headings'],
			[10, 'remark']
		]);
	});

	test('the kind of file is told by its headings, whatever the rows and the sheet', () => {
		const [one, other] = [
			read(`Mark | Width (mm) | Height\nC-1 | 10'-0" | 4'-0"`),
			read(`Title\nMARK | Width  (MM) | Height\nC-9 | 12'-0" | 4'-0"\nC-8 | 1' | 1'`)
		];
		expect(one.signature).toBe(other.signature);
		expect(read(`Mark | Height | Width (mm)\nC-1 | 10'-0" | 4'-0"`).signature).not.toBe(one.signature);
	});
});

describe('more than one table', () => {
	const two = [
		'Mark | Qty | Width | Height',
		`G-1 | 2 | 10'-0" | 8'-0"`,
		'',
		'SHUTTERS',
		'Mark | Height | Width | Qty',
		`S-1 | 4'-0" | 6'-0" | 3`,
		`S-2 | 3'-6" | 12'-0" | 1`,
		'Mark | Qty | Width | Height',
		`G-2 | 1 | 11'-0" | 8'-6"`
	].join('\n');

	test('what stands under other headings is never read by these; its headings say so', () => {
		const preview = read(two);
		expect(table(preview)).toEqual([
			['G-1', 2, 120, 96],
			['G-2', 1, 132, 102]
		]);
		expect(leftOut(preview)).toEqual([
			[4, 'heading'],
			[5, 'otherTable'],
			[6, 'otherTable'],
			[7, 'otherTable'],
			[8, 'headings']
		]);
		expect(scheduleProblems(preview).map(({ place }) => place)).toEqual(['Schedule, row 5']);
		expect(preview.notes.some((note) => note.includes('Other headings stand in row 5'))).toBe(true);
	});

	test('and is read once its headings are chosen', () => {
		const preview = readSchedule([sheetOf(two)], {
			measures: 'imperial',
			keysFor: (input) => keysFor(demoTechnicalBook, input),
			mapping: { headerRow: 5 }
		});
		expect(table(preview)).toEqual([
			['S-1', 3, 72, 48],
			['S-2', 1, 144, 42]
		]);
		expect(leftOut(preview).slice(0, 3)).toEqual([
			[1, 'otherTable'],
			[2, 'otherTable'],
			[4, 'otherTable']
		]);
	});

	test('a smaller table above the one that is read is not passed over in silence', () => {
		const preview = read(
			`Mark | Width | Height\nG-1 | 10'-0" | 8'-0"\n\nMark | Height | Width | Qty | Curtain\nS-1 | 4'-0" | 6'-0" | 3 | counter-slat`
		);
		expect(table(preview)).toEqual([['S-1', 3, 72, 48]]);
		expect(leftOut(preview)).toEqual([
			[1, 'otherTable'],
			[2, 'otherTable']
		]);
		expect(scheduleProblems(preview).map(({ place }) => place)).toEqual(['Schedule, row 1']);
	});

	test('other sheets with a table are named, sheets of notes are not', () => {
		const one = sheetOf(`Mark | Qty | Width | Height\nA-1 | 1 | 10'-0" | 8'-0"`);
		const preview = readSchedule(
			[one, { ...one, name: 'Phase 2' }, { ...sheetOf('All sizes in inches'), name: 'Notes' }],
			{ measures: 'imperial', keysFor: (input) => keysFor(demoTechnicalBook, input) }
		);
		expect(preview.notes.filter((note) => note.includes('other sheets'))).toEqual([
			'Openings may stand on other sheets too: Phase 2. Bring in the file once more for each.'
		]);
	});

	test('a running number is no mark where a door number stands beside it', () => {
		const preview = read(
			`Item | Door No. | Location | W | H\n1 | GR-01 | Quay | 10'-0" | 8'-0"\n2 | GR-02 | Slip | 11'-0" | 8'-0"`
		);
		expect(table(preview).map(([mark]) => mark)).toEqual(['GR-01', 'GR-02']);
		const alone = read(`Item | Location | W | H\n7 | Quay | 10'-0" | 8'-0"`);
		expect(table(alone).map(([mark]) => mark)).toEqual(['7']);
	});
});

describe('counts and ranges in marks', () => {
	const head = `Mark | Qty | Width | Height\n`;

	test('a count without a quantity counts', () => {
		expect(table(read(`${head}4 x C-101 | | 10'-0" | 4'-0"\nC-102 (3) | | 8'-0" | 4'-0"`))).toEqual([
			['C-101', 4, 120, 48],
			['C-102', 3, 96, 48]
		]);
	});

	test('a count with a quantity is asked about, once for the file', () => {
		const text = `${head}4 x C-101 | 4 | 10'-0" | 4'-0"\nC-102 (3) | 2 | 8'-0" | 4'-0"\nC-103 | 1 | 8'-0" | 4'-0"`;
		expect(asked(read(text))).toEqual([
			{ id: 'quantity', lines: [2, 3], values: ['column', 'mark', 'times'], answer: null }
		]);
		expect(table(read(text)).map(([, quantity]) => quantity)).toEqual([null, null, 1]);
		const quantities = (answer: string) =>
			scheduleRows(read(text, { quantity: answer })).map(({ cells }) => cells.quantity);
		expect(quantities('column')).toEqual([4, 2, 1]);
		expect(quantities('mark')).toEqual([4, 3, 1]);
		expect(quantities('times')).toEqual([16, 6, 1]);
		expect(asked(read(`${head}4 x C-101 | 4 | 10'-0" | 4'-0"`))).toEqual([
			{ id: 'quantity', lines: [2], values: ['column', 'times'], answer: null }
		]);
	});

	test('a range without a quantity is one of each; with one above 1 it is asked', () => {
		expect(table(read(`${head}C-101A thru C | | 10'-0" | 4'-0"`))).toEqual([
			['C-101A', 1, 120, 48],
			['C-101B', 1, 120, 48],
			['C-101C', 1, 120, 48]
		]);
		const text = `${head}C-101, 103–105 | 8 | 10'-0" | 4'-0"`;
		const open = read(text);
		expect(asked(open)).toEqual([{ id: 'range', lines: [2], values: ['total', 'each'], answer: null }]);
		expect(
			openings(open).map(({ line, part, cells }) => [line, part, cells.mark, cells.quantity ?? null])
		).toEqual([
			[2, 0, 'C-101', null],
			[2, 1, 'C-103', null],
			[2, 2, 'C-104', null],
			[2, 3, 'C-105', null]
		]);
		const quantities = (answer: string) =>
			scheduleRows(read(text, { range: answer })).map(({ cells }) => cells.quantity);
		expect(quantities('total')).toEqual([2, 2, 2, 2]);
		expect(quantities('each')).toEqual([8, 8, 8, 8]);
	});

	test('a quantity that does not go round can only be that of each', () => {
		const text = `${head}C-101A thru D | 6 | 10'-0" | 4'-0"`;
		expect(asked(read(text))).toEqual([{ id: 'range', lines: [2], values: ['each'], answer: null }]);
		expect(scheduleRows(read(text, { range: 'total' }))).toEqual([]);
		expect(scheduleRows(read(text, { range: 'each' }))).toHaveLength(4);
	});

	test('both counts together, up to the 10 000 openings of one row', () => {
		const of = (count: number) =>
			read(`${head}${count} x C-101 | 100 | 10'-0" | 4'-0"`, { quantity: 'times' });
		expect(table(of(100))).toEqual([['C-101', 10_000, 120, 48]]);
		expect(table(of(101))).toEqual([['C-101', null, 120, 48]]);
		expect(openings(of(101))[0]?.problems).toMatchObject([{ field: 'quantity', text: '10100' }]);
	});

	test('an opening of a mark has a number up to its quantity', () => {
		const preview = read(
			`Mark | Opening no. | Qty | Width | Height\nC-1 | | 2 | 10'-0" | 4'-0"\nC-1 | 2 | | 9'-0" | \nC-1 | 3 | | 8'-0" | `
		);
		expect(openings(preview).map(({ problems }) => problems.map(({ field }) => field))).toEqual([
			[],
			[],
			['openingNumber']
		]);
	});

	test('a list of marks over several lines of a cell', () => {
		const sheet = sheetOf(`${head}C | | 10'-0" | 4'-0"`);
		const listed = {
			...sheet,
			rows: sheet.rows.map((row) =>
				row.line === 2 ? { ...row, cells: ['C-1\nC-3', ...row.cells.slice(1)] } : row
			)
		};
		expect(table(read(listed)).map(([mark]) => mark)).toEqual(['C-1', 'C-3']);
	});

	test('a range that can’t be told is refused, for one opening would be too few', () => {
		const preview = read(
			`Mark | Qty | Width | Height\nC-5 thru C-1 | | 10'-0" | 4'-0"\nC-1 to C-99999 | 2 | 10'-0" | 4'-0"\nC-7 (A-C) | | 10'-0" | 4'-0"`
		);
		expect(table(preview).map(([mark]) => mark ?? null)).toEqual([null, null, 'C-7A', 'C-7B', 'C-7C']);
		expect(scheduleProblems(preview).map(({ reason }) => reason.slice(0, 18))).toEqual([
			'“C-5 thru C-1”: a ',
			'“C-1 to C-99999”: '
		]);
	});

	test('a problem of a range is told once', () => {
		expect(scheduleProblems(read(`${head}C-101A thru D | | ten | 4'-0"`)).map(({ place }) => place)).toEqual([
			'Schedule, row 2, C “Width”'
		]);
	});
});

describe('cells that stand for others', () => {
	test('ditto marks of every kind, over page breaks', () => {
		const head = `Mark | Width | Height | Curtain | Hood`;
		const preview = read(
			`${head}\nC-1 | 10'-0" | 4'-0" | counter-slat | steel-24ga\nC-2 | " | 5'-0" | do. | same\n${head}\nC-3 | 〃 | ditto | same as above | ”\nC-4 | -"- | '' | Do | DITTO`
		);
		expect(table(preview).map((row) => row.slice(2))).toEqual([
			[120, 48],
			[120, 60],
			[120, 60],
			[120, 60]
		]);
		expect(column(preview, 'curtain')).toEqual(Array.from({ length: 4 }, () => 'counter-slat'));
		expect(column(preview, 'hood')).toEqual(Array.from({ length: 4 }, () => 'steel-24ga'));
		expect(preview.questions).toEqual([]);
		expect(preview.rows[1]?.notes.join()).toContain('as in row 2 (ditto mark)');
	});

	test.each(['-do-', '–do–', 'do', '↓', 'dto.'])('the ditto mark %s', (mark) => {
		const preview = read(
			`Mark | Qty | Location | Width | Height\nC-1 | 1 | Quay | 10'-0" | 8'-0"\nC-2 | 1 | ${mark} | ${mark} | ${mark}`
		);
		expect(table(preview)[1]).toEqual(['C-2', 1, 120, 96]);
		expect(column(preview, 'location')).toEqual(['Quay', 'Quay']);
	});

	test('a ditto mark below a blank cell is blank too', () => {
		const preview = read(
			`Mark | Width | Height | Finish\nC-1 | 10'-0" | 4'-0" | mill\nC-2 | 9'-0" | 4'-0" | \nC-3 | 8'-0" | 4'-0" | "`
		);
		expect(column(preview, 'finish')).toEqual(['mill', null, null]);
		expect(scheduleProblems(preview)).toEqual([]);
	});

	test('with nothing above, a ditto mark is refused', () => {
		const [problem] = openings(read(`Mark | Width | Height\nC-1 | " | 4'-0"`))[0]?.problems ?? [];
		expect(problem).toMatchObject({ field: 'openingWidth', text: '"' });
	});

	test('merges down give their value to every row, and nobody is asked', () => {
		const sheet = sheetOf(
			`Mark | Width | Height | Curtain\nC-1 | 10'-0" | 4'-0" | counter-slat\nC-2 | 8'-0" | | \nC-3 | 6'-0" | | `,
			{
				merges: [
					{ top: 2, left: 2, bottom: 4, right: 2 },
					{ top: 2, left: 3, bottom: 4, right: 3 }
				]
			}
		);
		const preview = read(sheet);
		expect(table(preview).map((row) => row.slice(2))).toEqual([
			[120, 48],
			[96, 48],
			[72, 48]
		]);
		expect(column(preview, 'curtain')).toEqual(['counter-slat', 'counter-slat', 'counter-slat']);
		expect(preview.questions).toEqual([]);
	});

	test('blanks of openings of their own, and of a phase under its heading, are not asked about', () => {
		const own = read(
			`Mark | Opening no. | Qty | Width | Height | Hood\nC-1 | | 2 | 10'-0" | 4'-0" | steel-24ga\nC-1 | 2 | | 9'-0" | | `
		);
		expect(own.questions).toEqual([]);
		const phased = read(
			`Mark | Width | Height | Phase\nC-1 | 10'-0" | 4'-0" | 1\nPHASE 2\nC-2 | 9'-0" | 4'-0" | `
		);
		expect(phased.questions).toEqual([]);
		expect(column(phased, 'phase')).toEqual(['1', 'PHASE 2']);
	});

	test('blanks below a filled cell may mean none, and are asked about', () => {
		const text = `Mark | Width | Height | Hood | Location\nC-0 | 10'-0" | 4'-0" | | \nC-1 | 10'-0" | 4'-0" | steel-24ga | Hall\nC-2 | 8'-0" | 4'-0" | | Hall\nC-3 | 6'-0" | 4'-0" | | `;
		expect(asked(read(text))).toEqual([
			{ id: 'blank:hood', lines: [4, 5], values: ['none', 'above'], answer: 'none' },
			{ id: 'blank:location', lines: [5], values: ['none', 'above'], answer: 'none' }
		]);
		expect(column(read(text), 'hood')).toEqual([null, 'steel-24ga', null, null]);
		expect(column(read(text, { 'blank:hood': 'above' }), 'hood')).toEqual([
			null,
			'steel-24ga',
			'steel-24ga',
			'steel-24ga'
		]);
	});
});

describe('units', () => {
	test('in a note only', () => {
		const preview = read(`ALL DIMENSIONS IN MILLIMETRES U.N.O.\nMark | Width | Height\nC-1 | 3048 | 1524`);
		expect(table(preview)).toEqual([['C-1', 1, 120, 60]]);
		expect(preview.questions).toEqual([]);
	});

	test('changing half-way, by a note between the rows or by the headings of a page', () => {
		const noted = read(
			`Dimensions in inches\nMark | Width | Height\nC-1 | 120 | 48\nSizes below this line in mm\nC-2 | 3048 | 4'-0"`
		);
		expect(table(noted)).toEqual([
			['C-1', 1, 120, 48],
			['C-2', 1, 120, 48]
		]);
		expect(noted.questions).toEqual([]);
		expect(leftOut(noted)).toEqual([[4, 'remark']]);
		const headed = read(
			`Mark | Qty | Curtain | Width (in) | Height (in)\nC-1 | 1 | counter-slat | 120 | 48\nMark | Qty | Curtain | Width (mm) | Height (mm)\nC-2 | 1 | counter-slat | 3048 | 1524`
		);
		expect(table(headed)).toEqual([
			['C-1', 1, 120, 48],
			['C-2', 1, 120, 60]
		]);
	});

	test('what was said last above a row holds, by a note or by headings', () => {
		const noted = read(
			`Dimensions in inches\nMark | Width | Height\nC-1 | 120 | 48\nSizes below this line in mm\nC-2 | 3048 | 1524\nSizes below this line in feet\nC-3 | 10 | 4`
		);
		expect(table(noted).map((row) => row.slice(2))).toEqual([
			[120, 48],
			[120, 60],
			[120, 48]
		]);
		const headed = read(
			`Mark | Qty | Curtain | Width (in) | Height (in)\nC-1 | 1 | counter-slat | 120 | 48\nSizes below this line in feet\nC-2 | 1 | counter-slat | 10 | 4\nMark | Qty | Curtain | Width (mm) | Height (mm)\nC-3 | 1 | counter-slat | 3048 | 1524`
		);
		expect(table(headed).map((row) => row.slice(2))).toEqual([
			[120, 48],
			[120, 48],
			[120, 60]
		]);
	});

	test('two notes that contradict: the unit of the job only where figures are likely in it', () => {
		const text = (width: string) =>
			`Dimensions in inches\nMark | Width | Height\nC-1 | ${width} | 48\n\nAll sizes in mm`;
		const values = ['in', 'ft', 'mm', 'cm', 'm'];
		expect(asked(read(text('120')))).toEqual([{ id: 'unit', lines: [2], values, answer: 'in' }]);
		expect(asked(read(text('3048')))).toEqual([{ id: 'unit', lines: [2], values, answer: null }]);
		expect(table(read(text('3048'), { unit: 'mm' }))[0]?.[2]).toBe(120);
	});

	test('feet and inches in a metric job', () => {
		const preview = read(`Sizes in feet and inches\nMark | Width | Height\nC-1 | 10-6 | 4'-0"`, {}, 'metric');
		// 10'-6" = 126 × 25.4 = 3200.4 mm; 4'-0" = 48 × 25.4 = 1219.2 mm
		expect(
			openings(preview).map(({ cells }) => [
				millimetres(cells.openingWidth),
				millimetres(cells.openingHeight)
			])
		).toEqual([[3200.4, 1219.2]]);
		const headed = read(`Mark | Width (ft) | Height (ft)\nC-1 | 10-6 | 4`, {}, 'metric');
		expect(openings(headed).map(({ cells }) => millimetres(cells.openingWidth))).toEqual([3200.4]);
	});
});

describe('sizes', () => {
	test.each([
		['Size (W x H)', `10'-0" x 4'-0"`, 120, 48],
		['H x W', `4'-0" × 10'-0"`, 120, 48],
		['Size', `10'-0"W x 4'-0"H`, 120, 48],
		['Size', `4'-0" H x 10'-0" W`, 120, 48],
		['Width x Height', '10/0 x 4/6', 120, 54],
		['Opening size w x h', `10’–0” by 4’–0”`, 120, 48],
		['W x H', '3048 x 1524 mm', 120, 60],
		['W x H', `120 x 48"`, 120, 48]
	])('both in one cell: %s %s', (heading, text, width, height) => {
		const preview = read(`Mark | Qty | ${heading}\nC-1 | 1 | ${text}`);
		expect(table(preview)).toEqual([['C-1', 1, width, height]]);
		expect(preview.questions).toEqual([]);
		expect(preview.columns[2]).toMatchObject({ field: 'openingWidth', also: 'openingHeight' });
	});

	test('feet and inches with the millimetres beside them: read where both agree, refused where not', () => {
		// 10'-6" is 3200.4 mm, 8'-0" is 2438.4 mm.
		const preview = read(
			`Mark | Width | Height\nC-1 | 10'-6" [3200] | 8'-0" (2440 mm)\nC-2 | 10'-6" [3,200] | 8'-0" (2500)`
		);
		expect(table(preview)).toEqual([
			['C-1', 1, 126, 96],
			['C-2', 1, 126, null]
		]);
		expect(scheduleProblems(preview).map(({ place }) => place)).toEqual(['Schedule, row 3, C “Height”']);
	});

	test('3.000 in millimetres may be three thousand: refused', () => {
		const preview = read(
			'All dimensions in mm\nMark | Width | Height\nC-1 | 3.000 | 2400.500\nC-2 | 3,000 | 2 400\nC-3 | 3.000 m | 2400',
			{},
			'metric'
		);
		const found = openings(preview).map(({ cells }) => [
			millimetres(cells.openingWidth),
			millimetres(cells.openingHeight)
		]);
		expect(found).toEqual([
			[null, 2400.5],
			[3000, 2400],
			[3000, 2400]
		]);
	});

	test('both in one cell and nothing says which is first', () => {
		const text = `Mark | Qty | Opening Size\nC-1 | 1 | 10'-0" x 4'-0"\nC-2 | 1 | 4'-0"H x 8'-0"W`;
		expect(asked(read(text))).toEqual([
			{ id: 'sizeOrder', lines: [2], values: ['widthFirst', 'heightFirst'], answer: 'widthFirst' }
		]);
		expect(table(read(text))).toEqual([
			['C-1', 1, 120, 48],
			['C-2', 1, 96, 48]
		]);
		expect(table(read(text, { sizeOrder: 'heightFirst' }))[0]).toEqual(['C-1', 1, 48, 120]);
	});

	test('a column of both that a person gave to the width is split all the same', () => {
		const sheet = sheetOf(`A | B\nC-1 | 10'-0" x 4'-0"`);
		const preview = readSchedule([sheet], {
			measures: 'imperial',
			keysFor: (input) => keysFor(demoTechnicalBook, input),
			mapping: { headerRow: 1, columns: { '0': 'mark', '1': 'openingWidth' } }
		});
		expect(table(preview)).toEqual([['C-1', 1, 120, 48]]);
	});

	test('spellings of feet and inches', () => {
		const spellings = [
			`10’-6”`,
			`10′ 6″`,
			`10'-6''`,
			`10'6`,
			`10'-6`,
			`10 ft 6 in`,
			`10' - 6"`,
			`10-6`,
			`126"`,
			`10'-6.0"`,
			`10.5'`
		];
		for (const text of spellings)
			expect(table(read(`Mark | Width | Height\nC-1 | ${text} | 4'-6½"`)), text).toEqual([
				['C-1', 1, 126, 54.5]
			]);
	});

	test('what is not final is read as far as it can be, noted and held', () => {
		const preview = read(
			`Mark | Width | Height | Remarks\nC-1 | 10'-0" V.I.F. | 4'-0" | north\nC-2 | ± 8'-0" | TBD | \nC-3 | see plan A-2 | N/A | \nC-4 | 6'-0" | 4'-0" |`
		);
		expect(table(preview).map((row) => row.slice(2))).toEqual([
			[120, 48],
			[96, null],
			[null, null],
			[72, 48]
		]);
		expect(openings(preview).map(({ cells }) => cells.hold ?? null)).toEqual([
			'fieldMeasure',
			'fieldMeasure',
			'fieldMeasure',
			null
		]);
		expect(column(preview, 'note')).toEqual([
			`north; Width: 10'-0" V.I.F.`,
			`Width: ± 8'-0"; Height: TBD`,
			'Width: see plan A-2; Height: N/A',
			null
		]);
		expect(scheduleProblems(preview)).toEqual([]);
	});

	test('footnotes come off and are named, with what the legend says', () => {
		const preview = read(
			`Mark | Qty | Width | Height | Curtain\nC-1† | 2* | 10'-0"* | 4'-0" (2) | counter-slat²\n* Verify head\n2. Clear of the sill`
		);
		expect(table(preview)).toEqual([['C-1', 2, 120, 48]]);
		expect(column(preview, 'curtain')).toEqual(['counter-slat']);
		const [note] = column(preview, 'note');
		for (const part of [
			'Mark: footnote †',
			'Width: footnote * (Verify head)',
			'Height: footnote (2) (Clear of the sill)',
			'Curtain: footnote ²'
		])
			expect(note).toContain(part);
	});

	test('rough sizes among finished ones', () => {
		const text = `Mark | Width | Height\nC-1 | 10'-0" | 4'-0"\nC-2 | 10'-2" R.O. | 4'-1" (R.O.)\nC-3 | 8'-2" RO | 4'-0"`;
		const open = read(text);
		expect(asked(open)).toEqual([
			{ id: 'rough', lines: [3, 4], values: ['finished', 'leave'], answer: null }
		]);
		expect(table(open).map((row) => row.slice(2))).toEqual([
			[120, 48],
			[null, null],
			[null, 48]
		]);
		expect(table(read(text, { rough: 'finished' })).map((row) => row.slice(2))).toEqual([
			[120, 48],
			[122, 49],
			[98, 48]
		]);
		expect(scheduleRows(read(text, { rough: 'leave' }))).toHaveLength(3);
	});

	test('one mark of a rough opening is for both sizes of a cell', () => {
		const text = `Mark | Qty | W x H\nC-1 | 1 | 10'-2" x 4'-1" R.O.`;
		expect(table(read(text))).toEqual([['C-1', 1, null, null]]);
		expect(table(read(text, { rough: 'finished' }))).toEqual([['C-1', 1, 122, 49]]);
	});

	test('a note keeps what was written in it where words of sizes would make it longer than 2000', () => {
		const long = 'n'.repeat(1990);
		const preview = read(`Mark | Width | Height | Remarks\nC-1 | 10'-0" V.I.F. | 4'-0" | ${long}`);
		expect(column(preview, 'note')).toEqual([long]);
		expect(openings(preview)[0]?.notes).toContain(`Width: 10'-0" V.I.F.`);
	});

	test('of two texts for a footnote the first holds', () => {
		const preview = read(`Mark | Width | Height\nC-1 | 10'-0"* | 4'-0"\n* Verify head\n* Verify sill`);
		expect(column(preview, 'note')).toEqual(['Width: footnote * (Verify head)']);
	});

	test('refused and never guessed: below zero, zero, twice a point, letters', () => {
		const preview = read(
			`Mark | Width | Height\nC-1 | -120 | 0\nC-2 | 10..5 | 1O'-0"\nC-3 | 10'-0" x 4'-0" | 4'-0"`
		);
		expect(
			openings(preview).flatMap(({ problems }) => problems.map(({ field, text }) => [field, text]))
		).toEqual([
			['openingWidth', '-120'],
			['openingHeight', '0'],
			['openingWidth', '10..5'],
			['openingHeight', `1O'-0"`],
			['openingWidth', `10'-0" x 4'-0"`]
		]);
	});

	test('dates: refused, with what was probably typed', () => {
		const plain = sheetOf(`Mark | Width | Height\nC-1 | | 4'-0"\nC-2 | 8'-0" |`);
		const date = { text: '2031-10-04', kind: 'date' } as const;
		const sheet = {
			...plain,
			rows: plain.rows.map((row) =>
				row.line === 2
					? { ...row, cells: ['C-1', date, `4'-0"`] }
					: row.line === 3
						? {
								...row,
								cells: ['C-2', `8'-0"`, { text: '2000-04-01', kind: 'date', monthAndYear: true } as const]
							}
						: row
			)
		};
		const preview = read(sheet);
		expect(asked(preview)).toEqual([
			{ id: 'date:B', lines: [2], values: ['probable', 'leave'], answer: 'leave' },
			{ id: 'date:C', lines: [3], values: ['probable', 'leave'], answer: 'leave' }
		]);
		expect(openings(preview).flatMap(({ problems }) => problems.map(({ offers }) => offers))).toEqual([
			`10'-4"`,
			`4'-0"`
		]);
		const taken = read(sheet, { 'date:B': 'probable' });
		expect(table(taken)).toEqual([
			['C-1', 1, 124, 48],
			['C-2', 1, 96, null]
		]);
	});
});

describe('rows', () => {
	const head = 'Mark | Qty | Width | Height\n';

	test('hidden, filtered and struck through: shown, and left out unless chosen', () => {
		const sheet = sheetOf(
			`${head}C-1 | 1 | 10'-0" | 4'-0"\nC-2 | 1 | 9'-0" | 4'-0"\nC-3 | 1 | 8'-0" | 4'-0"\nC-4 | 1 | 7'-0" | 4'-0"`,
			{
				told: {
					2: { hidden: true },
					3: { hidden: true, filtered: true },
					4: { struck: [0, 1, 2, 3] },
					5: { struck: [3] }
				}
			}
		);
		const preview = read(sheet);
		expect(leftOut(preview)).toEqual([
			[2, 'hidden'],
			[3, 'filtered'],
			[4, 'struck']
		]);
		expect(asked(preview).map(({ id, lines, answer }) => [id, lines, answer])).toEqual([
			['hidden', [2], 'leave'],
			['filtered', [3], 'leave'],
			['struck', [4], 'leave']
		]);
		expect(preview.rows[0]?.cells.mark).toBe('C-1');
		expect(openings(preview)[0]?.notes.join()).toContain('struck through in the file, and read: Height');
		expect(scheduleRows(read(sheet, { hidden: 'take', filtered: 'take', struck: 'take' }))).toHaveLength(4);
	});

	test('what is carried forward to the next page is no opening', () => {
		const preview = read(`Mark | Qty | Width | Height\nC-1 | 2 | 10'-0" | 8'-0"\nc/f | 2 | |\nb/f | 2 | |`);
		expect(leftOut(preview)).toEqual([
			[3, 'total'],
			[4, 'total']
		]);
	});

	test('the text of a question names some rows, and its list all', () => {
		const lines = Array.from({ length: 70 }, (_, at) => `C-1 | 1 | ${at + 60}" | 8'-0"`);
		const [question] = read(`Mark | Qty | Width | Height\n${lines.join('\n')}`).questions;
		expect(question?.text).toBe(
			'C-1 stands in rows 2, 3, 4, 5, 6, 7, 8, 9 and 62 more. What does that mean?'
		);
		expect(question?.lines).toHaveLength(70);
	});

	test('totals, phase headings and area headings', () => {
		const preview = read(
			`${head}PHASE 1 – SOUTH HALL\nC-1 | 2 | 10'-0" | 4'-0"\nSub-total | 2\nGROUND FLOOR\nC-2 | 1 | 9'-0" | 4'-0"\nPhase 2 – North Hall\nC-3 | 1 | 8'-0" | 4'-0"\nPhase 2 – North Hall (cont.)\nC-4 | 1 | 8'-0" | 4'-0"\nGrand total: | 5`
		);
		expect(leftOut(preview)).toEqual([
			[2, 'heading'],
			[4, 'total'],
			[5, 'heading'],
			[7, 'heading'],
			[9, 'heading'],
			[11, 'total']
		]);
		expect(column(preview, 'phase')).toEqual([
			'PHASE 1 – SOUTH HALL',
			'PHASE 1 – SOUTH HALL',
			'Phase 2 – North Hall',
			'Phase 2 – North Hall'
		]);
		expect(preview.questions).toEqual([]);
	});

	test('what looks like a heading below the last opening is a remark', () => {
		const preview = read(`${head}C-1 | 2 | 10'-0" | 4'-0"\nNORTH HALL\nC-2 | 1 | 9'-0" | 4'-0"\nSOUTH HALL`);
		expect(leftOut(preview)).toEqual([
			[3, 'heading'],
			[5, 'remark']
		]);
	});

	test('openings of a mark take no phase from a heading: theirs is that of the mark', () => {
		const preview = read(
			`Mark | Opening no. | Qty | Width | Height\nPHASE 1\nC-1 | | 2 | 10'-0" | 4'-0"\nPHASE 2\nC-1 | 2 | | 9'-0" | `
		);
		expect(column(preview, 'phase')).toEqual(['PHASE 1', null]);
	});

	test('the heading of a phase ends an alternate', () => {
		const text = `${head}ALTERNATE NO. 2\nC-1 | 1 | 9'-0" | 4'-0"\nPHASE 3\nC-2 | 1 | 8'-0" | 4'-0"`;
		expect(asked(read(text))).toMatchObject([{ id: 'alternate', lines: [3] }]);
		expect(column(read(text, { alternate: 'phase' }), 'phase')).toEqual(['ALTERNATE NO. 2', 'PHASE 3']);
	});

	test('what a person says of the side goes before a note in the file', () => {
		const text = `Handing is as seen from the far side\nMark | Width | Height | Hand\nC-1 | 10'-0" | 4'-0" | left`;
		const from = (preview: SchedulePreview) => openings(preview).map(({ cells }) => cells.drawnFrom ?? null);
		expect(from(read(text))).toEqual(['farSide']);
		expect(from(read(text, { viewpoint: 'coilSide' }))).toEqual([null]);
	});

	test('alternates', () => {
		const text = `${head}C-1 | 2 | 10'-0" | 4'-0"\nALTERNATE NO. 2\nC-2 | 1 | 9'-0" | 4'-0"\nBASE BID\nC-3 | 1 | 8'-0" | 4'-0"\nAdd Alt 1: stairs\nC-4 | 1 | 8'-0" | 4'-0"`;
		const open = read(text);
		expect(asked(open)).toEqual([
			{ id: 'alternate', lines: [4, 8], values: ['phase', 'leave'], answer: null }
		]);
		expect(column(open, 'phase')).toEqual([null, null, null, null]);
		expect(column(read(text, { alternate: 'phase' }), 'phase')).toEqual([
			null,
			'ALTERNATE NO. 2',
			null,
			'Add Alt 1: stairs'
		]);
		const without = read(text, { alternate: 'leave' });
		expect(leftOut(without).filter(([, reason]) => reason === 'alternate')).toEqual([
			[4, 'alternate'],
			[8, 'alternate']
		]);
		expect(scheduleRows(without)).toHaveLength(2);
	});

	test('the same mark in another place: one mark, and rows of their own for what differs', () => {
		const text = `Mark | Qty | Width | Height | Location\nC-1 | 2 | 10'-0" | 4'-0" | North\nC-2 | 1 | 9'-0" | 4'-0" | North\nC-1 | 2 | 120" | 5'-0" | South\nc-1 | 1 | 10'-0" | 4'-0" | North`;
		expect(asked(read(text))).toEqual([
			{ id: 'duplicate:C-1', lines: [2, 4, 5], values: ['revision', 'place', 'error'], answer: null }
		]);
		const placed = read(text, { 'duplicate:C-1': 'place' });
		// 2 + 2 + 1 openings; the third and fourth differ in height and place, the fifth in nothing.
		expect(
			scheduleRows(placed).map(({ line, part, cells }) => [
				line,
				part,
				cells.mark,
				cells.quantity ?? null,
				cells.openingNumber ?? null,
				inches(cells.openingWidth),
				inches(cells.openingHeight),
				cells.location
			])
		).toEqual([
			[2, 0, 'C-1', 5, null, 120, 48, 'North'],
			[3, 0, 'C-2', 1, null, 108, 48, 'North'],
			[4, 0, 'C-1', null, 3, null, 60, 'South'],
			[4, 1, 'C-1', null, 4, null, 60, 'South']
		]);
		expect(leftOut(placed)).toEqual([[5, 'duplicate']]);
		const revised = read(text, { 'duplicate:C-1': 'revision' });
		expect(scheduleRows(revised).map(({ line }) => line)).toEqual([3, 5]);
		expect(scheduleRows(read(text, { 'duplicate:C-1': 'error' }))).toHaveLength(4);
	});

	test('a mark that a range gives again', () => {
		const preview = read(`${head}C-101 thru C-103 | | 10'-0" | 4'-0"\nC-102 | 1 | 9'-0" | 4'-0"`);
		expect(unansweredQuestions(preview).map(({ id }) => id)).toEqual(['duplicate:C-102']);
	});
});

describe('workbooks', () => {
	async function sheetsOf(workbook: Excel.Workbook): Promise<readonly Sheet[]> {
		const reading = await readWorkbook('file.xlsx', new Uint8Array(await workbook.xlsx.writeBuffer()));
		if (!reading.ok) throw new Error(reading.message);
		return reading.sheets;
	}
	const body = [
		['Mark', 'Qty', 'Width', 'Height'],
		['C-1', 1, `10'-0"`, `4'-0"`],
		['C-2', 1, `9'-0"`, `4'-0"`],
		['C-3', 1, `8'-0"`, `4'-0"`],
		['C-4', 1, `7'-0"`, `4'-0"`]
	];

	test('rows hidden by hand and by a filter, of the sheet or of a table in it', async () => {
		const workbook = new Excel.Workbook();
		const byHand = workbook.addWorksheet('By hand');
		const filtered = workbook.addWorksheet('Filtered');
		for (const sheet of [byHand, filtered]) {
			sheet.addRows(body);
			sheet.getRow(3).hidden = true;
		}
		filtered.autoFilter = 'A1:D5';
		const inTable = workbook.addWorksheet('Table');
		inTable.addTable({
			name: 'Doors',
			ref: 'A1',
			headerRow: true,
			columns: (body[0] ?? []).map((name) => ({ name: String(name), filterButton: true })),
			rows: body.slice(1)
		});
		inTable.getRow(4).hidden = true;
		const sheets = await sheetsOf(workbook);
		expect(
			sheets.map((sheet) =>
				sheet.rows.filter(({ hidden }) => hidden).map(({ line, filtered: by }) => [line, by ?? false])
			)
		).toEqual([[[3, false]], [[3, true]], [[4, true]]]);
	});

	test('struck through as a cell, or letter by letter', async () => {
		const workbook = new Excel.Workbook();
		const sheet = workbook.addWorksheet('Schedule');
		sheet.addRows(body);
		sheet.getCell('A2').font = { strike: true };
		sheet.getCell('A3').value = {
			richText: [
				{ font: { strike: true }, text: 'C-' },
				{ font: { strike: true }, text: '2' }
			]
		};
		sheet.getCell('A4').value = { richText: [{ font: { strike: true }, text: 'C-9' }, { text: 'C-3' }] };
		sheet.getCell('C5').font = { strike: true };
		const [read] = await sheetsOf(workbook);
		expect(read?.rows.map(({ line, struck }) => [line, struck ?? []])).toEqual([
			[1, []],
			[2, [0]],
			[3, [0]],
			[4, []],
			[5, [2]]
		]);
	});

	test('numbers are read as their format shows them', async () => {
		const workbook = new Excel.Workbook();
		const sheet = workbook.addWorksheet('Schedule');
		const shown: [number, string][] = [
			[7, '000'],
			[1.1, '0.00'],
			[126, '0.00'],
			[8, `0"'-0"""`],
			[8, `0"'-0"`],
			[8, `0"'"`],
			[12.5, '0']
		];
		sheet.addRow(shown.map(([value]) => value));
		for (const [at, [, format]] of shown.entries()) sheet.getCell(1, at + 1).numFmt = format;
		const [read] = await sheetsOf(workbook);
		expect(read?.rows[0]?.cells).toEqual(['007', '1.10', '126', "8 '", "8 '", "8 '", '12.5']);
	});

	test('dates know whether they show a day', async () => {
		const workbook = new Excel.Workbook();
		const sheet = workbook.addWorksheet('Schedule');
		sheet.addRow([new Date(Date.UTC(2031, 9, 4)), new Date(Date.UTC(2000, 3, 1))]);
		sheet.getCell('A1').numFmt = 'd-mmm';
		sheet.getCell('B1').numFmt = 'mmm-yy';
		const [read] = await sheetsOf(workbook);
		expect(read?.rows[0]?.cells).toEqual([
			{ text: '2031-10-04', kind: 'date' },
			{ text: '2000-04-01', kind: 'date', monthAndYear: true }
		]);
	});
});
