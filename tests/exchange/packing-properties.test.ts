/** What holds for every packing list, whatever stands in it. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readPackingList } from '../../src/lib/exchange/packing-list.ts';
import { sheetOf } from './packing-text.ts';

// prettier-ignore
const cell = fc.constantFrom('', '', 'Mark', 'Qty', 'Shipped', 'B.O.', 'Bal', 'Item', 'C-1', 'Guide', '4', '-2', '2/4', 'crate 3 of 7', 'CRATE 2', 'Page 2 of 3', 'Total', '"', '9.2', '110 12', '1101/2', 'Your order 1042-01 rev 2', 'LH seen from outside', '__proto__', 'é½', '9'.repeat(60), '1,234', '(2)', 'L/R', 'all lengths in mm', 'Crates 1-999 of 999');
const rows = fc.array(fc.array(cell, { minLength: 1, maxLength: 7 }), { minLength: 1, maxLength: 10 });

test('every row below the headings is a line or left out with a reason, once; no count or length is below 0', () => {
	fc.assert(
		fc.property(rows, (below) => {
			const sheet = sheetOf('List', [['Mark', 'Item', 'Qty', 'Length (ft)', 'B.O.', 'Crate'], ...below]);
			const list = readPackingList([sheet], { measures: 'imperial' });
			if (!list.ok) return;
			const told = [...list.lines, ...list.skipped].map(({ line }) => line).sort((a, b) => a - b);
			const there = sheet.rows.map(({ line }) => line).filter((line) => line > list.headerRow);
			expect(told).toEqual(there);
			for (const { quantity, length } of list.lines) {
				expect(quantity ?? 0).toBeGreaterThanOrEqual(0);
				expect(Number.isSafeInteger(length ?? 0) && (length ?? 0) >= 0).toBe(true);
			}
		}),
		{ numRuns: 300 }
	);
});
