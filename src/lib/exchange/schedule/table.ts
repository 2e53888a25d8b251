/** The table of a schedule: where its headings stand and what each column holds, after what a person chose. */
import { readCell } from '../../takeoff/cell.ts';
import { inputOf, isInputId, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import { canBeGroup, unitInHeading } from '../heading-words.ts';
import {
	findHeadings,
	headingNames,
	headingRows,
	readHeadings,
	repeatsHeadings,
	type ColumnReading,
	type HeadingNames
} from '../headings.ts';
import { keyFromWord, scheduleFields, type ScheduleField } from '../schedule-words.ts';
import { columnLetter, oneLine, textOf, type Sheet, type SheetRow } from '../sheet.ts';
import type { ScheduleColumn, ScheduleMapping, ScheduleOptions } from './preview.ts';
import { twoSizes } from './size-text.ts';

export interface ScheduleTable {
	readonly sheet: Sheet;
	/** The row with the names of the columns. */
	readonly headings: SheetRow;
	/** Line of the last row of headings: the names, or the units below them. */
	readonly headerRow: number;
	/** All rows of headings: those of groups above it, and one of units below. */
	readonly headingRows: readonly SheetRow[];
	readonly above: readonly SheetRow[];
	readonly below: readonly SheetRow[];
	readonly columns: readonly ScheduleColumn[];
	/** Columns headed as rough openings where there are no finished ones, whatever was answered. */
	readonly roughColumns: readonly number[];
	/** Columns of rough openings beside finished ones: read only to say what they hold where the finished size is blank. */
	readonly roughBeside: readonly number[];
	/** Which size a heading names first, for columns with both. */
	readonly sizeOrder: ReadonlyMap<number, 'widthFirst' | 'heightFirst'>;
	/** Rows that head another table in the sheet. */
	readonly otherHeadings: ReadonlySet<SheetRow>;
	/** Visible sheets with a table of their own, by name: one is read at a time. */
	readonly otherSheets: readonly string[];
	readonly signature: string;
}

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
	const sized = (
		['openingWidth', 'openingHeight', 'roughWidth', 'roughHeight', 'sizes', 'roughSizes'] as const
	).some((field) => fields.has(field));
	return (named && (sized || fields.size >= 3)) || (sized && fields.size >= 4);
}

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

/** Whether a row may head a table: several texts of the words of headings, and no figures. */
const mayHead = (row: SheetRow, { vocabulary }: HeadingNames<ScheduleField>): boolean => {
	const texts = row.cells.map((cell) => oneLine(textOf(cell))).filter((text) => text !== '');
	return (
		texts.length >= 3 && texts.filter((text) => canBeGroup(text, vocabulary)).length >= texts.length * 0.6
	);
};

/** Rows besides the headings that head a table of their own: below them with other columns, above them with any. */
function otherHeadingsIn(
	{ sheet, position, columns }: Found,
	own: readonly SheetRow[],
	names: HeadingNames<ScheduleField>
): ReadonlySet<SheetRow> {
	const headings = sheet.rows[position];
	const fieldAt = new Map(columns.map(({ index, field }) => [index, field]));
	const found = new Set<SheetRow>();
	for (const [at, row] of sheet.rows.entries()) {
		if (!headings || own.includes(row) || !mayHead(row, names)) continue;
		if (at > position && repeatsHeadings(row, headings)) continue;
		const other = readHeadings(sheet, at, names);
		const fields = new Set(other.flatMap(({ field }) => (field === null ? [] : [field])));
		const differs = other.some(
			({ index, field }) => field !== null && (fieldAt.get(index) ?? field) !== field
		);
		if (heads(fields) && (at < position || differs)) found.add(row);
	}
	return found;
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
		const at = sheet?.rows.findIndex((row) => row.line === headerRow) ?? -1;
		// A row of units is the last of the headings, and names none.
		const position = at > 0 && unitRow(sheet?.rows[at]) ? at - 1 : at;
		if (sheet && position >= 0) return { sheet, position, columns: readHeadings(sheet, position, names) };
	}
	return findHeadings(among, names, heads);
}

