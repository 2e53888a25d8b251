/** How the chapters write their rules: one line of data each. */
import type { RuleDefinition, Source } from '../../rulebook/definition.ts';

export const definition: Source = { basis: 'definition', text: 'What the word means; no judgement in it.' };
export const commonPractice: Source = { basis: 'commonPractice', text: 'Common practice, no source.' };
export const shop: Source = { basis: 'shop', text: 'The shop book’s own figure or rule of thumb.' };
export const arithmetic: Source = { basis: 'definition', text: 'Plain geometry or arithmetic.' };
export const published = (text: string): Source => ({ basis: 'published', text });

const metric = new Map([
	['in', 'mm'],
	['ft', 'm'],
	['ft2', 'm2'],
	['lb', 'kg'],
	['lb/ft', 'kg/m'],
	['lb/ft2', 'kg/m2'],
	['lb-ft', 'N·m'],
	['ksi', 'MPa'],
	['psf', 'kPa'],
	['in4', 'mm4'],
	['in2', 'mm2'],
	['in/s', 'mm/s'],
	['in3', 'mm3'],
	['psi', 'MPa'],
	['lb-in', 'N·m']
]);

/** The unit a metric job shows for an imperial one; units without a twin (h, min, V, 1) stay. */
export const metricOf = (unit: string): string => metric.get(unit) ?? unit;

interface Line {
	readonly id: string;
	readonly title: string;
	readonly unit: string;
	readonly formula: string;
	/** One plain sentence: what and why. */
	readonly sentence: string;
	readonly source: Source;
	readonly kind?: RuleDefinition['kind'];
	readonly vocabulary?: string;
}

/** The rules of one chapter. */
export function chapter(number: number, lines: readonly Line[]): RuleDefinition[] {
	return lines.map((line) => ({
		...line,
		chapter: number,
		kind: line.kind ?? 'number',
		metricUnit: metricOf(line.unit)
	}));
}

/**
 * A rule written once for both sides: `Side` at the end of a name (or `"side"` as a key, `{side}` in words) becomes
 * `Left` and `Right`.
 */
export function bySide<T extends object>(lines: readonly T[]): T[] {
	const turn = (line: T, side: 'Left' | 'Right'): T => {
		const text = JSON.stringify(line)
			.replace(/(?<=\w)Side\b/gu, side)
			.replace(/\\"side\\"/gu, `\\"${side.toLowerCase()}\\"`)
			.replace(/\{side\}/gu, side.toLowerCase());
		return JSON.parse(text) as T;
	};
	return lines.flatMap((line) => [turn(line, 'Left'), turn(line, 'Right')]);
}

/**
 * A rule written once for the four places where something is held: `Place` before `Side` in a name (or `{place}` in
 * words) becomes `Guide` and `Bracket`, then each is turned to both sides: `tensionPlaceSide` gives `tensionGuideLeft`,
 * `tensionGuideRight`, `tensionBracketLeft`, `tensionBracketRight`.
 */
export function byPlace<T extends object>(lines: readonly T[]): T[] {
	const put = (line: T, place: 'Guide' | 'Bracket'): T => {
		const text = JSON.stringify(line)
			.replace(/(?<=\w)Place(?=Side\b|\b)/gu, place)
			.replace(/\{place\}/gu, place.toLowerCase());
		return JSON.parse(text) as T;
	};
	return bySide(lines.flatMap((line) => [put(line, 'Guide'), put(line, 'Bracket')]));
}
