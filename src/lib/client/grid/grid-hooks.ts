/** What the grid asks of the page around it. Plain types, so that the page does not load the grid for them. */
import type { InputId } from '../../takeoff/inputs.ts';
import type { JobSheet } from '../job-sheet.svelte.ts';
import type { ColumnChoice, ColumnView } from './result-columns.ts';

/** A pasted or typed cell that could not be read. */
export interface RefusedCell {
	/** Null for a row that the paste would have added. */
	readonly row: string | null;
	readonly field: InputId;
	readonly text: string;
	readonly reason: string;
}

export interface GridHooks {
	readonly sheet: JobSheet;
	/** Opens the working of a result of a row. */
	openWorking(row: string, quantity: string): void;
	/** The focus stands on a result: a working that is open follows it. */
	passWorking(row: string, quantity: string): void;
	openChecks(row: string): void;
	addOpening(): void;
	/** Cells of a paste that were refused; the rest went in. */
	pasted(accepted: number, refused: readonly RefusedCell[]): void;
	say(text: string): void;
}

export interface GridHandle {
	showColumns(choice: ColumnChoice, view: ColumnView): void;
	/** Puts the focus on a cell and scrolls to it. */
	focusCell(row: string, column: string): void;
	/** Narrow screens keep only the mark in place. */
	setNarrow(narrow: boolean): void;
	destroy(): void;
}
