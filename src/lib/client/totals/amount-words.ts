/** Sums of the takeoff as a person reads them. */
import { formatQuantity } from '../../quantity/format.ts';
import { formatLength } from '../../quantity/length.ts';
import { unit } from '../../quantity/units.ts';
import type { Amount } from '../../takeoff/totals.ts';

/** A sum with its unit; `value` is in `unit` already. */
export function showAmount({ value, unit: unitText }: Pick<Amount, 'value' | 'unit'>): string {
	const base = value * unit(unitText).scale;
	return unitText === 'in' ? formatLength(Math.round(base), 'feetInches') : formatQuantity(base, unitText);
}

/** A number of things in words of the shop book: `12 tubes` stays as its unit says. */
export const showCount = (value: number, unitWord: string): string =>
	`${Number(value.toFixed(2))} ${unitWord}`;
