/** Where the focus stands in the grid, how it gets there, and where it goes after an entry. */
import type { GridApi } from 'ag-grid-community';
import { isInputId } from '../../takeoff/inputs.ts';
import type { Move } from './cell-editors.ts';
import type { CellText } from './cell-text.ts';
import { gutterId, type GridRow } from './cell-view.ts';
import type { GridHooks } from './grid-hooks.ts';
import { oneCell, walk, within, type Place, type Range, type Spot } from './range.ts';
import type { Selection } from './selection.ts';

export interface FocusHost {
	readonly container: HTMLElement;
	readonly hooks: GridHooks;
	readonly text: CellText;
	readonly selection: Selection;
	api(): GridApi<GridRow>;
	/** Shows what changed on the sheet and is not shown yet. */
	keepUp(): void;
}

export class GridFocus {
	readonly #host: FocusHost;
	/** Where a run of Tabs began: Enter goes on under it. */
	#tabsFrom: string | null = null;
	/** The grid's own focus as it was last taken over: it tells of it only a little later. */
	#seen = '';

	constructor(host: FocusHost) {
		this.#host = host;
	}

	// Where it stands.

	/** A cell has the focus, and is not typed in. */
	get isInCells(): boolean {
		const { activeElement } = document;
		return (
			this.#host.container.contains(activeElement) &&
			!(activeElement instanceof HTMLInputElement) &&
			activeElement?.closest('[role="gridcell"]') !== null
		);
	}

	/** The column of the header or the cell that the focus stands in. */
	get column(): string | null {
		return this.#header ?? this.#host.selection.active?.column ?? null;
	}

	/** The column whose header has the focus. */
	get #header(): string | null {
		const { activeElement } = document;
		if (!this.#host.container.contains(activeElement)) return null;
		const header = activeElement?.closest('[role="columnheader"]');
		const id = header?.getAttribute('col-id') ?? null;
		return id !== null && this.#host.selection.area.columns.at(id) >= 0 ? id : null;
	}

	/** The group whose heading has the focus. */
	get #group(): string | null {
		const { activeElement } = document;
		if (!activeElement?.matches('[role="columnheader"]') || !this.#host.container.contains(activeElement))
			return null;
		return activeElement.querySelector<HTMLElement>('[data-fold]')?.dataset.fold ?? null;
	}

	/** Remembers in which header, heading or cell it stands. @returns what puts it back there. */
	hold(): () => void {
		const { container } = this.#host;
		const header = this.#header;
		const group = this.#group;
		const inCells = this.isInCells;
		return () => {
			if (header !== null) {
				this.#host.api().setFocusedHeader(header);
			} else if (group !== null) {
				const heading = container.querySelector(`[data-fold="${CSS.escape(group)}"]`);
				heading?.closest<HTMLElement>('[role="columnheader"]')?.focus();
			} else if (inCells) {
				this.restore();
			}
		};
	}

	// Putting it somewhere.

	/** Puts the focus back on the active cell; what is selected stays so. */
	restore(): void {
		const { selection } = this.#host;
		const { active } = selection;
		if (!active) return;
		const { row, column } = selection.placeOf(active);
		if (row < 0 || column < 0) return;
		// Focusing scrolls: where the focus is right already, the sheet stays as it is.
		if (this.isInCells && this.#ofGrid() === [row, null, active.column].join(' ')) return;
		this.#host.api().setFocusedCell(row, active.column);
		this.#seen = this.#ofGrid();
	}

	/** To a cell by another way than Tab. */
	moveTo(spot: Spot): void {
		this.#tabsFrom = null;
		this.#put(spot);
	}

	#put(spot: Spot, range: Range = oneCell(spot)): void {
		this.reveal(spot);
		this.#host.selection.set(range, spot);
		this.restore();
		this.follow(spot);
	}

