/**
 * Wind: published figures with their source, by its own tolerance; breakpoints; one wall worked by hand. What is from
 * memory stands apart.
 */
import { describe, expect, it } from 'vitest';
import {
	allowablePressure,
	claddingPressure,
	confirmedSentence,
	designPressureText,
	effectiveWindArea,
	elevationFactor,
	enclosures,
	exposureCoefficient,
	internalCoefficient,
	velocityPressure,
	wallCoefficient,
	windFaults,
	windPressure,
	type WindCase
} from '../../src/lib/takeoff/wind.ts';

const within = (value: number, expected: number, share: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};
const near = (value: number, expected: number, difference: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(difference);
};

describe('ASCE/SEI 7-16, Table 26.10-1: Kz at 15, 20, 25 and 30 ft; the table rounds, ± 0.006', () => {
	it.each([
		['B', [0.57, 0.62, 0.66, 0.7]],
		['C', [0.85, 0.9, 0.94, 0.98]],
		['D', [1.03, 1.08, 1.12, 1.16]]
	] as const)('exposure %s', (exposure, printed) => {
		printed.forEach((kz, i) => {
			near(exposureCoefficient('ASCE 7-16', exposure, 15 + 5 * i, 'imperial').value, kz, 0.006);
		});
	});
});

describe('ASCE/SEI 7-16, Eq. 26.10-1: qz = 0.00256 Kz Kzt Kd Ke V², Kd 0.85; within 0.1 %', () => {
	it.each([
		[115, 0.7, 20.14],
		[115, 0.85, 24.46],
		[120, 0.9, 28.2],
		[140, 1.16, 49.47],
		[105, 0.94, 22.55]
	])('%d mph, Kz %d: %d psf', (speed, kz, q) => {
		within(velocityPressure('ASCE 7-16', kz, 1, 1, speed, 'imperial').value, q, 0.001);
		// The same wind by the SI form: 1 mph = 0.44704 m/s, 1 psf = 47.88026 Pa. 0.613 is 0.06 % more than 0.00256.
		within(velocityPressure('ASCE 7-16', kz, 1, 1, speed * 0.44704, 'metric').value / 47.88026, q, 0.0015);
	});
});

// ASCE/SEI 7 verification test: V 52 m/s, exposure C, ground at 110 m, qz with Kd 0.85 for both editions.
describe('ASCE/SEI 7, Tables 26.9-1, 26.10-1, 26.11-1, in SI; within 0.01 %', () => {
	it.each([
		['ASCE 7-16', 5, 0.86503, 1202.905],
		['ASCE 7-16', 6.5, 0.91415, 1271.217],
		['ASCE 7-22', 6.5, 0.914472, 1271.662]
	] as const)('%s at %d m', (edition, height, kz, qz) => {
		const coefficient = exposureCoefficient(edition, 'C', height, 'metric').value;
		const elevation = elevationFactor(edition, 110, 'metric').value;
		within(coefficient, kz, 0.0001);
		within(elevation, 0.986995, 0.0001);
		const q = velocityPressure(edition, coefficient, 1, elevation, 52, 'metric').value;
		// In 7-22 Kd is no longer in q.
		within(edition === 'ASCE 7-22' ? 0.85 * q : q, qz, 0.0001);
	});
});

describe('ASCE/SEI 7-16 and 7-22, Figure 30.3-1: GCp of walls, h ≤ 60 ft; ± 0.001', () => {
	const cases = [
		[10, 1, -1.1, -1.4],
		[20, 0.9468, -1.0468, -1.2937],
		[50, 0.8766, -0.9766, -1.1532],
		[100, 0.8234, -0.9234, -1.0468],
		[200, 0.7703, -0.8703, -0.9405],
		[500, 0.7, -0.8, -0.8]
	] as const;
	it.each(cases)('%d ft²', (area, inward, zone4, zone5) => {
		for (const edition of ['ASCE 7-16', 'ASCE 7-22'] as const) {
			near(wallCoefficient(edition, 4, 'inward', area, 'imperial').value, inward, 0.001);
			near(wallCoefficient(edition, 5, 'inward', area, 'imperial').value, inward, 0.001);
			near(wallCoefficient(edition, 4, 'outward', area, 'imperial').value, zone4, 0.001);
			near(wallCoefficient(edition, 5, 'outward', area, 'imperial').value, zone5, 0.001);
		}
		// 1 ft² = 0.09290304 m², exact.
		near(wallCoefficient('ASCE 7-16', 5, 'outward', area * 0.09290304, 'metric').value, zone5, 0.001);
	});
});

