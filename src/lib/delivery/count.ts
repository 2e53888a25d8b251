/** What somebody counted on site. */

export const conditions = ['whole', 'damaged', 'wrong'] as const;
export type Condition = (typeof conditions)[number];

/** One count. A later one of the same line (and part) takes the place of an earlier one; both are kept. */
export interface SiteCount {
	/** Given by the phone: the same count sent twice is one count. */
	readonly countId: string;
	readonly deliveryId: string;
	/** Line of the packing list; null for something that is on none. */
	readonly line: number | null;
	readonly crate: string | null;
	/** What it is, for what is on no line. */
	readonly description: string;
	/** Pieces in each condition, whole numbers or decimals, 0 or more, in the unit of the line. */
	readonly amounts: Readonly<Record<Condition, string>>;
	readonly note: string;
	readonly photoIds: readonly string[];
	readonly by: string;
	/** By the clock of the phone, ISO 8601, UTC. */
	readonly countedAt: string;
}

/** What a phone sends: who counted is the one who is signed in. */
export type SentCount = Omit<SiteCount, 'by'>;

/** Somebody said that a truck is counted: from then on its count goes, not its list. */
export interface FinishedCount {
	readonly by: string;
	/** ISO 8601, UTC. */
	readonly at: string;
}
