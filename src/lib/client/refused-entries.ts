/** Text that could not be read, kept where it was typed. It is never sent. */
import type { InputId } from '../takeoff/inputs.ts';

export interface RefusedEntry {
	readonly text: string;
	readonly reason: string;
}

export class RefusedEntries {
	readonly #entries = new Map<string, RefusedEntry & { readonly row: string; readonly field: InputId }>();

	of(row: string, field: InputId): RefusedEntry | null {
		return this.#entries.get(`${row} ${field}`) ?? null;
	}

	keep(row: string, field: InputId, entry: RefusedEntry): void {
		this.#entries.set(`${row} ${field}`, { ...entry, row, field });
	}

	/** @returns whether there was one. */
	forget(row: string, field: InputId): boolean {
		return this.#entries.delete(`${row} ${field}`);
	}

	/** Entries of the rows that are still there, in the order they were refused. */
	all(isThere: (row: string) => boolean): { readonly row: string; readonly field: InputId }[] {
		return [...this.#entries.values()].filter(({ row }) => isThere(row));
	}
}
