/** Every database the storage is tested on, real ones only. */
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inject, onTestFinished } from 'vitest';
import { openStorage, type Storage } from '../../src/lib/server/storage/storage.ts';
import { postgresIsThere } from './postgres-cluster.ts';

/** A folder of its own for one test. */
export function temporaryFolder(): string {
	const folder = mkdtempSync(join(tmpdir(), 'coilwright-test-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	return folder;
}

/** A database to test on. `place` gives a new and empty one for the test that asks, as `openStorage` takes it. */
export interface TestDatabase {
	readonly name: 'SQLite' | 'PostgreSQL';
	readonly place: () => Promise<string>;
}

const sqlite: TestDatabase = { name: 'SQLite', place: () => Promise.resolve(temporaryFolder()) };

async function askShared(method: 'POST' | 'DELETE', name: string): Promise<string> {
	const answer = await fetch(`http://127.0.0.1:${inject('databasesPort')}/${name}`, { method });
	const text = await answer.text();
	if (!answer.ok) throw new Error(text);
	return text;
}

/** For what only a database that several servers share can be asked. */
export const postgres: TestDatabase = {
	name: 'PostgreSQL',
	async place() {
		const name = `test-${randomUUID()}`;
		const url = await askShared('POST', name);
		onTestFinished(async () => {
			await askShared('DELETE', name);
		});
		return url;
	}
};

/** PostgreSQL is among them where it is installed; `npm test` installs it or says that it is missing. */
export const databases: readonly TestDatabase[] = postgresIsThere ? [sqlite, postgres] : [sqlite];

export async function temporaryStorage(place = temporaryFolder()): Promise<Storage> {
	const storage = await openStorage(place);
	onTestFinished(() => storage.close());
	return storage;
}
