/** What the grid component shows of the sheet: the columns and rows of a view, laid out anew when either changes. */
import {
	createGrid,
	type ColumnMovedEvent,
	type ColumnResizedEvent,
	type GridApi,
	type GridOptions
} from 'ag-grid-community';
import { everyRow, isFiltered, type SheetView } from '../../changes/sheet-view.ts';
import type { CellEntry } from './cell-entry.ts';
import type { CellText } from './cell-text.ts';
import { gutterId, type CellView, type GridRow } from './cell-view.ts';
import { ColumnCatalog, withOrder, type LaidGroup } from './column-layout.ts';
import { FilledInputs } from './filled-inputs.ts';
import type { Finder } from './finder.ts';
import { columnsOf } from './grid-columns.ts';
import type { GridFocus } from './grid-focus.ts';
import type { GridHooks } from './grid-hooks.ts';
import { modules, theme } from './grid-theme.ts';
import type { OthersInCells } from './others-in-cells.ts';
import { Line, type Spot } from './range.ts';
import { rowReader } from './row-reader.ts';
import { shownRows } from './row-view.ts';
import type { Selection } from './selection.ts';

const totalsId = 'totals';

/** How the grid is shown before anything is changed. */
export interface DisplayOptions {
	readonly view: SheetView;
	/** Only the mark stays in place. */
	readonly narrow: boolean;
	/** For fingers: higher rows, and a second tap edits. */
	readonly coarse: boolean;
}

export interface DisplayHost {
	readonly container: HTMLElement;
	readonly hooks: GridHooks;
	readonly text: CellText;
	/** Cells on the screen now. */
	readonly views: Set<CellView>;
	readonly selection: Selection;
	readonly finder: Finder;
	readonly focus: GridFocus;
	readonly entry: CellEntry;
	readonly others: OthersInCells;
	/** What else the component is to tell of. */
	readonly events: GridOptions<GridRow>;
	announce(text: string): void;
}

export class GridDisplay {
	readonly api: GridApi<GridRow>;
	readonly catalog: ColumnCatalog;
	readonly #host: DisplayHost;
	readonly #coarse: boolean;
	/** One object a row, so that the grid knows it again. */
	readonly #rowData = new Map<string, GridRow>();
	readonly #filled = new FilledInputs();
	#view: SheetView;
	#narrow: boolean;
	#groups: readonly LaidGroup[];
	/** Inputs outside the usual ones that are shown because they hold something, or did a moment ago. */
	#opened: ReadonlySet<string>;
	/** Ids of all rows, as they are stored. */
	#stored: Line;
	/** The columns wait for the end of an entry. */
	#columnsWait = false;

