import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EditResult, Figures } from '../changes/answer.ts';
import { applyChanges, type SheetRow } from '../changes/apply.ts';
import type { Change, Edit } from '../changes/message.ts';
import { demoTechnicalBook } from '../shopbook/demo/demo-book.ts';
import { buildEngine } from '../takeoff/engine.ts';
import { readCell } from '../takeoff/cell.ts';
import { inputOf, type Cell, type Cells, type InputId } from '../takeoff/inputs.ts';
import { keysFor } from '../takeoff/keys.ts';
import { WorkedRows } from './worked-rows.ts';

const built = buildEngine(demoTechnicalBook);
if (!built.ok) throw new Error('the demo shop book does not load');
const { engine } = built;

function cell(field: InputId, text: string): Cell {
	const input = inputOf(field);
	const reading = readCell(input, text, { measures: 'imperial', keys: keysFor(demoTechnicalBook, input) });
	if (!reading.ok) throw new Error(reading.reason);
	return reading.cell;
}

/** Opening A of the demo shop book. */
const typed: Partial<Record<InputId, string>> = {
	openingWidth: `10'`,
	openingHeight: `4'`,
	curtain: 'counter-slat',
	hood: 'steel-24ga',
	mounting: 'faceOfWall',
	guide: 'counter-face',
	leftSubstrate: 'groutedBlock',
	rightSubstrate: 'groutedBlock',
	fixing: 'standard',
	operation: 'tubeMotor',
	driveSide: 'right'
};

const cellsOf = (mark: string, quantity: number): Cells => ({
	...Object.fromEntries(Object.entries(typed).map(([field, text]) => [field, cell(field as InputId, text)])),
	mark,
	quantity
});

const inch = 25_400_000;

function rowsOfTwoMarks(): WorkedRows {
	const rows = new WorkedRows(engine, 'imperial');
	rows.adopt(
		[
			{ id: 'a', cells: cellsOf('A', 3) },
			{ id: 'b', cells: cellsOf('B', 1) }
		],
		1
	);
	rows.show([]);
	return rows;
}

const widen: Edit = {
	id: 'e1',
	title: 'Opening width of A',
	changes: [
		{
			kind: 'setCell',
			row: 'a',
			field: 'openingWidth',
			before: cell('openingWidth', `10'`) as never,
			after: cell('openingWidth', `11'`) as never
		}
	]
};

const result = (part: Partial<EditResult>): EditResult => ({
	revision: 2,
	rows: [],
	order: null,
	removed: [],
	figures: {},
	undo: null,
	redo: null,
	...part
});

/** What a server sends that comes to the same for a row, except for one quantity. */
const theirFigures = (rows: WorkedRows, id: string, guideDistance: number): Figures =>
	engine.quantities.map((quantity) =>
		quantity.id === 'guideDistance' ? guideDistance : rows.figure(id, quantity.id)
	);

describe('rows with the edits on their way on top', () => {
	it('works out again only the mark that an edit touches', () => {
		const rows = rowsOfTwoMarks();
		const other = rows.takeoff('b');
		// 10'-0" + 2 × 1/4", the setback of the demo's counter-face guide.
		expect(rows.figure('a', 'guideDistance')).toBe(120.5 * inch);
		const change = rows.show([widen]);
		expect([...(change?.rows ?? [])]).toEqual(['a']);
		expect(rows.figure('a', 'guideDistance')).toBe(132.5 * inch);
		expect(rows.takeoff('b')).toBe(other);
	});

	it('goes back to the stored value when the edit is dropped', () => {
		const rows = rowsOfTwoMarks();
		rows.show([widen]);
		rows.show([]);
		expect(rows.figure('a', 'guideDistance')).toBe(120.5 * inch);
		expect(rows.show([])).toBeNull();
	});

	it('takes what the server stored, also where it differs from what was sent', () => {
		const rows = rowsOfTwoMarks();
		rows.show([widen]);
		rows.store(
			result({
				rows: [{ id: 'a', cells: { ...cellsOf('A', 3), openingWidth: cell('openingWidth', `12'`) } }]
			})
		);
		rows.show([]);
		expect(rows.figure('a', 'guideDistance')).toBe(144.5 * inch);
	});

	it('shows the server’s figure where it differs, until the row changes', () => {
		const rows = rowsOfTwoMarks();
		const same = rows.keepDiffering({ a: theirFigures(rows, 'a', 120.5 * inch) }, []);
		expect([...same]).toEqual([]);
		const differing = rows.keepDiffering({ a: theirFigures(rows, 'a', 121 * inch) }, []);
		expect([...differing]).toEqual(['a']);
		expect(rows.figure('a', 'guideDistance')).toBe(121 * inch);
		rows.show([widen]);
		expect(rows.figure('a', 'guideDistance')).toBe(132.5 * inch);
	});

	it('takes no figure of a server that computes other quantities', () => {
		const rows = rowsOfTwoMarks();
		const theirs = theirFigures(rows, 'a', 121 * inch);
		expect([...rows.keepDiffering({ a: [...theirs, 1] }, [])]).toEqual([]);
		expect(rows.figure('a', 'guideDistance')).toBe(120.5 * inch);
	});

	it('takes no figure of the server for a row with an edit on its way', () => {
		const rows = rowsOfTwoMarks();
		const theirs = {
			a: theirFigures(rows, 'a', 121 * inch),
			b: theirFigures(rows, 'b', 122 * inch)
		};
		expect([...rows.keepDiffering(theirs, [widen])]).toEqual(['b']);
		expect(rows.figure('a', 'guideDistance')).toBe(120.5 * inch);
		expect(rows.figure('b', 'guideDistance')).toBe(122 * inch);
	});

	it('takes another order of the server, also where nothing else changed, as after an undo', () => {
		const rows = rowsOfTwoMarks();
		rows.store(result({ order: ['b', 'a'] }));
		expect(rows.show([])).toEqual({ rows: new Set(), order: true });
		expect(rows.order).toEqual(['b', 'a']);
		expect([rows.placeOf('a'), rows.placeOf('b')]).toEqual([1, 0]);
	});

	it('knows the rows of a mark’s own openings, and what each row stands for', () => {
		const rows = rowsOfTwoMarks();
		rows.show([
			{
				id: 'e2',
				title: 'Own row for A.2',
				changes: [{ kind: 'addRow', row: 'a2', after: 'a', cells: { mark: 'A', openingNumber: 2 } }]
			}
		]);
		expect(rows.order).toEqual(['a', 'a2', 'b']);
		expect(rows.markRow('A')?.id).toBe('a');
		expect(rows.ownRows('A').map(({ id }) => id)).toEqual(['a2']);
		expect([rows.takeoff('a')?.quantity, rows.takeoff('a2')?.quantity]).toEqual([2, 1]);
		expect(rows.figure('a2', 'guideDistance')).toBe(120.5 * inch);
	});

	it('gives a row its place, and the job its openings and checks', () => {
		const rows = rowsOfTwoMarks();
		expect([rows.placeOf('a'), rows.placeOf('b'), rows.placeOf('c')]).toEqual([0, 1, -1]);
		expect(rows.tally.openings).toBe(4);
	});
});

