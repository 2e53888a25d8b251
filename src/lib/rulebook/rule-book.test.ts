/** Figures are invented, or those of the three openings worked by hand (invented too); the arithmetic is written out. */
import { Decimal } from 'decimal.js';
import { describe, expect, test, vi } from 'vitest';
import type { NamedFunction, QuantityDefinition, RuleDefinition, Source } from './definition.ts';
import { loadRuleBook, type Read, type RuleBook, type RuleBookSource } from './rule-book.ts';

const source: Source = { basis: 'invented', text: 'Invented for a test.' };

const quantity = (
	id: string,
	unit: string,
	kind: QuantityDefinition['kind'] = 'number',
	vocabulary?: string
): QuantityDefinition => ({
	id,
	title: id.replace(/[A-Z]/gu, (letter) => ` ${letter.toLowerCase()}`),
	kind,
	unit,
	...(vocabulary === undefined ? {} : { vocabulary }),
	chapter: 2,
	sentence: `What ${id} is.`
});

type Line = readonly [
	id: string,
	unit: string,
	formula: string,
	kind?: QuantityDefinition['kind'],
	words?: string
];

const spiral = (inner: number, outer: number): number => inner + 2 * outer;
const doubled: NamedFunction = {
	name: 'doubled',
	parameters: [
		{ name: 'first', unit: 'in' },
		{ name: 'second', unit: 'ft' }
	],
	unit: 'in',
	compute: spiral,
	explain: (a = 0, b = 0) => [`${String(a)} + 2 · ${String(b)}`],
	sentence: 'A function for the test.',
	source
};

function sourceOf(lines: readonly Line[], more: Partial<RuleBookSource> = {}): RuleBookSource {
	return {
		quantities: [
			quantity('openingWidth', 'in'),
			quantity('openingHeight', 'in'),
			quantity('curtain', '1', 'key', 'curtains'),
			quantity('hood', '1', 'key', 'hoodWords'),
			quantity('operation', '1', 'key', 'operations'),
			quantity('powered', '1', 'flag'),
			quantity('count', '1', 'count')
		],
		vocabularies: [
			{ id: 'operations', keys: ['tubeMotor', 'chain'] },
			{ id: 'hoodWords', keys: ['none', 'steel', 'aluminium'] },
			{ id: 'rowParts', keys: ['rod', 'slat'] }
		],
		tables: [
			{
				id: 'curtains',
				title: 'Curtains',
				keys: ['grille', 'slats'],
				attributes: [
					{ id: 'pitch', title: 'Pitch', kind: 'number', unit: 'in', values: ['2', '1.5'] },
					{ id: 'weight', title: 'Weight', kind: 'number', unit: 'lb/ft2', values: ['1.95', '1.05'] },
					{ id: 'barWeight', title: 'Bottom bar', kind: 'number', unit: 'lb/ft', values: ['2.4', '1'] },
					{ id: 'shift', title: 'Shift', kind: 'number', unit: 'mm', values: ['-0.25', '3'] },
					{
						id: 'rowPart',
						title: 'Row part',
						kind: 'key',
						unit: '1',
						vocabulary: 'rowParts',
						values: ['rod', 'slat']
					}
				]
			},
			{
				id: 'hoods',
				title: 'Hoods',
				keys: ['steel', 'aluminium'],
				attributes: [
					{ id: 'sheet', title: 'Sheet', kind: 'number', unit: 'lb/ft2', values: ['1.156', '0.5645'] }
				]
			}
		],
		scopes: [
			{ name: 'curtain', table: 'curtains', key: 'curtain' },
			{ name: 'hood', table: 'hoods', key: 'hood' }
		],
		constants: [
			{ id: 'friction', title: 'Friction', unit: '1', value: '0.1', source },
			{ id: 'clearance', title: 'Clearance', unit: 'in', value: '0.75', source },
			{ id: 'rate', title: 'Rate', unit: 'money/h', value: '38.00', source }
		],
		rules: lines.map(([id, unit, formula, kind, words]): RuleDefinition => ({
			...quantity(id, unit, kind, words),
			formula,
			source
		})),
		functions: [doubled],
		...more
	};
}

function load(lines: readonly Line[], more: Partial<RuleBookSource> = {}): RuleBook {
	const loaded = loadRuleBook(sourceOf(lines, more));
	if (!loaded.ok) throw new Error(loaded.problems.map((p) => `${p.rule}: ${p.problem}`).join('\n'));
	return loaded.book;
}

function problems(lines: readonly Line[], more: Partial<RuleBookSource> = {}): string[] {
	const loaded = loadRuleBook(sourceOf(lines, more));
	return loaded.ok ? [] : loaded.problems.map(({ rule, problem }) => `${rule}: ${problem}`);
}

const inch = 25_400_000;

