/** Where the tables are: an embedded database in a folder, or PostgreSQL; and how they are brought up to date. */
import { closeSync, existsSync, mkdirSync, openSync } from 'node:fs';
import { join } from 'node:path';
import { Kysely, sql } from 'kysely';
import { Migrator } from 'kysely/migration';
import { migrations } from './migrations/all.ts';
import { isPostgresUrl, postgresDialect, postgresPool } from './postgres-database.ts';
import { sqliteDialect } from './sqlite-database.ts';
import type { Tables } from './tables.ts';
import { troubleOf } from './trouble.ts';

export interface Database {
	readonly db: Kysely<Tables>;
	readonly type: 'sqlite' | 'postgres';
	/** For a person: `named by DATABASE_URL`, `in /srv/coilwright`. */
	readonly where: string;
}

/** The embedded database is one file in its folder. */
export const databaseFile = (folder: string): string => join(folder, 'coilwright.sqlite');

/** Makes the file where it is missing: only its owner reads it. What SQLite puts beside it follows it in that. */
function makeFile(folder: string): void {
	const file = databaseFile(folder);
	if (existsSync(file)) return;
	try {
		mkdirSync(folder, { recursive: true });
		closeSync(openSync(file, 'a', 0o600));
	} catch (error) {
		const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
		throw new ClosedDatabase(`The database in ${folder} can’t be made there${code}.`, { cause: error });
	}
}

/**
 * @param place a folder for the embedded database (made where it is missing), or the URL of a PostgreSQL database
 * @throws ClosedDatabase when the folder can't be made or written.
 */
export function connect(place: string): Database {
	if (isPostgresUrl(place))
		return {
			db: new Kysely<Tables>({ dialect: postgresDialect(postgresPool(place)) }),
			type: 'postgres',
			where: 'named by DATABASE_URL'
		};
	makeFile(place);
	return {
		db: new Kysely<Tables>({ dialect: sqliteDialect(databaseFile(place)) }),
		type: 'sqlite',
		where: `in ${place}`
	};
}

/** Why a database can't be used: a sentence for whoever runs the program. */
export class ClosedDatabase extends Error {
	override readonly name = 'ClosedDatabase';
}

/** PostgreSQL's codes for a way that leads nowhere, and what to say. */
const noWayIn: Readonly<Record<string, string>> = {
	'28P01': 'refuses the name or the password',
	'28000': 'refuses this user',
	'3D000': 'does not exist; create it first',
	'42501': 'does not let this user make tables'
};

function reasonOf(error: unknown): string {
	if (troubleOf(error) === 'unreachable') return 'does not answer.';
	const code = error instanceof Error && 'code' in error ? String(error.code) : '';
	const known = Object.hasOwn(noWayIn, code) ? noWayIn[code] : undefined;
	if (known !== undefined) return `${known}.`;
	const newer = error instanceof Error && error.message.startsWith('corrupted migrations');
	return newer
		? 'was written by a newer version of Coilwright.'
		: 'can’t be used as it is. Nothing of it was changed.';
}

/**
 * Brings the tables up to date: all steps that are missing, or none.
 * @param last the step to stop at; the newest where none is named
 * @throws ClosedDatabase when it can't be reached or written, or was written by a newer version of the program.
 */
export async function migrate({ db, where }: Database, last?: string): Promise<void> {
	const migrator = new Migrator({
		db,
		provider: { getMigrations: () => Promise.resolve({ ...migrations }) }
	});
	const { error } = await (last === undefined ? migrator.migrateToLatest() : migrator.migrateTo(last));
	if (error !== undefined)
		throw new ClosedDatabase(`The database ${where} ${reasonOf(error)}`, { cause: error });
}

/** Asks whether it answers. @throws ClosedDatabase */
export async function reach({ db, where }: Database): Promise<void> {
	try {
		await sql`select 1`.execute(db);
	} catch (error) {
		throw new ClosedDatabase(`The database ${where} ${reasonOf(error)}`, { cause: error });
	}
}
