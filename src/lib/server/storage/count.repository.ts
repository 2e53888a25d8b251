/** What was counted on site. A count is written once; a later one of the same line takes its place. */
import type { Kysely } from 'kysely';
import type { SentCount, SiteCount } from '../../delivery/count.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type Author, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export class CountRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** All of them, also those that others took the place of, the first counted first. */
	async list(key: JobKey): Promise<(SiteCount & { readonly receivedAt: string })[]> {
		const rows = await this.#db
			.selectFrom('site_count')
			.selectAll()
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.orderBy('counted_at')
			.orderBy('received_at')
			.orderBy('count_id')
			.execute();
		return rows.map((row) => ({
			...codec.count.read(row.content),
			by: row.actor_name,
			receivedAt: row.received_at
		}));
	}

	/** Null when it was not received before. */
	async find(key: JobKey, countId: string): Promise<SentCount | null> {
		const row = await this.#db
			.selectFrom('site_count')
			.select('content')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('count_id', '=', countId)
			.executeTakeFirst();
		return row ? codec.count.read(row.content) : null;
	}

	async add(key: JobKey, count: SentCount, author: Author, at: Date): Promise<void> {
		await this.#db
			.insertInto('site_count')
			.values({
				...columnsOf(key),
				count_id: count.countId,
				delivery_id: count.deliveryId,
				content: codec.count.write(count),
				actor_id: author.id,
				actor_name: author.name,
				counted_at: count.countedAt,
				received_at: instant.write(at)
			})
			.execute();
	}
}
