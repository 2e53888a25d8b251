/** Cells from the clipboard, read for the cells they fall on. */
import type { Cells, InputId } from '../../takeoff/inputs.ts';
import { inputOf } from '../../takeoff/inputs.ts';
import type { CellChange } from '../job-sheet.svelte.ts';
import type { Reading } from './cell-editors.ts';
import type { RefusedCell } from './grid-hooks.ts';

/** Where a paste falls. */
export interface PasteTarget {
	/** The rows shown, from the top one of the selection down. */
	readonly rows: readonly string[];
	/** The columns shown, from the left one of the selection on; a hidden one is left alone. */
	readonly columns: readonly ({ readonly field: InputId } | { readonly result: string })[];
	readonly selectedRows: number;
	readonly selectedColumns: number;
	/** Whether rows that are missing below may be added: not while rows are filtered or sorted. */
	readonly mayAddRows: boolean;
}

/** A cell that was not read, with the row it falls on. */
interface PasteRefusal extends RefusedCell {
	/** For a row to be added, which of them. */
	readonly added: number | null;
}

export interface Paste {
	/** Cells of rows that are there. */
	readonly changes: readonly CellChange[];
	/** Rows below the last. */
	readonly added: readonly Cells[];
	readonly refused: readonly PasteRefusal[];
	/** Cells that were read. */
	readonly count: number;
	/** Filled cells that fell on worked-out columns, and were left out. */
	readonly onResults: number;
	/** Filled cells beyond the last column, or in rows that could not be added. */
	readonly beyond: number;
}

/**
 * Lays the cells over the selection, from its upper left on. They are repeated where the selection is so many times as
 * high and as wide (one cell fills all of it). What cannot be read is listed while the rest goes in; a row that is
 * shorter than others changes nothing to its right. Blank rows at the end add none.
 */
export function readPaste(
	cells: readonly (readonly string[])[],
	{ rows, columns, selectedRows, selectedColumns, mayAddRows }: PasteTarget,
	read: (field: InputId, text: string) => Reading
): Paste {
	const height = cells.length;
	const width = cells.reduce((most, line) => Math.max(most, line.length), 0);
	const repeats = fits(selectedRows, height) && fits(selectedColumns, width);
	const down = repeats ? Math.max(height, selectedRows) : height;
	const across = repeats ? Math.max(width, selectedColumns) : width;

	const changes: CellChange[] = [];
	const added: Partial<Record<InputId, CellChange['after']>>[] = [];
	const refused: PasteRefusal[] = [];
	let [count, onResults, beyond] = [0, 0, 0];
	/** Added rows up to the last one that brings something. */
	let lasting = 0;

	for (let y = 0; y < down; y++) {
		const line = cells[y % height] ?? [];
		const row = rows[y];
		const isNew = row === undefined && mayAddRows;
		const fresh: Partial<Record<InputId, CellChange['after']>> = {};
		if (isNew) added.push(fresh);
		for (let x = 0; x < across; x++) {
			const text = line[x % width];
			if (text === undefined) continue;
			const isFilled = text.trim() !== '';
			const column = columns[x];
			if (column === undefined || (row === undefined && !isNew)) {
				if (isFilled) beyond++;
				continue;
			}
			if (!('field' in column)) {
				if (isFilled) onResults++;
				continue;
			}
			const { field } = column;
			if (isNew && isFilled) lasting = added.length;
			const reading = read(field, text);
			if (!reading.ok) {
				const place = { row: row ?? null, added: isNew ? added.length - 1 : null };
				refused.push({ ...place, field, text, reason: reading.reason });
				continue;
			}
			if (row !== undefined) changes.push({ row, field, after: reading.cell });
			else if (isFilled) fresh[field] = reading.cell;
			if (row !== undefined || isFilled) count++;
		}
	}
	return { changes, added: added.slice(0, lasting), refused, count, onResults, beyond };
}

/** One row or column takes a block as it is; more of them must be so many times the block. */
const fits = (selected: number, size: number): boolean =>
	selected <= 1 || (size > 0 && selected % size === 0);

/** `Paste 1 cell`, for the undo button. */
export const pasteTitle = (count: number): string => `Paste ${count} ${count === 1 ? 'cell' : 'cells'}`;

/** A refused cell in words: `Opening width of C-101`. */
export const refusedPlace = ({ row, field }: RefusedCell, nameOf: (row: string) => string): string =>
	`${inputOf(field).title} of ${row === null ? 'a new row' : nameOf(row)}`;
