import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLineLoad, parsePressure, parseStrength, parseVoltage } from './measure.ts';

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

describe('parseStrength', () => {
	it.each([
		['3000', 3000],
		['3000 psi', 3000],
		['3000PSI', 3000],
		['4 ksi', 4000],
		['4.5 ksi', 4500],
		['58000 lb/in²', 58_000],
		['200000', 200_000]
	])('%s is %d psi', (text, psi) => {
		expect(parseStrength(text, 'psi')).toEqual({ ok: true, psi });
	});

	it('reads megapascals: 1 psi = 6894.757 Pa (UN/ECE Recommendation 20, code PS)', () => {
		for (const text of ['20.7', '20,7', '20.7 MPa', '20.7 N/mm²', '20.7 n/mm2', '20700 kPa']) {
			const read = parseStrength(text, 'MPa');
			expect(read.ok && read.psi).toBeCloseTo(20.7e6 / 6894.757, 3);
		}
	});

	it.each([
		['', 'nothing is there'],
		['0', 'more than 0'],
		['-3000', 'not one plain figure'],
		['3,000 psi', 'write it without the comma'],
		['3000 psf', 'not a unit of strength'],
		['3000 lb', 'not a unit of strength'],
		['C25/30', 'not one plain figure'],
		["f'c 3000", 'not one plain figure'],
		['3000/4000', 'not a unit of strength'],
		['200001', 'more than 200000 psi'],
		['3000 MPa', 'more than 200000 psi'],
		['1'.repeat(61), 'longer than 60']
	])('refuses %j', (text, expected) => {
		const read = parseStrength(text, 'psi');
		expect(read.ok ? '' : read.reason).toContain(expected);
		expect(read.ok ? '' : read.reason).toMatch(/; write /u);
	});

	it('what is usual in psi is too much in a metric job, and says so', () => {
		expect(parseStrength('3000', 'MPa')).toEqual({
			ok: false,
			reason: 'more than 200000 psi (1379 MPa); write one strength such as 20.7 MPa'
		});
	});
});

describe('parseLineLoad', () => {
	it.each([
		['120', 120],
		['120 plf', 120],
		['120 lb/ft', 120],
		['120 lbf/ft', 120],
		// 12 in in a foot
		['10 lb/in', 120]
	])('%s is %d lb/ft', (text, poundsPerFoot) => {
		expect(parseLineLoad(text, 'lb/ft')).toEqual({ ok: true, poundsPerFoot });
	});

	it('reads newtons and kilograms: 1 lbf/ft = 14.5939 N/m (UN/ECE Recommendation 20, code F17), 1 kg = 9.80665 N', () => {
		for (const [text, newtons] of [
			['1.75', 1750],
			['1,75', 1750],
			['1.75 kN/m', 1750],
			['1.75 N/mm', 1750],
			['1750 N/m', 1750],
			['100 kg/m', 980.665]
		] as const) {
			const read = parseLineLoad(text, 'kN/m');
			expect(read.ok && read.poundsPerFoot).toBeCloseTo(newtons / 14.5939, 3);
		}
	});

	it.each([
		['', 'nothing is there'],
		['0', 'more than 0'],
		['-120', 'not one plain figure'],
		['120 lb', 'not a unit of load along a line'],
		['120 psf', 'not a unit of load along a line'],
		['yes', 'not one plain figure'],
		['100001', 'more than 100000 lb/ft'],
		['1,200', 'write it without the comma']
	])('refuses %j', (text, expected) => {
		const read = parseLineLoad(text, 'lb/ft');
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
			for (const read of [parseStrength(text, 'psi'), parseStrength(text, 'MPa')]) {
				if (read.ok) expect(read.psi).toBeGreaterThan(0);
			}
			for (const read of [parseLineLoad(text, 'lb/ft'), parseLineLoad(text, 'kN/m')]) {
				if (read.ok) expect(read.poundsPerFoot).toBeGreaterThan(0);
			}
			const volts = parseVoltage(text);
			if (volts.ok) expect(volts.volts).toBeGreaterThan(0);
		})
	);
});
