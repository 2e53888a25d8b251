/** Backups, and moving a company: for whoever runs the program, from a terminal. */
import { existsSync } from 'node:fs';
import { moveCompany, type MovedCompany } from '../storage/backup/move-company.ts';
import { BackupProblem } from '../storage/backup/backup-problem.ts';
import { checkBackup, restoreBackup } from '../storage/backup/restore-backup.ts';
import type { TableState } from '../storage/backup/rows.ts';
import { writeBackup } from '../storage/backup/write-backup.ts';
import { ClosedDatabase, connect, databaseFile, reach, type Database } from '../storage/database.ts';
import { isPostgresUrl } from '../storage/postgres-database.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { storageTrouble } from './storage-trouble.ts';

/** What became of each table; digests are those of its rows, hexadecimal SHA-256. */
export type TableStates = readonly TableState[];
export type { MovedCompany };

function refusalOf(thrown: unknown): Outcome<never> {
	if (thrown instanceof BackupProblem || thrown instanceof ClosedDatabase)
		return refuse(422, { message: thrown.message });
	const trouble = storageTrouble(thrown);
	if (trouble) return trouble;
	throw thrown;
}

/** Closes them whatever comes of the work. */
async function on<T>(databases: readonly Database[], work: () => Promise<T>): Promise<Outcome<T>> {
	try {
		for (const database of databases) await reach(database);
		return done(await work());
	} catch (error) {
		return refusalOf(error);
	} finally {
		for (const { db } of databases) await db.destroy();
	}
}

const opened = (place: string): Promise<Outcome<Database>> => on([], () => Promise.resolve(connect(place)));

const nothingThere = (place: string): Outcome<never> | null =>
	isPostgresUrl(place) || existsSync(databaseFile(place))
		? null
		: refuse(422, {
				message: `There is no database in ${place}. COILWRIGHT_DATA names the folder it is in.`
			});

/**
 * Writes everything into a file while servers go on.
 * @param place as `openStorage` takes it
 * @param program version that writes it
 */
export async function backUp(
	place: string,
	file: string,
	program: string,
	at: Date
): Promise<Outcome<TableStates>> {
	const missing = nothingThere(place);
	if (missing) return missing;
	const database = await opened(place);
	if (!database.ok) return database;
	return on([database.value], () => writeBackup(database.value, file, { program, at }));
}

/** Puts a backup into an empty place: all of it, or nothing. */
export async function restore(place: string, file: string): Promise<Outcome<TableStates>> {
	const checked = await on([], () => checkBackup(file));
	if (!checked.ok) return checked;
	const database = await opened(place);
	if (!database.ok) return database;
	return on([database.value], async () => {
		await restoreBackup(database.value, checked.value);
		return checked.value.tables;
	});
}

/** Takes a company with its people into another database; where it was, it stays. */
export async function moveToDatabase(
	from: string,
	company: string,
	to: string
): Promise<Outcome<MovedCompany>> {
	const missing = nothingThere(from);
	if (missing) return missing;
	const [source, target] = [await opened(from), await opened(to)];
	if (!source.ok) return source;
	if (!target.ok) return target;
	return on([source.value, target.value], () => moveCompany(source.value, company, target.value));
}
