/**
 * The Takeoff sheet: every rule of chapters 1 to 6 as a live formula, what the app chose as marked values with a live
 * test beside each; folded aside what the standards make of each anchor, and what was looked up.
 */
import type { Workbook, Worksheet } from 'exceljs';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { concreteRules } from '../../takeoff/rules/concrete.ts';
import { masonryRules } from '../../takeoff/rules/masonry.ts';
import { steelRules } from '../../takeoff/rules/steel.ts';
import { woodRules } from '../../takeoff/rules/wood.ts';
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
import {
	chooseAgain,
	choiceColumns,
	nothingFits,
	openAgain,
	openingColumns,
	valuesColumn,
	valuesStand
} from './takeoff-openings.ts';
import type { WorkbookJob } from './workbook-job.ts';

const chapterBands: ReadonlyMap<number, string> = new Map([
	[1, 'Sides, seen from the coil side'],
	[2, 'Geometry'],
	[3, 'Barrel, drive, circuit, springs'],
	[4, 'What holds it to the building'],
	[5, 'Hood and consumables'],
	[6, 'Weight and lifting']
]);

/** The working of the standards, for one anchor; what comes out of it stands in chapter 4. */
const byStandard = (
	[
		['wood', woodRules],
		['thin steel', steelRules],
		['concrete', concreteRules],
		['masonry', masonryRules]
	] as const
).map(([standard, rules]) => [standard, new Set(rules.map(({ id }) => id))] as const);
const standardOf: ReadonlySet<string> = new Set(byStandard.flatMap(([, ids]) => [...ids]));

export function planTakeoff(job: WorkbookJob): PlannedColumn[] {
	const { engine } = job;
	const rules = engine.quantities.filter(
		({ id, chapter }) => engine.rules.rule(id) && chapterBands.has(chapter)
	);
	const columns = (list: readonly QuantityDefinition[], band: (rule: QuantityDefinition) => string) =>
		list.flatMap((rule) => ruleColumns(job, rule, 'Takeoff', band(rule)));
	return [
		...openingColumns(job),
		...choiceColumns(job),
		valuesColumn(job),
		...inputColumns(job),
		...columns(
			rules.filter(({ id }) => !standardOf.has(id)),
			({ chapter }) => chapterBands.get(chapter) ?? ''
		),
		...byStandard.flatMap(([standard, ids]) =>
			columns(
				rules.filter(({ id }) => ids.has(id)),
				() => `One anchor: ${standard}`
			).map((column) => ({ ...column, aside: true }))
		),
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
	const range = (column: number): string =>
		`${columnLetter(column)}${String(firstRow)}:${columnLetter(column)}${String(job.places.lastRow)}`;
	const columnOf = (id: string): number => columns.findIndex((column) => column.id === id);
	for (const { id, vocabulary } of chosenQuantities) {
		const at = columnOf(id);
		validate(
			sheet,
			range(at),
			vocabulary === undefined
				? {
						type: 'whole',
						operator: 'greaterThanOrEqual',
						allowBlank: true,
						formulae: [2],
						error: 'A whole number, 2 or more.'
					}
				: {
						type: 'list',
						allowBlank: true,
						formulae: [job.book.keys(vocabulary)],
						error: 'Choose one of the list; it is the Shop book’s.'
					}
		);
		markWords(sheet, range(at + 1), [chooseAgain, nothingFits]);
	}
	markWords(sheet, range(columnOf(valuesStand)), [openAgain]);
	await writeColumns(sheet, columns, job.openings.length, {
		ids: true,
		legend: [
			['live formula', look('worked')],
			['value: chosen or computed by the app, not live', look('value')]
		]
	});
	sheet.commit();
}

/** Words that ask for something, in red. */
function markWords(sheet: Worksheet, ref: string, words: readonly string[]): void {
	sheet.addConditionalFormatting({
		ref,
		rules: words.map((word, i) => ({
			type: 'cellIs',
			operator: 'equal',
			priority: 1 + i,
			formulae: [`"${word}"`],
			style: {
				font: { color: { argb: stopInk }, bold: true },
				fill: { type: 'pattern', pattern: 'solid', bgColor: { argb: stopFaint } }
			}
		}))
	});
}
