/** What a supplier answers to an order. */
import type { Day } from './purchase-order.ts';

/** One line of an answer. What it does not say is null and is not compared. */
export interface AcknowledgedLine {
	/** Where it stands in the file, from 1. */
	readonly line: number;
	/** Number of the line of our order it answers; null where it names none. */
	readonly orderLine: number | null;
	readonly mark: string | null;
	readonly description: string;
	/** Decimal text. */
	readonly quantity: string | null;
	/** As written: each, pair, EA, PR … */
	readonly unit: string | null;
	/** Decimal text, for one of the unit. */
	readonly unitPrice: string | null;
	/** Whole nanometres. */
	readonly length: number | null;
	readonly width: number | null;
	readonly size: string | null;
	readonly hand: 'left' | 'right' | null;
	readonly finish: string | null;
	readonly promised: Day | null;
	/** The supplier takes it, changes it, or does not deliver it; null where it does not say. */
	readonly answer: 'accepted' | 'changed' | 'refused' | null;
}

export interface Acknowledgement {
	/** The supplier's own number; null where there is none. */
	readonly number: string | null;
	/** The order it answers, as it names it. */
	readonly orderNumber: string | null;
	/** The revision it answers, as it names it. */
	readonly orderRevision: number | null;
	readonly currency: string | null;
	/** Day for all lines that name none. */
	readonly promised: Day | null;
	/** It answers the whole order and lists no lines: `accepted` as it stands, or `refused`. */
	readonly whole: 'accepted' | 'refused' | null;
	readonly lines: readonly AcknowledgedLine[];
}

export type AcknowledgedAttribute =
	| 'revision'
	| 'line'
	| 'quantity'
	| 'price'
	| 'size'
	| 'length'
	| 'width'
	| 'hand'
	| 'finish'
	| 'promised'
	| 'unit'
	| 'refused';

/** One thing in which the answer is not what was ordered. Somebody signs it off or sends it back. */
export interface AcknowledgedDifference {
	/** Same difference, same key, whenever it is compared: it carries the decision. */
	readonly key: string;
	/** Null where it is about the whole order, or a line that was not ordered. */
	readonly orderLine: number | null;
	readonly attribute: AcknowledgedAttribute;
	/** Both as a person reads them. */
	readonly ordered: string;
	readonly answered: string;
	/** One sentence with both. */
	readonly text: string;
	/** Prices: not for everybody. */
	readonly aboutMoney: boolean;
}

export interface DifferenceDecision {
	readonly key: string;
	readonly decision: 'signedOff' | 'sentBack';
	readonly reason: string;
	readonly by: string;
	readonly at: string;
}
