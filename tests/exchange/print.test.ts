/**
 * Printed pages, read back by Poppler: sizes, text, and above all the scale. Openings are invented. What a drawing must
 * measure on paper is hand arithmetic: a size in life times the scale that stands on the page, 72 points to the inch.
 */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { readSchedule, scheduleRows } from '../../src/lib/exchange/schedule.ts';
import { paperSizes } from '../../src/lib/exchange/paper-sizes.ts';
import { drawingSheet } from '../../src/lib/exchange/print/drawing-sheet.ts';
import { helveticaWidth, linesIn, paperText, shortened } from '../../src/lib/exchange/print/helvetica.ts';
import { makePrint, type Print, type SheetTask } from '../../src/lib/exchange/print/make-print.ts';
import { printJob } from '../../src/lib/exchange/print/print-job.ts';
import { scheduleSheet } from '../../src/lib/exchange/print/schedule-sheet.ts';
import { formatLength } from '../../src/lib/quantity/length.ts';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { inputs, type Measures, type OpeningRow } from '../../src/lib/takeoff/inputs.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';
import type { OpeningTakeoff } from '../../src/lib/takeoff/result.ts';
import { engineOf, openingA, openingB, openingC, typedRow, type Typed } from '../opening-rows.ts';
import { printedFile, type PrintedFile, type PrintedLine } from '../printed-pages.ts';
import { needs } from '../recalculate.ts';
import { startServer } from '../storage/built-server.ts';
import { temporaryFolder } from '../storage/databases.ts';

const engine = engineOf();

const task = (rows: readonly OpeningRow[], measures: Measures, more: Partial<SheetTask> = {}): SheetTask => ({
	what: 'drawings',
	book: demoTechnicalBook,
	rows,
	measures,
	chosen: null,
	columns: null,
	paper: measures === 'metric' ? 'a4' : 'letter',
	jobName: 'Saltmarsh Pier Market Hall',
	printedAt: new Date(2026, 2, 4, 9, 5),
	...more
});

const open: PrintedFile[] = [];
afterAll(() => Promise.all(open.map((file) => file.close())));

async function read(print: Print): Promise<PrintedFile> {
	if (!print.ok) throw new Error(print.message);
	const file = await printedFile(print.content);
	open.push(file);
	return file;
}

const printed = async (...wanted: Parameters<typeof task>): Promise<PrintedFile> =>
	read(await makePrint(task(...wanted)));

/** A text on one line. */
const flat = (text: string): string => text.replace(/\s+/gu, ' ');

/** A text without its spaces: a column breaks lines at spaces and hyphens. */
const squeezed = (text: string): string => text.replace(/\s+/gu, '');

async function demoRows(name: string, measures: Measures): Promise<OpeningRow[]> {
	const file = await readTableFile(name, new Uint8Array(readFileSync(`fixtures/schedules/${name}`)));
	if (!file.ok) throw new Error(file.message);
	const preview = readSchedule(file.sheets, {
		measures,
		keysFor: (input) => keysFor(demoTechnicalBook, input)
	});
	return scheduleRows(preview).map(({ line, cells }) => ({ id: `line-${String(line)}`, cells }));
}

/** Numbers between 0 and 1 that are the same every time (a linear congruential generator). */
function chance(seed: number): () => number {
	let state = seed;
	return () => {
		state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296;
		return state / 4_294_967_296;
	};
}

const sixteenths = (count: number): string => `${String(count / 16)}"`;

/** Openings of all sizes: imperial to the sixteenth, metric to the millimetre. */
function randomRows(count: number, measures: Measures, seed: number): OpeningRow[] {
	const next = chance(seed);
	const between = (least: number, most: number): number => Math.round(least + next() * (most - least));
	const kinds = [openingA, openingB, openingC];
	return Array.from({ length: count }, (_, i) => {
		const kind = kinds[i % kinds.length] ?? openingA;
		const [width, height] =
			measures === 'metric'
				? [`${String(between(900, 9000))} mm`, `${String(between(700, 4000))} mm`]
				: [sixteenths(between(36 * 16, 350 * 16)), sixteenths(between(30 * 16, 150 * 16))];
		const typed: Typed = {
			...kind,
			mark: `R-${String(i)}`,
			openingWidth: width,
			openingHeight: height,
			...(i % 5 === 0 ? { mounting: 'betweenJambs', guide: 'store-between', curtain: 'heavy-grille' } : {}),
			...(i % 4 === 1 ? { driveSide: 'right', headroom: measures === 'metric' ? '300 mm' : '12"' } : {})
		};
		return typedRow(typed, measures);
	});
}

