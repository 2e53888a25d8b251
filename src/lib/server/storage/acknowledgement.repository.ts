/** Answers to orders, and what was decided about their differences. */
import type { Kysely } from 'kysely';
import type { Acknowledgement, DifferenceDecision } from '../../delivery/ordering/acknowledgement.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type Author, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface StoredAcknowledgement {
	readonly acknowledgementId: string;
	readonly orderId: string;
	/** Of the file, or how it came in. */
	readonly name: string;
	readonly content: Acknowledgement;
	/** Of what was read, to know the same answer again. */
	readonly digest: string;
	readonly by: string;
	readonly receivedAt: string;
	readonly withdrawn: boolean;
}

export interface StoredDecision extends DifferenceDecision {
	readonly orderId: string;
}

export class AcknowledgementRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** All of them, those withdrawn too, the first received first. */
	async all(key: JobKey): Promise<StoredAcknowledgement[]> {
		const rows = await this.#db
			.selectFrom('acknowledgement')
			.selectAll()
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.orderBy('received_at')
			.orderBy('acknowledgement_id')
			.execute();
		return rows.map((row) => ({
			acknowledgementId: row.acknowledgement_id,
			orderId: row.order_id,
			name: row.name,
			content: codec.acknowledgement.read(row.content),
			digest: row.digest,
			by: row.actor_name,
			receivedAt: row.received_at,
			withdrawn: row.withdrawn_at !== null
		}));
	}

	async add(
		key: JobKey,
		one: Omit<StoredAcknowledgement, 'by' | 'receivedAt' | 'withdrawn'>,
		author: Author,
		at: Date
	): Promise<void> {
		await this.#db
			.insertInto('acknowledgement')
			.values({
				...columnsOf(key),
				acknowledgement_id: one.acknowledgementId,
				order_id: one.orderId,
				name: one.name,
				content: codec.acknowledgement.write(one.content),
				digest: one.digest,
				actor_name: author.name,
				received_at: instant.write(at),
				withdrawn_at: null
			})
			.execute();
	}

	/** @returns false when there is no such answer. */
	async setWithdrawn(key: JobKey, acknowledgementId: string, withdrawn: boolean, at: Date): Promise<boolean> {
		const row = await this.#db
			.updateTable('acknowledgement')
			.set({ withdrawn_at: withdrawn ? instant.write(at) : null })
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('acknowledgement_id', '=', acknowledgementId)
			.executeTakeFirst();
		return row.numUpdatedRows > 0n;
	}

	/** What stands now. */
	async decisions(key: JobKey): Promise<StoredDecision[]> {
		const rows = await this.#db
			.selectFrom('difference_decision')
			.selectAll()
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.execute();
		return rows.map((row) => ({
			orderId: row.order_id,
			key: row.difference,
			decision: row.decision === 'signedOff' ? 'signedOff' : 'sentBack',
			reason: row.reason,
			by: row.actor_name,
			at: row.decided_at
		}));
	}

	/** Writes a decision over the one that stood. */
	async decide(
		key: JobKey,
		{ orderId, difference }: { readonly orderId: string; readonly difference: string },
		decision: Pick<DifferenceDecision, 'decision' | 'reason'>,
		author: Author,
		at: Date
	): Promise<void> {
		const written = {
			decision: decision.decision,
			reason: decision.reason,
			actor_id: author.id,
			actor_name: author.name,
			decided_at: instant.write(at)
		};
		await this.#db
			.insertInto('difference_decision')
			.values({ ...columnsOf(key), order_id: orderId, difference, ...written })
			.onConflict((conflict) =>
				conflict.columns(['company_id', 'job_id', 'order_id', 'difference']).doUpdateSet(written)
			)
			.execute();
	}

	/** Takes a decision back. @returns false when there was none. */
	async undecide(key: JobKey, orderId: string, difference: string): Promise<boolean> {
		const row = await this.#db
			.deleteFrom('difference_decision')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('order_id', '=', orderId)
			.where('difference', '=', difference)
			.executeTakeFirst();
		return row.numDeletedRows > 0n;
	}
}
