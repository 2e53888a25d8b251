/** The motor circuit against the electrical code, and torque and power against statics. */
import { describe, expect, it } from 'vitest';
import { convert } from '../../src/lib/quantity/units.ts';
import { conductors, motorCurrents, standardBreakers } from '../../src/lib/shopbook/published-tables.ts';
import { engineOf, openingB, typedRow, type Typed } from '../opening-rows.ts';
import { figureOf, reckon, type Given } from '../reckon.ts';

const motor = (horsepower: string, volts: number): Given => ({
	operation: 'tubeMotor',
	motorSize: horsepower,
	supplyVoltage: [volts, 'V']
});

/** The first row of a table for which a flag is true. */
const firstThat = (flag: string, key: string, rows: readonly { readonly key: string }[], given: Given) =>
	rows.find((row) => reckon(flag, { ...given, [key]: row.key }) === 1)?.key;

describe('published: NEC (NFPA 70), Table 430.248, full-load currents of single-phase motors', () => {
	// hp, then A at 115, 200, 208 and 230 V.
	it.each([
		['1/4', 5.8, 3.3, 3.2, 2.9],
		['1/3', 7.2, 4.1, 4.0, 3.6],
		['1/2', 9.8, 5.6, 5.4, 4.9],
		['3/4', 13.8, 7.9, 7.6, 6.9],
		['2', 24, 13.8, 13.2, 12]
	])('%s hp', (horsepower, at115, at200, at208, at230) => {
		const amperes = [115, 200, 208, 230].map((volts) =>
			figureOf('fullLoadCurrent', motor(horsepower, volts))
		);
		expect(amperes).toEqual([at115, at200, at208, at230]);
	});
});

describe('from memory, to be confirmed: NEC Table 430.248, the other rows and the ranges of its note', () => {
	it.each([
		['1/6', 4.4, 2.5, 2.4, 2.2],
		['1', 16, 9.2, 8.8, 8.0],
		['1 1/2', 20, 11.5, 11, 10],
		['3', 34, 19.6, 18.7, 17],
		['5', 56, 32.2, 30.8, 28],
		['7 1/2', 80, 46, 44, 40],
		['10', 100, 57.5, 55, 50]
	])('%s hp', (horsepower, at115, at200, at208, at230) => {
		const row = motorCurrents.find(({ key }) => key === horsepower);
		expect([row?.at115, row?.at200, row?.at208, row?.at230].map(Number)).toEqual([
			at115,
			at200,
			at208,
			at230
		]);
		expect(row?.source).toContain('from memory');
	});

	// 110 to 120 V and 220 to 240 V are read in the columns of 115 and 230 V; nothing is made up between.
	it.each([
		[109.9, null],
		[110, 9.8],
		[120, 9.8],
		[120.1, null],
		[199, null],
		[200, 5.6],
		[204, null],
		[208, 5.4],
		[219.9, null],
		[220, 4.9],
		[240, 4.9],
		[240.1, null],
		[277, null]
	])('1/2 hp at %d V: %s A', (volts, amperes) => {
		expect(reckon('fullLoadCurrent', motor('1/2', volts))).toBe(amperes);
	});

	it('without a voltage or a motor there is no current, and nothing follows from it', () => {
		expect(reckon('fullLoadCurrent', { operation: 'tubeMotor', motorSize: '1/2' })).toBeNull();
		expect(reckon('fullLoadCurrent', { ...motor('1/2', 115), operation: 'chain' })).toBeNull();
		expect(reckon('breakerMost', { ...motor('1/2', 277) })).toBeNull();
		expect(reckon('breakerHolds', { ...motor('1/2', 277), breaker: '250' })).not.toBe(1);
	});
});

describe('published: NEC (NFPA 70) 2023, Table 310.16, copper, three conductors or fewer, 30 °C', () => {
	// AWG, then A at 60, 75 and 90 °C.
	it.each([
		['14', 15, 20, 25],
		['12', 20, 25, 30],
		['10', 30, 35, 40],
		['8', 40, 50, 55]
	])('%s AWG', (size, at60, at75, at90) => {
		const row = conductors.find(({ key }) => key === size);
		expect([row?.ampacity60, row?.ampacity75, row?.ampacity90].map(Number)).toEqual([at60, at75, at90]);
		// The 75 °C column decides: at it and over it.
		const carries = (amperes: number) =>
			reckon('conductorCarries', { conductor: size, conductorAmpacityNeeded: [amperes, 'A'] });
		expect([carries(at75 - 0.01), carries(at75), carries(at75 + 0.01)]).toEqual([1, 1, 0]);
	});
});

