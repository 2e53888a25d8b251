/**
 * Names and dimensions of a formula. The result is the tree with a type on every node, from which the program, the
 * working and the workbook formula are made.
 *
 * A literal that is exactly 0 fits any dimension, and so does `unknown`. Everything else is strict: no length is added to an area, a
 * condition is not a number, and a key is compared only with a key of the same vocabulary.
 */
import {
	combine,
	dimensionless,
	isDimensionless,
	nameOfDimension,
	raise,
	sameDimension,
	unit,
	type Dimension,
	type Fraction
} from '../quantity/units.ts';
import { childrenOf } from './children.ts';
import type { NamedFunction, QuantityDefinition, RuleDefinition } from './definition.ts';
import { exactDecimal } from './exact-decimal.ts';
import { languageFunctions, unitNames, type Meaning, type Names } from './names.ts';
import { nearestName } from './problem.ts';
import type { ArithmeticSign, ComparisonSign, LogicSign, Tree } from './tree.ts';

export type Type =
	/** `null` is the dimension of an exact 0 and of `unknown`, which fit any. */
	| { readonly kind: 'number'; readonly dimension: Dimension | null }
	| { readonly kind: 'flag' }
	/** `null` is the vocabulary of a quoted word on its own. */
	| { readonly kind: 'key'; readonly vocabulary: string | null };

/** Functions of one number that keep or change its dimension. */
export type OneArgument = 'ceil' | 'floor' | 'abs' | 'sqrt' | 'square' | 'cents';

type Shape =
	| { readonly kind: 'number'; readonly text: string; readonly value: Fraction }
	| { readonly kind: 'pi' }
	/** A number that is not known. */
	| { readonly kind: 'unknown' }
	| { readonly kind: 'unit'; readonly name: string; readonly unit: string }
	| { readonly kind: 'word'; readonly text: string }
	| { readonly kind: 'name'; readonly name: string; readonly meaning: Meaning }
	| { readonly kind: 'negate'; readonly of: Typed }
	| {
			readonly kind: 'arithmetic';
			readonly sign: ArithmeticSign;
			readonly left: Typed;
			readonly right: Typed;
	  }
	| {
			readonly kind: 'comparison';
			readonly sign: ComparisonSign;
			readonly left: Typed;
			readonly right: Typed;
			readonly dimension: Dimension;
	  }
	| {
			readonly kind: 'sameKey';
			readonly same: boolean;
			readonly left: Typed;
			readonly right: Typed;
			readonly vocabulary: string;
	  }
	| { readonly kind: 'logic'; readonly sign: LogicSign; readonly left: Typed; readonly right: Typed }
	| { readonly kind: 'not'; readonly of: Typed }
	| { readonly kind: 'extreme'; readonly name: 'min' | 'max'; readonly arguments: readonly Typed[] }
	| { readonly kind: 'one'; readonly name: OneArgument; readonly of: Typed }
	| { readonly kind: 'power'; readonly base: Typed; readonly exponent: Typed }
	| { readonly kind: 'round'; readonly of: Typed; readonly digits: number }
	| { readonly kind: 'known'; readonly of: Typed }
	/** The key made of others with dots between, where the vocabulary has it. */
	| {
			readonly kind: 'keyOf';
			readonly vocabulary: string;
			readonly keys: readonly string[];
			readonly arguments: readonly Typed[];
	  }
	| { readonly kind: 'if'; readonly condition: Typed; readonly then: Typed; readonly otherwise: Typed }
	| { readonly kind: 'function'; readonly function: NamedFunction; readonly arguments: readonly Typed[] };

/** A node of a checked formula: its shape and its type. */
export type Typed = Shape & { readonly type: Type };

class CheckError extends Error {}

const number = (dimension: Dimension | null): Type => ({ kind: 'number', dimension });
const flag: Type = { kind: 'flag' };

/** The type of a quantity's value. */
function typeOf({ kind, unit: text, vocabulary }: QuantityDefinition): Type {
	if (kind === 'flag') return flag;
	if (kind === 'key') return { kind: 'key', vocabulary: vocabulary ?? '' };
	return number(unit(text).dimension);
}

function nameOfType(type: Type): string {
	if (type.kind === 'flag') return 'a condition';
	if (type.kind === 'key') return type.vocabulary === null ? 'a word' : `a key of ${type.vocabulary}`;
	return type.dimension === null ? '0' : nameOfDimension(type.dimension);
}

class Checker {
	readonly #names: Names;

	constructor(names: Names) {
		this.#names = names;
	}

