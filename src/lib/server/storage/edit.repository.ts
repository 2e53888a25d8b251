/** Edits on the stacks of undo: one a person and job. What an edit did is its entry in the history. */
import type { Kysely, Selectable } from 'kysely';
import type { UndoState } from '../../changes/answer.ts';
import type { Change } from '../../changes/message.ts';
import { codec } from './codec.ts';
import { columnsOf, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

/** `done` can be undone, `undone` can be done again, `dropped` was undone before another edit was made. */
type EditState = 'done' | 'undone' | 'dropped';

export interface EditRecord {
	readonly id: string;
	readonly actorId: string;
	readonly title: string;
	readonly changes: readonly Change[];
	readonly inverse: readonly Change[];
	/** Rows changed, added or removed. */
	readonly rowIds: readonly string[];
}

type JoinedEdit = Pick<Selectable<Tables['edit']>, 'edit_id' | 'actor_id'> &
	Pick<Selectable<Tables['history']>, 'title' | 'changes' | 'inverse' | 'row_ids'>;

const columns = [
	'edit.edit_id',
	'edit.actor_id',
	'history.title',
	'history.changes',
	'history.inverse',
	'history.row_ids'
] as const;

function recordOf(row: JoinedEdit | undefined): EditRecord | null {
	if (!row) return null;
	return {
		id: row.edit_id,
		actorId: row.actor_id,
		title: row.title,
		changes: codec.changes.read(row.changes),
		inverse: codec.changes.read(row.inverse),
		rowIds: codec.rowIds.read(row.row_ids)
	};
}

export class EditRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async find(key: JobKey, editId: string): Promise<EditRecord | null> {
		return recordOf(
			await this.#of(key).where('edit.edit_id', '=', editId).select(columns).executeTakeFirst()
		);
	}

	/** Puts an edit on top of the person's stack; what they had undone can't be done again. */
	async add(key: JobKey, editId: string, actorId: string, sequence: number): Promise<void> {
		await this.#db
			.updateTable('edit')
			.set({ state: 'dropped' satisfies EditState })
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('actor_id', '=', actorId)
			.where('state', '=', 'undone' satisfies EditState)
			.execute();
		await this.#db
			.insertInto('edit')
			.values({
				...columnsOf(key),
				edit_id: editId,
				sequence,
				actor_id: actorId,
				state: 'done' satisfies EditState
			})
			.execute();
	}

	/** The edit that undo or redo takes next. */
	async next(key: JobKey, actorId: string, way: 'undo' | 'redo'): Promise<EditRecord | null> {
		return recordOf(await this.#stack(key, actorId, way).select(columns).executeTakeFirst());
	}

	async mark(key: JobKey, editId: string, state: 'done' | 'undone'): Promise<void> {
		await this.#db
			.updateTable('edit')
			.set({ state })
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('edit_id', '=', editId)
			.execute();
	}

	async titles(key: JobKey, actorId: string): Promise<UndoState> {
		const title = async (way: 'undo' | 'redo'): Promise<string | null> => {
			const row = await this.#stack(key, actorId, way).select('history.title').executeTakeFirst();
			return row?.title ?? null;
		};
		return { undo: await title('undo'), redo: await title('redo') };
	}

	#of(key: JobKey) {
		return this.#db
			.selectFrom('edit')
			.innerJoin('history', (join) =>
				join
					.onRef('history.company_id', '=', 'edit.company_id')
					.onRef('history.job_id', '=', 'edit.job_id')
					.onRef('history.revision', '=', 'edit.sequence')
			)
			.where('edit.company_id', '=', key.companyId)
			.where('edit.job_id', '=', key.jobId);
	}

	/** The last one done, or the first one undone. */
	#stack(key: JobKey, actorId: string, way: 'undo' | 'redo') {
		const state: EditState = way === 'undo' ? 'done' : 'undone';
		return this.#of(key)
			.where('edit.actor_id', '=', actorId)
			.where('edit.state', '=', state)
			.orderBy('edit.sequence', way === 'undo' ? 'desc' : 'asc')
			.limit(1);
	}
}
