/** A packing list as suppliers write it: lines of parts, read and nothing guessed. */
import type { PackingLine } from '../delivery/line.ts';
import { parseLength } from '../quantity/length.ts';
import type { Measures } from '../takeoff/inputs.ts';
import {
	findHeadings,
	headingNames,
	placeOf,
	readHeadings,
	repeatsHeadings,
	type ColumnReading,
	type HeadingField
} from './headings.ts';
import { oneLine, shown, textOf, type CellText, type Sheet, type SheetRow } from './sheet.ts';
import { isFigureUnit, titleOfUnit, unitInNote, withUnit, type FigureUnit } from './table-notes.ts';

/** What a column of a packing list holds. Weight is recognised and left out. */
type PackingField =
	| 'partId'
	| 'orderLine'
	| 'mark'
	| 'kind'
	| 'description'
	| 'quantity'
	| 'unit'
	| 'length'
	| 'width'
	| 'size'
	| 'hand'
	| 'finish'
	| 'crate'
	| 'remark'
	| 'ordered'
	| 'backordered'
	| 'weight';

/** What a person decided about a file. */
export interface PackingMapping {
	readonly sheet?: string | undefined;
	/** Row (line) of the headings, from 1. */
	readonly headerRow?: number | undefined;
	/** By column from 0. */
	readonly columns?: Readonly<Record<string, PackingField | null>> | undefined;
	/** Unit of figures without one. */
	readonly unit?: FigureUnit | undefined;
}

interface PackingQuestion {
	readonly line: number;
	/** `Packing list, row 12, I “Length”` */
	readonly place: string;
	readonly text: string;
	readonly reason: string;
}

export interface PackingOptions {
	readonly measures: Measures;
	readonly mapping?: PackingMapping | undefined;
}

export type PackingReading =
	| {
			ok: true;
			sheet: string;
			headerRow: number;
			lines: PackingLine[];
			columns: readonly ColumnReading<PackingField>[];
			/** Lines that hold no part, with why. */
			skipped: readonly { readonly line: number; readonly why: string }[];
			/** Cells that could not be read (they are null in their line), and what was taken for granted. */
			questions: readonly PackingQuestion[];
	  }
	| { ok: false; message: string; place: string };

// prettier-ignore
const fields: readonly HeadingField<PackingField>[] = [
	{ field: 'partId', names: ['part id', 'part number', 'our part id', 'your part id', 'part code', 'piece id', 'piece mark'], perhaps: ['id', 'part'], fits: (text) => /\d/u.test(text) && !/\s/u.test(text) },
	{ field: 'orderLine', names: ['line', 'order line', 'line number', 'item number', 'order line number', 'po line', 'position', 'pos'], perhaps: ['number', 'item'], fits: (text) => /^\d+$/u.test(text) },
	{ field: 'mark', names: ['mark', 'type mark', 'opening mark', 'door mark', 'opening', 'tag', 'for mark', 'opening tag', 'mark number', 'opening number'], perhaps: ['door', 'reference'] },
	{ field: 'kind', names: ['kind', 'part kind', 'part type', 'component', 'part name'], perhaps: ['item', 'part', 'type', 'product'], fits: (text) => /\p{L}{3}/u.test(text) },
	{ field: 'description', names: ['description', 'item description', 'part description', 'article', 'material'], perhaps: ['item', 'product', 'part'] , fits: (text) => /\p{L}{3}/u.test(text) },
	{ field: 'quantity', names: ['quantity', 'quantity shipped', 'shipped', 'shipped quantity', 'quantity delivered', 'delivered', 'quantity this shipment', 'this shipment', 'number shipped', 'quantity packed', 'packed', 'pieces', 'pcs', 'count', 'number off'] },
	{ field: 'unit', names: ['unit', 'um', 'uom', 'unit of measure', 'units'] },
	{ field: 'length', names: ['length', 'cut length', 'l'] },
	{ field: 'width', names: ['width', 'curtain width'] },
	{ field: 'size', names: ['size', 'nominal size', 'nominal', 'dimension'] },
	{ field: 'hand', names: ['hand', 'handing', 'side', 'left right'] },
	{ field: 'finish', names: ['finish', 'colour', 'color'] },
	{ field: 'crate', names: ['crate', 'crate number', 'box', 'box number', 'bundle', 'package', 'package number', 'carton', 'pallet'] },
	{ field: 'remark', names: ['remark', 'note', 'comment', 'condition', 'state', 'status'] },
	{ field: 'ordered', names: ['ordered', 'quantity ordered', 'order quantity'] },
	{ field: 'backordered', names: ['backordered', 'back ordered', 'backorder', 'back order', 'quantity backordered', 'backorder quantity', 'to follow', 'outstanding'] },
	{ field: 'weight', names: ['weight', 'gross weight', 'total weight', 'mass', 'net weight'] }
];

const names = headingNames(fields);

