/** Rows of all tables as both databases have them in common: read as they stood at one moment, and put into another. */
import { createHash, type Hash } from 'node:crypto';
import { sql, type Expression, type Kysely, type RawBuilder, type SqlBool } from 'kysely';
import type { Database } from '../database.ts';
import type { Tables } from '../tables.ts';
import { backupTables, type BackupTable } from './backup-tables.ts';
import { BackupProblem } from './backup-problem.ts';

/** Moments are ISO 8601 text, yes and no are 1 and 0: what the databases keep differently is written in one way. */
type Value = string | number | null;
export type Row = readonly Value[];

type StoredRow = Readonly<Record<string, unknown>>;

export interface TableShape extends BackupTable {
	/** In the order of the values of a row. */
	readonly columns: readonly string[];
}

export interface TableState {
	readonly name: string;
	readonly rows: number;
	/** SHA-256 over the lines of its rows, hexadecimal: the same for the same rows in every database. */
	readonly sha256: string;
}

/** What is fetched from PostgreSQL at once: about so many signs, and so many rows at most. */
const signsAtOnce = 1_000_000;
const rowsAtOnce = 200;

export const columnList = (columns: readonly string[]): RawBuilder<unknown> =>
	sql.join(columns.map((column) => sql.ref(column)));

/** A row as a line of a backup. */
export const lineOf = (row: Row): string => `${JSON.stringify(row)}\n`;

/** Counts the rows of a table and digests them, line by line. */
export class TableDigest {
	readonly #name: string;
	readonly #hash: Hash = createHash('sha256');
	#rows = 0;

	constructor(name: string) {
		this.#name = name;
	}

	add(line: string): void {
		this.#rows++;
		this.#hash.update(line);
	}

	/** To be asked once, when all are added. */
	state(): TableState {
		return { name: this.#name, rows: this.#rows, sha256: this.#hash.digest('hex') };
	}
}

function valueOf(stored: unknown): Value {
	if (stored === null || typeof stored === 'string' || typeof stored === 'number') return stored;
	if (stored instanceof Date) return stored.toISOString();
	if (typeof stored === 'boolean') return stored ? 1 : 0;
	throw new BackupProblem(`A value of the database is a ${typeof stored}, which no backup holds.`);
}

/** One company with its people, or everything. */
export type Scope = { readonly companyId: string } | 'everything';

function conditionOf({ company }: BackupTable, scope: Scope): RawBuilder<SqlBool> {
	if (scope === 'everything') return sql`1 = 1`;
	const { companyId } = scope;
	return company === 'company_id'
		? sql`company_id = ${companyId}`
		: sql`${sql.ref(company.person)} in (select person_id from member where company_id = ${companyId})`;
}

/** A database at one moment: nothing that is written meanwhile is in it. */
export class Snapshot {
	/** What else is read of the same moment. */
	readonly db: Kysely<Tables>;
	readonly #postgres: boolean;

	private constructor(db: Kysely<Tables>, postgres: boolean) {
		this.db = db;
		this.#postgres = postgres;
	}

	/** Reads while others go on writing. */
	static async read<T>({ db, type }: Database, work: (snapshot: Snapshot) => Promise<T>): Promise<T> {
		if (type === 'postgres')
			return db
				.transaction()
				.setIsolationLevel('repeatable read')
				.setAccessMode('read only')
				.execute(async (inside) => {
					await takeTime(inside);
					return work(new Snapshot(inside, true));
				});
		return db.connection().execute(async (connection) => {
			await sql`begin deferred`.execute(connection);
			try {
				return await work(new Snapshot(connection, false));
			} finally {
				await sql`rollback`.execute(connection);
			}
		});
	}

	/** Inside a transaction that writes: what it has written so far. */
	static inside({ db, type }: Database): Snapshot {
		return new Snapshot(db, type === 'postgres');
	}

	/** The steps by which its tables were made, in order. @throws BackupProblem where there are none. */
	async migrations(): Promise<string[]> {
		const tables = await this.db.introspection.getTables({ withInternalKyselyTables: true });
		if (!tables.some(({ name }) => name === 'kysely_migration'))
			throw new BackupProblem('The database holds nothing of Coilwright.');
		const { rows } = await sql<{ name: string }>`select name from kysely_migration order by name`.execute(
			this.db
		);
		return rows.map(({ name }) => name);
	}

	/** Those of its tables that a backup holds. */
	async tables(): Promise<TableShape[]> {
		const there = new Map(
			(await this.db.introspection.getTables()).map(({ name, columns }) => [
				name,
				columns.map((column) => column.name)
			])
		);
		return backupTables.flatMap((table) => {
			const columns = there.get(table.name);
			return columns ? [{ ...table, columns: [...columns].sort() }] : [];
		});
	}

	async count(table: BackupTable, scope: Scope): Promise<number> {
		const { rows } = await sql<{ rows: number | string }>`
			select count(*) as rows from ${sql.table(table.name)} where ${conditionOf(table, scope)}`.execute(this.db);
		return Number(rows[0]?.rows ?? 0);
	}

	/** All rows, in the order of their key. Few of them are in memory at a time. */
	async *rows(table: TableShape, scope: Scope): AsyncGenerator<Row> {
		let query = this.db
			.selectFrom(sql<StoredRow>`${sql.table(table.name)}`.as('stored'))
			.select(table.columns.map((column) => sql.ref(column).as(column)))
			.where(conditionOf(table, scope));
		for (const column of table.key) query = query.orderBy(sql.ref(column));
		const stored = this.#postgres ? this.#fetched(query) : query.stream(1);
		for await (const row of stored as AsyncIterable<StoredRow>)
			yield table.columns.map((column) => valueOf(row[column]));
	}

	/** Counts and digests of all tables. */
	async states(scope: Scope): Promise<TableState[]> {
		const states: TableState[] = [];
		for (const table of await this.tables()) {
			const digest = new TableDigest(table.name);
			for await (const row of this.rows(table, scope)) digest.add(lineOf(row));
			states.push(digest.state());
		}
		return states;
	}

	async *#fetched(query: Expression<unknown>): AsyncGenerator<StoredRow> {
		await sql`declare backup_rows no scroll cursor for ${query}`.execute(this.db);
		for (let next = 1; ;) {
			const { rows } = await sql<StoredRow>`fetch ${sql.lit(next)} from backup_rows`.execute(this.db);
			if (rows.length === 0) break;
			yield* rows;
			const signs = JSON.stringify(rows).length;
			next = Math.max(1, Math.min(rowsAtOnce, Math.floor((signsAtOnce * rows.length) / signs)));
		}
		await sql`close backup_rows`.execute(this.db);
	}
}

/** In a transaction of PostgreSQL: a backup may take longer than anything that a person waits for. */
export async function takeTime(inside: Kysely<Tables>): Promise<void> {
	await sql`set local statement_timeout = 0`.execute(inside);
	await sql`set local idle_in_transaction_session_timeout = 0`.execute(inside);
}
