/**
 * The sheet of openings: inputs to type, results beside them, totals below. This file is loaded after the first
 * paint; it and its neighbours in this folder are the only ones that know the grid component.
 */
import {
	createGrid,
	type CellClickedEvent,
	type CellFocusedEvent,
	type Column,
	type GridApi
} from 'ag-grid-community';
import { isInputId, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import { typedText } from '../../takeoff/cell.ts';
import type { SheetChange } from '../worked-rows.ts';
import type { EditorHost, Move } from './cell-editors.ts';
import { CellText } from './cell-text.ts';
import { checksId, columnsOf, type GridRow } from './grid-columns.ts';
import type { GridHandle, GridHooks } from './grid-hooks.ts';
import { modules, theme } from './grid-theme.ts';
import { keyOptions } from './key-words.ts';
import { pasteTitle, readPaste } from './paste.ts';
import { plainCell } from './plain-table.ts';
import { isUsual, type ColumnChoice, type ColumnView } from './result-columns.ts';

const totalsId = 'totals';

export interface GridOptions {
	readonly choice: ColumnChoice;
	/** Only the mark stays in place. */
	readonly narrow: boolean;
	/** For fingers: higher rows, and a second tap edits. */
	readonly coarse: boolean;
}

export function openOpeningsGrid(container: HTMLElement, hooks: GridHooks, options: GridOptions): GridHandle {
	return new OpeningsGrid(container, hooks, options);
}

/** A cell that has the focus. */
interface Focused {
	readonly row: string;
	readonly index: number;
	readonly column: Column;
}

class OpeningsGrid implements GridHandle {
	readonly #hooks: GridHooks;
	readonly #container: HTMLElement;
	readonly #api: GridApi<GridRow>;
	readonly #text: CellText;
	readonly #endListening: () => void;
	readonly #coarse: boolean;
	#choice: ColumnChoice;
	#view: ColumnView = 'both';
	/** Inputs outside the usual ones that hold something in some row. */
	#filled: ReadonlySet<string> = new Set();
	#narrow: boolean;
	#lastClick = '';

	constructor(container: HTMLElement, hooks: GridHooks, { choice, narrow, coarse }: GridOptions) {
		this.#container = container;
		this.#hooks = hooks;
		this.#choice = choice;
		this.#narrow = narrow;
		this.#coarse = coarse;
		const { sheet } = hooks;
		this.#text = new CellText(sheet);
		this.#findFilled();
		this.#api = createGrid<GridRow>(
			container,
			{
				theme,
				columnDefs: columnsOf({
					text: this.#text,
					narrow,
					isShown: (id) => this.#isShown(id),
					editorOf: (input) => this.#editorOf(input)
				}),
				defaultColDef: {
					resizable: true,
					sortable: false,
					suppressMovable: true,
					wrapHeaderText: true,
					suppressHeaderMenuButton: true,
					tooltip: ({ data, column }) =>
						data && data.id !== totalsId && column && 'getColId' in column
							? this.#text.tooltip(data.id, column.getColId())
							: undefined
				},
				rowData: sheet.order.map((id) => ({ id })),
				getRowId: ({ data }) => data.id,
				pinnedBottomRowData: [{ id: totalsId }],
				rowHeight: coarse ? 44 : 30,
				headerHeight: 46,
				groupHeaderHeight: 26,
				animateRows: false,
				ensureDomOrder: true,
				suppressNoRowsOverlay: true,
				suppressMovableColumns: true,
				tooltipShowDelay: 700,
				tooltipHideDelay: 20_000,
				rowClassRules: { selected: ({ data }) => data?.id === sheet.selected },
				onCellFocused: (event) => this.#onFocus(event),
				onCellClicked: (event) => this.#onClick(event)
			},
			{ modules }
		);
		container.addEventListener('keydown', this.#onKeyDown, true);
		container.addEventListener('paste', this.#onPaste);
		container.addEventListener('copy', this.#onCopy);
		this.#endListening = sheet.listen((change) => this.#refresh(change));
		const grid = container.querySelector('[role="grid"], [role="treegrid"]');
		grid?.setAttribute('aria-label', 'Openings of the job');
	}

	destroy(): void {
		this.#endListening();
		this.#container.removeEventListener('keydown', this.#onKeyDown, true);
		this.#container.removeEventListener('paste', this.#onPaste);
		this.#container.removeEventListener('copy', this.#onCopy);
		this.#api.destroy();
	}

	// Columns.

	showColumns(choice: ColumnChoice, view: ColumnView): void {
		const turned = view !== this.#view;
		this.#choice = choice;
		this.#view = view;
		this.#showColumns();
		const first = this.#api.getAllDisplayedColumns().find((column) => !column.isPinned());
		if (turned && first) this.#api.ensureColumnVisible(first, 'start');
	}

	setNarrow(narrow: boolean): void {
		if (narrow === this.#narrow) return;
		this.#narrow = narrow;
		this.#api.setColumnsPinned([checksId], narrow ? null : 'left');
	}

	#showColumns(): void {
		const columns = this.#api.getColumns() ?? [];
		const shown = columns.filter((column) => this.#isShown(column.getColId()));
		this.#api.setColumnsVisible(shown, true);
		this.#api.setColumnsVisible(
			columns.filter((column) => !shown.includes(column)),
			false
		);
	}

	#isShown(id: string): boolean {
		if (id === 'mark' || id === checksId) return true;
		if (this.#view === (isInputId(id) ? 'worked' : 'typed')) return false;
		return this.#choice[id] ?? (isUsual(id) || this.#filled.has(id));
	}

	/** Inputs that are usually left out are shown where a row holds something in them. @returns whether that changed. */
	#findFilled(): boolean {
		const { sheet } = this.#hooks;
		const filled = new Set<string>();
		for (const id of sheet.order)
			for (const field of Object.keys(sheet.row(id)?.cells ?? {})) if (!isUsual(field)) filled.add(field);
		const same = filled.size === this.#filled.size && [...filled].every((field) => this.#filled.has(field));
		this.#filled = filled;
		return !same;
	}

	// Editing.

	#editorOf(input: InputDefinition): EditorHost {
		const { sheet } = this.#hooks;
		const keys = input.kind === 'key' ? keysFor(sheet.engine.book, input) : [];
		return {
			label: input.title,
			options: keyOptions(sheet.engine.book, input, keys),
			read: (text) => this.#text.read(input, text),
			show: (cell) => (input.kind === 'text' ? '' : this.#text.show(input, cell)),
			start: (row) => typedText(sheet.cell(row, input.id)),
			refused: (row) => sheet.refusedEntry(row, input.id),
			commit: (row, cell, move) => {
				this.#api.stopEditing(true);
				sheet.setCells(`${input.title} of ${sheet.nameOf(row)}`, [{ row, field: input.id, after: cell }]);
				this.#move(row, input.id, move);
			},
			refuse: (row, entry) => {
				sheet.refuse(row, input.id, entry);
				this.#api.stopEditing(true);
			},
			cancel: (row) => {
				this.#api.stopEditing(true);
				sheet.forgetRefused(row, input.id);
				this.#move(row, input.id, 'stay');
			}
		};
	}

	#clear(row: string, field: InputId): void {
		const { sheet } = this.#hooks;
		sheet.setCells(`Clear ${this.#text.titleOf(field)} of ${sheet.nameOf(row)}`, [
			{ row, field, after: null }
		]);
	}

	// Focus.

	focusCell(row: string, column: string): void {
		const index = this.#api.getRowNode(row)?.rowIndex ?? null;
		if (index === null) return;
		this.#api.ensureIndexVisible(index);
		this.#api.ensureColumnVisible(column);
		this.#api.setFocusedCell(index, column);
	}

	#onFocus({ column, rowIndex, rowPinned }: CellFocusedEvent<GridRow>): void {
		if (rowPinned || rowIndex === null || typeof column !== 'object' || !column) return;
		const id = this.#api.getDisplayedRowAtIndex(rowIndex)?.data?.id;
		if (id === undefined) return;
		this.#select(id);
		if (this.#text.results.has(column.getColId())) this.#hooks.passWorking(id, column.getColId());
	}

	#onClick({ data, column, rowPinned }: CellClickedEvent<GridRow>): void {
		if (!data || rowPinned) return;
		const id = column.getColId();
		const cell = `${data.id} ${id}`;
		if (id === checksId) this.#hooks.openChecks(data.id);
		else if (this.#text.results.has(id)) this.#hooks.openWorking(data.id, id);
		else if (this.#coarse && this.#lastClick === cell) this.#edit();
		this.#lastClick = cell;
	}

	#edit(): void {
		const focused = this.#focused();
		if (focused) this.#api.startEditingCell({ rowIndex: focused.index, colKey: focused.column });
	}

	#select(id: string): void {
		const { sheet } = this.#hooks;
		if (sheet.selected === id) return;
		sheet.selected = id;
		for (const line of this.#container.querySelectorAll('.ag-row.selected'))
			line.classList.remove('selected');
		for (const line of this.#container.querySelectorAll(`[row-id="${CSS.escape(id)}"]`))
			line.classList.add('selected');
	}

	#focused(): Focused | null {
		const cell = this.#api.getFocusedCell();
		if (!cell || cell.rowPinned) return null;
		const row = this.#api.getDisplayedRowAtIndex(cell.rowIndex)?.data?.id;
		return row === undefined ? null : { row, column: cell.column, index: cell.rowIndex };
	}

	/** Inputs as they stand, from the left. */
	#inputColumns(): InputId[] {
		return this.#api
			.getAllDisplayedColumns()
			.map((column) => column.getColId())
			.filter((id) => isInputId(id));
	}

	#move(row: string, column: InputId, move: Move): void {
		if (move === 'none') return;
		const target = move === 'right' || move === 'left' ? this.#sideways(row, column, move) : { row, column };
		const step = move === 'down' ? 1 : move === 'up' ? -1 : 0;
		this.focusCell(this.#rowBeside(target.row, step) ?? row, target.column);
	}

	/** From input to input, over the end to the next row; where there is none, the cell itself. */
	#sideways(row: string, column: InputId, move: 'right' | 'left'): { row: string; column: InputId } {
		const step = move === 'right' ? 1 : -1;
		const columns = this.#inputColumns();
		const next = columns[columns.indexOf(column) + step];
		if (next) return { row, column: next };
		const other = this.#rowBeside(row, step);
		const end = columns.at(step === 1 ? 0 : -1);
		return other !== undefined && end ? { row: other, column: end } : { row, column };
	}

	#rowBeside(row: string, step: number): string | undefined {
		const { order } = this.#hooks.sheet;
		return order[order.indexOf(row) + step];
	}

	// Keys and the clipboard.

	readonly #onKeyDown = (event: KeyboardEvent): void => {
		if (event.target instanceof HTMLInputElement) return;
		const command = event.ctrlKey || event.metaKey;
		const key = event.key.toLowerCase();
		const done = command ? this.#commandKey(key, event.shiftKey) : this.#cellKey(key);
		if (!done) return;
		event.preventDefault();
		event.stopPropagation();
	};

	/** @returns whether the key was one of ours. */
	#commandKey(key: string, shift: boolean): boolean {
		const { sheet } = this.#hooks;
		if (key === 'y' || (key === 'z' && shift)) void sheet.redo();
		else if (key === 'z') void sheet.undo();
		else if (key === 'enter') this.#hooks.addOpening();
		else return false;
		return true;
	}

	#cellKey(key: string): boolean {
		const focused = this.#focused();
		if (!focused) return false;
		const id = focused.column.getColId();
		if ((key === 'delete' || key === 'backspace') && isInputId(id)) this.#clear(focused.row, id);
		else if (key === 'enter' && id === checksId) this.#hooks.openChecks(focused.row);
		else if (key === 'enter' && this.#text.results.has(id)) this.#hooks.openWorking(focused.row, id);
		else return false;
		return true;
	}

	readonly #onCopy = (event: ClipboardEvent): void => {
		const focused = this.#focused();
		if (event.target instanceof HTMLInputElement || !focused || !event.clipboardData) return;
		const text = this.#text.copied(focused.row, focused.column.getColId());
		event.clipboardData.setData('text/plain', plainCell(text));
		event.preventDefault();
		this.#hooks.say(`Copied ${text === '' ? 'an empty cell' : text}.`);
	};

	/** Puts a table from the focused cell onwards, as one edit; rows that are not there are added. */
	readonly #onPaste = (event: ClipboardEvent): void => {
		const focused = this.#focused();
		const text = event.clipboardData?.getData('text/plain') ?? '';
		if (event.target instanceof HTMLInputElement || !focused || text === '') return;
		const column = focused.column.getColId();
		if (!isInputId(column)) return;
		event.preventDefault();
		const { sheet } = this.#hooks;
		const columns = this.#inputColumns();
		const { changes, added, refused, count } = readPaste(
			text,
			sheet.order.slice(sheet.order.indexOf(focused.row)),
			columns.slice(columns.indexOf(column)),
			(field, typed) => this.#text.readField(field, typed)
		);
		if (added.length > 0) sheet.addRows(pasteTitle(count), sheet.order.at(-1) ?? null, added, changes);
		else sheet.setCells(pasteTitle(count), changes);
		for (const { row, field, text: typed, reason } of refused)
			if (row !== null) sheet.refuse(row, field, { text: typed, reason });
		this.#hooks.pasted(count, refused);
	};

	// Keeping up with the sheet.

	#refresh({ rows, order }: SheetChange): void {
		const { sheet } = this.#hooks;
		if (order) {
			const rowData = sheet.order.map((id) => ({ id }));
			this.#api.setGridOption('rowData', rowData);
		}
		if (this.#findFilled()) this.#showColumns();
		const nodes = [...rows].flatMap((id) => this.#api.getRowNode(id) ?? []);
		const totals = this.#api.getPinnedBottomRow(0);
		this.#api.refreshCells({ rowNodes: totals ? [...nodes, totals] : nodes, force: true });
	}
}
