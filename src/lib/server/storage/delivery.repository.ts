/** Packing lists of a job. One that is taken out keeps its lines and can be put back. */
import type { Kysely } from 'kysely';
import type { DeliverySummary } from '../../changes/answer.ts';
import type { FinishedCount } from '../../delivery/count.ts';
import type { DeliveryAnswers } from '../../delivery/delivery-answers.ts';
import type { PackingFacts, PackingLine } from '../../delivery/line.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface StoredDelivery {
	readonly deliveryId: string;
	readonly name: string;
	readonly lines: readonly PackingLine[];
	readonly supplierId: string | null;
	/** Null for lists taken in before it was read. */
	readonly facts: PackingFacts | null;
	/** Of what was read, to know the same list again; null for lists taken in before it was kept. */
	readonly digest: string | null;
	readonly answers: DeliveryAnswers;
	readonly counted: FinishedCount | null;
}

interface DeliveryRow {
	readonly delivery_id: string;
	readonly name: string;
	readonly lines: string;
	readonly supplier_id: string | null;
	readonly facts: string | null;
	readonly digest: string | null;
	readonly answers: string;
	readonly counted: string | null;
}

const storedOf = (row: DeliveryRow): StoredDelivery => ({
	deliveryId: row.delivery_id,
	name: row.name,
	lines: codec.lines.read(row.lines),
	supplierId: row.supplier_id,
	facts: row.facts === null ? null : codec.facts.read(row.facts),
	digest: row.digest,
	answers: codec.answers.read(row.answers),
	counted: row.counted === null ? null : codec.counted.read(row.counted)
});

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
	async counted(key: JobKey): Promise<(StoredDelivery & { readonly receivedAt: string })[]> {
		return (await this.all(key)).filter(({ removed }) => !removed);
	}

	/** All of them with their lines, those taken out too, the first received first. */
	async all(
		key: JobKey
	): Promise<(StoredDelivery & { readonly receivedAt: string; readonly removed: boolean })[]> {
		const rows = await this.#of(key).selectAll().orderBy('received_at').orderBy('delivery_id').execute();
		return rows.map((row) => ({
			...storedOf(row),
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
				removed_at: null,
				supplier_id: delivery.supplierId,
				facts: delivery.facts === null ? null : codec.facts.write(delivery.facts),
				digest: delivery.digest,
				answers: codec.answers.write(delivery.answers),
				counted: delivery.counted === null ? null : codec.counted.write(delivery.counted)
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

	/** Writes over its lines, its supplier, the answers about it, or that it is counted. @returns false when there is none. */
	async change(
		key: JobKey,
		deliveryId: string,
		change: Partial<Pick<StoredDelivery, 'lines' | 'supplierId' | 'answers' | 'counted'>>
	): Promise<boolean> {
		const { lines, supplierId, answers, counted } = change;
		const row = await this.#db
			.updateTable('delivery')
			.set({
				...(lines === undefined ? {} : { lines: codec.lines.write(lines), line_count: lines.length }),
				...(supplierId === undefined ? {} : { supplier_id: supplierId }),
				...(answers === undefined ? {} : { answers: codec.answers.write(answers) }),
				...(counted === undefined ? {} : { counted: counted === null ? null : codec.counted.write(counted) })
			})
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('delivery_id', '=', deliveryId)
			.executeTakeFirst();
		return row.numUpdatedRows > 0n;
	}

	#of(key: JobKey) {
		return this.#db
			.selectFrom('delivery')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId);
	}
}
