import type { DeliveriesAnswer } from '../../changes/answer.ts';
import { compareDelivery } from '../../delivery/compare.ts';
import { stopsOf } from '../../takeoff/stops.ts';
import type { Actor } from '../identity/actor.ts';
import { keyOf } from './find-job.ts';
import { issueParts } from './issue-parts.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** The packing lists of a job, held against its material list as it is now. */
export async function readDeliveries(
	actor: Actor,
	services: Services,
	jobId: string
): Promise<Outcome<DeliveriesAnswer>> {
	const issued = await issueParts(actor, services, jobId);
	if (!issued.ok) return issued;
	const { parts, job, takeoff } = issued.value;
	const key = keyOf(actor, jobId);
	const deliveries = await services.storage.deliveries.list(key);
	const counted = await services.storage.deliveries.counted(key);
	if (counted.length === 0) return done({ deliveries, comparison: null });
	const lengthStyle = job.measures === 'metric' ? 'mm' : 'feetInches';
	return done({
		deliveries,
		comparison: compareDelivery(parts, counted, { lengthStyle, stopped: stopsOf(takeoff) })
	});
}
