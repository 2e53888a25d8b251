/** Finds a job of the person's company. */
import type { JobHeading } from '../../changes/answer.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobRecord } from '../storage/job.repository.ts';
import type { JobKey } from '../storage/keys.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

export const keyOf = (actor: Actor, jobId: string): JobKey => ({ companyId: actor.companyId, jobId });

export const noSuchJob = refuse(404, {
	message: 'There is no such job. It may have been deleted; the list of jobs shows it.'
});

export async function findJob(actor: Actor, services: Services, jobId: string): Promise<Outcome<JobRecord>> {
	const job = await services.storage.jobs.find(keyOf(actor, jobId));
	return job && !job.deleted ? done(job) : noSuchJob;
}

export const headingOf = ({ id, name, measures, revision, demo }: JobRecord): JobHeading => ({
	id,
	name,
	measures,
	revision,
	demo
});
