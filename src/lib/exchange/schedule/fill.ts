/** What stands for what is not written: ditto marks, merged cells, and blanks below a filled cell where a person says so. */
import { inputOf, type InputId } from '../../takeoff/inputs.ts';
import { oneLine, textOf, type CellText, type SheetRow } from '../sheet.ts';
import { isDitto } from './ditto.ts';
import type { Line } from './lines.ts';
import { listedLines, type ScheduleColumn } from './preview.ts';
import type { Questions } from './questions.ts';
import type { ScheduleTable } from './table.ts';

interface FilledCell {
	readonly cell: CellText;
	/** Where it does not stand in the row itself. */
	readonly from: { readonly how: 'merge' | 'ditto' | 'above'; readonly line: number } | null;
}

/** A line with what its cells stand for, by column from 0. */
export interface FilledLine {
	readonly line: Line;
	readonly cells: ReadonlyMap<number, FilledCell>;
	/** Columns with a ditto mark that has nothing above it. */
	readonly orphans: ReadonlySet<number>;
}

/** Keys that are blank where nothing differs or is special, so that nobody is asked. */
const blankIsPlain: ReadonlySet<InputId> = new Set(['rightMounting', 'rightGuide', 'drawnFrom', 'hold']);

/** Whether a blank cell below a filled one may mean the same again. */
const mayRepeat = (field: InputId): boolean =>
	field === 'phase' || field === 'location' || (inputOf(field).kind === 'key' && !blankIsPlain.has(field));

/** The value that a merge gives to each row it covers below its first, for one column. */
function mergedValues(table: ScheduleTable, column: number): Map<number, FilledCell> {
	const { sheet, below, headings } = table;
	const down = sheet.merges
		.filter(({ top, bottom, left }) => left === column && bottom > top && top > headings.line)
		.sort((a, b) => a.top - b.top);
	const values = new Map<number, FilledCell>();
	let next = 0;
	let top: SheetRow | null = null;
	for (const row of below) {
		while (next + 1 < down.length && (down[next]?.bottom ?? 0) < row.line) next++;
		const merge = down[next];
		if (!merge || row.line < merge.top || row.line > merge.bottom) continue;
		if (row.line === merge.top) top = row;
		else if (top?.line === merge.top) {
			const cell = top.cells[column];
			if (cell !== undefined && oneLine(textOf(cell)) !== '')
				values.set(row.line, { cell, from: { how: 'merge', line: merge.top } });
		}
	}
	return values;
}

/**
 * Fills the cells of all opening lines. A ditto mark takes what the opening row above stands for, whether that row
 * comes in or not; a merge gives its value to every row it covers. Asks what blanks below filled cells mean.
 *
 * @param comesIn whether a line will be a row of the job; nothing is asked about the others
 */
export function fillLines(
	table: ScheduleTable,
	lines: readonly Line[],
	comesIn: (line: Line) => boolean,
	questions: Questions
): readonly FilledLine[] {
	const numbers = table.columns.find(({ field }) => field === 'openingNumber')?.index;
	const ofItsOwn = ({ source }: Line): boolean =>
		numbers !== undefined && oneLine(textOf(source.cells[numbers])) !== '';
	const filled = lines.map((line) => ({
		line,
		cells: new Map<number, FilledCell>(),
		orphans: new Set<number>()
	}));
	for (const column of table.columns) {
		if (column.field === null) continue;
		const { index } = column;
		const merged = mergedValues(table, index);
		let above: { cell: CellText; line: number } | null = null;
		for (const { line, cells, orphans } of filled) {
			const own = line.source.cells[index];
			const text = oneLine(textOf(own));
			const value: FilledCell | undefined =
				text === '' || own === undefined ? merged.get(line.source.line) : { cell: own, from: null };
			if (value && isDitto(oneLine(textOf(value.cell)))) {
				if (above === null) orphans.add(index);
				else if (oneLine(textOf(above.cell)) !== '')
					cells.set(index, { cell: above.cell, from: { how: 'ditto', line: above.line } });
			} else if (value) cells.set(index, value);
			above = { cell: cells.get(index)?.cell ?? '', line: line.source.line };
		}
		if (!mayRepeat(column.field)) continue;
		fillBlanks(
			column,
			column.field,
			filled.filter(
				({ line, orphans }) =>
					comesIn(line) &&
					!ofItsOwn(line) &&
					!orphans.has(index) &&
					!(column.field === 'phase' && (line.phase !== null || line.alternate !== null))
			),
			questions
		);
	}
	return filled;
}

/** Asks about blanks below a filled cell of a column, and fills them when they mean the same again. */
function fillBlanks(
	{ index, letter, heading }: ScheduleColumn,
	field: InputId,
	lines: readonly { readonly line: Line; readonly cells: Map<number, FilledCell> }[],
	questions: Questions
): void {
	const first = lines.findIndex(({ cells }) => cells.has(index));
	const blanks = first < 0 ? [] : lines.slice(first).filter(({ cells }) => !cells.has(index));
	if (blanks.length === 0) return;
	const numbers = blanks.map(({ line }) => line.source.line);
	const answer = questions.ask({
		id: `blank:${field}`,
		text: `${inputOf(field).title} (${letter} “${heading}”) is blank in ${numbers.length === 1 ? 'row' : 'rows'} ${listedLines(numbers)}, below filled cells. What does blank mean?`,
		lines: numbers,
		choices: [
			{ value: 'none', title: 'nothing: the cell stays blank' },
			{ value: 'above', title: 'the same as in the row above' }
		],
		usual: 'none'
	});
	if (answer !== 'above') return;
	let above: { cell: FilledCell; line: number } | null = null;
	for (const { line, cells } of lines.slice(first)) {
		const own = cells.get(index);
		if (own) above = { cell: own, line: line.source.line };
		else if (above) cells.set(index, { cell: above.cell.cell, from: { how: 'above', line: above.line } });
	}
}
