/** Columns over the openings before it is known where every name stands; then their places, then their cells. */
import type { Column } from './sheet-writing.ts';
import { columnLetter } from '../sheet.ts';
import type { Places, SheetName } from './places.ts';

export interface PlannedColumn {
	/** Name that formulas find the column by. */
	readonly name: string;
	readonly band: string;
	/** Id under the heading, where it is not the name. */
	readonly id?: string;
	readonly aside?: boolean;
	/** Asked for once every name has its place. */
	readonly column: () => Omit<Column, 'id' | 'band' | 'aside'>;
}

/** @param from column of the first one, from 0 */
export function placeColumns(
	places: Places,
	sheet: SheetName,
	planned: readonly PlannedColumn[],
	from = 0
): void {
	planned.forEach(({ name }, i) => places.put(name, sheet, columnLetter(from + i)));
}

export const finishColumns = (planned: readonly PlannedColumn[]): Column[] =>
	planned.map(({ name, band, id = name, aside = false, column }) => ({ ...column(), id, band, aside }));
