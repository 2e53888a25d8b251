/** What stands in the cells of the sheet, and what is said about them. */
import { decimalsOf, formatQuantity, inUnit } from '../../quantity/format.ts';
import { formatLength } from '../../quantity/length.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { readCell, showCell, typedText } from '../../takeoff/cell.ts';
import { inputOf, inputs, type Cell, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import { showKey, showQuantity, spaced } from '../../takeoff/show.ts';
import { unitFor } from '../../takeoff/vocabulary.ts';
import type { JobSheet } from '../job-sheet.svelte.ts';
import { countOf, countWords, severities } from '../parts/check-words.ts';
import type { Reading } from './cell-editors.ts';
import type { CopiedCell } from './clipboard.ts';
import { checksId } from './column-layout.ts';
import { isAddable } from './result-columns.ts';

const sixteenth = 25_400_000 / 16;

/** A cell as it is looked at. */
export interface CellFace {
	readonly text: string;
	/** What was typed, where it is spelt otherwise than what was understood; else blank. */
	readonly typed: string;
	readonly state: 'refused' | 'needed' | 'inherited' | null;
	/** For the ear: column, row, what stands there and what is to be known about it. */
	readonly label: string;
}

export class CellText {
	readonly sheet: JobSheet;
	/** Results by id. */
	readonly results: ReadonlyMap<string, QuantityDefinition>;
	readonly #inputs: ReadonlyMap<string, InputDefinition> = new Map(inputs.map((input) => [input.id, input]));
	/** Sums over the job by quantity, until something changes. */
	readonly #totals = new Map<string, string>();

	constructor(sheet: JobSheet) {
		this.sheet = sheet;
		this.results = new Map(sheet.engine.quantities.map((quantity) => [quantity.id, quantity]));
	}

	/** An input cell: what is stored, what it takes from its mark, what was refused, or that it is needed. */
	input(row: string, input: InputDefinition): string {
		const { sheet } = this;
		const refused = sheet.refusedEntry(row, input.id);
		if (refused) return refused.text;
		if (input.id === 'mark' && sheet.isOwnRow(row)) return sheet.nameOf(row);
		const cell = sheet.cell(row, input.id) ?? sheet.inherited(row, input.id);
		if (cell === null) return this.isNeeded(row, input) ? 'needed' : '';
		return this.show(input, cell);
	}

	/** The fixed words stand apart; keys of the shop book keep their spelling. */
	show(input: InputDefinition, cell: Cell): string {
		const text = showCell(input, cell, this.sheet.measures);
		return input.kind === 'key' && !input.table ? spaced(text) : text;
	}

	read(input: InputDefinition, text: string): Reading {
		const { sheet } = this;
		return readCell(input, text, {
			measures: sheet.measures,
			keys: keysFor(sheet.engine.book, input)
		});
	}

	readField(field: InputId, text: string): Reading {
		return this.read(inputOf(field), text);
	}

	/** Nothing can be computed without it, and neither the row nor its mark has it. */
	isNeeded(row: string, input: InputDefinition): boolean {
		const { sheet } = this;
		if (!input.required || sheet.cell(row, input.id) !== null || sheet.refusedEntry(row, input.id) !== null)
			return false;
		return !sheet.isOwnRow(row) || (input.id !== 'quantity' && sheet.inherited(row, input.id) === null);
	}

	result(row: string, quantity: QuantityDefinition): string {
		const value = this.sheet.figure(row, quantity.id);
		return value === null ? '' : this.figure(quantity, value);
	}

	/** The sum over all openings, where one means something; reckoned once until `forgetTotals`. */
	total(column: string): string {
		const known = this.#totals.get(column);
		if (known !== undefined) return known;
		const total = this.#reckonTotal(column);
		this.#totals.set(column, total);
		return total;
	}

	#reckonTotal(column: string): string {
		if (column === 'mark') return 'Totals';
		if (column === 'quantity') return String(this.sheet.allOpenings);
		const quantity = this.results.get(column);
		const total = quantity && isAddable(column) ? this.sheet.total(column) : null;
		return quantity && total !== null ? this.figure(quantity, total) : '';
	}

	forgetTotals(): void {
		this.#totals.clear();
	}

	figure(quantity: QuantityDefinition, value: number | string): string {
		if (typeof value === 'string') return showKey(this.sheet.engine.book, quantity.id, value);
		if (quantity.kind === 'flag') return value === 1 ? 'yes' : 'no';
		return showQuantity(value, quantity, this.sheet.measures);
	}

	/** What was understood, or why it was refused; for a result, what it is. */
	tooltip(row: string, column: string): string | undefined {
		const { sheet } = this;
		const input = this.#inputs.get(column);
		if (!input) return this.results.get(column)?.sentence;
		const refused = sheet.refusedEntry(row, input.id);
		if (refused) return `Not read: ${refused.reason}. It is not stored.`;
		const inherited = sheet.inherited(row, input.id);
		if (inherited !== null) return `From the mark: ${this.show(input, inherited)}`;
		const cell = sheet.cell(row, input.id);
		if (cell === null) return input.required ? `${input.title} is needed. ${input.sentence}` : undefined;
		return typeof cell === 'object' ? `Typed ${cell.typed}, read as ${this.show(input, cell)}` : undefined;
	}

	/** A cell of any column, as it stands on the screen; blank where only the word that it is needed would stand. */
	text(row: string, column: string): string {
		const input = this.#inputs.get(column);
		if (input) return this.isNeeded(row, input) ? '' : this.input(row, input);
		const quantity = this.results.get(column);
		if (quantity) return this.result(row, quantity);
		return column === checksId ? this.checks(row) : '';
	}

	/** Whether something stands in a cell, without writing it. */
	isFilled(row: string, column: string): boolean {
		const { sheet } = this;
		const input = this.#inputs.get(column);
		if (input)
			return (
				(sheet.cell(row, input.id) ?? sheet.inherited(row, input.id)) !== null ||
				sheet.refusedEntry(row, input.id) !== null
			);
		return this.results.has(column) ? sheet.figure(row, column) !== null : sheet.checks(row).length > 0;
	}

	checks(row: string): string {
		const checks = this.sheet.checks(row);
		const words = severities
			.map((severity) => ({ severity, count: countOf(checks, severity) }))
			.filter(({ count }) => count > 0)
			.map(({ severity, count }) => countWords(count, severity));
		return words.length === 0 ? 'none' : words.join(', ');
	}

	/** To sort by: a figure in base units or a word; null for a blank cell. */
	value(row: string, column: string): number | string | null {
		const { sheet } = this;
		if (this.#inputs.has(column)) {
			if (column === 'mark') return this.text(row, column) || null;
			const field = column as InputId;
			const cell = sheet.cell(row, field) ?? sheet.inherited(row, field);
			return cell !== null && typeof cell === 'object' ? cell.amount : cell;
		}
		if (column !== checksId) return sheet.figure(row, column);
		const checks = sheet.checks(row);
		const weight = severities.reduce((sum, severity) => sum * 1000 + countOf(checks, severity), 0);
		return weight === 0 ? null : weight;
	}

	/** A figure that can be added up, in base units, and what it is a figure of; null for words and the like. */
	amount(row: string, column: string): { value: number; unit: string } | null {
		const { sheet } = this;
		const input = this.#inputs.get(column);
		if (input) {
			const cell = sheet.cell(row, input.id) ?? sheet.inherited(row, input.id);
			if (input.kind === 'count' && typeof cell === 'number') return { value: cell, unit: '1' };
			if (input.kind !== 'length' || cell === null || typeof cell !== 'object') return null;
			return { value: cell.amount, unit: sheet.measures === 'imperial' ? 'in' : 'mm' };
		}
		const quantity = this.results.get(column);
		const value = quantity && quantity.kind !== 'flag' ? sheet.figure(row, column) : null;
		return quantity && typeof value === 'number' ? { value, unit: unitFor(quantity, sheet.measures) } : null;
	}

	/** A sum of amounts in their unit. */
	sum(value: number, unit: string): string {
		return unit === 'in' && Number.isInteger(value / sixteenth)
			? formatLength(value, 'feetInches')
			: formatQuantity(value, unit);
	}

	face(row: string, column: string): CellFace {
		const { sheet } = this;
		const input = this.#inputs.get(column);
		const text = input ? this.input(row, input) : this.text(row, column);
		const heading = `${this.titleOf(column)}, ${sheet.nameOf(row)}`;
		if (!input) return { text, typed: '', state: null, label: `${heading}: ${text === '' ? 'blank' : text}` };
		const refused = sheet.refusedEntry(row, input.id);
		if (refused)
			return { text, typed: '', state: 'refused', label: `${heading}: ${text}, refused: ${refused.reason}` };
		if (this.isNeeded(row, input)) return { text, typed: '', state: 'needed', label: `${heading}: needed` };
		if (sheet.inherited(row, input.id) !== null)
			return { text, typed: '', state: 'inherited', label: `${heading}: ${text}, from the mark` };
		const cell = sheet.cell(row, input.id);
		const typed = cell !== null && typeof cell === 'object' && cell.typed !== text ? cell.typed : '';
		const spoken = text === '' ? 'blank' : text;
		return {
			text,
			typed,
			state: null,
			label: `${heading}: ${spoken}${typed === '' ? '' : `, typed ${typed}`}`
		};
	}

	/** What goes on the clipboard: an input as it was typed, a result as it is shown. */
	copied(row: string, column: string): CopiedCell {
		const { sheet } = this;
		const input = this.#inputs.get(column);
		if (!input) return { text: this.text(row, column), figure: this.#figureShown(row, column) };
		const refused = sheet.refusedEntry(row, input.id);
		if (refused) return { text: refused.text, figure: null };
		const cell = sheet.cell(row, input.id) ?? sheet.inherited(row, input.id);
		return { text: typedText(cell), figure: typeof cell === 'number' ? cell : null };
	}

	/** The number of a result as it is shown; null where feet and inches or words are. */
	#figureShown(row: string, column: string): number | null {
		const amount = this.amount(row, column);
		if (!amount || this.text(row, column).includes("'") || this.text(row, column).includes('"')) return null;
		return Number(inUnit(amount.value, amount.unit).toFixed(decimalsOf(amount.unit)));
	}

	titleOf(column: string): string {
		if (column === checksId) return 'Checks';
		return this.#inputs.get(column)?.title ?? this.results.get(column)?.title ?? column;
	}
}
