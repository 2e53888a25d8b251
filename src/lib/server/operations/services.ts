/** What operations work with. */
import { randomBytes, randomUUID } from 'node:crypto';
import type { Access } from '../../changes/people.ts';
import { Accounts, type AccountKeys } from '../identity/accounts.ts';
import { Feed, usualLimits, usualTimes } from '../live/feed.ts';
import { signalsOfOneProcess, type Signals } from '../live/signals.ts';
import { isPostgresUrl } from '../storage/postgres-database.ts';
import { postgresSignals } from '../storage/postgres-signals.ts';
import { openStorage, type Storage } from '../storage/storage.ts';
import { Engines } from './engines.ts';
import { readNews } from './read-news.ts';

export interface Services {
	readonly storage: Storage;
	readonly engines: Engines;
	readonly signals: Signals;
	/** Tells open pages what happens. */
	readonly feed: Feed;
	readonly accounts: Accounts;
	/** Whether people sign in: as soon as there is somebody who can. */
	readonly access: Access;
	/** The clock. */
	now(): Date;
	/** An id that was never given before. */
	newId(): string;
}

/** Sessions that are signed with it end with the process. */
const keysOfOneProcess = (): AccountKeys => ({
	secret: randomBytes(32).toString('base64url'),
	origin: null
});

/**
 * @param place a folder for the embedded database, or the URL of a PostgreSQL database
 * @param keysFor what sessions are signed with; storage is closed when it throws
 */
export async function openServices(
	place: string,
	keysFor: (storage: Storage, access: Access) => AccountKeys | Promise<AccountKeys> = keysOfOneProcess
): Promise<Services> {
	const storage = await openStorage(place);
	try {
		const access = (await storage.members.any()) ? 'accounts' : 'alone';
		const keys = await keysFor(storage, access);
		const signals = isPostgresUrl(place) ? postgresSignals(place) : signalsOfOneProcess();
		return servicesOn(storage, signals, access, keys);
	} catch (error) {
		await storage.close();
		throw error;
	}
}

function servicesOn(storage: Storage, signals: Signals, access: Access, keys: AccountKeys): Services {
	return {
		access,
		accounts: new Accounts(storage.accountsDatabase, keys),
		storage,
		engines: new Engines(storage),
		signals,
		feed: feedOn(storage, signals),
		now: () => new Date(),
		newId: () => randomUUID()
	};
}

/** @param times as in the program, unless a test can't wait so long */
export const feedOn = (storage: Storage, signals: Signals, times = usualTimes, limits = usualLimits): Feed =>
	new Feed({
		signals,
		times,
		limits,
		storedOf: (key) => ({
			news: (after) => readNews(storage, key, after),
			revision: async () => {
				const job = await storage.jobs.find(key);
				return job && !job.deleted ? job.revision : null;
			}
		}),
		clock: () => performance.now()
	});

export async function closeServicesOf({ storage, signals, feed }: Services): Promise<void> {
	feed.close();
	await signals.close();
	await storage.close();
}
