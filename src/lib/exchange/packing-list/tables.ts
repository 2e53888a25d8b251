/** The tables of a packing list: one, or one a crate with its headings repeated, perhaps in another order. */
import { canBeGroup, headingWords } from '../heading-words.ts';
import { findHeadings, placeOf, readHeadings, repeatsHeadings, type ColumnReading } from '../headings.ts';
import { oneLine, shown, textOf, type Sheet, type SheetRow } from '../sheet.ts';
import { isFigureUnit, type FigureUnit } from '../table-notes.ts';
import { headsParts, packingNames, type PackingField } from './fields.ts';
import { readOrderLine } from './order-line.ts';
import { provesDecimalFeet, type FeetManner } from './read-length.ts';
import type { PackingMapping, PackingQuestion } from './reading.ts';
import { settleCounts } from './settle-counts.ts';

type Column = ColumnReading<PackingField>;

export interface PackingTable {
	/** Position of the headings in the rows of the sheet. */
	readonly position: number;
	readonly headings: SheetRow;
	readonly columns: readonly Column[];
	/** Columns that may be the quantity, where it is not settled. */
	readonly maybeQuantity: readonly number[];
	readonly questions: readonly PackingQuestion[];
}

/** Another row heads a table of the same kind when it shares this much of the fields. */
const alike = 0.6;

const fieldsOf = (columns: readonly Column[]): Set<PackingField> =>
	new Set(columns.flatMap(({ field }) => (field === null ? [] : [field])));

/** Whether a row can be headings at all: words of headings in most cells, and no figures alone. */
function looksLikeHeadings(row: SheetRow): boolean {
	const texts = row.cells.map((cell) => oneLine(textOf(cell))).filter((text) => text !== '');
	if (texts.length < 2 || texts.some((text) => /^[\d.,/ ]+$/u.test(text))) return false;
	const known = texts.filter(
		(text) =>
			canBeGroup(text, packingNames.vocabulary) &&
			headingWords(text).every((word) => packingNames.vocabulary.has(word))
	);
	return known.length >= texts.length * alike;
}

interface Start {
	readonly position: number;
	readonly columns: readonly Column[];
}

const naming: readonly PackingField[] = ['partId', 'orderLine', 'mark'];

/**
 * Whether a table above the main one holds the same kind of lines, though it may be less full. A summary of the crates
 * counts goods too, and counting it would count everything twice.
 */
function isPartOfList(fields: ReadonlySet<PackingField>, wanted: ReadonlySet<PackingField>): boolean {
	const shared = [...fields].filter((field) => wanted.has(field)).length;
	const names = (set: ReadonlySet<PackingField>): boolean => naming.some((field) => set.has(field));
	return shared >= wanted.size / 2 && (names(fields) || !names(wanted));
}

/** The rows that head tables, in their order, and rows above them that head something else with counts in it. */
function findPositions(
	sheet: Sheet,
	main: number,
	mainColumns: readonly Column[]
): { starts: Start[]; passedOver: number[] } {
	const wanted = fieldsOf(mainColumns);
	const found: Start[] = [];
	const passedOver: number[] = [];
	let current: SheetRow | undefined;
	sheet.rows.forEach((row, position) => {
		if (position === main) {
			found.push({ position, columns: mainColumns });
			current = row;
			return;
		}
		if (current && repeatsHeadings(row, current)) return;
		if (!looksLikeHeadings(row)) return;
		const columns = readHeadings(sheet, position, packingNames);
		const fields = fieldsOf(columns);
		const shared = [...fields].filter((field) => wanted.has(field)).length;
		if (!headsParts(fields) || shared < Math.min(wanted.size, fields.size) * alike) return;
		if (position < main && !isPartOfList(fields, wanted)) {
			passedOver.push(row.line);
			return;
		}
		found.push({ position, columns });
		current = row;
	});
	return { starts: found, passedOver };
}

/** Columns as a person has told them; a field told for one column is taken from the others. */
function withChoices(columns: readonly Column[], chosen: ReadonlyMap<number, PackingField | null>): Column[] {
	const taken = new Set(chosen.values());
	return columns.map((column) => {
		const choice = chosen.get(column.index);
		if (choice !== undefined)
			return { ...column, field: choice, how: choice === null ? 'left out by choice' : 'chosen' };
		return taken.has(column.field) ? { ...column, field: null, how: 'chosen elsewhere' } : column;
	});
}

/** A column headed `No.` or `Item` that counts 1, 2, 3 … to the end numbers the list itself; its figures are no lines of our order. */
function ownNumbering(columns: readonly Column[], rows: readonly SheetRow[]): Column | null {
	const column = columns.find(({ field }) => field === 'orderLine');
	if (!column || column.how === 'chosen') return null;
	if (headingWords(column.heading).some((word) => ['line', 'po', 'order'].includes(word))) return null;
	const numbers = rows
		.map((row) => readOrderLine(oneLine(textOf(row.cells[column.index])))?.number)
		.filter((number) => number !== undefined);
	return numbers.length >= 3 && numbers.every((number, at) => number === String(at + 1)) ? column : null;
}

