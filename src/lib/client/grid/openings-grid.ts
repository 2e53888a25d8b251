/**
 * The sheet of openings: inputs to type, results beside them, totals below. This file is loaded after the first
 * paint; it and its neighbours in this folder are the only ones that know the grid component. It ties them together:
 * each of them does what its first line says.
 */
import type { CellClickedEvent, GridApi } from 'ag-grid-community';
import type { SheetView } from '../../changes/sheet-view.ts';
import { isInputId } from '../../takeoff/inputs.ts';
import { CellCommands } from './cell-commands.ts';
import { CellEdits } from './cell-edits.ts';
import { CellEntry } from './cell-entry.ts';
import { CellText } from './cell-text.ts';
import { gutterId, type CellView, type GridRow } from './cell-view.ts';
import { ClipboardEvents } from './clipboard-events.ts';
import { checksId } from './column-layout.ts';
import { FillCommands } from './fill-commands.ts';
import { Finder } from './finder.ts';
import { GridDisplay, type DisplayOptions } from './grid-display.ts';
import { GridFocus } from './grid-focus.ts';
import { GridHeaders } from './grid-headers.ts';
import type { Found, GridHandle, GridHooks, Search, SeriesOffer, SeriesReading } from './grid-hooks.ts';
import { KeyHandler } from './key-handler.ts';
import { changesJob, type CommandId } from './keys.ts';
import { LookCommands } from './look-commands.ts';
import { onlyLooking } from './only-looking.ts';
import { OthersInCells } from './others-in-cells.ts';
import { Pointer } from './pointer.ts';
import { oneCell, type Spot } from './range.ts';
import { RowCommands } from './row-commands.ts';
import { rowReader } from './row-reader.ts';
import { distinctTexts } from './row-view.ts';
import { Selection } from './selection.ts';
import { SheetFollower } from './sheet-follower.ts';

export function openOpeningsGrid(
	container: HTMLElement,
	hooks: GridHooks,
	options: DisplayOptions
): GridHandle {
	return new OpeningsGrid(container, hooks, options);
}

class OpeningsGrid implements GridHandle {
	readonly #hooks: GridHooks;
	readonly #text: CellText;
	readonly #selection: Selection;
	readonly #others: OthersInCells;
	readonly #finder: Finder;
	readonly #focus: GridFocus;
	readonly #entry: CellEntry;
	readonly #display: GridDisplay;
	readonly #follower: SheetFollower;
	readonly #cells: CellCommands;
	readonly #fill: FillCommands;
	readonly #rows: RowCommands;
	readonly #look: LookCommands;
	readonly #clipboard: ClipboardEvents;
	readonly #pointer: Pointer;
	readonly #headers: GridHeaders;
	readonly #keys: KeyHandler;
	/** What is said to a screen reader. */
	readonly #live = document.createElement('div');
	readonly #coarse: boolean;
	#lastClick = '';

