/** From the text of cells to what the job stores. A cell that can't be read is refused, never guessed. */
import { readCell, unitOfFigure } from '../../takeoff/cell.ts';
import { inputOf, type Cell, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import { keyFromWord, saysNothing } from '../schedule-words.ts';
import { oneLine, shown, textOf, type CellText } from '../sheet.ts';
import { isFigureUnit, withUnit } from '../table-notes.ts';
import { refusal, type Draft } from './draft.ts';
import type { FilledLine } from './fill.ts';
import { takeFootnotes } from './footnotes.ts';
import { readMarkText, type MarkText } from './mark-text.ts';
import type { ScheduleColumn, ScheduleOptions } from './preview.ts';
import {
	dateIn,
	feetSlashInches,
	isFeetSlashZero,
	isPointedThousand,
	joinedFeet,
	probableSize,
	readSizeText,
	twoSizes,
	withMillimetres,
	withoutGrouping,
	type ShownDate,
	type SizeText
} from './size-text.ts';
import type { ScheduleTable } from './table.ts';
import type { UnitAt } from './units.ts';

/** What a person answered about single cells. */
export interface CellAnswers {
	readonly roughIsFinished: boolean;
	readonly sizeOrder: 'widthFirst' | 'heightFirst';
	/** By letter of the column. */
	readonly takesProbable: (letter: string) => boolean;
}

interface CellContext {
	readonly table: ScheduleTable;
	readonly options: ScheduleOptions;
	readonly unitAt: UnitAt;
	readonly answers: CellAnswers;
	/** What a note below the table says of a footnote. */
	readonly legend: (mark: string) => string | null;
}

type Reading = { ok: true; cell: Cell } | { ok: false; reason: string };
type SizeField = 'openingWidth' | 'openingHeight';

const otherSize = { openingWidth: 'openingHeight', openingHeight: 'openingWidth' } as const;
const isSizeField = (field: InputId): field is SizeField =>
	field === 'openingWidth' || field === 'openingHeight';

const isFigure = (text: string): boolean => /^\d[\d.,]*$/u.test(text);
const longestNote = 2000;

/** `4`, `(4)`, `4 ea.`, `x4` */
const countIn = (text: string): string =>
	/^[([]?\s*(?:x|×)?\s*(\d+)\s*(?:x|×|no\.?|nos\.?|off|ea\.?|each|pcs?\.?)?\s*[)\]]?$/iu.exec(text)?.[1] ??
	text;

/** Whether a text can be read in a column, whatever its unit. */
export function readsIn({ keysFor, measures }: ScheduleOptions, field: InputId, text: string): boolean {
	const input = inputOf(field);
	if (input.kind === 'text') return false;
	const keys = keysFor(input);
	const word = keyFromWord(input, text, keys);
	if (word !== null) return true;
	const { text: bare } = takeFootnotes(text, false);
	return readCell(input, input.kind === 'count' ? countIn(bare) : bare, { measures, keys }).ok;
}

/** A mark cell; one that goes over several lines may be a list. */
function markTextOf(text: string): MarkText {
	const whole = readMarkText(oneLine(text));
	const listed = text.includes('\n') ? readMarkText(oneLine(text.trim().replace(/\s*\n\s*/gu, ', '))) : whole;
	return whole.marks.length === 1 && listed.marks.length > 1 ? listed : whole;
}

export class CellReader {
	readonly #context: CellContext;
	/** Some size is written `10/0`, so `10/4` is feet and inches too. */
	readonly #feetSlash: boolean;

	constructor(context: CellContext, lines: readonly FilledLine[]) {
		this.#context = context;
		this.#feetSlash = lines.some(({ cells }) =>
			context.table.columns.some(({ field, index }) => {
				if (field === null || !isSizeField(field)) return false;
				const text = oneLine(textOf(cells.get(index)?.cell));
				return (twoSizes(text) ?? [text]).some((size) => isFeetSlashZero(readSizeText(size).figure));
			})
		);
	}

	read({ line, cells, orphans }: FilledLine): Draft {
		const { table } = this.#context;
		const markColumn = table.columns.find(({ field }) => field === 'mark');
		const mark = markColumn ? cells.get(markColumn.index)?.cell : undefined;
		const marks = markTextOf(typeof mark === 'object' ? '' : textOf(mark));
		const draft: Draft = {
			line,
			cells: {},
			problems: [],
			notes: [],
			out: line.out,
			marks: marks.marks,
			count: marks.count,
			quantityOpen: false,
			asks: { rough: false, order: false, dates: [] }
		};
		const words: string[] = [];
		const row = new RowReader(this.#context, draft, words, this.#feetSlash, (index) =>
			oneLine(textOf(cells.get(index)?.cell))
		);
		for (const column of table.columns) {
			if (column.field === null) continue;
			if (orphans.has(column.index))
				row.refuse(
					column,
					column.field,
					textOf(line.source.cells[column.index]),
					'it says the same as above, and nothing stands above; write the value'
				);
			const filled = cells.get(column.index);
			if (filled) row.readColumn(column, column.field, filled.cell);
		}
		if (markColumn && marks.untold) row.refuseMark(markColumn, textOf(mark));
		row.footnotes('Mark', marks.footnotes);
		// A rough size beside a blank finished one is all the file says of it.
		const sized = draft.cells.openingWidth !== undefined || draft.cells.openingHeight !== undefined;
		for (const index of sized ? [] : table.roughBeside) {
			const text = oneLine(textOf(line.source.cells[index]));
			if (text !== '') words.push(`${table.columns[index]?.heading ?? ''}, rough opening: ${text}`);
		}
		noteSources(draft, table.columns, cells);
		const struck = table.columns.filter(
			({ field, index }) => field !== null && field !== 'mark' && line.source.struck?.includes(index)
		);
		if (struck.length > 0 && line.out === null)
			draft.notes.push(
				`struck through in the file, and read: ${struck.map(({ heading }) => heading).join(', ')}`
			);
		addToNote(draft, words);
		return draft;
	}
}

