/** Lag screws in wood against published and remembered figures, at their limits, and by hand. */
import { describe, expect, it } from 'vitest';
import { figureOf, reckon, type Given } from '../reckon.ts';

const within = (value: number, expected: number, share: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};

/** A 3/8 in lag screw 2 in into wood of G 0.5, load along the grain, every adjustment 1. */
const plain: Given = {
	'anchorLeft.kind': 'lagScrew',
	'anchorLeft.diameter': [0.375, 'in'],
	'anchorLeft.rootDiameter': [0.265, 'in'],
	'anchorLeft.embedment': [2, 'in'],
	'anchorLeft.tip': [0.21875, 'in'],
	'anchorLeft.bendingYield': [45_000, 'psi'],
	'anchorLeft.tensileStrength': [60_000, 'psi'],
	'anchorLeft.stressArea': [0.0552, 'in2'],
	'anchorLeft.leastEdge': [0, 'in'],
	'anchorLeft.leastSpacing': [0, 'in'],
	'substrateLeft.specificGravity': 0.5,
	'shop.wetService': 1,
	'shop.safetyBolt': 2,
	legGuideLeft: [0.1875, 'in'],
	legStrengthGuideLeft: [58_000, 'psi'],
	durationGuideLeft: 1,
	acrossGrainGuideLeft: 0,
	towardsEdgeGuideLeft: 0,
	acrossGuideLeft: [0, 'in'],
	tensionGuideLeft: [0, 'lb'],
	shearGuideLeft: [0, 'lb']
};
const lag = (given: Given): Given => ({ ...plain, ...given });

describe('withdrawal: NDS 2018, Table 12.2A and equation 12.2-1, lb for an inch of thread; the table rounds to 1 lb', () => {
	it.each([
		// G, D in, W lb/in
		[0.55, 0.25, 260],
		[0.55, 0.3125, 307],
		[0.55, 0.5, 437],
		[0.5, 0.3125, 266],
		[0.5, 0.375, 305],
		[0.49, 0.3125, 258],
		[0.49, 0.375, 296],
		[0.42, 0.25, 173],
		[0.42, 0.3125, 205],
		[0.42, 0.375, 235],
		[0.43, 0.3125, 212],
		[0.43, 0.375, 243],
		[0.43, 0.5, 302],
		[0.36, 0.25, 137],
		[0.36, 0.3125, 163],
		[0.36, 0.375, 186],
		[0.36, 0.5, 231]
	])('G %d, D %d in', (gravity, diameter, withdrawal) => {
		const given = lag({
			'substrateLeft.specificGravity': gravity,
			'anchorLeft.diameter': [diameter, 'in']
		});
		expect(Math.abs(figureOf('lagWithdrawalPerInchLeft', given) - withdrawal)).toBeLessThanOrEqual(1);
	});

	it('Structural Wood Design Solved Example Problems (American Wood Council), example E2.3', () => {
		// G 0.55, D ½ in, thread in the wood 4 − 1.5 − 0.3125 = 2.1875 in
		const given = lag({
			'substrateLeft.specificGravity': 0.55,
			'anchorLeft.diameter': [0.5, 'in'],
			'anchorLeft.embedment': [2.1875, 'in']
		});
		within(figureOf('lagWithdrawalPerInchLeft', given), 436.6, 0.002);
		within(figureOf('lagWithdrawalGuideLeft', given), 954.97, 0.001);
	});

	it.each([
		// USDA Wood Handbook FPL-GTR-190 (2010), equation 8-14: ultimate p = 8100·G^1.5·D^0.75·L; 4.5 times the NDS value
		[0.25, 1012.5],
		[0.375, 1372.3]
	])('Wood Handbook, ultimate load over an inch of D %d in', (diameter, ultimate) => {
		const given = lag({ 'anchorLeft.diameter': [diameter, 'in'] });
		within(ultimate / figureOf('lagWithdrawalPerInchLeft', given), 4.5, 0.002);
	});
});

