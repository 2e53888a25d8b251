/**
 * The third reading of a rule: its workbook formula, recalculated by LibreOffice, is the program's value; also after
 * inputs were changed in the file, and whatever result was stored in it before.
 */
import Excel from 'exceljs';
import fc from 'fast-check';
import { Decimal } from 'decimal.js';
import { beforeAll, describe, expect, test } from 'vitest';
import { unit } from '../../src/lib/quantity/units.ts';
import type { QuantityDefinition, RuleDefinition, Source } from '../../src/lib/rulebook/definition.ts';
import {
	loadRuleBook,
	type Cells,
	type RuleBook,
	type RuleBookSource
} from '../../src/lib/rulebook/rule-book.ts';
import { randomRule, type Figures, type RandomRule } from '../random-rules.ts';
import { needs, recalculate } from '../recalculate.ts';

function load(source: RuleBookSource): RuleBook {
	const loaded = loadRuleBook(source);
	if (!loaded.ok) throw new Error(loaded.problems.map((p) => `${p.rule}: ${p.problem}`).join('\n'));
	return loaded.book;
}

const unitOf = (book: RuleBook, name: string): string => book.definition(name)?.unit ?? '1';

/** A missing figure is a blank cell: not known, or no key. */
type Given = ReadonlyMap<string, string | boolean>;

/** What the program makes of the figures: in the rule's unit, a key as its word, NaN for what is not known. */
function computed(book: RuleBook, rule: string, figures: Given): number | string {
	const program = book.program({ rules: [rule], given: [], capacity: 1 });
	for (const name of program.given) {
		const figure = figures.get(name);
		const keys = book.keysOf(name);
		const column = program.column(name);
		if (keys) column[0] = typeof figure === 'string' ? keys.indexOf(figure) : -1;
		else if (typeof figure === 'boolean') column[0] = figure ? 1 : 0;
		else column[0] = figure === undefined ? NaN : book.toBase(name, Number(figure));
	}
	program.run(1);
	const value = program.column(rule)[0] ?? NaN;
	const keys = book.keysOf(rule);
	return keys ? (keys[value] ?? '') : value / unit(unitOf(book, rule)).scale;
}

const quoted = (words: readonly string[]): string => words.map((word) => `"${word}"`).join(',');

/** One row a case: a cell for every name the rules read, then a formula for each rule. */
class Sheet {
	readonly #workbook = new Excel.Workbook();
	readonly #sheet = this.#workbook.addWorksheet('Rules');
	#row = 0;

	/** @param stored results left in the file beside the formulas */
	add(book: RuleBook, rules: readonly string[], figures: Given, stored: readonly (number | string)[]): void {
		this.#row++;
		const row = this.#sheet.getRow(this.#row);
		const cells = new Map<string, string>();
		let column = rules.length;
		const place = (name: string): string => {
			const known = cells.get(name);
			if (known !== undefined) return known;
			const cell = row.getCell(++column);
			const address = `$${cell.address.replace(/\d+$/u, '')}${String(this.#row)}`;
			cells.set(name, address);
			const key = book.keyOfName(name);
			const formula = book.writeFormula(name, cellsOf());
			if (formula !== null) cell.value = { formula };
			else if (key !== null) cell.value = { formula: this.#lookUp(book, name, key, place(key)) };
			else if (name.startsWith('shop.')) cell.value = Number(book.bookText(name, null));
			else {
				const figure = figures.get(name) ?? null;
				cell.value = typeof figure === 'string' && !book.keysOf(name) ? Number(figure) : figure;
			}
			return address;
		};
		const cellsOf = (): Cells => ({
			reference: place,
			unit: (name) => unitOf(book, name),
			mayBeBlank: (name) => book.definition(name)?.kind === 'number' && !figures.has(name) && isInput(name)
		});
		const isInput = (name: string): boolean => !name.includes('.') && book.rule(name) === undefined;
		rules.forEach((rule, i) => {
			const formula = book.writeFormula(rule, cellsOf());
			if (formula === null) throw new Error(`${rule} has no formula`);
			const result = stored[i];
			row.getCell(i + 1).value = result === undefined ? { formula } : { formula, result };
		});
	}

	#lookUp(book: RuleBook, name: string, key: string, at: string): string {
		const keys = book.keysOf(key) ?? [];
		const texts = keys.map((word) => book.bookText(name, word) ?? '');
		const values = book.keysOf(name) ? quoted(texts) : texts.join(',');
		return `INDEX({${values}},MATCH(${at},{${quoted(keys)}},0))`;
	}

