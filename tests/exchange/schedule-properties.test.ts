/** What holds for any schedule: nothing is lost in silence, blanks change nothing, and manners of writing mean the same. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isDitto } from '../../src/lib/exchange/schedule/ditto.ts';
import {
	readSchedule,
	scheduleRows,
	type ScheduleMapping,
	type SchedulePreview
} from '../../src/lib/exchange/schedule.ts';
import {
	oneLine,
	textOf,
	type CellText,
	type Merge,
	type Sheet,
	type SheetRow
} from '../../src/lib/exchange/sheet.ts';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { inputOf, type Cell, type Measures } from '../../src/lib/takeoff/inputs.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';

const sheetOf = (rows: readonly (readonly CellText[])[], merges: readonly Merge[] = []): Sheet => ({
	name: 'Schedule',
	rowWord: 'row',
	rows: rows
		.map((cells, at): SheetRow => ({ line: at + 1, cells, hidden: false }))
		.filter(({ cells }) => cells.some((cell) => textOf(cell).trim() !== '')),
	merges,
	hidden: false
});

const read = (
	sheet: Sheet,
	measures: Measures = 'imperial',
	answers: ScheduleMapping['answers'] = {}
): SchedulePreview =>
	readSchedule([sheet], {
		measures,
		keysFor: (input) => keysFor(demoTechnicalBook, input),
		mapping: { answers }
	});

const headings = [
	'Mark',
	'Qty',
	'Width',
	'Height',
	'Curtain',
	'Hood',
	'Location',
	'Headroom',
	'Hand',
	'Remarks'
];
const piece = fc.constantFrom(
	'C-101',
	'4 x C-101',
	'C-101A thru D',
	'C-1, 3–5',
	'(2)',
	'4',
	'0',
	'-3',
	`10'-0"`,
	`10'-0" x 4'-0"`,
	'10/0',
	'1,200',
	'3050 mm',
	'4-Oct',
	'TBD',
	'V.I.F.',
	'±',
	'R.O.',
	'*',
	'²',
	'"',
	'do.',
	'same',
	'N/A',
	'-',
	'counter-slat',
	'steel-24ga',
	'none',
	'Total',
	'Subtotal',
	'PHASE 2',
	'ALTERNATE NO. 1',
	'LEGEND',
	'Page 1 of 2',
	'All dimensions in mm',
	'left',
	'=1+1',
	'<b>',
	'Hall',
	'Mark',
	'Width',
	'1/2',
	'x',
	'\u0000',
	'\u202e',
	'…'
);
const anyText = fc.oneof(
	{ weight: 3, arbitrary: piece },
	{ weight: 1, arbitrary: fc.tuple(piece, piece).map((both) => both.join(' ')) },
	{ weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 30 }) },
	{ weight: 2, arbitrary: fc.constant('') }
);
const anyCell: fc.Arbitrary<CellText> = fc.oneof(
	{ weight: 20, arbitrary: anyText },
	{ weight: 1, arbitrary: fc.constant({ text: '2031-10-04', kind: 'date' } as const) },
	{ weight: 1, arbitrary: fc.constant({ text: '#REF!', kind: 'error' } as const) }
);
const anyMerge: fc.Arbitrary<Merge> = fc
	.tuple(fc.nat(20), fc.nat(9), fc.nat(4), fc.nat(3))
	.map(([top, left, down, right]) => ({ top: top + 1, left, bottom: top + 1 + down, right: left + right }));

/** Cells that say nothing, or hold only invisible signs, are no loss. */
const saysNothing = (text: string): boolean =>
	/^(?:[-–—\s]*|n\/a|na|n\.a\.|nil)$/iu.test(text) || !/[\p{L}\p{M}\p{N}\p{P}\p{S}]/u.test(text);