/** Edits over a few marks, so that they meet: cells, new rows, rows that go and rows that move. */
const randomEdits = fc.array(
	fc.record({
		kind: fc.constantFrom('width', 'mark', 'number', 'add', 'remove', 'move', 'store', 'storeFirst'),
		row: fc.nat(5),
		other: fc.nat(5),
		mark: fc.constantFrom('A', 'B', 'C'),
		inches: fc.integer({ min: 90, max: 120 })
	}),
	{ maxLength: 14 }
);

describe('rows that are worked out again only where they changed', () => {
	it('are the same as when all are worked out anew (brute force over random edits)', () => {
		fc.assert(
			fc.property(randomEdits, (steps) => {
				const rows = new WorkedRows(engine, 'imperial');
				let stored: readonly SheetRow[] = [
					{ id: 'a', cells: cellsOf('A', 3), removed: false },
					{ id: 'b', cells: cellsOf('B', 1), removed: false }
				];
				let waiting: Edit[] = [];
				rows.adopt(stored, 1);
				rows.show(waiting);
				for (const [at, step] of steps.entries()) {
					const ids = rows.order;
					const row = ids[step.row % Math.max(1, ids.length)];
					const other = ids[step.other % Math.max(1, ids.length)] ?? null;
					const cells = rows.row(row ?? '')?.cells ?? {};
					const set = (field: InputId, after: Cell): Change[] =>
						row === undefined
							? []
							: [
									{
										kind: 'setCell',
										row,
										field,
										before: (cells[field] ?? null) as never,
										after: after as never
									}
								];
					const changes = ((): Change[] => {
						switch (step.kind) {
							case 'width':
								return set('openingWidth', cell('openingWidth', `${step.inches}"`));
							case 'mark':
								return set('mark', step.mark);
							case 'number':
								return set('openingNumber', typeof cells.openingNumber === 'number' ? null : 1);
							case 'add':
								return [{ kind: 'addRow', row: `r${at}`, after: other, cells: cellsOf(step.mark, 2) }];
							case 'remove':
								return row === undefined ? [] : [{ kind: 'removeRow', row, after: null, cells: cells }];
							case 'move':
								return row === undefined || row === other ? [] : [{ kind: 'moveRow', row, after: other }];
							default:
								return [];
						}
					})();
					const [first] = waiting;
					if ((step.kind === 'store' || step.kind === 'storeFirst') && first) {
						const applied = applyChanges(stored, first.changes, { reinstate: false });
						if (applied.ok) {
							stored = applied.rows.filter(({ removed }) => !removed);
							rows.store(
								result({
									rows: stored.filter(({ id }) => applied.touched.includes(id)),
									removed: [...applied.removed],
									order: applied.reordered ? stored.map(({ id }) => id) : null
								})
							);
						}
						waiting = waiting.slice(1);
					} else if (changes.length > 0) {
						waiting = [...waiting, { id: `e${at}`, title: 'Edit', changes }];
					}
					rows.show(waiting);

					const anew = new WorkedRows(engine, 'imperial');
					anew.adopt(stored, 1);
					anew.show(waiting);
					expect(rows.order).toEqual(anew.order);
					expect(rows.tally).toEqual(anew.tally);
					for (const id of anew.order) {
						expect(rows.row(id)).toEqual(anew.row(id));
						expect(rows.placeOf(id)).toBe(anew.placeOf(id));
						expect(rows.figure(id, 'guideDistance')).toBe(anew.figure(id, 'guideDistance'));
						expect(rows.takeoff(id)?.openingIds).toEqual(anew.takeoff(id)?.openingIds);
						expect(rows.takeoff(id)?.checks.map(({ code }) => code)).toEqual(
							anew.takeoff(id)?.checks.map(({ code }) => code)
						);
					}
				}
			}),
			{ numRuns: 60 }
		);
	});
});
