/** What the pages on site are answered. No price is in any of it. */
import type { FinishedCount, SiteCount } from '../delivery/count.ts';
import type { PackingLine } from '../delivery/line.ts';

/** A count as the office has it. */
export interface KnownCount extends SiteCount {
	/** ISO 8601, UTC. */
	readonly receivedAt: string;
}

/** One truck in the list of those to count. */
interface TruckSummary {
	readonly deliveryId: string;
	/** Name of the packing list as it came. */
	readonly name: string;
	readonly listNumber: string | null;
	readonly supplier: string | null;
	/** When the packing list was taken in; ISO 8601, UTC. */
	readonly receivedAt: string;
	/** Lines that should be on it, and how many of them are counted. */
	readonly toCount: number;
	readonly counted: number;
	/** Lines and things found that came damaged, wrong, short or too many. */
	readonly notes: number;
	readonly finished: FinishedCount | null;
}

/** The page `site`: the earliest truck first. */
export interface SiteAnswer {
	readonly trucks: readonly TruckSummary[];
}

/** The page that counts a truck. */
export interface CountSheet {
	readonly deliveryId: string;
	readonly name: string;
	readonly listNumber: string | null;
	readonly supplier: string | null;
	readonly receivedAt: string;
	/** Somebody took the packing list out; what was counted of it is kept. */
	readonly removed: boolean;
	readonly finished: FinishedCount | null;
	/** As stored, with what a person corrected in them. */
	readonly lines: readonly PackingLine[];
	/** Crates that the list says there are and that no list of the order names. */
	readonly missingCrates: readonly string[];
	/** All counts of this truck, the first counted first. */
	readonly counts: readonly KnownCount[];
	/** Ids of photos of these counts that have arrived. */
	readonly photos: readonly string[];
}

/** The page of damage notes. */
export interface DamageSheet extends CountSheet {
	/** Days in which concealed damage is to be told, where the supplier's carrier's terms were written down. */
	readonly concealedDamageDays: number | null;
}

/** Counts and photos of one truck that are taken at once, at most. */
export const mostCounts = 100;
/** Photos of one count. */
export const mostPhotosOfCount = 10;

/** `POST /api/jobs/:job/counts` with `{ counts: SentCount[] }`. All of them are taken, or none. */
export interface CountsTaken {
	/** Ids of those that are new. */
	readonly taken: readonly string[];
	/** Ids of those that had arrived before; nothing was doubled. */
	readonly known: readonly string[];
}

/** `PUT /api/jobs/:job/counts/:delivery` with `{ finished: boolean, at: string }`. */
export interface CountFinished {
	readonly finished: FinishedCount | null;
}

/** `POST /api/jobs/:job/photos`, a form with `photoId` and `file`. */
export interface PhotoTaken {
	readonly photoId: string;
	/** It had arrived before. */
	readonly known: boolean;
}

/** A photo is taken up to this size; a phone makes it smaller first. MiB. */
export const largestPhoto = 6;
