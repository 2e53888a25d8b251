/** A table from the clipboard, read for the cells it falls on. */
import type { Cell, InputId } from '../../takeoff/inputs.ts';
import { inputOf } from '../../takeoff/inputs.ts';
import type { CellChange } from '../job-sheet.svelte.ts';
import type { Reading } from './cell-editors.ts';
import type { RefusedCell } from './grid-hooks.ts';
import { readPlainTable } from './plain-table.ts';

export interface Paste {
	/** Cells of rows that are there. */
	readonly changes: readonly CellChange[];
	/** Rows below the last. */
	readonly added: readonly Partial<Record<InputId, Cell>>[];
	readonly refused: readonly RefusedCell[];
	/** Cells that were read. */
	readonly count: number;
}

/**
 * @param rows the rows from the focused one down
 * @param columns the inputs from the focused one to the right; what falls beside them is left out
 */
export function readPaste(
	text: string,
	rows: readonly string[],
	columns: readonly InputId[],
	read: (field: InputId, text: string) => Reading
): Paste {
	const changes: CellChange[] = [];
	const added: Partial<Record<InputId, Cell>>[] = [];
	const refused: RefusedCell[] = [];
	let count = 0;
	readPlainTable(text).forEach((cells, down) => {
		const row = rows[down];
		const fresh: Partial<Record<InputId, Cell>> = {};
		cells.forEach((typed, right) => {
			const field = columns[right];
			if (!field) return;
			const reading = read(field, typed);
			if (!reading.ok) {
				refused.push({ row: row ?? null, field, text: typed, reason: reading.reason });
				return;
			}
			count++;
			if (row === undefined) fresh[field] = reading.cell;
			else changes.push({ row, field, after: reading.cell });
		});
		if (row === undefined) added.push(fresh);
	});
	return { changes, added, refused, count };
}

/** `Paste 1 cell`, for the undo button. */
export const pasteTitle = (count: number): string => `Paste ${count} ${count === 1 ? 'cell' : 'cells'}`;

/** A refused cell in words: `Opening width of C-101`. */
export const refusedPlace = ({ row, field }: RefusedCell, nameOf: (row: string) => string): string =>
	`${inputOf(field).title} of ${row === null ? 'a new row' : nameOf(row)}`;
