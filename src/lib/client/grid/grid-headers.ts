/** Headers of the grid by mouse and keys: a column is selected, a group folded, the corner selects all. */
import { gutterId } from './cell-view.ts';
import type { Selection } from './selection.ts';

export interface HeadersHost {
	readonly container: HTMLElement;
	readonly selection: Selection;
	fold(group: string): void;
	selectAll(): void;
}

export class GridHeaders {
	readonly #host: HeadersHost;
	#pressedAt = { x: 0, y: 0 };

	constructor(host: HeadersHost) {
		this.#host = host;
		host.container.addEventListener('pointerdown', this.#down, true);
		host.container.addEventListener('click', this.#clicked);
	}

	destroy(): void {
		this.#host.container.removeEventListener('pointerdown', this.#down, true);
		this.#host.container.removeEventListener('click', this.#clicked);
	}

	readonly #down = (event: PointerEvent): void => {
		this.#pressedAt = { x: event.clientX, y: event.clientY };
	};

	readonly #clicked = (event: MouseEvent): void => {
		const header = event.target instanceof Element ? event.target.closest('[role="columnheader"]') : null;
		if (!header || !(event.target instanceof Element) || event.target.closest('.ag-header-cell-resize'))
			return;
		// The end of a drag is no click.
		const { x, y } = this.#pressedAt;
		if (Math.hypot(event.clientX - x, event.clientY - y) > 4) return;
		this.press(header, event.shiftKey);
	};

	/** @returns whether there was something to do. */
	press(header: Element, extend: boolean): boolean {
		const fold = header.querySelector<HTMLElement>('[data-fold]')?.dataset.fold;
		const id = header.getAttribute('col-id') ?? '';
		if (fold !== undefined) this.#host.fold(fold);
		else if (id === gutterId) this.#host.selectAll();
		else if (this.#host.selection.area.columns.at(id) >= 0) this.#selectColumn(id, extend);
		else return false;
		return true;
	}

	#selectColumn(column: string, extend: boolean): void {
		const { selection } = this.#host;
		const { active, range, area } = selection;
		const row = active?.row ?? area.rows.ids[0];
		if (row === undefined) return;
		const anchor = extend && range ? range.anchor : { row, column };
		selection.set({ anchor, head: { row, column }, whole: 'columns' }, extend && active ? active : anchor);
	}
}