/** Paper over life, from what stands on the page: `3/8" = 1'-0"` is 3/8 in 12; `1:20`. */
function ratioOf(scale: string): number {
	const metric = /^1:(\d+)$/u.exec(scale);
	if (metric) return 1 / Number(metric[1]);
	const imperial = /^(?:(\d+) )?(?:(\d+)\/(\d+)|(\d+))" = 1'-0"$/u.exec(scale);
	if (!imperial) throw new Error(`no scale: ${scale}`);
	const [, whole = '0', over = '0', under = '1', plain = '0'] = imperial;
	return (Number(whole) + Number(over) / Number(under) + Number(plain)) / 12;
}

/** The scales of a page from left to right: elevation, section, section at the head. */
const scalesOf = (text: string): string[] =>
	Array.from(flat(text).matchAll(/scale ((?:[\d/]+ )?[\d/]+" = 1'-0"|1:\d+)/gu), ([, scale = '']) => scale);

const chalk = '11 35 62';

/** Lengths of the straight lines that go one way, in points. */
function lengths(
	lines: readonly PrintedLine[],
	way: 'level' | 'upright',
	stroke: (line: PrintedLine) => boolean
): number[] {
	return lines.filter(stroke).flatMap(({ points }) => {
		const [a, b] = points;
		if (!a || !b || points.length !== 2) return [];
		const [dx, dy] = [Math.abs(a.x - b.x), Math.abs(a.y - b.y)];
		return way === 'level' ? (dy < 0.01 ? [dx] : []) : dx < 0.01 ? [dy] : [];
	});
}

const nearest = (values: readonly number[], wanted: number): number =>
	values.reduce(
		(best, value) => (Math.abs(value - wanted) < Math.abs(best - wanted) ? value : best),
		Infinity
	);

const lengthOf = (opening: OpeningTakeoff, id: string): number => {
	const value = opening.get(id);
	if (typeof value !== 'number') throw new Error(`${id} of ${opening.mark} is not known`);
	return value;
};

const outside = describe.skipIf(needs('poppler'));

