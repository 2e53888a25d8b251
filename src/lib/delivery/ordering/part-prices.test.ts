/** Prices of parts by the demo book (invented), by hand. */
import { describe, expect, it } from 'vitest';
import { orderedJob } from '../../../../tests/ordered-jobs.ts';
import { openingA, openingB } from '../../../../tests/opening-rows.ts';
import { demoPriceBook, demoTechnicalBook } from '../../shopbook/demo/demo-book.ts';
import { fillShares, fillOf } from './full-boxes.ts';
import { partPrices } from './part-prices.ts';
import { Decimal } from 'decimal.js';

const pricesOf = (job: ReturnType<typeof orderedJob>): Record<string, string | null> =>
	Object.fromEntries(job.parts.map(({ title, partId }) => [title, job.buying.prices.get(partId) ?? null]));

describe('what one part costs', () => {
	it('is its own measure at its unit cost, opening A', () => {
		expect(pricesOf(orderedJob([{ ...openingA, controls: 'key-switch' }]))).toEqual({
			// 123 · 69 in = 58.9375 → 58.94 ft² · 11.60 = 683.704
			'Curtain, counter slat, aluminium': '683.70',
			// 10.25 ft · 4.90 = 50.225, half to even
			'Bottom bar': '50.22',
			// 10.38 ft · 6.20 = 64.356
			Barrel: '64.36',
			// 4.17 ft · 6.35 = 26.4795
			'Guide, left': '26.48',
			'Guide, right': '26.48',
			// Half of the pair at 58.00
			'Bracket, left, drive side': '29.00',
			'Bracket, right': '29.00',
			'Screw anchor, left wall': '0.78',
			'Screw anchor, right wall': '0.78',
			'Tube motor': '212.00',
			// 27 · 124.5 in = 23.34375 → 23.34 ft² · 3.45 = 80.523
			'Hood piece': '80.52',
			'End cap, left': '9.75',
			'End cap, right': '9.75',
			// The book prices the set of the two.
			'Key switch': null,
			'Lock cylinder': null,
			Shims: '0.35',
			Sealant: '7.80',
			'Drill bits': '9.40'
		});
	});

	it('counts the laps of hoods in pieces, and the controls that are a set of one', () => {
		const prices = pricesOf(orderedJob([{ ...openingB, controls: 'push-station' }]));
		// B: 2 pieces of (199 + 2) / 2 = 100.5 in; bracket 16.
		const job = orderedJob([openingB]);
		const [opening] = job.takeoff.openings;
		const girth = opening?.get('hoodGirth');
		const piece = job.parts.find(({ kind }) => kind === 'hoodPiece');
		expect(piece).toMatchObject({ quantity: '2', length: 100.5 * 25_400_000 });
		const area = ((Number(girth) / 25_400_000) * 100.5) / 144;
		expect(Number(prices['Hood piece'])).toBeCloseTo((Math.round(area * 100) / 100) * 3.45, 1);
		expect(prices['Push-button station']).toBe('38.25');
		expect(prices['Hood support']).toBe('12.50');
	});

	it('takes springs with their barrel', () => {
		const job = orderedJob([{ ...openingA, operation: 'pushUp' }]);
		const barrel = job.parts.find(({ kind }) => kind === 'barrel');
		const pounds = job.takeoff.openings[0]?.get('springWeight');
		expect(barrel?.title).toBe('Barrel with its springs');
		// 3.20 a pound, to two decimals of a pound, beside the pipe.
		const pipe = Number(((barrel?.length ?? 0) / 304_800_000).toFixed(2)) * 6.2;
		const springs = (Math.round(Number(pounds) * 100) / 100) * 3.2;
		expect(Number(job.buying.prices.get(barrel?.partId ?? ''))).toBeCloseTo(pipe + springs, 1);
		expect(springs).toBeGreaterThan(1);
	});

	it('keeps half a cent of a pair, so that two are the pair', () => {
		const job = orderedJob([openingA]);
		const odd = {
			...demoPriceBook,
			brackets: demoPriceBook.brackets.map((row) => ({ ...row, cost: '97.01' }))
		};
		const prices = partPrices(demoTechnicalBook, odd, job.takeoff, job.parts);
		const bracket = job.parts.find(({ kind }) => kind === 'bracket');
		expect(prices.get(bracket?.partId ?? '')).toBe('48.505');
	});

	it('is not known without its row in the book', () => {
		const job = orderedJob([openingA]);
		const bare = { ...demoPriceBook, curtains: [], hoods: [], anchors: [] };
		const prices = partPrices(demoTechnicalBook, bare, job.takeoff, job.parts);
		const unknown = job.parts.filter(({ partId }) => prices.get(partId) === null).map(({ kind }) => kind);
		expect(new Set(unknown)).toEqual(new Set(['curtain', 'bottomBar', 'anchor', 'hoodPiece', 'endCap']));
	});
});

describe('full boxes', () => {
	const box = { perBox: '50', waste: '0' };
	const fill = (count: string, of = box) => fillOf(new Decimal(count), of, 'each')?.quantity ?? null;

	it('at, under and over a box', () => {
		expect([fill('0'), fill('1'), fill('49'), fill('50'), fill('51'), fill('100')]).toEqual([
			null,
			'49',
			'1',
			null,
			'49',
			null
		]);
		// 45 and 46 with a tenth for waste are 49.5 and 50.6.
		const waste = { ...box, waste: '0.10' };
		expect([fill('45', waste), fill('46', waste)]).toEqual(['5', '54']);
	});

	it('adds fractions up exactly: five times 1.25 tubes', () => {
		expect(fillOf(new Decimal('6.25'), { perBox: '1', waste: '0' }, 'tube')).toEqual({
			quantity: '0.75',
			note: 'Needed 6.25; bought to the whole tube: 7.'
		});
	});

	it('is shared out by largest remainder and adds up', () => {
		const part = (openingId: string, quantity: string) => ({ openingId, quantity });
		// 100 over 1 : 1 : 1 is 33.33 each and a hundredth left for the first.
		const thirds = fillShares('100', [
			part('A.1', '4'),
			part('A.2', '4'),
			part('A.3', '2'),
			part('A.3', '2')
		]);
		expect([...thirds]).toEqual([
			['A.1', '33.34'],
			['A.2', '33.33'],
			['A.3', '33.33']
		]);
		// 10 over 12 : 14 : 9 is 3.4285…, 4, 2.5714…: cut 3.42 + 4 + 2.57 = 9.99, the last hundredth to the first, .85 against .42.
		const uneven = fillShares('10', [part('A.1', '12'), part('A.2', '14'), part('A.3', '9')]);
		expect([...uneven.values()]).toEqual(['3.43', '4', '2.57']);
	});
});
