import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Jobs with their rows, edits, issued parts and packing lists, and the books they pin. */
export const jobs: Migration = {
	async up(db: Kysely<unknown>): Promise<void> {
		await db.schema
			.createTable('book')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('digest', 'text', (column) => column.notNull())
			.addColumn('kind', 'text', (column) => column.notNull())
			.addColumn('content', 'text', (column) => column.notNull())
			.addColumn('stored_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('book_key', ['company_id', 'digest'])
			.execute();
		await db.schema
			.createTable('job')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('job_id', 'text', (column) => column.notNull())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('measures', 'text', (column) => column.notNull())
			.addColumn('revision', 'integer', (column) => column.notNull())
			.addColumn('technical_digest', 'text', (column) => column.notNull())
			.addColumn('price_digest', 'text', (column) => column.notNull())
			.addColumn('demo', 'integer', (column) => column.notNull())
			.addColumn('created_at', 'text', (column) => column.notNull())
			.addColumn('changed_at', 'text', (column) => column.notNull())
			.addColumn('deleted_at', 'text')
			.addPrimaryKeyConstraint('job_key', ['company_id', 'job_id'])
			.addForeignKeyConstraint('job_technical_book', ['company_id', 'technical_digest'], 'book', [
				'company_id',
				'digest'
			])
			.addForeignKeyConstraint('job_price_book', ['company_id', 'price_digest'], 'book', [
				'company_id',
				'digest'
			])
			.execute();
		await db.schema
			.createTable('opening')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('job_id', 'text', (column) => column.notNull())
			.addColumn('row_id', 'text', (column) => column.notNull())
			.addColumn('position', 'integer', (column) => column.notNull())
			.addColumn('cells', 'text', (column) => column.notNull())
			.addColumn('mark', 'text', (column) => column.notNull())
			.addColumn('opening_number', 'integer')
			.addColumn('quantity', 'integer', (column) => column.notNull())
			.addColumn('removed', 'integer', (column) => column.notNull())
			.addPrimaryKeyConstraint('opening_key', ['company_id', 'job_id', 'row_id'])
			.addForeignKeyConstraint('opening_job', ['company_id', 'job_id'], 'job', ['company_id', 'job_id'])
			.execute();
		await db.schema
			.createIndex('opening_order')
			.on('opening')
			.columns(['company_id', 'job_id', 'position'])
			.execute();
		await db.schema
			.createIndex('opening_mark')
			.on('opening')
			.columns(['company_id', 'job_id', 'mark'])
			.execute();
		await db.schema
			.createTable('edit')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('job_id', 'text', (column) => column.notNull())
			.addColumn('edit_id', 'text', (column) => column.notNull())
			.addColumn('sequence', 'integer', (column) => column.notNull())
			.addColumn('actor_id', 'text', (column) => column.notNull())
			.addColumn('title', 'text', (column) => column.notNull())
			.addColumn('changes', 'text', (column) => column.notNull())
			.addColumn('inverse', 'text', (column) => column.notNull())
			.addColumn('row_ids', 'text', (column) => column.notNull())
			.addColumn('state', 'text', (column) => column.notNull())
			.addColumn('made_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('edit_key', ['company_id', 'job_id', 'edit_id'])
			.addForeignKeyConstraint('edit_job', ['company_id', 'job_id'], 'job', ['company_id', 'job_id'])
			.execute();
		await db.schema
			.createIndex('edit_stack')
			.on('edit')
			.columns(['company_id', 'job_id', 'actor_id', 'state', 'sequence'])
			.execute();
		await db.schema
			.createTable('part')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('job_id', 'text', (column) => column.notNull())
			.addColumn('part_id', 'text', (column) => column.notNull())
			.addColumn('slot', 'text', (column) => column.notNull())
			.addColumn('interchange_key', 'text', (column) => column.notNull())
			.addColumn('part', 'text', (column) => column.notNull())
			.addColumn('supersedes', 'text')
			.addColumn('issued_at', 'text', (column) => column.notNull())
			.addColumn('retired_at', 'text')
			.addPrimaryKeyConstraint('part_key', ['company_id', 'job_id', 'part_id'])
			.addForeignKeyConstraint('part_job', ['company_id', 'job_id'], 'job', ['company_id', 'job_id'])
			.execute();
		await db.schema
			.createTable('delivery')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('job_id', 'text', (column) => column.notNull())
			.addColumn('delivery_id', 'text', (column) => column.notNull())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('lines', 'text', (column) => column.notNull())
			.addColumn('line_count', 'integer', (column) => column.notNull())
			.addColumn('received_at', 'text', (column) => column.notNull())
			.addColumn('removed_at', 'text')
			.addPrimaryKeyConstraint('delivery_key', ['company_id', 'job_id', 'delivery_id'])
			.addForeignKeyConstraint('delivery_job', ['company_id', 'job_id'], 'job', ['company_id', 'job_id'])
			.execute();
		await db.schema
			.createTable('milestone')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('milestone', 'text', (column) => column.notNull())
			.addColumn('reached_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('milestone_key', ['company_id', 'milestone'])
			.execute();
	}
};