	check(tree: Tree): Typed {
		switch (tree.kind) {
			case 'number': {
				const exact = exactDecimal(tree.text);
				if (!exact) throw new CheckError(`${tree.text} is too large or too small a number`);
				const value = exact.magnitude;
				return {
					kind: 'number',
					text: tree.text,
					value,
					type: number(value.n === 0n ? null : dimensionless)
				};
			}
			case 'word':
				return { kind: 'word', text: tree.text, type: { kind: 'key', vocabulary: null } };
			case 'name':
				return this.#name(tree.name);
			case 'negate': {
				const of = this.#number(tree.of, 'turns the sign of');
				return { kind: 'negate', of, type: of.type };
			}
			case 'not': {
				const of = this.#flag(tree.of, '!');
				return { kind: 'not', of, type: flag };
			}
			case 'logic': {
				const left = this.#flag(tree.left, tree.sign);
				const right = this.#flag(tree.right, tree.sign);
				return { kind: 'logic', sign: tree.sign, left, right, type: flag };
			}
			case 'arithmetic':
				return this.#arithmetic(tree.sign, tree.left, tree.right);
			case 'comparison':
				return this.#comparison(tree.sign, tree.left, tree.right);
			case 'call':
				return this.#call(tree.name, tree.arguments);
		}
	}

	/** Two types made one, or null. */
	common(a: Type, b: Type): Type | null {
		if (a.kind === 'number' && b.kind === 'number') {
			if (a.dimension === null) return b;
			if (b.dimension === null || sameDimension(a.dimension, b.dimension)) return a;
		}
		if (a.kind === 'key' && b.kind === 'key') {
			if (a.vocabulary === null) return b;
			if (b.vocabulary === null || a.vocabulary === b.vocabulary) return a;
		}
		return a.kind === 'flag' && b.kind === 'flag' ? a : null;
	}

	/** Every quoted word in a key expression must be one of the vocabulary, or "" for none. */
	checkWords(node: Typed, vocabulary: string): void {
		if (node.kind === 'word' && node.text !== '' && !this.#names.keys(vocabulary).includes(node.text)) {
			const near = nearestName(node.text, this.#names.keys(vocabulary));
			throw new CheckError(`"${node.text}" is not a word of ${vocabulary}${near}`);
		}
		if (node.kind === 'if') {
			this.checkWords(node.then, vocabulary);
			this.checkWords(node.otherwise, vocabulary);
		}
	}

	#name(name: string): Typed {
		if (name === 'pi') return { kind: 'pi', type: number(dimensionless) };
		if (name === 'unknown') return { kind: 'unknown', type: number(null) };
		const symbol = unitNames.get(name);
		if (symbol !== undefined) {
			return { kind: 'unit', name, unit: symbol, type: number(unit(symbol).dimension) };
		}
		const meaning = this.#names.meaning(name);
		if (!meaning) throw new CheckError(`${name} is not a known name${nearestName(name, this.#names.all())}`);
		return { kind: 'name', name, meaning, type: typeOf(meaning.definition) };
	}

