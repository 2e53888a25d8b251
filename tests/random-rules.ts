/**
 * Random rule books for tests: formulas that keep to the dimensions, over names in random units, with random figures.
 * All of it invented.
 */
import fc from 'fast-check';
import { combine, raise, unit, type Dimension } from '../src/lib/quantity/units.ts';
import type { QuantityDefinition, RuleDefinition, Source } from '../src/lib/rulebook/definition.ts';
import type { RuleBookSource } from '../src/lib/rulebook/rule-book.ts';

const invented: Source = { basis: 'invented', text: 'Random, for a test.' };

/** Figures of one opening: a decimal as text in the name's own unit, a key, or a flag. */
export type Figures = ReadonlyMap<string, string | boolean>;

export interface RandomRule {
	readonly source: RuleBookSource;
	/** Id of the rule to compare. */
	readonly rule: 'result';
	/**
	 * The same formula with every minus made a plus: as large as the largest thing that was added up on the way, and
	 * so the measure of the noise to expect.
	 */
	readonly magnitude: 'resultMagnitude';
	/** Two sets of figures for the inputs. */
	readonly figures: Figures;
	readonly changed: Figures;
}

const units = {
	length: ['in', 'ft', 'mm', 'm'],
	area: ['ft2', 'in2', 'm2'],
	weight: ['lb', 'kg', 'N'],
	load: ['lb/ft', 'kg/m', 'lb/in'],
	pressure: ['lb/ft2', 'psf', 'kPa', 'ksi'],
	torque: ['lb-ft', 'N·m'],
	time: ['min', 'h', 's'],
	current: ['A'],
	resistance: ['ohm', 'V/A'],
	ratio: ['1']
} as const;
type Measure = keyof typeof units;
const measures = Object.keys(units) as Measure[];

const same = (a: Dimension, b: Dimension): boolean => a.every((exponent, i) => exponent === b[i]);
const dimensionOf = (measure: Measure): Dimension => unit(units[measure][0]).dimension;

/** Inputs: id and what it measures. */
const inputs: readonly (readonly [string, Measure])[] = [
	['width', 'length'],
	['height', 'length'],
	['surface', 'area'],
	['load', 'weight'],
	['run', 'load'],
	['pressure', 'pressure'],
	['twist', 'torque'],
	['spell', 'time'],
	['draw', 'current'],
	['wire', 'resistance'],
	['share', 'ratio']
];
const attributes: readonly (readonly [string, Measure])[] = [
	['row.reach', 'length'],
	['row.mass', 'load'],
	['row.factor', 'ratio']
];
const constants: readonly (readonly [string, Measure])[] = [
	['shop.gap', 'length'],
	['shop.allowance', 'ratio']
];
/** Rules that the rule to compare may use. */
const parts: readonly (readonly [string, Measure])[] = [
	['part', 'length'],
	['proportion', 'ratio']
];
const rowKeys = ['thin', 'thick', 'doubled'];
const moods = ['open', 'shut'];

interface Text {
	readonly text: string;
	readonly magnitude: string;
}

type Pick = <T>(arbitrary: fc.Arbitrary<T>) => T;

class FormulaMaker {
	readonly #pick: Pick;
	readonly #parts: typeof parts;

	constructor(pick: Pick, own: typeof parts) {
		this.#pick = pick;
		this.#parts = own;
	}

