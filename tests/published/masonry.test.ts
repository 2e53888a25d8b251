/**
 * Anchors in grouted block against published figures, then limits and a whole guide by hand. A printed value carries its
 * own rounding: the share beside each is what the source's number of figures allows.
 */
import { describe, expect, it } from 'vitest';
import { figureOf, reckon, type Given } from '../reckon.ts';

const within = (value: number, expected: number, share: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};

/** One headed bolt cast into grout, far from everything; TMS 402-16. */
const bolt: Given = {
	substrateLeft: 'groutedBlock',
	mountingLeft: 'faceOfWall',
	wallStrengthLeft: [2000, 'psi'],
	wallThicknessLeft: [1000, 'in'],
	'shop.masonryCrushing': 1750,
	'shop.masonryInteraction': 5 / 3,
	'anchorLeft.kind': 'castIn',
	'anchorLeft.diameter': [0.5, 'in'],
	'anchorLeft.headDiameter': [1, 'in'],
	'anchorLeft.stressArea': [0.226, 'in2'],
	'anchorLeft.tensileStrength': [110000, 'psi'],
	'anchorLeft.yieldStrength': [92824, 'psi'],
	'anchorLeft.embedment': [3.94, 'in'],
	'anchorLeft.ductile': 1,
	'anchorLeft.pullOut': [0, 'lb'],
	'anchorLeft.leastEdge': [0, 'in'],
	'anchorLeft.leastSpacing': [0, 'in'],
	edgeGuideLeft: [60, 'in'],
	columnsGuideLeft: 1,
	acrossGuideLeft: [0, 'in'],
	alongGuideLeft: [1000, 'in'],
	towardsEdgeGuideLeft: 1,
	factoredTensionGuideLeft: [0, 'lb'],
	factoredShearGuideLeft: [0, 'lb']
};

/** A mechanical anchor set later, with a tested report. */
const later: Given = { ...bolt, 'anchorLeft.kind': 'postInstalled', 'anchorLeft.pullOut': [4000, 'lb'] };

describe('nominal strengths: TMS 402-13, strength design, worked sheet, Eqs. 9-1, 9-2, 9-6 to 9-9', () => {
	// lb 3.94 in, lbe 60 in, f′m 2000 psi, Ab 0.226 in², fy 92 824 psi
	const before2016: Given = { ...bolt, 'shop.masonryCrushing': 1050, 'shop.masonryInteraction': 1 };
	it('tension', () => {
		within(figureOf('masonryWholeAreaLeft', before2016), 48.77, 0.0005);
		within(figureOf('masonryAreaGuideLeft', before2016), 48.77, 0.0005);
		within(figureOf('masonryBreakoutGuideLeft', before2016), 8724, 0.0005);
		within(figureOf('masonrySteelTensionLeft', before2016), 20978, 0.0005);
	});
	it('shear', () => {
		within(figureOf('masonryShearAreaGuideLeft', before2016), 5654.87, 0.0005);
		within(figureOf('masonryCrushingLeft', before2016), 4841, 0.0005);
		within(figureOf('masonryPryOutGuideLeft', before2016), 17448, 0.0005);
		within(figureOf('masonrySteelShearLeft', before2016), 12587, 0.0005);
	});
});

describe('crushing: TMS 402-16, Eq. 9-7', () => {
	it('1750·(2000·0.226)^0.25, 1.6667 of the edition before', () => {
		const now = figureOf('masonryCrushingLeft', bolt);
		within(now, 8069, 0.001);
		within(now / figureOf('masonryCrushingLeft', { ...bolt, 'shop.masonryCrushing': 1050 }), 1.6667, 0.001);
	});
	it('the demo shop book goes by TMS 402-16', () => {
		const fromBook = Object.fromEntries(Object.entries(bolt).filter(([name]) => !name.startsWith('shop.')));
		within(figureOf('masonryCrushingLeft', fromBook), 8069, 0.001);
	});
});

