/** A schedule that comes again, held against a job by hand: what was added, removed and changed, cell by cell. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/lib/changes/apply.ts';
import { chosenChanges } from '../../src/lib/changes/schedule-edit.ts';
import {
	cellChoice,
	choicesOf,
	compareSchedule,
	usualChoices,
	type ScheduleComparison
} from '../../src/lib/exchange/schedule-comparison.ts';
import type { SchedulePreview } from '../../src/lib/exchange/schedule.ts';
import { typedText } from '../../src/lib/takeoff/cell.ts';
import type { InputId, OpeningRow } from '../../src/lib/takeoff/inputs.ts';
import { typedRow, type Typed } from '../opening-rows.ts';

type FileRow = Typed & { readonly line?: number; readonly part?: number; readonly refused?: InputId };

/** A file with these columns and rows, as a reader would hand it over. */
function fileOf(columns: readonly InputId[], rows: readonly FileRow[]): SchedulePreview {
	return {
		sheet: 'Schedule',
		sheets: ['Schedule'],
		headerRow: 1,
		signature: columns.join('|'),
		columns: columns.map((field, index) => ({
			index,
			letter: String.fromCharCode(65 + index),
			heading: field,
			field,
			also: null,
			unit: null,
			how: ''
		})),
		rows: rows.map(({ line, part = 0, refused, ...typed }, at) => ({
			line: line ?? at + 2,
			part,
			cells: typedRow(typed).cells,
			problems: refused
				? [{ column: 'B', field: refused, text: 'ten', reason: 'no length', place: 'row', offers: null }]
				: [],
			notes: [],
			status: 'opening',
			why: null,
			reason: null
		})),
		questions: [],
		problems: [],
		notes: []
	};
}

/** Rows of a job; ids are `a`, `b`, `c` … from the top. */
const jobOf = (...typed: readonly Typed[]): OpeningRow[] =>
	typed.map((one, at) => ({ id: String.fromCharCode(97 + at), cells: typedRow(one).cells }));

const sizes: readonly InputId[] = ['mark', 'quantity', 'openingWidth', 'openingHeight'];
const c101: Typed = { mark: 'C-101', quantity: '4', openingWidth: `10'-0"`, openingHeight: `4'-0"` };
const c102: Typed = { mark: 'C-102', quantity: '1', openingWidth: `12'-6"`, openingHeight: `4'-0"` };
const c103: Typed = { mark: 'C-103', quantity: '2', openingWidth: `8'-0"`, openingHeight: `7'-0"` };

/** A comparison in short words: `+C-104 after b`, `-c`, `a quantity 4→2`. */
function inShort({ changes }: ScheduleComparison): string[] {
	return changes.flatMap((change) => {
		switch (change.kind) {
			case 'added':
				return [`+${typedText(change.cells.mark)} after ${change.after ?? 'nothing'}`];
			case 'removed':
				return [`-${change.rows.map(({ id }) => id).join('')}`];
			case 'changed':
				return change.cells.map(
					({ field, from, to }) => `${change.row.id} ${field} ${typedText(from)}→${typedText(to)}`
				);
		}
	});
}

/** The rows after all that is chosen, as the server would store them. */
function apply(
	comparison: ScheduleComparison,
	rows: readonly OpeningRow[],
	chosen: readonly string[] = comparison.changes.flatMap((change) => choicesOf(change).map(({ id }) => id))
): OpeningRow[] {
	const changes = chosenChanges(comparison, rows, new Set(chosen), (line, part) => `new-${line}-${part}`);
	const applied = applyChanges(
		rows.map((row) => ({ ...row, removed: false })),
		changes,
		{ reinstate: false }
	);
	if (!applied.ok) throw new Error(JSON.stringify(applied));
	return applied.rows.flatMap(({ id, cells, removed }) => (removed ? [] : [{ id, cells }]));
}