/** People round the millimetres beside feet and inches to 5 or 10 (common practice, no source). */
const rounding = 10;
const nanometresPerMillimetre = 1_000_000;

const agrees = (cell: Cell, millimetres: number): boolean =>
	typeof cell === 'object' &&
	cell !== null &&
	Math.abs(cell.amount / nanometresPerMillimetre - millimetres) <= rounding;

/** What a row takes from another, in one sentence a manner. */
function noteSources(draft: Draft, columns: readonly ScheduleColumn[], cells: FilledLine['cells']): void {
	const names = new Map<string, string[]>();
	for (const { index, heading, letter, field } of columns) {
		const from = cells.get(index)?.from;
		if (field === null || !from) continue;
		const how = { merge: 'merged cells', ditto: 'ditto mark', above: 'blank' }[from.how];
		const key = `as in row ${from.line} (${how})`;
		names.set(key, [...(names.get(key) ?? []), heading === '' ? letter : heading]);
	}
	for (const [how, headings] of names) draft.notes.push(`${headings.join(', ')}: ${how}`);
}

/** What the file says besides its cells goes into the row's own note, so that it stays with the job. */
function addToNote(draft: Draft, words: readonly string[]): void {
	for (const text of words) {
		draft.notes.push(text);
		const own = typeof draft.cells.note === 'string' ? draft.cells.note : '';
		const longer = own === '' ? text : `${own}; ${text}`;
		if (longer.length <= longestNote) draft.cells.note = longer;
	}
}

/** Reads the cells of one row. */
class RowReader {
	readonly #context: CellContext;
	readonly #draft: Draft;
	readonly #words: string[];
	readonly #feetSlash: boolean;
	readonly #textAt: (column: number) => string;

	constructor(
		context: CellContext,
		draft: Draft,
		words: string[],
		feetSlash: boolean,
		textAt: (column: number) => string
	) {
		this.#context = context;
		this.#draft = draft;
		this.#words = words;
		this.#feetSlash = feetSlash;
		this.#textAt = textAt;
	}

