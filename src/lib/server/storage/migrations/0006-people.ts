import { PostgresAdapter, type ColumnDataType, type Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * Companies, their people and invitations, the accounts they sign in with, and what limits how often that is tried.
 * The tables `person`, `credential`, `session` and `verification` are read and written by the accounts library, which keeps
 * moments and flags as each database has them.
 */
export const people: Migration = {
	async up(db: Kysely<unknown>): Promise<void> {
		const postgres = db.getExecutor().adapter instanceof PostgresAdapter;
		const moment: ColumnDataType = postgres ? 'timestamptz' : 'text';
		const yesNo: ColumnDataType = postgres ? 'boolean' : 'integer';

		await db.schema
			.createTable('company')
			.addColumn('company_id', 'text', (column) => column.primaryKey())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('made_at', 'text', (column) => column.notNull())
			.execute();
		await db.schema
			.createTable('person')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('email', 'text', (column) => column.notNull().unique())
			.addColumn('email_verified', yesNo, (column) => column.notNull())
			.addColumn('image', 'text')
			.addColumn('created_at', moment, (column) => column.notNull())
			.addColumn('updated_at', moment, (column) => column.notNull())
			.execute();
		await db.schema
			.createTable('credential')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('account_id', 'text', (column) => column.notNull())
			.addColumn('provider_id', 'text', (column) => column.notNull())
			.addColumn('user_id', 'text', (column) => column.notNull().references('person.id').onDelete('cascade'))
			.addColumn('access_token', 'text')
			.addColumn('refresh_token', 'text')
			.addColumn('id_token', 'text')
			.addColumn('access_token_expires_at', moment)
			.addColumn('refresh_token_expires_at', moment)
			.addColumn('scope', 'text')
			.addColumn('password', 'text')
			.addColumn('created_at', moment, (column) => column.notNull())
			.addColumn('updated_at', moment, (column) => column.notNull())
			.execute();
		await db.schema.createIndex('credential_person').on('credential').column('user_id').execute();
		await db.schema
			.createTable('session')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('expires_at', moment, (column) => column.notNull())
			.addColumn('token', 'text', (column) => column.notNull().unique())
			.addColumn('ip_address', 'text')
			.addColumn('user_agent', 'text')
			.addColumn('user_id', 'text', (column) => column.notNull().references('person.id').onDelete('cascade'))
			.addColumn('created_at', moment, (column) => column.notNull())
			.addColumn('updated_at', moment, (column) => column.notNull())
			.execute();
		await db.schema.createIndex('session_person').on('session').column('user_id').execute();
		await db.schema
			.createTable('verification')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('identifier', 'text', (column) => column.notNull())
			.addColumn('value', 'text', (column) => column.notNull())
			.addColumn('expires_at', moment, (column) => column.notNull())
			.addColumn('created_at', moment, (column) => column.notNull())
			.addColumn('updated_at', moment, (column) => column.notNull())
			.execute();
		await db.schema.createIndex('verification_identifier').on('verification').column('identifier').execute();
		await db.schema
			.createTable('member')
			.addColumn('company_id', 'text', (column) => column.notNull().references('company.company_id'))
			.addColumn('person_id', 'text', (column) => column.notNull().references('person.id').unique())
			.addColumn('roles', 'text', (column) => column.notNull())
			.addColumn('joined_at', 'text', (column) => column.notNull())
			.addColumn('left_at', 'text')
			.addPrimaryKeyConstraint('member_key', ['company_id', 'person_id'])
			.execute();
		await db.schema
			.createTable('invitation')
			.addColumn('company_id', 'text', (column) => column.notNull().references('company.company_id'))
			.addColumn('invitation_id', 'text', (column) => column.notNull())
			.addColumn('token_digest', 'text', (column) => column.notNull().unique())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('email', 'text', (column) => column.notNull())
			.addColumn('roles', 'text', (column) => column.notNull())
			.addColumn('invited_by', 'text', (column) => column.notNull())
			.addColumn('made_at', 'text', (column) => column.notNull())
			.addColumn('expires_at', 'text', (column) => column.notNull())
			.addColumn('accepted_at', 'text')
			.addColumn('withdrawn_at', 'text')
			.addPrimaryKeyConstraint('invitation_key', ['company_id', 'invitation_id'])
			.execute();
		await db.schema
			.createTable('company_history')
			.addColumn('company_id', 'text', (column) => column.notNull())
			.addColumn('entry_id', 'text', (column) => column.notNull())
			.addColumn('actor_id', 'text', (column) => column.notNull())
			.addColumn('actor_name', 'text', (column) => column.notNull())
			.addColumn('title', 'text', (column) => column.notNull())
			.addColumn('records', 'text', (column) => column.notNull())
			.addColumn('made_at', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('company_history_key', ['company_id', 'entry_id'])
			.execute();
		await db.schema
			.createTable('attempt')
			.addColumn('attempt_key', 'text', (column) => column.primaryKey())
			.addColumn('started_at', 'text', (column) => column.notNull())
			.addColumn('tries', 'integer', (column) => column.notNull())
			.execute();
		await db.schema
			.createTable('installation')
			.addColumn('name', 'text', (column) => column.primaryKey())
			.addColumn('value', 'text', (column) => column.notNull())
			.execute();
	}
};
