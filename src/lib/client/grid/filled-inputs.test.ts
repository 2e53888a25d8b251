import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FilledInputs } from './filled-inputs.ts';
import { isUsual } from './result-columns.ts';

describe('inputs that show themselves because a row holds something in them', () => {
	it('are those outside the usual ones, for as long as a row holds something', () => {
		const filled = new FilledInputs();
		filled.take('r1', { mark: 'C-101', note: 'late' });
		filled.take('r2', { mark: 'C-102', note: 'later', hold: 'yes' });
		expect(filled.ids).toEqual(['note', 'hold']);
		filled.take('r1', { mark: 'C-101' });
		expect(filled.ids).toEqual(['note', 'hold']);
		filled.take('r2', { mark: 'C-102', hold: 'yes' });
		expect(filled.ids).toEqual(['hold']);
		filled.keep((row) => row === 'r1');
		expect(filled.ids).toEqual([]);
	});

	it('are those that looking through all rows finds', () => {
		const row = fc.constantFrom('r1', 'r2', 'r3', 'r4');
		const cells = fc.dictionary(
			fc.constantFrom('mark', 'openingWidth', 'note', 'hold', 'exposure'),
			fc.nat()
		);
		fc.assert(
			fc.property(fc.array(fc.tuple(row, fc.option(cells))), (changes) => {
				const filled = new FilledInputs();
				const rows = new Map<string, Record<string, unknown>>();
				for (const [id, next] of changes) {
					if (next) {
						rows.set(id, next);
						filled.take(id, next);
					} else {
						rows.delete(id);
						filled.keep((each) => rows.has(each));
					}
					const held = [...rows.values()].flatMap((each) => Object.keys(each));
					expect(new Set(filled.ids)).toEqual(new Set(held.filter((input) => !isUsual(input))));
				}
			})
		);
	});
});
