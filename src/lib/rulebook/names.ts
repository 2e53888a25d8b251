/** The names a formula can use, and what each means. Checks everything of a book but its formulas. */
import { isDimensionless, toNumber, unit, type Unit } from '../quantity/units.ts';
import type {
	ConstantDefinition,
	NamedFunction,
	QuantityDefinition,
	RuleDefinition,
	ScopeDefinition,
	TableAttribute,
	TableDefinition,
	Vocabulary
} from './definition.ts';
import { exactDecimal } from './exact-decimal.ts';
import { nearestName, type RuleProblem } from './problem.ts';

/** Everything a rule book is loaded from. */
export interface RuleBookSource {
	/** Inputs and chosen values: quantities without a formula. */
	readonly quantities: readonly QuantityDefinition[];
	readonly vocabularies: readonly Vocabulary[];
	readonly tables: readonly TableDefinition[];
	readonly scopes: readonly ScopeDefinition[];
	readonly constants: readonly ConstantDefinition[];
	readonly rules: readonly RuleDefinition[];
	readonly functions: readonly NamedFunction[];
}

/** What a name in a formula stands for. */
export type Meaning =
	| { readonly kind: 'input'; readonly definition: QuantityDefinition }
	| { readonly kind: 'rule'; readonly definition: RuleDefinition }
	| {
			readonly kind: 'attribute';
			readonly definition: QuantityDefinition;
			readonly scope: ScopeDefinition;
			readonly table: TableDefinition;
			readonly attribute: TableAttribute;
	  }
	| {
			readonly kind: 'constant';
			readonly definition: QuantityDefinition;
			readonly constant: ConstantDefinition;
	  };

/**
 * Names for one of a unit: `2 * inch` is a length. No quantity may have one of these names. A `day` is a working day
 * of eight hours, a `lb` is a force, `each` is the plain number 1, `money` is one of the price book's currency.
 */
export const unitNames: ReadonlyMap<string, string> = new Map([
	['inch', 'in'],
	['ft', 'ft'],
	['mm', 'mm'],
	['metre', 'm'],
	['lb', 'lb'],
	['minute', 'min'],
	['hour', 'h'],
	['day', 'day'],
	['volt', 'V'],
	['ampere', 'A'],
	['ohm', 'ohm'],
	['each', 'each'],
	['rpm', 'rpm'],
	['psi', 'psi'],
	['ksi', 'ksi'],
	['psf', 'psf'],
	['money', 'money']
]);

/** Functions of the language with the least and the greatest number of arguments. */
export const languageFunctions: ReadonlyMap<string, readonly [number, number]> = new Map([
	['min', [2, 20]],
	['max', [2, 20]],
	['ceil', [1, 1]],
	['floor', [1, 1]],
	['round', [1, 2]],
	['abs', [1, 1]],
	['sqrt', [1, 1]],
	['square', [1, 1]],
	['power', [2, 2]],
	['if', [3, 3]],
	['cents', [1, 1]],
	['known', [1, 1]],
	['keyOf', [2, 6]]
]);

/** Names of the language itself: the number π, and a number that is not known. */
const languageNames: ReadonlySet<string> = new Set(['pi', 'unknown']);

/** The scope of constants: `shop.friction`. */
const constantScope = 'shop';

const identifier = /^[A-Za-z][A-Za-z0-9]*$/u;

/** A decimal text in a unit as the float of base units nearest to it; whole nanometres come out exact. */
export function inBase(text: string, { factor, scale }: Unit): number {
	const exact = exactDecimal(text);
	if (!exact) return NaN;
	const { n, d } = exact.magnitude;
	const product = n * factor.n;
	const divisor = d * factor.d;
	const magnitude = product % divisor === 0n ? Number(product / divisor) : toNumber(exact.magnitude) * scale;
	return exact.negative ? -magnitude : magnitude;
}

export class Names {
	readonly #meanings = new Map<string, Meaning>();
	readonly #vocabularies = new Map<string, readonly string[]>();
	readonly #functions = new Map<string, NamedFunction>();
	readonly problems: RuleProblem[] = [];

