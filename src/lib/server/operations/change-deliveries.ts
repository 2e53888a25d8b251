import type { Actor } from '../identity/actor.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';
import { keyOf, noSuchJob } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { tellOthers, writeHistory } from './write-history.ts';

/** What the history says of a packing list that is taken out. */
export const takenOut = 'taken out';

interface DeliveryChange {
	/** For the history. */
	readonly title: string;
	/** Of the packing list. */
	readonly id: string;
	readonly name: string;
	readonly before: string | null;
	readonly after: string | null;
}

/**
 * Changes something about the packing lists of a job, and writes it down.
 * @param change null when the job has no such packing list.
 */
export async function changeDeliveries(
	actor: Actor,
	services: Services,
	jobId: string,
	change: (inside: Repositories, key: JobKey, at: Date) => Promise<DeliveryChange | null>
): Promise<Outcome<null>> {
	const key = keyOf(actor, jobId);
	const at = services.now();
	let made = 0;
	const outcome = await services.storage.transaction(async (inside): Promise<Outcome<null>> => {
		const revision = await inside.jobs.nextRevision(key, at);
		if (revision === null) return noSuchJob;
		const changed = await change(inside, key, at);
		if (!changed) return refuse(404, { message: 'This job has no such packing list.' });
		const { title, id, name, before, after } = changed;
		const records = [{ record: 'Packing list', id, name, field: 'State', before, after }];
		await writeHistory(inside, key, actor, { revision, kind: 'delivery', title, records }, at);
		made = revision;
		return done(null);
	});
	if (outcome.ok) tellOthers(services, key, made);
	return outcome;
}
