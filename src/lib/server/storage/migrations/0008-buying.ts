import type { CreateTableBuilder, Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { byteOrder } from './0007-byte-order.ts';

interface Tables {
	delivery: { company_id: string; job_id: string; delivery_id: string; lines: string };
}

type Builder = CreateTableBuilder<string, string>;

/** A table that names company, job and its own key first; all its columns are text unless said otherwise. */
const ofJob = (db: Kysely<Tables>, name: string, ...key: readonly string[]): Builder =>
	withKey(db, name, ['company_id', 'job_id', ...key]).addForeignKeyConstraint(
		`${name}_job`,
		['company_id', 'job_id'],
		'job',
		['company_id', 'job_id']
	);

function withKey(db: Kysely<Tables>, name: string, key: readonly string[]): Builder {
	let table: Builder = db.schema.createTable(name);
	for (const column of key)
		table = table.addColumn(
			column,
			column === 'revision' || column === 'line' ? 'integer' : 'text',
			(build) => build.notNull()
		);
	return table.addPrimaryKeyConstraint(`${name}_key`, [...key]);
}

const texts = (table: Builder, ...columns: readonly string[]): Builder =>
	columns.reduce((built, column) => built.addColumn(column, 'text', (build) => build.notNull()), table);

const perhaps = (table: Builder, ...columns: readonly string[]): Builder =>
	columns.reduce((built, column) => built.addColumn(column, 'text'), table);

/**
 * Suppliers and what they call things, when openings are wanted, orders in all their revisions with the answers to them,
 * what was decided about lines of packing lists, counts with their photos, and field measures. Lines of packing lists
 * learn the fields that were read and left out before.
 */
export const buying: Migration = {
	async up(db: Kysely<Tables>): Promise<void> {
		await perhaps(
			texts(withKey(db, 'supplier', ['company_id', 'supplier_id']), 'supplier', 'changed_at'),
			'removed_at'
		).execute();
		await perhaps(
			texts(
				withKey(db, 'supplier_word', ['company_id', 'supplier_id', 'alias_id']),
				'alias',
				'actor_id',
				'actor_name',
				'made_at'
			),
			'withdrawn_at'
		).execute();

		await perhaps(texts(ofJob(db, 'opening_plan', 'opening_key'), 'bought_as'), 'starts_on')
			.addColumn('release_number', 'integer', (build) => build.notNull())
			.execute();
		await perhaps(
			texts(ofJob(db, 'purchase_order', 'order_id'), 'number', 'supplier_id', 'made_at'),
			'withdrawn_at'
		).execute();
		await perhaps(
			texts(
				ofJob(db, 'order_revision', 'order_id', 'revision'),
				'content',
				'actor_id',
				'actor_name',
				'made_at'
			),
			'released'
		).execute();
		await perhaps(
			texts(
				ofJob(db, 'acknowledgement', 'acknowledgement_id'),
				'order_id',
				'name',
				'content',
				'digest',
				'actor_name',
				'received_at'
			),
			'withdrawn_at'
		).execute();
		await texts(
			ofJob(db, 'difference_decision', 'order_id', 'difference'),
			'decision',
			'reason',
			'actor_id',
			'actor_name',
			'decided_at'
		).execute();

		await texts(
			ofJob(db, 'line_decision', 'delivery_id', 'line'),
			'decision',
			'actor_id',
			'actor_name',
			'decided_at'
		).execute();
		await texts(
			ofJob(db, 'site_count', 'count_id'),
			'delivery_id',
			'content',
			'actor_id',
			'actor_name',
			'counted_at',
			'received_at'
		).execute();
		// As base64 text: so both databases and the backup hold it in the same way.
		await texts(
			ofJob(db, 'photo', 'photo_id'),
			'media_type',
			'content',
			'digest',
			'actor_id',
			'actor_name',
			'received_at'
		).execute();
		await perhaps(
			texts(
				ofJob(db, 'field_measure', 'measure_id'),
				'opening_key',
				'readings',
				'note',
				'actor_id',
				'actor_name',
				'measured_at',
				'received_at'
			),
			'withdrawn_at'
		).execute();

		for (const column of ['supplier_id', 'facts', 'digest', 'counted'])
			await db.schema.alterTable('delivery').addColumn(column, 'text').execute();
		await db.schema
			.alterTable('delivery')
			.addColumn('answers', 'text', (build) => build.notNull().defaultTo('{}'))
			.execute();
		const fields = { orderLine: null, ordered: null, backordered: null };
		for (const { company_id, job_id, delivery_id } of await db
			.selectFrom('delivery')
			.select(['company_id', 'job_id', 'delivery_id'])
			.execute()) {
			const of = db
				.selectFrom('delivery')
				.select('lines')
				.where('company_id', '=', company_id)
				.where('job_id', '=', job_id)
				.where('delivery_id', '=', delivery_id);
			const { lines } = await of.executeTakeFirstOrThrow();
			const completed = (JSON.parse(lines) as object[]).map((line) => ({ ...fields, ...line }));
			await db
				.updateTable('delivery')
				.set({ lines: JSON.stringify(completed) })
				.where('company_id', '=', company_id)
				.where('job_id', '=', job_id)
				.where('delivery_id', '=', delivery_id)
				.execute();
		}
		// The new columns too compare by bytes.
		await byteOrder.up(db);
	}
};
