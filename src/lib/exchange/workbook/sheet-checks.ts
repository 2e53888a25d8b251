/**
 * The Checks sheet: what was and was not checked, and every check of every opening, with a live word whether it still
 * stands. Folded aside, in the rows that the openings have on every sheet, stand all checks live.
 */
import type { CellValue, Workbook, Worksheet } from 'exceljs';
import type { Check } from '../../takeoff/result.ts';
import { flagCodes, raisedCount } from './check-flags.ts';
import { look, stopFaint, stopInk } from './look.ts';
import { firstRow } from './places.ts';
import { finishColumns, type PlannedColumn } from './planned-column.ts';
import { fitHeight, openSheet, put, setColumns, takeTurns, type Printing } from './sheet-writing.ts';
import { sourceText } from './sheet-shop-book.ts';
import { cautionsNow, stopsNow } from './takeoff-openings.ts';
import { openingAt, type WorkbookJob } from './workbook-job.ts';

const sheetName = 'Checks';

const stillSo = 'still so';
const noLonger = 'no longer';
/** Checks of the row itself and of the search are made in the app only. */
const inTheApp = 'see the app';

const headings = [
	'Opening',
	'Severity',
	'What was found, as exported',
	'What would clear it',
	'Still so? (live)',
	'Source',
	'Code'
] as const;
const widths = [13, 10, 78, 56, 12, 40, 22];

/** Column of the first live flag, from 0; before it the opening again, and a gap. */
export const flagsFrom = headings.length + 2;

const standing = [
	'Checked: that everything fits by the sizes of the shop book; barrel, drive and room; what anchors hold, by the editions in the Shop book; springs, the motor’s circuit, and what one person may lift.',
	'Not checked: guides, curtain, windlocks, brackets and the building behind the anchors, the design pressure, fire rating, ways out, access. These are for the engineer, the licensed electrician (who confirms every circuit) and the local codes.',
	'The program never approves anything. An opening without a stop here is an opening in which these rules found nothing, no more.'
] as const;

interface Listed {
	readonly check: Check;
	/** Opening or mark. */
	readonly name: string;
	/** Row of the opening on every sheet. */
	readonly row: number;
}

export async function writeChecks(
	workbook: Workbook,
	job: WorkbookJob,
	flags: readonly PlannedColumn[],
	printing: Printing
): Promise<void> {
	const list = job.openings.flatMap((opening, at): Listed[] =>
		opening.checks.map((check) => ({ check, name: opening.openingId ?? opening.mark, row: firstRow + at }))
	);
	const lastRow = Math.max(firstRow + list.length - 1, firstRow);
	const columns = finishColumns(flags);
	const sheet = openSheet(workbook, { name: sheetName, title: `${job.name}: checks`, lead: '' }, printing, {
		columns: headings.length,
		width: widths.reduce((sum, width) => sum + width, 0),
		onePage: true,
		headingsFrom: firstRow - 1,
		frozenColumns: 1,
		frozenRows: firstRow - 1,
		lastRow,
		outlined: true
	});
	setColumns(sheet, [
		...widths.map((width) => ({ width })),
		{ width: 3, aside: true },
		{ width: 13, aside: true },
		...columns
	]);
	put(sheet, 1, 1, `${job.name}: checks`, look('title'));
	sheet.getRow(1).height = 24;
	writeSummary(sheet, job, list.length);
	standing.forEach((sentence, i) => put(sheet, 3 + i, 1, sentence, look('lead')));
	const heading = look('heading', { wrap: true });
	headings.forEach((text, i) => put(sheet, firstRow - 1, i + 1, text, heading));
	put(sheet, firstRow - 1, flagsFrom, 'Opening', heading);
	columns.forEach((column, i) => {
		const begins = columns[i - 1]?.band !== column.band;
		put(sheet, firstRow - 2, flagsFrom + 1 + i, begins ? column.band : null, look('band'));
		put(sheet, firstRow - 1, flagsFrom + 1 + i, column.heading, look('heading', { align: 'center' }));
	});
	sheet.autoFilter = `A${String(firstRow - 1)}:G${String(lastRow)}`;
	markStops(sheet, lastRow);
	for (let at = 0; at < Math.max(list.length, job.openings.length); at++) {
		const row = firstRow + at;
		const listed = list[at];
		if (listed) writeCheck(sheet, job, row, listed);
		if (at < job.openings.length) {
			const opening = openingAt(job, at);
			put(sheet, row, flagsFrom, opening.openingId ?? opening.mark, look('text'));
			columns.forEach((column, i) => put(sheet, row, flagsFrom + 1 + i, column.cell(at, row), column.style));
		}
		sheet.getRow(row).commit();
		await takeTurns(at);
	}
	sheet.commit();
}

function markStops(sheet: Worksheet, lastRow: number): void {
	sheet.addConditionalFormatting({
		ref: `B${String(firstRow)}:B${String(lastRow)}`,
		rules: [
			{
				type: 'cellIs',
				operator: 'equal',
				priority: 1,
				formulae: ['"stop"'],
				style: {
					font: { color: { argb: stopInk }, bold: true },
					fill: { type: 'pattern', pattern: 'solid', bgColor: { argb: stopFaint } }
				}
			}
		]
	});
}

const isFlag: ReadonlySet<string> = new Set(flagCodes());

function writeCheck(sheet: Worksheet, job: WorkbookJob, row: number, { check, name, row: of }: Listed): void {
	const words = look('text', { wrap: true });
	// Fixed, so that the list can be sorted.
	const formula = isFlag.has(check.code)
		? `IF(${job.places.fixed(check.code, of, sheetName)},"${stillSo}","${noLonger}")`
		: null;
	const source = sourceText(check.source);
	const cells: readonly CellValue[] = [
		name,
		check.severity,
		check.text,
		check.clears,
		formula === null ? inTheApp : { formula, result: stillSo },
		source,
		check.code
	];
	cells.forEach((value, i) =>
		put(sheet, row, i + 1, value, i === 4 && formula !== null ? look('worked') : words)
	);
	fitHeight(sheet.getRow(row), [
		[check.text, widths[2] ?? 1],
		[check.clears, widths[3] ?? 1],
		[source, widths[5] ?? 1]
	]);
}

/** One live sentence: what is raised now, and how much of it is not in the list because something was changed. */
function writeSummary(sheet: Worksheet, job: WorkbookJob, count: number): void {
	const { places } = job;
	const raised = (severity: Check['severity']): number =>
		job.openings.reduce((sum, _, at) => sum + raisedCount(job, at, severity), 0);
	const notComputed = job.openings.filter((opening) => !opening.computed).length;
	const codes = flagCodes();
	const all = places.block(codes[0] ?? '', codes.at(-1) ?? '', sheetName);
	const list = `$E$${String(firstRow)}:$E$${String(firstRow + Math.max(count, 1) - 1)}`;
	const stops = `SUM(${places.column(stopsNow, sheetName)})`;
	const cautions = `SUM(${places.column(cautionsNow, sheetName)})`;
	const since = `COUNTIF(${all},TRUE)-COUNTIF(${list},"${stillSo}")`;
	const sentence = (...figures: readonly [string, string, string]): string =>
		`Raised now, live: ${figures[0]} stops and ${figures[1]} cautions. Raised by changes in this file and not in the list: ${figures[2]}.`;
	const formula = `"${sentence(`"&${stops}&"`, `"&${cautions}&"`, `"&${since}&"`)}"`;
	const result = sentence(String(raised('stop') + notComputed), String(raised('caution')), '0');
	put(sheet, 2, 1, { formula, result }, look('heading'));
}