outside('the scale that stands on a drawing is true', () => {
	describe.each([
		['imperial', 7],
		['metric', 11]
	] as const)('25 random openings, %s', (measures, seed) => {
		const rows = randomRows(25, measures, seed);
		const { openings } = engine.takeoff(rows, measures);
		let file: PrintedFile;
		beforeAll(async () => {
			file = await printed(rows, measures);
		});

		it('width and height of the opening measure what the scale says', async () => {
			const first = openings.map((opening) =>
				file.pages.findIndex(({ text }) => text.includes(`${opening.mark}: drawing to scale`))
			);
			for (const [i, opening] of openings.entries()) {
				const at = first[i] ?? -1;
				const scales = scalesOf(file.pages[at]?.text ?? '');
				// Without a bracket there is no head to draw.
				expect(scales, opening.mark).toHaveLength(opening.computed ? 3 : 2);
				const [elevation = '', section = ''] = scales;
				const lines = await file.lines(at + 1);
				const onPaper = (id: string, scale: string): number =>
					(lengthOf(opening, id) / 25_400_000) * 72 * ratioOf(scale);
				const dimension = ({ stroke }: PrintedLine): boolean => stroke === chalk;
				const drawn = ({ stroke }: PrintedLine): boolean => stroke !== null && stroke !== chalk;
				const width = onPaper('openingWidth', elevation);
				const height = onPaper('openingHeight', elevation);
				// The line of the dimension, and the head and the jambs themselves; places are written to 0.01 of 0.62 pt.
				expect(nearest(lengths(lines, 'level', dimension), width)).toBeCloseTo(width, 1);
				expect(nearest(lengths(lines, 'level', drawn), width)).toBeCloseTo(width, 1);
				expect(nearest(lengths(lines, 'upright', dimension), height)).toBeCloseTo(height, 1);
				const inSection = onPaper('openingHeight', section);
				expect(nearest(lengths(lines, 'upright', dimension), inSection)).toBeCloseTo(inSection, 1);
			}
		});

		it('says the sizes of the takeoff', () => {
			const style = (nm: number): string =>
				formatLength(nm, measures === 'metric' ? 'mm' : nm < 24 * 25_400_000 ? 'inches' : 'feetInches');
			for (const opening of openings) {
				const page = file.pages.find(({ text }) => text.includes(`${opening.mark}: drawing to scale`));
				const text = flat(page?.text ?? '');
				for (const id of ['openingWidth', 'openingHeight', 'guideDistance', 'curtainWidth'])
					expect(text, `${id} of ${opening.mark}`).toContain(style(lengthOf(opening, id)));
				if (opening.computed)
					for (const id of ['guideLength', 'bracketDistance', 'bracketSize', 'throat'])
						expect(text, `${id} of ${opening.mark}`).toContain(style(lengthOf(opening, id)));
			}
		});

		it('keeps everything inside the page, and no letter under 6 points', async () => {
			const { width, height } = paperSizes[measures === 'metric' ? 'a4' : 'letter'];
			expect(Math.min(...file.fontSizes)).toBeGreaterThanOrEqual(6);
			for (const [i, page] of file.pages.entries()) {
				const points = (await file.lines(i + 1)).flatMap((line) => line.points);
				const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
				expect(Math.min(...xs)).toBeGreaterThan(34);
				expect(Math.max(...xs)).toBeLessThan(width - 34);
				expect(Math.min(...ys)).toBeGreaterThan(20);
				expect(Math.max(...ys)).toBeLessThan(height - 14);
				for (const word of page.words) {
					expect(word.left, word.text).toBeGreaterThan(34);
					expect(word.right, word.text).toBeLessThan(width - 34);
					expect(word.bottom, word.text).toBeLessThan(height - 14);
				}
			}
		});
	});

	it('the scale bar is as long as it says', async () => {
		const file = await printed([typedRow(openingA)], 'imperial');
		const [elevation = ''] = scalesOf(file.pages[0]?.text ?? '');
		const bar = /(\d+)'-0"/u.exec(
			/ (\d'-0") +(?:▲ )?You stand here/u.exec(flat(file.pages[0]?.text ?? ''))?.[0] ?? ''
		);
		const points = Number(bar?.[1]) * 12 * 72 * ratioOf(elevation);
		// Four boxes of equal length make the bar.
		const boxes = (await file.lines(1)).filter(({ points: { length } }) => length === 5 || length === 4);
		const widths = boxes.map(
			({ points: corners }) => Math.max(...corners.map(({ x }) => x)) - Math.min(...corners.map(({ x }) => x))
		);
		expect(widths.filter((width) => Math.abs(width - points / 4) < 0.02).length).toBeGreaterThanOrEqual(4);
	});
});

