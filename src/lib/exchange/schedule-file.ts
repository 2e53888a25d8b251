/**
 * The grid as a file that reads back to the same rows: cells as they were typed, in the columns and the order shown,
 * with the results that stand beside them for whoever reads it. Only what is typed comes back in.
 *
 * Line 1 names the format, the measures and the job; line 2 has the headings, line 3 the ids of the columns; then one
 * line a row, its number first. Columns are found by their ids, so that headings may be changed and columns moved.
 */
import { decimalsOf, inUnit } from '../quantity/format.ts';
import type { QuantityDefinition } from '../rulebook/definition.ts';
import { readCell, typedText } from '../takeoff/cell.ts';
import type { Engine } from '../takeoff/engine.ts';
import { inputOf, inputs, isInputId, type Cell, type InputId, type Measures } from '../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import { showKey } from '../takeoff/show.ts';
import { unitFor } from '../takeoff/vocabulary.ts';
import { writeDelimited } from './delimited-text.ts';
import type {
	CellProblem,
	ScheduleColumn,
	ScheduleOptions,
	SchedulePreview,
	ScheduleRow
} from './schedule.ts';
import { columnLetter, shown, textOf, type Sheet, type SheetRow } from './sheet.ts';

const format = 'Coilwright schedule 1';
const numberId = 'row';
const headLines = 3;

export interface ScheduleFile {
	/** Name of the job. */
	readonly name: string;
	readonly measures: Measures;
	readonly engine: Engine;
	/** All rows of the job in order. */
	readonly openings: readonly OpeningTakeoff[];
	/** Ids of the columns shown, from the left; inputs that hold something and are not among them follow. */
	readonly columns: readonly string[];
}

/** What a cell of the file holds. */
type FileCell = string | number | null;

export interface FileColumn {
	readonly id: string;
	readonly heading: string;
	/** Typed by a person; results are for reading only. */
	readonly typed: boolean;
	/** Content for the row at a position, from 0. */
	readonly cell: (at: number) => FileCell;
}

/**
 * As it was typed where reading that again in these measures gives the same amount; else with the unit it was
 * understood in.
 */
function typedIn(id: InputId, cell: Cell, measures: Measures): string {
	if (typeof cell !== 'object' || cell === null) return typedText(cell);
	const again = readCell(inputOf(id), cell.typed, { measures, keys: [] });
	const same = again.ok && typeof again.cell === 'object' && again.cell?.amount === cell.amount;
	return same ? cell.typed : typedText(cell);
}

/** A figure that every program writes the way it is written here can stand as a figure; all else is text. */
const plainFigure = (text: string): FileCell =>
	/^(?:0|[1-9]\d{0,14})(?:\.\d{0,8}[1-9])?$/u.test(text) ? Number(text) : text;

function inputColumn(id: InputId, { openings, measures }: ScheduleFile): FileColumn {
	return {
		id,
		heading: inputOf(id).title,
		typed: true,
		cell: (at) => {
			const cell = openings[at]?.row.cells[id] ?? null;
			if (cell === null || cell === '') return null;
			return inputOf(id).kind === 'text' ? typedText(cell) : plainFigure(typedIn(id, cell, measures));
		}
	};
}

function resultColumn(
	{ id, title, kind }: QuantityDefinition,
	unit: string,
	{ engine, openings }: ScheduleFile
): FileColumn {
	return {
		id,
		heading: unit === '1' ? title : `${title}, ${unit}`,
		typed: false,
		cell: (at) => {
			const value = openings[at]?.get(id) ?? null;
			if (value === null) return null;
			if (typeof value === 'string') return showKey(engine.book, id, value);
			if (kind === 'flag') return value === 1 ? 'yes' : 'no';
			return Number(inUnit(value, unit).toFixed(decimalsOf(unit)));
		}
	};
}

/** The columns of the file, the number of the row first. */
export function fileColumns(file: ScheduleFile): FileColumn[] {
	const { openings, columns, engine, measures } = file;
	const filled = new Set(openings.flatMap(({ row }) => Object.keys(row.cells)));
	const shownIds = [...new Set(columns)];
	const rest = inputs.map(({ id }) => id).filter((id) => filled.has(id) && !shownIds.includes(id));
	const of = (id: string): FileColumn[] => {
		if (isInputId(id)) return [inputColumn(id, file)];
		const quantity = engine.quantities.find((one) => one.id === id);
		return quantity ? [resultColumn(quantity, unitFor(quantity, measures), file)] : [];
	};
	const number: FileColumn = { id: numberId, heading: 'Row', typed: false, cell: (at) => at + 1 };
	return [number, ...[...shownIds, ...rest].flatMap(of)];
}

/** The first line of the file. */
export const fileMark = ({ measures, name }: ScheduleFile): readonly string[] => [format, measures, name];

const month =
	'(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)';

