import { describe, expect, it } from 'vitest';
import { inches, plumb, trueOpening } from '../../fieldwork/sample-measures.ts';
import { blankEntries, entriesOf, isTyped, otherSign, readEntries, readEntry } from './measure-entries.ts';

const drawn = { width: inches(120), height: inches(48) };
const none = { left: [], right: [] };
const typed = (lengths: Readonly<Record<string, string>>, measures: 'imperial' | 'metric' = 'imperial') => {
	const entries = blankEntries(none, measures);
	Object.assign(entries.lengths, lengths);
	return readEntries(entries, measures, drawn);
};

describe('readings as they are typed', () => {
	it('are understood in the unit of the job, and said back', () => {
		const read = typed({ widthBottom: `10'-0 1/8"`, widthMiddle: '120.25', heightLeft: '1219 mm' });
		expect(read.refused).toEqual(new Map());
		expect(read.readings.widths).toEqual({ bottom: inches(120.125), middle: inches(120.25), top: null });
		// 1219 mm · 1 000 000
		expect(read.readings.heights.left).toBe(1_219_000_000);
		expect(read.understood.get('widthMiddle')).toBe(`10'-0 1/4"`);
		expect(typed({ widthTop: '3050' }, 'metric').readings.widths.top).toBe(3_050_000_000);
	});

	it('go up or down where they may, with any dash for a minus', () => {
		for (const text of ['-1/8', '−1/8', '– 1/8"', '-0.125'])
			expect(readEntry(text, { title: 'Rise', range: 'signed' }, 'imperial')).toEqual({
				ok: true,
				nm: -3_175_000
			});
		expect(readEntry('-0', { title: 'Rise', range: 'signed' }, 'imperial')).toEqual({ ok: true, nm: 0 });
		expect(typed({ sillRise: '-1/8' }).understood.get('sillRise')).toBe('1/8" lower at the right');
		expect([otherSign('1/8'), otherSign('- 1/8'), otherSign('+1/8'), otherSign(' ')]).toEqual([
			'-1/8',
			'1/8',
			'-1/8',
			''
		]);
	});

	it('are refused with what would be right', () => {
		expect(typed({ widthTop: '-120' }).refused.get('widthTop')).toBe(
			`Width at the head is -10'-0"; enter more than 0.`
		);
		expect(typed({ headroom: '-1' }).refused.get('headroom')).toContain('enter 0 or more');
		expect(typed({ widthTop: 'wide' }).refused.get('widthTop')).toMatch(/wide.*\.$/u);
		expect(typed({ widthTop: '1/3' }).refused.get('widthTop')).toBeDefined();
		const { readings } = typed({ widthTop: 'wide', widthBottom: '120' });
		expect(readings.widths).toEqual({ bottom: inches(120), middle: null, top: null });
	});

	it('notice a figure that belongs to another unit', () => {
		// 3048 in = 254'-0"; 3048 mm = 120 in, as drawn.
		expect(typed({ widthTop: '3048' }).refused.get('widthTop')).toBe(
			`3048 is 254'-0" in this job, where 10'-0" is drawn; write 3048 mm if that is what the tape says.`
		);
		expect(typed({ widthTop: '3.05' }).refused.get('widthTop')).toContain('write 3.05 m if');
		expect(typed({ heightLeft: '4' }).refused.get('heightLeft')).toContain('write 4 ft if');
		// √(120² + 48²) = 129.24 in = 3283 mm.
		expect(typed({ diagonalRising: '3283' }).refused.get('diagonalRising')).toContain('write 3283 mm if');
		expect(typed({ widthTop: '120' }, 'metric').refused.get('widthTop')).toContain('write 120 in if');
		expect(typed({ widthTop: '305' }, 'metric').refused.get('widthTop')).toContain('write 305 cm if');
		// With its unit it is what it says, however far from the drawing.
		expect(typed({ widthTop: '3048"' }).readings.widths.top).toBe(inches(3048));
		// Far from the drawing, but in no unit near it.
		expect(typed({ widthTop: '70' }).readings.widths.top).toBe(inches(70));
	});

	it('of plumb need their height; a height that nobody read at counts for nothing', () => {
		const entries = blankEntries({ left: [inches(4), inches(24)], right: [] }, 'imperial');
		entries.plumb.left[1] = { height: '24', inPlane: '', outOfPlane: '-3/16' };
		entries.plumb.left.push({ height: '', inPlane: '1/8', outOfPlane: '' });
		entries.plumb.left.push({ height: '', inPlane: '', outOfPlane: '' });
		const read = readEntries(entries, 'imperial', drawn);
		expect(read.readings.plumb.left).toEqual([
			{ height: inches(24), inPlane: null, outOfPlane: inches(-0.1875) }
		]);
		expect([...read.refused]).toEqual([
			['left.2.height', 'Enter the height above the finished sill at which this was read.']
		]);
		expect(read.understood.get('left.1.outOfPlane')).toBe('3/16" away from the coil side');
	});

	it('that contradict each other at one height are told', () => {
		const entries = blankEntries(none, 'imperial');
		entries.plumb.right.push(
			{ height: '24', inPlane: '0', outOfPlane: '0' },
			{ height: `2'`, inPlane: '1/8', outOfPlane: '0' }
		);
		expect(readEntries(entries, 'imperial', drawn).troubles).toEqual([
			'The right jamb has two plumb readings at one height that differ; keep one of them.'
		]);
	});

	it('come back from a measure as they were, in both systems', () => {
		const readings = {
			...trueOpening(120, 48, { left: 'groutedBlock', right: 'concrete' }),
			sillRise: -3_175_000,
			// Neither a sixteenth nor a tenth of a millimetre.
			headroom: 610_000_123,
			plumb: { left: plumb([0, -0.0625, 0.125], [46, 0, 0.03125]), right: [] }
		};
		for (const measures of ['imperial', 'metric'] as const) {
			const entries = entriesOf(readings, measures);
			const read = readEntries(entries, measures, drawn);
			expect([read.readings, [...read.refused]]).toEqual([readings, []]);
			expect(isTyped(entries)).toBe(true);
		}
		expect(isTyped(blankEntries({ left: [inches(4)], right: [] }, 'imperial'))).toBe(false);
	});
});
