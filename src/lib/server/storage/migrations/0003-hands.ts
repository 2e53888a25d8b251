import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** How kinds of schedules were read, to be read so again. */
export const hands: Migration = {
	async up(db: Kysely<unknown>): Promise<void> {
		await db.schema
			.createTable('mapping')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('kind', 'text', (column) => column.notNull())
			.addColumn('mapping', 'text', (column) => column.notNull())
			.addColumn('confirmed_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('mapping_key', ['company_id', 'kind'])
			.execute();
	}
};
