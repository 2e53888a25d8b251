/** How a cut through each wall is hatched. Patterns keep their size on paper whatever the scale. */
import { attributesOf, type Attributes, type Look, type Palette } from './ink.ts';

interface Hatch {
	readonly width: number;
	readonly height: number;
	readonly lines: readonly { readonly d: string; readonly look?: Look }[];
}

const thin: Look = { stroke: 'inkQuiet', width: 0.6 };
const dots: Look = { stroke: 'inkQuiet', width: 1.1, round: true };
const heavy: Look = { stroke: 'inkQuiet', width: 1.2 };
const bare: Look = { ...thin, fill: { colour: 'paper' } };

/** By the wall it stands for; `ground` for the floor and for what isn't known. */
const hatches: Readonly<Record<string, Hatch>> = {
	concrete: {
		width: 16,
		height: 16,
		lines: [
			{ d: 'M3 4.5 5.6 3.4 5.2 6.2Z M11 12.6 13.4 11.6 13 14Z' },
			{
				d: 'M9.5 3.5h.01 M13.5 6h.01 M2 10.5h.01 M7 9.5h.01 M6 14h.01 M14.5 1h.01 M10 7h.01',
				look: dots
			}
		]
	},
	groutedBlock: {
		width: 12,
		height: 12,
		lines: [
			{ d: 'M-1 1 1 -1 M0 12 12 0 M11 13 13 11' },
			{ d: 'M3 3h.01 M9 9h.01 M4.5 10.5h.01 M10.5 4h.01', look: dots }
		]
	},
	hollowBlock: {
		width: 14,
		height: 14,
		lines: [{ d: 'M-1 1 1 -1 M0 14 14 0 M13 15 15 13' }, { d: 'M3.5 4.5h7v5h-7Z', look: bare }]
	},
	brick: {
		width: 8,
		height: 8,
		lines: [{ d: 'M-1 1 1 -1 M0 8 8 0 M7 9 9 7 M-1 3.2 3.2 -1 M2.2 8 8 2.2' }]
	},
	structuralSteel: {
		width: 7,
		height: 7,
		lines: [{ d: 'M-1 1 1 -1 M0 7 7 0 M6 8 8 6', look: heavy }, { d: 'M-1 3 3 -1 M2 7 7 2' }]
	},
	studWithBacking: { width: 16, height: 12, lines: [{ d: 'M0 3Q4 -3 8 3T16 3 M0 9Q4 3 8 9T16 9' }] },
	wood: {
		width: 14,
		height: 18,
		lines: [{ d: 'M2 0Q5 4.5 2 9T2 18 M6.5 0Q9.5 4.5 6.5 9T6.5 18 M11 0Q13 4.5 11 9T11 18' }]
	},
	ground: { width: 9, height: 9, lines: [{ d: 'M0 9 9 0 M-1 1 1 -1 M8 10 10 8' }] }
};

export interface HatchPattern {
	readonly id: string;
	readonly width: number;
	readonly height: number;
	readonly lines: readonly { readonly d: string; readonly attributes: Attributes }[];
}

/** Every hatch as a pattern of SVG. */
export const hatchPatterns = (palette: Palette): HatchPattern[] =>
	Object.entries(hatches).map(([id, { width, height, lines }]) => ({
		id,
		width,
		height,
		lines: lines.map(({ d, look = thin }) => ({ d, attributes: attributesOf(look, palette) }))
	}));
