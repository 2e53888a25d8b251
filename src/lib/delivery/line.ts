/** Lines of a packing list, and what became of them. */

/** One line as read from a file or typed. Unknown fields are null; nothing is guessed by the reader. */
export interface PackingLine {
	/** Where it stands: row of the sheet or line of the text, from 1. */
	readonly line: number;
	/** Line of the order it names: its number where it names one (`14` for `PO line 14`), with the order in front where that is not the list's (`1077-02/14`), else as written. */
	readonly orderLine: string | null;
	readonly partId: string | null;
	readonly mark: string | null;
	/** Words of the line that say what it is. */
	readonly description: string;
	/** In this delivery. */
	readonly quantity: number | null;
	/** As the supplier repeats the order. */
	readonly ordered: number | null;
	/** Still to come, by its own column. */
	readonly backordered: number | null;
	/** As written: each, pair, set, box … */
	readonly unit: string | null;
	/** Whole nanometres. */
	readonly length: number | null;
	readonly width: number | null;
	readonly size: string | null;
	readonly hand: 'left' | 'right' | null;
	readonly finish: string | null;
	readonly crate: string | null;
	/** Words about its state: damaged, backordered … */
	readonly remark: string | null;
}

/** What a packing list says of itself. */
export interface PackingFacts {
	/** The supplier's number of the list. */
	readonly listNumber: string | null;
	/** Our order it answers, as it names it; and which revision. */
	readonly orderNumber: string | null;
	readonly orderRevision: number | null;
	/** As it names the job. */
	readonly jobName: string | null;
	/** The side its left and right are seen from, where it says so. */
	readonly handsFrom: 'coilSide' | 'farSide' | null;
	/** What its sizes measure, where it says so. */
	readonly sizes: 'part' | 'opening' | 'overall' | null;
	/** How many crates (pages) there are in all, where it says so, and which of them the list names. */
	readonly crates: { readonly all: number | null; readonly named: readonly string[] };
	readonly pages: { readonly all: number | null; readonly named: readonly number[] };
}

export const lineStates = [
	'exact',
	'short',
	'over',
	'wrong',
	'notListed',
	'notOrdered',
	'damaged',
	'backordered',
	'substituted'
] as const;
export type LineState = (typeof lineStates)[number];
