/** Suppliers of a company, and what they call things. */
import type { Kysely } from 'kysely';
import type { Alias } from '../../delivery/line-decision.ts';
import type { Supplier } from '../../delivery/ordering/purchase-order.ts';
import { codec, instant } from './codec.ts';
import type { Author } from './keys.ts';
import type { Tables } from './tables.ts';

export interface StoredAlias extends Alias {
	readonly by: string;
	readonly madeAt: string;
	readonly withdrawn: boolean;
}

export class SupplierRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** Those bought of now, by name. */
	async list(companyId: string): Promise<Supplier[]> {
		const rows = await this.#db
			.selectFrom('supplier')
			.select('supplier')
			.where('company_id', '=', companyId)
			.where('removed_at', 'is', null)
			.execute();
		return rows
			.map((row) => codec.supplier.read(row.supplier))
			.sort((a, b) => a.name.localeCompare(b.name, 'en') || (a.id < b.id ? -1 : 1));
	}

	/** Also one that was removed: old orders name it. */
	async find(companyId: string, supplierId: string): Promise<Supplier | null> {
		const row = await this.#db
			.selectFrom('supplier')
			.select('supplier')
			.where('company_id', '=', companyId)
			.where('supplier_id', '=', supplierId)
			.executeTakeFirst();
		return row ? codec.supplier.read(row.supplier) : null;
	}

	/** Writes it new, over what was there, or back again when it was removed. */
	async put(companyId: string, supplier: Supplier, at: Date): Promise<void> {
		const written = {
			supplier: codec.supplier.write(supplier),
			changed_at: instant.write(at),
			removed_at: null
		};
		await this.#db
			.insertInto('supplier')
			.values({ company_id: companyId, supplier_id: supplier.id, ...written })
			.onConflict((conflict) => conflict.columns(['company_id', 'supplier_id']).doUpdateSet(written))
			.execute();
	}

	/** False when there is no such supplier. */
	async remove(companyId: string, supplierId: string, at: Date): Promise<boolean> {
		const row = await this.#db
			.updateTable('supplier')
			.set({ removed_at: instant.write(at) })
			.where('company_id', '=', companyId)
			.where('supplier_id', '=', supplierId)
			.where('removed_at', 'is', null)
			.executeTakeFirst();
		return row.numUpdatedRows > 0n;
	}

	/** What one supplier calls things, or all of them; also what was withdrawn. */
	async aliases(companyId: string, supplierId: string | null = null): Promise<StoredAlias[]> {
		let query = this.#db
			.selectFrom('supplier_word')
			.select(['alias', 'actor_name', 'made_at', 'withdrawn_at'])
			.where('company_id', '=', companyId)
			.orderBy('made_at')
			.orderBy('alias_id');
		if (supplierId !== null) query = query.where('supplier_id', '=', supplierId);
		return (await query.execute()).map((row) => ({
			...codec.alias.read(row.alias),
			by: row.actor_name,
			madeAt: row.made_at,
			withdrawn: row.withdrawn_at !== null
		}));
	}

	async addAlias(companyId: string, alias: Alias, author: Author, at: Date): Promise<void> {
		await this.#db
			.insertInto('supplier_word')
			.values({
				company_id: companyId,
				supplier_id: alias.supplierId,
				alias_id: alias.aliasId,
				alias: codec.alias.write(alias),
				actor_id: author.id,
				actor_name: author.name,
				made_at: instant.write(at),
				withdrawn_at: null
			})
			.execute();
	}

	/** Withdraws it or takes it up again. @returns false when there is no such word. */
	async setAliasWithdrawn(
		companyId: string,
		{ supplierId, aliasId }: { readonly supplierId: string; readonly aliasId: string },
		withdrawn: boolean,
		at: Date
	): Promise<boolean> {
		const row = await this.#db
			.updateTable('supplier_word')
			.set({ withdrawn_at: withdrawn ? instant.write(at) : null })
			.where('company_id', '=', companyId)
			.where('supplier_id', '=', supplierId)
			.where('alias_id', '=', aliasId)
			.executeTakeFirst();
		return row.numUpdatedRows > 0n;
	}
}
