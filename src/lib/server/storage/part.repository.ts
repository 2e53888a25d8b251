/** Parts that were issued: a part keeps its id, and an id is never given to another part. */
import type { Kysely } from 'kysely';
import type { Part } from '../../takeoff/result.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, inBatches, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface IssuedPart {
	/** Opening, kind and side it is for. */
	readonly slot: string;
	readonly part: Part;
	readonly retired: boolean;
}

/** When a part was issued, and when it was needed no more; ISO 8601, UTC. */
export interface PartDates {
	readonly issuedAt: string;
	readonly retiredAt: string | null;
}

export class PartRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** All parts ever issued for a job, or up to a moment (ISO 8601, UTC), the earliest first. */
	async issued(key: JobKey, until: string | null = null): Promise<IssuedPart[]> {
		let query = this.#db
			.selectFrom('part')
			.select(['slot', 'part', 'retired_at'])
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.orderBy('issued_at')
			.orderBy('part_id');
		if (until !== null) query = query.where('issued_at', '<=', until);
		const rows = await query.execute();
		return rows.map((row) => ({
			slot: row.slot,
			part: codec.part.read(row.part),
			retired: row.retired_at !== null
		}));
	}

	/** By part id, of those that were ever issued. */
	async dates(key: JobKey, partIds: readonly string[]): Promise<ReadonlyMap<string, PartDates>> {
		const dates = new Map<string, PartDates>();
		for (const batch of inBatches(partIds)) {
			const rows = await this.#db
				.selectFrom('part')
				.select(['part_id', 'issued_at', 'retired_at'])
				.where('company_id', '=', key.companyId)
				.where('job_id', '=', key.jobId)
				.where('part_id', 'in', batch)
				.execute();
			for (const row of rows) dates.set(row.part_id, { issuedAt: row.issued_at, retiredAt: row.retired_at });
		}
		return dates;
	}

	async save(key: JobKey, parts: readonly IssuedPart[], at: Date): Promise<void> {
		const moment = instant.write(at);
		for (const batch of inBatches(parts)) {
			await this.#db
				.insertInto('part')
				.values(
					batch.map(({ slot, part, retired }) => ({
						...columnsOf(key),
						part_id: part.partId,
						slot,
						interchange_key: part.interchangeKey,
						part: codec.part.write(part),
						supersedes: part.supersedes,
						issued_at: moment,
						retired_at: retired ? moment : null
					}))
				)
				.onConflict((conflict) =>
					conflict.columns(['company_id', 'job_id', 'part_id']).doUpdateSet((values) => ({
						part: values.ref('excluded.part'),
						interchange_key: values.ref('excluded.interchange_key'),
						retired_at: values.ref('excluded.retired_at')
					}))
				)
				.execute();
		}
	}
}
