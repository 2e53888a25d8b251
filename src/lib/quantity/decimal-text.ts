/** A decimal number as text, exact: `digits / 10^places`. */
interface ExactDecimal {
	readonly digits: bigint;
	readonly places: number;
}

/** How a comma in a number is taken. */
type CommaRule = 'refused' | 'decimal';

/**
 * Reads `12`, `12.5` or `.5`: no sign, no exponent, no grouping. A dot is always the decimal mark. Where the rule is
 * `decimal` (metric jobs) a comma is one too, except where it could stand for thousands: three digits after it and
 * something other than 0 before it (`1,234`).
 */
export function readDecimal(
	text: string,
	comma: CommaRule
): { ok: true; value: ExactDecimal } | { ok: false; reason: string } {
	const match = /^(\d*)(?:([.,])(\d+))?$/u.exec(text);
	const [, whole = '', mark, decimals = ''] = match ?? [];
	if (!match || whole + decimals === '') {
		return { ok: false, reason: `"${text}" is not a plain number; write one such as 12 or 12.5` };
	}
	if (mark === ',') {
		const dotted = `${whole === '' ? '0' : whole}.${decimals}`;
		if (decimals.length === 3 && !/^0*$/u.test(whole)) {
			return {
				ok: false,
				reason: `"${text}" could be ${dotted} or ${whole}${decimals}; write it without the comma`
			};
		}
		if (comma === 'refused') return { ok: false, reason: `"${text}" has a comma; write ${dotted}` };
	}
	return { ok: true, value: { digits: BigInt(whole + decimals), places: decimals.length } };
}
