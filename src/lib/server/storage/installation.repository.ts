/** What belongs to the installation: the same for all its companies and servers. */
import type { Kysely } from 'kysely';
import type { Tables } from './tables.ts';

export class InstallationRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async read(name: string): Promise<string | null> {
		const row = await this.#db
			.selectFrom('installation')
			.select('value')
			.where('name', '=', name)
			.executeTakeFirst();
		return row?.value ?? null;
	}

	/** Keeps a value where there is none. @returns the one that stands now: the first that was kept. */
	async keep(name: string, value: string): Promise<string> {
		await this.#db
			.insertInto('installation')
			.values({ name, value })
			.onConflict((conflict) => conflict.column('name').doNothing())
			.execute();
		return (await this.read(name)) ?? value;
	}

	async forget(name: string): Promise<void> {
		await this.#db.deleteFrom('installation').where('name', '=', name).execute();
	}
}
