/**
 * The rows of a job as the server has them, put together from pages loaded, answers to edits and news of others, which
 * may arrive in any order and more than once: of every row, and of their order, the latest that was told is kept.
 */
import { filledCells, type SheetRow } from '../changes/apply.ts';
import type { Conflict } from '../changes/message.ts';
import type { Cell, Cells, OpeningRow } from '../takeoff/inputs.ts';

/** Rows as they were stored at a revision, or at a later one. */
export interface ToldRows {
	readonly revision: number;
	/** Those that were changed or added. */
	readonly rows: readonly OpeningRow[];
	/** Ids of all rows in order, where that was changed; else null. */
	readonly order: readonly string[] | null;
}

interface Kept {
	readonly cells: Cells;
	readonly revision: number;
}

export class StoredRows {
	/** Everything that was done up to here is in it. */
	revision = 0;
	readonly #kept = new Map<string, Kept>();
	#order: readonly string[] = [];
	#there: ReadonlySet<string> = new Set();
	#orderRevision = 0;

	/** Takes all rows of the job. */
	adopt(rows: readonly OpeningRow[], revision: number): void {
		const there = new Set(rows.map(({ id }) => id));
		for (const [id, kept] of this.#kept)
			if (!there.has(id) && kept.revision <= revision) this.#kept.delete(id);
		this.take({ revision, rows, order: rows.map(({ id }) => id) });
		this.revision = Math.max(this.revision, revision);
	}

	/** Takes some rows. @returns the ids of those that may be others now; null where rows came, went or moved. */
	take({ revision, rows, order }: ToldRows): ReadonlySet<string> | null {
		const changed = new Set<string>();
		let came = false;
		for (const { id, cells } of rows) {
			const kept = this.#kept.get(id);
			if (revision < (kept?.revision ?? 0)) continue;
			this.#kept.set(id, { cells, revision });
			if (!this.#there.has(id)) continue;
			// Its place was told before its cells were.
			if (!kept) came = true;
			changed.add(id);
		}
		if (!order || revision < this.#orderRevision) return came ? null : changed;
		this.#order = order;
		this.#there = new Set(order);
		this.#orderRevision = revision;
		return null;
	}

	/** Takes the values of others that a conflict told of. @returns the ids of their rows. */
	takeTheirs(conflicts: readonly Conflict[]): ReadonlySet<string> {
		const changed = new Set<string>();
		for (const { row, field, theirs } of conflicts) {
			const kept = this.#kept.get(row);
			if (!kept || !this.#there.has(row)) continue;
			const cells = filledCells({ ...kept.cells, [field]: theirs as Cell });
			this.#kept.set(row, { ...kept, cells });
			changed.add(row);
		}
		return changed;
	}

	/** All rows in order. */
	all(): SheetRow[] {
		return this.#order.flatMap((id) => this.row(id) ?? []);
	}

	row(id: string): SheetRow | null {
		const kept = this.#kept.get(id);
		return kept && this.#there.has(id) ? { id, cells: kept.cells, removed: false } : null;
	}
}
