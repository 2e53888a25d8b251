/** What parts are called, for comparing with the words of a packing list. */
import type { Part } from '../takeoff/result.ts';
import { readWords } from './kind-words.ts';
import { readSize, type Size } from './size.ts';
import { phraseOf, wordsOf } from './words.ts';

/** What parts of one interchange key are, read once. */
export interface Likeness {
	readonly item: string;
	/** Title without its side, as a phrase. */
	readonly title: string;
	/** Phrases that name the item: ` store face `; ` standard concrete ` and ` concrete `. */
	readonly items: readonly string[];
	readonly names: readonly string[];
	readonly size: Size;
	readonly finish: string;
	readonly finishPhrase: string;
}

/** Finish in one spelling, whatever the order of its words: `Powder coat, graphite` is `powder-graphite`. */
export const plainFinish = (text: string): string =>
	[...new Set(wordsOf(text))]
		.filter((word) => !['finish', 'coat', 'coated', 'coating'].includes(word))
		.sort()
		.join(' ');

/** How a finish is put on: what people leave out when its colour says it all. Common practice, no source. */
const processes: readonly string[] = ['powder', 'anodised', 'paint', 'painted', 'enamel', 'baked'];
/** Letters that a word has at least when it is cut short. */
const fewestLetters = 4;

/**
 * Whether a finish is another one cut short: `white` of `powder white`, `clear anod` of `clear anodised`. Nothing but the
 * process may be left out: `bronze` is not `dark bronze`.
 */
export function isCutShort(short: string, whole: string): boolean {
	const said = short.split(' ').filter((word) => word !== '' && !processes.includes(word));
	const isSaid = (word: string): boolean =>
		short.split(' ').some((one) => one === word || (one.length >= fewestLetters && word.startsWith(one)));
	const words = whole.split(' ');
	const meant = (word: string): boolean =>
		words.some((one) => one === word || (word.length >= fewestLetters && one.startsWith(word)));
	return (
		said.length > 0 &&
		short.split(' ').every(meant) &&
		words.every((word) => isSaid(word) || processes.includes(word))
	);
}

const sideWords = new Set(['left', 'right', 'hand', 'side', 'drive', 'wall']);

function likenessOf(part: Part): Likeness {
	const items = [part.item, part.item.includes('.') ? part.item.slice(part.item.lastIndexOf('.') + 1) : '']
		.filter((item) => /\p{L}/u.test(item))
		.map((item) => phraseOf(wordsOf(item)));
	const title = wordsOf(part.title);
	const plain = title.filter((word) => !sideWords.has(word));
	return {
		item: part.item,
		title: phraseOf(plain.length > 0 ? plain : title),
		items,
		names: readWords(`${part.title}, ${part.item}`).names,
		size: readSize(part.size),
		finish: plainFinish(part.finish),
		finishPhrase: phraseOf(wordsOf(part.finish))
	};
}

/** Likeness of a part, kept by interchange key and title. */
export function likenessReader(): (part: Part) => Likeness {
	const known = new Map<string, Likeness>();
	return (part) => {
		const key = `${part.interchangeKey}\n${part.title}`;
		const kept = known.get(key) ?? likenessOf(part);
		known.set(key, kept);
		return kept;
	};
}
