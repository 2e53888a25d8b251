/**
 * A schedule of openings as people send it: which column is what, what each row becomes, what can't be read, and what
 * only a person can say. Nothing is stored here; the preview tells exactly which rows would go in.
 */
import { z } from 'zod';
import { readCell, unitOfFigure } from '../takeoff/cell.ts';
import {
	inputIds,
	inputOf,
	inputs,
	isInputId,
	type Cell,
	type Cells,
	type InputDefinition,
	type InputId,
	type Measures
} from '../takeoff/inputs.ts';
import {
	findHeadings,
	headingNames,
	placeOf,
	readHeadings,
	repeatsHeadings,
	unitInHeading,
	type ColumnReading,
	type HeadingNames
} from './headings.ts';
import { keyFromWord, saysNothing, scheduleFields, type ScheduleField } from './schedule-words.ts';
import { columnLetter, oneLine, shown, textOf, type Sheet, type SheetRow } from './sheet.ts';
import {
	figureUnits,
	isFigureUnit,
	titleOfUnit,
	unitInNote,
	viewpointInNote,
	withUnit,
	type FigureUnit
} from './table-notes.ts';

/** What a person decided about a file; all of it optional. Sent with the file. */
export const scheduleMappingSchema = z.strictObject({
	/** Name of the sheet to read. */
	sheet: z.string().max(200).optional(),
	/** Row (line) of the headings, from 1. */
	headerRow: z.number().int().min(1).max(1_048_576).optional(),
	/** By column from 0: the input it holds, or null to leave it out. */
	columns: z.record(z.string().regex(/^\d{1,3}$/u), z.enum(inputIds).nullable()).optional(),
	/** By id of the question. */
	answers: z.record(z.string().max(200), z.string().max(200)).optional()
});
export type ScheduleMapping = z.infer<typeof scheduleMappingSchema>;

export interface ScheduleOptions {
	readonly measures: Measures;
	/** Keys of the shop book for an input, as `takeoff/keys.ts` gives them. */
	readonly keysFor: (input: InputDefinition) => readonly string[];
	readonly mapping?: ScheduleMapping | undefined;
}

export interface ScheduleColumn {
	/** From 0. */
	readonly index: number;
	readonly letter: string;
	readonly heading: string;
	readonly field: InputId | null;
	/** A second input that takes the same cells: one wall column for both jambs. */
	readonly also: InputId | null;
	/** Unit of figures without one, where the heading names it. */
	readonly unit: string | null;
	/** Why this input, or why none. */
	readonly how: string;
}

/** A cell that could not be read. It stays empty. */
interface CellProblem {
	/** `F`; null when the whole row is meant. */
	readonly column: string | null;
	readonly field: InputId | null;
	/** As it stands in the file. */
	readonly text: string;
	readonly reason: string;
	/** `Schedule, row 12, F “Clear Width”` */
	readonly place: string;
}

export interface ScheduleRow {
	/** Row of the sheet or line of the text, from 1. */
	readonly line: number;
	readonly cells: Cells;
	readonly problems: readonly CellProblem[];
	/** What was taken for granted. */
	readonly notes: readonly string[];
	readonly status: 'opening' | 'skipped';
	/** Why it was skipped. */
	readonly why: string | null;
}

export interface Question {
	/** `unit`, `viewpoint`, `rough`, `duplicate:C-101` */
	readonly id: string;
	readonly text: string;
	/** Rows it is about. */
	readonly lines: readonly number[];
	readonly choices: readonly { readonly value: string; readonly title: string }[];
	/** What holds for now; null when nothing can go in before a person answers. */
	readonly answer: string | null;
}

export interface SchedulePreview {
	readonly sheet: string;
	/** All sheets of the file, to choose from. */
	readonly sheets: readonly string[];
	/** Row of the headings; 0 when none was found. */
	readonly headerRow: number;
	readonly columns: readonly ScheduleColumn[];
	readonly rows: readonly ScheduleRow[];
	readonly questions: readonly Question[];
	/** What is wrong with the file as a whole. */
	readonly problems: readonly { readonly place: string; readonly reason: string }[];
	/** What was understood from notes around the table. */
	readonly notes: readonly string[];
}

const listed = (lines: readonly number[]): string =>
	lines.length === 1 ? String(lines[0]) : `${lines.slice(0, -1).join(', ')} and ${String(lines.at(-1))}`;

