/** How far an opening may be from its drawing before nothing may be drilled. */
import type { Source } from '../rulebook/definition.ts';

const inch = 25_400_000;

type ToleranceId =
	'width' | 'height' | 'skew' | 'shim' | 'sillLeast' | 'sillPerTenFeet' | 'level' | 'closure' | 'plumbReach';

interface ToleranceRow {
	readonly id: ToleranceId;
	readonly title: string;
	/** nm, more than 0. */
	readonly nm: number;
	readonly sentence: string;
	readonly source: Source;
}

/** No publication stands behind these figures. */
const invented: Source = { basis: 'invented', text: 'The shop’s own, invented.' };

// prettier-ignore
const toleranceRows: readonly ToleranceRow[] = [
	{ id: 'width', title: 'Width', nm: inch / 4, sentence: 'Governing width against the drawing, more or less.', source: invented },
	{ id: 'height', title: 'Height', nm: inch / 4, sentence: 'Height of either side against the drawing, more or less.', source: invented },
	{ id: 'skew', title: 'Skew', nm: inch / 4, sentence: 'Lean of the opening over its height, either way; also of a jamb that a guide stands beside and not against.', source: invented },
	{ id: 'shim', title: 'Shims', nm: (3 * inch) / 4, sentence: 'The thickest stack of shims under a guide.', source: invented },
	{ id: 'sillLeast', title: 'Sill, least', nm: inch / 8, sentence: 'A sill may always be out of level by this much.', source: invented },
	{ id: 'sillPerTenFeet', title: 'Sill, for each 10 ft', nm: inch / 8, sentence: 'A wider sill may be out of level by this much for each 10 ft of width.', source: invented },
	{ id: 'level', title: 'Guide tops', nm: inch / 8, sentence: 'Tops of the two guides above one datum, before a caution.', source: invented },
	{ id: 'closure', title: 'Diagonals', nm: inch / 2, sentence: 'What the diagonals may differ from those of the measured width and height before one of them is taken for misread.', source: invented },
	{ id: 'plumbReach', title: 'Plumb readings', nm: 24 * inch, sentence: 'The outermost reading may be this far from the outermost anchor.', source: invented }
];

/** Each in nm. */
export type Tolerances = Readonly<Record<ToleranceId, number>>;

export const defaultTolerances: Tolerances = Object.fromEntries(
	toleranceRows.map(({ id, nm }) => [id, nm])
) as Record<ToleranceId, number>;

const tenFeet = 120 * inch;

/** What a sill of this width (nm) may be out of level from end to end, whole nm. */
export const sillAllowed = ({ sillLeast, sillPerTenFeet }: Tolerances, width: number): number =>
	Math.max(sillLeast, Math.round((sillPerTenFeet * width) / tenFeet));
