/** What each line below the headings is: an opening, or why it is none; and the phase or alternate it stands under. */
import { repeatsHeadings } from '../headings.ts';
import { oneLine, textOf, type Sheet, type SheetRow } from '../sheet.ts';
import { unitInNote } from '../table-notes.ts';
import { isDitto } from './ditto.ts';
import { looksLikeMark } from './mark-text.ts';
import type { LeftOutReason, ScheduleColumn } from './preview.ts';
import { readSizeText } from './size-text.ts';
import type { ScheduleTable } from './table.ts';

export interface Line {
	readonly source: SheetRow;
	/** Null for an opening. */
	readonly out: { readonly reason: LeftOutReason; readonly why: string } | null;
	/** The heading of a phase above it, as written. */
	readonly phase: string | null;
	/** The heading of an alternate above it, as written. */
	readonly alternate: string | null;
}

interface FilledText {
	readonly index: number;
	readonly text: string;
}

/** Letters of a cell that are looked at to tell what its line is. */
const looked = 200;

const filledOf = (row: SheetRow): FilledText[] =>
	row.cells.flatMap((cell, index) => {
		const text = oneLine(textOf(cell));
		return text === '' ? [] : [{ index, text: text.slice(0, looked) }];
	});

const total =
	/^(?:(?:sub-?\s?|grand\s|page\s|running\s)?totals?\b|(?:carried|brought) forward\b|[bc]\/f(?:wd)?\b)|\b(?:sub-?\s?)?totals?\s*[:=]?\s*\d*$/iu;
