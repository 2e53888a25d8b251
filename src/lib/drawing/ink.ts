/** How each thing is drawn: its line and what fills it, in named colours that screen and paper mix for themselves. */
import type { DrawnShape, Role } from './shapes.ts';

export type Colour = 'chalk' | 'chalkFaint' | 'ink' | 'inkQuiet' | 'paper' | 'sheet' | 'stop' | 'worked';

/** A share (0 to 1) of a colour, mixed into another one or laid over what is there. */
interface Tint {
	readonly colour: Colour;
	readonly share?: number;
	readonly into?: Colour;
}

export interface Look {
	readonly fill?: Tint;
	/** Ink where nothing is said; null for no line. */
	readonly stroke?: Colour | null;
	/** Of the line, in pixels of the paper; 1 where nothing is said. */
	readonly width?: number;
	readonly dash?: readonly number[];
	readonly opacity?: number;
	readonly round?: boolean;
}

/** Colours in the words of a medium. */
export interface Palette {
	plain(colour: Colour): string;
	mixed(colour: Colour, share: number, into: Colour): string;
}

const ink = (share: number): Tint => ({ colour: 'ink', share });
const inkOnSheet = (share: number): Tint => ({ colour: 'ink', share, into: 'sheet' });
const chain = [9, 2.5, 2, 2.5] as const;

/** By role; `rect.hood` for one kind of shape alone, `coil.hidden` for what lies behind something else. */
const looks: Readonly<Partial<Record<Role | `${DrawnShape['kind']}.${Role}` | `${Role}.hidden`, Look>>> = {
	ground: { fill: { colour: 'worked' }, stroke: null },
	structure: { fill: { colour: 'worked' }, stroke: null },
	wall: { fill: { colour: 'worked' }, width: 1.3 },
	wallFace: { fill: { colour: 'worked', share: 0.55 }, stroke: null },
	buildUp: { fill: { colour: 'paper' }, width: 0.7 },
	finish: { fill: { colour: 'paper' }, width: 0.7 },
	opening: { fill: { colour: 'paper' }, stroke: null },
	head: { width: 1.3 },
	'head.hidden': { dash: [7, 3, 1.5, 3] },
	jamb: { width: 1.3 },
	'rect.jamb': { fill: { colour: 'sheet' }, stroke: 'inkQuiet', width: 0.7 },
	sill: { width: 2 },
	'rect.curtain': { fill: ink(0.07), stroke: null },
	'path.curtain': { width: 1.8 },
	curtainRow: { stroke: 'inkQuiet', width: 0.45, opacity: 0.75 },
	bottomBar: { fill: inkOnSheet(0.55), width: 0.8 },
	guideLeft: { fill: inkOnSheet(0.14) },
	guideRight: { fill: inkOnSheet(0.14) },
	guideLeg: { fill: ink(0.05), stroke: 'inkQuiet', width: 0.7 },
	bracketPlate: { fill: ink(0.05), stroke: 'inkQuiet', width: 0.7 },
	bracketLeft: { fill: ink(0.1), width: 1.2 },
	bracketRight: { fill: ink(0.1), width: 1.2 },
	leg: { fill: inkOnSheet(0.22) },
	shim: { fill: { colour: 'chalkFaint' }, width: 0.7 },
	shank: { fill: inkOnSheet(0.55) },
	anchorHead: { fill: inkOnSheet(0.55) },
	drive: { fill: inkOnSheet(0.7) },
	coil: { fill: ink(0.1) },
	'coil.hidden': { width: 0.8, dash: [4, 3] },
	coilTurns: { width: 0.6 },
	barrel: { fill: { colour: 'sheet' } },
	'barrel.hidden': { width: 0.8, dash: [4, 3] },
	hood: { width: 2 },
	'rect.hood': { fill: inkOnSheet(0.06), width: 1.3 },
	hoodJoint: { width: 1.4 },
	hoodSupport: { stroke: 'inkQuiet', width: 2.2, dash: [2, 2] },
	centre: { stroke: 'inkQuiet', width: 0.6, dash: chain },
	break: { stroke: 'inkQuiet', width: 0.8 },
	limit: { width: 1.3 },
	'rect.limit': { stroke: null },
	'symbol.centre': { stroke: 'inkQuiet', width: 0.8 },
	'symbol.anchor': { width: 0.8 },
	'symbol.bracketAnchor': { width: 0.8 },
	'symbol.drive': { fill: inkOnSheet(0.7), width: 0.8 },
	'circle.anchor': { fill: { colour: 'sheet' }, width: 0.8 },
	'circle.bracketAnchor': { fill: { colour: 'sheet' }, width: 0.8 }
};

const behind: Look = { width: 0.8, dash: [4, 3] };

/** How a shape of this kind and role is drawn. */
export function lookOf(kind: DrawnShape['kind'], role: Role, hidden: boolean): Look {
	const own = looks[`${kind}.${role}`] ?? looks[role];
	return hidden ? (looks[`${role}.hidden`] ?? own ?? behind) : (own ?? {});
}

/** How what is written beside the drawing is drawn. */
export const writtenLooks = {
	extension: { stroke: 'chalk', width: 0.5, opacity: 0.7 },
	line: { stroke: 'chalk', width: 0.75 },
	tick: { stroke: 'chalk', width: 1.5, round: true },
	full: { fill: { colour: 'ink' }, width: 0.7 },
	empty: { fill: { colour: 'sheet' }, width: 0.7 },
	stand: { fill: { colour: 'ink' }, stroke: null }
} as const satisfies Readonly<Record<string, Look>>;

export type Attributes = Readonly<Record<string, string>>;

/** A look as attributes of SVG. */
export function attributesOf(look: Look, palette: Palette): Attributes {
	const { fill, stroke = 'ink', width = 1, dash, opacity, round } = look;
	return {
		fill:
			fill === undefined
				? 'none'
				: fill.into === undefined
					? palette.plain(fill.colour)
					: palette.mixed(fill.colour, fill.share ?? 1, fill.into),
		...(fill?.share !== undefined && fill.into === undefined ? { 'fill-opacity': String(fill.share) } : {}),
		stroke: stroke === null ? 'none' : palette.plain(stroke),
		...(stroke === null ? {} : { 'stroke-width': String(width), 'stroke-linejoin': 'round' }),
		...(dash ? { 'stroke-dasharray': dash.join(' ') } : {}),
		...(opacity === undefined ? {} : { opacity: String(opacity) }),
		...(round === true ? { 'stroke-linecap': 'round' } : {})
	};
}
