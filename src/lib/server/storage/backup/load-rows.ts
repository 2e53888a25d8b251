/** Puts rows into a table, many with one statement. */
import { sql, type Kysely } from 'kysely';
import type { Tables } from '../tables.ts';
import { columnList, lineOf, type Row, type TableShape } from './rows.ts';

/** With one statement: so many rows, or rows of so many signs. */
const rowsAtOnce = 200;
const signsAtOnce = 1_000_000;

type Target = Pick<TableShape, 'name' | 'columns'>;

export class RowLoader {
	readonly #db: Kysely<Tables>;
	#table: Target | null = null;
	#rows: Row[] = [];
	#signs = 0;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** Rows of a table come together. @returns the line of the row. */
	async add(table: Target, row: Row): Promise<string> {
		if (this.#table?.name !== table.name) await this.flush();
		const line = lineOf(row);
		this.#table = table;
		this.#rows.push(row);
		this.#signs += line.length;
		if (this.#rows.length >= rowsAtOnce || this.#signs >= signsAtOnce) await this.flush();
		return line;
	}

	/** To be called once more when all are added. */
	async flush(): Promise<void> {
		if (this.#table && this.#rows.length > 0) {
			const { name, columns } = this.#table;
			const values = this.#rows.map((row) => sql`(${sql.join(row)})`);
			await sql`insert into ${sql.table(name)} (${columnList(columns)}) values ${sql.join(values)}`.execute(
				this.#db
			);
		}
		this.#rows = [];
		this.#signs = 0;
	}
}
