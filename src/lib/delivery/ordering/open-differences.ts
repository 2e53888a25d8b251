/** What on an acknowledgement still has to be decided, and by when. */
import type { AcknowledgedDifference, DifferenceDecision } from './acknowledgement.ts';
import { isCancelled } from './attributes.ts';
import type { Day, PurchaseOrder } from './purchase-order.ts';

export interface OpenDifference {
	readonly difference: AcknowledgedDifference;
	/** `sentBack`: the supplier has it; it is settled only by an answer that agrees. */
	readonly state: 'undecided' | 'sentBack';
	/** The last decision, of what was sent back. */
	readonly decision: DifferenceDecision | null;
	/** The day the line has to be sent by so that it comes in time; of the whole order the earliest. Null while that is not known. */
	readonly due: Day | null;
	/** The day is past. */
	readonly overdue: boolean;
}

/** The decision that counts: the last one of each key. */
function lastDecisions(decisions: readonly DifferenceDecision[]): ReadonlyMap<string, DifferenceDecision> {
	const last = new Map<string, DifferenceDecision>();
	for (const decision of decisions) {
		const before = last.get(decision.key);
		if (!before || before.at <= decision.at) last.set(decision.key, decision);
	}
	return last;
}

const earlier = (a: Day | null, b: Day | null): number => {
	if (a === b) return 0;
	if (a === null) return 1;
	return b === null || a < b ? -1 : 1;
};

/**
 * Differences that nobody signed off, the most urgent first: by day (those without one last), then as given. A decision
 * covers the difference of its key and no other.
 *
 * @param decisions on this order, whichever acknowledgement they were made on
 */
export function openDifferences(
	order: PurchaseOrder,
	differences: readonly AcknowledgedDifference[],
	decisions: readonly DifferenceDecision[],
	today: Day
): OpenDifference[] {
	const decided = lastDecisions(decisions);
	const days = new Map(order.lines.map((line) => [line.number, line.orderBy]));
	const first =
		order.lines
			.filter((line) => !isCancelled(line))
			.map((line) => line.orderBy)
			.sort(earlier)[0] ?? null;
	return differences
		.flatMap((difference): OpenDifference[] => {
			const decision = decided.get(difference.key) ?? null;
			if (decision?.decision === 'signedOff') return [];
			const due = difference.orderLine === null ? first : (days.get(difference.orderLine) ?? null);
			return [
				{
					difference,
					state: decision ? 'sentBack' : 'undecided',
					decision,
					due,
					overdue: due !== null && today > due
				}
			];
		})
		.sort((a, b) => earlier(a.due, b.due));
}
