/** What is written down of every change, and how it is read. */

/**
 * `edit`, `undo`, `redo`: cells and rows of the sheet. `job`: made, copied, renamed, other measures, deleted, put back.
 * `delivery`: a packing list in or out. `bid`: frozen.
 */
export type HistoryKind = 'edit' | 'undo' | 'redo' | 'job' | 'delivery' | 'bid';

/** One field of a record: what it said before and what it says now, in words; null where there was nothing. */
export interface RecordChange {
	/** `Job`, `Packing list`, `Bid` */
	readonly record: string;
	/** Which of them, as a person calls it. */
	readonly name: string;
	readonly field: string;
	readonly before: string | null;
	readonly after: string | null;
}