// V 115 mph, exposure B, h 30 ft, enclosed: qh 20.144 psf with Kz 0.70.
describe('ASCE/SEI 7-16, Eq. 30.3-1, Tables 26.13-1 and 26.6-1: p = qh (GCp ∓ GCpi); within 0.2 %, 0.6 p within 0.3 %', () => {
	it.each([
		[10, 23.77, -25.78, -31.83, 14.26, -15.47, -19.1],
		[48, 21.35, -23.36, -26.98, 12.81, -14.02, -16.19],
		[100, 20.21, -22.23, -24.71, 12.13, -13.34, -14.83]
	])('%d ft²', (area, inward, zone4, zone5, allowableIn, allowable4, allowable5) => {
		const inside = internalCoefficient('ASCE 7-16', 'enclosed').value;
		const net = (zone: 4 | 5, direction: 'inward' | 'outward'): number =>
			claddingPressure(
				'ASCE 7-16',
				direction,
				20.144,
				wallCoefficient('ASCE 7-16', zone, direction, area, 'imperial').value,
				inside,
				'imperial'
			).value;
		within(net(4, 'inward'), inward, 0.002);
		within(net(5, 'inward'), inward, 0.002);
		within(net(4, 'outward'), zone4, 0.002);
		within(net(5, 'outward'), zone5, 0.002);
		const allowed = (into: number, out: number): number =>
			allowablePressure('ASCE 7-16', into, out, 'imperial').value;
		within(allowed(net(4, 'inward'), 0), allowableIn, 0.003);
		within(allowed(0, net(4, 'outward')), -allowable4, 0.003);
		within(allowed(net(5, 'inward'), net(5, 'outward')), -allowable5, 0.003);
	});
});

const corner: WindCase = {
	edition: 'ASCE 7-16',
	measures: 'imperial',
	speed: 115,
	exposure: 'B',
	roofHeight: 30,
	openingHeight: 10,
	topography: 1,
	groundElevation: 0,
	enclosure: 'enclosed',
	zone: 5,
	area: 10
};

describe('breakpoints', () => {
	it.each([
		['imperial', 15],
		['metric', 4.572]
	] as const)('%s: heights under %d count as that', (measures, least) => {
		const kz = (height: number) => exposureCoefficient('ASCE 7-16', 'C', height, measures).value;
		expect(kz(least - 0.01)).toBe(kz(least));
		expect(kz(0.01)).toBe(kz(least));
		expect(kz(least + 0.01)).toBeGreaterThan(kz(least));
	});

	it('at the gradient height Kz is its factor, above it refused', () => {
		expect(exposureCoefficient('ASCE 7-16', 'D', 700, 'imperial').value).toBe(2.01);
		expect(exposureCoefficient('ASCE 7-22', 'D', 1935, 'imperial').value).toBe(2.41);
		expect(() => exposureCoefficient('ASCE 7-16', 'D', 701, 'imperial')).toThrow(
			'Height is 701 ft; exposure D of ASCE 7-16 goes to 700 ft above the ground.'
		);
		expect(() => exposureCoefficient('ASCE 7-16', 'D', 0, 'imperial')).toThrow(RangeError);
	});

	it('areas under 10 and over 500 ft² count as these', () => {
		const gcp = (area: number) => wallCoefficient('ASCE 7-16', 5, 'outward', area, 'imperial').value;
		expect([gcp(0.5), gcp(9.99), gcp(10)]).toEqual([-1.4, -1.4, -1.4]);
		expect(gcp(10.01)).toBeGreaterThan(-1.4);
		expect(gcp(499.9)).toBeLessThan(-0.8);
		expect(gcp(500)).toBeCloseTo(-0.8, 12);
		expect(gcp(501)).toBe(gcp(500));
	});

	it('a mean roof of 60 ft is the last', () => {
		expect(windPressure({ ...corner, roofHeight: 60 }).inward).toBeGreaterThan(0);
		expect(() => windPressure({ ...corner, roofHeight: 60.01 })).toThrow(
			'Mean roof height is 60.01 ft; this ends at 60 ft: a taller building has coefficients of its own, ask the engineer.'
		);
		expect(windFaults({ roofHeight: 18.3 }, 'metric')).toEqual({});
		expect(windFaults({ roofHeight: 18.31 }, 'metric')).toHaveProperty('roofHeight');
	});

	it('at sea level Ke is 1, above it less, below it more', () => {
		expect(elevationFactor('ASCE 7-16', 0, 'imperial').value).toBe(1);
		expect(elevationFactor('ASCE 7-16', 1, 'imperial').value).toBeLessThan(1);
		expect(elevationFactor('ASCE 7-16', -1, 'imperial').value).toBeGreaterThan(1);
	});

	it('the height of the opening is shown, and does not count', () => {
		const low = windPressure({ ...corner, openingHeight: 8 });
		const high = windPressure({ ...corner, openingHeight: 30 });
		expect(high.velocityAtOpening).toBe(high.velocity);
		expect(low.velocityAtOpening).toBeLessThan(low.velocity);
		expect([low.inward, low.outward]).toEqual([high.inward, high.outward]);
	});
});

