/** The life of one part, from the takeoff to the count, as a page is answered. No price is in any of it. */
import type { LineState } from '../delivery/line.ts';
import type { Amounts, Difference } from '../delivery/comparison.ts';
import type { SiteCount } from '../delivery/count.ts';
import type { Day } from '../delivery/ordering/purchase-order.ts';
import type { Hold } from '../delivery/readiness/holds.ts';
import type { Part } from '../takeoff/result.ts';
import type { HistoryListing } from './history.ts';

export interface ChainPart {
	readonly partId: string;
	readonly openingId: string;
	readonly title: string;
	/** Sizes as they are read; empty where it has none. */
	readonly size: string;
	readonly finish: string;
	readonly hand: Part['hand'];
	readonly item: string;
	/** Decimal text, in `unit`. */
	readonly quantity: string;
	readonly unit: Part['unit'];
	readonly supply: Part['supply'];
	/** ISO 8601, UTC. */
	readonly issuedAt: string | null;
	/** Since when it is needed no more; null while it is needed. */
	readonly retiredAt: string | null;
}

/** A line of an order that has the part. */
export interface ChainOrder {
	readonly orderId: string;
	readonly number: string;
	readonly supplierName: string;
	readonly withdrawn: boolean;
	/** Of the latest revision that has the part. */
	readonly line: number;
	readonly title: string;
	readonly quantity: string;
	readonly unit: Part['unit'];
	readonly needBy: Day | null;
	/** How many parts the line covers. */
	readonly parts: number;
	/** Revisions that have it, the first first. */
	readonly revisions: readonly {
		readonly revision: number;
		readonly madeAt: string;
		readonly madeBy: string;
		readonly releasedAt: string | null;
		readonly releasedBy: string | null;
		/** Why it went out although something held it; null where nothing did, or for those who do not buy. */
		readonly reason: string | null;
	}[];
	/** What was answered to the order, the first received first. */
	readonly answers: readonly ChainAnswerToOrder[];
	/** Something that differs about money: told on the page of the order only. */
	readonly moneyDiffers: boolean;
}

export interface ChainAnswerToOrder {
	readonly acknowledgementId: string;
	readonly name: string;
	readonly number: string | null;
	readonly by: string;
	readonly receivedAt: string;
	readonly withdrawn: boolean;
	/** It is the answer that counts. */
	readonly counts: boolean;
	readonly whole: 'accepted' | 'refused' | null;
	/** Lines that answer ours. */
	readonly lines: readonly {
		readonly line: number;
		readonly quantity: string | null;
		readonly unit: string | null;
		readonly promised: Day | null;
		readonly answer: 'accepted' | 'changed' | 'refused' | null;
	}[];
	/** Of the answer that counts, but for those about money. */
	readonly differences: readonly {
		readonly text: string;
		readonly decision: 'signedOff' | 'sentBack' | null;
		/** Null for those who do not buy. */
		readonly reason: string | null;
		readonly by: string | null;
		readonly at: string | null;
	}[];
}

/** A line of a packing list that speaks of the part. */
export interface ChainLine {
	readonly deliveryId: string;
	readonly delivery: string;
	readonly receivedAt: string;
	/** Somebody said that all of the truck is counted. */
	readonly finished: { readonly by: string; readonly at: string } | null;
	readonly line: number;
	readonly state: LineState;
	readonly description: string;
	/** Why it was matched, or why not. */
	readonly how: string;
	readonly text: string;
	readonly asked: boolean;
	readonly differences: readonly Difference[];
	readonly amounts: Amounts;
	readonly unit: string;
	/** How many parts it speaks of. */
	readonly parts: number;
	/** What a person decided about it. */
	readonly decided: { readonly what: string; readonly by: string; readonly at: string } | null;
	/** All counts of the line, the latest first; that one stands. */
	readonly counts: readonly SiteCount[];
}

/** A field measure of its opening. */
export interface ChainMeasure {
	readonly measureId: string;
	readonly by: string;
	readonly at: string;
	readonly withdrawn: boolean;
	/** What it comes to against the takeoff as it is now; null where another one counts. */
	readonly verdict: { readonly outcome: 'agrees' | 'stop' | 'incomplete'; readonly text: string } | null;
}

/** Page `/jobs/:job/parts/:part` */
export interface ChainAnswer {
	readonly part: ChainPart;
	/** Parts whose place it took, and that took its place; the first issued first. */
	readonly before: readonly ChainPart[];
	readonly after: readonly ChainPart[];
	/** Row of its opening in the sheet; null where the opening is not there any more. */
	readonly row: string | null;
	readonly phase: string;
	/** What holds it now, before short parts are dealt out; nothing of a part that is needed no more. */
	readonly holds: readonly Hold[];
	readonly orders: readonly ChainOrder[];
	readonly lines: readonly ChainLine[];
	readonly measures: readonly ChainMeasure[];
	/** What was changed about it and about what it depends on, the latest first. */
	readonly history: readonly HistoryListing[];
	/** The person may open orders. */
	readonly buys: boolean;
}

/** A part that was looked for. */
interface FoundPart {
	readonly partId: string;
	readonly openingId: string;
	readonly words: string;
	readonly retired: boolean;
}

/** Page `/jobs/:job/parts` */
export interface FoundParts {
	readonly sought: string;
	/** At most 100. */
	readonly parts: readonly FoundPart[];
	/** How many more there are. */
	readonly more: number;
}
