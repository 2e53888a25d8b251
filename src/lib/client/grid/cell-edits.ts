/** Cells changed as one edit: what goes in, and what is refused and stays in its cell until it is typed again. */
import { typedText } from '../../takeoff/cell.ts';
import { inputOf, isInputId, type Cells, type InputId } from '../../takeoff/inputs.ts';
import type { CellChange } from '../job-sheet.svelte.ts';
import type { CellText } from './cell-text.ts';
import { checksId } from './column-layout.ts';
import type { GridHooks, RefusedCell } from './grid-hooks.ts';
import type { Extent } from './range.ts';
import type { Selection } from './selection.ts';
import { leaveOutTaken } from './taken-marks.ts';

export interface EditHost {
	readonly hooks: GridHooks;
	readonly text: CellText;
	readonly selection: Selection;
}

interface ReadCells {
	readonly changes: readonly CellChange[];
	readonly refused: readonly RefusedCell[];
}

/**
 * Columns that cells are copied from, pasted on and filled across: the count of checks, which stands between the mark
 * and what is typed, is passed over, unless it is what one begins with.
 */
export const exchanged = (columns: readonly string[]): string[] =>
	columns.filter((id, at) => at === 0 || id !== checksId);

export const cellsWord = (count: number): string => `${count} ${count === 1 ? 'cell' : 'cells'}`;

export class CellEdits {
	readonly #host: EditHost;

	constructor(host: EditHost) {
		this.#host = host;
	}

	get #sheet(): GridHooks['sheet'] {
		return this.#host.hooks.sheet;
	}

	/** Input cells of an extent, row by row. */
	inputsIn(extent: Extent): { row: string; field: InputId }[] {
		const { rows, columns } = this.#host.selection.area;
		const fields = columns.ids.slice(extent.left, extent.right + 1).filter(isInputId);
		return rows.ids
			.slice(extent.top, extent.bottom + 1)
			.flatMap((row) => fields.map((field) => ({ row, field })));
	}

	/** What the edit is called: `Fill Opening width of C-101`, `Fill 12 cells`. */
	titleOf(what: string, cells: readonly { row: string; field: InputId }[]): string {
		const [only] = cells;
		return cells.length === 1 && only
			? `${what} ${inputOf(only.field).title} of ${this.#sheet.nameOf(only.row)}`
			: `${what} ${cellsWord(cells.length)}`;
	}

	/** Reads texts, each by the column it goes into. */
	read(entries: readonly { row: string; field: InputId; text: string }[]): ReadCells {
		const changes: CellChange[] = [];
		const refused: RefusedCell[] = [];
		for (const { row, field, text } of entries) {
			const reading = this.#host.text.readField(field, text);
			if (reading.ok) changes.push({ row, field, after: reading.cell });
			else refused.push({ row, field, text, reason: reading.reason });
		}
		return { changes, refused };
	}

	/**
	 * Changes cells and adds rows at the end, as one edit, without what would give two rows one mark. What is refused
	 * stays in its cell until it is typed again.
	 * @returns the cells that did not go in.
	 */
	put(
		title: string,
		changes: readonly CellChange[],
		added: readonly Cells[] = [],
		alreadyRefused: readonly (RefusedCell & { readonly added?: number | null })[] = []
	): RefusedCell[] {
		const sheet = this.#sheet;
		const rows = sheet.order.flatMap((id) => sheet.row(id) ?? []);
		const fit = leaveOutTaken(rows, changes, added);
		const ids =
			fit.added.length > 0
				? sheet.addRows(title, sheet.order.at(-1) ?? null, fit.added, fit.changes)
				: (sheet.setCells(title, fit.changes), []);
		const refused = [
			...alreadyRefused.map(({ row, field, text, reason, added: at = null }) => ({
				row: row ?? (at === null ? null : (ids[at] ?? null)),
				field,
				text,
				reason
			})),
			...fit.refused.map(({ row, added: at, field, cell, reason }) => ({
				row: row ?? (at === null ? null : (ids[at] ?? null)),
				field,
				text: typedText(cell),
				reason
			}))
		];
		for (const { row, field, text, reason } of refused)
			if (row !== null) sheet.refuse(row, field, { text, reason });
		return refused;
	}

	/** The same where only what was refused is worth a word. */
	fill(title: string, changes: readonly CellChange[], alreadyRefused: readonly RefusedCell[] = []): void {
		const refused = this.put(title, changes, [], alreadyRefused);
		if (refused.length > 0)
			this.#host.hooks.tookCells(changes.length + alreadyRefused.length - refused.length, refused);
	}
}
