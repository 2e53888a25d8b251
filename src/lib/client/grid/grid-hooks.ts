/** What the grid asks of the page around it. Plain types, so that the page does not load the grid for them. */
import type { PersonThere } from '../../changes/live.ts';
import type { SheetView } from '../../changes/sheet-view.ts';
import type { InputId } from '../../takeoff/inputs.ts';
import type { JobSheet } from '../job-sheet.svelte.ts';

/** A pasted or typed cell that could not be read. */
export interface RefusedCell {
	/** Null for a row that the paste would have added. */
	readonly row: string | null;
	readonly field: InputId;
	readonly text: string;
	readonly reason: string;
}

/** What the cells of the selection come to. */
export interface SelectionSum {
	/** Cells selected, and those of them that hold something. */
	readonly cells: number;
	readonly filled: number;
	readonly rows: number;
	/** Sum with its unit, where all figures selected are of one kind; else null. */
	readonly sum: string | null;
}

/** What the grid shows, by ids: rows from the top, columns from the left. */
export interface Shown {
	readonly rows: readonly string[];
	readonly columns: readonly string[];
}

export interface GridHooks {
	readonly sheet: JobSheet;
	/** Whether the person may change openings; else the grid is only looked at. It may change meanwhile. */
	readonly mayEdit: boolean;
	/** The others who look at this job, and what hears when they come, go or move. */
	readonly others: {
		readonly people: readonly PersonThere[];
		listen(listener: (people: readonly PersonThere[]) => void): () => void;
	};
	/** Id of the person at this screen. */
	readonly ownId: string;
	/** This person stands on a cell, or types in it. */
	isAt(row: string | null, column: string | null, editing: boolean): void;
	/** Opens the working of a result of a row. */
	openWorking(row: string, quantity: string): void;
	/** The focus stands on a result: a working that is open follows it. */
	passWorking(row: string, quantity: string): void;
	openChecks(row: string): void;
	/** Cells of a paste, fill or replacement that were refused; the rest went in. */
	tookCells(accepted: number, refused: readonly RefusedCell[]): void;
	say(text: string): void;
	/** Something cannot be done, and why. */
	refuse(text: string): void;
	/** The view was changed by hand in the grid: a column moved, resized, folded, sorted, filtered. */
	viewChanged(view: SheetView): void;
	/** Other rows or columns are shown now, or in another order. */
	shown(now: Shown): void;
	selectionChanged(sum: SelectionSum | null): void;
	/** Opens what is asked for beside the grid. */
	ask(what: 'find' | 'keys' | 'columns' | 'views' | 'fillSeries'): void;
}

/** What a button or a menu may ask of the grid; the same that keys do (`keys.ts`). */
export type { CommandId } from './keys.ts';

export interface Found {
	/** Which of how many, from 1; 0 of 0 when there is none. */
	readonly at: number;
	readonly of: number;
}

export interface Search {
	readonly text: string;
	readonly wholeCell: boolean;
	readonly matchCase: boolean;
	/** Only within the selected cells. */
	readonly inSelection: boolean;
}

/** A series that could go down the selected cells. */
export interface SeriesOffer {
	/** Title of the column. */
	readonly title: string;
	/** Cells it fills, the first one included. */
	readonly count: number;
	/** The first value, and the step to the next, as they would be typed. */
	readonly from: string;
	readonly step: string;
}

/** The first values of a series as they would be shown, or why there is none. */
export type SeriesReading =
	{ readonly ok: true; readonly texts: readonly string[] } | { readonly ok: false; readonly reason: string };

export interface GridHandle {
	setView(view: SheetView): void;
	/** Id of the column that the focus stands in. */
	focusedColumn(): string | null;
	/** Texts that stand in a column, with how many rows show each, for the filter. */
	valuesOf(column: string): readonly { readonly text: string; readonly count: number }[];
	/** Puts the focus on a cell and scrolls to it; a filter that hides the row is taken off. */
	focusCell(row: string, column: string): void;
	run(command: import('./keys.ts').CommandId): void;
	/** Puts the focus back on the active cell, as when a dialog closes. */
	focus(): void;
	/** What a series over the selection would begin with, or why there can be none. */
	seriesOffer(): SeriesOffer | { readonly reason: string };
	/** At most `most` of the first values. */
	readSeries(from: string, step: string, most: number): SeriesReading;
	fillSeries(from: string, step: string): void;
	/** Goes to the next (or previous) cell that has the text, from the active one on; the focus stays where it is. */
	find(search: Search, direction: 'next' | 'previous'): Found;
	/** Replaces in the cell found, or in all; inputs only. */
	replace(search: Search, by: string, all: boolean): void;
	/** Narrow screens keep only the mark in place. */
	setNarrow(narrow: boolean): void;
	destroy(): void;
}
