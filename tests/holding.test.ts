/**
 * What pulls at guides and brackets, worked by hand for openings of the demo book (invented figures; the arithmetic
 * stands beside each figure).
 */
import { describe, expect, it } from 'vitest';
import { inUnit } from '../src/lib/quantity/format.ts';
import { demoTechnicalBook as book } from '../src/lib/shopbook/demo/demo-book.ts';
import type { Engine } from '../src/lib/takeoff/engine.ts';
import type { OpeningTakeoff } from '../src/lib/takeoff/result.ts';
import { engineOf, openingB, openingC, typedRow, type Typed } from './opening-rows.ts';

const engine = engineOf();

const take = (typed: Typed, one: Engine = engine): OpeningTakeoff => {
	const [opening] = one.takeoff([typedRow(typed)], 'imperial').openings;
	if (!opening?.computed) throw new Error('not computed');
	return opening;
};

const figure = (opening: OpeningTakeoff, id: string, unit: string): number => {
	const value = opening.get(id);
	if (typeof value !== 'number') throw new Error(`${id} is ${String(value)}`);
	return inUnit(value, unit);
};

describe('brackets on the face of the wall', () => {
	const b = take(openingB);

	it('half of everything, and the drive on its side alone', () => {
		// Pipe 93.2, curtain and bar 362.3 + 39.4, brackets 44, hood (2.5·16 + 2)·199/144 ft² · 1.156 = 67.1; drive 33.
		// (93.2 + 401.7 + 44 + 67.1)/2 = 303.0; left 303.0 + 33 = 336.0
		expect(figure(b, 'deadLoadRight', 'lb')).toBeCloseTo(303, 0);
		expect(figure(b, 'deadLoadLeft', 'lb')).toBeCloseTo(336, 0);
	});

	it('dead load at its arm; a curtain leaving at the wall takes torque off it', () => {
		// 336.0 · 8 = 2688 lb-in = 224 lb-ft. Stall 247.5 lb-ft: 247.5 − 0.6 · 224 = 113.1, less than 224.
		expect(figure(b, 'armMomentLeft', 'lb-ft')).toBeCloseTo(224, 0);
		expect(figure(b, 'torqueLeft', 'lb-ft')).toBe(247.5);
		expect(figure(b, 'torqueRight', 'lb-ft')).toBe(0);
		expect(figure(b, 'bracketMomentLeft', 'lb-ft')).toBeCloseTo(224, 0);
		// Lever 16 − 1.25 = 14.75; two anchors pull: 2688/29.5 = 91.1. Four shear: 336/4 = 84.0.
		expect(figure(b, 'tensionBracketLeft', 'lb')).toBeCloseTo(91.1, 0);
		expect(figure(b, 'shearBracketLeft', 'lb')).toBeCloseTo(84, 0);
		// Strength level: the larger of 1.4 · 2688 = 3763 and 1.6 · 2970 − 0.9 · 2688 = 2333; 3763/29.5 = 127.6.
		expect(figure(b, 'factoredTensionBracketLeft', 'lb')).toBeCloseTo(127.6, 0);
		expect(figure(b, 'factoredShearBracketLeft', 'lb')).toBeCloseTo(1.4 * 84, 0);
	});

	it('one leaving at the front adds it, stall included', () => {
		const front = engineOf({
			...book,
			guides: book.guides.map((row) => ({ ...row, curtainLeaves: 'front' as const }))
		});
		const opening = take(openingB, front);
		// 2688 + 2970 = 5658; 5658/29.5 = 191.8. Strength: 1.2 · 2688 + 1.6 · 2970 = 7978; 7978/29.5 = 270.4.
		expect(figure(opening, 'tensionBracketLeft', 'lb')).toBeCloseTo(191.8, 0);
		expect(figure(opening, 'factoredTensionBracketLeft', 'lb')).toBeCloseTo(270.4, 0);
		// The other bracket holds no torque: 303.0 · 8/29.5 = 82.2.
		expect(figure(opening, 'tensionBracketRight', 'lb')).toBeCloseTo(82.2, 0);
	});

	it('a stalled motor that turns the moment over', () => {
		const stalling = engineOf({
			...book,
			drives: book.drives.map((row) => ({ ...row, stallTorque: '600' }))
		});
		// 600 − 0.6 · 224 = 465.6 lb-ft = 5587 lb-in; 5587/29.5 = 189.4
		expect(figure(take(openingB, stalling), 'tensionBracketLeft', 'lb')).toBeCloseTo(189.4, 0);
	});
});

