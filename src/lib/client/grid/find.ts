/** Finding and replacing text in cells. */
import type { Search } from './grid-hooks.ts';

/** The search as a pattern; letters in either case are told apart only where that is asked for. */
function patternOf({ text, wholeCell, matchCase }: Search): RegExp {
	const literal = text.replace(/[\\^$.*+?()[\]{}|/]/gu, '\\$&');
	return new RegExp(wholeCell ? `^${literal}$` : literal, matchCase ? 'gu' : 'giu');
}

/** Whether a cell that shows `text` is one that is sought. Nothing matches an empty search. */
export const matches = (text: string, search: Search): boolean =>
	search.text !== '' && patternOf(search).test(text);

/** The text with every place that matches replaced; as it is where none does. `by` is taken literally. */
export const replaced = (text: string, search: Search, by: string): string =>
	search.text === '' ? text : text.replace(patternOf(search), () => by);
