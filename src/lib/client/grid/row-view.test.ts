import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { everyRow, type RowFilter } from '../../changes/sheet-view.ts';
import { distinctTexts, shownRows, type RowReader } from './row-view.ts';

interface Row {
	readonly id: string;
	readonly cells?: Readonly<Record<string, string | number | null>>;
	readonly owner?: string;
	readonly stop?: boolean;
	readonly refused?: boolean;
}

function readerOf(rows: readonly Row[], columns: readonly string[] = ['mark', 'weight']): RowReader {
	const byId = new Map(rows.map((row) => [row.id, row]));
	const value = (id: string, column: string) => byId.get(id)?.cells?.[column] ?? null;
	return {
		order: rows.map((row) => row.id),
		columns,
		value,
		text: (id, column) => String(value(id, column) ?? ''),
		severities: (id) => new Set(byId.get(id)?.stop ? (['stop', 'note'] as const) : []),
		hasRefused: (id) => byId.get(id)?.refused ?? false,
		ownerOf: (id) => byId.get(id)?.owner ?? null
	};
}

const up = (column: string) => ({ column, direction: 'up' }) as const;
const down = (column: string) => ({ column, direction: 'down' }) as const;
const marks = (...texts: string[]): Row[] =>
	texts.map((mark, at) => ({ id: `r${String(at)}`, cells: { mark } }));

describe('the order of rows on the screen', () => {
	const order = (
		rows: readonly Row[],
		sort: ReturnType<typeof up> | ReturnType<typeof down> | null
	): string[] => shownRows(readerOf(rows), everyRow, sort);

	it('is the stored one without a sort', () => {
		expect(order(marks('C-10', 'C-2', 'C-1'), null)).toEqual(['r0', 'r1', 'r2']);
	});

	it('is as people count, whatever the case', () => {
		expect(order(marks('C-10', 'c-2', 'C-1', 'B-99'), up('mark'))).toEqual(['r3', 'r2', 'r1', 'r0']);
		expect(order(marks('C-10', 'c-2', 'C-1', 'B-99'), down('mark'))).toEqual(['r0', 'r1', 'r2', 'r3']);
	});

	it('has blank cells last in both directions, and figures before words', () => {
		const rows: Row[] = [
			{ id: 'blank', cells: { weight: null } },
			{ id: 'ten', cells: { weight: 10 } },
			{ id: 'none', cells: { weight: '' } },
			{ id: 'word', cells: { weight: 'unknown' } },
			{ id: 'nine', cells: { weight: 9 } },
			{ id: 'nan', cells: { weight: NaN } }
		];
		expect(order(rows, up('weight'))).toEqual(['nine', 'ten', 'word', 'blank', 'none', 'nan']);
		expect(order(rows, down('weight'))).toEqual(['word', 'ten', 'nine', 'blank', 'none', 'nan']);
	});

	it('keeps the rows of single openings under their mark', () => {
		const rows: Row[] = [
			{ id: 'B', cells: { weight: 5 } },
			{ id: 'B.1', cells: { weight: 9 }, owner: 'B' },
			{ id: 'B.2', cells: { weight: 1 }, owner: 'B' },
			{ id: 'A', cells: { weight: 7 } },
			{ id: 'stray', cells: { weight: 6 }, owner: 'gone' }
		];
		expect(order(rows, up('weight'))).toEqual(['B', 'B.2', 'B.1', 'stray', 'A']);
		expect(order(rows, down('weight'))).toEqual(['A', 'stray', 'B', 'B.1', 'B.2']);
	});
});

