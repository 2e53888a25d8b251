/** What a scene is made of. All positions are real-world millimetres, y up from the finished sill. */
import { formatQuantity } from '../quantity/format.ts';
import { formatLength } from '../quantity/length.ts';
import type { Measures } from '../takeoff/inputs.ts';

export interface Point {
	readonly x: number;
	readonly y: number;
}

/** What a shape stands for; it decides how the shape is drawn. */
export type Role =
	| 'anchor'
	| 'anchorHead'
	| 'barrel'
	| 'bottomBar'
	| 'bracketAnchor'
	| 'bracketLeft'
	| 'bracketPlate'
	| 'bracketRight'
	| 'break'
	| 'buildUp'
	| 'centre'
	| 'coil'
	| 'coilOther'
	| 'coilTurns'
	| 'curtain'
	| 'curtainRow'
	| 'drive'
	| 'finish'
	| 'ground'
	| 'guideLeft'
	| 'guideLeg'
	| 'guideRight'
	| 'head'
	| 'hood'
	| 'hoodJoint'
	| 'hoodSupport'
	| 'jamb'
	| 'leg'
	| 'limit'
	| 'opening'
	| 'shank'
	| 'shim'
	| 'sill'
	| 'structure'
	| 'wall'
	| 'wallFace';

interface Drawn {
	readonly role: Role;
	/** Behind something else, so drawn dashed. */
	readonly hidden?: boolean;
}

export interface RectShape extends Drawn {
	readonly kind: 'rect';
	readonly x: number;
	/** Lower edge. */
	readonly y: number;
	readonly width: number;
	readonly height: number;
	/** Cut through: hatched as this wall. */
	readonly material?: string;
}

export interface LineShape extends Drawn {
	readonly kind: 'line';
	readonly from: Point;
	readonly to: Point;
}

export interface CircleShape extends Drawn {
	readonly kind: 'circle';
	readonly centre: Point;
	readonly radius: number;
}

export interface PathShape extends Drawn {
	readonly kind: 'path';
	readonly points: readonly Point[];
	readonly closed: boolean;
}

/** Something whose place is true but whose size on paper is not: an anchor, a centre. */
export interface SymbolShape extends Drawn {
	readonly kind: 'symbol';
	readonly at: Point;
	/** `end`: seen along its axis; otherwise the way it points from the part it holds. */
	readonly points: 'end' | 'left' | 'right';
	readonly side: Side | null;
}

export type Side = 'left' | 'right';
export type Edge = Side | 'top' | 'bottom';

/** Something written beside the drawing that has a working behind it. */
interface Written {
	/** Quantity whose working it opens. */
	readonly quantity: string;
	/** What it is, for people who hear the drawing. */
	readonly title: string;
	/** Edge of the drawing it stands at. */
	readonly edge: Edge;
	/** The same thing said longest first; the first that fits is written. */
	readonly texts: readonly string[];
	/** 0 always drawn … 3 first to go where space is short. */
	readonly priority: 0 | 1 | 2 | 3;
}

export interface DimensionShape extends Written {
	readonly kind: 'dimension';
	readonly role: `dimension:${string}`;
	readonly from: Point;
	readonly to: Point;
	/** Said with a word in the text as well. */
	readonly short: boolean;
}

export interface NoteShape extends Written {
	readonly kind: 'note';
	readonly role: `note:${string}`;
	readonly at: Point;
}

export type DrawnShape = RectShape | LineShape | CircleShape | PathShape | SymbolShape;
export type Shape = DrawnShape | DimensionShape | NoteShape;

export interface Bounds {
	readonly left: number;
	readonly right: number;
	readonly bottom: number;
	readonly top: number;
}

export interface Scene {
	readonly title: string;
	/** The drawing in words, with its sizes. */
	readonly description: string;
	readonly measures: Measures;
	/** Painted in this order. */
	readonly shapes: readonly Shape[];
	/** Of everything drawn, without what is written. */
	readonly bounds: Bounds;
	/** Written under the drawing at this x, longest first; the mark shows where the person stands. */
	readonly caption: { readonly x: number; readonly texts: readonly string[]; readonly stand: boolean };
}

/** Sizes that no quantity gives: parts of the building that are broken off, in mm. Never dimensioned. */
export const brokenOff = {
	wall: 200,
	structure: 90,
	ground: 60,
	around: 150,
	standing: 420,
	room: 60
} as const;

/** Free room as far as it is drawn: null where it is not known, or so ample that it is only written. */
export function roomShown(available: number | null, required: number | null): number | null {
	if (available === null) return null;
	const needed = required ?? 0;
	return available <= Math.max(2 * needed, needed + 300) ? available : null;
}

export const rect = (
	role: Role,
	left: number,
	right: number,
	bottom: number,
	top: number,
	more: { hidden?: boolean; material?: string } = {}
): RectShape => ({
	kind: 'rect',
	role,
	x: left,
	y: bottom,
	width: right - left,
	height: top - bottom,
	...more
});

export const line = (role: Role, from: Point, to: Point, hidden = false): LineShape => ({
	kind: 'line',
	role,
	from,
	to,
	hidden
});

