import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactLength, formatLength, parseLength } from './length.ts';

/** 1 in = 25.4 mm exactly, so 25 400 000 nm; a sixty-fourth is 396 875 nm. */
const inch = 25_400_000;
const foot = 12 * inch;

const inInches = (text: string): unknown => {
	const read = parseLength(text, 'in');
	return read.ok ? read.nm / inch : read.reason;
};
const inMillimetres = (text: string): unknown => {
	const read = parseLength(text, 'mm');
	return read.ok ? read.nm / 1_000_000 : read.reason;
};
const reason = (text: string, unit: 'in' | 'mm' = 'in'): string => {
	const read = parseLength(text, unit);
	return read.ok ? `read as ${read.nm} nm` : read.reason;
};

describe('feet and inches', () => {
	it.each([
		// 12·12 + 6.5
		[`12'-6 1/2"`, 150.5],
		[`12' 6.5"`, 150.5],
		[`150 1/2"`, 150.5],
		[`12 ft 6 in`, 150],
		[`12 ft. 6 1/2 in.`, 150.5],
		[`12 feet 6 inches`, 150],
		[`12'-6½"`, 150.5],
		[`12’-6 ½”`, 150.5],
		[`12′ 6½″`, 150.5],
		[`12'-6''`, 150],
		[`12'–6"`, 150],
		[`6'`, 72],
		[`6 '`, 72],
		// 3·12 + 4 + 5/8
		[`3'-4 5/8"`, 40.625],
		[`3′-4⅝″`, 40.625],
		[`0'-11 15/16"`, 11.9375],
		[`0'-11¹⁵⁄₁₆"`, 11.9375],
		[`83 1/16"`, 83.0625],
		[`½"`, 0.5],
		[`12'-1/2"`, 144.5],
		[`12'-0 1/2"`, 144.5],
		[`12'.5"`, 144.5],
		[`-1/4"`, -0.25],
		[`−1/4"`, -0.25],
		[`-12'-6"`, -150],
		[`1/64"`, 0.015625],
		[`0`, 0],
		[`-0`, 0],
		[`  12'-6"  `, 150],
		[`12'\u00a06"`, 150]
	])('%s is %d in', (text, expected) => {
		expect(inInches(text)).toBe(expected);
		if (/['"′″’”]|ft|in|feet/u.test(text)) expect(parseLength(text, 'mm')).toEqual(parseLength(text, 'in'));
	});

	it('never gives a negative zero', () => {
		expect(Object.is(inInches('-0'), 0)).toBe(true);
	});
});

describe('metric', () => {
	it.each([
		['3.81 m', 3810],
		['3810 mm', 3810],
		['381 cm', 3810],
		['3.81m', 3810],
		['3810', 3810],
		['3810.5', 3810.5],
		['3 metres', 3000],
		['3 m + 81 cm', 3810],
		['3,81 m', 3810],
		['3810,5', 3810.5],
		['0,125 m', 125],
		['0.000001 mm', 0.000001]
	])('%s is %d mm in a metric job', (text, expected) => {
		expect(inMillimetres(text)).toBe(expected);
	});

	it('reads a metric length in an inch job', () => {
		// 3810 / 25.4 = 150
		expect(inInches('3.81 m')).toBe(150);
	});
});

describe('arithmetic', () => {
	it.each([
		// 2 · 40 + 6
		[`2 * (3'-4") + 6"`, 86],
		[`2*(3'-4")+6"`, 86],
		[`(3'-4") * 2`, 80],
		[`12' - 6"`, 138],
		[`12' + 6"`, 150],
		[`10 + 6"`, 16],
		[`2 * (10 + 6)`, 32],
		[`3 * 4`, 12],
		[`12' / 2`, 72],
		[`12'-6" / 4`, 37.5],
		[`10 / 4`, 2.5],
		[`1/2 * 6"`, 3],
		[`12' / (1/2)`, 288],
		[`1' / 3`, 4],
		[`(1' + 2") / -2`, -7],
		[`-(1' - 2")`, -10],
		[`3" - -2"`, 5],
		// a third of an inch three times is exact although a third alone is not
		[`3 * (1" / 3)`, 1],
		// 12·12 + 6 less a quarter
		[`12'-6" - 1/4"`, 149.75],
		[`12' - 6" - 6"`, 132]
	])('%s is %d in', (text, expected) => {
		expect(inInches(text)).toBe(expected);
	});

	it('takes a bare number in the unit of the job only where it is a length', () => {
		expect(inMillimetres('2 * 100')).toBe(200);
		// 10 mm + 6 · 25.4 mm
		expect(inMillimetres(`10 + 6"`)).toBe(162.4);
		// 2 · (10 mm + 25.4 mm)
		expect(inMillimetres(`2 * (10 + 1")`)).toBe(70.8);
	});
});

describe('what is read one documented way', () => {
	it.each([
		[`12'-6"`, 150],
		[`12' -6"`, 150],
		[`12'- 6"`, 150],
		[`12'6`, 150],
		[`12' 6`, 150],
		[`12-6.5`, 150.5],
		[`12-6.5"`, 150.5],
		[`12-6 1/2`, 150.5],
		[`12-6-1/2`, 150.5],
		[`12'-6-1/2"`, 150.5],
		[`12-1/2"`, 12.5],
		[`12-1/2`, 12.5],
		// 12.6 · 12
		[`12.6'`, 151.2],
		[`12 1/2'`, 150]
	])('%s is %d in', (text, expected) => {
		expect(inInches(text)).toBe(expected);
	});

	it('asks in a millimetre job', () => {
		expect(reason('12-6.5', 'mm')).toBe(
			`"12-6.5" could be feet and inches or a subtraction; write 12'-6.5" or 12 - 6.5`
		);
		expect(reason('12-1/2', 'mm')).toContain('has no unit; write');
		expect(inMillimetres(`12-6"`)).toBe(3810);
	});
});

describe('what is refused, with what to write', () => {
	it.each([
		['', 'nothing is there'],
		['   ', 'nothing is there'],
		['V.I.F.', '"V.I.F." is not a length'],
		['TBD', '"TBD" is not a length'],
		[`''`, 'is not a length'],
		['12x4', 'two sizes'],
		[`10'-0" x 4'-0"`, 'two sizes'],
		['12 × 4', 'two sizes'],
		['10/0 x 4/0', `write 10'-0" for feet and inches`],
		['10/0', `write 10'-0" for feet and inches`],
		['10/4', `write 10'-4" for feet and inches, or 10 / 4 with spaces`],
		['6 5/4"', 'not a fraction below 1'],
		['1,234', '"1,234" could be 1.234 or 1234'],
		['3,81 m', 'write 3.81'],
		['1,234.5', 'not a plain number'],
		['3 810 mm', 'write it without the space'],
		['12 6', 'side by side; write +'],
		['3 m 81 cm', 'side by side; write +'],
		['1.5 1/2"', 'side by side'],
		['½2', 'side by side'],
		['12 -6', 'write a space on both sides of -'],
		[`12'-6"-1/4"`, 'write a space on both sides of -'],
		[`12'-14"`, `write 13'-2"`],
		[`12'-14 1/2"`, `write 13'-2 1/2"`],
		[`12.5'-6"`, 'write whole feet'],
		[`12' 6 mm`, 'write + between'],
		[`3' * 4'`, 'a length times a length is an area'],
		[`12' / 6"`, 'only a plain number divides'],
		[`12' / 1/2`, 'write brackets, (1/2)'],
		[`12' / 0`, 'write a divisor other than 0'],
		[`12' / (3 - 3)`, 'write a divisor other than 0'],
		[`2(3')`, 'write * or + before it'],
		[`(3'`, 'not closed'],
		[`3')`, 'can’t be read'],
		[`3' +`, 'write the length that is missing'],
		['1e3', '"e3" can’t be read'],
		['5 constructor', 'can’t be read'],
		['5 __proto__', 'can’t be read'],
		['NaN', 'is not a length'],
		['Infinity', 'is not a length'],
		['=1+1', 'can’t be read'],
		['±3', 'can’t be read'],
		[`12'-6" VIF`, '"vif" can’t be read'],
		['5.', 'not a plain number'],
		['1001 m', 'longer than 1 km'],
		['-1001 m', 'longer than 1 km'],
		['9'.repeat(120), 'longer than 1 km'],
		['9'.repeat(121), 'longer than 120 characters']
	])('%j', (text, expected) => {
		expect(reason(text)).toContain(expected);
		expect(reason(text)).toMatch(/; write /u);
	});

	it('refuses a comma that could stand for thousands in a metric job too', () => {
		expect(reason('1,234', 'mm')).toContain('could be 1.234 or 1234');
		expect(reason('3,810 m', 'mm')).toContain('could be 3.810 or 3810');
	});

	it('names the nearest that is possible when it is finer than a nanometre', () => {
		// 1/3 in = 8.4666… mm, nearest 64th: 21.33 → 21
		expect(reason('1/3"')).toBe('finer than a nanometre; write 21/64" or 8.466667 mm');
		expect(reason('1/3"', 'mm')).toBe('finer than a nanometre; write 8.466667 mm');
		// 1/128 in = 198 437.5 nm
		expect(reason('1/128"', 'mm')).toBe('finer than a nanometre; write 0.198438 mm');
	});

	it('takes 1 km itself', () => {
		expect(parseLength('1000 m', 'mm')).toEqual({ ok: true, nm: 1e12 });
	});

	it('keeps control characters out of its reasons', () => {
		expect(reason('5 \u001b[31mred')).not.toContain('\u001b');
	});
});

describe('formatLength', () => {
	it.each([
		[150.5, `12'-6 1/2"`, `150 1/2"`, '3822.7 mm'],
		[144, `12'-0"`, `144"`, '3657.6 mm'],
		[144.5, `12'-0 1/2"`, `144 1/2"`, '3670.3 mm'],
		[0, `0'-0"`, `0"`, '0 mm'],
		[0.5, `0'-0 1/2"`, `1/2"`, '12.7 mm'],
		// 11.9375 + 0.0375 = 11 and 15.6 sixteenths: rounds to the next foot
		[11.975, `1'-0"`, `12"`, '304.2 mm'],
		[23.98, `2'-0"`, `24"`, '609.1 mm'],
		[11.96, `0'-11 15/16"`, `11 15/16"`, '303.8 mm'],
		[-0.25, `-0'-0 1/4"`, `-1/4"`, '-6.4 mm'],
		[-150.5, `-12'-6 1/2"`, `-150 1/2"`, '-3822.7 mm'],
		// 1/32: half a sixteenth, away from zero
		[1 / 32, `0'-0 1/16"`, `1/16"`, '0.8 mm'],
		[-1 / 32, `-0'-0 1/16"`, `-1/16"`, '-0.8 mm'],
		// 1/64: below half; no minus on zero
		[-1 / 64, `0'-0"`, `0"`, '-0.4 mm']
	])('%d in', (value, feetInches, inches, millimetres) => {
		const nm = value * inch;
		expect(formatLength(nm, 'feetInches')).toBe(feetInches);
		expect(formatLength(nm, 'inches')).toBe(inches);
		expect(formatLength(nm, 'mm')).toBe(millimetres);
	});

	it('rounds tenths of a millimetre away from zero and shows one only if needed', () => {
		expect(formatLength(3_810_000_000, 'mm')).toBe('3810 mm');
		expect(formatLength(3_813_500_000, 'mm')).toBe('3813.5 mm');
		expect(formatLength(3_813_450_000, 'mm')).toBe('3813.5 mm');
		expect(formatLength(-3_813_450_000, 'mm')).toBe('-3813.5 mm');
		expect(formatLength(-40_000, 'mm')).toBe('0 mm');
	});

	it('takes up the noise of floats', () => {
		expect(formatLength(0.1 * 3 * 10 * inch, 'inches')).toBe('3"');
		expect(formatLength(inch / 32 - 1e-6, 'inches')).toBe('1/16"');
	});

	it('refuses what is not a length', () => {
		expect(() => formatLength(NaN, 'mm')).toThrow(RangeError);
		expect(() => formatLength(Infinity, 'feetInches')).toThrow(RangeError);
	});
});

describe('exactLength', () => {
	it('loses nothing', () => {
		expect(exactLength(150 * inch + 396_875, 'in')).toBe('150 1/64"');
		// 11 15/16 in = 303.2125 mm
		expect(exactLength(11.9375 * inch, 'mm')).toBe('303.2125 mm');
		expect(exactLength(-1, 'in')).toBe('-0.000001 mm');
		expect(() => exactLength(0.5, 'in')).toThrow(RangeError);
	});

	it('reads back as the same in any job', () => {
		const anyLength = fc.integer({ min: -1e12, max: 1e12 });
		const anyUnit = fc.constantFrom<('in' | 'mm')[]>('in', 'mm');
		fc.assert(
			fc.property(anyLength, anyUnit, anyUnit, (nm, written, read) => {
				expect(parseLength(exactLength(nm, written), read)).toEqual({ ok: true, nm });
			})
		);
	});
});

describe('invariants', () => {
	const unit = fc.constantFrom<('in' | 'mm')[]>('in', 'mm');

	it('whole sixteenths are written and read back the same', () => {
		const style = fc.constantFrom<('feetInches' | 'inches')[]>('feetInches', 'inches');
		fc.assert(
			fc.property(fc.integer({ min: -600_000, max: 600_000 }), style, unit, (sixteenths, how, job) => {
				const nm = sixteenths * 1_587_500;
				expect(parseLength(formatLength(nm, how), job)).toEqual({ ok: true, nm });
			})
		);
	});

	it('whole tenths of a millimetre are written and read back the same', () => {
		fc.assert(
			fc.property(fc.integer({ min: -10_000_000, max: 10_000_000 }), unit, (tenths, job) => {
				const nm = tenths * 100_000;
				expect(parseLength(formatLength(nm, 'mm'), job)).toEqual({ ok: true, nm });
			})
		);
	});

	it('feet, inches and a fraction in any of the usual spellings give the same', () => {
		const foot_ = fc.constantFrom(`'`, '’', '′', ' ft', ' feet');
		const joint = fc.constantFrom('-', ' ', ' -', '- ');
		const inch_ = fc.constantFrom(`"`, '”', '″', `''`, ' in', ' inches');
		fc.assert(
			fc.property(
				fc.nat(300),
				fc.nat(11),
				fc.integer({ min: 1, max: 63 }),
				foot_,
				joint,
				inch_,
				(feet, inches, part, f, j, i) => {
					expect(parseLength(`${feet}${f}${j}${inches} ${part}/64${i}`, 'mm')).toEqual({
						ok: true,
						nm: feet * foot + inches * inch + part * 396_875
					});
				}
			)
		);
	});

	it('no text throws, and none gives anything but whole nanometres or a reason with what to write', () => {
		const likely = fc
			.array(fc.constantFrom(...Array.from(`0123456789.,'"-+*/() ½⅝′″ftinmcmxe`)), { maxLength: 30 })
			.map((characters) => characters.join(''));
		fc.assert(
			fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 130 }), likely), unit, (text, job) => {
				const read = parseLength(text, job);
				if (read.ok) {
					expect(Number.isSafeInteger(read.nm)).toBe(true);
					expect(Math.abs(read.nm)).toBeLessThanOrEqual(1e12);
				} else {
					expect(read.reason).toMatch(/; write /u);
				}
			}),
			{ numRuns: 3000 }
		);
	});
});
