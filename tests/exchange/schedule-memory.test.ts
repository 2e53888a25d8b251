/** How a kind of file was read before, held against the next file. */
import { describe, expect, it } from 'vitest';
import { kindMapping, recall, type KindMapping } from '../../src/lib/exchange/schedule-memory.ts';
import { readSchedule, type ScheduleMapping, type SchedulePreview } from '../../src/lib/exchange/schedule.ts';
import type { Sheet } from '../../src/lib/exchange/sheet.ts';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';

const sheetOf = (...lines: readonly string[]): Sheet => ({
	name: 'Schedule',
	rowWord: 'row',
	rows: lines.map((line, at) => ({
		line: at + 1,
		cells: line.split('|').map((cell) => cell.trim()),
		hidden: false
	})),
	merges: [],
	hidden: false
});

const reading =
	(sheet: Sheet) =>
	(mapping: ScheduleMapping): SchedulePreview =>
		readSchedule([sheet], {
			measures: 'imperial',
			keysFor: (input) => keysFor(demoTechnicalBook, input),
			mapping
		});

const headings = 'Mark | Qty | Ref 7 | Height';
const row = (mark: string): string => `${mark} | 1 | 10'-0" | 4'-0"`;

describe('what was decided of a kind of file', () => {
	const kind: KindMapping = {
		sheet: null,
		headerOffset: 0,
		columns: [{ place: 2, field: 'openingWidth' }],
		answers: { sizeOrder: 'heightFirst' }
	};

	it('holds for its columns and answers', () => {
		const next = reading(sheetOf('Ferry terminal', headings, row('C-1')));
		expect(recall(kind, {}, next)).toMatchObject({
			columns: { '2': 'openingWidth' },
			answers: { sizeOrder: 'heightFirst' }
		});
	});

	it('holds for the answers only, where other headings are chosen now', () => {
		const next = reading(sheetOf(headings, row('C-1'), 'Mark | Qty | Ref 9 | Height', row('C-2')));
		expect(recall(kind, { headerRow: 3 }, next)).toEqual({
			headerRow: 3,
			answers: { sizeOrder: 'heightFirst' }
		});
	});

	it('holds for the answers only, where the headings would stand above the first row', () => {
		const chosen = reading(sheetOf('A | B | C | D', 'Ferry terminal', headings, row('C-1')));
		// The row of letters stands two above the headings.
		const above = kindMapping({ headerRow: 1, columns: { '0': 'mark', '2': 'openingWidth' } }, chosen);
		expect(above?.headerOffset).toBe(-2);
		const next = reading(sheetOf(headings, row('C-1')));
		expect(above && recall(above, {}, next)).toEqual({ answers: {} });
	});
});
