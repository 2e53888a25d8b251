/** A database put back to what it held: only the rows that changed since are written. */
import { sql, type Kysely, type RawBuilder } from 'kysely';
import { RowLoader } from '../../src/lib/server/storage/backup/load-rows.ts';
import {
	lineOf,
	Snapshot,
	type Row,
	type Scope,
	type TableShape
} from '../../src/lib/server/storage/backup/rows.ts';
import type { Database } from '../../src/lib/server/storage/database.ts';
import type { Storage } from '../../src/lib/server/storage/storage.ts';
import type { Tables } from '../../src/lib/server/storage/tables.ts';

interface KeptTable {
	readonly shape: TableShape;
	/** By what the key says. */
	readonly rows: ReadonlyMap<string, { readonly row: Row; readonly line: string }>;
}

const keyOf = ({ columns, key }: TableShape, row: Row): string =>
	JSON.stringify(key.map((column) => row[columns.indexOf(column)]));

const isRow = ({ columns, key }: TableShape, row: Row): RawBuilder<unknown> =>
	sql.join(
		key.map((column) => sql`${sql.ref(column)} = ${row[columns.indexOf(column)]}`),
		sql` and `
	);

/** Everything that a backup would hold, at one moment. */
export class KeptRows {
	readonly #database: Database;
	readonly #scope: Scope;
	readonly #tables: readonly KeptTable[];

	private constructor(database: Database, scope: Scope, tables: readonly KeptTable[]) {
		this.#database = database;
		this.#scope = scope;
		this.#tables = tables;
	}

	static of({ accountsDatabase }: Storage, scope: Scope): Promise<KeptRows> {
		return KeptRows.#read({ ...accountsDatabase, where: 'of a test' }, scope, (snapshot) =>
			snapshot.tables()
		);
	}

	/** The same of this moment. */
	now(): Promise<KeptRows> {
		const shapes = this.#tables.map(({ shape }) => shape);
		return KeptRows.#read(this.#database, this.#scope, () => Promise.resolve(shapes));
	}

	static #read(
		database: Database,
		scope: Scope,
		shapesIn: (snapshot: Snapshot) => Promise<readonly TableShape[]>
	): Promise<KeptRows> {
		return Snapshot.read(database, async (snapshot) => {
			const tables: KeptTable[] = [];
			for (const shape of await shapesIn(snapshot)) {
				const rows = new Map<string, { row: Row; line: string }>();
				for await (const row of snapshot.rows(shape, scope))
					rows.set(keyOf(shape, row), { row, line: lineOf(row) });
				tables.push({ shape, rows });
			}
			return new KeptRows(database, scope, tables);
		});
	}

	/** Rows that are in one of the two and not in the other, as `table − row` and `table + row`. */
	changesTo(later: KeptRows): string[] {
		return this.#tables.flatMap(({ shape: { name }, rows }) => {
			const after = later.#rowsOf(name);
			return [
				...[...rows]
					.filter(([key, { line }]) => after.get(key)?.line !== line)
					.map(([, { line }]) => `${name} − ${line}`),
				...[...after]
					.filter(([key, { line }]) => rows.get(key)?.line !== line)
					.map(([, { line }]) => `${name} + ${line}`)
			];
		});
	}

	/** Puts back what was kept. @param now what the database holds at the moment */
	async putBack(now: KeptRows): Promise<void> {
		await this.#database.db.transaction().execute(async (inside) => {
			for (const { shape, rows } of [...now.#tables].reverse()) {
				const kept = this.#rowsOf(shape.name);
				for (const [key, { row }] of rows)
					if (!kept.has(key))
						await sql`delete from ${sql.table(shape.name)} where ${isRow(shape, row)}`.execute(inside);
			}
			const loader = new RowLoader(inside);
			for (const { shape, rows } of this.#tables) {
				const there = now.#rowsOf(shape.name);
				for (const [key, { row, line }] of rows) {
					const other = there.get(key);
					if (!other) await loader.add(shape, row);
					else if (other.line !== line) await update(inside, shape, row);
				}
			}
			await loader.flush();
		});
	}

	#rowsOf(name: string): KeptTable['rows'] {
		return this.#tables.find(({ shape }) => shape.name === name)?.rows ?? new Map();
	}
}

async function update(db: Kysely<Tables>, shape: TableShape, row: Row): Promise<void> {
	const values = sql.join(shape.columns.map((column, at) => sql`${sql.ref(column)} = ${row[at]}`));
	await sql`update ${sql.table(shape.name)} set ${values} where ${isRow(shape, row)}`.execute(db);
}