	#number(tree: Tree, doing: string): Typed & { type: { kind: 'number' } } {
		const typed = this.check(tree);
		const { type } = typed;
		if (type.kind !== 'number') throw new CheckError(`${doing} ${nameOfType(type)}`);
		return { ...typed, type };
	}

	#flag(tree: Tree, sign: string): Typed {
		const typed = this.check(tree);
		if (typed.type.kind !== 'flag') {
			throw new CheckError(`${sign} needs a condition, not ${nameOfType(typed.type)}`);
		}
		return typed;
	}

	#arithmetic(sign: ArithmeticSign, leftTree: Tree, rightTree: Tree): Typed {
		const words = { '+': 'adds', '-': 'subtracts', '*': 'multiplies', '/': 'divides' };
		const left = this.#number(leftTree, words[sign]);
		const right = this.#number(rightTree, words[sign]);
		if (sign === '*' || sign === '/') {
			const dimension = combine(
				left.type.dimension ?? dimensionless,
				right.type.dimension ?? dimensionless,
				sign === '*' ? 1 : -1
			);
			if (sign === '/' && right.type.dimension === null) throw new CheckError('divides by 0');
			return { kind: 'arithmetic', sign, left, right, type: number(dimension) };
		}
		const type = this.common(left.type, right.type);
		if (!type) {
			const [a, b] = [nameOfType(left.type), nameOfType(right.type)];
			throw new CheckError(sign === '+' ? `adds ${b} to ${a}` : `subtracts ${b} from ${a}`);
		}
		return { kind: 'arithmetic', sign, left, right, type };
	}

	#comparison(sign: ComparisonSign, leftTree: Tree, rightTree: Tree): Typed {
		const left = this.check(leftTree);
		const right = this.check(rightTree);
		const type = this.common(left.type, right.type);
		if (!type) throw new CheckError(`compares ${nameOfType(left.type)} with ${nameOfType(right.type)}`);
		if (type.kind === 'flag') throw new CheckError('compares two conditions: use && || !');
		if (type.kind === 'number') {
			const dimension = type.dimension ?? dimensionless;
			return { kind: 'comparison', sign, left, right, dimension, type: flag };
		}
		if (sign !== '==' && sign !== '!=') throw new CheckError(`${sign} orders keys: keys are only == or !=`);
		const { vocabulary } = type;
		if (vocabulary === null) throw new CheckError('compares two words: one side must be a key quantity');
		this.checkWords(left, vocabulary);
		this.checkWords(right, vocabulary);
		return { kind: 'sameKey', same: sign === '==', left, right, vocabulary, type: flag };
	}

	#call(name: string, given: readonly Tree[]): Typed {
		const named = this.#names.function(name);
		if (named) return this.#namedFunction(named, given);
		const range = languageFunctions.get(name);
		if (!range) {
			throw new CheckError(
				`${name} is not a known function${nearestName(name, this.#names.functionNames())}`
			);
		}
		const [least, most] = range;
		if (given.length < least || given.length > most) {
			const right = least === most ? String(least) : `${least} to ${most}`;
			throw new CheckError(`${name} takes ${right} argument${right === '1' ? '' : 's'}, not ${given.length}`);
		}
		const [first, second, third] = given;
		if (name === 'if' && first && second && third) return this.#if(first, second, third);
		if (name === 'min' || name === 'max') return this.#extreme(name, given);
		if (name === 'keyOf' && first) return this.#keyOf(first, given.slice(1));
		if (name === 'known' && first) return this.#known(first);
		if (name === 'round' && first) return this.#round(first, second);
		if (name === 'power' && first && second) return this.#power(first, second);
		if (!first) throw new CheckError(`${name} has no argument`);
		return this.#one(name, first);
	}

	#one(name: string, tree: Tree): Typed {
		const of = this.#number(tree, `${name} of`);
		const dimension = of.type.dimension ?? dimensionless;
		switch (name) {
			case 'abs':
				return { kind: 'one', name, of, type: of.type };
			case 'square':
				return { kind: 'one', name, of, type: number(raise(dimension, 2)) };
			case 'sqrt':
				if (dimension.some((exponent) => exponent % 2 !== 0)) {
					throw new CheckError(`takes the square root of ${nameOfDimension(dimension)}`);
				}
				return { kind: 'one', name, of, type: number(raise(dimension, 0.5)) };
			case 'cents':
				if (!sameDimension(dimension, unit('money').dimension)) {
					throw new CheckError(`cents rounds money, not ${nameOfDimension(dimension)}`);
				}
				return { kind: 'one', name, of, type: of.type };
			case 'ceil':
			case 'floor':
				this.#plain(name, dimension);
				return { kind: 'one', name, of, type: number(dimensionless) };
			default:
				throw new CheckError(`${name} is not a known function`);
		}
	}

	#known(tree: Tree): Typed {
		const of = this.check(tree);
		if (of.kind !== 'name' || of.type.kind === 'flag') {
			throw new CheckError('known asks whether one named number or key is known, as in known(headroom)');
		}
		return { kind: 'known', of, type: flag };
	}

	#keyOf(first: Tree, others: readonly Tree[]): Typed {
		const known = [...this.#names.vocabularies()];
		if (first.kind !== 'word' || !known.includes(first.text)) {
			const near = first.kind === 'word' ? nearestName(first.text, known) : '';
			throw new CheckError(`keyOf begins with the quoted name of a table or vocabulary${near}`);
		}
		const given = others.map((tree) => this.check(tree));
		for (const { kind, type } of given) {
			if (type.kind !== 'key' || kind === 'word') throw new CheckError('keyOf joins key quantities');
		}
		const vocabulary = first.text;
		const keys = this.#names.keys(vocabulary);
		return { kind: 'keyOf', vocabulary, keys, arguments: given, type: { kind: 'key', vocabulary } };
	}

	#plain(name: string, dimension: Dimension): void {
		if (!isDimensionless(dimension)) {
			throw new CheckError(
				`${name} rounds a plain number, not ${nameOfDimension(dimension)}: divide by a unit first, as in ${name}(x / inch)`
			);
		}
	}

	#power(baseTree: Tree, exponentTree: Tree): Typed {
		const base = this.#number(baseTree, 'power of');
		const exponent = this.#number(exponentTree, 'power with the exponent');
		const [of, to] = [base, exponent].map(({ type }) => type.dimension ?? dimensionless);
		if (of && !isDimensionless(of)) {
			throw new CheckError(
				`power raises a plain number, not ${nameOfDimension(of)}: divide by a unit first, as in power(x / inch, p)`
			);
		}
		if (to && !isDimensionless(to)) {
			throw new CheckError(`power raises to a plain number, not to ${nameOfDimension(to)}`);
		}
		return { kind: 'power', base, exponent, type: number(dimensionless) };
	}

	#round(tree: Tree, digits: Tree | undefined): Typed {
		const of = this.#number(tree, 'round of');
		this.#plain('round', of.type.dimension ?? dimensionless);
		const places = digits?.kind === 'number' ? digits.text : digits ? '' : '0';
		if (!/^[0-8]$/u.test(places)) {
			throw new CheckError('the second argument of round is a whole number from 0 to 8, written out');
		}
		return { kind: 'round', of, digits: Number(places), type: number(dimensionless) };
	}

	#extreme(name: 'min' | 'max', given: readonly Tree[]): Typed {
		const typed = given.map((tree) => this.#number(tree, `${name} of`));
		let type: Type = number(null);
		for (const argument of typed) {
			const next = this.common(type, argument.type);
			if (!next) throw new CheckError(`${name} of ${nameOfType(type)} and ${nameOfType(argument.type)}`);
			type = next;
		}
		return { kind: 'extreme', name, arguments: typed, type };
	}

	#if(conditionTree: Tree, thenTree: Tree, otherwiseTree: Tree): Typed {
		const condition = this.#flag(conditionTree, 'if');
		const then = this.check(thenTree);
		const otherwise = this.check(otherwiseTree);
		const type = this.common(then.type, otherwise.type);
		if (!type) {
			throw new CheckError(
				`if gives ${nameOfType(then.type)} or ${nameOfType(otherwise.type)}: both must be one thing`
			);
		}
		return { kind: 'if', condition, then, otherwise, type };
	}

	#namedFunction(named: NamedFunction, given: readonly Tree[]): Typed {
		const { name, parameters } = named;
		if (given.length !== parameters.length) {
			throw new CheckError(
				`${name} takes ${parameters.length} arguments (${parameters.map((p) => p.name).join(', ')}), not ${given.length}`
			);
		}
		const typed = parameters.map((parameter, i) => {
			const tree = given[i];
			if (!tree) throw new CheckError(`${name} has no ${parameter.name}`);
			const argument = this.#number(tree, `${name} takes a number as ${parameter.name}, not`);
			if (!this.common(argument.type, number(unit(parameter.unit).dimension))) {
				throw new CheckError(
					`${name} takes ${nameOfDimension(unit(parameter.unit).dimension)} as ${parameter.name}, not ${nameOfType(argument.type)}`
				);
			}
			return argument;
		});
		return { kind: 'function', function: named, arguments: typed, type: number(unit(named.unit).dimension) };
	}
}

/** Checks a rule's formula against the names of its book and against the rule's own unit. */
export function checkFormula(
	rule: RuleDefinition,
	tree: Tree,
	names: Names
): { ok: true; formula: Typed } | { ok: false; reason: string } {
	try {
		const checker = new Checker(names);
		const formula = checker.check(tree);
		const wanted = typeOf(rule);
		if (!checker.common(formula.type, wanted)) {
			const is = wanted.kind === 'number' ? `${nameOfType(wanted)} (${rule.unit})` : nameOfType(wanted);
			return { ok: false, reason: `the formula gives ${nameOfType(formula.type)}, but the rule is ${is}` };
		}
		if (wanted.kind === 'key') checker.checkWords(formula, wanted.vocabulary ?? '');
		return { ok: true, formula };
	} catch (error) {
		if (error instanceof CheckError) return { ok: false, reason: error.message };
		throw error;
	}
}

/** Names in a formula, in the order they are read, each once. */
export function namesOf(node: Typed, found: string[] = []): string[] {
	if (node.kind === 'name' && !found.includes(node.name)) found.push(node.name);
	for (const child of childrenOf(node)) namesOf(child, found);
	return found;
}
