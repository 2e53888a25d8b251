import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { engineOf, openingA, openingB, typedRow } from '../../../tests/opening-rows.ts';
import { materialList } from './parts.ts';
import { takeoffReport, takeoffReportSchema } from './report.ts';

const engine = engineOf();
const reportOf = (measures: 'imperial' | 'metric') =>
	takeoffReport(
		engine,
		engine.takeoff(
			[typedRow({ ...openingA, quantity: '3' }), typedRow({ ...openingB, openingWidth: `60'` })],
			measures
		)
	);

describe('the takeoff as JSON', () => {
	it('fits its schema, before and after it has been text', () => {
		const report = reportOf('imperial');
		expect(takeoffReportSchema.parse(JSON.parse(JSON.stringify(report)))).toEqual(report);
	});

	it('is the schema published in static/schema', () => {
		const published: unknown = JSON.parse(readFileSync('static/schema/takeoff.schema.json', 'utf8'));
		expect(published).toEqual(JSON.parse(JSON.stringify(z.toJSONSchema(takeoffReportSchema))));
	});

	it('quantities are for one opening, totals for all', () => {
		const { openings, totals } = reportOf('imperial');
		const [first] = openings;
		expect(first?.quantity).toBe(3);
		// 123 · 69 / 144 = 58.9375 ft²; three of them 176.8125
		expect(first?.quantities.curtainArea).toEqual({ value: 58.9375, unit: 'ft2' });
		expect(totals.quantities.curtainArea).toEqual({ value: 176.8125, unit: 'ft2' });
		expect(totals.notComputed).toEqual(['B']);
	});

	it('one unit for each dimension: in, ft2, lb, lb-ft, h, or mm, m2, kg, N·m', () => {
		const [imperial] = reportOf('imperial').openings;
		const [metric] = reportOf('metric').openings;
		const units = (opening: typeof imperial): Set<string> =>
			new Set(Object.values(opening?.quantities ?? {}).map(({ unit }) => unit));
		expect([...units(imperial)].filter((unit) => ['mm', 'm', 'ft', 'kg', 'min', 's'].includes(unit))).toEqual(
			[]
		);
		expect(
			[...units(metric)].filter((unit) => ['in', 'ft', 'lb', 'ft2', 'lb-ft', 'min'].includes(unit))
		).toEqual([]);
		// 120.5 in · 25.4; 124.161875 lb · 0.45359237
		expect(metric?.quantities.guideDistance).toEqual({ value: 3060.7, unit: 'mm' });
		expect(metric?.quantities.coilWeight?.value).toBeCloseTo(56.3188795, 6);
	});

	it('gives the anchor heights of each guide', () => {
		const [first] = reportOf('imperial').openings;
		// 50 in guide, 4 in from both ends, three spaces of 14
		expect(first?.quantities.anchorPositionsLeft).toEqual({ value: [4, 18, 32, 46], unit: 'in' });
	});

	it('every part has an id of its own, and three openings have the same parts each', () => {
		const parts = reportOf('imperial').openings.flatMap((opening) => opening.parts);
		expect(new Set(parts.map(({ partId }) => partId)).size).toBe(parts.length);
		const of = (id: string): string[] =>
			parts.filter(({ openingId }) => openingId === id).map(({ interchangeKey }) => interchangeKey);
		expect(of('A.2')).toEqual(of('A.1'));
		const guide = parts.find(
			({ openingId, kind, side }) => openingId === 'A.1' && kind === 'guide' && side === 'left'
		);
		expect(guide).toMatchObject({
			item: 'counter-face',
			length: { value: 50, unit: 'in' },
			hand: 'left',
			quantity: '1'
		});
	});

	it('the material list goes mark by mark, openings by number, those with rows of their own among them', () => {
		const rows = [
			{ ...openingA, quantity: '11' },
			openingB,
			{ mark: 'A', openingNumber: '2', rightSubstrate: 'wood' }
		];
		const job = engine.takeoff(
			rows.map((row) => typedRow(row)),
			'imperial'
		);
		const openings = [...new Set(materialList(engine, job).map(({ openingId }) => openingId))];
		expect(openings).toEqual([...Array.from({ length: 11 }, (_, i) => `A.${String(i + 1)}`), 'B.1']);
	});

	it('no figure anywhere is NaN or infinite', () => {
		const text = JSON.stringify(reportOf('imperial'), (_, value: unknown) =>
			typeof value === 'number' && !Number.isFinite(value) ? 'NOT A NUMBER' : value
		);
		expect(text).not.toContain('NOT A NUMBER');
	});
});
