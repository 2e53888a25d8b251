/**
 * Pipe, beam and sheet against published figures. Printed values carry their own rounding: the tolerance beside each is
 * what the source's number of figures allows.
 */
import { describe, expect, it } from 'vitest';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import {
	auditBook,
	pipeSection,
	sheetGauge,
	steelPipe,
	zinc
} from '../../src/lib/shopbook/published-tables.ts';
import { inUnit } from '../../src/lib/quantity/format.ts';
import { unit } from '../../src/lib/quantity/units.ts';
import { engineOf } from '../opening-rows.ts';

const within = (value: number, expected: number, share: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};

describe('pipe: AISC Steel Construction Manual, 15th ed., Table 1-14; weight from the nominal wall, the rest from 0.93 of it', () => {
	it.each([
		// OD, nominal wall, design wall, weight lb/ft, A in², I in⁴, S in³, r in
		[3.5, 0.216, 0.201, 7.58, 2.07, 2.85, 1.63, 1.17],
		[4.5, 0.237, 0.221, 10.8, 2.96, 6.82, 3.03, 1.51],
		[5.563, 0.258, 0.241, 14.6, 4.01, 14.3, 5.14, 1.88],
		[6.625, 0.28, 0.261, 19.0, 5.2, 26.5, 7.99, 2.25],
		[8.625, 0.322, 0.3, 28.6, 7.85, 68.1, 15.8, 2.95],
		[12.75, 0.375, 0.349, 49.6, 13.7, 262, 41, 4.39]
	])('OD %d', (outside, nominal, design, weight, area, second, modulus, radius) => {
		within(pipeSection(outside, nominal).weight, weight, 0.005);
		const section = pipeSection(outside, design);
		within(section.area, area, 0.01);
		within(section.secondMoment, second, 0.005);
		within(section.sectionModulus, modulus, 0.005);
		within(section.radiusOfGyration, radius, 0.005);
	});
});

describe('pipe: ASME B36.10M nominal dimensions with the ring formulas', () => {
	it.each([
		[3.5, 0.216, 2.2285, 3.0172, 1.7241, 7.583],
		[4.0, 0.226, 2.6795, 4.7877, 2.3939, 9.118],
		[4.5, 0.237, 3.174, 7.2326, 3.2145, 10.8],
		[5.563, 0.258, 4.2999, 15.1622, 5.4511, 14.631],
		[6.625, 0.28, 5.5814, 28.1422, 8.4958, 18.992],
		[8.625, 0.322, 8.3993, 72.4892, 16.8091, 28.58],
		[10.75, 0.365, 11.9083, 160.7342, 29.904, 40.521],
		[12.75, 0.375, 14.579, 279.335, 43.8173, 49.608],
		[12.75, 0.406, 15.7446, 300.209, 47.092, 53.57]
	])('OD %d wall %d', (outside, wall, area, second, modulus, weight) => {
		const section = pipeSection(outside, wall);
		within(section.area, area, 0.001);
		within(section.secondMoment, second, 0.001);
		within(section.sectionModulus, modulus, 0.001);
		within(section.weight, weight, 0.002);
		expect(
			steelPipe.some((row) => Number(row.outsideDiameter) === outside && Number(row.wall) === wall)
		).toBe(true);
	});

	it('refuses a wall that leaves no bore', () => {
		expect(() => pipeSection(3.5, 1.75)).toThrow(RangeError);
		expect(() => pipeSection(3.5, 0)).toThrow(RangeError);
	});
});

describe('pipe in SI: mass of ASME B36.10M dimensions at 7850 kg/m³ (coefficient from memory; re-derives)', () => {
	it.each([
		[88.9, 5.49, 11.29],
		[114.3, 6.02, 16.08],
		[168.3, 7.11, 28.26],
		[219.1, 8.18, 42.55],
		[273.0, 9.27, 60.29],
		[323.8, 10.31, 79.71]
	])('OD %d mm wall %d mm', (outside, wall, mass) => {
		const perFoot = pipeSection(outside / 25.4, wall / 25.4).weight;
		within(perFoot * (0.45359237 / 0.3048), mass, 0.005);
	});
});

