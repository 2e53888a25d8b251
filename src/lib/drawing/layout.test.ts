import { describe, expect, it } from 'vitest';
import { layOut, onPaper, overlap, splitArea, textWidth, type Area, type Layout } from './layout.ts';
import { sampleOpening, samples } from './sample-readings.ts';
import { elevationOf, sectionOf } from './scene.ts';
import type { Scene } from './shapes.ts';

const boxes = [
	{ width: 280, height: 260 },
	{ width: 420, height: 320 },
	{ width: 900, height: 700 },
	{ width: 360, height: 760 }
] as const;

interface Case {
	readonly name: string;
	readonly scene: Scene;
	readonly area: Area;
	readonly layout: Layout;
}

function casesIn(box: { readonly width: number; readonly height: number }): Case[] {
	const whole = { x: 0, y: 0, ...box };
	const [first, second] = splitArea(box);
	return Object.entries(samples).flatMap(([name, sample]) =>
		(['imperial', 'metric'] as const).flatMap((measures) =>
			[true, false].flatMap((open) => {
				const opening = sampleOpening(name, sample);
				const view = { open, looking: 'left' } as const;
				const drawn = [
					{ scene: elevationOf(opening, measures, open), area: whole },
					{ scene: sectionOf(opening, measures, { ...view, part: 'whole' }), area: first },
					{ scene: sectionOf(opening, measures, { ...view, part: 'head' }), area: second }
				];
				return drawn.flatMap(({ scene, area }) =>
					scene
						? [{ name: `${name} ${measures} ${scene.title}`, scene, area, layout: layOut(scene, area) }]
						: []
				);
			})
		)
	);
}

const textsOf = (layout: Layout): { text: string; area: Area }[] =>
	[...layout.dimensions, ...layout.notes].map(({ text }) => text).concat(layout.caption);

describe.each(boxes)('in $width × $height', (box) => {
	const cases = casesIn(box);

	it('no two texts meet', () => {
		for (const { name, layout } of cases) {
			const texts = textsOf(layout);
			texts.forEach((one, i) =>
				texts
					.slice(i + 1)
					.forEach((other) =>
						expect(overlap(one.area, other.area), `${name}: "${one.text}" and "${other.text}"`).toBe(false)
					)
			);
		}
	});

	it('everything lies within the box', () => {
		for (const { name, scene, area, layout } of cases) {
			const corners = [
				onPaper(layout, { x: scene.bounds.left, y: scene.bounds.top }),
				onPaper(layout, { x: scene.bounds.right, y: scene.bounds.bottom }),
				...textsOf(layout).flatMap(({ area: a }) => [
					{ x: a.x, y: a.y },
					{ x: a.x + a.width, y: a.y + a.height }
				]),
				...layout.dimensions.flatMap(({ from, to }) => [from, to])
			];
			for (const { x, y } of corners) {
				expect(x, name).toBeGreaterThanOrEqual(area.x);
				expect(x, name).toBeLessThanOrEqual(area.x + area.width);
				expect(y, name).toBeGreaterThanOrEqual(area.y);
				expect(y, name).toBeLessThanOrEqual(area.y + area.height);
			}
		}
	});

	it('one scale for everything: lines, dimension lines and scale bar', () => {
		for (const { name, scene, layout } of cases) {
			const left = onPaper(layout, { x: scene.bounds.left, y: 0 });
			const right = onPaper(layout, { x: scene.bounds.right, y: 0 });
			expect(right.x - left.x, name).toBeCloseTo((scene.bounds.right - scene.bounds.left) * layout.scale, 6);
			for (const { shape, from, to } of layout.dimensions) {
				const real = Math.max(Math.abs(shape.to.x - shape.from.x), Math.abs(shape.to.y - shape.from.y));
				const paper = Math.max(Math.abs(to.x - from.x), Math.abs(to.y - from.y));
				expect(paper, `${name} ${shape.role}`).toBeCloseTo(real * layout.scale, 6);
			}
			expect(layout.scaleBar.length, name).toBeCloseTo(layout.scaleBar.stands * layout.scale, 6);
		}
	});

	it('keeps what is short, and the sizes of the opening', () => {
		for (const { name, scene, layout } of cases) {
			const kept = new Set(layout.dimensions.map(({ shape }) => shape));
			for (const shape of scene.shapes)
				if (shape.kind === 'dimension' && shape.priority <= 1) expect(kept.has(shape), name).toBe(true);
		}
	});
});

describe('texts', () => {
	it('says more where there is room for more', () => {
		const scene = elevationOf(sampleOpening('a', samples.a), 'imperial');
		if (!scene) throw new Error('no elevation');
		const written = (width: number, height: number): number => {
			const layout = layOut(scene, { x: 0, y: 0, width, height });
			return layout.dimensions.length + layout.notes.length;
		};
		expect(written(900, 700)).toBe(
			scene.shapes.filter(({ kind }) => kind === 'dimension' || kind === 'note').length
		);
		expect(written(280, 260)).toBeLessThan(written(900, 700));
	});

	it('is never narrower than the letters of the semi-condensed face', () => {
		// Advances read from the face itself (weight 600, per 100 units): 5 52, 1 31, ' 15, - 36, space 20, / 42, " 31.
		expect(textWidth(`15'-5 1/5"`, 100)).toBeGreaterThanOrEqual(
			31 + 52 + 15 + 36 + 52 + 20 + 31 + 42 + 52 + 31
		);
	});
});
