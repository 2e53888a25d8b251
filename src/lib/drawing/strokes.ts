/** From a scene that is laid out to plain elements of SVG, the same for the screen and for paper. */
import { attributesOf, lookOf, writtenLooks, type Attributes, type Look, type Palette } from './ink.ts';
import { onPaper, type Layout, type PlacedDimension } from './layout.ts';
import {
	isDrawn,
	type DrawnShape,
	type LineShape,
	type Point,
	type RectShape,
	type Role,
	type Scene,
	type SymbolShape
} from './shapes.ts';

export interface Stroke {
	readonly element: 'circle' | 'path' | 'rect';
	readonly attributes: Attributes;
}

/** A stroke of the drawing itself. */
export interface DrawnStroke extends Stroke {
	readonly kind: DrawnShape['kind'];
	readonly role: Role;
	readonly hidden: boolean;
	/** The wall it is hatched as, over its own fill; null where nothing is cut. */
	readonly hatch: string | null;
	/** It points along the wall: an anchor seen from the side. */
	readonly sideways: boolean;
}

const text = (value: number): string => value.toFixed(2);
const pair = ({ x, y }: Point): string => `${text(x)} ${text(y)}`;

/** Hatched even where its material is not known. */
const cutThrough = new Set<Role>(['ground', 'limit', 'structure']);

/** What lies behind the hood is left out where its lines would run together. */
const crowded = (shape: DrawnShape, scale: number): boolean =>
	shape.kind === 'rect' && shape.hidden === true && shape.height * scale < 9;

/** An anchor seen from its end is a ring with a cross; from the side a head with a shank into the wall. */
function symbolPath(shape: SymbolShape, { x, y }: Point, symbolSize: number): string {
	const size = shape.role === 'centre' ? 6 : symbolSize;
	if (shape.role === 'drive') return `M${text(x - 3)} ${text(y - 3)}h6v6h-6Z`;
	if (shape.points === 'end')
		return `M${text(x - size * 1.5)} ${text(y)}h${text(size * 3)}M${text(x)} ${text(y - size * 1.5)}v${text(size * 3)}`;
	const out = shape.points === 'left' ? -1 : 1;
	return `M${text(x - out)} ${text(y - size)}v${text(2 * size)}M${text(x - out * 2)} ${text(y)}h${text(out * (4 + size * 2))}`;
}

/** Rows of the curtain as one line; null where they would run together into grey. */
function rowsPath(rows: readonly LineShape[], layout: Layout): string | null {
	const [first, second] = rows;
	if (!first || (second && (second.from.y - first.from.y) * layout.scale < 2.2)) return null;
	return rows.map(({ from, to }) => `M${pair(onPaper(layout, from))}L${pair(onPaper(layout, to))}`).join('');
}

/** Everything drawn, in the order in which it is painted; what is written comes on top of it. */
export function strokesOf(scene: Scene, layout: Layout, palette: Palette): DrawnStroke[] {
	const { scale } = layout;
	const put = (point: Point): Point => onPaper(layout, point);
	const symbolSize = Math.min(3.2, Math.max(1.7, 22 * scale));
	const rows = rowsPath(
		scene.shapes.filter((shape) => shape.kind === 'line').filter(({ role }) => role === 'curtainRow'),
		layout
	);
	const stroke = (
		shape: DrawnShape,
		element: Stroke['element'],
		place: Attributes,
		more: { kind?: DrawnShape['kind']; role?: Role; hatch?: string | null } = {}
	): DrawnStroke => {
		const { kind = shape.kind, role = shape.role, hatch = null } = more;
		const hidden = shape.hidden === true;
		return {
			element,
			kind,
			role,
			hidden,
			hatch,
			sideways: shape.kind === 'symbol' && shape.points !== 'end',
			attributes: { ...attributesOf(lookOf(kind, role, hidden), palette), ...place }
		};
	};
	const rectPlace = (shape: RectShape): Attributes => {
		const { x, y } = put({ x: shape.x, y: shape.y + shape.height });
		return {
			x: text(x),
			y: text(y),
			width: text(shape.width * scale),
			height: text(shape.height * scale)
		};
	};
	const strokes = (shape: DrawnShape): DrawnStroke[] => {
		switch (shape.kind) {
			case 'rect': {
				const hatch = shape.material ?? (cutThrough.has(shape.role) ? 'ground' : null);
				const drawn = stroke(shape, 'rect', rectPlace(shape), { hatch });
				return shape.role === 'curtain' && rows !== null
					? [drawn, stroke(shape, 'path', { d: rows }, { kind: 'line', role: 'curtainRow' })]
					: [drawn];
			}
			case 'line':
				return [stroke(shape, 'path', { d: `M${pair(put(shape.from))}L${pair(put(shape.to))}` })];
			case 'circle': {
				const { x, y } = put(shape.centre);
				return [stroke(shape, 'circle', { cx: text(x), cy: text(y), r: text(shape.radius * scale) })];
			}
			case 'path': {
				const d = `M${shape.points.map((point) => pair(put(point))).join('L')}${shape.closed ? 'Z' : ''}`;
				return [stroke(shape, 'path', { d })];
			}
			case 'symbol': {
				const at = put(shape.at);
				const lines = stroke(shape, 'path', { d: symbolPath(shape, at, symbolSize) });
				if (shape.points !== 'end' || shape.role === 'centre') return [lines];
				const ring = { cx: text(at.x), cy: text(at.y), r: text(symbolSize) };
				return [stroke(shape, 'circle', ring, { kind: 'circle' }), lines];
			}
		}
	};
	return scene.shapes
		.filter(isDrawn)
		.filter((shape) => shape.role !== 'curtainRow' && !crowded(shape, scale))
		.flatMap(strokes);
}

/** The lines of a dimension: extension lines, the line itself, a tick at either end. */
export function dimensionStrokes(dimension: PlacedDimension, palette: Palette): Stroke[] {
	const { from, to, extensions, shape } = dimension;
	const path = (look: Look, d: string): Stroke => ({
		element: 'path',
		attributes: { ...attributesOf(shape.short ? { ...look, stroke: 'stop' } : look, palette), d }
	});
	return [
		...extensions.map(([a, b]) => path(writtenLooks.extension, `M${pair(a)}L${pair(b)}`)),
		path(writtenLooks.line, `M${pair(from)}L${pair(to)}`),
		...[from, to].map(({ x, y }) => path(writtenLooks.tick, `M${text(x - 3.2)} ${text(y + 3.2)}l6.4 -6.4`))
	];
}

/** The scale bar, and the mark of the person who stands there. */
export function footStrokes({ scaleBar, stand }: Layout, palette: Palette): Stroke[] {
	const quarters = [0, 1, 2, 3].map((quarter): Stroke => ({
		element: 'rect',
		attributes: {
			...attributesOf(quarter % 2 === 0 ? writtenLooks.full : writtenLooks.empty, palette),
			x: text(scaleBar.at.x + (scaleBar.length * quarter) / 4),
			y: text(scaleBar.at.y - 2),
			width: text(scaleBar.length / 4),
			height: '4'
		}
	}));
	if (!stand) return quarters;
	const d = `M${text(stand.x)} ${text(stand.y - 4)}l4.5 8h-9Z`;
	return [...quarters, { element: 'path', attributes: { ...attributesOf(writtenLooks.stand, palette), d } }];
}
