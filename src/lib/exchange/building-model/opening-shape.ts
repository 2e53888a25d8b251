/**
 * Width and height of an opening from its shape, where that is one rectangle pushed through the wall
 * (IfcExtrudedAreaSolid over IfcRectangleProfileDef). Placements only tell which edge of the rectangle stands upright;
 * the sizes are the numbers in the file.
 */
import type { Fraction } from './exact-size.ts';
import { referenceOf, referencesOf, type Line, type ModelLines } from './model-lines.ts';

export interface ShapeSizes {
	readonly width: Fraction;
	readonly height: Fraction;
}

type Direction = readonly [x: number, y: number, z: number];

const xAxis: Direction = [1, 0, 0];
const zAxis: Direction = [0, 0, 1];
/** Positions of attributes: of IfcDirection, and of IfcRectangleProfileDef. */
const directionRatios = 0;
const [xDim, yDim] = [3, 4];
/** A product of sines; what stands further off is not upright. */
const slack = 1e-6;
/** Placements inside each other: building, storey, wall, opening, and hardly ever more. */
const mostPlacements = 64;

const dot = (a: Direction, b: Direction): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const cross = (a: Direction, b: Direction): Direction => [
	a[1] * b[2] - a[2] * b[1],
	a[2] * b[0] - a[0] * b[2],
	a[0] * b[1] - a[1] * b[0]
];

const sum = (...parts: readonly (readonly [number, Direction])[]): Direction => [
	parts.reduce((all, [by, direction]) => all + by * direction[0], 0),
	parts.reduce((all, [by, direction]) => all + by * direction[1], 0),
	parts.reduce((all, [by, direction]) => all + by * direction[2], 0)
];

function unit(direction: Direction): Direction | null {
	const length = Math.hypot(...direction);
	return length > 0 && Number.isFinite(length) ? sum([1 / length, direction]) : null;
}

/** IfcDirection; `otherwise` where none is given, null where it is none. */
function directionOf(lines: ModelLines, value: unknown, otherwise: Direction): Direction | null {
	const id = referenceOf(value);
	if (id === null) return otherwise;
	const line = lines.line(id);
	if (line?.kind !== 'IfcDirection') return null;
	const [x, y, z = 0] = lines
		.numbers(line, directionRatios)
		.map((ratio) => (ratio ? Number(ratio.n) / Number(ratio.d) : NaN));
	return x === undefined || y === undefined ? null : unit([x, y, z]);
}

/** A direction seen from outside an IfcAxis2Placement (none: as it is), by its Axis (z) and RefDirection (towards x). */
function turned(lines: ModelLines, placement: Line | null, direction: Direction): Direction | null {
	if (!placement) return direction;
	const z = directionOf(lines, placement.attributes.Axis, zAxis);
	const towards = directionOf(lines, placement.attributes.RefDirection, xAxis);
	if (!z || !towards) return null;
	const x = unit(sum([1, towards], [-dot(towards, z), z]));
	return x && sum([direction[0], x], [direction[1], cross(z, x)], [direction[2], z]);
}

/** A direction of an element, seen in the world: through its placement and all those it stands in. */
function inWorld(lines: ModelLines, placementId: number | null, own: Direction): Direction | null {
	let direction: Direction | null = own;
	let id = placementId;
	for (let i = 0; id !== null; i++) {
		const placement = lines.line(id);
		if (!placement || i >= mostPlacements || !direction) return null;
		direction = turned(lines, lines.line(referenceOf(placement.attributes.RelativePlacement)), direction);
		id = referenceOf(placement.attributes.PlacementRelTo);
	}
	return direction;
}

/** The one body an element is made of, or null. */
function bodyOf(lines: ModelLines, element: Line): Line | null {
	const shape = lines.line(referenceOf(element.attributes.Representation));
	const items = referencesOf(shape?.attributes.Representations).flatMap((id) =>
		referencesOf(lines.line(id)?.attributes.Items)
	);
	const [item] = items;
	return item !== undefined && items.length === 1 ? lines.line(item) : null;
}

/** Null where the shape is another one, or neither edge of the rectangle stands upright. */
export function shapeSizes(lines: ModelLines, element: Line): ShapeSizes | null {
	const body = bodyOf(lines, element);
	if (body?.kind !== 'IfcExtrudedAreaSolid') return null;
	const profile = lines.line(referenceOf(body.attributes.SweptArea));
	if (profile?.kind !== 'IfcRectangleProfileDef') return null;
	const [x, y] = [lines.number(profile, xDim), lines.number(profile, yDim)];
	const along = directionOf(
		lines,
		lines.line(referenceOf(profile.attributes.Position))?.attributes.RefDirection,
		xAxis
	);
	if (!x || !y || !along) return null;
	const upright = (own: Direction): number | null => {
		const inElement = turned(lines, lines.line(referenceOf(body.attributes.Position)), own);
		const world = inElement && inWorld(lines, referenceOf(element.attributes.ObjectPlacement), inElement);
		return world && Math.abs(world[2]);
	};
	const [upX, upY] = [upright(along), upright(cross(zAxis, along))];
	if (upX === null || upY === null) return null;
	if (upX < slack && upY > 1 - slack) return { width: x, height: y };
	if (upY < slack && upX > 1 - slack) return { width: y, height: x };
	return null;
}
