/** From the rows of a job to a file of pages: takes off, gathers what is asked for, and lays it out. */
import { buildEngine } from '../../takeoff/engine.ts';
import type { Measures, OpeningRow } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import type { OrderPaper } from '../order-paper.ts';
import type { PaperId } from '../paper-sizes.ts';
import { damageNotesPdf, type DamageNotesTask } from './damage-notes-pdf.ts';
import { drawingSheet } from './drawing-sheet.ts';
import { drawingsPdf } from './drawings-pdf.ts';
import { measureSheetPdf, type MeasureSheetTask } from './measure-sheet-pdf.ts';
import { orderPdf } from './order-pdf.ts';
import { schedulePdf } from './schedule-pdf.ts';
import { scheduleSheet, unknownColumns } from './schedule-sheet.ts';
import { tomorrowPdf, type TomorrowTask } from './tomorrow-pdf.ts';

export type PrintTask = SheetTask | DamageNotesTask | MeasureSheetTask | OrderTask | TomorrowTask;

/** An order on paper. */
interface OrderTask {
	readonly what: 'order';
	readonly order: OrderPaper;
	readonly paper: PaperId;
	readonly printedAt: Date;
}

export interface SheetTask {
	readonly what: 'schedule' | 'drawings';
	readonly book: TechnicalBook;
	/** All rows of the job: openings of their own need their marks. */
	readonly rows: readonly OpeningRow[];
	readonly measures: Measures;
	/** Ids of the rows to print, in this order; null: all in the order of the job. */
	readonly chosen: readonly string[] | null;
	/** Ids of the schedule’s columns, in this order; null: every column that holds something. */
	readonly columns: readonly string[] | null;
	readonly paper: PaperId;
	readonly jobName: string;
	readonly printedAt: Date;
}

export type Print =
	| { readonly ok: true; readonly content: Uint8Array }
	| { readonly ok: false; readonly problem: 'tooLarge' | 'wrong'; readonly message: string };

/** In one file: what a sheet of paper each, or cells of the schedule, come to in time and memory. */
const mostDrawings = 500;
const mostCells = 200_000;

const wrong = (message: string): Print => ({ ok: false, problem: 'wrong', message });
const tooLarge = (message: string): Print => ({ ok: false, problem: 'tooLarge', message });

const counted = (count: number): string => count.toLocaleString('en-US');

/** @throws Error when the book’s rules don’t hold: they were checked when it was stored. */
export async function makePrint(task: PrintTask): Promise<Print> {
	if (task.what === 'tomorrow') return { ok: true, content: await tomorrowPdf(task) };
	if (task.what === 'damageNotes') return { ok: true, content: await damageNotesPdf(task) };
	if (task.what === 'measureSheet') return { ok: true, content: await measureSheetPdf(task) };
	if (task.what === 'order')
		return { ok: true, content: await orderPdf(task.order, task.paper, task.printedAt) };
	const { chosen, paper, jobName, printedAt } = task;
	const built = buildEngine(task.book);
	if (!built.ok) throw new Error(`the technical book has ${built.problems.length} problems in its rules`);
	const { engine } = built;
	const job = engine.takeoff(task.rows, task.measures);
	const byRow = new Map(job.openings.map((opening) => [opening.row.id, opening]));
	const openings: OpeningTakeoff[] =
		chosen === null ? [...job.openings] : [...new Set(chosen)].flatMap((id) => byRow.get(id) ?? []);
	const missing = chosen?.filter((id) => !byRow.has(id)).length ?? 0;
	if (missing > 0)
		return wrong(
			`${counted(missing)} of the rows ${missing === 1 ? 'is' : 'are'} not there any more. Load the page again.`
		);
	if (openings.length === 0) return wrong('There are no openings to print.');

	if (task.what === 'drawings') {
		if (openings.length > mostDrawings)
			return tooLarge(
				`These are ${counted(openings.length)} drawings; at most ${counted(mostDrawings)} go into one file. Show fewer rows, and print those shown.`
			);
		const sheets = openings.map((opening) => drawingSheet(engine, opening, job.measures));
		return { ok: true, content: await drawingsPdf(sheets, paper, { jobName, printedAt }) };
	}

	const unknown = unknownColumns(engine, task.columns ?? []);
	if (unknown.length > 0)
		return wrong(`There is no column ${unknown.slice(0, 5).join(', ')} in this shop book.`);
	const sheet = scheduleSheet(engine, job, openings, task.columns);
	const cells = sheet.names.length * sheet.columns.length;
	if (cells > mostCells)
		return tooLarge(
			`This schedule has ${counted(sheet.names.length)} rows of ${counted(sheet.columns.length)} columns, ${counted(cells)} cells; at most ${counted(mostCells)} go into one file. Print the columns shown, or fewer rows.`
		);
	return { ok: true, content: await schedulePdf(sheet, paper, { jobName, printedAt }) };
}