/** A line needs a count, and something that says of what. */
const heads = (found: ReadonlySet<PackingField>): boolean =>
	found.has('quantity') &&
	(found.has('partId') || found.has('mark') || found.has('description') || found.has('kind'));

const hands: ReadonlyMap<string, 'left' | 'right'> = new Map([
	['left', 'left'],
	['l', 'left'],
	['lh', 'left'],
	['l.h.', 'left'],
	['left hand', 'left'],
	['left-hand', 'left'],
	['right', 'right'],
	['r', 'right'],
	['rh', 'right'],
	['r.h.', 'right'],
	['right hand', 'right'],
	['right-hand', 'right']
]);

const nothing = new Set(['', '-', '–', '—', 'n/a', 'na']);

/**
 * Reads a packing list: the row of headings by their usual names, then a line a part. A cell that can't be read is null
 * in its line and listed with its place; fails only when there is no table of parts at all.
 */
export function readPackingList(sheets: readonly Sheet[], options: PackingOptions): PackingReading {
	const mapping = options.mapping ?? {};
	const among = mapping.sheet === undefined ? sheets : sheets.filter((sheet) => sheet.name === mapping.sheet);
	const { headerRow } = mapping;
	let found = findHeadings(among, names, heads);
	if (headerRow !== undefined) {
		const sheet = found?.sheet ?? among[0];
		const position = sheet?.rows.findIndex((row) => row.line === headerRow) ?? -1;
		if (sheet && position >= 0)
			found = { sheet, position, columns: readHeadings(sheet, position, names), found: 0 };
	}
	const name = among[0]?.name ?? sheets[0]?.name ?? '';
	if (!found)
		return {
			ok: false,
			place: name,
			message:
				'no heading row found; a packing list needs a row with headings such as Mark, Description, Qty shipped above its lines'
		};
	return new PackingReader(sheets, found.sheet, found.position, found.columns, options).read();
}

class PackingReader {
	readonly #sheet: Sheet;
	readonly #headings: SheetRow;
	readonly #below: readonly SheetRow[];
	readonly #columns: readonly ColumnReading<PackingField>[];
	readonly #measures: Measures;
	readonly #questions: PackingQuestion[] = [];
	readonly #unit: FigureUnit;