describe('nothing is lost in silence', () => {
	test('every filled cell under a known heading is in a row, a note or a problem, or its line is left out with a reason', () => {
		fc.assert(
			fc.property(
				fc.array(fc.array(anyCell, { maxLength: 12 }), { maxLength: 14 }),
				fc.array(anyMerge, { maxLength: 3 }),
				fc.constantFrom<Measures>('imperial', 'metric'),
				fc.dictionary(
					fc.constantFrom(
						'quantity',
						'range',
						'rough',
						'alternate',
						'duplicate:C-101',
						'unit',
						'date:C',
						'blank:hood'
					),
					fc.constantFrom(
						'column',
						'times',
						'total',
						'each',
						'finished',
						'leave',
						'phase',
						'place',
						'revision',
						'mm',
						'probable',
						'above'
					)
				),
				(rows, merges, measures, answers) => {
					const sheet = sheetOf([headings, ...rows], merges);
					const preview = read(sheet, measures, answers);
					const keys = preview.rows.map(({ line, part }) => `${line} ${part}`);
					expect(new Set(keys).size).toBe(keys.length);
					const byLine = Map.groupBy(preview.rows, ({ line }) => line);
					for (const row of sheet.rows.filter(({ line }) => line > preview.headerRow)) {
						const found = byLine.get(row.line);
						if (!found && row.cells.every((cell) => oneLine(textOf(cell)) === '')) continue;
						expect(found, `line ${row.line}`).toBeDefined();
						for (const one of found ?? [])
							if (one.status === 'skipped') {
								expect(one.why).not.toBeNull();
								expect(one.reason).not.toBeNull();
							}
						if (found?.every(({ status }) => status === 'skipped') === true) continue;
						for (const { index, field, letter } of preview.columns) {
							const text = oneLine(textOf(row.cells[index]));
							if (field === null || text === '' || saysNothing(text) || isDitto(text)) continue;
							const words = text.split(' ').filter((word) => !saysNothing(word));
							const told = found?.some(({ cells, problems, notes }) => {
								const said = [...notes, typeof cells.note === 'string' ? cells.note : ''].join('\n');
								return (
									(cells[field] ?? null) !== null ||
									problems.some((problem) => problem.column === letter) ||
									words.every((word) => said.includes(word)) ||
									// One that is in doubt waits for its answer.
									(field === 'quantity' && preview.questions.some(({ lines }) => lines.includes(row.line)))
								);
							});
							// Of two rows of one mark that were answered as places, only what differs stays.
							if (answers['duplicate:C-101'] === 'place') continue;
							expect(told, `${row.line} ${letter} ${JSON.stringify(text)}`).toBe(true);
						}
					}
					for (const { cells } of preview.rows)
						for (const cell of Object.values(cells))
							if (typeof cell === 'object' && cell !== null) expect(Number.isFinite(cell.amount)).toBe(true);
				}
			),
			{ numRuns: 500 }
		);
	});

	test('any table of any text has a preview', () => {
		fc.assert(
			fc.property(
				fc.array(fc.array(fc.oneof(anyCell, fc.constantFrom(...headings)), { maxLength: 12 }), {
					maxLength: 20
				}),
				fc.array(anyMerge, { maxLength: 5 }),
				(rows, merges) => {
					const preview = read(sheetOf(rows, merges));
					expect(preview.headerRow === 0).toBe(preview.columns.length === 0);
					for (const { choices, lines } of preview.questions) {
						expect(choices.length).toBeGreaterThan(0);
						expect(lines.length).toBeGreaterThan(0);
					}
				}
			),
			{ numRuns: 500 }
		);
	});
});

/** What a person means. */
interface Meant {
	readonly mark: string;
	readonly quantity: number;
	/** Sixteenths of an inch. */
	readonly width: number;
	readonly height: number;
	readonly curtain: 'counter-slat' | 'heavy-grille' | 'light-grille';
	readonly location: string;
}

const anySize = fc.oneof(
	fc.integer({ min: 24, max: 240 }).map((inches) => inches * 16),
	fc.integer({ min: 24 * 16, max: 240 * 16 })
);
const anyOpening = fc.record({
	quantity: fc.integer({ min: 1, max: 9 }),
	width: anySize,
	height: anySize,
	curtain: fc.constantFrom('counter-slat', 'heavy-grille', 'light-grille'),
	location: fc.constantFrom('North hall', 'South hall', 'Kitchen 4', 'Stall 12')
});
/** Marks `C-101` … without gaps, so that ranges can be written. */
const anyJob: fc.Arbitrary<readonly Meant[]> = fc
	.array(anyOpening, { minLength: 1, maxLength: 12 })
	.map((list) => list.map((opening, i) => ({ ...opening, mark: `C-${101 + i}` })));

