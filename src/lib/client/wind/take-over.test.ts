import { describe, expect, it } from 'vitest';
import type { WindCase } from '../../takeoff/wind.ts';
import { takenOver } from './take-over.ts';

const wind: WindCase = {
	edition: 'ASCE 7-16',
	measures: 'imperial',
	speed: 130,
	exposure: 'C',
	roofHeight: 20,
	openingHeight: 10,
	topography: 1,
	groundElevation: 0,
	enclosure: 'enclosed',
	zone: 5,
	area: 85.3
};
const sentence =
	'Design pressure 24.9 psf at allowable level (ASCE 7-16, 130 mph, exposure C, mean roof height 20 ft, top of the opening 10 ft, Kzt 1, ground at 0 ft, enclosed, zone 5, effective wind area 85.3 ft²), confirmed by A. Petrel.';

describe('taking over a confirmed wind pressure', () => {
	it('is the figure as typed, rounded up, and one sentence in the note', () => {
		expect(takenOver(wind, 24.81, ' A. Petrel. ', null)).toEqual({
			ok: true,
			designPressure: { amount: 24.9, unit: 'psf', typed: '24.9 psf' },
			note: sentence
		});
	});

	it('keeps the note that is there', () => {
		const taken = takenOver(wind, 24.9, 'A. Petrel', 'Salt air');
		expect(taken.ok && taken.note).toBe(`Salt air\n${sentence}`);
	});

	it('is in kPa for metric jobs', () => {
		const taken = takenOver({ ...wind, measures: 'metric', speed: 58 }, 1192.3, 'A. Petrel', null);
		if (!taken.ok) throw new Error(taken.reason);
		// 1200 Pa / 47.88026 Pa per psf = 25.0625 psf.
		expect(taken.designPressure).toMatchObject({ unit: 'psf', typed: '1.20 kPa' });
		expect((taken.designPressure as { amount: number }).amount).toBeCloseTo(25.0625, 3);
		expect(taken.note).toContain('Design pressure 1.20 kPa at allowable level (ASCE 7-16, 58 m/s');
	});

	it('says why where the note has no room left: 2000 characters are the most', () => {
		const taken = takenOver(wind, 24.9, 'A. Petrel', 'x'.repeat(1900));
		expect(!taken.ok && taken.reason).toMatch(
			/^the note of the row would be too long: \d+ characters are too many/u
		);
	});
});
