import { z } from 'zod';
import type { OrderChanged } from '../../changes/orders.ts';
import type { AcknowledgedDifference } from '../../delivery/ordering/acknowledgement.ts';
import type { Actor } from '../identity/actor.ts';
import { lengthStyleOf } from '../../takeoff/inputs.ts';
import { changeOrder } from './change-order.ts';
import { findJob } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { answerThatCounts, differencesOf, latestOf } from './order-standing.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const body = z.strictObject({
	keys: z.array(z.string().min(1).max(20_000)).min(1, 'Choose a difference.').max(2000),
	/** `open` takes a decision back. */
	decision: z.enum(['signedOff', 'sentBack', 'open']),
	reason: z.string().max(2000, 'A reason has at most 2,000 characters.')
});

const words = { signedOff: 'signed off', sentBack: 'sent back', open: 'open again' } as const;
const titles = { signedOff: 'Sign off', sentBack: 'Send back', open: 'Open again' } as const;

/** What a difference is about, without what it says: it may be a price. */
const aboutOf = ({ orderLine, attribute }: AcknowledgedDifference): string =>
	`${orderLine === null ? 'The answer' : `Line ${orderLine}`}, ${attribute}`;

/**
 * Signs differences of the answer that counts off, sends them back to the supplier for a reason, or takes what was decided
 * back. A difference that the answer has no more is told, and nothing is stored.
 */
export async function decideDifferences(
	actor: Actor,
	services: Services,
	jobId: string,
	orderId: string,
	request: unknown
): Promise<Outcome<OrderChanged>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { decision, keys } = parsed.data;
	const reason = parsed.data.reason.replace(/[\p{Cc}\p{Cf}\s]+/gu, ' ').trim();
	if (decision === 'sentBack' && reason === '')
		return refuse(422, {
			message: 'Write what the supplier is to put right: it is sent back with that.',
			field: 'reason'
		});
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const style = lengthStyleOf(found.value.measures);
	return changeOrder(
		actor,
		services,
		jobId,
		{ orderId, version: null },
		async ({ stored, inside, key, at }) => {
			const answer = answerThatCounts(stored, await inside.acknowledgements.all(key));
			const supplier = await inside.suppliers.find(key.companyId, stored.supplierId);
			const differences = new Map(
				differencesOf(stored, answer, supplier, style).map((difference) => [difference.key, difference])
			);
			const asked = [...new Set(keys)].map((one) => differences.get(one));
			const known = asked.filter((difference) => difference !== undefined);
			if (known.length < asked.length)
				return refuse(409, {
					message: `Order ${stored.number} has another answer by now, in which ${known.length === 0 ? 'this difference is' : 'some of these differences are'} not there. Nothing was stored; look at it as it is now.`
				});
			const decided = new Map(
				(await inside.acknowledgements.decisions(key))
					.filter((one) => one.orderId === orderId)
					.map((one) => [one.key, one])
			);
			const records: { field: string; before: string | null; after: string | null }[] = [];
			for (const difference of known) {
				const before = decided.get(difference.key);
				const about = { orderId, difference: difference.key };
				if (decision === 'open') {
					if (!before) continue;
					await inside.acknowledgements.undecide(key, orderId, difference.key);
				} else {
					if (before?.decision === decision && before.reason === reason) continue;
					await inside.acknowledgements.decide(key, about, { decision, reason }, actor, at);
				}
				records.push({
					field: aboutOf(difference),
					before: before ? words[before.decision] : null,
					after: words[decision]
				});
			}
			const count = known.length === 1 ? 'a difference' : `${known.length} differences`;
			return done({
				title: `${titles[decision]} ${count} of order ${stored.number}`,
				records,
				value: { number: stored.number, revision: latestOf(stored).order.revision }
			});
		}
	);
}
