/** The plots over the travel against the quantities that the rules reckon in closed form. */
import { describe, expect, it } from 'vitest';
import {
	engineOf,
	openingA,
	openingB,
	openingC,
	typedRow,
	type Typed
} from '../../../../tests/opening-rows.ts';
import { inUnit } from '../../quantity/format.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import { layOutPlot } from './plot-layout.ts';
import { travelPlots, type Plot } from './travel.ts';

const engine = engineOf();

function openingOf(typed: Typed, measures: Measures = 'imperial'): OpeningTakeoff {
	const [opening] = engine.takeoff([typedRow(typed)], measures).openings;
	if (!opening) throw new Error('no opening');
	return opening;
}

const plotsOf = (opening: OpeningTakeoff, measures: Measures = 'imperial'): readonly Plot[] =>
	travelPlots(engine, measures, (id) => opening.get(id));

const line = (plot: Plot | undefined, name: string): readonly number[] => {
	const found = plot?.series.find((series) => series.name === name);
	if (!found) throw new Error(`no line ${name}`);
	return found.values;
};

const figureIn = (opening: OpeningTakeoff, id: string, unit: string): number =>
	inUnit(Number(opening.get(id)), unit);

/** What one pixel of the picture stands for. */
function pixel(plot: Plot): number {
	const { y } = layOutPlot(plot, { width: 420, height: 236 }, 12);
	return 1 / (y(0) - y(1));
}

describe.each([
	['A, peak at the sill', openingA],
	['B, peak on the way', openingB],
	['C', openingC]
] as const)('tube motor, %s', (_, typed) => {
	const opening = openingOf(typed);
	const [plot, ...others] = plotsOf(opening);
	const curtain = line(plot, 'Curtain');

	it('is one plot', () => {
		expect(others).toEqual([]);
	});

	it('begins at the torque closed and ends at the torque open', () => {
		expect(curtain[0]).toBeCloseTo(figureIn(opening, 'closedTorque', 'lb-ft'), 9);
		expect(curtain.at(-1)).toBeCloseTo(figureIn(opening, 'openTorque', 'lb-ft'), 9);
		expect(plot?.across.values[0]).toBe(0);
		expect(plot?.across.values.at(-1)).toBeCloseTo(figureIn(opening, 'openingHeight', 'ft'), 9);
	});

	it('is highest where the peak is marked, within a pixel, and nowhere higher', () => {
		if (!plot) throw new Error('no plot');
		const peak = figureIn(opening, 'peakTorque', 'lb-ft');
		const highest = Math.max(...curtain);
		expect(highest).toBeLessThanOrEqual(peak + 1e-9);
		expect(peak - highest).toBeLessThan(pixel(plot));
		const at = plot.across.values[curtain.indexOf(highest)] ?? NaN;
		const step = plot.across.values[1] ?? NaN;
		expect(Math.abs(at - figureIn(opening, 'peakTorqueAt', 'ft'))).toBeLessThanOrEqual(step);
		expect(plot.peaks.map(({ at: s, value }) => [s, value])).toEqual([
			[expect.closeTo(figureIn(opening, 'peakTorqueAt', 'ft'), 9), expect.closeTo(peak, 9)]
		]);
	});

	it('needs at most the torque needed, under what the drive gives', () => {
		if (!plot) throw new Error('no plot');
		const needed = line(plot, 'Needed, with friction and service factor');
		const most = figureIn(opening, 'requiredTorque', 'lb-ft');
		expect(Math.max(...needed)).toBeLessThanOrEqual(most + 1e-9);
		expect(most - Math.max(...needed)).toBeLessThan(pixel(plot));
		expect(plot.levels.map(({ value }) => value)).toEqual([
			expect.closeTo(figureIn(opening, 'driveTorque', 'lb-ft'), 9)
		]);
	});
});

describe.each([
	['pushed up', { ...openingA, operation: 'pushUp' }],
	['chain', { ...openingA, operation: 'chain' }],
	['crank, peak on the way', { ...openingB, operation: 'crank' }]
] as const)('by hand, %s', (_, typed) => {
	const opening = openingOf(typed);
	const [torque, force] = plotsOf(opening);

	it('has springs that meet the curtain closed and open', () => {
		const springs = line(torque, 'Springs');
		expect(springs[0]).toBeCloseTo(figureIn(opening, 'closedTorque', 'lb-ft'), 6);
		expect(springs.at(-1)).toBeCloseTo(figureIn(opening, 'openTorque', 'lb-ft'), 6);
		expect(line(torque, 'Imbalance')[0]).toBeCloseTo(0, 6);
	});

	it('marks the largest imbalance and the largest hand force, within a pixel', () => {
		for (const [plot, name, id, unit] of [
			[torque, 'Imbalance', 'worstImbalance', 'lb-ft'],
			[force, 'Hand force, going up', 'handForce', 'lb']
		] as const) {
			if (!plot) throw new Error('no plot');
			const highest = Math.max(...line(plot, name));
			const marked = figureIn(opening, id, unit);
			expect(plot.peaks.map(({ value }) => value)).toEqual([expect.closeTo(marked, 9)]);
			expect(highest).toBeLessThanOrEqual(marked + 1e-9);
			expect(marked - highest).toBeLessThan(pixel(plot));
		}
	});

	it('shows the limit of the shop book, 30 lb in the demo book', () => {
		expect(force?.levels.map(({ name, value }) => [name, value])).toEqual([['Limit', expect.closeTo(30, 9)]]);
		expect(force?.description).toContain('30.0 lb');
	});
});

it('speaks the units of a metric job', () => {
	const opening = openingOf(openingB, 'metric');
	const [plot] = plotsOf(opening, 'metric');
	expect(plot?.up.unit).toBe('N·m');
	// 9 ft is 2.7432 m; 1 lb-ft is 1.3558179 N·m.
	expect(plot?.across.values.at(-1)).toBeCloseTo(2.7432, 9);
	expect(line(plot, 'Curtain')[0]).toBeCloseTo(figureIn(opening, 'closedTorque', 'lb-ft') * 1.3558179, 4);
});

it('leaves the springs out where none fits', () => {
	const opening = openingOf({ ...openingA, operation: 'pushUp' });
	const read = (id: string): number | string | null =>
		['springSet', 'handForce', 'handForceAt'].includes(id) ? null : opening.get(id);
	const plots = travelPlots(engine, 'imperial', read);
	expect(plots.map(({ series }) => series.map(({ name }) => name))).toEqual([['Curtain']]);
	expect(plots[0]?.description).toContain('no springs');
});

it('plots nothing while nothing is worked out', () => {
	expect(plotsOf(openingOf({ mark: 'D' }))).toEqual([]);
	expect(plotsOf(openingOf({ ...openingC, openingWidth: `60'-0"` }))).toEqual([]);
});
