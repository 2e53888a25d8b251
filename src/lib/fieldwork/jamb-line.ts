/** The line of a jamb between its plumb readings. */
import type { PlumbReading } from './field-measure.ts';

export type Plane = 'inPlane' | 'outOfPlane';

/** One reading of one plane, whole nm. */
export interface Knot {
	/** Above the finished sill. */
	readonly height: number;
	/** From plumb: in the plane of the wall plus is into the opening, out of it plus is towards the coil side. */
	readonly off: number;
}

/** The readings of a plane that were taken, from the sill up. Of two at one height the first counts. */
export function knotsOf(readings: readonly PlumbReading[], plane: Plane): Knot[] {
	const byHeight = new Map<number, Knot>();
	for (const reading of readings) {
		const off = reading[plane];
		if (off !== null && !byHeight.has(reading.height))
			byHeight.set(reading.height, { height: reading.height, off });
	}
	return [...byHeight.values()].toSorted((a, b) => a.height - b.height);
}

/**
 * How far the jamb is from plumb at a height: on the straight line between the two readings around it. Below the lowest
 * and above the highest reading that reading holds: a line drawn on would make a short error grow with the distance.
 *
 * @param height nm
 * @returns whole nm, halves upwards; null without readings. A constant added to all readings is added to the result, exactly.
 */
export function offAt(knots: readonly Knot[], height: number): number | null {
	const [first] = knots;
	if (!first) return null;
	let below = first;
	for (const above of knots) {
		if (above.height >= height) {
			if (above.height === below.height || height <= below.height) return below.off;
			const share = (height - below.height) / (above.height - below.height);
			return below.off + Math.round((above.off - below.off) * share);
		}
		below = above;
	}
	return below.off;
}

/** Heights at which the line of a jamb may turn between two heights, both included, from the lower up. */
export const turnsBetween = (knots: readonly Knot[], from: number, to: number): number[] => [
	from,
	...knots.map(({ height }) => height).filter((height) => height > from && height < to),
	to
];

/** The least and the most that a jamb is from plumb between two heights, whole nm; null without readings. */
export function rangeOf(
	knots: readonly Knot[],
	from: number,
	to: number
): { readonly least: number; readonly most: number } | null {
	const offs = turnsBetween(knots, from, to).flatMap((height) => offAt(knots, height) ?? []);
	return offs.length === 0 ? null : { least: Math.min(...offs), most: Math.max(...offs) };
}
