/** Things that are done once for a company and never again. */
import type { Kysely } from 'kysely';
import { instant } from './codec.ts';
import type { Tables } from './tables.ts';

export class MilestoneRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async reached(companyId: string, milestone: string): Promise<boolean> {
		const row = await this.#db
			.selectFrom('milestone')
			.select('milestone')
			.where('company_id', '=', companyId)
			.where('milestone', '=', milestone)
			.executeTakeFirst();
		return row !== undefined;
	}

	/** Marks it as reached. False when it was before. */
	async reach(companyId: string, milestone: string, at: Date): Promise<boolean> {
		const result = await this.#db
			.insertInto('milestone')
			.values({ company_id: companyId, milestone, reached_at: instant.write(at) })
			.onConflict((conflict) => conflict.columns(['company_id', 'milestone']).doNothing())
			.executeTakeFirst();
		return (result.numInsertedOrUpdatedRows ?? 0n) > 0n;
	}
}
