import { readShopBooks } from '$lib/server/operations/shop-books.ts';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => readShopBooks();