describe('a book is checked when it is loaded', () => {
	test.each<[string, Line, RegExp]>([
		[
			'length to area',
			['x', 'in', 'openingWidth + openingWidth * openingHeight'],
			/^x: adds area to length$/u
		],
		['difference', ['x', 'in', 'openingWidth - 2'], /subtracts plain number from length/u],
		['unit of the rule', ['x', 'ft2', 'openingWidth'], /gives length, but the rule is area \(ft2\)/u],
		['plain number to length', ['x', 'in', 'max(openingWidth, 2)'], /max of length and plain number/u],
		['comparison', ['x', '1', 'openingWidth > 2', 'flag'], /compares length with plain number/u],
		['root', ['x', 'in', 'sqrt(openingWidth)'], /square root of length/u],
		[
			'ceil of a length',
			['x', '1', 'ceil(openingWidth)'],
			/ceil rounds a plain number, not length.*x \/ inch/u
		],
		['round of a length', ['x', 'in', 'round(openingWidth, 2)'], /round rounds a plain number/u],
		['digits', ['x', '1', 'round(count, count)'], /0 to 8, written out/u],
		['digits', ['x', '1', 'round(count, 9)'], /0 to 8, written out/u],
		['cents', ['x', 'in', 'cents(openingWidth)'], /cents rounds money, not length/u],
		['branches', ['x', 'in', 'if(powered, openingWidth, count)'], /if gives length or plain number/u],
		['condition', ['x', 'in', 'if(count, openingWidth, 0)'], /if needs a condition, not plain number/u],
		['flag as a number', ['x', '1', 'powered + 1'], /adds a condition/u],
		['flags compared', ['x', '1', 'powered == powered', 'flag'], /compares two conditions/u],
		['not', ['x', '1', '!count', 'flag'], /! needs a condition/u],
		['and', ['x', '1', 'powered && count', 'flag'], /&& needs a condition, not plain number/u],
		['number as a flag', ['x', '1', 'count', 'flag'], /gives plain number, but the rule is a condition/u],
		['flag as a rule of numbers', ['x', '1', 'powered'], /gives a condition, but the rule is plain number/u],
		['key as a number', ['x', '1', 'operation * 2'], /multiplies a key of operations/u],
		[
			'word',
			['x', '1', 'operation == "tubMotor"', 'flag'],
			/"tubMotor" is not a word of operations \(did you mean tubeMotor\?\)/u
		],
		[
			'vocabularies',
			['x', '1', 'operation == curtain', 'flag'],
			/compares a key of operations with a key of curtains/u
		],
		['order of keys', ['x', '1', 'operation < "chain"', 'flag'], /keys are only == or !=/u],
		['two words', ['x', '1', '"a" == "a"', 'flag'], /one side must be a key quantity/u],
		[
			'key with a number',
			['x', '1', 'operation == 1', 'flag'],
			/compares a key of operations with plain number/u
		],
		[
			'word in a branch',
			['x', '1', 'if(powered, "chain", "rope")', 'key', 'operations'],
			/"rope" is not a word of operations/u
		],
		[
			'unknown name',
			['x', 'in', 'openingWith'],
			/openingWith is not a known name \(did you mean openingWidth\?\)/u
		],
		[
			'unknown attribute',
			['x', 'in', 'curtain.pich'],
			/curtain\.pich is not a known name \(did you mean curtain\.pitch\?\)/u
		],
		['unknown constant', ['x', '1', 'shop.fricton'], /did you mean shop\.friction\?/u],
		['far from everything', ['x', '1', 'zzzzzzzzzzzz'], /^x: zzzzzzzzzzzz is not a known name$/u],
		['prototype', ['x', '1', 'constructor'], /constructor is not a known name/u],
		['unknown function', ['x', '1', 'cel(count)'], /cel is not a known function \(did you mean ceil\?\)/u],
		['arguments', ['x', '1', 'min(count)'], /min takes 2 to 20 arguments, not 1/u],
		['arguments', ['x', '1', 'ceil(count, 2)'], /ceil takes 1 argument, not 2/u],
		[
			'arguments',
			['x', 'in', 'doubled(openingWidth)'],
			/doubled takes 2 arguments \(first, second\), not 1/u
		],
		[
			'argument',
			['x', 'in', 'doubled(count, openingWidth)'],
			/doubled takes length as first, not plain number/u
		],
		['division by 0', ['x', '1', 'count / 0'], /divides by 0/u],
		['powers', ['x', 'in4', 'openingWidth ^ 4'], /square\(x\)/u],
		[
			'power of a length',
			['x', 'in', 'power(openingWidth, 2)'],
			/power raises a plain number, not length.*x \/ inch/u
		],
		['exponent', ['x', '1', 'power(count, openingWidth)'], /power raises to a plain number, not to length/u],
		['exponent', ['x', '1', 'power(count)'], /power takes 2 arguments, not 1/u],
		['power of a condition', ['x', '1', 'power(powered, 2)'], /power of a condition/u],
		['known', ['x', '1', 'known(count + 1)', 'flag'], /known asks whether one named/u],
		['keyOf', ['x', '1', 'keyOf("curtans", operation)', 'key', 'curtains'], /did you mean curtains/u]
	])('%s', (_, line, expected) => {
		expect(problems([line]).join('\n')).toMatch(expected);
	});

	test('the whole circle is listed, and every rule with a problem', () => {
		const found = problems([
			['a', 'in', 'b + openingWidth'],
			['b', 'in', 'c * 2'],
			['c', 'in', 'a / 2'],
			['own', '1', 'own + 1'],
			['wrong', 'in', 'openingWidth * 2 + count']
		]);
		expect(found).toContain('a: it depends on itself: a → b → c → a');
		expect(found).toContain('own: it depends on itself: own → own');
		expect(found).toContain('wrong: adds plain number to length');
		expect(found).toHaveLength(3);
	});

	test('a circle through the key that picks a row', () => {
		const lines: Line[] = [
			['chosen', '1', 'if(picked.pitch > 1 * inch, "grille", "slats")', 'key', 'curtains']
		];
		const scopes = [{ name: 'picked', table: 'curtains', key: 'chosen' }];
		expect(problems(lines, { scopes })).toEqual([
			'chosen: it depends on itself: chosen → picked.pitch → chosen'
		]);
	});

	test.each<[string, Partial<RuleBookSource>, RegExp]>([
		[
			'an id twice',
			{ quantities: [quantity('a', 'in'), quantity('a', 'ft')], scopes: [] },
			/^a: this id is there twice/mu
		],
		[
			'a name of the language',
			{ quantities: [quantity('inch', 'in')], scopes: [] },
			/^inch: inch is a name of the language/mu
		],
		['pi', { quantities: [quantity('pi', '1')], scopes: [] }, /^pi: pi is a name of the language/mu],
		[
			'a unit',
			{ quantities: [quantity('a', 'furlong')], scopes: [] },
			/"furlong" in "furlong" is not a known unit/u
		],
		[
			'a count with a unit',
			{ quantities: [quantity('a', 'in', 'count')], scopes: [] },
			/a count has no unit/u
		],
		[
			'metric',
			{ quantities: [{ ...quantity('a', 'in'), metricUnit: 'kg' }], scopes: [] },
			/in and kg measure different things/u
		],
		[
			'vocabulary',
			{ quantities: [quantity('a', '1', 'key', 'curtain')], scopes: [] },
			/curtain is not a vocabulary or a table \(did you mean curtains\?\)/u
		],
		[
			'capitals',
			{ vocabularies: [{ id: 'v', keys: ['Left', 'left'] }], quantities: [], scopes: [] },
			/the keys Left and left are the same but for capitals/u
		],
		[
			'a scope without table',
			{ scopes: [{ name: 's', table: 'curtain', key: 'curtain' }] },
			/curtain is not a table \(did you mean curtains\?\)/u
		],
		[
			'a scope without key',
			{ scopes: [{ name: 's', table: 'curtains', key: 'openingWidth' }] },
			/openingWidth is not a key quantity/u
		],
		[
			'a scope whose words are no rows',
			{ scopes: [{ name: 's', table: 'curtains', key: 'operation' }] },
			/no word of operation is a row of curtains/u
		],
		[
			'a scope called shop',
			{ scopes: [{ name: 'shop', table: 'curtains', key: 'curtain' }] },
			/shop is the scope of the constants/u
		],
		[
			'a constant',
			{ constants: [{ id: 'x', title: 'x', unit: 'in', value: '1,5', source }] },
			/"1,5" is not a decimal number/u
		],
		[
			'a function of the language',
			{ functions: [{ ...doubled, name: 'ceil' }] },
			/ceil: a function of the language has this name/u
		],
		[
			'a table',
			{
				tables: [
					{
						id: 'curtains',
						title: 'Curtains',
						keys: ['grille', 'slats'],
						attributes: [
							{ id: 'pitch', title: 'Pitch', kind: 'number', unit: 'in', values: ['2', 'two'] },
							{ id: 'wrap', title: 'Wrap', kind: 'number', unit: 'in', values: ['2'] }
						]
					}
				],
				scopes: []
			},
			/curtains\.pitch: "two" in row slats is not a decimal number\ncurtains\.wrap: 1 values for 2 rows/u
		]
	])('%s', (_, more, expected) => {
		expect(problems([], more).join('\n')).toMatch(expected);
	});

	test('an exact 0 fits any dimension, nothing else does', () => {
		expect(problems([['x', 'in', 'max(0, openingWidth - openingHeight)']])).toEqual([]);
		expect(problems([['x', 'in', 'if(powered, openingWidth, 0.00)']])).toEqual([]);
		expect(problems([['x', '1', 'openingWidth > 0', 'flag']])).toEqual([]);
		expect(problems([['x', 'in', 'max(1, openingWidth)']])).toHaveLength(1);
	});
});

