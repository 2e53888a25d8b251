/** The way to the database: one repository a noun, alone or together in one transaction. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { Kysely } from 'kysely';
import { Migrator } from 'kysely/migration';
import { BookRepository } from './book.repository.ts';
import { DeliveryRepository } from './delivery.repository.ts';
import { EditRepository } from './edit.repository.ts';
import { HistoryRepository } from './history.repository.ts';
import { JobRepository } from './job.repository.ts';
import { MappingRepository } from './mapping.repository.ts';
import { migrations } from './migrations/all.ts';
import { MilestoneRepository } from './milestone.repository.ts';
import { OpeningRepository } from './opening.repository.ts';
import { PartRepository } from './part.repository.ts';
import { isPostgresUrl, postgresDialect, postgresPool } from './postgres-database.ts';
import { sqliteDialect } from './sqlite-database.ts';
import type { Tables } from './tables.ts';
import { ViewRepository } from './view.repository.ts';

export interface Repositories {
	readonly books: BookRepository;
	readonly jobs: JobRepository;
	readonly openings: OpeningRepository;
	readonly edits: EditRepository;
	readonly history: HistoryRepository;
	readonly parts: PartRepository;
	readonly deliveries: DeliveryRepository;
	readonly milestones: MilestoneRepository;
	readonly mappings: MappingRepository;
	readonly views: ViewRepository;
}

function repositories(db: Kysely<Tables>): Repositories {
	return {
		books: new BookRepository(db),
		jobs: new JobRepository(db),
		openings: new OpeningRepository(db),
		edits: new EditRepository(db),
		history: new HistoryRepository(db),
		parts: new PartRepository(db),
		deliveries: new DeliveryRepository(db),
		milestones: new MilestoneRepository(db),
		mappings: new MappingRepository(db),
		views: new ViewRepository(db)
	};
}

/** Carries an answer that must leave nothing behind out of its transaction. */
class RolledBack extends Error {
	readonly answer: unknown;

	constructor(answer: unknown) {
		super('rolled back');
		this.answer = answer;
	}
}

/** The tables of accounts, for the library that keeps them. */
export interface AccountsDatabase {
	readonly db: Kysely<Tables>;
	readonly type: 'sqlite' | 'postgres';
}

export interface Storage extends Repositories {
	readonly accountsDatabase: AccountsDatabase;
	/** All of it is stored, or, when it throws or its answer is not ok, nothing of it. */
	transaction<T extends { readonly ok: boolean }>(work: (inside: Repositories) => Promise<T>): Promise<T>;
	close(): Promise<void>;
}

/**
 * Opens a database and brings its tables up to date.
 * @param place a folder for the embedded database (made where it is missing), or the URL of a PostgreSQL database
 * @throws Error when the place can't be reached or written, or was written by a newer version of the program.
 */
export async function openStorage(place: string): Promise<Storage> {
	const postgres = isPostgresUrl(place);
	if (!postgres) mkdirSync(place, { recursive: true });
	const db = new Kysely<Tables>({
		dialect: postgres ? postgresDialect(postgresPool(place)) : sqliteDialect(join(place, 'coilwright.sqlite'))
	});
	const migrator = new Migrator({
		db,
		provider: { getMigrations: () => Promise.resolve({ ...migrations }) }
	});
	const { error } = await migrator.migrateToLatest();
	if (error !== undefined) {
		await db.destroy();
		const where = postgres ? 'named by DATABASE_URL' : `in ${place}`;
		throw new Error(
			`The database ${where} can't be brought up to date. It may have been written by a newer version of Coilwright.`,
			{ cause: error }
		);
	}
	return {
		...repositories(db),
		accountsDatabase: { db, type: postgres ? 'postgres' : 'sqlite' },
		async transaction<T extends { readonly ok: boolean }>(
			work: (inside: Repositories) => Promise<T>
		): Promise<T> {
			try {
				return await db.transaction().execute(async (inside) => {
					const answer = await work(repositories(inside));
					if (!answer.ok) throw new RolledBack(answer);
					return answer;
				});
			} catch (thrown) {
				if (thrown instanceof RolledBack) return thrown.answer as T;
				throw thrown;
			}
		},
		close: () => db.destroy()
	};
}
