/** What a measure changes in the row of an opening: only what is beyond tolerance. */
import { exactLength } from '../quantity/length.ts';
import { inputIds, type Cell, type Cells, type InputId, type Measures } from '../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import type { FieldReadings } from './field-measure.ts';
import type { GoverningSizes, Side } from './governing.ts';
import { sides } from './governing.ts';
import type { Tolerances } from './tolerances.ts';

/** Sizes the takeoff is run with again, whole nm; null where neither drawing nor measure has them. */
export interface TakenSizes {
	readonly width: number | null;
	readonly height: Readonly<Record<Side, number | null>>;
}

/** A length of the takeoff as whole nm; null where it is not known. */
export function lengthOf(opening: OpeningTakeoff, id: string): number | null {
	const value = opening.get(id);
	return typeof value === 'number' ? Math.round(value) : null;
}

/** The drawn size where the measured one is within tolerance of it or was not measured, else the measured one. */
const taken = (measured: number | null, drawn: number | null, tolerance: number): number | null =>
	measured === null || (drawn !== null && Math.abs(measured - drawn) <= tolerance) ? drawn : measured;

export function takenSizes(
	opening: OpeningTakeoff,
	governing: GoverningSizes,
	tolerances: Tolerances
): TakenSizes {
	const drawnHeight = lengthOf(opening, 'openingHeight');
	return {
		width: taken(governing.width, lengthOf(opening, 'openingWidth'), tolerances.width),
		height: {
			left: taken(governing.heightLeft, drawnHeight, tolerances.height),
			right: taken(governing.heightRight, drawnHeight, tolerances.height)
		}
	};
}

/** The greater height, which the curtain needs; null where neither is known. */
export function tallest({ height }: TakenSizes): number | null {
	const known = sides.flatMap((side) => height[side] ?? []);
	return known.length === 0 ? null : Math.max(...known);
}

export const measuredCell = (nm: number, measures: Measures): Cell => ({
	amount: nm,
	unit: 'nm',
	typed: exactLength(nm, measures === 'metric' ? 'mm' : 'in')
});

/**
 * Cells of the row that the measure changes, in the left and right of the row: a drawing seen from the far side has the
 * coil side’s left at its right. A wall that is another one loses the strength and thickness typed for the drawn one.
 */
export function changedCells(
	opening: OpeningTakeoff,
	readings: FieldReadings,
	sizes: TakenSizes,
	measures: Measures
): Cells {
	const cells: Partial<Record<InputId, Cell>> = {};
	const put = (id: InputId, nm: number | null): void => {
		if (nm !== null && nm !== lengthOf(opening, id)) cells[id] = measuredCell(nm, measures);
	};
	put('openingWidth', sizes.width);
	put('openingHeight', tallest(sizes));
	put('headroom', readings.headroom);
	const turned = opening.cell('drawnFrom') === 'farSide';
	for (const side of sides) {
		const inRow = turned === (side === 'left') ? 'right' : 'left';
		put(`${inRow}SideRoom`, readings[`${side}SideRoom`]);
		const wall = readings[`${side}Substrate`];
		if (wall !== null && wall !== opening.cell(`${inRow}Substrate`)) {
			cells[`${inRow}Substrate`] = wall;
			for (const id of [`${inRow}WallStrength`, `${inRow}WallThickness`] as const)
				if (opening.cell(id) !== null) cells[id] = null;
		}
	}
	return cells;
}

/** The cells of one opening, with what it takes from its mark, and the changes put in. */
export function cellsOf(opening: OpeningTakeoff, changes: Cells): Cells {
	const cells: Partial<Record<InputId, Cell>> = {};
	for (const id of inputIds) {
		const change = changes[id];
		const cell = change === undefined ? opening.cell(id) : change;
		if (cell !== null) cells[id] = cell;
	}
	delete cells.openingNumber;
	return { ...cells, quantity: 1 };
}
