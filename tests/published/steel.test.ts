/** Screws in thin steel and bolts in steel against published and remembered figures, at their limits, and by hand. */
import { describe, expect, it } from 'vitest';
import { figureOf, reckon, type Given } from '../reckon.ts';

const within = (value: number, expected: number, share: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};

/** A ¼ in screw through a leg of 0.1875 in into backing of 0.0747 in. */
const plainScrew: Given = {
	'anchorLeft.kind': 'selfDrillingScrew',
	'anchorLeft.diameter': [0.25, 'in'],
	'anchorLeft.headDiameter': [0.409, 'in'],
	'anchorLeft.tensileStrength': [90_000, 'psi'],
	'anchorLeft.stressArea': [0.0278, 'in2'],
	'anchorLeft.leastEdge': [0, 'in'],
	'anchorLeft.leastSpacing': [0, 'in'],
	'shop.safetyScrew': 3,
	substrateLeft: 'studWithBacking',
	wallThicknessLeft: [0.0747, 'in'],
	wallStrengthLeft: [45_000, 'psi'],
	legGuideLeft: [0.1875, 'in'],
	legStrengthGuideLeft: [58_000, 'psi'],
	towardsEdgeGuideLeft: 0,
	edgeGuideLeft: [2, 'in'],
	tensionGuideLeft: [0, 'lb'],
	shearGuideLeft: [0, 'lb']
};
const screw = (given: Given): Given => ({ ...plainScrew, ...given });

/** Two sheets of one thickness and strength; the screw itself out of question. */
const sheets = (thickness: number, strength: number, diameter: number, head: number): Given =>
	screw({
		wallThicknessLeft: [thickness, 'in'],
		legGuideLeft: [thickness, 'in'],
		wallStrengthLeft: [strength, 'ksi'],
		legStrengthGuideLeft: [strength, 'ksi'],
		'anchorLeft.diameter': [diameter, 'in'],
		'anchorLeft.headDiameter': [head, 'in'],
		screwSteelTensionLeft: [1e6, 'lb']
	});

