/** Commands on the cells selected: clearing, copying, pasting, replacing; each that changes the job is one edit. */
import { isInputId } from '../../takeoff/inputs.ts';
import { cellsWord, exchanged, type CellEdits, type EditHost } from './cell-edits.ts';
import { readClipboard, writeClipboard } from './clipboard.ts';
import { matcherOf } from './find.ts';
import type { Search } from './grid-hooks.ts';
import { pasteTitle, readPaste } from './paste.ts';
import { oneCell, type Spot } from './range.ts';

export interface CellCommandsHost extends EditHost {
	readonly edits: CellEdits;
	/** Why the rows shown are not all rows as they are stored: `sorted by Opening width`; null when they are. */
	arranged(): string | null;
}

export class CellCommands {
	readonly #host: CellCommandsHost;

	constructor(host: CellCommandsHost) {
		this.#host = host;
	}

	clear(what = 'Clear'): void {
		const { edits, hooks, selection } = this.#host;
		if (!selection.extent) return;
		const cells = edits.inputsIn(selection.extent);
		if (cells.length === 0) {
			hooks.refuse('What is worked out can’t be cleared; it follows from what is typed.');
			return;
		}
		edits.fill(
			edits.titleOf(what, cells),
			cells.map((cell) => ({ ...cell, after: null }))
		);
	}

	/** The selection in both forms of the clipboard; null where nothing is selected. */
	copied(): { readonly text: string; readonly html: string } | null {
		const { selection, text } = this.#host;
		const { rows } = selection.ids;
		const columns = exchanged(selection.ids.columns);
		if (rows.length === 0) return null;
		return writeClipboard(rows.map((row) => columns.map((column) => text.copied(row, column))));
	}

	copyWords(what: 'Copied' | 'Cut'): string {
		const { selection, text } = this.#host;
		const { rows } = selection.ids;
		const columns = exchanged(selection.ids.columns);
		const [row, column] = [rows[0], columns[0]];
		if (rows.length * columns.length !== 1 || row === undefined || column === undefined)
			return `${what} ${cellsWord(rows.length * columns.length)}.`;
		const copied = text.copied(row, column).text;
		return `${what} ${copied === '' ? 'an empty cell' : copied}.`;
	}

	/** Lays a table over the selection, as one edit; rows that are not there are added. */
	paste(data: { readonly text: string; readonly html: string }): void {
		const { edits, hooks, text, selection } = this.#host;
		const { extent, area } = selection;
		if (!extent) return;
		const read = readClipboard(data, (html) => new DOMParser().parseFromString(html, 'text/html'));
		if (!read.ok) {
			hooks.refuse(`Not pasted: ${read.reason}.`);
			return;
		}
		const arranged = this.#host.arranged();
		const height = extent.bottom - extent.top + 1;
		const width = exchanged(selection.ids.columns).length;
		const columns = exchanged(area.columns.ids.slice(extent.left));
		const paste = readPaste(
			read.cells,
			{
				rows: area.rows.ids.slice(extent.top),
				columns: columns.map((id) => (isInputId(id) ? { field: id } : { result: id })),
				selectedRows: height,
				selectedColumns: width,
				mayAddRows: arranged === null
			},
			(field, typed) => text.readField(field, typed)
		);
		const refused = edits.put(pasteTitle(paste.count), paste.changes, paste.added, paste.refused);
		if (paste.count + refused.length > 0)
			hooks.tookCells(paste.count + paste.refused.length - refused.length, refused);
		const leftOut = [
			paste.onResults > 0 ? `${cellsWord(paste.onResults)} fell on worked-out columns` : '',
			paste.beyond > 0 ? `${cellsWord(paste.beyond)} fell beyond the last column or row` : ''
		].filter((words) => words !== '');
		if (leftOut.length > 0) {
			const why =
				paste.beyond > 0 && arranged !== null ? ` Rows are only added while nothing is ${arranged}.` : '';
			hooks.refuse(`${leftOut.join(', ')}: left out.${why}`);
		}
		const [first] = area.rows.ids.slice(extent.top);
		const across = Math.max(width, ...read.cells.map((line) => line.length));
		const [left] = columns;
		const right = columns[Math.min(columns.length, across) - 1];
		if (first === undefined || left === undefined || right === undefined) return;
		const bottom = extent.top + Math.max(height, read.cells.length) - 1;
		// Rows added just now are there on the next turn.
		queueMicrotask(() => {
			const { row } = selection.spotAt({ row: bottom, column: 0 }) ?? { row: first };
			selection.set({ ...oneCell({ row: first, column: left }), head: { row, column: right } });
		});
	}

	/** Replaces in input cells, by the text that was typed; where only what is shown has it, by that. */
	replaceIn(spots: readonly Spot[], search: Search, by: string): void {
		const { edits, hooks, text } = this.#host;
		const matcher = matcherOf(search);
		const entries = spots.flatMap(({ row, column }) => {
			if (!isInputId(column)) return [];
			const typed = text.copied(row, column).text;
			const other = matcher.replaced(typed, by);
			const next = other === typed ? matcher.replaced(text.text(row, column), by) : other;
			return [{ row, field: column, text: next }];
		});
		if (entries.length === 0) return;
		const { changes, refused } = edits.read(entries);
		const left = edits.put(edits.titleOf('Replace in', changes), changes, [], refused);
		hooks.tookCells(entries.length - left.length, left);
	}
}
