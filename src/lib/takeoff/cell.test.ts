import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCell, showCell, typedText } from './cell.ts';
import { inputOf, inputs } from './inputs.ts';
import type { Cell, InputId, Measures } from './inputs.ts';

// Keys of an invented shop book.
const keys = ['heavy-grille', 'light-grille', 'counter-slat', 'service-slat', '4.5'];

const read = (id: InputId, text: string, measures: Measures = 'imperial', of: readonly string[] = keys) =>
	readCell(inputOf(id), text, { measures, keys: of });
const cell = (id: InputId, text: string, measures: Measures = 'imperial'): Cell => {
	const result = read(id, text, measures);
	if (!result.ok) throw new Error(result.reason);
	return result.cell;
};
const reason = (id: InputId, text: string, measures: Measures = 'imperial'): string => {
	const result = read(id, text, measures);
	return result.ok ? 'accepted' : result.reason;
};

describe('empty cells', () => {
	it.each(inputs.map(({ id }) => id))('%s', (id) => {
		for (const text of ['', '  ', '\t\n', '\u200b']) expect(read(id, text)).toEqual({ ok: true, cell: null });
		expect(showCell(inputOf(id), null, 'metric')).toBe('');
		expect(typedText(null)).toBe('');
	});
});

describe('text', () => {
	it('is kept as it is, trimmed, whatever it begins with', () => {
		for (const text of ['=cmd()', '+1', '-1', '@SUM(A1)', '<script>alert(1)</script>', `'; --`, 'a|b']) {
			expect(cell('mark', text)).toBe(text);
			expect(cell('note', `  ${text} `)).toBe(text);
		}
	});

	it('loses control characters and those that hide or turn text', () => {
		expect(cell('location', 'Hall\u0000 \u001b[31mA\u007f\u202e\u200b')).toBe('Hall [31mA');
		expect(cell('mark', '\ufeffC-101')).toBe('C-101');
	});

	it('is composed, and half a character becomes the replacement sign', () => {
		expect(cell('location', 'Cafe\u0301')).toBe('Caf\u00e9');
		expect(cell('location', 'a\ud800b')).toBe('a\ufffdb');
	});

	it('keeps line breaks in a note only', () => {
		expect(cell('note', 'one\r\ntwo\rthree')).toBe('one\ntwo\nthree');
		expect(cell('location', 'one \n two')).toBe('one two');
		expect(reason('mark', 'C-101\nA')).toBe('a mark stands on one line; write C-101 A');
		expect(showCell(inputOf('note'), 'one\ntwo', 'imperial')).toBe('one two');
		expect(typedText('one\ntwo')).toBe('one\ntwo');
	});

	it('has its limits', () => {
		expect(cell('mark', 'm'.repeat(40))).toHaveLength(40);
		expect(reason('mark', 'm'.repeat(41))).toContain('write at most 40');
		expect(cell('note', 'n'.repeat(2000))).toHaveLength(2000);
		expect(reason('note', 'n'.repeat(2001))).toContain('write at most 2000');
	});
});

describe('counts', () => {
	it.each([
		['1', 1],
		['10000', 10_000],
		[' 12 ', 12],
		// as a spreadsheet may hand over a whole number
		['3.0', 3],
		['007', 7]
	])('%j is %d', (text, expected) => {
		expect(cell('quantity', text)).toBe(expected);
		expect(cell('openingNumber', text)).toBe(expected);
	});

	it.each(['0', '-1', '1.5', '10001', '1,000', '1e3', 'two', '2 ea', '=2', '9'.repeat(400)])(
		'refuses %j',
		(text) => {
			expect(reason('quantity', text)).toMatch(/is not a quantity; write a whole number from 1 to 10000$/u);
		}
	);
});