describe('lateral: NDS 2018, Table 12K (steel side plate) with equations 12.3-1 to 12.3-6; root diameters, Fyb and Fu 45 ksi of 33 ksi sheet from memory', () => {
	it.each([
		// plate in, D in, Dr in, G, Fyb psi, penetration in, across the grain, Z printed to 10 lb, Z of the equations
		[0.075, 0.25, 0.173, 0.5, 70_000, 2, 0, 150, 152.8],
		[0.075, 0.25, 0.173, 0.5, 70_000, 2, 1, 110, 110.7],
		[0.075, 0.375, 0.265, 0.5, 45_000, 3, 0, 200, 196.4],
		[0.075, 0.375, 0.265, 0.5, 45_000, 3, 1, 130, 129.6],
		[0.105, 0.25, 0.173, 0.55, 70_000, 2, 0, 170, 169.2],
		[0.105, 0.375, 0.265, 0.42, 45_000, 3, 1, 120, 120.9],
		[0.12, 0.3125, 0.227, 0.5, 60_000, 2.5, 0, 210, 205.6],
		[0.134, 0.25, 0.173, 0.42, 70_000, 2, 1, 110, 114.4],
		[0.105, 0.3125, 0.227, 0.55, 60_000, 2.5, 1, 150, 146.9]
	])(
		'plate %d in, D %d in, Dr %d in, G %d, Fyb %d psi, penetration %d in, across %d',
		(plate, diameter, root, gravity, yielding, penetration, across, printed, reckoned) => {
			const given = lag({
				legGuideLeft: [plate, 'in'],
				legStrengthGuideLeft: [45_000, 'psi'],
				'anchorLeft.diameter': [diameter, 'in'],
				'anchorLeft.rootDiameter': [root, 'in'],
				'substrateLeft.specificGravity': gravity,
				'anchorLeft.bendingYield': [yielding, 'psi'],
				'anchorLeft.embedment': [penetration, 'in'],
				acrossGrainGuideLeft: across
			});
			const value = figureOf('lagReferenceGuideLeft', given);
			expect(Math.abs(value - printed)).toBeLessThanOrEqual(5);
			within(value, reckoned, 0.005);
			// Mode IIIs governs in all of them.
			expect(reckon('lagLateralModeGuideLeft', given)).toBe('lagLateralIIIs');
		}
	);

	it('Structural Wood Design Solved Example Problems: single shear of a dowel below ¼ in, wood on wood', () => {
		// D 0.148 in, G 0.5 both, ls 0.75 in, lm 2.25 in, Fyb 90 ksi, Rd 2.2; equation 12.3-5 governs
		const given = lag({
			'anchorLeft.diameter': [0.148, 'in'],
			'anchorLeft.rootDiameter': [0.148, 'in'],
			'anchorLeft.embedment': [2.25, 'in'],
			'anchorLeft.bendingYield': [90_000, 'psi'],
			legGuideLeft: [0.75, 'in'],
			lagBearingLegGuideLeft: [4637, 'psi']
		});
		within(figureOf('lagBearingMainGuideLeft', given), 4637, 0.001);
		expect(figureOf('lagRdIIIGuideLeft', given)).toBeCloseTo(2.2, 12);
		within(figureOf('lagReferenceGuideLeft', given), 105.1, 0.002);
		expect(reckon('lagLateralModeGuideLeft', given)).toBe('lagLateralIIIs');
	});
});

describe('penetration and edge: NDS 2018, 12.1.4.6 and Table 12.5.1C', () => {
	it.each([
		[0.25, 1],
		[0.375, 1.5],
		[0.5, 2]
	])('D %d in asks for %d in of thread', (diameter, penetration) => {
		const given = lag({ 'anchorLeft.diameter': [diameter, 'in'] });
		expect(figureOf('lagPenetrationNeededLeft', given)).toBeCloseTo(penetration, 12);
	});

	it.each([
		// D in, shorter bearing length in, rows apart in, edge distance along the grain in
		[0.375, 2.25, 1.5, 0.5625],
		[0.375, 3, 1.5, 0.75],
		[0.5, 4, 2.5, 1.25]
	])('D %d in, bearing length %d in, rows %d in apart', (diameter, length, rows, edge) => {
		const given = lag({
			'anchorLeft.diameter': [diameter, 'in'],
			'anchorLeft.embedment': [length, 'in'],
			legGuideLeft: [length, 'in'],
			acrossGuideLeft: [rows, 'in']
		});
		expect(figureOf('woodEdgeNeededGuideLeft', given)).toBeCloseTo(edge, 12);
	});
});

