/** Lines of a packing list, and what became of them. */

/** One line as read from a file or typed. Unknown fields are null; nothing is guessed by the reader. */
export interface PackingLine {
	/** Where it stands: row of the sheet or line of the text, from 1. */
	readonly line: number;
	readonly partId: string | null;
	readonly mark: string | null;
	/** Words of the line that say what it is. */
	readonly description: string;
	readonly quantity: number | null;
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

export const lineStates = [
	'exact',
	'short',
	'over',
	'wrong',
	'notListed',
	'notOrdered',
	'damaged',
	'backordered'
] as const;
export type LineState = (typeof lineStates)[number];