describe('the order and what depends on what', () => {
	const book = load([
		['weight', 'lb', 'area * curtain.weight'],
		['area', 'ft2', 'width * openingHeight'],
		['width', 'in', 'openingWidth + 2 * shop.clearance'],
		['part', '1', 'curtain.rowPart', 'key', 'rowParts']
	]);

	test('each rule comes after what it depends on', () => {
		expect(book.order).toEqual(['width', 'area', 'weight', 'part']);
	});

	test('names of a formula as they are read; unit names are not among them', () => {
		expect(book.namesIn('weight')).toEqual(['area', 'curtain.weight']);
		expect(book.namesIn('width')).toEqual(['openingWidth', 'shop.clearance']);
		expect(book.namesIn('openingWidth')).toEqual([]);
	});

	test('dependence is followed through rules and through the key of a row', () => {
		expect(book.dependsOn('weight', new Set(['openingWidth']))).toBe(true);
		expect(book.dependsOn('weight', new Set(['curtain']))).toBe(true);
		expect(book.dependsOn('weight', new Set(['curtain.weight']))).toBe(true);
		expect(book.dependsOn('area', new Set(['curtain']))).toBe(false);
		expect(book.dependsOn('area', new Set(['weight', 'area']))).toBe(false);
	});

	test('what a name is', () => {
		expect(book.definition('curtain.weight')).toMatchObject({
			title: 'Weight',
			unit: 'lb/ft2',
			kind: 'number'
		});
		expect(book.definition('shop.friction')).toMatchObject({ title: 'Friction', unit: '1' });
		expect(book.definition('nothing')).toBeUndefined();
		expect(book.rule('openingWidth')).toBeUndefined();
		expect(book.rule('area')?.formula).toBe('width * openingHeight');
		expect(book.keysOf('curtain')).toEqual(['grille', 'slats']);
		expect(book.keysOf('area')).toBeNull();
		expect(book.keyOfName('curtain.weight')).toBe('curtain');
		expect(book.keyOfName('curtain')).toBeNull();
		expect(book.bookText('curtain.weight', 'slats')).toBe('1.05');
		expect(book.bookText('shop.rate', null)).toBe('38.00');
		expect(book.bookValue('curtain.pitch', 'slats')).toBe(1.5 * inch);
		expect(book.bookValue('curtain.rowPart', 'slats')).toBe('slat');
		expect(book.bookValue('curtain.pitch', null)).toBeNull();
		expect(book.bookValue('openingWidth', null)).toBeNull();
		// −0.25 mm is −250 000 nm, whole.
		expect(book.bookValue('curtain.shift', 'grille')).toBe(-250_000);
		expect(book.toBase('openingWidth', 2.5)).toBe(2.5 * inch);
	});
});

