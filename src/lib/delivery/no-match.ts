/** A line that was not matched: why, and what a person may decide for. */
import type { Proposal } from './comparison.ts';
import type { Lot } from './order.ts';

export interface NoMatch {
	readonly matched: false;
	readonly reason: string;
	readonly proposal: Proposal | null;
}

const mostProposed = 8;

export const noMatch = (reason: string, proposal: Proposal | null = null): NoMatch => ({
	matched: false,
	reason,
	proposal
});

/** Null where there is nothing to propose. */
export const proposeIds = (partIds: readonly string[], reason: string): Proposal | null =>
	partIds.length === 0 ? null : { partIds: partIds.slice(0, mostProposed), reason };

export const proposeLots = (lots: readonly Lot[], reason: string): Proposal | null =>
	proposeIds(
		lots
			.slice(0, mostProposed)
			.flatMap(({ parts }) => parts.slice(0, mostProposed).map(({ part }) => part.partId)),
		reason
	);

/** `a`, `a or b`, `a, b or c`. */
export const either = (words: readonly string[]): string =>
	words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1) ?? ''}`;