	constructor(host: DisplayHost, { view, narrow, coarse }: DisplayOptions) {
		const { container, hooks, text, selection, events } = host;
		const { sheet } = hooks;
		this.#host = host;
		this.#view = view;
		this.#narrow = narrow;
		this.#coarse = coarse;
		this.catalog = new ColumnCatalog(sheet.engine.quantities);
		this.#stored = new Line(sheet.order);
		this.#readCells(sheet.order);
		this.#opened = new Set(this.#filled.ids);
		this.#groups = this.catalog.lay(view, this.#opened, narrow);
		// The rows are read in the columns shown.
		selection.setArea({ rows: new Line([]), columns: this.#columnLine() });
		selection.setArea({ rows: new Line(this.#arrange()), columns: selection.area.columns });
		this.api = createGrid<GridRow>(
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
							? text.tooltip(data.id, column.getColId())
							: undefined
				},
				rowData: this.#dataOf(this.rows),
				getRowId: ({ data }) => data.id,
				pinnedBottomRowData: [{ id: totalsId }],
				rowHeight: this.rowHeight,
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
				onColumnMoved: (event) => this.#columnMoved(event),
				onColumnResized: (event) => this.#columnResized(event),
				...events
			},
			{ modules }
		);
		const grid = container.querySelector('[role="grid"], [role="treegrid"]');
		grid?.setAttribute('aria-label', 'Openings of the job');
		grid?.setAttribute('aria-multiselectable', 'true');
		if (!hooks.mayEdit) grid?.setAttribute('aria-readonly', 'true');
		this.#tell();
	}

	get view(): SheetView {
		return this.#view;
	}

	get groups(): readonly LaidGroup[] {
		return this.#groups;
	}

	/** Ids of the rows shown, from the top. */
	get rows(): readonly string[] {
		return this.#host.selection.area.rows.ids;
	}

	/** Ids of the columns shown, from the left. */
	get columns(): readonly string[] {
		return this.#host.selection.area.columns.ids;
	}

	get rowHeight(): number {
		if (this.#view.rowHeight === 'compact') return this.#coarse ? 44 : 30;
		return this.#coarse ? 56 : 46;
	}

	// The view.

	/** Takes a view that was changed by hand, and tells the page of it. */
	change(view: SheetView): void {
		this.#apply(view);
		this.#host.hooks.viewChanged(view);
	}

	setView(view: SheetView): void {
		if (view !== this.#view && JSON.stringify(view) !== JSON.stringify(this.#view)) this.#apply(view);
	}

	setNarrow(narrow: boolean): void {
		if (narrow === this.#narrow) return;
		this.#narrow = narrow;
		this.#layColumns();
	}

	#apply(view: SheetView): void {
		const before = this.#view;
		this.#view = view;
		if (view.rowHeight !== before.rowHeight) {
			this.api.setGridOption('rowHeight', this.rowHeight);
			for (const cell of this.#host.views) cell.renew();
		}
		this.#layColumns();
		const sameRows =
			JSON.stringify([view.filter, view.sort]) === JSON.stringify([before.filter, before.sort]);
		if (!sameRows) {
			this.#showRows(this.#arrange());
			this.#host.announce(`${this.rows.length} of ${this.#stored.length} rows shown.`);
		}
		const [first] = this.#groups.filter(({ frozen }) => !frozen).flatMap(({ columns }) => columns);
		if (view.side !== before.side && first) this.api.ensureColumnVisible(first.id, 'start');
	}

	/**
	 * The cell, with what keeps it from sight undone: a filter is taken off, its column unfolded or switched on. The
	 * mark of the row where there is no such column; null where the row is gone.
	 */
	uncover(row: string, column: string): Spot | null {
		const { hooks, selection } = this.#host;
		if (selection.area.rows.at(row) < 0) {
			if (this.#stored.at(row) < 0) return null;
			this.change({ ...this.#view, filter: everyRow });
			hooks.say(`All rows are shown again: ${hooks.sheet.nameOf(row)} was filtered out.`);
		}
		if (selection.area.columns.at(column) < 0) this.#uncoverColumn(column);
		return { row, column: selection.area.columns.at(column) < 0 ? 'mark' : column };
	}

	#uncoverColumn(column: string): void {
		const group = this.catalog.groupOf(column);
		const unfolded = { ...this.#view, folded: this.#view.folded.filter((title) => title !== group) };
		this.change(unfolded);
		if (this.#host.selection.area.columns.at(column) >= 0) return;
		this.change({ ...unfolded, side: 'both', choice: { ...unfolded.choice, [column]: true } });
	}

	// Columns.

	#columnDefs(): ReturnType<typeof columnsOf> {
		const { hooks, text, views, selection, entry, others } = this.#host;
		return columnsOf(this.#groups, this.#view, {
			text,
			views,
			narrow: this.#narrow,
			showsTyped: () => this.#view.rowHeight === 'comfortable',
			numberOf: (row) => this.#stored.at(row) + 1,
			paintOf: (row, column) => selection.paintOf(row, column),
			othersAt: (row, column) => others.at(row, column),
			mayEdit: () => hooks.mayEdit,
			editorOf: (input) => entry.editorOf(input)
		});
	}

	#columnLine(): Line {
		return new Line(this.#groups.flatMap(({ columns }) => columns.map(({ id }) => id)));
	}

	/** Lays the columns anew; while a cell is typed in, when that is done. */
	#layColumns(): void {
		const { selection, finder, focus, entry } = this.#host;
		this.#columnsWait = entry.isOpen;
		if (this.#columnsWait) return;
		this.#groups = this.catalog.lay(this.#view, this.#opened, this.#narrow);
		const putFocusBack = focus.hold();
		this.api.setGridOption('columnDefs', this.#columnDefs());
		selection.setArea({ rows: selection.area.rows, columns: this.#columnLine() });
		finder.forget();
		putFocusBack();
		this.#tell();
	}

	/** Nothing is typed any more: columns that waited for it are laid. */
	entryEnded(): void {
		if (this.#columnsWait) queueMicrotask(() => this.#layColumns());
	}

	/** Takes what rows hold now. */
	cellsChanged(rows: Iterable<string>): void {
		this.#readCells(rows);
		this.openColumns();
	}

	#readCells(rows: Iterable<string>): void {
		const { sheet } = this.#host.hooks;
		for (const id of rows) this.#filled.take(id, sheet.row(id)?.cells ?? {});
	}

	/**
	 * Opens the columns of inputs that are usually left out and hold something now, and closes those that do no more:
	 * not under the focus or a selection, nor over an entry that was refused.
	 */
	openColumns(): void {
		const { hooks, selection, focus } = this.#host;
		const emptied = [...this.#opened].filter((id) => !this.#filled.has(id));
		const inUse = new Set<string | null>([
			focus.column,
			...selection.ids.columns,
			...hooks.sheet.refusedCells.map(({ field }) => field)
		]);
		const opened = new Set([...this.#filled.ids, ...emptied.filter((id) => inUse.has(id))]);
		if (opened.size === this.#opened.size && [...opened].every((id) => this.#opened.has(id))) return;
		this.#opened = opened;
		this.#layColumns();
	}

	#columnMoved({ finished, source }: ColumnMovedEvent<GridRow>): void {
		if (!finished || source !== 'uiColumnMoved') return;
		const ids = this.api.getAllDisplayedColumns().map((column) => column.getColId());
		this.change(
			withOrder(
				this.#view,
				ids.filter((id) => id !== gutterId)
			)
		);
	}

	#columnResized({ finished, source, columns }: ColumnResizedEvent<GridRow>): void {
		if (!finished || source !== 'uiColumnResized' || !columns) return;
		const widths = Object.fromEntries(
			columns.map((column) => [column.getColId(), Math.round(column.getActualWidth())])
		);
		this.change({ ...this.#view, widths: { ...this.#view.widths, ...widths } });
	}

	// Rows.

	#arrange(): readonly string[] {
		const { filter, sort } = this.#view;
		return isFiltered(filter) || sort
			? shownRows(rowReader(this.#host.text, this.columns), filter, sort)
			: this.#host.hooks.sheet.order;
	}

	/** Why the rows shown are not all rows as they are stored: `sorted by Opening width`; null when they are. */
	get arranged(): string | null {
		const { filter, sort } = this.#view;
		const words = [
			sort ? `sorted by ${this.#host.text.titleOf(sort.column)}` : '',
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
		const { selection, finder, focus, entry } = this.#host;
		const hadFocus = focus.isInCells;
		// Else what is typed on goes into the row that takes the place of the one that is typed in.
		if (entry.row !== null && !rows.includes(entry.row)) this.api.clearFocusedCell();
		this.api.setGridOption('rowData', this.#dataOf(rows));
		selection.setArea({ rows: new Line(rows), columns: selection.area.columns });
		finder.forget();
		if (hadFocus && !entry.isOpen) focus.restore();
		this.#tell();
	}

	/**
	 * Rows came, went or moved. While they are sorted or filtered those shown keep their places until that is asked for
	 * anew; a row that comes stands beside its stored neighbour, also where it would be filtered out.
	 */
	takeOrder(): void {
		const { order } = this.#host.hooks.sheet;
		const before = this.#stored;
		this.#stored = new Line(order);
		this.#filled.keep((id) => this.#stored.at(id) >= 0);
		if (this.arranged === null) {
			this.#showRows(order);
			return;
		}
		const shown = this.rows.filter((id) => this.#stored.at(id) >= 0);
		for (const [at, id] of order.entries()) {
			if (before.at(id) >= 0) continue;
			const above = shown.indexOf(order[at - 1] ?? '');
			const below = shown.indexOf(order[at + 1] ?? '');
			shown.splice(above >= 0 ? above + 1 : below >= 0 ? below : shown.length, 0, id);
		}
		this.#showRows(shown);
	}

	#tell(): void {
		this.#host.hooks.shown({ rows: this.rows, columns: this.columns });
	}
}
