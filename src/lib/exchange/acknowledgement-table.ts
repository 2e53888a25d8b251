/** An acknowledgement as a table: what a supplier answers to an order, read by its headings and nothing guessed. */
import type { Acknowledgement } from '../delivery/ordering/acknowledgement.ts';
import type { Measures } from '../takeoff/inputs.ts';
import { answerNames, headsAnswers, type AnswerField } from './acknowledgement-columns.ts';
import { acknowledgementFacts, type TextLine } from './acknowledgement-facts.ts';
import { AnswerCells, type AnswerQuestion } from './acknowledgement-line.ts';
import { dayOrderOf, type DayOrder } from './day-text.ts';
import { findHeadings, placeOf, repeatsHeadings, type ColumnReading, type HeadingRow } from './headings.ts';
import { currencyIn, decimalMarkOf, type DecimalMark } from './price-text.ts';
import { oneLine, textOf, type Sheet, type SheetRow } from './sheet.ts';
import { isFigureUnit, titleOfUnit, unitInNote, type FigureUnit } from './table-notes.ts';

export interface AcknowledgementOptions {
	readonly measures: Measures;
	/** What a person said of figures that can be read two ways. */
	readonly dayOrder?: DayOrder | undefined;
	readonly decimalMark?: DecimalMark | undefined;
	/** Unit of lengths without one. */
	readonly unit?: FigureUnit | undefined;
}

export type AcknowledgementReading =
	| {
			ok: true;
			acknowledgement: Acknowledgement;
			sheet: string;
			/** Null where there is no table, and the whole order is answered in words. */
			headerRow: number | null;
			columns: readonly ColumnReading<AnswerField>[];
			/** Rows that are no line of an answer, with why. */
			skipped: readonly { readonly line: number; readonly why: string }[];
			/** What could not be read (it is null, so it is not compared), and what was taken for granted. */
			questions: readonly AnswerQuestion[];
	  }
	| { ok: false; message: string; place: string };

const rowText = (row: SheetRow): string =>
	row.cells
		.map((cell) => oneLine(textOf(cell)))
		.filter((text) => text !== '')
		.join(' ');

/**
 * Reads an acknowledgement from a workbook or delimited text. A cell that can't be read, or can be read two ways, is
 * null in its line and listed with its place. Fails only where there is neither a table nor a word on the whole order.
 */
export function readAcknowledgementTable(
	sheets: readonly Sheet[],
	options: AcknowledgementOptions
): AcknowledgementReading {
	const found = findHeadings(sheets, answerNames, headsAnswers);
	if (found) return new TableReader(found, sheets, options).read();
	const [sheet] = sheets;
	const lines = sheets.flatMap(({ rows }) =>
		rows.slice(0, 200).map((row) => ({ line: row.line, text: rowText(row) }))
	);
	const { facts, questions } = acknowledgementFacts(lines, options.dayOrder ?? null);
	if (!sheet || facts.whole === null)
		return {
			ok: false,
			place: sheet?.name ?? '',
			message:
				'no heading row found; an acknowledgement needs a row with headings such as Line, Description, Quantity, Unit price above its lines, or a sentence that accepts the order as it stands'
		};
	return {
		ok: true,
		acknowledgement: { ...facts, lines: [] },
		sheet: sheet.name,
		headerRow: null,
		columns: [],
		skipped: [],
		questions: questions.map((question) => ({ ...question, place: placeOf(sheet, question.line, null) }))
	};
}

class TableReader {
	readonly #sheet: Sheet;
	readonly #others: readonly Sheet[];
	readonly #headings: SheetRow;
	readonly #above: readonly SheetRow[];
	readonly #below: readonly SheetRow[];
	readonly #columns: readonly ColumnReading<AnswerField>[];
	readonly #options: AcknowledgementOptions;
	readonly #cells: AnswerCells;

	constructor(found: HeadingRow<AnswerField>, sheets: readonly Sheet[], options: AcknowledgementOptions) {
		const headings = found.sheet.rows[found.position];
		if (!headings) throw new Error(`${found.sheet.name} has no row at ${found.position}`);
		this.#sheet = found.sheet;
		this.#others = sheets.filter((sheet) => sheet !== found.sheet);
		this.#headings = headings;
		this.#above = found.sheet.rows.slice(0, found.position);
		this.#below = found.sheet.rows.slice(found.position + 1);
		this.#columns = found.columns;
		this.#options = options;
		this.#cells = new AnswerCells(found.sheet, found.columns, options.measures);
	}

