/** Keys of the shop book and fixed words, as a person finds them by typing. */
import type { TechnicalBook } from '../../shopbook/schema.ts';
import type { InputDefinition } from '../../takeoff/inputs.ts';
import { spaced } from '../../takeoff/show.ts';

/** What a key of the shop book is called there; '' for the fixed words, which say it themselves. */
function titleOfKey(book: TechnicalBook, input: InputDefinition, key: string): string {
	if (!input.table) return '';
	return book[input.table].find((row) => row.key === key)?.title ?? '';
}

export interface KeyOption {
	readonly key: string;
	readonly word: string;
	readonly title: string;
}

export const keyOptions = (
	book: TechnicalBook,
	input: InputDefinition,
	keys: readonly string[]
): readonly KeyOption[] =>
	keys.map((key) => ({
		key,
		word: input.table ? key : spaced(key),
		title: titleOfKey(book, input, key)
	}));

/** Options for what was typed so far: those that begin with it first, then those that have it inside. */
export function matching(options: readonly KeyOption[], typed: string): readonly KeyOption[] {
	const sought = typed.trim().toLowerCase();
	if (sought === '') return options;
	const at = (option: KeyOption): number => {
		const texts = [option.word, option.key, option.title].map((text) => text.toLowerCase());
		if (texts.some((text) => text === sought)) return 0;
		if (texts.some((text) => text.startsWith(sought))) return 1;
		if (texts.some((text) => text.split(/[\s-]+/u).some((word) => word.startsWith(sought)))) return 2;
		return texts.some((text) => text.includes(sought)) ? 3 : 4;
	};
	return [...options.entries()]
		.map(([order, option]) => ({ order, option, rank: at(option) }))
		.filter(({ rank }) => rank < 4)
		.sort((a, b) => a.rank - b.rank || a.order - b.order)
		.map(({ option }) => option);
}
