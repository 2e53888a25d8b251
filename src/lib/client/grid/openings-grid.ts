/**
 * The sheet of openings: inputs to type, results beside them, totals below. This file is loaded after the first
 * paint; it and its neighbours in this folder are the only ones that know the grid component.
 */
import {
	createGrid,
	type CellClickedEvent,
	type ColumnMovedEvent,
	type ColumnResizedEvent,
	type GridApi
} from 'ag-grid-community';
import { everyRow, isFiltered, type SheetView } from '../../changes/sheet-view.ts';
import { typedText } from '../../takeoff/cell.ts';
import { isInputId, type InputDefinition } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import type { SheetChange } from '../worked-rows.ts';
import type { EditorHost, Move, OpenEditor } from './cell-editors.ts';
import { CellText } from './cell-text.ts';
import { gutterId, type CellView, type GridRow } from './cell-view.ts';
import {
	checksId,
	ColumnCatalog,
	mostFrozen,
	stepped,
	toggled,
	withOrder,
	type LaidGroup
} from './column-layout.ts';
import { Finder } from './finder.ts';
import { columnsOf, usualWidth } from './grid-columns.ts';
import type { Found, GridHandle, GridHooks, Search, SeriesOffer, SeriesReading } from './grid-hooks.ts';
import { modules, theme } from './grid-theme.ts';
import { Hands } from './hands.ts';
import { keyOptions } from './key-words.ts';
import { commandFor, motionFor, type CommandId, type Motion } from './keys.ts';
import { Pointer } from './pointer.ts';
import { Line, motionEnd, oneCell, walk, within, type Place, type Range, type Spot } from './range.ts';
import { isUsual } from './result-columns.ts';
import { distinctTexts, shownRows, type RowReader } from './row-view.ts';
import { Selection } from './selection.ts';

const totalsId = 'totals';
/** Totals rest until nothing has changed for so long. */
const totalsPause = 150;
const widthStep = 12;

export interface GridOptions {
	readonly view: SheetView;
	/** Only the mark stays in place. */
	readonly narrow: boolean;
	/** For fingers: higher rows, and a second tap edits. */
	readonly coarse: boolean;
}

export function openOpeningsGrid(container: HTMLElement, hooks: GridHooks, options: GridOptions): GridHandle {
	return new OpeningsGrid(container, hooks, options);
}

class OpeningsGrid implements GridHandle {
	readonly #hooks: GridHooks;
	readonly #container: HTMLElement;
	readonly #api: GridApi<GridRow>;
	readonly #text: CellText;
	readonly #catalog: ColumnCatalog;
	readonly #views = new Set<CellView>();
	readonly #selection: Selection;
	readonly #hands: Hands;
	readonly #finder: Finder;
	readonly #pointer: Pointer;
	readonly #live = document.createElement('div');
	readonly #coarse: boolean;
	readonly #endListening: () => void;
	readonly #editors = new Map<string, EditorHost>();
	/** One object a row, so that the grid knows it again. */
	readonly #rowData = new Map<string, GridRow>();
	#view: SheetView;
	#narrow: boolean;
	#groups: readonly LaidGroup[] = [];
	/** Ids of all rows, as they are stored. */
	#stored = new Line([]);
	/** Inputs outside the usual ones that held something in some row. */
	#filled = new Set<string>();
	#pending: { rows: Set<string>; order: boolean } | null = null;
	#editor: OpenEditor | null = null;
	/** The columns wait for the end of an entry. */
	#columnsWait = false;
	/** Where a run of Tabs began: Enter goes on under it. */
	#tabsFrom: string | null = null;
	#lastClick = '';
	/** The grid's own focus as it was last taken over: it tells of it only a little later. */
	#seenFocus = '';
	#pressedAt = { x: 0, y: 0 };
	#totalsTimer: ReturnType<typeof setTimeout> | null = null;

