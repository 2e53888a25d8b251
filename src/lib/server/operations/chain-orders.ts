/** What orders and their answers have of one part. */
import type { ChainAnswerToOrder, ChainOrder } from '../../changes/chain.ts';
import type { PurchaseLine } from '../../delivery/ordering/purchase-order.ts';
import type { StoredAcknowledgement } from '../storage/acknowledgement.repository.ts';
import type { OrderStanding } from './order-standing.ts';
import { linesOfAnswer } from './part-orders.ts';

function answerOf(
	standing: OrderStanding,
	answer: StoredAcknowledgement,
	line: PurchaseLine,
	buys: boolean
): ChainAnswerToOrder {
	const { acknowledgementId, name, content, by, receivedAt, withdrawn } = answer;
	const counts = standing.answer?.acknowledgementId === acknowledgementId;
	const decided = new Map(standing.decisions.map((one) => [one.key, one]));
	const differences = (counts ? standing.differences : []).filter(
		({ orderLine, attribute, aboutMoney }) =>
			!aboutMoney && (orderLine === line.number || (orderLine === null && attribute === 'revision'))
	);
	return {
		...{ acknowledgementId, name, number: content.number, by, receivedAt, withdrawn, counts },
		whole: content.whole,
		lines: linesOfAnswer(standing, answer, line).map((one) => ({
			line: one.line,
			quantity: one.quantity,
			unit: one.unit,
			promised: one.promised ?? content.promised,
			answer: one.answer
		})),
		differences: differences.map(({ key, text }) => {
			const decision = decided.get(key);
			return {
				text,
				decision: decision?.decision ?? null,
				reason: buys ? (decision?.reason ?? null) : null,
				by: decision?.by ?? null,
				at: decision?.at ?? null
			};
		})
	};
}

/** @param buys whether reasons may be seen: people write prices into them */
export const chainOrders = (
	standings: readonly OrderStanding[],
	partId: string,
	buys: boolean
): ChainOrder[] =>
	standings.flatMap((standing): ChainOrder[] => {
		const { stored, answers, differences } = standing;
		const having = stored.revisions.flatMap((revision) => {
			const line = revision.order.lines.find((one) => one.partIds.includes(partId));
			return line ? [{ ...revision, line }] : [];
		});
		const last = having.at(-1);
		if (!last) return [];
		const { number: line, title, quantity, unit, needBy, partIds } = last.line;
		return [
			{
				orderId: stored.orderId,
				number: stored.number,
				supplierName: last.order.supplierName,
				withdrawn: stored.withdrawn,
				...{ line, title, quantity, unit, needBy, parts: partIds.length },
				revisions: having.map(({ order, madeAt, madeBy, released }) => ({
					revision: order.revision,
					madeAt,
					madeBy,
					releasedAt: released?.at ?? null,
					releasedBy: released?.by ?? null,
					reason: buys ? (released?.reason ?? null) : null
				})),
				answers: answers.map((answer) => answerOf(standing, answer, last.line, buys)),
				moneyDiffers: buys && differences.some((one) => one.aboutMoney && one.orderLine === line)
			}
		];
	});
