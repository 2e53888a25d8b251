/** Where the others are on the sheet: a line round their cell with their initials, and a word where they type. */
import type { PersonThere } from '../../changes/live.ts';
import { hereWords, initialsOf } from '../live/people-words.ts';
import type { CellView } from './cell-view.ts';
import type { GridHooks } from './grid-hooks.ts';

/** The others in one cell. */
export interface OthersHere {
	/** `AL BV` */
	readonly initials: string;
	/** `Ada Lisle is typing here` */
	readonly words: string;
	readonly typing: boolean;
}

interface OthersHost {
	readonly hooks: GridHooks;
	/** Cells on the screen now. */
	readonly views: ReadonlySet<CellView>;
}

/** Names of a cell, for a map. */
const cellKey = (row: string, column: string): string => `${row} ${column}`;

export class OthersInCells {
	readonly #host: OthersHost;
	readonly #endListening: () => void;
	#cells: ReadonlyMap<string, OthersHere> = new Map();

	constructor(host: OthersHost) {
		this.#host = host;
		this.#cells = this.#read(host.hooks.others.people);
		this.#endListening = host.hooks.others.listen((people) => this.#heard(people));
	}

	destroy(): void {
		this.#endListening();
	}

	at(row: string, column: string): OthersHere | null {
		return this.#cells.get(cellKey(row, column)) ?? null;
	}

	#heard(people: readonly PersonThere[]): void {
		const before = this.#cells;
		this.#cells = this.#read(people);
		const changed = new Set(
			[...before.keys(), ...this.#cells.keys()].filter(
				(key) => before.get(key)?.words !== this.#cells.get(key)?.words
			)
		);
		for (const view of this.#host.views)
			if (changed.has(cellKey(view.spot.row, view.spot.column))) view.renew();
	}

	#read(people: readonly PersonThere[]): Map<string, OthersHere> {
		const { ownId } = this.#host.hooks;
		const there = people.filter(({ row, field }) => row !== null && field !== null);
		const byCell = Map.groupBy(there, ({ row, field }) => cellKey(row ?? '', field ?? ''));
		return new Map(
			[...byCell].map(([key, those]) => [
				key,
				{
					initials: those
						.map(({ personId, name }) => (personId === ownId ? 'You' : initialsOf(name)))
						.join(' '),
					words: hereWords(those, ownId),
					typing: those.some(({ editing }) => editing)
				}
			])
		);
	}
}
