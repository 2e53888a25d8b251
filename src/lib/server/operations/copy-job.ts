import { z } from 'zod';
import type { Actor } from '../identity/actor.ts';
import { keyOf, noSuchJob } from './find-job.ts';
import { bodyProblem, jobName } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { writeHistory } from './write-history.ts';

const body = z.strictObject({ name: jobName });

/**
 * Copies a job with its rows and the books it pins. Rows get ids of their own; edits, issued parts and packing lists
 * stay with the first.
 */
export async function copyJob(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<{ id: string }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const from = keyOf(actor, jobId);
	const to = keyOf(actor, services.newId());
	return services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		const { jobs, openings } = inside;
		const job = await jobs.find(from);
		if (!job || job.deleted) return noSuchJob;
		const rows = (await openings.live(from)).map(({ cells }) => ({
			id: services.newId(),
			cells,
			removed: false
		}));
		const { measures, technicalDigest, priceDigest } = job;
		const { name } = parsed.data;
		const at = services.now();
		await jobs.insert(to, { name, measures, technicalDigest, priceDigest, demo: false }, at);
		await openings.arrange(to, rows, new Set(rows.map((row) => row.id)));
		const records = [{ record: 'Job', name, field: 'Copied from', before: null, after: job.name }];
		await writeHistory(
			inside,
			to,
			actor,
			{ revision: 0, kind: 'job', title: `Make the job as a copy of ${job.name}`, records },
			at
		);
		return done({ id: to.jobId });
	});
}
