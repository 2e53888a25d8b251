/** What the cells of a selection come to. */
import type { SelectionSum } from './grid-hooks.ts';

interface SelectedCell {
	/** As it is shown. */
	readonly text: string;
	/** A figure in base units; null for words, keys and empty cells. */
	readonly value: number | null;
	/** What it is a figure of; only figures of one unit are added up. Null for what is no figure. */
	readonly unit: string | null;
}

/** @param rows rows that the selection touches. @param show writes a figure in base units with its unit. */
export function sumOf(
	cells: readonly SelectedCell[],
	rows: number,
	show: (value: number, unit: string) => string
): SelectionSum {
	let total = 0;
	const units = new Set<string>();
	for (const { value, unit } of cells) {
		if (value === null || unit === null) continue;
		total += value;
		units.add(unit);
	}
	const [unit] = units;
	return {
		cells: cells.length,
		filled: cells.filter(({ text }) => text.trim() !== '').length,
		rows,
		sum: unit !== undefined && units.size === 1 && Number.isFinite(total) ? show(total, unit) : null
	};
}