describe('screws: AISI S100-12 E4 (S100-16 J4), published allowable tables, Ω 3, equal sheets; tables round to 1 lb', () => {
	it.each([
		// t1 = t2 in, d in, d′w in, shear, pull-out, pull-over lb; Fu 33 ksi
		[0.0188, 0.138, 0.272, 44, 24, 84],
		[0.0188, 0.164, 0.272, 48, 29, 84],
		[0.0188, 0.216, 0.34, 55, 38, 105],
		[0.0283, 0.138, 0.272, 82, 37, 127],
		[0.0283, 0.164, 0.272, 89, 43, 127],
		[0.0283, 0.19, 0.34, 96, 50, 159],
		[0.0283, 0.216, 0.34, 102, 57, 159],
		[0.0283, 0.25, 0.409, 110, 66, 191]
	])('sheets of %d in, d %d in, head %d in', (thickness, diameter, head, shear, pullOut, pullOver) => {
		const given = sheets(thickness, 33, diameter, head);
		const held = { screwPullOutLeft: [1e6, 'lb'] } as const;
		expect(Math.abs(figureOf('screwShearGuideLeft', given) - shear)).toBeLessThanOrEqual(1);
		expect(Math.abs(figureOf('screwTensionGuideLeft', given) - pullOut)).toBeLessThanOrEqual(1);
		expect(Math.abs(figureOf('screwTensionGuideLeft', { ...given, ...held }) - pullOver)).toBeLessThanOrEqual(
			1
		);
	});

	it.each([
		// d in, tc in, pull-out lb; Fu2 45 ksi
		[0.19, 0.018, 44],
		[0.19, 0.036, 87],
		[0.19, 0.048, 116],
		[0.19, 0.06, 145],
		[0.19, 0.105, 254],
		[0.19, 0.125, 303],
		[0.216, 0.06, 165],
		[0.216, 0.187, 515],
		[0.216, 0.25, 689],
		[0.25, 0.105, 335],
		[0.25, 0.125, 398],
		[0.25, 0.25, 797]
	])('pull-out, d %d in from %d in', (diameter, thickness, pullOut) => {
		const given = {
			...sheets(thickness, 45, diameter, 0.409),
			screwPullOverGuideLeft: [1e6, 'lb']
		} as const;
		expect(Math.abs(figureOf('screwTensionGuideLeft', given) - pullOut)).toBeLessThanOrEqual(1);
	});

	it.each([
		// t1 = t2 in, shear lb, mode; d 0.190 in, Fu 45 ksi; bearing takes over at about 0.092 in
		[0.018, 66, 'screwTilting'],
		[0.024, 102, 'screwTilting'],
		[0.03, 143, 'screwTilting'],
		[0.06, 404, 'screwTilting'],
		[0.075, 564, 'screwTilting'],
		[0.105, 808, 'screwBearing'],
		[0.125, 962, 'screwBearing']
	])('shear of sheets of %d in', (thickness, shear, mode) => {
		const given = { ...sheets(thickness, 45, 0.19, 0.409), shearGuideLeft: [10, 'lb'] } as const;
		expect(Math.abs(figureOf('screwShearGuideLeft', given) - shear)).toBeLessThanOrEqual(1);
		expect(reckon('screwModeGuideLeft', given)).toBe(mode);
	});

	it.each([
		// E4.1 and E4.2 as the tables' notes quote them: d in, spacing 3·d, edge 1.5·d
		[0.19, 0.57, 0.285],
		[0.216, 0.648, 0.324],
		[0.25, 0.75, 0.375]
	])('spacing and edge, d %d in', (diameter, spacing, edge) => {
		const given = screw({ 'anchorLeft.diameter': [diameter, 'in'] });
		expect(figureOf('screwSpacingNeededLeft', given)).toBeCloseTo(spacing, 12);
		expect(figureOf('screwEdgeNeededLeft', given)).toBeCloseTo(edge, 12);
	});
});