const markOf = ({ cells }: DraftRow): string => (typeof cells.mark === 'string' ? cells.mark : '');

type MutableCells = Partial<Record<InputId, Cell>>;

interface DraftRow {
	readonly source: SheetRow;
	readonly cells: MutableCells;
	readonly problems: CellProblem[];
	readonly notes: string[];
	why: string | null;
}

const viewpointChoices = [
	{ value: 'coilSide', title: 'seen from the coil side' },
	{ value: 'farSide', title: 'seen from the far side' }
] as const;

/** Sizes in a bare figure outside this are hardly in the job's unit. */
const likely = { imperial: { least: 12, most: 600 }, metric: { least: 250, most: 30_000 } } as const;

/** What a column without a side speaks of too. */
const rightOf: Readonly<Partial<Record<InputId, InputId>>> = {
	leftSubstrate: 'rightSubstrate',
	leftWallStrength: 'rightWallStrength',
	leftWallThickness: 'rightWallThickness',
	leftSideRoom: 'rightSideRoom'
};

/** Whether a row of such fields can head a schedule. */
function heads(fields: ReadonlySet<ScheduleField>): boolean {
	const named = fields.has('mark') || fields.has('openingNumber');
	const sized =
		fields.has('openingWidth') ||
		fields.has('openingHeight') ||
		fields.has('roughWidth') ||
		fields.has('roughHeight');
	return (named && (sized || fields.size >= 3)) || (sized && fields.size >= 4);
}

const isFigure = (text: string): boolean => /^\d[\d.,]*$/u.test(text);

/** How a column's cells can speak for an input in a doubtful heading. */
function fitsFor({
	keysFor,
	measures
}: ScheduleOptions): (input: InputDefinition) => ((text: string) => boolean) | undefined {
	return (input) => {
		if (input.kind === 'text') return undefined;
		const keys = keysFor(input);
		return (text) => {
			const word = keyFromWord(input, text, keys);
			if (word !== null) return true;
			return readCell(input, text, { measures, keys }).ok;
		};
	};
}

/**
 * Reads a schedule. Always gives a preview; when no headings are found it has no rows and says so in `problems`.
 *
 * Rows become openings; titles, totals, repeated headings and remarks are skipped with the reason. A cell that can't
 * be read stays empty and is listed with its place. What the file can't tell is a question; a question whose `answer`
 * is null has to be answered (in `mapping.answers`) before anything goes in.
 */
export function readSchedule(sheets: readonly Sheet[], options: ScheduleOptions): SchedulePreview {
	const names = headingNames(scheduleFields(fitsFor(options)));
	const mapping = options.mapping ?? {};
	const found = choose(sheets, names, mapping);
	const sheetNames = sheets.map((sheet) => sheet.name);
	if (!found) {
		const named = mapping.sheet ?? sheetNames[0] ?? '';
		return {
			sheet: named,
			sheets: sheetNames,
			headerRow: 0,
			columns: [],
			rows: [],
			questions: [],
			problems: [
				{
					place: named,
					reason:
						'no heading row found; a schedule needs a row with headings such as Mark, Qty, Width, Height above its openings'
				}
			],
			notes: []
		};
	}
	return new ScheduleReader(sheets, found.sheet, found.position, found.columns, options).preview();
}

interface Found {
	readonly sheet: Sheet;
	readonly position: number;
	readonly columns: readonly ColumnReading<ScheduleField>[];
}

function choose(
	sheets: readonly Sheet[],
	names: HeadingNames<ScheduleField>,
	mapping: ScheduleMapping
): Found | null {
	const among = mapping.sheet === undefined ? sheets : sheets.filter((sheet) => sheet.name === mapping.sheet);
	const { headerRow } = mapping;
	if (headerRow !== undefined) {
		const sheet =
			mapping.sheet === undefined ? (findHeadings(among, names, heads)?.sheet ?? among[0]) : among[0];
		const position = sheet?.rows.findIndex((row) => row.line === headerRow) ?? -1;
		if (sheet && position >= 0) return { sheet, position, columns: readHeadings(sheet, position, names) };
	}
	return findHeadings(among, names, heads);
}

class ScheduleReader {
	readonly #sheets: readonly Sheet[];
	readonly #sheet: Sheet;
	readonly #headings: SheetRow;
	readonly #below: readonly SheetRow[];
	readonly #options: ScheduleOptions;
	readonly #answers: ReadonlyMap<string, string>;
	readonly #questions: Question[] = [];
	readonly #notes: string[] = [];
	readonly #problems: { place: string; reason: string }[] = [];
	readonly #columns: readonly ScheduleColumn[];
	readonly #unit: FigureUnit;

