/**
 * From a scene to paper: one scale for everything drawn, text in its own fixed size, dimensions in tiers around the
 * drawing so that no two texts meet. Paper is in CSS pixels on the screen and in units of its own in print, y down.
 */
import { formatLength } from '../quantity/length.ts';
import type { Measures } from '../takeoff/inputs.ts';
import type { DimensionShape, Edge, NoteShape, Point, Scene, Shape } from './shapes.ts';

/** A rectangle on paper; y is its upper edge. */
export interface Area {
	readonly x: number;
	readonly y: number;
	readonly width: number;
	readonly height: number;
}

/** Text on paper; turned text reads upwards. */
export interface PlacedText {
	readonly text: string;
	/** Middle of the text's box. */
	readonly at: Point;
	readonly turned: boolean;
	/** Around the text, as read on paper. */
	readonly area: Area;
}

export interface PlacedDimension {
	readonly shape: DimensionShape;
	readonly from: Point;
	readonly to: Point;
	/** From the measured points to just beyond the dimension line. */
	readonly extensions: readonly (readonly [Point, Point])[];
	readonly text: PlacedText;
}

interface PlacedNote {
	readonly shape: NoteShape;
	readonly text: PlacedText;
}

interface ScaleBar {
	readonly at: Point;
	/** Length on paper. */
	readonly length: number;
	/** Length it stands for, mm. */
	readonly stands: number;
	readonly text: string;
}

export interface Layout {
	/** Paper pixels in one real millimetre. */
	readonly scale: number;
	/** The scale is one of those that were asked for; always true where none were. */
	readonly usualScale: boolean;
	/** Where x = 0, y = 0 of the scene lies on paper. */
	readonly origin: Point;
	readonly fontSize: number;
	readonly dimensions: readonly PlacedDimension[];
	readonly notes: readonly PlacedNote[];
	readonly scaleBar: ScaleBar;
	readonly caption: PlacedText;
	/** Where the person stands, on the floor line of the caption; null where nobody does. */
	readonly stand: Point | null;
}

type Written = DimensionShape | NoteShape;

/** Advance of the letters in the semi-condensed face at its heaviest, as a share of the font size. */
const advances: readonly (readonly [string, number])[] = [
	[`'’ `, 0.2],
	[`.,:;ijl`, 0.25],
	[`"()-/frt`, 0.37],
	[`mw`, 0.76]
];
const usualAdvance = 0.52;

/** Width of a text on the screen, a little generous, so that nothing is cut off or touches. */
export function textWidth(text: string, fontSize: number): number {
	const advance = (letter: string): number =>
		advances.find(([letters]) => letters.includes(letter))?.[1] ?? usualAdvance;
	return Array.from(text).reduce((sum, letter) => sum + advance(letter), 0) * fontSize * 1.03;
}

/** How a drawing is written on, and the scales it may have. */
export interface PaperKind {
	readonly widthOf: (text: string, fontSize: number) => number;
	/** Paper pixels in one real millimetre, the largest first; null: whatever fits. */
	readonly scales: readonly number[] | null;
}

const screen: PaperKind = { widthOf: textWidth, scales: null };

/** The letters of one drawing. */
interface Letters {
	readonly size: number;
	readonly widthOf: (text: string) => number;
}

export const onPaper = (layout: Pick<Layout, 'scale' | 'origin'>, point: Point): Point => ({
	x: layout.origin.x + point.x * layout.scale,
	y: layout.origin.y - point.y * layout.scale
});

export const overlap = (a: Area, b: Area): boolean =>
	a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

interface Interval {
	readonly from: number;
	readonly to: number;
}

const meets = (a: Interval, b: Interval): boolean => a.from < b.to - 0.5 && b.from < a.to - 0.5;

interface Paper {
	readonly scene: Scene;
	readonly scale: number;
	readonly letters: Letters;
}

/** Between the drawing and the first tier, between lines, beyond a tick. */
const gap = 7;
const tick = 4;

const tierStep = ({ size }: Letters): number => size + 7;

const isUpright = (edge: Edge): boolean => edge === 'left' || edge === 'right';

/** First that fits along the line, else the shortest. */
function fitting(texts: readonly string[], room: number, letters: Letters): string {
	const last = texts[texts.length - 1] ?? '';
	return texts.find((text) => letters.widthOf(text) <= room) ?? last;
}

