/**
 * Anchors in concrete against published figures, then limits and a whole group by hand. A printed value carries its own
 * rounding: the share beside each is what the source's number of figures allows.
 */
import { describe, expect, it } from 'vitest';
import { figureOf, reckon, type Given } from '../reckon.ts';

const within = (value: number, expected: number, share: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};

/** One headed stud welded to its plate, far from everything, in thick cracked concrete. */
const stud: Given = {
	substrateLeft: 'concrete',
	mountingLeft: 'faceOfWall',
	wallCrackedLeft: 1,
	wallStrengthLeft: [4000, 'psi'],
	wallThicknessLeft: [1000, 'in'],
	'anchorLeft.kind': 'castIn',
	'anchorLeft.nut': [0, 'in'],
	'anchorLeft.torque': [0, 'lb-ft'],
	'anchorLeft.diameter': [0.5, 'in'],
	'anchorLeft.headDiameter': [1, 'in'],
	'anchorLeft.stressArea': [Math.PI / 16, 'in2'],
	'anchorLeft.tensileStrength': [65000, 'psi'],
	'anchorLeft.yieldStrength': [51000, 'psi'],
	'anchorLeft.embedment': [4, 'in'],
	'anchorLeft.breakoutFactor': 24,
	'anchorLeft.ductile': 1,
	'anchorLeft.category': 1,
	'anchorLeft.pullOut': [0, 'lb'],
	'anchorLeft.leastEdge': [0, 'in'],
	'anchorLeft.leastSpacing': [0, 'in'],
	legBracketLeft: [0.5, 'in'],
	edgeBracketLeft: [1000, 'in'],
	columnsBracketLeft: 1,
	acrossBracketLeft: [0, 'in'],
	alongBracketLeft: [10000, 'in'],
	towardsEdgeBracketLeft: 1,
	factoredTensionBracketLeft: [0, 'lb'],
	factoredShearBracketLeft: [0, 'lb']
};

/** The same as a bolt with a nut. */
const bolt: Given = { ...stud, 'anchorLeft.nut': [0.75, 'in'] };

/** The same as a mechanical anchor set later. */
const later: Given = {
	...bolt,
	'anchorLeft.kind': 'postInstalled',
	'anchorLeft.breakoutFactor': 17,
	'anchorLeft.pullOut': [5000, 'lb']
};

/** Steel that never governs. */
const strongSteel: Given = {
	concreteSteelTensionLeft: [1e9, 'lb'],
	concreteSteelShearLeft: [1e9, 'lb']
};

