/** What holds an order back, and letting it go. */
import { isCancelled, lineName } from './attributes.ts';
import type { PurchaseOrder, Released } from './purchase-order.ts';

/** What the measure of an opening came to. An opening without one was not measured. */
interface MeasureVerdict {
	readonly verdict: 'agrees' | 'stop' | 'incomplete';
	/** What was found, one sentence with the numbers. */
	readonly text: string;
}

export interface ReleaseHold {
	readonly kind: 'notMeasured' | 'incomplete' | 'measure' | 'stop' | 'difference' | 'outOfStep' | 'empty';
	/** Null where it holds the whole order. */
	readonly openingId: string | null;
	readonly text: string;
}

export interface ReleaseFacts {
	/** By opening. */
	readonly measures: ReadonlyMap<string, MeasureVerdict>;
	/** Stops of the takeoff by opening, one sentence each. */
	readonly stops: ReadonlyMap<string, readonly string[]>;
	/** Sentences of what differs on the acknowledgement of an earlier revision and is not decided: a new one may not talk past it. */
	readonly undecided: readonly string[];
	/** Sentences of what no longer agrees with the takeoff. */
	readonly outOfStep: readonly string[];
}

function measureHold(openingId: string, measure: MeasureVerdict | undefined): ReleaseHold[] {
	if (!measure) return [{ kind: 'notMeasured', openingId, text: `${openingId} is not measured.` }];
	switch (measure.verdict) {
		case 'agrees':
			return [];
		case 'stop':
			return [{ kind: 'measure', openingId, text: `${openingId}: ${measure.text}` }];
		case 'incomplete':
			return [
				{ kind: 'incomplete', openingId, text: `${openingId} is not measured in full: ${measure.text}` }
			];
	}
}

/** What holds an order, opening by opening in the order of its lines, then the whole order. Empty: nothing that was checked does. */
export function releaseHolds(order: PurchaseOrder, facts: ReleaseFacts): ReleaseHold[] {
	const standing = order.lines.filter((line) => !isCancelled(line));
	const openingIds = [...new Set(standing.flatMap((line) => line.openingIds))];
	const whole = (kind: ReleaseHold['kind'], texts: readonly string[]): ReleaseHold[] =>
		texts.map((text) => ({ kind, openingId: null, text }));
	const unsaid = standing.filter(({ scope, size }) => scope === 'unit' && size === '');
	return [
		...openingIds.flatMap((openingId) => [
			...measureHold(openingId, facts.measures.get(openingId)),
			...(facts.stops.get(openingId) ?? []).map((text): ReleaseHold => ({
				kind: 'stop',
				openingId,
				text: `${openingId}: ${text}`
			}))
		]),
		...whole('outOfStep', facts.outOfStep),
		...whole('difference', facts.undecided),
		...whole(
			'empty',
			unsaid.map((line) => `${lineName(line)} says no size of its opening.`)
		),
		...whole('empty', order.revision === 1 && standing.length === 0 ? ['There is nothing on the order.'] : [])
	];
}

/**
 * Lets an order go: freely where nothing holds it, else for a reason that somebody answers for with their name.
 *
 * @param reason as typed; blanks are no reason
 * @param at ISO 8601, UTC
 */
export function release(
	holds: readonly ReleaseHold[],
	{ reason, by, at }: { readonly reason: string | null; readonly by: string; readonly at: string }
): { readonly ok: true; readonly released: Released } | { readonly ok: false; readonly message: string } {
	if (holds.length === 0) return { ok: true, released: { at, by, reason: null } };
	// Signs that cannot be seen say nothing either.
	const said = (reason ?? '').replace(/[\p{Cc}\p{Cf}]/gu, ' ').trim();
	if (said !== '') return { ok: true, released: { at, by, reason: said } };
	const count = holds.length === 1 ? 'One thing holds' : `${holds.length} things hold`;
	return {
		ok: false,
		message: `${count} this order: ${holds[0]?.text ?? ''}${holds.length > 1 ? ' And others.' : ''} Clear ${holds.length === 1 ? 'it' : 'them'}, or write why it goes out all the same.`
	};
}
