/** Commands that change how the sheet is looked at: sorting, filtering, which columns there are, where and how wide. */
import { everyRow } from '../../changes/sheet-view.ts';
import type { CellText } from './cell-text.ts';
import { mostFrozen, stepped, toggled, withOrder } from './column-layout.ts';
import { usualWidth } from './grid-columns.ts';
import type { GridDisplay } from './grid-display.ts';
import type { GridFocus } from './grid-focus.ts';
import type { GridHooks } from './grid-hooks.ts';
import type { CommandId } from './keys.ts';
import type { Selection } from './selection.ts';

const widthStep = 12;

export type LookCommand = Extract<
	CommandId,
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
>;

export interface LookHost {
	readonly hooks: GridHooks;
	readonly text: CellText;
	readonly selection: Selection;
	readonly focus: GridFocus;
	readonly display: GridDisplay;
}

export class LookCommands {
	readonly #host: LookHost;

	constructor(host: LookHost) {
		this.#host = host;
	}

	run(command: LookCommand): void {
		const { display, focus } = this.#host;
		const { view } = display;
		const { column } = focus;
		if (command === 'clearFilter') display.change({ ...view, filter: everyRow });
		else if (command === 'rowHeight')
			display.change({ ...view, rowHeight: view.rowHeight === 'compact' ? 'comfortable' : 'compact' });
		else if (column !== null) this.#runOn(column, command);
	}

	#runOn(column: string, command: Exclude<LookCommand, 'clearFilter' | 'rowHeight'>): void {
		switch (command) {
			case 'foldGroup':
				this.fold(this.#host.display.catalog.groupOf(column));
				break;
			case 'hideColumn':
				this.#hide(column);
				break;
			case 'columnLeft':
				this.#step(column, -1);
				break;
			case 'columnRight':
				this.#step(column, 1);
				break;
			case 'widen':
				this.#widen(column, widthStep);
				break;
			case 'narrow':
				this.#widen(column, -widthStep);
				break;
			case 'freeze':
				this.#freeze(column);
				break;
			case 'sort':
				this.#sort(column);
				break;
			case 'filterByCell':
				this.#filterBy(column);
				break;
		}
	}

	/** Folds a group of columns, or unfolds it. */
	fold(group: string): void {
		const { display, hooks } = this.#host;
		const { view } = display;
		const laid = display.groups.find(({ title, foldable }) => title === group && foldable);
		if (!laid || group === '') {
			hooks.refuse('This column stands alone: there is nothing to fold.');
			return;
		}
		display.change({ ...view, folded: toggled(view.folded, group) });
	}

	#hide(column: string): void {
		const { display, hooks, selection, text } = this.#host;
		const { view } = display;
		const { range, ids } = selection;
		const columns = (range?.whole === 'columns' ? ids.columns : [column]).filter((id) => id !== 'mark');
		const [only] = columns;
		if (only === undefined) {
			hooks.refuse('The mark can’t be hidden: it says which opening a row is.');
			return;
		}
		const off = Object.fromEntries(columns.map((id) => [id, false]));
		display.change({ ...view, choice: { ...view.choice, ...off } });
		const what = columns.length === 1 ? `${text.titleOf(only)} is` : `${columns.length} columns are`;
		hooks.say(`${what} hidden; Columns brings them back.`);
	}

	#step(column: string, step: 1 | -1): void {
		const { display } = this.#host;
		const columns = display.groups.flatMap((group) => group.columns);
		const order = stepped(columns, column, step);
		if (order) display.change(withOrder(display.view, order));
		display.api.ensureColumnVisible(column);
	}

	#widen(column: string, by: number): void {
		const { display } = this.#host;
		const { view } = display;
		const now = view.widths[column] ?? usualWidth(column);
		const width = Math.max(36, Math.min(1200, now + by));
		display.change({ ...view, widths: { ...view.widths, [column]: width } });
	}

	#freeze(column: string): void {
		const { display, hooks } = this.#host;
		const { view } = display;
		if (column === 'mark') hooks.refuse('The mark always stays in place.');
		else if (!view.frozen.includes(column) && view.frozen.length >= mostFrozen)
			hooks.refuse(`${mostFrozen} columns stay in place already; let one of them go first.`);
		else display.change({ ...view, frozen: toggled(view.frozen, column) });
	}

	#sort(column: string): void {
		const { display } = this.#host;
		const { view } = display;
		const { sort } = view;
		const direction = sort?.column !== column ? 'up' : sort.direction === 'up' ? 'down' : null;
		display.change({ ...view, sort: direction === null ? null : { column, direction } });
	}

	#filterBy(column: string): void {
		const { display, selection, text } = this.#host;
		const { active } = selection;
		if (!active) return;
		const { view } = display;
		const { [column]: was, ...others } = view.filter.values;
		const sought = text.text(active.row, column);
		const values = was?.length === 1 && was[0] === sought ? others : { ...others, [column]: [sought] };
		display.change({ ...view, filter: { ...view.filter, values } });
	}
}
