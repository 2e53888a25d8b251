/** What the words of a line say, read against what is wanted. */
import type { PartKind } from '../takeoff/result.ts';
import { readWords, type WordReading } from './kind-words.ts';
import type { Alias } from './line-decision.ts';
import { lengthsIn, readSize } from './size.ts';
import type { Lot, Wanted } from './wanted.ts';
import { phraseOf, phrasesIn, wordsOf } from './words.ts';

/** What a description says, read once for all lines that have it. */
export interface Description {
	readonly phrase: string;
	readonly words: WordReading;
	/** Lengths of a foot or more, nm. */
	readonly lengths: readonly number[];
	/** Figures that stand where the trade puts a size. */
	readonly figures: readonly number[];
	/** Finishes of the order that it names. */
	readonly finishes: readonly string[];
	/** Items of the order, of one kind, that it names. */
	readonly items: (kind: PartKind) => readonly string[];
	/** The supplier’s own word that says the kind. */
	readonly alias: Alias | null;
}

/** Reads descriptions against what is wanted, each once. An alias says what the words of a supplier mean. */
export type DescriptionReader = (text: string, alias?: Alias) => Description;

const explained = (words: WordReading, { kind, hand }: Alias): WordReading => ({
	...words,
	kinds: [kind],
	mixed: false,
	names: [],
	hand: words.hand ?? hand
});

export function descriptionReader(wanted: Wanted): DescriptionReader {
	const known = new Map<string, Description>();
	return (text, alias) => {
		const key = alias ? `${alias.aliasId}\n${text}` : `\n${text}`;
		const kept = known.get(key);
		if (kept) return kept;
		const phrase = phraseOf(wordsOf(text));
		const read = readWords(text);
		const words = alias ? explained(read, alias) : read;
		const items = new Map<PartKind, readonly string[]>();
		const description: Description = {
			phrase,
			words,
			lengths: lengthsIn(text),
			figures: words.sizes.flatMap((size) => readSize(size).figures),
			finishes: phrasesIn(phrase, wanted.finishPhrases),
			items: (kind) => {
				const named = items.get(kind) ?? phrasesIn(phrase, wanted.itemPhrases.get(kind) ?? []);
				items.set(kind, named);
				return named;
			},
			alias: alias ?? null
		};
		known.set(key, description);
		return description;
	};
}

/** Unlike parts share these kinds, so the word for the kind alone says too little. */
const mixedKinds: readonly PartKind[] = ['control', 'consumable'];

/** Whether the words can mean a part of this lot: a key switch is no lock cylinder, though both are controls. */
export function canMean(lot: Lot, { phrase, words, alias }: Description): boolean {
	if (alias) return alias.item === null || alias.item === lot.part.item;
	if (!mixedKinds.includes(lot.kind)) return true;
	const { title, items, names } = lot.likeness;
	return (
		phrase.includes(title) ||
		items.some((item) => phrase.includes(item)) ||
		(words.names.length === 0
			? words.kinds.includes(lot.kind)
			: words.names.some((one) => names.includes(one)))
	);
}
