/** The dated list of everything that is still open about what a job buys. */
import type { OpenItem, ProposalView } from '../../changes/orders.ts';
import { daysAfter, workday } from '../../delivery/ordering/dates.ts';
import type { Day } from '../../delivery/ordering/purchase-order.ts';
import { dayOf } from './order-making.ts';
import type { OrderStanding } from './order-standing.ts';
import { earliest, standingLines } from './order-views.ts';
import { counted } from '../../quantity/counted.ts';

/** Days of the calendar after which an answer is asked for again. The shop’s own, invented. */
const answerDays = 5;

/** `phase 1, release 2` */
export const lotText = ({ phase, release }: { readonly phase: string; readonly release: number }): string =>
	`${phase === '' ? 'openings without a phase' : `phase ${phase}`}, release ${release}`;

type Dated = Omit<OpenItem, 'overdue'> & { readonly overdue?: boolean };

const ofProposal = (proposal: ProposalView): Dated => ({
	kind: 'toWrite',
	order: null,
	supplierName: proposal.supplierName,
	day: proposal.orderBy,
	text: `${counted(proposal.lines.length, 'line')} for ${lotText(proposal)} ${proposal.lines.length === 1 ? 'is' : 'are'} on no order yet.`
});

function ofOrder({ stored, latest, sent, state, open, outOfStep }: OrderStanding): Dated[] {
	if (stored.withdrawn) return [];
	const { orderId, number } = stored;
	const { supplierName, revision, lines } = latest.order;
	const days = new Map(lines.map((line) => [line.number, line.orderBy]));
	const about = { order: { orderId, number }, supplierName };
	const items: Dated[] = [];
	if (!latest.released)
		items.push({
			...about,
			kind: 'toRelease',
			day: earliest(standingLines(lines).map((line) => line.orderBy)),
			text: `${revision === 1 ? 'The order' : `Revision ${revision}`} is written and has not gone out.`
		});
	if (state === 'released' && sent) {
		const day = dayOf(new Date(sent.released.at));
		items.push({
			...about,
			kind: 'answer',
			day: workday(daysAfter(day, answerDays)),
			text: `Sent on ${day}; nothing has been answered.`
		});
	}
	for (const { difference, state: decided, decision, due, overdue } of open)
		items.push({
			...about,
			kind: decided === 'sentBack' ? 'sentBack' : 'difference',
			day: due,
			overdue,
			text:
				decided === 'sentBack'
					? `${difference.text} Sent back by ${decision?.by ?? ''}; the supplier has not answered it.`
					: difference.text
		});
	if (outOfStep.length > 0)
		items.push({
			...about,
			kind: 'outOfStep',
			day: earliest(outOfStep.map(({ line }) => days.get(line) ?? null)),
			text:
				outOfStep.length === 1
					? `The takeoff went on: ${outOfStep[0]?.text ?? ''}`
					: `The takeoff went on in ${outOfStep.length} things, the first: ${outOfStep[0]?.text ?? ''}`
		});
	return items;
}

const byDay = (a: Day | null, b: Day | null): number => {
	if (a === b) return 0;
	if (a === null) return 1;
	return b === null || a < b ? -1 : 1;
};

/** The soonest first; those without a day last, in the order given. */
export const openItems = (
	proposals: readonly ProposalView[],
	standings: readonly OrderStanding[],
	today: Day
): OpenItem[] =>
	[...proposals.map(ofProposal), ...standings.flatMap(ofOrder)]
		.map(({ overdue, ...item }): OpenItem => ({
			...item,
			overdue: overdue ?? (item.day !== null && today > item.day)
		}))
		.sort((a, b) => byDay(a.day, b.day));
