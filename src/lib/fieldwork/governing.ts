/** The sizes a measured opening is built to. */
import type { FieldReadings } from './field-measure.ts';
import { knotsOf, offAt, rangeOf } from './jamb-line.ts';

export type Side = 'left' | 'right';
export const sides: readonly Side[] = ['left', 'right'];

/** Where each guide stands. */
export type Mountings = Readonly<Record<Side, 'faceOfWall' | 'betweenJambs'>>;

export interface GoverningSizes {
	/** Jamb to jamb for a pair of plumb guides, whole nm, over the widths that were measured; null where none was. */
	readonly width: number | null;
	/** All three widths were measured. */
	readonly widthComplete: boolean;
	/**
	 * Which of the widths governs. Between jambs the least: the guides have to go in. On the face of the wall the
	 * greatest: the takeoff’s mouth stands behind the jamb by the setback, and it has to do so all the way up.
	 */
	readonly which: 'least' | 'greatest';
	/** The plain least or greatest of the widths, without what the jambs lean. */
	readonly widthAsRead: number | null;
	readonly heightLeft: number | null;
	readonly heightRight: number | null;
	/** The greater of both, for the curtain; null while one is not measured. */
	readonly height: number | null;
}

/**
 * The governing width from the widths and the plumb of the jambs.
 *
 * A guide stands plumb: between jambs on the point of its jamb that is furthest into the opening, on the face of the wall
 * behind the point that is furthest out of it. So of each width, taken at the sill, at half height and at the head, the
 * lean of both jambs at that height is made good, and the lean at their governing points is taken off. Where jambs are
 * plumb, or their lean was not read, the least (or greatest) of the widths is left. With one guide either way the
 * opening is taken as the narrower.
 *
 * @param height greater of the measured heights, else the drawn one; null leaves the lean out
 */
function governingWidth(
	readings: FieldReadings,
	mountings: Mountings,
	height: number | null
): { governing: number | null; asRead: number | null } {
	const { bottom, middle, top } = readings.widths;
	const between = sides.some((side) => mountings[side] === 'betweenJambs');
	const pick = between ? Math.min : Math.max;
	const widths = [
		{ share: 0, width: bottom },
		{ share: 0.5, width: middle },
		{ share: 1, width: top }
	].flatMap(({ share, width }) => (width === null ? [] : [{ share, width }]));
	if (widths.length === 0) return { governing: null, asRead: null };
	const asRead = pick(...widths.map(({ width }) => width));
	if (height === null) return { governing: asRead, asRead };
	const jambs = sides.map((side) => {
		const knots = knotsOf(readings.plumb[side], 'inPlane');
		const range = rangeOf(knots, 0, height);
		const governs = mountings[side] === 'betweenJambs' ? range?.most : range?.least;
		return { knots, governs: governs ?? 0 };
	});
	const plumbWidths = widths.map(({ share, width }) =>
		jambs.reduce((sum, { knots, governs }) => sum + (offAt(knots, share * height) ?? 0) - governs, width)
	);
	return { governing: pick(...plumbWidths), asRead };
}

/** @param drawnHeight of the takeoff, nm; null where it is not known */
export function governingSizes(
	readings: FieldReadings,
	mountings: Mountings,
	drawnHeight: number | null
): GoverningSizes {
	const { left, right } = readings.heights;
	const heights = [left, right].flatMap((height) => height ?? []);
	const { governing, asRead } = governingWidth(
		readings,
		mountings,
		heights.length > 0 ? Math.max(...heights) : drawnHeight
	);
	const { bottom, middle, top } = readings.widths;
	return {
		width: governing,
		widthComplete: bottom !== null && middle !== null && top !== null,
		which: sides.some((side) => mountings[side] === 'betweenJambs') ? 'least' : 'greatest',
		widthAsRead: asRead,
		heightLeft: left,
		heightRight: right,
		height: left === null || right === null ? null : Math.max(left, right)
	};
}
