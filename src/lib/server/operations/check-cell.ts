/** Whether a cell that arrives is what a person could have typed there. */
import { sameCell } from '../../changes/apply.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import { readCell } from '../../takeoff/cell.ts';
import { inputOf, type Cell, type InputId, type Measures } from '../../takeoff/inputs.ts';
import { keysFor } from '../../takeoff/keys.ts';

const bothMeasures: readonly Measures[] = ['imperial', 'metric'];

/**
 * Reads again what was typed, by the same rule as the browser, and compares what was understood. Both measures are
 * tried, because a job may have changed its measures since.
 * @returns why it can't stand, or null.
 */
export function cellProblem(book: TechnicalBook, field: InputId, cell: Cell): string | null {
	if (cell === null || cell === '') return null;
	const input = inputOf(field);
	const keys = keysFor(book, input);
	const typed = typeof cell === 'object' ? cell.typed : String(cell);
	let reason = `${input.title}: what was typed and what was understood do not agree.`;
	for (const measures of bothMeasures) {
		const read = readCell(input, typed, { measures, keys });
		if (!read.ok) reason = `${input.title}: ${read.reason}`;
		else if (sameCell(read.cell, cell)) return null;
	}
	return reason;
}
