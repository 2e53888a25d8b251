/** Drawings as SVG in text, for paper. The screen draws the same strokes as elements. */
import { hatchPatterns } from './hatches.ts';
import { attributesOf, type Attributes, type Colour, type Palette } from './ink.ts';
import type { Layout, PlacedText } from './layout.ts';
import type { Point, Scene } from './shapes.ts';
import { dimensionStrokes, footStrokes, strokesOf, type DrawnStroke, type Stroke } from './strokes.ts';

/** Dark on white, for any printer. */
const inks: Readonly<Record<Colour, readonly [red: number, green: number, blue: number]>> = {
	ink: [0x1c, 0x20, 0x25],
	inkQuiet: [0x4c, 0x51, 0x58],
	paper: [0xff, 0xff, 0xff],
	sheet: [0xff, 0xff, 0xff],
	worked: [0xf3, 0xf1, 0xea],
	chalk: [0x1b, 0x5a, 0x9e],
	chalkFaint: [0xe4, 0xed, 0xf6],
	stop: [0x9c, 0x21, 0x18]
};

const hex = (channels: readonly number[]): string =>
	`#${channels.map((channel) => Math.round(channel).toString(16).padStart(2, '0')).join('')}`;

export const printed: Palette = {
	plain: (colour) => hex(inks[colour]),
	mixed: (colour, share, into) =>
		hex(inks[colour].map((channel, i) => share * channel + (1 - share) * (inks[into][i] ?? 0)))
};

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text as it may stand in an element or an attribute. */
const escaped = (text: string): string => text.replace(/[&<>"]/gu, (sign) => escapes[sign] ?? sign);

const element = (name: string, attributes: Attributes, content = ''): string =>
	`<${name}${Object.entries(attributes)
		.map(([key, value]) => ` ${key}="${escaped(value)}"`)
		.join('')}>${content}</${name}>`;

export interface Lettering {
	readonly fontSize: number;
	readonly colour?: Colour;
	readonly bold?: boolean;
	readonly anchor?: 'start' | 'middle' | 'end';
	/** Reads upwards. */
	readonly turned?: boolean;
}

/** Half the height of a capital, as a share of the font size: Helvetica’s capitals are 0.718 high. */
const halfCapital = 0.359;

/** A line of text whose middle height is at `at`. */
export function textElement(text: string, { x, y }: Point, lettering: Lettering): string {
	const { fontSize, colour = 'ink', bold = false, anchor = 'middle', turned = false } = lettering;
	return element(
		'text',
		{
			x: x.toFixed(2),
			y: (y + halfCapital * fontSize).toFixed(2),
			'font-size': fontSize.toFixed(2),
			...(bold ? { 'font-weight': 'bold' } : {}),
			'text-anchor': anchor,
			fill: printed.plain(colour),
			...(turned ? { transform: `rotate(-90 ${x.toFixed(2)} ${y.toFixed(2)})` } : {})
		},
		escaped(text)
	);
}

export const strokeElement = (stroke: Stroke): string => element(stroke.element, stroke.attributes);

/** A stroke of a drawing, hatched where it is cut. */
function drawnElement(stroke: DrawnStroke): string {
	const drawn = strokeElement(stroke);
	if (stroke.hatch === null) return drawn;
	const { x = '0', y = '0', width = '0', height = '0' } = stroke.attributes;
	return drawn + element('rect', { x, y, width, height, fill: `url(#${stroke.hatch})` });
}

/** The patterns of these walls, which drawings on the same sheet refer to. */
export const hatchElements = (used: ReadonlySet<string>): string =>
	element(
		'defs',
		{},
		hatchPatterns(printed)
			.filter(({ id }) => used.has(id))
			.map(({ id, width, height, lines }) =>
				element(
					'pattern',
					{ id, width: String(width), height: String(height), patternUnits: 'userSpaceOnUse' },
					lines.map(({ d, attributes }) => element('path', { ...attributes, d })).join('')
				)
			)
			.join('')
	);

/** Clears what lies under a text, so that nothing is read through it; framed where it has to be seen. */
const underText = ({ area }: PlacedText, framed: boolean): Stroke => {
	const [x, y, width, height] = [area.x - 1, area.y - 1, area.width + 2, area.height + 2];
	const look = { fill: { colour: 'paper' }, stroke: framed ? 'stop' : null, width: 0.8 } as const;
	const d = `M${x.toFixed(2)} ${y.toFixed(2)}h${width.toFixed(2)}v${height.toFixed(2)}h${(-width).toFixed(2)}Z`;
	return { element: 'path', attributes: { ...attributesOf(look, printed), d } };
};

/** Paths that look alike as one: a page holds hundreds of them. */
function joined(strokes: readonly Stroke[]): Stroke[] {
	const byLook = new Map<string, Stroke>();
	for (const stroke of strokes) {
		const { d = '', ...look } = stroke.attributes;
		const key = JSON.stringify(look);
		const before = byLook.get(key)?.attributes.d ?? '';
		byLook.set(key, { ...stroke, attributes: { ...look, d: before + d } });
	}
	return [...byLook.values()];
}

/** One drawing that is laid out, with everything written around it, its scale bar and its caption. */
export function drawingElements(scene: Scene, layout: Layout): string {
	const { fontSize } = layout;
	const written = [...layout.dimensions, ...layout.notes].map(({ shape, text }) => {
		const short = shape.kind === 'dimension' && shape.short;
		const colour = short ? 'stop' : shape.kind === 'note' ? 'inkQuiet' : 'ink';
		return {
			under: underText(text, short),
			text: textElement(text.text, text.at, { fontSize, colour, bold: short, turned: text.turned })
		};
	});
	const { scaleBar, caption } = layout;
	const barText = { x: scaleBar.at.x + scaleBar.length + 6, y: scaleBar.at.y };
	return [
		...strokesOf(scene, layout, printed).map(drawnElement),
		...joined(layout.dimensions.flatMap((one) => dimensionStrokes(one, printed))).map(strokeElement),
		...joined(written.map(({ under }) => under)).map(strokeElement),
		...written.map(({ text }) => text),
		...footStrokes(layout, printed).map(strokeElement),
		textElement(scaleBar.text, barText, { fontSize, colour: 'inkQuiet', anchor: 'start' }),
		textElement(caption.text, caption.at, { fontSize, colour: 'inkQuiet' })
	].join('');
}
