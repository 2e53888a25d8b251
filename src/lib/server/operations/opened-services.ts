/** The services of this process: opened when first asked for, closed when it stops. */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { localActor } from '../identity/actor.ts';
import { digestOfSecret, otherSecret, readSecret } from '../identity/secret.ts';
import { needsAccounts, RefusedStart, servingOf, type Serving } from '../identity/serving.ts';
import type { Storage } from '../storage/storage.ts';
import { secretDigest } from './forget-secret.ts';
import { loadDemo } from './load-demo.ts';
import { closeServicesOf, openServices, type Services } from './services.ts';
import { pinShopBooks } from './shop-books.ts';

let opened: Promise<Services> | null = null;
let read: Serving | null = null;

/** How this process serves. @throws RefusedStart */
export function serving(): Serving {
	read ??= servingOf(process.env, process.cwd());
	return read;
}

/** The secret of the installation: the same on all servers of a database. */
async function secretOf({ installation }: Storage, file: string): Promise<string> {
	const kept = await installation.read(secretDigest);
	const secret = readSecret(file, kept === null);
	const digest = digestOfSecret(secret);
	if ((await installation.keep(secretDigest, digest)) !== digest) throw otherSecret(file);
	return secret;
}

/** What the database says against being opened is for whoever starts the program. */
function refuseToStart(error: unknown): never {
	if (error instanceof Error && error.cause !== undefined)
		throw new RefusedStart(error.message, { cause: error });
	throw error;
}

async function open(): Promise<Services> {
	const { database, secretFile, origin, local } = serving();
	const services = await openServices(database, async (storage, access) => {
		if (access === 'accounts') return { secret: await secretOf(storage, secretFile), origin };
		if (!local) throw new RefusedStart(needsAccounts);
		// Nobody signs in.
		// Of this process alone: nobody has a session that it could hold for.
		return { secret: randomBytes(32).toString('base64url'), origin };
	}).catch(refuseToStart);
	if (services.access === 'accounts') return services;
	await pinShopBooks(localActor, services);
	await loadDemo(localActor, services, join(process.cwd(), 'fixtures', 'schedules'));
	return services;
}

/** @throws RefusedStart, or Error with a sentence when the database can't be opened. */
export function openedServices(): Promise<Services> {
	opened ??= open();
	return opened;
}

/** Ends what open pages read of this process, so that it can stop. They connect again, to it or to another one. */
export async function endFeeds(): Promise<void> {
	const services = await opened?.catch(() => null);
	services?.feed.close();
}

export async function closeServices(): Promise<void> {
	const closing = opened;
	opened = null;
	const services = await closing;
	if (services) await closeServicesOf(services);
}
