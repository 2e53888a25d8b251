/** How often something was tried, counted for all servers together. */
import type { Kysely } from 'kysely';
import { instant } from './codec.ts';
import type { Tables } from './tables.ts';

export interface Attempts {
	/** This one included. */
	readonly tries: number;
	/** Of the first that counts. */
	readonly startedAt: Date;
}

export class AttemptRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/**
	 * Counts one more. Where the first was before `since` the count begins anew. A first that lies in the future (the clock was
	 * set back) is taken to be now, so that nobody waits for the clock to come there again.
	 */
	async count(key: string, since: Date, at: Date): Promise<Attempts> {
		const now = instant.write(at);
		const row = await this.#db
			.insertInto('attempt')
			.values({ attempt_key: key, started_at: now, tries: 1 })
			.onConflict((conflict) =>
				conflict.column('attempt_key').doUpdateSet((eb) => ({
					tries: eb
						.case()
						.when('attempt.started_at', '<=', instant.write(since))
						.then(1)
						.else(eb('attempt.tries', '+', 1))
						.end(),
					started_at: eb
						.case()
						.when(
							eb.or([
								eb('attempt.started_at', '<=', instant.write(since)),
								eb('attempt.started_at', '>', now)
							])
						)
						.then(now)
						.else(eb.ref('attempt.started_at'))
						.end()
				}))
			)
			.returning(['tries', 'started_at'])
			.executeTakeFirstOrThrow();
		return { tries: row.tries, startedAt: new Date(row.started_at) };
	}

	/** Takes one back that turned out to be right. */
	async takeBack(key: string): Promise<void> {
		await this.#db
			.updateTable('attempt')
			.set((eb) => ({ tries: eb('tries', '-', 1) }))
			.where('attempt_key', '=', key)
			.where('tries', '>', 0)
			.execute();
	}

	/** Forgets what began before a moment. */
	async forget(before: Date): Promise<void> {
		await this.#db.deleteFrom('attempt').where('started_at', '<', instant.write(before)).execute();
	}
}
