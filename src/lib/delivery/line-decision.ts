/** What a person decided about one line of a packing list. It stands until it is taken back. */
import type { PartKind } from '../takeoff/result.ts';
import type { PackingLine } from './line.ts';

/** Some pieces for some parts. */
interface Contents {
	readonly partIds: readonly string[];
	/** Pieces, in the unit of the order, decimal text above 0. */
	readonly quantity: string;
}

export type LineDecision =
	/** It means these parts. */
	| { readonly kind: 'means'; readonly partIds: readonly string[] }
	/** A kit, opened into what is in it. */
	| { readonly kind: 'opens'; readonly contents: readonly Contents[] }
	/** Something else than ordered, taken in place of these parts. */
	| { readonly kind: 'substitutes'; readonly partIds: readonly string[]; readonly reason: string }
	/** Not for this job, or nobody ordered it. */
	| { readonly kind: 'notOurs'; readonly reason: string }
	/** The same goods as an earlier line: not counted again. */
	| { readonly kind: 'repeats'; readonly deliveryId: string; readonly line: number }
	/** Misread by a scanner or a hand: what it really says. */
	| { readonly kind: 'reads'; readonly fields: Partial<Omit<PackingLine, 'line'>> };

export interface DecidedLine {
	readonly deliveryId: string;
	readonly line: number;
	readonly decision: LineDecision;
	readonly by: string;
	readonly at: string;
}

/** What a supplier calls something: remembered from an accepted proposal, for the lists to come. */
export interface Alias {
	readonly aliasId: string;
	readonly supplierId: string;
	/** Words of the line in one spelling (`words.ts`). */
	readonly phrase: string;
	readonly kind: PartKind;
	/** Shop-book key, where the words mean one item only. */
	readonly item: string | null;
	readonly hand: 'left' | 'right' | null;
}