describe('published: NEC (NFPA 70) 430.22, Table 430.52 and 240.6(A), circuits of motors', () => {
	// hp, V, then conductor of 1.25 · FLC on the 75 °C column, breaker of 2.50 · FLC and the next standard size up. The
	// results follow from printed percentages and tables; a breaker may be far above the wire’s usual one, 240.4(G).
	it.each([
		['1/2', 115, 12.25, '14', 24.5, '25'],
		['1/2', 230, 6.125, '14', 12.25, '15'],
		['3/4', 115, 17.25, '14', 34.5, '35'],
		['1/3', 115, 9.0, '14', 18.0, '20']
	])('%s hp at %d V', (horsepower, volts, ampacity, wire, most, breaker) => {
		const given = motor(horsepower, volts);
		expect(figureOf('conductorAmpacityNeeded', given)).toBeCloseTo(ampacity, 6);
		expect(firstThat('conductorHolds', 'conductor', conductors, given)).toBe(wire);
		expect(figureOf('breakerMost', given)).toBeCloseTo(most, 6);
		expect(firstThat('breakerHolds', 'breaker', standardBreakers, given)).toBe(breaker);
	});
});

describe('published: NEC (NFPA 70) 2023, Chapter 9, Table 8, and Vd = 2·L·I·R/1000', () => {
	// 100 ft one way, 9.8 A, 115 V; ohm for 1000 ft 3.07, 1.93 and 1.21, read; the drops follow.
	it.each([
		['14', 6.017, 5.232],
		['12', 3.783, 3.289],
		['10', 2.372, 2.062]
	])('%s AWG: %d V, %d %%', (conductor, volts, percent) => {
		const given: Given = { ...motor('1/2', 115), conductor, feedLength: [100, 'ft'] };
		expect(Math.abs(figureOf('voltageDrop', given) - volts)).toBeLessThanOrEqual(0.001);
		expect(Math.abs(100 * figureOf('voltageDropShare', given) - percent)).toBeLessThanOrEqual(0.001);
	});
});

describe('from memory, to be confirmed: electrical', () => {
	it('nothing thinner than 14 AWG, 4110 circular mils (310.3(A))', () => {
		const carries = (area: number) =>
			reckon('conductorCarries', {
				'conductor.area': area,
				'conductor.ampacity75': [20, 'A'],
				conductorAmpacityNeeded: [1, 'A']
			});
		expect([carries(4109), carries(4110)]).toEqual([0, 1]);
	});

	it('14 AWG with a 40 A breaker is no error: 1 hp at 115 V, 16 A (that row from memory)', () => {
		// 1.25 · 16 = 20 A, what 14 AWG just carries; 2.5 · 16 = 40 A.
		const given = motor('1', 115);
		expect(firstThat('conductorHolds', 'conductor', conductors, given)).toBe('14');
		expect(firstThat('breakerHolds', 'breaker', standardBreakers, given)).toBe('40');
	});

	it.each([
		[14.99, '15'],
		[15, '15'],
		[15.01, '20'],
		[25, '25'],
		[25.01, '30'],
		[250, '250'],
		[250.01, undefined]
	])('next size up from %d A: %s', (most, breaker) => {
		expect(firstThat('breakerHolds', 'breaker', standardBreakers, { breakerMost: [most, 'A'] })).toBe(
			breaker
		);
	});

	it('at 3 % the conductor passes, over it not; without a feed length nothing is held against it', () => {
		const passes = (share: number) =>
			reckon('conductorDropPasses', { feedLength: [1, 'ft'], voltageDropShare: share });
		expect([passes(0.0299), passes(0.03), passes(0.0301)]).toEqual([1, 1, 0]);
		expect(reckon('conductorDropPasses', motor('1/2', 115))).toBe(1);
		expect(reckon('voltageDrop', { ...motor('1/2', 115), conductor: '14' })).toBeNull();
	});

	it('100 ft at 115 V and 3 %: 10 AWG, two sizes thicker than the current asks for', () => {
		const given: Given = { ...motor('1/2', 115), feedLength: [100, 'ft'] };
		expect(firstThat('conductorHolds', 'conductor', conductors, given)).toBe('10');
	});

	it('in sight is at most 50 ft (430.102, Article 100)', () => {
		expect(figureOf('disconnectWithin', { operation: 'tubeMotor' }, 'ft')).toBeCloseTo(50, 9);
		expect(reckon('disconnectWithin', { operation: 'crank' })).toBeNull();
	});

	// Vd = 2·K·I·L/cmil with K = 12.9 ohm·cmil/ft, 9.8 A, 100 ft: about 2 % above the table form.
	it.each([
		['14', 4110, 6.152],
		['12', 6530, 3.872],
		['10', 10380, 2.436]
	])('the K form for %s AWG, %d circular mils: %d V', (conductor, area, volts) => {
		expect(Math.abs((2 * 12.9 * 9.8 * 100) / area - volts)).toBeLessThanOrEqual(0.001);
		expect(Number(conductors.find(({ key }) => key === conductor)?.area)).toBe(area);
		const given: Given = { ...motor('1/2', 115), conductor, feedLength: [100, 'ft'] };
		const share = volts / figureOf('voltageDrop', given);
		expect(share).toBeGreaterThan(1.02);
		expect(share).toBeLessThan(1.03);
	});

	it('standard sizes of breakers (240.6(A))', () => {
		expect(standardBreakers.map(({ rating }) => Number(rating))).toEqual([
			15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250
		]);
	});

	it('T = W·r: 200 lb at 3.25 in is 650 lb-in, 54.1667 lb-ft, 73.4401 N·m (statics)', () => {
		const given: Given = { closedWeight: [200, 'lb'], coilDiameterClosed: [6.5, 'in'] };
		expect(figureOf('closedTorque', given, 'lb-in')).toBeCloseTo(650, 9);
		expect(figureOf('closedTorque', given)).toBeCloseTo(54.1667, 4);
		expect(Math.abs(figureOf('closedTorque', given, 'N-m') - 73.4401)).toBeLessThanOrEqual(0.0001);
	});

	it('P = T·n/5252.113 and v = 2πrn: 54.1667 lb-ft at 30 rpm is 0.3094 hp, 0.85085 ft/s (mechanics)', () => {
		const given: Given = {
			requiredTorque: [650, 'lb-in'],
			coilDiameter: [6.5, 'in'],
			'drive.speed': [30, 'rpm']
		};
		const horsepower = figureOf('horsepowerNeeded', given);
		expect(Math.abs(horsepower - 0.3094)).toBeLessThanOrEqual(0.0001);
		expect(Math.abs(horsepower - (54.1667 * 30) / 5252.113)).toBeLessThanOrEqual(1e-6);
		expect(Math.abs(figureOf('barSpeed', given, 'ft/s') - 0.85085)).toBeLessThanOrEqual(0.0001);
		// W·v, then in watts.
		expect(Math.abs(horsepower * 550 - 170.17)).toBeLessThanOrEqual(0.01);
		expect(Math.abs(convert(horsepower * 550, 'lb-ft/s', 'N-m/s') - 230.72)).toBeLessThanOrEqual(0.1);
	});
});

