/**
 * The rows of a sheet and what is worked out from them: what the server has stored, with the edits still on their way
 * on top. One edit works out again only the rows of the marks it touches.
 */
import type { EditResult, Figures } from '../changes/answer.ts';
import { applyChanges, sameCell, type SheetRow } from '../changes/apply.ts';
import type { Conflict, Edit } from '../changes/message.ts';
import type { Engine } from '../takeoff/engine.ts';
import type { Cells, InputId, Measures, OpeningRow } from '../takeoff/inputs.ts';
import type { OpeningTakeoff, Severity } from '../takeoff/result.ts';
import { settleConflict } from './settle-conflict.ts';
import { StoredRows, type ToldRows } from './stored-rows.ts';

/** What changed on the sheet. */
export interface SheetChange {
	readonly rows: ReadonlySet<string>;
	readonly order: boolean;
}

/** Something about one row changed that is not in its cells. */
export const changeOf = (row: string): SheetChange => ({ rows: new Set([row]), order: false });

const markText = (cells: Cells): string => (typeof cells.mark === 'string' ? cells.mark : '');

/** `C-101`, `C-101.3`; nothing where the mark is blank. */
function nameOf(cells: Cells): string {
	const mark = markText(cells);
	return mark !== '' && typeof cells.openingNumber === 'number' ? `${mark}.${cells.openingNumber}` : mark;
}

export class WorkedRows {
	/** Row ids from the top. */
	order: readonly string[] = [];
	readonly #engine: Engine;
	readonly #measures: Measures;
	readonly #stored = new StoredRows();
	/** Rows stored otherwise since they were last shown; null where it may be any of them. */
	#changed: Set<string> | null = null;
	/** The edits that were on their way when rows were last shown. */
	#shown: readonly Edit[] = [];
	readonly #rows = new Map<string, OpeningRow>();
	readonly #places = new Map<string, number>();
	/** Ids of the rows of a mark and its openings. */
	readonly #marks = new Map<string, Set<string>>();
	readonly #takeoffs = new Map<string, OpeningTakeoff>();
	readonly #tally = { openings: 0, stop: 0, caution: 0, note: 0 };
	/** What rows that went were called, for what is said of them afterwards. */
	readonly #gone = new Map<string, string>();
	/** Figures of the server where they differ from those worked out here. */
	readonly #figures = new Map<string, ReadonlyMap<string, Figures[number]>>();

	constructor(engine: Engine, measures: Measures) {
		this.#engine = engine;
		this.#measures = measures;
	}

	row(id: string): OpeningRow | undefined {
		return this.#rows.get(id);
	}

	/** Place of a row from the top, from 0; -1 where it is not there. */
	placeOf(id: string): number {
		return this.#places.get(id) ?? -1;
	}

