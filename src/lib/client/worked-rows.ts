/**
 * The rows of a sheet and what is worked out from them: what the server has stored, with the edits still on their way
 * on top. One edit works out again only the rows of the marks it touches.
 */
import type { EditResult, Figures } from '../changes/answer.ts';
import { applyChanges, filledCells, sameCell, type SheetRow } from '../changes/apply.ts';
import type { Conflict, Edit } from '../changes/message.ts';
import type { Engine } from '../takeoff/engine.ts';
import type { Cell, Cells, InputId, Measures, OpeningRow } from '../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';

/** What changed on the sheet. */
export interface SheetChange {
	readonly rows: ReadonlySet<string>;
	readonly order: boolean;
}

/** Something about one row changed that is not in its cells. */
export const changeOf = (row: string): SheetChange => ({ rows: new Set([row]), order: false });

export const markText = (cells: Cells): string => (typeof cells.mark === 'string' ? cells.mark : '');

export class WorkedRows {
	/** Row ids from the top. */
	order: readonly string[] = [];
	readonly #engine: Engine;
	readonly #measures: Measures;
	#stored: readonly SheetRow[] = [];
	#rows: ReadonlyMap<string, OpeningRow> = new Map();
	readonly #takeoffs = new Map<string, OpeningTakeoff>();
	/** Figures of the server where they differ from those worked out here. */
	readonly #figures = new Map<string, Figures>();

	constructor(engine: Engine, measures: Measures) {
		this.#engine = engine;
		this.#measures = measures;
	}

	row(id: string): OpeningRow | undefined {
		return this.#rows.get(id);
	}

	takeoff(id: string): OpeningTakeoff | undefined {
		return this.#takeoffs.get(id);
	}

	/** A quantity of one opening, in base units; the server's figure where it differs. */
	figure(id: string, quantity: string): number | string | null {
		const kept = this.#figures.get(id);
		if (kept && quantity in kept) return kept[quantity] ?? null;
		return this.#takeoffs.get(id)?.get(quantity) ?? null;
	}

	/** The row of a mark itself, not of one of its openings. */
	markRow(mark: string): OpeningRow | undefined {
		for (const id of this.order) {
			const row = this.#rows.get(id);
			if (row && markText(row.cells) === mark && typeof row.cells.openingNumber !== 'number') return row;
		}
		return undefined;
	}

	/** Rows of the openings of a mark that have one of their own. */
	ownRows(mark: string): OpeningRow[] {
		return this.order.flatMap((id) => {
			const row = this.#rows.get(id);
			return row && markText(row.cells) === mark && typeof row.cells.openingNumber === 'number' ? [row] : [];
		});
	}

	/** Takes all rows as the server has them now. */
	adopt(rows: readonly OpeningRow[]): void {
		this.#stored = rows.map((row) => ({ id: row.id, cells: row.cells, removed: false }));
		this.#figures.clear();
	}

	/** Takes what the server stored of an edit. */
	store(result: EditResult): void {
		const byId = new Map(this.#stored.map((row) => [row.id, row]));
		for (const row of result.rows) byId.set(row.id, { id: row.id, cells: row.cells, removed: false });
		for (const id of result.removed) byId.delete(id);
		const order = result.order ?? [...byId.keys()];
		this.#stored = order.flatMap((id) => byId.get(id) ?? []);
	}

	/** Takes the values of others that a conflict told of. */
	storeTheirs(conflicts: readonly Conflict[]): void {
		const theirs = new Map<string, Partial<Record<InputId, Cell>>>();
		for (const conflict of conflicts) {
			const cells = theirs.get(conflict.row) ?? {};
			cells[conflict.field as InputId] = conflict.theirs as Cell;
			theirs.set(conflict.row, cells);
		}
		this.#stored = this.#stored.map((row) => {
			const cells = theirs.get(row.id);
			return cells ? { ...row, cells: filledCells({ ...row.cells, ...cells }) } : row;
		});
	}

	/** Puts the waiting edits on top of the stored rows and works out what that changes. Null when it changes nothing. */
	show(waiting: readonly Edit[]): SheetChange | null {
		let rows = this.#stored;
		for (const edit of waiting) {
			const applied = applyChanges(rows, edit.changes, { reinstate: false });
			if (applied.ok) rows = applied.rows;
		}
		const next = new Map<string, OpeningRow>();
		const marks = new Set<string>();
		const changed = new Set<string>();
		const order: string[] = [];
		for (const { id, cells, removed } of rows) {
			if (removed) continue;
			order.push(id);
			const before = this.#rows.get(id);
			if (before && sameCells(before.cells, cells)) {
				next.set(id, before);
				continue;
			}
			next.set(id, { id, cells });
			changed.add(id);
			marks.add(markText(cells));
			if (before) marks.add(markText(before.cells));
		}
		for (const [id, row] of this.#rows) {
			if (next.has(id)) continue;
			marks.add(markText(row.cells));
			this.#takeoffs.delete(id);
			this.#figures.delete(id);
		}
		const reordered = order.length !== this.order.length || order.some((id, at) => id !== this.order[at]);
		if (changed.size === 0 && !reordered) return null;
		this.#rows = next;
		this.order = order;
		const concerned = order.flatMap((id) => {
			const row = next.get(id);
			const mark = row ? markText(row.cells) : '';
			return row && (mark === '' ? changed.has(id) : marks.has(mark)) ? [row] : [];
		});
		for (const opening of this.#engine.takeoff(concerned, this.#measures).openings) {
			this.#takeoffs.set(opening.row.id, opening);
			this.#figures.delete(opening.row.id);
			changed.add(opening.row.id);
		}
		return { rows: changed, order: reordered };
	}

	/**
	 * Keeps the server's figures where they differ from those worked out here from the same rows.
	 * @returns the rows where they do.
	 */
	keepDiffering(figures: EditResult['figures'], waiting: readonly Edit[]): ReadonlySet<string> {
		const pending = new Set(waiting.flatMap((edit) => edit.changes.map((change) => change.row)));
		const differing = new Set<string>();
		for (const [id, theirs] of Object.entries(figures)) {
			const takeoff = this.#takeoffs.get(id);
			if (!takeoff || pending.has(id)) continue;
			const different = Object.entries(theirs).filter(([quantity, value]) => takeoff.get(quantity) !== value);
			if (different.length === 0) continue;
			this.#figures.set(id, Object.fromEntries(different));
			differing.add(id);
		}
		return differing;
	}
}

function sameCells(a: Cells, b: Cells): boolean {
	if (a === b) return true;
	const fields = [...Object.keys(a), ...Object.keys(b)] as InputId[];
	return fields.every((field) => sameCell(a[field], b[field]));
}
