/** Bids as they were frozen. One is written once; nothing changes or removes it. */
import type { Kysely } from 'kysely';
import type { BidContent, BidSummary, DamagedBid } from '../../changes/bid.ts';
import { codec, instant } from './codec.ts';
import { digestOfText } from './digest.ts';
import { columnsOf, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

interface StoredBid {
	readonly summary: BidSummary;
	readonly content: BidContent;
}

export class BidRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** The number that the next bid gets. */
	async nextNumber(key: JobKey): Promise<number> {
		const row = await this.#of(key)
			.select(({ fn }) => fn.max<number | null>('number').as('last'))
			.executeTakeFirst();
		return (row?.last ?? 0) + 1;
	}

	async add(key: JobKey, bid: StoredBid, at: Date): Promise<void> {
		const summary = codec.bidSummary.write(bid.summary);
		const content = codec.bidContent.write(bid.content);
		const { number, title, revision, actorId, actorName } = bid.summary;
		await this.#db
			.insertInto('bid')
			.values({
				...columnsOf(key),
				number,
				title,
				revision,
				actor_id: actorId,
				actor_name: actorName,
				summary,
				content,
				digest: digestOfText(summary, content),
				frozen_at: instant.write(at)
			})
			.execute();
	}

	/** The latest first. Their digests are not looked at: that is done when one is read. */
	async list(key: JobKey): Promise<(BidSummary | DamagedBid)[]> {
		const rows = await this.#of(key).select(['number', 'summary']).orderBy('number', 'desc').execute();
		return rows.map(({ number, summary }) => {
			try {
				return codec.bidSummary.read(summary);
			} catch {
				return { number, damaged: true };
			}
		});
	}

	/** Null when there is no such bid; damaged when it is not what was frozen. */
	async find(key: JobKey, number: number): Promise<StoredBid | DamagedBid | null> {
		const row = await this.#of(key)
			.where('number', '=', number)
			.select(['summary', 'content', 'digest'])
			.executeTakeFirst();
		if (!row) return null;
		if (digestOfText(row.summary, row.content) !== row.digest) return { number, damaged: true };
		return { summary: codec.bidSummary.read(row.summary), content: codec.bidContent.read(row.content) };
	}

	#of(key: JobKey) {
		return this.#db.selectFrom('bid').where('company_id', '=', key.companyId).where('job_id', '=', key.jobId);
	}
}
