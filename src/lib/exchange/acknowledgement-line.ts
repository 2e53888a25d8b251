/** One row of an acknowledgement, cell by cell. */
import type { AcknowledgedLine } from '../delivery/ordering/acknowledgement.ts';
import { parseLength } from '../quantity/length.ts';
import type { Measures } from '../takeoff/inputs.ts';
import { answerWords, blank, handWords, type AnswerField } from './acknowledgement-columns.ts';
import { readDay, type DayOrder } from './day-text.ts';
import { placeOf, type ColumnReading } from './headings.ts';
import { readPrice, type DecimalMark } from './price-text.ts';
import { oneLine, shown, textOf, type CellText, type Sheet, type SheetRow } from './sheet.ts';
import { isFigureUnit, withUnit, type FigureUnit } from './table-notes.ts';

export interface AnswerQuestion {
	readonly line: number;
	/** `Answer, row 12, I “Unit price”` */
	readonly place: string;
	readonly text: string;
	readonly reason: string;
}

/** How figures of a file are meant that could be read two ways. */
export interface Ways {
	readonly dayOrder: DayOrder | null;
	readonly mark: DecimalMark | null;
	readonly unit: FigureUnit;
}

export class AnswerCells {
	/** What could not be read. */
	readonly questions: AnswerQuestion[] = [];
	readonly #sheet: Sheet;
	readonly #columns: readonly ColumnReading<AnswerField>[];
	readonly #measures: Measures;

	constructor(sheet: Sheet, columns: readonly ColumnReading<AnswerField>[], measures: Measures) {
		this.#sheet = sheet;
		this.#columns = columns;
		this.#measures = measures;
	}

	column(field: AnswerField): ColumnReading<AnswerField> | undefined {
		return this.#columns.find((column) => column.field === field);
	}

	#cell(row: SheetRow, field: AnswerField): CellText {
		const column = this.column(field);
		return column ? (row.cells[column.index] ?? '') : '';
	}

	/** Text of a cell on one line; null when it says nothing. */
	text(row: SheetRow, field: AnswerField): string | null {
		const text = oneLine(textOf(this.#cell(row, field)));
		return blank.has(text.toLowerCase()) ? null : text;
	}

	#ask(row: SheetRow, field: AnswerField, text: string, reason: string): null {
		const place = placeOf(this.#sheet, row.line, this.column(field) ?? null);
		this.questions.push({ line: row.line, place, text: shown(text), reason });
		return null;
	}

	/** Text that is meant to be no date; null, and asked, where the spreadsheet made one or an error of it. */
	#plain(row: SheetRow, field: AnswerField): string | null {
		const cell = this.#cell(row, field);
		if (typeof cell === 'string') return this.text(row, field);
		const what = cell.kind === 'date' ? 'holds a date' : `shows the error ${cell.text}`;
		return this.#ask(row, field, cell.text, `the spreadsheet ${what} here; write the value as text`);
	}

	/** The whole row as a line of the answer; what can't be read is null and asked. */
	line(row: SheetRow, { dayOrder, mark, unit }: Ways): AcknowledgedLine {
		const description = [this.text(row, 'kind'), this.text(row, 'description')];
		return {
			line: row.line,
			orderLine: this.#orderLine(row),
			mark: this.text(row, 'mark'),
			description: description.filter((text) => text !== null).join(': '),
			quantity: this.#quantity(row),
			unit: this.text(row, 'unit'),
			unitPrice: this.#price(row, mark),
			length: this.#length(row, 'length', unit),
			width: this.#length(row, 'width', unit),
			size: this.#plain(row, 'size'),
			hand: this.#word(row, 'hand', handWords, 'is no hand; write left or right'),
			finish: this.text(row, 'finish'),
			promised: this.#promised(row, dayOrder),
			answer: this.#word(row, 'answer', answerWords, 'is no answer; write accepted, changed or refused')
		};
	}

	#orderLine(row: SheetRow): number | null {
		const text = this.#plain(row, 'orderLine');
		if (text === null) return null;
		const figure = /^(?:(?:po )?line\s*|l|#|[\p{L}\d-]+\/)?0*(\d{1,5})(?:\.0+)?$/iu.exec(text)?.[1];
		return figure === undefined
			? this.#ask(row, 'orderLine', text, `“${shown(text)}” is not the number of a line; write it as 14`)
			: Number(figure);
	}

	#quantity(row: SheetRow): string | null {
		const text = this.#plain(row, 'quantity');
		if (text === null) return null;
		const plain = /^\d{1,3}(?:,\d{3})+$/u.test(text) ? null : text;
		return plain !== null && /^\d{1,7}(?:\.\d{1,4})?$/u.test(plain)
			? plain
			: this.#ask(row, 'quantity', text, `“${shown(text)}” is not a count; write a number, 0 or more`);
	}

	#price(row: SheetRow, mark: DecimalMark | null): string | null {
		const text = this.#plain(row, 'unitPrice');
		if (text === null) return null;
		const read = readPrice(text, mark);
		return read.ok ? read.price : this.#ask(row, 'unitPrice', text, read.reason);
	}

	#length(row: SheetRow, field: 'length' | 'width', unit: FigureUnit): number | null {
		const text = this.#plain(row, field);
		if (text === null) return null;
		const measures = this.#measures;
		const own = this.column(field)?.unit;
		const { written } = withUnit(text, isFigureUnit(own) ? own : unit, measures);
		const read = parseLength(written, measures === 'imperial' ? 'in' : 'mm');
		if (!read.ok) return this.#ask(row, field, text, read.reason);
		return read.nm > 0 ? read.nm : this.#ask(row, field, text, 'a length of 0 or below; write one above 0');
	}

	#promised(row: SheetRow, order: DayOrder | null): string | null {
		const cell = this.#cell(row, 'promised');
		const text = this.text(row, 'promised');
		if (text === null) return null;
		if (typeof cell !== 'string' && cell.kind === 'error') return this.#plain(row, 'promised');
		const read = readDay(text, order);
		return read.ok ? read.day : this.#ask(row, 'promised', text, read.reason);
	}

	#word<T extends string>(
		row: SheetRow,
		field: AnswerField,
		known: ReadonlyMap<string, T>,
		otherwise: string
	): T | null {
		const text = this.text(row, field);
		if (text === null) return null;
		return known.get(text.toLowerCase()) ?? this.#ask(row, field, text, `“${shown(text)}” ${otherwise}`);
	}
}
