/** What a supplier calls things, once a person has said what it means. */
import type { Description } from './description.ts';
import type { Alias } from './line-decision.ts';
import { phraseOf, wordsOf } from './words.ts';

/** Words that say nothing of what a thing is called. */
const sayNothing = new Set([
	...[
		'left',
		'right',
		'hand',
		'in',
		'ft',
		'mm',
		'cm',
		'x',
		'pair',
		'each',
		'ea',
		'pc',
		'piece',
		'set',
		'of',
		'for',
		'and'
	]
]);

/**
 * The phrase that is remembered of a line: its words without figures, hands, units and marks. `Side channel LH, 110 in`
 * is `side channel`.
 */
export const aliasPhrase = (description: string): string => phraseOfWords(wordsOf(description));

const phraseOfWords = (words: readonly string[]): string =>
	words.filter((word) => word.length > 1 && !/\d/u.test(word) && !sayNothing.has(word)).join(' ');

/** Aliases with their phrases in the spelling that is compared. */
export interface ReadAlias {
	readonly alias: Alias;
	readonly text: string;
}

export const readAliases = (aliases: readonly Alias[]): ReadAlias[] =>
	aliases.map((alias) => ({ alias, text: aliasPhrase(alias.phrase) })).filter(({ text }) => text !== '');

/**
 * The alias that a description is to be read by. One that is all that the words say goes before our own reading of them;
 * one that stands within them counts where we can’t read them. Two that mean different kinds mean nothing.
 */
export function aliasFor({ phrase, words }: Description, aliases: readonly ReadAlias[]): Alias | null {
	if (aliases.length === 0) return null;
	const own = phraseOfWords(phrase.trim().split(' '));
	const whole = aliases.filter(({ text }) => text === own);
	const within =
		whole.length === 0 && words.kinds.length === 0
			? aliases.filter(({ text }) => phraseOf([own]).includes(phraseOf([text])))
			: whole;
	const longest = Math.max(0, ...within.map(({ text }) => text.length));
	const [first, ...others] = within.filter(({ text }) => text.length === longest);
	if (!first) return null;
	return others.some(({ alias }) => alias.kind !== first.alias.kind) ? null : first.alias;
}
