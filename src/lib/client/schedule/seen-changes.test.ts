import { describe, expect, it } from 'vitest';
import type { RowChange } from '../../exchange/schedule-comparison.ts';
import { changedMeanwhile, changesWith, seenCells, takenChoices } from './seen-changes.ts';

const row = { id: 'a', cells: { mark: 'C-101', quantity: 4, location: 'Stall 7', phase: 'North' } };
const own = { id: 'b', cells: { mark: 'C-101', openingNumber: 2 } };
const changed: RowChange = {
	kind: 'changed',
	id: 'changed:a',
	line: 5,
	part: 0,
	row,
	cells: [
		{ field: 'quantity', from: 4, to: 2 },
		{ field: 'location', from: 'Stall 7', to: null },
		{ field: 'finish', from: null, to: 'mill' }
	],
	followers: [own]
};
const added: RowChange = { kind: 'added', id: 'added:6.0', line: 6, part: 0, cells: {}, after: null };
const removed: RowChange = { kind: 'removed', id: 'removed:a', rows: [row, own] };

describe('what is taken', () => {
	it('is what is new and what differs, unless a person chose otherwise', () => {
		const made = new Map([
			['cell:a:quantity', false],
			['removed:a', true]
		]);
		const usual = takenChoices([changed, added, removed], () => undefined);
		expect([...usual]).toEqual(['cell:a:quantity', 'cell:a:finish', 'added:6.0']);
		const taken = takenChoices([changed, added, removed], (id) => made.get(id));
		expect([...taken]).toEqual(['cell:a:finish', 'added:6.0', 'removed:a']);
	});

	it('is priced again alone only where a change has several cells', () => {
		const single: RowChange = {
			...changed,
			id: 'changed:c',
			row: { ...row, id: 'c' },
			cells: changed.cells.slice(0, 1)
		};
		const choices = ['cell:a:quantity', 'cell:c:quantity', 'added:6.0'];
		expect(changesWith([changed, single, added], choices)).toEqual(['changed:a']);
	});
});

describe('what was seen', () => {
	it('is what a change replaces and what identifies its rows, blanks too', () => {
		expect(seenCells([changed, added], new Set(['cell:a:finish', 'added:6.0']))).toEqual({
			a: { mark: 'C-101', openingNumber: null, quantity: 4, location: 'Stall 7', finish: null },
			b: { mark: 'C-101', openingNumber: 2 }
		});
		expect(seenCells([changed], new Set())).toEqual({});
	});

	it('is every cell of a row that goes, so that whatever was written into it since is noticed', () => {
		const seen = seenCells([removed], new Set(['removed:a']));
		expect(seen.a).toMatchObject({ ...row.cells, note: null, openingWidth: null });
		expect(seen.b).toMatchObject({ ...own.cells, quantity: null });
	});

	it('gives conflicts the names of their rows', () => {
		const conflicts = [
			{ row: 'b', field: 'mark', yours: 'C-101R', theirs: 'C-9' },
			{ row: 'z', field: 'note', yours: null, theirs: 'x' }
		];
		expect(changedMeanwhile(conflicts, [changed]).map(({ name }) => name)).toEqual(['C-101.2', '']);
	});
});