describe('post-installed: published worked example in the style of TMS 402-22', () => {
	// hef 5 in, f′m 1500 psi, ca,min 2.187 in, ANm 184 in² of ANmo 225 in², Ase 0.1419 in², futa 58 ksi
	const given: Given = {
		...later,
		wallStrengthLeft: [1500, 'psi'],
		'anchorLeft.embedment': [5, 'in'],
		'anchorLeft.stressArea': [0.1419, 'in2'],
		'anchorLeft.tensileStrength': [58000, 'psi'],
		'anchorLeft.yieldStrength': [36000, 'psi'],
		edgeGuideLeft: [2.187, 'in'],
		masonryAnchorAreaGuideLeft: [184, 'in2']
	};
	it('breakout', () => {
		within(figureOf('masonryBasicBreakoutLeft', given), 7361, 0.0005);
		within(figureOf('masonryEdgeFactorGuideLeft', given), 0.787, 0.001);
		within(figureOf('masonryAnchorBreakoutGuideLeft', given), 4737, 0.001);
	});
	it('steel', () => {
		within(figureOf('masonrySteelTensionLeft', given), 8230, 0.0005);
		within(figureOf('masonrySteelShearLeft', given), 4938, 0.0005);
	});
});

describe('interaction to the power 5/3: ACI 318-19, R17.8, the form TMS 402-16 uses', () => {
	it.each([
		[0.5, 0.5, 0.63],
		[0.15, 0.9, 0.8813],
		[0.6, 0.6, 0.8537],
		[0.75, 0.45, 0.8834]
	])('N %d, V %d: %d, passes', (tension, shear, sum) => {
		const given: Given = { ...bolt, masonryTensionUseGuideLeft: tension, masonryShearUseGuideLeft: shear };
		within(figureOf('masonryCombinedGuideLeft', given), sum, 0.001);
		expect(figureOf('masonryUseGuideLeft', given)).toBeLessThanOrEqual(1);
	});
	it('before 2016 the straight sum, by hand: 0.6 + 0.6 = 1.2, does not pass', () => {
		const given: Given = {
			...bolt,
			'shop.masonryInteraction': 1,
			masonryTensionUseGuideLeft: 0.6,
			masonryShearUseGuideLeft: 0.6
		};
		expect(figureOf('masonryUseGuideLeft', given)).toBeCloseTo(1.2, 12);
	});
	it('never less than the larger of the two', () => {
		const given: Given = { ...bolt, masonryTensionUseGuideLeft: 0.9, masonryShearUseGuideLeft: 0 };
		expect(figureOf('masonryUseGuideLeft', given)).toBe(0.9);
	});
});

describe('from memory: TMS 402 strength reduction factors and limits', () => {
	it('φ: masonry 0.5, pull-out 0.65, steel 0.9 cast in; post-installed as ACI 318-19 has it', () => {
		expect(figureOf('masonryPhi', bolt)).toBe(0.5);
		expect(figureOf('masonryPhiPullOut', bolt)).toBe(0.65);
		const steel = (given: Given): number[] => [
			figureOf('masonryPhiSteelTensionLeft', given),
			figureOf('masonryPhiSteelShearLeft', given)
		];
		expect(steel(bolt)).toEqual([0.9, 0.9]);
		expect(steel(later)).toEqual([0.75, 0.65]);
		expect(steel({ ...later, 'anchorLeft.ductile': 0 })).toEqual([0.65, 0.6]);
	});
	it('a bolt cast in at least 4 diameters and 2 in deep', () => {
		const depth = (diameter: number, embedment: number, kind = 'castIn'): number | string | null =>
			reckon('masonryEmbedmentLeft', {
				...bolt,
				'anchorLeft.kind': kind,
				'anchorLeft.diameter': [diameter, 'in'],
				'anchorLeft.embedment': [embedment, 'in']
			});
		expect([1.99, 2, 2.01].map((embedment) => depth(0.375, embedment))).toEqual([null, 2, 2.01]);
		expect([2.99, 3, 3.01].map((embedment) => depth(0.75, embedment))).toEqual([null, 3, 3.01]);
		expect(depth(0.375, 1.5, 'postInstalled')).toBe(1.5);
	});
	it('f′m: at most 4000 psi', () => {
		const strength = (psi: number): number =>
			figureOf('masonryStrengthLeft', { ...bolt, wallStrengthLeft: [psi, 'psi'] });
		expect(strength(3999)).toBeCloseTo(3999, 6);
		expect(strength(4000)).toBeCloseTo(4000, 6);
		expect(strength(4001)).toBeCloseTo(4000, 6);
	});
	it('futa post-installed: at 1.9·fya; cast in fy counts', () => {
		const steel = (kind: string, tensile: number): number =>
			figureOf('masonrySteelTensionLeft', {
				...bolt,
				'anchorLeft.kind': kind,
				'anchorLeft.stressArea': [1, 'in2'],
				'anchorLeft.tensileStrength': [tensile, 'psi'],
				'anchorLeft.yieldStrength': [40000, 'psi']
			});
		expect(steel('postInstalled', 75000)).toBeCloseTo(75000, 6);
		expect(steel('postInstalled', 76000)).toBeCloseTo(76000, 6);
		expect(steel('postInstalled', 77000)).toBeCloseTo(76000, 6);
		expect(steel('castIn', 77000)).toBeCloseTo(40000, 6);
	});
});

