/** The cells that are selected: kept over scrolling and every change, painted on what is in sight, said and summed up. */
import type { CellText } from './cell-text.ts';
import type { CellView, Painted } from './cell-view.ts';
import { gutterId } from './cell-view.ts';
import type { SelectionSum } from './grid-hooks.ts';
import {
	cellsIn,
	extentOf,
	idsOf,
	Line,
	oneCell,
	within,
	type Area,
	type Extent,
	type Place,
	type Range,
	type Spot
} from './range.ts';
import { sumOf } from './selection-sum.ts';

export interface SelectionHost {
	readonly text: CellText;
	readonly views: ReadonlySet<CellView>;
	announce(text: string): void;
	changed(sum: SelectionSum | null): void;
}

const pause = 250;

export class Selection {
	readonly #host: SelectionHost;
	#area: Area = { rows: new Line([]), columns: new Line([]) };
	#range: Range | null = null;
	#active: Spot | null = null;
	#extent: Extent | null = null;
	#filling: Extent | null = null;
	#timer: ReturnType<typeof setTimeout> | null = null;

	constructor(host: SelectionHost) {
		this.#host = host;
	}

	get area(): Area {
		return this.#area;
	}

	/** The cell that is typed into. */
	get active(): Spot | null {
		return this.#active;
	}

	get range(): Range | null {
		return this.#range;
	}

	get extent(): Extent | null {
		return this.#extent;
	}

	get isMany(): boolean {
		return this.#extent !== null && cellsIn(this.#extent) > 1;
	}

	/** Ids of the rows and columns selected. */
	get ids(): { rows: readonly string[]; columns: readonly string[] } {
		return this.#extent ? idsOf(this.#extent, this.#area) : { rows: [], columns: [] };
	}

	placeOf({ row, column }: Spot): Place {
		return { row: this.#area.rows.at(row), column: this.#area.columns.at(column) };
	}

	/** The cell at a place; the nearest one where there is none. */
	spotAt({ row, column }: Place): Spot | null {
		const { rows, columns } = this.#area;
		const id = rows.ids[Math.max(0, Math.min(rows.length - 1, row))];
		const other = columns.ids[Math.max(0, Math.min(columns.length - 1, column))];
		return id === undefined || other === undefined ? null : { row: id, column: other };
	}

	/** Takes the rows and columns shown now. What is gone of the selection leaves the active cell, or the one nearest. */
	setArea(area: Area): void {
		const before = this.#active ? this.placeOf(this.#active) : null;
		this.#area = area;
		if (this.#active && before) {
			const place = this.placeOf(this.#active);
			if (place.row < 0 || place.column < 0) {
				this.#active = this.spotAt({
					row: place.row < 0 ? before.row : place.row,
					column: place.column < 0 ? before.column : place.column
				});
				this.#range = this.#active && oneCell(this.#active);
			} else if (this.#range && !extentOf(this.#range, area)) {
				this.#range = oneCell(this.#active);
			}
		}
		this.#changed();
	}

	/** @param active the cell typed into; the corner where the selection begins unless said. */
	set(range: Range | null, active: Spot | null = range?.anchor ?? null): void {
		this.#range = range;
		this.#active = active;
		this.#changed();
	}

	/** Draws the far corner to another cell. */
	extendTo(head: Spot): void {
		const { whole = 'cells', anchor = this.#active ?? head } = this.#range ?? {};
		this.set({ anchor, head, whole }, this.#active ?? anchor);
	}

	/** Shows what a fill would take in. */
	setFilling(extent: Extent | null): void {
		this.#filling = extent;
		this.#paint();
	}

	/** What was selected holds other figures now. */
	refreshSum(): void {
		this.#tellSoon(false);
	}

	destroy(): void {
		if (this.#timer) clearTimeout(this.#timer);
	}

	paintOf(row: string, column: string): Painted {
		const at = this.#area.rows.at(row);
		const extent = this.#extent;
		if (column === gutterId)
			return {
				chosen: extent !== null && at >= extent.top && at <= extent.bottom,
				active: false,
				corner: false,
				filling: false
			};
		const beside = this.#area.columns.at(column);
		return {
			chosen: extent !== null && within(extent, at, beside) && this.isMany,
			active: this.#active?.row === row && this.#active.column === column,
			corner: extent !== null && at === extent.bottom && beside === extent.right,
			filling: this.#filling !== null && within(this.#filling, at, beside)
		};
	}

	#changed(): void {
		this.#extent = this.#range && extentOf(this.#range, this.#area);
		this.#paint();
		this.#tellSoon(this.isMany);
	}

	#paint(): void {
		for (const view of this.#host.views) view.paint();
	}

	/** A selection that is being drawn is only told once it rests. */
	#tellSoon(aloud: boolean): void {
		if (this.#timer) clearTimeout(this.#timer);
		this.#timer = setTimeout(() => {
			this.#timer = null;
			if (aloud) this.#host.announce(this.words());
			this.#host.changed(this.#sum());
		}, pause);
	}

	/** `12 cells selected, Opening width of C-101 to Opening height of C-104`. */
	words(): string {
		const extent = this.#extent;
		const { text } = this.#host;
		if (!extent) return '';
		const name = (place: Place): string => {
			const spot = this.spotAt(place);
			return spot ? `${text.titleOf(spot.column)} of ${text.sheet.nameOf(spot.row)}` : '';
		};
		const count = cellsIn(extent);
		return `${count} ${count === 1 ? 'cell' : 'cells'} selected, ${name({ row: extent.top, column: extent.left })} to ${name({ row: extent.bottom, column: extent.right })}`;
	}

	#sum(): SelectionSum | null {
		if (!this.#extent || !this.isMany) return null;
		const { text } = this.#host;
		const { rows, columns } = this.ids;
		const cells = rows.flatMap((row) =>
			columns.map((column) => {
				const amount = text.amount(row, column);
				// Whether something stands there is all that the sum asks of the text.
				const filled = text.isFilled(row, column) ? column : '';
				return { text: filled, value: amount?.value ?? null, unit: amount?.unit ?? null };
			})
		);
		return sumOf(cells, rows.length, (value, unit) => text.sum(value, unit));
	}
}