outside('the demo jobs', () => {
	const demos = [
		['saltmarsh-pier.xlsx', 'imperial', 'letter'],
		['saltmarsh-pier.xlsx', 'imperial', 'tabloid'],
		['kelpgate-ferry.csv', 'metric', 'a4'],
		['kelpgate-ferry.csv', 'metric', 'a3']
	] as const;

	it.each(demos)(
		'%s, %s, on %s: a page an opening, of that size, with its stops',
		async (name, measures, paper) => {
			const rows = await demoRows(name, measures);
			const { openings } = engine.takeoff(rows, measures);
			const file = await printed(rows, measures, { paper });
			const { width, height } = paperSizes[paper];
			expect(file.sizes).toHaveLength(1);
			const [across = 0, down = 0] = (file.sizes[0] ?? '').split(' x ').map(Number);
			expect(across).toBeCloseTo(width, 1);
			expect(down).toBeCloseTo(height, 1);
			expect(file.pages.length).toBe(openings.length);
			for (const [i, opening] of openings.entries()) {
				const text = flat(file.pages[i]?.text ?? '');
				const name = opening.openingId ?? opening.mark;
				expect(text).toContain(`${name}: drawing to scale`);
				expect(text).toContain('coil side');
				const stops = opening.checks.filter(({ severity }) => severity === 'stop');
				expect(text.includes('NOT FOR CONSTRUCTION until field measured'), name).toBe(stops.length > 0);
				const whole = squeezed(file.pages[i]?.text ?? '');
				for (const { severity, text: said } of opening.checks)
					if (severity !== 'note') expect(whole).toContain(squeezed(paperText(said)));
				expect(text).toContain(`${String(i + 1)} of ${String(openings.length)}`);
			}
			const all = flat(file.pages.map(({ text }) => text).join(' '));
			for (const caution of ['Height:', 'Lifting:', 'Stored energy:', 'Dust:', 'Power:', 'Local codes'])
				expect(all).toContain(caution);
			expect(all).not.toMatch(/\$|price|cost|profit|margin/iu);
		}
	);

	it.each([
		['saltmarsh-pier.xlsx', 'imperial'],
		['kelpgate-ferry.csv', 'metric']
	] as const)('%s: the schedule has every mark and every filled column', async (name, measures) => {
		const rows = await demoRows(name, measures);
		const { openings } = engine.takeoff(rows, measures);
		const file = await printed(rows, measures, { what: 'schedule' });
		const all = flat(file.pages.map(({ text }) => text).join(' '));
		const words = new Set(file.pages.flatMap((page) => page.words.map((word) => word.text)));
		const filled = [
			...inputs.filter(({ id }) => openings.some((opening) => (opening.cell(id) ?? '') !== '')),
			...engine.quantities.filter(({ id }) => openings.some((opening) => opening.get(id) !== null))
		];
		expect(filled.length).toBeGreaterThan(300);
		for (const { title } of filled) expect(squeezed(all)).toContain(squeezed(paperText(title)));
		for (const { mark, openingId } of openings) expect(words).toContain(openingId ?? mark);
		for (const { checks } of openings)
			for (const { severity, text } of checks)
				if (severity === 'stop') expect(squeezed(all)).toContain(squeezed(paperText(text)));
		expect(all).toContain('Printed 2026-03-04 09:05');
		expect(all).toContain(`page 1 of ${String(file.pages.length)}`);
		expect(all).not.toMatch(/\$|\bprice|\bprofit|\bmoney/iu);
		const { width } = paperSizes[measures === 'metric' ? 'a4' : 'letter'];
		for (const page of file.pages)
			for (const word of page.words) expect(word.right, word.text).toBeLessThan(width - 34);
	});
});

outside('the schedule', () => {
	const rows = Array.from({ length: 120 }, (_, i) =>
		typedRow({ ...openingA, mark: `C-${String(i + 1)}`, location: `Stall ${String(i + 1)}` })
	);

	it('repeats its headings and the mark on every page, chosen columns in their order', async () => {
		const columns = ['coilWeight', 'location', 'checks', 'openingWidth'];
		const file = await printed(rows, 'imperial', { what: 'schedule', columns });
		expect(file.pages.length).toBeGreaterThan(2);
		const tables = file.pages.filter(({ text }) => text.includes('Location'));
		expect(tables.length).toBeGreaterThan(1);
		for (const { text } of tables)
			expect(flat(text)).toMatch(/Mark Coil weight Location Checks Opening width C-\d+ 124\.2 lb Stall/u);
		for (const page of file.pages) expect(page.text).toContain('Saltmarsh Pier Market Hall');
		const words = file.pages.flatMap((page) => page.words.map((word) => word.text));
		for (let i = 1; i <= 120; i++) expect(words.filter((word) => word === `C-${String(i)}`)).toHaveLength(2);
	});

	it('prints the rows asked for, in that order', async () => {
		const chosen = ['row-C-9-', 'row-C-2-', 'row-C-70-'];
		const file = await printed(rows, 'imperial', { what: 'schedule', columns: ['location'], chosen });
		const marks = file.pages.flatMap(({ words }) =>
			words.flatMap(({ text }) => (/^C-\d+$/u.test(text) ? [text] : []))
		);
		expect(marks).toEqual(['C-9', 'C-2', 'C-70', 'C-9', 'C-2', 'C-70']);
	});

	it('goes on in bands with the mark in front', async () => {
		const columns = inputs.map(({ id }) => id).filter((id) => id !== 'mark');
		const file = await printed(rows.slice(0, 3), 'imperial', { what: 'schedule', columns });
		const all = flat(file.pages.map(({ text }) => text).join(' '));
		const bands = Number(/Columns 1 of (\d+)/u.exec(all)?.[1]);
		expect(bands).toBeGreaterThan(2);
		const words = file.pages.flatMap((page) => page.words.map((word) => word.text));
		// Once a band and once among the checks.
		expect(words.filter((word) => word === 'C-2')).toHaveLength(bands + 1);
	});
});

