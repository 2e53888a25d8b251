/** Writes a backup while the program goes on. */
import { createWriteStream, existsSync } from 'node:fs';
import { open, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';
import type { Database } from '../database.ts';
import { backupFormat, backupLines } from './backup-file.ts';
import { BackupProblem } from './backup-problem.ts';
import { lineOf, Snapshot, TableDigest, type TableState } from './rows.ts';

/** It holds password digests, and prices. */
const onlyForTheOwner = 0o600;

async function keepFolder(folder: string): Promise<void> {
	// A renamed file is there for good when its folder is written too; not every system can do that to a folder.
	const handle = await open(folder, 'r').catch(() => null);
	await handle?.sync().catch(() => undefined);
	await handle?.close();
}

const mayNot = (error: unknown, file: string): unknown => {
	const code = error instanceof Error && 'code' in error ? String(error.code) : '';
	const reasons: Readonly<Record<string, string>> = {
		EEXIST: 'it is being written already',
		ENOENT: 'its folder is not there',
		ENOTDIR: 'its folder is not there',
		EACCES: 'this user may not write there',
		EROFS: 'nothing can be written there',
		ENOSPC: 'there is no room for it'
	};
	const reason = Object.hasOwn(reasons, code) ? reasons[code] : undefined;
	return reason === undefined ? error : new BackupProblem(`${file} can’t be written: ${reason}.`);
};

/**
 * Writes everything as it stands at one moment.
 * @param file where nothing may be yet; it is there only when it is whole
 * @param program version that writes it
 * @throws BackupProblem
 */
export async function writeBackup(
	database: Database,
	file: string,
	{ program, at }: { readonly program: string; readonly at: Date }
): Promise<TableState[]> {
	const taken = (): void => {
		if (existsSync(file))
			throw new BackupProblem(
				`${file} is there already, and a backup never takes the place of another file.`
			);
	};
	taken();
	const unfinished = join(dirname(file), `.${basename(file)}.unfinished`);
	const states: TableState[] = [];
	const own = { made: false };
	try {
		await Snapshot.read(database, async (snapshot) => {
			const shapes = await snapshot.tables();
			const tables = [];
			for (const shape of shapes)
				tables.push({
					name: shape.name,
					columns: [...shape.columns],
					rows: await snapshot.count(shape, 'everything')
				});
			async function* rows(): AsyncGenerator<string> {
				for (const shape of shapes) {
					const digest = new TableDigest(shape.name);
					for await (const row of snapshot.rows(shape, 'everything')) {
						const line = lineOf(row);
						digest.add(line);
						yield line;
					}
					states.push(digest.state());
				}
			}
			const migrations = await snapshot.migrations();
			const head = {
				format: backupFormat,
				program,
				writtenAt: at.toISOString(),
				migrations,
				tables
			} as const;
			const target = createWriteStream(unfinished, { flags: 'wx', mode: onlyForTheOwner, flush: true });
			target.once('open', () => (own.made = true));
			await pipeline(backupLines(head, rows()), createGzip(), target);
		});
		taken();
		await rename(unfinished, file);
		await keepFolder(dirname(file));
		return states;
	} catch (error) {
		if (own.made) await rm(unfinished, { force: true });
		throw mayNot(error, file);
	}
}