	constructor(
		sheets: readonly Sheet[],
		sheet: Sheet,
		position: number,
		columns: readonly ColumnReading<ScheduleField>[],
		options: ScheduleOptions
	) {
		const headings = sheet.rows[position];
		if (!headings) throw new Error(`${sheet.name} has no row at ${position}`);
		this.#sheets = sheets;
		this.#sheet = sheet;
		this.#headings = headings;
		this.#options = options;
		this.#answers = new Map(Object.entries(options.mapping?.answers ?? {}));
		const below = sheet.rows.slice(position + 1);
		const units = unitRow(below[0]);
		this.#below = units ? below.slice(1) : below;
		this.#columns = this.#chooseColumns(columns, units);
		this.#unit = this.#chooseUnit();
	}

	/** Columns after what the person chose, with rough sizes and shared walls settled. */
	#chooseColumns(
		read: readonly ColumnReading<ScheduleField>[],
		units: ReadonlyMap<number, string> | null
	): ScheduleColumn[] {
		const chosen = new Map(
			Object.entries(this.#options.mapping?.columns ?? {}).map(([i, field]) => [Number(i), field])
		);
		const taken = new Set(chosen.values());
		const fields = new Map<number, { field: ScheduleField | null; how: string }>();
		for (const { index, field, how } of read) {
			const choice = chosen.get(index);
			if (choice !== undefined)
				fields.set(index, { field: choice, how: choice === null ? 'left out by choice' : 'chosen' });
			else if (field !== null && isInputId(field) && taken.has(field))
				fields.set(index, { field: null, how: `${inputOf(field).title} is chosen elsewhere` });
			else fields.set(index, { field, how });
		}
		const at = (field: ScheduleField): number | undefined =>
			Array.from(fields).find(([, entry]) => entry.field === field)?.[0];
		// A lone "Opening no." is what others call the mark.
		const number = at('openingNumber');
		if (at('mark') === undefined && number !== undefined && !chosen.has(number))
			fields.set(number, {
				field: 'mark',
				how: `${fields.get(number)?.how ?? ''}; no other column has marks`
			});
		this.#settleRough(fields, at);
		const has = (field: InputId): boolean => at(field) !== undefined;
		return read.map(({ index, letter, heading, unit }) => {
			const { field, how } = fields.get(index) ?? { field: null, how: '' };
			const input = field !== null && isInputId(field) ? field : null;
			const both = input !== null && !/\bleft\b|\bl\b|\bl\.?h\.?\b/iu.test(heading) && !chosen.has(index);
			const right = both ? rightOf[input] : undefined;
			const also = right !== undefined && !has(right) ? right : null;
			return {
				index,
				letter,
				heading,
				field: input,
				also,
				unit: unit ?? units?.get(index) ?? null,
				how: also === null ? how : `${how}, for both sides`
			};
		});
	}

	/** Rough sizes never become finished ones in silence. */
	#settleRough(
		fields: Map<number, { field: ScheduleField | null; how: string }>,
		at: (field: ScheduleField) => number | undefined
	): void {
		const pairs = (
			[
				['roughWidth', 'openingWidth'],
				['roughHeight', 'openingHeight']
			] as const
		).map(([rough, finished]) => ({ finished, column: at(rough), other: at(finished) }));
		let asked = false;
		const answer = this.#answers.get('rough') ?? null;
		for (const { finished, column, other } of pairs) {
			if (column === undefined) continue;
			if (other !== undefined) {
				fields.set(column, {
					field: null,
					how: `rough opening; the finished size is in column ${columnLetter(other)}`
				});
				continue;
			}
			asked = true;
			if (answer === 'finished')
				fields.set(column, { field: finished, how: 'rough opening, taken as finished by choice' });
			else fields.set(column, { field: null, how: 'rough opening, not a finished size' });
		}
		if (asked)
			this.#questions.push({
				id: 'rough',
				text: 'The sizes are headed as rough openings. The takeoff needs finished ones, jamb to jamb and sill to head. What are they?',
				lines: [this.#headings.line],
				choices: [
					{ value: 'finished', title: 'finished sizes after all: use them' },
					{ value: 'leave', title: 'rough sizes: leave them out' }
				],
				answer: answer === 'finished' || answer === 'leave' ? answer : null
			});
	}

	#column(field: InputId): ScheduleColumn | undefined {
		return this.#columns.find((column) => column.field === field);
	}

	/** Text outside the table, nearest first: what stands above the headings and below the last opening, then other sheets. */
	#remarks(): { place: string; text: string }[] {
		const width = this.#columns.filter((column) => column.heading !== '').length;
		const of = (sheet: Sheet, rows: readonly SheetRow[]) =>
			rows.flatMap((row) =>
				row.cells.flatMap((cell) => {
					const text = oneLine(textOf(cell));
					return text.length > 4 ? [{ place: placeOf(sheet, row.line, null), text }] : [];
				})
			);
		const isNote = (row: SheetRow): boolean =>
			row.cells.filter((cell) => oneLine(textOf(cell)) !== '').length <= Math.max(1, width / 6);
		const own = this.#sheet.rows.filter(
			(row) => row.line < this.#headings.line || (row.line > this.#headings.line && isNote(row))
		);
		const others = this.#sheets.filter((sheet) => sheet !== this.#sheet);
		return [
			...of(this.#sheet, own),
			...others.flatMap((sheet) => of(sheet, sheet.rows.slice(0, 60).filter(isNote)))
		];
	}

	#chooseUnit(): FigureUnit {
		const { measures } = this.#options;
		const usual: FigureUnit = measures === 'imperial' ? 'in' : 'mm';
		const notes = this.#remarks().flatMap(({ place, text }) => {
			const unit = unitInNote(text);
			return unit === null ? [] : [{ unit, place, text }];
		});
		const [note] = notes;
		const answer = this.#answers.get('unit');
		const contrary = notes.find(
			({ unit, place }) => unit !== note?.unit && place.startsWith(this.#sheet.name)
		);
		if (isFigureUnit(answer)) {
			this.#askUnit('You said what figures without a unit are in.', answer);
			return answer;
		}
		if (note && contrary) {
			this.#askUnit(
				`“${shown(note.text)}” (${note.place}), but “${shown(contrary.text)}” (${contrary.place}). What are figures without a unit in?`,
				null
			);
			return note.unit;
		}
		if (note) {
			this.#notes.push(
				`Figures without a unit are in ${titleOfUnit(note.unit)}: “${shown(note.text)}” (${note.place}).`
			);
			return note.unit;
		}
		const figures = this.#bareSizes();
		if (figures.length === 0) return usual;
		const { least, most } = likely[measures];
		const odd = figures.find(({ value }) => value < least || value > most);
		const title = titleOfUnit(usual);
		if (odd)
			this.#askUnit(
				`Nothing says what unit the sizes are in, and “${odd.text}” (${odd.place}) is hardly in ${title}. What are figures without a unit in?`,
				null
			);
		else
			this.#askUnit(
				`Nothing says what unit figures without one are in; they are taken for ${title}, the unit of the job.`,
				usual
			);
		return usual;
	}

	#askUnit(text: string, answer: string | null): void {
		this.#questions.push({ id: 'unit', text, lines: [this.#headings.line], choices: figureUnits, answer });
	}

	/** Widths and heights written as a figure alone under a heading without a unit. */
	#bareSizes(): { value: number; text: string; place: string }[] {
		return (['openingWidth', 'openingHeight'] as const).flatMap((field) => {
			const column = this.#column(field);
			if (column?.unit !== null) return [];
			return this.#below.flatMap((row) => {
				const text = oneLine(textOf(row.cells[column.index]));
				const value = Number(text.replace(',', '.'));
				if (!isFigure(text) || !(value > 0)) return [];
				return [{ value, text, place: placeOf(this.#sheet, row.line, column) }];
			});
		});
	}

	preview(): SchedulePreview {
		const drafts = this.#below.map((row) => this.#readRow(row));
		const openings = drafts.filter((draft) => draft.why === null);
		this.#settleQuantities(openings);
		this.#settleViewpoint(openings);
		this.#settleDuplicates(openings);
		this.#checkNumbers(openings.filter((draft) => draft.why === null));
		if (openings.length === 0)
			this.#problems.push({
				place: placeOf(this.#sheet, this.#headings.line, null),
				reason: `no openings below the headings in ${this.#sheet.rowWord} ${this.#headings.line}`
			});
		const missing = inputs.filter(
			(input) =>
				input.required &&
				input.id !== 'quantity' &&
				!this.#columns.some((column) => column.field === input.id || column.also === input.id)
		);
		if (missing.length > 0)
			this.#notes.push(
				`No column for: ${missing.map((input) => input.title).join(', ')}. They stay empty, to be entered later.`
			);
		return {
			sheet: this.#sheet.name,
			sheets: this.#sheets.map((sheet) => sheet.name),
			headerRow: this.#headings.line,
			columns: this.#columns,
			rows: drafts.map(({ source, cells, problems, notes, why }) => ({
				line: source.line,
				cells,
				problems,
				notes,
				status: why === null ? 'opening' : 'skipped',
				why
			})),
			questions: this.#questions,
			problems: this.#problems,
			notes: this.#notes
		};
	}

	#readRow(source: SheetRow): DraftRow {
		const draft: DraftRow = { source, cells: {}, problems: [], notes: [], why: this.#whySkipped(source) };
		if (draft.why !== null) return draft;
		if (this.#sheet.rowWord === 'line' && this.#isRagged(source)) {
			const [fields, usual] = [source.cells.length, this.#headings.cells.length];
			const reason = `${fields} fields where the headings have ${usual}: a delimiter inside a field has moved its cells; put the field in quotation marks`;
			draft.problems.push({
				column: null,
				field: null,
				text: '',
				reason,
				place: placeOf(this.#sheet, source.line, null)
			});
			draft.why = reason;
			return draft;
		}
		if (source.hidden) draft.notes.push('hidden in the workbook');
		for (const column of this.#columns) {
			if (column.field === null) continue;
			this.#readInto(draft, column, column.field);
			if (column.also !== null) this.#readInto(draft, column, column.also);
		}
		if (Object.keys(draft.cells).length === 0 && draft.problems.length === 0)
			draft.why = 'nothing under the headings that are known';
		return draft;
	}

	#isRagged(source: SheetRow): boolean {
		return (
			source.cells.length > this.#headings.cells.length &&
			source.cells.slice(this.#headings.cells.length).some((cell) => oneLine(textOf(cell)) !== '')
		);
	}

	#text(source: SheetRow, field: InputId): string {
		const column = this.#column(field);
		return column ? oneLine(textOf(source.cells[column.index])) : '';
	}

	#whySkipped(source: SheetRow): string | null {
		const filled = source.cells.flatMap((cell, index) => {
			const text = oneLine(textOf(cell));
			return text === '' ? [] : [{ index, text }];
		});
		const [first] = filled;
		if (!first) return 'blank';
		if (repeatsHeadings(source, this.#headings)) return 'the headings repeated';
		const mark = this.#text(source, 'mark');
		const size = this.#text(source, 'openingWidth') + this.#text(source, 'openingHeight');
		if (/^(?:sub-?\s?|grand\s)?totals?\b/iu.test(first.text) && size === '') return 'a total';
		const telling = this.#columns.some(
			({ field, index }) =>
				field !== null && field !== 'mark' && field !== 'note' && filled.some((cell) => cell.index === index)
		);
		if (filled.length === 1 || (mark !== '' && !telling)) {
			const merged = this.#sheet.merges.some(
				(merge) => merge.top === source.line && merge.left === first.index && merge.right - merge.left >= 2
			);
			const heading = first.text.length <= 60 && !/[:.;]/u.test(first.text);
			if (merged && heading) return 'a heading between the rows';
			const isMark = mark !== '' && /^\S{1,20}$/u.test(mark) && /\d/u.test(mark);
			if (!isMark && heading && first.text === first.text.toUpperCase()) return 'a heading between the rows';
			if (!isMark && (filled.length === 1 || /\s/u.test(mark))) return 'a remark: one text and nothing else';
		}
		if (mark === '' && size === '') return 'no mark and no size';
		return null;
	}

	#readInto(draft: DraftRow, column: ScheduleColumn, field: InputId): void {
		const raw = draft.source.cells[column.index];
		const text = textOf(raw).trim();
		if (text === '') return;
		const input = inputOf(field);
		const refuse = (reason: string): void => {
			draft.problems.push({
				column: column.letter,
				field,
				text: shown(oneLine(text)),
				reason,
				place: placeOf(this.#sheet, draft.source.line, column)
			});
		};
		if (typeof raw === 'object') {
			if (raw.kind === 'error') refuse(`${raw.text} is an error of the spreadsheet; write the value`);
			else if (input.kind === 'text') draft.cells[field] = text;
			else refuse('the spreadsheet holds a date here; write the value as text');
			return;
		}
		const read = this.#readText(input, text, column.unit, draft.notes);
		if (!read.ok) refuse(read.reason);
		else if (read.cell !== null) draft.cells[field] = read.cell;
	}

	#readText(
		input: InputDefinition,
		text: string,
		unit: string | null,
		notes: string[]
	): { ok: true; cell: Cell } | { ok: false; reason: string } {
		const { measures, keysFor } = this.#options;
		const keys = keysFor(input);
		const line = oneLine(text);
		const word = keyFromWord(input, line, keys);
		if (word && 'reason' in word) return { ok: false, reason: word.reason };
		if (word) return { ok: true, cell: word.key };
		if (input.kind !== 'text' && saysNothing(line)) return { ok: true, cell: null };
		if (input.kind === 'text') {
			if (text.startsWith('='))
				return { ok: false, reason: 'it begins like a formula; write it without the sign =' };
			if (/<\/?[a-z!]/iu.test(text))
				notes.push(`${input.title} has signs of a web page in it; kept as plain text`);
			return readCell(input, text, { measures, keys });
		}
		if (input.kind === 'length') {
			const { written, note } = withUnit(line, isFigureUnit(unit) ? unit : this.#unit, measures);
			if (note !== null) notes.push(`${input.title}: ${note}`);
			return readCell(input, written, { measures, keys });
		}
		const own = unitOfFigure(input, measures);
		const named = unit !== null && own !== null && isFigure(line) && unit !== own;
		return readCell(input, named ? `${line} ${unit}` : line, { measures, keys });
	}

	#settleQuantities(openings: readonly DraftRow[]): void {
		const column = this.#column('quantity');
		if (!column && openings.length > 0) this.#notes.push('No column for Quantity: one opening of each mark.');
		for (const { cells, problems, notes } of openings) {
			if (cells.openingNumber !== undefined || cells.quantity !== undefined) continue;
			if (problems.some((problem) => problem.field === 'quantity')) continue;
			cells.quantity = 1;
			notes.push('no quantity: taken as 1');
		}
	}

	#settleViewpoint(openings: readonly DraftRow[]): void {
		const column = this.#column('drawnFrom');
		const open = openings.filter(
			({ cells }) =>
				cells.drawnFrom === undefined && (cells.openingNumber === undefined || column === undefined)
		);
		const handed = open.filter(
			({ cells }) => cells.driveSide !== undefined || cells.leftSubstrate !== cells.rightSubstrate
		);
		if (handed.length === 0) return;
		const answer = this.#answers.get('viewpoint');
		const note = this.#remarks().flatMap(({ place, text }) => {
			const viewpoint = viewpointInNote(text);
			return viewpoint === null ? [] : [{ viewpoint, place, text }];
		})[0];
		const told = answer === 'coilSide' || answer === 'farSide' ? answer : note?.viewpoint;
		if (note && told === note.viewpoint)
			this.#notes.push(
				`Left and right are ${told === 'farSide' ? 'seen from the far side' : 'seen from the coil side'}: “${shown(note.text)}” (${note.place}).`
			);
		else
			this.#questions.push({
				id: 'viewpoint',
				text: 'Nothing says from which side left and right are seen. Everything is reckoned standing on the coil side.',
				lines: handed.slice(0, 20).map(({ source }) => source.line),
				choices: viewpointChoices,
				answer: told ?? 'coilSide'
			});
		if (told === 'farSide') for (const { cells } of open) cells.drawnFrom = 'farSide';
	}

	/** The same mark in two rows, or the same opening of it. */
	#settleDuplicates(openings: readonly DraftRow[]): void {
		const groups = new Map<string, DraftRow[]>();
		for (const draft of openings) {
			const { mark, openingNumber } = draft.cells;
			if (typeof mark !== 'string') continue;
			const key = JSON.stringify([mark.toLowerCase(), openingNumber ?? null]);
			groups.set(key, [...(groups.get(key) ?? []), draft]);
		}
		for (const group of groups.values()) {
			const [first] = group;
			if (first === undefined || group.length < 2) continue;
			const { openingNumber } = first.cells;
			const mark = markOf(first);
			const name = typeof openingNumber === 'number' ? `${mark}.${openingNumber}` : mark;
			const id = `duplicate:${name}`;
			const lines = group.map(({ source }) => source.line);
			const given = this.#answers.get(id);
			const answer = given === 'first' || given === 'last' || given === 'all' ? given : null;
			this.#questions.push({
				id,
				text: `${name} stands in ${this.#sheet.rowWord}s ${listed(lines)}. Which of them goes in?`,
				lines,
				choices: [
					{ value: 'first', title: `only ${this.#sheet.rowWord} ${String(lines[0])}` },
					{ value: 'last', title: `only ${this.#sheet.rowWord} ${String(lines.at(-1))}, a revision` },
					{ value: 'all', title: 'all of them, to be given marks of their own in the grid' }
				],
				answer
			});
			const kept = answer === 'first' ? first : answer === 'last' ? group.at(-1) : null;
			if (kept)
				for (const draft of group)
					if (draft !== kept) draft.why = `${name} is taken from ${this.#sheet.rowWord} ${kept.source.line}`;
		}
	}

	/** An opening of its own needs its mark, and a number the mark has. */
	#checkNumbers(openings: readonly DraftRow[]): void {
		const quantities = new Map<string, number>();
		for (const { cells } of openings)
			if (typeof cells.mark === 'string' && cells.openingNumber === undefined)
				quantities.set(cells.mark.toLowerCase(), typeof cells.quantity === 'number' ? cells.quantity : 1);
		for (const { source, cells, problems } of openings) {
			const { mark, openingNumber } = cells;
			const place = placeOf(this.#sheet, source.line, this.#column('mark') ?? null);
			if (typeof mark !== 'string') {
				if (problems.some((problem) => problem.field === 'mark')) continue;
				problems.push({
					column: this.#column('mark')?.letter ?? null,
					field: 'mark',
					text: '',
					reason: 'no mark; write one',
					place
				});
				continue;
			}
			if (typeof openingNumber !== 'number') continue;
			const quantity = quantities.get(mark.toLowerCase());
			const reason =
				quantity === undefined
					? `opening ${openingNumber} of ${mark}, but there is no row for the mark; add one`
					: openingNumber > quantity
						? `opening ${openingNumber} of ${mark}, but there are ${quantity} of it; change the number or the quantity`
						: null;
			if (reason !== null)
				problems.push({
					column: this.#column('openingNumber')?.letter ?? null,
					field: 'openingNumber',
					text: String(openingNumber),
					reason,
					place: placeOf(this.#sheet, source.line, this.#column('openingNumber') ?? null)
				});
		}
	}
}