	constructor(
		sheets: readonly Sheet[],
		sheet: Sheet,
		position: number,
		columns: readonly ColumnReading<PackingField>[],
		{ measures, mapping }: PackingOptions
	) {
		const headings = sheet.rows[position];
		if (!headings) throw new Error(`${sheet.name} has no row at ${position}`);
		this.#sheet = sheet;
		this.#headings = headings;
		this.#below = sheet.rows.slice(position + 1);
		this.#measures = measures;
		const chosen = new Map(Object.entries(mapping?.columns ?? {}).map(([i, field]) => [Number(i), field]));
		const taken = new Set(chosen.values());
		this.#columns = columns.map((column) => {
			const choice = chosen.get(column.index);
			if (choice !== undefined)
				return { ...column, field: choice, how: choice === null ? 'left out by choice' : 'chosen' };
			return taken.has(column.field) ? { ...column, field: null, how: 'chosen elsewhere' } : column;
		});
		this.#unit = mapping?.unit ?? this.#chooseUnit(sheets);
	}

	#chooseUnit(sheets: readonly Sheet[]): FigureUnit {
		const usual: FigureUnit = this.#measures === 'imperial' ? 'in' : 'mm';
		const around = [
			...this.#sheet.rows.filter((row) => row.line < this.#headings.line),
			...this.#below.filter((row) => row.cells.filter((cell) => textOf(cell) !== '').length === 1),
			...sheets.filter((sheet) => sheet !== this.#sheet).flatMap((sheet) => sheet.rows.slice(0, 60))
		];
		for (const row of around)
			for (const cell of row.cells) {
				const unit = unitInNote(oneLine(textOf(cell)));
				if (unit !== null) return unit;
			}
		const bare = this.#columns.some(
			({ field, index, unit }) =>
				(field === 'length' || field === 'width') &&
				unit === null &&
				this.#below.some((row) => /^\d[\d.]*$/u.test(oneLine(textOf(row.cells[index]))))
		);
		if (bare)
			this.#questions.push({
				line: this.#headings.line,
				place: placeOf(this.#sheet, this.#headings.line, null),
				text: '',
				reason: `nothing says what unit lengths without one are in; they are taken for ${titleOfUnit(usual)}`
			});
		return usual;
	}

	read(): PackingReading {
		const lines: PackingLine[] = [];
		const skipped: { line: number; why: string }[] = [];
		for (const row of this.#below) {
			const why = this.#whySkipped(row);
			if (why === null) lines.push(this.#line(row));
			else skipped.push({ line: row.line, why });
		}
		if (lines.length === 0)
			return {
				ok: false,
				place: placeOf(this.#sheet, this.#headings.line, null),
				message: `no lines of parts below the headings in ${this.#sheet.rowWord} ${this.#headings.line}`
			};
		return {
			ok: true,
			sheet: this.#sheet.name,
			headerRow: this.#headings.line,
			lines,
			columns: this.#columns,
			skipped,
			questions: this.#questions
		};
	}

	#column(field: PackingField): ColumnReading<PackingField> | undefined {
		return this.#columns.find((column) => column.field === field);
	}

	#cell(row: SheetRow, field: PackingField): CellText {
		const column = this.#column(field);
		return column ? (row.cells[column.index] ?? '') : '';
	}

	/** Text of a cell on one line; null when it says nothing. */
	#text(row: SheetRow, field: PackingField): string | null {
		const text = oneLine(textOf(this.#cell(row, field)));
		return nothing.has(text.toLowerCase()) ? null : text;
	}

	#whySkipped(row: SheetRow): string | null {
		if (repeatsHeadings(row, this.#headings)) return 'the headings repeated';
		const filled = row.cells.map((cell) => oneLine(textOf(cell))).filter((text) => text !== '');
		if (/^(?:sub-?\s?|grand\s)?totals?\b/iu.test(filled[0] ?? '')) return 'a total';
		const says = (['partId', 'mark', 'kind', 'description'] as const).some(
			(field) => this.#text(row, field) !== null
		);
		if (!says) return 'nothing says what part it is';
		if (filled.length === 1) return 'a remark: one text and nothing else';
		return null;
	}

	#ask(row: SheetRow, field: PackingField, text: string, reason: string): null {
		const place = placeOf(this.#sheet, row.line, this.#column(field) ?? null);
		this.#questions.push({ line: row.line, place, text: shown(text), reason });
		return null;
	}

	/** Text of a cell that is meant to be more than text; null, and asked, when the spreadsheet made something else of it. */
	#plain(row: SheetRow, field: PackingField): string | null {
		const cell = this.#cell(row, field);
		if (typeof cell === 'string') return this.#text(row, field);
		return this.#ask(
			row,
			field,
			cell.text,
			cell.kind === 'date'
				? 'the spreadsheet holds a date here; write the value as text'
				: `${cell.text} is an error of the spreadsheet; write the value`
		);
	}

	#line(row: SheetRow): PackingLine {
		if (
			this.#sheet.rowWord === 'line' &&
			row.cells.slice(this.#headings.cells.length).some((cell) => textOf(cell).trim() !== '')
		)
			this.#ask(
				row,
				'quantity',
				'',
				`${row.cells.length} fields where the headings have ${this.#headings.cells.length}: a delimiter inside a field may have moved its cells`
			);
		const kind = this.#text(row, 'kind');
		const description = this.#text(row, 'description');
		return {
			line: row.line,
			orderLine: this.#text(row, 'orderLine'),
			partId: this.#text(row, 'partId'),
			mark: this.#text(row, 'mark'),
			description: [kind, description].filter((text) => text !== null).join(': '),
			quantity: this.#quantity(row, 'quantity'),
			ordered: this.#quantity(row, 'ordered'),
			backordered: this.#quantity(row, 'backordered'),
			unit: this.#text(row, 'unit'),
			length: this.#length(row, 'length'),
			width: this.#length(row, 'width'),
			size: this.#plain(row, 'size'),
			hand: this.#hand(row),
			finish: this.#text(row, 'finish'),
			crate: this.#text(row, 'crate'),
			remark: this.#text(row, 'remark')
		};
	}

	#quantity(row: SheetRow, field: 'quantity' | 'ordered' | 'backordered'): number | null {
		const text = this.#plain(row, field);
		if (text === null) return null;
		const value = /^\d{1,7}(?:\.\d{1,4})?$/u.test(text) ? Number(text) : Number.NaN;
		if (Number.isFinite(value)) return value;
		return this.#ask(row, field, text, `“${shown(text)}” is not a count; write a number, 0 or more`);
	}

	#length(row: SheetRow, field: 'length' | 'width'): number | null {
		const text = this.#plain(row, field);
		if (text === null) return null;
		const own = this.#column(field)?.unit;
		const { written } = withUnit(text, isFigureUnit(own) ? own : this.#unit, this.#measures);
		const read = parseLength(written, this.#measures === 'imperial' ? 'in' : 'mm');
		if (!read.ok) return this.#ask(row, field, text, read.reason);
		if (read.nm > 0) return read.nm;
		return read.nm === 0 ? null : this.#ask(row, field, text, 'a length below 0; write 0 or more');
	}

	#hand(row: SheetRow): 'left' | 'right' | null {
		const text = this.#text(row, 'hand');
		if (text === null) return null;
		return (
			hands.get(text.toLowerCase()) ??
			this.#ask(row, 'hand', text, `“${shown(text)}” is no hand; write left or right`)
		);
	}
}
