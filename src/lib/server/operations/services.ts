/** What operations work with. */
import { randomUUID } from 'node:crypto';
import { signalsOfOneProcess, type Signals } from '../live/signals.ts';
import { openStorage, type Storage } from '../storage/storage.ts';
import { Engines } from './engines.ts';

export interface Services {
	readonly storage: Storage;
	readonly engines: Engines;
	readonly signals: Signals;
	/** The clock. */
	now(): Date;
	/** An id that was never given before. */
	newId(): string;
}

/** @param place a folder for the embedded database, or the URL of a PostgreSQL database */
export async function openServices(place: string): Promise<Services> {
	const storage = await openStorage(place);
	return {
		storage,
		engines: new Engines(storage),
		signals: signalsOfOneProcess(),
		now: () => new Date(),
		newId: () => randomUUID()
	};
}

export async function closeServicesOf({ storage, signals }: Services): Promise<void> {
	await signals.close();
	await storage.close();
}