	refuse(
		column: ScheduleColumn,
		field: InputId,
		text: string,
		reason: string,
		offers: string | null = null
	): void {
		const { table } = this.#context;
		this.#draft.problems.push(
			refusal(table.sheet, this.#draft.line, column, field, oneLine(text), reason, offers)
		);
	}

	/** One opening for a range would be too few in silence. */
	refuseMark(column: ScheduleColumn, text: string): void {
		delete this.#draft.cells.mark;
		this.refuse(
			column,
			'mark',
			text,
			'a range whose marks can’t be told; write each of them, or a range that counts up, such as C-1 thru C-5'
		);
	}

	footnotes(title: string, marks: readonly string[]): void {
		for (const mark of marks) {
			const said = this.#context.legend(mark);
			this.#words.push(`${title}: footnote ${mark}${said === null ? '' : ` (${said})`}`);
		}
	}

	readColumn(column: ScheduleColumn, field: InputId, raw: CellText): void {
		const text = textOf(raw).trim();
		if (text === '') return;
		if (typeof raw === 'object') {
			this.#readMarked(column, field, raw);
			return;
		}
		if (isSizeField(field)) {
			this.#readSizes(column, field, oneLine(text));
			return;
		}
		for (const one of column.also === null ? [field] : [field, column.also])
			this.#readOne(column, one, text, one === field);
	}