function placedText(text: string, at: Point, turned: boolean, letters: Letters): PlacedText {
	const along = letters.widthOf(text);
	const [width, height] = turned ? [letters.size, along] : [along, letters.size];
	return { text, at, turned, area: { x: at.x - width / 2, y: at.y - height / 2, width, height } };
}

/** Line of tier `tier` at an edge: x of an upright line, y of a level one. */
function tierLine({ scene, scale, letters }: Paper, edge: Edge, tier: number): number {
	const step = tierStep(letters);
	switch (edge) {
		case 'left':
			return scene.bounds.left * scale - gap - tier * step;
		case 'right':
			return scene.bounds.right * scale + gap + (tier + 1) * step - 3;
		case 'top':
			return -scene.bounds.top * scale - gap - tier * step;
		case 'bottom':
			return -scene.bounds.bottom * scale + gap + (tier + 1) * step - 3;
	}
}

interface Spot {
	readonly text: PlacedText;
	/** Along the edge, the dimension line (a point for a note). */
	readonly line: Interval;
	readonly written: Interval;
	readonly across: number;
}

function spotOf(paper: Paper, shape: Written, tier: number): Spot {
	const { scale, letters } = paper;
	const upright = isUpright(shape.edge);
	const along = (point: Point): number => (upright ? -point.y : point.x) * scale;
	const [a, b] =
		shape.kind === 'note' ? [along(shape.at), along(shape.at)] : [along(shape.from), along(shape.to)];
	const line = { from: Math.min(a, b), to: Math.max(a, b) };
	const middle = (a + b) / 2;
	const { bounds } = paper.scene;
	const edgeLength = (upright ? bounds.top - bounds.bottom : bounds.right - bounds.left) * scale;
	const room = shape.kind === 'note' ? edgeLength * 0.45 : Math.max(line.to - line.from, edgeLength * 0.22);
	const text = fitting(shape.texts, room, letters);
	const half = letters.widthOf(text) / 2 + 3;
	const across = tierLine(paper, shape.edge, tier);
	const centre = across - letters.size / 2 - 2;
	const at = upright ? { x: centre, y: middle } : { x: middle, y: centre };
	return {
		text: placedText(text, at, upright, letters),
		line,
		written: { from: middle - half, to: middle + half },
		across
	};
}

const padded = ({ x, y, width, height }: Area): Area => ({
	x: x - 2,
	y: y - 0.5,
	width: width + 4,
	height: height + 1
});

function extensionsOf(shape: DimensionShape, { across }: Spot, scale: number): (readonly [Point, Point])[] {
	const outwards = shape.edge === 'right' || shape.edge === 'bottom' ? 1 : -1;
	return [shape.from, shape.to].map(({ x, y }) => {
		const point = { x: x * scale, y: -y * scale };
		return isUpright(shape.edge)
			? ([
					{ x: point.x + outwards * 3, y: point.y },
					{ x: across + outwards * tick, y: point.y }
				] as const)
			: ([
					{ x: point.x, y: point.y + outwards * 3 },
					{ x: point.x, y: across + outwards * tick }
				] as const);
	});
}

interface Placed {
	readonly dimensions: PlacedDimension[];
	readonly notes: PlacedNote[];
	readonly extent: { left: number; right: number; top: number; bottom: number };
}

