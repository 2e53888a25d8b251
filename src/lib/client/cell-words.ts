/** What a cell is called and what stands in it, for sentences about it. */
import { showCell } from '../takeoff/cell.ts';
import { inputs, type Cell, type Measures } from '../takeoff/inputs.ts';

const inputNamed = (field: string) => inputs.find(({ id }) => id === field);

export const cellTitle = (field: string): string => inputNamed(field)?.title ?? field;

export function cellWords(field: string, cell: unknown, measures: Measures): string {
	const input = inputNamed(field);
	if (!input || cell === null || cell === undefined) return 'blank';
	return showCell(input, cell as Cell, measures);
}
