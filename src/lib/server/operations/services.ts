/** What operations work with. */
import { randomUUID } from 'node:crypto';
import { openStorage, type Storage } from '../storage/storage.ts';
import { Engines } from './engines.ts';

export interface Services {
	readonly storage: Storage;
	readonly engines: Engines;
	/** The clock. */
	now(): Date;
	/** An id that was never given before. */
	newId(): string;
}

/** @param folder where the database lives */
export async function openServices(folder: string): Promise<Services> {
	const storage = await openStorage(folder);
	return { storage, engines: new Engines(storage), now: () => new Date(), newId: () => randomUUID() };
}
