/** Every operation that changes something of a job counts its revision up, writes down what it did, and tells the others. */
import type { RecordChange } from '../../changes/history.ts';
import type { Actor } from '../identity/actor.ts';
import type { NewEntry } from '../storage/history.repository.ts';
import type { JobKey } from '../storage/keys.ts';
import type { Repositories } from '../storage/storage.ts';
import type { Services } from './services.ts';

/** Inside the transaction of what it tells about, whose revision it carries. */
export const writeHistory = (
	inside: Repositories,
	key: JobKey,
	actor: Actor,
	entry: Omit<NewEntry, 'actorId' | 'actorName'>,
	at: Date
): Promise<void> => inside.history.add(key, { ...entry, actorId: actor.id, actorName: actor.name }, at);

/** After the transaction. */
export const tellOthers = ({ signals }: Services, { companyId, jobId }: JobKey, revision: number): void =>
	signals.send({ kind: 'changed', companyId, jobId, revision });

/** A field of a record, where it changed. */
export const fieldChange = (
	record: Pick<RecordChange, 'record' | 'name'>,
	field: string,
	before: string | null,
	after: string | null
): RecordChange[] => (before === after ? [] : [{ ...record, field, before, after }]);
