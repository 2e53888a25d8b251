import { describe, expect, it } from 'vitest';
import { readCell, showCell } from '../../takeoff/cell.ts';
import { inputOf, type Cell, type InputId, type Measures } from '../../takeoff/inputs.ts';
import { stepBetween, steppedSeries } from './series-steps.ts';

function cell(field: InputId, text: string, measures: Measures = 'imperial'): Cell {
	const reading = readCell(inputOf(field), text, { measures, keys: [] });
	if (!reading.ok) throw new Error(reading.reason);
	return reading.cell;
}

function series(
	field: InputId,
	first: string,
	step: string,
	count: number,
	measures: Measures = 'imperial'
): unknown {
	const made = steppedSeries(inputOf(field), cell(field, first, measures), step, count, measures);
	return made.ok ? made.cells.map((each) => showCell(inputOf(field), each, measures)) : made.reason;
}

describe('a series by its step', () => {
	it('steps lengths by a length, exactly', () => {
		// 9'-11 3/4" + 1/8" = 9'-11 7/8", then 10'-0"
		expect(series('openingWidth', `9'-11 3/4"`, '1/8', 3)).toEqual([`9'-11 3/4"`, `9'-11 7/8"`, `10'-0"`]);
		expect(series('openingWidth', '3000', '-0.5', 3, 'metric')).toEqual(['3000 mm', '2999.5 mm', '2999 mm']);
	});

	it('steps counts, and the number or letter at the end of a text', () => {
		expect(series('quantity', '4', '3', 3)).toEqual(['4', '7', '10']);
		expect(series('mark', 'C-098', '2', 3)).toEqual(['C-098', 'C-100', 'C-102']);
		expect(series('mark', 'C-101A', '1', 3)).toEqual(['C-101A', 'C-101B', 'C-101C']);
		expect(series('mark', 'C-3', '-1', 3)).toEqual(['C-3', 'C-2', 'C-1']);
	});

	it('steps other measures in the unit they are typed in', () => {
		expect(series('designPressure', '20', '2.5', 3)).toEqual(['20 psf', '22.5 psf', '25 psf']);
		expect(series('designPressure', '20', '-2.5', 3)).toEqual(['20 psf', '17.5 psf', '15 psf']);
	});

	it('says why there is none, and never makes half of one', () => {
		expect(series('quantity', '2', '-1', 3)).toMatch(/ends after .+ write a whole number from 1/u);
		expect(series('quantity', '2', 'x', 3)).toBe(
			'"x" is no step; write a whole number, 1 or -1 for instance'
		);
		expect(series('openingWidth', '10', 'wide', 3)).toMatch(/write /u);
		expect(series('location', 'Quay', '1', 2)).toMatch(/ends in no number or letter/u);
		expect(series('mark', 'C-1', '-1', 4)).toMatch(/nothing comes before it/u);
		expect(steppedSeries(inputOf('mark'), null, '1', 2, 'imperial').ok).toBe(false);
	});

	it('proposes the step between two cells', () => {
		expect(stepBetween(cell('openingWidth', `10'`), cell('openingWidth', `10'-6 1/2"`), 'imperial')).toBe(
			'6 1/2"'
		);
		expect(stepBetween(cell('openingWidth', '3 m'), cell('openingWidth', '2.5 m'), 'metric')).toBe('-500 mm');
		expect(stepBetween(cell('quantity', '2'), null, 'imperial')).toBe('1');
		expect(stepBetween(cell('quantity', '2'), cell('quantity', '5'), 'imperial')).toBe('3');
		expect(stepBetween(cell('mark', 'C-10'), cell('mark', 'C-20'), 'imperial')).toBe('10');
		expect(stepBetween(cell('mark', 'C-10'), cell('mark', 'D-20'), 'imperial')).toBe('1');
		expect(stepBetween(cell('openingWidth', `10'`), null, 'imperial')).toBe('0');
	});
});
