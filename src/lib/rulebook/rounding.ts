/**
 * Rounding and comparing, the same in the program, in the working and in the workbook.
 *
 * Floats carry noise in the sixteenth digit: an exact 5 may arrive as 5.000000000000001. So every rounding first
 * takes the number to nine decimals (half away from zero), as the workbook does with ROUND(x, 9).
 *
 * Spreadsheets differ (LibreOffice 7.4 tried, see tests/exchange/rulebook-workbook.test.ts; Excel from its manual):
 * - ROUNDUP goes away from zero, so it is a ceiling only for x ≥ 0. The workbook's ceiling is -INT(-ROUND(x, 9)),
 *   which goes towards +∞ for both signs and equals ROUNDUP(ROUND(x, 9), 0) wherever x ≥ 0.
 * - INT goes towards -∞ in both; it is the floor.
 * - ROUND goes half away from zero in both, and snaps a product such as 1.005 · 100 = 100.49999999999999 to the tie,
 *   which plain float arithmetic does not. Here whole nanounits are rounded, so ties are ties.
 * - Both keep about 15 digits of a number, and LibreOffice's INT takes 1234567.000000001 (16 digits) for whole. Above
 *   about a million the ninth decimal is therefore not theirs to tell; no ratio that is rounded here gets there.
 * - LibreOffice's and Excel's own `=` and `-` hide differences in the last digits, each in its own way; hence the
 *   ROUND(a - b, 9) in every comparison.
 */

/** Nine decimals, half away from zero, as a whole number of 1e-9. */
const nano = (x: number): number => (x < 0 ? -Math.round(-x * 1e9) : Math.round(x * 1e9));

/** Towards +∞, noise taken up: 5.0000000001 is 5, 5.000000001 is 6, -0.5 is 0 (never -0). */
export const ceilOf = (x: number): number => Math.ceil(nano(x) / 1e9) + 0;

/** Towards -∞, noise taken up: 4.9999999999 is 5. */
export const floorOf = (x: number): number => Math.floor(nano(x) / 1e9) + 0;

/** Half away from zero at `digits` decimals (0 to 8), noise taken up: 2.675 at 2 is 2.68. */
export function roundOf(x: number, digits: number): number {
	const step = 10 ** (9 - digits);
	const magnitude = Math.floor((Math.abs(nano(x)) + step / 2) / step) / 10 ** digits;
	return x < 0 ? 0 - magnitude : magnitude;
}

/** Money to the cent, half to even, noise below a millionth of a cent taken up: 0.125 is 0.12, 0.135 is 0.14. */
export function centsOf(x: number): number {
	const cents = roundOf(x * 100, 6);
	const up = Math.floor(cents + 0.5);
	const tie = Math.abs(cents - Math.trunc(cents)) === 0.5;
	return (tie && up % 2 !== 0 ? up - 1 : up) / 100;
}

/** Half of the last decimal that a comparison looks at, in reference units (`quantity/units`). */
export const comparisonNoise = 0.5e-9;