describe('lengths', () => {
	it('are stored as typed, with the exact amount', () => {
		// 150.5 in × 25 400 000 nm
		expect(cell('openingWidth', ` 12'-6 1/2" `)).toEqual({
			amount: 3_822_700_000,
			unit: 'nm',
			typed: `12'-6 1/2"`
		});
		expect(cell('openingWidth', '3810', 'metric')).toEqual({ amount: 3.81e9, unit: 'nm', typed: '3810' });
		expect(cell('openingWidth', '150')).toEqual({ amount: 3.81e9, unit: 'nm', typed: '150' });
	});

	it('keep to the range of the input', () => {
		expect(reason('openingWidth', '0')).toBe(`Opening width is 0'-0"; write a length greater than 0`);
		expect(reason('openingWidth', '-12"')).toBe(`Opening width is -1'-0"; write a length greater than 0`);
		expect(reason('sillHeight', '-1"')).toBe(`Sill height is -0'-1"; write 0 or more`);
		expect(cell('sillHeight', '0')).toEqual({ amount: 0, unit: 'nm', typed: '0' });
		const signed = { ...inputOf('sillHeight'), range: 'signed' as const };
		expect(readCell(signed, '-1/4"', { measures: 'imperial', keys })).toEqual({
			ok: true,
			cell: { amount: -6_350_000, unit: 'nm', typed: '-1/4"' }
		});
	});

	it('are refused with the reason, never 0', () => {
		expect(reason('openingHeight', 'V.I.F.')).toContain('"V.I.F." is not a length; write');
		expect(reason('openingHeight', '12-6.5', 'metric')).toContain('; write');
	});

	it('are shown as understood, in the style of the job', () => {
		const width = cell('openingWidth', '150.5');
		expect(showCell(inputOf('openingWidth'), width, 'imperial')).toBe(`12'-6 1/2"`);
		expect(showCell(inputOf('openingWidth'), width, 'metric')).toBe('3822.7 mm');
		// 3800 mm = 149.606… in = 12'-5 9.7/16": stored finer than shown
		expect(showCell(inputOf('openingWidth'), cell('openingWidth', '3.8 m'), 'imperial')).toBe(`≈ 12'-5 5/8"`);
		expect(showCell(inputOf('openingWidth'), cell('openingWidth', '1/64"'), 'imperial')).toBe(`≈ 0'-0"`);
	});

	it('go back to the editor so that they mean the same after the job’s measures changed', () => {
		expect(typedText(cell('openingWidth', `12'-6"`))).toBe(`12'-6"`);
		expect(typedText(cell('openingWidth', '3.81 m'))).toBe('3.81 m');
		expect(typedText(cell('openingWidth', '150.5'))).toBe(`150.5"`);
		expect(typedText(cell('openingWidth', '12-6.5'))).toBe(`12-6.5"`);
		expect(typedText(cell('openingWidth', '3810.5', 'metric'))).toBe('3810.5 mm');
		expect(typedText(cell('openingWidth', '3,81 m', 'metric'))).toBe('3810 mm');
		// 10 + 6 = 16 in
		expect(typedText(cell('openingWidth', '10 + 6'))).toBe(`16"`);
		expect(typedText(cell('openingWidth', `10 + 1"`, 'metric'))).toBe('35.4 mm');
		expect(typedText(cell('sillHeight', '0'))).toBe('0');
	});

	it('typed in one job and read again in the other are the same length', () => {
		const texts = fc.oneof(
			fc.integer({ min: 1, max: 99_999 }).map((n) => String(n / 4)),
			fc.tuple(fc.nat(40), fc.nat(11), fc.nat(15)).map(([f, i, s]) => `${f}-${i} ${s}/16`),
			fc.tuple(fc.nat(40), fc.nat(99)).map(([a, b]) => `${a} + ${b}"`),
			fc.nat(9999).map((n) => `${n / 100} m`)
		);
		const measures = fc.constantFrom<Measures[]>('imperial', 'metric');
		fc.assert(
			fc.property(texts, measures, measures, (text, first, second) => {
				const typed = read('sillHeight', text, first);
				if (!typed.ok || typeof typed.cell !== 'object' || typed.cell === null) return;
				const again = cell('sillHeight', typedText(typed.cell), second);
				expect(again).toMatchObject({ amount: typed.cell.amount, unit: 'nm' });
			})
		);
	});
});

describe('measures with a unit', () => {
	it('are stored with their unit and shown in the job’s', () => {
		const pressure = cell('designPressure', '30');
		expect(pressure).toEqual({ amount: 30, unit: 'psf', typed: '30' });
		expect(showCell(inputOf('designPressure'), pressure, 'imperial')).toBe('30 psf');
		// 30 · 47.88026 Pa = 1.4364 kPa (UN/ECE Recommendation 20, K85)
		expect(showCell(inputOf('designPressure'), pressure, 'metric')).toBe('1.44 kPa');
		expect(typedText(pressure)).toBe('30 psf');
		expect(typedText(cell('designPressure', '1.44', 'metric'))).toBe('1.44 kPa');
		const supply = cell('supplyVoltage', '480 VAC');
		expect(supply).toEqual({ amount: 480, unit: 'V', typed: '480 VAC' });
		expect(showCell(inputOf('supplyVoltage'), supply, 'metric')).toBe('480 V');
		expect(typedText(supply)).toBe('480 VAC');
	});

	it('so are strengths', () => {
		const strength = cell('leftWallStrength', '4 ksi');
		expect(strength).toEqual({ amount: 4000, unit: 'psi', typed: '4 ksi' });
		expect(showCell(inputOf('leftWallStrength'), strength, 'imperial')).toBe('4000 psi');
		// 4000 · 6894.757 Pa = 27.579 MPa (UN/ECE Recommendation 20, PS)
		expect(showCell(inputOf('leftWallStrength'), strength, 'metric')).toBe('27.58 MPa');
		expect(typedText(strength)).toBe('4 ksi');
		expect(typedText(cell('rightWallStrength', '3000'))).toBe('3000 psi');
		expect(typedText(cell('rightWallStrength', '20,7', 'metric'))).toBe('20.7 MPa');
		expect(reason('leftWallStrength', '3000', 'metric')).toContain('; write one strength such as 20.7 MPa');
	});

	it('and loads along a line', () => {
		const pull = cell('windlockPull', '120 plf');
		expect(pull).toEqual({ amount: 120, unit: 'lb/ft', typed: '120 plf' });
		expect(showCell(inputOf('windlockPull'), pull, 'imperial')).toBe('120 lb/ft');
		// 120 · 14.5939 N/m = 1.751 kN/m (UN/ECE Recommendation 20, F17)
		expect(showCell(inputOf('windlockPull'), pull, 'metric')).toBe('1.751 kN/m');
		expect(typedText(pull)).toBe('120 plf');
		expect(typedText(cell('windlockPull', '1.75', 'metric'))).toBe('1.75 kN/m');
		expect(reason('windlockPull', '120 psf')).toContain('; write one load such as 120 lb/ft');
	});

	it('are refused with the reason', () => {
		expect(reason('designPressure', '-30')).toContain('; write');
		expect(reason('supplyVoltage', '120/208')).toContain('; write');
	});
});

