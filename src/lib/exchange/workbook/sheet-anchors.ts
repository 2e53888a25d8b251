/**
 * The Anchors sheet: every fastener of the shop book, what the openings need of it, and what is bought; below it what
 * else the whole job comes to, by item and phase. All live.
 */
import type { CellValue, Workbook, Worksheet } from 'exceljs';
import { anchorKey, stockKey } from '../../shopbook/tables.ts';
import { anchorSize, boxesOf, type AnchorStock } from '../../takeoff/anchors.ts';
import { columnLetter } from '../sheet.ts';
import { jobItems, lastItemRow, writeItems } from './job-items.ts';
import { countFormat, look } from './look.ts';
import { firstRow } from './places.ts';
import { openSheet, put, setColumns, widthFor, writeTitle, type Printing } from './sheet-writing.ts';
import { lookUp, openingAt, resultsOf, sumOfResults, sumOver, type WorkbookJob } from './workbook-job.ts';

const sheetName = 'Anchors';

interface Use {
	/** Column with the anchor's key, and the one with how many. */
	readonly key: string;
	readonly count: string;
}

const uses: readonly { readonly title: string; readonly of: readonly Use[] }[] = [
	{
		title: 'In guides',
		of: [
			{ key: 'anchorStockLeft', count: 'anchorsPerGuideLeft' },
			{ key: 'anchorStockRight', count: 'anchorsPerGuideRight' }
		]
	},
	{
		title: 'In brackets',
		of: [
			{ key: 'anchorStockLeft', count: 'anchorsPerBracket' },
			{ key: 'anchorStockRight', count: 'anchorsPerBracket' }
		]
	},
	{ title: 'For hood supports', of: [{ key: 'anchorStockHead', count: 'hoodSupportAnchors' }] }
];

/** Every anchor of the book in every length it is bought in. */
function fastenersOf({ engine: { book } }: WorkbookJob): AnchorStock[] {
	return book.fixings.flatMap((fixing) =>
		fixing.anchors.flatMap((anchor) =>
			anchor.lengths.map((length) => ({
				key: stockKey(anchorKey(fixing.key, anchor.substrate), length),
				anchor,
				length
			}))
		)
	);
}

const headings = [
	'Anchor and length',
	'Wall',
	'What it is',
	'Size',
	...uses.map(({ title }) => title),
	'Anchors',
	'With waste',
	'In a box',
	'Full boxes',
	'Holes a bit drills',
	'Bits'
] as const;

const widths = [30, 17, 22, 15, 9, 9, 9, 9, 9, 7, 7, 9, 7];

export function writeAnchors(workbook: Workbook, job: WorkbookJob, printing: Printing): void {
	const fasteners = fastenersOf(job);
	const walls = [...new Set(fasteners.map(({ anchor }) => anchor.substrate))];
	const wallsFrom = firstRow + fasteners.length + 3;
	const itemsFrom = wallsFrom + walls.length + 3;
	const items = jobItems(job, itemsFrom);
	const text = {
		name: sheetName,
		title: `${job.name}: anchors`,
		lead: 'Anchors and other quantities of the whole job. Anchors by length: the shortest that reaches. Boxes are full boxes, waste included.'
	} as const;
	const sheet = openSheet(workbook, text, printing, {
		columns: headings.length,
		width: widths.reduce((sum, width) => sum + width, 0),
		onePage: true,
		// The headings below are not those of every part of the sheet.
		headingsFrom: 1,
		frozenColumns: 1,
		frozenRows: 1,
		lastRow: lastItemRow(items, itemsFrom)
	});
	setColumns(
		sheet,
		widths.map((width, i) => ({ width: widthFor(headings[i] ?? '', width) }))
	);
	writeTitle(sheet, text);
	put(sheet, 3, 1, 'live formula', look('worked'));
	headings.forEach((heading, i) =>
		put(
			sheet,
			firstRow - 1,
			i + 1,
			heading,
			look('heading', i >= 4 ? { wrap: true, align: 'right' } : { wrap: true })
		)
	);
	sheet.getRow(firstRow - 1).height = 30;
	const totals = fasteners.map((fastener, i) => writeFastener(sheet, job, fastener, firstRow + i));
	writeTotal(sheet, firstRow + fasteners.length, totals);
	writeWalls(sheet, walls, fasteners, totals, wallsFrom);
	writeItems(sheet, job, items, itemsFrom);
	sheet.commit();
}

