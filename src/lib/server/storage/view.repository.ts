/** How a person looks at the sheet: the views they saved under a name, and the one each job's sheet was left in. */
import type { Kysely } from 'kysely';
import type { SavedView, SheetView } from '../../changes/sheet-view.ts';
import { codec, instant } from './codec.ts';
import { columnsOf, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface PersonKey {
	readonly companyId: string;
	readonly actorId: string;
}

/** `key` is the same for names that a person would take for the same. */
export interface ViewName {
	readonly key: string;
	readonly name: string;
}

export class ViewRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** All views a person saved, by name. */
	async list(person: PersonKey): Promise<SavedView[]> {
		const rows = await this.#of(person).selectAll().orderBy('name_key').execute();
		return rows.map((row) => ({ name: row.name, view: codec.view.read(row.view), savedAt: row.saved_at }));
	}

	async count(person: PersonKey): Promise<number> {
		const row = await this.#of(person)
			.select(({ fn }) => fn.countAll<number | string>().as('views'))
			.executeTakeFirst();
		return Number(row?.views ?? 0);
	}

	/** The name a view was saved under; null where there is none. */
	async nameOf(person: PersonKey, key: string): Promise<string | null> {
		const row = await this.#of(person).select('name').where('name_key', '=', key).executeTakeFirst();
		return row?.name ?? null;
	}

	/** Saves a view under a name that no other has. */
	async add(person: PersonKey, { key, name }: ViewName, view: SheetView, at: Date): Promise<void> {
		const saved = { name, view: codec.view.write(view), saved_at: instant.write(at) };
		await this.#db
			.insertInto('sheet_view')
			.values({ company_id: person.companyId, actor_id: person.actorId, name_key: key, ...saved })
			.execute();
	}

	/** Saves a view, in place of the one of that name. */
	async save(person: PersonKey, { key, name }: ViewName, view: SheetView, at: Date): Promise<void> {
		const saved = { name, view: codec.view.write(view), saved_at: instant.write(at) };
		await this.#db
			.insertInto('sheet_view')
			.values({ company_id: person.companyId, actor_id: person.actorId, name_key: key, ...saved })
			.onConflict((conflict) => conflict.columns(['company_id', 'actor_id', 'name_key']).doUpdateSet(saved))
			.execute();
	}

	/** Gives a view another name that no other has. */
	async rename({ companyId, actorId }: PersonKey, key: string, to: ViewName): Promise<void> {
		await this.#db
			.updateTable('sheet_view')
			.set({ name_key: to.key, name: to.name })
			.where('company_id', '=', companyId)
			.where('actor_id', '=', actorId)
			.where('name_key', '=', key)
			.execute();
	}

	/** False when there was no such view. */
	async remove({ companyId, actorId }: PersonKey, key: string): Promise<boolean> {
		const result = await this.#db
			.deleteFrom('sheet_view')
			.where('company_id', '=', companyId)
			.where('actor_id', '=', actorId)
			.where('name_key', '=', key)
			.executeTakeFirst();
		return result.numDeletedRows > 0n;
	}

	/** How a person last left the sheet of a job; null when they never looked at it. */
	async last(key: JobKey, actorId: string): Promise<SheetView | null> {
		const row = await this.#db
			.selectFrom('last_view')
			.select('view')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('actor_id', '=', actorId)
			.executeTakeFirst();
		return row ? codec.view.read(row.view) : null;
	}

	async keepLast(key: JobKey, actorId: string, view: SheetView, at: Date): Promise<void> {
		const left = { view: codec.view.write(view), left_at: instant.write(at) };
		await this.#db
			.insertInto('last_view')
			.values({ ...columnsOf(key), actor_id: actorId, ...left })
			.onConflict((conflict) => conflict.columns(['company_id', 'job_id', 'actor_id']).doUpdateSet(left))
			.execute();
	}

	#of({ companyId, actorId }: PersonKey) {
		return this.#db
			.selectFrom('sheet_view')
			.where('company_id', '=', companyId)
			.where('actor_id', '=', actorId);
	}
}
