/** When and how openings are wanted, by row of the mark and number. */
import type { Kysely } from 'kysely';
import type { OpeningPlan } from '../../delivery/ordering/purchase-order.ts';
import { columnsOf, inBatches, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface StoredPlan extends Omit<OpeningPlan, 'openingId'> {
	/** `<row of the mark>.<number>` */
	readonly openingKey: string;
}

export class PlanRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async list(key: JobKey): Promise<StoredPlan[]> {
		const rows = await this.#db
			.selectFrom('opening_plan')
			.select(['opening_key', 'starts_on', 'release_number', 'bought_as'])
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.orderBy('opening_key')
			.execute();
		return rows.map((row) => ({
			openingKey: row.opening_key,
			startsOn: row.starts_on,
			release: row.release_number,
			boughtAs: row.bought_as === 'unit' ? 'unit' : 'parts'
		}));
	}

	async put(key: JobKey, plans: readonly StoredPlan[]): Promise<void> {
		for (const batch of inBatches(plans))
			await this.#db
				.insertInto('opening_plan')
				.values(
					batch.map(({ openingKey, startsOn, release, boughtAs }) => ({
						...columnsOf(key),
						opening_key: openingKey,
						starts_on: startsOn,
						release_number: release,
						bought_as: boughtAs
					}))
				)
				.onConflict((conflict) =>
					conflict.columns(['company_id', 'job_id', 'opening_key']).doUpdateSet((values) => ({
						starts_on: values.ref('excluded.starts_on'),
						release_number: values.ref('excluded.release_number'),
						bought_as: values.ref('excluded.bought_as')
					}))
				)
				.execute();
	}
}