/** Runs rules for rows of inputs; keys by word. */
function run(
	book: RuleBook,
	rules: readonly string[],
	rows: readonly Readonly<Record<string, number | string>>[],
	given: readonly string[] = []
): number[][] {
	const program = book.program({ rules, given, capacity: rows.length });
	for (const name of program.given) {
		const keys = book.keysOf(name);
		rows.forEach((row, i) => {
			const value = row[name] ?? NaN;
			program.column(name)[i] = typeof value === 'number' ? value : (keys ?? []).indexOf(value);
		});
	}
	program.run(rows.length);
	return rules.map((rule) => [...program.column(rule)]);
}

describe('computed', () => {
	test('opening A: 123 in × 69 in = 8,487 in² = 58.94 ft²; × 1.05 lb/ft² + 123 in × 1 lb/ft = 72.13 lb', () => {
		const book = load([
			['area', 'ft2', 'openingWidth * openingHeight'],
			['weight', 'lb', 'area * curtain.weight + openingWidth * curtain.barWeight']
		]);
		const [areas, weights] = run(
			book,
			['area', 'weight'],
			[
				{ openingWidth: 123 * inch, openingHeight: 69 * inch, curtain: 'slats' },
				{ openingWidth: 12 * inch, openingHeight: 12 * inch, curtain: 'grille' }
			]
		);
		expect((areas?.[0] ?? 0) / (12 * inch) ** 2).toBeCloseTo(8487 / 144, 12);
		expect(weights?.[0]).toBeCloseTo((8487 / 144) * 1.05 + 123 / 12, 10);
		// 1 ft² of grille and 1 ft of its bar.
		expect(weights?.[1]).toBeCloseTo(1.95 + 2.4, 12);
	});

	test('whole nanometres stay whole through sums', () => {
		const book = load([['x', 'in', 'openingWidth + 2 * shop.clearance + 1 * mm + curtain.shift']]);
		// 1/64 in = 396 875 nm; 1.5 in = 38 100 000; 1 mm = 1 000 000; −0.25 mm = −250 000.
		expect(run(book, ['x'], [{ openingWidth: 396_875, curtain: 'grille' }])).toEqual([[39_246_875]]);
	});

	test('what is given is not computed, rules and attributes alike', () => {
		const book = load([
			['first', 'in', 'openingWidth * 2'],
			['second', 'in', 'first + curtain.pitch']
		]);
		const program = book.program({ rules: ['second'], given: ['first', 'curtain.pitch'], capacity: 4 });
		expect(program.given).toEqual(['first', 'curtain.pitch']);
		program.column('first').fill(10);
		program.column('curtain.pitch').fill(5);
		program.run(4);
		expect([...program.column('second')]).toEqual([15, 15, 15, 15]);
		expect(program.has('openingWidth')).toBe(false);
		expect(() => program.column('openingWidth')).toThrow('openingWidth is not in this program');
		expect(() => book.program({ rules: ['third'], given: [], capacity: 1 })).toThrow('third is not a name');
	});

	test('a name that was given but is not read has an idle column', () => {
		const book = load([['x', 'in', 'openingWidth']]);
		const program = book.program({ rules: ['x'], given: ['openingHeight'], capacity: 2 });
		expect(program.given).toEqual(['openingWidth']);
		expect(program.column('openingHeight')).toHaveLength(2);
	});

	test('rows keep apart, and a run of fewer rows leaves the others alone', () => {
		const book = load([['x', '1', 'count * 2 + 1']]);
		const program = book.program({ rules: ['x'], given: [], capacity: 3 });
		program.column('count').set([1, 2, 3]);
		program.run(3);
		program.column('count').set([10, 20, 30]);
		program.run(2);
		expect([...program.column('x')]).toEqual([21, 41, 7]);
	});

	test('not known runs through, but not past a branch that is not taken or an answer that is clear', () => {
		const book = load([
			['sum', '1', 'count + 1'],
			['branch', '1', 'if(powered, count, 7)'],
			['and', '1', 'powered && count > 1', 'flag'],
			['or', '1', '!powered || count > 1', 'flag'],
			['above', '1', 'count > 1', 'flag'],
			['least', '1', 'min(count, 3)'],
			['asked', '1', 'if(known(count), count, 0)'],
			['nothing', '1', '1 / (count - count)'],
			['negative', '1', 'sqrt(0 - count)'],
			['sheet', 'lb/ft2', 'hood.sheet'],
			['free', '1', 'if(hood == "none", 0, hood.sheet / (lb / square(ft)))']
		]);
		const rules = [
			'sum',
			'branch',
			'and',
			'or',
			'above',
			'least',
			'asked',
			'nothing',
			'negative',
			'sheet',
			'free'
		];
		const values = run(book, rules, [
			{ count: NaN, powered: 0, hood: 'none' },
			{ count: NaN, powered: 1, hood: -1 },
			{ count: 2, powered: 1, hood: 'steel' }
		]);
		expect(values).toEqual([
			[NaN, NaN, 3],
			[7, NaN, 2],
			[0, NaN, 1],
			[1, NaN, 1],
			[NaN, NaN, 1],
			[NaN, NaN, 2],
			[0, 0, 2],
			[NaN, NaN, NaN],
			[NaN, NaN, NaN],
			[NaN, NaN, expect.closeTo(1.156 / (12 * inch) ** 2, 30)],
			[0, NaN, expect.closeTo(1.156, 12)]
		]);
	});

	test('a power: of 0 or more only, 0 to more than 0 only, and never beyond what a number holds', () => {
		const book = load([
			['root', '1', 'power(count, 1.5)'],
			['inverse', '1', 'power(count, -0.5)'],
			['even', '1', 'power(count, 2)'],
			['nothing', '1', 'power(count, 0)'],
			['to', '1', 'power(4, count)'],
			['ratio', '1', 'power(openingWidth / ft, count)'],
			['written', '1', 'power(2, 10) + power(1 - 3, 2)']
		]);
		// 4^1.5 = 8; 4^-0.5 = 1/2; 4^4 = 256; (24 in = 2 ft)^4 = 16. (-2)² and 0^0 are not known, nor is 1e200².
		const rules = ['root', 'inverse', 'even', 'nothing', 'to', 'ratio', 'written'];
		const width = 24 * inch;
		const values = run(book, rules, [
			{ count: 4, openingWidth: width },
			{ count: 0, openingWidth: width },
			{ count: -2, openingWidth: width },
			{ count: 1e200, openingWidth: width },
			{ count: NaN, openingWidth: width }
		]);
		expect(values).toEqual([
			[8, 0, NaN, expect.closeTo(1e300, -287), NaN],
			[0.5, NaN, NaN, 1e-100, NaN],
			[16, 0, NaN, NaN, NaN],
			[1, NaN, NaN, 1, NaN],
			[256, 1, 0.0625, NaN, NaN],
			[16, 1, 0.25, NaN, NaN],
			[NaN, NaN, NaN, NaN, NaN]
		]);
	});

	test('keys: none equals only none', () => {
		const book = load([
			['motor', '1', 'operation == "tubeMotor"', 'flag'],
			['other', '1', 'operation != "tubeMotor"', 'flag'],
			['none', '1', 'operation == ""', 'flag'],
			['given', '1', 'known(operation)', 'flag'],
			['part', '1', 'curtain.rowPart', 'key', 'rowParts'],
			['turned', '1', 'if(operation == "chain", "slat", curtain.rowPart)', 'key', 'rowParts']
		]);
		const values = run(
			book,
			['motor', 'other', 'none', 'given', 'part', 'turned'],
			[
				{ operation: 'tubeMotor', curtain: 'grille' },
				{ operation: 'chain', curtain: 'slats' },
				{ operation: -1, curtain: -1 }
			]
		);
		expect(values).toEqual([
			[1, 0, 0],
			[0, 1, 1],
			[0, 0, 1],
			[1, 1, 0],
			[0, 1, -1],
			[0, 1, -1]
		]);
	});

	test('a named function gets its own units, row by row, and is not called for what is not known', () => {
		const compute = vi.fn(spiral);
		const book = load([['x', 'ft', 'doubled(openingWidth, openingHeight)']], {
			functions: [{ ...doubled, compute }]
		});
		// 24 in + 2 · 3 = 30 in (the function's second argument is in feet: 36 in = 3 ft).
		const [values] = run(
			book,
			['x'],
			[
				{ openingWidth: 24 * inch, openingHeight: 36 * inch },
				{ openingWidth: NaN, openingHeight: 36 * inch }
			]
		);
		expect(values).toEqual([30 * inch, NaN]);
		expect(compute).toHaveBeenCalledTimes(1);
		expect(compute).toHaveBeenCalledWith(24, 3);
	});

	test('constants are worked out once, when the program is made', () => {
		const book = load([
			['x', 'in', '2 * inch + 3 * ft - shop.clearance'],
			['y', '1', 'ceil(7 / 2) + round(2.5) + floor(-0.5) + max(1, 2) + if(2 > 1, 10, 20)'],
			['z', '1', '2 > 1 && !(3 > 4)', 'flag']
		]);
		// 2 + 36 − 0.75 = 37.25 in; 4 + 3 − 1 + 2 + 10 = 18.
		expect(run(book, ['x', 'y', 'z'], [{}])).toEqual([[37.25 * inch], [18], [1]]);
	});
});

