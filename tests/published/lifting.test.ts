/**
 * The revised NIOSH lifting equation, in inches and pounds: Applications Manual for the Revised NIOSH Lifting Equation,
 * DHHS (NIOSH) Publication 94-110, revised 9/2021. The manual’s worksheets multiply multipliers rounded to two decimals;
 * both the printed result and the one at full precision are tested.
 */
import { describe, expect, it } from 'vitest';
import {
	asymmetricMultiplier,
	couplingMultiplier,
	distanceMultiplier,
	frequencyMultiplier,
	horizontalMultiplier,
	recommendedWeight,
	verticalMultiplier,
	type HandLift
} from '../../src/lib/takeoff/lifting-limit.ts';
import { engineOf, openingA, openingB, typedRow, type Typed } from '../opening-rows.ts';
import { figureOf, reckon, type Given } from '../reckon.ts';

const near = (value: number, expected: number, tolerance: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(tolerance);
};

/** Two decimals, halves away from zero, as the manual’s tables round. */
const printed = (value: number): number => Math.round(value * 100 + 1e-9) / 100;

/** RWL as a worksheet reckons it: 51 lb times rounded multipliers. */
const worksheet = (lift: HandLift): number =>
	51 *
	printed(horizontalMultiplier(lift.horizontal)) *
	printed(verticalMultiplier(lift.vertical)) *
	printed(distanceMultiplier(lift.distance)) *
	printed(asymmetricMultiplier(lift.asymmetry)) *
	frequencyMultiplier(lift.frequency, lift.duration, lift.origin) *
	couplingMultiplier(lift.coupling, lift.vertical);

/**
 * Example 4, package inspection, Figure 14 (p. 46). V, D, coupling and all four limits were read; H at the destination
 * and F are from memory, and they reproduce what was read.
 */
const inspection: HandLift = {
	horizontal: 10,
	vertical: 22,
	origin: 22,
	distance: 37,
	asymmetry: 0,
	frequency: 3,
	duration: 'short',
	coupling: 'fair'
};
const inspected: HandLift = { ...inspection, horizontal: 20, vertical: 59 };

describe('published: multipliers of the revised NIOSH equation (94-110, rev. 9/2021)', () => {
	it('HM at 23 in is 0.4348 by the formula, where Table 1 prints .44', () => {
		near(horizontalMultiplier(23), 0.4348, 0.0001);
		near(horizontalMultiplier(23), 0.43, 0.005);
	});

	it('VM at 20 in is 0.925, printed .93 (Table 2)', () => {
		near(verticalMultiplier(20), 0.925, 1e-9);
		expect(printed(verticalMultiplier(20))).toBe(0.93);
	});

	it('out of its limits a multiplier is 0, below its least the least counts (1.3.1.2 to 1.3.5.4)', () => {
		expect(horizontalMultiplier(26)).toBe(0);
		expect(verticalMultiplier(71)).toBe(0);
		near(distanceMultiplier(5), 1, 1e-9);
		expect(asymmetricMultiplier(136)).toBe(0);
		expect(frequencyMultiplier(0.05, 'short', 30)).toBe(1);
	});

	it('H = 8 + W/2 in, 10 + W/2 in with the hands below 10 in (1.3.1.1): 16 and 18 for a coil of 16 in', () => {
		const coil: Given = { swingDiameter: [16, 'in'], liftTo: [60, 'in'] };
		const gripped = (from: number) =>
			figureOf('coilReachOutFrom', { ...coil, 'shop.liftFrom': [from, 'in'] });
		expect([gripped(10), gripped(9.99)].map((h) => h.toFixed(9))).toEqual(['16.000000000', '18.000000000']);
		expect(figureOf('coilReachOutTo', coil)).toBeCloseTo(16, 9);
		expect(figureOf('coilReachOutTo', { ...coil, liftTo: [9, 'in'] })).toBeCloseTo(18, 9);
	});

	describe('Example 4, package inspection, Figure 14 (p. 46): 3 lifts a minute up to an hour, fair grip', () => {
		it('full precision: 34.8 and 15.3 lb', () => {
			near(recommendedWeight(inspection), 34.8, 0.06);
			near(recommendedWeight(inspected), 15.3, 0.06);
		});

		it('as printed, with rounded multipliers: 34.9 and 15.2 lb', () => {
			near(worksheet(inspection), 34.9, 0.06);
			near(worksheet(inspected), 15.2, 0.06);
		});
	});
});

