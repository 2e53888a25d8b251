/** The cells that have a text, in reading order, and the way from one to the next. */
import { isInputId } from '../../takeoff/inputs.ts';
import type { CellText } from './cell-text.ts';
import { matcherOf, type Matcher } from './find.ts';
import type { Found, Search } from './grid-hooks.ts';
import type { Spot } from './range.ts';
import type { Selection } from './selection.ts';

export class Finder {
	readonly #text: CellText;
	readonly #selection: Selection;
	/** What was sought last, for the keys that go on with it. */
	#last: Search | null = null;
	#hits: readonly Spot[] | null = null;
	/** The cells a search is kept to, as they were selected when it began. */
	#within: { rows: readonly string[]; columns: readonly string[] } | null = null;

	constructor(text: CellText, selection: Selection) {
		this.#text = text;
		this.#selection = selection;
	}

	get last(): Search | null {
		return this.#last;
	}

	/** Cells or what is shown of them changed. */
	forget(): void {
		this.#hits = null;
	}

	/**
	 * All cells that have the text. A search in the selection stays with the cells that were selected when it began:
	 * going to a cell found selects that one.
	 */
	hits(search: Search): readonly Spot[] {
		const before = this.#within;
		if (!search.inSelection) this.#within = null;
		else if (this.#selection.isMany || !this.#within) this.#within = this.#selection.ids;
		if (!this.#hits || this.#within !== before || !isSame(this.#last, search))
			this.#hits = this.#search(search);
		this.#last = search;
		return this.#hits;
	}

	/**
	 * The cell after (or before) the active one that has the text, round the end, and which of how many. A new search
	 * begins with the active cell itself.
	 */
	next(search: Search, direction: 'next' | 'previous'): { spot: Spot | null; found: Found } {
		const isNew = !isSame(this.#last, search);
		const hits = this.hits(search);
		const { active } = this.#selection;
		const here = active ? this.#selection.placeOf(active) : { row: -1, column: -1 };
		const ahead = (spot: Spot): number => {
			const place = this.#selection.placeOf(spot);
			return place.row - here.row || place.column - here.column;
		};
		const after = hits.findIndex((spot) => (isNew ? ahead(spot) >= 0 : ahead(spot) > 0));
		const before = hits.findLastIndex((spot) => ahead(spot) < 0);
		const at = direction === 'next' ? Math.max(after, 0) : before === -1 ? hits.length - 1 : before;
		const spot = hits[at] ?? null;
		return { spot, found: { at: spot ? at + 1 : 0, of: hits.length } };
	}

	#search(search: Search): Spot[] {
		const { rows, columns } = this.#within ?? {
			rows: this.#selection.area.rows.ids,
			columns: this.#selection.area.columns.ids
		};
		const matcher = matcherOf(search);
		return rows.flatMap((row) =>
			columns.filter((column) => this.#matches({ row, column }, matcher)).map((column) => ({ row, column }))
		);
	}

	has(spot: Spot, search: Search): boolean {
		return this.#matches(spot, matcherOf(search));
	}

	/** In what is shown, or in what was typed where that is spelt otherwise. */
	#matches({ row, column }: Spot, matcher: Matcher): boolean {
		if (matcher.matches(this.#text.text(row, column))) return true;
		const cell = isInputId(column) ? this.#text.sheet.cell(row, column) : null;
		return cell !== null && typeof cell === 'object' && matcher.matches(cell.typed);
	}
}

const isSame = (a: Search | null, b: Search): boolean =>
	a !== null &&
	a.text === b.text &&
	a.wholeCell === b.wholeCell &&
	a.matchCase === b.matchCase &&
	a.inSelection === b.inSelection;
