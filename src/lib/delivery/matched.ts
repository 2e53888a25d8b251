/** What a line of a packing list was found to mean; or why it was not matched, and what a person may decide for. */
import type { Decimal } from 'decimal.js';
import type { Difference, Proposal } from './comparison.ts';
import { confidences } from './confidence.ts';
import type { Alias } from './line-decision.ts';
import type { Lot } from './wanted.ts';

/**
 * How the quantity of a line goes to its lots. `each`: so many of each of them (pairs). `together`: the pieces of all of
 * them in one number. Else what each of them gets, in the unit of the order; `contents`: of a kit, whose own count says
 * nothing of it.
 */
type Split = 'each' | 'together' | readonly Decimal[] | { readonly contents: readonly Decimal[] };

export interface Match {
	readonly matched: true;
	/** One lot; two, the left and the right hand, where the line is about both; or those of several marks. */
	readonly lots: readonly [Lot, ...Lot[]];
	/** Units of the order in one unit of the line; of each lot where it counts each. */
	readonly factor: number;
	readonly split: Split;
	readonly differences: readonly Difference[];
	readonly how: string;
	/** See `confidence.ts`. */
	readonly confidence: number;
	readonly alias: Alias | null;
	/** Taken in place of what was ordered, as a person decided. */
	readonly substitute: boolean;
}

export interface NoMatch {
	readonly matched: false;
	readonly reason: string;
	readonly proposals: readonly Proposal[];
	/** Only a person can say. */
	readonly asked: boolean;
	/** What may be in it, where it is a kit; what of it is still missing is proposed. */
	readonly kit: readonly Lot[];
}

const mostProposed = 5;

export const noMatch = (reason: string, proposals: readonly Proposal[] = []): NoMatch => ({
	matched: false,
	reason,
	proposals: proposals.slice(0, mostProposed),
	asked: true,
	kit: []
});

/** A line a person left out, or of a list that is not counted. */
export const leftOut = (reason: string, asked = false): NoMatch => ({
	matched: false,
	reason,
	proposals: [],
	asked,
	kit: []
});

export const proposeIds = (partIds: readonly string[], reason: string, confidence: number): Proposal => ({
	partIds,
	reason,
	confidence,
	decision: { kind: 'means', partIds }
});

/** A proposal a lot, in the order given. */
export const proposeLots = (
	lots: readonly Lot[],
	reason: string,
	confidence: number = lots.length > 1 ? confidences.oneOfSeveral : confidences.likely
): Proposal[] =>
	lots.slice(0, mostProposed).map((lot) =>
		proposeIds(
			lot.parts.map(({ part }) => part.partId),
			reason,
			confidence
		)
	);

/** One proposal for all the lots together. */
export const proposeTogether = (lots: readonly Lot[], reason: string, confidence: number): Proposal =>
	proposeIds(
		lots.flatMap(({ parts }) => parts.map(({ part }) => part.partId)),
		reason,
		confidence
	);

/** `a`, `a or b`, `a, b or c`. */
export const either = (words: readonly string[], word = 'or'): string =>
	words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${word} ${words.at(-1) ?? ''}`;
