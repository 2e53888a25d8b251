/**
 * The Takeoff sheet: every rule of chapters 1 to 6 as a live formula, the choices of the search as marked values with a
 * live test beside each, then what was looked up, folded aside.
 */
import type { Workbook } from 'exceljs';
import { chosenQuantities } from '../../takeoff/vocabulary.ts';
import { columnLetter } from '../sheet.ts';
import { look, stopFaint, stopInk } from './look.ts';
import { firstRow } from './places.ts';
import { finishColumns, type PlannedColumn } from './planned-column.ts';
import { bookColumns, inputColumns, ruleColumns } from './rule-columns.ts';
import {
	openSheet,
	printedColumns,
	setColumns,
	validate,
	writeColumns,
	writeTitle,
	type Printing
} from './sheet-writing.ts';
import { chooseAgain, choiceColumns, openingColumns } from './takeoff-openings.ts';
import type { WorkbookJob } from './workbook-job.ts';

const chapterBands: ReadonlyMap<number, string> = new Map([
	[1, 'Sides, seen from the coil side'],
	[2, 'Geometry'],
	[3, 'Barrel and drive'],
	[4, 'What holds it to the building'],
	[5, 'Hood and consumables'],
	[6, 'Weight and lifting']
]);

export function planTakeoff(job: WorkbookJob): PlannedColumn[] {
	const { engine } = job;
	const rules = engine.quantities.filter(
		({ id, chapter }) => engine.rules.rule(id) && chapterBands.has(chapter)
	);
	return [
		...openingColumns(job),
		...choiceColumns(job),
		...inputColumns(job),
		...rules.flatMap((rule) => ruleColumns(job, rule, 'Takeoff', chapterBands.get(rule.chapter) ?? '')),
		...bookColumns(job)
	];
}

export async function writeTakeoff(
	workbook: Workbook,
	job: WorkbookJob,
	planned: readonly PlannedColumn[],
	printing: Printing
): Promise<void> {
	const columns = finishColumns(planned);
	const text = {
		name: 'Takeoff',
		title: `${job.name}: takeoff`,
		lead: 'Every figure is for ONE opening of its row; totals count every opening. Empty: not known, or not for this opening.'
	} as const;
	const sheet = openSheet(workbook, text, printing, {
		...printedColumns(columns),
		headingsFrom: firstRow - 3,
		frozenColumns: 3,
		frozenRows: firstRow - 1,
		lastRow: job.places.lastRow + 1,
		outlined: true
	});
	setColumns(sheet, columns);
	writeTitle(sheet, text);
	for (const { id } of chosenQuantities) {
		const at = columns.findIndex((column) => column.id === id);
		const range = (column: number): string =>
			`${columnLetter(column)}${String(firstRow)}:${columnLetter(column)}${String(job.places.lastRow)}`;
		validate(sheet, range(at), {
			type: 'list',
			allowBlank: true,
			formulae: [job.book.keys(`${id}s`)],
			error: 'Choose one of the list; it is the Shop book’s.'
		});
		sheet.addConditionalFormatting({
			ref: range(at + 1),
			rules: [
				{
					type: 'cellIs',
					operator: 'equal',
					priority: 1,
					formulae: [`"${chooseAgain}"`],
					style: {
						font: { color: { argb: stopInk }, bold: true },
						fill: { type: 'pattern', pattern: 'solid', bgColor: { argb: stopFaint } }
					}
				}
			]
		});
	}
	await writeColumns(sheet, columns, job.openings.length, {
		ids: true,
		legend: [
			['live formula', look('worked')],
			['value: chosen or computed by the app, not live', look('value')]
		]
	});
	sheet.commit();
}
