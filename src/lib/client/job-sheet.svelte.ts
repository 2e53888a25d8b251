/** The openings of a job as a person sees and changes them. Every change is an edit on its way to the server. */
import { createContext } from 'svelte';
import type { EditResult, UndoState } from '../changes/answer.ts';
import { filledCells, sameCell } from '../changes/apply.ts';
import type { Change, Conflict, Edit } from '../changes/message.ts';
import type { Engine } from '../takeoff/engine.ts';
import type { Cell, Cells, InputId, Measures, OpeningRow } from '../takeoff/inputs.ts';
import type { Check, OpeningTakeoff } from '../takeoff/result.ts';
import type { JobNews } from '../changes/live.ts';
import { send } from './call.ts';
import { cellTitle, cellWords } from './cell-words.ts';
import type { Notices } from './notices.svelte.ts';
import { opaqueId } from './opaque-id.ts';
import type { Outbox } from './outbox.svelte.ts';
import { RefusedEntries, type RefusedEntry } from './refused-entries.ts';
import { changeOf, WorkedRows, type SheetChange } from './worked-rows.ts';

/** One cell a person wants changed. */
export interface CellChange {
	readonly row: string;
	readonly field: InputId;
	readonly after: Cell;
}

export class JobSheet {
	readonly engine: Engine;
	readonly measures: Measures;
	readonly outbox: Outbox;
	undoTitle: string | null = $state(null);
	redoTitle: string | null = $state(null);
	/** Row whose drawing, results, checks and working are shown. */
	selected: string | null = $state(null);

	readonly #job: string;
	readonly #notices: Notices;
	readonly #rows: WorkedRows;
	readonly #refused = new RefusedEntries();
	/** Replaced at every change, so that what was read of the rows is read again. */
	#current: { readonly rows: WorkedRows; readonly refused: RefusedEntries };
	#listeners: readonly ((change: SheetChange) => void)[] = [];

	constructor(
		job: string,
		engine: Engine,
		measures: Measures,
		outbox: Outbox,
		notices: Notices,
		rows: readonly OpeningRow[],
		revision: number,
		undo: UndoState
	) {
		this.#job = job;
		this.engine = engine;
		this.measures = measures;
		this.outbox = outbox;
		this.#notices = notices;
		this.#rows = new WorkedRows(engine, measures);
		this.#current = $state.raw({ rows: this.#rows, refused: this.#refused });
		this.adopt(rows, revision, undo);
	}

	/** Takes rows as the server had them at a revision or a later one, with the edits still on their way on top. */
	adopt(rows: readonly OpeningRow[], revision: number, undo: UndoState): void {
		this.#rows.adopt(rows, revision);
		if (revision >= this.outbox.revision) this.#offer(undo);
		this.#show();
	}

	/** Everything that was done up to this revision is in it. */
	get revision(): number {
		return this.#rows.revision;
	}

	/** Takes what others did, and this person on other pages. @returns false where something before it is missing. */
	hear(news: JobNews): boolean {
		const complete = this.#rows.hear(news);
		this.#show();
		return complete;
	}

	/** Hears of every change of the rows. @returns what ends it. */
	listen(listener: (change: SheetChange) => void): () => void {
		this.#listeners = [...this.#listeners, listener];
		return () => {
			this.#listeners = this.#listeners.filter((other) => other !== listener);
		};
	}

	// Reading. Whatever reads here in a derived value or effect is done again when rows change.

	/** Row ids from the top. */
	get order(): readonly string[] {
		return this.#now.order;
	}

