/** Every database the storage is tested on, real ones only. PostgreSQL joins them when it can be chosen. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { openStorage, type Storage } from '../../src/lib/server/storage/storage.ts';

/** A folder of its own for one test. */
export function temporaryFolder(): string {
	const folder = mkdtempSync(join(tmpdir(), 'coilwright-test-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	return folder;
}

/** A database to test on. `place` gives a new and empty one for the test that asks, as `openStorage` takes it. */
export interface TestDatabase {
	readonly name: 'SQLite' | 'PostgreSQL';
	place(): Promise<string>;
}

export const databases: readonly TestDatabase[] = [
	{ name: 'SQLite', place: () => Promise.resolve(temporaryFolder()) }
];

export async function temporaryStorage(folder = temporaryFolder()): Promise<Storage> {
	const storage = await openStorage(folder);
	onTestFinished(() => storage.close());
	return storage;
}
