/** Goes back through the history of a job, from now to a change, by what takes each change back. */
import { applyChanges, type SheetRow } from '../../changes/apply.ts';
import type { RecordChange } from '../../changes/history.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import type { JobRecord } from '../storage/job.repository.ts';
import type { JobKey } from '../storage/keys.ts';
import type { StoredDelivery } from '../storage/delivery.repository.ts';
import type { IssuedPart } from '../storage/part.repository.ts';
import type { Repositories } from '../storage/storage.ts';
import { takenOut } from './change-deliveries.ts';
import { done, refuse, type Outcome, type Refused } from './outcome.ts';

/** Entries read at once. */
const page = 100;

export interface JobThen {
	readonly name: string;
	readonly measures: Measures;
	/** In order; those that were there. */
	readonly rows: readonly SheetRow[];
	/** Packing lists that were in. */
	readonly deliveries: readonly (StoredDelivery & { readonly receivedAt: string })[];
	/** Parts that had been issued. */
	readonly parts: readonly IssuedPart[];
	/** When the change was made; null where that was not written down. */
	readonly madeAt: string | null;
}

const notWhole = (revision: number): Refused =>
	refuse(409, {
		message: `The history of this job does not lead back past change ${revision}: what was written down of it does not fit. Nothing was made.`
	});

/**
 * The job right after a change. Nothing may change it meanwhile.
 * @param job as it is now, `revision` being the last change.
 */
export async function jobAsItStood(
	inside: Repositories,
	key: JobKey,
	job: JobRecord,
	revision: number
): Promise<Outcome<JobThen>> {
	if (revision > job.revision)
		return refuse(422, {
			message: `The last change of this job is number ${job.revision}; there is no change ${revision} yet.`,
			field: 'revision'
		});
	if (revision < job.historyFrom)
		return refuse(422, {
			message: `The history of this job is whole only from change ${job.historyFrom} on. It can be brought back to that and to any later one.`,
			field: 'revision'
		});

	let rows: readonly SheetRow[] = await inside.openings.all(key);
	let { name, measures } = job;
	/** The change after the one that is wanted. */
	let next: { readonly revision: number; readonly madeAt: string } | null = null;
	let at = job.revision + 1;
	for (;;) {
		const entries = await inside.history.inverses(key, revision, at, page);
		for (const entry of entries) {
			if (entry.revision !== at - 1) return notWhole(at - 1);
			for (const { record, field, before } of [...entry.records].reverse()) {
				if (record !== 'Job' || before === null) continue;
				if (field === 'Name') name = before;
				if (field === 'Measures') measures = before === 'metric' ? 'metric' : 'imperial';
			}
			at = entry.revision;
			next = entry;
		}
		const inverses = entries.flatMap(({ inverse }) => inverse);
		if (inverses.length > 0) {
			const back = applyChanges(rows, inverses, { reinstate: true });
			if (!back.ok) return notWhole(at);
			({ rows } = back);
		}
		if (entries.length < page) break;
	}
	if (at !== revision + 1) return notWhole(at - 1);

	const entry = await inside.history.find(key, revision);
	return done({
		name,
		measures,
		rows: rows.filter((row) => !row.removed),
		deliveries: await deliveriesThen(inside, key, revision, next?.madeAt ?? null),
		parts: await inside.parts.issued(key, next?.madeAt ?? null),
		madeAt: entry?.madeAt ?? null
	});
}

/** @param until when the next change was made; null when there is none. */
async function deliveriesThen(
	{ deliveries, history }: Repositories,
	key: JobKey,
	revision: number,
	until: string | null
): Promise<JobThen['deliveries']> {
	const statesOf = (records: readonly RecordChange[]): Map<string, string | null> =>
		new Map(
			records.flatMap(({ record, field, id, after }) =>
				record === 'Packing list' && field === 'State' && id !== undefined ? [[id, after] as const] : []
			)
		);
	const then = statesOf(await history.recordsUpTo(key, revision));
	const ever = statesOf(await history.recordsUpTo(key, null));
	return (await deliveries.all(key)).filter(({ deliveryId, removed, receivedAt }) => {
		const state = then.get(deliveryId);
		if (state !== undefined) return state !== null && state !== takenOut;
		// One that came before anything was written down of packing lists.
		return !ever.has(deliveryId) && !removed && (until === null || receivedAt <= until);
	});
}
