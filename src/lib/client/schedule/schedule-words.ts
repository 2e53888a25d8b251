/** Words and figures of the schedule that is brought in. */
import type { LeftOutReason } from '../../exchange/schedule.ts';
import { formatMoney, Money } from '../../quantity/money.ts';
import { showCell } from '../../takeoff/cell.ts';
import { inputOf, type Cell, type InputId, type Measures } from '../../takeoff/inputs.ts';
import { spaced } from '../../takeoff/show.ts';

/** A cell as a person reads it; nothing for an empty one. */
export function cellWords(field: InputId, cell: Cell | undefined, measures: Measures): string {
	const input = inputOf(field);
	const words = showCell(input, cell, measures);
	return input.kind === 'key' && !input.table ? spaced(words) : words;
}

/** Why lines are left out, in a word or two. */
const reasons: Readonly<Record<LeftOutReason, string>> = {
	headings: 'repeated headings',
	total: 'totals',
	heading: 'headings of parts',
	remark: 'remarks',
	ragged: 'cells missing',
	otherTable: 'another table',
	hidden: 'hidden by hand',
	filtered: 'hidden by a filter',
	struck: 'struck through',
	duplicate: 'mark given again',
	alternate: 'alternates'
};

export const reasonWords = (reason: LeftOutReason | null): string =>
	reason === null ? 'other lines' : reasons[reason];

export const money = (amount: string, currency: string): string => formatMoney(new Money(amount), currency);

/** `+$12.00`, `−$3.50`, `no change` */
export function moneyDifference(before: string, after: string, currency: string): string {
	const difference = new Money(after).minus(before);
	if (difference.isZero()) return 'no change';
	return `${difference.isNegative() ? '−' : '+'}${formatMoney(difference.abs(), currency)}`;
}

/** `+2.50 h` */
export function hoursDifference(before: string, after: string): string {
	const difference = new Money(after).minus(before);
	if (difference.isZero()) return 'no change';
	return `${difference.isNegative() ? '−' : '+'}${difference.abs().toFixed(2)} h`;
}
