import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cells, OpeningRow } from '../../takeoff/inputs.ts';
import { leaveOutTaken } from './taken-marks.ts';

const rows: readonly OpeningRow[] = [
	{ id: 'a', cells: { mark: 'A' } },
	{ id: 'b', cells: { mark: 'B' } },
	{ id: 'b1', cells: { mark: 'B', openingNumber: 1 } },
	{ id: 'n', cells: {} }
];

const setMark = (row: string, after: string | null) => ({ row, field: 'mark' as const, after });

describe('marks that are taken', () => {
	it('are refused with the reason, while the rest goes in', () => {
		const width = { row: 'a', field: 'location' as const, after: 'Quay' };
		const left = leaveOutTaken(rows, [setMark('a', 'B'), width], []);
		expect(left.changes).toEqual([width]);
		expect(left.refused).toEqual([
			{
				row: 'a',
				added: null,
				field: 'mark',
				cell: 'B',
				reason: 'B stands in another row already; write another mark, or number the opening'
			}
		]);
	});

	it('may be exchanged in one go, and given on', () => {
		const exchange = [setMark('a', 'B'), setMark('b', 'A')];
		expect(leaveOutTaken(rows, exchange, []).changes).toEqual(exchange);
		const onwards = [setMark('b', 'D'), setMark('n', 'B')];
		expect(leaveOutTaken(rows, onwards, []).changes).toEqual(onwards);
	});

	it('go back to who had them when their own change is refused', () => {
		// n would take A, which a gives up for B; but b keeps B, so a keeps A, and n gets nothing.
		const left = leaveOutTaken(rows, [setMark('a', 'B'), setMark('n', 'A')], []);
		expect(left.changes).toEqual([]);
		expect(left.refused.map(({ row }) => row)).toEqual(['a', 'n']);
	});

	it('are told from the openings of a mark', () => {
		const number = { row: 'a', field: 'openingNumber' as const, after: 1 };
		expect(leaveOutTaken(rows, [setMark('a', 'B'), number], []).refused).toHaveLength(2);
		expect(leaveOutTaken(rows, [setMark('a', 'B'), { ...number, after: 2 }], []).refused).toEqual([]);
		expect(leaveOutTaken(rows, [setMark('n', 'B.1')], []).refused).toEqual([]);
	});

	it('leave an added row without one', () => {
		const left = leaveOutTaken(
			rows,
			[],
			[{ mark: 'C', quantity: 2 }, { mark: 'C', quantity: 3 }, { mark: 'A' }]
		);
		expect(left.added).toEqual([{ mark: 'C', quantity: 2 }, { mark: null, quantity: 3 }, { mark: null }]);
		expect(left.refused.map(({ added }) => added)).toEqual([1, 2]);
	});

	it('are never held twice afterwards (random changes)', () => {
		const mark = fc.constantFrom('A', 'B', 'C', 'D', null);
		fc.assert(
			fc.property(
				fc.array(mark, { minLength: 4, maxLength: 4 }),
				fc.array(mark, { maxLength: 3 }),
				(marks, more) => {
					const start: OpeningRow[] = ['A', 'B', 'C', 'D'].map((held) => ({
						id: held,
						cells: { mark: held }
					}));
					const changes = marks.map((after, at) => setMark(start[at]?.id ?? '', after));
					const left = leaveOutTaken(
						start,
						changes,
						more.map((held): Cells => ({ mark: held }))
					);
					const after = new Map(start.map(({ id }) => [id, id as string | null]));
					for (const change of left.changes) after.set(change.row, change.after as string | null);
					const held = [...after.values(), ...left.added.map((cells) => cells.mark ?? null)].filter(
						(each) => each !== null
					);
					expect(new Set(held).size).toBe(held.length);
					expect(left.changes.length + left.refused.filter(({ row }) => row !== null).length).toBe(
						changes.length
					);
				}
			)
		);
	});
});
