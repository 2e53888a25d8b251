/**
 * Shims behind both guides, seen from the coil side: each guide plumb, its wall beside it as it leans, the gap between
 * them drawn many times as large. Heights are true. y = 0 is the sill of each guide. The back of the left guide is x = 0
 * with its wall to the left, that of the right guide stands at `rightBack` with its wall to the right. What leans out of
 * the wall is turned into the drawing.
 */
import type { ShimAt, GuideShims } from '../fieldwork/shims.ts';
import type { Measures } from '../takeoff/inputs.ts';
import {
	boundsOf,
	dimension,
	line,
	path,
	rect,
	thicknessText,
	lengthText,
	type DimensionShape,
	type NoteShape,
	type Point,
	type Scene,
	type Shape,
	type Side
} from './shapes.ts';

export interface ShimsOptions {
	readonly measures: Measures;
	/** Opening, for the title. */
	readonly mark: string;
}

const mm = (nm: number): number => nm / 1e6;

/** How many times a gap may be drawn as large. */
const exaggerations = [100, 50, 40, 20, 10, 5, 2, 1] as const;

/** Widths on the drawing, as shares of the longer guide. */
const share = { guide: 1 / 14, gap: 1 / 7, wall: 1 / 12, apart: 1 / 3 } as const;

const most = (values: readonly number[]): number => Math.max(0, ...values);

/** The largest exaggeration at which the widest gap keeps its share of the drawing; all numbers in mm. */
export function exaggerationFor(widest: number, height: number): number {
	return exaggerations.find((times) => widest * times <= height * share.gap) ?? 1;
}

/** Where the back of the right guide stands, mm. */
export const rightBack = (height: number): number => height * (2 * share.guide + share.apart);

interface Place {
	readonly shims: GuideShims;
	/** x of the back of the guide. */
	readonly back: number;
	/** Outwards, to the wall. */
	readonly out: -1 | 1;
	/** Of a guide on the drawing. */
	readonly thick: number;
	readonly times: number;
	/** x of the edge where the wall is broken off. */
	readonly edge: number;
}

function shimText({ anchor, height, made }: ShimAt, measures: Measures): string {
	const what = made === 0 ? 'no shim' : thicknessText(mm(made), measures);
	return `${String(anchor)}: ${what} at ${lengthText(mm(height), measures)}`;
}

function guideShapes({ shims, back, out, thick, times, edge }: Place): Shape[] {
	const { side } = shims;
	const top = mm(shims.length);
	const face = shims.wall.map(({ height, gap }): Point => ({
		x: back + out * mm(gap) * times,
		y: mm(height)
	}));
	const inner = back - out * thick;
	const at = (outer: number): readonly [number, number] => [Math.min(back, outer), Math.max(back, outer)];
	const tall = thick / 2;
	return [
		path('wall', [...face, { x: edge, y: top }, { x: edge, y: 0 }], true),
		rect(side === 'left' ? 'guideLeft' : 'guideRight', ...at(inner), 0, top),
		...shims.at
			.filter(({ exact }) => exact > 0)
			.map(({ exact, height }) =>
				rect('shim', ...at(back + out * mm(exact) * times), mm(height) - tall / 2, mm(height) + tall / 2)
			),
		...shims.at.map(({ height }): Shape => ({
			kind: 'symbol',
			role: 'anchor',
			at: { x: back, y: mm(height) },
			points: side,
			side
		})),
		line('sill', { x: inner, y: 0 }, { x: edge, y: 0 })
	];
}

function written(
	{ shims, edge, back, out, thick }: Place,
	measures: Measures
): (DimensionShape | NoteShape)[] {
	const { side } = shims;
	const notes = shims.at.map((one): NoteShape => ({
		kind: 'note',
		role: 'note:shim',
		quantity: side === 'left' ? 'anchorPitchLeft' : 'anchorPitchRight',
		title: `Shims at anchor ${String(one.anchor)} of the ${side} guide`,
		edge: side,
		at: { x: edge, y: mm(one.height) },
		texts: [shimText(one, measures)],
		priority: 0
	}));
	const inner = back - out * thick;
	const width = dimension(
		{
			quantity: side === 'left' ? 'guideLeft' : 'guideRight',
			title: `The ${side} guide`,
			edge: 'top',
			from: { x: Math.min(back, inner), y: mm(shims.length) },
			to: { x: Math.max(back, inner), y: mm(shims.length) },
			priority: 1
		},
		measures,
		{ texts: [`${side} guide ${lengthText(mm(shims.length), measures)}`, side] }
	);
	return [...notes, width];
}

const planeText = ({ side, plane }: GuideShims): string =>
	plane === 'inPlane' ? `${side} in the wall` : `${side} out of the wall`;

/** In words: every shim, and where the guide touches the wall. */
function describe(shims: GuideShims, measures: Measures): string {
	const each = shims.at.map((one) => `anchor ${shimText(one, measures)}`).join(', ');
	const touches = shims.touches.map((height) => lengthText(mm(height), measures)).join(' and ');
	return `The ${shims.side} guide touches the wall at ${touches} above its sill; ${each}`;
}

/** The drawing of the guides whose wall is known; null where neither is. */
export function shimsScene(
	shims: Readonly<Record<Side, GuideShims | null>>,
	{ measures, mark }: ShimsOptions
): Scene | null {
	const known = [shims.left, shims.right].flatMap((one) => one ?? []);
	if (known.length === 0) return null;
	const height = most(known.map(({ length }) => mm(length)));
	const widest = most(known.flatMap(({ wall }) => wall.map(({ gap }) => mm(gap))));
	const times = exaggerationFor(widest, height);
	const thick = height * share.guide;
	const places = known.map((one): Place => {
		const out = one.side === 'left' ? -1 : 1;
		const back = one.side === 'left' ? 0 : rightBack(height);
		return { shims: one, back, out, thick, times, edge: back + out * (widest * times + height * share.wall) };
	});
	const drawn = places.flatMap(guideShapes);
	const bounds = boundsOf(drawn);
	return {
		title: `Shims of ${mark}, seen from the coil side`,
		description: `${known.map((one) => describe(one, measures)).join('; ')}; gaps drawn ${String(times)} times as large.`,
		measures,
		shapes: [...drawn, ...places.flatMap((place) => written(place, measures))],
		bounds,
		caption: {
			x: (bounds.left + bounds.right) / 2,
			texts: [
				`You stand here (coil side); ${known.map(planeText).join(', ')}; gaps ${String(times)} times as large`,
				`Coil side; gaps ${String(times)} times as large`,
				`Gaps × ${String(times)}`
			],
			stand: true
		}
	};
}
