/** Trade words of a packing list: what kind of part a line speaks of, and which hand. */
import type { PartKind } from '../takeoff/result.ts';
import { wordsOf } from './words.ts';

/** What the words of one line say. */
export interface WordReading {
	/** Kinds the words may mean; empty when no trade word was found. */
	readonly kinds: readonly PartKind[];
	/** Two words that can't mean one part stand side by side (`guide and bracket`). */
	readonly mixed: boolean;
	/** What tells parts of one kind apart: `key switch`, `wedge anchor`. */
	readonly names: readonly string[];
	/** The trade words found, in their order. */
	readonly found: readonly string[];
	/** Null when no hand is said, or both are. */
	readonly hand: 'left' | 'right' | null;
	/** It says left and right. */
	readonly both: boolean;
	/** It names a part only as what another thing belongs to: `guide bolts`. */
	readonly belongs: boolean;
	/** It says that pieces are counted by two. */
	readonly pair: boolean;
	/** A number that stands where the trade puts a size: `bracket 16`, `3.5 in pipe`, `3/8 x 3`. */
	readonly sizes: readonly string[];
}

interface TradeWord {
	readonly kinds: readonly PartKind[];
	/** Set where the word says more than the kind. */
	readonly name: string | null;
	/** What a part is made of (`slat`): says the kind only when no other word does. */
	readonly weak: boolean;
}

const tradeWords = new Map<string, TradeWord>();

function kind(kinds: readonly PartKind[], phrases: readonly string[], name: string | null = null): void {
	for (const phrase of phrases) tradeWords.set(phrase, { kinds, name, weak: false });
}
const named = (of: PartKind, phrases: readonly string[]): void => {
	for (const phrase of phrases) kind([of], [phrase], phrase);
};
const weak = (kinds: readonly PartKind[], phrases: readonly string[]): void => {
	for (const phrase of phrases) tradeWords.set(phrase, { kinds, name: phrase, weak: true });
};

// Common practice, no source. Phrases are written as `wordsOf` gives them: lower case, no plural.
kind(['curtain'], ['curtain', 'curtain assembly']);
kind(['curtain'], ['grille curtain'], 'grille');
kind(['curtain'], ['slat curtain'], 'slat');
kind(['bottomBar'], ['bottom bar', 'bar bottom']);
kind(['barrel'], ['barrel', 'pipe', 'shaft', 'barrel pipe', 'pipe shaft', 'barrel shaft', 'barrel assembly']);
kind(['bracket'], ['bracket', 'coil bracket', 'barrel bracket', 'bracket plate']);
kind(['guide'], ['guide', 'guide rail', 'guide assembly', 'side guide']);
kind(
	['hoodPiece'],
	['hood', 'hood piece', 'hood section', 'hood sheet', 'hood cover', 'coil hood', 'hd pc', 'hd piece']
);
kind(['hoodSupport'], ['support', 'hood support', 'hood intermediate support', 'intermediate support']);
kind(['endCap'], ['end cap', 'hood end', 'hood cap', 'hood end cap', 'end closure']);
kind(['drive', 'operator'], ['motor', 'drive', 'drive unit', 'motor operator']);
kind(['drive'], ['tube motor', 'motor tube'], 'tube motor');
kind(['operator', 'drive'], ['operator']);
kind(['operator'], ['hand chain', 'chain operator', 'chain', 'chain hoist', 'chain drive'], 'chain');
kind(['operator'], ['crank', 'crank operator', 'hand crank', 'crank handle', 'crank drive'], 'crank');
kind(
	['anchor'],
	['anchor', 'anchor bolt', 'guide anchor', 'bracket anchor', 'wall anchor', 'hood support anchor']
);
named('anchor', ['wedge anchor', 'sleeve anchor', 'screw anchor', 'drop in anchor', 'adhesive anchor']);
named('anchor', ['through bolt', 'toggle bolt', 'expansion bolt', 'concrete screw', 'wood screw']);
kind(['anchor'], ['lag screw', 'lag bolt'], 'lag screw');
kind(['anchor'], ['self drilling screw', 'drill screw'], 'self drilling screw');
kind(['control'], ['control', 'control station', 'station']);
kind(['control'], ['key switch', 'key operated switch', 'keyed switch'], 'key switch');
kind(['control'], ['push button', 'push button station'], 'push button');
kind(['control'], ['cylinder', 'lock cylinder'], 'lock cylinder');
named('control', ['lock', 'padlock', 'slide bolt', 'limit switch', 'wall switch', 'toggle switch']);
named('control', [
	'sensing edge',
	'photo eye',
	'disconnect',
	'interlock',
	'receiver',
	'transmitter',
	'control panel'
]);
named('consumable', [
	'sealant',
	'shim',
	'tape',
	'backer rod',
	'grease',
	'rivet',
	'washer',
	'nut',
	'assembly bolt'
]);
named('consumable', ['brush seal', 'touch up paint']);
kind(['consumable'], ['weatherseal', 'weather seal'], 'weatherseal');
kind(['consumable'], ['drill bit', 'bit'], 'drill bit');
weak(['consumable'], ['rod', 'slat', 'link', 'end lock', 'seal']);
weak([], ['grille']);

const longestPhrase = Math.max(...[...tradeWords.keys()].map((phrase) => phrase.split(' ').length));

