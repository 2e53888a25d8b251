/** Amounts and differences as they stand in a sentence. */
import type { Decimal } from 'decimal.js';
import type { Part } from '../takeoff/result.ts';
import type { Difference } from './comparison.ts';

/** `4`; `3 tubes`; `12 ft`: pieces go without a word. */
export function amountText(amount: Decimal, unit: Part['unit']): string {
	if (unit === 'each') return amount.toFixed();
	return `${amount.toFixed()} ${unit === 'ft' || amount.eq(1) ? unit : `${unit}s`}`;
}

/** `length 9'-0" shipped, 9'-2" ordered`. */
export function differenceText({ attribute, ordered, shipped }: Difference): string {
	if (attribute === 'remark') return `by its remark not what was ordered: ${shipped}`;
	if (attribute === 'revision') return `an old revision: ${shipped} shipped, ${ordered} took its place`;
	if (attribute === 'quantity') return `quantity ${shipped}`;
	if (attribute === 'unit') return `counted in ${shipped}, ordered in ${ordered}`;
	return `${attribute} ${shipped} shipped, ${ordered} ordered`;
}

export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
