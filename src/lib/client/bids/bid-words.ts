/** Bids in words. */
import type { AmountDifference } from '../../changes/bid-comparison.ts';
import type { BidQuantity, BidValue } from '../../changes/bid.ts';
import { formatMoney, Money } from '../../quantity/money.ts';
import type { TechnicalBook } from '../../shopbook/schema.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { showKey, showQuantity } from '../../takeoff/show.ts';

/** An amount of money with its currency. */
export const money = (amount: string, currency: string): string => formatMoney(new Money(amount), currency);

/** What an amount grew or shrank by: `+$120.00`, `-$35.10`, `no difference`. */
export function changeWords({ difference }: Pick<AmountDifference, 'difference'>, currency: string): string {
	const amount = new Money(difference);
	if (amount.isZero()) return 'no difference';
	return `${amount.isPositive() ? '+' : ''}${formatMoney(amount, currency)}`;
}

/** A frozen value with its unit. The book only says how a barrel is called. */
export function valueWords(
	book: TechnicalBook,
	quantity: BidQuantity,
	value: BidValue,
	measures: Measures
): string {
	if (value === null) return 'not worked out';
	return typeof value === 'string'
		? showKey(book, quantity.id, value)
		: showQuantity(value, quantity, measures);
}
