/**
 * The sheet of openings: inputs to type, results beside them, totals below. This file is loaded after the first
 * paint and is the only one that knows the grid component.
 */
import {
	CellStyleModule,
	ClientSideRowModelModule,
	ColumnApiModule,
	createGrid,
	CustomEditorModule,
	EventApiModule,
	PinnedRowModule,
	RenderApiModule,
	RowApiModule,
	RowStyleModule,
	ScrollApiModule,
	themeQuartz,
	TooltipModule,
	type CellClassParams,
	type ColDef,
	type ColGroupDef,
	type Column,
	type GridApi,
	type ICellRendererParams,
	type ValueGetterParams
} from 'ag-grid-community';
import { formatQuantity } from '../../quantity/format.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';
import { readCell, showCell, typedText } from '../../takeoff/cell.ts';
import { inputs, isInputId, type InputDefinition, type InputId } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';
import { unitFor } from '../../takeoff/vocabulary.ts';
import { countOf, countWords, severities } from '../parts/check-words.ts';
import { markElement } from '../parts/marks.ts';
import type { CellChange, SheetChange } from '../job-sheet.svelte.ts';
import { ListCellEditor, TextCellEditor, type EditorHost, type Move } from './cell-editors.ts';
import type { GridHandle, GridHooks, RefusedCell } from './grid-hooks.ts';
import { keyOptions } from './key-words.ts';
import { plainCell, readPlainTable } from './plain-table.ts';
import { isAddable, isUsual, resultGroups, type ColumnChoice } from './result-columns.ts';

interface GridRow {
	readonly id: string;
}

const totalsId = 'totals';
const checksId = 'checks';

const theme = themeQuartz.withParams({
	accentColor: 'var(--chalk)',
	backgroundColor: 'var(--sheet)',
	foregroundColor: 'var(--ink)',
	textColor: 'var(--ink)',
	borderColor: 'var(--rule)',
	chromeBackgroundColor: 'var(--paper)',
	headerBackgroundColor: 'var(--paper)',
	headerTextColor: 'var(--ink-quiet)',
	headerFontWeight: 500,
	headerFontSize: 'var(--small)',
	fontFamily: 'var(--face)',
	fontSize: 'var(--text)',
	cellHorizontalPadding: '8px',
	columnBorder: { color: 'var(--rule)', width: '1px', style: 'solid' },
	headerColumnBorder: { color: 'var(--rule)', width: '1px', style: 'solid' },
	rowBorder: { color: 'var(--rule)', width: '1px', style: 'solid' },
	wrapperBorder: false,
	wrapperBorderRadius: '0px',
	borderRadius: '0px',
	rowHoverColor: 'transparent',
	selectedRowBackgroundColor: 'transparent',
	pinnedRowBackgroundColor: 'var(--worked)',
	pinnedRowFontWeight: 600,
	pinnedRowBorder: { color: 'var(--rule-firm)', width: '1px', style: 'solid' },
	pinnedColumnBorder: { color: 'var(--rule-firm)', width: '1px', style: 'solid' },
	cellEditingBorder: { color: 'var(--chalk)', width: '2px', style: 'solid' },
	cellEditingShadow: 'none',
	focusShadow: 'none',
	tooltipBackgroundColor: 'var(--sheet)',
	tooltipTextColor: 'var(--ink)'
});

const modules = [
	CellStyleModule,
	ClientSideRowModelModule,
	ColumnApiModule,
	CustomEditorModule,
	EventApiModule,
	PinnedRowModule,
	RenderApiModule,
	RowApiModule,
	RowStyleModule,
	ScrollApiModule,
	TooltipModule
];

const widths: Partial<Record<InputId, number>> = {
	openingNumber: 84,
	quantity: 80,
	location: 150,
	note: 180,
	curtain: 120,
	guide: 132,
	rightGuide: 132,
	hood: 126,
	controls: 120,
	leftSubstrate: 124,
	rightSubstrate: 124,
	headSubstrate: 124
};

