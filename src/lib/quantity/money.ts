/** Money: exact decimals. Sums are in the currency of the price book; nothing here knows which one that is. */
import { Decimal } from 'decimal.js';

/** Decimal of its own, 40 digits, half-even, so that no other user of the library changes our rounding. */
export const Money = Decimal.clone({
	precision: 40,
	rounding: Decimal.ROUND_HALF_EVEN,
	toExpNeg: -60,
	toExpPos: 60
});

/** Rounds to the cent, halves to the even cent; never -0. @throws RangeError when it is not a finite amount. */
export function cents(amount: Decimal): Decimal {
	if (!amount.isFinite()) throw new RangeError(`an amount of ${amount.toString()} can’t be rounded to cents`);
	const rounded = new Money(amount.toDecimalPlaces(2, Decimal.ROUND_HALF_EVEN));
	return rounded.isZero() ? new Money(0) : rounded;
}

/** Weights are scaled to whole numbers; beyond this many digits on either side something is wrong with them. */
const mostDigits = 60;

/**
 * Shares a total out by weight, to the cent, by largest remainder: every share is rounded down to the cent (towards
 * zero), and the cents left over go one each to the largest remainders, equal ones in the order given. The shares add
 * up to the total exactly. All weights zero: equal shares. A negative total is shared as its amount, then negated.
 *
 * @param total whole cents.
 * @param weights one or more, each 0 or more.
 * @throws RangeError when the total is not whole cents, or there are no weights, or one is negative or not finite.
 */
export function shareOut(total: Decimal, weights: readonly Decimal[]): Decimal[] {
	if (!total.isFinite() || total.decimalPlaces() > 2) {
		throw new RangeError(`${total.toString()} is not an amount in whole cents`);
	}
	if (weights.length === 0) throw new RangeError('there is nobody to share the amount out to');
	let places = 0;
	for (const weight of weights) {
		if (!weight.isFinite() || (weight.isNegative() && !weight.isZero()) || weight.e > mostDigits) {
			throw new RangeError(`${weight.toString()} is not a weight; it must be 0 or more`);
		}
		if (weight.decimalPlaces() > mostDigits) {
			throw new RangeError(`a weight has more than ${mostDigits} decimals`);
		}
		places = Math.max(places, weight.decimalPlaces());
	}
	let scaled = weights.map((weight) => BigInt(weight.abs().toFixed(places).replace('.', '')));
	let sum = scaled.reduce((a, b) => a + b, 0n);
	if (sum === 0n) {
		scaled = weights.map(() => 1n);
		sum = BigInt(weights.length);
	}
	const amount = BigInt(total.abs().toFixed(2).replace('.', ''));
	const shares = scaled.map((weight, index) => ({
		index,
		cents: (amount * weight) / sum,
		remainder: (amount * weight) % sum
	}));
	let left = amount - shares.reduce((a, share) => a + share.cents, 0n);
	const byRemainder = [...shares].sort((a, b) =>
		a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1
	);
	for (const share of byRemainder) {
		if (left === 0n) break;
		share.cents++;
		left--;
	}
	const negative = total.isNegative();
	return shares.map((share) => {
		const value = new Money(String(share.cents)).div(100);
		return negative && !value.isZero() ? value.neg() : value;
	});
}

const signs = new Map<string, string>([
	['USD', '$'],
	['EUR', '€'],
	['GBP', '£']
]);

/**
 * An amount for people, to the cent: `$12,345.60`, `-$0.50`, `CAD 1,000.00`.
 * @param currency ISO 4217 code.
 */
export function formatMoney(amount: Decimal, currency: string): string {
	const rounded = cents(amount);
	const [whole = '0', decimals = '00'] = rounded.abs().toFixed(2).split('.');
	const grouped = whole.replace(/\B(?=(?:\d{3})+$)/gu, ',');
	return `${rounded.isNegative() ? '-' : ''}${signs.get(currency) ?? `${currency} `}${grouped}.${decimals}`;
}
