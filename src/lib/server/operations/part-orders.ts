/** How far the order of every part has come, and what about orders is still to be decided before its parts count. */
import { handOf, sixteenth } from '../../delivery/ordering/acknowledged-line.ts';
import type { AcknowledgedLine } from '../../delivery/ordering/acknowledgement.ts';
import { isCancelled } from '../../delivery/ordering/attributes.ts';
import { knownAs, type Predecessors } from '../../delivery/ordering/lineage.ts';
import { matchAnswer } from '../../delivery/ordering/match-answers.ts';
import type { Day, PurchaseLine } from '../../delivery/ordering/purchase-order.ts';
import type { OpenDecision, OrderStanding as PartOrder } from '../../delivery/readiness/inputs.ts';
import type { Part } from '../../takeoff/result.ts';
import type { StoredAcknowledgement } from '../storage/acknowledgement.repository.ts';
import type { OrderStanding } from './order-standing.ts';

/** Lines of an answer that answer one line of the order as it went out. */
export function linesOfAnswer(
	{ sent, supplier }: Pick<OrderStanding, 'sent' | 'supplier'>,
	answer: StoredAcknowledgement,
	line: PurchaseLine
): AcknowledgedLine[] {
	if (!sent || !supplier) return [];
	return answer.content.lines.filter(
		(one) => matchAnswer(one, handOf(one, supplier), sent.order.lines, sixteenth).line?.number === line.number
	);
}

/** The last of some days: everything of a line is there by then. */
const latest = (days: readonly (Day | null)[]): Day | null =>
	days
		.filter((day) => day !== null)
		.sort()
		.at(-1) ?? null;

/** When a part first went out on an order. */
const firstSent = ({ stored }: OrderStanding, partId: string): string | null =>
	stored.revisions.find(
		({ order, released }) => released !== null && order.lines.some((line) => line.partIds.includes(partId))
	)?.released?.at ?? null;

function lineStanding(standing: OrderStanding, line: PurchaseLine, sentAt: string): PartOrder {
	const { stored, sent, answer } = standing;
	const called = { orderNumber: stored.number, supplier: sent?.order.supplierName ?? '' };
	const ordered: PartOrder = { ...called, state: 'ordered', sentAt };
	if (!answer) return ordered;
	const { whole, promised } = answer.content;
	const answered = { ...called, answeredAt: answer.receivedAt };
	if (whole === 'refused') return { ...answered, state: 'refused', promised: null };
	const lines = linesOfAnswer(standing, answer, line);
	if (lines.length === 0)
		return whole === 'accepted' ? { ...answered, state: 'acknowledged', promised } : ordered;
	const taken = lines.filter((one) => one.answer !== 'refused');
	return taken.length === 0
		? { ...answered, state: 'refused', promised: null }
		: { ...answered, state: 'acknowledged', promised: latest(taken.map((one) => one.promised ?? promised)) };
}

/** By part id, of every part on an order that went out and stands; the others are not ordered. */
export function partOrders(standings: readonly OrderStanding[]): ReadonlyMap<string, PartOrder> {
	const orders = new Map<string, PartOrder>();
	for (const standing of standings) {
		const { stored, sent } = standing;
		if (stored.withdrawn || !sent) continue;
		for (const line of sent.order.lines) {
			if (isCancelled(line)) continue;
			for (const partId of line.partIds)
				if (!orders.has(partId))
					orders.set(partId, lineStanding(standing, line, firstSent(standing, partId) ?? sent.released.at));
		}
	}
	return orders;
}

/**
 * Differences of answers that nobody signed off, and orders that the takeoff went past. Those about money hold no work,
 * and are not for everybody.
 */
export function orderDecisions(
	standings: readonly OrderStanding[],
	parts: readonly Part[],
	predecessors: Predecessors
): OpenDecision[] {
	return standings.flatMap(({ stored, sent, answer, open, outOfStep }): OpenDecision[] => {
		if (stored.withdrawn) return [];
		const lines = sent?.order.lines ?? [];
		const differences = open
			.filter(
				({ difference: { aboutMoney, attribute, orderLine } }) =>
					!aboutMoney && (orderLine !== null || attribute === 'revision')
			)
			.map(({ difference, state, decision }): OpenDecision => ({
				partIds: lines
					.filter(({ number }) => difference.orderLine === null || number === difference.orderLine)
					.flatMap(({ partIds }) => partIds),
				text: `Order ${stored.number}: ${difference.text}`,
				who: state === 'sentBack' && sent ? { supplier: sent.order.supplierName } : 'purchasing',
				since: decision?.at ?? answer?.receivedAt ?? null
			}));
		const steps = outOfStep
			.filter(({ kind }) => kind !== 'gone')
			.map(({ partIds, text }): OpenDecision => {
				const ordered = new Set(partIds);
				return {
					partIds: parts
						.filter((part) => knownAs(part, ordered, predecessors) !== null)
						.map(({ partId }) => partId),
					text: `Order ${stored.number}: ${text}`,
					who: 'purchasing',
					since: null
				};
			});
		return [...differences, ...steps];
	});
}
