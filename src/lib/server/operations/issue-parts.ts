import type { Engine, JobTakeoff } from '../../takeoff/engine.ts';
import type { Part } from '../../takeoff/result.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobRecord } from '../storage/job.repository.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import { reconcileParts } from './reconcile-parts.ts';
import type { Services } from './services.ts';

export interface IssuedTakeoff {
	readonly job: JobRecord;
	readonly engine: Engine;
	readonly takeoff: JobTakeoff;
	/** The material list, under the ids the parts keep. */
	readonly parts: readonly Part[];
}

/** Takes off the whole job and issues its parts. */
export async function issueParts(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<IssuedTakeoff>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const job = found.value;
	const engine = await services.engines.engine(actor.companyId, job.technicalDigest);
	const key = keyOf(actor, jobId);
	return services.storage.transaction(async ({ jobs, openings, parts }) => {
		// Two that issue at once would give one id to two parts.
		await jobs.hold(key);
		const takeoff = engine.takeoff(await openings.live(key), job.measures);
		const reconciled = reconcileParts(engine, takeoff, await parts.issued(key));
		await parts.save(key, reconciled.changed, services.now());
		return done({ job, engine, takeoff, parts: reconciled.parts });
	});
}
