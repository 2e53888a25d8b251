/** Engines and pricings by the digest of their books, kept ready: building one takes longer than a takeoff. */
import { buildPricing, type Pricing } from '../../price/price.ts';
import { buildEngine, type Engine } from '../../takeoff/engine.ts';
import type { Storage } from '../storage/storage.ts';

const kept = 4;

/** Keeps the last few used. Those who ask while one is made wait for it. */
class Recent<T> {
	readonly #items = new Map<string, Promise<T>>();

	get(key: string, make: () => Promise<T>): Promise<T> {
		const known = this.#items.get(key);
		const item = known ?? make();
		this.#items.delete(key);
		this.#items.set(key, item);
		// One that could not be made is tried again.
		if (!known) item.catch(() => this.#items.get(key) === item && this.#items.delete(key));
		for (const oldest of this.#items.keys()) {
			if (this.#items.size <= kept) break;
			this.#items.delete(oldest);
		}
		return item;
	}
}

/** Of all companies: books with the same digest say the same. */
const engines = new Recent<Engine>();
const pricings = new Recent<Pricing>();

export class Engines {
	readonly #storage: Storage;

	constructor(storage: Storage) {
		this.#storage = storage;
	}

	/**
	 * Never call it inside a transaction: it reads the book on its own.
	 * @throws Error when the book is not there or its rules don't hold: both were checked when it was stored.
	 */
	async engine(companyId: string, technicalDigest: string): Promise<Engine> {
		return engines.get(technicalDigest, async () => {
			const book = await this.#storage.books.technical(companyId, technicalDigest);
			if (!book) throw new Error('the technical book that the job pins is not stored');
			const built = buildEngine(book);
			if (!built.ok) throw new Error(`the technical book has ${built.problems.length} problems in its rules`);
			return built.engine;
		});
	}

	/** See {@link engine}. */
	async pricing(companyId: string, technicalDigest: string, priceDigest: string): Promise<Pricing> {
		const engine = await this.engine(companyId, technicalDigest);
		return pricings.get(`${technicalDigest} ${priceDigest}`, async () => {
			const book = await this.#storage.books.price(companyId, priceDigest);
			if (!book) throw new Error('the price book that the job pins is not stored');
			const built = buildPricing(engine, book);
			if (!built.ok) throw new Error(`the price book has ${built.problems.length} problems`);
			return built.pricing;
		});
	}
}