/** What follows one of these is what the part is for, or comes with it; it is not what the line counts. */
const turns: readonly string[] = ['for', 'with', 'incl', 'including', 'suit'];
/** A number before one of these is no nominal size. */
const notSizes: readonly string[] = [
	...[
		'of',
		'pc',
		'ea',
		'each',
		'pair',
		'piece',
		'set',
		'pack',
		'box',
		'turn',
		'ga',
		'gauge',
		'ft',
		'mm',
		'cm',
		'm'
	],
	...['v', 'volt', 'a', 'amp', 'hz', 'ph', 'phase', 'w', 'kw', 'hp', 'rpm']
];
/** After the word for a part these are the thing, and the part is what it belongs to: guide bolts, barrel springs. Common practice, no source. */
const beside: ReadonlySet<string> = new Set([
	...[
		'bolt',
		'screw',
		'clip',
		'stop',
		'stopper',
		'cap',
		'key',
		'spacer',
		'pin',
		'insert',
		'liner',
		'shoe',
		'template'
	],
	...[
		'paint',
		'wrench',
		'tool',
		'adapter',
		'adaptor',
		'gasket',
		'spring',
		'cable',
		'wire',
		'label',
		'manual',
		'nut'
	]
]);
/** Words that count or place something and are no thing. */
const noThing: ReadonlySet<string> = new Set([
	...[
		'set',
		'pair',
		'piece',
		'each',
		'box',
		'carton',
		'lot',
		'left',
		'right',
		'hand',
		'side',
		'one',
		'only',
		'complete'
	],
	...['item', 'part', 'unit', 'material', 'goods', 'kit', 'and', 'the', 'all', 'new', 'suit']
]);

/** Before what the part is for stands another thing: `spare keys for key switch`. */
const saysOther = (words: readonly string[], turn: number): boolean =>
	turn > 0 && words.slice(0, turn).some((word) => /^\p{L}{3,}$/u.test(word) && !noThing.has(word));

const isNumber = (word: string | undefined): word is string => word !== undefined && /^[.\d]/u.test(word);

interface Found {
	readonly phrase: string;
	readonly word: TradeWord;
	readonly start: number;
	readonly end: number;
}

/** The longest trade word at each place; words of a longer one are not read again. */
function findTradeWords(words: readonly string[]): Found[] {
	const found: Found[] = [];
	for (let start = 0; start < words.length;) {
		let end = Math.min(words.length, start + longestPhrase);
		for (; end > start; end--) {
			const phrase = words.slice(start, end).join(' ');
			const word = tradeWords.get(phrase);
			if (!word) continue;
			found.push({ phrase, word, start, end });
			break;
		}
		start = Math.max(end, start + 1);
	}
	return found;
}

function sizesBeside(words: readonly string[], found: readonly Found[]): string[] {
	const sizes: string[] = [];
	const numberAt = (at: number): string => {
		const [whole = '', part = ''] = [words[at], words[at + 1]];
		return /^\d+$/u.test(whole) && /^\d+\/\d+$/u.test(part) ? `${whole} ${part}` : whole;
	};
	for (const { start, end } of found) {
		const after = words[end + 1] ?? '';
		if (isNumber(words[end]) && !notSizes.includes(after)) sizes.push(numberAt(end));
		const mixed = isNumber(words[start - 3]) && (words[start - 2] ?? '').includes('/');
		if (words[start - 1] === 'in' && isNumber(words[start - 2]))
			sizes.push(numberAt(start - (mixed ? 3 : 2)));
	}
	words.forEach((word, at) => {
		if (word !== 'x') return;
		const before = words[at - 1] === 'in' ? at - 2 : at - 1;
		if (!isNumber(words[before]) || !isNumber(words[at + 1])) return;
		const mixed = (words[before] ?? '').includes('/') && /^\d+$/u.test(words[before - 1] ?? '');
		sizes.push(numberAt(mixed ? before - 1 : before), numberAt(at + 1));
	});
	return sizes;
}

/**
 * Reads what a line is from its words, whatever their case, plural or abbreviation. Words it does not know are passed
 * over. `motor` may be a drive or an operator: both are given, and the order says which one was asked for.
 */
export function readWords(description: string): WordReading {
	const all = wordsOf(description);
	const everything = findTradeWords(all);
	const turn = all.findIndex((word) => turns.includes(word));
	const before = turn < 0 ? everything : everything.filter(({ end }) => end <= turn);
	const found = (before.length > 0 || saysOther(all, turn) ? before : everything).filter(
		({ end }) => !beside.has(all[end] ?? '')
	);
	const strong = found.filter(({ word }) => !word.weak);
	const telling = strong.length > 0 ? strong : found.filter(({ word }) => word.kinds.length > 0);

	let kinds: readonly PartKind[] = telling[0]?.word.kinds ?? [];
	let mixed = false;
	for (const { word } of telling) {
		const shared = kinds.filter((one) => word.kinds.includes(one));
		if (mixed || shared.length === 0) {
			mixed = true;
			kinds = [...new Set([...kinds, ...word.kinds])];
		} else kinds = shared;
	}
	const left = all.includes('left') || /\(l\)/iu.test(description);
	const right =
		all.some((word, at) => word === 'right' && all[at + 1] !== 'angle') || /\(r\)/iu.test(description);
	return {
		kinds,
		mixed,
		names: [...new Set(found.flatMap(({ word }) => word.name ?? []))],
		found: [...new Set(telling.map(({ phrase }) => phrase))],
		hand: left === right ? null : left ? 'left' : 'right',
		both: left && right,
		belongs: everything.length > 0 && found.length === 0,
		pair: all.includes('pair'),
		sizes: sizesBeside(all, telling)
	};
}
