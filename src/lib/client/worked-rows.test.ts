import { describe, expect, it } from 'vitest';
import type { EditResult } from '../changes/answer.ts';
import type { Edit } from '../changes/message.ts';
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
	rows.adopt([
		{ id: 'a', cells: cellsOf('A', 3) },
		{ id: 'b', cells: cellsOf('B', 1) }
	]);
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
		const same = rows.keepDiffering({ a: { guideDistance: 120.5 * inch } }, []);
		expect([...same]).toEqual([]);
		const differing = rows.keepDiffering({ a: { guideDistance: 121 * inch } }, []);
		expect([...differing]).toEqual(['a']);
		expect(rows.figure('a', 'guideDistance')).toBe(121 * inch);
		rows.show([widen]);
		expect(rows.figure('a', 'guideDistance')).toBe(132.5 * inch);
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
});
