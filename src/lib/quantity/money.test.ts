import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Money, cents, formatMoney, shareOut } from './money.ts';

const money = (text: string | number): Decimal => new Money(text);
const texts = (amounts: readonly Decimal[]): string[] => amounts.map((amount) => amount.toFixed(2));

describe('Money', () => {
	it('is a Decimal of its own: the library’s settings do not reach it', () => {
		Decimal.set({ precision: 5 });
		expect(money('1').div(3).toString()).toBe(`0.${'3'.repeat(40)}`);
		Decimal.set({ precision: 20 });
	});
});

describe('cents', () => {
	it.each([
		['0.005', '0.00'],
		['0.015', '0.02'],
		['0.025', '0.02'],
		['0.0250000001', '0.03'],
		['2.675', '2.68'],
		['-0.015', '-0.02'],
		['-0.025', '-0.02'],
		['1234567890123456.785', '1234567890123456.78']
	])('%s → %s, halves to the even cent', (from, to) => {
		expect(cents(money(from)).toFixed(2)).toBe(to);
	});

	it('is never -0 and never something that is no amount', () => {
		expect(cents(money('-0.001')).isNegative()).toBe(false);
		expect(() => cents(money('NaN'))).toThrow(RangeError);
		expect(() => cents(money('Infinity'))).toThrow(RangeError);
	});
});

describe('shareOut', () => {
	it('gives the cents left over to the largest remainders', () => {
		// 100.00 by 1:2:4 = 14.2857… 28.5714… 57.1428…: down 14.28 28.57 57.14, one cent over to .57 (the first)
		expect(texts(shareOut(money(100), [money(1), money(2), money(4)]))).toEqual(['14.29', '28.57', '57.14']);
	});

	it('settles ties by order', () => {
		// 0.05 in three: one cent each, two over
		expect(texts(shareOut(money('0.05'), [money(1), money(1), money(1)]))).toEqual(['0.02', '0.02', '0.01']);
	});

	it('shares a credit as its amount', () => {
		expect(texts(shareOut(money('-0.05'), [money(1), money(1), money(1)]))).toEqual([
			'-0.02',
			'-0.02',
			'-0.01'
		]);
	});

	it('shares equally when every weight is zero', () => {
		expect(texts(shareOut(money('10'), [money(0), money(0), money('-0')]))).toEqual(['3.34', '3.33', '3.33']);
	});

	it('gives nothing to a weight of zero beside others', () => {
		expect(texts(shareOut(money('0.01'), [money(0), money('0.0001')]))).toEqual(['0.00', '0.01']);
	});

	it('refuses what can’t be shared', () => {
		expect(() => shareOut(money('0.001'), [money(1)])).toThrow('whole cents');
		expect(() => shareOut(money(1), [])).toThrow('nobody');
		expect(() => shareOut(money(1), [money(-1)])).toThrow('not a weight');
		expect(() => shareOut(money(1), [money('NaN')])).toThrow('not a weight');
		expect(() => shareOut(money(1), [money('1e500')])).toThrow('not a weight');
		expect(() => shareOut(money(1), [money('1e-70')])).toThrow('decimals');
	});

	it('adds up to the cent, and no share is a cent or more from its exact one', () => {
		const weight = fc
			.tuple(fc.bigInt({ min: 0n, max: 10n ** 18n }), fc.nat(9))
			.map(([digits, places]) => money(`${digits}e-${places}`));
		fc.assert(
			fc.property(
				fc.bigInt({ min: -(10n ** 15n), max: 10n ** 15n }),
				fc.array(weight, { minLength: 1, maxLength: 40 }),
				(amount, weights) => {
					const total = money(String(amount)).div(100);
					const shares = shareOut(total, weights);
					expect(shares.reduce((a, b) => a.plus(b), money(0)).eq(total)).toBe(true);
					const sum = weights.reduce((a, b) => a.plus(b), money(0));
					shares.forEach((share, i) => {
						expect(share.decimalPlaces()).toBeLessThanOrEqual(2);
						const exact = sum.isZero() ? total.div(weights.length) : total.times(weights[i] ?? 0).div(sum);
						expect(share.minus(exact).abs().lt('0.01')).toBe(true);
					});
				}
			)
		);
	});
});

describe('formatMoney', () => {
	it.each([
		['12345.6', 'USD', '$12,345.60'],
		['-0.5', 'USD', '-$0.50'],
		['-0.001', 'USD', '$0.00'],
		['999.999', 'EUR', '€1,000.00'],
		['1234567.125', 'CAD', 'CAD 1,234,567.12'],
		['100', 'constructor', 'constructor 100.00']
	])('%s %s', (amount, currency, expected) => {
		expect(formatMoney(money(amount), currency)).toBe(expected);
	});
});
