/** Lengths in packing lists. Exact by definition: 1 in = 25 400 000 nm, 1 ft = 304 800 000 nm, 1 mm = 1 000 000 nm. */
import { describe, expect, test } from 'vitest';
import { fromText, inches } from './packing-text.ts';

const list = (heading: string, ...cells: string[]): string =>
	[`Mark;Item;Qty;${heading}`, ...cells.map((cell) => `C-1;Guide;1;${cell}`)].join('\n');

describe('lengths that say what they are', () => {
	test('decimal feet, by the heading and by the mark', async () => {
		// 9.1667 × 304 800 000 = 2 794 010 160; 10.375 × 304 800 000 = 3 162 300 000
		const { lines, questions } = await fromText(list('Length (ft)', '9.1667', '10.375', "9.1667'", '4'));
		expect(lines.map(({ length }) => length)).toEqual([
			2_794_010_160, 3_162_300_000, 2_794_010_160, 1_219_200_000
		]);
		expect(questions).toEqual([]);
	});

	test('feet with a short decimal beside one that no inches can be', async () => {
		// 9.5 ft = 114 in; 9.25 ft proves it: there are no 25 inches in a foot.
		const { lines, questions } = await fromText(list('Length (ft)', '9.5', '9.25'));
		expect(lines.map(({ length }) => length)).toEqual([inches(114), inches(111)]);
		expect(questions).toEqual([]);
	});

	test('millimetres with decimal commas in an imperial job', async () => {
		const { lines, questions } = await fromText(
			list('Length mm', '1250,8', '3076,200', '1.250,80', '2750.8')
		);
		expect(lines.map(({ length }) => length)).toEqual([
			1_250_800_000, 3_076_200_000, 1_250_800_000, 2_750_800_000
		]);
		expect(questions).toEqual([]);
	});

	test('a note below the table gives the unit', async () => {
		const { lines } = await fromText(`${list('Length', '1270')}\n\nAll lengths in mm\n`);
		expect(lines[0]?.length).toBe(1_270_000_000);
	});
});

describe('lengths that have to be asked', () => {
	test.each([
		['110 12', ['110 1/2"']],
		['196 34', ['196 3/4"']],
		['50 516', ['50 5/16"']],
		['9 2', [`9'-2"`]],
		['110 13', []],
		['1101/2', ['110 1/2"', '550.5"']],
		['1013/16', ['10 13/16"', '101 3/16"', '63.3125"']],
		['11O', ['110']],
		['5O 1/2', ['50 1/2']]
	])('%s: never guessed, with what it may have been', async (text, readings) => {
		const { lines, questions } = await fromText(`Lengths in inches\n${list('Length', text)}`);
		expect(lines[0]?.length).toBeNull();
		expect(questions).toMatchObject([
			{ field: 'length', place: 'list.csv, line 3, D “Length”', text, readings }
		]);
	});

	test('9.2 in feet may be 9.2 ft or 9 ft 2 in, until somebody says which', async () => {
		const text = list('Length (ft)', '9.2', '9.10', '8');
		const { lines, questions } = await fromText(text);
		expect(lines.map(({ length }) => length)).toEqual([null, null, inches(96)]);
		expect(questions.map(({ readings }) => readings)).toEqual([
			['9.2 ft', `9'-2"`],
			['9.10 ft', `9'-10"`]
		]);
		// 9.2 × 12 = 110.4; 9.10 × 12 = 109.2
		const decimal = await fromText(text, { feet: 'decimal' });
		expect(decimal.lines.map(({ length }) => length)).toEqual([inches(110.4), inches(109.2), inches(96)]);
		// 9 × 12 + 2 = 110; 9 × 12 + 10 = 118
		const feetAndInches = await fromText(text, { feet: 'inches' });
		expect(feetAndInches.lines.map(({ length }) => length)).toEqual([inches(110), inches(118), inches(96)]);
		expect(feetAndInches.questions).toEqual([]);
	});

	test.each([
		['1,234', ['1234', '1.234']],
		['-50', []],
		['999999999', []],
		['12 x 14', []]
	])('%s in millimetres', async (text, readings) => {
		const { lines, questions } = await fromText(list('Length mm', text));
		expect(lines[0]?.length).toBeNull();
		expect(questions).toMatchObject([{ field: 'length', text, readings }]);
	});
});
