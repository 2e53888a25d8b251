/** Headings in several rows: groups over their columns, and names that stand in an upper row. */
import { canBeGroup } from './heading-words.ts';
import { oneLine, textOf, type Merge, type Sheet, type SheetRow } from './sheet.ts';

/** What a column is headed with: its own heading, and what stands over it and its neighbours together. */
export interface HeadingTexts {
	readonly own: string;
	readonly group: string;
}

/** Rows that may lie between a row of headings and the one above it. */
const nearby = 3;
/** Rows of headings above the last one. */
const mostLevels = 2;

/** A row above the headings, by column from 0. */
class UpperRow {
	readonly #texts: readonly string[];
	readonly #merges: readonly Merge[];
	readonly #line: number;
	readonly #vocabulary: ReadonlySet<string>;
	#known: number | null = null;

	/** @param width columns of the row below; a merge over all of them is a title */
	constructor({ merges }: Sheet, row: SheetRow, width: number, vocabulary: ReadonlySet<string>) {
		this.#texts = row.cells.map((cell) => oneLine(textOf(cell)));
		this.#merges = merges.filter(
			({ top, bottom, left, right }) =>
				top <= row.line && bottom >= row.line && right - left + 1 < Math.max(2, width)
		);
		this.#line = row.line;
		this.#vocabulary = vocabulary;
	}

	text(index: number): string {
		return this.#texts[index] ?? '';
	}

	merge(index: number): Merge | undefined {
		return this.#merges.find(({ left, right }) => left <= index && index <= right);
	}

	/** How many of its texts headings are made of. Asked for every column, and the same for all. */
	get known(): number {
		this.#known ??= this.#texts.filter((text) => canBeGroup(text, this.#vocabulary)).length;
		return this.#known;
	}

	get filled(): number {
		return this.#texts.filter((text) => text !== '').length;
	}

	/** The heading of a column that has none of its own below: merged down, or in a row with other headings. */
	heading(index: number): string {
		const merge = this.merge(index);
		if (merge) return merge.left === index && merge.bottom > this.#line ? this.text(index) : '';
		return this.known < 2 ? '' : this.text(index);
	}

	/** The text of a merge over several columns; what begins at the left edge is a title, or says nothing of sizes. */
	mergedGroup({ left, right, bottom }: Merge, strict: boolean): string {
		if (left === 0 || right === left || bottom > this.#line) return '';
		const text = this.text(left);
		return strict && !canBeGroup(text, this.#vocabulary) ? '' : text;
	}

	/** The text that stands over a column without a merge. */
	looseGroup(index: number, isNamed: (index: number) => boolean): string {
		let from = index;
		while (from > 0 && this.text(from) === '' && isNamed(from)) from--;
		const text = this.text(from);
		if (from === 0 || !isNamed(from) || this.merge(from)) return '';
		return canBeGroup(text, this.#vocabulary) ? text : '';
	}
}

/**
 * The headings of a row with what the rows above it add, and the position of the first row that adds something.
 *
 * @param vocabulary every word of the headings of such a table
 */
export function headingTexts(
	sheet: Sheet,
	position: number,
	width: number,
	vocabulary: ReadonlySet<string>
): { readonly texts: readonly HeadingTexts[]; readonly first: number } {
	const row = sheet.rows[position];
	let texts: readonly HeadingTexts[] = Array.from({ length: width }, (_, index) => ({
		own: oneLine(textOf(row?.cells[index])),
		group: ''
	}));
	let first = position;
	// A row that heads nothing itself takes nothing from above.
	if (!row || texts.filter(({ own }) => canBeGroup(own, vocabulary)).length < 2) return { texts, first };
	while (first > 0 && first > position - mostLevels) {
		const [above, lower] = [sheet.rows[first - 1], sheet.rows[first]];
		if (!above || !lower || lower.line - above.line > nearby) break;
		const upper = new UpperRow(sheet, above, row.cells.length, vocabulary);
		// A lone text at the left is a title, and groups of groups come in numbers.
		if (upper.filled < 2 && (first < position || (upper.text(0) !== '' && upper.known === 0))) break;
		const under = withUpper(texts, upper, first < position);
		if (!under) break;
		texts = under;
		first--;
	}
	return { texts, first };
}

/** Headings with what a row above adds to them; null when it adds nothing. */
function withUpper(texts: readonly HeadingTexts[], upper: UpperRow, strict: boolean): HeadingTexts[] | null {
	const isNamed = (index: number): boolean => (texts[index]?.own ?? '') !== '';
	const more = texts.map((_, index) => {
		if (!isNamed(index)) return upper.heading(index);
		const merge = upper.merge(index);
		return merge ? upper.mergedGroup(merge, strict) : upper.looseGroup(index, isNamed);
	});
	if (more.every((text) => text === '')) return null;
	return texts.map(({ own, group }, index) => {
		const text = more[index] ?? '';
		return isNamed(index) ? { own, group: `${text} ${group}`.trim() } : { own: text, group };
	});
}
