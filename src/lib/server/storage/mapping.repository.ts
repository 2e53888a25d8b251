/** How a company read each kind of schedule when it was last brought in. */
import type { Kysely } from 'kysely';
import type { KindMapping } from '../../exchange/schedule-memory.ts';
import { codec, instant } from './codec.ts';
import { digestOf } from './digest.ts';
import type { Tables } from './tables.ts';

export interface StoredMapping {
	readonly mapping: KindMapping;
	/** ISO 8601, UTC. */
	readonly confirmedAt: string;
}

/** A kind of file under a name of one length, however many headings it has. */
export const kindOf = (signature: string): string => digestOf({ signature });

export class MappingRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** @param kind see {@link kindOf}. */
	async find(companyId: string, kind: string): Promise<StoredMapping | null> {
		const row = await this.#db
			.selectFrom('mapping')
			.select(['mapping', 'confirmed_at'])
			.where('company_id', '=', companyId)
			.where('kind', '=', kind)
			.executeTakeFirst();
		return row ? { mapping: codec.mapping.read(row.mapping), confirmedAt: row.confirmed_at } : null;
	}

	/** Takes the place of what was kept for the kind. */
	async put(companyId: string, kind: string, mapping: KindMapping, at: Date): Promise<void> {
		const kept = { mapping: codec.mapping.write(mapping), confirmed_at: instant.write(at) };
		await this.#db
			.insertInto('mapping')
			.values({ company_id: companyId, kind, ...kept })
			.onConflict((conflict) => conflict.columns(['company_id', 'kind']).doUpdateSet(kept))
			.execute();
	}

	/** False when there was none. */
	async forget(companyId: string, kind: string): Promise<boolean> {
		const result = await this.#db
			.deleteFrom('mapping')
			.where('company_id', '=', companyId)
			.where('kind', '=', kind)
			.executeTakeFirst();
		return result.numDeletedRows > 0n;
	}
}