describe('single anchors: ACI 349.2R-07, Examples A1 to A4 (its φ are older than ACI 318-19 and are given)', () => {
	// A1: tension on a stud, da 0.5 in, hef 4.69 in, f′c 4000 psi, futa 65 ksi, ca,min 12 in, Abrg 0.59 in², kc 24.
	const a1: Given = {
		...stud,
		'anchorLeft.embedment': [4.69, 'in'],
		edgeBracketLeft: [12, 'in'],
		concreteBearingAreaLeft: [0.59, 'in2'],
		concretePhiSteelTensionLeft: 0.8,
		concretePhiTensionLeft: 0.85
	};
	it('A1: tension', () => {
		within(figureOf('concreteSteelTensionLeft', a1), 12763, 0.001);
		within(figureOf('concreteBasicBreakoutLeft', a1), 15417, 0.001);
		within(figureOf('concreteBreakoutBracketLeft', a1), 15417, 0.001);
		expect(figureOf('concretePullOutLeft', a1)).toBeCloseTo(18880, 6);
		within(figureOf('concreteTensionStrengthBracketLeft', a1), 10210, 0.001);
		within(figureOf('concreteTensionStrengthBracketLeft', { ...a1, ...strongSteel }), 13104, 0.001);
	});

	// A2: shear on a stud, hef = le 3.06 in, ca1 10 in, ca2 18 in.
	const a2: Given = {
		...stud,
		'anchorLeft.embedment': [3.06, 'in'],
		edgeBracketLeft: [10, 'in'],
		concretePhiSteelShearLeft: 0.75,
		concretePhiShear: 0.85
	};
	it('A2: shear', () => {
		within(figureOf('concreteSteelShearLeft', a2), 12763, 0.001);
		within(figureOf('concreteShearBreakoutBracketLeft', a2), 16254, 0.001);
		within(figureOf('concretePryOutBracketLeft', a2), 16250, 0.001);
		within(figureOf('concreteShearStrengthBracketLeft', a2), 9572, 0.001);
		within(figureOf('concreteShearStrengthBracketLeft', { ...a2, ...strongSteel }), 13812.5, 0.001);
	});

	// A3: both, da 0.625 in, hef 6.63 in, ca1 12 in, Abrg 0.92 in², Nua 8 kip, Vua 6 kip.
	const a3: Given = {
		...stud,
		'anchorLeft.diameter': [0.625, 'in'],
		'anchorLeft.stressArea': [(Math.PI / 4) * 0.625 ** 2, 'in2'],
		'anchorLeft.embedment': [6.63, 'in'],
		edgeBracketLeft: [12, 'in'],
		concreteBearingAreaLeft: [0.92, 'in2'],
		concretePhiSteelTensionLeft: 0.8,
		concretePhiTensionLeft: 0.85,
		concretePhiSteelShearLeft: 0.75,
		concretePhiShear: 0.85,
		factoredTensionBracketLeft: [8000, 'lb'],
		factoredShearBracketLeft: [6000, 'lb']
	};
	it('A3: tension and shear together', () => {
		within(figureOf('concreteSteelTensionLeft', a3), 19942, 0.001);
		within(figureOf('concreteBreakoutBracketLeft', a3), 25913, 0.001);
		expect(figureOf('concretePullOutLeft', a3)).toBeCloseTo(29440, 6);
		within(figureOf('concreteTensionStrengthBracketLeft', a3), 15953, 0.001);
		within(figureOf('concreteBasicShearBracketLeft', a3), 25203, 0.001);
		within(figureOf('concretePryOutBracketLeft', a3), 51825, 0.001);
		within(figureOf('concreteShearStrengthBracketLeft', a3), 14956, 0.001);
		// 0.9026 is the sum that must stay within 1.2.
		within(1.2 * figureOf('concreteUseBracketLeft', a3), 0.9026, 0.002);
	});
	it('A3 under ACI 318-19: the lesser of both equations, 9·√4000·12^1.5 = 9·63.2456·41.5692 = 23661.7', () => {
		within(figureOf('concreteShearBreakoutBracketLeft', a3), 23661.7, 1e-5);
	});

	// A4: a bolt 1 1/8 in with Ase 0.7633 in² (7 threads an inch), hef 17.57 in, futa 125 ksi.
	const a4: Given = {
		...bolt,
		'anchorLeft.diameter': [1.125, 'in'],
		'anchorLeft.stressArea': [0.7633, 'in2'],
		'anchorLeft.tensileStrength': [125000, 'psi'],
		'anchorLeft.yieldStrength': [105000, 'psi'],
		'anchorLeft.embedment': [17.57, 'in']
	};
	it('A4: deep; ACI 318-19 Eq. 17.6.2.2.3', () => {
		within(figureOf('concreteSteelTensionLeft', a4), 95400, 0.001);
		within(figureOf('concreteBreakoutBracketLeft', a4), 120160, 0.001);
	});
});

describe('shear: ACI 318-19, Eq. 17.7.2.2.1a and b', () => {
	it('da 0.5 in, le 3.06 in, f′c 4000 psi, ca1 10 in', () => {
		const given: Given = { ...bolt, 'anchorLeft.embedment': [3.06, 'in'], edgeBracketLeft: [10, 'in'] };
		within(figureOf('concreteBasicShearBracketLeft', given), 14222, 0.001);
		within(figureOf('concreteShearCapBracketLeft', given), 18000, 0.001);
		within(figureOf('concreteShearBreakoutBracketLeft', given), 14222, 0.001);
	});
});

describe('groups: ACI 318-19 worked examples in a public anchoring design guide, October 2025', () => {
	it('tension, Eqs. 17.6.2.1b, 17.6.2.1.4, 17.6.2.2.1, 17.6.2.4.1b: ANc 1532.16 in², kc 21, hef 5.75 in, ca,min 8 in', () => {
		const given: Given = {
			...later,
			'anchorLeft.breakoutFactor': 21,
			'anchorLeft.embedment': [5.75, 'in'],
			edgeBracketLeft: [8, 'in'],
			concreteAreaBracketLeft: [1532.16, 'in2']
		};
		within(figureOf('concreteWholeAreaLeft', given), 297.56, 0.0005);
		within(figureOf('concreteEdgeFactorBracketLeft', given), 0.978, 0.001);
		within(figureOf('concreteBasicBreakoutLeft', given), 18313, 0.0005);
		within(figureOf('concreteBreakoutBracketLeft', given), 92221, 0.001);
	});
	it('shear, Eqs. 17.7.2.2.1a and b: AVc 1395 in², da 0.875 in, hef 12 in, f′c 4500 psi, ca1 22 in, ψc,V 1.2, ψh,V 1.48', () => {
		const given: Given = {
			...bolt,
			wallStrengthLeft: [4500, 'psi'],
			'anchorLeft.diameter': [0.875, 'in'],
			'anchorLeft.embedment': [12, 'in'],
			edgeBracketLeft: [22, 'in'],
			concreteShearAreaBracketLeft: [1395, 'in2'],
			concreteUncrackedShearLeft: 1.2,
			concreteThinFactorBracketLeft: 1.48
		};
		within(figureOf('concreteBasicShearBracketLeft', given), 68701, 0.0005);
		within(figureOf('concreteShearCapBracketLeft', given), 62299, 0.0005);
		expect(figureOf('concreteShearWholeAreaBracketLeft', given)).toBeCloseTo(2178, 9);
		within(figureOf('concreteShearBreakoutBracketLeft', given), 70866, 0.001);
	});
});

