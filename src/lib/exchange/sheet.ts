/** A table as it stands in a file: text in rows, with where each stood. What the readers of files hand on. */

/** A cell that is more than its text: a date, or an error such as `#REF!`. */
interface MarkedCell {
	readonly text: string;
	readonly kind: 'date' | 'error';
	/** A date that shows its month and year alone: `4-0` typed into a spreadsheet becomes `Apr-00`. */
	readonly monthAndYear?: true;
}

/** Nearly always plain text; numbers as plain decimals without exponent. */
export type CellText = string | MarkedCell;

export interface SheetRow {
	/** Row of the sheet, or line of the text where the record begins; from 1. */
	readonly line: number;
	/** By column from 0. Shorter rows end early; holes are empty text. */
	readonly cells: readonly CellText[];
	/** Hidden or filtered away in the workbook. */
	readonly hidden: boolean;
	/** It is a filter of the sheet that hides it. */
	readonly filtered?: true;
	/** Columns whose cells are struck through, from 0; absent when none is. */
	readonly struck?: readonly number[];
}

/** Merged cells: rows from 1, columns from 0, all inclusive. The value stands in the top left one. */
export interface Merge {
	readonly top: number;
	readonly left: number;
	readonly bottom: number;
	readonly right: number;
}

export interface Sheet {
	readonly name: string;
	/** What its rows are called in messages. */
	readonly rowWord: 'row' | 'line';
	/** Rows that hold something, in order. */
	readonly rows: readonly SheetRow[];
	readonly merges: readonly Merge[];
	readonly hidden: boolean;
}

/** A file that was read, or one sentence that says why not. */
export type SheetsReading = { ok: true; sheets: readonly Sheet[] } | { ok: false; message: string };

export const mostRows = 20_000;
export const mostColumns = 2048;
export const mostBytes = 20 * 1024 * 1024;

export const textOf = (cell: CellText | undefined): string =>
	cell === undefined ? '' : typeof cell === 'string' ? cell : cell.text;

/** Spaces of every kind and line breaks as one space, nothing at the ends; invisible signs go. */
export const oneLine = (text: string): string =>
	// Most cells are in order as they stand.
	/^(?:[!-~]+(?: [!-~]+)*)?$/u.test(text)
		? text
		: text
				.replace(/[\s\u00A0\u2007\u202F]+/gu, ' ')
				.replace(/[\p{Cc}\u200B\u200E\u200F\u202A-\u202E\u2060\u2066-\u2069\uFEFF]/gu, '')
				.trim();

/** `A`, `Z`, `AA` … for a column from 0. */
export function columnLetter(index: number): string {
	let letters = '';
	for (let rest = index + 1; rest > 0; rest = Math.floor((rest - 1) / 26))
		letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
	return letters;
}

/** Column from 0 of its letters, or -1. */
export function columnIndex(letters: string): number {
	if (!/^[A-Z]{1,3}$/u.test(letters)) return -1;
	let index = 0;
	for (const letter of letters) index = index * 26 + letter.charCodeAt(0) - 64;
	return index - 1;
}

/** `20.0 MB` */
export const megabytes = (bytes: number): string => `${(bytes / (1024 * 1024)).toFixed(1)} MB`;

/** `100,000` */
export const grouped = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/gu, ',');

/** The part of a text that goes into a message. */
export const shown = (text: string): string => (text.length > 60 ? `${text.slice(0, 60)}…` : text);