	constructor(container: HTMLElement, hooks: GridHooks, options: DisplayOptions) {
		this.#hooks = hooks;
		this.#coarse = options.coarse;
		this.#live.className = 'unseen';
		this.#live.role = 'status';
		const announce = (words: string): void => void (this.#live.textContent = words);
		const views = new Set<CellView>();
		const tellWhere = (): void => {
			const { active } = this.#selection;
			hooks.isAt(active?.row ?? null, active?.column ?? null, this.#entry.isOpen);
		};
		const others = (this.#others = new OthersInCells({ hooks, views }));
		const text = (this.#text = new CellText(hooks.sheet));
		const selection = (this.#selection = new Selection({
			text,
			views,
			announce,
			changed: (sum) => {
				this.#display.openColumns();
				hooks.selectionChanged(sum);
				tellWhere();
			}
		}));
		const finder = (this.#finder = new Finder(text, selection));
		const shared = { container, hooks, text, views, selection, finder, announce };

		const arranged = (): string | null => this.#display.arranged;
		const edits = new CellEdits(shared);
		const cells = (this.#cells = new CellCommands({ ...shared, edits, arranged }));
		const fill = (this.#fill = new FillCommands({ ...shared, edits }));
		this.#rows = new RowCommands({
			...shared,
			arranged,
			focus: ({ row, column }) => this.focusCell(row, column)
		});

		const api = (): GridApi<GridRow> => this.#display.api;
		const focus = (this.#focus = new GridFocus({
			...shared,
			api,
			keepUp: () => this.#follower.keepUp()
		}));
		const entry = (this.#entry = new CellEntry({
			...shared,
			focus,
			api,
			fillAll: (typed) => fill.fillAll(typed),
			refuse: (text) => hooks.refuse(text),
			began: () => tellWhere(),
			ended: () => {
				this.#display.entryEnded();
				tellWhere();
			}
		}));
		const events = {
			onCellFocused: () => focus.adopt(),
			onCellClicked: (event: CellClickedEvent<GridRow>) => this.#clicked(event)
		};
		const display = (this.#display = new GridDisplay({ ...shared, focus, entry, others, events }, options));
		container.append(this.#live);
		this.#follower = new SheetFollower({ ...shared, entry, display });
		const look = (this.#look = new LookCommands({ ...shared, focus, display }));

		this.#clipboard = new ClipboardEvents({ ...shared, cells });
		this.#pointer = new Pointer({
			...shared,
			firstColumn: () => display.columns[0] ?? null,
			reveal: (spot) => focus.reveal(spot),
			keepFocus: () => focus.restore(),
			drawOut: (to, direction, filling) => fill.drawOut(to, direction, filling)
		});
		const headers = (this.#headers = new GridHeaders({
			...shared,
			fold: (group) => look.fold(group),
			selectAll: () => this.run('selectAll')
		}));
		this.#keys = new KeyHandler({
			...shared,
			focus,
			display,
			headers,
			run: (command) => this.run(command),
			open: (spot) => this.#open(spot)
		});
	}

	destroy(): void {
		this.#follower.destroy();
		this.#others.destroy();
		this.#clipboard.destroy();
		this.#pointer.destroy();
		this.#headers.destroy();
		this.#keys.destroy();
		this.#selection.destroy();
		this.#live.remove();
		this.#display.api.destroy();
	}

	// What is shown.

	setView(view: SheetView): void {
		this.#follower.keepUp();
		const before = this.#selection.active?.row;
		this.#display.setView(view);
		// Where the row was filtered away, another one is active now.
		const { active } = this.#selection;
		if (active && active.row !== before) this.#focus.follow(active);
	}

	setNarrow(narrow: boolean): void {
		this.#follower.keepUp();
		this.#display.setNarrow(narrow);
	}

	focusedColumn(): string | null {
		return this.#focus.column;
	}

	valuesOf(column: string): readonly { readonly text: string; readonly count: number }[] {
		this.#follower.keepUp();
		return distinctTexts(rowReader(this.#text, this.#display.columns), column);
	}

	focusCell(row: string, column: string): void {
		this.#follower.keepUp();
		const spot = this.#display.uncover(row, column);
		if (spot) this.#focus.moveTo(spot);
	}

	focus(): void {
		this.#focus.restore();
	}

	#clicked({ data, column, rowPinned, event }: CellClickedEvent<GridRow>): void {
		if (!data || rowPinned || (event instanceof MouseEvent && event.shiftKey)) return;
		const id = column.getColId();
		const cell = `${data.id} ${id}`;
		if (id !== gutterId) this.#open({ row: data.id, column: id });
		if (this.#coarse && this.#lastClick === cell) this.#entry.begin();
		this.#lastClick = cell;
	}

	/** @returns whether the cell has something to open: checks or a working. */
	#open({ row, column }: Spot): boolean {
		if (column === checksId) this.#hooks.openChecks(row);
		else if (this.#text.results.has(column)) this.#hooks.openWorking(row, column);
		else return false;
		return true;
	}

	// Commands.

	run(command: CommandId): void {
		if (changesJob(command) && !this.#hooks.mayEdit) {
			this.#hooks.say(onlyLooking);
			return;
		}
		this.#follower.keepUp();
		this.#focus.adopt();
		switch (command) {
			case 'undo':
				void this.#hooks.sheet.undo();
				return;
			case 'redo':
				void this.#hooks.sheet.redo();
				return;
			case 'copy':
			case 'cut':
				void this.#clipboard.write(command);
				return;
			case 'paste':
				void this.#clipboard.read();
				return;
			case 'clear':
				this.#cells.clear();
				return;
			case 'fillDown':
				this.#fill.fillDown();
				return;
			case 'fillRight':
				this.#fill.fillRight();
				return;
			case 'fillAll':
				this.#fill.fillAll();
				return;
			case 'fillSeries':
				this.#askSeries();
				return;
			case 'addOpening':
				this.#rows.addOpening();
				return;
			case 'duplicateAsNewMark':
				this.#rows.duplicate();
				return;
			case 'giveOwnRow':
				this.#rows.giveOwnRow();
				return;
			case 'insertAbove':
				this.#rows.insert('above');
				return;
			case 'insertBelow':
				this.#rows.insert('below');
				return;
			case 'moveUp':
			case 'moveDown':
				this.#rows.move(command === 'moveUp' ? 'up' : 'down');
				return;
			case 'deleteRows':
				this.#rows.deleteRows();
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
				this.#entry.begin();
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
				this.#focus.leave();
				return;
			default:
				this.#look.run(command);
		}
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
		if (range && ids.columns.length > 1 && ids.rows.length > 1) this.#fill.continueSeries();
		else if ('reason' in offer) this.#hooks.refuse(offer.reason);
		else this.#hooks.ask('fillSeries');
	}

	seriesOffer(): SeriesOffer | { readonly reason: string } {
		return this.#fill.seriesOffer();
	}

	readSeries(from: string, step: string, most: number): SeriesReading {
		return this.#fill.readSeries(from, step, most);
	}

	fillSeries(from: string, step: string): void {
		this.#fill.fillSeries(from, step);
	}

	find(search: Search, direction: 'next' | 'previous'): Found {
		this.#follower.keepUp();
		const { spot, found } = this.#finder.next(search, direction);
		if (!spot) return found;
		this.#selection.set(oneCell(spot));
		this.#focus.reveal(spot);
		this.#focus.follow(spot);
		// The focus stays where the search is typed.
		if (this.#focus.isInCells) this.#focus.restore();
		return found;
	}

	replace(search: Search, by: string, all: boolean): void {
		this.#follower.keepUp();
		const { active } = this.#selection;
		if (all) this.#cells.replaceIn(this.#finder.hits(search), search, by);
		else if (active && this.#finder.has(active, search)) this.#cells.replaceIn([active], search, by);
	}
}