describe('common practice, no source: least edge distance, spacing and thickness', () => {
	const needed = (given: Given): number[] =>
		['masonryEdgeNeededLeft', 'masonrySpacingNeededLeft', 'masonryThicknessNeededLeft'].map((id) =>
			figureOf(id, given)
		);
	it('cast in: 4 diameters and 1 1/2 in over the head, 4 diameters, 1 1/2 in behind', () => {
		expect(needed(bolt)).toEqual([2, 2, 5.44]);
		// 4·0.75 = 3 is more than 1.5 + 1/2
		expect(needed({ ...bolt, 'anchorLeft.diameter': [0.75, 'in'] })).toEqual([3, 3, 5.44]);
	});
	it('post-installed without a report: 12 and 8 diameters, one and a half times the depth', () => {
		const [edge, spacing, thickness] = needed(later);
		expect([edge, spacing]).toEqual([6, 4]);
		expect(thickness).toBeCloseTo(5.91, 12);
	});
	it('the report wins; between jambs an edge distance to either face', () => {
		const given: Given = {
			...later,
			mountingLeft: 'betweenJambs',
			'anchorLeft.leastEdge': [2.5, 'in'],
			'anchorLeft.leastSpacing': [3, 'in']
		};
		expect(needed(given)).toEqual([2.5, 3, 5]);
	});
});

describe('limits of the formulas, by hand', () => {
	it('edge of lb = 3.94 in: π·lb²·(edge + lb)/(2·lb)', () => {
		const area = (edge: number): number =>
			figureOf('masonryAreaGuideLeft', { ...bolt, edgeGuideLeft: [edge, 'in'] });
		const whole = Math.PI * 3.94 ** 2;
		expect(area(1.97)).toBeCloseTo(0.75 * whole, 9);
		expect(area(3.93)).toBeCloseTo((7.87 / 7.88) * whole, 9);
		expect(area(3.94)).toBeCloseTo(whole, 9);
		expect(area(4)).toBeCloseTo(whole, 9);
	});
	it('spacing of 2·lb = 7.88 in along and across', () => {
		const area = (along: number, across: number): number =>
			figureOf('masonryAreaGuideLeft', {
				...bolt,
				alongGuideLeft: [along, 'in'],
				columnsGuideLeft: 2,
				acrossGuideLeft: [across, 'in']
			});
		const whole = Math.PI * 3.94 ** 2;
		expect(area(3.94, 7.88)).toBeCloseTo(whole / 2, 9);
		expect(area(7.88, 7.88)).toBeCloseTo(whole, 9);
		expect(area(8, 8)).toBeCloseTo(whole, 9);
		// across (3.94 + 3.94 + 3.94)/(2·7.88) = 0.75
		expect(area(7.88, 3.94)).toBeCloseTo(0.75 * whole, 9);
	});
	it('between jambs the other face cuts: wall 7 5/8 in, edge 3 in, hef 3.94 in', () => {
		// Far edge 4.625: whole; in a wall of 6 in it is 3: (3 + 3)/7.88.
		const at = (thickness: number): number =>
			figureOf('masonryAreaGuideLeft', {
				...later,
				mountingLeft: 'betweenJambs',
				edgeGuideLeft: [3, 'in'],
				wallThicknessLeft: [thickness, 'in']
			});
		const whole = Math.PI * 3.94 ** 2;
		expect(at(7.625)).toBeCloseTo((6.94 / 7.88) * whole, 9);
		expect(at(6)).toBeCloseTo((6 / 7.88) * whole, 9);
		// ANm with an edge of 2 in, so 4 in the other way: (2 + 4)·3·3.94 = 70.92
		expect(
			figureOf('masonryAnchorAreaGuideLeft', {
				...later,
				mountingLeft: 'betweenJambs',
				edgeGuideLeft: [2, 'in'],
				wallThicknessLeft: [6, 'in']
			})
		).toBeCloseTo(70.92, 9);
	});
	it('post-installed: edge of 1.5·hef = 6 in and spacing of 3·hef = 12 in', () => {
		const at = (edge: number, along: number): number[] => {
			const given: Given = {
				...later,
				'anchorLeft.embedment': [4, 'in'],
				edgeGuideLeft: [edge, 'in'],
				alongGuideLeft: [along, 'in']
			};
			return [figureOf('masonryAnchorAreaGuideLeft', given), figureOf('masonryEdgeFactorGuideLeft', given)];
		};
		expect(at(6, 12)).toEqual([expect.closeTo(144, 9), 1]);
		expect(at(7, 13)).toEqual([expect.closeTo(144, 9), 1]);
		expect(at(5.9, 11.9)).toEqual([expect.closeTo(11.9 * 11.9, 9), expect.closeTo(0.995, 9)]);
	});
	it('shear: lbe 4 in, half circle 25.1327 in²; spacing of 8 in, thickness of 4 in', () => {
		const area = (along: number, thickness: number, mounting = 'faceOfWall'): number =>
			figureOf('masonryShearAreaGuideLeft', {
				...bolt,
				mountingLeft: mounting,
				edgeGuideLeft: [4, 'in'],
				alongGuideLeft: [along, 'in'],
				wallThicknessLeft: [thickness, 'in']
			});
		expect(area(8, 4)).toBeCloseTo(25.1327, 4);
		expect(area(9, 5)).toBeCloseTo(25.1327, 4);
		expect(area(6, 4)).toBeCloseTo(0.75 * 25.1327, 4);
		expect(area(8, 3)).toBeCloseTo(0.75 * 25.1327, 4);
		expect(area(8, 3, 'betweenJambs')).toBeCloseTo(25.1327, 4);
	});
	it('shear along the edge counts twice; columns nearer than the edge share one breakout', () => {
		const breakout = (more: Given): number =>
			figureOf('masonryShearBreakoutGuideLeft', { ...bolt, edgeGuideLeft: [6, 'in'], ...more });
		// 4·π·36/2·√2000 = 10115.7
		expect(breakout({})).toBeCloseTo(10115.7, 1);
		expect(breakout({ towardsEdgeGuideLeft: 0 }) / breakout({})).toBeCloseTo(2, 12);
		const two = (across: number): number =>
			breakout({ columnsGuideLeft: 2, acrossGuideLeft: [across, 'in'] }) / breakout({});
		expect(two(5.9)).toBeCloseTo(0.5, 12);
		expect(two(6)).toBeCloseTo(1, 12);
	});
});

