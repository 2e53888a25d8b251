import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figureOf, type Given } from '../../../tests/reckon.ts';
import { travelCurve } from './imbalance.ts';

/** Everything in inches and pounds. */
const hangings = fc
	.record({
		coilDiameterClosed: fc.double({ min: 3, max: 12, noNaN: true }),
		wrap: fc.double({ min: 0.2, max: 1.5, noNaN: true }),
		openingHeight: fc.double({ min: 20, max: 240, noNaN: true }),
		runWeight: fc.double({ min: 0.1, max: 5, noNaN: true }),
		openWeight: fc.double({ min: 2, max: 80, noNaN: true }),
		friction: fc.double({ min: 0, max: 0.5, noNaN: true })
	})
	.map((drawn) => {
		const { coilDiameterClosed, wrap, openingHeight, runWeight, openWeight } = drawn;
		return {
			...drawn,
			closedWeight: openWeight + runWeight * openingHeight,
			coilDiameter: Math.sqrt(coilDiameterClosed ** 2 + (4 * wrap * openingHeight) / Math.PI)
		};
	})
	.filter((h) => h.closedWeight * h.coilDiameterClosed > 1.01 * h.openWeight * h.coilDiameter);

type Drawn = typeof hangings extends fc.Arbitrary<infer T> ? T : never;

/** The lever of the demo shop book's crank: 8 : 1 on 10 in at 0.8. */
const crank = 64;

/** The largest of everything at 100 000 points, from torque, turns and radius as they are, without the closed forms. */
function bruteForce(drawn: Drawn) {
	const { coilDiameterClosed, coilDiameter, wrap, openingHeight, runWeight, closedWeight, openWeight } =
		drawn;
	const closed = (closedWeight * coilDiameterClosed) / 2;
	const open = (openWeight * coilDiameter) / 2;
	const turns = (coilDiameter - coilDiameterClosed) / (2 * wrap);
	const largest = { imbalance: 0, rim: 0, pushUp: 0, crank: 0 };
	let least = Infinity;
	for (let i = 0; i < 100_000; i++) {
		const s = (openingHeight * i) / 99_999;
		const coil = Math.sqrt(coilDiameterClosed ** 2 + (4 * wrap * s) / Math.PI);
		const weight = closedWeight - runWeight * s;
		const spring = closed - ((closed - open) * (coil - coilDiameterClosed)) / (2 * wrap) / turns;
		const imbalance = (weight * coil) / 2 - spring;
		const withFriction = imbalance + (drawn.friction * weight * coil) / 2;
		largest.imbalance = Math.max(largest.imbalance, imbalance);
		largest.rim = Math.max(largest.rim, imbalance / (coil / 2));
		largest.pushUp = Math.max(largest.pushUp, withFriction / (coil / 2));
		largest.crank = Math.max(largest.crank, withFriction / crank);
		least = Math.min(least, imbalance);
	}
	return { ...largest, least, closed };
}

describe('the closed forms against brute force at 100 000 points', () => {
	it('largest imbalance, largest pull, hand force with friction: 200 random curtains', () => {
		fc.assert(
			fc.property(hangings, (drawn) => {
				const given: Given = {
					springSet: 'oil-0.25.1',
					coilDiameterClosed: [drawn.coilDiameterClosed, 'in'],
					coilDiameter: [drawn.coilDiameter, 'in'],
					'curtain.wrap': [drawn.wrap, 'in'],
					runWeight: [drawn.runWeight, 'lb/in'],
					closedWeight: [drawn.closedWeight, 'lb'],
					openWeight: [drawn.openWeight, 'lb'],
					'shop.guideFriction': drawn.friction
				};
				const pushUp: Given = { ...given, operation: 'pushUp' };
				const cranked: Given = { ...given, operation: 'crank' };
				const scan = bruteForce(drawn);
				/** The scan can only miss the top, by less than a millionth of the curtain. */
				const agree = (value: number, scanned: number, size: number): void => {
					expect(value - scanned).toBeGreaterThan(-1e-9 * size);
					expect(value - scanned).toBeLessThan(1e-6 * size);
				};
				const torque = scan.closed;
				const weight = drawn.closedWeight;
				agree(figureOf('worstImbalance', pushUp, 'lb-in'), scan.imbalance, torque);
				agree(figureOf('worstRimForce', pushUp, 'lb'), scan.rim, weight);
				agree(figureOf('handForceBeforeFriction', pushUp, 'lb'), scan.rim, weight);
				agree(figureOf('handForceBeforeFriction', cranked, 'lb'), scan.imbalance / crank, torque / crank);
				agree(figureOf('handForce', pushUp, 'lb'), scan.pushUp, weight);
				agree(figureOf('handForce', cranked, 'lb'), scan.crank, torque / crank);
				// The curtain outweighs the springs everywhere, so that pushing up is the hard way.
				expect(scan.least).toBeGreaterThan(-1e-9 * torque);
				for (const id of ['worstImbalanceAt', 'worstRimForceAt', 'handForceAt']) {
					expect(figureOf(id, pushUp, 'in')).toBeGreaterThanOrEqual(-1e-9);
					expect(figureOf(id, pushUp, 'in')).toBeLessThanOrEqual(drawn.openingHeight + 1e-9);
				}
			}),
			{ numRuns: 200 }
		);
	});
});