	formula(dimension: Dimension, depth: number): Text {
		if (depth <= 0) return this.#part(dimension) ?? this.#leaf(dimension);
		const below = (): Text => this.formula(dimension, depth - 1);
		const plain = dimension.every((exponent) => exponent === 0);
		const square = dimension.every((exponent) => exponent % 2 === 0);
		const kinds = [
			'leaf',
			'sum',
			'difference',
			'product',
			'product',
			'quotient',
			'extreme',
			'if',
			'abs',
			'negate'
		];
		if (plain) kinds.push('round', 'round', 'power', 'power');
		if (square && !plain) kinds.push('square');
		if (dimension.every((exponent) => Math.abs(exponent) <= 2)) kinds.push('sqrt');
		switch (this.#oneOf(kinds)) {
			case 'sum':
				return join('+', below(), below());
			case 'difference':
				return join('-', below(), below());
			case 'product': {
				const part = dimensionOf(this.#oneOf(measures));
				const [a, b] = [this.formula(part, depth - 1), this.formula(combine(dimension, part, -1), depth - 1)];
				return join('*', a, b);
			}
			case 'quotient': {
				const part = dimensionOf(this.#oneOf(measures));
				return join('/', this.formula(combine(dimension, part, 1), depth - 1), this.#leaf(part));
			}
			case 'extreme':
				return call(this.#oneOf(['min', 'max']), below(), below());
			case 'if': {
				const condition = this.#condition(depth - 1);
				return call(
					'if',
					condition,
					below(),
					this.#pick(fc.integer({ min: 0, max: 5 })) === 0 ? zero : below()
				);
			}
			case 'abs':
				return call('abs', below());
			case 'negate': {
				const of = below();
				return { text: `(-${of.text})`, magnitude: of.magnitude };
			}
			case 'square':
				return call('square', this.formula(raise(dimension, 0.5), depth - 1));
			case 'sqrt':
				return call('sqrt', this.#positive(raise(dimension, 2)));
			case 'round':
				return this.#round();
			case 'power':
				return this.#power();
			default:
				return this.#part(dimension) ?? this.#leaf(dimension);
		}
	}

	/** Another rule, now and then; its value may be of any sign, or 0. */
	#part(dimension: Dimension): Text | null {
		const fitting = this.#parts.filter(([, measure]) => same(dimensionOf(measure), dimension));
		if (fitting.length === 0 || this.#pick(fc.integer({ min: 0, max: 2 })) > 0) return null;
		const [name] = this.#oneOf(fitting);
		return { text: name, magnitude: `${name}Magnitude` };
	}

	/** Always greater than 0. */
	#positive(dimension: Dimension): Text {
		return join('+', this.#leaf(dimension), this.#leaf(dimension));
	}

	/** Of a sum that is greater than 0; to a number or to a computed one, of either sign. */
	#power(): Text {
		const part = dimensionOf(this.#oneOf(measures));
		const base = join('/', this.#positive(part), this.#leaf(part));
		const written = `${String(this.#pick(fc.integer({ min: 0, max: 3 })))}.${String(this.#pick(fc.integer({ min: 0, max: 99 })))}`;
		const exponent = this.#oneOf([written, `(-${written})`, `(${written} - min(share, 2))`]);
		const text = `power(${base.text}, ${exponent})`;
		return { text, magnitude: text };
	}

	#round(): Text {
		const [a, b] = [dimensionOf(this.#oneOf(measures)), this.#oneOf(['*', '/'] as const)];
		const ratio = b === '*' ? this.formula(dimensionOf('ratio'), 1) : join('/', this.#leaf(a), this.#leaf(a));
		const name = this.#oneOf(['ceil', 'floor', 'round', 'round2']);
		if (name !== 'round2') return call(name, ratio);
		const digits = String(this.#pick(fc.integer({ min: 0, max: 4 })));
		return { text: `round(${ratio.text}, ${digits})`, magnitude: `round(${ratio.magnitude}, ${digits})` };
	}

	#condition(depth: number): Text {
		const kind = this.#oneOf(['compare', 'compare', 'key', 'mood', 'flag', 'and', 'or', 'not', 'known']);
		const condition = (text: string): Text => ({ text, magnitude: text });
		switch (kind) {
			case 'key':
				return condition(`kind ${this.#oneOf(['==', '!='])} "${this.#oneOf(rowKeys)}"`);
			case 'mood':
				return condition(`row.mood ${this.#oneOf(['==', '!='])} "${this.#oneOf(moods)}"`);
			case 'flag':
				return condition('powered');
			case 'known':
				return condition(`known(${this.#oneOf(['width', 'kind', 'row.reach'])})`);
			case 'not': {
				const of = this.#condition(depth - 1);
				return condition(`!(${of.text})`);
			}
			case 'and':
			case 'or': {
				if (depth <= 0) return condition('!powered');
				const [a, b] = [this.#condition(depth - 1), this.#condition(depth - 1)];
				return condition(`(${a.text}) ${kind === 'and' ? '&&' : '||'} (${b.text})`);
			}
			default: {
				const dimension = dimensionOf(this.#oneOf(measures));
				const sign = this.#oneOf(['<', '<=', '>', '>=', '==', '!=']);
				return condition(`${this.#leaf(dimension).text} ${sign} ${this.#leaf(dimension).text}`);
			}
		}
	}

	/** A name, or a number of some units; always greater than 0. */
	#leaf(dimension: Dimension): Text {
		const fitting = [...inputs, ...attributes, ...constants].filter(([, measure]) =>
			same(dimensionOf(measure), dimension)
		);
		const plain = dimension.every((exponent) => exponent === 0);
		if (fitting.length > 0 && this.#pick(fc.integer({ min: 0, max: 4 })) > 0) {
			const [name] = this.#oneOf(fitting);
			return { text: name, magnitude: name };
		}
		if (plain && this.#pick(fc.boolean())) return { text: 'pi', magnitude: 'pi' };
		const number = `${String(this.#pick(fc.integer({ min: 1, max: 400 })))}.${String(this.#pick(fc.integer({ min: 0, max: 99 })))}`;
		const factors = dimension.flatMap((exponent, i) =>
			Array.from(
				{ length: Math.abs(exponent) },
				() => `${exponent > 0 ? '*' : '/'} ${this.#oneOf(unitWords[i] ?? ['each'])}`
			)
		);
		const text = `(${[number, ...factors].join(' ')})`;
		return { text, magnitude: text };
	}

	#oneOf<T>(list: readonly T[]): T {
		return this.#pick(fc.constantFrom(...list));
	}
}

const unitWords = [
	['inch', 'ft', 'mm', 'metre'],
	['lb'],
	['minute', 'hour'],
	['volt'],
	['ampere'],
	['money']
];
const zero: Text = { text: '0', magnitude: '0' };

function join(sign: '+' | '-' | '*' | '/', a: Text, b: Text): Text {
	// The measure of noise adds up what the formula subtracts.
	const other = sign === '-' ? '+' : sign;
	return { text: `(${a.text} ${sign} ${b.text})`, magnitude: `(${a.magnitude} ${other} ${b.magnitude})` };
}

const call = (name: string, ...given: readonly Text[]): Text => ({
	text: `${name}(${given.map((g) => g.text).join(', ')})`,
	magnitude: `${name}(${given.map((g) => g.magnitude).join(', ')})`
});

const decimal: fc.Arbitrary<string> = fc
	.tuple(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 0, max: 9999 }))
	.map(([whole, part]) => `${String(whole)}.${String(part).padStart(4, '0')}`);

/** A book with one random rule, and two sets of figures for it. */
export const randomRule: fc.Arbitrary<RandomRule> = fc.gen().map((g) => {
	const pick: Pick = (arbitrary) => g(() => arbitrary);
	const unitFor = (measure: Measure): string => pick(fc.constantFrom(...units[measure]));
	const quantity = (id: string, kind: QuantityDefinition['kind'], text: string, vocabulary?: string) => ({
		id,
		title: id,
		kind,
		unit: text,
		chapter: 1,
		sentence: `Random ${id}.`,
		...(vocabulary === undefined ? {} : { vocabulary })
	});
	const rules = (id: string, of: Measure, { text, magnitude }: Text): RuleDefinition[] => [
		{ ...quantity(id, 'number', unitFor(of)), formula: text, source: invented },
		{ ...quantity(`${id}Magnitude`, 'number', unitFor(of)), formula: magnitude, source: invented }
	];
	const measure = pick(fc.constantFrom(...measures));
	const whole = new FormulaMaker(pick, parts).formula(dimensionOf(measure), 4);
	const partMaker = new FormulaMaker(pick, []);
	const figures = (): Figures =>
		new Map<string, string | boolean>([
			...inputs.map(([id]) => [id, pick(decimal)] as const),
			['kind', pick(fc.constantFrom(...rowKeys))],
			['powered', pick(fc.boolean())]
		]);
	const source: RuleBookSource = {
		quantities: [
			...inputs.map(([id, of]) => quantity(id, 'number', unitFor(of))),
			quantity('kind', 'key', '1', 'rows'),
			quantity('powered', 'flag', '1')
		],
		vocabularies: [{ id: 'moods', keys: moods }],
		tables: [
			{
				id: 'rows',
				title: 'Rows',
				keys: rowKeys,
				attributes: [
					...attributes.map(([name, of]) => ({
						id: name.slice('row.'.length),
						title: name,
						kind: 'number' as const,
						unit: unitFor(of),
						values: rowKeys.map(() => pick(decimal))
					})),
					{
						id: 'mood',
						title: 'mood',
						kind: 'key',
						unit: '1',
						vocabulary: 'moods',
						values: rowKeys.map(() => pick(fc.constantFrom(...moods)))
					}
				]
			}
		],
		scopes: [{ name: 'row', table: 'rows', key: 'kind' }],
		constants: constants.map(([name, of]) => ({
			id: name.slice('shop.'.length),
			title: name,
			unit: unitFor(of),
			value: pick(decimal),
			source: invented
		})),
		// The whole first, so that the book has to find the order.
		rules: [
			...rules('result', measure, whole),
			...parts.flatMap(([id, of]) => rules(id, of, partMaker.formula(dimensionOf(of), 2)))
		],
		functions: []
	};
	return { source, rule: 'result', magnitude: 'resultMagnitude', figures: figures(), changed: figures() };
});
