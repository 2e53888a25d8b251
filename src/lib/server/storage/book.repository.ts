/** Shop books by digest. A book is never changed: another content is another digest. */
import type { Kysely } from 'kysely';
import type { PriceBook, TechnicalBook } from '../../shopbook/schema.ts';
import { codec, instant } from './codec.ts';
import type { Tables } from './tables.ts';

export class BookRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	async putTechnical(companyId: string, digest: string, book: TechnicalBook, at: Date): Promise<void> {
		await this.#put(companyId, digest, 'technical', codec.technicalBook.write(book), at);
	}

	async putPrice(companyId: string, digest: string, book: PriceBook, at: Date): Promise<void> {
		await this.#put(companyId, digest, 'price', codec.priceBook.write(book), at);
	}

	async technical(companyId: string, digest: string): Promise<TechnicalBook | null> {
		const content = await this.#content(companyId, digest, 'technical');
		return content === null ? null : codec.technicalBook.read(content);
	}

	async price(companyId: string, digest: string): Promise<PriceBook | null> {
		const content = await this.#content(companyId, digest, 'price');
		return content === null ? null : codec.priceBook.read(content);
	}

	async #put(companyId: string, digest: string, kind: string, content: string, at: Date): Promise<void> {
		await this.#db
			.insertInto('book')
			.values({ company_id: companyId, digest, kind, content, stored_at: instant.write(at) })
			.onConflict((conflict) => conflict.columns(['company_id', 'digest']).doNothing())
			.execute();
	}

	async #content(companyId: string, digest: string, kind: string): Promise<string | null> {
		const row = await this.#db
			.selectFrom('book')
			.select('content')
			.where('company_id', '=', companyId)
			.where('digest', '=', digest)
			.where('kind', '=', kind)
			.executeTakeFirst();
		return row?.content ?? null;
	}
}