describe('from memory, to be confirmed: the revised NIOSH equation', () => {
	const common = { asymmetry: 0, frequency: 0.2, duration: 'short', coupling: 'fair' } as const;

	it('Example 1, loading punch press stock (p. 35): 16.03 and 14.31 lb, printed 16.3 and 14.5; 44 lb is 2.7 and 3.0', () => {
		const origin: HandLift = { ...common, horizontal: 23, vertical: 15, origin: 15, distance: 48 };
		const destination: HandLift = { ...origin, vertical: 63 };
		near(recommendedWeight(origin), 16.03, 0.01);
		near(recommendedWeight(destination), 14.31, 0.01);
		// The worksheet reads .44 for HM out of Table 1.
		near((worksheet(origin) / printed(horizontalMultiplier(23))) * 0.44, 16.3, 0.06);
		near((worksheet(destination) / printed(horizontalMultiplier(23))) * 0.44, 14.5, 0.06);
		near(44 / recommendedWeight(origin), 2.7, 0.06);
		near(44 / ((worksheet(destination) / printed(horizontalMultiplier(23))) * 0.44), 3.0, 0.06);
	});

	it('Example 3, loading bags into a hopper (p. 43): 18.52 lb, printed 18.9; 40 lb is 2.1', () => {
		const lift: HandLift = {
			...common,
			horizontal: 18,
			vertical: 15,
			origin: 15,
			distance: 21,
			asymmetry: 45
		};
		near(recommendedWeight(lift), 18.52, 0.01);
		near(worksheet(lift), 18.9, 0.06);
		near(40 / worksheet(lift), 2.1, 0.06);
	});

	it('Example 4, package inspection: lifting indices of 26 lb, 0.7 and 1.7', () => {
		near(26 / recommendedWeight(inspection), 0.7, 0.06);
		near(26 / recommendedWeight(inspected), 1.7, 0.06);
	});

	// Table 5: lifts a minute, then ≤ 1 h, ≤ 2 h and ≤ 8 h, each below 30 in and from 30 in up.
	it.each([
		[0.2, 1.0, 1.0, 0.95, 0.95, 0.85, 0.85],
		[0.5, 0.97, 0.97, 0.92, 0.92, 0.81, 0.81],
		[1, 0.94, 0.94, 0.88, 0.88, 0.75, 0.75],
		[2, 0.91, 0.91, 0.84, 0.84, 0.65, 0.65],
		[3, 0.88, 0.88, 0.79, 0.79, 0.55, 0.55],
		[4, 0.84, 0.84, 0.72, 0.72, 0.45, 0.45],
		[5, 0.8, 0.8, 0.6, 0.6, 0.35, 0.35],
		[6, 0.75, 0.75, 0.5, 0.5, 0.27, 0.27],
		[7, 0.7, 0.7, 0.42, 0.42, 0.22, 0.22],
		[8, 0.6, 0.6, 0.35, 0.35, 0.18, 0.18],
		[9, 0.52, 0.52, 0.3, 0.3, 0, 0.15],
		[10, 0.45, 0.45, 0.26, 0.26, 0, 0.13],
		[11, 0.41, 0.41, 0, 0.23, 0, 0],
		[12, 0.37, 0.37, 0, 0.21, 0, 0],
		[13, 0, 0.34, 0, 0, 0, 0],
		[14, 0, 0.31, 0, 0, 0, 0],
		[15, 0, 0.28, 0, 0, 0, 0]
	])('Table 5 at %d lifts a minute', (frequency, ...expected) => {
		const read = (['short', 'moderate', 'long'] as const).flatMap((duration) =>
			[29.99, 30].map((vertical) => frequencyMultiplier(frequency, duration, vertical))
		);
		expect(read).toEqual(expected);
	});

	it('Table 5 between its rows in a straight line, 0 towards a row of 0, 0 past 15', () => {
		// 2.4 lifts a minute: 0.91 − 0.4 · 0.03; 5.5: 0.80 − 0.5 · 0.05
		expect(frequencyMultiplier(2.4, 'short', 30)).toBeCloseTo(0.898, 12);
		expect(frequencyMultiplier(5.5, 'short', 30)).toBeCloseTo(0.775, 12);
		expect(frequencyMultiplier(12.5, 'short', 29)).toBe(0);
		expect(frequencyMultiplier(15.01, 'short', 30)).toBe(0);
		expect(frequencyMultiplier(0, 'long', 30)).toBe(0.85);
	});

	it('three tasks of 1, 2 and 4 lifts a minute up to an hour (p. 28): .94, .88 and .70 for their sums', () => {
		expect([1, 3, 7].map((sum) => frequencyMultiplier(sum, 'short', 30))).toEqual([0.94, 0.88, 0.7]);
	});

	it('Table 7: a poor grip is .90, a fair one .95 below 30 in and 1 from there up', () => {
		expect([29.99, 30].map((v) => couplingMultiplier('good', v))).toEqual([1, 1]);
		expect([29.99, 30].map((v) => couplingMultiplier('fair', v))).toEqual([0.95, 1]);
		expect([29.99, 30].map((v) => couplingMultiplier('poor', v))).toEqual([0.9, 0.9]);
	});
});

describe('limits of the equation, at, under and over each', () => {
	// By hand: 10/25 = 0.4; 1 − 0.0075·40 = 0.7; 1 − 0.0075·30 = 0.775; 0.82 + 1.8/70 = 0.845714; 1 − 0.0032·135 = 0.568
	it.each([
		['HM', horizontalMultiplier, [9, 10, 10.1, 25, 25.01], [1, 1, 10 / 10.1, 0.4, 0]],
		['VM', verticalMultiplier, [-1, 0, 30, 70, 70.01], [0, 0.775, 1, 0.7, 0]],
		['DM', distanceMultiplier, [0, 10, 10.1, 70, 70.01], [1, 1, 0.82 + 1.8 / 10.1, 0.82 + 1.8 / 70, 0]],
		['AM', asymmetricMultiplier, [0, 45, 135, 135.01], [1, 0.856, 0.568, 0]]
	] as const)('%s', (_name, multiplier, at, expected) => {
		at.forEach((value, i) => {
			near(multiplier(value), expected[i] ?? Number.NaN, 1e-12);
		});
	});
});

