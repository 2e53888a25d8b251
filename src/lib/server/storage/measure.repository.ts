/** Field measures. One is written once; the latest of an opening that is not withdrawn counts. */
import type { Kysely } from 'kysely';
import type { FieldMeasure } from '../../fieldwork/field-measure.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type Author, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface StoredMeasure extends Omit<FieldMeasure, 'openingId'> {
	/** `<row of the mark>.<number>`: a mark can be renamed. */
	readonly openingKey: string;
	/** Id of the person who measured. */
	readonly byId: string;
	readonly receivedAt: string;
	readonly withdrawn: boolean;
}

export class MeasureRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** All of them, those withdrawn too, the first measured first. */
	async list(key: JobKey): Promise<StoredMeasure[]> {
		const rows = await this.#db
			.selectFrom('field_measure')
			.selectAll()
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.orderBy('measured_at')
			.orderBy('received_at')
			.orderBy('measure_id')
			.execute();
		return rows.map((row) => ({
			measureId: row.measure_id,
			openingKey: row.opening_key,
			readings: codec.readings.read(row.readings),
			note: row.note,
			by: row.actor_name,
			byId: row.actor_id,
			measuredAt: row.measured_at,
			receivedAt: row.received_at,
			withdrawn: row.withdrawn_at !== null
		}));
	}

	async find(key: JobKey, measureId: string): Promise<StoredMeasure | null> {
		return (await this.list(key)).find((one) => one.measureId === measureId) ?? null;
	}

	async add(
		key: JobKey,
		measure: Omit<StoredMeasure, 'by' | 'byId' | 'receivedAt' | 'withdrawn'>,
		author: Author,
		at: Date
	): Promise<void> {
		await this.#db
			.insertInto('field_measure')
			.values({
				...columnsOf(key),
				measure_id: measure.measureId,
				opening_key: measure.openingKey,
				readings: codec.readings.write(measure.readings),
				note: measure.note,
				actor_id: author.id,
				actor_name: author.name,
				measured_at: measure.measuredAt,
				received_at: instant.write(at),
				withdrawn_at: null
			})
			.execute();
	}

	/** @returns false when there is no such measure. */
	async setWithdrawn(key: JobKey, measureId: string, withdrawn: boolean, at: Date): Promise<boolean> {
		const row = await this.#db
			.updateTable('field_measure')
			.set({ withdrawn_at: withdrawn ? instant.write(at) : null })
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('measure_id', '=', measureId)
			.executeTakeFirst();
		return row.numUpdatedRows > 0n;
	}
}
