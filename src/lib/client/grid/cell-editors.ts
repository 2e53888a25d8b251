/**
 * Editors of the grid's cells: a line of text for lengths, counts and words, a list with type-ahead for keys. Both
 * read what was typed on commit; what cannot be read stays in the editor with the reason beside it.
 */
import type { ICellEditorComp, ICellEditorParams } from 'ag-grid-community';
import { sameCell } from '../../changes/apply.ts';
import { typedText } from '../../takeoff/cell.ts';
import type { Cell } from '../../takeoff/inputs.ts';
import type { RefusedEntry } from '../refused-entries.ts';
import { matching, type KeyOption } from './key-words.ts';

export type Reading =
	{ readonly ok: true; readonly cell: Cell } | { readonly ok: false; readonly reason: string };

/** Where the focus goes after a commit. */
export type Move =
	| 'down'
	| 'up'
	| 'right'
	| 'left'
	/** To the cell beside, worked out or typed. */
	| 'besideRight'
	| 'besideLeft'
	| 'stay'
	| 'none';

/** What an editor needs to know of the cell it stands in. */
export interface EditorHost {
	readonly label: string;
	read(text: string): Reading;
	/** The cell as a person would see it; shown while typing, as understood. */
	show(cell: Cell): string;
	/** Text to begin with. */
	start(row: string): string;
	refused(row: string): RefusedEntry | null;
	/** The cell as it is stored, to see whether it changes meanwhile. */
	stored(row: string): Cell;
	isThere(row: string): boolean;
	/** The row went while this was typed in it. */
	lost(row: string, text: string): void;
	opened(editor: OpenEditor): void;
	closed(editor: OpenEditor): void;
	commit(row: string, cell: Cell, move: Move): void;
	/** Takes the text for all selected cells. @returns false where only this one is. */
	commitAll(text: string): boolean;
	refuse(row: string, entry: RefusedEntry): void;
	cancel(row: string): void;
	readonly options: readonly KeyOption[];
}

/** A cell that is being typed in. */
export interface OpenEditor {
	readonly row: string;
	/** Rows changed: says so where what stands in this cell did. */
	cellsChanged(): void;
}

interface RowData {
	readonly id: string;
}

type Params = ICellEditorParams<RowData, unknown> & { readonly host: EditorHost };

let nextId = 1;

/** Arrow keys in an editor that was opened by typing. */
const moves: Readonly<Record<string, Move>> = {
	ArrowUp: 'up',
	ArrowDown: 'down',
	ArrowLeft: 'besideLeft',
	ArrowRight: 'besideRight'
};

const modified = ({ ctrlKey, metaKey, altKey, shiftKey }: KeyboardEvent): boolean =>
	ctrlKey || metaKey || altKey || shiftKey;

/** A note under the cell, in the top layer so that nothing cuts it off. */
class Underneath {
	readonly element: HTMLElement;
	readonly #anchor: () => Element | null;

	constructor(className: string, anchor: () => Element | null) {
		this.element = document.createElement('div');
		this.element.className = className;
		this.element.id = `under-cell-${String(nextId++)}`;
		this.element.popover = 'manual';
		this.#anchor = anchor;
	}

	show(): void {
		if (!this.element.isConnected) return;
		if (!this.element.matches(':popover-open')) this.element.showPopover();
		this.place();
	}

	hide(): void {
		if (this.element.isConnected && this.element.matches(':popover-open')) this.element.hidePopover();
	}

	readonly place = (): void => {
		const anchor = this.#anchor()?.getBoundingClientRect();
		if (!anchor) return;
		const { style, offsetHeight, offsetWidth } = this.element;
		style.minWidth = `${String(anchor.width)}px`;
		const below = anchor.bottom + 2;
		const fits = below + offsetHeight <= window.innerHeight || anchor.top < offsetHeight;
		style.top = `${String(fits ? below : anchor.top - offsetHeight - 2)}px`;
		style.left = `${String(Math.max(4, Math.min(anchor.left, window.innerWidth - offsetWidth - 4)))}px`;
	};
}

/** Common to both editors: the input, its keys, and what happens on leaving. */
abstract class CellEditor implements ICellEditorComp<RowData, unknown>, OpenEditor {
	protected input!: HTMLInputElement;
	protected host!: EditorHost;
	row!: string;
	protected reason!: Underneath;
	#gui!: HTMLElement;
	#cell!: HTMLElement;
	/** Opened by typing over what stood there: arrow keys take it and move on. */
	#typedOver = false;
	#left = false;
	/** What the entry replaces. */
	#before!: Cell;
	/** Someone else changed the cell, and that was said when this was about to go over it. */
	#overTheirs: 'no' | 'unsaid' | 'said' = 'no';

