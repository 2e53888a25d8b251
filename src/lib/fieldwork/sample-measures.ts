/** Readings for the tests of this room, invented. Inches here, whole nm when read. */
import type { FieldReadings, PlumbReading } from './field-measure.ts';

export const inch = 25_400_000;

export const inches = (value: number): number => Math.round(value * inch);

/** Height, off in the wall, off out of the wall; in inches. */
export const plumb = (
	...readings: readonly (readonly [height: number, inPlane: number, outOfPlane: number])[]
): PlumbReading[] =>
	readings.map(([height, inPlane, outOfPlane]) => ({
		height: inches(height),
		inPlane: inches(inPlane),
		outOfPlane: inches(outOfPlane)
	}));

/** Nothing measured yet. */
export const nothing: FieldReadings = {
	widths: { bottom: null, middle: null, top: null },
	heights: { left: null, right: null },
	diagonals: { rising: null, falling: null },
	plumb: { left: [], right: [] },
	sillRise: null,
	headroom: null,
	leftSideRoom: null,
	rightSideRoom: null,
	leftSubstrate: null,
	rightSubstrate: null
};

/** A true opening of this size with walls as drawn and ample room. */
export function trueOpening(
	width: number,
	height: number,
	walls: { readonly left: string; readonly right: string }
): FieldReadings {
	const diagonal = inches(Math.hypot(width, height));
	const jamb = plumb([0, 0, 0], [height / 2, 0, 0], [height, 0, 0]);
	return {
		widths: { bottom: inches(width), middle: inches(width), top: inches(width) },
		heights: { left: inches(height), right: inches(height) },
		diagonals: { rising: diagonal, falling: diagonal },
		plumb: { left: jamb, right: jamb },
		sillRise: 0,
		headroom: inches(48),
		leftSideRoom: inches(24),
		rightSideRoom: inches(24),
		leftSubstrate: walls.left,
		rightSubstrate: walls.right
	};
}
