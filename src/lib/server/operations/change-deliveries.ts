import type { Actor } from '../identity/actor.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';
import { changeRecords } from './change-records.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** What the history says of a packing list that is taken out. */
export const takenOut = 'taken out';

interface DeliveryChange {
	/** For the history. */
	readonly title: string;
	/** Of the packing list. */
	readonly id: string;
	readonly name: string;
	/** `State` unless given. */
	readonly field?: string;
	readonly before: string | null;
	readonly after: string | null;
}

export const noSuchDelivery = refuse(404, { message: 'This job has no such packing list.' });

/**
 * Changes something about the packing lists of a job, and writes it down.
 * @param change null when the job has no such packing list.
 */
export const changeDeliveries = (
	actor: Actor,
	services: Services,
	jobId: string,
	change: (inside: Repositories, key: JobKey, at: Date) => Promise<DeliveryChange | null>
): Promise<Outcome<null>> =>
	changeRecords(actor, services, jobId, async (inside, key, at) => {
		const changed = await change(inside, key, at);
		if (!changed) return noSuchDelivery;
		const { title, id, name, field = 'State', before, after } = changed;
		const records = [{ record: 'Packing list', id, name, field, before, after }];
		return done({ kind: 'delivery' as const, title, records, value: null });
	});