describe('the rows shown', () => {
	const rows: Row[] = [
		{ id: 'A', cells: { mark: 'A', weight: 120 } },
		{ id: 'A.1', cells: { mark: 'A.1', weight: 99 }, owner: 'A', stop: true },
		{ id: 'A.2', cells: { mark: 'A.2', weight: 120 }, owner: 'A' },
		{ id: 'B', cells: { mark: 'B', weight: 7 }, refused: true },
		{ id: 'C', cells: { mark: 'C', weight: null } }
	];
	const shown = (filter: Partial<typeof everyRow>, columns?: string[]): string[] =>
		shownRows(readerOf(rows, columns), { ...everyRow, ...filter }, null);

	it('have the text in a column shown; a mark stays with one of its openings', () => {
		expect(shown({ text: ' a.1 ' })).toEqual(['A', 'A.1']);
		expect(shown({ text: '120' })).toEqual(['A', 'A.2']);
		expect(shown({ text: '120' }, ['mark'])).toEqual([]);
		expect(shown({ text: '  ' })).toEqual(['A', 'A.1', 'A.2', 'B', 'C']);
	});

	it('have the check, or an entry that was not read', () => {
		expect(shown({ checks: 'stop' })).toEqual(['A', 'A.1']);
		expect(shown({ checks: 'caution' })).toEqual([]);
		expect(shown({ checks: 'refused' })).toEqual(['B']);
	});

	it('show one of the texts chosen in every column chosen', () => {
		expect(shown({ values: { weight: ['7', '120'] } })).toEqual(['A', 'A.2', 'B']);
		expect(shown({ values: { weight: ['7', '120'], mark: ['B', 'C'] } })).toEqual(['B']);
		expect(shown({ values: { weight: [''] } })).toEqual(['C']);
	});

	it('are offered by their texts, as people count, the blank one last', () => {
		expect(distinctTexts(readerOf(rows), 'weight')).toEqual([
			{ text: '7', count: 1 },
			{ text: '99', count: 1 },
			{ text: '120', count: 2 },
			{ text: '', count: 1 }
		]);
	});
});

describe('whatever is sorted and filtered', () => {
	const row = fc.record({
		weight: fc.option(fc.oneof(fc.integer({ min: 0, max: 3 }), fc.constantFrom('a', 'b', '', 'a2', 'a10'))),
		ofRow: fc.option(fc.nat(8)),
		stop: fc.boolean()
	});
	const sheets = fc.array(row, { maxLength: 9 }).map((drafts) =>
		drafts.map(({ weight, ofRow, stop }, at): Row => ({
			id: `r${String(at)}`,
			cells: { weight },
			...(ofRow === null || ofRow === at ? {} : { owner: `r${String(ofRow)}` }),
			stop
		}))
	);
	const filters = fc.record<RowFilter>({
		text: fc.constantFrom('', 'a', '1'),
		checks: fc.constantFrom('all', 'stop'),
		values: fc.constantFrom<RowFilter['values']>({}, { weight: ['a', '1', ''] })
	});
	const sorts = fc.option(
		fc.record({ column: fc.constant('weight'), direction: fc.constantFrom('up', 'down') })
	);

	it('each row stands once or not at all, and the stored order is as it was', () => {
		fc.assert(
			fc.property(sheets, filters, sorts, (rows, filter, sort) => {
				const reader = readerOf(rows);
				const before = [...reader.order];
				Object.freeze(reader.order);
				const shown = shownRows(reader, filter, sort);
				expect(reader.order).toEqual(before);
				expect(new Set(shown).size).toBe(shown.length);
				const unsorted = shownRows(reader, filter, null);
				expect(before.filter((id) => shown.includes(id))).toEqual(unsorted);
				expect(shownRows(reader, everyRow, sort).toSorted()).toEqual(before.toSorted());
			}),
			{ numRuns: 2000 }
		);
	});

	it('rows that show the same keep their stored order', () => {
		fc.assert(
			fc.property(sheets, fc.constantFrom<'up' | 'down'>('up', 'down'), (rows, direction) => {
				const reader = readerOf(rows.map(({ id, cells }): Row => ({ id, ...(cells ? { cells } : {}) })));
				const shown = shownRows(reader, everyRow, { column: 'weight', direction });
				for (const weight of new Set(shown.map((id) => reader.value(id, 'weight')))) {
					const alike = (ids: readonly string[]): string[] =>
						ids.filter((id) => reader.value(id, 'weight') === weight);
					expect(alike(shown)).toEqual(alike(reader.order));
				}
			})
		);
	});
});
