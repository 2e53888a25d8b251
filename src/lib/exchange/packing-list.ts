/**
 * A packing list as suppliers write it: lines of parts, read and nothing guessed.
 *
 * Step by step, a file each in `packing-list/`: the names of columns, the tables and which column counts what, what each
 * row is, the cells of a line (counts, lengths, lines of our order, crates), and the facts around the tables.
 */
import type { PackingLine } from '../delivery/line.ts';
import { findHeadings, placeOf } from './headings.ts';
import { readFacts, type FactsFound } from './packing-list/facts.ts';
import { headsParts, packingNames, type PackingField } from './packing-list/fields.ts';
import { LineCellsOf } from './packing-list/line-cells.ts';
import { cratesOf, ordersIn } from './packing-list/from-lines.ts';
import { sameOrder } from './packing-list/order-line.ts';
import { LineReader } from './packing-list/read-line.ts';
import type { FeetManner } from './packing-list/read-length.ts';
import {
	missingFrom,
	type PackingMapping,
	type PackingOptions,
	type PackingQuestion,
	type PackingReading
} from './packing-list/reading.ts';
import { sortRows, type GoodsRow } from './packing-list/rows.ts';
import { statementsOf } from './packing-list/statements.ts';
import { feetOf, findTables, type PackingTable } from './packing-list/tables.ts';
import { oneLine, shown, textOf, type Sheet, type SheetRow } from './sheet.ts';
import { titleOfUnit, unitInNote, type FigureUnit } from './table-notes.ts';

export {
	packingMappingSchema,
	type PackingMapping,
	type PackingOptions,
	type PackingReading
} from './packing-list/reading.ts';
export { typedPackingList, type TypedLine } from './packing-list/typed-list.ts';

/** Rows of other sheets that are looked at for notes. */
const noteRows = 60;

/**
 * Reads a packing list: the row of headings by their usual names, then a line a part. A cell that can't be read is null
 * in its line and listed with its place; fails only when there is no table of parts at all.
 */
export function readPackingList(sheets: readonly Sheet[], options: PackingOptions): PackingReading {
	const mapping = options.mapping ?? {};
	if (mapping.sheet !== undefined && !sheets.some(({ name }) => name === mapping.sheet))
		return {
			ok: false,
			place: mapping.sheet,
			message: `no sheet of this name; there are ${sheets.map(({ name }) => `“${name}”`).join(', ')}`
		};
	const found = findTables(sheets, mapping);
	if (!found)
		return {
			ok: false,
			place: mapping.sheet ?? sheets[0]?.name ?? '',
			message:
				mapping.headerRow !== undefined
					? `nothing stands in ${sheets[0]?.rowWord ?? 'row'} ${mapping.headerRow}; choose the row that holds the headings`
					: 'no heading row found; a packing list needs a row with headings such as Mark, Description, Qty shipped above its lines'
		};
	return new PackingReader(sheets, found, options).read();
}

class PackingReader {
	readonly #sheets: readonly Sheet[];
	readonly #sheet: Sheet;
	readonly #tables: readonly PackingTable[];
	readonly #options: PackingOptions;
	readonly #mapping: PackingMapping;
	readonly #questions: PackingQuestion[];