outside('unusual text', () => {
	const odd = `“Quay” <b>bold</b> & 'x' "y" café Łódź ½ ⅜ 10⅜ ′ ″ – — 🚢 {{name}} \\n`;
	const long = Array.from({ length: 220 }, (_, i) => `word${String(1000 + i)}`).join(' ');
	const unbroken = 'W'.repeat(2000);

	it('is printed as it is, or in another way that can be seen', async () => {
		const row = typedRow({ ...openingA, mark: '<b>&"', location: odd });
		const drawing = await printed([row], 'imperial');
		const schedule = await printed([row], 'imperial', { what: 'schedule', columns: ['location'] });
		for (const file of [drawing, schedule]) {
			const text = file.pages.flatMap((page) => page.words.map((word) => word.text)).join(' ');
			expect(text).toContain('<b>&"');
			for (const word of [
				'“Quay”',
				'<b>bold</b>',
				'&',
				`'x'`,
				'"y"',
				'café',
				'½',
				'3/8',
				'10 3/8',
				'–',
				'—',
				'[U+1F6A2]',
				'{{name}}',
				'\\n'
			])
				expect(text).toContain(word);
			// Ł has no form without its stroke; ó is kept, ź loses its accent.
			expect(text).toContain('[U+0141]ódz');
		}
	});

	it('2,000 characters are all there, in the drawing and in the schedule', async () => {
		expect(long).toHaveLength(220 * 9 - 1);
		const row = typedRow({ ...openingA, location: long, note: unbroken });
		const files = [
			await printed([row], 'imperial'),
			await printed([row], 'imperial', { what: 'schedule', columns: ['location', 'note'] })
		];
		for (const file of files) {
			const words = new Set(file.pages.flatMap((page) => page.words.map((word) => word.text)));
			for (const word of long.split(' ')) expect(words).toContain(word);
		}
		const schedule = files[1]?.pages.flatMap((page) => page.words.map((word) => word.text)).join('') ?? '';
		expect(Array.from(schedule).filter((letter) => letter === 'W').length).toBeGreaterThanOrEqual(2000);
		for (const word of files[1]?.pages.flatMap((page) => page.words) ?? [])
			expect(word.right).toBeLessThan(paperSizes.letter.width - 30);
	});

	it('an opening without a size has a page that says so', async () => {
		const file = await printed([typedRow({ mark: 'D' })], 'metric');
		expect(file.pages[0]?.text).toContain('Nothing to draw');
		expect(file.pages[0]?.text).toContain('NOT FOR CONSTRUCTION');
	});

	it('an opening that no usual scale takes is drawn smaller, and says so', async () => {
		const row = typedRow({ ...openingC, openingWidth: `240'-0"` });
		const file = await printed([row], 'imperial');
		expect(flat(file.pages[0]?.text ?? '')).toContain('no usual scale fits: see its bar');
	});
});

describe('what can’t be printed is said', () => {
	const row = typedRow(openingA);
	const said = async (more: Partial<SheetTask>, rows: readonly OpeningRow[] = [row]): Promise<string> => {
		const print = await makePrint(task(rows, 'imperial', more));
		if (print.ok) throw new Error('it was printed');
		return print.message;
	};

	it.each([
		['no rows', {}, [], 'There are no openings to print.'],
		['a row that is gone', { chosen: ['gone'] }, [row], '1 of the rows is not there any more.'],
		[
			'an unknown column',
			{ what: 'schedule', columns: ['price'] },
			[row],
			'There is no column price in this shop book.'
		]
	] as const)('%s', async (_, more, rows, message) => {
		expect(await said(more, rows)).toContain(message);
	});

	it('more than 500 drawings', async () => {
		const rows = Array.from({ length: 501 }, (_, i) => typedRow({ ...openingA, mark: `C-${String(i)}` }));
		expect(await said({}, rows)).toContain('These are 501 drawings; at most 500 go into one file.');
	});

	it('more than 200,000 cells', async () => {
		const rows = Array.from({ length: 1000 }, (_, i) => typedRow({ ...openingA, mark: `C-${String(i)}` }));
		expect(await said({ what: 'schedule' }, rows)).toContain('at most 200,000 go into one file');
	});
});