describe('limits of screws', () => {
	it.each([
		// t2/t1: no share up to 1, whole from 2.5 on, straight between
		[0.9, 0],
		[1, 0],
		[1.15, 0.1],
		[1.75, 0.5],
		[2.35, 0.9],
		[2.5, 1],
		[2.6, 1]
	])('t2/t1 = %d', (ratio, share) => {
		/*
		 * t1 0.04 in, d 0.25 in, both Fu 45 ksi. Bearing of the leg 2.7·0.04·0.25·45000 = 1215 lb; it governs bearing from
		 * t2 = t1 on. Tilting 4.2·√(t2³·0.25)·45000 governs where it is less.
		 */
		const wall = 0.04 * ratio;
		const given = {
			...sheets(0.04, 45, 0.25, 0.409),
			wallThicknessLeft: [wall, 'in']
		} as const;
		const bearing = Math.min(1215, 2.7 * wall * 0.25 * 45_000);
		const tilting = 4.2 * Math.sqrt(wall ** 3 * 0.25) * 45_000;
		expect(figureOf('screwThicknessShareGuideLeft', given)).toBeCloseTo(share, 9);
		expect(figureOf('screwConnectionGuideLeft', given)).toBeCloseTo(
			Math.min(tilting, bearing) + share * (bearing - Math.min(tilting, bearing)),
			6
		);
	});

	it('halfway between thin and thick', () => {
		// t1 0.03, t2 0.0525 (1.75): tilting 4.2·√(0.0525³·0.25)·45000 = 1136.8 lb; bearing 2.7·0.03·0.25·45000 = 911.25 lb
		// t1 0.05, t2 0.0875: tilting 4.2·√(0.0875³·0.25)·33000 = 1793.7; bearing 2.7·0.05·0.25·60000 = 2025 (leg), 1949.1 (wall)
		// → 1793.7 + 0.5·(1949.1 − 1793.7) = 1871.4 lb
		const first = {
			...sheets(0.03, 45, 0.25, 0.409),
			wallThicknessLeft: [0.0525, 'in']
		} as const;
		within(figureOf('screwConnectionGuideLeft', first), 911.25, 1e-6);
		const second = {
			...sheets(0.05, 33, 0.25, 0.409),
			wallThicknessLeft: [0.0875, 'in'],
			legStrengthGuideLeft: [60, 'ksi']
		} as const;
		within(figureOf('screwTiltingLeft', second), 1793.7, 1e-4);
		within(figureOf('screwConnectionGuideLeft', second), 1871.4, 1e-4);
	});

	it.each([
		[0.0799, false],
		[0.08, true],
		[0.25, true],
		[0.2501, false]
	])('d %d in: known %s', (diameter, known) => {
		const given = screw({ 'anchorLeft.diameter': [diameter, 'in'] });
		expect(reckon('screwUseGuideLeft', given) !== null).toBe(known);
		expect(reckon('screwModeGuideLeft', given) !== null).toBe(known);
	});

	it('counts a head or washer up to ¾ in', () => {
		// 1.5·0.1875·0.75·58000 = 12,234.375 lb
		const over = (head: number): number =>
			figureOf('screwPullOverGuideLeft', screw({ 'anchorLeft.headDiameter': [head, 'in'] }));
		expect(over(0.75)).toBeCloseTo(12_234.375, 6);
		expect(over(1)).toBeCloseTo(12_234.375, 6);
		expect(over(0.375)).toBeCloseTo(12_234.375 / 2, 6);
	});

	it.each([
		// from memory: S100-16 J4.5.1 is tested for 0.0285 ≤ t1 ≤ 0.0445 in on walls of 2.5·t1 and more, Fu1 ≤ 70 ksi
		[0.0284, 0.1, 45, false],
		[0.0285, 0.1, 45, true],
		[0.04, 0.1, 45, true],
		[0.04, 0.0999, 45, false],
		[0.0445, 0.12, 45, true],
		[0.0446, 0.12, 45, false],
		[0.04, 0.1, 70, true],
		[0.04, 0.1, 70.1, false]
	])('shear with pull-over: leg %d in, wall %d in, Fu1 %d ksi: tested %s', (leg, wall, strength, tested) => {
		const given = {
			...sheets(wall, 45, 0.25, 0.409),
			legGuideLeft: [leg, 'in'],
			legStrengthGuideLeft: [strength, 'ksi'],
			tensionGuideLeft: [60, 'lb']
		} as const;
		const pullOver = 1.5 * leg * 0.409 * strength * 1000;
		const use = tested ? ((2.35 / 1.1) * 0.71 * 60) / pullOver : (3 * 60) / pullOver;
		expect(figureOf('screwPullOverUseGuideLeft', given)).toBeCloseTo(use, 9);
	});

	it.each([
		// from memory: S100-16 J4.5.2 is tested for 0.0297 ≤ t2 ≤ 0.0724 in, Fu2 ≤ 121 ksi
		[0.0296, 45, 0],
		[0.0297, 45, 1],
		[0.0724, 45, 1],
		[0.0725, 45, 0],
		[0.05, 121, 1],
		[0.05, 121.1, 0]
	])('shear with pull-out: wall %d in, Fu2 %d ksi: tested %d', (wall, strength, tested) => {
		const given = screw({ wallThicknessLeft: [wall, 'in'], wallStrengthLeft: [strength, 'ksi'] });
		expect(reckon('screwPullOutTestedLeft', given)).toBe(tested);
	});

	it('takes a report’s edge and spacing before the standard’s', () => {
		const given = screw({ 'anchorLeft.leastEdge': [1, 'in'], 'anchorLeft.leastSpacing': [2, 'in'] });
		expect(figureOf('screwEdgeNeededLeft', given)).toBeCloseTo(1, 12);
		expect(figureOf('screwSpacingNeededLeft', given)).toBeCloseTo(2, 12);
	});

	it('knows nothing of another fastener or of a wall that is not steel', () => {
		for (const given of [screw({ 'anchorLeft.kind': 'lagScrew' }), screw({ substrateLeft: 'wood' })]) {
			expect(reckon('screwUseGuideLeft', given)).toBeNull();
			expect(reckon('screwModeGuideLeft', given)).toBeNull();
		}
	});
});

