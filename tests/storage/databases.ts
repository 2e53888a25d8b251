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

/** A database to test on: new ones for the test that asks, as `openStorage` takes them. */
export interface TestDatabase {
	readonly name: 'SQLite' | 'PostgreSQL';
	/** With nothing stored; its tables may be there. */
	readonly place: () => Promise<string>;
	/** Without a table. */
	readonly emptyPlace: () => Promise<string>;
}

const newFolder = (): Promise<string> => Promise.resolve(temporaryFolder());
const sqlite: TestDatabase = { name: 'SQLite', place: newFolder, emptyPlace: newFolder };

async function askShared(method: 'POST' | 'PUT' | 'DELETE', name: string): Promise<string> {
	const answer = await fetch(`http://127.0.0.1:${inject('databasesPort')}/${name}`, { method });
	const text = await answer.text();
	if (!answer.ok) throw new Error(text);
	return text;
}

async function sharedDatabase(method: 'POST' | 'PUT'): Promise<string> {
	const name = `test-${randomUUID()}`;
	const url = await askShared(method, name);
	onTestFinished(async () => {
		await askShared('DELETE', name);
	});
	return url;
}

/** For what only a database that several servers share can be asked. */
export const postgres: TestDatabase = {
	name: 'PostgreSQL',
	place: () => sharedDatabase('POST'),
	emptyPlace: () => sharedDatabase('PUT')
};

/** PostgreSQL is among them where it is installed; `npm test` installs it or says that it is missing. */
export const databases: readonly TestDatabase[] = postgresIsThere ? [sqlite, postgres] : [sqlite];

export async function temporaryStorage(place = temporaryFolder()): Promise<Storage> {
	const storage = await openStorage(place);
	onTestFinished(() => storage.close());
	return storage;
}