	constructor(container: HTMLElement, hooks: GridHooks, { view, narrow, coarse }: GridOptions) {
		this.#container = container;
		this.#hooks = hooks;
		this.#view = view;
		this.#narrow = narrow;
		this.#coarse = coarse;
		const { sheet } = hooks;
		this.#text = new CellText(sheet);
		this.#catalog = new ColumnCatalog(sheet.engine.quantities);
		this.#selection = new Selection({
			text: this.#text,
			views: this.#views,
			announce: (text) => this.#announce(text),
			changed: (sum) => hooks.selectionChanged(sum)
		});
		this.#finder = new Finder(this.#text, this.#selection);
		this.#hands = new Hands({
			hooks,
			text: this.#text,
			selection: this.#selection,
			arranged: () => this.#arranged(),
			focus: ({ row, column }) => this.focusCell(row, column)
		});
		this.#pointer = new Pointer({
			container,
			selection: this.#selection,
			firstColumn: () => this.#selection.area.columns.ids[0] ?? null,
			reveal: (spot) => this.#reveal(spot),
			keepFocus: () => this.focus(),
			drawOut: (to, direction, filling) => this.#hands.drawOut(to, direction, filling)
		});
		this.#stored = new Line(sheet.order);
		this.#findFilled(sheet.order);
		this.#groups = this.#catalog.lay(view, this.#filled, narrow);
		this.#selection.setArea({ rows: new Line(this.#arrange()), columns: new Line(this.shownColumns()) });
		this.#api = createGrid<GridRow>(
			container,
			{
				theme,
				columnDefs: this.#columnDefs(),
				defaultColDef: {
					resizable: true,
					sortable: false,
					wrapHeaderText: true,
					suppressHeaderMenuButton: true,
					tooltip: ({ data, column }) =>
						data && data.id !== totalsId && column && 'getColId' in column
							? this.#text.tooltip(data.id, column.getColId())
							: undefined
				},
				rowData: this.#dataOf(this.shownRows()),
				getRowId: ({ data }) => data.id,
				pinnedBottomRowData: [{ id: totalsId }],
				rowHeight: this.#rowHeight(),
				headerHeight: 46,
				groupHeaderHeight: 26,
				animateRows: false,
				ensureDomOrder: true,
				suppressNoRowsOverlay: true,
				suppressMoveWhenColumnDragging: true,
				suppressDragLeaveHidesColumns: true,
				tooltipShowDelay: 700,
				tooltipHideDelay: 20_000,
				rowClassRules: { selected: ({ data }) => data?.id === sheet.selected },
				onCellFocused: () => this.#adoptFocus(),
				onCellClicked: (event) => this.#onClick(event),
				onColumnMoved: (event) => this.#onColumnMoved(event),
				onColumnResized: (event) => this.#onColumnResized(event)
			},
			{ modules }
		);
		this.#live.className = 'unseen';
		this.#live.role = 'status';
		container.append(this.#live);
		container.addEventListener('keydown', this.#onKeyDown, true);
		container.addEventListener('pointerdown', this.#onPress, true);
		container.addEventListener('click', this.#onHeaderClick);
		document.addEventListener('copy', this.#onCopy);
		document.addEventListener('cut', this.#onCut);
		document.addEventListener('paste', this.#onPaste);
		this.#endListening = sheet.listen((change) => this.#heard(change));
		const grid = container.querySelector('[role="grid"], [role="treegrid"]');
		grid?.setAttribute('aria-label', 'Openings of the job');
		grid?.setAttribute('aria-multiselectable', 'true');
	}

	destroy(): void {
		this.#endListening();
		if (this.#totalsTimer) clearTimeout(this.#totalsTimer);
		this.#container.removeEventListener('keydown', this.#onKeyDown, true);
		this.#container.removeEventListener('pointerdown', this.#onPress, true);
		this.#container.removeEventListener('click', this.#onHeaderClick);
		document.removeEventListener('copy', this.#onCopy);
		document.removeEventListener('cut', this.#onCut);
		document.removeEventListener('paste', this.#onPaste);
		this.#pointer.destroy();
		this.#selection.destroy();
		this.#live.remove();
		this.#api.destroy();
	}

	#announce(text: string): void {
		this.#live.textContent = text;
	}

	// The view: which columns and rows are shown, and how.

	setView(view: SheetView): void {
		if (view !== this.#view && JSON.stringify(view) !== JSON.stringify(this.#view)) this.#apply(view);
	}

	setNarrow(narrow: boolean): void {
		if (narrow === this.#narrow) return;
		this.#narrow = narrow;
		this.#layColumns();
	}

	shownRows(): readonly string[] {
		this.#flush();
		return this.#selection.area.rows.ids;
	}

	shownColumns(): readonly string[] {
		this.#flush();
		return this.#groups.flatMap(({ columns }) => columns.map(({ id }) => id));
	}

	focusedColumn(): string | null {
		return this.#headerInFocus() ?? this.#selection.active?.column ?? null;
	}

	valuesOf(column: string): readonly { readonly text: string; readonly count: number }[] {
		return distinctTexts(this.#reader(), column);
	}

	/** Takes a view that was changed by hand, and tells the page of it. */
	#change(view: SheetView): void {
		this.#apply(view);
		this.#hooks.viewChanged(view);
	}

	#apply(view: SheetView): void {
		const before = this.#view;
		this.#view = view;
		if (view.rowHeight !== before.rowHeight) {
			this.#api.setGridOption('rowHeight', this.#rowHeight());
			for (const cell of this.#views) cell.renew();
		}
		this.#layColumns();
		const sameRows =
			JSON.stringify([view.filter, view.sort]) === JSON.stringify([before.filter, before.sort]);
		if (!sameRows) {
			this.#showRows(this.#arrange());
			this.#announce(`${this.shownRows().length} of ${this.#stored.length} rows shown.`);
		}
		const [first] = this.#groups.filter(({ frozen }) => !frozen).flatMap(({ columns }) => columns);
		if (view.side !== before.side && first) this.#api.ensureColumnVisible(first.id, 'start');
	}

	#rowHeight(): number {
		if (this.#view.rowHeight === 'compact') return this.#coarse ? 44 : 30;
		return this.#coarse ? 56 : 46;
	}

	#columnDefs(): ReturnType<typeof columnsOf> {
		return columnsOf(this.#groups, this.#view, {
			text: this.#text,
			views: this.#views,
			narrow: this.#narrow,
			showsTyped: () => this.#view.rowHeight === 'comfortable',
			numberOf: (row) => this.#stored.at(row) + 1,
			paintOf: (row, column) => this.#selection.paintOf(row, column),
			editorOf: (input) => this.#editorOf(input)
		});
	}

	/** Lays the columns anew; while a cell is typed in, when that is done. */
	#layColumns(): void {
		if (this.#editor) {
			this.#columnsWait = true;
			return;
		}
		this.#columnsWait = false;
		this.#groups = this.#catalog.lay(this.#view, this.#filled, this.#narrow);
		const inHeader = this.#headerInFocus();
		const inGroup = this.#groupInFocus();
		const hadFocus = this.#hasFocus();
		this.#api.setGridOption('columnDefs', this.#columnDefs());
		this.#selection.setArea({ rows: this.#selection.area.rows, columns: new Line(this.shownColumns()) });
		this.#finder.forget();
		if (inHeader !== null) this.#api.setFocusedHeader(inHeader);
		else if (inGroup !== null) this.#focusGroup(inGroup);
		else if (hadFocus) this.focus();
	}

	/** Inputs that are usually left out are shown once a row holds something in them. @returns whether that changed. */
	#findFilled(rows: Iterable<string>): boolean {
		const { sheet } = this.#hooks;
		const before = this.#filled.size;
		for (const id of rows)
			for (const field of Object.keys(sheet.row(id)?.cells ?? {}))
				if (!this.#filled.has(field) && !isUsual(field)) this.#filled.add(field);
		return this.#filled.size > before;
	}

	#reader(): RowReader {
		const { sheet } = this.#hooks;
		const text = this.#text;
		const owners = new Map<unknown, string>();
		for (const id of sheet.order) {
			const mark = sheet.cell(id, 'mark');
			if (mark !== null && !sheet.isOwnRow(id) && !owners.has(mark)) owners.set(mark, id);
		}
		const refused = new Set(sheet.refusedCells.map(({ row }) => row));
		return {
			order: sheet.order,
			columns: this.shownColumns(),
			text: (row, column) => text.text(row, column),
			value: (row, column) => text.value(row, column),
			severities: (row) => new Set(sheet.checks(row).map(({ severity }) => severity)),
			hasRefused: (row) => refused.has(row),
			ownerOf: (row) => (sheet.isOwnRow(row) ? (owners.get(sheet.cell(row, 'mark')) ?? null) : null)
		};
	}

	#arrange(): readonly string[] {
		const { filter, sort } = this.#view;
		return isFiltered(filter) || sort ? shownRows(this.#reader(), filter, sort) : this.#hooks.sheet.order;
	}

	#arranged(): string | null {
		const { filter, sort } = this.#view;
		const words = [
			sort ? `sorted by ${this.#text.titleOf(sort.column)}` : '',
			isFiltered(filter) ? 'filtered' : ''
		].filter((word) => word !== '');
		return words.length === 0 ? null : words.join(' and ');
	}

	#dataOf(rows: readonly string[]): GridRow[] {
		return rows.map((id) => {
			const known = this.#rowData.get(id);
			if (known) return known;
			const fresh = { id };
			this.#rowData.set(id, fresh);
			return fresh;
		});
	}

	#showRows(rows: readonly string[]): void {
		const hadFocus = this.#hasFocus();
		this.#api.setGridOption('rowData', this.#dataOf(rows));
		this.#selection.setArea({ rows: new Line(rows), columns: this.#selection.area.columns });
		this.#finder.forget();
		if (hadFocus && !this.#editor) this.focus();
	}

	// Keeping up with the sheet.

	/** Changes that come together are shown together, before the next paint. */
	#heard({ rows, order }: SheetChange): void {
		if (!this.#pending) {
			this.#pending = { rows: new Set(), order: false };
			queueMicrotask(() => this.#flush());
		}
		for (const row of rows) this.#pending.rows.add(row);
		this.#pending.order ||= order;
	}

	#flush(): void {
		if (!this.#pending) return;
		const { rows, order } = this.#pending;
		this.#pending = null;
		if (order) this.#takeOrder();
		if (this.#findFilled(rows)) this.#layColumns();
		for (const view of this.#views) if (view.isOf(rows, order)) view.renew();
		this.#finder.forget();
		this.#editor?.cellsChanged();
		this.#selection.refreshSum();
		if (this.#totalsTimer) clearTimeout(this.#totalsTimer);
		this.#totalsTimer = setTimeout(() => this.#renewTotals(), totalsPause);
	}

	#renewTotals(): void {
		this.#totalsTimer = null;
		this.#text.forgetTotals();
		for (const view of this.#views) if (view.isTotal) view.renew();
	}

	/**
	 * Rows came, went or moved. While they are sorted or filtered those shown keep their places until that is asked for
	 * anew; a row that comes stands beside its stored neighbour, also where it would be filtered out.
	 */
	#takeOrder(): void {
		const { order } = this.#hooks.sheet;
		const before = this.#stored;
		this.#stored = new Line(order);
		if (this.#arranged() === null) {
			this.#showRows(order);
			return;
		}
		const shown = this.shownRows().filter((id) => this.#stored.at(id) >= 0);
		for (const [at, id] of order.entries()) {
			if (before.at(id) >= 0) continue;
			const above = shown.indexOf(order[at - 1] ?? '');
			const below = shown.indexOf(order[at + 1] ?? '');
			shown.splice(above >= 0 ? above + 1 : below >= 0 ? below : shown.length, 0, id);
		}
		this.#showRows(shown);
	}

	// Editing.

	#editorOf(input: InputDefinition): EditorHost {
		const known = this.#editors.get(input.id);
		if (known) return known;
		const host = this.#newEditor(input);
		this.#editors.set(input.id, host);
		return host;
	}

	#newEditor(input: InputDefinition): EditorHost {
		const { sheet } = this.#hooks;
		const keys = input.kind === 'key' ? keysFor(sheet.engine.book, input) : [];
		const column = input.id;
		return {
			label: input.title,
			options: keyOptions(sheet.engine.book, input, keys),
			read: (text) => this.#text.read(input, text),
			show: (cell) => (input.kind === 'text' ? '' : this.#text.show(input, cell)),
			start: (row) => typedText(sheet.cell(row, column)),
			stored: (row) => sheet.cell(row, column),
			refused: (row) => sheet.refusedEntry(row, column),
			opened: (editor) => (this.#editor = editor),
			closed: (editor) => {
				if (this.#editor === editor) this.#editor = null;
				if (this.#columnsWait) queueMicrotask(() => this.#layColumns());
			},
			commit: (row, cell, move) => {
				const title = `${input.title} of ${sheet.nameOf(row)}`;
				this.#api.stopEditing(true);
				// The focus first: it makes the browser lay the page out, which is less before cells are written.
				this.#go({ row, column }, move);
				sheet.setCells(title, [{ row, field: column, after: cell }]);
			},
			commitAll: (text) => {
				if (!this.#selection.isMany) return false;
				this.#api.stopEditing(true);
				this.#hands.fillAll(text);
				this.focus();
				return true;
			},
			refuse: (row, entry) => {
				sheet.refuse(row, column, entry);
				this.#api.stopEditing(true);
			},
			cancel: (row) => {
				this.#api.stopEditing(true);
				sheet.forgetRefused(row, column);
				this.focus();
			}
		};
	}

	#edit(): void {
		const { active } = this.#selection;
		if (!active || !isInputId(active.column)) return;
		this.#api.startEditingCell({
			rowIndex: this.#selection.area.rows.at(active.row),
			colKey: active.column
		});
	}

	// Focus.

	focusCell(row: string, column: string): void {
		this.#flush();
		if (this.#selection.area.rows.at(row) < 0) {
			if (this.#stored.at(row) < 0) return;
			this.#change({ ...this.#view, filter: everyRow });
			this.#hooks.say(`All rows are shown again: ${this.#hooks.sheet.nameOf(row)} was filtered out.`);
		}
		if (this.#selection.area.columns.at(column) < 0) this.#showColumn(column);
		const spot = { row, column: this.#selection.area.columns.at(column) < 0 ? 'mark' : column };
		this.#tabsFrom = null;
		this.#focusOn(spot);
	}

	/** Unfolds, or switches on, what keeps a column from sight. */
	#showColumn(column: string): void {
		const group = this.#catalog.groupOf(column);
		const unfolded = { ...this.#view, folded: this.#view.folded.filter((title) => title !== group) };
		this.#change(unfolded);
		if (this.#selection.area.columns.at(column) >= 0) return;
		this.#change({ ...unfolded, side: 'both', choice: { ...unfolded.choice, [column]: true } });
	}

	/** Puts the focus back on the active cell; what is selected stays so. */
	focus(): void {
		const { active } = this.#selection;
		if (!active) return;
		const { row, column } = this.#selection.placeOf(active);
		if (row < 0 || column < 0) return;
		// Focusing scrolls: where the focus is right already, the sheet stays as it is.
		if (this.#hasFocus() && this.#gridFocus() === [row, null, active.column].join(' ')) return;
		this.#api.setFocusedCell(row, active.column);
		this.#seenFocus = this.#gridFocus();
	}

	#focusOn(spot: Spot, range: Range = oneCell(spot)): void {
		this.#reveal(spot);
		this.#selection.set(range, spot);
		this.focus();
		this.#follow(spot);
	}

	#reveal({ row, column }: Spot): void {
		const index = this.#selection.area.rows.at(row);
		if (index >= 0) this.#api.ensureIndexVisible(index);
		if (this.#selection.area.columns.at(column) >= 0) this.#api.ensureColumnVisible(column);
	}

	/** Where the grid component has its focus. */
	#gridFocus(): string {
		const { rowIndex, rowPinned, column } = this.#api.getFocusedCell() ?? {};
		return [rowIndex, rowPinned, column?.getColId()].join(' ');
	}

	/** Takes over the focus where the grid has put it somewhere by itself: by a click or an arrow key. */
	#adoptFocus(): void {
		const now = this.#gridFocus();
		if (now === this.#seenFocus) return;
		this.#seenFocus = now;
		const cell = this.#api.getFocusedCell();
		if (!cell || cell.rowPinned) return;
		const row = this.shownRows()[cell.rowIndex];
		const column = cell.column.getColId();
		if (row === undefined || column === gutterId) return;
		const { active } = this.#selection;
		if (active?.row !== row || active.column !== column) {
			this.#tabsFrom = null;
			this.#selection.set(oneCell({ row, column }));
		}
		this.#follow({ row, column });
	}

	/** The panel beside the sheet follows the active cell. */
	#follow({ row, column }: Spot): void {
		this.#select(row);
		if (this.#text.results.has(column)) this.#hooks.passWorking(row, column);
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

	#hasFocus(): boolean {
		const { activeElement } = document;
		return (
			this.#container.contains(activeElement) &&
			!(activeElement instanceof HTMLInputElement) &&
			activeElement?.closest('[role="gridcell"]') !== null
		);
	}

	/** The column whose header has the focus. */
	#headerInFocus(): string | null {
		const { activeElement } = document;
		if (!this.#container.contains(activeElement)) return null;
		const header = activeElement?.closest('[role="columnheader"]');
		const id = header?.getAttribute('col-id') ?? null;
		return id !== null && this.#selection.area.columns.at(id) >= 0 ? id : null;
	}

	/** The group whose heading has the focus. */
	#groupInFocus(): string | null {
		const { activeElement } = document;
		if (!activeElement?.matches('[role="columnheader"]') || !this.#container.contains(activeElement))
			return null;
		return activeElement.querySelector<HTMLElement>('[data-fold]')?.dataset.fold ?? null;
	}

	#focusGroup(title: string): void {
		const heading = this.#container.querySelector(`[data-fold="${CSS.escape(title)}"]`);
		heading?.closest<HTMLElement>('[role="columnheader"]')?.focus();
	}

	/** Where the focus goes after an entry, or by Enter and Tab. @returns whether there was somewhere to go. */
	#go(from: Spot, move: Move): boolean {
		this.#flush();
		if (move === 'none') return true;
		const { extent, isMany, range } = this.#selection;
		const place = this.#selection.placeOf(from);
		if (move !== 'stay' && isMany && extent && range && within(extent, place.row, place.column)) {
			const direction = move === 'besideLeft' ? 'left' : move === 'besideRight' ? 'right' : move;
			const next = this.#selection.spotAt(walk(extent, place, direction));
			if (next) this.#focusOn(next, range);
			return true;
		}
		const next = this.#nextOf(from, place, move);
		if (!next) return false;
		this.#focusOn(next);
		return true;
	}

	#nextOf(from: Spot, place: Place, move: Exclude<Move, 'none'>): Spot | null {
		const under = this.#tabsFrom ?? from.column;
		if (move !== 'left' && move !== 'right') this.#tabsFrom = null;
		switch (move) {
			case 'stay':
				return from;
			case 'down':
				return this.#selection.spotAt({
					row: place.row + 1,
					column: this.#selection.area.columns.at(under)
				});
			case 'up':
				return this.#selection.spotAt({ ...place, row: place.row - 1 });
			case 'besideLeft':
				return this.#selection.spotAt({ ...place, column: place.column - 1 });
			case 'besideRight':
				return this.#selection.spotAt({ ...place, column: place.column + 1 });
			case 'right':
			case 'left':
				return this.#sideways(from, place, move === 'right' ? 1 : -1);
		}
	}

	/** From input to input, over the end to the next row; null where there is none. */
	#sideways(from: Spot, place: Place, step: 1 | -1): Spot | null {
		const { rows, columns } = this.#selection.area;
		this.#tabsFrom ??= from.column;
		const ids = columns.ids;
		const ahead = step === 1 ? ids.slice(place.column + 1) : ids.slice(0, place.column).toReversed();
		const next = ahead.find(isInputId);
		if (next !== undefined) return { row: from.row, column: next };
		const row = rows.ids[place.row + step];
		const end = step === 1 ? ids.find(isInputId) : ids.findLast(isInputId);
		if (row === undefined || end === undefined) return null;
		this.#tabsFrom = step === 1 ? end : null;
		return { row, column: end };
	}

	// Mouse.

	readonly #onPress = (event: PointerEvent): void => {
		this.#pressedAt = { x: event.clientX, y: event.clientY };
	};

	#onClick({ data, column, rowPinned, event }: CellClickedEvent<GridRow>): void {
		if (!data || rowPinned || (event instanceof MouseEvent && event.shiftKey)) return;
		const id = column.getColId();
		const cell = `${data.id} ${id}`;
		if (id !== gutterId) this.#open({ row: data.id, column: id });
		if (this.#coarse && this.#lastClick === cell) this.#edit();
		this.#lastClick = cell;
	}

	/** @returns whether the cell has something to open: checks or a working. */
	#open({ row, column }: Spot): boolean {
		if (column === checksId) this.#hooks.openChecks(row);
		else if (this.#text.results.has(column)) this.#hooks.openWorking(row, column);
		else return false;
		return true;
	}

	readonly #onHeaderClick = (event: MouseEvent): void => {
		const header = event.target instanceof Element ? event.target.closest('[role="columnheader"]') : null;
		if (!header || !(event.target instanceof Element) || event.target.closest('.ag-header-cell-resize'))
			return;
		// The end of a drag is no click.
		const { x, y } = this.#pressedAt;
		if (Math.hypot(event.clientX - x, event.clientY - y) > 4) return;
		this.#pressHeader(header, event.shiftKey);
	};

	/** @returns whether there was something to do. */
	#pressHeader(header: Element, extend: boolean): boolean {
		const fold = header.querySelector<HTMLElement>('[data-fold]')?.dataset.fold;
		const id = header.getAttribute('col-id') ?? '';
		if (fold !== undefined) this.#fold(fold);
		else if (id === gutterId) this.run('selectAll');
		else if (this.#selection.area.columns.at(id) >= 0) this.#selectColumn(id, extend);
		else return false;
		return true;
	}

	#selectColumn(column: string, extend: boolean): void {
		const { active, range, area } = this.#selection;
		const row = active?.row ?? area.rows.ids[0];
		if (row === undefined) return;
		const anchor = extend && range ? range.anchor : { row, column };
		this.#selection.set(
			{ anchor, head: { row, column }, whole: 'columns' },
			extend && active ? active : anchor
		);
	}

	#onColumnMoved({ finished, source }: ColumnMovedEvent<GridRow>): void {
		if (!finished || source !== 'uiColumnMoved') return;
		const ids = this.#api.getAllDisplayedColumns().map((column) => column.getColId());
		this.#change(
			withOrder(
				this.#view,
				ids.filter((id) => id !== gutterId)
			)
		);
	}

	#onColumnResized({ finished, source, columns }: ColumnResizedEvent<GridRow>): void {
		if (!finished || source !== 'uiColumnResized' || !columns) return;
		const widths = Object.fromEntries(
			columns.map((column) => [column.getColId(), Math.round(column.getActualWidth())])
		);
		this.#change({ ...this.#view, widths: { ...this.#view.widths, ...widths } });
	}

	// Keys.

	readonly #onKeyDown = (event: KeyboardEvent): void => {
		if (event.target instanceof HTMLInputElement || !(event.target instanceof Element)) return;
		this.#adoptFocus();
		const header = event.target.closest('[role="columnheader"]');
		const done = header ? this.#headerKey(event, header) : this.#cellKey(event);
		if (!done) return;
		event.preventDefault();
		event.stopPropagation();
	};

	#headerKey(event: KeyboardEvent, header: Element): boolean {
		if (event.key === 'Enter' || event.key === ' ') return this.#pressHeader(header, event.shiftKey);
		return this.#command(event);
	}

	/** @returns whether the key was one of ours. */
	#cellKey(event: KeyboardEvent): boolean {
		const { active, isMany } = this.#selection;
		const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
		if (active && plain && event.key === 'Enter') {
			if (!event.shiftKey && !isMany && this.#open(active)) return true;
			return this.#go(active, event.shiftKey ? 'up' : 'down');
		}
		if (active && plain && event.key === 'Tab') return this.#go(active, event.shiftKey ? 'left' : 'right');
		if (event.key === '?' && active && isInputId(active.column)) return false;
		if (this.#command(event)) return true;
		const motion = motionFor(event);
		// One cell or window further, and from there to the headers: the grid's own.
		if (!active || !motion || (!motion.extend && (motion.reach === 'cell' || motion.reach === 'window')))
			return false;
		this.#moveBy(motion);
		return true;
	}

	#command(event: KeyboardEvent): boolean {
		const id = commandFor(event);
		// The clipboard has events of its own.
		if (id === null || id === 'copy' || id === 'cut' || id === 'paste') return false;
		if (id === 'leave') this.#leave();
		else this.run(id);
		return true;
	}

	#moveBy(motion: Motion): void {
		const { active, range, area } = this.#selection;
		if (!active) return;
		const from = this.#selection.placeOf(motion.extend ? (range?.head ?? active) : active);
		const sight = this.#api.getVerticalPixelRange();
		const end = motionEnd(
			from,
			motion,
			{ row: area.rows.length, column: area.columns.length },
			Math.floor((sight.bottom - sight.top) / this.#rowHeight()),
			(place) => {
				const spot = this.#selection.spotAt(place);
				return spot !== null && this.#text.isFilled(spot.row, spot.column);
			}
		);
		const spot = this.#selection.spotAt(end);
		if (!spot) return;
		if (motion.extend) {
			this.#selection.extendTo(spot);
			this.#reveal(spot);
		} else {
			this.#tabsFrom = null;
			this.#focusOn(spot);
		}
	}

	/** To what can be reached by Tab after the grid. */
	#leave(): void {
		const stops = [
			...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, [tabindex="0"]')
		];
		const after = stops.find(
			(stop) =>
				!this.#container.contains(stop) &&
				(this.#container.compareDocumentPosition(stop) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0 &&
				stop.checkVisibility() &&
				!stop.matches(':disabled')
		);
		after?.focus();
	}

	// Commands.

	run(command: CommandId): void {
		this.#flush();
		this.#adoptFocus();
		switch (command) {
			case 'undo':
				void this.#hooks.sheet.undo();
				return;
			case 'redo':
				void this.#hooks.sheet.redo();
				return;
			case 'copy':
			case 'cut':
				void this.#toClipboard(command);
				return;
			case 'paste':
				void this.#fromClipboard();
				return;
			case 'clear':
				this.#hands.clear();
				return;
			case 'fillDown':
				this.#hands.fillDown();
				return;
			case 'fillRight':
				this.#hands.fillRight();
				return;
			case 'fillAll':
				this.#hands.fillAll(this.#hands.activeText());
				return;
			case 'fillSeries':
				this.#askSeries();
				return;
			case 'addOpening':
				this.#hands.addOpening();
				return;
			case 'duplicateAsNewMark':
				this.#hands.duplicate();
				return;
			case 'giveOwnRow':
				this.#hands.giveOwnRow();
				return;
			case 'insertAbove':
				this.#hands.insert('above');
				return;
			case 'insertBelow':
				this.#hands.insert('below');
				return;
			case 'moveUp':
			case 'moveDown':
				this.#hands.move(command === 'moveUp' ? 'up' : 'down');
				return;
			case 'deleteRows':
				this.#hands.deleteRows();
				return;
			case 'selectRow':
				this.#selectWhole('rows');
				return;
			case 'selectColumn':
				this.#selectWhole('columns');
				return;
			case 'selectAll':
				this.#selectWhole('all');
				return;
			case 'deselect':
				this.#deselect();
				return;
			case 'edit':
				this.#edit();
				return;
			case 'open':
				if (this.#selection.active) this.#open(this.#selection.active);
				return;
			case 'find':
			case 'keys':
			case 'columns':
			case 'views':
				this.#hooks.ask(command);
				return;
			case 'findNext':
			case 'findPrevious':
				if (this.#finder.last) this.find(this.#finder.last, command === 'findNext' ? 'next' : 'previous');
				else this.#hooks.ask('find');
				return;
			case 'leave':
				this.#leave();
				return;
			default:
				this.#look(command);
		}
	}

	/** Commands that change how the sheet is looked at. */
	#look(
		command:
			| 'foldGroup'
			| 'hideColumn'
			| 'columnLeft'
			| 'columnRight'
			| 'widen'
			| 'narrow'
			| 'freeze'
			| 'sort'
			| 'filterByCell'
			| 'clearFilter'
			| 'rowHeight'
	): void {
		const view = this.#view;
		const column = this.focusedColumn();
		if (command === 'clearFilter') this.#change({ ...view, filter: everyRow });
		else if (command === 'rowHeight')
			this.#change({ ...view, rowHeight: view.rowHeight === 'compact' ? 'comfortable' : 'compact' });
		if (column === null) return;
		switch (command) {
			case 'foldGroup':
				this.#fold(this.#catalog.groupOf(column));
				break;
			case 'hideColumn':
				this.#hide(column);
				break;
			case 'columnLeft':
			case 'columnRight': {
				const columns = this.#groups.flatMap((group) => group.columns);
				const order = stepped(columns, column, command === 'columnLeft' ? -1 : 1);
				if (order) this.#change(withOrder(view, order));
				this.#api.ensureColumnVisible(column);
				break;
			}
			case 'widen':
			case 'narrow': {
				const now = view.widths[column] ?? usualWidth(column);
				const width = Math.max(36, Math.min(1200, now + (command === 'widen' ? widthStep : -widthStep)));
				this.#change({ ...view, widths: { ...view.widths, [column]: width } });
				break;
			}
			case 'freeze':
				if (column === 'mark') this.#hooks.refuse('The mark always stays in place.');
				else if (!view.frozen.includes(column) && view.frozen.length >= mostFrozen)
					this.#hooks.refuse(`${mostFrozen} columns stay in place already; let one of them go first.`);
				else this.#change({ ...view, frozen: toggled(view.frozen, column) });
				break;
			case 'sort':
				this.#sort(column);
				break;
			case 'filterByCell':
				this.#filterBy(column);
				break;
		}
	}

	#fold(group: string): void {
		const { title, foldable } = this.#groups.find((laid) => laid.title === group && laid.foldable) ?? {};
		if (title === undefined || foldable === undefined || group === '') {
			this.#hooks.refuse('This column stands alone: there is nothing to fold.');
			return;
		}
		this.#change({ ...this.#view, folded: toggled(this.#view.folded, title) });
	}

	#hide(column: string): void {
		const { range, ids } = this.#selection;
		const columns = (range?.whole === 'columns' ? ids.columns : [column]).filter((id) => id !== 'mark');
		const [only] = columns;
		if (only === undefined) {
			this.#hooks.refuse('The mark can’t be hidden: it says which opening a row is.');
			return;
		}
		const off = Object.fromEntries(columns.map((id) => [id, false]));
		this.#change({ ...this.#view, choice: { ...this.#view.choice, ...off } });
		const what = columns.length === 1 ? `${this.#text.titleOf(only)} is` : `${columns.length} columns are`;
		this.#hooks.say(`${what} hidden; Columns brings them back.`);
	}

	#sort(column: string): void {
		const { sort } = this.#view;
		const direction = sort?.column !== column ? 'up' : sort.direction === 'up' ? 'down' : null;
		this.#change({ ...this.#view, sort: direction === null ? null : { column, direction } });
	}

	#filterBy(column: string): void {
		const { active } = this.#selection;
		if (!active) return;
		const { filter } = this.#view;
		const { [column]: was, ...others } = filter.values;
		const text = this.#text.text(active.row, column);
		const values = was?.length === 1 && was[0] === text ? others : { ...others, [column]: [text] };
		this.#change({ ...this.#view, filter: { ...filter, values } });
	}

	#selectWhole(whole: 'rows' | 'columns' | 'all'): void {
		const { range, area } = this.#selection;
		const active = this.#selection.active ?? this.#selection.spotAt({ row: 0, column: 0 });
		if (!active || area.rows.length === 0) return;
		const { anchor, head } = range ?? oneCell(active);
		this.#selection.set({ anchor, head, whole }, active);
	}

	#deselect(): void {
		const { active } = this.#selection;
		if (!active) return;
		if (isInputId(active.column)) this.#hooks.sheet.forgetRefused(active.row, active.column);
		this.#selection.set(oneCell(active));
	}

	// Series, finding and replacing: what the page asks for beside the grid.

	#askSeries(): void {
		const { range, ids } = this.#selection;
		const offer = this.seriesOffer();
		if (range && ids.columns.length > 1 && ids.rows.length > 1) this.#hands.continueSeries();
		else if ('reason' in offer) this.#hooks.refuse(offer.reason);
		else this.#hooks.ask('fillSeries');
	}

	seriesOffer(): SeriesOffer | { readonly reason: string } {
		return this.#hands.seriesOffer();
	}

	readSeries(from: string, step: string, most: number): SeriesReading {
		return this.#hands.readSeries(from, step, most);
	}

	fillSeries(from: string, step: string): void {
		this.#hands.fillSeries(from, step);
	}

	find(search: Search, direction: 'next' | 'previous'): Found {
		this.#flush();
		const { spot, found } = this.#finder.next(search, direction);
		if (!spot) return found;
		this.#selection.set(oneCell(spot));
		this.#reveal(spot);
		this.#follow(spot);
		// The focus stays where the search is typed.
		if (this.#hasFocus()) this.focus();
		return found;
	}

	replace(search: Search, by: string, all: boolean): void {
		this.#flush();
		const { active } = this.#selection;
		if (all) this.#hands.replaceIn(this.#finder.hits(search), search, by);
		else if (active && this.#finder.has(active, search)) this.#hands.replaceIn([active], search, by);
	}

	// The clipboard.

	/** The event is for the grid when the focus is in it, wherever the browser sends it. */
	#isOurs(event: ClipboardEvent): boolean {
		const { activeElement } = document;
		return (
			event.clipboardData !== null &&
			!event.defaultPrevented &&
			!(activeElement instanceof HTMLInputElement) &&
			this.#container.contains(activeElement)
		);
	}

	readonly #onCopy = (event: ClipboardEvent): void => {
		const copied = this.#isOurs(event) ? this.#hands.copied() : null;
		if (!copied) return;
		event.clipboardData?.setData('text/plain', copied.text);
		event.clipboardData?.setData('text/html', copied.html);
		event.preventDefault();
		this.#announce(this.#hands.copyWords('Copied'));
	};

	readonly #onCut = (event: ClipboardEvent): void => {
		const copied = this.#isOurs(event) ? this.#hands.copied() : null;
		if (!copied) return;
		event.clipboardData?.setData('text/plain', copied.text);
		event.clipboardData?.setData('text/html', copied.html);
		event.preventDefault();
		this.#announce(this.#hands.copyWords('Cut'));
		this.#hands.clear('Cut');
	};

	readonly #onPaste = (event: ClipboardEvent): void => {
		if (!this.#isOurs(event) || !event.clipboardData) return;
		event.preventDefault();
		this.#hands.paste({
			text: event.clipboardData.getData('text/plain'),
			html: event.clipboardData.getData('text/html')
		});
	};

	/** From a button: the browser may ask first, or keep the clipboard to itself. */
	async #toClipboard(what: 'copy' | 'cut'): Promise<void> {
		const copied = this.#hands.copied();
		if (!copied) return;
		try {
			const blob = (text: string, type: string): Blob => new Blob([text], { type });
			await navigator.clipboard.write([
				new ClipboardItem({
					'text/plain': blob(copied.text, 'text/plain'),
					'text/html': blob(copied.html, 'text/html')
				})
			]);
		} catch {
			this.#hooks.refuse(
				`The browser keeps the clipboard to its keys here: press Ctrl+${what === 'cut' ? 'X' : 'C'} in the sheet.`
			);
			return;
		}
		this.#announce(this.#hands.copyWords(what === 'cut' ? 'Cut' : 'Copied'));
		if (what === 'cut') this.#hands.clear('Cut');
	}

	async #fromClipboard(): Promise<void> {
		try {
			const [item] = await navigator.clipboard.read();
			const read = async (type: string): Promise<string> =>
				item?.types.includes(type) ? (await item.getType(type)).text() : '';
			this.#hands.paste({ text: await read('text/plain'), html: await read('text/html') });
		} catch {
			this.#hooks.refuse('The browser keeps the clipboard to its keys here: press Ctrl+V in the sheet.');
		}
	}
}
