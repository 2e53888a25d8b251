/** What may be learnt from a decision: how a supplier calls a kind of part. */
import type { Part } from '../takeoff/result.ts';
import { aliasPhrase } from './alias.ts';
import { readWords } from './kind-words.ts';
import type { Alias } from './line-decision.ts';

/** Unlike parts share these kinds: only the item says what is meant. */
const mixedKinds: readonly Alias['kind'][] = ['control', 'consumable'];

/**
 * The words to remember when a line is said to mean these parts. Null where there is nothing to learn: the parts are of
 * several kinds, the line has no words of its own, or its words say the kind already.
 */
export function wordToRemember(
	description: string,
	parts: readonly Pick<Part, 'kind' | 'item'>[]
): Pick<Alias, 'phrase' | 'kind' | 'item' | 'hand'> | null {
	const [first, ...others] = parts;
	if (!first || others.some(({ kind }) => kind !== first.kind)) return null;
	const phrase = aliasPhrase(description);
	if (phrase === '') return null;
	const mixed = mixedKinds.includes(first.kind);
	const { kinds } = readWords(description);
	if (!mixed && kinds.length === 1 && kinds[0] === first.kind) return null;
	const oneItem = others.every(({ item }) => item === first.item);
	if (mixed && !oneItem) return null;
	return { phrase, kind: first.kind, item: mixed ? first.item : null, hand: null };
}
