/** The shop book that comes with the program. Every figure in it is invented, unless its row names a publication. */
import { priceBookSchema, technicalBookSchema, type PriceBook, type TechnicalBook } from '../schema.ts';
import priceData from './price-book.json' with { type: 'json' };
import technicalData from './technical-book.json' with { type: 'json' };

export const demoTechnicalBook: TechnicalBook = technicalBookSchema.parse(technicalData);
export const demoPriceBook: PriceBook = priceBookSchema.parse(priceData);
