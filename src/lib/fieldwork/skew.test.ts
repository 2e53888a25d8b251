/** The lean from the diagonals against Pythagoras. Sizes are invented. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inches, nothing } from './sample-measures.ts';
import { sayLength } from './sentence.ts';
import { leanOf, skewOf } from './skew.ts';

/** Right triangles of whole numbers with one leg of 12: the other leg and the hypotenuse (checked below). */
const triangles = [
	[5, 13],
	[9, 15],
	[16, 20],
	[35, 37]
] as const;

/** The whole root of a whole number, rounded down, by halving. */
function rootOf(square: bigint): bigint {
	let [low, high] = [0n, 1n];
	while (high * high <= square) high *= 2n;
	while (high - low > 1n) {
		const middle = (low + high) / 2n;
		if (middle * middle <= square) low = middle;
		else high = middle;
	}
	return low;
}

describe('lean of a parallelogram', () => {
	it('the triangles are right', () => {
		for (const [leg, hypotenuse] of triangles) expect(leg ** 2 + 12 ** 2).toBe(hypotenuse ** 2);
	});

	it('is exact to the nanometre where both diagonals are whole', () => {
		// Head shifted by s: legs W + s and W − s over the same height of 12, so W = (a + b) / 2 and s = (a − b) / 2.
		const two = fc.constantFrom(...triangles);
		fc.assert(
			fc.property(two, two, fc.integer({ min: 1, max: 100_000_000 }), ([a, d1], [b, d2], half) => {
				const lean = leanOf(d1 * 2 * half, d2 * 2 * half, [(a + b) * half]);
				expect(lean).toBe((a - b) * half);
			})
		);
	});

	it('is off by no more than rounding the diagonals to the nanometre makes it', () => {
		const size = fc.integer({ min: inches(12), max: inches(600) });
		fc.assert(
			fc.property(size, size, fc.integer({ min: -inches(6), max: inches(6) }), (width, height, lean) => {
				const [w, h, s] = [BigInt(width), BigInt(height), BigInt(lean)];
				const d1 = Number(rootOf((w + s) ** 2n + h ** 2n));
				const d2 = Number(rootOf((w - s) ** 2n + h ** 2n));
				// Each diagonal is less than 1 nm short, so its square less than 2d + 1 off: (2d + 1) / 4W for one of them.
				const most = (2 * Math.max(d1, d2) + 1) / (4 * width) + 0.5;
				expect(Math.abs(leanOf(d1, d2, [width]) - lean)).toBeLessThanOrEqual(most);
			})
		);
	});

	it('is plus where the head stands to the right', () => {
		// W 16, s 1, H 12: d1² = 17² + 144 = 433, d2² = 15² + 144 = 369; (433 − 369) / 64 = 1.
		expect(leanOf(inches(Math.sqrt(433)), inches(Math.sqrt(369)), [inches(16)])).toBe(inches(1));
		expect(leanOf(inches(Math.sqrt(369)), inches(Math.sqrt(433)), [inches(16)])).toBe(-inches(1));
	});

	it('needs a width', () => {
		expect(() => leanOf(1, 1, [])).toThrow(RangeError);
	});
});

describe('skew of an opening', () => {
	const say = sayLength('imperial');
	const closure = inches(0.5);
	const opening = (rising: number | null, falling: number | null, height: number | null = 108) => ({
		...nothing,
		widths: { bottom: inches(192), middle: null, top: inches(192) },
		heights: {
			left: height === null ? null : inches(height),
			right: height === null ? null : inches(height)
		},
		diagonals: {
			rising: rising === null ? null : inches(rising),
			falling: falling === null ? null : inches(falling)
		}
	});

	it('is not known while a diagonal or every width is missing', () => {
		expect(skewOf(opening(null, 220), closure, say)).toEqual({ state: 'notMeasured' });
		const widths = { bottom: null, middle: null, top: null };
		expect(skewOf({ ...opening(220, 220), widths }, closure, say)).toEqual({ state: 'notMeasured' });
	});

	it('is told where diagonals can’t belong to width and height', () => {
		// √(192² + 108²) = √48528 = 220.2907 in. 6 in too long for both:
		const long = skewOf(opening(226.2907, 226.2907), closure, say);
		expect(long.state === 'impossible' && long.reason).toContain('too long');
		const short = skewOf(opening(214, 214), closure, say);
		expect(short.state === 'impossible' && short.reason).toContain('too short');
		// Shorter than the opening is wide: no height is left, measured or not.
		const flat = skewOf(opening(190, 190, null), closure, say);
		expect(flat.state === 'impossible' && flat.reason).toContain(`width of 16'-0"`);
	});

	it('takes what a tape gives, to the sixteenth', () => {
		// 220 5/16 = 220.3125 and 220 1/4 = 220.25: (0.0625 · 440.5625) / 768 = 0.03585 in to the right.
		const skew = skewOf(opening(220.3125, 220.25), closure, say);
		expect(skew).toEqual({ state: 'known', lean: Math.round((0.0625 * 440.5625 * 25_400_000) / 768) });
	});
});
