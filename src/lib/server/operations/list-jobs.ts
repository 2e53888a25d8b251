import type { JobSummary } from '../../changes/answer.ts';
import type { Actor } from '../identity/actor.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** All jobs of the person's company, the last changed first; deleted ones apart. */
export async function listJobs(
	actor: Actor,
	services: Services
): Promise<Outcome<{ jobs: JobSummary[]; deletedJobs: JobSummary[] }>> {
	const listed = await services.storage.jobs.list(actor.companyId);
	const summaries = (deleted: boolean): JobSummary[] =>
		listed
			.filter((job) => job.deleted === deleted)
			.map(({ id, name, measures, marks, openings, changedAt, demo }) => ({
				id,
				name,
				measures,
				marks,
				openings,
				changedAt,
				demo
			}));
	return done({ jobs: summaries(false), deletedJobs: summaries(true) });
}
