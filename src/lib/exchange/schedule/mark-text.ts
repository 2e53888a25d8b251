/** What people write into a mark cell besides the mark: a count, several marks, a footnote. */
import { takeFootnotes } from './footnotes.ts';

export interface MarkText {
	/** One, or all that a range or a list names. */
	readonly marks: readonly string[];
	/** `4 x C-101`, `C-101 (4)` */
	readonly count: number | null;
	readonly footnotes: readonly string[];
	/** It says `thru` or the like between two numbers, and which marks are meant can't be told: `C-5 thru C-1`. */
	readonly untold?: true;
}

/** Marks that one cell may stand for. */
const mostMarks = 200;
/** Letters of a cell that is taken apart; a longer one is no mark. */
const longest = 120;

const pieces = '(?:x|×|no\\.?|nos\\.?|off|ea\\.?|each|pcs?\\.?|@)';
const countBefore: readonly RegExp[] = [
	new RegExp(`^(\\d{1,4})\\s*${pieces}\\s+(?=[a-z0-9])`, 'iu'),
	/^(\d{1,4})\s*[x×]\s*(?=(?:[a-z]+[-.]?)?\d)/iu,
	/^[([]\s*(\d{1,4})\s*(?:x|×|no\.?|nos\.?|off|ea\.?|each)?\s*[)\]]\s*(?=[a-z0-9])/iu
];
const countBehind: readonly RegExp[] = [
	/\s*[([]\s*(?:qty\.?:?|x|×)?\s*(\d{1,4})\s*(?:x|×|no\.?|nos\.?|off|ea\.?|each|pcs?\.?|req'?d\.?|required)?\s*[)\]]$/iu,
	/\s+[x×]\s*(\d{1,4})$/iu,
	/[\s,;–-]+(\d{1,4})\s*(?:no\.?|nos\.?|off|ea\.?|each|pcs?\.?|req'?d\.?|required)$/iu,
	/[\s,;–-]+qty\.?:?\s*(\d{1,4})$/iu
];

function takeCount(text: string): { text: string; count: number | null } {
	for (const pattern of [...countBefore, ...countBehind]) {
		const match = pattern.exec(text);
		const rest = match ? text.replace(pattern, '').trim() : '';
		if (match && /[\p{L}\d]/u.test(rest) && Number(match[1]) > 0)
			return { text: rest, count: Number(match[1]) };
	}
	return { text, count: null };
}

/** A mark in its parts: `C-101A` is `C-`, `101`, `A`. */
interface Parts {
	readonly before: string;
	readonly figure: string;
	/** With the space before it, where there is one. */
	readonly letter: string;
}

function partsOf(text: string): Parts | null {
	const [, before, figure, letter] = /^(.*?)(\d+)((?: ?[A-Za-z])?)$/u.exec(text) ?? [];
	return before !== undefined && figure !== undefined && letter !== undefined && !/\s\S+\s/u.test(before)
		? { before, figure, letter }
		: null;
}

const markOf = ({ before, figure, letter }: Parts): string => `${before}${figure}${letter}`;

/** A mark of a list, where only what differs from the one before it is written: `103`, `B`. */
function completed(text: string, last: Parts): Parts | null {
	if (/^[A-Za-z]$/u.test(text))
		return last.letter === '' ? null : { ...last, letter: last.letter.slice(0, -1) + text };
	const own = partsOf(text);
	if (!own) return null;
	if (own.before !== '') return own.before.toLowerCase() === last.before.toLowerCase() ? own : null;
	if (own.figure.length > last.figure.length) return null;
	return {
		...last,
		figure: last.figure.slice(0, last.figure.length - own.figure.length) + own.figure,
		letter: own.letter
	};
}

/** The marks from one to another, both included; null when there is no such series. */
function series(from: Parts, to: Parts): Parts[] | null {
	if (from.before.toLowerCase() !== to.before.toLowerCase()) return null;
	if (Number(from.figure) === Number(to.figure)) {
		const inCapitals = from.letter === from.letter.toUpperCase();
		const code = ({ letter }: Parts): number =>
			(inCapitals ? letter.toUpperCase() : letter.toLowerCase()).trim().codePointAt(0) ?? 0;
		const [first, last] = [code(from), code(to)];
		if (first === 0 || last <= first) return null;
		return Array.from({ length: last - first + 1 }, (_, i) => ({
			...from,
			letter: from.letter.slice(0, -1) + String.fromCodePoint(first + i)
		}));
	}
	const count = Number(to.figure) - Number(from.figure) + 1;
	if (count < 2 || count > mostMarks || (from.letter !== to.letter && to.letter !== '')) return null;
	return Array.from({ length: count }, (_, i) => ({
		...from,
		figure: String(Number(from.figure) + i).padStart(from.figure.length, '0')
	}));
}

const rangeWord = /\s*(?:\bthru\b|\bthrough\b|\bto\b|\.{2,3}|[–—]|…)\s*|\s+[-‐‑]\s+/iu;

/** Words that join two numbers to a range and are never part of a mark. */
const surelyRange = /\d\S*\s*(?:\bthru\b|\bthrough\b|\bto\b|\.{2,3}|…)\s*\S*\d/iu;

/** `C-101 (A-D)` is `C-101A-D`. */
const lettersBehind = /^(.*\d)\s*[([]\s*([A-Za-z])\s*(?:[-–—]|thru|through|to)\s*([A-Za-z])\s*[)\]]$/iu;

/** Both ends of a range; a plain hyphen joins two only in a list, between letters, or where the whole mark stands again. */
function ends(text: string, listed: boolean): readonly [string, string] | null {
	const match = rangeWord.exec(text);
	if (match) {
		const [from, to] = [text.slice(0, match.index), text.slice(match.index + match[0].length)];
		return from === '' || to === '' || rangeWord.test(to) ? null : [from, to];
	}
	const [, from, to] =
		/^(\d+)[-‐‑](\d+)$/u.exec(listed ? text : '') ??
		/^(.*\d ?[A-Za-z])[-‐‑]([A-Za-z])$/u.exec(text) ??
		/^((\D+)\d+[A-Za-z]?)[-‐‑](\2\d+[A-Za-z]?)$/u.exec(text)?.toSpliced(2, 1) ??
		[];
	return from === undefined || to === undefined ? null : [from, to];
}

/** All marks of a list or a range; null when it is one mark, or nothing that can be told apart. */
function severalMarks(text: string): string[] | null {
	const items = text
		.replace(lettersBehind, '$1$2-$3')
		.split(/\s*[,;&+/\n]\s*|\s+and\s+/iu)
		.map((item) => item.trim())
		.filter((item) => item !== '');
	const marks: Parts[] = [];
	for (const item of items) {
		const last = marks.at(-1);
		const read = (piece: string, before: Parts | undefined): Parts | null =>
			before ? completed(piece, before) : partsOf(piece);
		const both = ends(item, last !== undefined);
		const from = read(both ? both[0] : item, last);
		if (!from) return null;
		if (!both) {
			marks.push(from);
			continue;
		}
		const to = completed(both[1], from);
		const all = to && series(from, to);
		if (!all) return null;
		marks.push(...all);
	}
	const names = Array.from(new Set(marks.map(markOf)));
	return names.length > 1 && names.length <= mostMarks ? names : null;
}

/**
 * Reads a mark cell. A bracketed whole number behind a mark is a count; a list or range whose marks can't all be told
 * stays one mark, as it is written, and says so where it surely is one.
 */
export function readMarkText(text: string): MarkText {
	if (text.length > longest) return { marks: [text], count: null, footnotes: [] };
	const first = takeFootnotes(text, false);
	const { text: counted, count } = takeCount(first.text);
	const { text: rest, marks: footnotes } =
		count === null ? { text: counted, marks: [] } : takeFootnotes(counted, false);
	const several = severalMarks(rest);
	return {
		marks: several ?? [rest],
		count,
		footnotes: [...first.marks, ...footnotes],
		...(several === null && surelyRange.test(rest) ? { untold: true } : {})
	};
}

/** Whether a text can be a mark by its looks: short, with a figure, and no word of another meaning. */
export function looksLikeMark(text: string): boolean {
	const { marks } = readMarkText(text);
	const [mark = ''] = marks;
	if (
		/^(?:note|rev|revision|issue|sheet|page|level|floor|phase|stage|see|alt|alternate|date|no)\b/iu.test(mark)
	)
		return false;
	return (
		marks.length > 1 ||
		(/^\S{1,20}$/u.test(mark) && /\d/u.test(mark)) ||
		/^[A-Z]{1,6} \d{1,5}[A-Z]?$/u.test(mark)
	);
}
