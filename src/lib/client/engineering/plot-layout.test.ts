import { describe, expect, it } from 'vitest';
import { engineOf, openingA, openingB, typedRow, type Typed } from '../../../../tests/opening-rows.ts';
import { overlap, textWidth, type Area } from '../../drawing/layout.ts';
import { layOutPlot, roundStep } from './plot-layout.ts';
import { travelPlots, type Plot } from './travel.ts';

const engine = engineOf();

function plotsOf(typed: Typed): readonly Plot[] {
	const [opening] = engine.takeoff([typedRow(typed)], 'imperial').openings;
	if (!opening) throw new Error('no opening');
	return travelPlots(engine, 'imperial', (id) => opening.get(id));
}

const plots = [
	openingA,
	openingB,
	{ ...openingA, operation: 'pushUp' },
	{ ...openingB, operation: 'crank' }
].flatMap(plotsOf);
const sizes = [
	{ width: 300, height: 236 },
	{ width: 358, height: 236 },
	{ width: 900, height: 236 }
] as const;
const fontSize = 12;

describe('steps of an axis', () => {
	it.each([
		// 12 in six steps: 2. Nine in four: at least 2.25, so 5. 0.9 in four: at least 0.225, so 0.5. 1000 in ten: 100.
		[12, 6, 2],
		[9, 4, 5],
		[0.9, 4, 0.5],
		[1000, 10, 100]
	])('%d in no more than %d: %d', (range, most, step) => {
		expect(roundStep(range, most)).toBeCloseTo(step, 12);
	});
});

describe.each(sizes)('$width wide', (box) => {
	it('keeps lines, marks and texts in the box, and texts apart', () => {
		for (const plot of plots) {
			const layout = layOutPlot(plot, box, fontSize);
			const around = (x: number, y: number, text: string): Area => ({
				x,
				y: y - fontSize / 2,
				width: textWidth(text, fontSize),
				height: fontSize
			});
			const texts = [
				...layout.upTicks.map(({ at, text }) =>
					around(layout.left - 6 - textWidth(text, fontSize), at, text)
				),
				...layout.acrossTicks.map(({ at, text }) =>
					around(at - textWidth(text, fontSize) / 2, layout.bottom + fontSize + 3, text)
				)
			];
			texts.forEach((one, i) =>
				texts.slice(i + 1).forEach((other) => expect(overlap(one, other)).toBe(false))
			);
			for (const { x, y, text, peak } of layout.peaks) {
				expect(text.x).toBeGreaterThanOrEqual(0);
				expect(text.x + textWidth(peak.text, fontSize)).toBeLessThanOrEqual(box.width);
				expect(x).toBeGreaterThanOrEqual(layout.left);
				expect(y).toBeGreaterThanOrEqual(layout.top);
				expect(y).toBeLessThanOrEqual(layout.bottom);
			}
			for (const level of layout.levels) {
				expect(level).toBeGreaterThanOrEqual(layout.top);
				expect(level).toBeLessThanOrEqual(layout.bottom);
			}
		}
	});

	it('draws each line through its own points', () => {
		for (const plot of plots) {
			const layout = layOutPlot(plot, box, fontSize);
			plot.series.forEach(({ values }, i) => {
				const drawn = [...(layout.paths[i] ?? '').matchAll(/[ML](\S+) (\S+?)(?=L|$)/gu)];
				expect(drawn).toHaveLength(values.length);
				drawn.forEach(([, x, y], at) => {
					expect(Number(x)).toBeCloseTo(layout.x(plot.across.values[at] ?? NaN), 1);
					expect(Number(y)).toBeCloseTo(layout.y(values[at] ?? NaN), 1);
				});
			});
		}
	});

	it('has axes from zero, to a round figure that nothing stands over', () => {
		for (const plot of plots) {
			const { upTicks, acrossTicks } = layOutPlot(plot, box, fontSize);
			const most = Math.max(
				...plot.series.flatMap(({ values }) => values),
				...plot.levels.map(({ value }) => value)
			);
			expect(upTicks.at(-1)?.value).toBeGreaterThanOrEqual(most - 1e-9);
			expect(upTicks.some(({ value }) => value === 0)).toBe(true);
			expect(acrossTicks[0]?.value).toBe(0);
		}
	});
});
