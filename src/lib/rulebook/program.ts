/**
 * Rules compiled to loops over columns. A program is made once and run for blocks of openings; nothing is allocated
 * while it runs, and no formula is ever evaluated as code.
 *
 * All columns are in base units (`quantity/units`), so that no conversion is left to do at run time. Constants are
 * folded and an expression that stands in several rules is computed once. Columns for values in between are used
 * again as soon as they are free. Blocks of 256 to 512 rows keep a book of 150 rules in the processor's cache.
 */
import { referenceScale, toNumber, unit } from '../quantity/units.ts';
import type { Typed } from './check-formula.ts';
import type { NamedFunction } from './definition.ts';
import * as make from './column-operations.ts';
import type { Column, Operand as ColumnOperand, Step } from './column-operations.ts';
import { inBase, type Meaning, type Names } from './names.ts';
import { comparisonNoise } from './rounding.ts';

export interface ProgramRequest {
	/** Names wanted: rules, `scope.attribute`. What they depend on comes with them. */
	readonly rules: readonly string[];
	/** Names whose columns the caller fills, though the book could compute them. Inputs always are. */
	readonly given: readonly string[];
	/** Rows in a column; 256 to 512 is best. */
	readonly capacity: number;
}

export interface Program {
	/** Columns the caller must fill before each run: those that are read. */
	readonly given: readonly string[];
	/** Every name that has a column here; one that was given and is not read has an idle one. */
	readonly names: readonly string[];
	has(name: string): boolean;
	/**
	 * Values in base units; flags 1 or 0; keys as the index in their vocabulary (-1: none); NaN: not known. Write
	 * only into columns of `given`; two names of equal formula may share a column.
	 * @throws Error for a name that is not in this program.
	 */
	column(name: string): Float64Array;
	/** Computes rows 0 … count-1. */
	run(count: number): void;
}

/** What the compiler needs of a rule book. */
export interface Compilable {
	readonly names: Names;
	/** The checked formula of a rule. */
	formula(id: string): Typed | null;
}

/** One operation of a program and its result. */
interface Value {
	readonly given: readonly Operand[];
	/** Makes the step; null for a column the caller fills. */
	readonly step: ((out: Column, given: readonly ColumnOperand[]) => Step) | null;
	/** Kept for reading: it has a name. */
	named: boolean;
	/** Last place where it is read. */
	lastUse: number;
	column: Column | null;
}

type Operand = number | Value;

class Compiler {
	readonly #book: Compilable;
	readonly #given: ReadonlySet<string>;
	readonly #values: Value[] = [];
	readonly #numbers = new Map<Value, number>();
	/** Equal operations on equal operands are one value. */
	readonly #same = new Map<string, Value>();
	readonly named = new Map<string, Operand>();
	readonly inputs: string[] = [];

	constructor(book: Compilable, given: readonly string[]) {
		this.#book = book;
		this.#given = new Set(given);
	}

	name(name: string): Operand {
		const known = this.named.get(name);
		if (known !== undefined) return known;
		const meaning = this.#book.names.meaning(name);
		if (!meaning) throw new Error(`${name} is not a name of this rule book`);
		const operand = this.#given.has(name) ? this.#input(name) : this.#meaning(name, meaning);
		if (typeof operand !== 'number') operand.named = true;
		this.named.set(name, operand);
		return operand;
	}

	/** Values in the order they must be computed, those that nothing reads left out. */
	order(): Value[] {
		const used = new Set<Value>();
		for (const value of [...this.#values].reverse()) {
			if (value.named || used.has(value))
				for (const operand of [value, ...value.given]) {
					if (typeof operand !== 'number') used.add(operand);
				}
		}
		return this.#values.filter((value) => used.has(value));
	}

	#input(name: string): Value {
		const value: Value = { given: [], step: null, named: true, lastUse: 0, column: null };
		this.#numbers.set(value, this.#values.length);
		this.#values.push(value);
		this.inputs.push(name);
		return value;
	}

