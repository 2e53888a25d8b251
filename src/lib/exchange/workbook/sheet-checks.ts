/** The Checks sheet: what was and was not checked, and every check of every opening, with a live word whether it still stands. */
import type { CellValue, Workbook, Worksheet } from 'exceljs';
import type { Check } from '../../takeoff/result.ts';
import { checkRules } from '../../takeoff/rules/checks.ts';
import { look, stopFaint, stopInk } from './look.ts';
import { firstRow, rowText } from './places.ts';
import { openSheet, put, setColumns, takeTurns, writeTitle, type Printing } from './sheet-writing.ts';
import { sourceText } from './sheet-shop-book.ts';
import { flagCodes } from './rule-columns.ts';
import { cautionsNow, stopsNow } from './takeoff-openings.ts';
import type { WorkbookJob } from './workbook-job.ts';

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
const widths = [13, 10, 62, 46, 12, 40, 24];

const standing = [
	'Checked: that everything fits by the sizes of the shop book, barrel deflection and stress, torque and turns of the drive, room, and anchors by spacing and hole pattern.',
	'Not checked: what anchors, guides and the building hold, wind, springs, circuits, fire rating, ways out, access. These are for the engineer, the licensed electrician and the local codes.',
	'The program never approves anything. An opening without a stop here is an opening in which these rules found nothing, no more.'
] as const;

export async function writeChecks(workbook: Workbook, job: WorkbookJob, printing: Printing): Promise<void> {
	const list = job.openings.flatMap((opening, at) =>
		opening.checks.map((check) => ({ check, row: firstRow + at, name: opening.openingId ?? opening.mark }))
	);
	const top = standing.length + 5;
	const lastRow = Math.max(top + list.length, top + 1);
	const text = {
		name: sheetName,
		title: job.name,
		lead: 'Checks of every opening. The sentences are as exported; the live column says which still stand after changes in this file.'
	} as const;
	const sheet = openSheet(workbook, text, printing, {
		columns: headings.length,
		width: widths.reduce((sum, width) => sum + width, 0),
		frozenColumns: 1,
		frozenRows: top,
		lastRow
	});
	setColumns(
		sheet,
		widths.map((width) => ({ width }))
	);
	writeTitle(sheet, text);
	standing.forEach((sentence, i) => put(sheet, 3 + i, 1, sentence, look('lead')));
	writeSummary(sheet, job, 3 + standing.length, top, list.length);
	headings.forEach((heading, i) => put(sheet, top, i + 1, heading, look('heading', { wrap: true })));
	sheet.addConditionalFormatting({
		ref: `B${String(top + 1)}:B${String(lastRow)}`,
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
	const flags = new Map(
		checkRules.map(({ code }) => [
			code,
			rowText(`IF(${job.places.cell(code, sheetName)},"${stillSo}","${noLonger}")`)
		])
	);
	for (const [i, { check, row, name }] of list.entries()) {
		writeCheck(sheet, top + 1 + i, name, check, flags.get(check.code)?.(row) ?? null);
		await takeTurns(i);
	}
	sheet.commit();
}

/** @param formula null where only the app can say */
function writeCheck(sheet: Worksheet, row: number, name: string, check: Check, formula: string | null): void {
	const words = look('text', { wrap: true });
	const cells: readonly CellValue[] = [
		name,
		check.severity,
		check.text,
		check.clears,
		formula === null ? inTheApp : { formula, result: stillSo },
		sourceText(check.source),
		check.code
	];
	cells.forEach((value, i) => put(sheet, row, i + 1, value, i === 4 && formula !== null ? look('worked') : words));
}

/** One live sentence: what is raised now, and how much of it is not in the list because something was changed. */
function writeSummary(sheet: Worksheet, job: WorkbookJob, row: number, top: number, count: number): void {
	const { places } = job;
	const raised = (severity: Check['severity']): number => {
		const codes = checkRules.filter((check) => check.severity === severity).map(({ code }) => code);
		return job.openings.reduce((sum, opening) => sum + codes.filter((code) => opening.get(code) === 1).length, 0);
	};
	const notComputed = job.openings.filter((opening) => !opening.computed).length;
	const codes = flagCodes();
	const all = places.block(codes[0] ?? '', codes.at(-1) ?? '', sheetName);
	const list = `$E$${String(top + 1)}:$E$${String(top + Math.max(count, 1))}`;
	const stops = `SUM(${places.column(stopsNow, sheetName)})`;
	const cautions = `SUM(${places.column(cautionsNow, sheetName)})`;
	const since = `COUNTIF(${all},TRUE)-COUNTIF(${list},"${stillSo}")`;
	const sentence = (...figures: readonly [string, string, string]): string =>
		`Raised now, live: ${figures[0]} stops and ${figures[1]} cautions. Raised by changes in this file and not in the list: ${figures[2]}.`;
	const formula = `"${sentence(`"&${stops}&"`, `"&${cautions}&"`, `"&${since}&"`)}"`;
	const result = sentence(String(raised('stop') + notComputed), String(raised('caution')), '0');
	put(sheet, row, 1, { formula, result }, look('heading'));
}