describe('explained', () => {
	const book = load([
		['curtainLength', 'in', 'rows * curtain.pitch'],
		['rows', '1', 'ceil((openingHeight + 14.14 * inch) / curtain.pitch)', 'count'],
		['curtainArea', 'ft2', 'openingWidth * curtainLength'],
		['curtainWeight', 'lb', 'curtainArea * curtain.weight + openingWidth * curtain.barWeight'],
		['coil', 'in', 'sqrt(square(openingWidth) + 4 * shop.clearance * openingHeight / pi)'],
		['side', 'in', 'shop.clearance + if(operation == "tubeMotor", 1.5 * inch, 6 * inch)'],
		['late', '1', 'openingHeight > 8 * ft || !powered', 'flag'],
		['turned', 'in', 'doubled(openingWidth, openingHeight) * 2'],
		['ratio', '1', 'openingWidth / (openingHeight - openingHeight)'],
		['wear', '1', 'power(rows, 1.5) * power(openingWidth / openingHeight, -rows / 92)'],
		['resistance', 'ohm/ft', '120 * volt / (rows * ampere) / openingWidth']
	]);
	const values: Readonly<Record<string, number | string>> = {
		openingWidth: 123 * inch,
		openingHeight: 54 * inch,
		curtain: 'slats',
		operation: 'chain',
		powered: 1,
		rows: 46,
		curtainLength: 69 * inch,
		curtainArea: (8487 / 144) * (12 * inch) ** 2
	};
	const read: Read = (name) => values[name] ?? null;

	test('the formula, the same with figures and the factor between the units, the value', () => {
		// 123 · 69 = 8,487 in²; / 144 = 58.9375 ft².
		expect(book.explain('curtainArea', read)).toMatchObject({
			id: 'curtainArea',
			title: 'curtain area',
			unit: 'ft2',
			formula: 'openingWidth × curtainLength',
			substituted: '123 in × 69 in ÷ 144',
			value: 58.9375,
			text: '58.94 ft²',
			why: 'What curtainArea is.',
			source,
			from: [
				{ name: 'openingWidth', title: 'opening width', text: '123 in', canOpen: true },
				{ name: 'curtainLength', title: 'curtain length', text: '69 in', canOpen: true }
			],
			steps: []
		});
	});

	test('only factors that do not cancel appear, each once', () => {
		// 58.9375 · 1.05 + 123 · 1 / 12 = 61.884375 + 10.25 = 72.134375 lb.
		const weight = book.explain('curtainWeight', read);
		expect(weight.substituted).toBe('58.9375 ft² × 1.05 lb/ft² + 123 in × 1 lb/ft ÷ 12');
		expect(weight.value).toBeCloseTo(72.134375, 12);
		expect(weight.text).toBe('72.1 lb');
		// (54 + 14.14) / 1.5 = 45.43 → 46; a number of inches is shown as such.
		const rows = book.explain('rows', read);
		expect(rows.formula).toBe('ceil((openingHeight + 14.14 × inch) ÷ curtain.pitch)');
		expect(rows.substituted).toBe('ceil((54 in + 14.14 in) ÷ 1.5 in)');
		expect(rows.text).toBe('46');
		// √(123² + 4 · 0.75 · 54 / π) = √(15 129 + 51.5662…) = 123.2094…
		const coil = book.explain('coil', read);
		expect(coil.formula).toBe('√(openingWidth² + 4 × shop.clearance × openingHeight ÷ π)');
		expect(coil.substituted).toBe('√((123 in)² + 4 × 0.75 in × 54 in ÷ π)');
		expect(coil.value).toBeCloseTo(Math.sqrt(15_129 + 162 / Math.PI), 12);
	});

	test('a power is written with ^, what stands on either side in parentheses', () => {
		// 46^1.5 = 311.987…; (123 / 54)^−0.5 = √(54 / 123) = 0.662589…
		const wear = book.explain('wear', read);
		expect(wear.formula).toBe('rows^1.5 × (openingWidth ÷ openingHeight)^(−rows ÷ 92)');
		expect(wear.substituted).toBe('46^1.5 × (123 in ÷ 54 in)^(−46 ÷ 92)');
		expect(wear.value).toBeCloseTo(46 * Math.sqrt(46) * Math.sqrt(54 / 123), 10);
	});

	test('ohms are volts over amperes', () => {
		// 120 / 46 / 10.25 ft = 0.254507 ohm/ft.
		expect(book.explain('resistance', read)).toMatchObject({
			substituted: '120 V ÷ 46 ÷ 123 in × 12',
			text: '0.254507 Ω/ft'
		});
	});

	test('in other units the factors change and the value is the same thing', () => {
		const metric: Readonly<Record<string, string>> = {
			in: 'mm',
			ft2: 'm2',
			lb: 'kg',
			'lb/ft2': 'kg/m2',
			'lb/ft': 'kg/m'
		};
		const shown = book.explain('curtainArea', read, ({ unit }) => metric[unit] ?? unit);
		// 123 in = 3 124.2 mm, 69 in = 1 752.6 mm; product 5 475 472.92 mm² = 5.47547292 m².
		expect(shown.substituted).toBe('3124.2 mm × 1752.6 mm ÷ 1000000');
		expect(shown.unit).toBe('m2');
		expect(shown.value).toBeCloseTo(5.475_472_92, 12);
	});

	test('the branch that applied, and why', () => {
		// Chain: 0.75 + 6 in.
		expect(book.explain('side', read)).toMatchObject({
			formula: 'shop.clearance + if(operation = tubeMotor, 1.5 × inch, 6 × inch)',
			substituted: '0.75 in + (since not (chain = tubeMotor): 6 in)',
			value: 6.75
		});
		const motor = book.explain('side', (name) => (name === 'operation' ? 'tubeMotor' : read(name)));
		expect(motor.substituted).toBe('0.75 in + (since tubeMotor = tubeMotor: 1.5 in)');
		expect(motor.value).toBe(2.25);
	});

	test('flags are yes or no', () => {
		expect(book.explain('late', read)).toMatchObject({
			formula: 'openingHeight > 8 × ft or not (powered)',
			substituted: '54 in > 96 in or not (yes)',
			value: 0,
			text: 'no'
		});
	});

	test('a named function tells its steps, in its own units', () => {
		// (123 + 2 · 4.5) · 2 = 264: 54 in = 4.5 ft.
		expect(book.explain('turned', read)).toMatchObject({
			substituted: 'doubled(123 in, 54 in ÷ 12) × 2',
			value: 264,
			steps: ['123 + 2 · 4.5']
		});
	});

	test('what is not known is said, never NaN', () => {
		expect(book.explain('ratio', read)).toMatchObject({ value: null, text: 'not known' });
		const blank = book.explain('curtainArea', () => null);
		expect(blank).toMatchObject({
			value: null,
			text: 'not known',
			substituted: 'not known × not known ÷ 144'
		});
	});

	test('inputs, attributes and constants can be opened too', () => {
		expect(book.explain('openingWidth', read)).toMatchObject({
			formula: '',
			value: 123,
			text: '123 in',
			from: []
		});
		expect(book.explain('curtain', read)).toMatchObject({ value: 'slats', text: 'slats' });
		expect(book.explain('curtain.weight', read)).toMatchObject({
			formula: 'Weight of curtain in Curtains',
			substituted: 'Weight of slats in Curtains',
			value: 1.05,
			text: '1.05 lb/ft²',
			source: { basis: 'shop', text: 'Shop book, Curtains, row slats.' },
			from: [{ name: 'curtain', title: 'curtain', text: 'slats', canOpen: true }]
		});
		expect(book.explain('shop.friction', read)).toMatchObject({ value: 0.1, text: '0.1', source });
		expect(() => book.explain('nothing', read)).toThrow('nothing is not a name of this rule book');
	});
});

