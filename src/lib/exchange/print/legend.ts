/** What the lines, hatches and symbols of a sheet stand for: only those that are on it. */
import { lookOf, attributesOf, writtenLooks, type Attributes } from '../../drawing/ink.ts';
import type { Layout } from '../../drawing/layout.ts';
import { words, type Point, type Scene } from '../../drawing/shapes.ts';
import type { DrawnStroke } from '../../drawing/strokes.ts';
import { printed, strokeElement, textElement } from '../../drawing/svg-text.ts';
import { helveticaWidth } from './helvetica.ts';

/** A drawing as it stands on the sheet. */
export interface LaidOut {
	readonly scene: Scene;
	readonly layout: Layout;
	readonly strokes: readonly DrawnStroke[];
}

/** Draws a sample around its middle. */
type Sample = (at: Point) => string;

interface Entry {
	readonly text: string;
	readonly sample: Sample;
}

const [sampleWidth, sampleHeight] = [24, 11];

const text = (value: number): string => value.toFixed(2);

/** The place of a sample as an area, a line or a ring. */
function samplePlace(element: DrawnStroke['element'], { x, y }: Point): Attributes {
	const [left, half] = [x - sampleWidth / 2, sampleHeight / 2];
	switch (element) {
		case 'rect':
			return {
				x: text(left),
				y: text(y - half),
				width: text(sampleWidth),
				height: text(sampleHeight)
			};
		case 'circle':
			return { cx: text(x), cy: text(y), r: text(half) };
		case 'path':
			return { d: `M${text(left)} ${text(y)}h${text(sampleWidth)}` };
	}
}

/** The looks of a stroke without its place. */
const placeNames = new Set(['x', 'y', 'width', 'height', 'cx', 'cy', 'r', 'd']);
const withoutPlace = (attributes: Attributes): Attributes =>
	Object.fromEntries(Object.entries(attributes).filter(([name]) => !placeNames.has(name)));

const looksLike =
	({ element, attributes, hatch }: DrawnStroke): Sample =>
	(at) => {
		const place = samplePlace(element, at);
		const drawn = strokeElement({ element, attributes: { ...withoutPlace(attributes), ...place } });
		return hatch === null
			? drawn
			: drawn + strokeElement({ element: 'rect', attributes: { ...place, fill: `url(#${hatch})` } });
	};

/** An anchor as it is drawn: a ring with a cross, or a head with its shank. */
const anchorSample =
	(sideways: boolean): Sample =>
	({ x, y }) => {
		const lines = attributesOf(lookOf('symbol', 'anchor', false), printed);
		const ring = attributesOf(lookOf('circle', 'anchor', false), printed);
		if (sideways)
			return strokeElement({
				element: 'path',
				attributes: {
					...lines,
					d: `M${text(x - 4)} ${text(y - 3)}v6M${text(x - 6)} ${text(y)}h12`
				}
			});
		return (
			strokeElement({ element: 'circle', attributes: { ...ring, cx: text(x), cy: text(y), r: '3' } }) +
			strokeElement({
				element: 'path',
				attributes: { ...lines, d: `M${text(x - 4.5)} ${text(y)}h9M${text(x)} ${text(y - 4.5)}v9` }
			})
		);
	};

const block: Sample = ({ x, y }) =>
	strokeElement({
		element: 'path',
		attributes: {
			...attributesOf(lookOf('symbol', 'drive', false), printed),
			d: `M${text(x - 4)} ${text(y - 4)}h8v8h-8Z`
		}
	});

const zigzag: Sample = ({ x, y }) =>
	strokeElement({
		element: 'path',
		attributes: {
			...attributesOf(lookOf('path', 'break', false), printed),
			d: `M${text(x - 12)} ${text(y)}h8l3 -4 3 8 3 -4h7`
		}
	});

const dimensionSample =
	(short: boolean): Sample =>
	({ x, y }) => {
		const stroke = short ? ({ stroke: 'stop' } as const) : {};
		const line = attributesOf({ ...writtenLooks.line, ...stroke }, printed);
		const tick = attributesOf({ ...writtenLooks.tick, ...stroke }, printed);
		const ends = [x - 9, x + 9].map((end) => `M${text(end - 3)} ${text(y + 3)}l6 -6`).join('');
		return (
			strokeElement({
				element: 'path',
				attributes: { ...line, d: `M${text(x - 12)} ${text(y)}h24` }
			}) + strokeElement({ element: 'path', attributes: { ...tick, d: ends } })
		);
	};