	reveal({ row, column }: Spot): void {
		const { rows, columns } = this.#host.selection.area;
		const index = rows.at(row);
		if (index >= 0) this.#host.api().ensureIndexVisible(index);
		if (columns.at(column) >= 0) this.#host.api().ensureColumnVisible(column);
	}

	/** To what can be reached by Tab after the grid. */
	leave(): void {
		const { container } = this.#host;
		const stops = [
			...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, [tabindex="0"]')
		];
		const after = stops.find(
			(stop) =>
				!container.contains(stop) &&
				(container.compareDocumentPosition(stop) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0 &&
				stop.checkVisibility() &&
				!stop.matches(':disabled')
		);
		after?.focus();
	}

	// What the grid component does by itself.

	/** Where the grid component has its focus. */
	#ofGrid(): string {
		const { rowIndex, rowPinned, column } = this.#host.api().getFocusedCell() ?? {};
		return [rowIndex, rowPinned, column?.getColId()].join(' ');
	}

	/** Takes over the focus where the grid has put it somewhere by itself: by a click or an arrow key. */
	adopt(): void {
		const now = this.#ofGrid();
		if (now === this.#seen) return;
		this.#seen = now;
		const cell = this.#host.api().getFocusedCell();
		if (!cell || cell.rowPinned) return;
		this.#host.keepUp();
		const { selection } = this.#host;
		const row = selection.area.rows.ids[cell.rowIndex];
		const column = cell.column.getColId();
		if (row === undefined || column === gutterId) return;
		const { active } = selection;
		if (active?.row !== row || active.column !== column) {
			this.#tabsFrom = null;
			selection.set(oneCell({ row, column }));
		}
		this.follow({ row, column });
	}

	/** The panel beside the sheet follows the active cell. */
	follow({ row, column }: Spot): void {
		this.#select(row);
		if (this.#host.text.results.has(column)) this.#host.hooks.passWorking(row, column);
	}

	#select(id: string): void {
		const { container, hooks } = this.#host;
		if (hooks.sheet.selected === id) return;
		hooks.sheet.selected = id;
		for (const line of container.querySelectorAll('.ag-row.selected')) line.classList.remove('selected');
		for (const line of container.querySelectorAll(`[row-id="${CSS.escape(id)}"]`))
			line.classList.add('selected');
	}

	// After an entry, or by Enter and Tab.

	/** @returns whether there was somewhere to go. */
	go(from: Spot, move: Move): boolean {
		this.#host.keepUp();
		if (move === 'none') return true;
		const { selection } = this.#host;
		const { extent, isMany, range } = selection;
		const place = selection.placeOf(from);
		if (move !== 'stay' && isMany && extent && range && within(extent, place.row, place.column)) {
			const direction = move === 'besideLeft' ? 'left' : move === 'besideRight' ? 'right' : move;
			const next = selection.spotAt(walk(extent, place, direction));
			if (next) this.#put(next, range);
			return true;
		}
		const next = this.#nextOf(from, place, move);
		if (!next) return false;
		this.#put(next);
		return true;
	}

	#nextOf(from: Spot, place: Place, move: Exclude<Move, 'none'>): Spot | null {
		const { selection } = this.#host;
		const under = this.#tabsFrom ?? from.column;
		if (move !== 'left' && move !== 'right') this.#tabsFrom = null;
		switch (move) {
			case 'stay':
				return from;
			case 'down':
				return selection.spotAt({ row: place.row + 1, column: selection.area.columns.at(under) });
			case 'up':
				return selection.spotAt({ ...place, row: place.row - 1 });
			case 'besideLeft':
				return selection.spotAt({ ...place, column: place.column - 1 });
			case 'besideRight':
				return selection.spotAt({ ...place, column: place.column + 1 });
			case 'right':
			case 'left':
				return this.#sideways(from, place, move === 'right' ? 1 : -1);
		}
	}

	/** From input to input, over the end to the next row; null where there is none. */
	#sideways(from: Spot, place: Place, step: 1 | -1): Spot | null {
		const { rows, columns } = this.#host.selection.area;
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
}
