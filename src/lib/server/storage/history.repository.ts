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

export interface HistorySearch {
	/** Only entries before this revision. */
	readonly before: number | null;
	/** Only entries made by this moment, ISO 8601, UTC. */
	readonly until: string | null;
	/** Only entries that may concern one of these rows. */
	readonly rowIds: readonly string[] | null;
	readonly actorId: string | null;
	readonly kind: HistoryKind | null;
	readonly most: number;
	/** Changes that are written in more characters than this are left out; null to have all. */
	readonly largest: number | null;
}

/** An entry without what takes it back; `changes` is null where they were left out. */
export type FoundEntry = Omit<HistoryEntry, 'changes' | 'inverse'> & {
	readonly changes: readonly Change[] | null;
};

export type InverseEntry = Pick<HistoryEntry, 'revision' | 'inverse' | 'records' | 'madeAt'>;

const entryOf = (row: Omit<Selectable<Tables['history']>, 'company_id' | 'job_id'>): HistoryEntry => ({
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

	/** Entries that a search finds, the latest first. */
	async search(key: JobKey, search: HistorySearch): Promise<FoundEntry[]> {
		const { before, until, rowIds, actorId, kind, most, largest } = search;
		let query = this.#of(key).orderBy('revision', 'desc').limit(most);
		if (before !== null) query = query.where('revision', '<', before);
		if (until !== null) query = query.where('made_at', '<=', until);
		if (actorId !== null) query = query.where('actor_id', '=', actorId);
		if (kind !== null) query = query.where('kind', '=', kind);
		// Ids have no sign that a list of them in JSON would write otherwise. `_` stands for any sign here, so whoever asks
		// looks through the rows once more.
		if (rowIds !== null)
			query = query.where((row) => row.or(rowIds.map((id) => row('row_ids', 'like', `%"${id}"%`))));
		const rows = await query
			.select(['revision', 'kind', 'actor_id', 'actor_name', 'title', 'row_ids', 'records', 'made_at'])
			.select((row) =>
				(largest === null
					? row.ref('changes').$castTo<string | null>()
					: row
							.case()
							.when(row.fn<number>('length', ['changes']), '<=', largest)
							.then(row.ref('changes'))
							.else(null)
							.end()
				).as('small_changes')
			)
			.execute();
		return rows.map(({ small_changes: changes, ...row }) => {
			const entry = entryOf({ ...row, changes: changes ?? '[]', inverse: '[]' });
			return { ...entry, changes: changes === null ? null : entry.changes };
		});
	}

	/** What takes the job back from the entries after one revision and before another, the latest first. */
	async inverses(key: JobKey, after: number, before: number, most: number): Promise<InverseEntry[]> {
		const rows = await this.#of(key)
			.where('revision', '>', after)
			.where('revision', '<', before)
			.orderBy('revision', 'desc')
			.limit(most)
			.select(['revision', 'inverse', 'records', 'made_at'])
			.execute();
		return rows.map((row) => ({
			revision: row.revision,
			inverse: codec.changes.read(row.inverse),
			records: codec.records.read(row.records),
			madeAt: row.made_at
		}));
	}

	/** The last entry, in the order they were made, whose time is not after a moment (ISO 8601, UTC). */
	async lastBy(key: JobKey, moment: string): Promise<number | null> {
		const row = await this.#of(key)
			.where('made_at', '<=', moment)
			.orderBy('revision', 'desc')
			.limit(1)
			.select('revision')
			.executeTakeFirst();
		return row?.revision ?? null;
	}

	/** Records changed by the entries up to a revision, this one included (all when null), the earliest first. */
	async recordsUpTo(key: JobKey, revision: number | null): Promise<RecordChange[]> {
		let query = this.#of(key).where('records', '!=', codec.records.write([])).orderBy('revision');
		if (revision !== null) query = query.where('revision', '<=', revision);
		const rows = await query.select('records').execute();
		return rows.flatMap(({ records }) => codec.records.read(records));
	}

	/** All who changed something, under the name each had last; the first to do so first. */
	async people(key: JobKey): Promise<{ id: string; name: string }[]> {
		const rows = await this.#of(key)
			.select(({ fn }) => ['actor_id', 'actor_name', fn.max('revision').as('last')])
			.groupBy(['actor_id', 'actor_name'])
			.orderBy('last')
			.execute();
		const names = new Map(rows.map(({ actor_id, actor_name }) => [actor_id, actor_name]));
		return [...names].map(([id, name]) => ({ id, name }));
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