describe('written as a workbook formula', () => {
	const write = (
		formula: string,
		unit: string,
		kind: QuantityDefinition['kind'] = 'number',
		units: Record<string, string> = {}
	) => {
		const book = load([['x', unit, formula, kind]]);
		return book.writeFormula('x', {
			reference: (name) => name.replace('.', '_'),
			unit: (name) => units[name] ?? book.definition(name)?.unit ?? '1'
		});
	};

	test.each([
		['openingWidth * openingHeight', 'ft2', 'openingWidth*openingHeight/144'],
		['openingWidth + 2 * shop.clearance', 'in', 'openingWidth+2*shop_clearance'],
		['openingWidth + 2 * ft', 'in', 'openingWidth+24'],
		['openingWidth + 25.4 * mm', 'in', 'openingWidth+1'],
		['openingWidth', 'mm', 'openingWidth*25.4'],
		['(openingWidth + openingHeight) * 2', 'm', '(openingWidth+openingHeight)*2*0.0254'],
		['openingWidth * curtain.barWeight', 'kg', 'openingWidth*curtain_barWeight*0.45359237/12'],
		['openingWidth - (openingHeight - shop.clearance)', 'in', 'openingWidth-(openingHeight-shop_clearance)'],
		['openingWidth - (openingHeight * 2)', 'in', 'openingWidth-openingHeight*2'],
		['openingWidth / (openingHeight / 2)', '1', 'openingWidth/(openingHeight/2)'],
		['-openingWidth * 2', 'in', '-openingWidth*2'],
		['-(openingWidth + openingHeight)', 'in', '-(openingWidth+openingHeight)'],
		['openingWidth - -openingHeight', 'in', 'openingWidth-(-openingHeight)'],
		[
			'square(openingWidth + openingHeight)',
			'in2',
			'(openingWidth+openingHeight)*(openingWidth+openingHeight)'
		],
		[
			'sqrt(square(openingWidth) + square(openingHeight))',
			'ft',
			'SQRT(openingWidth*openingWidth+openingHeight*openingHeight)/12'
		],
		['ceil(openingWidth / curtain.pitch)', '1', '-INT(-ROUND(openingWidth/curtain_pitch,9))'],
		['floor(openingWidth / ft)', '1', 'INT(ROUND(openingWidth/12,9))'],
		['round(openingWidth / ft, 2) * ft', 'ft', 'ROUND(ROUND(openingWidth/12,9),2)'],
		['max(2, count) + abs(count) + pi', '1', 'MAX(2,count)+ABS(count)+PI()'],
		[
			'if(operation == "tubeMotor" && powered, count, 0)',
			'1',
			'IF(IF(operation="tubeMotor",powered,FALSE),count,0)'
		],
		[
			'if(operation == "tubeMotor" || operation == "chain", 1, 0)',
			'1',
			'IF(OR(operation="tubeMotor",operation="chain"),1,0)'
		],
		[
			'if(powered && powered && count < -1, 1, 0)',
			'1',
			'IF(IF(AND(IFERROR(IF(powered="",NA(),powered),TRUE),IFERROR(IF(powered="",NA(),powered),TRUE),IFERROR(ROUND(count-(-1),9)<0,TRUE)),AND(IF(powered="",NA(),powered),IF(powered="",NA(),powered),ROUND(count-(-1),9)<0),FALSE),1,0)'
		],
		[
			'if(count > 1 || !powered, 1, unknown)',
			'1',
			'IF(IF(OR(IFERROR(ROUND(count-1,9)>0,FALSE),IFERROR(NOT(powered),FALSE)),TRUE,OR(ROUND(count-1,9)>0,NOT(powered))),1,NA())'
		],
		['round(count * 0.5, 1) * shop.rate * hour', 'money', 'ROUND(ROUND(count*0.5,9),1)*shop_rate'],
		[
			'cents(shop.rate * hour)',
			'money',
			'(INT(ROUND(shop_rate*100,6)+0.5)-IF(MOD(ROUND(shop_rate*100,6),2)=0.5,1,0))/100'
		],
		['power(count, 1.5)', '1', 'IF(count<0,NA(),POWER(count,1.5))'],
		['power(2, count)', '1', 'POWER(2,count)'],
		['power(openingWidth / ft, 2) * 2', '1', 'IF(openingWidth/12<0,NA(),POWER(openingWidth/12,2))*2'],
		['power(count, -1)', '1', 'IF(count>0,POWER(count,-1),IF(AND(count=0,-1>0),0,NA()))'],
		['1e-3 * count + .5', '1', '0.001*count+0.5']
	])('%s in %s', (formula, unit, expected) => {
		expect(write(formula, unit)).toBe(expected);
	});

	test('a comparison takes up noise in inches, pounds, minutes', () => {
		expect(write('openingWidth >= 8 * ft', '1', 'flag')).toBe('ROUND(openingWidth-96,9)>=0');
		expect(write('openingWidth > 0', '1', 'flag')).toBe('ROUND(openingWidth,9)>0');
		// Cells in millimetres: the difference is brought to inches first.
		expect(
			write('openingWidth != openingHeight', '1', 'flag', { openingWidth: 'mm', openingHeight: 'mm' })
		).toBe('ROUND((openingWidth-openingHeight)/25.4,9)<>0');
	});

	test('quotes in a key are doubled', () => {
		const book = load([['x', '1', `mood == 'a"b'`, 'flag']], {
			quantities: [quantity('mood', '1', 'key', 'moods')],
			vocabularies: [{ id: 'moods', keys: ['a"b'] }],
			tables: [],
			scopes: []
		});
		expect(book.writeFormula('x', { reference: () => '$A$1', unit: () => '1' })).toBe('$A$1="a""b"');
	});

	test('a rule that calls a named function, an input, and a formula too long for a spreadsheet have none', () => {
		expect(write('doubled(openingWidth, openingHeight)', 'in')).toBeNull();
		const book = load([['x', 'in', 'openingWidth + openingWidth']]);
		const unit = (): string => 'in';
		expect(book.writeFormula('openingWidth', { reference: () => 'A1', unit })).toBeNull();
		expect(book.writeFormula('x', { reference: () => 'A'.repeat(5000), unit })).toBeNull();
	});
});

