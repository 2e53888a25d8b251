import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cells } from '../takeoff/inputs.ts';
import { applyChanges, type SheetRow } from './apply.ts';
import type { Change } from './message.ts';

const row = (id: string, cells: Cells = { mark: id }): SheetRow => ({ id, cells, removed: false });
const rows = [row('a'), row('b'), row('c')];
const live = (list: readonly SheetRow[]): string[] =>
	list.filter(({ removed }) => !removed).map(({ id }) => id);

function apply(list: readonly SheetRow[], changes: readonly Change[], reinstate = false) {
	const applied = applyChanges(list, changes, { reinstate });
	if (!applied.ok) throw new Error(JSON.stringify(applied));
	return applied;
}

describe('changes', () => {
	it('set a cell when it holds what the change replaces', () => {
		const applied = apply(rows, [{ kind: 'setCell', row: 'b', field: 'quantity', before: null, after: 3 }]);
		expect(applied.rows[1]?.cells).toEqual({ mark: 'b', quantity: 3 });
		expect(applied.touched).toEqual(['b']);
		expect(applied.reordered).toBe(false);
	});

	it('conflict when another value stands there, and then none of them is applied', () => {
		const applied = applyChanges(
			rows,
			[
				{ kind: 'setCell', row: 'a', field: 'phase', before: null, after: 'North' },
				{ kind: 'setCell', row: 'b', field: 'mark', before: 'old', after: 'new' }
			],
			{ reinstate: false }
		);
		expect(applied).toEqual({
			ok: false,
			conflicts: [{ row: 'b', field: 'mark', yours: 'new', theirs: 'b' }]
		});
	});

	it('compare measured cells by amount, unit and what was typed', () => {
		const cell = { amount: 3_048_000_000, unit: 'nm' as const, typed: `10'` };
		const list = [row('a', { openingWidth: cell })];
		const set = (before: typeof cell) =>
			applyChanges(list, [{ kind: 'setCell', row: 'a', field: 'openingWidth', before, after: null }], {
				reinstate: false
			}).ok;
		expect(set({ ...cell })).toBe(true);
		expect(set({ ...cell, amount: cell.amount + 1 })).toBe(false);
		expect(set({ ...cell, typed: '120' })).toBe(false);
	});

	it('put new rows after their neighbour, in the order given', () => {
		const add = (id: string, after: string | null): Change => ({ kind: 'addRow', row: id, after, cells: {} });
		const applied = apply(rows, [add('x', 'a'), add('y', 'x'), add('top', null)]);
		expect(live(applied.rows)).toEqual(['top', 'a', 'x', 'y', 'b', 'c']);
	});

	it('find the place of a neighbour that was removed', () => {
		const removed: SheetRow[] = [row('a'), { id: 'b', cells: {}, removed: true }, row('c')];
		const applied = apply(removed, [{ kind: 'addRow', row: 'x', after: 'b', cells: {} }]);
		expect(live(applied.rows)).toEqual(['a', 'x', 'c']);
	});

	it('put a row into another place and leave its cells alone', () => {
		const move = (id: string, after: string | null): Change => ({ kind: 'moveRow', row: id, after });
		const applied = apply(rows, [move('c', null), move('a', 'b')]);
		expect(live(applied.rows)).toEqual(['c', 'b', 'a']);
		expect(applied).toMatchObject({ touched: [], moved: ['c', 'a'], reordered: true });
		// Where it stands already, and beside itself.
		for (const idle of [move('b', 'a'), move('a', null), move('b', 'b')])
			expect(apply(rows, [idle])).toMatchObject({ moved: [], reordered: false, inverse: [] });
		expect(applyChanges(rows, [move('a', 'z')], { reinstate: false })).toMatchObject({ ok: false, row: 'z' });
	});

	it('move nothing where the row has gone', () => {
		const gone: SheetRow[] = [row('a'), { id: 'b', cells: {}, removed: true }, row('c')];
		const applied = apply(gone, [{ kind: 'moveRow', row: 'b', after: null }]);
		expect(live(applied.rows)).toEqual(['a', 'c']);
		expect(applied).toMatchObject({ moved: [], reordered: false, inverse: [] });
	});

	it('never give an id to a second row', () => {
		const again = (list: readonly SheetRow[]) =>
			applyChanges(list, [{ kind: 'addRow', row: 'b', after: null, cells: {} }], { reinstate: false });
		expect(again(rows).ok).toBe(false);
		expect(again([row('a'), { id: 'b', cells: {}, removed: true }]).ok).toBe(false);
	});

	it('conflict when a row to be removed was changed meanwhile', () => {
		const applied = applyChanges(
			[row('a', { mark: 'a', phase: 'theirs' })],
			[{ kind: 'removeRow', row: 'a', after: null, cells: { mark: 'a' } }],
			{ reinstate: false }
		);
		expect(applied).toMatchObject({
			ok: false,
			conflicts: [{ field: 'phase', yours: null, theirs: 'theirs' }]
		});
	});

	it('refuse a row the sheet does not have', () => {
		const change: Change = { kind: 'setCell', row: 'z', field: 'mark', before: null, after: 'x' };
		expect(applyChanges(rows, [change], { reinstate: false })).toMatchObject({
			ok: false,
			conflicts: null,
			row: 'z'
		});
	});
});

describe('the inverse', () => {
	/** Any few changes that fit the sheet as it stands when their turn comes. */
	const steps = fc.array(
		fc.record({
			kind: fc.constantFrom('setCell', 'addRow', 'removeRow', 'moveRow'),
			to: fc.nat(20),
			at: fc.nat(20),
			text: fc.string({ maxLength: 3 })
		}),
		{ maxLength: 12 }
	);

	it('brings back every cell and the order, and the changes can be made again', () => {
		fc.assert(
			fc.property(steps, (list) => {
				let sheet: readonly SheetRow[] = rows;
				const changes: Change[] = [];
				for (const [n, { kind, at, to, text }] of list.entries()) {
					const ids = live(sheet);
					const id = ids[at % Math.max(ids.length, 1)];
					const cells = sheet.find((one) => one.id === id)?.cells ?? {};
					const after = at === 0 || id === undefined ? null : id;
					if (kind !== 'addRow' && id === undefined) continue;
					const change: Change =
						kind === 'addRow'
							? { kind, row: `n${n}`, after, cells: { mark: text } }
							: kind === 'removeRow'
								? { kind, row: id ?? '', after: null, cells }
								: kind === 'moveRow'
									? { kind, row: id ?? '', after: ids[to % (ids.length + 1)] ?? null }
									: {
											kind: 'setCell',
											row: id ?? '',
											field: 'note',
											before: cells.note ?? null,
											after: text
										};
					changes.push(change);
					sheet = apply(sheet, [change]).rows;
				}
				const whole = apply(rows, changes);
				const shown = (all: readonly SheetRow[]) => all.filter(({ removed }) => !removed);
				expect(shown(whole.rows)).toEqual(shown(sheet));
				const back = apply(whole.rows, whole.inverse, true);
				expect(shown(back.rows)).toEqual(rows);
				expect(shown(apply(back.rows, changes, true).rows)).toEqual(shown(whole.rows));
			})
		);
	});
});
