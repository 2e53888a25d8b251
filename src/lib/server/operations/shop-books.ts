/** The shop books that new jobs pin. */
import { demoPriceBook, demoTechnicalBook } from '../../shopbook/demo/demo-book.ts';
import { partCosts, type PartCosts, type PriceBook, type TechnicalBook } from '../../shopbook/schema.ts';
import type { Actor } from '../identity/actor.ts';
import { digestOf } from '../storage/digest.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

export interface PinnedBooks {
	readonly technicalDigest: string;
	readonly priceDigest: string;
}

interface ShopBooks extends PinnedBooks {
	readonly book: TechnicalBook;
	readonly priceBook: PriceBook;
}

const demo: ShopBooks = {
	book: demoTechnicalBook,
	priceBook: demoPriceBook,
	technicalDigest: digestOf(demoTechnicalBook),
	priceDigest: digestOf(demoPriceBook)
};

/** The books in force are the same for everybody. */
type ReadBook<T> = (actor: Actor, services: Services) => Promise<Outcome<T>>;

/** The technical book in force. */
export const readTechnicalBook: ReadBook<{ book: TechnicalBook; technicalDigest: string }> = () =>
	Promise.resolve(done({ book: demo.book, technicalDigest: demo.technicalDigest }));

/** The price book in force. */
export const readPriceBook: ReadBook<{ priceBook: PriceBook; priceDigest: string }> = () =>
	Promise.resolve(done({ priceBook: demo.priceBook, priceDigest: demo.priceDigest }));

/** What parts cost by the price book in force: neither rates nor shares. */
export const readPartCosts: ReadBook<{ costs: PartCosts }> = () =>
	Promise.resolve(done({ costs: partCosts(demo.priceBook) }));

/** Stores the books in force where they are not yet, so that a job can pin them. */
export async function pinShopBooks(actor: Actor, services: Services): Promise<PinnedBooks> {
	const { books } = services.storage;
	const at = services.now();
	await books.putTechnical(actor.companyId, demo.technicalDigest, demo.book, at);
	await books.putPrice(actor.companyId, demo.priceDigest, demo.priceBook, at);
	return demo;
}