/** Everything written, around a drawing whose origin is at 0, 0. Shorter lines stand nearer to the drawing, notes where room is left. */
function placeWritten(paper: Paper, written: readonly Written[]): Placed {
	const { scene, scale } = paper;
	const length = (shape: Written): number =>
		shape.kind === 'note'
			? Infinity
			: Math.abs(shape.to.x - shape.from.x) + Math.abs(shape.to.y - shape.from.y);
	const tiers = new Map<string, Spot[]>();
	const texts: Area[] = [];
	const dimensions: PlacedDimension[] = [];
	const notes: PlacedNote[] = [];
	const extent = {
		left: scene.bounds.left * scale,
		right: scene.bounds.right * scale,
		top: -scene.bounds.top * scale,
		bottom: -scene.bounds.bottom * scale
	};
	const grow = ({ x, y, width, height }: Area): void => {
		extent.left = Math.min(extent.left, x);
		extent.right = Math.max(extent.right, x + width);
		extent.top = Math.min(extent.top, y);
		extent.bottom = Math.max(extent.bottom, y + height);
	};
	for (const shape of written.toSorted((a, b) =>
		length(a) < length(b) ? -1 : length(a) > length(b) ? 1 : 0
	)) {
		for (let tier = 0; ; tier++) {
			const name = `${shape.edge} ${tier}`;
			const inTier = tiers.get(name) ?? [];
			const spot = spotOf(paper, shape, tier);
			const area = padded(spot.text.area);
			const taken =
				inTier.some(
					(other) =>
						meets(spot.written, other.written) ||
						meets(spot.written, other.line) ||
						meets(spot.line, other.written) ||
						meets(spot.line, other.line)
				) || texts.some((other) => overlap(area, other));
			if (taken) continue;
			tiers.set(name, [...inTier, spot]);
			texts.push(area);
			grow(area);
			if (shape.kind === 'note') {
				notes.push({ shape, text: spot.text });
				break;
			}
			const { line, across } = spot;
			const ends = isUpright(shape.edge)
				? [
						{ x: across, y: line.from },
						{ x: across, y: line.to }
					]
				: [
						{ x: line.from, y: across },
						{ x: line.to, y: across }
					];
			const [from = { x: 0, y: 0 }, to = { x: 0, y: 0 }] = ends;
			grow({
				x: from.x - tick,
				y: from.y - tick,
				width: to.x - from.x + 2 * tick,
				height: to.y - from.y + 2 * tick
			});
			dimensions.push({ shape, from, to, extensions: extensionsOf(shape, spot, scale), text: spot.text });
			break;
		}
	}
	return { dimensions, notes, extent };
}

interface Fit {
	readonly paper: Paper;
	readonly placed: Placed;
}

/** The largest scale at which the drawing with this much written on it fits the room. */
function fit(scene: Scene, written: readonly Written[], room: Area, letters: Letters): Fit {
	const { bounds } = scene;
	const width = Math.max(bounds.right - bounds.left, 1);
	const height = Math.max(bounds.top - bounds.bottom, 1);
	let scale = Math.min(room.width / width, room.height / height);
	for (let i = 0; ; i++) {
		const paper = { scene, scale, letters };
		const placed = placeWritten(paper, written);
		const { left, right, top, bottom } = placed.extent;
		const [over, high] = [right - left, bottom - top];
		const smallest = 8 / Math.max(width, height);
		if ((over <= room.width && high <= room.height) || scale <= smallest || i > 400) return { paper, placed };
		const wanted = Math.min(
			(room.width - (over - width * scale)) / width,
			(room.height - (high - height * scale)) / height
		);
		scale = Math.max(smallest, Math.min(scale * 0.99, Math.max(wanted, scale * 0.7)));
	}
}

/** With all of this written, the drawing must keep this much of the scale that it has with only what matters most. */
const worthKeeping = [
	{ priority: 3, share: 0.85 },
	{ priority: 2, share: 0.72 }
] as const;

const isWritten = (shape: Shape): shape is Written => shape.kind === 'dimension' || shape.kind === 'note';

/** The largest of the scales at which everything fits; null where none does, whatever is left out. */
function fitScales(scene: Scene, room: Area, letters: Letters, scales: readonly number[]): Fit | null {
	for (const priority of [3, 2, 1, 0]) {
		const written = scene.shapes.filter(isWritten).filter((shape) => shape.priority <= priority);
		for (const scale of scales) {
			const { bounds } = scene;
			if ((bounds.right - bounds.left) * scale > room.width) continue;
			if ((bounds.top - bounds.bottom) * scale > room.height) continue;
			const paper = { scene, scale, letters };
			const placed = placeWritten(paper, written);
			const { left, right, top, bottom } = placed.extent;
			if (right - left <= room.width && bottom - top <= room.height) return { paper, placed };
		}
	}
	return null;
}

function chooseFit(scene: Scene, room: Area, letters: Letters): Fit {
	const written = scene.shapes.filter(isWritten);
	const upTo = (priority: number): Fit =>
		fit(
			scene,
			written.filter((shape) => shape.priority <= priority),
			room,
			letters
		);
	const plain = upTo(1);
	for (const { priority, share } of worthKeeping) {
		const fuller = upTo(priority);
		if (fuller.paper.scale >= share * plain.paper.scale) return fuller;
	}
	return plain;
}

const foot = 304.8;
const steps: Record<Measures, readonly number[]> = {
	imperial: [1 / 48, 1 / 24, 1 / 12, 1 / 4, 1 / 2, 1, 2, 4, 5, 10, 20, 50, 100].map((feet) => feet * foot),
	metric: [5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000]
};