describe('one anchor at one edge: ACI 318-19, 17.6.2, computed from the published formula', () => {
	it.each([
		// kind, kc, hef in, f′c psi, ca1 in, Nb lb, ψed,N, Ncb lb
		[later, 17, 2.5, 3000, 4, 3680.6, 1, 3680.6],
		[later, 17, 3.25, 4000, 12, 6299.5, 1, 6299.5],
		[bolt, 24, 4, 3000, 3, 10516.3, 0.85, 6704.1]
	])(
		'%#: kc %d, hef %d in, f′c %d psi, edge %d in',
		(kind, kc, depth, strength, edge, basic, factor, breakout) => {
			const given: Given = {
				...kind,
				wallStrengthLeft: [strength, 'psi'],
				'anchorLeft.breakoutFactor': kc,
				'anchorLeft.embedment': [depth, 'in'],
				edgeBracketLeft: [edge, 'in']
			};
			within(figureOf('concreteBasicBreakoutLeft', given), basic, 0.001);
			within(figureOf('concreteEdgeFactorBracketLeft', given), factor, 0.001);
			within(figureOf('concreteBreakoutBracketLeft', given), breakout, 0.001);
		}
	);
});

describe('interaction: ACI 318-19, 17.8', () => {
	const together = (tension: number, shear: number): number =>
		figureOf('concreteUseBracketLeft', {
			...later,
			concreteTensionUseBracketLeft: tension,
			concreteShearUseBracketLeft: shear
		});
	it.each([
		// N, V, sum that must stay within 1.2
		[0.5, 0.5, 1],
		[0.6, 0.6, 1.2],
		[0.75, 0.45, 1.2]
	])('N %d, V %d: the sum over 1.2, passes', (tension, shear, sum) => {
		expect(together(tension, shear)).toBeCloseTo(sum / 1.2, 12);
		expect(together(tension, shear)).toBeLessThanOrEqual(1 + 1e-9);
	});
	it('N 0.15, V 0.9: the sum of 1.05 is not asked for, shear alone counts, passes', () => {
		expect(together(0.15, 0.9)).toBe(0.9);
	});
	it('at and over 0.2, by hand: (0.21 + 0.95)/1.2 = 0.9667, (0.21 + 1)/1.2 = 1.0083', () => {
		expect(together(0.2, 0.95)).toBe(0.95);
		expect(together(0.95, 0.2)).toBe(0.95);
		expect(together(0.21, 0.95)).toBeCloseTo(0.966667, 6);
		expect(together(0.95, 0.21)).toBeCloseTo(0.966667, 6);
		expect(together(0.21, 1)).toBeCloseTo(1.008333, 6);
		expect(together(0.1, 0.15)).toBe(0.15);
	});
});

