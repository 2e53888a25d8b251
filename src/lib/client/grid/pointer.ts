/** The mouse in the grid: drawing a selection over cells, row numbers and the fill grip. Fingers scroll as ever. */
import { gutterId } from './cell-view.ts';
import type { Direction } from './keys.ts';
import { drawnOut, oneCell, type Extent, type Spot } from './range.ts';
import type { Selection } from './selection.ts';

export interface PointerHost {
	readonly container: HTMLElement;
	readonly selection: Selection;
	/** Rows are drawn over: the first column shown stands for them. */
	firstColumn(): string | null;
	/** Brings a cell into sight. */
	reveal(spot: Spot): void;
	/** Puts the focus on the active cell without changing what is selected. */
	keepFocus(): void;
	drawOut(to: Extent, direction: Direction, filling: 'again' | 'series'): void;
}

type Drag = 'cells' | 'rows' | 'fill';

/** Closer to an edge than this, the grid scrolls. */
const edge = 28;
const scrollPause = 60;

export class Pointer {
	readonly #host: PointerHost;
	#drag: Drag | null = null;
	#at = { x: 0, y: 0 };
	#timer: ReturnType<typeof setInterval> | null = null;

	constructor(host: PointerHost) {
		this.#host = host;
		host.container.addEventListener('pointerdown', this.#down, true);
	}

	destroy(): void {
		this.#host.container.removeEventListener('pointerdown', this.#down, true);
		this.#end();
	}

	readonly #down = (event: PointerEvent): void => {
		if (event.pointerType !== 'mouse' || !(event.target instanceof Element)) return;
		if (event.target instanceof HTMLInputElement) return;
		const spot = spotOf(event.target);
		const { selection } = this.#host;
		if (!spot) return;
		if (event.button !== 0) {
			// What is selected stays selected for what is done to it next.
			if (selection.paintOf(spot.row, spot.column).chosen) stop(event);
			return;
		}
		if (event.target.closest('.fill-grip')) {
			this.#begin(event, 'fill');
			stop(event);
		} else if (spot.column === gutterId) {
			this.#pressNumber(spot.row, event.shiftKey);
			this.#begin(event, 'rows');
			stop(event);
		} else if (event.shiftKey && selection.active) {
			selection.extendTo(spot);
			this.#host.keepFocus();
			this.#begin(event, 'cells');
			stop(event);
		} else {
			// The grid puts the focus there itself.
			selection.set(oneCell(spot));
			this.#begin(event, 'cells');
		}
	};

