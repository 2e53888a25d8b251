/** What became of a job, entry by entry: who, when, and from what to what. Nothing of it is ever changed. */
import type { Kysely, Selectable } from 'kysely';
import type { HistoryKind, RecordChange } from '../../changes/history.ts';
import type { Change } from '../../changes/message.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface HistoryEntry {
	/** Revision of the job that it made. */
	readonly revision: number;
	readonly kind: HistoryKind;
	readonly actorId: string;
	/** As the person was called then. */
	readonly actorName: string;
	readonly title: string;
	/** Cells and rows, as they were changed. */
	readonly changes: readonly Change[];
	/** Takes the changes back, in this order. */
	readonly inverse: readonly Change[];
	/** Rows changed, added, moved or removed. */
	readonly rowIds: readonly string[];
	/** What else was changed: the job's own fields, packing lists, bids. */
	readonly records: readonly RecordChange[];
	/** ISO 8601, UTC. */
	readonly madeAt: string;
}

export type NewEntry = Omit<HistoryEntry, 'madeAt' | 'changes' | 'inverse' | 'rowIds' | 'records'> &
	Partial<Pick<HistoryEntry, 'changes' | 'inverse' | 'rowIds' | 'records'>>;

const entryOf = (row: Selectable<Tables['history']>): HistoryEntry => ({
	revision: row.revision,
	kind: row.kind as HistoryKind,
	actorId: row.actor_id,
	actorName: row.actor_name,
	title: row.title,
	changes: codec.changes.read(row.changes),
	inverse: codec.changes.read(row.inverse),
	rowIds: codec.rowIds.read(row.row_ids),
	records: codec.records.read(row.records),
	madeAt: row.made_at
});

export class HistoryRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async add(key: JobKey, entry: NewEntry, at: Date): Promise<void> {
		await this.#db
			.insertInto('history')
			.values({
				...columnsOf(key),
				revision: entry.revision,
				kind: entry.kind,
				actor_id: entry.actorId,
				actor_name: entry.actorName,
				title: entry.title,
				changes: codec.changes.write(entry.changes ?? []),
				inverse: codec.changes.write(entry.inverse ?? []),
				row_ids: codec.rowIds.write(entry.rowIds ?? []),
				records: codec.records.write(entry.records ?? []),
				made_at: instant.write(at)
			})
			.execute();
	}

	/** Entries after a revision, the earliest first, at most `most`. */
	async after(key: JobKey, revision: number, most: number): Promise<HistoryEntry[]> {
		const rows = await this.#of(key)
			.where('revision', '>', revision)
			.orderBy('revision')
			.limit(most)
			.selectAll()
			.execute();
		return rows.map(entryOf);
	}

	/** Entries before a revision (all when null), the latest first, at most `most`; of one row when it is named. */
	async before(
		key: JobKey,
		revision: number | null,
		most: number,
		rowId: string | null = null
	): Promise<HistoryEntry[]> {
		let query = this.#of(key).orderBy('revision', 'desc').limit(most);
		if (revision !== null) query = query.where('revision', '<', revision);
		// Ids have no sign that a list of them in JSON would write otherwise. `_` stands for any sign here, so the rows are
		// looked through once more.
		if (rowId !== null) query = query.where('row_ids', 'like', `%"${rowId}"%`);
		const entries = (await query.selectAll().execute()).map(entryOf);
		return rowId === null ? entries : entries.filter(({ rowIds }) => rowIds.includes(rowId));
	}

	async find(key: JobKey, revision: number): Promise<HistoryEntry | null> {
		const row = await this.#of(key).where('revision', '=', revision).selectAll().executeTakeFirst();
		return row ? entryOf(row) : null;
	}

	#of(key: JobKey) {
		return this.#db
			.selectFrom('history')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId);
	}
}
