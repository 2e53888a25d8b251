/**
 * The anchor cut along its axis against the quantities of the takeoff; the figures are those of the invented demo book,
 * added up by hand beside each case (inches).
 */
import { describe, expect, it } from 'vitest';
import { engineOf, openingA, openingB, openingC, typedRow, type Typed } from '../../../tests/opening-rows.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import { layOut } from './layout.ts';
import { stackOf } from './scene.ts';
import type { RectShape, Role, Scene, Side } from './shapes.ts';
import { stackNames, type Place } from './stack.ts';

const engine = engineOf();

function openingOf(typed: Typed): OpeningTakeoff {
	const [opening] = engine.takeoff([typedRow(typed)], 'imperial').openings;
	if (!opening) throw new Error('no opening');
	return opening;
}

const inches = (millimetres: number): number => millimetres / 25.4;

function stack(typed: Typed, side: Side, place: Place = 'guide'): Scene {
	const scene = stackOf(openingOf(typed), 'imperial', place, side);
	if (!scene) throw new Error('no anchor');
	return scene;
}

const rects = (scene: Scene, role: Role): RectShape[] =>
	scene.shapes.filter((shape): shape is RectShape => shape.kind === 'rect' && shape.role === role);

function only(scene: Scene, role: Role): { from: number; to: number; low: number; high: number } {
	const [found, ...others] = rects(scene, role);
	if (!found || others.length > 0) throw new Error(`${others.length + (found ? 1 : 0)} of ${role}, not 1`);
	return {
		from: inches(found.x),
		to: inches(found.x + found.width),
		low: inches(found.y),
		high: inches(found.y + found.height)
	};
}

const board: Typed = { ...openingB, finishBuildUp: `5/8"` };
const inWood: Typed = { ...openingA, leftSubstrate: 'wood' };

describe.each([
	// Wedge anchor: 2 in concrete, board 5/8, shims 1/4, plate 1/4 over a leg of 3/16, nut and tail 3/4: 3 7/8, so 5 in.
	['board on concrete', board, 'left', { inner: -2, finish: 0.625, stack: 1.125, needed: 3.875, length: 5 }],
	// 2 + 1/4 + 1/4 + 3/4 = 3 1/4: bought 3 3/4.
	['concrete', openingB, 'left', { inner: -2, finish: 0, stack: 0.5, needed: 3.25, length: 3.75 }],
	// Screw anchor with a head: 2 1/4 + 1/4 + 1/4 = 2 3/4, bought 3: a quarter deeper.
	['grouted block', openingA, 'left', { inner: -2.5, finish: 0, stack: 0.5, needed: 2.75, length: 3 }],
	// Self-drilling screw: steel 0.0747, tip 3/4, shims and plate 1/2: 1.3247, bought 2.
	['stud with backing', openingB, 'right', { inner: -1.5, finish: 0, stack: 0.5, needed: 1.3247, length: 2 }],
	// Through bolt: steel 1/4, shims and plate 1/2, nut and tail 1/2: 1 1/4, bought 1 1/2.
	['steel', openingC, 'right', { inner: -0.25, finish: 0, stack: 0.5, needed: 1.25, length: 1.5 }],
	// Lag screw: thread 2 and tip 7/32, shims and plate 1/2: 2 23/32, bought 3.
	['wood', inWood, 'left', { inner: -2.5, finish: 0, stack: 0.5, needed: 2.71875, length: 3 }]
] as const)('%s', (_, typed, side, { inner, finish, stack: onWall, needed, length }) => {
	const scene = stack(typed, side);
	const [shank] = rects(scene, 'shank');
	const tip = engine.book.fixings[0]?.anchors.find(
		({ substrate }) => substrate === openingOf(typed).get(`substrate${side === 'left' ? 'Left' : 'Right'}`)
	)?.tip;

	it('lays finish, shims and leg one on the other', () => {
		expect(rects(scene, 'finish').map(({ width }) => inches(width))).toEqual(
			finish > 0 ? [expect.closeTo(finish, 9)] : []
		);
		expect(only(scene, 'shim').from).toBeCloseTo(finish, 9);
		expect(only(scene, 'shim').to).toBeCloseTo(finish + 0.25, 9);
		expect(only(scene, 'leg').from).toBeCloseTo(finish + 0.25, 9);
		expect(only(scene, 'leg').to).toBeCloseTo(onWall, 9);
	});

	it('draws the anchor as long as it is bought, from as deep as it goes', () => {
		const from = inches(shank?.x ?? NaN) - Number(tip);
		expect(from).toBeCloseTo(inner, 9);
		expect(inches((shank?.x ?? NaN) + (shank?.width ?? NaN))).toBeCloseTo(inner + length, 9);
	});

	it('dimensions what it draws, in the sizes of the quantities', () => {
		const opening = openingOf(typed);
		const sized = scene.shapes.flatMap((shape) => (shape.kind === 'dimension' ? [shape] : []));
		for (const { quantity, from, to } of sized) {
			const size = Math.max(Math.abs(to.x - from.x), Math.abs(to.y - from.y));
			expect(size * 1e6, quantity).toBeCloseTo(Number(opening.get(quantity)), 0);
		}
		const names = stackNames('guide', side);
		const sizeOf = (id: string): number => {
			const shape = sized.find(({ quantity }) => quantity === id);
			return shape ? inches(shape.to.x - shape.from.x) : NaN;
		};
		expect(sizeOf(names.needed)).toBeCloseTo(needed, 9);
		expect(sizeOf(names.length)).toBeCloseTo(length, 9);
	});
});

describe('edge of the wall', () => {
	it.each([
		// Setback 1/2 and gauge 3; with the bracket's offset 3 and hole gauge 2 1/2: 6.
		['guide', 3.5],
		['bracket', 6]
	] as const)('%s: the anchor stands as far from it as reckoned', (place, edge) => {
		const scene = stack(openingB, 'left', place);
		const shank = only(scene, 'shank');
		expect((shank.low + shank.high) / 2).toBeCloseTo(edge, 9);
		expect(shank.high - shank.low).toBeCloseTo(0.375, 9);
		expect(only(scene, 'wall').low).toBe(0);
	});

	it('says in words that it is too close', () => {
		const near = stack(
			{ ...openingB, mounting: 'betweenJambs', guide: 'store-between', leftWallThickness: `4"` },
			'left'
		);
		const edge = near.shapes.flatMap((shape) =>
			shape.kind === 'dimension' && shape.edge === 'left' ? [shape] : []
		);
		// Gauge 2 1/2 in a wall of 4: 1 1/2 to the far face, and the report asks for 2 1/4.
		expect(edge.map(({ texts, short }) => [texts[0], short])).toEqual([[`edge 1 1/2", needs 2 1/4"`, true]]);
	});
});

it('draws nothing where the fixing has no anchor', () => {
	const opening = openingOf(openingB);
	const without = {
		mark: 'B',
		openingId: null,
		get: (id: string) => (id.startsWith('anchor') ? null : opening.get(id))
	};
	expect(stackOf(without, 'imperial', 'guide', 'left')).toBeNull();
});

it('keeps every size, whatever the sheet', () => {
	for (const box of [
		{ width: 300, height: 260 },
		{ width: 460, height: 320 }
	])
		for (const scene of [
			stack(board, 'left'),
			stack(openingB, 'right'),
			stack(openingC, 'left', 'bracket')
		]) {
			const layout = layOut(scene, { x: 0, y: 0, ...box });
			const sized = scene.shapes.filter(({ kind }) => kind === 'dimension');
			expect(layout.dimensions).toHaveLength(sized.length);
		}
});