describe('screws by hand; interaction equations from memory', () => {
	it('pull and shear on backing thicker than the tested range', () => {
		/*
		 * d 0.25 in, leg 0.1875 in of 58 ksi, backing 0.0747 in of 45 ksi, head 0.409 in, T 60 lb, V 80 lb.
		 * Pnot = 0.85·0.0747·0.25·45000 = 714.3; Pnov = 1.5·0.1875·0.409·58000 = 6671.8; Pts = 90000·0.0278 = 2502 lb
		 * tension 60/(714.3/3) = 0.2520
		 * tilting 4.2·√(0.0747³·0.25)·45000 = 1929.4; bearing 2269.0 (wall), 7340.6 (leg); t2/t1 = 0.398: Pns = 1929.4
		 * Pss = 0.6·2502 = 1501.2; shear 80/(1501.2/3) = 0.1599
		 * pull-out outside 0.0724 in: 3·(80/1929.4 + 60/714.3) = 0.3764
		 * pull-over outside: 3·(80/7340.6 + 60/6671.8) = 0.0597; steel 3/1.3·(80/1501.2 + 60/2502) = 0.1783
		 */
		const given = screw({ tensionGuideLeft: [60, 'lb'], shearGuideLeft: [80, 'lb'] });
		within(figureOf('screwTensionUseGuideLeft', given), 0.252, 1e-3);
		within(figureOf('screwShearUseGuideLeft', given), 0.1599, 1e-3);
		within(figureOf('screwPullOverUseGuideLeft', given), 0.0597, 1e-3);
		within(figureOf('screwPullOutUseGuideLeft', given), 0.3764, 1e-3);
		within(figureOf('screwUseGuideLeft', given), 0.3764, 1e-3);
		expect(reckon('screwModeGuideLeft', given)).toBe('screwCombined');
	});

	it('the same on 0.06 in, inside the tested range', () => {
		// tilting 4.2·√(0.06³·0.25)·45000 = 1388.9; Pnot 573.75; 2.55/1.15·(80/1388.9 + 60/573.75) = 0.3596
		const given = screw({
			wallThicknessLeft: [0.06, 'in'],
			tensionGuideLeft: [60, 'lb'],
			shearGuideLeft: [80, 'lb']
		});
		within(figureOf('screwPullOutUseGuideLeft', given), 0.3596, 1e-3);
		within(figureOf('screwUseGuideLeft', given), 0.3596, 1e-3);
	});

	it('a thin leg on a thick wall', () => {
		// leg 0.04 in, wall 0.1 in, 45 ksi: Pns 1215, Pnov 1.5·0.04·0.409·45000 = 1104.3
		// 2.35/1.1·(80/1215 + 0.71·60/1104.3) = 0.2231
		const given = {
			...sheets(0.04, 45, 0.25, 0.409),
			wallThicknessLeft: [0.1, 'in'],
			tensionGuideLeft: [60, 'lb'],
			shearGuideLeft: [80, 'lb']
		} as const;
		within(figureOf('screwPullOverUseGuideLeft', given), 0.2231, 1e-3);
	});

	it('tears out towards a near edge', () => {
		// e 0.375 in (1.5·d): 1.2·0.0747·(0.375 − 0.125)·45000 = 1008.45 lb, less than tilting 1929.4 and the steel 1501.2
		const given = screw({
			towardsEdgeGuideLeft: 1,
			edgeGuideLeft: [0.375, 'in'],
			shearGuideLeft: [100, 'lb']
		});
		within(figureOf('screwShearGuideLeft', given), 1008.45 / 3, 1e-6);
		expect(reckon('screwModeGuideLeft', given)).toBe('screwBearing');
		// along the edge it does not: the steel governs
		const along = { ...given, towardsEdgeGuideLeft: 0 };
		within(figureOf('screwShearGuideLeft', along), 1501.2 / 3, 1e-6);
		expect(reckon('screwModeGuideLeft', along)).toBe('screwShear');
	});

	it.each([
		['screwPullOut', {}],
		['screwPullOver', { legGuideLeft: [0.02, 'in'], legStrengthGuideLeft: [30_000, 'psi'] }],
		['screwTension', { wallThicknessLeft: [0.5, 'in'] }]
	] as const)('%s governs in tension', (mode, given: Given) => {
		// 0.85·0.0747·0.25·45000 = 714 lb; 1.5·0.02·0.409·30000 = 368 lb; 90000·0.0278 = 2502 < 0.85·0.5·0.25·45000 = 4781 lb
		expect(reckon('screwModeGuideLeft', screw({ ...given, tensionGuideLeft: [50, 'lb'] }))).toBe(mode);
	});

	it('without load nothing is used', () => {
		expect(figureOf('screwUseGuideLeft', plainScrew)).toBe(0);
	});
});

