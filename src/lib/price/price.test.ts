import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	engineOf,
	openingA,
	openingB,
	openingC,
	pricingOf,
	typedRow,
	type Typed
} from '../../../tests/opening-rows.ts';
import { Money } from '../quantity/money.ts';
import { demoPriceBook } from '../shopbook/demo/demo-book.ts';
import { buildPricing, type JobPrice } from './price.ts';

const engine = engineOf();
const pricing = pricingOf(engine);
const priceOf = (...typed: Typed[]): JobPrice =>
	pricing.price(
		engine.takeoff(
			typed.map((row) => typedRow(row)),
			'imperial'
		)
	);

describe('opening A by hand (prices of the demo book, invented)', () => {
	const [mark] = priceOf(openingA).marks;
	const amount = (id: string): string | undefined => mark?.amounts?.[id];
	it.each([
		// 58.9375 → 58.94 ft² · 1.02 = 60.1188 · 11.60 = 697.378
		['curtainAmount', '697.38'],
		// 123/12 = 10.25 ft · 4.90 = 50.225, half to even
		['barAmount', '50.22'],
		// 50/12 → 4.17 ft · 6.35 = 26.4795 → 26.48, twice
		['guidesAmount', '52.96'],
		// 124.5/12 = 10.375 → 10.38 ft · 6.20 = 64.356
		['barrelAmount', '64.36'],
		['bracketsAmount', '58.00'],
		['driveAmount', '212.00'],
		// 27 · 124.5/144 = 23.34375 → 23.34 ft² · 1.05 = 24.507 · 3.45 = 84.549 → 84.55; no supports; 2 · 9.75
		['hoodAmount', '104.05'],
		// 6 a side · 1.10 = 6.6 · 0.78 = 5.148 → 5.15, twice
		['anchorsAmount', '10.30'],
		['controlsAmount', '0.00'],
		// 2 · 8 = 16 · 0.35
		['shimsAmount', '5.60'],
		// 4 · 50 in / 24 ft = 0.694 → 0.69 · 1.10 = 0.759 · 7.80 = 5.920
		['sealantAmount', '5.92'],
		['weathersealAmount', '0.00'],
		// 6/30 + 6/30 = 0.40 · 9.40
		['drillBitsAmount', '3.76'],
		// 12 · 1.10 = 13.2; one box of 50 leaves 36.8 · 0.78 = 28.704
		['boxRounding', '28.70'],
		['materialCost', '1293.25'],
		// 5 % = 64.6625
		['freight', '64.66'],
		// 7 % = 90.5275
		['tax', '90.53'],
		// 11.75 h · 38.00 · 1.45 = 647.425, half to even
		['installerLabour', '647.42'],
		// 2 h · 46.00 · 1.48
		['electricianLabour', '136.16'],
		['labourCost', '783.58'],
		// Work at 97.5 in is above 96: 60 + 40 + 44.90 + 23.33 + 35 = 203.23 min / 480 = 0.423 → 0.42 d · 285.00
		['equipmentCost', '119.70'],
		['directCost', '2351.72'],
		// 3 % = 70.5516
		['contingency', '70.55'],
		// 12 % of 2422.27 = 290.6724
		['overhead', '290.67'],
		// 2712.94 / (1 − 0.10 − 0.015) = 3065.469
		['unroundedPrice', '3065.47'],
		// 1.5 % = 45.982
		['bond', '45.98'],
		// 3065.47 − 2712.94 − 45.98
		['profit', '306.55'],
		['price', '3065.00'],
		['rounding', '-0.47']
	])('%s is %s', (id, expected) => {
		expect(amount(id)).toBe(expected);
	});
});

