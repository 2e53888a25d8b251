/** What a comparison of packing lists with the material list says. Everything in it can be written as JSON. */
import type { Part, PartKind, TaskGroup } from '../takeoff/result.ts';
import type { SiteCount } from './count.ts';
import type { DeliveryAnswers } from './delivery-answers.ts';
import type { LineState, PackingFacts, PackingLine } from './line.ts';
import type { Alias, DecidedLine, LineDecision } from './line-decision.ts';
import type { Reach } from './wanted.ts';

/** One packing list; lists are given in the order they came. What is left out is not said. */
export interface DeliveryList {
	readonly deliveryId: string;
	readonly name: string;
	readonly lines: readonly PackingLine[];
	/** What it says of itself; goes before what is known of its supplier. */
	readonly facts?: PackingFacts | null;
	readonly supplierId?: string | null;
	/** Of its supplier: the side left and right are seen from, and what sizes measure. */
	readonly handsFrom?: PackingFacts['handsFrom'];
	readonly sizes?: PackingFacts['sizes'];
	/** What a person said about the whole list. */
	readonly answers?: DeliveryAnswers;
}

/** Something about a whole list that only a person can say. */
export type ListQuestion =
	/** It names another order or job, or nothing that this job has. None of it is counted. */
	| { readonly kind: 'isOurs'; readonly reason: string }
	/** It looks like a list that came before. None of it is counted. */
	| { readonly kind: 'isAnotherTruck'; readonly reason: string; readonly deliveryId: string }
	/** Its left and right may be seen from the other side. No line with a hand is counted. */
	| { readonly kind: 'handsFrom'; readonly reason: string };

/** What is to be said of a whole list. */
export interface ComparedList {
	readonly deliveryId: string;
	readonly name: string;
	readonly question: ListQuestion | null;
	/** Crates and pages that are there by its own count and that no list names. */
	readonly missingCrates: readonly string[];
	readonly missingPages: readonly string[];
	/** A sentence each. */
	readonly notes: readonly string[];
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

/** What a person may decide for; nothing is counted on it. */
export interface Proposal {
	/** Parts it speaks of; empty where it is no decision for parts. */
	readonly partIds: readonly string[];
	readonly reason: string;
	/** 0 to 1, see `confidence.ts`. */
	readonly confidence: number;
	/** What accepting it decides. */
	readonly decision: LineDecision;
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
	/** How sure the match is, 0 to 1, see `confidence.ts`; 0 when not matched. */
	readonly confidence: number;
	/** Only a person can say what it means, or whether it is to be counted. Nothing of it is counted till then. */
	readonly asked: boolean;
	/** The most likely first. */
	readonly proposals: readonly Proposal[];
	/** What a person decided, where it stands. */
	readonly decision: DecidedLine | null;
	/** The supplier's own word that was read. */
	readonly alias: Alias | null;
	/** What was counted on site; it goes before the list. */
	readonly count: SiteCount | null;
	/** Unit of the order the amounts are in. */
	readonly unit: string;
	readonly amounts: Amounts;
	/** Of the parts the line speaks of: ordered, and here whole over all lists. Null when not matched. */
	readonly ordered: string | null;
	readonly received: string | null;
	/** One or two sentences with the numbers. */
	readonly text: string;
}

/** What one list says of one part; what was counted on site goes before what is listed. */
export interface PartArrival {
	readonly deliveryId: string;
	/** Name of the list. */
	readonly name: string;
	/** These lines of it were counted on site. */
	readonly counted: boolean;
	/** Pieces in the unit of the order, decimal text of 0 or more. */
	readonly amounts: Readonly<Record<'whole' | 'damaged' | 'wrong' | 'backordered' | 'missing', string>>;
	/** In what the wrong ones differ. */
	readonly wrongIn: readonly Attribute[];
	readonly lines: readonly number[];
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
	/** What each list brought for it, or was to bring. */
	readonly arrivals: readonly PartArrival[];
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
	/** In the order given. */
	readonly lists: readonly ComparedList[];
	/** Lines of the lists in their order, then what is on no list. */
	readonly lines: readonly ComparedLine[];
	/** In the order given. */
	readonly parts: readonly ComparedPart[];
	/** In the order given. */
	readonly openings: readonly OpeningReadiness[];
	readonly notChecked: readonly NotChecked[];
}
