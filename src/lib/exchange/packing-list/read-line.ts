/** One line of a packing list: cells into what they say. Shared by lists in files and lists typed by hand. */
import type { PackingLine } from '../../delivery/line.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { oneLine, shown, textOf, type CellText } from '../sheet.ts';
import { isFigureUnit, type FigureUnit } from '../table-notes.ts';
import { readCrate } from './crates.ts';
import type { PackingField } from './fields.ts';
import { readOrderLine, sameOrder } from './order-line.ts';
import { readCount } from './read-count.ts';
import { readLengthCell, type FeetManner } from './read-length.ts';

/** Where the cells of a line come from. */
export interface LineCells {
	readonly line: number;
	cell(field: PackingField): CellText;
	/** Other cells that may be the quantity, where it is not settled which is. */
	readonly maybeQuantity: readonly CellText[];
	/** Unit of a column, from its heading. */
	unitOf(field: PackingField): string | null;
	/** How feet with a dot are written in a column. */
	feetOf(field: PackingField): FeetManner | null;
}

export interface ListManner {
	/** Of figures without a unit. */
	readonly unit: FigureUnit;
	readonly measures: Measures;
	/** Counts are written `2/4`. */
	readonly fractions: boolean;
	/** Our order, as the list names it. */
	readonly orderNumber: string | null;
	/** The crate that a row above the line names. */
	readonly crate: string | null;
}

/** Notes a question about a field of a line; gives null, which is what the field then says. */
export type AskAboutCell = (
	line: number,
	field: PackingField,
	text: string,
	reason: string,
	readings?: readonly string[]
) => null;

const hands: ReadonlyMap<string, 'left' | 'right' | 'one of each'> = new Map([
	...['left', 'l', 'lh', 'l.h.', 'l/h', 'left hand', 'left-hand', 'lhs', 'left side'].map(
		(word) => [word, 'left'] as const
	),
	...['right', 'r', 'rh', 'r.h.', 'r/h', 'right hand', 'right-hand', 'rhs', 'right side'].map(
		(word) => [word, 'right'] as const
	),
	...[
		'l/r',
		'l & r',
		'l&r',
		'l+r',
		'l + r',
		'l and r',
		'lh/rh',
		'lh & rh',
		'lh+rh',
		'left/right',
		'left & right',
		'left and right',
		'r/l',
		'rh/lh',
		'1l 1r',
		'1l+1r'
	].map((word) => [word, 'one of each'] as const)
]);

const saysBoth = /\bl(?:h|eft)?\.?\s*(?:&|\+|\/|and)\s*r(?:h|ight)?\b/iu;

const nothing = new Set(['', '-', '–', '—', 'n/a', 'na', 'none']);

export const saysNothing = (text: string): boolean => nothing.has(text.toLowerCase());

export class LineReader {
	readonly #cells: LineCells;
	readonly #manner: ListManner;
	readonly #ask: AskAboutCell;

	constructor(cells: LineCells, manner: ListManner, ask: AskAboutCell) {
		this.#cells = cells;
		this.#manner = manner;
		this.#ask = ask;
	}

	read(): PackingLine {
		const counted = this.#count('quantity');
		const ordered = this.#count('ordered');
		const backordered = this.#count('backordered')?.value ?? null;
		const all = this.#oneOf('ordered', ordered?.value ?? null, counted?.of ?? null);
		const length = this.#length('length');
		const width = this.#length('width');
		const hand = this.#hand();
		const kind = this.#text('kind');
		const description = this.#text('description');
		const words = [kind, description].filter((text) => text !== null).join(': ');
		const substitute = this.#substitute();
		const remark = this.#text('remark');
		return {
			line: this.#cells.line,
			orderLine: this.#orderLine(),
			partId: this.#text('partId'),
			mark: this.#plain('mark'),
			description: [
				words,
				hand === 'one of each' && !saysBoth.test(words) ? 'left and right' : '',
				this.#perBox()
			]
				.filter((text) => text !== '')
				.join(', '),
			quantity: counted?.value ?? this.#noQuantity(all, backordered),
			ordered: all,
			backordered,
			unit: this.#unit(counted?.unit ?? null),
			length,
			width,
			size: this.#plain('size'),
			hand: hand === 'one of each' ? null : hand,
			finish: this.#text('finish'),
			crate: this.#crate(),
			remark: [remark, substitute].filter((text) => text !== null).join('; ') || null
		};
	}

