/** The Labour sheet: hours of every task for one opening, by trade, and for the whole job. All live. */
import type { Workbook, Worksheet } from 'exceljs';
import { taskRuleIds } from '../../takeoff/rules/labour.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { columnLetter } from '../sheet.ts';
import { countFormat, formatOf, look } from './look.ts';
import { firstRow } from './places.ts';
import { finishColumns, type PlannedColumn } from './planned-column.ts';
import { ruleColumns } from './rule-columns.ts';
import {
	openSheet,
	printedColumns,
	put,
	setColumns,
	writeColumns,
	writeTitle,
	type Column,
	type Printing
} from './sheet-writing.ts';
import { live, openingAt, openingsCount, type Result, type WorkbookJob } from './workbook-job.ts';

const sheetName = 'Labour';

/** Mark, opening and count, read over from Takeoff. */
export function leadColumns(job: WorkbookJob, sheet: 'Labour' | 'Price'): PlannedColumn[] {
	const lead = (
		name: string,
		id: string,
		heading: string,
		width: number,
		isCount: boolean,
		result: (at: number) => Result
	): PlannedColumn => ({
		name: `${sheet} ${name}`,
		id,
		band: 'Opening',
		column: () => ({
			heading,
			width,
			style: look('worked', isCount ? countFormat : { align: 'left' }),
			cell: live(job.places.cell(name, sheet), result)
		})
	});
	return [
		lead('rowMark', 'mark', 'Mark', 12, false, (at) => openingAt(job, at).mark),
		lead(
			'rowOpening',
			'openingId',
			'Opening with a row of its own',
			13,
			false,
			(at) => openingAt(job, at).openingId ?? ''
		),
		lead(openingsCount, 'openings', 'Openings', 9, true, (at) => openingAt(job, at).quantity)
	];
}

export function planLabour(job: WorkbookJob): PlannedColumn[] {
	const { engine } = job;
	const rules = engine.quantities.filter(({ id, chapter }) => chapter === 7 && engine.rules.rule(id));
	const byId = new Map(rules.map((rule) => [rule.id, rule]));
	const ofTasks = new Set<string>();
	const short = (rule: QuantityDefinition, task: string): string => {
		const title = rule.title.startsWith(`${task}: `) ? rule.title.slice(task.length + 2) : rule.title;
		return title.charAt(0).toUpperCase() + title.slice(1);
	};
	const tasks = engine.book.tasks.flatMap((task) =>
		Object.values(taskRuleIds(task.key)).flatMap((id) => {
			const rule = byId.get(id);
			if (!rule) return [];
			ofTasks.add(id);
			return ruleColumns(job, rule, sheetName, `${task.title}, ${task.trade}`, short(rule, task.title));
		})
	);
	const rest = rules
		.filter(({ id }) => !ofTasks.has(id))
		.flatMap((rule) => ruleColumns(job, rule, sheetName, 'All tasks'));
	return [...leadColumns(job, sheetName), ...rest, ...tasks];
}

export async function writeLabour(
	workbook: Workbook,
	job: WorkbookJob,
	planned: readonly PlannedColumn[],
	printing: Printing
): Promise<void> {
	const columns = finishColumns(planned);
	const summaryFrom = job.places.lastRow + 4;
	const text = {
		name: sheetName,
		title: `${job.name}: labour`,
		lead: 'Hours for ONE opening of the row, no factors for height, night or learning; totals count every opening.'
	} as const;
	const sheet = openSheet(workbook, text, printing, {
		...printedColumns(columns),
		headingsFrom: firstRow - 3,
		frozenColumns: 3,
		frozenRows: firstRow - 1,
		lastRow: summaryFrom + 1 + job.engine.book.tasks.length
	});
	setColumns(sheet, columns);
	writeTitle(sheet, text);
	await writeColumns(sheet, columns, job.openings.length, {
		ids: true,
		legend: [['live formula', look('worked')]]
	});
	writeTasks(sheet, job, columns, summaryFrom);
	sheet.commit();
}

/** Hours of the job by task, from the totals above. */
function writeTasks(sheet: Worksheet, job: WorkbookJob, columns: readonly Column[], top: number): void {
	['Task', null, 'Hours', 'Trade'].forEach((title, i) =>
		put(
			sheet,
			top,
			i + 1,
			title,
			look('band', i === 2 ? { align: 'right' } : i === 3 ? { align: 'left' } : {})
		)
	);
	const totalRow = String(job.places.lastRow + 1);
	job.engine.book.tasks.forEach((task, i) => {
		const row = top + 1 + i;
		const at = columns.findIndex(({ id }) => id === taskRuleIds(task.key).hours);
		const total = columns[at]?.total?.value;
		const result = typeof total === 'object' && total && 'result' in total ? total.result : undefined;
		put(sheet, row, 1, task.title, look('text'));
		put(sheet, row, 2, null, look('text'));
		put(sheet, row, 4, task.trade, look('text', { align: 'left' }));
		put(
			sheet,
			row,
			3,
			{ formula: `${columnLetter(at)}${totalRow}`, ...(typeof result === 'number' ? { result } : {}) },
			look('worked', formatOf({ kind: 'number' }, 'h'))
		);
	});
}
