/** Inputs outside the usual ones that hold something in some row: their columns show themselves. */
import { isUsual } from './result-columns.ts';

export class FilledInputs {
	/** Rows that hold something, by input; an input that none holds any more keeps an empty set. */
	readonly #rows = new Map<string, Set<string>>();

	/** Takes what a row holds now; a row that is gone holds nothing. */
	take(row: string, cells: Readonly<Record<string, unknown>>): void {
		for (const [input, rows] of this.#rows) if (!(input in cells)) rows.delete(row);
		for (const input of Object.keys(cells)) if (!isUsual(input)) this.#rowsOf(input).add(row);
	}

	/** Forgets rows that are gone. */
	keep(isThere: (row: string) => boolean): void {
		for (const rows of this.#rows.values()) for (const row of rows) if (!isThere(row)) rows.delete(row);
	}

	has(input: string): boolean {
		return (this.#rows.get(input)?.size ?? 0) > 0;
	}

	get ids(): string[] {
		return [...this.#rows.keys()].filter((input) => this.has(input));
	}

	#rowsOf(input: string): Set<string> {
		const known = this.#rows.get(input);
		if (known) return known;
		const rows = new Set<string>();
		this.#rows.set(input, rows);
		return rows;
	}
}
