/** What a packing list says of itself above, below and between its tables: its number, our order, the job, crates and pages. */
import type { PackingFacts } from '../../delivery/line.ts';
import { shown } from '../sheet.ts';
import { cratesNamed } from './crates.ts';
import { sameOrder } from './order-line.ts';
import { unitInNote } from '../table-notes.ts';
import type { Statement } from './statements.ts';
import { viewpointIn } from './viewpoint.ts';

export interface FactsFound {
	readonly facts: PackingFacts;
	readonly questions: readonly { readonly line: number; readonly text: string; readonly reason: string }[];
}

/** A number with figures in it, and no count of several (`2 of 3`). */
const number = String.raw`([a-z]{0,6}[-‐–]?\d[a-z\d]*(?:[-‐–/.][a-z\d]+)*)(?![\w-])(?!\s*(?:of|/)\s*\d)`;
const no = String.raw`\s*(?:no|nr|num(?:ber)?|id)?\.?\s*#?\s*[:.]?\s*#?\s*`;
const listNumber = new RegExp(
	String.raw`\b(?:(?:pack(?:ing)?|shipping|delivery|pick(?:ing)?|container|tally)\s*-?\s*(?:list|slip|note|ticket|docket|sheet|advice)|des?patch\s*(?:note|advice|list)|(?:shipper|shipment|list|slip|docket|p/?l)\s*(?:no|nr|number|#)|p/l)${no}${number}`,
	'iu'
);
const listNumberAlone = /^(?:pl|ps|dn)[- ]?\d[\w-]*$/iu;
const ours = String.raw`(?:your|customer(?:['’]?s)?|client(?:['’]?s)?|buyer(?:['’]?s)?|cust\.?)\s*`;
/** In the order of how surely they name our order. */
const orderPatterns: readonly RegExp[] = [
	new RegExp(
		String.raw`\b${ours}(?:purchase\s*)?(?:order|p\.?\s?o\b\.?|ref(?:erence)?\b\.?)${no}${number}`,
		'giu'
	),
	new RegExp(String.raw`(?:\bp\.?\s?o\b\.?|\bpurchase\s+order)${no}${number}`, 'giu'),
	new RegExp(
		String.raw`(?<!\b(?:our|sales|works|shop|factory|supplier|job|back|maker['’]?s)[\s-]{0,3})\border${no}${number}`,
		'giu'
	)
];
const revision = /\brev(?:ision)?\b\.?\s*(?:no\.?|number|#)?\s*:?\s*(\d{1,3})\b/iu;
/** Straight behind the number of the order: `1042-01 r2`. */
const shortRevision = /^\S+[\s,]+r\.?(\d{1,2})\b/iu;
const revisionAlone =
	/^(?:(?:your |purchase )?(?:order|po|p\.o\.) )?rev(?:ision)?\b\.?\s*(?:no\.?|number|#)?\s*:?\s*(\d{1,3})$/iu;
const jobNames: readonly RegExp[] = [
	/(?:^|[\s;,|(])(?:job|project)\b(?:\s*(?:name|title))?\s*[:=–—-]\s*([^;|,(]*\p{L}[^;|,(]*)/iu,
	/^(?:for\s+)?(?:the\s+)?(?:job|project)\b(?:\s+name)?\s+(?!no\b|nr\b|number\b|#)([^;|,(]*\p{L}[^;|,(]*)/iu,
	/^(?:ship|shipped|deliver|delivered|delivery|consigned?)\s*to\s*:?\s*([^;|,(]*\p{L}[^;|,(]*)/iu,
	/^site\b(?:\s*name)?\s*:\s*([^;|,(]*\p{L}[^;|,(]*)/iu
];
const pages =
	/\b(?:(?:pages?|pg\.?|p\.)\s*(?:no\.?\s*)?:?\s*(\d{1,4})(?:\s*(?:of|\/)\s*(\d{1,4}))?|sheet\s*(\d{1,4})\s*of\s*(\d{1,4}))(?![\d-])/giu;
const pagesInAll = /\b(?:total|number of|no\. of)\s*pages\s*:?\s*(\d{1,4})\b|\b(\d{1,4})\s+pages\b/iu;
const box = String.raw`(?:crates?|box(?:es)?|cases?|cartons?|ctns?)`;
const crates = new RegExp(
	String.raw`(?<!\bp\.?\s?o\.?\s{0,2})\b${box}\.?\s*(?:nos?\.?|numbers?|#)?\s*:?\s*(\d{1,3}(?:\s*(?:,|&|and|to|[-–])\s*\d{1,3})*)(?:\s*(?:of|out of|/)\s*(\d{1,3}))?(?![\d/])`,
	'giu'
);
const cratesInAll = new RegExp(
	String.raw`^(\d{1,3})\s+${box}$|\b(?:total|number of|no\. of|in all)\s*:?\s*(?:number of\s*)?(?:${box})?\s*:?\s*(\d{1,3})\s*${box}\b|\b(?:total|number of|no\. of)\s*(?:number of\s*)?${box}\s*:?\s*(\d{1,3})\b|\b(\d{1,3})\s+${box}\s*(?:in all|in total|altogether|total)\b|\b(?:order|shipment) (?:of|in)\s*(\d{1,3})\s*${box}\b|\b${box}\s*(?:in all|in total)\s*:?\s*(\d{1,3})\b`,
	'iu'
);
const aboutSizes = /\b(?:sizes?|dimensions?|dims?|lengths?|widths?|heights?|measure(?:d|s|ments?)?)\b/iu;
const sizeWords: readonly (readonly [RegExp, NonNullable<PackingFacts['sizes']>])[] = [
	[
		/\boverall\b|\bo\/a\b|guides? (?:are )?included|\bincl(?:\.|uding|udes?)?\s+(?:the\s+)?guides?|over (?:the )?guides|out[\s-]to[\s-]out/iu,
		'overall'
	],
	[/\bopenings?\b|\bclear (?:sizes?|widths?|dimensions?)\b|\bmasonry\b/iu, 'opening'],
	[/\b(?:parts?|pieces?|cut|cutting|actual|net)\b/iu, 'part']
];

/** What a text says its sizes measure; null where it says nothing of it. */
export function sizesIn(text: string): PackingFacts['sizes'] {
	if (!aboutSizes.test(text)) return null;
	const said = text.replace(/\bnot\s+(?:the\s+)?\w+|\bwithout\s+(?:the\s+)?\w+/giu, '');
	return sizeWords.find(([pattern]) => pattern.test(said))?.[1] ?? null;
}

const figuresOf = (match: RegExpExecArray | null): number | null => {
	const groups: readonly (string | undefined)[] = match?.slice(1) ?? [];
	const found = groups.find((group) => group !== undefined);
	return found === undefined ? null : Number(found);
};

/** The one value that all statements agree in; null, and asked, where they do not. */
class One<T extends string | number> {
	value: T | null = null;
	#clash = false;
	readonly #what: string;
	readonly #ask: (line: number, text: string, reason: string) => void;
	readonly #same: (a: T, b: T) => boolean;

	constructor(what: string, ask: One<T>['ask'], same: (a: T, b: T) => boolean = (a, b) => a === b) {
		this.#what = what;
		this.#ask = ask;
		this.#same = same;
	}

	get ask(): (line: number, text: string, reason: string) => void {
		return this.#ask;
	}

	say(value: T, { line, text }: Statement): void {
		if (this.#clash) return;
		if (this.value === null) {
			this.value = value;
			return;
		}
		if (this.#same(this.value, value)) return;
		this.#clash = true;
		this.#ask(
			line,
			text,
			`${this.#what}: ${String(this.value)} before, and ${String(value)} here; say which it is`
		);
		this.value = null;
	}
}

/** The order and, where the number carries it (`1042-01/R2`), its revision. */
function splitOrder(text: string): { order: string; revision: number | null } {
	const [, order, rev] = /^(.*\d)[/-]r(?:ev)?\.?(\d{1,3})$/iu.exec(text) ?? [];
	return order === undefined || rev === undefined
		? { order: text, revision: null }
		: { order, revision: Number(rev) };
}

/**
 * Reads the facts from statements that are no parts.
 *
 * @param head the cells above the table, in their order
 */
export function readFacts(statements: readonly Statement[], head: readonly string[]): FactsFound {
	const questions: { line: number; text: string; reason: string }[] = [];
	const ask = (line: number, text: string, reason: string): void => {
		questions.push({ line, text: shown(text), reason });
	};
	const list = new One<string>('two numbers of the packing list', ask, sameOrder);
	const rev = new One<number>('two revisions of our order', ask);
	const hands = new One<string>('left and right are seen from two sides', ask);
	const sizes = new One<string>('two things that sizes measure', ask);
	const pagesAll = new One<number>('two counts of pages', ask);
	const cratesAll = new One<number>('two counts of crates', ask);
	const pageNumbers = new Set<number>();
	const crateNames = new Set<string>();
	const assumed = new Set<string>();
	for (const statement of statements) {
		const { line, text } = statement;
		const numbered = listNumber.exec(text)?.[1] ?? (listNumberAlone.test(text) ? text : undefined);
		if (numbered !== undefined) list.say(numbered, statement);
		for (const match of text.matchAll(pages)) {
			const [page, all] = [match[1] ?? match[3], match[2] ?? match[4]];
			if (all !== undefined) pagesAll.say(Number(all), statement);
			if (page !== undefined) pageNumbers.add(Number(page));
		}
		const manyPages = figuresOf(pagesInAll.exec(text));
		if (manyPages !== null) pagesAll.say(manyPages, statement);
		const manyCrates = figuresOf(cratesInAll.exec(text));
		if (manyCrates !== null) cratesAll.say(manyCrates, statement);
		else
			for (const match of text.matchAll(crates)) {
				if (match[2] !== undefined) cratesAll.say(Number(match[2]), statement);
				for (const name of cratesNamed(match[1] ?? '')) crateNames.add(String(Number(name)));
			}
		const view = viewpointIn(text);
		if (view) hands.say(view.from, statement);
		if (view?.assumed && !assumed.has(view.assumed)) {
			assumed.add(view.assumed);
			ask(line, text, view.assumed);
		}
		const measured = sizesIn(text);
		if (measured !== null) sizes.say(measured, statement);
		const alone = figuresOf(revisionAlone.exec(text));
		if (alone !== null) rev.say(alone, statement);
	}
	const { order, at } = findOrder(statements, ask);
	const split = order === null ? null : splitOrder(order);
	const inNumber = split?.revision ?? null;
	if (inNumber !== null && at) rev.say(inNumber, at);
	for (const statement of statements) {
		const where = order === null ? -1 : statement.text.indexOf(order);
		const behind = where < 0 ? '' : statement.text.slice(where);
		const said = figuresOf(revision.exec(behind) ?? shortRevision.exec(behind));
		if (said !== null) rev.say(said, statement);
	}
	return {
		facts: {
			listNumber: list.value,
			orderNumber: split?.order ?? null,
			orderRevision: rev.value,
			jobName: findJob(statements) ?? jobInHead(head),
			handsFrom: hands.value === 'coilSide' || hands.value === 'farSide' ? hands.value : null,
			sizes:
				sizes.value === 'part' || sizes.value === 'opening' || sizes.value === 'overall' ? sizes.value : null,
			crates: { all: cratesAll.value, named: [...crateNames] },
			pages: { all: pagesAll.value, named: [...pageNumbers] }
		},
		questions
	};
}

function findOrder(
	statements: readonly Statement[],
	ask: (line: number, text: string, reason: string) => void
): { order: string | null; at: Statement | null } {
	for (const pattern of orderPatterns) {
		const found = statements.flatMap((statement) =>
			Array.from(statement.text.matchAll(pattern), (match) => ({ order: match[1] ?? '', at: statement }))
		);
		const [first] = found;
		if (!first) continue;
		const other = found.find(
			({ order }) => !sameOrder(splitOrder(order).order, splitOrder(first.order).order)
		);
		if (!other) return first;
		ask(
			other.at.line,
			other.at.text,
			`two orders of ours, ${first.order} and ${other.order}; say which lines answer which`
		);
		return { order: null, at: null };
	}
	return { order: null, at: null };
}

function findJob(statements: readonly Statement[]): string | null {
	for (const pattern of jobNames)
		for (const { text } of statements) {
			const name = pattern
				.exec(text)?.[1]
				?.trim()
				.replace(/[.\s]+$/u, '');
			if (name !== undefined && name !== '') return name;
		}
	return null;
}

const title = /^(?:pack(?:ing)?|delivery|des?patch|shipping)\b/iu;
/** What a cell of the head may hold beside names. */
const otherFacts: readonly RegExp[] = [listNumber, ...orderPatterns, pages, crates, cratesInAll, revision];

const isName = (text: string): boolean =>
	/\p{L}{2,}\s+(?:&\s+)?\p{L}{2,}/u.test(text) && !/[\d:=]/u.test(text) && !title.test(text);

/**
 * Where nothing calls it the job: the second name of the head. The first is the sender's. Words that say a unit, a
 * side or what sizes measure are no name.
 */
function jobInHead(head: readonly string[]): string | null {
	let sender = false;
	for (const cell of head) {
		const facts = otherFacts
			.map((pattern) => cell.search(new RegExp(pattern.source, 'iu')))
			.filter((at) => at >= 0);
		const name =
			cell
				.slice(0, facts.length > 0 ? Math.min(...facts) : undefined)
				.split(/[,;|]/u)[0]
				?.replace(/[\s–—-]+$/u, '') ?? '';
		const isWord = /\p{L}{3}/u.test(name) && !/\d/u.test(name) && !title.test(name);
		if (!isWord || unitInNote(name) !== null || viewpointIn(name) || sizesIn(name) !== null) continue;
		if (sender && isName(name)) return name;
		sender = true;
	}
	return null;
}
