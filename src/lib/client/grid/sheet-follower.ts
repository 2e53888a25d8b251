/** Keeps the grid up with the sheet: what changes together is shown together, before the next paint. */
import type { SheetChange } from '../worked-rows.ts';
import type { CellEntry } from './cell-entry.ts';
import type { CellText } from './cell-text.ts';
import type { CellView } from './cell-view.ts';
import type { Finder } from './finder.ts';
import type { GridDisplay } from './grid-display.ts';
import type { Selection } from './selection.ts';

/** Totals rest until nothing has changed for so long. */
const totalsPause = 150;

export interface FollowerHost {
	readonly text: CellText;
	/** Cells on the screen now. */
	readonly views: ReadonlySet<CellView>;
	readonly selection: Selection;
	readonly finder: Finder;
	readonly entry: CellEntry;
	readonly display: GridDisplay;
}

export class SheetFollower {
	readonly #host: FollowerHost;
	readonly #endListening: () => void;
	#pending: { rows: Set<string>; order: boolean } | null = null;
	#totalsTimer: ReturnType<typeof setTimeout> | null = null;

	constructor(host: FollowerHost) {
		this.#host = host;
		this.#endListening = host.text.sheet.listen((change) => this.#heard(change));
	}

	destroy(): void {
		this.#endListening();
		if (this.#totalsTimer) clearTimeout(this.#totalsTimer);
	}

	#heard({ rows, order }: SheetChange): void {
		if (!this.#pending) {
			this.#pending = { rows: new Set(), order: false };
			queueMicrotask(() => this.keepUp());
		}
		for (const row of rows) this.#pending.rows.add(row);
		this.#pending.order ||= order;
	}

	/** Shows at once what changed and is not shown yet. */
	keepUp(): void {
		if (!this.#pending) return;
		const { rows, order } = this.#pending;
		this.#pending = null;
		const { views, selection, finder, entry, display } = this.#host;
		if (order) display.takeOrder();
		display.cellsChanged(rows);
		for (const view of views) if (view.isOf(rows, order)) view.renew();
		finder.forget();
		entry.cellsChanged();
		selection.refreshSum();
		if (this.#totalsTimer) clearTimeout(this.#totalsTimer);
		this.#totalsTimer = setTimeout(() => this.#renewTotals(), totalsPause);
	}

	#renewTotals(): void {
		this.#totalsTimer = null;
		this.#host.text.forgetTotals();
		for (const view of this.#host.views) if (view.isTotal) view.renew();
	}
}