describe('adding up', () => {
	const job = priceOf(
		{ ...openingA, quantity: '3', phase: 'one' },
		{ mark: 'A', openingNumber: '2', leftSubstrate: 'wood' },
		{ ...openingB, quantity: '4', phase: 'two' },
		{ ...openingC, phase: 'two' },
		{ ...openingC, mark: 'D', openingWidth: `90'-0"` }
	);
	const total = (values: readonly string[]): string =>
		values.reduce((sum, value) => sum.plus(value), new Money(0)).toFixed(2);

	it('openings add up to their mark, marks and phases to the job, to the cent', () => {
		for (const mark of job.marks)
			if (mark.amounts) expect(total(mark.byOpening.map(({ price }) => price))).toBe(mark.amounts.price);
		expect(total(job.marks.flatMap(({ byOpening }) => byOpening.map(({ price }) => price)))).toBe(
			job.totals.price
		);
		expect(total(job.byPhase.map(({ price }) => price))).toBe(job.totals.price);
	});

	it('the lines of the build-up add up to the price', () => {
		const { totals } = job;
		const lines = ['directCost', 'contingency', 'overhead', 'profit', 'bond', 'rounding'].map(
			(id) => totals[id] ?? ''
		);
		expect(total(lines)).toBe(totals.price);
	});

	it('names what has no price', () => {
		expect(job.notPriced).toEqual(['D']);
	});

	it('a wall without an anchor has no price, and a mark whose openings all have rows of their own costs nothing', () => {
		const price = priceOf(
			{ ...openingB, fixing: 'stainless' },
			{ ...openingB, mark: 'H', headSubstrate: '' },
			openingA,
			{ mark: 'A', openingNumber: '1', leftSubstrate: 'wood' }
		);
		expect(price.notPriced).toEqual(['B', 'H']);
		const [, , mark, own] = price.marks;
		expect([mark?.openings, mark?.amounts?.price, mark?.byOpening]).toEqual([0, '0.00', []]);
		expect(own?.byOpening.map(({ openingId }) => openingId)).toEqual(['A.1']);
	});

	it('adds up for any job', () => {
		fc.assert(
			fc.property(
				fc.array(
					fc.record({
						width: fc.integer({ min: 40, max: 200 }),
						quantity: fc.integer({ min: 1, max: 9 }),
						wall: fc.constantFrom('concrete', 'groutedBlock', 'wood')
					}),
					{ minLength: 1, maxLength: 8 }
				),
				(list) => {
					const price = priceOf(
						...list.map(({ width, quantity, wall }, i) => ({
							...openingA,
							mark: `M${String(i)}`,
							openingWidth: `${String(width)}"`,
							quantity: String(quantity),
							leftSubstrate: wall
						}))
					);
					const openings = price.marks.flatMap(({ byOpening }) => byOpening.map((one) => one.price));
					expect(openings).toHaveLength(list.reduce((n, { quantity }) => n + quantity, 0));
					expect(total(openings)).toBe(price.totals.price);
				}
			),
			{ numRuns: 40 }
		);
	});
});

describe('profit on cost', () => {
	it('2712.94 and 10 % on it, then the bond on the price', () => {
		const built = buildPricing(engine, { ...demoPriceBook, profitBasis: 'onCost' });
		if (!built.ok) throw new Error('not built');
		const [mark] = built.pricing.price(engine.takeoff([typedRow(openingA)], 'imperial')).marks;
		// 271.294 → 271.29; (2712.94 + 271.29) / 0.985 = 3029.675 → 3029.68 (exact 3029.6751…)
		expect(mark?.amounts?.profit).toBe('271.29');
		expect(mark?.amounts?.unroundedPrice).toBe('3029.68');
	});
});

describe('working', () => {
	it('shows the same amount as the price', () => {
		const job = engine.takeoff([typedRow(openingA)], 'imperial');
		const working = pricing.explain(job, job.openings[0]?.row.id ?? '', 'curtainAmount');
		expect(working?.text).toContain('697.38');
		expect(working?.substituted).toContain('11.6');
	});
	it('a missing price is named', () => {
		const built = buildPricing(engine, { ...demoPriceBook, guides: demoPriceBook.guides.slice(1) });
		expect(built).toEqual({
			ok: false,
			problems: [{ rule: 'Guide prices: counter-face', problem: 'the price book has no price for it' }]
		});
	});
});