	constructor(
		sheets: readonly Sheet[],
		{ sheet, tables, passedOver }: NonNullable<ReturnType<typeof findTables>>,
		options: PackingOptions
	) {
		this.#sheets = sheets;
		this.#sheet = sheet;
		this.#tables = tables;
		this.#options = options;
		this.#mapping = options.mapping ?? {};
		this.#questions = tables.flatMap(({ questions }) => questions);
		for (const line of passedOver)
			this.#ask(
				line,
				'',
				'headings of a table with less in it, such as a list of crates; its lines are not read. Choose it as the row of headings if they are goods'
			);
	}

	read(): PackingReading {
		const [first] = this.#tables;
		if (!first) throw new Error(`${this.#sheet.name} has no table`);
		const { goods, skipped, around } = sortRows(this.#sheet.rows, this.#tables);
		if (goods.length === 0)
			return {
				ok: false,
				place: placeOf(this.#sheet, first.headings.line, null),
				message: `no lines of parts below the headings in ${this.#sheet.rowWord} ${first.headings.line}`
			};
		const notes = [...around, ...this.#notesElsewhere()];
		const unit = this.#mapping.unit ?? this.#chooseUnit(first, goods, notes);
		const found = this.#facts(first, goods, notes);
		const lines = this.#lines(goods, unit, found.facts.orderNumber);
		this.#askAboutSums(lines);
		const facts = { ...found.facts, crates: cratesOf(found, goods, lines) };
		return {
			ok: true,
			sheet: this.#sheet.name,
			headerRow: first.headings.line,
			lines,
			facts,
			missing: missingFrom(facts),
			columns: first.columns,
			skipped,
			questions: this.#questions
		};
	}

	#ask(line: number, text: string, reason: string): void {
		const place = placeOf(this.#sheet, line, null);
		this.#questions.push({ line, place, field: null, text: shown(text), reason, readings: [] });
	}

	/** Rows of the other sheets that hold no table of parts; those that do are told. */
	#notesElsewhere(): SheetRow[] {
		return this.#sheets.flatMap((sheet) => {
			if (sheet === this.#sheet) return [];
			if (!findHeadings([sheet], packingNames, headsParts)) return sheet.rows.slice(0, noteRows);
			this.#questions.push({
				line: 1,
				place: sheet.name,
				field: null,
				text: '',
				reason: `this sheet has a table of parts too, which is not in this reading; choose it, and bring it in as a list of its own`,
				readings: []
			});
			return [];
		});
	}

	#chooseUnit(first: PackingTable, goods: readonly GoodsRow[], notes: readonly SheetRow[]): FigureUnit {
		const usual: FigureUnit = this.#options.measures === 'imperial' ? 'in' : 'mm';
		for (const row of notes)
			for (const cell of row.cells) {
				const unit = unitInNote(oneLine(textOf(cell)));
				if (unit !== null) return unit;
			}
		const bare = goods.some(({ row, table }) =>
			table.columns.some(
				({ field, index, unit }) =>
					(field === 'length' || field === 'width') &&
					unit === null &&
					/^\d[\d.,]*$/u.test(oneLine(textOf(row.cells[index])))
			)
		);
		if (bare)
			this.#ask(
				first.headings.line,
				'',
				`nothing says what unit lengths without one are in; they are taken for ${titleOfUnit(usual)}`
			);
		return usual;
	}

	#facts(first: PackingTable, goods: readonly GoodsRow[], notes: readonly SheetRow[]): FactsFound {
		const head = this.#sheet.rows
			.slice(0, first.position)
			.flatMap((row) => row.cells.map((cell) => oneLine(textOf(cell))))
			.filter((text) => text !== '');
		const measured = first.columns
			.filter(
				({ field, heading }) =>
					heading !== '' && (field === 'length' || field === 'width' || field === 'size')
			)
			.map(({ heading, group }) => ({ line: first.headings.line, text: `${group} ${heading} size` }));
		const found = readFacts([...statementsOf(notes), ...measured], head);
		for (const { line, text, reason } of found.questions) this.#ask(line, text, reason);
		if (found.facts.orderNumber !== null) return found;
		const orders = ordersIn(goods);
		const [only, ...others] = orders;
		if (only === undefined || others.some((other) => !sameOrder(other, only))) return found;
		return { ...found, facts: { ...found.facts, orderNumber: only } };
	}

	#lines(goods: readonly GoodsRow[], unit: FigureUnit, orderNumber: string | null): PackingLine[] {
		const rowsOf = new Map<PackingTable, SheetRow[]>();
		for (const { row, table } of goods) {
			const rows = rowsOf.get(table);
			if (rows) rows.push(row);
			else rowsOf.set(table, [row]);
		}
		const feet = new Map<PackingTable, Map<PackingField, FeetManner | null>>();
		for (const [table, rows] of rowsOf)
			feet.set(
				table,
				new Map(
					(['length', 'width'] as const).map((field) => [
						field,
						feetOf(table, field, rows, unit, this.#mapping.feet)
					])
				)
			);
		const cells = new LineCellsOf(this.#sheet, feet);
		const fractions = goods.some(({ row }) =>
			row.cells.some(
				(cell) =>
					/^\d{1,4}\s*\/\s*\d{1,4}$/u.test(oneLine(textOf(cell))) &&
					!/^[13]\/[248]$/u.test(oneLine(textOf(cell)))
			)
		);
		return goods.map((each) => {
			const { row, table, more, nameless } = each;
			this.#askAboutRow(each);
			const manner = { unit, measures: this.#options.measures, fractions, orderNumber, crate: each.crate };
			const line = new LineReader(cells.of(row, table), manner, (at, field, text, reason, readings = []) => {
				const column = table.columns.find((column) => column.field === field) ?? null;
				this.#questions.push({
					line: at,
					place: placeOf(this.#sheet, at, column),
					field,
					text: shown(text),
					reason,
					readings
				});
				return null;
			}).read();
			if (nameless) this.#ask(row.line, '', 'it counts something, and nothing says what part it is');
			if (more.description.length === 0 && more.remark.length === 0) return line;
			return {
				...line,
				description: [line.description, ...more.description].join(' ').trim(),
				remark: [line.remark, ...more.remark].filter((text) => text !== null).join(' ') || null
			};
		});
	}

	#askAboutRow({ row, table }: GoodsRow): void {
		if (
			this.#sheet.rowWord === 'line' &&
			row.cells.slice(table.headings.cells.length).some((cell) => textOf(cell).trim() !== '')
		)
			this.#ask(
				row.line,
				'',
				`${row.cells.length} fields where the headings have ${table.headings.cells.length}: a delimiter inside a field may have moved its cells`
			);
		if (row.struck) this.#ask(row.line, '', 'some of its cells are struck through; say whether it counts');
		if (row.hidden) this.#ask(row.line, '', 'the row is hidden in the sheet; it is read like the others');
	}

	/** Where the sums hold in nearly all lines, a line in which they do not is told. */
	#askAboutSums(lines: readonly PackingLine[]): void {
		if (this.#tables.some(({ columns }) => columns.some(({ field }) => field === 'earlier'))) return;
		const known = lines.flatMap(({ line, quantity, ordered, backordered }) =>
			quantity === null || ordered === null || backordered === null
				? []
				: [{ line, quantity, ordered, backordered }]
		);
		const off = known.filter(
			({ quantity, ordered, backordered }) => Math.abs(ordered - quantity - backordered) > 1e-9
		);
		if (known.length - off.length < 3 || off.length > known.length * 0.2) return;
		for (const { line, quantity, ordered, backordered } of off)
			this.#ask(
				line,
				'',
				`${ordered} ordered is not ${quantity} on this list and ${backordered} to follow; say which is wrong`
			);
	}
}
