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

export async function temporaryStorage(folder = temporaryFolder()): Promise<Storage> {
	const storage = await openStorage(folder);
	onTestFinished(() => storage.close());
	return storage;
}
