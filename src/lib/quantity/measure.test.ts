import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePressure, parseVoltage } from './measure.ts';

describe('parsePressure', () => {
	it.each([
		['30', 30],
		['30 psf', 30],
		['30 PSF', 30],
		['30 lb/ft²', 30],
		// 1 ft² is 144 in²
		['0.25 psi', 36]
	])('%s is %d psf', (text, psf) => {
		expect(parsePressure(text, 'psf')).toEqual({ ok: true, psf });
	});

	it('reads kilopascals: 1 psf = 47.88026 Pa (UN/ECE Recommendation 20, code K85)', () => {
		for (const text of ['1', '1 kPa', '1000 Pa', '1 kN/m²', '1,0']) {
			const read = parsePressure(text, 'kPa');
			expect(read.ok && read.psf).toBeCloseTo(1000 / 47.88026, 6);
		}
	});

	it.each([
		['', 'nothing is there'],
		['0', 'more than 0'],
		['-30', 'not one plain figure'],
		['+30/-35 psf', 'the larger where inward and outward differ'],
		['±30', 'not one plain figure'],
		['30 psf 20', 'not a unit of pressure'],
		['30 bar', 'not a unit of pressure'],
		['30 constructor', 'not a unit of pressure'],
		['1001', 'more than 1000 psf'],
		['1,5', 'write 1.5'],
		['TBD', 'not one plain figure'],
		['1e2', 'not a unit of pressure'],
		['9'.repeat(61), 'longer than 60']
	])('refuses %j', (text, expected) => {
		const read = parsePressure(text, 'psf');
		expect(read.ok ? '' : read.reason).toContain(expected);
		expect(read.ok ? '' : read.reason).toMatch(/; write /u);
	});
});

describe('parseVoltage', () => {
	it.each([
		['480', 480],
		['480 V', 480],
		['120VAC', 120],
		['24 V DC', 24],
		['277 volts', 277]
	])('%s is %d V', (text, volts) => {
		expect(parseVoltage(text)).toEqual({ ok: true, volts });
	});

	it.each(['', '0', '-120', '120/208', '208/3/60', '120 A', '1,000', '1001', 'battery'])(
		'refuses %j',
		(text) => {
			const read = parseVoltage(text);
			expect(read.ok ? '' : read.reason).toMatch(/; write /u);
		}
	);
});

it('no text throws or gives a figure that is not finite', () => {
	fc.assert(
		fc.property(fc.string({ unit: 'binary', maxLength: 70 }), (text) => {
			for (const read of [parsePressure(text, 'psf'), parsePressure(text, 'kPa')]) {
				if (read.ok) expect(read.psf).toBeGreaterThan(0);
			}
			const volts = parseVoltage(text);
			if (volts.ok) expect(volts.volts).toBeGreaterThan(0);
		})
	);
});
