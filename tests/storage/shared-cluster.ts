/**
 * One cluster of PostgreSQL for all tests of a run: started when the first test asks for it, stopped when all are done.
 * Tests run in processes of their own, so they ask through a port.
 */
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { TestProject } from 'vitest/node';
import { startCluster, type Cluster } from './postgres-cluster.ts';

declare module 'vitest' {
	interface ProvidedContext {
		/** `POST /NAME` makes an empty database and answers with its URL, `DELETE /NAME` drops it. */
		databasesPort: number;
	}
}

export default async function shareCluster(project: TestProject): Promise<() => Promise<void>> {
	let cluster: Promise<Cluster> | null = null;
	const server = createServer((request, response) => {
		const name = (request.url ?? '').slice(1);
		void (async () => {
			try {
				cluster ??= startCluster({ durable: false });
				const { createDatabase, dropDatabase, url } = await cluster;
				await (request.method === 'DELETE' ? dropDatabase(name) : createDatabase(name));
				response.end(url(name));
			} catch (error) {
				response.statusCode = 500;
				response.end(String(error));
			}
		})();
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
