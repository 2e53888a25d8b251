/**
 * The openings of a job as a person sees them: what the server has stored, with the edits still on their way applied
 * on top, worked out at once. One edit works out again only the rows of the marks it touches.
 */
import { createContext } from 'svelte';
import type { EditResult, Figures, UndoState } from '../changes/answer.ts';
import { applyChanges, filledCells, sameCell, type SheetRow } from '../changes/apply.ts';
import type { Change, Conflict, Edit } from '../changes/message.ts';
import type { Engine } from '../takeoff/engine.ts';
import type { Cell, Cells, InputId, Measures, OpeningRow } from '../takeoff/inputs.ts';
import type { Check, OpeningTakeoff } from '../takeoff/result.ts';
import { send } from './call.ts';
import type { Notices } from './notices.svelte.ts';
import { opaqueId } from './opaque-id.ts';
import type { Outbox } from './outbox.svelte.ts';

/** What changed on the sheet, for the grid. */
export interface SheetChange {
	readonly rows: ReadonlySet<string>;
	readonly order: boolean;
}

/** One cell a person wants changed. */
export interface CellChange {
	readonly row: string;
	readonly field: InputId;
	readonly after: Cell;
}

/** Text that could not be read, kept where it was typed. It is never sent. */
export interface RefusedEntry {
	readonly text: string;
	readonly reason: string;
}

const markText = (cells: Cells): string => (typeof cells.mark === 'string' ? cells.mark : '');

export class JobSheet {
	readonly engine: Engine;
	readonly measures: Measures;
	readonly outbox: Outbox;
	/** Row ids from the top. */
	order: readonly string[] = $state.raw([]);
	/** Counts what changed, so that anything derived from the rows is worked out again. */
	version = $state(0);
	undoTitle: string | null = $state(null);
	redoTitle: string | null = $state(null);
	/** Row whose drawing, checks and working are shown. */
	selected: string | null = $state(null);

	readonly #job: string;
	readonly #notices: Notices;
	#stored: SheetRow[] = [];
	#rows = new Map<string, OpeningRow>();
	#takeoffs = new Map<string, OpeningTakeoff>();
	/** Figures of the server where they differ from those worked out here. */
	#figures = new Map<string, Figures>();
	#refused = new Map<string, RefusedEntry>();
	#listeners = new Set<(change: SheetChange) => void>();

	constructor(
		job: string,
		engine: Engine,
		measures: Measures,
		outbox: Outbox,
		notices: Notices,
		rows: readonly OpeningRow[],
		undo: UndoState
	) {
		this.#job = job;
		this.engine = engine;
		this.measures = measures;
		this.outbox = outbox;
		this.#notices = notices;
		this.adopt(rows, undo);
		this.selected = this.order[0] ?? null;
	}

	/** Takes rows as the server has them now, with the edits still on their way on top. */
	adopt(rows: readonly OpeningRow[], undo: UndoState): void {
		this.#stored = rows.map((row) => ({ id: row.id, cells: row.cells, removed: false }));
		this.undoTitle = undo.undo;
		this.redoTitle = undo.redo;
		this.#figures.clear();
		this.#show();
	}

	/** Hears of every change of the rows. @returns what ends it. */
	listen(listener: (change: SheetChange) => void): () => void {
		this.#listeners.add(listener);
		return () => this.#listeners.delete(listener);
	}

	row(id: string): OpeningRow | null {
		return this.#rows.get(id) ?? null;
	}

	cell(id: string, field: InputId): Cell {
		return this.#rows.get(id)?.cells[field] ?? null;
	}

	/** The mark's cell, for a row that is one opening of it and leaves the cell blank. */
	inherited(id: string, field: InputId): Cell {
		if (!this.isOwnRow(id) || this.cell(id, field) !== null) return null;
		return this.#takeoffs.get(id)?.cell(field) ?? null;
	}

	/** True for a row that is one opening of a mark. */
	isOwnRow(id: string): boolean {
		return typeof this.cell(id, 'openingNumber') === 'number';
	}

	markRow(mark: string): OpeningRow | null {
		for (const id of this.order) {
			const row = this.#rows.get(id);
			if (row && markText(row.cells) === mark && typeof row.cells.openingNumber !== 'number') return row;
		}
		return null;
	}

	takeoff(id: string): OpeningTakeoff | null {
		return this.#takeoffs.get(id) ?? null;
	}

	checks(id: string): readonly Check[] {
		return this.#takeoffs.get(id)?.checks ?? [];
	}

