import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

interface Tables {
	job: { company_id: string; job_id: string; revision: number; history_from: number };
	edit: {
		company_id: string;
		job_id: string;
		edit_id: string;
		sequence: number;
		actor_id: string;
		title: string;
		changes: string;
		inverse: string;
		row_ids: string;
		state: string;
		made_at: string;
	};
	history: {
		company_id: string;
		job_id: string;
		revision: number;
		kind: string;
		actor_id: string;
		actor_name: string;
		title: string;
		changes: string;
		inverse: string;
		row_ids: string;
		records: string;
		made_at: string;
	};
}

/** Columns of an edit that its entry in the history holds from now on. */
const moved = ['title', 'changes', 'inverse', 'row_ids', 'made_at'] as const;

/**
 * Everything that becomes of a job, entry by entry, and bids as they were frozen. What edits held moves into their entries.
 * Undos were not written down before: a job that saw one can only be brought back to moments from now on.
 */
export const history: Migration = {
	async up(db: Kysely<Tables>): Promise<void> {
		await db.schema
			.createTable('history')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('job_id', 'text', (column) => column.notNull())
			.addColumn('revision', 'integer', (column) => column.notNull())
			.addColumn('kind', 'text', (column) => column.notNull())
			.addColumn('actor_id', 'text', (column) => column.notNull())
			.addColumn('actor_name', 'text', (column) => column.notNull())
			.addColumn('title', 'text', (column) => column.notNull())
			.addColumn('changes', 'text', (column) => column.notNull())
			.addColumn('inverse', 'text', (column) => column.notNull())
			.addColumn('row_ids', 'text', (column) => column.notNull())
			.addColumn('records', 'text', (column) => column.notNull())
			.addColumn('made_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('history_key', ['company_id', 'job_id', 'revision'])
			.addForeignKeyConstraint('history_job', ['company_id', 'job_id'], 'job', ['company_id', 'job_id'])
			.execute();
		await db.schema
			.createTable('bid')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('job_id', 'text', (column) => column.notNull())
			.addColumn('number', 'integer', (column) => column.notNull())
			.addColumn('title', 'text', (column) => column.notNull())
			.addColumn('revision', 'integer', (column) => column.notNull())
			.addColumn('actor_id', 'text', (column) => column.notNull())
			.addColumn('actor_name', 'text', (column) => column.notNull())
			.addColumn('summary', 'text', (column) => column.notNull())
			.addColumn('content', 'text', (column) => column.notNull())
			.addColumn('digest', 'text', (column) => column.notNull())
			.addColumn('frozen_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('bid_key', ['company_id', 'job_id', 'number'])
			.addForeignKeyConstraint('bid_job', ['company_id', 'job_id'], 'job', ['company_id', 'job_id'])
			.execute();
		await db.schema
			.alterTable('job')
			.addColumn('history_from', 'integer', (column) => column.notNull().defaultTo(0))
			.execute();

		const edits = await db
			.selectFrom('edit')
			.select(['company_id', 'job_id', 'edit_id'])
			.orderBy('company_id')
			.orderBy('job_id')
			.orderBy('sequence')
			.execute();
		// One at a time: an import of thousands of rows is one edit.
		for (const { company_id, job_id, edit_id } of edits) {
			const edit = await db
				.selectFrom('edit')
				.selectAll()
				.where('company_id', '=', company_id)
				.where('job_id', '=', job_id)
				.where('edit_id', '=', edit_id)
				.executeTakeFirstOrThrow();
			await db
				.insertInto('history')
				.values({
					company_id,
					job_id,
					revision: edit.sequence,
					kind: 'edit',
					actor_id: edit.actor_id,
					actor_name: '',
					title: edit.title,
					changes: edit.changes,
					inverse: edit.inverse,
					row_ids: edit.row_ids,
					records: '[]',
					made_at: edit.made_at
				})
				.execute();
		}
		const entries = new Map<string, number>();
		for (const { company_id, job_id } of edits) {
			const job = JSON.stringify([company_id, job_id]);
			entries.set(job, (entries.get(job) ?? 0) + 1);
		}
		for (const job of await db
			.selectFrom('job')
			.select(['company_id', 'job_id', 'revision'])
			.where('revision', '>', 0)
			.execute()) {
			if (entries.get(JSON.stringify([job.company_id, job.job_id])) === job.revision) continue;
			await db
				.updateTable('job')
				.set({ history_from: job.revision })
				.where('company_id', '=', job.company_id)
				.where('job_id', '=', job.job_id)
				.execute();
		}
		for (const column of moved) await db.schema.alterTable('edit').dropColumn(column).execute();
	}
};