describe('from memory: ACI 318-19, Tables 17.5.3 and 17.9.2', () => {
	it.each([
		['ductile', 1, 0.75, 0.65],
		['brittle', 0, 0.65, 0.6]
	])('φ of %s steel', (_, ductile, tension, shear) => {
		const given: Given = { ...later, 'anchorLeft.ductile': ductile };
		expect(figureOf('concretePhiSteelTensionLeft', given)).toBe(tension);
		expect(figureOf('concretePhiSteelShearLeft', given)).toBe(shear);
	});
	it('φ of concrete without supplementary reinforcement: cast in 0.70, post-installed 0.65, 0.55, 0.45; shear 0.70', () => {
		expect(figureOf('concretePhiTensionLeft', stud)).toBe(0.7);
		expect(figureOf('concretePhiTensionLeft', later)).toBe(0.65);
		expect(figureOf('concretePhiTensionLeft', { ...later, 'anchorLeft.category': 2 })).toBe(0.55);
		expect(figureOf('concretePhiTensionLeft', { ...later, 'anchorLeft.category': 3 })).toBe(0.45);
		expect(figureOf('concretePhiShear', stud)).toBe(0.7);
		expect(figureOf('concretePhiShear', later)).toBe(0.7);
	});
	it('spacing: 4 diameters cast in and not tightened, else 6; edge of a tightened cast-in bolt 6', () => {
		expect(figureOf('concreteSpacingNeededLeft', stud)).toBe(2);
		expect(figureOf('concreteSpacingNeededLeft', bolt)).toBe(3);
		expect(figureOf('concreteSpacingNeededLeft', later)).toBe(3);
		expect(figureOf('concreteEdgeNeededLeft', bolt)).toBe(3);
	});
	it('edge post-installed without a report 10 diameters, over the head of a stud 1 1/2 in', () => {
		expect(figureOf('concreteEdgeNeededLeft', later)).toBe(5);
		expect(figureOf('concreteEdgeNeededLeft', stud)).toBe(2);
	});
	it('the report wins, whether it asks for more or less', () => {
		for (const reported of [2.25, 8]) {
			const given: Given = {
				...later,
				'anchorLeft.leastEdge': [reported, 'in'],
				'anchorLeft.leastSpacing': [reported, 'in']
			};
			expect(figureOf('concreteEdgeNeededLeft', given)).toBe(reported);
			expect(figureOf('concreteSpacingNeededLeft', given)).toBe(reported);
		}
	});
	it('thickness: hef at most 2/3 of the wall or 4 in less, whichever is more; both ask for 12 in at hef 8 in', () => {
		const needed = (depth: number): number =>
			figureOf('concreteThicknessNeededLeft', { ...later, 'anchorLeft.embedment': [depth, 'in'] });
		expect(needed(6)).toBeCloseTo(9, 12);
		expect(needed(8)).toBeCloseTo(12, 12);
		expect(needed(10)).toBeCloseTo(14, 12);
		expect(figureOf('concreteThicknessNeededLeft', bolt)).toBeCloseTo(5.5, 12);
		expect(figureOf('concreteThicknessNeededLeft', { ...later, mountingLeft: 'betweenJambs' })).toBe(10);
	});
	it('futa: at 1.9·fya and 125 ksi', () => {
		const reckonedWith = (tensile: number, yielding: number): number =>
			figureOf('concreteTensileStrengthLeft', {
				...later,
				'anchorLeft.tensileStrength': [tensile, 'psi'],
				'anchorLeft.yieldStrength': [yielding, 'psi']
			});
		expect(reckonedWith(75999, 40000)).toBeCloseTo(75999, 6);
		expect(reckonedWith(76000, 40000)).toBeCloseTo(76000, 6);
		expect(reckonedWith(76001, 40000)).toBeCloseTo(76000, 6);
		expect(reckonedWith(125001, 110000)).toBeCloseTo(125000, 6);
	});
	it('f′c: at most 10 000 psi cast in, 8 000 psi post-installed', () => {
		const strength: Given = { wallStrengthLeft: [12000, 'psi'] };
		expect(figureOf('concreteStrengthLeft', { ...stud, ...strength })).toBeCloseTo(10000, 6);
		expect(figureOf('concreteStrengthLeft', { ...later, ...strength })).toBeCloseTo(8000, 6);
		expect(figureOf('concreteStrengthLeft', later)).toBeCloseTo(4000, 6);
	});
	it('uncracked: ψc,N 1.25 cast in, 1.4 post-installed, 1 with a breakout factor of the report; ψc,V 1.4; ψc,P 1.4', () => {
		const uncracked: Given = { wallCrackedLeft: 0 };
		expect(figureOf('concreteUncrackedTensionLeft', { ...stud, ...uncracked })).toBe(1.25);
		expect(figureOf('concreteUncrackedTensionLeft', { ...later, ...uncracked })).toBe(1.4);
		expect(
			figureOf('concreteUncrackedTensionLeft', { ...later, ...uncracked, 'anchorLeft.breakoutFactor': 21 })
		).toBe(1);
		expect(figureOf('concreteUncrackedTensionLeft', later)).toBe(1);
		expect(figureOf('concreteUncrackedShearLeft', { ...later, ...uncracked })).toBe(1.4);
		expect(figureOf('concreteUncrackedShearLeft', later)).toBe(1);
		// 8·π/4·(1² − 0.5²)·4000 = 18849.56, times 1.4 = 26389.4; what a report says stays as it is.
		expect(figureOf('concretePullOutLeft', stud)).toBeCloseTo(18849.56, 2);
		expect(figureOf('concretePullOutLeft', { ...stud, ...uncracked })).toBeCloseTo(26389.38, 2);
		expect(figureOf('concretePullOutLeft', { ...later, ...uncracked })).toBe(5000);
	});
	it('ψcp,N: post-installed and uncracked, cac = 4·hef = 16 in; never under 1.5/4 = 0.375', () => {
		const factor = (edge: number, more: Given): number =>
			figureOf('concreteSplittingFactorBracketLeft', { ...more, edgeBracketLeft: [edge, 'in'] });
		const uncracked: Given = { ...later, wallCrackedLeft: 0 };
		expect(factor(3, uncracked)).toBe(0.375);
		expect(factor(6, uncracked)).toBe(0.375);
		expect(factor(8, uncracked)).toBe(0.5);
		expect(factor(16, uncracked)).toBe(1);
		expect(factor(20, uncracked)).toBe(1);
		expect(factor(3, later)).toBe(1);
		expect(factor(3, { ...stud, wallCrackedLeft: 0 })).toBe(1);
	});
	it('kc where the book says 0: 17 post-installed, 24 cast in', () => {
		expect(figureOf('concreteBreakoutFactorLeft', { ...later, 'anchorLeft.breakoutFactor': 0 })).toBe(17);
		expect(figureOf('concreteBreakoutFactorLeft', { ...bolt, 'anchorLeft.breakoutFactor': 0 })).toBe(24);
	});
	it('blow-out beside a head deeper than 2.5 edge distances: 160·2·√0.5890·√4000 = 15532.6, a third of it at 4 in of 6·ca1 = 12', () => {
		const at = (edge: number, along: number): number | string | null =>
			reckon('concreteBlowoutBracketLeft', {
				...stud,
				'anchorLeft.embedment': [5.1, 'in'],
				edgeBracketLeft: [edge, 'in'],
				alongBracketLeft: [along, 'in']
			});
		expect(at(2, 12)).toBeCloseTo(15532.6, 0);
		expect(at(2, 4)).toBeCloseTo(5177.5, 0);
		expect(at(2.04, 12)).toBeNull();
		expect(at(3, 12)).toBeNull();
	});
	it('blow-out governs a deep head near the edge: 0.7·15532.6 = 10872.8, pull-out 0.7·18849.6 = 13194.7', () => {
		// hef 20 in, 60 in along: breakout (2 + 30)·60/3600·0.72·16·√4000·20^(5/3) = 0.53333·0.72·149120 = 57262
		const given: Given = {
			...stud,
			...strongSteel,
			'anchorLeft.embedment': [20, 'in'],
			edgeBracketLeft: [2, 'in'],
			alongBracketLeft: [60, 'in']
		};
		within(figureOf('concreteBreakoutBracketLeft', given), 57262, 1e-4);
		within(figureOf('concreteTensionStrengthBracketLeft', given), 10872.8, 1e-4);
		expect(reckon('concreteTensionModeBracketLeft', given)).toBe('concreteBreakout');
	});
});

