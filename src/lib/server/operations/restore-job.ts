import { z } from 'zod';
import type { Restored } from '../../changes/history.ts';
import type { Actor } from '../identity/actor.ts';
import { keyOf, noSuchJob } from './find-job.ts';
import { jobAsItStood } from './job-as-it-stood.ts';
import { bodyProblem, jobName } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { tellOthers, writeHistory } from './write-history.ts';

const body = z
	.strictObject({
		/** Right after this change … */
		revision: z.number().int().min(0).max(2_147_483_647).optional(),
		/** … or as it stood at this moment. */
		moment: z.iso.datetime({ offset: true, error: 'A moment is a date and a time in ISO 8601.' }).optional(),
		/** Of the copy; blank for the name of then. */
		name: jobName.optional()
	})
	.refine(
		({ revision, moment }) => (revision === undefined) !== (moment === undefined),
		'Name either a change or a moment.'
	);

/**
 * Makes a copy of a job as it stood right after a change: rows under their ids, in order, measures of then, the books it
 * pins, the packing lists that were in, and the parts that had been issued, so that the lists still find them.
 * By moment it is the last change, in the order they were made, whose time is not after it.
 */
export async function restoreJob(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<Restored>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const from = keyOf(actor, jobId);
	const to = keyOf(actor, services.newId());
	const at = services.now();
	let made = 0;
	const outcome = await services.storage.transaction(async (inside): Promise<Outcome<Restored>> => {
		const { jobs, openings, deliveries, parts, history } = inside;
		// Nothing changes the job while it is gone back through.
		const counted = await jobs.nextRevision(from, at);
		const job = counted === null ? null : await jobs.find(from);
		if (counted === null || !job) return noSuchJob;
		const revision =
			parsed.data.moment === undefined
				? (parsed.data.revision ?? 0)
				: await history.lastBy(from, new Date(parsed.data.moment).toISOString());
		if (revision === null)
			return refuse(422, { message: 'At that moment there was nothing of this job yet.', field: 'moment' });
		const stood = await jobAsItStood(inside, from, { ...job, revision: counted - 1 }, revision);
		if (!stood.ok) return stood;
		const then = stood.value;

		const name = parsed.data.name ?? then.name;
		const { technicalDigest, priceDigest } = job;
		await jobs.insert(to, { name, measures: then.measures, technicalDigest, priceDigest, demo: false }, at);
		await openings.arrange(to, then.rows, new Set(then.rows.map((row) => row.id)));
		for (const list of then.deliveries) await deliveries.add(to, list, new Date(list.receivedAt));
		await parts.save(to, then.parts, at);
		const stoodAfter = `change ${revision}${then.madeAt === null ? '' : ` of ${then.madeAt}`}`;
		await writeHistory(
			inside,
			to,
			actor,
			{
				revision: 0,
				kind: 'job',
				title: `Make the job as ${job.name} stood after change ${revision}`,
				records: [
					{ record: 'Job', name, field: 'Copied from', before: null, after: job.name },
					{ record: 'Job', name, field: 'As it stood after', before: null, after: stoodAfter },
					...then.deliveries.map((list) => ({
						record: 'Packing list',
						id: list.deliveryId,
						name: list.name,
						field: 'State',
						before: null,
						after: `${list.lines.length} lines`
					}))
				]
			},
			at
		);
		await writeHistory(
			inside,
			from,
			actor,
			{
				revision: counted,
				kind: 'job',
				title: `Copy the job as it stood after change ${revision}`,
				records: [{ record: 'Job', name: job.name, field: 'Copied to', before: null, after: name }]
			},
			at
		);
		made = counted;
		return done({ id: to.jobId, revision });
	});
	if (outcome.ok) tellOthers(services, from, made);
	return outcome;
}