describe('a schedule that comes again', () => {
	it('changes nothing when it says the same, however sizes are written and rows are ordered', () => {
		const file = fileOf(sizes, [
			{ ...c103, openingWidth: '96', openingHeight: '84 in' },
			{ ...c101, mark: 'c-101', openingWidth: '120"' },
			{ ...c102, openingWidth: `12 1/2 ft`, openingHeight: '1219.2 mm' }
		]);
		const comparison = compareSchedule(file, jobOf(c101, c102, c103), {});
		expect(comparison).toEqual({ changes: [], renames: [], unchanged: 3 });
	});

	it('tells what was added, removed and changed, cell by cell', () => {
		const file = fileOf(sizes, [
			c101,
			{ mark: 'C-101A', quantity: '1', openingWidth: `3'-0"`, openingHeight: `3'-0"` },
			{ ...c102, openingWidth: `13'-0"`, quantity: '2' }
		]);
		const comparison = compareSchedule(file, jobOf(c101, c102, c103), {});
		expect(inShort(comparison)).toEqual([
			'+C-101A after a',
			'b quantity 1→2',
			`b openingWidth 12'-6"→13'-0"`,
			'-c'
		]);
		expect(comparison.unchanged).toBe(1);
		// Removing is not chosen by itself.
		expect(usualChoices(comparison)).toEqual(['added:3.0', 'cell:b:quantity', 'cell:b:openingWidth']);
		expect(apply(comparison, jobOf(c101, c102, c103), usualChoices(comparison)).map(({ id }) => id)).toEqual([
			'a',
			'new-3-0',
			'b',
			'c'
		]);
	});

	it('takes a mark that was split as fewer of it and a new one', () => {
		const file = fileOf(sizes, [
			{ ...c101, quantity: '2' },
			{ ...c101, mark: 'C-101B', quantity: '2' }
		]);
		expect(inShort(compareSchedule(file, jobOf(c101), {}))).toEqual(['a quantity 4→2', '+C-101B after a']);
	});

	it('puts new rows where they stand in the file', () => {
		const file = fileOf(sizes, [
			{ ...c101, mark: 'A-1' },
			{ ...c101, mark: 'A-2' },
			c102,
			{ ...c101, mark: 'D-1' },
			{ ...c101, mark: 'D-2' },
			c103
		]);
		const job = jobOf(c102, { mark: 'C-102', openingNumber: '1' }, c103);
		const comparison = compareSchedule(file, job, {});
		expect(apply(comparison, job, usualChoices(comparison)).map(({ cells }) => cells.mark)).toEqual([
			'A-1',
			'A-2',
			'C-102',
			'C-102',
			'D-1',
			'D-2',
			'C-103'
		]);
	});

	it('goes to the end when the job has none of its rows', () => {
		const comparison = compareSchedule(fileOf(sizes, [c103]), jobOf(c101, c102), {});
		expect(inShort(comparison)).toEqual(['+C-103 after b', '-a', '-b']);
	});

	it('offers to clear what is blank under a column of the file, and leaves it by itself', () => {
		const file = fileOf(
			[...sizes, 'location'],
			[{ mark: 'C-101', openingWidth: `10'`, openingHeight: `4'` }]
		);
		const job = jobOf({ ...c101, location: 'Stall 7', phase: 'North', finish: 'mill' });
		const comparison = compareSchedule(file, job, {});
		// No column for phase and finish; a quantity is never blank.
		expect(inShort(comparison)).toEqual(['a location Stall 7→']);
		expect(usualChoices(comparison)).toEqual([]);
		expect(apply(comparison, job)[0]?.cells.location).toBeUndefined();
	});

	it('takes a cell that could not be read for nothing said', () => {
		const file = fileOf(sizes, [
			{ mark: 'C-101', quantity: '4', openingHeight: `4'`, refused: 'openingWidth' }
		]);
		expect(compareSchedule(file, jobOf(c101), {})).toMatchObject({ changes: [], unchanged: 1 });
	});

	it('leaves single openings alone when the file speaks of whole marks, and takes them with their mark', () => {
		const job = jobOf(c101, { mark: 'C-101', openingNumber: '2', location: 'Stall 9' }, c102);
		expect(inShort(compareSchedule(fileOf(sizes, [c101, c102]), job, {}))).toEqual([]);
		const gone = compareSchedule(fileOf(sizes, [c102]), job, {});
		expect(inShort(gone)).toEqual(['-ab']);
		expect(apply(gone, job).map(({ id }) => id)).toEqual(['c']);
	});

	it('pairs single openings by their numbers when the file has them', () => {
		const job = jobOf(c101, { mark: 'C-101', openingNumber: '2', location: 'Stall 9' });
		const file = fileOf(
			[...sizes, 'openingNumber', 'location'],
			[
				c101,
				{ mark: 'C-101', openingNumber: '3', location: 'Stall 9', line: 2, part: 1 },
				{ mark: 'C-101', openingNumber: '4', location: 'Stall 9', line: 2, part: 2 }
			]
		);
		const comparison = compareSchedule(file, job, {});
		expect(inShort(comparison)).toEqual(['+C-101 after b', '+C-101 after b', '-b']);
		expect(apply(comparison, job).map(({ id }) => id)).toEqual(['a', 'new-2-1', 'new-2-2']);
	});

	it('asks whether a mark was renamed when everything else is the same', () => {
		const job = jobOf(c101, { mark: 'C-101', openingNumber: '2', location: 'Stall 9' }, c102);
		const file = fileOf(sizes, [{ ...c101, mark: 'C-101R' }, c102]);
		const id = 'renamed:a';
		const asked = compareSchedule(file, job, {});
		expect(asked.renames).toEqual([{ id, from: 'C-101', to: 'C-101R', answer: null }]);
		expect(inShort(compareSchedule(file, job, { [id]: 'no' }))).toEqual(['+C-101R after b', '-ab']);
		const renamed = compareSchedule(file, job, { [id]: 'yes' });
		expect(inShort(renamed)).toEqual(['a mark C-101→C-101R']);
		// The row of opening 2 goes along.
		expect(apply(renamed, job).map(({ cells }) => [cells.mark, cells.openingNumber])).toEqual([
			['C-101R', undefined],
			['C-101R', 2],
			['C-102', undefined]
		]);
		// Another size: another thing.
		const other = fileOf(sizes, [{ ...c101, mark: 'C-101R', openingHeight: `5'` }, c102]);
		expect(compareSchedule(other, job, {}).renames).toEqual([]);
	});

	it('takes a mark without both sizes for no other one under a new name', () => {
		const open: Typed = { mark: 'C-104', quantity: '1', openingHeight: `4'` };
		const file = fileOf(sizes, [{ ...open, mark: 'C-105' }]);
		expect(compareSchedule(file, jobOf(open), {}).renames).toEqual([]);
		const low: Typed = { mark: 'C-104', quantity: '1', openingWidth: `4'` };
		expect(compareSchedule(fileOf(sizes, [{ ...low, mark: 'C-105' }]), jobOf(low), {}).renames).toEqual([]);
	});

	it('puts rows without a mark where each of them stands', () => {
		const bare = (inches: number): Typed => ({ openingWidth: `${inches}"` });
		const file = fileOf(sizes, [c101, bare(100), c102, bare(101)]);
		expect(compareSchedule(file, jobOf(c101, c102), {}).changes).toMatchObject([
			{ kind: 'added', line: 3, after: 'a' },
			{ kind: 'added', line: 5, after: 'b' }
		]);
	});

	it('pairs rows of the same mark in their order', () => {
		const job = jobOf(c101, { ...c101, openingWidth: `11'` });
		const file = fileOf(sizes, [c101, { ...c101, openingWidth: `12'` }, { ...c101, openingWidth: `13'` }]);
		expect(inShort(compareSchedule(file, job, {}))).toEqual([`b openingWidth 11'→12'`, '+C-101 after b']);
	});

	it('takes one cell of a row and leaves the other', () => {
		const job = jobOf(c102);
		const file = fileOf(sizes, [{ ...c102, quantity: '3', openingWidth: `14'` }]);
		const [row] = apply(compareSchedule(file, job, {}), job, [cellChoice('a', 'quantity')]);
		expect(row?.cells).toMatchObject({ quantity: 3, openingWidth: job[0]?.cells.openingWidth });
	});
});

