/** Which words a key cell may hold, by the shop book. */
import { none } from '../shopbook/tables.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import type { InputDefinition } from './inputs.ts';

/** The possible keys of an input, in the order of the shop book; empty for inputs that are not keys. */
export function keysFor(book: TechnicalBook, input: InputDefinition): readonly string[] {
	if (input.options) return input.options;
	if (!input.table) return [];
	const keys = book[input.table].map((row) => row.key);
	return input.table === 'hoods' ? [...keys, none] : keys;
}