describe('figures out of range are refused with what would be right', () => {
	it.each([
		[
			{ speed: 59 },
			'Basic wind speed is 59 mph; write the 3-second gust from the map for the building’s risk category, 60 to 250 mph.'
		],
		[{ speed: 251 }, '60 to 250 mph'],
		[{ speed: NaN }, 'Basic wind speed is not a number'],
		[{ roofHeight: 0 }, 'more than 0 and at most 60 ft'],
		[
			{ openingHeight: 31 },
			'Top of the opening is 31 ft, above the mean roof height of 30 ft; one of the two must be wrong.'
		],
		[{ openingHeight: -1 }, 'Top of the opening is −1 ft; write its height above the ground'],
		[{ topography: 0.99 }, 'write 1 on flat ground'],
		[{ topography: Infinity }, 'Topographic factor is not a number'],
		[{ groundElevation: -1401 }, '−1400 to 20000 ft'],
		[{ groundElevation: 20_001 }, 'above it, 0 is on the safe side'],
		[{ area: 0 }, 'more than 0 and at most 10000 ft²']
	])('%o', (change, sentence) => {
		expect(() => windPressure({ ...corner, ...change })).toThrow(sentence);
		expect(() => windPressure({ ...corner, ...change })).toThrow(RangeError);
	});

	it('by each function for itself', () => {
		expect(() => velocityPressure('ASCE 7-16', 0, 1, 1, 115, 'imperial')).toThrow('must be more than 0');
		expect(() => velocityPressure('ASCE 7-16', 0.7, 1, NaN, 115, 'imperial')).toThrow(RangeError);
		expect(() => wallCoefficient('ASCE 7-16', 4, 'inward', -1, 'metric')).toThrow('at most 930 m²');
		expect(() => elevationFactor('ASCE 7-16', 7000, 'metric')).toThrow('−430 to 6100 m');
		expect(() => claddingPressure('ASCE 7-16', 'outward', 20, 1.1, 0.18, 'imperial')).toThrow('less than 0');
		expect(() => claddingPressure('ASCE 7-16', 'inward', 20, 1, -0.18, 'imperial')).toThrow('0 to 1');
		expect(() => allowablePressure('ASCE 7-16', 20, 20, 'imperial')).toThrow('outward as minus');
		expect(() => effectiveWindArea(0, 1, 8, 'imperial')).toThrow('Span is 0');
	});

	it('says only what is there: what is not entered yet is no fault', () => {
		expect(windFaults({ speed: 115 }, 'imperial')).toEqual({});
	});
});

describe('from memory, not looked up', () => {
	it('26.2: effective width of a third of the span; ours: no more than the curtain', () => {
		// 12 ft span, slats of 2 in: 12 · 12/3 = 48; a counter 12 ft × 3 ft: 36; one panel 8 ft wide on a span of 12: 96.
		expect(effectiveWindArea(12, 1 / 6, 10, 'imperial').value).toBe(48);
		expect(effectiveWindArea(12, 1 / 6, 3, 'imperial').value).toBe(36);
		expect(effectiveWindArea(12, 8, 10, 'imperial').value).toBe(96);
	});

	it('30.2.2: no less than 16 psf (770 Pa) at strength level', () => {
		// 60 mph at exposure B is far below it.
		const gentle = windPressure({ ...corner, speed: 60 });
		expect([gentle.inward, gentle.outward]).toEqual([16, -16]);
		expect(gentle.allowable).toBeCloseTo(9.6, 12);
		const metric = windPressure({
			...corner,
			measures: 'metric',
			speed: 27,
			roofHeight: 9,
			openingHeight: 3,
			area: 1
		});
		expect([metric.inward, metric.outward]).toEqual([770, -770]);
	});

	it('Table 26.13-1: GCpi 0.55 partially enclosed, 0.18 partially open, 0 open', () => {
		expect(enclosures.map((enclosure) => internalCoefficient('ASCE 7-22', enclosure).value)).toEqual([
			0.18, 0.55, 0.18, 0
		]);
	});

	it('7-22 moves Kd from q to p and counts it once', () => {
		// Exposure C at 20 ft, 120 mph: Kz = 2.41 (20/2460)^(2/9.8) = 2.41 · 0.374532 = 0.902622
		// q = 0.00256 · 0.902622 · 120² = 33.2742, without Kd
		// 10 ft², zone 4: p+ = 33.2742 · 0.85 · (1 + 0.18) = 33.3741; p− = 33.2742 · 0.85 · (−1.1 − 0.18) = −36.2024
		const later = windPressure({
			...corner,
			edition: 'ASCE 7-22',
			exposure: 'C',
			roofHeight: 20,
			speed: 120,
			zone: 4
		});
		expect(later.velocity).toBeCloseTo(33.2742, 3);
		expect(later.inward).toBeCloseTo(33.3741, 3);
		expect(later.outward).toBeCloseTo(-36.2024, 3);
		expect(later.steps.find(({ title }) => title === 'Inward pressure')).toMatchObject({
			formula: 'p = qh · Kd · (GCp + GCpi), Kd = 0.85',
			source: { basis: 'fromMemory' }
		});
	});
});

