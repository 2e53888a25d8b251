/** What a comparison of packing lists with the material list says. Everything in it can be written as JSON. */
import type { Part, PartKind, TaskGroup } from '../takeoff/result.ts';
import type { LineState, PackingLine } from './line.ts';
import type { Reach } from './order.ts';

/** One packing list; lists are given in the order they came. */
export interface DeliveryList {
	readonly deliveryId: string;
	readonly name: string;
	readonly lines: readonly PackingLine[];
}

export type Attribute =
	| 'length'
	| 'width'
	| 'size'
	| 'hand'
	| 'side'
	| 'finish'
	| 'item'
	| 'kind'
	| 'mark'
	| 'unit'
	| 'quantity'
	| 'revision'
	| 'remark';

/** One attribute in which a line and its part disagree, both as a person reads them. */
export interface Difference {
	readonly attribute: Attribute;
	readonly ordered: string;
	readonly shipped: string;
}

/** Parts a person may decide for; nothing is counted on them. */
export interface Proposal {
	readonly partIds: readonly string[];
	readonly reason: string;
}

/**
 * What became of the quantity of a line, as decimal text in the unit of the order. `listed` is the sum of the others.
 * A remark such as `2 to follow` may add to what the line says is here.
 */
export interface Amounts {
	readonly listed: string;
	/** Whole, right and needed. */
	readonly here: string;
	/** Whole and right, more than ordered. */
	readonly over: string;
	readonly damaged: string;
	readonly wrong: string;
	readonly backordered: string;
	readonly missing: string;
	/** Of a line that was not matched. */
	readonly unmatched: string;
}

/** One line of a packing list, or parts that are on none. */
export interface ComparedLine {
	/** Null for parts that are on no list. */
	readonly deliveryId: string | null;
	readonly delivery: string | null;
	readonly line: number | null;
	readonly state: LineState;
	/** Mark of the part it was matched with, else the mark on the line. */
	readonly mark: string | null;
	readonly description: string;
	readonly kind: PartKind | null;
	/** Parts it was dealt to; where none took anything, the first it speaks of. Empty when not matched. */
	readonly partIds: readonly string[];
	/** How wide the line speaks; null when not matched. */
	readonly reach: Reach | null;
	/** Why it was matched, or why not. */
	readonly how: string;
	readonly differences: readonly Difference[];
	readonly proposal: Proposal | null;
	/** Unit of the order the amounts are in. */
	readonly unit: string;
	readonly amounts: Amounts;
	/** Of the parts the line speaks of: ordered, and here whole over all lists. Null when not matched. */
	readonly ordered: string | null;
	readonly received: string | null;
	/** One or two sentences with the numbers. */
	readonly text: string;
}

export interface ComparedPart {
	readonly partId: string;
	readonly openingId: string;
	readonly mark: string;
	readonly title: string;
	readonly unit: string;
	readonly supply: Part['supply'];
	readonly ordered: string;
	/** Here, whole and right; never more than ordered. */
	readonly received: string;
	readonly damaged: string;
	readonly wrong: string;
	readonly backordered: string;
	readonly missing: string;
	/** What came beyond the order, told at the last part it was meant for. */
	readonly over: string;
	/** `notListed` for a part on no list; the shop's own stock is on a list only by chance. */
	readonly state: Exclude<LineState, 'notOrdered'>;
	/** Lines that were dealt to it. */
	readonly lines: readonly { readonly deliveryId: string; readonly line: number }[];
}

export interface TaskReadiness {
	readonly task: TaskGroup;
	/** All its parts are here, whole and right. */
	readonly clear: boolean;
	/** One sentence a part that holds it. */
	readonly holds: readonly string[];
}

export interface OpeningReadiness {
	readonly openingId: string;
	readonly mark: string;
	/** No stop, and every task is clear. */
	readonly clear: boolean;
	/** Stops of the takeoff; they hold the whole opening. */
	readonly stops: readonly string[];
	/** Tasks that need parts, in the order of hanging. */
	readonly tasks: readonly TaskReadiness[];
}

/** What `clear` says nothing about. `stock`: parts from the shop's own stock that no list names. */
type NotChecked = 'fieldMeasure' | 'stock';

export interface Comparison {
	/** Lines of the lists in their order, then what is on no list. */
	readonly lines: readonly ComparedLine[];
	/** In the order given. */
	readonly parts: readonly ComparedPart[];
	/** In the order given. */
	readonly openings: readonly OpeningReadiness[];
	readonly notChecked: readonly NotChecked[];
}
