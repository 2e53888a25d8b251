import { z } from 'zod';
import type { PlanAnswer } from '../../changes/buying.ts';
import type { OpeningPlan } from '../../delivery/ordering/purchase-order.ts';
import type { Actor } from '../identity/actor.ts';
import { changeRecords } from './change-records.ts';
import { bodyProblem } from './job-bodies.ts';
import { readBuying } from './job-buying.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { fieldChange } from './write-history.ts';

const plan = z.strictObject({
	openingId: z.string().min(1).max(300),
	startsOn: z.iso.date('A start is a day, such as 2026-12-01.').nullable(),
	release: z
		.number('A release is a number from 1 to 99.')
		.int('A release is a number from 1 to 99.')
		.min(1, 'A release is a number from 1 to 99.')
		.max(99, 'A release is a number from 1 to 99.'),
	boughtAs: z.enum(['parts', 'unit'])
});
const body = z.strictObject({ plans: z.array(plan).min(1).max(5000) });

/** Says when openings are wanted, which of them are sent for together, and how they are bought. */
export async function savePlan(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<PlanAnswer>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const buying = await readBuying(actor, services, jobId);
	if (!buying.ok) return buying;
	const { openingKeys } = buying.value;
	const wanted = parsed.data.plans;
	const unknown = wanted.find(({ openingId }) => !openingKeys.keys.has(openingId));
	if (unknown)
		return refuse(422, {
			message: `There is no opening ${unknown.openingId} in this job. Nothing was stored.`,
			field: 'openingId'
		});
	return changeRecords(actor, services, jobId, async (inside, key) => {
		const stored = new Map((await inside.plans.list(key)).map((one) => [one.openingKey, one]));
		const records = wanted.flatMap((next: OpeningPlan) => {
			const before = stored.get(openingKeys.keys.get(next.openingId) ?? '');
			const record = { record: 'Opening', name: next.openingId };
			return [
				...fieldChange(record, 'Start', before?.startsOn ?? null, next.startsOn),
				...fieldChange(record, 'Release', String(before?.release ?? 1), String(next.release)),
				...fieldChange(record, 'Bought as', before?.boughtAs ?? 'parts', next.boughtAs)
			];
		});
		await inside.plans.put(
			key,
			wanted.map(({ openingId, ...rest }) => ({
				openingKey: openingKeys.keys.get(openingId) ?? '',
				...rest
			}))
		);
		const title =
			wanted.length === 1 ? `Plan ${wanted[0]?.openingId ?? ''}` : `Plan ${wanted.length} openings`;
		return done({ kind: 'plan' as const, title, records, value: { plans: wanted } });
	});
}