export const circle = (role: Role, centre: Point, radius: number, hidden = false): CircleShape => ({
	kind: 'circle',
	role,
	centre,
	radius,
	hidden
});

export const path = (role: Role, points: readonly Point[], closed = false): PathShape => ({
	kind: 'path',
	role,
	points,
	closed
});

/** Edge of something broken off: a line with a zigzag in the middle. `width` is that of what is broken off. */
export function breakLine(x: number, bottom: number, top: number, width: number): PathShape {
	const middle = (bottom + top) / 2;
	const tooth = Math.min(width / 8, (top - bottom) / 10, 45);
	return path('break', [
		{ x, y: bottom },
		{ x, y: middle - tooth },
		{ x: x - tooth, y: middle - tooth / 3 },
		{ x: x + tooth, y: middle + tooth / 3 },
		{ x, y: middle + tooth },
		{ x, y: top }
	]);
}

/** `groutedBlock` → `grouted block`. */
export const words = (key: string): string => key.replace(/[A-Z]/gu, (letter) => ` ${letter.toLowerCase()}`);

/** A dimension between two points; without texts of its own it says its length. Too short a room always stands. */
export function dimension(
	{ quantity, title, edge, from, to, priority }: Omit<DimensionShape, 'kind' | 'role' | 'texts' | 'short'>,
	measures: Measures,
	said: { readonly texts?: readonly string[]; readonly short?: boolean } = {}
): DimensionShape {
	const size = Math.max(Math.abs(to.x - from.x), Math.abs(to.y - from.y));
	const short = said.short ?? false;
	return {
		kind: 'dimension',
		role: `dimension:${quantity}`,
		quantity,
		title,
		edge,
		from,
		to,
		priority: short ? 0 : priority,
		texts: said.texts ?? [lengthText(size, measures)],
		short
	};
}

/** A thickness in mm to the last decimal that counts: on a tape where it is a whole sixteenth of an inch. */
export function thicknessText(millimetres: number, measures: Measures): string {
	const nm = Math.round(millimetres * 1e6);
	if (measures === 'imperial' && nm % (25_400_000 / 16) !== 0) return formatQuantity(nm, 'in');
	return lengthText(millimetres, measures);
}

/** A length in mm as people of this job read it; under two feet in inches alone. */
export function lengthText(millimetres: number, measures: Measures): string {
	const nm = Math.round(millimetres * 1e6);
	if (measures === 'metric') return formatLength(nm, 'mm');
	return formatLength(nm, Math.abs(millimetres) < 2 * 304.8 ? 'inches' : 'feetInches');
}

/** Levels of the two rows of a bracket's holes, in mm above its underside. */
export const holeRows = (bracketSize: number, holeEdge: number): readonly [number, number] => [
	holeEdge,
	bracketSize - holeEdge
];

/** How far the columns of a bracket's holes stand from the edge that is nearest to the opening, in mm. */
export const holeColumns = (columns: number, gauge: number, across: number): number[] =>
	Array.from({ length: Math.round(columns) }, (_, i) => gauge + i * across);

/** What a room needs and has, longest first. `room` is its name: `headroom`. */
export function roomTexts(
	room: string,
	required: number,
	available: number | null,
	measures: Measures
): { texts: string[]; short: boolean } {
	const needs = `needs ${lengthText(required, measures)}`;
	if (available === null) return { texts: [`${room} ${needs}`, needs], short: false };
	const missing = required - available;
	if (missing > 0) {
		const short = `short by ${lengthText(missing, measures)}`;
		return { texts: [`${room} ${needs}, ${short}`, `${room} ${short}`, short], short: true };
	}
	const has = `${needs}, has ${lengthText(available, measures)}`;
	return { texts: [`${room} ${has}`, has, needs], short: false };
}

/** Where equal parts of a run stand: `count` places from `from` to `to`, both included; one stands in the middle. */
export function spread(count: number, from: number, to: number): number[] {
	const places = Math.max(0, Math.round(count));
	if (places === 1) return [(from + to) / 2];
	return Array.from({ length: places }, (_, i) => from + ((to - from) * i) / (places - 1));
}

function cornersOf(shape: DrawnShape): readonly Point[] {
	switch (shape.kind) {
		case 'rect':
			return [
				{ x: shape.x, y: shape.y },
				{ x: shape.x + shape.width, y: shape.y + shape.height }
			];
		case 'line':
			return [shape.from, shape.to];
		case 'circle':
			return [
				{ x: shape.centre.x - shape.radius, y: shape.centre.y - shape.radius },
				{ x: shape.centre.x + shape.radius, y: shape.centre.y + shape.radius }
			];
		case 'path':
			return shape.points;
		case 'symbol':
			return [shape.at];
	}
}

export const isDrawn = (shape: Shape): shape is DrawnShape =>
	shape.kind !== 'dimension' && shape.kind !== 'note';

/** The box around everything drawn. */
export function boundsOf(shapes: readonly Shape[]): Bounds {
	const corners = shapes.filter(isDrawn).flatMap(cornersOf);
	const xs = corners.map((point) => point.x);
	const ys = corners.map((point) => point.y);
	return {
		left: Math.min(...xs),
		right: Math.max(...xs),
		bottom: Math.min(...ys),
		top: Math.max(...ys)
	};
}