describe('openings of their own that are written out', () => {
	const own: readonly InputId[] = [...sizes, 'openingNumber', 'location'];

	it('change nothing where they repeat their mark', () => {
		const job = jobOf(c101, { mark: 'C-101', openingNumber: '3', location: 'At the column' });
		const whole = { openingWidth: `10'-0"`, openingHeight: `4'-0"`, location: 'At the column' };
		const file = fileOf(own, [c101, { mark: 'C-101', openingNumber: '3', ...whole }]);
		expect(compareSchedule(file, job, {})).toMatchObject({ changes: [], unchanged: 2 });
	});

	it('differ where they say something else', () => {
		const job = jobOf(c101, { mark: 'C-101', openingNumber: '3', location: 'At the column' });
		const wider = { mark: 'C-101', openingNumber: '3', location: 'At the column', openingWidth: `11'-0"` };
		const { changes } = compareSchedule(fileOf(own, [c101, wider]), job, {});
		expect(changes.map((change) => (change.kind === 'changed' ? change.cells : []))).toEqual([
			[expect.objectContaining({ field: 'openingWidth', from: null })]
		]);
	});
});

describe('all changes chosen', () => {
	const fields: readonly InputId[] = [...sizes, 'location', 'openingNumber', 'curtain'];
	const row = fc.record(
		{
			mark: fc.constantFrom('A', 'a', 'B', 'C', 'D', 'E'),
			openingNumber: fc.constantFrom('1', '2'),
			quantity: fc.constantFrom('1', '2', '3'),
			openingWidth: fc.constantFrom(`10'`, '120"', `10'-0"`, `12'`, '3048 mm'),
			openingHeight: fc.constantFrom(`4'`, '48', `5'-0"`),
			location: fc.constantFrom('Stall 7', 'Stall 9'),
			curtain: fc.constantFrom('counter-slat', 'light-grille')
		},
		{ requiredKeys: [] }
	);

	it('leave nothing to change (500 random jobs and files)', () => {
		fc.assert(
			fc.property(
				fc.array(row, { maxLength: 9 }),
				fc.array(row, { maxLength: 9 }),
				fc.subarray([...fields]),
				fc.boolean(),
				(typedJob, typedFile, columns, rename) => {
					const job = jobOf(...typedJob.map((one) => one as Typed));
					const file = fileOf(
						columns,
						typedFile.map((one) => one as FileRow)
					);
					const open = compareSchedule(file, job, {});
					const answers = Object.fromEntries(open.renames.map(({ id }) => [id, rename ? 'yes' : 'no']));
					const after = apply(compareSchedule(file, job, answers), job);
					expect(compareSchedule(file, after, {})).toEqual({
						changes: [],
						renames: [],
						unchanged: typedFile.length
					});
				}
			),
			{ numRuns: 500 }
		);
	});
});
