/** Jobs. A deleted job keeps everything and can be brought back. */
import type { Kysely } from 'kysely';
import type { Measures } from '../../takeoff/inputs.ts';
import { flag, instant } from './codec.ts';
import { columnsOf, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface JobRecord {
	readonly id: string;
	readonly name: string;
	readonly measures: Measures;
	readonly revision: number;
	readonly technicalDigest: string;
	readonly priceDigest: string;
	readonly demo: boolean;
	/** The first revision from which on everything is in the history. */
	readonly historyFrom: number;
	readonly changedAt: string;
	readonly deleted: boolean;
}

export interface JobListing {
	readonly id: string;
	readonly name: string;
	readonly measures: Measures;
	readonly demo: boolean;
	readonly changedAt: string;
	readonly deleted: boolean;
	readonly marks: number;
	readonly openings: number;
}

export interface NewJob {
	readonly name: string;
	readonly measures: Measures;
	readonly technicalDigest: string;
	readonly priceDigest: string;
	readonly demo: boolean;
}

const measuresOf = (stored: string): Measures => (stored === 'metric' ? 'metric' : 'imperial');

export class JobRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** All jobs of a company, the last changed first, with their marks and openings counted. */
	async list(companyId: string): Promise<JobListing[]> {
		const jobs = await this.#db
			.selectFrom('job')
			.selectAll()
			.where('company_id', '=', companyId)
			.orderBy('changed_at', 'desc')
			.orderBy('job_id')
			.execute();
		const counted = await this.#db
			.selectFrom('opening')
			.select(({ fn }) => [
				'job_id',
				fn.countAll<number | string>().as('marks'),
				fn.sum<number | string>('quantity').as('openings')
			])
			.where('company_id', '=', companyId)
			.where('removed', '=', 0)
			.where('opening_number', 'is', null)
			.where('mark', '!=', '')
			.groupBy('job_id')
			.execute();
		const counts = new Map(counted.map((row) => [row.job_id, row]));
		return jobs.map((job) => ({
			id: job.job_id,
			name: job.name,
			measures: measuresOf(job.measures),
			demo: flag.read(job.demo),
			changedAt: job.changed_at,
			deleted: job.deleted_at !== null,
			marks: Number(counts.get(job.job_id)?.marks ?? 0),
			openings: Number(counts.get(job.job_id)?.openings ?? 0)
		}));
	}

	async find(key: JobKey): Promise<JobRecord | null> {
		const row = await this.#db
			.selectFrom('job')
			.selectAll()
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.executeTakeFirst();
		if (!row) return null;
		return {
			id: row.job_id,
			name: row.name,
			measures: measuresOf(row.measures),
			revision: row.revision,
			technicalDigest: row.technical_digest,
			priceDigest: row.price_digest,
			demo: flag.read(row.demo),
			historyFrom: row.history_from,
			changedAt: row.changed_at,
			deleted: row.deleted_at !== null
		};
	}

	async insert(key: JobKey, job: NewJob, at: Date): Promise<void> {
		const moment = instant.write(at);
		await this.#db
			.insertInto('job')
			.values({
				...columnsOf(key),
				name: job.name,
				measures: job.measures,
				revision: 0,
				technical_digest: job.technicalDigest,
				price_digest: job.priceDigest,
				demo: flag.write(job.demo),
				history_from: 0,
				created_at: moment,
				changed_at: moment,
				deleted_at: null
			})
			.execute();
	}

	/** Changes the job's own fields. What it comes to is one more revision, see {@link nextRevision}. */
	async change(
		key: JobKey,
		change: { readonly name?: string; readonly measures?: Measures; readonly deleted?: boolean },
		at: Date
	): Promise<void> {
		const moment = instant.write(at);
		await this.#db
			.updateTable('job')
			.set({
				...(change.name === undefined ? {} : { name: change.name }),
				...(change.measures === undefined ? {} : { measures: change.measures }),
				...(change.deleted === undefined ? {} : { deleted_at: change.deleted ? moment : null }),
				changed_at: moment
			})
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.execute();
	}

	/**
	 * Counts the revision up and gives it. First in every transaction that changes anything of a job: from here on no
	 * other transaction changes it. Null when there is no such job, or it is deleted.
	 */
	async nextRevision(
		key: JobKey,
		at: Date,
		{ deletedToo = false }: { readonly deletedToo?: boolean } = {}
	): Promise<number | null> {
		const counted = this.#db
			.updateTable('job')
			.set((job) => ({ revision: job('revision', '+', 1), changed_at: instant.write(at) }))
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.returning('revision');
		const row = await (deletedToo ? counted : counted.where('deleted_at', 'is', null)).executeTakeFirst();
		return row?.revision ?? null;
	}

	/** Until the end of the transaction no other one changes anything of the job. */
	async hold({ companyId, jobId }: JobKey): Promise<void> {
		// Both databases keep others off a row that is written, also when it stays as it is.
		await this.#db
			.updateTable('job')
			.set((job) => ({ revision: job.ref('revision') }))
			.where('company_id', '=', companyId)
			.where('job_id', '=', jobId)
			.execute();
	}
}
