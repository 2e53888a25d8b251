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
import type { OpeningRow } from '../takeoff/inputs.ts';
import { PriceEffects } from './effects.ts';

const engine = engineOf();
const pricing = pricingOf(engine);

const effectsOf = (rows: readonly OpeningRow[]): PriceEffects =>
	new PriceEffects(engine, pricing, rows, 'imperial');

/** The row with other cells. */
const but = (row: OpeningRow, typed: Typed): OpeningRow => ({
	id: row.id,
	cells: { ...row.cells, ...typedRow(typed).cells }
});

describe('opening A by hand, one and then two of it (prices of the demo book, invented)', () => {
	const a = typedRow(openingA);
	const effects = effectsOf([a]);

	it('costs now what price.test.ts works out line by line', () => {
		expect(effects.now).toMatchObject({ price: '3065.00', material: '1293.25' });
		// 11.75 h of the installer (price.test.ts) and 2 h of the electrician.
		expect(effects.now.labourHours).toBe('13.75');
	});

	it('costs with two of them', () => {
		// Curtain 58.94 · 2 · 1.02 · 11.60 = 1394.76; bar 10.25 · 2 · 4.90 = 100.45; guides 4.17 · 2 · 6.35 = 52.96, twice;
		// barrel 10.38 · 2 · 6.20 = 128.71; brackets 116.00; drive 424.00;
		// hood 23.34 · 2 · 1.05 · 3.45 = 169.10 and four ends at 9.75; anchors 6 · 2 · 1.10 · 0.78 = 10.30, twice;
		// shims 32 · 0.35 = 11.20; sealant 0.69 · 2 · 1.10 · 7.80 = 11.84; bits 0.40 · 2 · 9.40 = 7.52;
		// 24 · 1.10 = 26.4 anchors leave 23.6 of a box of 50: 18.41.
		// Together 2547.51. Freight 127.38, tax 178.33, labour 23.5 · 38 · 1.45 = 1294.85 and 4 · 46 · 1.48 = 272.32,
		// lift 0.42 · 2 · 285 = 239.40: direct 4659.79. Contingency 139.79, overhead 12 % of 4799.58 = 575.95;
		// 5375.53 / 0.885 = 6074.05, to the whole dollar.
		expect(effects.after([but(a, { quantity: '2' })])).toEqual({
			after: { price: '6074.00', material: '2547.51', labourHours: '27.50' },
			withoutPrice: [],
			hadNoPrice: []
		});
	});

	it('counts hours to two decimals of each trade, halves up', () => {
		const wider = but(a, { openingWidth: `11'` });
		const [opening] = engine.takeoff([wider], 'imperial').openings;
		const installer = Number(opening?.get('installerHours')) / 60;
		// Its third decimal is above 5, so that it goes up; the electrician has 2 h more.
		expect((installer * 100) % 1).toBeGreaterThan(0.5);
		expect(effects.after([wider]).after.labourHours).toBe((Math.ceil(installer * 100) / 100 + 2).toFixed(2));
	});

	it('costs nothing when it goes', () => {
		expect(effects.after([]).after).toEqual({ price: '0.00', material: '0.00', labourHours: '0.00' });
	});
});

describe('a row without a price', () => {
	const a = typedRow(openingA);
	const wide: Typed = { openingWidth: `90'` };

	it('says why, and is told when it had none before', () => {
		const lost = effectsOf([a]).after([but(a, wide)]);
		expect(lost).toMatchObject({ after: { price: '0.00', labourHours: '0.00' }, hadNoPrice: [] });
		expect(lost.withoutPrice.map(({ name }) => name)).toEqual(['A']);
		expect(lost.withoutPrice[0]?.why).toMatch(/^No barrel, bracket and drive of the shop book passes/u);
		const gained = effectsOf([but(a, wide)]).after([a]);
		expect(gained).toMatchObject({ after: { price: '3065.00' }, withoutPrice: [], hadNoPrice: ['A'] });
		const bare = { id: a.id, cells: { ...a.cells, openingWidth: null } };
		expect(effectsOf([a]).after([bare]).withoutPrice).toEqual([
			{ name: 'A', why: 'Opening width is missing.' }
		]);
	});
});

describe('a mark that is given another name', () => {
	const a = typedRow({ ...openingA, quantity: '2' });
	const second = typedRow({ mark: 'A', openingNumber: '2', location: 'Stall 9' });

	it('leaves the rows of its openings without a price', () => {
		const effects = effectsOf([a, second]);
		expect(effects.after([a, second])).toMatchObject({ after: effects.now, withoutPrice: [] });
		const renamed = [but(a, { mark: 'B' }), second];
		const effect = effects.after(renamed);
		expect(effect.after).toEqual(effectsOf(renamed).now);
		expect(effect.withoutPrice.map(({ name }) => name)).toEqual(['A.2']);
	});
});

describe('the price of a changed job', () => {
	const one = fc.record({
		base: fc.constantFrom(openingA, openingB, openingC),
		mark: fc.constantFrom('P', 'Q', 'R', 'S'),
		number: fc.constantFrom('', '1', '2'),
		quantity: fc.constantFrom('1', '2', '7'),
		width: fc.constantFrom(`8'`, `10'`, `14'-6"`, `70'`),
		wall: fc.constantFrom('groutedBlock', 'concrete', 'wood')
	});
	const rowsOf = (list: readonly (typeof one extends fc.Arbitrary<infer T> ? T : never)[]): OpeningRow[] =>
		list.map(({ base, mark, number, quantity, width, wall }, at) => ({
			id: `r${at}`,
			cells: typedRow({
				...base,
				mark,
				...(number === '' ? {} : { openingNumber: number }),
				quantity,
				openingWidth: width,
				leftSubstrate: wall
			}).cells
		}));
	const priceOf = (rows: readonly OpeningRow[]) => {
		const { totals } = pricing.price(engine.takeoff(rows, 'imperial'));
		return { price: totals.price, material: totals.materialCost };
	};

	it('is that of the whole job priced afresh, to the cent (random jobs)', () => {
		fc.assert(
			fc.property(
				fc.array(one, { minLength: 1, maxLength: 6 }),
				fc.array(one, { maxLength: 2 }),
				fc.nat(5),
				fc.nat(2),
				(before, more, at, going) => {
					const rows = rowsOf([...before, ...more]);
					const base = rows.slice(0, before.length);
					const effects = effectsOf(base);
					const index = at % base.length;
					const after = [
						...rows.slice(before.length).reverse(),
						...base.flatMap((row, i) =>
							i === index ? [but(row, { openingHeight: `6'`, quantity: '3' })] : i === going ? [] : [row]
						)
					];
					expect(effects.now).toMatchObject(priceOf(base));
					expect(effects.after(after).after).toMatchObject(priceOf(after));
				}
			),
			{ numRuns: 60 }
		);
	});
});
