import { writeWorkbook } from '../../exchange/workbook/write-workbook.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** The job as a workbook with live formulas, prices included. */
export async function writeJobWorkbook(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<{ content: Uint8Array; jobName: string }>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { name, measures, technicalDigest, priceDigest } = found.value;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const pricing = await services.engines.pricing(actor.companyId, technicalDigest, priceDigest);
	const rows = await services.storage.openings.live(keyOf(actor, jobId));
	const job = engine.takeoff(rows, measures);
	const content = await writeWorkbook({ name, engine, job, pricing, madeAt: services.now() });
	return done({ content, jobName: name });
}