describe('in exact decimals', () => {
	const book = load([
		['labour', 'money', 'cents(round(hours / hour, 2) * hour * shop.rate * (1 + 0.45))'],
		['hours', 'h', 'openingWidth / ft * 7 * minute'],
		['third', 'money', 'labour / 3'],
		['area', 'ft2', 'openingWidth * openingHeight'],
		['half', 'money', 'cents(labour / 4)'],
		['chosen', 'money', 'if(operation == "tubeMotor", labour, 0)'],
		['nothing', '1', '1 / (count - count)'],
		['power', '1', 'power(count, 1.5)'],
		['inverse', '1', 'power(count, -1)'],
		['called', 'in', 'doubled(openingWidth, openingHeight)'],
		['motor', '1', 'operation == "tubeMotor"', 'flag']
	]);
	const read = (figures: Readonly<Record<string, string>>) => (name: string) => {
		const figure = figures[name];
		if (figure === undefined) return null;
		return book.keysOf(name) ? figure : new Decimal(figure);
	};

	test('11.75 h × 38.00 × 1.45 = 647.425 → 647.42 (half to even)', () => {
		expect(book.evaluateExact('labour', read({ hours: '11.75' })).toFixed()).toBe('647.42');
		// 11.745 h rounds to 11.75 first; as a float 11.745 lies below the half.
		expect(book.evaluateExact('labour', read({ hours: '11.745' })).toFixed()).toBe('647.42');
		expect(book.evaluateExact('labour', read({ hours: '11.744' })).toFixed()).toBe('646.87');
	});

	test('factors are exact: 7 in × 7 in = 49/144 ft²', () => {
		const area = book.evaluateExact('area', read({ openingWidth: '7', openingHeight: '7' }));
		expect(area.times(144).toDecimalPlaces(30).toFixed()).toBe('49');
		expect(area.toSignificantDigits(30).toFixed()).toBe('0.340277777777777777777777777778');
	});

	test('halves of a cent go to the even one, negative too', () => {
		// 0.50 / 4 = 0.125 → 0.12; 0.54 / 4 = 0.135 → 0.14.
		expect(book.evaluateExact('half', read({ labour: '0.50' })).toFixed()).toBe('0.12');
		expect(book.evaluateExact('half', read({ labour: '0.54' })).toFixed()).toBe('0.14');
		expect(book.evaluateExact('half', read({ labour: '-0.50' })).toFixed()).toBe('-0.12');
	});

	test('flags are 1 or 0; a branch that is not taken need not be known', () => {
		expect(book.evaluateExact('motor', read({ operation: 'tubeMotor' })).toNumber()).toBe(1);
		expect(book.evaluateExact('motor', read({})).toNumber()).toBe(0);
		expect(book.evaluateExact('chosen', read({ operation: 'chain' })).toNumber()).toBe(0);
	});

	test('powers to 40 digits: 2^1.5 = 2√2', () => {
		// √2 = 1.41421 35623 73095 04880 16887 24209 69807 857 … (from memory); twice that, rounded
		const power = book.evaluateExact('power', read({ count: '2' }));
		expect(power.toSignificantDigits(35).toFixed()).toBe('2.8284271247461900976033774484193962');
		expect(book.evaluateExact('power', read({ count: '0' })).toNumber()).toBe(0);
	});

	test('what has no value says which rule and why', () => {
		expect(() => book.evaluateExact('labour', read({}))).toThrow('labour: hours is not known');
		expect(() => book.evaluateExact('nothing', read({ count: '1' }))).toThrow('nothing: division by zero');
		expect(() => book.evaluateExact('power', read({ count: '-1' }))).toThrow('power of a negative number');
		expect(() => book.evaluateExact('inverse', read({ count: '0' }))).toThrow('0 to the power of 0 or less');
		expect(() => book.evaluateExact('called', read({ openingWidth: '1', openingHeight: '1' }))).toThrow(
			'called: doubled is not arithmetic'
		);
		expect(() => book.evaluateExact('openingWidth', read({}))).toThrow('openingWidth is not a rule');
	});
});