describe('limits of the formulas, by hand', () => {
	it('kcp: 1 under 2 1/2 in of depth', () => {
		const factor = (depth: number): number =>
			figureOf('concretePryFactorLeft', { ...later, 'anchorLeft.embedment': [depth, 'in'] });
		expect([2.4999, 2.5, 2.5001].map(factor)).toEqual([1, 2, 2]);
	});
	it('hef from 11 to 25 in cast in: 16·√4000·hef^(5/3), else 24·√4000·hef^1.5; never post-installed', () => {
		// 10.99: 24·63.24555·36.43315 = 55301.7. 11: 16·63.24555·54.40742 = 55056.4. 25: 16·63.24555·213.74699 = 216297.
		// 25.01: 24·63.24555·125.07501 = 189850.
		const basic = (depth: number): number =>
			figureOf('concreteBasicBreakoutLeft', { ...bolt, 'anchorLeft.embedment': [depth, 'in'] });
		within(basic(10.99), 55301.7, 1e-5);
		within(basic(11), 55056.4, 1e-5);
		within(basic(25), 216297, 1e-5);
		within(basic(25.01), 189850, 1e-5);
		// 17·63.24555·36.48287 = 39225.3
		within(
			figureOf('concreteBasicBreakoutLeft', { ...later, 'anchorLeft.embedment': [11, 'in'] }),
			39225.3,
			1e-5
		);
	});
	it('edge of 1.5·hef = 6 in: area (edge + 6)·12, factor 0.7 + 0.3·edge/6', () => {
		const at = (edge: number): number[] => {
			const given: Given = { ...later, edgeBracketLeft: [edge, 'in'] };
			return [figureOf('concreteAreaBracketLeft', given), figureOf('concreteEdgeFactorBracketLeft', given)];
		};
		const near = (edge: number, area: number, factor: number): void => {
			const [a = 0, f = 0] = at(edge);
			expect(a).toBeCloseTo(area, 9);
			expect(f).toBeCloseTo(factor, 9);
		};
		near(5.9, 142.8, 0.995);
		near(6, 144, 1);
		near(6.1, 144, 1);
	});
	it('spacing of 3·hef = 12 in along and across', () => {
		const area = (along: number, across: number): number =>
			figureOf('concreteAreaBracketLeft', {
				...later,
				alongBracketLeft: [along, 'in'],
				columnsBracketLeft: 2,
				acrossBracketLeft: [across, 'in']
			});
		// (6 + across + 6)/2 · along
		expect(area(11.9, 11.9)).toBeCloseTo(11.95 * 11.9, 9);
		expect(area(12, 12)).toBeCloseTo(144, 9);
		expect(area(12.1, 12.1)).toBeCloseTo(144, 9);
	});
	it('between jambs the other face of the wall cuts the area too', () => {
		const at = (thickness: number): number =>
			figureOf('concreteAreaBracketLeft', {
				...later,
				mountingLeft: 'betweenJambs',
				edgeBracketLeft: [3, 'in'],
				wallThicknessLeft: [thickness, 'in']
			});
		// (3 + least of 6 and thickness − 3)·12
		expect(at(8)).toBeCloseTo(96, 9);
		expect(at(9)).toBeCloseTo(108, 9);
		expect(at(12)).toBeCloseTo(108, 9);
	});
	it('le of 8 diameters = 4 in: 7·8^0.2·√0.5·√4000·10^1.5 = 7·1.515717·0.707107·63.24555·31.62278 = 15004.8', () => {
		const basic = (depth: number): number =>
			figureOf('concreteBasicShearBracketLeft', {
				...bolt,
				'anchorLeft.embedment': [depth, 'in'],
				edgeBracketLeft: [10, 'in']
			});
		within(basic(4), 15004.8, 1e-5);
		within(basic(4.5), 15004.8, 1e-5);
		// (3.9/0.5)^0.2 = 1.508059: 14929.0
		within(basic(3.9), 14929.0, 1e-4);
	});
	it('8 for 7 only for studs on a plate of 3/8 in that stand 2 1/2 in apart', () => {
		const ratio = (more: Given): number =>
			figureOf('concreteBasicShearBracketLeft', { ...stud, ...more }) /
			figureOf('concreteBasicShearBracketLeft', { ...bolt, ...more });
		expect(ratio({ legBracketLeft: [0.375, 'in'] })).toBeCloseTo(8 / 7, 12);
		expect(ratio({ legBracketLeft: [0.374, 'in'] })).toBeCloseTo(1, 12);
		expect(ratio({ alongBracketLeft: [2.5, 'in'] })).toBeCloseTo(8 / 7, 12);
		expect(ratio({ alongBracketLeft: [2.49, 'in'] })).toBeCloseTo(1, 12);
		expect(ratio({ 'anchorLeft.diameter': [0.8, 'in'], legBracketLeft: [0.39, 'in'] })).toBeCloseTo(1, 12);
	});
	it('thin wall, ca1 6 in: depth 9 in and ψh,V 1 from 9 in; at 4 in ψh,V = √(9/4) = 1.5', () => {
		const at = (thickness: number, mounting = 'faceOfWall'): number[] => {
			const given: Given = {
				...bolt,
				mountingLeft: mounting,
				edgeBracketLeft: [6, 'in'],
				wallThicknessLeft: [thickness, 'in']
			};
			return [
				figureOf('concreteShearDepthBracketLeft', given),
				figureOf('concreteThinFactorBracketLeft', given)
			];
		};
		expect(at(10)).toEqual([9, 1]);
		expect(at(9)).toEqual([9, 1]);
		expect(at(4)).toEqual([4, 1.5]);
		// Between jambs the wall is deep behind the anchor, whatever its thickness.
		expect(at(8, 'betweenJambs')).toEqual([9, 1]);
	});
	it('shear along the edge counts twice; columns nearer than the edge share one breakout', () => {
		const breakout = (more: Given): number =>
			figureOf('concreteShearBreakoutBracketLeft', { ...bolt, edgeBracketLeft: [6, 'in'], ...more });
		const one = breakout({});
		expect(breakout({ towardsEdgeBracketLeft: 0 }) / one).toBeCloseTo(2, 12);
		const two = (across: number): number =>
			breakout({ columnsBracketLeft: 2, acrossBracketLeft: [across, 'in'] }) / one;
		expect(two(5.9)).toBeCloseTo(0.5, 12);
		expect(two(6)).toBeCloseTo(1, 12);
		expect(two(6.1)).toBeCloseTo(1, 12);
	});
	it('steel in shear: 0.6 of tension with a nut or post-installed, all of it for a stud', () => {
		// Nsa = 0.19635·65000 = 12762.7, 0.6 of it 7657.6
		expect(figureOf('concreteSteelShearLeft', stud)).toBeCloseTo(12762.72, 2);
		expect(figureOf('concreteSteelShearLeft', bolt)).toBeCloseTo(7657.63, 2);
		expect(figureOf('concreteSteelShearLeft', later)).toBeCloseTo(7657.63, 2);
	});
});