/** A row of units under the headings, by column; null when the row is something else. */
export function unitRow(row: SheetRow | undefined): ReadonlyMap<number, string> | null {
	if (!row) return null;
	const units = new Map<number, string>();
	for (const [index, cell] of row.cells.entries()) {
		const text = oneLine(textOf(cell));
		if (text === '') continue;
		const unit = unitInHeading(`x (${text.replace(/^[([]|[)\]]$/gu, '')})`);
		if (unit === null && !/^[([]?(?:no\.?|each|ea\.?|ft[-–]in\.?|-)[)\]]?$/iu.test(text)) return null;
		if (unit !== null) units.set(index, unit);
	}
	return units.size >= 2 ? units : null;
}

/** Which of width and height a heading names first; null when it does not name both. */
function orderIn(heading: string): 'widthFirst' | 'heightFirst' | null {
	const width = heading.search(/(?<![a-z])(?:w|wd|wdth|width|wide)(?![a-z])/iu);
	const height = heading.search(/(?<![a-z])(?:h|ht|hgt|hght|height|high)(?![a-z])/iu);
	if (width < 0 || height < 0) return null;
	return width < height ? 'widthFirst' : 'heightFirst';
}

interface Choice {
	readonly field: ScheduleField | null;
	readonly how: string;
}

/** The fields of columns while they are being settled. */
class Choices {
	readonly #byColumn: Map<number, Choice>;

	constructor(byColumn: Map<number, Choice>) {
		this.#byColumn = byColumn;
	}

	of(index: number): Choice {
		return this.#byColumn.get(index) ?? { field: null, how: '' };
	}

	set(index: number, field: ScheduleField | null, how: string): void {
		this.#byColumn.set(index, { field, how });
	}