const greatest = (a: number, b: number): number => (b === 0 ? a : greatest(b, a % b));

/** Feet and inches of sixteenths, in one of the spellings of the trade. */
function feetInches(sixteenths: number, spelling: number): string {
	const feet = Math.floor(sixteenths / 192);
	const [whole, rest] = [Math.floor((sixteenths % 192) / 16), sixteenths % 16];
	const by = greatest(rest, 16);
	const fraction = rest === 0 ? '' : ` ${rest / by}/${16 / by}`;
	const sign = rest === 8 ? '½' : rest === 4 ? '¼' : rest === 12 ? '¾' : fraction;
	const decimal = String(whole + rest / 16);
	const spellings = [
		`${feet}'-${whole}${fraction}"`,
		`${feet}’-${whole}${sign}”`,
		`${feet}′ ${whole}${fraction}″`,
		`${feet}'-${whole}${fraction}''`,
		`${feet}'${whole}${fraction}`,
		`${feet}' - ${whole}${fraction}"`,
		`${feet} ft ${whole}${fraction} in`,
		`${feet}-${decimal}`,
		`${String(sixteenths / 16)}"`,
		`${String((sixteenths * 25.4) / 16)} mm`.replace(/^(\d+\.\d{6})\d* mm$/u, `${feet}'-${decimal}"`)
	];
	return spellings[spelling % spellings.length] ?? '';
}

/** The manners in which a schedule is written. */
const anyManner = fc.record({
	title: fc.boolean(),
	twoRows: fc.boolean(),
	bothInOne: fc.boolean(),
	heightFirst: fc.boolean(),
	unitsInNote: fc.boolean(),
	dittos: fc.boolean(),
	countInMark: fc.boolean(),
	ranges: fc.boolean(),
	pageEvery: fc.option(fc.integer({ min: 1, max: 5 }), { nil: 99 }),
	totals: fc.boolean(),
	legend: fc.boolean(),
	footnotes: fc.boolean(),
	held: fc.boolean(),
	merges: fc.boolean(),
	seeds: fc.array(fc.nat(1000), { minLength: 24, maxLength: 24 })
});
type Manner = typeof anyManner extends fc.Arbitrary<infer M> ? M : never;

/** A schedule in that manner. */
function written(job: readonly Meant[], manner: Manner): Sheet {
	let turn = 0;
	const next = (): number => manner.seeds[turn++ % manner.seeds.length] ?? 0;
	const rows: string[][] = [];
	const merges: Merge[] = [];
	const sizes = (width: string, height: string): string[] => {
		const both = manner.heightFirst ? [height, width] : [width, height];
		return manner.bothInOne ? [both.join([' x ', ' × ', 'x', ' by '][next() % 4] ?? ' x ')] : both;
	};
	const head = (): void => {
		const names = manner.bothInOne
			? [manner.heightFirst ? 'H x W' : 'Size (W x H)']
			: sizes('Width', 'Height');
		if (!manner.twoRows || manner.bothInOne) {
			rows.push(['Mark', 'Qty', ...names, 'Curtain Type', 'Location', 'Remarks']);
			return;
		}
		rows.push(
			['Mark', 'Qty', 'OPENING', '', 'Curtain', 'Location', 'Remarks'],
			['', '', ...names, '', '', '']
		);
		const line = rows.length;
		if (!manner.merges) return;
		merges.push({ top: line - 1, left: 2, bottom: line - 1, right: 3 });
		for (const left of [0, 1, 4, 5, 6]) merges.push({ top: line - 1, left, bottom: line, right: left });
	};
	if (manner.title) rows.push(['SALTMARSH PIER MARKET HALL'], ['Rev B: C-102 added'], []);
	if (manner.unitsInNote) rows.push(['ALL DIMENSIONS IN INCHES U.N.O.'], []);
	head();
	let above: Meant | null = null;
	let onPage = 0;
	const size = (sixteenths: number): string =>
		manner.unitsInNote ? String(sixteenths / 16) : feetInches(sixteenths, next());
	for (let at = 0; at < job.length; at++) {
		const opening = job[at];
		if (!opening) break;
		if (onPage === manner.pageEvery) {
			rows.push(['Page 1 of 9'], []);
			if (manner.title) rows.push(['SALTMARSH PIER MARKET HALL']);
			head();
			onPage = 0;
		}
		onPage++;
		let last = at;
		const alike = (other: Meant | undefined): boolean =>
			other !== undefined &&
			JSON.stringify({ ...other, mark: '' }) === JSON.stringify({ ...opening, mark: '' });
		while (manner.ranges && opening.quantity === 1 && alike(job[last + 1])) last++;
		const to = job[last]?.mark ?? '';
		const inMark = manner.countInMark && last === at && next() % 2 === 0;
		const mark =
			last > at
				? [`${opening.mark} thru ${to}`, `${opening.mark}–${to}`, `${opening.mark} to ${to.slice(2)}`][
						next() % 3
					]
				: inMark
					? [`${opening.quantity} x ${opening.mark}`, `${opening.mark} (${opening.quantity})`][next() % 2]
					: opening.mark;
		const foot = (text: string): string => (manner.footnotes && next() % 3 === 0 ? `${text}*` : text);
		const hold = (text: string): string => (manner.held && next() % 4 === 0 ? `${text} V.I.F.` : text);
		const same = (text: string, is: boolean): string =>
			manner.dittos && is ? (['"', 'do.', 'same', '〃'][next() % 4] ?? '"') : text;
		rows.push([
			foot(mark ?? ''),
			inMark ? '' : String(opening.quantity),
			...sizes(hold(foot(size(opening.width))), size(opening.height)),
			same(
				[opening.curtain, opening.curtain.replace('-', ' ').toUpperCase()][next() % 2] ?? '',
				above?.curtain === opening.curtain
			),
			same(opening.location, above?.location === opening.location),
			''
		]);
		if (manner.totals && next() % 4 === 0) rows.push(['Subtotal', '7']);
		above = opening;
		at = last;
	}
	if (manner.totals) rows.push(['TOTAL', '99']);
	if (manner.legend)
		rows.push(
			[],
			['LEGEND'],
			['CS', '', 'counter slat'],
			['* verify with the architect'],
			['Prepared by:', '', 'N. N.']
		);
	return sheetOf(rows, merges);
}