	constructor(source: RuleBookSource) {
		this.#readVocabularies(source);
		for (const definition of source.quantities) this.#addQuantity({ kind: 'input', definition });
		for (const definition of source.rules) this.#addQuantity({ kind: 'rule', definition });
		this.#readScopes(source);
		this.#readConstants(source.constants);
		this.#readFunctions(source.functions);
	}

	meaning(name: string): Meaning | undefined {
		return this.#meanings.get(name);
	}

	function(name: string): NamedFunction | undefined {
		return this.#functions.get(name);
	}

	/** Words of a vocabulary, in the order of their index. */
	keys(vocabulary: string): readonly string[] {
		return this.#vocabularies.get(vocabulary) ?? [];
	}

	/** Names of vocabularies and tables. */
	vocabularies(): Iterable<string> {
		return this.#vocabularies.keys();
	}

	/** Everything a formula may name; for advice. */
	*all(): Iterable<string> {
		yield* this.#meanings.keys();
		yield* unitNames.keys();
		yield* languageNames;
	}

	functionNames(): Iterable<string> {
		return [...languageFunctions.keys(), ...this.#functions.keys()];
	}

	#problem(rule: string, problem: string): void {
		this.problems.push({ rule, problem });
	}

	#checkUnit(rule: string, text: string): Unit | null {
		try {
			return unit(text);
		} catch (error) {
			this.#problem(rule, error instanceof Error ? error.message : 'its unit is not known');
			return null;
		}
	}

	#checkVocabulary(rule: string, vocabulary: string | undefined): void {
		if (vocabulary === undefined) this.#problem(rule, 'a key needs the vocabulary of its words');
		else if (!this.#vocabularies.has(vocabulary)) {
			this.#problem(
				rule,
				`${vocabulary} is not a vocabulary or a table${nearestName(vocabulary, this.#vocabularies.keys())}`
			);
		}
	}

	#readVocabularies({ vocabularies, tables }: RuleBookSource): void {
		for (const { id, keys } of [...vocabularies, ...tables]) {
			if (this.#vocabularies.has(id)) this.#problem(id, 'two vocabularies or tables have this name');
			// A spreadsheet compares text without regard to capitals.
			const seen = new Map<string, string>();
			for (const key of keys) {
				const other = seen.get(key.toLowerCase());
				if (other !== undefined)
					this.#problem(id, `the keys ${other} and ${key} are the same but for capitals`);
				if (key === '') this.#problem(id, 'a key is empty');
				seen.set(key.toLowerCase(), key);
			}
			this.#vocabularies.set(id, keys);
		}
	}

	#addQuantity(meaning: Meaning & { kind: 'input' | 'rule' }): void {
		const { id, kind, unit: text, metricUnit, vocabulary } = meaning.definition;
		if (!identifier.test(id))
			this.#problem(id, 'a name is made of letters and digits and begins with a letter');
		if (unitNames.has(id) || languageNames.has(id))
			this.#problem(id, `${id} is a name of the language already`);
		if (this.#meanings.has(id)) this.#problem(id, 'this id is there twice');
		if (kind === 'key') this.#checkVocabulary(id, vocabulary);
		const own = this.#checkUnit(id, text);
		if (own && kind !== 'number' && !isDimensionless(own.dimension)) {
			this.#problem(id, `a ${kind} has no unit: write 1, not ${text}`);
		}
		if (metricUnit !== undefined) {
			const metric = this.#checkUnit(id, metricUnit);
			if (own && metric && own.dimension.some((v, i) => v !== metric.dimension[i])) {
				this.#problem(id, `${text} and ${metricUnit} measure different things`);
			}
		}
		if (!this.#meanings.has(id)) this.#meanings.set(id, meaning);
	}

	#checkTable({ id, keys, attributes }: TableDefinition): void {
		const seen = new Set<string>();
		for (const attribute of attributes) {
			const name = `${id}.${attribute.id}`;
			if (!identifier.test(attribute.id)) {
				this.#problem(name, 'a name is made of letters and digits and begins with a letter');
			}
			if (seen.has(attribute.id)) this.#problem(name, 'this attribute is there twice');
			seen.add(attribute.id);
			this.#checkUnit(name, attribute.unit);
			if (attribute.values.length !== keys.length) {
				this.#problem(name, `${attribute.values.length} values for ${keys.length} rows`);
			}
			if (attribute.kind === 'key') this.#checkVocabulary(name, attribute.vocabulary);
			const words = attribute.kind === 'key' ? new Set(this.keys(attribute.vocabulary ?? '')) : null;
			attribute.values.forEach((value, row) => {
				const fits = words ? value === '' || words.has(value) : exactDecimal(value) !== null;
				if (fits) return;
				const right = words ? `a word of ${attribute.vocabulary ?? 'its vocabulary'}` : 'a decimal number';
				this.#problem(name, `"${value}" in row ${keys[row] ?? String(row + 1)} is not ${right}`);
			});
		}
	}

	#readScopes({ tables, scopes }: RuleBookSource): void {
		const tableOf = new Map(tables.map((table) => [table.id, table]));
		for (const table of tables) this.#checkTable(table);
		const seen = new Set([constantScope]);
		for (const scope of scopes) {
			const { name, key } = scope;
			if (!identifier.test(name))
				this.#problem(name, 'a name is made of letters and digits and begins with a letter');
			if (seen.has(name))
				this.#problem(name, 'two scopes have this name (shop is the scope of the constants)');
			seen.add(name);
			const table = tableOf.get(scope.table);
			if (!table) {
				this.#problem(name, `${scope.table} is not a table${nearestName(scope.table, tableOf.keys())}`);
				continue;
			}
			const chooser = this.#meanings.get(key)?.definition;
			if (chooser?.kind !== 'key') {
				this.#problem(name, `${key} is not a key quantity${nearestName(key, this.#meanings.keys())}`);
			} else if (!this.keys(chooser.vocabulary ?? '').some((word) => table.keys.includes(word))) {
				this.#problem(name, `no word of ${key} is a row of ${table.id}`);
			}
			for (const attribute of table.attributes) {
				const { vocabulary, title, kind, unit: text } = attribute;
				const definition: QuantityDefinition = {
					id: `${name}.${attribute.id}`,
					title,
					kind,
					unit: text,
					...(vocabulary === undefined ? {} : { vocabulary }),
					chapter: 1,
					sentence: `${title} in the row of ${table.title} that ${key} picks.`
				};
				this.#meanings.set(definition.id, { kind: 'attribute', definition, scope, table, attribute });
			}
		}
	}

	#readConstants(constants: readonly ConstantDefinition[]): void {
		for (const constant of constants) {
			const id = `${constantScope}.${constant.id}`;
			if (!identifier.test(constant.id)) {
				this.#problem(id, 'a name is made of letters and digits and begins with a letter');
			}
			if (this.#meanings.has(id)) this.#problem(id, 'this constant is there twice');
			this.#checkUnit(id, constant.unit);
			if (!exactDecimal(constant.value)) this.#problem(id, `"${constant.value}" is not a decimal number`);
			const { title, unit: text } = constant;
			const definition: QuantityDefinition = {
				id,
				title,
				kind: 'number',
				unit: text,
				chapter: 1,
				sentence: constant.source.text
			};
			this.#meanings.set(id, { kind: 'constant', definition, constant });
		}
	}

	#readFunctions(functions: readonly NamedFunction[]): void {
		for (const named of functions) {
			const { name } = named;
			if (!identifier.test(name))
				this.#problem(name, 'a name is made of letters and digits and begins with a letter');
			if (languageFunctions.has(name))
				this.#problem(name, 'a function of the language has this name already');
			if (this.#functions.has(name)) this.#problem(name, 'two functions have this name');
			for (const text of [named.unit, ...named.parameters.map((p) => p.unit)]) this.#checkUnit(name, text);
			this.#functions.set(name, named);
		}
	}
}
