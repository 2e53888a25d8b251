/**
 * `x` to the power `p`, both plain numbers: x ≥ 0, any p. Not known (NaN) for a negative x, for 0 to a power of 0 or less,
 * and where the result is too large for a number. Programs that read a workbook each answer those cases in their own
 * way (an odd root of a negative number, 0 to the power 0), so none of them is left to them.
 */
export function powerOf(x: number, p: number): number {
	// Math.pow makes 1 of anything to the power 0, of NaN too.
	if (x > 0) {
		const result = x ** p;
		return Number.isFinite(result) ? result : NaN;
	}
	return x === 0 && p > 0 ? 0 : NaN;
}