/** A spreadsheet that opens delimited text turns these into dates, figures or truth values. An apostrophe keeps it from it. */
const turned = new RegExp(
	`^'|^[\\s\\d.,:/+()%$€£¥eE–-]*\\d[\\s\\d.,:/+()%$€£¥eE–-]*$|^(?:true|false)$|\\d[\\s./-]*${month}\\b|\\b${month}[\\s./-]*\\d`,
	'iu'
);

/** Text that is not changed by a program that opens the file and saves it again; `unguarded` takes the apostrophe off. */
const guarded = (cell: FileCell): FileCell =>
	typeof cell === 'string' && turned.test(cell) ? `'${cell}` : cell;
const unguarded = (text: string): string => (turned.test(text.slice(1)) ? text.replace(/^'/u, '') : text);

/** The file as comma-separated text (see `writeDelimited`). */
export function scheduleText(file: ScheduleFile): string {
	const columns = fileColumns(file);
	const guard = ({ id, typed }: FileColumn, cell: FileCell): FileCell =>
		typed && isInputId(id) ? guarded(cell) : cell;
	return writeDelimited([
		fileMark(file).map((text) => guarded(text)),
		columns.map(({ heading }) => heading),
		columns.map(({ id }) => id),
		...file.openings.map((_, at) => columns.map((column) => guard(column, column.cell(at))))
	]);
}

// Back in.

const cellText = (row: SheetRow | undefined, index: number): string => textOf(row?.cells[index]).trim();

const measuresOf = (sheet: Sheet): Measures | null => {
	const [first] = sheet.rows;
	const measures = cellText(first, 1);
	if (first?.line !== 1 || cellText(first, 0) !== format) return null;
	return measures === 'imperial' || measures === 'metric' ? measures : null;
};

/**
 * Reads a file of {@link scheduleText} or of the workbook beside it, cell by cell as in the grid, in the measures of
 * the file. Null when no sheet is one, or its ids are gone: then it is a schedule like any other.
 */
export function readWrittenSchedule(
	sheets: readonly Sheet[],
	options: ScheduleOptions
): SchedulePreview | null {
	const wanted = options.mapping?.sheet;
	const sheet = sheets.find(
		(one) => (wanted === undefined || one.name === wanted) && measuresOf(one) !== null
	);
	const measures = sheet ? measuresOf(sheet) : null;
	const ids = sheet?.rows[2];
	if (!sheet || measures === null || ids?.line !== headLines) return null;
	const columns = ids.cells.flatMap((_, index): ScheduleColumn[] => {
		const id = cellText(ids, index);
		const field = isInputId(id) ? id : null;
		const how = field === null ? 'worked out, for reading only' : 'a column of the grid';
		return id === '' || id === numberId
			? []
			: [
					{
						index,
						letter: columnLetter(index),
						heading: cellText(sheet.rows[1], index),
						field,
						also: null,
						unit: null,
						how
					}
				];
	});
	if (!columns.some(({ field }) => field !== null)) return null;
	const rows = sheet.rows.slice(headLines).map((row) => readRow(row, sheet, columns, measures, options));
	return {
		sheet: sheet.name,
		sheets: sheets.map(({ name }) => name),
		headerRow: headLines - 1,
		signature: format,
		columns,
		rows,
		questions: [],
		problems: [],
		notes: [
			`Written by Coilwright, ${measures}: every cell is taken as it was typed.`,
			...(columns.some(({ field }) => field === null) ? ['Columns that are worked out are left out.'] : [])
		]
	};
}

function readRow(
	source: SheetRow,
	sheet: Sheet,
	columns: readonly ScheduleColumn[],
	measures: Measures,
	{ keysFor }: ScheduleOptions
): ScheduleRow {
	const cells: Partial<Record<InputId, Cell>> = {};
	const problems: CellProblem[] = [];
	for (const column of columns) {
		const { field, index, letter, heading } = column;
		if (field === null) continue;
		const raw = source.cells[index];
		const text = sheet.rowWord === 'line' ? unguarded(textOf(raw)) : textOf(raw);
		const input = inputOf(field);
		const read =
			typeof raw === 'object'
				? ({
						ok: false,
						reason: 'the spreadsheet turned this into something else; write it as text'
					} as const)
				: readCell(input, text, { measures, keys: keysFor(input) });
		if (read.ok) {
			if (read.cell !== null) cells[field] = read.cell;
			continue;
		}
		problems.push({
			column: letter,
			field,
			text: shown(text),
			reason: read.reason,
			place: `${sheet.name}, ${sheet.rowWord} ${String(source.line)}, ${letter} “${heading}”`,
			offers: null
		});
	}
	return {
		line: source.line,
		part: 0,
		cells,
		problems,
		notes: [],
		status: 'opening',
		why: null,
		reason: null
	};
}