describe('shares of width against the true area, counted on a grid', () => {
	/** Area inside, of a rectangle from `left` to `right` and `half` up and down, by counting cells. */
	const counted = (
		left: number,
		right: number,
		half: number,
		inside: (x: number, y: number) => boolean
	): number => {
		const steps = 400;
		const [dx, dy] = [(right - left) / steps, (2 * half) / steps];
		let cells = 0;
		for (let i = 0; i < steps; i++)
			for (let j = 0; j < steps; j++) if (inside(left + (i + 0.5) * dx, -half + (j + 0.5) * dy)) cells++;
		return cells * dx * dy;
	};
	const depth = 3;
	const whole = { ...bolt, 'anchorLeft.embedment': [depth, 'in'] } satisfies Given;

	it.each([
		// edge, columns, across, along in
		[0.4, 1, 0, 100],
		[1.5, 1, 0, 4],
		[2.9, 1, 0, 1],
		[10, 1, 0, 2],
		[1.5, 2, 3, 5],
		[2, 3, 1, 3],
		[5, 2, 5.5, 100]
	])(
		'tension, edge %d in, %d columns %d in apart, %d in along: never more than is there',
		(edge, columns, across, along) => {
			const half = Math.min(depth, along / 2);
			const centres = Array.from({ length: columns }, (_, i) => i * across);
			const there = counted(-Math.min(edge, depth), across * (columns - 1) + depth, half, (x, y) =>
				centres.some((centre) => (x - centre) ** 2 + y ** 2 <= depth ** 2)
			);
			const taken = figureOf('masonryAreaGuideLeft', {
				...whole,
				edgeGuideLeft: [edge, 'in'],
				columnsGuideLeft: columns,
				acrossGuideLeft: [across, 'in'],
				alongGuideLeft: [along, 'in']
			});
			expect(taken * columns).toBeLessThanOrEqual(there * 1.002);
			expect(taken * columns).toBeGreaterThan(there * 0.7);
		}
	);
	it.each([
		// edge, along, thickness in
		[4, 100, 100],
		[4, 5, 100],
		[4, 100, 2],
		[4, 3, 1],
		[6, 9, 5]
	])('shear, edge %d in, %d in along, wall %d in: never more than is there', (edge, along, thickness) => {
		const half = Math.min(edge, along / 2);
		const there = counted(0, Math.min(edge, thickness), half, (x, y) => x ** 2 + y ** 2 <= edge ** 2);
		const taken = figureOf('masonryShearAreaGuideLeft', {
			...bolt,
			edgeGuideLeft: [edge, 'in'],
			alongGuideLeft: [along, 'in'],
			wallThicknessLeft: [thickness, 'in']
		});
		expect(taken).toBeLessThanOrEqual(there * 1.002);
		expect(taken).toBeGreaterThan(there * 0.6);
	});
});

