/** The Openings sheet: what was typed, one row a mark or an opening with a row of its own. Everything else reads from it. */
import type { CellValue, DataValidation, Workbook, Worksheet } from 'exceljs';
import { convert } from '../../quantity/units.ts';
import { inputs, type Cell, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import { inputQuantities, unitFor } from '../../takeoff/vocabulary.ts';
import { columnLetter } from '../sheet.ts';
import { headingOf, look, textFormat, type LookOptions } from './look.ts';
import { firstRow } from './places.ts';
import {
	longestKey,
	openSheet,
	printedColumns,
	setColumns,
	validate,
	widthFor,
	writeColumns,
	writeTitle,
	type Column,
	type Printing
} from './sheet-writing.ts';
import { openingAt, type WorkbookJob } from './workbook-job.ts';

const quantityById = new Map(inputQuantities.map((quantity) => [quantity.id, quantity]));

const inputLetter = (id: InputId): string => columnLetter(inputs.findIndex((input) => input.id === id));

/** Cell of an input in the row of the formula, seen from another sheet. */
export const inputCell = (id: InputId, row: string): string => `Openings!${inputLetter(id)}${row}`;

/** Cells of an input of all openings. */
export const inputColumn = (id: InputId, lastRow: number): string =>
	`Openings!$${inputLetter(id)}$${String(firstRow)}:$${inputLetter(id)}$${String(lastRow)}`;

/** Vocabulary of a key input. */
export const vocabularyOf = (id: InputId): string => quantityById.get(id)?.vocabulary ?? '';

/** The unit an input stands in. */
function unitOf(job: WorkbookJob, input: InputDefinition): string {
	const quantity = quantityById.get(input.id);
	return quantity ? unitFor(quantity, job.measures) : '1';
}

const own: ReadonlySet<InputId> = new Set(['mark', 'openingNumber', 'quantity', 'note']);

const widths: Readonly<Partial<Record<InputId, number>>> = { mark: 11, location: 24, phase: 8, note: 34 };

/** A stored cell as it stands in the sheet, a measured one in `shownIn`; text is text whatever it begins with. */
export function inputFigure(cell: Cell, shownIn: string): string | number | null {
	if (cell === null || cell === '') return null;
	if (typeof cell !== 'object') return cell;
	return cell.unit === shownIn ? cell.amount : convert(cell.amount, cell.unit, shownIn);
}

/** Position of the row that holds the mark an opening of its own belongs to. */
export function headPositions(openings: readonly OpeningTakeoff[]): (at: number) => number | null {
	const heads = new Map<string, number>();
	openings.forEach((opening, at) => {
		if (opening.openingId === null && opening.mark !== '' && !heads.has(opening.mark))
			heads.set(opening.mark, at);
	});
	return (at) => {
		const opening = openings[at];
		return opening ? (heads.get(opening.mark) ?? null) : null;
	};
}

function openingColumns(job: WorkbookJob): Column[] {
	const headOf = headPositions(job.openings);
	return inputs.map((input, i): Column => {
		const { id, kind, group, title } = input;
		const shownIn = unitOf(job, input);
		const heading = headingOf(title, shownIn);
		const letter = columnLetter(i);
		const options: LookOptions =
			kind === 'text'
				? { format: textFormat, align: 'left', wrap: id === 'note' || id === 'location' }
				: kind === 'key'
					? { format: textFormat, align: 'left' }
					: { align: 'right' };
		const typed = look('typed', options);
		// A formula in a cell for text would be shown and not worked out.
		const taken = look('taken', kind === 'text' || kind === 'key' ? { align: 'left' } : options);
		const takesOver = (at: number): number | null => {
			const opening = openingAt(job, at);
			const cell = opening.row.cells[id];
			const blank = cell === undefined || cell === null || cell === '';
			const head = opening.openingId === null || own.has(id) ? null : headOf(at);
			return blank && head !== null ? head : null;
		};
		return {
			id,
			band: group,
			heading,
			width:
				widths[id] ?? widthFor(heading, kind === 'key' ? longestKey(job.engine.rules.keysOf(id) ?? []) : 7),
			style: typed,
			aside: false,
			...(options.wrap === true
				? {
						wrapped: (at: number): string => {
							const cell = openingAt(job, at).cell(id);
							return typeof cell === 'string' ? cell : '';
						}
					}
				: {}),
			cell: (at): CellValue => {
				const head = takesOver(at);
				const opening = openingAt(job, at);
				const value = inputFigure(
					head === null ? (opening.row.cells[id] ?? null) : opening.cell(id),
					shownIn
				);
				if (head === null) return value;
				const address = `${letter}${String(firstRow + head)}`;
				return { formula: `IF(${address}="","",${address})`, result: value ?? '' };
			},
			cellStyle: (at) => (takesOver(at) === null ? typed : taken)
		};
	});
}

/** What may be typed into a column. */
function rule(job: WorkbookJob, input: InputDefinition): DataValidation | null {
	const shownIn = unitOf(job, input);
	switch (input.kind) {
		case 'text':
			return null;
		case 'key':
			return {
				type: 'list',
				allowBlank: !input.required,
				formulae: [job.book.keys(vocabularyOf(input.id))],
				errorTitle: input.title,
				error: 'Choose one of the list; it is the Shop book’s.'
			};
		case 'count':
			return {
				type: 'whole',
				operator: 'between',
				allowBlank: true,
				formulae: [1, 10_000],
				errorTitle: input.title,
				error: 'A whole number from 1 to 10,000.'
			};
		default: {
			const positive = input.range === 'positive' || input.kind !== 'length';
			return {
				type: 'decimal',
				operator: positive ? 'greaterThan' : 'greaterThanOrEqual',
				allowBlank: true,
				formulae: [0],
				errorTitle: input.title,
				error: `A plain number in ${shownIn}, ${positive ? 'greater than 0' : '0 or more'}.`
			};
		}
	}
}

function addRules(sheet: Worksheet, job: WorkbookJob): void {
	inputs.forEach((input, i) => {
		const validation = rule(job, input);
		const letter = columnLetter(i);
		if (validation)
			validate(sheet, `${letter}${String(firstRow)}:${letter}${String(job.places.lastRow)}`, validation);
	});
}

export async function writeOpenings(workbook: Workbook, job: WorkbookJob, printing: Printing): Promise<void> {
	const columns = openingColumns(job);
	const text = {
		name: 'Openings',
		title: `${job.name}: openings`,
		lead: `As typed. Lengths are plain numbers in ${job.measures === 'metric' ? 'millimetres' : 'inches'}. Change a white cell and everything else follows.`
	} as const;
	const sheet = openSheet(workbook, text, printing, {
		...printedColumns(columns),
		headingsFrom: firstRow - 2,
		frozenColumns: 2,
		frozenRows: firstRow - 1,
		lastRow: job.places.lastRow
	});
	setColumns(sheet, columns);
	writeTitle(sheet, text);
	addRules(sheet, job);
	await writeColumns(sheet, columns, job.openings.length, {
		ids: false,
		legend: [
			['typed', look('typed')],
			['taken from its mark; type over it where this opening differs', look('taken')]
		]
	});
	sheet.commit();
}