	/** A date or an error of the spreadsheet. */
	#readMarked(column: ScheduleColumn, field: InputId, raw: Exclude<CellText, string>): void {
		const { kind, text, monthAndYear } = raw;
		const input = inputOf(field);
		if (kind === 'error') {
			this.refuse(column, field, text, `${text} is an error of the spreadsheet; write the value`);
			return;
		}
		if (input.kind === 'text' && field !== 'mark') {
			this.#draft.cells[field] = text;
			return;
		}
		if (isSizeField(field)) this.#refuseDate(column, field, text, dateIn(text, monthAndYear === true));
		else this.refuse(column, field, text, 'the spreadsheet holds a date here; write the value as text');
	}

	/** A size that a spreadsheet made a date of: refused, and offered as it was probably typed. */
	#refuseDate(column: ScheduleColumn, field: SizeField, text: string, date: ShownDate | null): void {
		const { options, answers } = this.#context;
		const input = inputOf(field);
		const canOffer = date !== null && column.also === null && options.measures === 'imperial';
		const offers = canOffer ? probableSize(date) : null;
		if (offers !== null) {
			this.#draft.asks.dates.push({ column, offers });
			const read = this.#readLength(input, offers, null);
			if (read.ok && answers.takesProbable(column.letter)) {
				this.#draft.cells[field] = read.cell;
				this.#draft.notes.push(`${input.title}: ${offers} for the date ${text}, by choice`);
				return;
			}
		}
		this.refuse(
			column,
			field,
			text,
			`the spreadsheet holds a date here; write the value as text${offers === null ? '' : `, probably ${offers}`}`,
			offers
		);
	}

	#readOne(column: ScheduleColumn, field: InputId, text: string, first: boolean): void {
		const input = inputOf(field);
		const line = oneLine(text);
		if (field === 'mark') {
			const [mark = ''] = this.#draft.marks;
			this.#store(column, field, text, this.#readText(text.includes('\n') && mark === line ? text : mark));
			return;
		}
		if (input.kind === 'text') {
			this.#store(column, field, text, this.#readFreeText(input, text));
			return;
		}
		const bare =
			input.kind === 'length'
				? readSizeText(line)
				: { figure: takeFootnotes(line, true).text, footnotes: takeFootnotes(line, true).marks, held: false };
		const whole = this.#readValue(input, line, column);
		// A footnote that sticks to a key is not seen by those who look at its letters alone.
		const marked = bare.held || (bare.footnotes.length > 0 && bare.figure !== '');
		const apart = marked && bare.figure !== line && (!whole.ok || input.kind === 'key');
		const read: Reading = !apart
			? whole
			: bare.figure === ''
				? { ok: true, cell: null }
				: this.#readValue(input, bare.figure, column);
		this.#store(column, field, text, read.ok ? read : whole);
		if (!apart || !read.ok || !first) return;
		this.footnotes(input.title, bare.footnotes);
		if (bare.held) this.#words.push(`${input.title}: ${line}`);
	}

	#store(column: ScheduleColumn, field: InputId, text: string, read: Reading): void {
		if (!read.ok) this.refuse(column, field, text, read.reason);
		else if (read.cell !== null) this.#draft.cells[field] = read.cell;
	}

	#readText(text: string): Reading {
		return this.#readFreeText(inputOf('mark'), text);
	}

	#readFreeText(input: InputDefinition, text: string): Reading {
		const { measures } = this.#context.options;
		if (text.startsWith('='))
			return { ok: false, reason: 'it begins like a formula; write it without the sign =' };
		if (/<\/?[a-z!]/iu.test(text))
			this.#draft.notes.push(`${input.title} has signs of a web page in it; kept as plain text`);
		return readCell(input, text, { measures, keys: [] });
	}

	/** A key, a count or a measure. */
	#readValue(input: InputDefinition, line: string, column: ScheduleColumn): Reading {
		const { measures, keysFor } = this.#context.options;
		const keys = keysFor(input);
		const word = keyFromWord(input, line, keys);
		if (word && 'reason' in word) return { ok: false, reason: word.reason };
		if (word) return { ok: true, cell: word.key };
		if (saysNothing(line)) return { ok: true, cell: null };
		const unit = this.#context.unitAt(column, this.#draft.line.source.line);
		if (input.kind === 'length') return this.#readLength(input, line, unit);
		if (input.kind === 'count') return readCell(input, countIn(line), { measures, keys });
		const own = unitOfFigure(input, measures);
		const named = column.unit !== null && own !== null && isFigure(line) && column.unit !== own;
		return readCell(input, named ? `${line} ${column.unit}` : line, { measures, keys });
	}

	/** A length; a bare figure takes the unit. */
	#readLength(input: InputDefinition, text: string, unit: string | null): Reading {
		const { measures } = this.#context.options;
		let line = joinedFeet(text);
		if (line !== text) this.#draft.notes.push(`${input.title}: ${text} read as ${line}`);
		const slashed = this.#feetSlash || isFeetSlashZero(line) ? feetSlashInches(line) : null;
		if (slashed !== null) {
			this.#draft.notes.push(`${input.title}: ${line} read as ${slashed}`);
			line = slashed;
		}
		// `12-6` is feet and inches wherever figures are in inches, in a metric job too.
		if (measures === 'metric' && (unit === 'in' || unit === 'ft'))
			line = line.replace(/^(\d+)-(\d[\d./ ]*)["”″]?$/u, `$1'-$2"`);
		const figureUnit = isFigureUnit(unit) ? unit : measures === 'imperial' ? 'in' : 'mm';
		const plain = figureUnit === 'mm' || /mm$/iu.test(line) ? withoutGrouping(line) : line;
		if (plain !== line) this.#draft.notes.push(`${input.title}: ${line} read as ${plain}`);
		line = plain;
		const { written, note } = withUnit(line, figureUnit, measures);
		if (note !== null) this.#draft.notes.push(`${input.title}: ${note}`);
		return readCell(input, written, { measures, keys: [] });
	}

	/** A cell of a size column: one size or both, with all that people write beside them. */
	#readSizes(column: ScheduleColumn, field: SizeField, text: string): void {
		const { table } = this.#context;
		const other = table.columns.find((one) => one !== column && one.field === otherSize[field]);
		const pair = twoSizes(text);
		const shared = column.also === otherSize[field];
		if (pair && (shared || !other || this.#textAt(other.index) === '')) {
			this.#readBoth(column, text, [readSizeText(pair[0]), readSizeText(pair[1])]);
			return;
		}
		const date = dateIn(text);
		if (date !== null) {
			this.#refuseDate(column, field, text, date);
			return;
		}
		const size = readSizeText(text);
		if (shared && size.figure !== '' && !saysNothing(text)) {
			this.refuse(
				column,
				field,
				text,
				'one size where width and height are expected; write both, such as 10\'-0" x 4\'-0"'
			);
			return;
		}
		if (
			size.letter !== null &&
			size.figure !== '' &&
			field !== (size.letter === 'width' ? 'openingWidth' : 'openingHeight')
		) {
			this.refuse(
				column,
				field,
				text,
				`it says ${size.letter} in a column of the other size; write it without the letter or in its own column`
			);
			return;
		}
		this.#readSize(column, field, text, size);
		this.#tell(column, text, [size]);
	}

	#readBoth(column: ScheduleColumn, text: string, [first, second]: readonly [SizeText, SizeText]): void {
		if (first.letter !== null && first.letter === second.letter) {
			this.refuse(
				column,
				'openingWidth',
				text,
				`both sizes say ${first.letter}; write W with the width and H with the height`
			);
			return;
		}
		const told =
			first.letter === 'width' || second.letter === 'height'
				? 'widthFirst'
				: first.letter === 'height' || second.letter === 'width'
					? 'heightFirst'
					: (this.#context.table.sizeOrder.get(column.index) ?? null);
		if (told === null) this.#draft.asks.order = true;
		const order = told ?? this.#context.answers.sizeOrder;
		// One mark of a rough opening, and one unit, is for both.
		const rough = first.rough || second.rough;
		const [, unit = null] =
			/^\d[\d.]*\s*(mm|cm|m|in\.?|inches|ft\.?|feet|["”″'’′])$/iu.exec(second.figure) ?? [];
		const figure = unit !== null && isFigure(first.figure) ? `${first.figure} ${unit}` : first.figure;
		const sizes = [
			{ ...first, figure, rough },
			{ ...second, rough }
		] as const;
		const [width, height] = order === 'widthFirst' ? sizes : [sizes[1], sizes[0]];
		this.#readSize(column, 'openingWidth', text, width, true);
		this.#readSize(column, 'openingHeight', text, height, true);
		this.#tell(column, text, sizes);
	}

	/** Reads what is left of a size once everything else is taken off. */
	#readSize(column: ScheduleColumn, field: SizeField, text: string, size: SizeText, inPair = false): void {
		const { figure, held, rough } = size;
		if (held) this.#draft.cells.hold = 'fieldMeasure';
		if (figure === '') {
			if (!held) this.refuse(column, field, text, 'no size stands beside the words; write one');
			return;
		}
		if (saysNothing(figure)) return;
		const unit = this.#context.unitAt(column, this.#draft.line.source.line);
		if (unit === 'mm' && isPointedThousand(figure)) {
			this.refuse(
				column,
				field,
				text,
				'thousands of millimetres or a fraction? Write it without the point, or with its unit'
			);
			return;
		}
		const twice = withMillimetres(figure);
		const single = twice?.figure ?? figure;
		const pairs = inPair ? (feetSlashInches(single) ?? single) : single;
		if (pairs !== single) this.#draft.notes.push(`${inputOf(field).title}: ${single} read as ${pairs}`);
		const read = this.#readLength(inputOf(field), pairs, unit);
		if (!read.ok) {
			this.refuse(column, field, text, read.reason);
			return;
		}
		if (twice && !agrees(read.cell, twice.millimetres)) {
			this.refuse(
				column,
				field,
				text,
				'feet and inches and the millimetres beside them are two sizes; write one'
			);
			return;
		}
		if (rough) {
			this.#draft.asks.rough = true;
			if (!this.#context.answers.roughIsFinished) {
				this.#draft.notes.push(`${inputOf(field).title}: “${shown(text)}” is a rough opening`);
				return;
			}
		}
		if (read.cell !== null) this.#draft.cells[field] = read.cell;
	}

	/** What stands beside sizes, for the row's note. */
	#tell(column: ScheduleColumn, text: string, sizes: readonly SizeText[]): void {
		const title = column.heading === '' ? 'Size' : column.heading;
		if (sizes.some(({ held }) => held)) this.#words.push(`${title}: ${shown(text)}`);
		this.footnotes(
			title,
			sizes.flatMap((size) => size.footnotes)
		);
	}
}
