import { materialListText } from '../../exchange/material-list.ts';
import type { Actor } from '../identity/actor.ts';
import { issueParts } from './issue-parts.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** The material list of a job as delimited text, under the ids its parts keep. */
export async function writeMaterialList(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<{ content: string; jobName: string }>> {
	const issued = await issueParts(actor, services, jobId);
	if (!issued.ok) return issued;
	const { job, parts } = issued.value;
	return done({ content: materialListText(parts, job.measures), jobName: job.name });
}
