/** What stands in the cells of the sheet, and what is said about them. */
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { readCell, showCell, typedText } from '../../takeoff/cell.ts';
import { inputOf, inputs, type Cell, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import { showQuantity } from '../../takeoff/show.ts';
import type { JobSheet } from '../job-sheet.svelte.ts';
import type { Reading } from './cell-editors.ts';
import { spaced } from '../../takeoff/show.ts';
import { keyText } from './key-words.ts';
import { isAddable } from './result-columns.ts';

export class CellText {
	readonly sheet: JobSheet;
	/** Results by id. */
	readonly results: ReadonlyMap<string, QuantityDefinition>;
	readonly #inputs: ReadonlyMap<string, InputDefinition> = new Map(inputs.map((input) => [input.id, input]));

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

	/** The sum over all openings, where one means something. */
	total(quantity: QuantityDefinition): string {
		const total = isAddable(quantity.id) ? this.sheet.total(quantity.id) : null;
		return total === null ? '' : this.figure(quantity, total);
	}

	figure(quantity: QuantityDefinition, value: number | string): string {
		if (typeof value === 'string') return keyText(this.sheet.engine.book, quantity.id, value);
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

	/** What goes on the clipboard: an input as it was typed, a result as it is shown. */
	copied(row: string, column: string): string {
		const { sheet } = this;
		const quantity = this.results.get(column);
		if (quantity) return this.result(row, quantity);
		const field = this.#inputs.get(column)?.id;
		if (!field) return '';
		const refused = sheet.refusedEntry(row, field);
		return refused?.text ?? typedText(sheet.cell(row, field) ?? sheet.inherited(row, field));
	}

	titleOf(field: InputId): string {
		return inputOf(field).title;
	}
}
