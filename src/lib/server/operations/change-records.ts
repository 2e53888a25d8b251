/** Changes of a job that are no edits of its sheet: one transaction, one revision, one entry in the history. */
import type { HistoryKind, RecordChange } from '../../changes/history.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';
import { keyOf, noSuchJob } from './find-job.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { tellOthers, writeHistory } from './write-history.ts';

interface RecordsChange<T> {
	/** For the history. */
	readonly kind: HistoryKind;
	readonly title: string;
	readonly records: readonly RecordChange[];
	readonly value: T;
}

/**
 * @param change inside the transaction, in which nobody else changes the job. What it refuses changes nothing. With no
 * records nothing was changed: the job keeps its revision and its history.
 */
export async function changeRecords<T>(
	actor: Actor,
	services: Services,
	jobId: string,
	change: (inside: Repositories, key: JobKey, at: Date) => Promise<Outcome<RecordsChange<T>>>
): Promise<Outcome<T>> {
	const key = keyOf(actor, jobId);
	const at = services.now();
	const made: number[] = [];
	const unchanged: { value: T }[] = [];
	const outcome = await services.storage.transaction(async (inside): Promise<Outcome<T> | NothingDone> => {
		const revision = await inside.jobs.nextRevision(key, at);
		if (revision === null) return noSuchJob;
		const changed = await change(inside, key, at);
		if (!changed.ok) return changed;
		const { kind, title, records, value } = changed.value;
		if (records.length === 0) {
			unchanged.push({ value });
			return nothingDone;
		}
		await writeHistory(inside, key, actor, { revision, kind, title, records }, at);
		made.push(revision);
		return done(value);
	});
	if ('nothing' in outcome) {
		const [kept] = unchanged;
		if (!kept) throw new Error('nothing was done and nothing is answered');
		return done(kept.value);
	}
	for (const revision of made) tellOthers(services, key, revision);
	return outcome;
}

/** Takes the counted revision back: a transaction that is not ok stores nothing. */
interface NothingDone {
	readonly ok: false;
	readonly nothing: true;
}
const nothingDone: NothingDone = { ok: false, nothing: true };