export function openOpeningsGrid(
	container: HTMLElement,
	hooks: GridHooks,
	options: { readonly choice: ColumnChoice; readonly narrow: boolean; readonly coarse: boolean }
): GridHandle {
	return new OpeningsGrid(container, hooks, options);
}

class OpeningsGrid implements GridHandle {
	readonly #hooks: GridHooks;
	readonly #container: HTMLElement;
	readonly #api: GridApi<GridRow>;
	readonly #endListening: () => void;
	readonly #results: ReadonlyMap<string, QuantityDefinition>;
	#choice: ColumnChoice;
	#narrow: boolean;
	/** Cell of the last click: on touch screens a second tap edits. */
	#lastClick = '';

	constructor(
		container: HTMLElement,
		hooks: GridHooks,
		{ choice, narrow, coarse }: { choice: ColumnChoice; narrow: boolean; coarse: boolean }
	) {
		this.#container = container;
		this.#hooks = hooks;
		this.#choice = choice;
		this.#narrow = narrow;
		const { sheet } = hooks;
		this.#results = new Map(sheet.engine.quantities.map((quantity) => [quantity.id, quantity]));
		this.#api = createGrid<GridRow>(
			container,
			{
				theme,
				columnDefs: this.#columns(),
				defaultColDef: {
					resizable: true,
					sortable: false,
					suppressMovable: true,
					wrapHeaderText: true,
					suppressHeaderMenuButton: true,
					tooltipValueGetter: (params) =>
						params.data && params.column && 'getColId' in params.column
							? this.#tooltip(params.data.id, params.column.getColId())
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
				onCellFocused: (event) => {
					const column = typeof event.column === 'object' ? event.column : null;
					if (event.rowPinned || event.rowIndex === null || !column) return;
					const id = this.#api.getDisplayedRowAtIndex(event.rowIndex)?.data?.id;
					if (id === undefined) return;
					this.#select(id);
					if (this.#results.has(column.getColId())) hooks.passWorking(id, column.getColId());
				},
				onCellClicked: ({ data, column, rowPinned, event }) => {
					if (!data || rowPinned) return;
					const id = column.getColId();
					if (id === checksId) hooks.openChecks(data.id);
					else if (this.#results.has(id)) hooks.openWorking(data.id, id);
					else if (coarse && event instanceof MouseEvent && this.#wasFocused(data.id, id)) this.#edit();
					this.#lastClick = `${data.id} ${id}`;
				}
			},
			{ modules }
		);
		container.addEventListener('keydown', this.#onKeyDown, true);
		container.addEventListener('paste', this.#onPaste);
		container.addEventListener('copy', this.#onCopy);
		this.#endListening = sheet.listen((change) => this.#refresh(change));
		this.#nameForReaders();
	}

	showColumns(choice: ColumnChoice): void {
		this.#choice = choice;
		const columns = this.#api.getColumns() ?? [];
		const visible = columns.filter((column) => this.#isShown(column.getColId()));
		this.#api.setColumnsVisible(visible, true);
		this.#api.setColumnsVisible(
			columns.filter((column) => !visible.includes(column)),
			false
		);
	}

	focusCell(row: string, column: string): void {
		const node = this.#api.getRowNode(row);
		if (node?.rowIndex == null) return;
		this.#api.ensureIndexVisible(node.rowIndex);
		this.#api.ensureColumnVisible(column);
		this.#api.setFocusedCell(node.rowIndex, column);
	}

	setNarrow(narrow: boolean): void {
		if (narrow === this.#narrow) return;
		this.#narrow = narrow;
		this.#api.setColumnsPinned([checksId], narrow ? null : 'left');
	}

	destroy(): void {
		this.#endListening();
		this.#container.removeEventListener('keydown', this.#onKeyDown, true);
		this.#container.removeEventListener('paste', this.#onPaste);
		this.#container.removeEventListener('copy', this.#onCopy);
		this.#api.destroy();
	}

	// Columns.

	#columns(): (ColDef<GridRow> | ColGroupDef<GridRow>)[] {
		const mark = inputs.find((input) => input.id === 'mark');
		const groups = [...new Set(inputs.map((input) => input.group))];
		const { sheet } = this.#hooks;
		return [
			{
				headerName: '',
				marryChildren: true,
				children: [
					...(mark ? [{ ...this.#inputColumn(mark), pinned: 'left' as const, lockPinned: true, width: 104 }] : []),
					this.#checksColumn()
				]
			},
			...groups.map(
				(group): ColGroupDef<GridRow> => ({
					headerName: group,
					marryChildren: true,
					children: inputs
						.filter((input) => input.group === group && input.id !== 'mark')
						.map((input) => this.#inputColumn(input))
				})
			),
			...resultGroups(sheet.engine.quantities).map(
				(group): ColGroupDef<GridRow> => ({
					headerName: group.title,
					headerClass: 'worked',
					marryChildren: true,
					children: group.quantities.map((quantity) => this.#resultColumn(quantity))
				})
			)
		];
	}

	#isShown(id: string): boolean {
		const chosen = this.#choice[id];
		if (chosen !== undefined) return chosen;
		return id === checksId || isInputId(id) || isUsual(id);
	}

	#checksColumn(): ColDef<GridRow> {
		const { sheet } = this.#hooks;
		return {
			colId: checksId,
			headerName: 'Checks',
			pinned: this.#narrow ? null : 'left',
			width: 168,
			cellClass: 'checks-cell',
			valueGetter: ({ data, node }) => {
				if (!data) return '';
				const checks = node?.rowPinned ? sheet.order.flatMap((id) => sheet.checks(id)) : sheet.checks(data.id);
				const words = severities
					.map((severity) => ({ severity, count: countOf(checks, severity) }))
					.filter(({ count }) => count > 0)
					.map(({ severity, count }) => countWords(count, severity));
				return words.length === 0 ? 'none' : words.join(', ');
			},
			cellRenderer: ({ data, node }: ICellRendererParams<GridRow>): HTMLElement => {
				const checks =
					data === undefined
						? []
						: node.rowPinned
							? sheet.order.flatMap((id) => sheet.checks(id))
							: sheet.checks(data.id);
				return checkTally(checks);
			}
		};
	}

	#inputColumn(input: InputDefinition): ColDef<GridRow> {
		const { sheet } = this.#hooks;
		const figure = input.kind !== 'text' && input.kind !== 'key';
		return {
			colId: input.id,
			headerName: input.title,
			headerTooltip: input.sentence,
			width: widths[input.id] ?? (input.kind === 'length' ? 104 : 112),
			hide: !this.#isShown(input.id),
			editable: ({ node }) => !node.rowPinned,
			cellEditor: input.kind === 'key' ? ListCellEditor : TextCellEditor,
			cellEditorParams: { host: this.#host(input) },
			cellClass: figure ? ['input', 'figure'] : ['input'],
			cellClassRules: {
				refused: (params) => this.#refused(params, input.id),
				needed: ({ data, node }) => data !== undefined && !node.rowPinned && this.#isNeeded(data.id, input),
				inherited: ({ data, node }) =>
					data !== undefined && !node.rowPinned && sheet.inherited(data.id, input.id) !== null,
				'own-mark': ({ data }) => input.id === 'mark' && data !== undefined && sheet.isOwnRow(data.id)
			},
			valueGetter: (params) => this.#inputText(params, input)
		};
	}

	#inputText({ data, node }: ValueGetterParams<GridRow>, input: InputDefinition): string {
		if (!data) return '';
		const { sheet } = this.#hooks;
		if (node?.rowPinned) {
			if (input.id === 'mark') return 'Totals';
			const openings = sheet.order.reduce((sum, id) => sum + sheet.openings(id), 0);
			return input.id === 'quantity' ? String(openings) : '';
		}
		const refused = sheet.refusedEntry(data.id, input.id);
		if (refused) return refused.text;
		if (input.id === 'mark' && sheet.isOwnRow(data.id)) return sheet.nameOf(data.id);
		const own = sheet.cell(data.id, input.id);
		const cell = own ?? sheet.inherited(data.id, input.id);
		if (cell === null) return this.#isNeeded(data.id, input) ? 'needed' : '';
		return showCell(input, cell, sheet.measures);
	}

	#isNeeded(row: string, input: InputDefinition): boolean {
		const { sheet } = this.#hooks;
		return (
			input.required &&
			sheet.cell(row, input.id) === null &&
			sheet.refusedEntry(row, input.id) === null &&
			!(sheet.isOwnRow(row) && (input.id === 'quantity' || sheet.inherited(row, input.id) !== null))
		);
	}

	#refused({ data }: CellClassParams<GridRow>, field: InputId): boolean {
		return data !== undefined && this.#hooks.sheet.refusedEntry(data.id, field) !== null;
	}

	#resultColumn(quantity: QuantityDefinition): ColDef<GridRow> {
		return {
			colId: quantity.id,
			headerName: quantity.title,
			headerTooltip: quantity.sentence,
			headerClass: 'worked',
			width: quantity.kind === 'key' ? 110 : 104,
			hide: !this.#isShown(quantity.id),
			cellClass: quantity.kind === 'key' ? ['worked'] : ['worked', 'figure'],
			valueGetter: ({ data, node }) => {
				if (!data) return '';
				const { sheet } = this.#hooks;
				if (node?.rowPinned) {
					const total = isAddable(quantity.id) ? sheet.total(quantity.id) : null;
					return total === null ? '' : this.#showFigure(quantity, total);
				}
				const value = sheet.figure(data.id, quantity.id);
				return value === null ? '' : this.#showFigure(quantity, value);
			}
		};
	}

	#showFigure(quantity: QuantityDefinition, value: number | string): string {
		if (typeof value === 'string') return value;
		if (quantity.kind === 'flag') return value === 1 ? 'yes' : 'no';
		const { measures } = this.#hooks.sheet;
		return formatQuantity(value, unitFor(quantity, measures));
	}

	/** What was understood, or why it was refused. */
	#tooltip(row: string, column: string): string | undefined {
		if (row === totalsId) return undefined;
		const { sheet } = this.#hooks;
		const input = inputs.find(({ id }) => id === column);
		if (!input) return this.#results.get(column)?.sentence;
		const refused = sheet.refusedEntry(row, input.id);
		if (refused) return `Not read: ${refused.reason} It is not stored.`;
		const cell = sheet.cell(row, input.id);
		const inherited = sheet.inherited(row, input.id);
		if (inherited !== null) return `From the mark: ${showCell(input, inherited, sheet.measures)}`;
		if (cell === null) return input.required ? `${input.title} is needed. ${input.sentence}` : undefined;
		if (typeof cell !== 'object') return undefined;
		return `Typed ${cell.typed}, read as ${showCell(input, cell, sheet.measures)}`;
	}

	#host(input: InputDefinition): EditorHost {
		const { sheet } = this.#hooks;
		const keys = keysFor(sheet.engine.book, input);
		const context = { measures: sheet.measures, keys };
		return {
			label: input.title,
			options: input.kind === 'key' ? keyOptions(sheet.engine.book, input, keys) : [],
			read: (text) => readCell(input, text, context),
			show: (cell) => (input.kind === 'text' ? '' : showCell(input, cell, sheet.measures)),
			start: (row) => typedText(sheet.cell(row, input.id)),
			refused: (row) => sheet.refusedEntry(row, input.id),
			commit: (row, cell, move) => {
				this.#api.stopEditing(true);
				sheet.setCells(`${input.title} of ${sheet.nameOf(row)}`, [{ row, field: input.id, after: cell }]);
				sheet.forgetRefused(row, input.id);
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

	// Focus.

	#wasFocused(row: string, column: string): boolean {
		return this.#lastClick === `${row} ${column}` && this.#focused()?.row === row;
	}

	#focused(): { readonly row: string; readonly column: Column; readonly index: number } | null {
		const cell = this.#api.getFocusedCell();
		if (!cell || cell.rowPinned) return null;
		const id = this.#api.getDisplayedRowAtIndex(cell.rowIndex)?.data?.id;
		return id === undefined ? null : { row: id, column: cell.column, index: cell.rowIndex };
	}

	#inputColumns(): InputId[] {
		return this.#api
			.getAllDisplayedColumns()
			.map((column) => column.getColId())
			.filter((id) => isInputId(id));
	}

	#move(row: string, column: InputId, move: Move): void {
		if (move === 'none') return;
		const { sheet } = this.#hooks;
		const at = sheet.order.indexOf(row);
		if (move === 'stay') this.focusCell(row, column);
		else if (move === 'down' || move === 'up')
			this.focusCell(sheet.order[at + (move === 'down' ? 1 : -1)] ?? row, column);
		else {
			const columns = this.#inputColumns();
			const next = columns.indexOf(column) + (move === 'right' ? 1 : -1);
			const beside = columns[next];
			if (beside) this.focusCell(row, beside);
			else {
				const other = sheet.order[at + (move === 'right' ? 1 : -1)];
				const end = move === 'right' ? columns[0] : columns.at(-1);
				this.focusCell(other ?? row, other && end ? end : column);
			}
		}
	}

	#select(id: string): void {
		const { sheet } = this.#hooks;
		if (sheet.selected === id) return;
		sheet.selected = id;
		for (const line of this.#container.querySelectorAll('.ag-row.selected')) line.classList.remove('selected');
		for (const line of this.#container.querySelectorAll(`[row-id="${CSS.escape(id)}"]`))
			line.classList.add('selected');
	}

	#edit(): void {
		const focused = this.#focused();
		if (focused) this.#api.startEditingCell({ rowIndex: focused.index, colKey: focused.column });
	}

	// Keys and the clipboard.

	readonly #onKeyDown = (event: KeyboardEvent): void => {
		if (event.target instanceof HTMLInputElement) return;
		const focused = this.#focused();
		const command = event.ctrlKey || event.metaKey;
		const key = event.key.toLowerCase();
		const used = (): void => {
			event.preventDefault();
			event.stopPropagation();
		};
		const { sheet } = this.#hooks;
		if (command && (key === 'y' || (key === 'z' && event.shiftKey))) {
			used();
			void sheet.redo();
		} else if (command && key === 'z') {
			used();
			void sheet.undo();
		} else if (command && key === 'enter') {
			used();
			this.#hooks.addOpening();
		} else if (focused) {
			const id = focused.column.getColId();
			if ((key === 'delete' || key === 'backspace') && isInputId(id)) {
				used();
				this.#clear(focused.row, id);
			} else if (key === 'enter' && id === checksId) {
				used();
				this.#hooks.openChecks(focused.row);
			} else if (key === 'enter' && this.#results.has(id)) {
				used();
				this.#hooks.openWorking(focused.row, id);
			}
		}
	};

