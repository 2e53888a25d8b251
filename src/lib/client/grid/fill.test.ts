import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCell } from '../../takeoff/cell.ts';
import { inputOf, inputs, type Cell, type InputId, type Measures } from '../../takeoff/inputs.ts';
import { fillCells, seriesOf } from './fill.ts';

const cell = (id: InputId, text: string, measures: Measures = 'imperial'): Cell => {
	const read = readCell(inputOf(id), text, { measures, keys: ['counter-slat', 'plain-slat'] });
	if (!read.ok) throw new Error(read.reason);
	return read.cell;
};

/** The series as it is typed, or why there is none. */
function series(
	id: InputId,
	texts: readonly string[],
	count: number,
	measures: Measures = 'imperial'
): unknown {
	const source = texts.map((text) => cell(id, text, measures));
	const read = seriesOf(inputOf(id), source, count, measures);
	if (!read.ok) return read.reason;
	return read.cells.map((each) => (typeof each === 'object' && each !== null ? each.typed : each));
}

describe('the same again', () => {
	it('repeats', () => {
		expect(fillCells(['a', 'b'], 5)).toEqual(['a', 'b', 'a', 'b', 'a']);
		expect(fillCells([null], 2)).toEqual([null, null]);
		expect(fillCells([], 2)).toEqual([]);
	});
});

