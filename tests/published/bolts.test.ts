/** Tightening of through bolts, and the stress areas of the shop book, against published figures. */
import { describe, expect, it } from 'vitest';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { auditBook, coarseThreads, stressArea } from '../../src/lib/shopbook/published-tables.ts';
import { figureOf, reckon, type Given } from '../reckon.ts';

const within = (value: number, expected: number, share: number): void => {
	expect(Math.abs(value - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};

const bolt = (diameter: number, threads: number, proof: number, factor: number): Given => ({
	'anchorLeft.kind': 'throughBolt',
	'anchorLeft.diameter': [diameter, 'in'],
	'anchorLeft.stressArea': [stressArea(diameter, threads), 'in2'],
	'anchorLeft.proofStress': [proof, 'psi'],
	'anchorLeft.torque': [0, 'lb-ft'],
	'shop.nutFactor': factor
});

describe('tightening: SAE J429 proof stress with T = K·D·P, P = 0.75·Sp·At; printed torques are rounded', () => {
	it.each([
		// proof psi, D in, threads to the inch, At in², clamp lb, dry (K 0.2) and oiled (K 0.15) torque lb-ft
		[55_000, 0.375, 16, 0.0775, 3197, 20, 15],
		[55_000, 0.5, 13, 0.1419, 5853, 48.8, 36.6],
		[85_000, 0.5, 13, 0.1419, 9046, 75.4, 56.5],
		[85_000, 0.25, 20, 0.0318, 2027, 8.4, 6.3]
	])('proof %d psi, D %d in', (proof, diameter, threads, area, clamp, dry, oiled) => {
		within(stressArea(diameter, threads), area, 0.003);
		within(figureOf('boltClampLeft', bolt(diameter, threads, proof, 0.2)), clamp, 0.003);
		within(figureOf('tighteningTorqueLeft', bolt(diameter, threads, proof, 0.2)), dry, 0.015);
		within(figureOf('tighteningTorqueLeft', bolt(diameter, threads, proof, 0.15)), oiled, 0.02);
	});

	it.each([
		// ASTM A307 A has no proof load; public torque tables take 75 % of 36 ksi: D in, threads, clamp lb, dry torque lb-ft
		[0.375, 16, 2092, 13.1],
		[0.5, 13, 3831, 31.9]
	])('A307, D %d in', (diameter, threads, clamp, dry) => {
		const given = bolt(diameter, threads, 36_000, 0.2);
		within(figureOf('boltClampLeft', given), clamp, 0.005);
		within(figureOf('tighteningTorqueLeft', given), dry, 0.01);
	});

	it('lets a reported torque win, and knows none without a proof stress', () => {
		const given = bolt(0.375, 16, 55_000, 0.2);
		expect(figureOf('tighteningTorqueLeft', { ...given, 'anchorLeft.torque': [25, 'lb-ft'] })).toBeCloseTo(
			25,
			9
		);
		expect(reckon('tighteningTorqueLeft', { ...given, 'anchorLeft.proofStress': [0, 'psi'] })).toBeNull();
	});
});

describe('stress areas from memory: ASME B1.1, coarse series', () => {
	it.each([
		['1/4', 0.0318],
		['5/16', 0.0524],
		['3/8', 0.0775],
		['7/16', 0.1063],
		['1/2', 0.1419],
		['9/16', 0.182],
		['5/8', 0.226],
		['3/4', 0.334],
		['7/8', 0.462],
		['1', 0.606]
	])('%s in', (size, area) => {
		const thread = coarseThreads.find(({ key }) => key === size);
		within(stressArea(Number(thread?.diameter), Number(thread?.threadsPerInch)), area, 0.003);
	});

	it('refuses a thread that does not exist', () => {
		expect(() => stressArea(0.25, 0)).toThrow(RangeError);
		expect(() => stressArea(0.04, 20)).toThrow(RangeError);
	});
});

describe('the demo shop book held against the stress areas', () => {
	const bolts = (book: typeof demoTechnicalBook): readonly [string, boolean][] =>
		auditBook(book)
			.filter(({ table }) => table === 'fixings')
			.map(({ key, agrees }) => [key, agrees]);

	it('every through bolt agrees within 1 %', () => {
		expect(bolts(demoTechnicalBook)).toEqual([
			['standard, structuralSteel', true],
			['stainless, structuralSteel', true]
		]);
	});

	it('finds the area of another bolt', () => {
		const fixings = demoTechnicalBook.fixings.map((fixing) => ({
			...fixing,
			anchors: fixing.anchors.map((row) =>
				row.kind === 'throughBolt' && fixing.key === 'standard' ? { ...row, diameter: '0.5' } : row
			)
		}));
		expect(bolts({ ...demoTechnicalBook, fixings })).toEqual([
			['standard, structuralSteel', false],
			['stainless, structuralSteel', true]
		]);
	});
});
