/** What the server answers, as JSON. The browser reads these shapes and no others. */
import type { Measures, OpeningRow } from '../takeoff/inputs.ts';
import type { Conflict } from './message.ts';

/** One job in the list of jobs. */
export interface JobSummary {
	readonly id: string;
	readonly name: string;
	readonly measures: Measures;
	/** Rows that are marks. */
	readonly marks: number;
	/** Sum of their quantities. */
	readonly openings: number;
	/** ISO 8601, UTC. */
	readonly changedAt: string;
	/** Came with the program; invented. */
	readonly demo: boolean;
}

/** The job whose pages are open. */
export interface JobHeading {
	readonly id: string;
	readonly name: string;
	readonly measures: Measures;
	/** Counts the edits stored, undos and redos included. */
	readonly revision: number;
	readonly demo: boolean;
}

/** What is next on a person's stacks: the titles of the edits, or null where there is none. */
export interface UndoState {
	readonly undo: string | null;
	readonly redo: string | null;
}

/**
 * The quantities of a row in the order of the engine of the job's technical book: base units (`quantity/units`), a key as its
 * word, or null where it was not computed. There are some nine hundred, so they go without their names.
 */
export type Figures = readonly (number | string | null)[];

export interface EditResult extends UndoState {
	readonly revision: number;
	/** Every row that was changed or added, as stored. */
	readonly rows: readonly OpeningRow[];
	/** Ids of all rows in order, when rows were added or removed; else null. */
	readonly order: readonly string[] | null;
	readonly removed: readonly string[];
	/**
	 * By row id: the quantities of the rows whose marks were touched. Empty when more than
	 * {@link mostFigures} rows are concerned: then the page computes them, or loads again.
	 */
	readonly figures: Readonly<Record<string, Figures>>;
}

/** Rows whose figures go back with an edit. */
export const mostFigures = 1000;

/** Every answer that is not a success. */
export interface Refusal {
	readonly message: string;
	/** Row id and input it is about. */
	readonly row?: string;
	readonly field?: string;
	/** File, sheet, row and column it is about. */
	readonly place?: string;
	readonly conflicts?: readonly Conflict[];
}

/** One packing list of a job. */
export interface DeliverySummary {
	readonly id: string;
	/** Name of the file as it came. */
	readonly name: string;
	readonly lines: number;
	/** ISO 8601, UTC. */
	readonly receivedAt: string;
	/** Taken out of the comparison; it can be put back. */
	readonly removed: boolean;
}