	async bytes(): Promise<Uint8Array> {
		return new Uint8Array(await this.#workbook.xlsx.writeBuffer());
	}
}

describe.skipIf(needs('libreoffice'))('random rules through LibreOffice', () => {
	const seed = 20_261;
	const cases = fc
		.sample(randomRule, { numRuns: 400, seed })
		.map((random) => ({ random, book: load(random.source) }));
	const recalculated = new Map<string, readonly string[]>();

	async function file(
		figuresOf: (random: RandomRule) => Figures,
		storedOf: (book: RuleBook, random: RandomRule) => number | string | undefined
	): Promise<Uint8Array> {
		const sheet = new Sheet();
		for (const { random, book } of cases) {
			const stored = storedOf(book, random);
			sheet.add(book, [random.rule], figuresOf(random), stored === undefined ? [] : [stored]);
		}
		return sheet.bytes();
	}

	beforeAll(async () => {
		const files = [
			{
				name: 'as written',
				bytes: await file(
					(r) => r.figures,
					(book, r) => computed(book, r.rule, r.figures)
				)
			},
			{
				name: 'changed',
				bytes: await file(
					(r) => r.changed,
					(book, r) => computed(book, r.rule, r.figures)
				)
			},
			{
				name: 'falsified',
				bytes: await file(
					(r) => r.figures,
					() => 123_456.789
				)
			}
		];
		for (const [name, sheets] of await recalculate(files)) {
			recalculated.set(
				name,
				(sheets.get('Rules') ?? []).map((row) => row[0] ?? '')
			);
		}
	});

	function agrees(name: string, figuresOf: (random: RandomRule) => Figures): void {
		const column = recalculated.get(name) ?? [];
		expect(column).toHaveLength(cases.length);
		cases.forEach(({ random, book }, i) => {
			const figures = figuresOf(random);
			const value = Number(computed(book, random.rule, figures));
			const noise =
				1e-9 * Math.max(Math.abs(value), Math.abs(Number(computed(book, random.magnitude, figures))));
			const text = column[i] ?? '';
			expect(text, book.rule(random.rule)?.formula).toMatch(/^-?\d/u);
			expect(Math.abs(Number(text) - value), book.rule(random.rule)?.formula).toBeLessThanOrEqual(noise);
		});
	}

	test('the formula gives the program’s value', () => agrees('as written', (random) => random.figures));

	test('inputs changed in the file, with the old results still stored in it: the program’s value for the changed ones', () =>
		agrees('changed', (random) => random.changed));

	test('a result falsified in the file comes back right', () =>
		agrees('falsified', (random) => random.figures));

	test('the changed inputs do change the results', () => {
		const [before, after] = [recalculated.get('as written') ?? [], recalculated.get('changed') ?? []];
		expect(before.filter((text, i) => text !== after[i]).length).toBeGreaterThan(cases.length / 2);
	});
});

describe.skipIf(needs('libreoffice'))(
	'rounding, comparing, blanks: by hand, the program and LibreOffice',
	() => {
		const source: Source = { basis: 'invented', text: 'Invented for a test.' };
		const quantity = (
			id: string,
			kind: QuantityDefinition['kind'],
			text = '1',
			vocabulary?: string
		): QuantityDefinition => ({
			id,
			title: id,
			kind,
			unit: text,
			...(vocabulary === undefined ? {} : { vocabulary }),
			chapter: 1,
			sentence: id
		});

		interface Line {
			readonly formula: string;
			readonly figures: Readonly<Record<string, string | boolean>>;
			/** By hand. NaN: not known. */
			readonly expected: number | string | boolean;
			readonly kind?: QuantityDefinition['kind'];
			readonly unit?: string;
			readonly vocabulary?: string;
			/** Exact decimals take no figure that is not known. */
			readonly refusedExactly?: boolean;
		}
		const number = (formula: string, x: string, expected: number, text = '1'): Line => ({
			formula,
			figures: { x, amount: x, long: x },
			expected,
			unit: text
		});
		const flag = (formula: string, figures: Line['figures'], expected: boolean | number): Line => ({
			formula,
			figures,
			expected,
			kind: 'flag'
		});
		const key = (formula: string, vocabulary: string, figures: Line['figures'], expected: string): Line => ({
			formula,
			figures,
			expected,
			kind: 'key',
			vocabulary
		});

		const lines: readonly Line[] = [
			// ceil goes towards +∞ for both signs; noise up to half of the ninth decimal is taken up.
			...(
				[
					['5', 5],
					['5.0000000004', 5],
					['5.0000000006', 6],
					['4.9999999996', 5],
					['5.1', 6],
					['0.0000000004', 0],
					['-0.5', 0],
					['-5.1', -5],
					['-5.0000000004', -5],
					['-4.9999999996', -5],
					['-5', -5],
					['0', 0],
					['12345.000000001', 12_346]
				] as const
			).map(([x, expected]) => number('ceil(x)', x, expected)),
			...(
				[
					['5', 5],
					['4.9999999996', 5],
					['4.9999999994', 4],
					['-0.5', -1],
					['-5.0000000004', -5],
					['-5.0000000006', -6],
					['0', 0]
				] as const
			).map(([x, expected]) => number('floor(x)', x, expected)),
			// Half away from zero; 2.675 and 1.005 are just below the tie as floats.
			...(
				[
					['round(x)', '2.5', 3],
					['round(x)', '-2.5', -3],
					['round(x)', '2.4999999996', 3],
					['round(x)', '2.4999999994', 2],
					['round(x, 2)', '2.675', 2.68],
					['round(x, 2)', '1.005', 1.01],
					['round(x, 2)', '-1.005', -1.01],
					['round(x, 2)', '0.285', 0.29],
					['round(x, 3)', '0.0005', 0.001],
					['round(x, 8)', '0.000000015', 0.000_000_02],
					// 1.4499999996 is 1.45 once its noise is taken up, so it goes up at one decimal.
					['round(x, 1)', '1.4499999996', 1.5]
				] as const
			).map(([formula, x, expected]) => number(formula, x, expected)),
			// Half to even, at the cent.
			...(
				[
					['0.125', 0.12],
					['0.135', 0.14],
					['0.145', 0.14],
					['0.155', 0.16],
					['1.005', 1],
					['1.015', 1.02],
					['2.675', 2.68],
					['2.665', 2.66],
					['-0.125', -0.12],
					['-0.135', -0.14],
					['-0.145', -0.14],
					['-1.005', -1],
					['0.12500001', 0.13],
					['0.005', 0],
					['0.015', 0.02],
					['-0.005', 0],
					['1234567.895', 1_234_567.9],
					['1234567.885', 1_234_567.88],
					['12.344999', 12.34]
				] as const
			).map(([x, expected]) => number('cents(amount)', x, expected, 'money')),
			// 3 · 33.335 = 100.005 → 100.00 (even); as floats 100.00500000000001.
			number('cents(amount * 3)', '33.335', 100, 'money'),
			// 10 mm against 0.3937007874 in: 10 / 25.4 = 0.393700787401…; 1.6e-12 in apart is noise, 1e-8 is not.
			flag('long == 10 * mm', { long: '0.393700787402' }, true),
			flag('long >= 10 * mm', { long: '0.393700787401' }, true),
			flag('long < 10 * mm', { long: '0.393700787401' }, false),
			flag('long > 10 * mm', { long: '0.39370080' }, true),
			flag('long != 10 * mm', { long: '0.39370077' }, true),
			// 0.1 + 0.2 is 0.30000000000000004 as a float.
			flag('x + 0.1 == 0.3', { x: '0.2' }, true),
			flag('x + 0.1 <= 0.3', { x: '0.2' }, true),
			flag('x + 0.1 > 0.3', { x: '0.2' }, false),
			flag('0.3 < x + 0.1', { x: '0.2' }, false),
			flag('x > 0.3', { x: '0.3000000006' }, true),
			flag('x > 0.3', { x: '0.3000000004' }, false),
			// Signs: - before a product, before a bracket, after another sign.
			number('-x * 2', '3', -6),
			number('-(x + 1) * 2', '3', -8),
			number('2 - -x', '3', 5),
			number('2 - (x - 1)', '3', 0),
			number('2 * (-x)', '3', -6),
			number('12 / (x / 2)', '3', 8),
			number('12 / x / 2', '3', 2),
			number('12 / (x * 2)', '3', 2),
			number('square(-x)', '3', 9),
			number('-square(x)', '3', -9),
			number('square(x - 1)', '3', 4),
			number('abs(-x) - abs(x)', '3', 0),
			number('5 - ceil(x)', '2.1', 2),
			number('5 - ceil(-x)', '2.1', 7),
			number('-ceil(x)', '2.1', -3),
			number('max(x, 1, 4) - min(x, 1, 4)', '3', 3),
			// 3 in in mm; √(3 in · 3 in) = 3 in = 76.2 mm.
			number('long', '3', 76.2, 'mm'),
			number('sqrt(long * long)', '3', 76.2, 'mm'),
			// Powers: 4^1.5 = 8, 8^(1/3) = 2, 0.25^-1.5 = 8.
			number('power(x, 1.5)', '4', 8),
			number('power(x, 1 / 3)', '8', 2),
			number('power(x, -1.5)', '0.25', 8),
			number('power(x, 3)', '0', 0),
			number('power(x, x)', '3', 27),
			number('power(x, 0)', '3', 1),
			number('power(4, x)', '0', 1),
			number('-power(x, 2)', '3', -9),
			number('2 - power(x - 1, 2)', '3', -2),
			number('power(long / inch, 2)', '3', 9),
			// What spreadsheets differ in is not known: powers of negative numbers (whole, or an odd root), 0 to 0 or less.
			...['power(x, 2)', 'power(x, 1 / 3)', 'power(x, x)', 'power(x, 0)'].map((formula) =>
				number(formula, '-8', NaN)
			),
			...['power(x, x)', 'power(x, 0)', 'power(x, -1)', 'power(x, x - 1)'].map((formula) =>
				number(formula, '0', NaN)
			),
			number('power(x, 2)', '1e200', NaN),
			{ formula: 'power(x, 0)', figures: {}, expected: NaN },
			{ formula: 'power(2, x)', figures: {}, expected: NaN },
			// Blank cells.
			flag('known(x)', {}, false),
			flag('known(x)', { x: '0' }, true),
			flag('known(kind)', {}, false),
			flag('known(kind)', { kind: 'red' }, true),
			flag('known(x) && x > 1', {}, false),
			flag('known(x) && x > 1', { x: '2' }, true),
			flag('!known(x) || x > 1', {}, true),
			// One condition settles it, whatever is not known beside it; else it is not known (Kleene's three values).
			...[
				flag('x > 1 && kind == "red"', { kind: 'blue' }, false),
				flag('x > 1 && kind == "red"', { kind: 'red' }, NaN),
				flag('x > 1 || kind == "red"', { kind: 'red' }, true),
				flag('x > 1 || kind == "red"', { kind: 'blue' }, NaN),
				flag('x > 1 && long > 1 * inch', { long: '0' }, false),
				flag('long > 1 * inch && x > 1', { long: '0' }, false),
				flag('x > 1 && long > 1 * inch', { long: '2' }, NaN),
				flag('x > 1 || long > 1 * inch', { long: '2' }, true),
				flag('x > 1 || long > 1 * inch', { long: '0' }, NaN),
				flag('x > 1 && long > 1 * inch', { x: '2', long: '2' }, true),
				flag('!(x > 1 && long > 1 * inch) && kind != "red"', { long: '0' }, true),
				flag('(x > 1 || kind == "red") && (x > 1 || long > 1 * inch)', { kind: 'red', long: '2' }, true),
				{ formula: 'if(x > 1 && long > 1 * inch, 1, 2)', figures: { long: '0' }, expected: 2 }
			].map((line): Line => ({ ...line, refusedExactly: true })),
			{ formula: 'if(x > 1, 1, 2)', figures: {}, expected: NaN },
			flag('kind == ""', {}, true),
			flag('kind != "red"', {}, true),
			flag('kind == other', {}, true),
			flag('kind == other', { kind: 'red', other: 'red' }, true),
			{ formula: 'x + 1', figures: {}, expected: NaN },
			{ formula: 'if(known(x), x, unknown)', figures: {}, expected: NaN },
			{ formula: 'if(known(x), x, 7)', figures: {}, expected: 7 },
			{ formula: 'if(kind == "red", x, 7)', figures: { kind: 'blue' }, expected: 7 },
			{ formula: 'x / (x - 3)', figures: { x: '3' }, expected: NaN },
			{ formula: 'sqrt(x)', figures: { x: '-1' }, expected: NaN },
			key('kind', 'colours', {}, ''),
			key('kind', 'colours', { kind: 'blue' }, 'blue'),
			key('if(x > 1, kind, other)', 'colours', { x: '2' }, ''),
			key('if(x > 1, kind, "blue")', 'colours', { x: '0' }, 'blue'),
			key('keyOf("pairs", kind, other)', 'pairs', { kind: 'red', other: 'blue' }, 'red.blue'),
			key('keyOf("pairs", kind, other)', 'pairs', { kind: 'blue', other: 'red' }, ''),
			key('keyOf("pairs", kind, other)', 'pairs', { kind: 'red' }, ''),
			// Flags in the file may be TRUE or FALSE.
			{ formula: 'if(on && !off, 1, 2)', figures: { on: true, off: false }, expected: 1 },
			{ formula: 'if(on || off, 1, 2)', figures: { on: false, off: false }, expected: 2 },
			flag('on', { on: true }, true)
		];

		const rules: RuleDefinition[] = lines.map((line, i) => ({
			...quantity(`rule${String(i)}`, line.kind ?? 'number', line.unit ?? '1', line.vocabulary),
			formula: line.formula,
			source
		}));
		const book = load({
			quantities: [
				quantity('x', 'number'),
				quantity('amount', 'number', 'money'),
				quantity('long', 'number', 'in'),
				quantity('kind', 'key', '1', 'colours'),
				quantity('other', 'key', '1', 'colours'),
				quantity('on', 'flag'),
				quantity('off', 'flag')
			],
			vocabularies: [
				{ id: 'colours', keys: ['red', 'blue'] },
				{ id: 'pairs', keys: ['red.red', 'red.blue'] }
			],
			tables: [],
			scopes: [],
			constants: [],
			rules,
			functions: []
		});
		const figuresOf = (line: Line): Given => new Map(Object.entries(line.figures));
		const titleOf = ({ formula, figures }: Line): string => `${formula} with ${JSON.stringify(figures)}`;

		let column: readonly string[] = [];
		beforeAll(async () => {
			const sheet = new Sheet();
			lines.forEach((line, i) => {
				sheet.add(book, [`rule${String(i)}`], figuresOf(line), []);
			});
			const sheets = (await recalculate([{ name: 'edges', bytes: await sheet.bytes() }])).get('edges');
			column = (sheets?.get('Rules') ?? []).map((row) => row[0] ?? '');
		});

		test.each(lines.map((line, i) => [titleOf(line), i, line] as const))('%s', (_, i, line) => {
			const text = column[i] ?? 'missing';
			const value = computed(book, `rule${String(i)}`, figuresOf(line));
			const { expected } = line;
			if (typeof expected === 'string') {
				expect(value).toBe(expected);
				expect(text).toBe(expected);
			} else if (typeof expected === 'boolean') {
				expect(value).toBe(expected ? 1 : 0);
				expect(text).toBe(expected ? 'TRUE' : 'FALSE');
			} else if (Number.isNaN(expected)) {
				expect(value).toBeNaN();
				expect(text).toMatch(/^(?:#(?:N\/A|DIV\/0!|NUM!)|Err:502)$/u);
			} else {
				expect(value).toBeCloseTo(expected, 12);
				expect(Number(text)).toBeCloseTo(expected, 12);
			}
		});

		test('exact decimals give the same', () => {
			lines.forEach((line, i) => {
				const { expected, figures, refusedExactly } = line;
				if (typeof expected === 'string' || Number.isNaN(expected) || refusedExactly) return;
				const value = book.evaluateExact(`rule${String(i)}`, (name) => {
					const figure = figures[name];
					if (figure === undefined) return null;
					return typeof figure === 'boolean' || book.keysOf(name) ? figure : new Decimal(figure);
				});
				expect(value.toNumber(), titleOf(line)).toBeCloseTo(Number(expected), 12);
			});
		});
	}
);
