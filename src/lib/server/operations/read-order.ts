import type {
	AnswerSummary,
	DifferenceView,
	LineAnswer,
	OrderAnswer,
	RevisionView
} from '../../changes/orders.ts';
import { handOf, sixteenth } from '../../delivery/ordering/acknowledged-line.ts';
import { matchAnswer } from '../../delivery/ordering/match-answers.ts';
import { orderChanges } from '../../delivery/ordering/order-changes.ts';
import type { LengthStyle } from '../../quantity/length.ts';
import type { Actor } from '../identity/actor.ts';
import { noSuchOrder } from './change-order.ts';
import { nextRevision } from './next-revision.ts';
import { readOrderMaking } from './order-making.ts';
import { holdsOf, versionOf, type OrderStanding } from './order-standing.ts';
import { earliest, lineView, standingLines, totalOf } from './order-views.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** What was answered, by number of our line. */
function answersByLine({ sent, answer, supplier }: OrderStanding): Record<number, LineAnswer[]> {
	const byLine: Record<number, LineAnswer[]> = {};
	if (!sent || !answer || !supplier) return byLine;
	for (const one of answer.content.lines) {
		const { line } = matchAnswer(one, handOf(one, supplier), sent.order.lines, sixteenth);
		if (!line) continue;
		(byLine[line.number] ??= []).push({
			line: one.line,
			description: one.description,
			quantity: one.quantity,
			unit: one.unit,
			unitPrice: one.unitPrice,
			promised: one.promised ?? answer.content.promised,
			answer: one.answer
		});
	}
	return byLine;
}

/** Every difference, decided or not, with the day it is to be decided by. */
function differenceViews({ sent, differences, decisions }: OrderStanding, today: string): DifferenceView[] {
	const lines = sent?.order.lines ?? [];
	const days = new Map(lines.map((line) => [line.number, line.orderBy]));
	const first = earliest(standingLines(lines).map((line) => line.orderBy));
	const decided = new Map(decisions.map((one) => [one.key, one]));
	return differences.map((difference) => {
		const decision = decided.get(difference.key);
		const due = difference.orderLine === null ? first : (days.get(difference.orderLine) ?? null);
		return {
			...difference,
			decision: decision
				? { decision: decision.decision, reason: decision.reason, by: decision.by, at: decision.at }
				: null,
			due,
			overdue: decision?.decision !== 'signedOff' && due !== null && today > due
		};
	});
}

/** The latest first. */
const revisionViews = ({ stored }: OrderStanding, style: LengthStyle): RevisionView[] =>
	stored.revisions
		.map(({ order, madeAt, madeBy, released }, at): RevisionView => {
			const before = stored.revisions[at - 1];
			return {
				revision: order.revision,
				madeAt,
				madeBy,
				released,
				lines: standingLines(order.lines).length,
				changes: before ? orderChanges(before.order, order, style) : []
			};
		})
		.reverse();

const answerSummaries = ({ answers }: OrderStanding): AnswerSummary[] =>
	answers
		.map(({ acknowledgementId, name, content, by, receivedAt, withdrawn }) => ({
			acknowledgementId,
			name,
			number: content.number,
			by,
			receivedAt,
			withdrawn
		}))
		.reverse();

/** One order with its revisions, what holds it, what was answered, and what of that differs. */
export async function readOrder(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string
): Promise<Outcome<OrderAnswer>> {
	const made = await readOrderMaking(actor, services, jobId);
	if (!made.ok) return made;
	const { buying, today, standings, measured, request } = made.value;
	const standing = standings.find(({ stored }) => stored.orderId === orderId);
	if (!standing) return noSuchOrder;
	const { stored, latest, state, answer } = standing;
	const { order, released } = latest;
	const lines = order.lines.map(lineView);
	const next = nextRevision(standing, made.value);
	return done({
		today,
		orderId,
		number: stored.number,
		supplierName: order.supplierName,
		supplierThere: buying.suppliers.some(({ id }) => id === stored.supplierId),
		phase: order.phase,
		release: order.release,
		currency: order.currency,
		state,
		revision: order.revision,
		editable: !stored.withdrawn && released === null,
		version: versionOf(stored),
		lines,
		total: totalOf(lines),
		holds: stored.withdrawn || released ? [] : holdsOf(standing, measured),
		outOfStep: standing.outOfStep.map(({ text }) => text),
		next: next && {
			revision: next.order.revision,
			changes: next.changes,
			digest: next.digest
		},
		revisions: revisionViews(standing, request.style),
		answers: answerSummaries(standing),
		answer: answer && {
			acknowledgementId: answer.acknowledgementId,
			whole: answer.content.whole,
			promised: answer.content.promised,
			byLine: answersByLine(standing),
			differences: differenceViews(standing, today)
		}
	});
}