	#about(field: PackingField, text: string, reason: string, readings: readonly string[] = []): null {
		return this.#ask(this.#cells.line, field, text, reason, readings);
	}

	/** Text of a cell on one line; null when it says nothing. */
	#text(field: PackingField): string | null {
		const text = oneLine(textOf(this.#cells.cell(field)));
		return saysNothing(text) ? null : text;
	}

	/** Text of a cell that is meant to be more than text; null, and asked, when the spreadsheet made something else of it. */
	#plain(field: PackingField): string | null {
		const cell = this.#cells.cell(field);
		if (typeof cell === 'string') return this.#text(field);
		return this.#about(
			field,
			cell.text,
			cell.kind === 'date'
				? 'the spreadsheet holds a date here; write the value as text'
				: `${cell.text} is an error of the spreadsheet; write the value`
		);
	}

	#count(
		field: 'quantity' | 'ordered' | 'backordered'
	): { value: number; of: number | null; unit: string | null } | null {
		const cell = oneLine(textOf(this.#cells.cell(field)));
		const text = /^none$/iu.test(cell) ? cell : this.#plain(field);
		if (text === null) return null;
		const read = readCount(text, this.#manner.fractions || this.#text('ordered') !== null);
		if (read.ok) return read;
		return this.#about(field, text, `“${shown(text)}”: ${read.reason}`, read.readings);
	}

	/** Where nothing is written: 0 when all that was ordered is still to come, or what all columns say that it may be. */
	#noQuantity(ordered: number | null, backordered: number | null): number | null {
		if (this.#text('quantity') !== null) return null;
		if (ordered !== null && ordered > 0 && ordered === backordered) return 0;
		const maybe = this.#cells.maybeQuantity.map((cell) => readCount(oneLine(textOf(cell)), true));
		const [first] = maybe;
		if (first?.ok !== true) return null;
		if (maybe.length === 1) return backordered === 0 || backordered === null ? first.value : null;
		return maybe.every((read) => read.ok && read.value === first.value) ? first.value : null;
	}

	#oneOf(field: PackingField, own: number | null, beside: number | null): number | null {
		if (own !== null && beside !== null && own !== beside)
			return this.#about(
				field,
				String(own),
				`${own} here and “of ${beside}” beside the quantity; write which was ordered`
			);
		return own ?? beside;
	}

	#unit(beside: string | null): string | null {
		const own = this.#text('unit');
		const same = (a: string, b: string): boolean => {
			const [x, y] = [a, b].map((text) => text.toLowerCase().replace(/[^a-z]/gu, ''));
			return x !== undefined && y !== undefined && (x.startsWith(y) || y.startsWith(x));
		};
		if (own !== null && beside !== null && !same(own, beside))
			return this.#about(
				'unit',
				own,
				`${own} here and ${beside} beside the quantity; write the unit that is meant`
			);
		return own ?? beside;
	}

	/** `box of 24`, from a column of its own. */
	#perBox(): string {
		const text = this.#plain('perBox');
		return text === null ? '' : `${this.#text('unit') ?? 'box'} of ${text}`;
	}

	#length(field: 'length' | 'width'): number | null {
		const text = this.#plain(field);
		if (text === null) return null;
		const own = this.#cells.unitOf(field);
		const unit = isFigureUnit(own) ? own : this.#manner.unit;
		const { measures } = this.#manner;
		const read = readLengthCell(text, { unit, measures, feet: this.#cells.feetOf(field) });
		if (!read.ok) return this.#about(field, text, read.reason, read.readings);
		return read.nm === 0 ? null : read.nm;
	}

	#hand(): 'left' | 'right' | 'one of each' | null {
		const text = this.#text('hand');
		if (text === null) return null;
		const known = hands.get(text.toLowerCase());
		if (known !== undefined) return known;
		return this.#about(
			'hand',
			text,
			/^both|^pair|^either/iu.test(text)
				? `“${shown(text)}” may be one of each hand or a part that fits either; write L/R for one of each, or leave it empty`
				: `“${shown(text)}” is no hand; write left or right`
		);
	}

	#orderLine(): string | null {
		const field = this.#text('orderLine') === null ? 'orderNumber' : 'orderLine';
		const text = this.#plain(field);
		if (text === null) return null;
		const read = readOrderLine(text);
		if (field === 'orderNumber' && (read?.order ?? null) === null) return null;
		if (!read) return text;
		const order = read.order ?? this.#text('orderNumber');
		const ours = this.#manner.orderNumber;
		if (order === null || ours === null || sameOrder(order, ours)) return read.number;
		return `${order}/${read.number}`;
	}

	#crate(): string | null {
		const text = this.#plain('crate');
		return text === null ? this.#manner.crate : readCrate(text).name;
	}

	/** `22 ga in lieu of 24 ga`, or a tick. */
	#substitute(): string | null {
		const text = this.#text('substitute');
		if (text === null || /^(?:no|n|0)$/iu.test(text)) return null;
		return /^(?:yes|y|x|✓|✔|1)$/iu.test(text) ? 'substituted' : `substituted: ${text}`;
	}
}