	/** A quantity of one opening, in base units; the server's figure where it differs. */
	figure(id: string, quantity: string): number | string | null {
		const kept = this.#figures.get(id);
		if (kept && quantity in kept) return kept[quantity] ?? null;
		return this.#takeoffs.get(id)?.get(quantity) ?? null;
	}

	/** Sum over all openings of the job of a quantity of one opening; null where nothing was computed. */
	total(quantity: string): number | null {
		let sum: number | null = null;
		for (const id of this.order) {
			const value = this.figure(id, quantity);
			if (typeof value === 'number') sum = (sum ?? 0) + value * this.openings(id);
		}
		return sum;
	}

	/** Openings a row stands for. */
	openings(id: string): number {
		return this.#takeoffs.get(id)?.quantity ?? 0;
	}

	refusedEntry(id: string, field: InputId): RefusedEntry | null {
		return this.#refused.get(`${id} ${field}`) ?? null;
	}

	/** Cells with an entry that could not be read, from the top. */
	get refusedCells(): readonly { readonly row: string; readonly field: InputId }[] {
		return [...this.#refused.keys()].flatMap((key) => {
			const [row, field] = key.split(' ');
			return row !== undefined && field !== undefined ? [{ row, field: field as InputId }] : [];
		});
	}

	refuse(id: string, field: InputId, entry: RefusedEntry): void {
		this.#refused.set(`${id} ${field}`, entry);
		this.#tell(new Set([id]), false);
	}

	forgetRefused(id: string, field: InputId): void {
		if (this.#refused.delete(`${id} ${field}`)) this.#tell(new Set([id]), false);
	}

	/** Changes cells as one edit. Cells that already hold the value are left out. */
	setCells(title: string, cells: readonly CellChange[]): void {
		for (const { row, field } of cells) this.#refused.delete(`${row} ${field}`);
		this.#make(title, this.#cellChanges(cells));
	}

	#cellChanges(cells: readonly CellChange[]): Change[] {
		return cells.flatMap(({ row, field, after }) => {
			const before = this.cell(row, field);
			return sameCell(before, after) ? [] : [{ kind: 'setCell' as const, row, field, before, after }];
		});
	}

	/** Adds rows after the row `after` (at the top when null) and changes cells, as one edit. @returns the new ids. */
	addRows(
		title: string,
		after: string | null,
		cellsOfRows: readonly Cells[],
		alsoSet: readonly CellChange[] = []
	): string[] {
		let previous = after;
		const added = cellsOfRows.map((cells): Change => {
			const row = opaqueId();
			const change: Change = { kind: 'addRow', row, after: previous, cells: filledCells(cells) };
			previous = row;
			return change;
		});
		this.#make(title, [...this.#cellChanges(alsoSet), ...added]);
		return added.map((change) => change.row);
	}

	/** Removes a row; a mark takes the rows of its own openings with it. */
	removeRow(id: string): void {
		const row = this.#rows.get(id);
		if (!row) return;
		const mark = markText(row.cells);
		const alone = this.isOwnRow(id) || mark === '' || this.markRow(mark)?.id !== id;
		const going = new Set(
			this.order.filter((other) => {
				if (other === id) return true;
				const cells = this.#rows.get(other)?.cells;
				return !alone && cells !== undefined && markText(cells) === mark && typeof cells.openingNumber === 'number';
			})
		);
		const changes = [...this.order.entries()]
			.filter(([, other]) => going.has(other))
			.reverse()
			.map(([at, other]): Change => ({
				kind: 'removeRow',
				row: other,
				after: this.order[at - 1] ?? null,
				cells: this.#rows.get(other)?.cells ?? {}
			}));
		this.#make(`Delete ${this.nameOf(id)}`, changes);
	}

	/** Opening numbers of a mark that have no row of their own yet. */
	freeNumbers(mark: string): number[] {
		const head = this.markRow(mark);
		const quantity = head?.cells.quantity;
		const taken = new Set(
			this.order.map((id) => this.#rows.get(id)?.cells).flatMap((cells) =>
				cells && markText(cells) === mark && typeof cells.openingNumber === 'number' ? [cells.openingNumber] : []
			)
		);
		return Array.from({ length: typeof quantity === 'number' ? Math.min(quantity, 9999) : 1 }, (_, i) => i + 1).filter(
			(number) => !taken.has(number)
		);
	}

	/** The row in words: `C-101`, `C-101.3`, or its place where the mark is blank. */
	nameOf(id: string): string {
		const cells = this.#rows.get(id)?.cells ?? {};
		const mark = markText(cells);
		if (mark === '') return `row ${this.order.indexOf(id) + 1}`;
		return typeof cells.openingNumber === 'number' ? `${mark}.${cells.openingNumber}` : mark;
	}

	undo(): Promise<void> {
		return this.#step('undo');
	}

	redo(): Promise<void> {
		return this.#step('redo');
	}

	/** A whole edit made by the server (an import) arrives like any other result. */
	take(result: EditResult): void {
		this.outbox.revision = result.revision;
		this.#store(result);
	}

	// What became of the edits on their way.

	stored(_edit: Edit, result: EditResult): void {
		this.#store(result);
	}

	dropped(edit: Edit, why: string): void {
		this.#show();
		this.#notices.trouble(`${edit.title}: ${why}`);
	}

	settled(_edit: Edit, _by: Edit | null, conflicts: readonly Conflict[]): void {
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
		this.#show();
	}

	async #step(which: 'undo' | 'redo'): Promise<void> {
		await this.outbox.idle();
		const answer = await send<EditResult>('POST', `/api/jobs/${this.#job}/${which}`);
		if (answer.ok) this.take(answer.value);
		else this.#notices.trouble(answer.message);
	}

	#make(title: string, changes: readonly Change[]): void {
		if (changes.length === 0) return;
		const edit: Edit = { id: opaqueId(), title, changes: [...changes] };
		this.outbox.add(edit);
		this.undoTitle = title;
		this.redoTitle = null;
		this.#show();
	}

	#store(result: EditResult): void {
		const byId = new Map(this.#stored.map((row) => [row.id, row]));
		for (const row of result.rows) byId.set(row.id, { id: row.id, cells: row.cells, removed: false });
		for (const id of result.removed) byId.delete(id);
		const order = result.order ?? [...byId.keys()];
		this.#stored = order.flatMap((id) => byId.get(id) ?? []);
		this.undoTitle = this.outbox.waiting.at(-1)?.title ?? result.undo;
		this.redoTitle = this.outbox.waiting.length > 0 ? null : result.redo;
		this.#show();
		this.#compare(result.figures);
	}

	/** Keeps the server's figures where they differ from those worked out here from the same rows. */
	#compare(figures: Readonly<Record<string, Figures>>): void {
		const pending = new Set(this.outbox.waiting.flatMap((edit) => edit.changes.map((change) => change.row)));
		const differing = new Set<string>();
		for (const [id, theirs] of Object.entries(figures)) {
			const takeoff = this.#takeoffs.get(id);
			if (!takeoff || pending.has(id)) continue;
			const different = Object.entries(theirs).filter(([quantity, value]) => takeoff.get(quantity) !== value);
			if (different.length === 0) continue;
			this.#figures.set(id, Object.fromEntries(different));
			differing.add(id);
		}
		if (differing.size > 0) this.#tell(differing, false);
	}

	/** Shows the stored rows with the waiting edits on top, and works out the marks that changed. */
	#show(): void {
		let rows: readonly SheetRow[] = this.#stored;
		for (const edit of this.outbox.waiting) {
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
		const reordered =
			order.length !== this.order.length || order.some((id, at) => id !== this.order[at]);
		if (changed.size === 0 && !reordered) return;
		this.#rows = next;
		if (reordered) this.order = order;
		const concerned = order.flatMap((id) => {
			const row = next.get(id);
			const mark = row ? markText(row.cells) : '';
			return row && (mark === '' ? changed.has(id) : marks.has(mark)) ? [row] : [];
		});
		for (const opening of this.engine.takeoff(concerned, this.measures).openings) {
			this.#takeoffs.set(opening.row.id, opening);
			this.#figures.delete(opening.row.id);
			changed.add(opening.row.id);
		}
		if (this.selected === null || !next.has(this.selected)) this.selected = order[0] ?? null;
		this.#tell(changed, reordered);
	}

	#tell(rows: ReadonlySet<string>, order: boolean): void {
		this.version++;
		for (const listener of this.#listeners) listener({ rows, order });
	}
}

function sameCells(a: Cells, b: Cells): boolean {
	if (a === b) return true;
	const fields = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<InputId>;
	for (const field of fields) if (!sameCell(a[field], b[field])) return false;
	return true;
}

export const [useJobSheet, provideJobSheet] = createContext<JobSheet>();
