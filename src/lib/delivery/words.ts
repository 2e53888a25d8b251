/** Words of a packing list in one spelling, so that `Brkts., L.H.` and `bracket, left hand` compare. */

import { unscanned } from './scanned-words.ts';

/** Abbreviations and joined words as they stand on packing lists. Common practice, no source. */
const spellings: Readonly<Record<string, string>> = {
	alu: 'aluminium',
	alum: 'aluminium',
	aluminum: 'aluminium',
	anch: 'anchor',
	ano: 'anodised',
	anod: 'anodised',
	anodized: 'anodised',
	assy: 'assembly',
	bkt: 'bracket',
	bottombar: 'bottom bar',
	brkt: 'bracket',
	brl: 'barrel',
	btm: 'bottom',
	caulk: 'sealant',
	caulking: 'sealant',
	crtn: 'curtain',
	ctr: 'counter',
	endcap: 'end cap',
	galv: 'galvanised',
	galvanized: 'galvanised',
	gd: 'guide',
	gde: 'guide',
	keyswitch: 'key switch',
	lefthand: 'left hand',
	lh: 'left hand',
	mtr: 'motor',
	oper: 'operator',
	opr: 'operator',
	pr: 'pair',
	pushbutton: 'push button',
	rh: 'right hand',
	righthand: 'right hand',
	supt: 'support',
	sw: 'switch',
	tubular: 'tube',
	weatherstrip: 'weatherseal',
	weatherstripping: 'weatherseal'
};

function singular(word: string): string {
	if (word.length < 3 || !word.endsWith('s') || /(?:ss|us|is)$/u.test(word)) return word;
	if (/(?:ches|shes|xes|sses)$/u.test(word)) return word.slice(0, -2);
	return word.slice(0, -1);
}

/**
 * Lower case, one spelling, no plural; numbers stay as written (`3.5`, `3/8`). Inch and foot marks become `in` and `ft`,
 * a multiplication sign becomes `x`, and `groutedBlock` two words.
 */
export function wordsOf(text: string): string[] {
	const plain = unscanned(
		text
			.normalize('NFKC')
			.replace(/([a-z])([A-Z])/gu, '$1 $2')
			.toLowerCase()
	)
		.replace(/["”“″]/gu, ' in ')
		.replace(/(\d) ?['’′]/gu, '$1 ft ')
		.replace(/×/gu, ' x ')
		.replace(/⁄/gu, '/')
		.replace(/\b([lr])[./ -]{1,2}h\b\.?/gu, '$1h')
		.replace(/\bc\/w\b|\bw\/(?!o)/gu, ' with ')
		.replace(/\bb\/o\b/gu, 'backordered');
	return (plain.match(/\d+(?:[./]\d+)*|\.\d+|\p{L}+/gu) ?? []).flatMap((word) => {
		const one = singular(word);
		return (spellings[word] ?? spellings[one] ?? one).split(' ');
	});
}

/** Words as a phrase with a space on both ends, so that whole words can be looked for in it. */
export const phraseOf = (words: readonly string[]): string => ` ${words.join(' ')} `;

/**
 * Those of the phrases that stand in the text, without those that are only part of a longer one found there:
 * `black anodised` says more than `anodised`.
 */
export function phrasesIn(text: string, phrases: Iterable<string>): string[] {
	const found = [...new Set(phrases)].filter((phrase) => phrase.trim() !== '' && text.includes(phrase));
	return found.filter((phrase) => !found.some((longer) => longer !== phrase && longer.includes(phrase)));
}
