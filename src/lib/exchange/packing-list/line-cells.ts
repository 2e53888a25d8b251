/** The cells of a line by their fields, with what merged cells and ditto marks stand for. */
import { oneLine, textOf, type CellText, type Sheet, type SheetRow } from '../sheet.ts';
import type { PackingField } from './fields.ts';
import type { LineCells } from './read-line.ts';
import type { FeetManner } from './read-length.ts';
import type { PackingTable } from './tables.ts';

/** A merge says the same of all its rows in these; a merged count or length could be the sum. */
const merging: readonly PackingField[] = ['mark', 'kind', 'crate', 'finish', 'orderNumber'];
const ditto = /^(?:"|''|[″”〃]|ditto|do\.?|- ?" ?-)$/iu;
/** Rows that merges may cover in all; more is no packing list. */
const mostMerged = 100_000;

export class LineCellsOf {
	readonly #merged: ReadonlyMap<string, CellText>;
	readonly #feet: ReadonlyMap<PackingTable, ReadonlyMap<PackingField, FeetManner | null>>;
	/** What stood in each column of the line above, ditto marks followed. */
	readonly #above = new Map<string, CellText>();

	constructor(sheet: Sheet, feet: ReadonlyMap<PackingTable, ReadonlyMap<PackingField, FeetManner | null>>) {
		this.#feet = feet;
		const merged = new Map<string, CellText>();
		const byLine = new Map(sheet.rows.map((row) => [row.line, row]));
		const last = sheet.rows.at(-1)?.line ?? 0;
		let covered = 0;
		for (const { top, bottom, left, right } of sheet.merges) {
			if (left !== right) continue;
			const text = byLine.get(top)?.cells[left] ?? '';
			for (let line = top + 1; line <= Math.min(bottom, last) && covered < mostMerged; line++, covered++)
				merged.set(`${line} ${left}`, text);
		}
		this.#merged = merged;
	}

	/** Lines have to be asked for in their order, since a ditto mark takes from the one above. */
	of(row: SheetRow, table: PackingTable): LineCells {
		const cells = new Map<PackingField, CellText>();
		for (const { field, index } of table.columns) {
			if (field === null) continue;
			let cell = row.cells[index] ?? '';
			const text = oneLine(textOf(cell));
			if (text === '' && merging.includes(field)) cell = this.#merged.get(`${row.line} ${index}`) ?? '';
			const key = `${table.position} ${index}`;
			if (ditto.test(text)) cell = this.#above.get(key) ?? cell;
			this.#above.set(key, cell);
			cells.set(field, cell);
		}
		return {
			line: row.line,
			cell: (field) => cells.get(field) ?? '',
			maybeQuantity: table.maybeQuantity.map((index) => row.cells[index] ?? ''),
			unitOf: (field) => table.columns.find((column) => column.field === field)?.unit ?? null,
			feetOf: (field) => this.#feet.get(table)?.get(field) ?? null
		};
	}
}