const standSample: Sample = ({ x, y }) =>
	strokeElement({
		element: 'path',
		attributes: {
			...attributesOf(writtenLooks.stand, printed),
			d: `M${text(x)} ${text(y - 4)}l4.5 8h-9Z`
		}
	});

/** What a stroke is, and how it is shown; null for what explains itself. */
function entryOf(stroke: DrawnStroke): Entry | null {
	const { role, kind, hidden, hatch } = stroke;
	const as = (words: string, sample: Sample = looksLike(stroke)): Entry => ({ text: words, sample });
	if (hatch !== null && hatch !== 'ground') return as(`cut: ${words(hatch)}`);
	switch (role) {
		case 'anchor':
		case 'bracketAnchor':
			if (stroke.element === 'circle') return null;
			return stroke.sideways
				? as('anchor seen from the side', anchorSample(true))
				: as('anchor seen from its end', anchorSample(false));
		case 'barrel':
			return as(hidden ? 'barrel, hidden' : 'barrel');
		case 'bottomBar':
			return as('bottom bar');
		case 'bracketLeft':
		case 'bracketRight':
			return as('bracket');
		case 'bracketPlate':
		case 'guideLeg':
			return as('leg of the guide, wall plate');
		case 'break':
			return as('broken off', zigzag);
		case 'buildUp':
			return as('floor finish to come');
		case 'centre':
			return kind === 'symbol' ? null : as('centre line');
		case 'coil':
			return as(hidden ? 'coil, hidden' : 'coil');
		case 'coilOther':
			return as('coil when open');
		case 'curtain':
			return as(kind === 'path' ? 'curtain, cut' : 'curtain');
		case 'drive':
			return as('drive', block);
		case 'finish':
			return as('wall finish');
		case 'ground':
			return as('floor');
		case 'guideLeft':
		case 'guideRight':
			return as('guide');
		case 'head':
			return hidden ? as('height that stays clear') : null;
		case 'hood':
			return as(kind === 'path' ? 'hood, cut' : 'hood');
		case 'hoodJoint':
			return as('joint of the hood');
		case 'hoodSupport':
			return as('support behind the hood');
		case 'limit':
			return kind === 'rect' ? as('no room beyond') : null;
		case 'structure':
			return as('structure above');
		case 'wallFace':
			return as('face of the wall');
		default:
			return null;
	}
}

function entriesOf(drawings: readonly LaidOut[]): Entry[] {
	const found = new Map<string, Entry>();
	const add = (entry: Entry | null): void => {
		if (entry && !found.has(entry.text)) found.set(entry.text, entry);
	};
	for (const { strokes } of drawings) for (const stroke of strokes) add(entryOf(stroke));
	const dimensions = drawings.flatMap(({ layout }) => layout.dimensions);
	if (dimensions.some(({ shape }) => !shape.short))
		add({ text: 'size between the ticks', sample: dimensionSample(false) });
	if (dimensions.some(({ shape }) => shape.short))
		add({ text: 'too little room', sample: dimensionSample(true) });
	if (drawings.some(({ layout }) => layout.stand !== null))
		add({ text: 'where you stand', sample: standSample });
	return [...found.values()];
}

export interface Legend {
	readonly height: number;
	/** Drawn with its upper left corner at this point. */
	draw(at: Point): string;
}

const rowHeight = 17;
const between = 16;

/** The legend of the drawings on one sheet, in rows of this width. */
export function legendOf(drawings: readonly LaidOut[], width: number, fontSize: number): Legend {
	const rows: { x: number; entry: Entry }[][] = [[]];
	let x = 0;
	for (const entry of entriesOf(drawings)) {
		const wide = sampleWidth + 6 + helveticaWidth(entry.text, fontSize);
		if (x > 0 && x + wide > width) {
			rows.push([]);
			x = 0;
		}
		rows.at(-1)?.push({ x, entry });
		x += wide + between;
	}
	return {
		height: rows.length * rowHeight,
		draw: (at) =>
			rows
				.flatMap((row, i) =>
					row.map(({ x: start, entry }) => {
						const y = at.y + (i + 0.5) * rowHeight;
						const left = at.x + start;
						return (
							entry.sample({ x: left + sampleWidth / 2, y }) +
							textElement(
								entry.text,
								{ x: left + sampleWidth + 6, y },
								{ fontSize, colour: 'inkQuiet', anchor: 'start' }
							)
						);
					})
				)
				.join('')
	};
}
