/** The embedded database: `node:sqlite`, dressed as Kysely's SQLite dialect expects its driver. SQLite's own words stay here. */
import { DatabaseSync, type SQLInputValue, type StatementSync } from 'node:sqlite';
import { SqliteAdapter, SqliteDialect, type SqliteDatabase, type SqliteStatement } from 'kysely';
import { checkText } from './storable-text.ts';

/** Statements kept ready; the program's own number of different ones is far below it. */
const preparedStatements = 200;

/**
 * Values as SQLite takes them. A plain object is refused because node:sqlite would take it for named parameters and
 * shift the values silently; a Date or a yes/no because each column says how it is written (see `codec.ts`).
 * @throws UnstorableText
 * @throws Error naming the position and type of a value that can't be bound.
 */
function bindable(parameters: readonly unknown[]): SQLInputValue[] {
	return parameters.map((value, index) => {
		checkText(value);
		if (value === null || typeof value === 'string' || typeof value === 'bigint') return value;
		if (typeof value === 'number' && Number.isFinite(value)) return value;
		if (value instanceof Uint8Array) return value;
		const kind = value instanceof Date ? 'Date' : typeof value;
		throw new Error(`value ${index + 1} of the statement is a ${kind}, which the database can't keep`);
	});
}

/** Rows from node:sqlite have no prototype; the rest of the program expects plain objects. */
const plain = (row: object): object => ({ ...row });

class Statement implements SqliteStatement {
	readonly #statement: StatementSync;
	/** A statement that has columns gives rows, whatever its first word is (`insert … returning`). */
	readonly reader: boolean;

	constructor(statement: StatementSync) {
		this.#statement = statement;
		this.reader = statement.columns().length > 0;
	}

	all(parameters: readonly unknown[]): unknown[] {
		return this.#statement.all(...bindable(parameters)).map(plain);
	}

	run(parameters: readonly unknown[]): { changes: number | bigint; lastInsertRowid: number | bigint } {
		return this.#statement.run(...bindable(parameters));
	}

	*iterate(parameters: readonly unknown[]): IterableIterator<unknown> {
		for (const row of this.#statement.iterate(...bindable(parameters))) yield plain(row);
	}
}

const nothing: SqliteStatement = {
	reader: false,
	all: () => [],
	run: () => ({ changes: 0, lastInsertRowid: 0 }),
	*iterate() {
		// There are no rows.
	}
};

class Database implements SqliteDatabase {
	readonly #database: DatabaseSync;
	readonly #prepared = new Map<string, Statement>();

	constructor(file: string) {
		this.#database = new DatabaseSync(file, { enableForeignKeyConstraints: true, timeout: 10_000 });
		// FULL: an edit that was answered as saved survives a crash of the machine, not only of the program.
		this.#database.exec('pragma journal_mode = WAL; pragma synchronous = FULL; pragma foreign_keys = ON');
	}

	prepare(sql: string): SqliteStatement {
		// SQLite ends a transaction by itself where its disk is full; there is nothing to take back then.
		if (sql === 'rollback' && !this.#database.isTransaction) return nothing;
		// A transaction takes its write lock at once, so that it can't fail half way when a second process writes.
		const text = sql === 'begin' ? 'begin immediate' : sql;
		const known = this.#prepared.get(text);
		if (known) return known;
		const statement = new Statement(this.#database.prepare(text));
		if (this.#prepared.size >= preparedStatements) this.#prepared.clear();
		this.#prepared.set(text, statement);
		return statement;
	}

	close(): void {
		this.#prepared.clear();
		this.#database.close();
	}
}

/** SQLite changes tables in a transaction like anything else: the steps up are made all or none, by one process. */
class Adapter extends SqliteAdapter {
	override get supportsTransactionalDdl(): boolean {
		return true;
	}
}

class Dialect extends SqliteDialect {
	override createAdapter(): SqliteAdapter {
		return new Adapter();
	}
}

/** Opens (or makes) the database file. @param file path, or `:memory:`. */
export function sqliteDialect(file: string): SqliteDialect {
	return new Dialect({ database: () => Promise.resolve(new Database(file)) });
}
