import { describe, expect, it } from 'vitest';
import type { Edit } from '../changes/message.ts';
import { settleConflict } from './settle-conflict.ts';

const changes: Edit['changes'] = [
	{ kind: 'setCell', row: 'r1', field: 'location', before: 'Stall 1', after: 'Stall 2' },
	{ kind: 'setCell', row: 'r1', field: 'phase', before: '1', after: '2' },
	{ kind: 'removeRow', row: 'r2', after: 'r1', cells: { mark: 'C-102', phase: '1' } }
];
const conflicts = [
	{ row: 'r1', field: 'phase', yours: '2', theirs: '3' },
	{ row: 'r2', field: 'phase', yours: '1', theirs: '4' }
];

describe('settling a conflict', () => {
	it('keeps mine: the same changes, now replacing their values', () => {
		expect(settleConflict(changes, conflicts, 'mine')).toEqual([
			changes[0],
			{ kind: 'setCell', row: 'r1', field: 'phase', before: '3', after: '2' },
			{ kind: 'removeRow', row: 'r2', after: 'r1', cells: { mark: 'C-102', phase: '4' } }
		]);
	});

	it('takes theirs: only what is not in conflict is left', () => {
		expect(settleConflict(changes, conflicts, 'theirs')).toEqual([changes[0]]);
		expect(settleConflict(changes.slice(1), conflicts, 'theirs')).toEqual([]);
	});

	it('gives up cells of a row that is gone, whatever is chosen', () => {
		const gone = [{ row: 'r1', field: 'phase', yours: '2', theirs: null, gone: true as const }];
		const left = [changes[2]];
		expect(settleConflict(changes.slice(1), gone, 'mine')).toEqual(left);
		expect(settleConflict(changes.slice(1), gone, 'theirs')).toEqual(left);
	});
});