	init(params: Params): void {
		this.host = params.host;
		this.row = params.data.id;
		this.#cell = params.eGridCell;
		this.#gui = document.createElement('div');
		this.#gui.className = 'cell-editor';
		this.input = document.createElement('input');
		this.input.type = 'text';
		this.input.autocomplete = 'off';
		this.input.spellcheck = false;
		this.input.setAttribute('aria-label', this.host.label);
		this.reason = new Underneath('under-cell reason', () => this.#cell);
		this.reason.element.role = 'alert';
		this.#gui.append(this.input, this.reason.element);
		this.#before = this.host.stored(this.row);
		this.#typedOver = params.eventKey?.length === 1;
		this.input.value = this.#typedOver
			? (params.eventKey ?? '')
			: (this.host.refused(this.row)?.text ?? this.host.start(this.row));
		this.input.addEventListener('pointerdown', () => (this.#typedOver = false));
		this.input.addEventListener('keydown', this.#onKeyDown);
		this.input.addEventListener('input', this.#onInput);
		this.input.addEventListener('blur', this.#onBlur);
		window.addEventListener('scroll', this.replace, true);
		window.addEventListener('resize', this.replace);
		this.extend(this.#gui);
	}

	getGui(): HTMLElement {
		return this.#gui;
	}

	afterGuiAttached(): void {
		this.input.focus();
		if (this.#typedOver) {
			this.input.setSelectionRange(this.input.value.length, this.input.value.length);
			this.typed();
		} else {
			this.input.select();
			const refused = this.host.refused(this.row);
			if (refused) this.showReason(refused.reason);
		}
		this.opened();
		this.host.opened(this);
	}

	cellsChanged(): void {
		const now = this.host.stored(this.row);
		if (this.#left || sameCell(now, this.#before)) return;
		this.#before = now;
		this.#overTheirs = 'unsaid';
		this.#sayTheirs();
	}

	#sayTheirs(): void {
		this.show(
			'reason',
			`Meanwhile ${this.#theirs()} was put here. Enter puts yours in its place, Escape leaves it.`
		);
	}

	#theirs(): string {
		const stored = this.host.stored(this.row);
		return stored === null ? 'a blank' : this.host.show(stored) || typedText(stored);
	}

	/** The grid keeps nothing itself: commits go to the sheet. */
	getValue(): undefined {
		return undefined;
	}

	isCancelAfterEnd(): boolean {
		return true;
	}

	destroy(): void {
		this.#leaveGone();
		this.#left = true;
		this.host.closed(this);
		window.removeEventListener('scroll', this.replace, true);
		window.removeEventListener('resize', this.replace);
	}

	/** @returns true where the row is gone, and with it the cell. */
	#leaveGone(): boolean {
		if (this.#left || this.host.isThere(this.row)) return false;
		this.#left = true;
		this.host.lost(this.row, this.input.value);
		return true;
	}

	/** Adds what an editor has beside its input. */
	protected abstract extend(gui: HTMLElement): void;
	protected abstract opened(): void;
	/** After a keystroke that changed the text. */
	protected abstract typed(): void;
	/** What the text, or the choice made, says. */
	protected abstract reading(): Reading;
	/** A key of the editor's own. @returns true when it is used up. */
	protected abstract key(event: KeyboardEvent): boolean;

	protected readonly replace = (): void => {
		this.reason.place();
		this.placed();
	};

	protected placed(): void {
		// Nothing else to place.
	}

	protected commit(move: Move): void {
		const reading = this.reading();
		if (reading.ok) {
			if (this.#overTheirs === 'unsaid') {
				this.#overTheirs = 'said';
				this.#sayTheirs();
				return;
			}
			this.#left = true;
			this.host.commit(this.row, reading.cell, move);
		} else {
			this.showReason(reading.reason);
		}
	}

	#commitAll(): void {
		const reading = this.reading();
		if (!reading.ok) {
			this.showReason(reading.reason);
			return;
		}
		this.#left = true;
		if (!this.host.commitAll(typedText(reading.cell))) this.host.commit(this.row, reading.cell, 'stay');
	}

	protected showReason(reason: string): void {
		this.input.setAttribute('aria-invalid', 'true');
		this.show('reason', `Not read: ${reason}`);
	}

	protected show(kind: 'reason' | 'understood', text: string): void {
		this.input.setAttribute('aria-describedby', this.reason.element.id);
		this.reason.element.classList.toggle('understood', kind === 'understood');
		this.reason.element.textContent = text;
		this.reason.show();
	}

	protected clearReason(): void {
		this.input.removeAttribute('aria-invalid');
		this.reason.hide();
	}

	readonly #onInput = (): void => {
		this.clearReason();
		this.typed();
	};

	readonly #onKeyDown = (event: KeyboardEvent): void => {
		if (event.isComposing) return;
		if (this.key(event)) {
			event.preventDefault();
			event.stopPropagation();
			return;
		}
		event.stopPropagation();
		const arrow = this.#typedOver && !modified(event) ? moves[event.key] : undefined;
		if (arrow) {
			event.preventDefault();
			this.commit(arrow);
		} else if (event.key === 'F2') {
			event.preventDefault();
			this.#typedOver = false;
		} else if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
			event.preventDefault();
			this.#commitAll();
		} else if (event.key === 'Enter') {
			event.preventDefault();
			this.commit(event.shiftKey ? 'up' : 'down');
		} else if (event.key === 'Tab') {
			event.preventDefault();
			this.commit(event.shiftKey ? 'left' : 'right');
		} else if (event.key === 'Escape') {
			event.preventDefault();
			this.#left = true;
			this.host.cancel(this.row);
		}
	};

	/** Leaving by a click: what can be read is committed, the rest stays in the cell as refused. */
	readonly #onBlur = (): void => {
		if (this.#left || this.#leaveGone() || !document.hasFocus()) return;
		this.#left = true;
		const reading = this.reading();
		if (reading.ok && this.#overTheirs === 'unsaid')
			this.host.refuse(this.row, {
				text: this.input.value,
				reason: `someone else put ${this.#theirs()} here meanwhile; type yours again, or Escape leaves theirs`
			});
		else if (reading.ok) this.host.commit(this.row, reading.cell, 'none');
		else this.host.refuse(this.row, { text: this.input.value, reason: reading.reason });
	};
}

export class TextCellEditor extends CellEditor {
	protected extend(): void {
		// The line of text is all there is.
	}

	protected opened(): void {
		// Nothing opens with it.
	}

	protected key(): boolean {
		return false;
	}

	protected reading(): Reading {
		return this.host.read(this.input.value);
	}

	/** Echoes what is understood where it is not plainly what was typed. */
	protected typed(): void {
		const text = this.input.value.trim();
		const reading = text === '' ? null : this.host.read(text);
		const shown = reading?.ok ? this.host.show(reading.cell) : '';
		if (shown === '' || shown === text) {
			this.reason.hide();
			return;
		}
		this.show('understood', `Read as ${shown}`);
	}
}

export class ListCellEditor extends CellEditor {
	#list!: Underneath;
	#shown: readonly KeyOption[] = [];
	#at = -1;
	/** The text was changed: it decides, with the highlighted option where one matches. */
	#changed = false;

	protected extend(gui: HTMLElement): void {
		this.#list = new Underneath('under-cell options', () => gui.parentElement ?? gui);
		this.#list.element.role = 'listbox';
		this.#list.element.setAttribute('aria-label', this.host.label);
		this.input.role = 'combobox';
		this.input.setAttribute('aria-autocomplete', 'list');
		this.input.setAttribute('aria-controls', this.#list.element.id);
		this.input.setAttribute('aria-expanded', 'true');
		this.#list.element.addEventListener('pointerdown', (event) => {
			event.preventDefault();
			const option = (event.target as Element).closest<HTMLElement>('[data-at]');
			if (!option) return;
			this.#at = Number(option.dataset.at);
			this.#changed = true;
			this.commit('stay');
		});
		gui.append(this.#list.element);
	}

	protected opened(): void {
		if (this.#changed) return;
		const typed = this.input.value;
		this.#fill('');
		this.#at = this.#shown.findIndex((option) => option.key === typed || option.word === typed);
		this.#mark();
	}

	protected typed(): void {
		this.#changed = true;
		this.#fill(this.input.value);
		this.#at = this.input.value.trim() === '' ? -1 : 0;
		this.#mark();
	}

	protected override placed(): void {
		this.#list.place();
	}

	protected override showReason(reason: string): void {
		this.#list.hide();
		super.showReason(reason);
	}

	protected key(event: KeyboardEvent): boolean {
		if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return false;
		if (this.#shown.length === 0) this.#fill('');
		const step = event.key === 'ArrowDown' ? 1 : -1;
		const from = this.#at === -1 && step === -1 ? 0 : this.#at;
		this.#at = (from + step + this.#shown.length) % this.#shown.length;
		this.#changed = true;
		this.#mark();
		return true;
	}

	protected reading(): Reading {
		if (!this.#changed) return this.host.read(this.input.value);
		const option = this.#shown[this.#at];
		return this.host.read(option ? option.key : this.input.value);
	}

	#fill(typed: string): void {
		this.#shown = matching(this.host.options, typed);
		const { element } = this.#list;
		element.replaceChildren(
			...this.#shown.map((option, at) => {
				const line = document.createElement('div');
				line.role = 'option';
				line.id = `${element.id}-${String(at)}`;
				line.dataset.at = String(at);
				const word = document.createElement('span');
				word.textContent = option.word;
				line.append(word);
				if (option.title !== '') {
					const title = document.createElement('span');
					title.className = 'option-title';
					title.textContent = option.title;
					line.append(title);
				}
				return line;
			})
		);
		if (this.#shown.length === 0) {
			this.#list.hide();
			this.input.setAttribute('aria-expanded', 'false');
		} else {
			this.#list.show();
			this.input.setAttribute('aria-expanded', 'true');
		}
	}

	#mark(): void {
		const { element } = this.#list;
		for (const line of element.children) {
			const here = line.id === `${element.id}-${String(this.#at)}`;
			line.setAttribute('aria-selected', String(here));
			if (here) line.scrollIntoView({ block: 'nearest' });
		}
		if (this.#at >= 0) this.input.setAttribute('aria-activedescendant', `${element.id}-${String(this.#at)}`);
		else this.input.removeAttribute('aria-activedescendant');
	}
}