	/** The rows, read together with the count that says when to read them again. */
	get #now(): WorkedRows {
		return this.#current.rows;
	}

	row(id: string): OpeningRow | null {
		return this.#now.row(id) ?? null;
	}

	cell(id: string, field: InputId): Cell {
		return this.#now.row(id)?.cells[field] ?? null;
	}

	/** The mark's cell, for a row that is one opening of it and leaves the cell blank. */
	inherited(id: string, field: InputId): Cell {
		if (!this.isOwnRow(id) || this.cell(id, field) !== null) return null;
		return this.#now.takeoff(id)?.cell(field) ?? null;
	}

	/** True for a row that is one opening of a mark. */
	isOwnRow(id: string): boolean {
		return typeof this.cell(id, 'openingNumber') === 'number';
	}

	takeoff(id: string): OpeningTakeoff | null {
		return this.#now.takeoff(id) ?? null;
	}

	checks(id: string): readonly Check[] {
		return this.#now.takeoff(id)?.checks ?? [];
	}

	/** A quantity of one opening, in base units; the server's figure where it differs. */
	figure(id: string, quantity: string): number | string | null {
		return this.#now.figure(id, quantity);
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
		return this.#now.takeoff(id)?.quantity ?? 0;
	}

	/** Openings and checks of the whole job. */
	get tally(): WorkedRows['tally'] {
		return this.#now.tally;
	}

	/** Openings of the whole job. */
	get allOpenings(): number {
		return this.tally.openings;
	}

	/** The row in words: `C-101`, `C-101.3`, or its place where the mark is blank. */
	nameOf(id: string): string {
		return this.#now.nameOf(id);
	}

	/** Opening numbers of the mark of a row that have no row of their own yet; none for a row that is one itself. */
	freeNumbers(id: string): number[] {
		const mark = this.cell(id, 'mark');
		const quantity = this.cell(id, 'quantity');
		if (typeof mark !== 'string' || typeof quantity !== 'number' || this.isOwnRow(id)) return [];
		const taken = this.#now.ownRows(mark).map((row) => row.cells.openingNumber);
		return Array.from({ length: quantity }, (_, i) => i + 1).filter((number) => !taken.includes(number));
	}

	/** Where a new row of an opening of this mark goes: after the mark and its other openings. */
	endOf(id: string): string {
		const mark = this.cell(id, 'mark');
		return typeof mark === 'string' ? (this.#now.ownRows(mark).at(-1)?.id ?? id) : id;
	}

	// Entries that were not read.

	refusedEntry(id: string, field: InputId): RefusedEntry | null {
		return this.#current.refused.of(id, field);
	}

	get refusedCells(): readonly { readonly row: string; readonly field: InputId }[] {
		const { rows, refused } = this.#current;
		return refused.all((row) => rows.row(row) !== undefined);
	}

	refuse(id: string, field: InputId, entry: RefusedEntry): void {
		this.#refused.keep(id, field, entry);
		this.#tell(changeOf(id));
	}

	forgetRefused(id: string, field: InputId): void {
		if (this.#refused.forget(id, field)) this.#tell(changeOf(id));
	}

	// Changing.

	/** Changes cells as one edit. Cells that already hold the value are left out. */
	setCells(title: string, cells: readonly CellChange[]): void {
		this.#make(title, this.#cellChanges(cells));
		for (const { row, field } of cells) this.forgetRefused(row, field);
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

	/** Removes rows; a mark takes the rows of its own openings with it. @returns how many went. */
	removeRows(ids: readonly string[]): number {
		const { order } = this;
		const going = this.#rows.inOrder(
			ids.flatMap((id) => {
				const mark = this.cell(id, 'mark');
				const isMark = typeof mark === 'string' && this.#rows.markRow(mark)?.id === id;
				return isMark ? [id, ...this.#rows.ownRows(mark).map((row) => row.id)] : [id];
			})
		);
		// From below, so that each goes while the row above it still stands.
		const changes = going.reverse().map((row): Change => ({
			kind: 'removeRow',
			row,
			after: order[this.#rows.placeOf(row) - 1] ?? null,
			cells: this.#rows.row(row)?.cells ?? {}
		}));
		this.#make(`Delete ${this.#rowWords(ids)}`, changes);
		return changes.length;
	}

	/**
	 * Puts rows, in the order they stand in, right after the row `after` (at the top when null), which must not be one of
	 * them, as one edit.
	 */
	moveRows(ids: readonly string[], after: string | null): void {
		let previous = after;
		const changes = this.#rows.inOrder(ids).map((row): Change => {
			const change: Change = { kind: 'moveRow', row, after: previous };
			previous = row;
			return change;
		});
		this.#make(`Move ${this.#rowWords(ids)}`, changes);
	}

	/** `C-101`, `3 rows` */
	#rowWords(ids: readonly string[]): string {
		const [first] = ids;
		return ids.length === 1 && first !== undefined ? this.nameOf(first) : `${ids.length} rows`;
	}

	undo(): Promise<void> {
		return this.#step('undo');
	}

	redo(): Promise<void> {
		return this.#step('redo');
	}

	/** Takes a whole edit made by the server, such as an import. */
	take(result: EditResult): void {
		this.outbox.revision = Math.max(this.outbox.revision, result.revision);
		this.#store(result);
	}

	// What became of the edits on their way.

	stored(_edit: Edit, result: EditResult): void {
		this.#store(result);
	}

	tookUp(): void {
		this.#offer({ undo: this.undoTitle, redo: this.redoTitle });
		this.#show();
	}

	conflicting(conflicts: readonly Conflict[]): void {
		this.#rows.storeTheirs(conflicts);
		this.#show();
	}

	dropped(edit: Edit, why: string): void {
		this.#show();
		this.#notices.trouble(`${edit.title}: ${why}`);
	}

	settled(): void {
		this.#show();
	}

	async #step(which: 'undo' | 'redo'): Promise<void> {
		await this.outbox.idle();
		const answer = await send<EditResult>('POST', `/api/jobs/${this.#job}/${which}`, {}, this.outbox.person);
		if (answer.ok) this.take(answer.value);
		else if (Array.isArray(answer.body.conflicts) && answer.body.conflicts.length > 0)
			this.#notices.trouble(this.#notStepped(which, answer.body.conflicts as Conflict[]));
		else this.#notices.trouble(answer.message);
	}

	/** Why an edit of one's own can't be taken back: what others have put there since. */
	#notStepped(which: 'undo' | 'redo', conflicts: readonly Conflict[]): string {
		const [first] = conflicts;
		if (!first) return '';
		const title = which === 'undo' ? this.undoTitle : this.redoTitle;
		const what = title === null ? '' : ` of “${title}”`;
		const cell = `${cellTitle(first.field)} of ${this.nameOf(first.row)}`;
		const now = first.gone
			? 'its row was removed'
			: `it is ${cellWords(first.field, first.theirs, this.measures)} now`;
		const more = conflicts.length === 1 ? '' : ` So are ${conflicts.length - 1} more cells.`;
		return `${which === 'undo' ? 'Undo' : 'Redo'}${what} is not done. ${cell} was changed since: ${now}, by ${first.by?.name ?? 'someone else'}.${more} Nothing was changed.`;
	}

	#make(title: string, changes: Change[]): void {
		if (changes.length === 0) return;
		this.outbox.add({ id: opaqueId(), title, changes });
		this.#offer({ undo: title, redo: null });
		this.#show();
	}

	#store(result: EditResult): void {
		this.#rows.store(result);
		if (result.revision >= this.outbox.revision) this.#offer(result);
		this.#show();
		// Figures of rows that were changed again since say nothing of those that stand here.
		if (result.revision < this.#rows.revision) return;
		const differing = this.#rows.keepDiffering(result.figures, this.outbox.waiting);
		if (differing.size > 0) this.#tell({ rows: differing, order: false });
	}

	/** What the next undo and redo do: an edit on its way comes first. */
	#offer({ undo, redo }: UndoState): void {
		const last = this.outbox.waiting.at(-1);
		this.undoTitle = last?.title ?? undo;
		this.redoTitle = last ? null : redo;
	}

	#show(): void {
		const change = this.#rows.show(this.outbox.waiting);
		if (this.selected === null || this.#rows.placeOf(this.selected) < 0)
			this.selected = this.#rows.order[0] ?? null;
		if (change) this.#tell(change);
	}

	#tell(change: SheetChange): void {
		this.#current = { rows: this.#rows, refused: this.#refused };
		for (const listener of this.#listeners) listener(change);
	}
}

export const [useJobSheet, provideJobSheet] = createContext<JobSheet>();
