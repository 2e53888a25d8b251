import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Views of the sheet that a person saved under a name, and how they last left the sheet of each job. */
export const views: Migration = {
	async up(db: Kysely<unknown>): Promise<void> {
		await db.schema
			.createTable('sheet_view')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('actor_id', 'text', (column) => column.notNull())
			.addColumn('name_key', 'text', (column) => column.notNull())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('view', 'text', (column) => column.notNull())
			.addColumn('saved_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('sheet_view_key', ['company_id', 'actor_id', 'name_key'])
			.execute();
		await db.schema
			.createTable('last_view')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('job_id', 'text', (column) => column.notNull())
			.addColumn('actor_id', 'text', (column) => column.notNull())
			.addColumn('view', 'text', (column) => column.notNull())
			.addColumn('left_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('last_view_key', ['company_id', 'job_id', 'actor_id'])
			.addForeignKeyConstraint('last_view_job', ['company_id', 'job_id'], 'job', ['company_id', 'job_id'])
			.execute();
	}
};
