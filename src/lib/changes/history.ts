/** What is written down of every change, and how it is read. */
import type { Cell, Cells, InputId } from '../takeoff/inputs.ts';

/**
 * `edit`, `undo`, `redo`: cells and rows of the sheet. `job`: made, copied, renamed, other measures, deleted, put back.
 * `delivery`: a packing list in or out, and what was decided about it. `bid`: frozen. `plan`: when and how openings are
 * wanted. `order`: made, revised, released, answered. `count`: counted on site. `measure`: measured on site.
 */
export const historyKinds = [
	'edit',
	'undo',
	'redo',
	'job',
	'delivery',
	'bid',
	'plan',
	'order',
	'count',
	'measure'
] as const;
export type HistoryKind = (typeof historyKinds)[number];

/** One field of a record: what it said before and what it says now, in words; null where there was nothing. */
export interface RecordChange {
	/** `Job`, `Packing list`, `Bid`, `Order`, `Opening` … Never an amount of money: everybody on the job may read it. */
	readonly record: string;
	/** Which of them, as a person calls it. */
	readonly name: string;
	/** Opaque id of a packing list: names may repeat. */
	readonly id?: string;
	readonly field: string;
	readonly before: string | null;
	readonly after: string | null;
}

/** What an entry did to one row. Rows are called as they are now; null where nothing tells how one was called. */
export type HistoryLine = { readonly row: string; readonly name: string | null } & (
	| { readonly kind: 'cell'; readonly field: InputId; readonly before: Cell; readonly after: Cell }
	| { readonly kind: 'added' | 'removed'; readonly cells: Cells }
	/** `below`: the row it was put below; null for the top. */
	| { readonly kind: 'moved'; readonly below: { readonly name: string | null } | null }
);

export interface HistoryListing {
	/** Revision of the job that it made. */
	readonly revision: number;
	readonly kind: HistoryKind;
	readonly actorId: string;
	/** As the person was called then; blank before names were kept. */
	readonly actorName: string;
	readonly title: string;
	/** ISO 8601, UTC. */
	readonly madeAt: string;
	/** The first of its lines. */
	readonly lines: readonly HistoryLine[];
	/** All lines; null for a large entry, whose lines are read apart. */
	readonly lineCount: number | null;
	/** Rows changed, added, moved or removed. */
	readonly rowCount: number;
	readonly records: readonly RecordChange[];
}

/** `GET /api/jobs/:job/history` */
export interface HistoryAnswer {
	/** The latest first. */
	readonly entries: readonly HistoryListing[];
	/** To be passed as `before` for the entries before these; null where there are none. */
	readonly earlier: number | null;
	/** The first revision to which the job can be brought back. */
	readonly wholeFrom: number;
	/** The opening that was asked for. */
	readonly row: { readonly id: string; readonly name: string } | null;
	/** All who ever changed something of the job. */
	readonly people: readonly { readonly id: string; readonly name: string }[];
}

/** `GET /api/jobs/:job/history/:revision` */
export interface HistoryLinesAnswer {
	readonly lines: readonly HistoryLine[];
	readonly lineCount: number;
}

/** `POST /api/jobs/:job/restore` */
export interface Restored {
	/** Of the copy. */
	readonly id: string;
	/** The copy is the job as it stood right after this one. */
	readonly revision: number;
}