describe('hand arithmetic: duty of the drive', () => {
	// 5.5 turns at 11 rpm are half a minute; up and down again one minute.
	const given: Given = { operation: 'tubeMotor', driveTurns: 5.5, 'drive.speed': [11, 'rpm'] };

	it('a full cycle is twice the travel, and three of them go without a rest', () => {
		expect(figureOf('travelTime', given, 's')).toBeCloseTo(30, 9);
		expect(figureOf('cycleTime', given, 's')).toBeCloseTo(60, 9);
		expect(figureOf('dutyNeeded', { ...given, 'shop.cyclesWithoutRest': 3 }, 'min')).toBeCloseTo(3, 9);
	});

	it('the cut-out at, under and over the time asked for', () => {
		const enough = (minutes: number) =>
			reckon('driveDutyEnough', {
				...given,
				'shop.cyclesWithoutRest': 3,
				'drive.thermalMinutes': [minutes, 'min']
			});
		expect([enough(2.99), enough(3), enough(3.01)]).toEqual([0, 1, 1]);
	});

	it('ten cycles to run in, in as many parts as the cut-out asks for', () => {
		// 10 · 1 min: 10 / 10 = 1, 10 / 9.99 → 2, 10 / 5 = 2, 10 / 4.9 = 2.04 → 3.
		const parts = (minutes: number) =>
			reckon('runInParts', { ...given, 'shop.runInCycles': 10, 'drive.thermalMinutes': [minutes, 'min'] });
		expect(figureOf('runInTime', { ...given, 'shop.runInCycles': 10 }, 'min')).toBeCloseTo(10, 9);
		expect([parts(10), parts(9.99), parts(5), parts(4.9)]).toEqual([1, 2, 2, 3]);
	});

	it('without a drive there is no duty', () => {
		expect(reckon('cycleTime', { driveTurns: 5.5, drive: 'none' })).toBeNull();
		expect(reckon('runInParts', { driveTurns: 5.5, drive: 'none' })).toBeNull();
	});
});

describe('a takeoff picks conductor and breaker', () => {
	const engine = engineOf();
	const picked = (typed: Typed) => {
		const [opening] = engine.takeoff([typedRow(typed)], 'imperial').openings;
		return [opening?.get('motorSize'), opening?.get('conductor'), opening?.get('breaker')];
	};

	it('as by hand: a 1/2 hp motor (invented shop book) at 120 V', () => {
		expect(picked({ ...openingB, supplyVoltage: '120' })).toEqual(['1/2', '14', '25']);
		// 2 · 100 ft · 9.8 A · 1.93 ohm/1000 ft = 3.783 V, over 3 % of 120 V; 1.21 gives 2.372 V.
		expect(picked({ ...openingB, supplyVoltage: '120', feedLength: `100'` })).toEqual(['1/2', '10', '25']);
	});

	it('nothing where the voltage is not in the table, not given, or there is no motor', () => {
		expect(picked({ ...openingB, supplyVoltage: '277' }).slice(1)).toEqual([null, null]);
		expect(picked(openingB).slice(1)).toEqual([null, null]);
		expect(picked({ ...openingB, operation: 'chain', supplyVoltage: '120' }).slice(1)).toEqual([null, null]);
	});
});
