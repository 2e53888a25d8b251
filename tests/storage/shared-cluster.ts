/**
 * One cluster of PostgreSQL for all tests of a run: started when the first test asks for it, stopped when all are done.
 * Tests run in processes of their own, so they ask through a port.
 */
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { TestProject } from 'vitest/node';
import { openStorage } from '../../src/lib/server/storage/storage.ts';
import { startCluster, type Cluster } from './postgres-cluster.ts';

declare module 'vitest' {
	interface ProvidedContext {
		/**
		 * `POST /NAME` makes a database with the tables of the program, `PUT /NAME` an empty one; both answer with its URL.
		 * `DELETE /NAME` drops it.
		 */
		databasesPort: number;
	}
}

/** Of the database that others are copies of. */
const withTables = 'with-tables';

export default async function shareCluster(project: TestProject): Promise<() => Promise<void>> {
	let cluster: Promise<Cluster> | null = null;
	let prepared: Promise<void> | null = null;

	/** Its tables are made once and copied: that takes a tenth of the time. */
	async function prepare({ createDatabase, url }: Cluster): Promise<void> {
		await createDatabase(withTables);
		await (await openStorage(url(withTables))).close();
	}

	async function answer(method: string | undefined, name: string): Promise<string> {
		cluster ??= startCluster({ durable: false });
		const started = await cluster;
		if (method === 'DELETE') await started.dropDatabase(name);
		else if (method === 'PUT') await started.createDatabase(name);
		else {
			await (prepared ??= prepare(started));
			await started.createDatabase(name, withTables);
		}
		return started.url(name);
	}

	const server = createServer((request, response) => {
		const name = (request.url ?? '').slice(1);
		void answer(request.method, name).then(
			(url) => response.end(url),
			(error: unknown) => {
				response.statusCode = 500;
				response.end(String(error));
			}
		);
	}).listen(0, '127.0.0.1');
	await once(server, 'listening');
	const address = server.address();
	if (typeof address === 'object' && address !== null) project.provide('databasesPort', address.port);
	return async () => {
		server.close();
		server.closeAllConnections();
		await (await cluster)?.close();
	};
}