const countLook = look('worked', countFormat);

interface Counted {
	readonly uses: readonly number[];
	readonly total: number;
	readonly boxes: number;
	readonly bits: number;
}

function writeFastener(sheet: Worksheet, job: WorkbookJob, fastener: AnchorStock, row: number): Counted {
	const key = `$A${String(row)}`;
	const cell = (column: number): string => `${columnLetter(column)}${String(row)}`;
	const number = (column: number, formula: string, result: number, style = countLook): void =>
		put(sheet, row, column + 1, { formula, result }, style);
	const { anchor } = fastener;
	[fastener.key, anchor.substrate, anchor.anchor, anchorSize(fastener)].forEach((value, i) =>
		put(sheet, row, i + 1, value, look('text'))
	);
	const counts = uses.map(({ of }, i) => {
		const formula = of
			.map((use) => sumOver(job, use.count, sheetName, `--(${job.places.column(use.key, sheetName)}=${key})`))
			.join('+');
		const result = of.reduce(
			(sum, use) =>
				sum +
				sumOfResults(
					job,
					resultsOf(job, use.count),
					(at) => openingAt(job, at).get(use.key) === fastener.key
				),
			0
		);
		number(4 + i, formula, result);
		return result;
	});
	const ofStock = lookUp(key, job.book.keys('anchorStock'), job.book.values('anchorStock', 'anchor'), true);
	const book = (attribute: string): string =>
		lookUp(ofStock, job.book.keys('anchors'), job.book.values('anchors', attribute), false);
	const total = counts.reduce((sum, count) => sum + count, 0);
	const waste = job.engine.book.constants.wasteAnchors;
	const boxes = boxesOf(total, waste, anchor.perBox);
	const holes = Number(anchor.holesPerBit);
	const bits = holes === 0 ? 0 : Math.ceil(total / holes);
	number(7, `SUM(${cell(4)}:${cell(6)})`, total);
	number(
		8,
		`${cell(7)}*(1+shop.wasteAnchors)`,
		total * (1 + Number(waste)),
		look('worked', { format: '#,##0.0', align: 'right' })
	);
	number(9, book('perBox'), Number(anchor.perBox));
	number(10, `ROUNDUP(ROUND(${cell(8)}/${cell(9)},9),0)`, boxes);
	number(11, book('holesPerBit'), holes);
	number(12, `IF(${cell(11)}>0,ROUNDUP(ROUND(${cell(7)}/${cell(11)},9),0),0)`, bits);
	return { uses: counts, total, boxes, bits };
}

function writeTotal(sheet: Worksheet, row: number, counted: readonly Counted[]): void {
	const total = (column: number, of: (each: Counted) => number): CellValue => ({
		formula: `SUM(${columnLetter(column)}${String(firstRow)}:${columnLetter(column)}${String(row - 1)})`,
		result: counted.reduce((sum, each) => sum + of(each), 0)
	});
	const values = new Map<number, CellValue>([
		[0, 'Total'],
		...uses.map((_, i) => [4 + i, total(4 + i, (each) => each.uses[i] ?? 0)] as const),
		[7, total(7, (each) => each.total)],
		[10, total(10, (each) => each.boxes)],
		[12, total(12, (each) => each.bits)]
	]);
	headings.forEach((_, i) =>
		put(sheet, row, i + 1, values.get(i) ?? null, look('total', i === 0 ? {} : countFormat))
	);
}

function writeWalls(
	sheet: Worksheet,
	walls: readonly string[],
	fasteners: readonly AnchorStock[],
	counted: readonly Counted[],
	top: number
): void {
	put(sheet, top, 1, 'By wall', look('band'));
	put(sheet, top, 2, 'Anchors', look('band', { align: 'right' }));
	const last = firstRow + fasteners.length - 1;
	const range = (column: number): string =>
		`$${columnLetter(column)}$${String(firstRow)}:$${columnLetter(column)}$${String(last)}`;
	walls.forEach((wall, i) => {
		const row = top + 1 + i;
		put(sheet, row, 1, wall, look('text'));
		const result = counted.reduce(
			(sum, { total }, at) => (fasteners[at]?.anchor.substrate === wall ? sum + total : sum),
			0
		);
		put(sheet, row, 2, { formula: `SUMIF(${range(1)},$A${String(row)},${range(7)})`, result }, countLook);
	});
}
