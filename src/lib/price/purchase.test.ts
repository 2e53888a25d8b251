import { describe, expect, it } from 'vitest';
import { engineOf, openingA, openingB, openingC, pricingOf, typedRow } from '../../../tests/opening-rows.ts';
import { Money } from '../quantity/money.ts';
import { demoTechnicalBook } from '../shopbook/demo/demo-book.ts';
import { materialLines } from './material.ts';

const engine = engineOf();
const pricing = pricingOf(engine);
const sum = (amounts: readonly string[]): string =>
	amounts.reduce((total, amount) => total.plus(amount), new Money(0)).toFixed(2);

describe('what the parts of opening A cost, by hand (prices of the demo book, invented)', () => {
	const job = engine.takeoff([typedRow(openingA)], 'imperial');
	const { items, sums, marks } = pricing.purchases(job);

	it.each([
		// 58.9375 → 58.94 ft² · 1.02
		['curtain', '60.1188', 'ft²', '11.60', '697.38'],
		['bar', '10.25', 'ft', '4.90', '50.22'],
		['guideLeft', '4.17', 'ft', '6.35', '26.48'],
		['guideRight', '4.17', 'ft', '6.35', '26.48'],
		['barrel', '10.38', 'ft', '6.20', '64.36'],
		['brackets', '1', 'pair', '58.00', '58.00'],
		['drive', '1', '', '212.00', '212.00'],
		// 23.34 ft² · 1.05
		['hood', '24.507', 'ft²', '3.45', '84.55'],
		['endCap', '2', '', '9.75', '19.50'],
		['anchorsLeft', '6.6', '', '0.78', '5.15'],
		['anchorsRight', '6.6', '', '0.78', '5.15'],
		['shims', '16', 'each', '0.35', '5.60'],
		['sealant', '0.759', 'tube', '7.80', '5.92'],
		['drillBits', '0.4', 'each', '9.40', '3.76']
	])('%s', (id, quantity, unit, unitCost, amount) => {
		expect(items.find((item) => item.id === id)).toMatchObject({ quantity, unit, unitCost, amount });
	});

	it('is nothing else, and its sums are those of the price', () => {
		expect(items).toHaveLength(14);
		// 1264.55 of items and 28.70 of full boxes; 64.66 freight and 90.53 tax on it.
		expect(sums).toEqual({
			boxRounding: '28.70',
			materialCost: '1293.25',
			freight: '64.66',
			tax: '90.53',
			total: '1448.44'
		});
		expect(marks.map(({ mark, bought }) => [mark, bought?.items.length])).toEqual([['A', 14]]);
	});
});

describe('what the parts of a job cost', () => {
	const job = engine.takeoff(
		[
			typedRow({ ...openingA, quantity: '3' }),
			typedRow({ mark: 'A', openingNumber: '2', leftSubstrate: 'wood' }),
			typedRow({ ...openingB, quantity: '4' }),
			typedRow({ ...openingC, operation: 'chain' }),
			typedRow({ ...openingC, mark: 'D', openingWidth: `90'-0"` })
		],
		'imperial'
	);
	const purchases = pricing.purchases(job);
	const price = pricing.price(job);

	it('adds up to every line of material of its price, to the cent', () => {
		for (const { rowId, bought } of purchases.marks) {
			const amounts = price.marks.find((mark) => mark.rowId === rowId)?.amounts ?? null;
			expect(bought === null).toBe(amounts === null);
			for (const line of materialLines(demoTechnicalBook)) {
				const of = new Set(line.bought.map(({ id }) => id));
				const items = bought?.items.filter(({ id }) => of.has(id)) ?? [];
				expect(sum(items.map(({ amount }) => amount))).toBe(amounts?.[line.id] ?? '0.00');
			}
		}
	});

	it('adds its marks up', () => {
		const { items, sums, notPriced } = purchases;
		expect(sum([...items.map(({ amount }) => amount), sums.boxRounding])).toBe(price.totals.materialCost);
		expect(sums).toMatchObject({
			materialCost: price.totals.materialCost,
			freight: price.totals.freight,
			tax: price.totals.tax
		});
		expect(notPriced).toEqual(price.notPriced);
		const bought = purchases.marks.flatMap((mark) => mark.bought?.items ?? []);
		for (const { id, key, quantity, amount } of items) {
			const same = bought.filter((item) => item.id === id && item.key === key);
			expect(new Money(quantity).minus(Money.sum(...same.map((item) => item.quantity))).toNumber()).toBe(0);
			expect(amount).toBe(sum(same.map((item) => item.amount)));
		}
		// Of two sizes each is a line of its own.
		const barrels = items.filter(({ id }) => id === 'barrel');
		expect(barrels.length).toBe(
			new Set(bought.filter(({ id }) => id === 'barrel').map(({ key }) => key)).size
		);
		expect(barrels.length).toBeGreaterThan(1);
	});
});
