/** Shims and the line of a jamb, interpolated by hand. Readings are invented, inches. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { knotsOf, offAt, type Knot } from './jamb-line.ts';
import { inch, inches, plumb } from './sample-measures.ts';
import { shimsOf, shimStep, type GuideShims, type StandingGuide } from './shims.ts';

const guide = (length: number, anchors: readonly number[]): StandingGuide => ({
	side: 'left',
	plane: 'outOfPlane',
	length: inches(length),
	anchors: anchors.map(inches),
	anchor: null
});

function shims(one: StandingGuide, knots: readonly Knot[], step = shimStep('imperial')): GuideShims {
	const found = shimsOf(one, knots, step);
	if (!found) throw new Error('no shims');
	return found;
}

describe('the line of a jamb', () => {
	const knots = knotsOf(plumb([54, 0, 0.5], [0, 0, 0.25], [108, 0, -0.25]), 'outOfPlane');

	it('is straight between readings', () => {
		// 0.25 + 0.25 · 27/54 = 0.375; 0.5 − 0.75 · 18/54 = 0.25.
		expect(offAt(knots, inches(27))).toBe(inches(0.375));
		expect(offAt(knots, inches(72))).toBe(inches(0.25));
	});

	it('is the reading at a reading, and the outermost reading beyond it', () => {
		expect([0, 54, 108, 140].map((height) => offAt(knots, inches(height)))).toEqual(
			[0.25, 0.5, -0.25, -0.25].map(inches)
		);
		expect(offAt(knotsOf(plumb([10, 0, 1], [20, 0, 2]), 'outOfPlane'), 0)).toBe(inches(1));
	});

	it('is not known without readings of that plane', () => {
		expect(offAt(knotsOf([{ height: 0, inPlane: 5, outOfPlane: null }], 'outOfPlane'), 0)).toBeNull();
		expect(shimsOf(guide(110, [4, 106]), [], inch)).toBeNull();
	});
});

describe('shims', () => {
	// Proudest is 1/2 at 54. At 4: wall 0.25 + 0.25 · 4/54 = 0.26852, shim 0.23148, made 1/4.
	// At 30: wall 0.25 + 0.25 · 30/54 = 0.38889, shim 0.11111, made 1/8. At 54: none.
	// At 80: wall 0.5 − 0.75 · 26/54 = 0.13889, shim 0.36111, made 3/8. At 106: wall 0.5 − 0.75 · 52/54 = −0.22222,
	// shim 0.72222, made 3/4.
	const knots = knotsOf(plumb([0, 0, 0.25], [54, 0, 0.5], [108, 0, -0.25]), 'outOfPlane');
	const found = shims(guide(110, [4, 30, 54, 80, 106]), knots);

	it('are what the wall lacks to its proudest point', () => {
		const exact = [1 / 4 - (0.25 * 4) / 54, 1 / 4 - (0.25 * 30) / 54, 0, (0.75 * 26) / 54, (0.75 * 52) / 54];
		expect(found.at.map((one) => one.exact)).toEqual(exact.map(inches));
		expect(found.at.map(({ anchor }) => anchor)).toEqual([1, 2, 3, 4, 5]);
	});

	it('are made up to the next sixteenth, or millimetre', () => {
		expect(found.at.map(({ made }) => made)).toEqual([1 / 4, 1 / 8, 0, 3 / 8, 3 / 4].map(inches));
		const metric = shims(guide(110, [4, 106]), knots, shimStep('metric'));
		// 0.23148 in = 5.88 mm, 0.72222 in = 18.34 mm.
		expect(metric.at.map(({ made }) => made)).toEqual([6_000_000, 19_000_000]);
	});

	it('of a whole sixteenth stay it', () => {
		const even = shims(guide(110, [4, 106]), knotsOf(plumb([4, 0, 0], [106, 0, 0.0625]), 'outOfPlane'));
		expect(even.at.map(({ made }) => made)).toEqual([inches(0.0625), 0]);
	});

	it('say where the guide touches and which is thickest', () => {
		expect(found.touches).toEqual([inches(54)]);
		expect(found.thickest).toMatchObject({ anchor: 5, height: inches(106) });
	});

	it('leave out a bulge above the top of the guide', () => {
		// The wall bulges by 2 in at 150, the guide ends at 110: wall there 2 · 10/50 = 0.4 in proud of 0 at 100.
		const above = shims(
			guide(110, [4, 106]),
			knotsOf(plumb([0, 0, 0], [100, 0, 0], [150, 0, 2]), 'outOfPlane')
		);
		expect(above.at[0]?.exact).toBe(inches(0.4));
		expect(above.touches).toEqual([inches(110)]);
	});
});

describe('whatever is read', () => {
	const reading = fc.record({
		height: fc.integer({ min: 0, max: inches(150) }),
		off: fc.integer({ min: -inches(3), max: inches(3) })
	});
	const lines = fc
		.uniqueArray(reading, { minLength: 1, maxLength: 8, selector: ({ height }) => height })
		.map((list) => list.toSorted((a, b) => a.height - b.height));
	const guides = fc
		.record({ length: fc.integer({ min: 20, max: 160 }), count: fc.integer({ min: 2, max: 12 }) })
		.map(({ length, count }) =>
			guide(
				length,
				Array.from({ length: count }, (_, i) => 4 + ((length - 8) * i) / (count - 1))
			)
		);

	it('a constant added to all readings changes nothing', () => {
		fc.assert(
			fc.property(lines, guides, fc.integer({ min: -inches(5), max: inches(5) }), (knots, one, more) => {
				const moved = knots.map(({ height, off }) => ({ height, off: off + more }));
				expect(shims(one, moved)).toEqual(shims(one, knots));
			})
		);
	});

	it('no gap is less than 0 and the guide touches somewhere', () => {
		fc.assert(
			fc.property(lines, guides, (knots, one) => {
				const { at, wall, touches } = shims(one, knots);
				expect(Math.min(...wall.map(({ gap }) => gap))).toBe(0);
				expect(touches.length).toBeGreaterThan(0);
				for (const { exact, made } of at) {
					expect(exact).toBeGreaterThanOrEqual(0);
					expect(made).toBeGreaterThanOrEqual(exact);
					expect(made - exact).toBeLessThan(shimStep('imperial'));
				}
			})
		);
	});

	it('twice the lean is twice the shims, to the nanometre’s rounding', () => {
		fc.assert(
			fc.property(lines, guides, (knots, one) => {
				const doubled = shims(
					one,
					knots.map(({ height, off }) => ({ height, off: 2 * off }))
				);
				shims(one, knots).at.forEach(({ exact }, i) => {
					expect(Math.abs((doubled.at[i]?.exact ?? Number.NaN) - 2 * exact)).toBeLessThanOrEqual(3);
				});
			})
		);
	});

	it('agree with the wall as the weighted mean of the readings around it', () => {
		// Written another way: of all pairs of neighbours the one around the height; weights by the distance to the other.
		const wallAt = (knots: readonly Knot[], height: number): number => {
			const inside = Math.min(Math.max(height, knots.at(0)?.height ?? 0), knots.at(-1)?.height ?? 0);
			for (const [i, a] of knots.entries()) {
				const b = knots[i + 1] ?? a;
				if (inside < a.height || inside > b.height) continue;
				if (a.height === b.height) return a.off;
				return (a.off * (b.height - inside) + b.off * (inside - a.height)) / (b.height - a.height);
			}
			throw new Error('outside');
		};
		fc.assert(
			fc.property(lines, guides, (knots, one) => {
				const heights = [0, one.length, ...knots.map(({ height }) => height)];
				const along = heights.filter((height) => height <= one.length);
				const proudest = Math.max(...along.map((height) => wallAt(knots, height)));
				for (const { height, exact } of shims(one, knots).at)
					expect(Math.abs(exact - (proudest - wallAt(knots, height)))).toBeLessThanOrEqual(1.01);
			})
		);
	});
});
