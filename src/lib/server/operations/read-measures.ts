import type { MeasuresAnswer } from '../../changes/measures.ts';
import { capital } from '../../delivery/sentence.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { verdictsOf } from './measure-verdicts.ts';
import { openingKeysOf } from './opening-keys.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Every opening of a job with what its measure came to. */
export async function readMeasures(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<MeasuresAnswer>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const job = found.value;
	const key = keyOf(actor, jobId);
	const engine = await services.engines.engine(actor.companyId, job.technicalDigest);
	const takeoff = engine.takeoff(await services.storage.openings.live(key), job.measures);
	const { keys, openings } = openingKeysOf(takeoff);
	const measures = (await services.storage.measures.list(key)).flatMap((measure) => {
		const openingId = openings.get(measure.openingKey);
		return openingId === undefined ? [] : [{ ...measure, openingId }];
	});
	const verdicts = verdictsOf({ engine, takeoff, job, measures });
	return done({
		openings: takeoff.openings.flatMap((opening) =>
			opening.openingIds.map((openingId) => {
				const verdict = verdicts.get(openingId);
				return {
					openingKey: keys.get(openingId) ?? '',
					openingId,
					location: opening.location,
					phase: opening.phase,
					held: opening.cell('hold') !== null,
					verdict:
						verdict === undefined
							? null
							: {
									outcome: verdict.verdict,
									text: capital(verdict.text),
									at: verdict.at,
									by: verdict.by
								}
				};
			})
		)
	});
}