	#meaning(name: string, meaning: Meaning): Operand {
		switch (meaning.kind) {
			case 'input':
				return this.#input(name);
			case 'constant':
				return inBase(meaning.constant.value, unit(meaning.constant.unit));
			case 'attribute':
				return this.#gather(meaning);
			case 'rule': {
				const formula = this.#book.formula(name);
				if (!formula) throw new Error(`${name} has no formula`);
				return this.#compile(formula, meaning.definition.vocabulary ?? '');
			}
		}
	}

	#gather({ scope, table, attribute, definition }: Meaning & { kind: 'attribute' }): Operand {
		const { names } = this.#book;
		const row = new Map(table.keys.map((key, i) => [key, i]));
		const chooser = names.meaning(scope.key)?.definition.vocabulary ?? '';
		const words = attribute.kind === 'key' ? names.keys(attribute.vocabulary ?? '') : null;
		const none = words ? -1 : NaN;
		const values = Float64Array.from(names.keys(chooser), (word) => {
			const text = attribute.values[row.get(word) ?? -1];
			if (text === undefined) return none;
			return words ? words.indexOf(text) : inBase(text, unit(attribute.unit));
		});
		return this.#value(`gather ${definition.id}`, [this.name(scope.key)], (out, [key = none]) =>
			make.gather(out, key, values, none)
		);
	}

	#key(operand: Operand): string {
		return typeof operand === 'number' ? `k${operand}` : `v${this.#numbers.get(operand) ?? -1}`;
	}

	#value(
		operation: string,
		given: readonly Operand[],
		step: (out: Column, given: readonly ColumnOperand[]) => Step
	): Operand {
		if (given.length > 0 && given.every((operand) => typeof operand === 'number')) {
			const out = new Float64Array(1);
			step(
				out,
				given.map((constant) => Float64Array.of(constant))
			)(1);
			return out[0] ?? NaN;
		}
		const key = [operation, ...given.map((operand) => this.#key(operand))].join(' ');
		const known = this.#same.get(key);
		if (known) return known;
		const value: Value = { given, step, named: false, lastUse: 0, column: null };
		this.#numbers.set(value, this.#values.length);
		this.#values.push(value);
		this.#same.set(key, value);
		return value;
	}

	#two(
		operation: string,
		a: Operand,
		b: Operand,
		maker: (out: Column, a: ColumnOperand, b: ColumnOperand) => Step
	): Operand {
		return this.#value(operation, [a, b], (out, [first = NaN, second = NaN]) => maker(out, first, second));
	}

	#arithmetic(sign: '+' | '-' | '*' | '/', a: Operand, b: Operand): Operand {
		switch (sign) {
			case '+':
				if (a === 0) return b;
				if (b === 0) return a;
				return this.#two('+', a, b, make.add);
			case '-':
				return b === 0 ? a : this.#two('-', a, b, make.subtract);
			case '*':
				if (a === 1) return b;
				if (b === 1) return a;
				return this.#two('*', a, b, make.multiply);
			case '/':
				return b === 1 ? a : this.#two('/', a, b, make.divide);
		}
	}

	#comparison({ sign, left, right, dimension }: Typed & { kind: 'comparison' }): Operand {
		const [a, b] = [this.#compile(left), this.#compile(right)];
		const noise = comparisonNoise * referenceScale(dimension);
		const atLeast = (x: Operand, y: Operand): Operand =>
			this.#two(`>= ${noise}`, x, y, (out, p, q) => make.atLeast(out, p, q, noise));
		const equal = (): Operand => this.#two(`== ${noise}`, a, b, (out, p, q) => make.equal(out, p, q, noise));
		switch (sign) {
			case '>=':
				return atLeast(a, b);
			case '<=':
				return atLeast(b, a);
			case '<':
				return this.#not(atLeast(a, b));
			case '>':
				return this.#not(atLeast(b, a));
			case '==':
				return equal();
			case '!=':
				return this.#not(equal());
		}
	}

	#not(flag: Operand): Operand {
		return this.#two('-', 1, flag, make.subtract);
	}

	#logic(sign: '&&' | '||', a: Operand, b: Operand): Operand {
		const settles = sign === '&&' ? 0 : 1;
		if (a === settles || b === settles) return settles;
		if (a === 1 - settles) return b;
		if (b === 1 - settles) return a;
		return this.#two(sign, a, b, sign === '&&' ? make.both : make.either);
	}

	#keyOf({ vocabulary, keys, arguments: parts }: Typed & { kind: 'keyOf' }): Operand {
		const words = parts.map(({ type }) =>
			this.#book.names.keys(type.kind === 'key' ? (type.vocabulary ?? '') : '')
		);
		const joined = words.reduce<string[]>(
			(before, next, i) => (i === 0 ? [...next] : before.flatMap((a) => next.map((b) => `${a}.${b}`))),
			[]
		);
		const values = Float64Array.from(joined, (key) => keys.indexOf(key));
		const sizes = words.map((list) => list.length);
		const given = parts.map((part) => this.#compile(part));
		return this.#value(`keyOf ${vocabulary}`, given, (out, operands) =>
			make.joinKeys(out, operands, sizes, values)
		);
	}

	#call(named: NamedFunction, given: readonly Operand[]): Operand {
		const scales = named.parameters.map((parameter) => toNumber(unit(parameter.unit).factor));
		return this.#value(`call ${named.name}`, given, (out, operands) =>
			make.callFunction(out, named.compute, operands, scales, toNumber(unit(named.unit).factor))
		);
	}

	/** @param vocabulary of a quoted word, where it is not said beside it */
	#compile(node: Typed, vocabulary = ''): Operand {
		switch (node.kind) {
			case 'number':
				return inBase(node.text, unit('1'));
			case 'pi':
				return Math.PI;
			case 'unknown':
				return NaN;
			case 'unit':
				return unit(node.unit).scale;
			case 'word':
				return this.#book.names.keys(vocabulary).indexOf(node.text);
			case 'name':
				return this.name(node.name);
			case 'negate':
				return this.#two('-', 0, this.#compile(node.of), make.subtract);
			case 'arithmetic':
				return this.#arithmetic(node.sign, this.#compile(node.left), this.#compile(node.right));
			case 'comparison':
				return this.#comparison(node);
			case 'sameKey': {
				const [a, b] = [
					this.#compile(node.left, node.vocabulary),
					this.#compile(node.right, node.vocabulary)
				];
				const same = this.#two('sameKey', a, b, make.sameKey);
				return node.same ? same : this.#not(same);
			}
			case 'logic':
				return this.#logic(node.sign, this.#compile(node.left), this.#compile(node.right));
			case 'not':
				return this.#not(this.#compile(node.of));
			case 'extreme': {
				const [first = NaN, ...others] = node.arguments.map((argument) => this.#compile(argument));
				return others.reduce(
					(a, b) => this.#two(node.name, a, b, node.name === 'min' ? make.least : make.greatest),
					first
				);
			}
			case 'one': {
				const of = this.#compile(node.of);
				const { name } = node;
				if (name === 'square') return this.#two('*', of, of, make.multiply);
				return this.#value(name, [of], (out, [a = NaN]) => make.scalar(name, out, a));
			}
			case 'round':
				return this.#value(`round ${node.digits}`, [this.#compile(node.of)], (out, [a = NaN]) =>
					make.round(out, a, node.digits)
				);
			case 'power':
				return this.#two('power', this.#compile(node.base), this.#compile(node.exponent), make.power);
			case 'known': {
				const of = this.#compile(node.of);
				if (node.of.type.kind === 'key') return this.#not(this.#two('sameKey', of, -1, make.sameKey));
				return this.#value('known', [of], (out, [a = NaN]) => make.isKnown(out, a));
			}
			case 'keyOf':
				return this.#keyOf(node);
			case 'if': {
				const condition = this.#compile(node.condition);
				const then = this.#compile(node.then, vocabulary);
				const otherwise = this.#compile(node.otherwise, vocabulary);
				if (typeof condition === 'number') return condition === 0 ? otherwise : then;
				return this.#value('if', [condition, then, otherwise], (out, [c = NaN, a = NaN, b = NaN]) =>
					make.choose(out, c, a, b)
				);
			}
			case 'function':
				return this.#call(
					node.function,
					node.arguments.map((argument) => this.#compile(argument))
				);
		}
	}
}

