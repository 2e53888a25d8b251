import { PostgresAdapter, sql, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * PostgreSQL compares text by the language of the server unless a column says otherwise; its indexes break when the rules of
 * the language change under them. From here on it compares by bytes, as the embedded database does.
 */
export const byteOrder: Migration = {
	async up(db: Kysely<unknown>): Promise<void> {
		if (!(db.getExecutor().adapter instanceof PostgresAdapter)) return;
		const tables = await db.introspection.getTables();
		for (const { name, columns } of tables) {
			const texts = columns.filter(({ dataType }) => dataType === 'text').map((column) => column.name);
			if (texts.length === 0) continue;
			const changes = texts.map((text) => sql`alter column ${sql.ref(text)} type text collate "C"`);
			await sql`alter table ${sql.table(name)} ${sql.join(changes)}`.execute(db);
		}
	}
};