describe('hand arithmetic: a coil lifted by one person', () => {
	// A small coil, swing 6 in: H = 8 + 3 = 11 in. Gripped at 30 in, set down at 60 in: D = 30 in. Poor grip .90, FM 1.
	// Gripped: 51 · 10/11 · 1 · (0.82 + 0.06) · 0.9 = 36.720 lb. Set down: VM = 1 − 0.225 = 0.775, so 28.458 lb.
	const coil: Given = {
		swingDiameter: [6, 'in'],
		liftTo: [60, 'in'],
		'shop.liftFrom': [30, 'in'],
		'shop.liftRate': 0.2
	};

	it('the lesser limit of both ends', () => {
		expect(figureOf('handLiftFrom', coil)).toBeCloseTo(36.72, 6);
		expect(figureOf('handLiftTo', coil)).toBeCloseTo(28.458, 6);
		expect(figureOf('handLiftLimit', coil)).toBeCloseTo(28.458, 6);
	});

	it('at the limit it may be lifted, over it not', () => {
		const allowed = (pounds: number) =>
			reckon('byHandAllowed', { handLiftLimit: [28.458, 'lb'], coilWeight: [pounds, 'lb'] });
		expect([allowed(28.457), allowed(28.458), allowed(28.459)]).toEqual([1, 1, 0]);
		expect(figureOf('liftingIndex', { handLiftLimit: [30, 'lb'], coilWeight: [45, 'lb'] })).toBeCloseTo(
			1.5,
			9
		);
	});

	it.each([
		['too high', { liftTo: [70.01, 'in'] as const }, { liftTo: [70, 'in'] as const }],
		// 8 + 34/2 = 25 in
		['too thick', { swingDiameter: [34.01, 'in'] as const }, { swingDiameter: [34, 'in'] as const }],
		['too often', { 'shop.liftRate': 15.01 }, { 'shop.liftRate': 15 }]
	])('%s: the limit is 0, by hand is refused, and there is no index', (_what, over, at) => {
		expect(figureOf('handLiftLimit', { ...coil, ...over })).toBe(0);
		expect(reckon('byHandAllowed', { ...coil, ...over, coilWeight: [1, 'lb'] })).toBe(0);
		expect(reckon('liftingIndex', { ...coil, ...over, coilWeight: [1, 'lb'] })).toBeNull();
		expect(figureOf('handLiftLimit', { ...coil, ...at })).toBeGreaterThan(0);
	});

	it('counts both ways of the lift: down by 30 in is the same distance', () => {
		expect(figureOf('liftTravel', { ...coil, liftTo: [0, 'in'] })).toBeCloseTo(30, 9);
	});

	it('is not known where the height is not', () => {
		for (const id of ['liftTo', 'handLiftTo', 'handLiftLimit', 'liftingIndex'])
			expect([id, reckon(id, { sill: 'counter', swingDiameter: [6, 'in'] })]).toEqual([id, null]);
		expect(reckon('byHandAllowed', { sill: 'counter', coilWeight: [1, 'lb'] })).not.toBe(1);
	});
});

describe('a takeoff names a lift', () => {
	const engine = engineOf();
	const only = (typed: Typed) => {
		const [opening] = engine.takeoff([typedRow(typed)], 'imperial').openings;
		if (!opening) throw new Error('no opening');
		return opening;
	};

	it('the least of the (invented) shop book that carries the coil and reaches', () => {
		// A: 124.2 lb to 36 + 48 + 7 = 91 in; B: 527.9 lb to 108 + 10 = 118 in.
		expect(only(openingA).get('lift')).toBe('material-lift-400');
		expect(only(openingB).get('lift')).toBe('material-lift-800');
		// Out of its 150 in, though it could carry it: sill at 100 in, 100 + 48 + 7 = 155 in.
		expect(only({ ...openingA, sillHeight: '100"' }).get('lift')).toBe('material-lift-800');
		// Out of every reach: 480 in.
		expect(only({ ...openingA, sillHeight: `40'` }).get('lift')).toBeNull();
	});

	it('capacity and reach, at and over', () => {
		const holds = (weight: number, height: number) =>
			reckon('liftHolds', { lift: 'material-lift-400', coilWeight: [weight, 'lb'], liftTo: [height, 'in'] });
		expect([holds(400, 150), holds(400.1, 150), holds(400, 150.1)]).toEqual([1, 0, 0]);
	});

	it('the working says every multiplier', () => {
		const { steps } = engine.explain(only(openingA), 'handLiftFrom', 'imperial');
		expect(steps.map((step) => step.slice(0, 2))).toEqual(['HM', 'VM', 'DM', 'AM', 'FM', 'CM', 'RW']);
	});
});