	read(): AcknowledgementReading {
		const skipped: { line: number; why: string; row: SheetRow }[] = [];
		const rows: SheetRow[] = [];
		for (const row of this.#below) {
			const why = this.#whySkipped(row);
			if (why === null) rows.push(row);
			else skipped.push({ line: row.line, why, row });
		}
		if (rows.length === 0)
			return {
				ok: false,
				place: placeOf(this.#sheet, this.#headings.line, null),
				message: `no lines below the headings in ${this.#sheet.rowWord} ${this.#headings.line}`
			};
		const around = [...this.#above, ...skipped.map(({ row }) => row)];
		const notes: TextLine[] = [
			...around.map((row) => ({ line: row.line, text: rowText(row) })),
			...this.#columns.flatMap(({ field, heading }) =>
				field === 'unitPrice' || field === 'amount' ? [{ line: this.#headings.line, text: heading }] : []
			)
		];
		const column = (field: AnswerField): string[] =>
			rows.flatMap((row) => this.#cells.text(row, field) ?? []);
		const dayOrder = this.#options.dayOrder ?? dayOrderOf(column('promised'));
		const mark = this.#options.decimalMark ?? decimalMarkOf([...column('unitPrice'), ...column('amount')]);
		const unit = this.#options.unit ?? this.#unitIn(around, rows);
		const { facts, questions } = acknowledgementFacts([...notes, ...this.#codes(rows)], dayOrder);
		const lines = rows.map((row) => this.#cells.line(row, { dayOrder, mark, unit }));
		return {
			ok: true,
			// A table answers line by line: words that accept are no more than that, words that refuse are.
			acknowledgement: { ...facts, whole: facts.whole === 'refused' ? 'refused' : null, lines },
			sheet: this.#sheet.name,
			headerRow: this.#headings.line,
			columns: this.#columns,
			skipped: skipped.map(({ line, why }) => ({ line, why })),
			questions: [
				...questions.map((question) => ({ ...question, place: placeOf(this.#sheet, question.line, null) })),
				...this.#cells.questions
			]
		};
	}

	/** Currencies that stand beside the prices themselves. */
	#codes(rows: readonly SheetRow[]): TextLine[] {
		return rows.flatMap((row) => {
			const text = currencyIn(this.#cells.text(row, 'unitPrice') ?? '');
			return text === null ? [] : [{ line: row.line, text }];
		});
	}

	#whySkipped(row: SheetRow): string | null {
		if (repeatsHeadings(row, this.#headings)) return 'the headings repeated';
		const filled = row.cells.map((cell) => oneLine(textOf(cell))).filter((text) => text !== '');
		if (/^(?:sub-?\s?|grand\s|page\s)?totals?\b/iu.test(filled[0] ?? '')) return 'a total';
		const says = (['orderLine', 'mark', 'kind', 'description'] as const).some(
			(field) => this.#cells.text(row, field) !== null
		);
		if (!says) return 'nothing says what line it answers';
		return filled.length === 1 ? 'a remark: one text and nothing else' : null;
	}

	#unitIn(around: readonly SheetRow[], rows: readonly SheetRow[]): FigureUnit {
		const usual: FigureUnit = this.#options.measures === 'imperial' ? 'in' : 'mm';
		const elsewhere = this.#others.flatMap((sheet) => sheet.rows.slice(0, 60));
		for (const row of [...around, ...elsewhere]) {
			const unit = unitInNote(rowText(row));
			if (unit !== null) return unit;
		}
		const bare = (['length', 'width'] as const).some(
			(field) =>
				!isFigureUnit(this.#cells.column(field)?.unit) &&
				rows.some((row) => /^\d[\d.]*$/u.test(this.#cells.text(row, field) ?? ''))
		);
		if (bare)
			this.#cells.questions.push({
				line: this.#headings.line,
				place: placeOf(this.#sheet, this.#headings.line, null),
				text: '',
				reason: `nothing says what unit lengths without one are in; they are taken for ${titleOfUnit(usual)}`
			});
		return usual;
	}
}
