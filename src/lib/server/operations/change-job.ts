import { z } from 'zod';
import type { Actor } from '../identity/actor.ts';
import { keyOf, noSuchJob } from './find-job.ts';
import { bodyProblem, jobName, measures } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const body = z
	.strictObject({ name: jobName.optional(), measures: measures.optional(), deleted: z.boolean().optional() })
	.refine((change) => Object.keys(change).length > 0, 'Nothing to change was named.');

/** Renames a job, changes its measures, deletes it, or brings it back: deleting keeps everything. */
export async function changeJob(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<{ id: string }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const key = keyOf(actor, jobId);
	const { name, measures: newMeasures, deleted } = parsed.data;
	return services.storage.transaction(async ({ jobs }): Promise<Outcome<{ id: string }>> => {
		const job = await jobs.find(key);
		// A deleted job can be brought back, and nothing else.
		if (!job || (job.deleted && deleted !== false)) return noSuchJob;
		await jobs.change(
			key,
			{
				...(name === undefined ? {} : { name }),
				...(newMeasures === undefined ? {} : { measures: newMeasures }),
				...(deleted === undefined ? {} : { deleted })
			},
			services.now()
		);
		return done({ id: jobId });
	});
}
