/**
 * A schedule of openings as people send it: which column is what, what each row becomes, what can't be read, and what
 * only a person can say. Nothing is stored here; the preview tells exactly which rows would go in.
 *
 * Step by step, a file each in `schedule/`: the table and its columns, what each line is, what dittos and merges stand
 * for, the unit of bare figures, the cells, counts and ranges in marks, and marks that stand twice.
 */
import { inputs, type Cells } from '../takeoff/inputs.ts';
import { placeOf } from './headings.ts';
import { readWrittenSchedule } from './schedule-file.ts';
import { staying, type Draft } from './schedule/draft.ts';
import { fillLines } from './schedule/fill.ts';
import { footnoteLegend } from './schedule/footnotes.ts';
import { readLines, type Line } from './schedule/lines.ts';
import {
	listed,
	type LeftOutReason,
	type Question,
	type ScheduleOptions,
	type SchedulePreview,
	type ScheduleRow
} from './schedule/preview.ts';
import { Questions } from './schedule/questions.ts';
import { CellReader, readsIn, type CellAnswers } from './schedule/read-cells.ts';
import { settleDuplicates } from './schedule/settle-duplicates.ts';
import { settleMarks } from './schedule/settle-marks.ts';
import {
	checkNumbers,
	settleLines,
	settlePhases,
	settleSizes,
	settleViewpoint
} from './schedule/settle-rows.ts';
import { findTable, type ScheduleTable } from './schedule/table.ts';
import { findUnits, remarksOf } from './schedule/units.ts';
import type { Sheet } from './sheet.ts';

export {
	scheduleMappingSchema,
	type CellProblem,
	type LeftOutReason,
	type Question,
	type ScheduleColumn,
	type ScheduleMapping,
	type ScheduleOptions,
	type SchedulePreview,
	type ScheduleRow
} from './schedule/preview.ts';

const noTable = (sheets: readonly Sheet[], sheet: string): SchedulePreview => ({
	sheet,
	sheets: sheets.map(({ name }) => name),
	headerRow: 0,
	signature: '',
	columns: [],
	rows: [],
	questions: [],
	problems: [
		{
			place: sheet,
			reason:
				'no heading row found; a schedule needs a row with headings such as Mark, Qty, Width, Height above its openings'
		}
	],
	notes: []
});

/**
 * Reads a schedule; one that this program wrote is read by the ids in it. Always gives a preview; when no headings are found it has no rows and says so in `problems`.
 *
 * Rows become openings; titles, totals, repeated headings and remarks are skipped with the reason. A cell that can't
 * be read stays empty and is listed with its place. What the file can't tell is a question; a question whose `answer`
 * is null has to be answered (in `mapping.answers`) before anything goes in.
 */
export function readSchedule(sheets: readonly Sheet[], options: ScheduleOptions): SchedulePreview {
	const written = readWrittenSchedule(sheets, options);
	if (written) return written;
	const questions = new Questions(options.mapping?.answers);
	const table = findTable(sheets, options, questions.given('rough'));
	if (!table) return noTable(sheets, options.mapping?.sheet ?? sheets[0]?.name ?? '');
	const notes: string[] = [];
	const lines = settleLines(
		readLines(table, ({ field }, text) => field !== null && readsIn(options, field, text)),
		table,
		questions
	);
	const drafts = readRows(sheets, table, lines, options, questions, notes);
	const rows = settleDuplicates(settleMarks(drafts, table, questions, notes), table.sheet, questions);
	checkNumbers(rows, table);
	const others = lines.filter((line) => !canBeOpening(line)).map((line) => skippedRow(line, table));
	noteMissing(table, notes);
	noteOtherTables(table, notes);
	return {
		sheet: table.sheet.name,
		sheets: sheets.map(({ name }) => name),
		headerRow: table.headerRow,
		signature: table.signature,
		columns: table.columns,
		rows: [...shownRows(rows), ...others].sort((a, b) => a.line - b.line || a.part - b.part),
		questions: questions.asked,
		problems:
			rows.length > 0
				? []
				: [
						{
							place: placeOf(table.sheet, table.headings.line, null),
							reason: `no openings below the headings in ${table.sheet.rowWord} ${table.headings.line}`
						}
					],
		notes
	};
}

/** Rows as they are shown, each with its number among those of its line. */
function shownRows(drafts: readonly Draft[]): ScheduleRow[] {
	const seen = new Map<number, number>();
	return drafts.map(({ line, cells, problems, notes, out }) => {
		const part = seen.get(line.source.line) ?? 0;
		seen.set(line.source.line, part + 1);
		return {
			line: line.source.line,
			part,
			cells,
			problems,
			notes,
			status: out === null ? 'opening' : 'skipped',
			why: out?.why ?? null,
			reason: out?.reason ?? null
		};
	});
}

/** An opening by what stands in it, also where the file hides it or an answer leaves it out. */
const canBeOpening = ({ out }: Line): boolean =>
	out === null || ['hidden', 'filtered', 'struck', 'alternate'].includes(out.reason);