describe('keys', () => {
	it.each(['heavy-grille', 'Heavy-Grille', 'HEAVY GRILLE', 'heavygrille', 'heavy_grille', 'heavy – grille'])(
		'%j is heavy-grille',
		(text) => {
			expect(cell('curtain', text)).toBe('heavy-grille');
		}
	);

	it('may be fixed words', () => {
		expect(read('mounting', 'Face of wall', 'imperial', [])).toEqual({ ok: true, cell: 'faceOfWall' });
		expect(read('operation', 'PUSH-UP', 'imperial', [])).toEqual({ ok: true, cell: 'pushUp' });
	});

	it('unknown ones name what there is, the closest first', () => {
		expect(reason('curtain', 'servce slat')).toBe(
			'"servce slat" is not known for curtain; write service-slat, counter-slat, heavy-grille, light-grille, 4.5'
		);
		expect(reason('driveSide', 'rigth')).toBe('"rigth" is not known for hand; write right, left');
		expect(reason('curtain', '__proto__')).toContain('is not known');
	});

	it('dots count, and the own spelling wins over one alike', () => {
		expect(cell('curtain', '4.5')).toBe('4.5');
		expect(reason('curtain', '45')).toContain('"45" is not known for curtain; write 4.5');
		const alike = ['a-b', 'ab'];
		expect(read('curtain', 'ab', 'imperial', alike)).toEqual({ ok: true, cell: 'ab' });
		expect(read('curtain', 'AB', 'imperial', alike)).toEqual({
			ok: false,
			reason: '"AB" could be more than one; write a-b or ab'
		});
	});

	it('long lists are cut, empty ones say so', () => {
		const many = Array.from({ length: 20 }, (_, i) => `row-${i}`);
		const result = read('curtain', 'x', 'imperial', many);
		expect(result.ok ? '' : result.reason).toContain('or one of 12 more');
		const none = read('controls', 'x', 'imperial', []);
		expect(none.ok ? '' : none.reason).toContain('the shop book has nothing for controls');
	});
});

/** Within the limits of a stored cell. */
function storable(value: Cell): boolean {
	if (value === null) return true;
	if (typeof value === 'string') return value.length <= 2000 && value.isWellFormed();
	if (typeof value === 'number') return Number.isInteger(value) && value >= 1 && value <= 10_000;
	const whole = value.unit !== 'nm' || Number.isSafeInteger(value.amount);
	return whole && Math.abs(value.amount) <= 1e12 && value.typed.length <= 200;
}

it('no text throws, and whatever is read can be stored', () => {
	const text = fc.oneof(
		fc.string({ unit: 'binary', maxLength: 150 }),
		fc.string({ unit: 'grapheme', maxLength: 150 }),
		fc.string({ unit: fc.constantFrom(...Array.from(`0123456789.'"-+*/ (),mkPaVpsifMNbt²`)), maxLength: 20 })
	);
	fc.assert(
		fc.property(
			fc.constantFrom(...inputs),
			text,
			fc.constantFrom<Measures[]>('imperial', 'metric'),
			(input, typed, measures) => {
				const result = readCell(input, typed, { measures, keys });
				if (!result.ok) {
					expect(result.reason).toMatch(/; write /u);
					return;
				}
				expect(storable(result.cell)).toBe(true);
				expect(typeof showCell(input, result.cell, measures)).toBe('string');
				const again = readCell(input, typedText(result.cell), { measures, keys });
				const amount = (c: Cell): unknown => (typeof c === 'object' && c !== null ? c.amount : c);
				expect(again.ok && amount(again.cell)).toEqual(amount(result.cell));
			}
		),
		{ numRuns: 3000 }
	);
});
