import { describe, expect, it } from 'vitest';
import type { Direction, Motion } from './keys.ts';
import { drawnOut, extentOf, idsOf, Line, motionEnd, oneCell, walk, type Area, type Place } from './range.ts';

const area: Area = { rows: new Line(['a', 'b', 'c', 'd']), columns: new Line(['w', 'x', 'y']) };
const place = (row: number, column: number): Place => ({ row, column });

describe('a range of cells', () => {
	it('is the rectangle between two corners, whichever is which', () => {
		const range = {
			anchor: { row: 'c', column: 'w' },
			head: { row: 'b', column: 'y' },
			whole: 'cells' as const
		};
		expect(extentOf(range, area)).toEqual({ top: 1, bottom: 2, left: 0, right: 2 });
	});

	it('goes over all columns as whole rows, over all rows as whole columns, also those that come', () => {
		const spot = { row: 'b', column: 'x' };
		const rows = { ...oneCell(spot), whole: 'rows' as const };
		expect(extentOf(rows, area)).toEqual({ top: 1, bottom: 1, left: 0, right: 2 });
		const more = { ...area, columns: new Line(['w', 'x', 'y', 'z']) };
		expect(extentOf(rows, more)).toEqual({ top: 1, bottom: 1, left: 0, right: 3 });
		expect(extentOf({ ...oneCell(spot), whole: 'columns' }, area)).toEqual({
			top: 0,
			bottom: 3,
			left: 1,
			right: 1
		});
		expect(extentOf({ ...oneCell(spot), whole: 'all' }, area)).toEqual({
			top: 0,
			bottom: 3,
			left: 0,
			right: 2
		});
	});

	it('is none when a corner is not shown, or nothing is', () => {
		expect(extentOf(oneCell({ row: 'gone', column: 'x' }), area)).toBeNull();
		expect(
			extentOf(oneCell({ row: 'a', column: 'x' }), { rows: new Line([]), columns: area.columns })
		).toBeNull();
	});

	it('names its rows and columns', () => {
		expect(idsOf({ top: 1, bottom: 2, left: 0, right: 1 }, area)).toEqual({
			rows: ['b', 'c'],
			columns: ['w', 'x']
		});
	});
});

describe('where a motion ends', () => {
	// Filled cells of one column: rows 0, 1, 2, then a gap, then 5.
	const filled = (at: Place): boolean => at.column === 0 && [0, 1, 2, 5].includes(at.row);
	const end = (row: number, direction: Direction, reach: Motion['reach'] = 'filled'): Place =>
		motionEnd(place(row, 0), { direction, reach, extend: false }, place(8, 3), 4, filled);

	it('is the last cell of a filled block, then the next filled one, then the edge', () => {
		expect(end(0, 'down')).toEqual(place(2, 0));
		expect(end(2, 'down')).toEqual(place(5, 0));
		expect(end(5, 'down')).toEqual(place(7, 0));
		expect(end(7, 'up')).toEqual(place(5, 0));
		expect(end(5, 'up')).toEqual(place(2, 0));
	});

	it('stays inside the sheet', () => {
		expect(end(0, 'up')).toEqual(place(0, 0));
		expect(end(0, 'up', 'cell')).toEqual(place(0, 0));
		// A window of four rows goes on by three, so that one row stays in sight.
		expect(end(0, 'down', 'window')).toEqual(place(3, 0));
		expect(end(6, 'down', 'window')).toEqual(place(7, 0));
		expect(end(3, 'right', 'row')).toEqual(place(3, 2));
		expect(end(3, 'right', 'corner')).toEqual(place(7, 2));
		expect(end(3, 'left', 'corner')).toEqual(place(0, 0));
	});
});

describe('walking through a selection', () => {
	const extent = { top: 1, bottom: 2, left: 0, right: 2 };

	it('goes down its columns and along its rows, over the end to the beginning', () => {
		expect(walk(extent, place(1, 0), 'down')).toEqual(place(2, 0));
		expect(walk(extent, place(2, 0), 'down')).toEqual(place(1, 1));
		expect(walk(extent, place(2, 2), 'down')).toEqual(place(1, 0));
		expect(walk(extent, place(1, 0), 'up')).toEqual(place(2, 2));
		expect(walk(extent, place(1, 2), 'right')).toEqual(place(2, 0));
		expect(walk(extent, place(1, 0), 'left')).toEqual(place(2, 2));
	});

	it('comes by every cell once before it is back (brute force over small extents)', () => {
		for (const direction of ['up', 'down', 'left', 'right'] as const)
			for (let height = 1; height <= 3; height++)
				for (let width = 1; width <= 3; width++) {
					const small = { top: 2, bottom: 1 + height, left: 1, right: width };
					const seen = new Set<string>();
					let at = place(2, 1);
					for (let step = 0; step < height * width; step++) {
						seen.add(`${at.row} ${at.column}`);
						at = walk(small, at, direction);
					}
					expect(seen.size).toBe(height * width);
					expect(at).toEqual(place(2, 1));
				}
	});
});

describe('drawing a selection out', () => {
	const from = { top: 2, bottom: 3, left: 1, right: 1 };

	it('goes the way that is further', () => {
		expect(drawnOut(from, place(6, 2))).toEqual({
			extent: { top: 4, bottom: 6, left: 1, right: 1 },
			direction: 'down'
		});
		expect(drawnOut(from, place(0, 1))?.extent).toEqual({ top: 0, bottom: 1, left: 1, right: 1 });
		expect(drawnOut(from, place(3, 4))).toEqual({
			extent: { top: 2, bottom: 3, left: 2, right: 4 },
			direction: 'right'
		});
		expect(drawnOut(from, place(2, 0))?.direction).toBe('left');
	});

	it('goes up or down where both ways are as far', () => {
		expect(drawnOut(from, place(5, 3))?.direction).toBe('down');
		expect(drawnOut(from, place(1, 0))?.direction).toBe('up');
	});

	it('is nothing inside', () => {
		expect(drawnOut(from, place(3, 1))).toBeNull();
	});
});