describe('the sheet of an opening', () => {
	const sheetsOf = (...typed: readonly Typed[]) => {
		const { openings } = engine.takeoff(
			typed.map((one) => typedRow(one)),
			'imperial'
		);
		return openings.map((opening) => ({ opening, sheet: drawingSheet(engine, opening, 'imperial') }));
	};

	it('says which openings it is for, without those that have a row of their own', () => {
		const rows = sheetsOf(
			{ ...openingA, mark: 'C-1', quantity: '5' },
			{ mark: 'C-1', openingNumber: '4', location: 'Stall 9' },
			{ ...openingA, mark: 'C-2' }
		);
		expect(rows.map(({ sheet }) => [sheet.name, sheet.quantity])).toEqual([
			['C-1', '4: C-1.1 to C-1.3, C-1.5'],
			['C-1.4', '1, of C-1'],
			['C-2', '1']
		]);
	});

	it('has every check on it, and notes as a number', () => {
		const rows = sheetsOf(openingA, openingB, { ...openingC, hold: 'fieldMeasure' });
		expect(rows.some(({ sheet }) => sheet.checks.some(({ severity }) => severity === 'caution'))).toBe(true);
		for (const { opening, sheet } of rows)
			expect(sheet.checks.length + sheet.notes).toBe(opening.checks.length);
	});
});

describe('the schedule', () => {
	const cellsOf = (rows: readonly OpeningRow[], columns: readonly string[], of = engine) => {
		const job = of.takeoff(rows, 'imperial');
		const sheet = scheduleSheet(of, job, job.openings, columns);
		return { sheet, cells: sheet.columns.map(({ cells }) => cells) };
	};
	const held = typedRow({ ...openingA, mark: 'H', quantity: '3', hold: 'fieldMeasure' });

	it('counts openings, and says how many stops each has', () => {
		const unsized: OpeningRow = {
			id: 'n',
			cells: { ...typedRow({ ...openingA, mark: 'N' }).cells, openingWidth: null, openingHeight: null }
		};
		const { sheet, cells } = cellsOf([held, unsized], ['checks', 'quantity']);
		expect(sheet.openings).toBe(4);
		expect(cells[1]).toEqual(['3', '1']);
		// Held; width and height missing, and nothing can be said of the rest.
		expect(cells[0]?.[0]).toMatch(/^1 stop, \d+ cautions, \d+ notes$/u);
		expect(cells[0]?.[1]).toBe('2 stops');
	});

	it('says yes and no', () => {
		expect(cellsOf([typedRow(openingA)], ['motorised', 'handOperated']).cells).toEqual([['yes'], ['no']]);
	});

	it('gives a barrel a unit only where it is called by its outside diameter', () => {
		expect(cellsOf([typedRow(openingA)], ['barrel']).cells).toEqual([['3.5 in']]);
		const named = engineOf({
			...demoTechnicalBook,
			barrels: demoTechnicalBook.barrels.map((barrel) =>
				barrel.key === '3.5' ? { ...barrel, key: 'pipe 3' } : barrel
			)
		});
		expect(cellsOf([typedRow(openingA)], ['barrel'], named).cells).toEqual([['pipe 3']]);
	});
});

it('no quantity of the takeoff that can be a column is money', () => {
	expect(engine.quantities.filter(({ unit }) => unit.includes('money'))).toEqual([]);
});

it('prints in a worker as it does without', async () => {
	const wanted = task([typedRow(openingA)], 'imperial');
	const [inWorker, here] = [await printJob(wanted), await makePrint(wanted)];
	if (!inWorker.ok || !here.ok) throw new Error('not printed');
	expect(inWorker.content.length).toBe(here.content.length);
	expect(await printJob({ ...wanted, chosen: ['gone'] })).toMatchObject({ ok: false, problem: 'wrong' });
});