describe('the curve over the travel', () => {
	/** Opening B of the demo shop book (invented), worked by hand: 2.664 lb/in, 345.8 lb, C₀ = √53.22 in. */
	const b = {
		closedWeight: 345.8,
		runWeight: 2.6643,
		coilDiameterClosed: Math.sqrt(53.22),
		wrap: 0.9,
		openingHeight: 108
	};

	it('B: 105.1 lb-ft closed, most 107.0 at 12.3 in (worked by hand); a tube motor has no springs', () => {
		const { travel, curtainTorque, balance } = travelCurve(b, null, 1081);
		const peak = Math.max(...curtainTorque);
		expect((curtainTorque[0] ?? 0) / 12).toBeCloseTo(105.1, 1);
		expect(peak / 12).toBeCloseTo(107.0, 1);
		expect(Math.abs((travel[curtainTorque.indexOf(peak)] ?? 0) - 12.3)).toBeLessThan(0.2);
		expect(balance).toBeNull();
	});

	it('springs that fit both ends leave nothing there, and the hand only friction', () => {
		// C₁ = √(53.22 + 4·0.9·108/π) = 13.302 in, W₁ = 345.8 − 2.6643·108 = 58.06 lb.
		// Closed 345.8·7.295/2 = 1261.3, open 58.06·13.302/2 = 386.2 lb-in, turns (13.302 − 7.295)/1.8 = 3.337.
		const rate = (1261.3 - 386.2) / 3.337;
		const springs = { rate, woundTurns: 1261.3 / rate, friction: 0.1, lever: null };
		const { travel, curtainTorque, balance } = travelCurve(b, springs, 3);
		expect(travel).toEqual([0, 54, 108]);
		const { imbalance = [], springTorque = [], handForce = [] } = balance ?? {};
		expect(imbalance[0]).toBeCloseTo(0, 0);
		expect(imbalance[2]).toBeCloseTo(0, 0);
		// Halfway C = √(53.22 + 61.88) = 10.729 in, W = 201.9 lb: 1083.2 less 1261.3 − 262.3·1.907 = 761.1 is 322 lb-in.
		expect(Math.abs((imbalance[1] ?? 0) - 322)).toBeLessThan(1.5);
		expect((curtainTorque[1] ?? 0) - (springTorque[1] ?? 0)).toBeCloseTo(imbalance[1] ?? 0, 9);
		// A tenth of 345.8 lb on the sill; (322 + 108.3)/5.365 = 80.2 lb halfway.
		expect(Math.abs((handForce[0] ?? 0) - 34.6)).toBeLessThan(0.3);
		expect(Math.abs((handForce[1] ?? 0) - 80.2)).toBeLessThan(0.3);
		// The same torque on a lever of 64 in.
		const geared = travelCurve(b, { ...springs, lever: 64 }, 3).balance?.handForce[1];
		expect(Math.abs((geared ?? 0) - (322 + 108.3) / 64)).toBeLessThan(0.05);
	});

	it('refuses what is no curtain, no spring or no curve', () => {
		const springs = { rate: 1, woundTurns: 1, friction: 0, lever: 1 };
		expect(() => travelCurve({ ...b, wrap: 0 }, null, 2)).toThrow(RangeError);
		expect(() => travelCurve({ ...b, openingHeight: Number.NaN }, null, 2)).toThrow(RangeError);
		expect(() => travelCurve({ ...b, closedWeight: -1 }, null, 2)).toThrow(RangeError);
		expect(() => travelCurve(b, { ...springs, rate: 0 }, 2)).toThrow(RangeError);
		expect(() => travelCurve(b, { ...springs, lever: 0 }, 2)).toThrow(RangeError);
		expect(() => travelCurve(b, { ...springs, friction: -0.1 }, 2)).toThrow(RangeError);
		expect(() => travelCurve(b, null, 1)).toThrow(RangeError);
		expect(() => travelCurve(b, null, 2.5)).toThrow(RangeError);
	});
});