	#pressNumber(row: string, extend: boolean): void {
		const { selection } = this.#host;
		const column = this.#host.firstColumn();
		if (column === null) return;
		const anchor = extend
			? (selection.range?.anchor ?? selection.active ?? { row, column })
			: { row, column };
		selection.set(
			{ anchor, head: { row, column }, whole: 'rows' },
			extend ? (selection.active ?? anchor) : anchor
		);
		this.#host.keepFocus();
	}

	#begin(event: PointerEvent, drag: Drag): void {
		this.#end();
		this.#drag = drag;
		this.#at = { x: event.clientX, y: event.clientY };
		window.addEventListener('pointermove', this.#move);
		window.addEventListener('pointerup', this.#up);
		window.addEventListener('pointercancel', this.#cancel);
		window.addEventListener('keydown', this.#key, true);
	}

	readonly #move = (event: PointerEvent): void => {
		if ((event.buttons & 1) === 0) {
			this.#end();
			return;
		}
		this.#at = { x: event.clientX, y: event.clientY };
		this.#follow();
		const { x, y } = this.#pull();
		if (x === 0 && y === 0) this.#rest();
		else this.#timer ??= setInterval(() => this.#scroll(), scrollPause);
	};

	/** The far corner goes to the cell under the pointer, or to the nearest one in sight. */
	#follow(): void {
		const { container, selection } = this.#host;
		const box = container.getBoundingClientRect();
		const inside = {
			x: Math.max(box.left + 2, Math.min(box.right - 16, this.#at.x)),
			y: Math.max(box.top + 2, Math.min(box.bottom - 16, this.#at.y))
		};
		const spot = spotOf(document.elementFromPoint(inside.x, inside.y));
		if (!spot || selection.area.rows.at(spot.row) < 0) return;
		this.#drawTo(spot);
	}

	#drawTo(spot: Spot): void {
		const { selection } = this.#host;
		if (this.#drag === 'fill') {
			const { extent } = selection;
			if (extent && spot.column !== gutterId)
				selection.setFilling(drawnOut(extent, selection.placeOf(spot))?.extent ?? null);
			return;
		}
		const { range } = selection;
		const column = spot.column === gutterId ? (range?.head.column ?? this.#host.firstColumn()) : spot.column;
		if (!range || column === null) return;
		const head = { row: spot.row, column: this.#drag === 'rows' ? range.head.column : column };
		if (head.row !== range.head.row || head.column !== range.head.column) selection.extendTo(head);
	}

	/** Which way the pointer pulls past the edge: -1, 0 or 1. */
	#pull(): { x: number; y: number } {
		const box = this.#host.container.getBoundingClientRect();
		const pull = (at: number, from: number, to: number): number =>
			at < from + edge ? -1 : at > to - edge ? 1 : 0;
		return {
			x: this.#drag === 'rows' ? 0 : pull(this.#at.x, box.left, box.right),
			y: pull(this.#at.y, box.top + edge, box.bottom)
		};
	}

	#scroll(): void {
		const { selection } = this.#host;
		const { x, y } = this.#pull();
		const corner = this.#corner();
		if (!corner || (x === 0 && y === 0)) {
			this.#rest();
			return;
		}
		const place = selection.placeOf(corner);
		const next = selection.spotAt({ row: place.row + y, column: place.column + x });
		if (!next) return;
		this.#host.reveal(next);
		this.#drawTo(next);
		this.#reached = next;
	}

	#reached: Spot | null = null;

	/** The cell that scrolling goes on from. */
	#corner(): Spot | null {
		const { selection } = this.#host;
		if (this.#drag !== 'fill') return selection.range?.head ?? null;
		if (this.#reached) return this.#reached;
		const { extent } = selection;
		return extent && selection.spotAt({ row: extent.bottom, column: extent.right });
	}

	readonly #up = (event: PointerEvent): void => {
		const { selection } = this.#host;
		const wasFill = this.#drag === 'fill';
		this.#at = { x: event.clientX, y: event.clientY };
		const { extent } = selection;
		const spot = this.#reached ?? spotOf(document.elementFromPoint(event.clientX, event.clientY));
		this.#end();
		if (!wasFill || !extent || !spot || spot.column === gutterId) return;
		const drawn = drawnOut(extent, selection.placeOf(spot));
		if (!drawn) return;
		this.#host.drawOut(drawn.extent, drawn.direction, event.ctrlKey || event.metaKey ? 'series' : 'again');
		selection.extendTo(spotFor(selection, drawn.extent, drawn.direction) ?? spot);
		this.#host.keepFocus();
	};

	readonly #cancel = (): void => this.#end();

	readonly #key = (event: KeyboardEvent): void => {
		if (event.key !== 'Escape') return;
		this.#end();
		stop(event);
	};

	#rest(): void {
		if (this.#timer) clearInterval(this.#timer);
		this.#timer = null;
	}

	#end(): void {
		this.#rest();
		this.#reached = null;
		if (this.#drag === 'fill') this.#host.selection.setFilling(null);
		this.#drag = null;
		window.removeEventListener('pointermove', this.#move);
		window.removeEventListener('pointerup', this.#up);
		window.removeEventListener('pointercancel', this.#cancel);
		window.removeEventListener('keydown', this.#key, true);
	}
}

function stop(event: Event): void {
	event.preventDefault();
	event.stopPropagation();
}

/** The cell an element stands in; null in headers and totals. */
function spotOf(element: Element | null): Spot | null {
	const cell = element?.closest('[role="gridcell"], [role="rowheader"]');
	const column = cell?.getAttribute('col-id');
	const row = cell?.closest('[row-id]')?.getAttribute('row-id');
	if (!column || !row || cell?.closest('.ag-row-pinned')) return null;
	return { row, column };
}

/** The far corner of a selection with what was filled. */
function spotFor(selection: Selection, filled: Extent, direction: Direction): Spot | null {
	const row = direction === 'up' ? filled.top : filled.bottom;
	const column = direction === 'left' ? filled.left : filled.right;
	return selection.spotAt({ row, column });
}