/** A 3/8 in bolt through a leg of 0.1875 in and steel of ¼ in. */
const plainBolt: Given = {
	'anchorLeft.kind': 'throughBolt',
	'anchorLeft.diameter': [0.375, 'in'],
	'anchorLeft.tensileStrength': [74_000, 'psi'],
	'anchorLeft.leastEdge': [0, 'in'],
	'anchorLeft.leastSpacing': [0, 'in'],
	'shop.safetyBolt': 2,
	substrateLeft: 'structuralSteel',
	wallThicknessLeft: [0.25, 'in'],
	wallStrengthLeft: [58_000, 'psi'],
	legGuideLeft: [0.1875, 'in'],
	legStrengthGuideLeft: [58_000, 'psi'],
	towardsEdgeGuideLeft: 0,
	edgeGuideLeft: [2, 'in'],
	alongGuideLeft: [6, 'in'],
	columnsGuideLeft: 1,
	acrossGuideLeft: [0, 'in'],
	tensionGuideLeft: [0, 'lb'],
	shearGuideLeft: [0, 'lb']
};
const bolt = (given: Given): Given => ({ ...plainBolt, ...given });

describe('bolts from memory: AISC Steel Construction Manual, 15th ed. (360-16), allowable strength', () => {
	it.each([
		// Tables 7-1 and 7-2: Fu ksi (A325: 120, A307: 60), d in, shear with threads in the plane, tension; kips
		[120, 0.625, 8.29, 13.8],
		[120, 0.75, 11.9, 19.9],
		[120, 0.875, 16.2, 27.1],
		[120, 1, 21.2, 35.3],
		[60, 0.625, 4.14, 6.9],
		[60, 0.75, 5.97, 9.94],
		[60, 0.875, 8.11, 13.5],
		[60, 1, 10.6, 17.7]
	])('Tables 7-1 and 7-2: Fu %d ksi, d %d in', (strength, diameter, shear, tension) => {
		const given = bolt({
			'anchorLeft.tensileStrength': [strength, 'ksi'],
			'anchorLeft.diameter': [diameter, 'in']
		});
		within(figureOf('boltShearLeft', given), shear * 1000, 0.005);
		within(figureOf('boltTensionLeft', given), tension * 1000, 0.005);
	});

	it.each([
		// Tables 7-4 and 7-5, ¾ in bolt, Fu 58 ksi, a plate of 1 in: spacing or edge in, kips
		['spacing', 3, 52.2],
		['spacing', 2, 41.3],
		['edge', 1.25, 29.4]
	] as const)('Tables 7-4 and 7-5: bearing of ¾ in by %s %d in', (by, distance, bearing) => {
		const given = bolt({
			'anchorLeft.diameter': [0.75, 'in'],
			wallThicknessLeft: [1, 'in'],
			legGuideLeft: [2, 'in'],
			...(by === 'spacing'
				? { alongGuideLeft: [distance, 'in'] }
				: { towardsEdgeGuideLeft: 1, edgeGuideLeft: [distance, 'in'] })
		});
		within(figureOf('boltBearingGuideLeft', given), bearing * 1000, 0.005);
	});

	it.each([
		// Table J3.4: d in, least edge distance in; over 1¼ in 1.25·d
		[0.5, 0.75],
		[0.625, 0.875],
		[0.75, 1],
		[0.875, 1.125],
		[1, 1.25],
		[1.125, 1.5],
		[1.25, 1.625],
		[1.5, 1.875]
	])('Table J3.4: edge of d %d in', (diameter, edge) => {
		const given = bolt({ 'anchorLeft.diameter': [diameter, 'in'] });
		expect(figureOf('boltEdgeNeededLeft', given)).toBeCloseTo(edge, 12);
	});

	it.each([
		// Table J3.3: d in, standard hole in
		[0.5, 0.5625],
		[0.875, 0.9375],
		[1, 1.125],
		[1.125, 1.25]
	])('Table J3.3: hole of d %d in', (diameter, hole) => {
		expect(figureOf('boltHoleLeft', bolt({ 'anchorLeft.diameter': [diameter, 'in'] }))).toBeCloseTo(hole, 12);
	});

	it('J3.3: spacing of ¾ in is 2 in', () => {
		expect(figureOf('boltSpacingNeededLeft', bolt({ 'anchorLeft.diameter': [0.75, 'in'] }))).toBeCloseTo(
			2,
			12
		);
	});
});