describe('from memory: NDS 2018', () => {
	it.each([
		// 12.1.4.2: D in, G, least, most in
		[0.375, 0.5, 0.15, 0.2625],
		[0.5, 0.55, 0.3, 0.375],
		[0.5, 0.67, 0.325, 0.425],
		[0.25, 0.42, 0.1, 0.175]
	])('lead hole for D %d in in G %d', (diameter, gravity, least, most) => {
		const given = lag({
			'anchorLeft.diameter': [diameter, 'in'],
			'substrateLeft.specificGravity': gravity
		});
		expect(figureOf('leadHoleLeastLeft', given)).toBeCloseTo(least, 3);
		expect(figureOf('leadHoleMostLeft', given)).toBeCloseTo(most, 3);
	});

	it('Tables 12.5.1A to C for D 3/8 in: end, spacing, loaded edge', () => {
		expect(figureOf('woodEndNeededGuideLeft', plain)).toBeCloseTo(2.625, 12);
		const across = lag({ acrossGrainGuideLeft: 1, towardsEdgeGuideLeft: 1 });
		expect(figureOf('woodEndNeededGuideLeft', across)).toBeCloseTo(1.5, 12);
		expect(figureOf('woodSpacingNeededLeft', plain)).toBeCloseTo(1.5, 12);
		expect(figureOf('woodEdgeNeededGuideLeft', across)).toBeCloseTo(1.5, 12);
	});

	it('Table 11.3.1: withdrawal of 2 in of 3/8 in in G 0.5 under wind, dry and wet', () => {
		const wind = lag({ durationGuideLeft: 1.6 });
		within(figureOf('lagWithdrawalGuideLeft', wind), 975.9, 0.003);
		within(figureOf('lagWithdrawalGuideLeft', { ...wind, 'shop.wetService': 0.7 }), 683.1, 0.003);
	});

	it('equation 12.4-1: W′p 610 lb and Z′ 200 lb at 30° from the face of the wood', () => {
		const given = lag({
			lagWithdrawalGuideLeft: [610, 'lb'],
			lagLateralGuideLeft: [200, 'lb'],
			tensionGuideLeft: [100 * Math.sin(Math.PI / 6), 'lb'],
			shearGuideLeft: [100 * Math.cos(Math.PI / 6), 'lb']
		});
		within(figureOf('lagCombinedGuideLeft', given), 240.4, 0.002);
	});

	it('Appendix I: bearing strength of 33 ksi sheet (Fu 45 ksi) is 61,850 psi', () => {
		within(figureOf('lagBearingLegGuideLeft', lag({ legStrengthGuideLeft: [45_000, 'psi'] })), 61_850, 0.001);
	});

	it.each([
		// Table 12.3.3 rounds to 50 psi: G, along the grain, across it for D ¼, 3/8 and ½ in
		[0.5, 5600, 4450, 3650, 3150],
		[0.42, 4700, 3450, 2850, 2450],
		[0.55, 6150, 5150, 4200, 3650]
	])('Table 12.3.3: bearing strength of wood of G %d', (gravity, along, quarter, threeEighths, half) => {
		const strength = (diameter: number, across: 0 | 1): number =>
			figureOf(
				'lagBearingMainGuideLeft',
				lag({
					'substrateLeft.specificGravity': gravity,
					'anchorLeft.diameter': [diameter, 'in'],
					acrossGrainGuideLeft: across
				})
			);
		expect(Math.abs(strength(0.375, 0) - along)).toBeLessThanOrEqual(26);
		expect(Math.abs(strength(0.25, 1) - quarter)).toBeLessThanOrEqual(26);
		expect(Math.abs(strength(0.375, 1) - threeEighths)).toBeLessThanOrEqual(26);
		expect(Math.abs(strength(0.5, 1) - half)).toBeLessThanOrEqual(26);
	});
});

