/** Words of a packing list about the state of its goods. */

/** How many pieces a word is about: a count, or `all` of the line when none is given. 0 when it is not said. */
export type Share = number | 'all';

export interface RemarkReading {
	readonly damaged: Share;
	/** To come later. */
	readonly backordered: Share;
	/** Listed and not found. */
	readonly missing: Share;
	/** Something else than what was ordered, by the remark's own word. */
	readonly wrong: Share;
}

type State = keyof RemarkReading;

/** Common practice, no source. One clause says one thing: the first of these that it has a word of. */
const stateWords: readonly (readonly [State, RegExp])[] = [
	[
		'backordered',
		/back[\s-]?order(?:ed)?|\bb\/o\b|\bbo\b|(?:to|will) follow|not shipped|to be shipped|ships? later/u
	],
	[
		'wrong',
		/\bwrong\b|\bincorrect\b|substitut\w*|\bin lieu\b|\bin place of\b|\binstead of\b|\btoo (?:short|long|wide|narrow)\b/u
	],
	['missing', /\bmissing\b|\bshort(?:ed|age)?\b|not (?:received|found|in (?:the )?crate|on (?:the )?truck)/u],
	[
		'damaged',
		/\bdamaged?\b|\bbent\b|\bdent(?:s|ed)?\b|\bbroken\b|\bcracked\b|\bscratch(?:ed|es)?\b|\bcrushed\b|\btwisted\b|\bchipped\b|\bdefective\b|\btorn\b/u
	]
];

/** Words that take it back. */
const undone =
	/\b(?:no|not|without|none|undamaged|free of)\b[^,;.]{0,20}(?:damage|bent|dent|scratch|broken|crack|missing|wrong|substitut|back[\s-]?order)|\bundamaged\b|back[\s-]?order\w* (?:filled|complete\w*|released|shipped|delivered)|(?:fills?|completes?|from|balance of|releases?) (?:the )?(?:back[\s-]?order|b\/o)/u;

const numberWords = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const count = String.raw`(\d{1,6}|${numberWords.slice(1).join('|')})`;
/** A number after one of these is a name, not a count. */
const numbered = String.raw`\b(?:crates?|box|boxes|pallet|truck|line|item|mark|no|nos|number|page)\.?|#`;
const before = new RegExp(
	String.raw`(?:^|(?<!${numbered})\s)${count}(?: (?:of|out of) \d+| ?/ ?\d+)?(?: (?:ea|each|pcs?|pieces?|pairs?|prs?|sets?|more))?(?: (?:is|are|was|were|came|arrived))?\s*$`,
	'u'
);
const after = new RegExp(
	String.raw`^\s*[:=]?\s*${count}(?=$|\s*(?:$|ea\b|each\b|pcs?\b|pieces?\b|of \d))`,
	'u'
);

const counted = (text: string): number =>
	/^\d/u.test(text) ? Number(text) : Math.max(0, numberWords.indexOf(text));

const added = (a: Share, b: Share): Share => (a === 'all' || b === 'all' ? 'all' : a + b);

/**
 * Reads damage, back orders, missing and wrong pieces from a remark: `1 dented in transit`, `B/O 2`, `backordered`,
 * `two missing`. A word without a number is about the whole line. `no damage` and `completes back order` say nothing
 * of the kind.
 */
export function readRemark(remark: string | null): RemarkReading {
	const reading: Record<State, Share> = { damaged: 0, backordered: 0, missing: 0, wrong: 0 };
	const clauses = (remark ?? '')
		.toLowerCase()
		.slice(0, 500)
		.split(/[;,]|(?<!\bnos?)\.\s|\band\b|\bbut\b/u);
	for (const clause of clauses) {
		if (undone.test(clause)) continue;
		for (const [state, word] of stateWords) {
			const match = word.exec(clause);
			if (!match) continue;
			const number =
				before.exec(clause.slice(0, match.index))?.[1] ??
				after.exec(clause.slice(match.index + match[0].length))?.[1];
			reading[state] = added(reading[state], number === undefined ? 'all' : counted(number));
			break;
		}
	}
	return reading;
}

/** It says that something came in place of what was ordered. */
export const saysSubstitute = (remark: string): boolean =>
	remark
		.toLowerCase()
		.slice(0, 500)
		.split(/[;,]|(?<!\bnos?)\.\s/u)
		.some(
			(clause) => /substitut|\bin lieu\b|\bin place of\b|\binstead of\b/u.test(clause) && !undone.test(clause)
		);