describe('area of one anchor against all squares of a group laid on a grid', () => {
	it.each([
		// hef, edge, columns, across in: rows far apart, so that one row is the group
		[2, 1.5, 1, 0],
		[2, 4, 2, 3],
		[3, 2.5, 3, 4],
		[2, 2, 2, 9]
	])('hef %d in, edge %d in, %d columns %d in apart', (depth, edge, columns, across) => {
		const reach = 1.5 * depth;
		const step = 0.005;
		const width = edge + across * (columns - 1) + reach;
		let covered = 0;
		for (let x = step / 2; x < width; x += step) {
			const near = Array.from({ length: columns }, (_, i) => Math.abs(x - edge - i * across)).some(
				(distance) => distance <= reach
			);
			if (near) covered += step;
		}
		const given: Given = {
			...later,
			'anchorLeft.embedment': [depth, 'in'],
			edgeBracketLeft: [edge, 'in'],
			columnsBracketLeft: columns,
			acrossBracketLeft: [across, 'in']
		};
		within(figureOf('concreteAreaBracketLeft', given) * columns, covered * 3 * depth, 0.002);
	});
});

describe('a face-mounted bracket with four anchors near the edge, worked by hand (invented anchor)', () => {
	// Post-installed, category 1, ductile: da 1/2 in, hef 3.25 in, Ase 0.1419 in², futa 90 ksi, fya 72 ksi, kc 17, reported
	// pull-out 5000 lb. Cracked concrete, f′c 4000 psi, wall 8 in. Two columns 3 in apart, the first 4 in off the edge, rows
	// 6 in apart. On one anchor 900 lb of tension and 500 lb of shear along the edge, at strength level.
	const group: Given = {
		...later,
		wallThicknessLeft: [8, 'in'],
		'anchorLeft.embedment': [3.25, 'in'],
		'anchorLeft.stressArea': [0.1419, 'in2'],
		'anchorLeft.tensileStrength': [90000, 'psi'],
		'anchorLeft.yieldStrength': [72000, 'psi'],
		edgeBracketLeft: [4, 'in'],
		columnsBracketLeft: 2,
		acrossBracketLeft: [3, 'in'],
		alongBracketLeft: [6, 'in'],
		towardsEdgeBracketLeft: 0,
		factoredTensionBracketLeft: [900, 'lb'],
		factoredShearBracketLeft: [500, 'lb']
	};

	it('tension', () => {
		// futa = least of 90, 1.9·72 = 136.8 and 125 = 90 ksi. Nsa = 0.1419·90000 = 12771; φ 0.75: 9578.25
		expect(figureOf('concreteSteelTensionLeft', group)).toBeCloseTo(12771, 6);
		// Nb = 17·√4000·3.25^1.5 = 17·63.24555·5.859021 = 6299.47
		expect(figureOf('concreteBasicBreakoutLeft', group)).toBeCloseTo(6299.47, 2);
		// 1.5·hef = 4.875, 3·hef = 9.75. Across (4 + 3 + 4.875)/2 = 5.9375, along 6: ANc = 35.625. ANco = 9·10.5625 = 95.0625
		expect(figureOf('concreteAreaBracketLeft', group)).toBeCloseTo(35.625, 9);
		expect(figureOf('concreteWholeAreaLeft', group)).toBeCloseTo(95.0625, 9);
		// ψed,N = 0.7 + 0.3·4/4.875 = 0.946154
		expect(figureOf('concreteEdgeFactorBracketLeft', group)).toBeCloseTo(0.946154, 6);
		// Ncb = 35.625/95.0625·0.946154·6299.47 = 0.374753·0.946154·6299.47 = 2233.63; φ 0.65: 1451.86
		expect(figureOf('concreteBreakoutBracketLeft', group)).toBeCloseTo(2233.63, 2);
		// pull-out 0.65·5000 = 3250. Least 1451.86; 900/1451.86 = 0.61989
		expect(figureOf('concreteTensionStrengthBracketLeft', group)).toBeCloseTo(1451.86, 2);
		expect(figureOf('concreteTensionUseBracketLeft', group)).toBeCloseTo(0.61989, 5);
		expect(reckon('concreteTensionModeBracketLeft', group)).toBe('concreteBreakout');
	});
	it('shear', () => {
		// Vsa = 0.6·12771 = 7662.6; φ 0.65: 4980.69
		expect(figureOf('concreteSteelShearLeft', group)).toBeCloseTo(7662.6, 6);
		// le = least of 3.25 and 4: (3.25/0.5)^0.2 = 1.454061. 7·1.454061·√0.5 = 7.197236, under 9.
		// Vb = 7.197236·63.24555·4^1.5 = 3641.55
		expect(figureOf('concreteBasicShearBracketLeft', group)).toBeCloseTo(3641.55, 2);
		// Depth least of 6 and 8 = 6, along least of 6 and 12 = 6: AVc = 36. AVco = 4.5·16 = 72. ψh,V = 1
		// Twice along the edge, halved because 3 in between columns is less than 4 in to the edge:
		// Vcb = 36/72·3641.55·2/2 = 1820.77; φ 0.70: 1274.54
		expect(figureOf('concreteShearBreakoutBracketLeft', group)).toBeCloseTo(1820.77, 2);
		// Vcp = 2·2233.63 = 4467.26; φ 0.70: 3127.08
		expect(figureOf('concretePryOutBracketLeft', group)).toBeCloseTo(4467.26, 2);
		// Least 1274.54; 500/1274.54 = 0.39230
		expect(figureOf('concreteShearUseBracketLeft', group)).toBeCloseTo(0.3923, 5);
		expect(reckon('concreteShearModeBracketLeft', group)).toBe('concreteShearBreakout');
	});
	it('together: (0.61989 + 0.39230)/1.2 = 0.84349', () => {
		expect(figureOf('concreteUseBracketLeft', group)).toBeCloseTo(0.84349, 5);
		expect(reckon('concreteModeBracketLeft', group)).toBe('concreteCombined');
	});
	it('what governs follows what is weak', () => {
		const mode = (more: Given): number | string | null =>
			reckon('concreteModeBracketLeft', { ...group, ...more });
		const pull: Given = { factoredShearBracketLeft: [0, 'lb'] };
		const push: Given = { factoredTensionBracketLeft: [0, 'lb'] };
		expect(mode(pull)).toBe('concreteBreakout');
		// 0.65·2000 = 1300 < 1451.86
		expect(mode({ ...pull, 'anchorLeft.pullOut': [2000, 'lb'] })).toBe('concretePullOut');
		// 0.75·0.02·90000 = 1350 < 1451.86
		expect(mode({ ...pull, 'anchorLeft.stressArea': [0.02, 'in2'] })).toBe('concreteSteelTension');
		expect(mode(push)).toBe('concreteShearBreakout');
		// 0.65·0.6·0.02·90000 = 702 < 1274.54
		expect(mode({ ...push, 'anchorLeft.stressArea': [0.02, 'in2'] })).toBe('concreteSteelShear');
		// Depth 1.5 in: kcp 1, ANc (2.25 + 3 + 2.25)/2·4.5 = 16.875 of 20.25, Nb = 17·63.24555·1.837117 = 1975.2:
		// Vcp = 0.83333·1975.2 = 1646.0. Vcb falls by (3/6.5)^0.2 only: 1820.77·0.856683 = 1559.8; so columns 5 in apart:
		// ANc 20.25, Vcp 1975.2 and Vcb twice 1559.8.
		expect(mode({ ...push, 'anchorLeft.embedment': [1.5, 'in'], acrossBracketLeft: [5, 'in'] })).toBe(
			'concretePryOut'
		);
	});
});