describe('limits of lag screws', () => {
	it.each([
		[1.4999, false],
		[1.5, true],
		[1.5001, true]
	])('penetration of %d in with D 3/8 in: lateral value known %s', (penetration, known) => {
		const given = lag({ 'anchorLeft.embedment': [penetration, 'in'] });
		expect(reckon('lagReferenceGuideLeft', given) !== null).toBe(known);
		expect(reckon('woodUseGuideLeft', given) !== null).toBe(known);
		expect(reckon('woodModeGuideLeft', given) !== null).toBe(known);
	});

	it.each([
		[0.9999, true],
		[1, true],
		[1.0001, false]
	])('D %d in: yield equations known %s', (diameter, known) => {
		const given = lag({ 'anchorLeft.diameter': [diameter, 'in'], 'anchorLeft.embedment': [5, 'in'] });
		expect(reckon('lagReferenceGuideLeft', given) !== null).toBe(known);
	});

	it.each([
		// across the grain, G 0.5: below ¼ in 16600·0.5^1.84 = 4637 psi and no angle factor;
		// at ¼ in 6100·0.5^1.45/√0.25 = 4466 psi, 1.25; at 0.36 in 6100·0.5^1.45/0.6 = 3721 psi, 1.25
		[0.2499, 4637, 1],
		[0.25, 4466, 1.25],
		[0.36, 3721, 1.25]
	])('nominal diameter %d in across the grain', (diameter, bearing, angle) => {
		const given = lag({ 'anchorLeft.diameter': [diameter, 'in'], acrossGrainGuideLeft: 1 });
		within(figureOf('lagBearingMainGuideLeft', given), bearing, 0.001);
		expect(figureOf('lagAngleGuideLeft', given)).toBe(angle);
	});

	it.each([
		// Rd along the grain: from ¼ in on 4, 3.6, 3.2; below 10·D + 0.5; up to 0.17 in 2.2
		[0.16, 2.2, 2.2, 2.2],
		[0.17, 2.2, 2.2, 2.2],
		[0.18, 2.3, 2.3, 2.3],
		[0.24, 2.9, 2.9, 2.9],
		[0.25, 4, 3.6, 3.2],
		[0.26, 4, 3.6, 3.2]
	])('root diameter %d in', (root, one, two, three) => {
		const along = lag({ 'anchorLeft.rootDiameter': [root, 'in'] });
		expect(figureOf('lagRdIGuideLeft', along)).toBeCloseTo(one, 9);
		expect(figureOf('lagRdIIGuideLeft', along)).toBeCloseTo(two, 9);
		expect(figureOf('lagRdIIIGuideLeft', along)).toBeCloseTo(three, 9);
		const across = { ...along, acrossGrainGuideLeft: 1 };
		expect(figureOf('lagRdIGuideLeft', across)).toBeCloseTo(1.25 * one, 9);
		expect(figureOf('lagRdIIIGuideLeft', across)).toBeCloseTo(1.25 * three, 9);
	});

	it.each([
		// D 1 in, so that the shares can be read: 40 to 70 % up to G 0.5, 60 to 75 % up to 0.6, 65 to 85 % above
		[0.49, 0.4, 0.7],
		[0.5, 0.4, 0.7],
		[0.51, 0.6, 0.75],
		[0.6, 0.6, 0.75],
		[0.61, 0.65, 0.85]
	])('lead hole in G %d', (gravity, least, most) => {
		const given = lag({ 'anchorLeft.diameter': [1, 'in'], 'substrateLeft.specificGravity': gravity });
		expect(figureOf('leadHoleLeastLeft', given)).toBeCloseTo(least, 12);
		expect(figureOf('leadHoleMostLeft', given)).toBeCloseTo(most, 12);
	});

	it.each([
		// 6·D = 2.25 in: half of 4 in between rows counts only above it, and by the shorter bearing length
		[2.2499, 3, 0.5625],
		[2.25, 3, 0.5625],
		[2.2501, 3, 2],
		[3, 2.25, 0.5625]
	])('edge along the grain with %d in in wood and %d in of leg', (embedment, leg, edge) => {
		const given = lag({
			'anchorLeft.embedment': [embedment, 'in'],
			legGuideLeft: [leg, 'in'],
			acrossGuideLeft: [4, 'in']
		});
		expect(figureOf('woodEdgeNeededGuideLeft', given)).toBeCloseTo(edge, 12);
	});

	it('takes 4·D only where a load across the grain pushes towards the edge', () => {
		const edge = (across: 0 | 1, towards: 0 | 1): number =>
			figureOf(
				'woodEdgeNeededGuideLeft',
				lag({ acrossGrainGuideLeft: across, towardsEdgeGuideLeft: towards })
			);
		expect(edge(1, 1)).toBeCloseTo(1.5, 12);
		expect(edge(1, 0)).toBeCloseTo(0.5625, 12);
		expect(edge(0, 1)).toBeCloseTo(0.5625, 12);
	});

	it('takes the larger edge of guide and bracket, and a report’s figures before the standard’s', () => {
		const given = lag({
			acrossGrainGuideLeft: 1,
			towardsEdgeGuideLeft: 1,
			acrossGrainBracketLeft: 0,
			towardsEdgeBracketLeft: 0,
			legBracketLeft: [0.25, 'in'],
			acrossBracketLeft: [3, 'in']
		});
		expect(figureOf('woodEdgeNeededBracketLeft', given)).toBeCloseTo(0.5625, 12);
		expect(figureOf('woodEdgeNeededLeft', given)).toBeCloseTo(1.5, 12);
		const reported = {
			...given,
			'anchorLeft.leastEdge': [2, 'in'],
			'anchorLeft.leastSpacing': [3, 'in']
		} as const;
		expect(figureOf('woodEdgeNeededLeft', reported)).toBeCloseTo(2, 12);
		expect(figureOf('woodSpacingNeededLeft', reported)).toBeCloseTo(3, 12);
	});

	it('asks for wood as thick as thread and tip', () => {
		// 2 + 0.21875
		expect(figureOf('woodThicknessNeededLeft', plain)).toBeCloseTo(2.21875, 12);
	});

	it.each([
		['another fastener', { 'anchorLeft.kind': 'throughBolt' }],
		['a wall that is not wood', { 'substrateLeft.specificGravity': 0 }]
	])('knows nothing of %s', (_, given) => {
		for (const id of [
			'lagWithdrawalPerInchLeft',
			'lagReferenceGuideLeft',
			'leadHoleLeastLeft',
			'woodUseGuideLeft',
			'woodModeGuideLeft'
		])
			expect(reckon(id, lag(given))).toBeNull();
	});
});

