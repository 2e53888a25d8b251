import { describe, expect, it } from 'vitest';
import { blockAround, rowMove, withOwnRows, type StoredRows } from './row-moves.ts';

/** `B.1` is an opening of `B`. */
const stored = (order: readonly string[]): StoredRows => ({
	order,
	ownerOf: (row) => {
		const [mark = row, number] = row.split('.');
		return number !== undefined && order.includes(mark) ? mark : null;
	}
});

/** The order after a move, as `JobSheet.moveRows` makes it: the rows, in their order, right after `after`. */
function moved(
	order: readonly string[],
	selected: readonly string[],
	direction: 'up' | 'down'
): string[] | null {
	const move = rowMove(stored(order), new Set(selected), direction);
	if (!move) return null;
	const rest = order.filter((row) => !move.ids.includes(row));
	const at = move.after === null ? 0 : rest.indexOf(move.after) + 1;
	return [...rest.slice(0, at), ...move.ids, ...rest.slice(at)];
}

const order = ['A', 'B', 'B.1', 'B.2', 'C', 'D'];

describe('moving rows', () => {
	it('takes the openings of a mark along', () => {
		expect(moved(order, ['B'], 'up')).toEqual(['B', 'B.1', 'B.2', 'A', 'C', 'D']);
		expect(moved(order, ['B'], 'down')).toEqual(['A', 'C', 'B', 'B.1', 'B.2', 'D']);
	});

	it('goes over all of a mark with its openings', () => {
		expect(moved(order, ['C'], 'up')).toEqual(['A', 'C', 'B', 'B.1', 'B.2', 'D']);
		expect(moved(order, ['A'], 'down')).toEqual(['B', 'B.1', 'B.2', 'A', 'C', 'D']);
	});

	it('moves several rows together', () => {
		expect(moved(order, ['C', 'D'], 'up')).toEqual(['A', 'C', 'D', 'B', 'B.1', 'B.2']);
	});

	it('moves an opening among those of its mark only', () => {
		expect(moved(order, ['B.2'], 'up')).toEqual(['A', 'B', 'B.2', 'B.1', 'C', 'D']);
		expect(moved(order, ['B.1'], 'down')).toEqual(['A', 'B', 'B.2', 'B.1', 'C', 'D']);
		expect(moved(order, ['B.1'], 'up')).toBeNull();
		expect(moved(order, ['B.2'], 'down')).toBeNull();
	});

	it('brings openings that stand elsewhere to their mark', () => {
		expect(moved(['A', 'B', 'C', 'B.1'], ['B'], 'up')).toEqual(['B', 'B.1', 'A', 'C']);
	});

	it('does nothing at the ends', () => {
		expect(moved(order, ['A'], 'up')).toBeNull();
		expect(moved(order, ['D'], 'down')).toBeNull();
		expect(moved(order, [], 'up')).toBeNull();
		expect(moved(order, order, 'down')).toBeNull();
	});

	it('is taken back by the opposite move (brute force over neighbours)', () => {
		for (const row of ['A', 'B', 'C', 'D', 'B.1', 'B.2'])
			for (const direction of ['up', 'down'] as const) {
				const there = moved(order, [row], direction);
				if (there) expect(moved(there, [row], direction === 'up' ? 'down' : 'up')).toEqual(order);
			}
	});
});

describe('rows that belong together', () => {
	it('are a mark and its openings', () => {
		expect(withOwnRows(stored(order), new Set(['B']))).toEqual(['B', 'B.1', 'B.2']);
		expect(withOwnRows(stored(order), new Set(['B.2']))).toEqual(['B.2']);
		expect(blockAround(stored(order), 'B.1')).toEqual({ first: 'B', last: 'B.2' });
		expect(blockAround(stored(order), 'C')).toEqual({ first: 'C', last: 'C' });
	});
});
