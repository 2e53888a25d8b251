/** Typing into cells: what the editor of a column knows, and what becomes of an entry. */
import type { GridApi } from 'ag-grid-community';
import { typedText } from '../../takeoff/cell.ts';
import { isInputId, type InputDefinition } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import type { EditorHost, OpenEditor } from './cell-editors.ts';
import type { CellText } from './cell-text.ts';
import type { GridRow } from './cell-view.ts';
import type { GridFocus } from './grid-focus.ts';
import { keyOptions } from './key-words.ts';
import type { Selection } from './selection.ts';

export interface EntryHost {
	readonly text: CellText;
	readonly selection: Selection;
	readonly focus: GridFocus;
	api(): GridApi<GridRow>;
	/** Takes a text for all selected cells. */
	fillAll(text: string): void;
	/** Something typed can't be kept, and why. */
	refuse(text: string): void;
	/** A cell is typed in. */
	began(): void;
	/** Nothing is typed any more. */
	ended(): void;
}

export class CellEntry {
	readonly #host: EntryHost;
	readonly #editors = new Map<string, EditorHost>();
	#open: OpenEditor | null = null;

	constructor(host: EntryHost) {
		this.#host = host;
	}

	get isOpen(): boolean {
		return this.#open !== null;
	}

	/** The row that is typed in. */
	get row(): string | null {
		return this.#open?.row ?? null;
	}

	/** Rows changed, perhaps the one that is typed in. */
	cellsChanged(): void {
		this.#open?.cellsChanged();
	}

	/** Opens the editor of the active cell. */
	begin(): void {
		const { active, area } = this.#host.selection;
		if (!active || !isInputId(active.column)) return;
		this.#host.api().startEditingCell({ rowIndex: area.rows.at(active.row), colKey: active.column });
	}

	/** The same one for a column whenever it is laid. */
	editorOf(input: InputDefinition): EditorHost {
		const known = this.#editors.get(input.id);
		if (known) return known;
		const editor = this.#newEditor(input);
		this.#editors.set(input.id, editor);
		return editor;
	}

	#newEditor(input: InputDefinition): EditorHost {
		const { text, selection, focus } = this.#host;
		const { sheet } = text;
		const keys = input.kind === 'key' ? keysFor(sheet.engine.book, input) : [];
		const column = input.id;
		return {
			label: input.title,
			options: keyOptions(sheet.engine.book, input, keys),
			read: (typed) => text.read(input, typed),
			show: (cell) => (input.kind === 'text' ? '' : text.show(input, cell)),
			start: (row) => typedText(sheet.cell(row, column)),
			stored: (row) => sheet.cell(row, column),
			refused: (row) => sheet.refusedEntry(row, column),
			isThere: (row) => sheet.row(row) !== null,
			lost: (row, typed) => {
				const name = sheet.nameOf(row);
				this.#host.refuse(
					`${name} was removed meanwhile. Not kept: “${typed}”, typed as ${input.title} of it.`
				);
			},
			opened: (editor) => {
				this.#open = editor;
				this.#host.began();
			},
			closed: (editor) => {
				if (this.#open === editor) this.#open = null;
				this.#host.ended();
			},
			commit: (row, cell, move) => {
				const title = `${input.title} of ${sheet.nameOf(row)}`;
				this.#close();
				// The focus first: it makes the browser lay the page out, which is less before cells are written.
				focus.go({ row, column }, move);
				sheet.setCells(title, [{ row, field: column, after: cell }]);
			},
			commitAll: (typed) => {
				if (!selection.isMany) return false;
				this.#close();
				this.#host.fillAll(typed);
				focus.restore();
				return true;
			},
			refuse: (row, entry) => {
				sheet.refuse(row, column, entry);
				this.#close();
			},
			cancel: (row) => {
				this.#close();
				sheet.forgetRefused(row, column);
				focus.restore();
			}
		};
	}

	#close(): void {
		this.#host.api().stopEditing(true);
	}
}