describe('a guide on grouted block, worked by hand (invented anchor)', () => {
	// Post-installed, ductile: da 3/8 in, hef 2.25 in, Ase 0.0775 in², futa 75 ksi, fya 60 ksi, reported pull-out 1500 lb.
	// f′m 1500 psi, wall 7.625 in, TMS 402-16. One line 2 in off the edge, anchors 12 in apart. On one anchor 400 lb of
	// tension and 150 lb of shear along the edge, at strength level.
	const line: Given = {
		...later,
		wallStrengthLeft: [1500, 'psi'],
		wallThicknessLeft: [7.625, 'in'],
		'anchorLeft.diameter': [0.375, 'in'],
		'anchorLeft.embedment': [2.25, 'in'],
		'anchorLeft.stressArea': [0.0775, 'in2'],
		'anchorLeft.tensileStrength': [75000, 'psi'],
		'anchorLeft.yieldStrength': [60000, 'psi'],
		'anchorLeft.pullOut': [1500, 'lb'],
		edgeGuideLeft: [2, 'in'],
		alongGuideLeft: [12, 'in'],
		towardsEdgeGuideLeft: 0,
		factoredTensionGuideLeft: [400, 'lb'],
		factoredShearGuideLeft: [150, 'lb']
	};
	it('tension', () => {
		// Apt = π·2.25² = 15.9043; across (2 + 2.25)/4.5 = 0.94444, along 12 > 4.5: 15.0207. √1500 = 38.72983
		expect(figureOf('masonryAreaGuideLeft', line)).toBeCloseTo(15.0207, 4);
		// Banb = 4·15.0207·38.72983 = 2327.0; φ 0.5: 1163.5
		expect(figureOf('masonryBreakoutGuideLeft', line)).toBeCloseTo(2327, 1);
		// Nb,m = 17·38.72983·2.25^1.5 = 17·38.72983·3.375 = 2222.12
		expect(figureOf('masonryBasicBreakoutLeft', line)).toBeCloseTo(2222.12, 2);
		// ANm = (2 + 3.375)·6.75 = 36.28125 of 9·5.0625 = 45.5625; ψed = 0.7 + 0.3·2/3.375 = 0.877778
		// Nmb = 0.796296·0.877778·2222.12 = 1553.20; φ 0.5: 776.60
		expect(figureOf('masonryAnchorBreakoutGuideLeft', line)).toBeCloseTo(1553.2, 2);
		// Steel 0.75·0.0775·75000 = 4359.4, pull-out 0.65·1500 = 975. Least 776.60; 400/776.60 = 0.51507
		expect(figureOf('masonryTensionStrengthGuideLeft', line)).toBeCloseTo(776.6, 2);
		expect(figureOf('masonryTensionUseGuideLeft', line)).toBeCloseTo(0.51507, 5);
	});
	it('shear', () => {
		// Apv = π·2²/2 = 6.28319. Bvnb = 4·6.28319·38.72983 = 973.387, twice along the edge: 1946.77; φ 0.5: 973.39
		expect(figureOf('masonryShearBreakoutGuideLeft', line)).toBeCloseTo(1946.77, 2);
		// Bvnc = 1750·(1500·0.0775)^0.25 = 1750·116.25^0.25 = 1750·3.283585 = 5746.27; φ 0.5: 2873.1
		expect(figureOf('masonryCrushingLeft', line)).toBeCloseTo(5746.27, 2);
		// Bvnpry = 8·15.0207·38.72983 = 4654.0; φ 0.5: 2327.0. Steel 0.65·0.6·5812.5 = 2266.9
		expect(figureOf('masonryPryOutGuideLeft', line)).toBeCloseTo(4654, 1);
		// Least 973.39; 150/973.39 = 0.15410
		expect(figureOf('masonryShearStrengthGuideLeft', line)).toBeCloseTo(973.39, 2);
		expect(figureOf('masonryShearUseGuideLeft', line)).toBeCloseTo(0.1541, 5);
	});
	it('together: 0.51507^(5/3) + 0.15410^(5/3) = 0.33096 + 0.04429 = 0.37525, less than tension alone', () => {
		expect(figureOf('masonryCombinedGuideLeft', line)).toBeCloseTo(0.37525, 5);
		expect(figureOf('masonryUseGuideLeft', line)).toBeCloseTo(0.51507, 5);
		expect(reckon('masonryModeGuideLeft', line)).toBe('masonryBreakout');
	});
	it('before 2016: 0.51507 + 0.15410 = 0.66917, together', () => {
		const given: Given = { ...line, 'shop.masonryCrushing': 1050, 'shop.masonryInteraction': 1 };
		expect(figureOf('masonryUseGuideLeft', given)).toBeCloseTo(0.66917, 5);
		expect(reckon('masonryModeGuideLeft', given)).toBe('masonryCombined');
	});
	it('what governs follows what is weak', () => {
		const mode = (more: Given): number | string | null =>
			reckon('masonryModeGuideLeft', { ...line, ...more });
		const pull: Given = { factoredShearGuideLeft: [0, 'lb'] };
		const push: Given = { factoredTensionGuideLeft: [0, 'lb'] };
		const far: Given = { edgeGuideLeft: [20, 'in'] };
		// 0.65·1000 = 650 < 776.60
		expect(mode({ ...pull, 'anchorLeft.pullOut': [1000, 'lb'] })).toBe('masonryPullOut');
		// 0.75·0.01·75000 = 562.5 < 776.60
		expect(mode({ ...pull, 'anchorLeft.stressArea': [0.01, 'in2'] })).toBe('masonrySteelTension');
		expect(mode({ ...pull, 'anchorLeft.kind': 'castIn' })).toBe('masonryBreakout');
		expect(mode(push)).toBe('masonryShearBreakout');
		// Far off the edge: steel 2266.9; pry-out 0.5·8·15.9043·38.72983 = 2463.9; crushing 2873.1, 1723.9 before 2016
		expect(mode({ ...push, ...far })).toBe('masonrySteelShear');
		expect(mode({ ...push, ...far, 'shop.masonryCrushing': 1050 })).toBe('masonryCrushing');
		// Steel with futa 90 ksi: 0.65·0.6·0.0775·90000 = 2720.3
		expect(mode({ ...push, ...far, 'anchorLeft.tensileStrength': [90000, 'psi'] })).toBe('masonryPryOut');
	});
});