describe('brackets between jambs', () => {
	it('shear in the plane of the wall: dead load, and the torque about the middle of the pattern', () => {
		const opening = take({
			...openingB,
			mounting: 'betweenJambs',
			guide: 'store-between',
			leftSubstrate: 'structuralSteel',
			rightSubstrate: 'structuralSteel'
		});
		expect(figure(opening, 'tensionBracketLeft', 'lb')).toBe(0);
		expect(opening.get('bracket')).toBe('16');
		expect(opening.get('holePattern')).toBe('four');
		// Four holes 3 across and 16 − 2.5 = 13.5 along: polar sum 4 · (1.5² + 6.75²) = 191.25 in².
		expect(figure(opening, 'patternInertiaLeft', 'in2')).toBeCloseTo(191.25, 9);
		const load = figure(opening, 'deadLoadLeft', 'lb');
		const torque = figure(opening, 'torqueLeft', 'lb-in');
		const down = load / 4 + (torque * 1.5) / 191.25;
		const across = (torque * 6.75) / 191.25;
		expect(figure(opening, 'shearBracketLeft', 'lb')).toBeCloseTo(Math.hypot(down, across), 6);
		// Stall of the 1/2 hp motor: 247.5 lb-ft = 2970 lb-in: 2970 · 6.75/191.25 = 104.8 lb across.
		expect(across).toBeCloseTo(104.8, 1);
	});
});

describe('guides', () => {
	it('on the face of the wall: pressure with prying about the heel', () => {
		const b = take(openingB);
		// 5 psf · 196.75/12 ft / 2 = 40.99 lb/ft; six anchors over 110 − 8: 20.4 in = 1.7 ft; (2.25 + 1.75)/1.75 = 2.2857.
		expect(figure(b, 'guideLineLoad', 'lb/ft')).toBeCloseTo(40.99, 2);
		expect(figure(b, 'tensionGuideLeft', 'lb')).toBeCloseTo(159.3, 1);
		// 4 lb/ft · 110/12 ft / 6 = 6.1 lb of its own weight.
		expect(figure(b, 'shearGuideLeft', 'lb')).toBeCloseTo(6.11, 2);
		// Live load at strength level: 1.6.
		expect(figure(b, 'factoredTensionGuideLeft', 'lb')).toBeCloseTo(254.8, 0);
	});

	it('windlocks pull across it', () => {
		const opening = take({
			...openingB,
			exposure: 'exterior',
			designPressure: '5 psf',
			windlockPull: '100 lb/ft'
		});
		const feet = figure(opening, 'anchorPitchLeft', 'ft');
		const weight = (4 * 110) / 12 / figure(opening, 'anchorsPerGuideLeft', '1');
		expect(figure(opening, 'shearGuideLeft', 'lb')).toBeCloseTo(Math.hypot(weight, 100 * feet), 6);
	});

	it('between jambs the pressure is shear', () => {
		const opening = take({
			...openingB,
			operation: 'crank',
			mounting: 'betweenJambs',
			guide: 'store-between',
			rightSubstrate: 'concrete'
		});
		const feet = figure(opening, 'anchorPitchLeft', 'ft');
		const line = figure(opening, 'guideLineLoad', 'lb/ft');
		const weight = (4.4 * 110) / 12 / figure(opening, 'anchorsPerGuideLeft', '1');
		expect(figure(opening, 'tensionGuideLeft', 'lb')).toBe(0);
		expect(figure(opening, 'shearGuideLeft', 'lb')).toBeCloseTo(Math.hypot(weight, line * feet), 6);
	});

	it('outside the engineer’s figure counts, inside no less than the shop’s 5 psf', () => {
		const at = (exposure: string, designPressure: string): number =>
			figure(take({ ...openingB, exposure, designPressure, windlockPull: '1 lb/ft' }), 'loadPressure', 'psf');
		expect([at('interior', '3 psf'), at('interior', '8 psf'), at('exterior', '3 psf')]).toEqual([5, 8, 3]);
		expect(figure(take(openingB), 'loadPressure', 'psf')).toBe(5);
	});
});

