/** The closed form of the coil against the exact Archimedean length (calculus), and both against worked values. */
import { describe, expect, it } from 'vitest';
import { inUnit } from '../../src/lib/quantity/format.ts';
import { unit } from '../../src/lib/quantity/units.ts';
import { spiralLength } from '../../src/lib/takeoff/spiral.ts';
import { engineOf, openingA, openingB, openingC, typedRow } from '../opening-rows.ts';

const within = (value: number, expected: number, share: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};

describe('Archimedean spiral, arc length and mean-diameter form', () => {
	it.each([
		// D outer, d core, t, L mean diameter, L exact
		[200, 40, 0.1, 301592.895, 301592.9076],
		[18, 6.625, 0.75, 293.33, 293.3895],
		[24, 8.625, 1.0, 393.963, 394.0445],
		[14, 4.5, 0.875, 157.753, 157.8318]
	])('D %d d %d t %d', (outer, core, pitch, mean, exact) => {
		within(spiralLength(core, outer, pitch), exact, 1e-6);
		within((Math.PI * (outer ** 2 - core ** 2)) / (4 * pitch), mean, 1e-4);
	});
});

describe('the coil rule is the inverse of the mean-diameter form', () => {
	const program = engineOf().rules.program({
		rules: ['coilDiameter'],
		given: ['firstTurn', 'woundLength', 'curtain.wrap'],
		capacity: 1
	});
	it.each([
		// d, t, L → D
		[6.625, 0.75, 144, 13.4685],
		[8.625, 1.0, 240, 19.4928],
		[4.5, 0.875, 96, 11.2784]
	])('d %d t %d L %d', (core, pitch, length, outer) => {
		program.column('firstTurn')[0] = core * unit('in').scale;
		program.column('curtain.wrap')[0] = pitch * unit('in').scale;
		program.column('woundLength')[0] = length * unit('in').scale;
		program.run(1);
		within(inUnit(program.column('coilDiameter')[0] ?? Number.NaN, 'in'), outer, 0.0005);
	});
});

describe('for the worked openings the closed form is within 0.1 % of the exact length', () => {
	const engine = engineOf();
	it.each([openingA, openingB, openingC])('$mark', (typed) => {
		const [opening] = engine.takeoff([typedRow(typed)], 'imperial').openings;
		const closed = opening?.get('woundLength');
		const exact = opening?.get('exactWoundLength');
		if (typeof closed !== 'number' || typeof exact !== 'number') throw new Error('not computed');
		within(closed, exact, 0.001);
	});
});
