/** The drawings with the takeoff itself: the names they read exist, and the samples of the other tests are true. */
import { describe, expect, it } from 'vitest';
import { engineOf, openingA, openingB, openingC, typedRow, type Typed } from '../../../tests/opening-rows.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import { names } from './readings.ts';
import { reading, samples } from './sample-readings.ts';
import { elevationOf, sectionOf } from './scene.ts';
import type { Shape } from './shapes.ts';

const engine = engineOf();

function openingOf(typed: Typed): OpeningTakeoff {
	const [opening] = engine.takeoff([typedRow(typed)], 'imperial').openings;
	if (!opening) throw new Error('no opening');
	return opening;
}

/** What the samples have beyond the worked openings: rooms, finishes. */
const ownOfSamples = new Set<string>([
	names.headroom,
	names.sideRoomLeft,
	names.sideRoomRight,
	names.frontRoom,
	names.finishBuildUp,
	names.floorBuildUp
]);
const compared = Object.values(names).filter((id) => !ownOfSamples.has(id));

/** B with its right side between the jambs, all of it drawn from the far side. */
const mixed: Typed = {
	...openingB,
	leftSubstrate: 'concrete',
	rightSubstrate: 'studWithBacking',
	mounting: 'betweenJambs',
	guide: 'store-between',
	rightMounting: 'faceOfWall',
	rightGuide: 'store-face',
	drawnFrom: 'farSide',
	driveSide: 'left',
	operation: 'chain'
};

describe.each([
	['a', { ...openingA, driveSide: 'right' }],
	['b', openingB],
	['c', { ...openingC, driveSide: 'right' }],
	['mixed', mixed]
] as const)('opening %s', (sample, typed) => {
	const opening = openingOf(typed);

	it.each(compared)('%s is a quantity of the takeoff, with the figure worked by hand', (id) => {
		const value = opening.get(id);
		const expected = reading(samples[sample])(id);
		// Lengths by hand: two decimals of an inch.
		if (typeof value === 'number' && typeof expected === 'number' && expected > 1e5)
			expect(value / 25.4e6).toBeCloseTo(expected / 25.4e6, 2);
		else expect(value).toBe(expected);
	});

	it.each([...ownOfSamples])('%s is a quantity of the takeoff', (id) => {
		expect(() => opening.get(id)).not.toThrow();
	});

	it('has a working for everything written on it', () => {
		const shapes: readonly Shape[] = [
			elevationOf(opening, 'imperial'),
			sectionOf(opening, 'imperial'),
			sectionOf(opening, 'imperial', { open: true, looking: 'left', part: 'head' })
		].flatMap((scene) => scene?.shapes ?? []);
		const asked = new Set(shapes.flatMap((shape) => ('quantity' in shape ? [shape.quantity] : [])));
		expect(asked.size).toBeGreaterThan(15);
		for (const id of asked) expect(engine.explain(opening, id, 'imperial').title, id).not.toBe('');
	});
});

it('draws what is typed when no barrel of the book passes', () => {
	const opening = openingOf({ ...openingC, openingWidth: `60'-0"` });
	expect(opening.computed).toBe(false);
	const scene = elevationOf(opening, 'imperial');
	expect(scene?.shapes.some(({ role }) => role === `dimension:${names.guideDistance}`)).toBe(true);
	expect(scene?.shapes.some(({ role }) => role === 'bracketLeft')).toBe(false);
	expect(JSON.stringify(scene)).not.toContain('null');
});

it('draws nothing while the size is not typed', () => {
	expect(elevationOf(openingOf({ mark: 'D' }), 'metric')).toBeNull();
	expect(sectionOf(openingOf({ mark: 'D' }), 'metric')).toBeNull();
});
