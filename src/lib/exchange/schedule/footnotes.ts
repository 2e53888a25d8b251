/** Marks of footnotes that stick to figures and words: `10'-0"*`, `C-104†`, `4'-0" (2)`, `3050²`. */

const superscripts = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** Letters of a cell that is looked at; what is longer is prose. */
const longest = 200;

const signs = /\s*([*†‡§¶]+|[Δ△▲]\s?\d{0,2})$/u;
const raised = /(?<=[^\s/⁄⁰¹²³⁴-⁹])\s?([⁰¹²³⁴-⁹]+)$/u;
const bracketed = /\s*[([]\s*(\d{1,2}|[a-gj-vx-z])\s*[)\]]$/iu;
const named = /[\s,(]+((?:see )?note\s*\d{1,2})\)?$/iu;
const leading = /^([*†‡§¶]+)\s*(?=\S)/u;

/** A text without the footnote marks at its ends, and those marks as they stand. */
export interface WithoutFootnotes {
	readonly text: string;
	readonly marks: readonly string[];
}

/** @param brackets whether a number in brackets is a footnote; behind a mark it is a count. */
export function takeFootnotes(text: string, brackets: boolean): WithoutFootnotes {
	if (text.length > longest) return { text, marks: [] };
	const marks: string[] = [];
	let rest = text.trim();
	const patterns = brackets ? [signs, raised, bracketed, named, leading] : [signs, raised, leading];
	for (let going = true; going;) {
		going = false;
		for (const pattern of patterns) {
			const match = pattern.exec(rest);
			const without = match ? rest.replace(pattern, '').trim() : '';
			if (!match || without === '') continue;
			marks.push(match[0].replace(/^[\s,]+/u, '').trim());
			rest = without;
			going = true;
		}
	}
	return { text: rest, marks };
}

/** `2` for `²`, `(2)`, `[2]` and `note 2`: how a legend names the footnote. */
const nameOf = (mark: string): string =>
	mark
		.toLowerCase()
		.replace(/[⁰¹²³⁴-⁹]/gu, (digit) => String(superscripts.indexOf(digit)))
		.replace(/^(?:see )?note\s*/u, '')
		.replace(/[()[\]\s.]/gu, '');

const legendLine =
	/^([*†‡§¶]+|[⁰¹²³⁴-⁹]+|[([]\s*\w{1,2}\s*[)\]]|(?:note )?\d{1,2}(?=[.):\s])|[Δ△▲]\s?\d{1,2})[.):]?\s*[-–—:=]?\s*(\S.{2,})$/iu;

const longestNote = 500;

/** What notes below a table say of each footnote. */
export function footnoteLegend(notes: readonly string[]): (mark: string) => string | null {
	const texts = new Map<string, string>();
	for (const note of notes) {
		if (note.length > longestNote) continue;
		const [, mark, text] = legendLine.exec(note) ?? [];
		if (mark !== undefined && text !== undefined && !texts.has(nameOf(mark))) texts.set(nameOf(mark), text);
	}
	return (mark) => texts.get(nameOf(mark)) ?? null;
}
