/** The shop books that new jobs pin. */
import { demoPriceBook, demoTechnicalBook } from '../../shopbook/demo/demo-book.ts';
import type { PriceBook, TechnicalBook } from '../../shopbook/schema.ts';
import type { Actor } from '../identity/actor.ts';
import { digestOf } from '../storage/digest.ts';
import type { Services } from './services.ts';

export interface PinnedBooks {
	readonly technicalDigest: string;
	readonly priceDigest: string;
}

export interface ShopBooks extends PinnedBooks {
	readonly book: TechnicalBook;
	readonly priceBook: PriceBook;
}

const demo: ShopBooks = {
	book: demoTechnicalBook,
	priceBook: demoPriceBook,
	technicalDigest: digestOf(demoTechnicalBook),
	priceDigest: digestOf(demoPriceBook)
};

/** The books in force, for the page that shows them. */
export const readShopBooks = (): ShopBooks => demo;

/** Stores the books in force where they are not yet, so that a job can pin them. */
export async function pinShopBooks(actor: Actor, services: Services): Promise<PinnedBooks> {
	const { books } = services.storage;
	const at = services.now();
	await books.putTechnical(actor.companyId, demo.technicalDigest, demo.book, at);
	await books.putPrice(actor.companyId, demo.priceDigest, demo.priceBook, at);
	return demo;
}
