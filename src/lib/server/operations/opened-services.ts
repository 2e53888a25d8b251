/** The services of this process: opened when first asked for, closed when it stops. */
import { join } from 'node:path';
import { localActor } from '../identity/actor.ts';
import { loadDemo } from './load-demo.ts';
import { closeServicesOf, openServices, type Services } from './services.ts';
import { pinShopBooks } from './shop-books.ts';

let opened: Promise<Services> | null = null;

async function open(): Promise<Services> {
	const services = await openServices(process.env.COILWRIGHT_DATA ?? join(process.cwd(), 'data'));
	await pinShopBooks(localActor, services);
	await loadDemo(localActor, services, join(process.cwd(), 'fixtures', 'schedules'));
	return services;
}

export function openedServices(): Promise<Services> {
	opened ??= open();
	return opened;
}

export async function closeServices(): Promise<void> {
	const closing = opened;
	opened = null;
	const services = await closing;
	if (services) await closeServicesOf(services);
}