describe('the route', () => {
	it('sends pages, and says what is wrong with a request', async () => {
		const server = await startServer({ COILWRIGHT_DATA: temporaryFolder() });
		const made = await server.ask('POST', '/api/jobs', { name: 'Kelpgate', measures: 'metric' });
		const path = `/api/jobs/${String(made.body.id)}/print`;
		const { cells } = typedRow(openingA, 'metric');
		const added = { id: 'edit-1', title: 'Add', changes: [{ kind: 'addRow', row: 'a', after: null, cells }] };
		expect((await server.ask('POST', `/api/jobs/${String(made.body.id)}/edits`, added)).status).toBe(200);
		for (const [method, address, body] of [
			['GET', `${path}?what=schedule&columns=openingWidth,checks&paper=a4`, undefined],
			['GET', `${path}?what=opening&rows=a`, undefined],
			['POST', path, { what: 'drawings', rows: ['a'], paper: 'a3' }]
		] as const) {
			const reply = await server.ask(method, address, body);
			expect(reply.status).toBe(200);
			expect(reply.headers['content-type']).toBe('application/pdf');
			expect(reply.headers['content-disposition']).toMatch(
				/filename="Kelpgate (schedule|drawing|drawings)\.pdf"/u
			);
			expect(reply.text.startsWith('%PDF-')).toBe(true);
		}
		for (const [query, message] of [
			['what=opening', 'Choose the one opening'],
			['what=everything', 'Print the schedule, the drawings or one opening.'],
			['what=schedule&paper=b5', 'The paper is one of'],
			['what=schedule&columns=price', 'There is no column price'],
			['what=drawings&rows=gone', 'is not there any more']
		] as const) {
			const reply = await server.ask('GET', `${path}?${query}`);
			expect(reply.status).toBe(422);
			expect(reply.body.message).toContain(message);
		}
		expect((await server.ask('GET', '/api/jobs/none/print?what=schedule')).status).toBe(404);
	});
});

describe('letters of Helvetica', () => {
	// Core 14 AFM of Adobe, as pdfkit carries it (data/Helvetica.afm): C code ; WX width ; N name.
	const metrics = readFileSync('node_modules/pdfkit/js/data/Helvetica.afm', 'latin1');
	const widths = Array.from(
		metrics.matchAll(/^C (\d+) ; WX (\d+) ; N (\w+)/gmu),
		([, code, width, name]) => ({
			letter: name === 'quoteright' ? '’' : name === 'quoteleft' ? '‘' : String.fromCharCode(Number(code)),
			code: Number(code),
			width: Number(width)
		})
	).filter(({ code }) => code >= 32 && code < 127);

	it('are as wide as Adobe’s metrics say', () => {
		expect(widths).toHaveLength(95);
		for (const { letter, width } of widths)
			expect(helveticaWidth(letter, 1000), letter).toBeCloseTo(width, 9);
	});

	it.each([
		['≤ 5″ −1 ≈ 2', `<= 5" -1 ~ 2`],
		['3.50 in⁴, 0.2 Ω', '3.50 in4, 0.2 ohm'],
		['ő \u200bx\u0007', 'o x[U+0007]'],
		['שלום', '[U+05E9][U+05DC][U+05D5][U+05DD]'],
		['two\nlines', 'two\nlines']
	])('%s', (text, expected) => {
		expect(paperText(text)).toBe(expected);
	});

	it('fill lines, and a text is cut where they end', () => {
		// 10 digits of 5.56 are 55.6 wide; two of them with a space (2.78) are 113.98.
		const digits = '0123456789';
		expect(linesIn(`${digits} ${digits}`, 114, 10)).toBe(1);
		expect(linesIn(`${digits} ${digits}`, 113, 10)).toBe(2);
		expect(shortened(digits, 56, 10, 1)).toBe(digits);
		// 30 wide: the ellipsis takes 10, three digits 16.68.
		expect(shortened(digits, 30, 10, 1)).toBe('012…');
	});
});