describe('beam: AISC Steel Construction Manual, Table 3-23, case 1', () => {
	const program = engineOf().rules.program({
		rules: ['barrelDeflection', 'barrelEndSlope', 'barrelStress', 'deflectionLimit'],
		given: [
			'barrelLoad',
			'bracketDistance',
			'barrel.elasticModulus',
			'barrel.secondMoment',
			'barrel.outsideDiameter'
		],
		capacity: 1
	});
	const run = (load: number, feet: number, second: number): void => {
		program.column('barrelLoad')[0] = load * unit('lb/ft').scale;
		program.column('bracketDistance')[0] = feet * unit('ft').scale;
		program.column('barrel.elasticModulus')[0] = 29000 * unit('ksi').scale;
		program.column('barrel.secondMoment')[0] = second * unit('in4').scale;
		// A diameter of 2 in makes M·c/I = M/I, so that the moment can be read from the stress.
		program.column('barrel.outsideDiameter')[0] = 2 * unit('in').scale;
		program.run(1);
	};
	const read = (id: string, shown: string): number => inUnit(program.column(id)[0] ?? Number.NaN, shown);

	it.each([
		// w lb/ft, L ft, I in⁴, Δ in, slope rad, M lb-in
		[1000, 10, 30.8, 0.2519, 0.0067174, 150_000],
		[60, 12, 26.5, 0.0364, 0.000809, 12_960],
		[90, 20, 68.1, 0.1641, 0.002187, 54_000],
		[40, 10, 6.82, 0.0455, 0.001213, 6_000],
		[120, 24, 151, 0.2046, 0.002273, 103_680]
	])('%d lb/ft over %d ft', (load, feet, second, deflection, slope, moment) => {
		run(load, feet, second);
		within(read('barrelDeflection', 'in'), deflection, 0.002);
		within(read('barrelEndSlope', '1'), slope, 0.002);
		within(read('barrelStress', 'ksi') * 1000 * second, moment, 0.001);
	});

	it.each([
		// 0.03 in per foot: 12 ft → 0.36, 20 ft → 0.60, 10 ft → 0.30, 24 ft → 0.72
		[12, 0.36],
		[20, 0.6],
		[10, 0.3],
		[24, 0.72]
	])('limit over %d ft', (feet, limit) => {
		run(1, feet, 1);
		expect(read('deflectionLimit', 'in')).toBeCloseTo(limit, 12);
	});

	it.each([
		// the load that just reaches the limit: w = 384EI / (5 · 400 · L³)
		[12, 26.5, 592.98],
		[20, 68.1, 329.15]
	])('%d ft: the load at the limit', (feet, second, load) => {
		run(load, feet, second);
		within(read('barrelDeflection', 'in'), read('deflectionLimit', 'in'), 0.002);
	});
});

describe('sheet: 15 U.S.C. 206, weights with 2.5 oz of zinc', () => {
	it.each([
		[10, 5.625, 5.781],
		[12, 4.375, 4.531],
		[14, 3.125, 3.281],
		[16, 2.5, 2.656],
		[18, 2, 2.156],
		[20, 1.5, 1.656],
		[22, 1.25, 1.406],
		[24, 1, 1.156]
	])('gauge %d', (gauge, plain, galvanized) => {
		const row = sheetGauge.find((entry) => entry.gauge === gauge);
		expect(Number(row?.weight)).toBe(plain);
		expect(Math.abs(Number(row?.weight) + zinc - galvanized)).toBeLessThanOrEqual(0.001);
	});
});

describe('the demo shop book held against the formulas', () => {
	it('every pipe, sheet and through bolt agrees within 1 %', () => {
		const findings = auditBook(demoTechnicalBook);
		expect(findings).toHaveLength(13);
		expect(findings.filter(({ agrees }) => !agrees)).toEqual([]);
	});
	it('finds a second moment that belongs to another wall', () => {
		const [first, ...rest] = demoTechnicalBook.barrels;
		if (!first) throw new Error('no barrel');
		const findings = auditBook({
			...demoTechnicalBook,
			barrels: [{ ...first, secondMomentWall: 'design' }, ...rest]
		});
		expect(findings.filter(({ agrees }) => !agrees).map(({ key, figure }) => [key, figure])).toEqual([
			['3.5', 'second moment of area, design wall']
		]);
	});
});
