/** The width that governs, against jambs scanned point by point. Openings are invented. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FieldReadings } from './field-measure.ts';
import { governingSizes, type Mountings } from './governing.ts';
import { inches, nothing, plumb, trueOpening } from './sample-measures.ts';

const face: Mountings = { left: 'faceOfWall', right: 'faceOfWall' };
const between: Mountings = { left: 'betweenJambs', right: 'betweenJambs' };

const widths = (bottom: number | null, middle: number | null, top: number | null): FieldReadings => ({
	...nothing,
	widths: {
		bottom: bottom === null ? null : inches(bottom),
		middle: middle === null ? null : inches(middle),
		top: top === null ? null : inches(top)
	}
});

describe('width', () => {
	const three = widths(119.75, 120.25, 120);

	it('is the least of three between jambs, the greatest on the face of the wall', () => {
		expect(governingSizes(three, between, null)).toMatchObject({ width: inches(119.75), which: 'least' });
		expect(governingSizes(three, face, null)).toMatchObject({ width: inches(120.25), which: 'greatest' });
	});

	it('is the narrower where the sides differ', () => {
		const mixed = governingSizes(three, { left: 'faceOfWall', right: 'betweenJambs' }, null);
		expect(mixed).toMatchObject({ width: inches(119.75), which: 'least' });
	});

	it('of what is measured says that not all is', () => {
		expect(governingSizes(widths(119.75, null, null), between, null)).toMatchObject({
			width: inches(119.75),
			widthComplete: false
		});
		expect(governingSizes(nothing, between, null)).toMatchObject({ width: null, height: null });
	});

	it('loses what a leaning opening leans', () => {
		// Both jambs lean 3/8 in to the right from sill to head: as wide everywhere, but between two plumb lines 3/8 less.
		const lean: FieldReadings = {
			...trueOpening(192, 108, { left: 'concrete', right: 'concrete' }),
			plumb: { left: plumb([0, 0, 0], [108, 0.375, 0]), right: plumb([0, 0, 0], [108, -0.375, 0]) }
		};
		expect(governingSizes(lean, between, null).width).toBe(inches(192 - 0.375));
		expect(governingSizes(lean, face, null).width).toBe(inches(192 + 0.375));
	});

	it('is what is left between plumb lines through the jambs, scanned at every turn', () => {
		const off = fc.integer({ min: -inches(2), max: inches(2) });
		const jamb = fc.tuple(off, off, off);
		const half = inches(54);
		const mountings = fc.constantFrom<Mountings>(
			face,
			between,
			{ left: 'faceOfWall', right: 'betweenJambs' },
			{ left: 'betweenJambs', right: 'faceOfWall' }
		);
		fc.assert(
			fc.property(jamb, jamb, off, off, mountings, (left, right, a, b, mounted) => {
				// Jambs turn at sill, half height and head only, so their outermost points are there. x to the right.
				const at = left.map((_, i) => [left[i] ?? 0, inches(192) + (right[i] ?? 0)] as const);
				const [bottom, middle, top] = at.map(([l, r]) => r - l);
				if (bottom === undefined || middle === undefined || top === undefined) throw new Error('three');
				const readings: FieldReadings = {
					...nothing,
					widths: { bottom, middle, top },
					heights: { left: 2 * half, right: 2 * half },
					// Read from plumb lines of their own: each side has its constant. Into the opening is plus.
					plumb: {
						left: left.map((x, i) => ({ height: i * half, inPlane: x + a, outOfPlane: null })),
						right: right.map((x, i) => ({ height: i * half, inPlane: b - x, outOfPlane: null }))
					}
				};
				const [lefts, rights] = [at.map(([l]) => l), at.map(([, r]) => r)];
				// The innermost point of a jamb that a guide stands against, the outermost of one it stands beside.
				const leftLine = mounted.left === 'betweenJambs' ? Math.max(...lefts) : Math.min(...lefts);
				const rightLine = mounted.right === 'betweenJambs' ? Math.min(...rights) : Math.max(...rights);
				const expected = rightLine - leftLine;
				expect(governingSizes(readings, mounted, null).width).toBe(expected);
			})
		);
	});
});

describe('height', () => {
	it('is the greater for the curtain, and only known with both', () => {
		const both = { ...nothing, heights: { left: inches(108), right: inches(108.375) } };
		expect(governingSizes(both, face, null)).toMatchObject({
			height: inches(108.375),
			heightLeft: inches(108),
			heightRight: inches(108.375)
		});
		const one = { ...nothing, heights: { left: inches(108), right: null } };
		expect(governingSizes(one, face, inches(108)).height).toBeNull();
	});
});
