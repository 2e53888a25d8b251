/** Companies. Each holds its people, its shop book and its jobs. */
import type { Kysely } from 'kysely';
import { instant } from './codec.ts';
import type { Tables } from './tables.ts';

export interface Company {
	readonly id: string;
	readonly name: string;
}

export class CompanyRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async add(company: Company, at: Date): Promise<void> {
		await this.#db
			.insertInto('company')
			.values({ company_id: company.id, name: company.name, made_at: instant.write(at) })
			.execute();
	}

	async find(companyId: string): Promise<Company | null> {
		const row = await this.#db
			.selectFrom('company')
			.select('name')
			.where('company_id', '=', companyId)
			.executeTakeFirst();
		return row ? { id: companyId, name: row.name } : null;
	}

	async all(): Promise<Company[]> {
		const rows = await this.#db.selectFrom('company').select(['company_id', 'name']).execute();
		return rows.map((row) => ({ id: row.company_id, name: row.name }));
	}

	/** Until the end of the transaction nobody else changes its people. False when there is no such company. */
	async hold(companyId: string): Promise<boolean> {
		const result = await this.#db
			.updateTable('company')
			.set((eb) => ({ name: eb.ref('name') }))
			.where('company_id', '=', companyId)
			.executeTakeFirst();
		return result.numUpdatedRows > 0n;
	}
}
