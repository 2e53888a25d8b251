/** The drawing of the shims against their figures. Readings are invented, inches. */
import { describe, expect, it } from 'vitest';
import { inches, plumb } from '../fieldwork/sample-measures.ts';
import { knotsOf } from '../fieldwork/jamb-line.ts';
import { shimsOf, type GuideShims, type StandingGuide } from '../fieldwork/shims.ts';
import { layOut, overlap } from './layout.ts';
import type { PathShape, RectShape, Role, Side, SymbolShape } from './shapes.ts';
import { exaggerationFor, rightBack, shimsScene } from './shims.ts';

/** 110 in long, anchors at 4, 55 and 106; the wall falls back from 0 at the sill to 1/2 at 110. */
function guide(side: Side): GuideShims {
	const standing: StandingGuide = {
		side,
		plane: side === 'left' ? 'outOfPlane' : 'inPlane',
		length: inches(110),
		anchors: [4, 55, 106].map(inches),
		anchor: null
	};
	const readings = plumb([0, 0, 0], [110, -0.5, -0.5]);
	const found = shimsOf(standing, knotsOf(readings, standing.plane), inches(1 / 16));
	if (!found) throw new Error('no shims');
	return found;
}

const both = { left: guide('left'), right: guide('right') };
const scene = shimsScene(both, { measures: 'imperial', mark: 'B.1' });
if (!scene) throw new Error('no drawing');

const rects = (role: Role): RectShape[] =>
	scene.shapes.filter((shape): shape is RectShape => shape.kind === 'rect' && shape.role === role);

/** 1/2 in = 12.7 mm; a seventh of 2794 mm is 399: 20 times (254) fits, 40 times (508) does not. */
const times = 20;
const height = 110 * 25.4;

describe('drawing', () => {
	it('enlarges the gaps as far as there is room', () => {
		expect(exaggerationFor(12.7, height)).toBe(times);
		expect(exaggerationFor(0, height)).toBe(100);
		expect(exaggerationFor(5000, height)).toBe(1);
		expect(scene.description).toContain(`gaps drawn 20 times as large`);
	});

	it('has the face of the wall where the readings put it', () => {
		const walls = scene.shapes.filter(
			(shape): shape is PathShape => shape.kind === 'path' && shape.role === 'wall'
		);
		const faces = walls.map(({ points }) => points.slice(0, 2));
		const right = rightBack(height);
		expect(faces[0]?.map(({ x }) => x)).toEqual([expect.closeTo(0, 9), expect.closeTo(-254, 9)]);
		expect(faces[1]?.map(({ x }) => x)).toEqual([expect.closeTo(right, 9), expect.closeTo(right + 254, 9)]);
		for (const face of faces) expect(face.map(({ y }) => y)).toEqual([0, height]);
	});

	it('has a shim at every anchor, as thick as the gap, at its true height', () => {
		// 0.5 · 4/110 = 0.01818, 0.5 · 55/110 = 0.25, 0.5 · 106/110 = 0.48182 in.
		const thick = [0.5 * (4 / 110), 0.25, 0.5 * (106 / 110)].map((gap) => gap * 25.4 * times);
		const [left, right] = [rects('shim').slice(0, 3), rects('shim').slice(3)];
		[left, right].forEach((shims) => {
			shims.forEach((shim, i) => {
				expect(shim.width).toBeCloseTo(thick[i] ?? Number.NaN, 4);
				expect(shim.y + shim.height / 2).toBeCloseTo(
					[4, 55, 106].map((one) => one * 25.4)[i] ?? Number.NaN,
					6
				);
			});
		});
		expect(left.map(({ x, width }) => x + width)).toEqual(
			[0, 0, 0].map((x) => expect.closeTo(x, 9) as number)
		);
		expect(right.map(({ x }) => x)).toEqual(Array(3).fill(expect.closeTo(rightBack(height), 9)));
	});

	it('has plumb guides, anchors pointing into the wall, and says each shim', () => {
		expect(rects('guideLeft')[0]).toMatchObject({ y: 0, height });
		expect(rects('guideRight')[0]?.x).toBeLessThan(rightBack(height));
		const anchors = scene.shapes.filter((shape): shape is SymbolShape => shape.kind === 'symbol');
		expect(anchors.map(({ points }) => points)).toEqual([
			...Array<Side>(3).fill('left'),
			...Array<Side>(3).fill('right')
		]);
		const notes = scene.shapes.flatMap((shape) => (shape.kind === 'note' ? [shape.texts[0]] : []));
		expect(notes.slice(0, 3)).toEqual([`1: 1/16" at 4"`, `2: 1/4" at 4'-7"`, `3: 1/2" at 8'-10"`]);
	});

	it('writes everything without one text on another', () => {
		for (const area of [
			{ x: 0, y: 0, width: 800, height: 600 },
			{ x: 0, y: 0, width: 360, height: 560 }
		]) {
			const { notes, dimensions } = layOut(scene, area);
			expect(notes).toHaveLength(6);
			const areas = [...notes, ...dimensions].map(({ text }) => text.area);
			areas.forEach((one, i) => {
				for (const other of areas.slice(i + 1)) expect(overlap(one, other)).toBe(false);
			});
		}
	});
});

it('draws the side that is known, and nothing where none is', () => {
	const left = shimsScene({ left: both.left, right: null }, { measures: 'metric', mark: 'B.1' });
	expect(left?.description).toContain('left guide');
	expect(left?.description).not.toContain('right guide');
	expect(shimsScene({ left: null, right: null }, { measures: 'metric', mark: 'B.1' })).toBeNull();
});
