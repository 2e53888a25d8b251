/** What people are told to do, and what is reckoned for it; movement with temperature. */
import { describe, expect, it } from 'vitest';
import type { OpeningTakeoff } from '../../src/lib/takeoff/result.ts';
import { engineOf, openingA, openingB, openingC, typedRow, type Typed } from '../opening-rows.ts';
import { figureOf, reckon, type Given } from '../reckon.ts';

const engine = engineOf();

function only(typed: Typed): OpeningTakeoff {
	const [opening] = engine.takeoff([typedRow(typed)], 'imperial').openings;
	if (!opening) throw new Error('no opening');
	return opening;
}

const told = (typed: Typed, code: string): string | undefined =>
	only(typed).checks.find((check) => check.code === code)?.text;

describe('common practice, no source: run-in', () => {
	it('about ten full cycles, the shop’s own number', () => {
		expect(engine.book.constants.runInCycles).toBe('10');
		expect(told(openingB, 'runIn')).toMatch(/\b10 full cycles\b/u);
	});

	it('in parts that the thermal cut-out allows, by hand', () => {
		// B: 3.34 turns each way at 11 rpm, ten times both ways: 6.1 min, and the motor runs 5 min: 2 parts.
		expect(figureOf('runInTime', { driveTurns: 3.34, 'drive.speed': [11, 'rpm'] }, 'min')).toBeCloseTo(
			6.07,
			2
		);
		expect(only(openingB).get('runInParts')).toBe(2);
		expect(told(openingB, 'runIn')).toContain('5.0 min');
	});

	it('is said of motors only', () => {
		for (const code of ['runIn', 'travelLimits'])
			expect(told({ ...openingA, operation: 'pushUp' }, code)).toBeUndefined();
	});
});

describe('common practice, no source: travel limits', () => {
	it('approached in single small steps within the last 3 in, the shop’s own number', () => {
		expect(engine.book.constants.limitApproach).toBe('3');
		expect(told(openingB, 'travelLimits')).toMatch(/single small steps within the last 3"/u);
	});

	it('the travel stop on the brackets never stops the bar, and people are told so', () => {
		expect(told(openingB, 'travelLimits')).toMatch(/stop on the brackets never stops the bar/u);
	});

	it('the drive’s turns end with the bar at the head, by hand', () => {
		// A, 48 in high: 69 in of curtain, of which 48 + 7 − 1.5 = 53.5 in hang closed, so 15.5 in are wound; open, with the
		// bar at the head, 7 − 1.5 = 5.5 in hang and 63.5 in are wound. On a first turn of 3.5 + 0.5 = 4 in:
		// closed √(16 + 4·0.5·15.5/π) = √25.8676 = 5.08602, open √(16 + 4·0.5·63.5/π) = √56.4254 = 7.51168;
		// (7.51168 − 5.08602) / (2 · 0.5) = 2.42566 turns. One more inch up to the stop would take more.
		const turns = only(openingA).get('driveTurns');
		expect(turns).toBeCloseTo(2.42566, 4);
	});

	it('what the turns wind up is the height of the opening and nothing more', () => {
		for (const typed of [openingA, openingB, openingC]) {
			const opening = only(typed);
			const [open, closed, height] = ['woundLength', 'woundLengthClosed', 'openingHeight'].map((id) =>
				Number(opening.get(id))
			);
			expect(Number(open) - Number(closed)).toBe(height);
		}
	});
});

describe('from memory, to be confirmed: growth with temperature, ΔL = α·L·ΔT', () => {
	const growth = (expansion: number, inches: number, degrees: number): number =>
		figureOf('curtainGrowth', {
			'curtain.expansion': expansion,
			curtainWidth: [inches, 'in'],
			exposure: 'exterior',
			'shop.temperatureRangeExterior': degrees
		});

	// Handbook coefficients for one °F.
	it.each([
		['carbon steel', 6.5e-6, 240, 100, 0.156],
		['aluminium', 1.3e-5, 240, 100, 0.312],
		['stainless 304', 9.6e-6, 144, 120, 0.165888]
	])('%s: %d · %d in · %d °F = %d in', (_name, expansion, inches, degrees, expected) => {
		expect(growth(expansion, inches, degrees)).toBeCloseTo(expected, 9);
	});

	it('aluminium in a steel frame: 0.156 in', () => {
		expect(growth(1.3e-5, 240, 100) - growth(6.5e-6, 240, 100)).toBeCloseTo(0.156, 9);
	});
});

describe('hand arithmetic: growth in the guides', () => {
	it('inside by the range inside, outside by the range outside', () => {
		const given: Given = {
			'curtain.expansion': 1e-5,
			curtainWidth: [100, 'in'],
			'shop.temperatureRangeInterior': 50,
			'shop.temperatureRangeExterior': 120
		};
		// 100 · 50 and 100 · 120 hundred-thousandths
		expect(figureOf('curtainGrowth', given)).toBeCloseTo(0.05, 9);
		expect(figureOf('curtainGrowth', { ...given, exposure: 'interior' })).toBeCloseTo(0.05, 9);
		expect(figureOf('curtainGrowth', { ...given, exposure: 'exterior' })).toBeCloseTo(0.12, 9);
	});

	it('room left in both grooves; at it there is no caution, over it there is', () => {
		// 2.25 − 1.875 on the left, 1.5 − 1.25 on the right
		expect(figureOf('growthRoom', { guideLeft: 'store-face', guideRight: 'counter-face' })).toBeCloseTo(
			0.625,
			9
		);
		const tight = (growth: number) =>
			reckon('growthTight', { curtainGrowth: [growth, 'in'], growthRoom: [0.5, 'in'] });
		expect([tight(0.5), tight(0.501)]).toEqual([0, 1]);
	});
});
