/** What a fault is tried on: a database, a company with people and a job, and servers that can be killed. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isPostgresUrl } from '../../src/lib/server/storage/postgres-database.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { closeServicesOf, openServices } from '../../src/lib/server/operations/services.ts';
import type { JobKey } from '../../src/lib/server/storage/keys.ts';
import { startCluster, type Cluster } from '../storage/postgres-cluster.ts';
import { foundCompany, type Credentials } from '../storage/office.ts';
import { value } from '../storage/services.ts';
import { ask } from './person.ts';

export type DatabaseName = 'SQLite' | 'PostgreSQL';

interface Company {
	/** As `openStorage` takes it. */
	readonly place: string;
	readonly people: readonly Credentials[];
	readonly keys: readonly JobKey[];
}

export interface Served {
	readonly address: string;
	readonly process: ChildProcess;
	/** Ends it and waits until it has. @returns its exit code; null where a signal ended it. */
	end(signal: NodeJS.Signals): Promise<number | null>;
}

const startsWithin = 60_000;

export const pause = (milliseconds: number): Promise<void> =>
	new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Waits until it is so. @throws Error that names what did not come about. */
export async function until(what: string, so: () => boolean, within = 60_000): Promise<void> {
	const deadline = Date.now() + within;
	while (!so()) {
		if (Date.now() > deadline) throw new Error(`in ${within / 1000} s it did not come about that ${what}`);
		await pause(20);
	}
}

export async function freePort(): Promise<number> {
	const server = createServer().listen(0, '127.0.0.1');
	await once(server, 'listening');
	const address = server.address();
	server.close();
	await once(server, 'close');
	return typeof address === 'object' && address ? address.port : 0;
}

/** Everything that was started is ended and removed when it closes, the last first. */
export class Stage {
	readonly #ends: (() => unknown)[] = [];

	after(end: () => unknown): void {
		this.#ends.push(end);
	}

	async close(): Promise<void> {
		for (const end of this.#ends.splice(0).reverse()) await end();
	}

	folder(): string {
		const folder = mkdtempSync(join(tmpdir(), 'coilwright-fault-'));
		this.after(() => rmSync(folder, { recursive: true, force: true }));
		return folder;
	}

	async cluster(): Promise<Cluster> {
		const cluster = await startCluster({ durable: true });
		this.after(() => cluster.close());
		return cluster;
	}

	/** A new database that waits for its disk before it answers. */
	async place(name: DatabaseName): Promise<string> {
		if (name === 'SQLite') return this.folder();
		const cluster = await this.cluster();
		await cluster.createDatabase('coilwright');
		return cluster.url('coilwright');
	}

	/** Starts the built program on a place, with a secret of its own where it shares a database. */
	environmentOn(place: string): Record<string, string> {
		return isPostgresUrl(place)
			? { COILWRIGHT_DATA: this.folder(), DATABASE_URL: place }
			: { COILWRIGHT_DATA: place };
	}

	async serve(environment: Readonly<Record<string, string>>): Promise<Served> {
		const child = spawn(process.execPath, ['src/cli/serve.ts'], {
			env: { PATH: process.env.PATH ?? '', PORT: '0', ...environment },
			stdio: ['ignore', 'pipe', 'pipe']
		});
		const closed = once(child, 'close') as Promise<[number | null]>;
		this.after(() => child.kill('SIGKILL'));
		let output = '';
		for (const stream of [child.stdout, child.stderr])
			stream.on('data', (chunk: Buffer) => (output += chunk.toString()));
		const deadline = Date.now() + startsWithin;
		let address: string | undefined;
		while (address === undefined) {
			address = /ready: (http:\S+)\//u.exec(output)?.[1];
			if (child.exitCode !== null || Date.now() > deadline)
				throw new Error(`the server did not start: ${output}`);
			await pause(20);
		}
		return {
			address,
			process: child,
			async end(signal) {
				child.kill(signal);
				return (await closed)[0];
			}
		};
	}
}

/** A company with so many estimators and jobs, straight into a database. */
export async function found(place: string, people: number, jobs = 1): Promise<Company> {
	const services = await openServices(place);
	try {
		const company = await foundCompany(
			services,
			Array.from({ length: people }, () => 'estimator' as const)
		);
		const { companyId } = company.owner.actor;
		const keys: JobKey[] = [];
		for (let i = 0; i < jobs; i++) {
			const asked = { name: `Saltmarsh Pier Market Hall ${i + 1}`, measures: 'imperial' };
			keys.push({ companyId, jobId: value(await createJob(company.owner.actor, services, asked)).id });
		}
		return { place, people: company.people, keys };
	} finally {
		await closeServicesOf(services);
	}
}

/** @returns the `Cookie` header of somebody who has signed in. */
export async function signIn(address: string, { email, password }: Credentials): Promise<string> {
	const reply = await ask(address, 'POST', '/api/sign-in', { body: { email, password } });
	if (reply.status !== 200) throw new Error(`not signed in: ${reply.status} ${reply.text}`);
	return reply.cookies.map((cookie) => cookie.split(';')[0] ?? '').join('; ');
}
