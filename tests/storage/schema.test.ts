/** What the tables must be so that a database can be spread by company, read from the migrated database itself. */
import { sql, type Kysely } from 'kysely';
import { describe, expect, it } from 'vitest';
import { backupTables, leftOut } from '../../src/lib/server/storage/backup/backup-tables.ts';
import { databases, temporaryStorage } from './databases.ts';

/** Tables that belong to no company, and why. All others have the company first in their key. */
const ofNoCompany: Readonly<Record<string, string>> = {
	person: 'a person signs in by e-mail before it is known which company they belong to',
	credential: 'the password of a person; found by person',
	session: 'a sign-in of a person; found by the token in a cookie',
	verification: 'of the accounts library, which knows no companies',
	attempt: 'counts tries to sign in, from whoever makes them',
	installation: 'what belongs to the installation as a whole',
	kysely_migration: 'which steps were made',
	kysely_migration_lock: 'keeps two from making them at once'
};

/** Of a person in a company; the person is found by the first of them alone. */
const personKeys = ['member_person_id_key', 'invitation_token_digest_key'];

interface TableShape {
	readonly name: string;
	readonly columns: readonly string[];
	readonly key: readonly string[];
	readonly references: readonly { readonly table: string; readonly columns: readonly string[] }[];
}

async function inSqlite(db: Kysely<never>): Promise<TableShape[]> {
	const tables = await sql<{ name: string }>`
		select name from sqlite_master where type = 'table' and name not like 'sqlite_%'`.execute(db);
	const shapes: TableShape[] = [];
	for (const { name } of tables.rows) {
		const columns = await sql<{ name: string; pk: number }>`
			select name, pk from pragma_table_info(${name}) order by cid`.execute(db);
		const foreign = await sql<{ id: number; table: string; from: string }>`
			select id, "table", "from" from pragma_foreign_key_list(${name}) order by id, seq`.execute(db);
		shapes.push({
			name,
			columns: columns.rows.map((column) => column.name),
			key: columns.rows
				.filter(({ pk }) => pk > 0)
				.sort((a, b) => a.pk - b.pk)
				.map((column) => column.name),
			references: [...Map.groupBy(foreign.rows, ({ id }) => id).values()].map((parts) => ({
				table: parts[0]?.table ?? '',
				columns: parts.map(({ from }) => from)
			}))
		});
	}
	return shapes;
}

async function inPostgres(db: Kysely<never>): Promise<TableShape[]> {
	const { rows } = await sql<TableShape>`
		select
			relation.relname as name,
			(select json_agg(attname order by attnum) from pg_attribute
				where attrelid = relation.oid and attnum > 0 and not attisdropped) as columns,
			coalesce((select json_agg(attname order by place) from pg_constraint
				cross join unnest(conkey) with ordinality as part (number, place)
				join pg_attribute on attrelid = conrelid and attnum = number
				where conrelid = relation.oid and contype = 'p'), '[]') as key,
			coalesce((select json_agg(json_build_object('table', confrelid::regclass::text, 'columns',
				(select json_agg(attname order by place) from unnest(conkey) with ordinality as part (number, place)
					join pg_attribute on attrelid = conrelid and attnum = number)))
				from pg_constraint where conrelid = relation.oid and contype = 'f'), '[]') as references
		from pg_class relation
		where relation.relkind = 'r' and relation.relnamespace = 'public'::regnamespace`.execute(db);
	return [...rows];
}

describe.each(databases)('the tables on $name', ({ name, emptyPlace: place }) => {
	it('are in a backup or left out on purpose, and have company and job first in every key', async () => {
		const { accountsDatabase } = await temporaryStorage(await place());
		const db = accountsDatabase.db as unknown as Kysely<never>;
		const tables = name === 'SQLite' ? await inSqlite(db) : await inPostgres(db);
		const kept = [...backupTables.map((table) => table.name), ...leftOut];
		expect(
			tables
				.map((table) => table.name)
				.filter((table) => !table.startsWith('kysely_'))
				.sort()
		).toEqual(kept.sort());
		for (const { name: table, key } of backupTables)
			expect([table, ...key]).toEqual([table, ...(tables.find((one) => one.name === table)?.key ?? [])]);
		expect(tables.map((table) => table.name)).toEqual(
			expect.arrayContaining(['job', 'opening', 'history', 'member', ...Object.keys(ofNoCompany)])
		);
		for (const table of tables) {
			const ofCompany = !Object.hasOwn(ofNoCompany, table.name);
			expect([table.name, table.columns.includes('company_id')]).toEqual([table.name, ofCompany]);
			if (!ofCompany) continue;
			const first = table.columns.includes('job_id') ? ['company_id', 'job_id'] : ['company_id'];
			expect([table.name, ...table.key.slice(0, first.length)]).toEqual([table.name, ...first]);
			for (const { table: other, columns } of table.references) {
				if (Object.hasOwn(ofNoCompany, other)) continue;
				const shared = [table.name, other, ...columns.slice(0, 1)];
				expect(shared).toEqual([table.name, other, 'company_id']);
			}
		}
	});
});

describe.each(databases.filter(({ name }) => name === 'PostgreSQL'))(
	'text on $name',
	({ emptyPlace: place }) => {
		it('is compared by its bytes in every column, and unique across companies only where it must be', async () => {
			const { accountsDatabase } = await temporaryStorage(await place());
			const { db } = accountsDatabase;
			const byLanguage = await sql`
			select relname, attname from pg_attribute join pg_class relation on relation.oid = attrelid
			where relkind = 'r' and relnamespace = 'public'::regnamespace and atttypid = 'text'::regtype
				and attcollation <> (select oid from pg_collation where collname = 'C')`.execute(db);
			expect(byLanguage.rows).toEqual([]);
			const unique = await sql<{ conname: string }>`
			select conname from pg_constraint join pg_class relation on relation.oid = conrelid
			where contype = 'u' and relnamespace = 'public'::regnamespace and relation.relname <> all (${Object.keys(ofNoCompany)}) order by conname`.execute(
				db
			);
			expect(unique.rows.map(({ conname }) => conname)).toEqual([...personKeys].sort());
		});
	}
);