/** Gives every value its column and makes the steps. */
function allocate(values: readonly Value[], capacity: number): Step[] {
	values.forEach((value, i) => {
		for (const operand of value.given) if (typeof operand !== 'number') operand.lastUse = i;
	});
	const free: Column[] = [];
	const steps: Step[] = [];
	values.forEach((value, i) => {
		const given = value.given.map((operand) =>
			typeof operand === 'number' ? operand : (operand.column ?? NaN)
		);
		// A row is read before it is written, so a column may be read and written in one step.
		for (const operand of new Set(value.given)) {
			if (typeof operand === 'number' || operand.named || operand.lastUse !== i) continue;
			if (operand.column) free.push(operand.column);
		}
		value.column = (value.named ? undefined : free.pop()) ?? new Float64Array(capacity);
		if (value.step) steps.push(value.step(value.column, given));
	});
	return steps;
}

/** @throws Error for a name the book does not have. */
export function compileProgram(book: Compilable, { rules, given, capacity }: ProgramRequest): Program {
	const compiler = new Compiler(book, given);
	for (const name of rules) compiler.name(name);
	const steps = allocate(compiler.order(), capacity);
	const columns = new Map<string, Column>();
	for (const [name, operand] of compiler.named) {
		columns.set(
			name,
			typeof operand === 'number'
				? new Float64Array(capacity).fill(operand)
				: (operand.column ?? new Float64Array(capacity))
		);
	}
	// Most names of a book are given to a small program and never read: their columns are made when asked for.
	const names = new Set([...given, ...columns.keys()]);
	return {
		given: compiler.inputs,
		names: [...names],
		has: (name) => names.has(name),
		column: (name) => {
			const column = columns.get(name);
			if (column) return column;
			if (!names.has(name)) throw new Error(`${name} is not in this program`);
			const idle = new Float64Array(capacity).fill(NaN);
			columns.set(name, idle);
			return idle;
		},
		run: (count) => {
			for (const step of steps) step(count);
		}
	};
}
