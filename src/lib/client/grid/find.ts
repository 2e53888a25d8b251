/** Finding and replacing text in cells. */
import type { Search } from './grid-hooks.ts';

/** A search made ready once for all the cells it goes over. */
export interface Matcher {
	/** Whether a cell that shows `text` is one that is sought. Nothing matches an empty search. */
	matches(text: string): boolean;
	/** The text with every place that matches replaced; as it is where none does. `by` is taken literally. */
	replaced(text: string, by: string): string;
}

/** Letters in either case are told apart only where that is asked for. */
export function matcherOf({ text: sought, wholeCell, matchCase }: Omit<Search, 'inSelection'>): Matcher {
	if (sought === '') return { matches: () => false, replaced: (text) => text };
	const literal = sought.replace(/[\\^$.*+?()[\]{}|/]/gu, '\\$&');
	const pattern = new RegExp(wholeCell ? `^${literal}$` : literal, matchCase ? 'gu' : 'giu');
	return {
		// Not `test`, which would go on from where it found the text in the cell before.
		matches: (text) => text.search(pattern) >= 0,
		replaced: (text, by) => text.replace(pattern, () => by)
	};
}