const inches = (cell: Cell | undefined): number =>
	typeof cell === 'object' && cell !== null ? cell.amount / 1_587_500 : NaN;
const meaning = (preview: SchedulePreview) =>
	scheduleRows(preview).map(({ cells }) => ({
		mark: cells.mark,
		quantity: cells.quantity,
		width: inches(cells.openingWidth),
		height: inches(cells.openingHeight),
		curtain: cells.curtain,
		location: cells.location
	}));

describe('manners of writing', () => {
	test('a schedule written in 500 random ugly ways reads to the same openings', () => {
		fc.assert(
			fc.property(anyJob, anyManner, (job, manner) => {
				const preview = read(written(job, manner));
				expect(preview.questions.filter(({ answer }) => answer === null)).toEqual([]);
				expect(meaning(preview)).toEqual(job);
			}),
			{ numRuns: 500 }
		);
	});

	test('blank rows and columns change nothing', () => {
		fc.assert(
			fc.property(
				anyJob,
				anyManner,
				fc.array(fc.nat(40), { maxLength: 6 }),
				fc.nat(6),
				(job, manner, blanks, column) => {
					const sheet = written(job, { ...manner, merges: false, twoRows: false });
					const moved = sheet.rows.map((row, at): SheetRow => ({
						...row,
						line: row.line + blanks.filter((blank) => blank <= at).length,
						cells: [
							...row.cells.slice(0, column),
							...(row.cells.length > column ? [''] : []),
							...row.cells.slice(column)
						]
					}));
					expect(meaning(read({ ...sheet, rows: moved }))).toEqual(meaning(read(sheet)));
				}
			),
			{ numRuns: 200 }
		);
	});

	test('every input is refused or read by its own kind', () => {
		fc.assert(
			fc.property(anyJob, anyManner, (job, manner) => {
				for (const { cells } of scheduleRows(read(written(job, manner))))
					for (const [field, cell] of Object.entries(cells)) {
						const { kind } = inputOf(field as keyof typeof cells);
						if (kind === 'length') expect(typeof cell).toBe('object');
						if (kind === 'count') expect(Number.isInteger(cell)).toBe(true);
					}
			}),
			{ numRuns: 100 }
		);
	});
});