/** The word alone, wherever it stands in a line. */
const totalAlone = /^(?:sub-?\s?|grand )?totals?\s*:?$/iu;
/** A line that begins so is no opening and no heading. Common practice, no source. */
const remark =
	/^(?:(?:general |key ?)?notes?\b|note:|legend\b|key\b|abbreviations?\b|symbols?\b|revisions?\b|rev\b|remarks?\b|prepared\b|checked\b|drawn\b|approved\b|reviewed\b|issued\b|signed\b|signature\b|date\b|print(?:ed)?\b|page\b|sheet\b|continued\b|cont['’.]?d?\b|end of\b|see\b|verify\b|do not\b|all\b|dimensions?\b|sizes?\b|units?\b|[*†‡§¶•]|[(\d]{1,3}[.)]\s)/iu;
const pageNumber = /\b(?:sheet|page)\s+\d+(?:\s*(?:of|\/)\s*\d+)?\b/iu;
const legend =
	/^(?:(?:general |key ?)?notes?|legend|key|abbreviations?|symbols?|revisions?|remarks?)\b[\s:.]*$/iu;

const alternateHeading =
	/^(?:(?:add(?:itive)?|deduct(?:ive)?|bid|owner)[\s-]+)?alt(?:ernates?|ernatives?|s?\.|s)?(?![a-z])|^option (?:no\.? ?)?(?:\d+|[a-z])\b/iu;
const phaseHeading = /^(?:phase|stage|release|sequence|milestone)(?![a-z])/iu;
const baseHeading = /^base (?:bid|scope|contract|job|work)\b/iu;

/** Short, and no sentence. */
const headingLike = (text: string): boolean =>
	text.length <= 80 &&
	text.split(' ').length <= 12 &&
	!/[.;!?]$|:\s*$/u.test(text) &&
	!/\b(?:are|is|shall|will|be|see|must|not|may|should)\b/iu.test(text);

const inCapitals = (text: string): boolean => /\p{Lu}/u.test(text) && text === text.toUpperCase();
const inTitleCase = (text: string): boolean =>
	/^[\p{Lu}\d]/u.test(text) &&
	text.split(/[\s/–—-]+/u).every((word) => word.length < 4 || !/^\p{Ll}/u.test(word));

/** A heading that goes on after a page break is the same heading. */
const withoutContinued = (text: string): string =>
	text.replace(/[\s,–—-]*\(?\bcont(?:inued|['’]d|d|\.)?\)?\.?$/iu, '').trim();

/** Tells openings from everything else by what stands in their known columns. */
class LineReader {
	readonly #table: ScheduleTable;
	readonly #sizes: readonly number[];
	readonly #marks: readonly ScheduleColumn[];
	readonly #telling: readonly ScheduleColumn[];
	readonly #titles: ReadonlySet<string>;
	readonly #reads: (column: ScheduleColumn, text: string) => boolean;

	constructor(table: ScheduleTable, reads: (column: ScheduleColumn, text: string) => boolean) {
		const { columns, roughColumns, above } = table;
		this.#table = table;
		this.#reads = reads;
		const isSize = ({ field, index }: ScheduleColumn): boolean =>
			field === 'openingWidth' || field === 'openingHeight' || roughColumns.includes(index);
		this.#sizes = columns.filter(isSize).map(({ index }) => index);
		this.#marks = columns.filter(({ field }) => field === 'mark');
		this.#telling = columns.filter(
			(column) =>
				column.field !== null && column.field !== 'mark' && column.field !== 'note' && !isSize(column)
		);
		this.#titles = new Set(above.flatMap((row) => filledOf(row).map(({ text }) => text.toLowerCase())));
	}

	/** Why a line is certainly no opening; null when it is one, or may be a heading or remark of one text. */
	repeatsHeadings(row: SheetRow): boolean {
		const filled = filledOf(row);
		return this.#table.headingRows.some(
			(headings) =>
				repeatsHeadings(row, headings) ||
				(headings !== this.#table.headings &&
					filled.every(({ index, text }) => text === oneLine(textOf(headings.cells[index]))))
		);
	}

	isRagged(row: SheetRow): boolean {
		if (this.#table.sheet.rowWord !== 'line') return false;
		const usual = Math.max(...this.#table.headingRows.map(({ cells }) => cells.length));
		return row.cells.slice(usual).some((cell) => oneLine(textOf(cell)) !== '');
	}

	/** Texts of the size columns. */
	#sizeTexts(row: SheetRow): string[] {
		return this.#sizes.map((index) => oneLine(textOf(row.cells[index]))).filter((text) => text !== '');
	}

	hasSize(row: SheetRow): boolean {
		return this.#sizeTexts(row).length > 0;
	}

	/** Something that can be a size, or that stands for one. */
	saysSize(row: SheetRow): boolean {
		return this.#sizeTexts(row).some(
			(text) => /\d/u.test(text) || isDitto(text) || readSizeText(text).figure === ''
		);
	}

	mark(row: SheetRow): string {
		return this.#marks
			.map(({ index }) => oneLine(textOf(row.cells[index])))
			.join(' ')
			.trim();
	}

	/** Cells in known columns besides mark, sizes and note; those that read as what their column holds. */
	#told(row: SheetRow): { filled: number; read: number } {
		const texts = this.#telling.flatMap((column) => {
			const text = oneLine(textOf(row.cells[column.index]));
			return text === '' ? [] : [{ column, text }];
		});
		const read = texts.filter(({ column, text }) => isDitto(text) || this.#reads(column, text));
		return { filled: texts.length, read: read.length };
	}

	isOpening(row: SheetRow, inLegend: boolean): boolean {
		const filled = filledOf(row);
		const [first] = filled;
		if (!first) return false;
		const mark = this.mark(row);
		const markLike = looksLikeMark(mark);
		const says = this.saysSize(row);
		const { filled: told, read } = this.#told(row);
		const dittoed = mark !== '' && isDitto(mark);
		if (inLegend) return says && (markLike || dittoed);
		if (remark.test(first.text) && !(says && (mark !== '' || read > 0))) return false;
		if (filled.length === 1) return mark !== '' && (markLike || dittoed);
		if (says) return mark !== '' || read > 0 || this.#sizeTexts(row).length > 1;
		if (markLike || dittoed) return told > 0 || this.hasSize(row);
		return mark !== '' && (read > 0 || (this.hasSize(row) && !/\s\S+\s/u.test(mark)));
	}

	isTitle(text: string): boolean {
		return this.#titles.has(text.toLowerCase());
	}
}

const merged = (sheet: Sheet, line: number, column: number): boolean =>
	sheet.merges.some(({ top, left, right }) => top === line && left === column && right - left >= 2);

/** Rows that stand under other headings, those among them, each with them; the headings of the table end it. */
function underOtherHeadings(
	{ above, below, otherHeadings }: ScheduleTable,
	reader: LineReader
): ReadonlyMap<SheetRow, SheetRow> {
	const rows = new Map<SheetRow, SheetRow>();
	for (const part of [above, below]) {
		let over: SheetRow | null = null;
		for (const row of part) {
			if (otherHeadings.has(row)) over = row;
			else if (over && part === below && reader.repeatsHeadings(row)) over = null;
			if (over) rows.set(row, over);
		}
	}
	return rows;
}

/**
 * Sorts the lines below the headings, and those above them that belong to another table. Blank ones are left away.
 *
 * @param reads whether a text is readable in a column
 */
export function readLines(
	table: ScheduleTable,
	reads: (column: ScheduleColumn, text: string) => boolean
): readonly Line[] {
	const { sheet, headings } = table;
	const reader = new LineReader(table, reads);
	const elsewhere = underOtherHeadings(table, reader);
	let inLegend = false;
	const openings = new Set<SheetRow>();
	for (const row of table.below) {
		const filled = filledOf(row);
		if (filled.length === 0 || elsewhere.has(row)) continue;
		if (reader.repeatsHeadings(row) || reader.isRagged(row)) continue;
		if (filled.length === 1 && legend.test(filled[0]?.text ?? '')) inLegend = true;
		if (
			filled.some(({ text }) => total.test(text)) &&
			!reader.saysSize(row) &&
			total.test(filled[0]?.text ?? '')
		)
			continue;
		if (!reader.isOpening(row, inLegend)) continue;
		inLegend = false;
		openings.add(row);
	}
	const last = table.below.findLastIndex((row) => openings.has(row));

	let phase: string | null = null;
	let alternate: string | null = null;
	const others = table.above.filter((row) => elsewhere.has(row));
	return [...others, ...table.below].flatMap((source, place): Line[] => {
		const at = place - others.length;
		const filled = filledOf(source);
		const [first] = filled;
		if (!first) return [];
		const out = (reason: LeftOutReason, why: string): Line[] => [
			{ source, out: { reason, why }, phase: null, alternate: null }
		];
		const other = elsewhere.get(source);
		if (other !== undefined) {
			const what = `other headings, in ${sheet.rowWord} ${other.line}`;
			return out(
				'otherTable',
				other === source
					? `${what}: what stands below is read once that ${sheet.rowWord} is chosen for the headings`
					: `it stands under ${what}`
			);
		}
		if (reader.repeatsHeadings(source)) return out('headings', 'the headings repeated');
		if (reader.isRagged(source)) {
			const usual = headings.cells.length;
			return out(
				'ragged',
				`${source.cells.length} fields where the headings have ${usual}: a delimiter inside a field has moved its cells; put the field in quotation marks`
			);
		}
		if (openings.has(source)) return [{ source, out: null, phase, alternate }];
		if (total.test(first.text) || filled.some((cell) => totalAlone.test(cell.text)))
			return out('total', 'a total');
		const text = withoutContinued(filled.map((cell) => cell.text).join(' '));
		if (filled.length <= 2 && !reader.hasSize(source) && headingLike(text)) {
			if (alternateHeading.test(text)) {
				alternate = text;
				return out('heading', 'the heading of an alternate');
			}
			if (phaseHeading.test(text)) {
				phase = text;
				alternate = null;
				return out('heading', 'the heading of a phase');
			}
			if (baseHeading.test(text)) {
				alternate = null;
				return out('heading', 'a heading between the rows');
			}
			const plain =
				filled.length === 1 &&
				text.length <= 60 &&
				!/[:;]/u.test(text) &&
				!remark.test(text) &&
				!pageNumber.test(text) &&
				!reader.isTitle(first.text) &&
				unitInNote(text) === null;
			const heads = merged(sheet, source.line, first.index) || inCapitals(text) || inTitleCase(text);
			if (plain && heads && at < last) return out('heading', 'a heading between the rows');
		}
		if (filled.length === 1) return out('remark', 'a remark: one text and nothing else');
		return out(
			'remark',
			reader.mark(source) === '' ? 'no mark and no size' : 'a remark: nothing that an opening has'
		);
	});
}