	#clear(row: string, field: InputId): void {
		const { sheet } = this.#hooks;
		const title = inputs.find(({ id }) => id === field)?.title ?? field;
		sheet.forgetRefused(row, field);
		sheet.setCells(`Clear ${title} of ${sheet.nameOf(row)}`, [{ row, field, after: null }]);
	}

	readonly #onCopy = (event: ClipboardEvent): void => {
		const focused = this.#focused();
		if (event.target instanceof HTMLInputElement || !focused || !event.clipboardData) return;
		const id = focused.column.getColId();
		const { sheet } = this.#hooks;
		const text = isInputId(id)
			? (sheet.refusedEntry(focused.row, id)?.text ??
				typedText(sheet.cell(focused.row, id) ?? sheet.inherited(focused.row, id)))
			: this.#shownText(focused.row, id);
		event.clipboardData.setData('text/plain', plainCell(text));
		event.preventDefault();
		this.#hooks.say(`Copied ${text === '' ? 'an empty cell' : text}.`);
	};

	#shownText(row: string, id: string): string {
		const quantity = this.#results.get(id);
		const value = quantity ? this.#hooks.sheet.figure(row, id) : null;
		return quantity && value !== null ? this.#showFigure(quantity, value) : '';
	}

	/** Puts a table from the focused cell onwards, as one edit; rows that are not there are added. */
	readonly #onPaste = (event: ClipboardEvent): void => {
		const focused = this.#focused();
		if (event.target instanceof HTMLInputElement || !focused) return;
		const text = event.clipboardData?.getData('text/plain') ?? '';
		const columns = this.#inputColumns();
		const startId = focused.column.getColId();
		if (text === '' || !isInputId(startId)) return;
		event.preventDefault();
		const from = columns.indexOf(startId);
		const { sheet } = this.#hooks;
		const changes: CellChange[] = [];
		const refused: RefusedCell[] = [];
		const added: Partial<Record<InputId, CellChange['after']>>[] = [];
		const start = sheet.order.indexOf(focused.row);
		readPlainTable(text).forEach((cells, down) => {
			const row = sheet.order[start + down];
			const fresh: Partial<Record<InputId, CellChange['after']>> = {};
			cells.forEach((typed, right) => {
				const field = columns[from + right];
				const input = inputs.find(({ id }) => id === field);
				if (!field || !input) return;
				const reading = readCell(input, typed, {
					measures: sheet.measures,
					keys: keysFor(sheet.engine.book, input)
				});
				if (!reading.ok) refused.push({ row: row ?? '', field, text: typed, reason: reading.reason });
				else if (row === undefined) fresh[field] = reading.cell;
				else changes.push({ row, field, after: reading.cell });
			});
			if (row === undefined) added.push(fresh);
		});
		const count = changes.length + added.reduce((sum, cells) => sum + Object.keys(cells).length, 0);
		const title = `Paste ${String(count)} ${count === 1 ? 'cell' : 'cells'}`;
		if (added.length > 0) sheet.addRows(title, sheet.order.at(-1) ?? null, added, changes);
		else sheet.setCells(title, changes);
		for (const { row, field, text: typed, reason } of refused)
			if (row !== '') sheet.refuse(row, field, { text: typed, reason });
		this.#hooks.pasted(count, refused);
	};

	// Keeping up with the sheet.

	#refresh({ rows, order }: SheetChange): void {
		const { sheet } = this.#hooks;
		if (order) this.#api.setGridOption('rowData', sheet.order.map((id) => ({ id })));
		const nodes = [...rows].flatMap((id) => this.#api.getRowNode(id) ?? []);
		const totals = this.#api.getPinnedBottomRow(0);
		this.#api.refreshCells({ rowNodes: totals ? [...nodes, totals] : nodes, force: true });
	}

	#nameForReaders(): void {
		const grid = this.#container.querySelector('[role="grid"], [role="treegrid"]');
		grid?.setAttribute('aria-label', 'Openings of the job');
	}
}

function checkTally(checks: Parameters<typeof countOf>[0]): HTMLElement {
	const tally = document.createElement('span');
	tally.className = 'tally';
	for (const severity of severities) {
		const count = countOf(checks, severity);
		if (count === 0 || (severity === 'note' && tally.childElementCount > 1)) continue;
		const part = document.createElement('span');
		part.className = `tally-part ${severity}`;
		part.append(markElement(severity), countWords(count, severity));
		tally.append(part);
	}
	if (tally.childElementCount === 0) tally.textContent = 'none';
	return tally;
}