describe('anchors', () => {
	it('edge distances come from setback, gauge and offset', () => {
		const b = take(openingB);
		// Guide 0.5 + 3; bracket 0.5 + 3 + 2.5.
		expect(figure(b, 'edgeGuideLeft', 'in')).toBe(3.5);
		expect(figure(b, 'edgeBracketLeft', 'in')).toBe(6);
		const between = take({
			...openingB,
			operation: 'crank',
			mounting: 'betweenJambs',
			guide: 'store-between',
			leftWallThickness: '4"'
		});
		// A 4 in wall: 4 − 2.5 to the far face is nearer than 2.5.
		expect(figure(between, 'edgeGuideLeft', 'in')).toBe(1.5);
	});

	it('length: embedment, leg or plate, shims, finish, nut; the next length that is bought', () => {
		// 2 + max(0.1875, 0.25) + 0.25 + 0 + 0.75 = 3.25, bought 3.75; with 5/8 board 3.875, bought 5.
		const b = take(openingB);
		expect(figure(b, 'anchorLengthNeededLeft', 'in')).toBe(3.25);
		expect(b.get('anchorStockLeft')).toBe('standard.concrete.3.75');
		const board = take({ ...openingB, finishBuildUp: '5/8"' });
		expect(figure(board, 'anchorLengthNeededLeft', 'in')).toBe(3.875);
		expect(board.get('anchorStockLeft')).toBe('standard.concrete.5');
		const tile = take({ ...openingB, finishBuildUp: '2"' });
		// 5.25 is longer than any that is bought.
		expect(tile.get('anchorStockLeft')).toBeNull();
		expect(tile.checks.map(({ code }) => code)).toContain('noAnchorLengthLeft');
	});

	it('exactly at, under and over a length that is bought', () => {
		const withFinish = (inches: string) =>
			take({ ...openingB, finishBuildUp: inches }).get('anchorStockLeft');
		// 3.25 + 0.5 = 3.75 exactly.
		expect(withFinish('1/2"')).toBe('standard.concrete.3.75');
		expect(withFinish('31/64"')).toBe('standard.concrete.3.75');
		expect(withFinish('33/64"')).toBe('standard.concrete.5');
	});

	it('tightening: a through bolt takes T = K·d·P, an anchor its report’s', () => {
		// 0.2 · 0.375 · (0.75 · 55 000 · 0.0775 = 3196.9) = 239.8 lb-in = 19.98 lb-ft
		expect(figure(take(openingC), 'tighteningTorqueLeft', 'lb-ft')).toBeCloseTo(19.98, 2);
		expect(figure(take(openingB), 'tighteningTorqueLeft', 'lb-ft')).toBe(25);
	});

	it('a guide that the load asks more of than the spacing', () => {
		const opening = take({ ...openingB, exposure: 'exterior', designPressure: '30 psf' });
		// 30 psf · 16.396/2 = 245.9 lb/ft; the stud side needs far more than ten screws.
		expect(figure(opening, 'anchorsBySpacingRight', '1')).toBe(10);
		expect(figure(opening, 'anchorsPerGuideRight', '1')).toBeGreaterThan(10);
		expect(figure(opening, 'useGuideRight', '1')).toBeLessThanOrEqual(1);
		expect(opening.get('anchorsRight')).toBe(Number(opening.get('anchorsPerGuideRight')) + 4);
	});
});

describe('what stops', () => {
	const codes = (typed: Typed): string[] =>
		take(typed).checks.flatMap(({ severity, code }) => (severity === 'stop' ? [code] : []));

	it('a wall thinner than the embedment needs, at the limit and under it', () => {
		// hef 2: the larger of 2/3 of the wall and the wall less 4 in: 3 in is enough.
		expect(codes({ ...openingB, leftWallThickness: '3"' })).not.toContain('wallTooThinLeft');
		expect(codes({ ...openingB, leftWallThickness: '2 63/64"' })).toContain('wallTooThinLeft');
	});

	it('a substrate without capacity', () => {
		expect(codes({ ...openingB, leftSubstrate: 'brick' })).toContain('anchorNeedsReportLeft');
		const untested = engineOf({
			...book,
			fixings: book.fixings.map((fixing) => ({
				...fixing,
				anchors: fixing.anchors.map((anchor) => ({ ...anchor, pullOut: '0' }))
			}))
		});
		const stop = take(openingB, untested).checks.find(({ code }) => code === 'capacityUnknownLeft');
		expect(stop?.severity).toBe('stop');
		expect(stop?.clears).toContain('report');
	});

	it('a hood support over the head, where only a report can say', () => {
		// B has a hood of two pieces, and so one support.
		expect(codes({ ...openingB, headSubstrate: 'hollowBlock' })).toContain('anchorNeedsReportHead');
		expect(codes({ ...openingB, headSubstrate: 'wood' })).not.toContain('anchorNeedsReportHead');
	});

	it('an edge too close', () => {
		const tight = engineOf({ ...book, guides: book.guides.map((row) => ({ ...row, anchorGauge: '1' })) });
		// 0.5 + 1 = 1.5 against 2.25 of the report.
		const stop = take(openingB, tight).checks.find(({ code }) => code === 'edgeTooCloseLeft');
		expect(stop?.text).toContain('1 1/2"');
		expect(stop?.text).toContain('2 1/4"');
	});

	it('a wall plate wider than the room beside', () => {
		// 3 + 2.5 + 3 + 1.25 = 9.75 from the mouth.
		expect(codes({ ...openingB, leftSideRoom: '9 3/4"' })).not.toContain('plateBeyondRoomLeft');
		expect(codes({ ...openingB, leftSideRoom: '9 11/16"' })).toContain('plateBeyondRoomLeft');
	});
});
