/** One order as it stands: what went out, what was answered, what is open about it. */
import type { OrderState } from '../../changes/orders.ts';
import type { AcknowledgedDifference } from '../../delivery/ordering/acknowledgement.ts';
import { compareAcknowledgement } from '../../delivery/ordering/compare-acknowledgement.ts';
import type { Predecessors } from '../../delivery/ordering/lineage.ts';
import { openDifferences, type OpenDifference } from '../../delivery/ordering/open-differences.ts';
import { outOfStep, type OutOfStep } from '../../delivery/ordering/out-of-step.ts';
import type {
	Day,
	OrderRevision,
	PurchaseOrder,
	Released,
	Supplier
} from '../../delivery/ordering/purchase-order.ts';
import { releaseHolds, type ReleaseFacts, type ReleaseHold } from '../../delivery/ordering/release.ts';
import type { LengthStyle } from '../../quantity/length.ts';
import type { Part } from '../../takeoff/result.ts';
import type { StoredAcknowledgement, StoredDecision } from '../storage/acknowledgement.repository.ts';
import { digestOf } from '../storage/digest.ts';
import type { StoredOrder } from '../storage/order.repository.ts';

/** A revision that went out. */
export type SentRevision = OrderRevision & { readonly released: Released };

export interface OrderStanding {
	readonly stored: StoredOrder;
	readonly supplier: Supplier | null;
	readonly latest: OrderRevision;
	/** The last that went out; null where none did. */
	readonly sent: SentRevision | null;
	readonly state: OrderState;
	/** Of this order, the first received first. */
	readonly answers: readonly StoredAcknowledgement[];
	/** The answer that counts. */
	readonly answer: StoredAcknowledgement | null;
	readonly decisions: readonly StoredDecision[];
	/** Of the answer that counts against the revision that went out. */
	readonly differences: readonly AcknowledgedDifference[];
	readonly open: readonly OpenDifference[];
	/** Of the latest revision against the takeoff; nothing of an order that is withdrawn. */
	readonly outOfStep: readonly OutOfStep[];
}

export function latestOf({ number, revisions }: StoredOrder): OrderRevision {
	const latest = revisions.at(-1);
	if (!latest) throw new Error(`order ${number} has no revision`);
	return latest;
}

const isSent = (revision: OrderRevision): revision is SentRevision => revision.released !== null;

export const sentOf = ({ revisions }: StoredOrder): SentRevision | null =>
	revisions.filter(isSent).at(-1) ?? null;

/** The latest that is not withdrawn of those that came since the last release: a new revision wants a new answer. */
export function answerThatCounts(
	stored: StoredOrder,
	answers: readonly StoredAcknowledgement[]
): StoredAcknowledgement | null {
	const sent = sentOf(stored);
	if (!sent) return null;
	const standing = answers.filter(
		({ orderId, withdrawn, receivedAt }) =>
			orderId === stored.orderId && !withdrawn && receivedAt >= sent.released.at
	);
	return standing.at(-1) ?? null;
}

/** Everything in which the answer that counts is not what was ordered. */
export const differencesOf = (
	stored: StoredOrder,
	answer: StoredAcknowledgement | null,
	supplier: Supplier | null,
	style: LengthStyle
): readonly AcknowledgedDifference[] => {
	const sent = sentOf(stored);
	return sent && answer && supplier
		? compareAcknowledgement(sent.order, answer.content, { supplier, style })
		: [];
};

function stateOf(stored: StoredOrder, answer: StoredAcknowledgement | null): OrderState {
	if (stored.withdrawn) return 'withdrawn';
	if (!isSent(latestOf(stored))) return sentOf(stored) ? 'revised' : 'written';
	return answer ? 'answered' : 'released';
}

export interface StandingFacts {
	readonly acknowledgements: readonly StoredAcknowledgement[];
	readonly decisions: readonly StoredDecision[];
	readonly today: Day;
	readonly style: LengthStyle;
	readonly now: { readonly parts: readonly Part[]; readonly predecessors: Predecessors };
}

export function standingOrder(
	stored: StoredOrder,
	supplier: Supplier | null,
	{ acknowledgements, decisions, today, style, now }: StandingFacts
): OrderStanding {
	const latest = latestOf(stored);
	const answers = acknowledgements.filter(({ orderId }) => orderId === stored.orderId);
	const answer = answerThatCounts(stored, answers);
	const own = decisions.filter(({ orderId }) => orderId === stored.orderId);
	const differences = differencesOf(stored, answer, supplier, style);
	const sent = sentOf(stored);
	return {
		stored,
		supplier,
		latest,
		sent,
		state: stateOf(stored, answer),
		answers,
		answer,
		decisions: own,
		differences,
		open: sent && !stored.withdrawn ? openDifferences(sent.order, differences, own, today) : [],
		outOfStep: stored.withdrawn ? [] : outOfStep(latest.order, now.parts, now.predecessors)
	};
}

/** What holds the latest revision back. */
export const holdsOf = (
	{ latest, open, outOfStep: steps }: Pick<OrderStanding, 'latest' | 'open' | 'outOfStep'>,
	measured: Pick<ReleaseFacts, 'measures' | 'stops'>
): ReleaseHold[] =>
	releaseHolds(latest.order, {
		...measured,
		undecided: open.filter(({ state }) => state === 'undecided').map(({ difference }) => difference.text),
		outOfStep: steps.map(({ text }) => text)
	});

/** Sixteen signs that are others as soon as anything is: of what somebody saw when they changed it. */
export const seen = (something: object): string => digestOf(something).slice(0, 16);

/** Of everything that a change of an order relies on. */
export function versionOf(stored: StoredOrder): string {
	const { order, madeAt, released } = latestOf(stored);
	return seen({ order, madeAt, released, withdrawn: stored.withdrawn });
}

/** The number as a person calls it, with its revision from the second on. */
export const calledOrder = ({ number, revision }: Pick<PurchaseOrder, 'number' | 'revision'>): string =>
	revision === 1 ? number : `${number} revision ${revision}`;
