/** What stands in a cell of the grid, how it is said to a screen reader, and how the selection is painted on it. */
import type { ICellRendererComp, ICellRendererParams } from 'ag-grid-community';
import { countOf, countWords, severities } from '../parts/check-words.ts';
import { markElement } from '../parts/marks.ts';
import type { Check } from '../../takeoff/result.ts';
import type { CellText } from './cell-text.ts';
import { checksId } from './column-layout.ts';
import type { OthersHere } from './others-in-cells.ts';
import type { Spot } from './range.ts';

export interface GridRow {
	readonly id: string;
}

/** The column of row numbers. */
export const gutterId = 'number';

/** How the selection lies on a cell. */
export interface Painted {
	readonly chosen: boolean;
	readonly active: boolean;
	/** The lower right corner, where the selection can be drawn out. */
	readonly corner: boolean;
	/** Would be filled if the mouse were let go now. */
	readonly filling: boolean;
}

export interface CellHost {
	readonly text: CellText;
	/** Place of a row as it is stored, from 1. */
	numberOf(row: string): number;
	paintOf(row: string, column: string): Painted;
	/** What was typed stands below what was understood. */
	showsTyped(): boolean;
	/** The others who are in a cell; null where nobody is. */
	othersAt(row: string, column: string): OthersHere | null;
	/** Cells on the screen now. */
	readonly views: Set<CellView>;
}

type Params = ICellRendererParams<GridRow> & { readonly host: CellHost };

const states = ['refused', 'needed', 'inherited'] as const;

export class CellView implements ICellRendererComp<GridRow> {
	readonly #gui = document.createElement('span');
	#host!: CellHost;
	#cell!: HTMLElement;
	#row = '';
	#column = '';
	#isTotal = false;
	#grip: HTMLElement | null = null;
	/** As it was painted last: most cells stay as they are. */
	#painted = '';

	init(params: Params): void {
		this.#host = params.host;
		this.#cell = params.eGridCell;
		this.#column = params.column?.getColId() ?? '';
		this.#gui.className = 'cell-text';
		this.#host.views.add(this);
		this.refresh(params);
	}

	getGui(): HTMLElement {
		return this.#gui;
	}

	refresh({ data, node }: ICellRendererParams<GridRow>): boolean {
		this.#row = data?.id ?? '';
		this.#isTotal = node.rowPinned !== undefined && node.rowPinned !== null;
		this.renew();
		return true;
	}

	/** Whether it stands in one of these rows; row numbers change when the order does. */
	isOf(rows: ReadonlySet<string>, order: boolean): boolean {
		return !this.#isTotal && (rows.has(this.#row) || (order && this.#column === gutterId));
	}

	get spot(): Spot {
		return { row: this.#row, column: this.#column };
	}

	get isTotal(): boolean {
		return this.#isTotal;
	}

	/** Shows what stands there now. */
	renew(): void {
		if (this.#isTotal) this.#showTotal();
		else if (this.#column === gutterId) this.#showNumber();
		else this.#showCell();
		this.paint();
	}

	destroy(): void {
		this.#host.views.delete(this);
	}

	paint(): void {
		if (this.#isTotal) return;
		const { chosen, active, corner, filling } = this.#host.paintOf(this.#row, this.#column);
		const painted = [chosen, active, filling].join(' ');
		if (painted !== this.#painted) {
			this.#painted = painted;
			const { classList } = this.#cell;
			classList.toggle('chosen', chosen);
			classList.toggle('active-cell', active);
			classList.toggle('filling', filling);
			// A row number beside a few selected cells is no selected row.
			if (this.#column !== gutterId) this.#cell.setAttribute('aria-selected', String(chosen));
		}
		if (corner) this.#gui.append((this.#grip ??= fillGrip()));
		else this.#grip?.remove();
	}

	#showTotal(): void {
		const { text } = this.#host;
		const total = this.#column === gutterId ? '' : text.total(this.#column);
		this.#gui.textContent = total;
		const title = text.titleOf(this.#column);
		this.#cell.setAttribute(
			'aria-label',
			total === 'Totals' ? total : `${title}, total: ${total === '' ? 'blank' : total}`
		);
	}

	#showNumber(): void {
		const number = String(this.#host.numberOf(this.#row));
		this.#gui.textContent = number;
		this.#cell.setAttribute('aria-label', `Row ${number}, ${this.#host.text.sheet.nameOf(this.#row)}`);
	}

	#showCell(): void {
		const { text } = this.#host;
		const face = text.face(this.#row, this.#column);
		if (this.#column === checksId) this.#gui.replaceChildren(checkTally(text.sheet.checks(this.#row)));
		else if (face.typed !== '' && this.#host.showsTyped())
			this.#gui.replaceChildren(face.text, typedLine(face.typed));
		else this.#gui.textContent = face.text;
		for (const state of states) this.#cell.classList.toggle(state, face.state === state);
		this.#cell.classList.toggle('own-mark', this.#column === 'mark' && text.sheet.isOwnRow(this.#row));
		const others = this.#host.othersAt(this.#row, this.#column);
		this.#cell.classList.toggle('other-here', others !== null);
		this.#cell.classList.toggle('other-typing', others?.typing === true);
		if (others) this.#gui.append(othersMark(others));
		this.#cell.setAttribute('aria-label', others ? `${face.label}. ${others.words}` : face.label);
	}
}

function fillGrip(): HTMLElement {
	const grip = document.createElement('span');
	grip.className = 'fill-grip';
	return grip;
}

function othersMark({ initials, words, typing }: OthersHere): HTMLElement {
	const mark = document.createElement('span');
	mark.className = 'others-mark';
	mark.title = words;
	// Drawn by the style sheet: it is no part of what the cell says.
	mark.dataset.mark = typing ? `${initials} typing` : initials;
	return mark;
}

function typedLine(typed: string): HTMLElement {
	const line = document.createElement('span');
	line.className = 'as-typed';
	line.textContent = typed;
	return line;
}

function checkTally(checks: readonly Check[]): HTMLElement {
	const tally = document.createElement('span');
	tally.className = 'tally';
	for (const severity of severities) {
		const count = countOf(checks, severity);
		if (count === 0 || (severity === 'note' && tally.childElementCount > 0)) continue;
		const part = document.createElement('span');
		part.className = `tally-part ${severity}`;
		part.append(markElement(severity), countWords(count, severity));
		if (tally.childElementCount > 0) tally.append(' ');
		tally.append(part);
	}
	if (tally.childElementCount === 0) tally.textContent = 'none';
	return tally;
}