describe('worked by hand', () => {
	// 16 ft × 9 ft, 130 mph, exposure C, h 20 ft, ground at 500 ft, partially enclosed, zone 5, ASCE 7-16.
	// A  = 16 · 16/3 = 85.3333
	// Ke = e^(−0.0000362 · 500) = e^(−0.0181) = 0.982063
	// Kh = 2.01 (20/900)^(2/9.5) = 2.01 · 0.448699 = 0.901885
	// qh = 0.00256 · 0.901885 · 0.85 · 0.982063 · 16900 = 32.5713
	// share = log(8.53333)/log(50) = 0.931119/1.698970 = 0.548049
	// GCp+ = 1 − 0.3 · 0.548049 = 0.835585; GCp− = −1.4 + 0.6 · 0.548049 = −1.071171
	// p+ = 32.5713 · (0.835585 + 0.55) = 45.1303; p− = 32.5713 · (−1.071171 − 0.55) = −52.8036
	// allowable 0.6 · 52.8036 = 31.6822, taken up to 31.7
	// at the opening, 9 ft counts as 15: Kz = 2.01 (15/900)^(2/9.5) = 2.01 · 0.422327 = 0.848877; q = 30.6570
	const wall: WindCase = {
		...corner,
		speed: 130,
		exposure: 'C',
		roofHeight: 20,
		openingHeight: 9,
		groundElevation: 500,
		enclosure: 'partiallyEnclosed',
		area: effectiveWindArea(16, 1 / 6, 9, 'imperial').value
	};
	const pressure = windPressure(wall);

	it('16 ft × 9 ft at 130 mph', () => {
		expect(wall.area).toBeCloseTo(85.3333, 4);
		expect(pressure.velocity).toBeCloseTo(32.5713, 3);
		expect(pressure.velocityAtOpening).toBeCloseTo(30.657, 3);
		expect(pressure.inward).toBeCloseTo(45.1303, 3);
		expect(pressure.outward).toBeCloseTo(-52.8036, 3);
		expect(pressure.allowable).toBeCloseTo(31.6822, 3);
		expect(designPressureText(pressure.allowable, 'imperial')).toBe('31.7 psf');
	});

	it('says so line by line', () => {
		const lines = pressure.steps.map((step) => `${step.title}: ${step.substituted} = ${step.text}`);
		expect(lines).toContain('Ground elevation factor: e^(−0.0000362 · 500) = 0.9821');
		expect(lines).toContain('Exposure coefficient at mean roof height: 2.01 · (20 / 900)^(2 / 9.5) = 0.9019');
		expect(lines).toContain(
			'Velocity pressure at mean roof height: 0.00256 · 0.9019 · 1 · 0.85 · 0.9821 · 130² = 32.57 psf'
		);
		expect(lines).toContain(
			'Coefficient of the wall, outward: −1.4 + 0.6 · log(85.33 / 10) / log(50) = −1.0712'
		);
		expect(lines).toContain('Outward pressure: 32.57 · (−1.0712 − 0.55) = −52.80 psf');
		expect(lines).toContain('The larger, at allowable level: 0.6 · max(45.13, 52.8) = 31.68 psf');
		for (const step of pressure.steps) expect(step.source.text).toContain('ASCE 7-16');
	});

	it('and once for the note of the row', () => {
		expect(confirmedSentence({ ...wall, area: 85.3 }, '31.7 psf', 'A. Petrel, letter 12.')).toBe(
			'Design pressure 31.7 psf at allowable level (ASCE 7-16, 130 mph, exposure C, mean roof height 20 ft, top of the opening 9 ft, Kzt 1, ground at 500 ft, partially enclosed, zone 5, effective wind area 85.3 ft²), confirmed by A. Petrel, letter 12.'
		);
	});

	it('takes the figure for the cell up, never down', () => {
		expect(designPressureText(31.7, 'imperial')).toBe('31.7 psf');
		expect(designPressureText(31.7001, 'imperial')).toBe('31.8 psf');
		expect(designPressureText(1150, 'metric')).toBe('1.15 kPa');
		expect(designPressureText(1150.1, 'metric')).toBe('1.16 kPa');
	});
});