describe('bolts by hand', () => {
	it('pull and shear together: F′nt', () => {
		/*
		 * 3/8 in, Fu 74 ksi: Ab 0.110447 in²; Fnt 55,500, Fnv 33,300 psi; tension 55500·0.110447/2 = 3064.9 lb, shear 1838.9 lb
		 * V 900 lb: frv = 900/0.110447 = 8148.7 psi; F′nt = 1.3·55500 − 2·55500/33300·8148.7 = 44,987.6 psi
		 * allowed with it 44987.6·0.110447/2 = 2484.4 lb of tension
		 */
		within(figureOf('boltTensionLeft', plainBolt), 3064.9, 1e-4);
		within(figureOf('boltShearLeft', plainBolt), 1838.9, 1e-4);
		const use = (tension: number): number =>
			figureOf('boltUseGuideLeft', bolt({ tensionGuideLeft: [tension, 'lb'], shearGuideLeft: [900, 'lb'] }));
		within(use(2484.4), 1, 1e-4);
		expect(use(2480)).toBeLessThan(1);
		expect(use(2490)).toBeGreaterThan(1);
		// (1500/3064.9 + 900/1838.9)/1.3 = (0.48941 + 0.48942)/1.3 = 0.7530
		within(use(1500), 0.753, 1e-3);
		const given = bolt({ tensionGuideLeft: [1500, 'lb'], shearGuideLeft: [900, 'lb'] });
		expect(reckon('boltModeGuideLeft', given)).toBe('boltCombined');
	});

	it('needs no interaction where one share is 0.3 or less', () => {
		// J3.7: T 0.9 of 3064.9 with V 0.3 of 1838.9: F′nt = (1.3 − 0.3)·Fnt = Fnt
		const given = bolt({ tensionGuideLeft: [0.9 * 3064.9, 'lb'], shearGuideLeft: [0.3 * 1838.9, 'lb'] });
		within(figureOf('boltUseGuideLeft', given), 0.923, 1e-3);
		const pull = bolt({ tensionGuideLeft: [0.9 * 3064.9, 'lb'], shearGuideLeft: [0.2 * 1838.9, 'lb'] });
		within(figureOf('boltUseGuideLeft', pull), 0.9, 1e-3);
		expect(reckon('boltModeGuideLeft', pull)).toBe('boltTension');
	});

	it('bearing of wall and leg, tear-out to the edge and between holes', () => {
		const bearing = (given: Given): number => figureOf('boltBearingGuideLeft', bolt(given));
		// leg 2.4·0.375·0.1875·58000 = 9787.5, wall 2.4·0.375·0.25·58000 = 13,050; half of the lesser
		expect(bearing({})).toBeCloseTo(4893.75, 6);
		expect(bearing({ legGuideLeft: [0.5, 'in'] })).toBeCloseTo(6525, 6);
		// edge 0.625 in: lc = 0.625 − 0.4375/2 = 0.40625; 1.2·0.40625·0.25·58000/2 = 3534.375
		expect(bearing({ towardsEdgeGuideLeft: 1, edgeGuideLeft: [0.625, 'in'] })).toBeCloseTo(3534.375, 6);
		// along it the edge does not count
		expect(bearing({ edgeGuideLeft: [0.625, 'in'] })).toBeCloseTo(4893.75, 6);
		// next hole at 2⅔·d = 1 in: lc = 0.5625; 1.2·0.5625·0.25·58000/2 = 4893.75; at 0.9 in: lc 0.4625 → 4023.75
		expect(bearing({ alongGuideLeft: [0.9, 'in'] })).toBeCloseTo(4023.75, 6);
		// second column 0.9 in away, load towards the edge
		const across = { towardsEdgeGuideLeft: 1, columnsGuideLeft: 2, acrossGuideLeft: [0.9, 'in'] } as const;
		expect(bearing(across)).toBeCloseTo(4023.75, 6);
		expect(bearing({ ...across, columnsGuideLeft: 1 })).toBeCloseTo(4893.75, 6);
	});

	it.each([
		['boltShear', {}],
		['boltBearing', { wallThicknessLeft: [0.05, 'in'] }]
	] as const)('%s governs in shear', (mode, given: Given) => {
		// shear 1838.9 lb; 2.4·0.375·0.05·58000/2 = 1305 lb
		expect(reckon('boltModeGuideLeft', bolt({ ...given, shearGuideLeft: [100, 'lb'] }))).toBe(mode);
	});

	it('is not known without steel before the hole, and never less than nothing', () => {
		const given = bolt({
			towardsEdgeGuideLeft: 1,
			edgeGuideLeft: [0.2, 'in'],
			shearGuideLeft: [100, 'lb']
		});
		expect(figureOf('boltClearGuideLeft', given)).toBe(0);
		expect(reckon('boltUseGuideLeft', given)).toBeNull();
	});

	it('knows nothing of another fastener, of another wall or of steel without a strength', () => {
		for (const given of [
			{ 'anchorLeft.kind': 'lagScrew' },
			{ substrateLeft: 'concrete' },
			{ wallStrengthLeft: [NaN, 'psi'] }
		] as const) {
			expect(reckon('boltUseGuideLeft', bolt(given))).toBeNull();
			expect(reckon('boltModeGuideLeft', bolt(given))).toBeNull();
		}
	});

	it('takes a report’s edge and spacing before the standard’s', () => {
		const given = bolt({ 'anchorLeft.leastEdge': [1, 'in'], 'anchorLeft.leastSpacing': [2, 'in'] });
		expect(figureOf('boltEdgeNeededLeft', given)).toBeCloseTo(1, 12);
		expect(figureOf('boltSpacingNeededLeft', given)).toBeCloseTo(2, 12);
	});
});