describe('lag screws by hand', () => {
	/*
	 * Lag screw 3/8 in, Dr 0.265 in, 2 in of thread in G 0.5, leg 0.1875 in of Fu 58 ksi, along the grain, C_D 1.6.
	 * Fem = 11200·0.5 = 5600 psi; Fes = 1.375·58000 = 79,750 psi; Re = 0.0702194; Rt = 2/0.1875 = 10.66667
	 * Im   = 0.265·2·5600/4 = 742.0 lb
	 * Is   = 0.265·0.1875·79750/4 = 990.6 lb
	 * II   : 1 + Rt + Rt² = 125.4444; Re + 2·Re²·125.4444 + Rt²·Re³ = 0.0702194 + 1.2370748 + 0.0393939 = 1.3466881;
	 *        k1 = (√1.3466881 − 0.0702194·11.66667)/1.0702194 = (1.1604691 − 0.8192268)/1.0702194 = 0.3188527
	 *        0.3188527·0.265·0.1875·79750/3.6 = 350.97 lb
	 * IIIm : k2 = −1 + √(2.1404389 + 2·45000·1.1404389·0.070225/(3·5600·4)) = −1 + √2.2476987 = 0.4992327
	 *        0.4992327·0.265·2·5600/(1.1404389·3.2) = 406.02 lb
	 * IIIs : k3 = −1 + √(30.4821429 + 2·45000·2.0702194·0.070225/(3·5600·0.03515625)) = −1 + √(30.4821429 + 22.1533196)
	 *           = −1 + 7.2550301 = 6.2550301;  6.2550301·0.265·0.1875·5600/(2.0702194·3.2) = 262.72 lb
	 * IV   = 0.070225/3.2·√(2·5600·45000/(3·1.0702194)) = 0.0219453·12529.05 = 274.95 lb
	 * Z    = 262.72 lb (IIIs); Z′ = 1.6·262.72 = 420.4 lb
	 * W′p  = 1800·0.353553·0.479200·2·1.6 = 304.96·3.2 = 975.9 lb; steel 60000·0.0552/2 = 1656 lb
	 */
	const wind = lag({ durationGuideLeft: 1.6 });

	it('every mode', () => {
		within(figureOf('lagImGuideLeft', wind), 742, 1e-4);
		within(figureOf('lagIsGuideLeft', wind), 990.6, 1e-4);
		within(figureOf('lagK1GuideLeft', wind), 0.3188527, 1e-5);
		within(figureOf('lagIIGuideLeft', wind), 350.97, 1e-4);
		within(figureOf('lagK2GuideLeft', wind), 0.4992327, 1e-5);
		within(figureOf('lagIIImGuideLeft', wind), 406.02, 1e-4);
		within(figureOf('lagK3GuideLeft', wind), 6.2550301, 1e-5);
		within(figureOf('lagIIIsGuideLeft', wind), 262.72, 1e-4);
		within(figureOf('lagIVGuideLeft', wind), 274.95, 1e-4);
		within(figureOf('lagLateralGuideLeft', wind), 420.4, 1e-3);
	});

	it('pull and shear together', () => {
		/*
		 * T 300 lb, V 200 lb: R² = 130,000; Z′α = 975.9·420.4·130000/(975.9·40000 + 420.4·90000)
		 *   = 5.33352e10/(3.9036e7 + 3.7836e7) = 693.8 lb; use √130000/693.8 = 360.56/693.8 = 0.5197
		 * tension alone 300/975.9 = 0.3074, shear alone 200/420.4 = 0.4757
		 */
		const given = { ...wind, tensionGuideLeft: [300, 'lb'], shearGuideLeft: [200, 'lb'] } as const;
		within(figureOf('lagCombinedGuideLeft', given), 693.8, 1e-3);
		within(figureOf('woodTensionUseGuideLeft', given), 0.3074, 1e-3);
		within(figureOf('woodShearUseGuideLeft', given), 0.4757, 1e-3);
		within(figureOf('woodUseGuideLeft', given), 0.5197, 1e-3);
		expect(reckon('woodModeGuideLeft', given)).toBe('lagCombined');
	});

	it('one alone, and where the equation would allow more than shear alone', () => {
		const use = (tension: number, shear: number, more: Given = {}): [number, string | number | null] => {
			const given: Given = {
				...wind,
				...more,
				tensionGuideLeft: [tension, 'lb'],
				shearGuideLeft: [shear, 'lb']
			};
			return [figureOf('woodUseGuideLeft', given), reckon('woodModeGuideLeft', given)];
		};
		const [pull, pullMode] = use(300, 0);
		within(pull, 0.3074, 1e-3);
		expect(pullMode).toBe('lagWithdrawal');
		const [shear, shearMode] = use(0, 200);
		within(shear, 0.4757, 1e-3);
		expect(shearMode).toBe('lagLateralIIIs');
		expect(use(0, 0)[0]).toBe(0);
		// A thread of 20 in: W′p 9759 lb. T 300, V 300: Z′α = 9759·Z′·2/(9759 + Z′) is more than √2·Z′, so shear alone counts.
		expect(use(300, 300, { lagWithdrawalGuideLeft: [9759, 'lb'] })[1]).toBe('lagLateralIIIs');
	});

	it('the steel at the root, where the thread holds more', () => {
		// 4 in of thread: 304.96·4·1.6 = 1951.7 lb; steel 1656 lb; 828/1656 = 0.5
		const given = lag({
			durationGuideLeft: 1.6,
			'anchorLeft.embedment': [4, 'in'],
			tensionGuideLeft: [828, 'lb']
		});
		expect(figureOf('woodUseGuideLeft', given)).toBeCloseTo(0.5, 9);
		expect(reckon('woodModeGuideLeft', given)).toBe('screwTension');
	});

	it.each([
		// Each mode made the least by what it depends on: soft long wood bearing, a thin soft leg, stiff and short, …
		[
			'lagLateralIm',
			{
				legStrengthGuideLeft: [400_000, 'psi'],
				legGuideLeft: [6, 'in'],
				'anchorLeft.embedment': [1.5, 'in'],
				'anchorLeft.bendingYield': [4_000_000, 'psi']
			}
		],
		[
			'lagLateralIs',
			{
				legStrengthGuideLeft: [300, 'psi'],
				legGuideLeft: [0.1, 'in'],
				'anchorLeft.bendingYield': [4_000_000, 'psi'],
				'anchorLeft.embedment': [12, 'in']
			}
		],
		['lagLateralII', { 'anchorLeft.bendingYield': [4_000_000, 'psi'] }],
		[
			'lagLateralIIIm',
			{
				legGuideLeft: [0.5, 'in'],
				legStrengthGuideLeft: [58_000, 'psi'],
				'anchorLeft.embedment': [1.5, 'in'],
				'anchorLeft.bendingYield': [200_000, 'psi']
			}
		],
		['lagLateralIIIs', {}],
		['lagLateralIV', { legGuideLeft: [0.375, 'in'], 'anchorLeft.embedment': [4, 'in'] }]
	] as const)('%s governs', (mode, given: Given) => {
		const ids = ['lagIm', 'lagIs', 'lagII', 'lagIIIm', 'lagIIIs', 'lagIV'];
		const values = ids.map((id) => figureOf(`${id}GuideLeft`, lag(given)));
		const least = ids[values.indexOf(Math.min(...values))] ?? '';
		expect(reckon('lagLateralModeGuideLeft', lag(given))).toBe(mode);
		expect(mode).toBe(least.replace('lag', 'lagLateral'));
	});
});