/** A row of units under the headings, by column; null when the row is something else. */
function unitRow(row: SheetRow | undefined): ReadonlyMap<number, string> | null {
	if (!row) return null;
	const units = new Map<number, string>();
	for (const [index, cell] of row.cells.entries()) {
		const text = oneLine(textOf(cell));
		if (text === '') continue;
		const unit = unitInHeading(`x (${text.replace(/^[([]|[)\]]$/gu, '')})`);
		if (unit === null && !/^(?:no\.?|each|ea\.?|ft[-–]in|-)$/iu.test(text)) return null;
		if (unit !== null) units.set(index, unit);
	}
	return units.size >= 2 ? units : null;
}

/** Questions that keep anything from going in. */
export const unansweredQuestions = (preview: SchedulePreview): readonly Question[] =>
	preview.questions.filter((question) => question.answer === null);

/** The rows that go in, in the order of the file; none while a question is open. */
export function scheduleRows(preview: SchedulePreview): { readonly line: number; readonly cells: Cells }[] {
	if (unansweredQuestions(preview).length > 0) return [];
	return preview.rows.flatMap(({ line, cells, status }) => (status === 'opening' ? [{ line, cells }] : []));
}

/** Everything that keeps the schedule from being read whole, with its place: for the terminal. */
export function scheduleProblems(
	preview: SchedulePreview
): { readonly place: string; readonly reason: string }[] {
	return [
		...preview.problems,
		...unansweredQuestions(preview).map(({ text, lines }) => ({
			place: `${preview.sheet}, ${listed(lines)}`,
			reason: text
		})),
		...preview.rows.flatMap((row) =>
			row.problems.map(({ place, text, reason }) => ({
				place,
				reason: text === '' ? reason : `“${text}”: ${reason}`
			}))
		)
	];
}