	at(field: ScheduleField): number | undefined {
		return Array.from(this.#byColumn).find(([, choice]) => choice.field === field)?.[0];
	}
}

/** Columns as read, after what the person chose. */
function choicesOf(
	read: readonly ColumnReading<ScheduleField>[],
	chosen: ReadonlyMap<number, InputId | null>
): Choices {
	const taken = new Set(chosen.values());
	const choices = new Choices(new Map());
	for (const { index, field, how } of read) {
		const choice = chosen.get(index);
		if (choice !== undefined) choices.set(index, choice, choice === null ? 'left out by choice' : 'chosen');
		else if (field !== null && isInputId(field) && taken.has(field))
			choices.set(index, null, `${inputOf(field).title} is chosen elsewhere`);
		else choices.set(index, field, how);
	}
	// A lone "Opening no." is what others call the mark.
	const number = choices.at('openingNumber');
	if (choices.at('mark') === undefined && number !== undefined && !chosen.has(number))
		choices.set(number, 'mark', `${choices.of(number).how}; no other column has marks`);
	return choices;
}

const roughPairs = [
	['roughWidth', 'openingWidth'],
	['roughHeight', 'openingHeight'],
	['roughSizes', 'sizes']
] as const;

/**
 * Rough sizes never become finished ones in silence: those without finished ones beside them are read as finished only
 * after that answer, the others never.
 */
function settleRough(
	choices: Choices,
	answer: string | null
): Pick<ScheduleTable, 'roughColumns' | 'roughBeside'> {
	const finished = choices.at('sizes') ?? choices.at('openingWidth') ?? choices.at('openingHeight');
	const roughColumns: number[] = [];
	const roughBeside: number[] = [];
	for (const [rough, field] of roughPairs) {
		const column = choices.at(rough);
		if (column === undefined) continue;
		const other = choices.at(field) ?? (rough === 'roughSizes' ? finished : choices.at('sizes'));
		if (other !== undefined) {
			roughBeside.push(column);
			choices.set(column, null, `rough opening; the finished size is in column ${columnLetter(other)}`);
			continue;
		}
		roughColumns.push(column);
		if (answer === 'finished') choices.set(column, field, 'rough opening, taken as finished by choice');
		else choices.set(column, null, 'rough opening, not a finished size');
	}
	return { roughColumns, roughBeside };
}

/** Finds the table; null when no row can head it. */
export function findTable(
	sheets: readonly Sheet[],
	options: ScheduleOptions,
	roughAnswer: string | null
): ScheduleTable | null {
	const names = headingNames(scheduleFields(fitsFor(options)));
	const found = choose(sheets, names, options.mapping ?? {});
	const headings = found?.sheet.rows[found.position];
	if (!found || !headings) return null;
	const { sheet, position, columns: read } = found;
	const under = sheet.rows.slice(position + 1);
	const units = unitRow(under[0]);
	const below = units ? under.slice(1) : under;
	const rows = [...headingRows(sheet, position, names), ...(units ? under.slice(0, 1) : [])];
	const chosen = new Map(
		Object.entries(options.mapping?.columns ?? {}).map(([i, field]) => [Number(i), field] as const)
	);
	const choices = choicesOf(read, chosen);
	const rough = settleRough(choices, roughAnswer);
	const own = choices.at('openingWidth') ?? choices.at('openingHeight');
	const both = choices.at('sizes');
	if (own !== undefined && both !== undefined)
		choices.set(both, null, `the sizes stand in columns of their own, such as ${columnLetter(own)}`);
	const has = (field: InputId): boolean => choices.at(field) !== undefined;

	const columns = read.map(({ index, letter, heading, unit }): ScheduleColumn => {
		const { field, how } = choices.of(index);
		const column = { index, letter, heading, unit: unit ?? units?.get(index) ?? null };
		const holdsBoth =
			field === 'sizes' ||
			((field === 'openingWidth' || field === 'openingHeight') &&
				!(has('openingWidth') && has('openingHeight')) &&
				below.some((row) => twoSizes(oneLine(textOf(row.cells[index]))) !== null));
		if (holdsBoth)
			return { ...column, field: 'openingWidth', also: 'openingHeight', how: `${how}, width and height` };
		const input = field !== null && isInputId(field) ? field : null;
		const sideless = input !== null && !/\bleft\b|\bl\b|\bl\.?h\.?\b/iu.test(heading) && !chosen.has(index);
		const right = sideless ? rightOf[input] : undefined;
		const also = right !== undefined && !has(right) ? right : null;
		return { ...column, field: input, also, how: also === null ? how : `${how}, for both sides` };
	});
	const sizeOrder = new Map(
		read.flatMap(({ index, heading, group }) => {
			const order = orderIn(heading) ?? orderIn(`${group} ${heading}`);
			return order === null ? [] : [[index, order] as const];
		})
	);
	return {
		sheet,
		headings,
		headerRow: (units ? under[0] : headings)?.line ?? headings.line,
		headingRows: rows,
		above: sheet.rows.filter((row) => row.line < (rows[0]?.line ?? headings.line)),
		below,
		columns,
		...rough,
		sizeOrder,
		otherHeadings: otherHeadingsIn(found, rows, names),
		otherSheets: sheets
			.filter((other) => other !== sheet && !other.hidden && findHeadings([other], names, heads) !== null)
			.map(({ name }) => name),
		signature: signatureOf(read)
	};
}

const normalised = (text: string): string =>
	text
		.normalize('NFKC')
		.toLowerCase()
		.replace(/[^\p{L}\p{N}]+/gu, ' ')
		.trim();

/** Headings in the order of their columns, those of groups before them, in one spelling. */
function signatureOf(columns: readonly ColumnReading<ScheduleField>[]): string {
	const texts = columns.map(({ heading, group }) => {
		const [over, own] = [normalised(group), normalised(heading)];
		return over === '' ? own : `${over}/${own}`;
	});
	return texts.filter((text) => text !== '').join('|');
}
