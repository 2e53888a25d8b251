/** Packing lists of a job. One that is taken out keeps its lines and can be put back. */
import type { Kysely } from 'kysely';
import type { DeliverySummary } from '../../changes/answer.ts';
import type { PackingLine } from '../../delivery/line.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface StoredDelivery {
	readonly deliveryId: string;
	readonly name: string;
	readonly lines: readonly PackingLine[];
}

export class DeliveryRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** All of them, the first received first. */
	async list(key: JobKey): Promise<DeliverySummary[]> {
		const rows = await this.#of(key)
			.select(['delivery_id', 'name', 'line_count', 'received_at', 'removed_at'])
			.orderBy('received_at')
			.orderBy('delivery_id')
			.execute();
		return rows.map((row) => ({
			id: row.delivery_id,
			name: row.name,
			lines: row.line_count,
			receivedAt: row.received_at,
			removed: row.removed_at !== null
		}));
	}

	/** Those that count, with their lines, the first received first. */
	async counted(key: JobKey): Promise<StoredDelivery[]> {
		const rows = await this.#of(key)
			.select(['delivery_id', 'name', 'lines'])
			.where('removed_at', 'is', null)
			.orderBy('received_at')
			.orderBy('delivery_id')
			.execute();
		return rows.map((row) => ({
			deliveryId: row.delivery_id,
			name: row.name,
			lines: codec.lines.read(row.lines)
		}));
	}

	/** All of them with their lines, those taken out too, the first received first. */
	async all(key: JobKey): Promise<(StoredDelivery & { receivedAt: string; removed: boolean })[]> {
		const rows = await this.#of(key).selectAll().orderBy('received_at').orderBy('delivery_id').execute();
		return rows.map((row) => ({
			deliveryId: row.delivery_id,
			name: row.name,
			lines: codec.lines.read(row.lines),
			receivedAt: row.received_at,
			removed: row.removed_at !== null
		}));
	}

	async add(key: JobKey, delivery: StoredDelivery, at: Date): Promise<void> {
		await this.#db
			.insertInto('delivery')
			.values({
				...columnsOf(key),
				delivery_id: delivery.deliveryId,
				name: delivery.name,
				lines: codec.lines.write(delivery.lines),
				line_count: delivery.lines.length,
				received_at: instant.write(at),
				removed_at: null
			})
			.execute();
	}

	/** Takes it out or puts it back. @returns its name; null when the job has no such packing list. */
	async setRemoved(key: JobKey, deliveryId: string, removed: boolean, at: Date): Promise<string | null> {
		const row = await this.#db
			.updateTable('delivery')
			.set({ removed_at: removed ? instant.write(at) : null })
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('delivery_id', '=', deliveryId)
			.returning('name')
			.executeTakeFirst();
		return row?.name ?? null;
	}

	#of(key: JobKey) {
		return this.#db
			.selectFrom('delivery')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId);
	}
}