describe('a series', () => {
	it('of counts goes up by one, or by the step of two', () => {
		expect(series('quantity', ['4'], 3)).toEqual([5, 6, 7]);
		expect(series('quantity', ['10', '8'], 3)).toEqual([6, 4, 2]);
		expect(series('quantity', ['4', '4'], 2)).toEqual([4, 4]);
	});

	// 12'-6" + 4" = 12'-10", + 4" = 13'-2"; 1/64 in = 396 875 nm is finer than the sixteenth that the job spells.
	it('of lengths goes on by the exact step, spelt as the job spells', () => {
		expect(series('openingWidth', [`12'-2"`, '150'], 3)).toEqual([`12'-10"`, `13'-2"`, `13'-6"`]);
		expect(series('openingWidth', [`8'`], 2)).toEqual([`8'`, `8'`]);
		expect(series('openingWidth', ['10 1/64"', '10 1/32"'], 2)).toEqual(['10 3/64"', `0'-10 1/16"`]);
		expect(series('openingWidth', ['2400', '2450.5'], 2, 'metric')).toEqual(['2501 mm', '2551.5 mm']);
	});

	// 10 3/64 in = 10.046 875 × 25.4 = 255.190 625 mm; 10 1/16 in = 10.0625 × 25.4 = 255.5875 mm.
	it('of lengths stays in the job’s unit where it is finer than the job spells', () => {
		expect(series('openingWidth', ['10 1/64"', '10 1/32"'], 2, 'metric')).toEqual([
			'255.190625 mm',
			'255.5875 mm'
		]);
	});

	it('of marks needs a step: two that are the same lead nowhere', () => {
		expect(series('mark', ['C-1', 'C-1'], 2)).toContain('no step leads on from C-1, C-1');
		expect(series('location', ['Stall 9', 'Stall 9'], 2)).toEqual(['Stall 9', 'Stall 9']);
	});

	it('of letters does not go from capitals to small ones', () => {
		expect(series('location', ['Bay A', 'Bay b'], 2)).toEqual(['Bay A', 'Bay b']);
	});

	it('of lengths gives exactly the nanometres', () => {
		const read = seriesOf(
			inputOf('openingWidth'),
			[cell('openingWidth', '1 mm'), cell('openingWidth', '1/64"')],
			2,
			'imperial'
		);
		// 1 mm = 1 000 000 nm and 1/64 in = 396 875 nm: the step is −603 125 nm, and the next would be −206 250 nm.
		expect(read.ok ? '' : read.reason).toContain('ends after 0 of 2');
		const up = seriesOf(
			inputOf('openingWidth'),
			[cell('openingWidth', '1/64"'), cell('openingWidth', '1 mm')],
			2,
			'imperial'
		);
		// 1 000 000 + 603 125 = 1 603 125; + 603 125 = 2 206 250.
		expect(up.ok && up.cells).toMatchObject([{ amount: 1_603_125 }, { amount: 2_206_250 }]);
	});

	it('of other measures steps in the unit of the job, without the noise of floats', () => {
		expect(series('designPressure', ['20', '20.1'], 3)).toEqual(['20.2 psf', '20.3 psf', '20.4 psf']);
		expect(series('designPressure', ['0.8', '0.9'], 2, 'metric')).toEqual(['1 kPa', '1.1 kPa']);
		expect(series('supplyVoltage', ['120'], 2)).toEqual(['120', '120']);
	});

	it('of text goes on by the number or letter at its end', () => {
		expect(series('mark', ['C-101'], 3)).toEqual(['C-102', 'C-103', 'C-104']);
		expect(series('mark', ['C-101', 'C-103'], 2)).toEqual(['C-105', 'C-107']);
		expect(series('mark', ['C-098'], 3)).toEqual(['C-099', 'C-100', 'C-101']);
		expect(series('mark', ['C-101A'], 3)).toEqual(['C-101B', 'C-101C', 'C-101D']);
		expect(series('mark', ['A', 'B'], 2)).toEqual(['C', 'D']);
		expect(series('location', ['Stall 9'], 2)).toEqual(['Stall 10', 'Stall 11']);
	});

	it('of other text and of keys repeats', () => {
		expect(series('location', ['Ticket hall'], 2)).toEqual(['Ticket hall', 'Ticket hall']);
		expect(series('location', ['Quay 1', 'Deck 1'], 3)).toEqual(['Quay 1', 'Deck 1', 'Quay 1']);
		expect(series('curtain', ['counter-slat', 'plain-slat'], 3)).toEqual([
			'counter-slat',
			'plain-slat',
			'counter-slat'
		]);
		expect(seriesOf(inputOf('quantity'), [null, null], 3, 'imperial')).toEqual({
			ok: true,
			cells: [null, null, null]
		});
	});

	it('says why there is none', () => {
		expect(series('quantity', ['1', '2', '4'], 2)).toBe(
			'1, 2, 4 do not go on by one step; select two cells to take the step from'
		);
		expect(series('quantity', ['2', '1'], 2)).toContain('the series ends after 0 of 2 cells: ');
		expect(series('openingWidth', [`2'`, `1'`], 1)).toContain('write a length greater than 0');
		expect(series('quantity', ['9999'], 2)).toContain('ends after 1 of 2 cells');
		expect(series('mark', ['C-2', 'C-1'], 3)).toBe(
			'the series ends after 1 of 3 cells: nothing comes before it'
		);
		expect(series('mark', ['West'], 2)).toContain('no two marks may be the same');
		expect(series('quantity', ['1', ''], 2)).toContain('select only filled ones');
	});

	it('of marks never has the same one twice', () => {
		const mark = fc.stringMatching(/^[A-C]?-?[0-9]{0,3}[A-CZ]?$/u).filter((text) => text.trim() !== '');
		fc.assert(
			fc.property(
				fc.array(mark, { minLength: 1, maxLength: 3 }),
				fc.integer({ min: 1, max: 40 }),
				(source, count) => {
					const read = seriesOf(inputOf('mark'), source, count, 'imperial');
					if (!read.ok) return;
					expect(new Set(read.cells).size).toBe(count);
					for (const each of read.cells) expect(source).not.toContain(each);
				}
			),
			{ numRuns: 2000 }
		);
	});

	it('has only cells that can be typed', () => {
		const measured = inputs.filter(({ kind }) => kind !== 'text' && kind !== 'key');
		const figure = fc.double({ min: 0.001, max: 500, noNaN: true }).map((value) => value.toFixed(3));
		fc.assert(
			fc.property(
				fc.constantFrom(...measured),
				fc.constantFrom<Measures>('imperial', 'metric'),
				fc.array(figure, { minLength: 1, maxLength: 2 }),
				(input, measures, texts) => {
					const source = texts.flatMap((text) => {
						const read = readCell(input, text, { measures, keys: [] });
						return read.ok && read.cell !== null ? [read.cell] : [];
					});
					const read = seriesOf(input, source, 5, measures);
					if (!read.ok) return;
					for (const each of read.cells) {
						if (typeof each !== 'object' || each === null) continue;
						expect(readCell(input, each.typed, { measures, keys: [] })).toEqual({ ok: true, cell: each });
					}
				}
			),
			{ numRuns: 2000 }
		);
	});
});
