/** Applies the changes of an edit to rows: the same code in the browser, for sight, and on the server, for good. */
import type { Cell, Cells, InputId } from '../takeoff/inputs.ts';
import type { Change, Conflict } from './message.ts';

/** A row, or the place of a removed one (kept so that an edit made beside it still finds its place). */
export interface SheetRow {
	readonly id: string;
	readonly cells: Cells;
	readonly removed: boolean;
}

export interface Applied {
	readonly ok: true;
	/** All rows in order, removed ones included. */
	readonly rows: readonly SheetRow[];
	/** Ids of rows changed or added that are still there. */
	readonly touched: readonly string[];
	/** Ids of rows that went. */
	readonly removed: readonly string[];
	/** Ids of rows that were given another place. */
	readonly moved: readonly string[];
	/** Rows were added, removed or moved. */
	readonly reordered: boolean;
	/** Undoes all of it, in this order. */
	readonly inverse: readonly Change[];
}

export type NotApplied =
	| { readonly ok: false; readonly conflicts: readonly Conflict[] }
	| { readonly ok: false; readonly conflicts: null; readonly message: string; readonly row: string };

/** Two cells hold the same: text and numbers by value, measured ones by amount, unit and what was typed. */
export function sameCell(a: Cell | undefined, b: Cell | undefined): boolean {
	const [x, y] = [a ?? null, b ?? null];
	if (x === null || y === null || typeof x !== 'object' || typeof y !== 'object') return x === y;
	return x.amount === y.amount && x.unit === y.unit && x.typed === y.typed;
}

/** The cells that hold something; empty ones are left out. */
export function filledCells(cells: Cells): Cells {
	return Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== null && cell !== ''));
}

function withCell(cells: Cells, field: InputId, cell: Cell): Cells {
	return filledCells({ ...cells, [field]: cell });
}

function differences(row: string, yours: Cells, theirs: Cells): Conflict[] {
	const fields = [...new Set([...Object.keys(yours), ...Object.keys(theirs)])] as InputId[];
	return fields
		.filter((field) => !sameCell(yours[field], theirs[field]))
		.map((field) => ({ row, field, yours: yours[field] ?? null, theirs: theirs[field] ?? null }));
}

interface Link {
	row: SheetRow;
	before: Link | null;
	next: Link | null;
}

/**
 * Applies changes one after the other, or none of them.
 *
 * A cell is in conflict when what stands there is not the value the change replaces; a removal when any cell of the
 * row is; a cell also when its row has gone. Removing or moving a row that has gone changes nothing. A new or moved row goes
 * right after its neighbour, even where that one was removed meanwhile.
 *
 * @param rows all rows in order when `changes` add, remove or move rows; else at least those whose cells change.
 * @param reinstate for undo and redo: a row that was removed may come back under its id.
 */
export function applyChanges(
	rows: readonly SheetRow[],
	changes: readonly Change[],
	{ reinstate }: { readonly reinstate: boolean }
): Applied | NotApplied {
	const links = new Map<string, Link>();
	let head: Link | null = null;
	let tail: Link | null = null;
	for (const row of rows) {
		const link: Link = { row, before: tail, next: null };
		if (tail) tail.next = link;
		else head = link;
		tail = link;
		links.set(row.id, link);
	}

	const conflicts: Conflict[] = [];
	const inverse: Change[] = [];
	const touched = new Set<string>();
	const removed = new Set<string>();
	const moved = new Set<string>();
	let reordered = false;
	const insertAfter = (link: Link, before: Link | null): void => {
		const next: Link | null = before ? before.next : head;
		link.before = before;
		link.next = next;
		if (before) before.next = link;
		else head = link;
		if (next) next.before = link;
	};
	/** @returns whether it stands in another place now. */
	const putAfter = (link: Link, before: Link | null): boolean => {
		if (before === link || before === link.before) return false;
		if (link.before) link.before.next = link.next;
		else head = link.next;
		if (link.next) link.next.before = link.before;
		insertAfter(link, before);
		moved.add(link.row.id);
		return true;
	};
	const liveBefore = (link: Link): string | null => {
		let before = link.before;
		while (before?.row.removed) before = before.before;
		return before?.row.id ?? null;
	};
	const unknown = (row: string): NotApplied => ({
		ok: false,
		conflicts: null,
		message: 'This job has no such row.',
		row
	});

	for (const change of changes) {
		const link = links.get(change.row);
		switch (change.kind) {
			case 'setCell': {
				if (!link) return unknown(change.row);
				const stored = link.row.cells[change.field] ?? null;
				const before = change.before === '' ? null : change.before;
				if (link.row.removed || !sameCell(stored, before)) {
					const theirs = link.row.removed ? null : stored;
					conflicts.push({
						row: change.row,
						field: change.field,
						yours: change.after,
						theirs,
						...(link.row.removed ? { gone: true } : {})
					});
					break;
				}
				link.row = { ...link.row, cells: withCell(link.row.cells, change.field, change.after) };
				touched.add(change.row);
				const after = link.row.cells[change.field] ?? null;
				inverse.push({ ...change, before: after, after: stored });
				break;
			}
			case 'addRow': {
				const cells = filledCells(change.cells);
				if (link && !(reinstate && link.row.removed)) {
					return {
						ok: false,
						conflicts: null,
						message: 'A row with this id is there already.',
						row: change.row
					};
				}
				const before = change.after === null ? null : links.get(change.after);
				if (before === undefined) return unknown(change.after ?? change.row);
				if (link) {
					link.row = { id: change.row, cells, removed: false };
					putAfter(link, before);
				} else {
					const added: Link = { row: { id: change.row, cells, removed: false }, before: null, next: null };
					links.set(change.row, added);
					insertAfter(added, before);
				}
				touched.add(change.row);
				removed.delete(change.row);
				reordered = true;
				const place = links.get(change.row);
				inverse.push({ kind: 'removeRow', row: change.row, after: place ? liveBefore(place) : null, cells });
				break;
			}
			case 'removeRow': {
				if (!link) return unknown(change.row);
				if (link.row.removed) break;
				const other = differences(change.row, filledCells(change.cells), link.row.cells);
				if (other.length > 0) {
					conflicts.push(...other);
					break;
				}
				inverse.push({ kind: 'addRow', row: change.row, after: liveBefore(link), cells: link.row.cells });
				link.row = { id: change.row, cells: {}, removed: true };
				touched.delete(change.row);
				removed.add(change.row);
				reordered = true;
				break;
			}
			case 'moveRow': {
				if (!link) return unknown(change.row);
				const before = change.after === null ? null : links.get(change.after);
				if (before === undefined) return unknown(change.after ?? change.row);
				if (link.row.removed) break;
				const stood = liveBefore(link);
				if (!putAfter(link, before)) break;
				inverse.push({ kind: 'moveRow', row: change.row, after: stood });
				reordered = true;
				break;
			}
		}
	}
	if (conflicts.length > 0) return { ok: false, conflicts };

	const ordered: SheetRow[] = [];
	for (let link: Link | null = head; link; link = link.next) ordered.push(link.row);
	return {
		ok: true,
		rows: ordered,
		touched: [...touched],
		removed: [...removed],
		moved: [...moved],
		reordered,
		inverse: inverse.reverse()
	};
}