describe('what is not known stays not known', () => {
	const use = (given: Given): number | string | null => reckon('masonryUseGuideLeft', given);
	const mode = (given: Given): number | string | null => reckon('masonryModeGuideLeft', given);
	it('a post-installed anchor whose pull-out nobody has tested; a headed bolt needs no report', () => {
		expect(use(later)).toBe(0);
		expect(use({ ...later, 'anchorLeft.pullOut': [0, 'lb'] })).toBeNull();
		expect(mode({ ...later, 'anchorLeft.pullOut': [0, 'lb'] })).toBeNull();
		expect(use(bolt)).toBe(0);
	});
	it.each([
		['an anchor in another wall', { substrateLeft: 'hollowBlock' }],
		['an anchor in concrete', { substrateLeft: 'concrete' }],
		['a lag screw', { 'anchorLeft.kind': 'lagScrew' }],
		['no depth', { 'anchorLeft.embedment': [0, 'in'] }],
		['an anchor on the edge', { edgeGuideLeft: [0, 'in'] }],
		['an anchor beyond the edge', { edgeGuideLeft: [-1, 'in'] }],
		['anchors in one another', { alongGuideLeft: [0, 'in'] }],
		[
			'a wall thinner than its anchors',
			{ mountingLeft: 'betweenJambs', edgeGuideLeft: [6, 'in'], wallThicknessLeft: [6, 'in'] }
		]
	] satisfies [string, Given][])('%s', (_, more) => {
		expect(use({ ...later, ...more })).toBeNull();
		expect(mode({ ...later, ...more })).toBeNull();
	});
});
