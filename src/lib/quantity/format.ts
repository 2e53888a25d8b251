/** Computed figures for people: a stated number of decimals for each unit, and the unit's real sign. */
import { Decimal } from 'decimal.js';
import { formatLength } from './length.ts';
import type { LengthStyle } from './length.ts';
import { isDimensionless, sameDimension, unit } from './units.ts';

/** Decimals a figure is shown with. Chosen so that the last one still means something on site. */
const decimals = new Map<string, number>([
	['1', 2],
	['each', 2],
	['turn', 2],
	['nm', 0],
	['mm', 1],
	['cm', 2],
	['m', 3],
	['in', 3],
	['ft', 2],
	['yd', 2],
	['in2', 3],
	['ft2', 2],
	['mm2', 0],
	['cm2', 1],
	['m2', 2],
	['in3', 3],
	['in4', 2],
	['mm3', 0],
	['mm4', 0],
	['cm3', 2],
	['cm4', 2],
	['lb', 1],
	['kg', 1],
	['N', 0],
	['kN', 2],
	['lb-ft', 2],
	['lb-in', 1],
	['N-m', 2],
	['lb/ft', 2],
	['lb/in', 3],
	['kg/m', 2],
	['N/m', 1],
	['kN/m', 3],
	['lb/ft2', 3],
	['kg/m2', 2],
	['psi', 0],
	['ksi', 2],
	['psf', 1],
	['Pa', 0],
	['kPa', 2],
	['MPa', 1],
	['s', 0],
	['min', 1],
	['h', 2],
	['day', 2],
	['rpm', 1],
	['V', 0],
	['A', 1],
	['ohm', 3],
	['ohm/ft', 6],
	['ohm/m', 6],
	['money', 2]
]);

/** Figures of these are plain counts and ratios: whole ones are shown whole. */
const trimmed: ReadonlySet<string> = new Set(['1', 'each', 'turn']);

const plainUnit = (text: string): string =>
	text.replaceAll('²', '2').replaceAll('³', '3').replaceAll('⁴', '4').replace(/[·*]/gu, '-');

/** Decimals shown for a unit: 0 to 6; 2 for anything per something in money, 3 for a unit without a rule of its own. */
export function decimalsOf(unitText: string): number {
	const plain = plainUnit(unitText);
	return decimals.get(plain) ?? (plain.startsWith('money') ? 2 : 3);
}

/** A value in base units (`units.ts`) expressed in a unit. @throws Error when the unit is not known. */
export function inUnit(baseValue: number, unitText: string): number {
	return baseValue / unit(unitText).scale;
}

/** `ft2` → `ft²`, `N-m` → `N·m`, `ohm/ft` → `Ω/ft`, `lb-ft` as it is, `money/h` → `per h`; empty for plain numbers and money. */
function signOf(unitText: string): string {
	if (unitText === '1' || unitText === 'money') return '';
	return plainUnit(unitText)
		.replace('N-m', 'N·m')
		.replace('ohm', 'Ω')
		.replace(/^money\//u, 'per ')
		.replace(/(?<=[a-z])[2-9]/gu, (digit) => '⁰¹²³⁴⁵⁶⁷⁸⁹'.charAt(Number(digit)));
}

/**
 * A figure with its unit for people: `58.94 ft²`, `16.97 lb-ft`, `2.43`, `3.50 in⁴`.
 *
 * @param baseValue in base units (nm, lbf, min, V, money), finite.
 * @param unitText unit to show it in; decimals by {@link decimalsOf}, halves away from zero, noise in the twelfth
 * figure taken up first; never `-0`. Plain numbers drop zeros after the decimal mark (`46`, not `46.00`).
 * @param options with `style`, a length is written by `formatLength` in that style.
 * @throws RangeError when the value is not finite, Error when the unit is not known.
 */
export function formatQuantity(
	baseValue: number,
	unitText: string,
	options: { readonly style?: LengthStyle } = {}
): string {
	if (!Number.isFinite(baseValue)) {
		throw new RangeError(`a figure of ${baseValue} ${unitText} can’t be written`);
	}
	const { dimension } = unit(unitText);
	if (options.style && sameDimension(dimension, unit('nm').dimension)) {
		return formatLength(baseValue, options.style);
	}
	const rounded = new Decimal(inUnit(baseValue, unitText).toPrecision(12)).toDecimalPlaces(
		decimalsOf(unitText),
		Decimal.ROUND_HALF_UP
	);
	const size = rounded.abs();
	const figure = trimmed.has(unitText) ? size.toFixed() : size.toFixed(decimalsOf(unitText));
	const sign = signOf(unitText);
	const plural = unitText === 'turn' && isDimensionless(dimension) && figure !== '1' ? 's' : '';
	return `${rounded.isNegative() && !rounded.isZero() ? '-' : ''}${figure}${sign === '' ? '' : ` ${sign}${plural}`}`;
}