/** The longest round length that takes no more than about a quarter of the room. */
function scaleBarOf(measures: Measures, scale: number, room: number, at: Point): ScaleBar {
	const choices = steps[measures];
	const longest = Math.min(110, room * 0.26);
	const stands = choices.reduce((best, step) => (step * scale <= longest ? step : best), choices[0] ?? foot);
	return {
		at,
		length: stands * scale,
		stands,
		text: formatLength(
			Math.round(stands * 1e6),
			measures === 'metric' ? 'mm' : stands < foot ? 'inches' : 'feetInches'
		)
	};
}

/** Text size for a box: legible when small, not shouting when large. */
export function fontSizeFor(box: { readonly width: number; readonly height: number }): number {
	return Math.min(13, Math.max(11, 10 + (Math.min(box.width, box.height * 1.4) - 380) / 160));
}

/**
 * Lays a scene out in a box of paper (pixels; taken as at least 120 × 100).
 * @returns places of everything written, and the scale and origin for the shapes.
 */
export function layOut(
	scene: Scene,
	area: Area,
	fontSize = fontSizeFor(area),
	{ widthOf, scales }: PaperKind = screen
): Layout {
	const letters: Letters = { size: fontSize, widthOf: (text) => widthOf(text, fontSize) };
	const box = { ...area, width: Math.max(area.width, 120), height: Math.max(area.height, 100) };
	const pad = 8;
	const row = fontSize + 9;
	const inside = box.width - 2 * pad;
	const captionText = fitting(scene.caption.texts, inside - 24, letters);
	const captionWidth = letters.widthOf(captionText) + 22;
	const barRoom = Math.min(110, inside * 0.26) + letters.widthOf('0000') + 24;
	const rows = captionWidth + barRoom <= inside ? 1 : 2;
	const room: Area = {
		x: box.x + pad,
		y: box.y + pad,
		width: inside,
		height: Math.max(box.height - 2 * pad - rows * row, 40)
	};
	const usual = scales === null ? null : fitScales(scene, room, letters, scales);
	const { paper, placed } = usual ?? chooseFit(scene, room, letters);
	const { extent } = placed;
	const origin = {
		x: room.x + (room.width - (extent.right - extent.left)) / 2 - extent.left,
		y: room.y + (room.height - (extent.bottom - extent.top)) / 2 - extent.top
	};
	const move = ({ x, y }: Point): Point => ({ x: x + origin.x, y: y + origin.y });
	const moveText = (text: PlacedText): PlacedText => ({
		...text,
		at: move(text.at),
		area: { ...text.area, ...move(text.area) }
	});
	const bottomRow = box.y + box.height - pad - row / 2;
	const scaleBar = scaleBarOf(scene.measures, paper.scale, inside, { x: room.x + 4, y: bottomRow });
	const left = room.x + (rows === 1 ? scaleBar.length + letters.widthOf(scaleBar.text) + 22 : 0);
	const half = captionWidth / 2;
	const wanted = origin.x + scene.caption.x * paper.scale;
	const x = Math.max(left + half, Math.min(room.x + room.width - half, wanted));
	const captionAt = { x: x + (scene.caption.stand ? 7 : 0), y: rows === 1 ? bottomRow : bottomRow - row };
	return {
		scale: paper.scale,
		usualScale: scales === null || usual !== null,
		origin,
		fontSize,
		dimensions: placed.dimensions.map((d) => ({
			shape: d.shape,
			from: move(d.from),
			to: move(d.to),
			extensions: d.extensions.map(([a, b]) => [move(a), move(b)] as const),
			text: moveText(d.text)
		})),
		notes: placed.notes.map((n) => ({ shape: n.shape, text: moveText(n.text) })),
		scaleBar,
		caption: placedText(captionText, captionAt, false, letters),
		stand: scene.caption.stand
			? { x: captionAt.x - letters.widthOf(captionText) / 2 - 8, y: captionAt.y }
			: null
	};
}

/** Two boxes for a pair of drawings: side by side where there is width for it, else one above the other. */
export function splitArea(box: { readonly width: number; readonly height: number }): readonly [Area, Area] {
	const { width, height } = box;
	if (width >= 0.65 * height) {
		const first = Math.round(Math.min(width * 0.42, Math.max(height * 0.6, 170)));
		return [
			{ x: 0, y: 0, width: first, height },
			{ x: first, y: 0, width: width - first, height }
		];
	}
	const first = Math.round(height * 0.55);
	return [
		{ x: 0, y: 0, width, height: first },
		{ x: 0, y: first, width, height: height - first }
	];
}
