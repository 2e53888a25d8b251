/** No two rows of a job stand for the same opening: which changes would make it so. The server refuses them too. */
import type { Cell, Cells, InputId, OpeningRow } from '../../takeoff/inputs.ts';
import type { CellChange } from '../job-sheet.svelte.ts';

/** `mark C-101`, or `opening C-101.3`; null without a mark. */
function openingOf({ mark, openingNumber }: Cells): string | null {
	if (typeof mark !== 'string' || mark === '') return null;
	return typeof openingNumber === 'number' ? `${mark}.${openingNumber}` : mark;
}

/** Marks and openings of marks are told apart: `A.1` may be a mark. */
const keyOf = (cells: Cells): string | null => {
	const opening = openingOf(cells);
	return opening === null ? null : `${typeof cells.openingNumber} ${opening}`;
};

export interface Untaken {
	readonly changes: readonly CellChange[];
	readonly added: readonly Cells[];
	readonly refused: readonly TakenCell[];
}

/** A cell left out. */
interface TakenCell {
	/** Null for a row to be added: then `added` says which of them. */
	readonly row: string | null;
	readonly added: number | null;
	readonly field: InputId;
	readonly cell: Cell;
	readonly reason: string;
}

const names = (field: InputId): field is 'mark' | 'openingNumber' =>
	field === 'mark' || field === 'openingNumber';

/**
 * Leaves out what would give a row the mark and number of another one. What stands goes before what comes, and what
 * comes first before what comes later.
 */
export function leaveOutTaken(
	rows: readonly OpeningRow[],
	changes: readonly CellChange[],
	added: readonly Cells[]
): Untaken {
	const naming = new Map<string, Partial<Record<InputId, Cell>>>();
	for (const { row, field, after } of changes)
		if (names(field)) naming.set(row, { ...naming.get(row), [field]: after });
	if (naming.size === 0 && !added.some((cells) => cells.mark)) return { changes, added, refused: [] };

	const holders = new Map<string, string | null>();
	for (const { id, cells } of rows) {
		const key = naming.has(id) ? null : keyOf(cells);
		if (key !== null) holders.set(key, null);
	}
	const byId = new Map(rows.map((row) => [row.id, row.cells]));
	const kept = new Set<string>();
	/** A row keeps its mark: whoever was given it keeps theirs, too. */
	const keep = (id: string): void => {
		for (let row: string | null = id; row !== null;) {
			kept.add(row);
			const key: string | null = keyOf(byId.get(row) ?? {});
			if (key === null) return;
			const other: string | null = holders.get(key) ?? null;
			holders.set(key, null);
			row = other !== null && !kept.has(other) ? other : null;
		}
	};
	for (const [id, cells] of naming) {
		const key = keyOf({ ...byId.get(id), ...cells });
		if (key === null) continue;
		if (holders.has(key)) keep(id);
		else holders.set(key, id);
	}
	const reason = (cells: Cells): string =>
		`${openingOf(cells) ?? ''} stands in another row already; write another mark, or number the opening`;
	const refused: TakenCell[] = [];
	const passed = changes.filter(({ row, field, after }) => {
		if (!names(field) || !kept.has(row)) return true;
		const cells = { ...byId.get(row), ...naming.get(row) };
		refused.push({ row, added: null, field, cell: after, reason: reason(cells) });
		return false;
	});
	const fresh = added.map((cells, at) => {
		const key = keyOf(cells);
		if (key === null) return cells;
		if (!holders.has(key)) {
			holders.set(key, null);
			return cells;
		}
		refused.push({ row: null, added: at, field: 'mark', cell: cells.mark ?? null, reason: reason(cells) });
		return { ...cells, mark: null };
	});
	return { changes: passed, added: fresh, refused };
}
