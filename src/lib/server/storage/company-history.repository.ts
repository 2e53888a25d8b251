/** What became of the people and the shop book of a company. Nothing of it is ever changed. */
import type { Kysely } from 'kysely';
import type { RecordChange } from '../../changes/history.ts';
import { codec, instant } from './codec.ts';
import type { Tables } from './tables.ts';

export interface CompanyEntry {
	readonly id: string;
	readonly actorId: string;
	/** As the person was called then. */
	readonly actorName: string;
	readonly title: string;
	readonly records: readonly RecordChange[];
	/** ISO 8601, UTC. */
	readonly madeAt: string;
}

export class CompanyHistoryRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async add(companyId: string, entry: Omit<CompanyEntry, 'madeAt'>, at: Date): Promise<void> {
		await this.#db
			.insertInto('company_history')
			.values({
				company_id: companyId,
				entry_id: entry.id,
				actor_id: entry.actorId,
				actor_name: entry.actorName,
				title: entry.title,
				records: codec.records.write(entry.records),
				made_at: instant.write(at)
			})
			.execute();
	}

	/** The latest first, at most `most`. */
	async list(companyId: string, most: number): Promise<CompanyEntry[]> {
		const rows = await this.#db
			.selectFrom('company_history')
			.selectAll()
			.where('company_id', '=', companyId)
			.orderBy('made_at', 'desc')
			.orderBy('entry_id')
			.limit(most)
			.execute();
		return rows.map((row) => ({
			id: row.entry_id,
			actorId: row.actor_id,
			actorName: row.actor_name,
			title: row.title,
			records: codec.records.read(row.records),
			madeAt: row.made_at
		}));
	}
}