/** Reads the cells of all lines that can be openings, and settles what is about single cells. */
function readRows(
	sheets: readonly Sheet[],
	table: ScheduleTable,
	lines: readonly Line[],
	options: ScheduleOptions,
	questions: Questions,
	notes: string[]
): readonly Draft[] {
	const openings = lines.filter(canBeOpening);
	const comesIn = ({ out }: Line): boolean => out === null;
	const remarks = remarksOf(sheets, table, lines);
	const filled = fillLines(table, openings, comesIn, questions);
	const unitAt = findUnits({
		table,
		lines: openings.filter(comesIn),
		all: lines,
		remarks,
		measures: options.measures,
		questions,
		notes
	});
	const texts = [...remarks.around, ...remarks.within].map(({ text }) => text);
	const answers: CellAnswers = {
		roughIsFinished: questions.given('rough') === 'finished',
		sizeOrder: questions.given('sizeOrder') === 'heightFirst' ? 'heightFirst' : 'widthFirst',
		takesProbable: (letter) => questions.given(`date:${letter}`) === 'probable'
	};
	const context = { table, options, unitAt, answers, legend: footnoteLegend(texts) };
	const reader = new CellReader(context, filled);
	const drafts = filled.map((line) => reader.read(line));
	for (const draft of drafts)
		if (draft.out === null && Object.keys(draft.cells).length === 0 && draft.problems.length === 0)
			draft.out = { reason: 'remark', why: 'nothing under the headings that are known' };
	settleSizes(drafts, table, questions);
	settlePhases(drafts, questions);
	settleViewpoint(staying(drafts), table, [...remarks.around, ...remarks.within], questions, notes);
	return drafts;
}

/** Lines that may hide openings: with moved cells, or under other headings. */
const mayHide = (reason: LeftOutReason | null): boolean => reason === 'ragged' || reason === 'otherTable';

/** A line that is no opening. Only one that may hide one has a problem, and of another table its headings. */
function skippedRow({ source, out }: Line, { sheet, otherHeadings }: ScheduleTable): ScheduleRow {
	const [why, reason] = [out?.why ?? null, out?.reason ?? null];
	const hides = { column: null, field: null, text: '', reason: why ?? '', offers: null };
	const problems =
		reason === 'ragged' || otherHeadings.has(source)
			? [{ ...hides, place: placeOf(sheet, source.line, null) }]
			: [];
	return { line: source.line, part: 0, cells: {}, problems, notes: [], status: 'skipped', why, reason };
}

/** Inputs that nothing can be computed without and no column holds. */
function noteMissing({ columns }: ScheduleTable, notes: string[]): void {
	const missing = inputs.filter(
		({ id, required }) =>
			required && id !== 'quantity' && !columns.some(({ field, also }) => field === id || also === id)
	);
	if (missing.length > 0)
		notes.push(
			`No column for: ${missing.map((input) => input.title).join(', ')}. They stay empty, to be entered later.`
		);
}

/** One table is read at a time; the others are named, so that none is forgotten. */
function noteOtherTables({ sheet, otherHeadings, otherSheets }: ScheduleTable, notes: string[]): void {
	const lines = Array.from(otherHeadings, ({ line }) => line);
	if (lines.length > 0)
		notes.push(
			`Other headings stand in ${sheet.rowWord} ${listed(lines)}: what is below them is left out here. Bring in the file once more with that ${sheet.rowWord} for the headings.`
		);
	if (otherSheets.length > 0)
		notes.push(
			`Openings may stand on other sheets too: ${listed(otherSheets)}. Bring in the file once more for each.`
		);
}

/** Questions that keep anything from going in. */
export const unansweredQuestions = (preview: SchedulePreview): readonly Question[] =>
	preview.questions.filter((question) => question.answer === null);

/** The rows that go in, in the order of the file; none while a question is open. */
export function scheduleRows(
	preview: SchedulePreview
): { readonly line: number; readonly part: number; readonly cells: Cells }[] {
	if (unansweredQuestions(preview).length > 0) return [];
	return preview.rows.flatMap(({ line, part, cells, status }) =>
		status === 'opening' ? [{ line, part, cells }] : []
	);
}

/** Everything that keeps the schedule from being read whole, with its place: for the terminal. */
export function scheduleProblems(
	preview: SchedulePreview
): { readonly place: string; readonly reason: string }[] {
	const inRows = preview.rows
		.filter(({ status, reason }) => status === 'opening' || mayHide(reason))
		.flatMap((row) =>
			row.problems.map(({ place, text, reason }) => ({
				place,
				reason: text === '' ? reason : `“${text}”: ${reason}`
			}))
		);
	return [
		...preview.problems,
		...unansweredQuestions(preview).map(({ text, lines }) => ({
			place: `${preview.sheet}, ${listed(lines)}`,
			reason: text
		})),
		// All marks of a range share the problems of their row.
		...new Map(inRows.map((problem) => [`${problem.place} ${problem.reason}`, problem])).values()
	];
}