	/** Those of these rows that are there, each once, from the top. */
	inOrder(ids: readonly string[]): string[] {
		return [...new Set(ids)]
			.filter((id) => this.#places.has(id))
			.sort((a, b) => this.placeOf(a) - this.placeOf(b));
	}

	/** The row in words: `C-101`, `C-101.3`; its place where the mark is blank, its last name where it is gone. */
	nameOf(id: string): string {
		const row = this.#rows.get(id);
		if (!row) return this.#gone.get(id) ?? 'a row that is gone';
		return nameOf(row.cells) || `row ${this.placeOf(id) + 1}`;
	}

	takeoff(id: string): OpeningTakeoff | undefined {
		return this.#takeoffs.get(id);
	}

	/** Openings and checks of the whole job. */
	get tally(): Readonly<Record<'openings' | Severity, number>> {
		return { ...this.#tally };
	}

	/** A quantity of one opening, in base units; the server's figure where it differs. */
	figure(id: string, quantity: string): number | string | null {
		const kept = this.#figures.get(id);
		if (kept?.has(quantity)) return kept.get(quantity) ?? null;
		return this.#takeoffs.get(id)?.get(quantity) ?? null;
	}

	/** The row of a mark itself, not of one of its openings. */
	markRow(mark: string): OpeningRow | undefined {
		return this.#rowsOf(mark).find((row) => typeof row.cells.openingNumber !== 'number');
	}

	/** Rows of the openings of a mark that have one of their own. */
	ownRows(mark: string): OpeningRow[] {
		return this.#rowsOf(mark).filter((row) => typeof row.cells.openingNumber === 'number');
	}

	/** Rows of a mark and its openings, from the top. */
	#rowsOf(mark: string): OpeningRow[] {
		return this.inOrder([...(this.#marks.get(mark) ?? [])]).flatMap((id) => this.#rows.get(id) ?? []);
	}

	/** Everything that was done up to this revision was told. */
	get revision(): number {
		return this.#stored.revision;
	}

	/** Takes all rows as the server had them at a revision, or at a later one. */
	adopt(rows: readonly OpeningRow[], revision: number): void {
		this.#stored.adopt(rows, revision);
		this.#changed = null;
		this.#figures.clear();
	}

	/** Takes what the server stored of an edit. */
	store(told: ToldRows): void {
		this.#mark(this.#stored.take(told));
	}

	/** Takes all that was stored after one revision, up to another. @returns false where something before it is missing. */
	hear(news: ToldRows & { readonly after: number }): boolean {
		this.store(news);
		if (news.after > this.#stored.revision) return false;
		this.#stored.revision = Math.max(this.#stored.revision, news.revision);
		return true;
	}

	/** Takes the values of others that a conflict told of. */
	storeTheirs(conflicts: readonly Conflict[]): void {
		this.#mark(this.#stored.takeTheirs(conflicts));
	}

	#mark(changed: ReadonlySet<string> | null): void {
		if (changed === null) this.#changed = null;
		else for (const id of changed) this.#changed?.add(id);
	}

	/** Puts the waiting edits on top of the stored rows and works out what that changes. Null when it changes nothing. */
	show(waiting: readonly Edit[]): SheetChange | null {
		const only = this.#concernedBy(waiting);
		this.#changed = new Set();
		this.#shown = waiting;
		let rows: readonly SheetRow[] = only
			? [...only].flatMap((id) => this.#stored.row(id) ?? [])
			: this.#stored.all();
		for (const edit of waiting) {
			let applied = applyChanges(rows, edit.changes, { reinstate: false });
			// Others changed something of it meanwhile: until that is settled people see what they did themselves.
			if (!applied.ok && applied.conflicts)
				applied = applyChanges(rows, settleConflict(edit.changes, applied.conflicts, 'mine'), {
					reinstate: false
				});
			if (applied.ok) rows = applied.rows;
		}
		const marks = new Set<string>();
		const changed = new Set<string>();
		for (const { id, cells, removed } of rows) {
			const before = this.#rows.get(id);
			if (removed || (before && sameCells(before.cells, cells))) continue;
			if (before) marks.add(this.#leaveMark(before));
			this.#rows.set(id, { id, cells });
			marks.add(this.#joinMark(id, cells));
			changed.add(id);
		}
		const reordered = only === null && this.#arrange(rows, marks);
		if (changed.size === 0 && !reordered) return null;
		marks.delete('');
		const concerned = new Set([
			...changed,
			...[...marks].flatMap((mark) => [...(this.#marks.get(mark) ?? [])])
		]);
		const opened = [...concerned].sort((a, b) => this.placeOf(a) - this.placeOf(b));
		const { openings } = this.#engine.takeoff(
			opened.flatMap((id) => this.#rows.get(id) ?? []),
			this.#measures
		);
		for (const opening of openings) {
			const { id } = opening.row;
			this.#count(this.#takeoffs.get(id), -1);
			this.#count(opening, 1);
			this.#takeoffs.set(id, opening);
			this.#figures.delete(id);
			changed.add(id);
		}
		return { rows: changed, order: reordered };
	}

	/**
	 * Rows that may look different now: those that were stored otherwise, and those of the edits that are or were on their
	 * way. Null where rows come, go or move: then it may be all of them.
	 */
	#concernedBy(waiting: readonly Edit[]): ReadonlySet<string> | null {
		const ids = this.#changed && new Set(this.#changed);
		const edits = waiting === this.#shown ? waiting : [...this.#shown, ...waiting];
		for (const edit of edits)
			for (const change of edit.changes) {
				if (!ids || change.kind !== 'setCell') return null;
				ids.add(change.row);
			}
		return ids;
	}

	/** Takes the order of the rows; what is no longer among them goes. @returns whether it is another one. */
	#arrange(rows: readonly SheetRow[], marks: Set<string>): boolean {
		const order = rows.flatMap(({ id, removed }) => (removed ? [] : [id]));
		if (order.length === this.order.length && order.every((id, at) => id === this.order[at])) return false;
		this.order = order;
		this.#places.clear();
		for (const [at, id] of order.entries()) this.#places.set(id, at);
		for (const [id, row] of this.#rows) {
			if (this.#places.has(id)) continue;
			marks.add(this.#leaveMark(row));
			this.#count(this.#takeoffs.get(id), -1);
			this.#rows.delete(id);
			this.#gone.set(id, nameOf(row.cells));
			this.#takeoffs.delete(id);
			this.#figures.delete(id);
		}
		return true;
	}

	#joinMark(id: string, cells: Cells): string {
		const mark = markText(cells);
		const rows = this.#marks.get(mark);
		if (rows) rows.add(id);
		else this.#marks.set(mark, new Set([id]));
		return mark;
	}

	#leaveMark({ id, cells }: OpeningRow): string {
		const mark = markText(cells);
		this.#marks.get(mark)?.delete(id);
		return mark;
	}

	#count(takeoff: OpeningTakeoff | undefined, by: 1 | -1): void {
		if (!takeoff) return;
		this.#tally.openings += by * takeoff.quantity;
		for (const { severity } of takeoff.checks) this.#tally[severity] += by;
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
			// A server of another version may compute other quantities: then nothing is known of which is which.
			const { quantities } = this.#engine;
			if (theirs.length !== quantities.length) continue;
			const different = new Map<string, Figures[number]>();
			for (const [i, { id: quantity }] of quantities.entries()) {
				const value = theirs[i] ?? null;
				if (takeoff.get(quantity) !== value) different.set(quantity, value);
			}
			if (different.size === 0) continue;
			this.#figures.set(id, different);
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
