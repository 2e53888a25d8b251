/** The sheet as its rows are filtered, sorted and kept together. */
import type { JobSheet } from '../job-sheet.svelte.ts';
import type { CellText } from './cell-text.ts';
import type { RowReader } from './row-view.ts';

/** Finds the row of the mark for a row that is one opening of it; null for every other row. */
export function ownersIn(sheet: JobSheet): (row: string) => string | null {
	const owners = new Map<string, string>();
	for (const row of sheet.order) {
		const mark = sheet.cell(row, 'mark');
		if (typeof mark === 'string' && !sheet.isOwnRow(row) && !owners.has(mark)) owners.set(mark, row);
	}
	return (row) => {
		const mark = sheet.cell(row, 'mark');
		return sheet.isOwnRow(row) && typeof mark === 'string' ? (owners.get(mark) ?? null) : null;
	};
}

/** @param columns ids of those shown. */
export function rowReader(text: CellText, columns: readonly string[]): RowReader {
	const { sheet } = text;
	const refused = new Set(sheet.refusedCells.map(({ row }) => row));
	return {
		order: sheet.order,
		columns,
		text: (row, column) => text.text(row, column),
		value: (row, column) => text.value(row, column),
		severities: (row) => new Set(sheet.checks(row).map(({ severity }) => severity)),
		hasRefused: (row) => refused.has(row),
		ownerOf: ownersIn(sheet)
	};
}