/**
 * The tables of the likeliest sheet, or of what a person chose; null when nothing heads a table of parts.
 *
 * The choice of columns is for the first table and for those with the same headings. `passedOver`: lines of rows above
 * that head something else with counts in it.
 */
export function findTables(
	sheets: readonly Sheet[],
	mapping: PackingMapping
): { sheet: Sheet; tables: readonly PackingTable[]; passedOver: readonly number[] } | null {
	const among = mapping.sheet === undefined ? sheets : sheets.filter(({ name }) => name === mapping.sheet);
	const chosen = new Map(
		Object.entries(mapping.columns ?? {}).map(([index, field]) => [Number(index), field])
	);
	const { headerRow } = mapping;
	const found = findHeadings(among, packingNames, headsParts);
	let sheet = found?.sheet;
	let { starts, passedOver } = found
		? findPositions(found.sheet, found.position, found.columns)
		: { starts: [], passedOver: [] };
	if (headerRow !== undefined) {
		sheet ??= among[0];
		const position = sheet?.rows.findIndex((row) => row.line === headerRow) ?? -1;
		if (!sheet || position < 0) return null;
		const all = findPositions(sheet, position, readHeadings(sheet, position, packingNames));
		starts = all.starts.filter((start) => start.position >= position);
		passedOver = [];
	}
	const [first] = starts;
	if (!sheet || !first) return null;
	return { sheet, tables: settleAll(sheet, first, starts, chosen), passedOver };
}

function settleAll(
	sheet: Sheet,
	first: Start,
	starts: readonly Start[],
	chosen: ReadonlyMap<number, PackingField | null>
): PackingTable[] {
	const { rows } = sheet;
	const firstHeadings = rows[first.position];
	return starts.flatMap(({ position, columns }, at): PackingTable[] => {
		const headings = rows[position];
		if (!headings || !firstHeadings) return [];
		const below = rows.slice(position + 1, starts[at + 1]?.position);
		const choices = at === 0 || repeatsHeadings(headings, firstHeadings) ? chosen : new Map<number, null>();
		return [settle(sheet, position, headings, withChoices(columns, choices), choices, below)];
	});
}

function settle(
	sheet: Sheet,
	position: number,
	headings: SheetRow,
	columns: readonly Column[],
	chosen: ReadonlyMap<number, PackingField | null>,
	below: readonly SheetRow[]
): PackingTable {
	const lines = below.filter(
		(row) => row.cells.filter((cell) => textOf(cell) !== '').length > 1 && !isTotal(row)
	);
	const counts = settleCounts(columns, new Set(chosen.keys()), lines);
	const ask = (column: Column, reason: string): PackingQuestion => ({
		line: headings.line,
		place: placeOf(sheet, headings.line, column),
		field: null,
		text: shown(column.heading),
		reason,
		readings: []
	});
	const questions = counts.questions.map(({ column, reason }) => ask(column, reason));
	const own = ownNumbering(counts.columns, lines);
	if (own)
		questions.push(
			ask(
				own,
				`“${shown(own.heading)}” counts from 1 to the end; it is taken for the list’s own numbers. Choose “line of our order” for the column if it is that`
			)
		);
	return {
		position,
		headings,
		columns: counts.columns.map((column) =>
			column.index === own?.index ? { ...column, field: null, how: 'the list’s own numbers' } : column
		),
		maybeQuantity: counts.maybeQuantity,
		questions
	};
}

/** `Total`, `Page total`, `Carried forward` as the first words of a row; behind a sum nothing but them. */
export function isTotal(row: SheetRow): boolean {
	const filled = row.cells.map((cell) => oneLine(textOf(cell))).filter((text) => text !== '');
	const [word, ...others] = filled.filter((text) => /\p{L}/u.test(text));
	const alone = others.length === 0 && (word ?? '').split(' ').length <= 4;
	const first = (alone ? word : filled[0]) ?? '';
	return /^(?:(?:sub|page|grand|crate|box|sheet|list|running)[\s-]*)?totals?\b|^(?:carried|brought) (?:forward|over)\b/iu.test(
		first
	);
}

/** How feet with a dot are written in a column: as the person says, else decimals where any of its cells proves it. */
export function feetOf(
	table: PackingTable,
	field: PackingField,
	rows: readonly SheetRow[],
	unit: FigureUnit,
	told: FeetManner | undefined
): FeetManner | null {
	if (told !== undefined) return told;
	const column = table.columns.find((each) => each.field === field);
	if (!column) return null;
	const own = isFigureUnit(column.unit) ? column.unit : unit;
	return rows.some((row) => provesDecimalFeet(oneLine(textOf(row.cells[column.index])), own))
		? 'decimal'
		: null;
}
