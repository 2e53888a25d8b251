/** The way to the database: one repository a noun, alone or together in one transaction. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { Kysely } from 'kysely';
import { Migrator } from 'kysely/migration';
import { BookRepository } from './book.repository.ts';
import { DeliveryRepository } from './delivery.repository.ts';
import { EditRepository } from './edit.repository.ts';
import { JobRepository } from './job.repository.ts';
import { MappingRepository } from './mapping.repository.ts';
import { migrations } from './migrations/all.ts';
import { MilestoneRepository } from './milestone.repository.ts';
import { OpeningRepository } from './opening.repository.ts';
import { PartRepository } from './part.repository.ts';
import { sqliteDialect } from './sqlite-database.ts';
import type { Tables } from './tables.ts';
import { ViewRepository } from './view.repository.ts';

export interface Repositories {
	readonly books: BookRepository;
	readonly jobs: JobRepository;
	readonly openings: OpeningRepository;
	readonly edits: EditRepository;
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

export interface Storage extends Repositories {
	/** All of it is stored, or, when it throws or its answer is not ok, nothing of it. */
	transaction<T extends { readonly ok: boolean }>(work: (inside: Repositories) => Promise<T>): Promise<T>;
	close(): Promise<void>;
}

/**
 * Opens the database of a folder (made where it is missing) and brings its tables up to date.
 * @throws Error when the folder can't be written, or was written by a newer version of the program.
 */
export async function openStorage(folder: string): Promise<Storage> {
	mkdirSync(folder, { recursive: true });
	const db = new Kysely<Tables>({ dialect: sqliteDialect(join(folder, 'coilwright.sqlite')) });
	const migrator = new Migrator({
		db,
		provider: { getMigrations: () => Promise.resolve({ ...migrations }) }
	});
	const { error } = await migrator.migrateToLatest();
	if (error !== undefined) {
		await db.destroy();
		throw new Error(
			`The database in ${folder} can't be brought up to date. It may have been written by a newer version of Coilwright.`,
			{ cause: error }
		);
	}
	return {
		...repositories(db),
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