describe('what is not known stays not known', () => {
	const use = (given: Given): number | string | null => reckon('concreteUseBracketLeft', given);
	const mode = (given: Given): number | string | null => reckon('concreteModeBracketLeft', given);
	it('a post-installed anchor whose pull-out nobody has tested', () => {
		const given: Given = { ...later, 'anchorLeft.pullOut': [0, 'lb'] };
		expect(use(later)).toBe(0);
		expect(use(given)).toBeNull();
		expect(mode(given)).toBeNull();
	});
	it.each([
		['an anchor in another wall', { substrateLeft: 'groutedBlock' }],
		['a lag screw', { 'anchorLeft.kind': 'lagScrew' }],
		['no depth', { 'anchorLeft.embedment': [0, 'in'] }],
		['an anchor on the edge', { edgeBracketLeft: [0, 'in'] }],
		['an anchor beyond the edge', { edgeBracketLeft: [-1, 'in'] }],
		['anchors in one another', { alongBracketLeft: [0, 'in'] }],
		[
			'a wall thinner than its anchors',
			{ mountingLeft: 'betweenJambs', edgeBracketLeft: [6, 'in'], wallThicknessLeft: [6, 'in'] }
		]
	] satisfies [string, Given][])('%s', (_, more) => {
		expect(use({ ...later, ...more })).toBeNull();
		expect(mode({ ...later, ...more })).toBeNull();
	});
	it('a head no wider than its shank', () => {
		expect(use({ ...stud, 'anchorLeft.headDiameter': [0.5, 'in'] })).toBeNull();
	});
	it('reads the same on the right and at a guide', () => {
		const right = Object.fromEntries(
			Object.entries(later).map(([name, value]) => [
				name.replace('BracketLeft', 'GuideRight').replace('Left', 'Right'),
				value
			])
		);
		const loads: Given = { factoredTensionGuideRight: [650, 'lb'], factoredShearGuideRight: [0, 'lb'] };
		// 0.65·5000 = 3250: 650/3250 = 0.2
		expect(figureOf('concreteUseGuideRight', { ...right, ...loads })).toBeCloseTo(0.2, 12);
		expect(reckon('concreteModeGuideRight', { ...right, ...loads })).toBe('concretePullOut');
	});
});
