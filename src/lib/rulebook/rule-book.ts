/**
 * The rule book: a rule is written once and read three ways. It is computed (`program`), explained (`explain`) and
 * written as a workbook formula (`writeFormula`); money is evaluated in exact decimals (`evaluateExact`).
 *
 * A book is checked when it is loaded: names, circles, dimensions. What is loaded never changes.
 */
import { Decimal } from 'decimal.js';
import { formatQuantity } from '../quantity/format.ts';
import { unit } from '../quantity/units.ts';
import { checkFormula, namesOf, type Typed } from './check-formula.ts';
import type { QuantityDefinition, RuleDefinition, Source } from './definition.ts';
import { evaluateExactly, type ExactValue } from './evaluate-exact.ts';
import { figure, plainStyle, stepsOf, substitute, type Explanation } from './explain.ts';
import { contains, foldUnits, type Folded } from './fold-units.ts';
import { interpret, type ReadValue } from './interpret.ts';
import { inBase, Names, type Meaning, type RuleBookSource } from './names.ts';
import { parseFormula } from './parse-formula.ts';
import { printFormula } from './print-formula.ts';
import type { RuleProblem } from './problem.ts';
import { compileProgram, type Program, type ProgramRequest } from './program.ts';
import { writeFolded, type Cells } from './write-formula.ts';

export type { Cells, ExactValue, Explanation, Program, RuleBookSource, RuleProblem };

/** A value in base units, a flag as 1 or 0, a key as its word; null for what is not known or none. */
export type Read = (name: string) => number | string | null;

export interface RuleBook {
	/** Ids of the rules, each after everything it depends on. */
	readonly order: readonly string[];
	/** A quantity, `scope.attribute` or `shop.constant`; undefined for any other name. */
	definition(name: string): QuantityDefinition | undefined;
	/** The rule with its formula; undefined for what has none. */
	rule(id: string): RuleDefinition | undefined;
	/** Names in the formula of a rule, in the order they are read; none for what has no formula. */
	namesIn(id: string): readonly string[];
	/** Whether the value of `id` depends, however indirectly, on one of the names. */
	dependsOn(id: string, names: ReadonlySet<string>): boolean;
	/** Words of a key quantity in the order of their index; null for what is not a key. */
	keysOf(name: string): readonly string[] | null;
	/** The key quantity that picks the row of a `scope.attribute`; null for any other name. */
	keyOfName(name: string): string | null;
	/** Value of a constant, or of an attribute in the row of `key`, in base units or as a word; null where there is none. */
	bookValue(name: string, key: string | null): number | string | null;
	/** The same as written: an exact decimal in the unit of its definition, or a word. */
	bookText(name: string, key: string | null): string | null;
	/** A figure in the unit of the name's definition, in base units. @throws Error for an unknown name. */
	toBase(name: string, value: number): number;
	/** Rules compiled to run over columns of many openings. @throws Error for an unknown name. */
	program(request: ProgramRequest): Program;
	/**
	 * The working of a rule, an input or a value of the book.
	 * @param read values of one opening; constants and attributes that it does not know come from the book
	 * @param unitOf unit to show a quantity in; its own without this
	 * @throws Error for an unknown name
	 */
	explain(id: string, read: Read, unitOf?: (definition: QuantityDefinition) => string): Explanation;
	/**
	 * The formula of a rule for a workbook cell, without `=`. Null for a rule that calls a named function, has no
	 * formula, or is longer than a spreadsheet takes: its cell holds a value.
	 */
	writeFormula(id: string, cells: Cells): string | null;
	/**
	 * A rule in exact decimals, in the unit of its definition; a flag is 1 or 0.
	 * @param read figures in the unit of their definition; constants and attributes that it does not know come from the book
	 * @throws Error naming the rule when a figure is not known, for a division by zero, a key rule or a named function
	 */
	evaluateExact(id: string, read: (name: string) => ExactValue): Decimal;
}

/** Checks a book and loads it, or says everything that is wrong with it. */
export function loadRuleBook(
	source: RuleBookSource
): { ok: true; book: RuleBook } | { ok: false; problems: readonly RuleProblem[] } {
	const names = new Names(source);
	const problems = [...names.problems];
	// A unit or vocabulary that is wrong would be found again in every formula; say it once.
	if (problems.length > 0) return { ok: false, problems };
	const formulas = new Map<string, Typed>();
	for (const rule of source.rules) {
		const parsed = parseFormula(rule.formula);
		const checked = parsed.ok ? checkFormula(rule, parsed.tree, names) : parsed;
		if (checked.ok) formulas.set(rule.id, checked.formula);
		else problems.push({ rule: rule.id, problem: checked.reason });
	}
	const { order, circles } = arrange(source.rules, formulas, names);
	problems.push(...circles);
	if (problems.length > 0) return { ok: false, problems };
	return { ok: true, book: new LoadedBook(names, formulas, order) };
}

/** What a name depends on directly: names of its formula, the key that picks its row. */
function needs(name: string, formulas: ReadonlyMap<string, Typed>, names: Names): readonly string[] {
	const meaning = names.meaning(name);
	if (meaning?.kind === 'attribute') return [meaning.scope.key];
	const formula = formulas.get(name);
	return formula ? namesOf(formula) : [];
}

/** Rules in the order they can be computed, and every circle once, whole. */
function arrange(
	rules: readonly RuleDefinition[],
	formulas: ReadonlyMap<string, Typed>,
	names: Names
): { order: string[]; circles: RuleProblem[] } {
	const order: string[] = [];
	const circles: RuleProblem[] = [];
	const done = new Set<string>();
	const path: string[] = [];
	const visit = (name: string): void => {
		if (done.has(name)) return;
		const start = path.indexOf(name);
		if (start >= 0) {
			const circle = [...path.slice(start), name].join(' → ');
			circles.push({ rule: name, problem: `it depends on itself: ${circle}` });
			return;
		}
		path.push(name);
		for (const needed of needs(name, formulas, names)) visit(needed);
		path.pop();
		done.add(name);
		if (formulas.has(name)) order.push(name);
	};
	for (const rule of rules) visit(rule.id);
	return { order, circles };
}

class LoadedBook implements RuleBook {
	readonly order: readonly string[];
	readonly #names: Names;
	readonly #formulas: ReadonlyMap<string, Typed>;
	/** Rules folded to their own units. */
	readonly #folded = new Map<string, Folded>();
	/** Everything a name depends on. */
	readonly #reach = new Map<string, ReadonlySet<string>>();

	constructor(names: Names, formulas: ReadonlyMap<string, Typed>, order: readonly string[]) {
		this.#names = names;
		this.#formulas = formulas;
		this.order = order;
	}

	definition(name: string): QuantityDefinition | undefined {
		return this.#names.meaning(name)?.definition;
	}

	rule(id: string): RuleDefinition | undefined {
		const meaning = this.#names.meaning(id);
		return meaning?.kind === 'rule' ? meaning.definition : undefined;
	}

	namesIn(id: string): readonly string[] {
		const formula = this.#formulas.get(id);
		return formula ? namesOf(formula) : [];
	}

	dependsOn(id: string, names: ReadonlySet<string>): boolean {
		const reach = this.#reachOf(id);
		for (const name of names) if (reach.has(name)) return true;
		return false;
	}

	keysOf(name: string): readonly string[] | null {
		const definition = this.definition(name);
		return definition?.kind === 'key' ? this.#names.keys(definition.vocabulary ?? '') : null;
	}

	keyOfName(name: string): string | null {
		const meaning = this.#names.meaning(name);
		return meaning?.kind === 'attribute' ? meaning.scope.key : null;
	}

	bookText(name: string, key: string | null): string | null {
		const meaning = this.#names.meaning(name);
		if (meaning?.kind === 'constant') return meaning.constant.value;
		if (meaning?.kind !== 'attribute' || key === null) return null;
		const text = meaning.attribute.values[meaning.table.keys.indexOf(key)] ?? '';
		return text === '' ? null : text;
	}

	bookValue(name: string, key: string | null): number | string | null {
		const text = this.bookText(name, key);
		const definition = this.definition(name);
		if (text === null || !definition) return null;
		return definition.kind === 'key' ? text : inBase(text, unit(definition.unit));
	}

	toBase(name: string, value: number): number {
		return value * unit(this.#known(name).definition.unit).scale;
	}

	program(request: ProgramRequest): Program {
		return compileProgram({ names: this.#names, formula: (id) => this.#formulas.get(id) ?? null }, request);
	}

	explain(
		id: string,
		read: Read,
		unitOf: (definition: QuantityDefinition) => string = (definition) => definition.unit
	): Explanation {
		const meaning = this.#known(id);
		const { definition } = meaning;
		const values = this.#values(read);
		const shownIn = (name: string): string => unitOf(this.#known(name).definition);
		const formula = this.#formulas.get(id);
		const resultUnit = unitOf(definition);
		const head = { id, title: definition.title, unit: resultUnit, why: definition.sentence };
		if (!formula) return { ...head, ...this.#given(meaning, resultUnit, values) };
		const folded = foldUnits(formula, resultUnit, shownIn);
		const value = plain(interpret(folded, values));
		const show = (name: string, text: string): string =>
			showValue(this.#known(name).definition, values(name, text), text);
		return {
			...head,
			formula: printFormula(formula, plainStyle),
			substituted: substitute(folded, values, show),
			value,
			text: resultText(definition, value, resultUnit),
			source: this.rule(id)?.source ?? definitionSource,
			from: namesOf(formula).map((name) => ({
				name,
				title: this.#known(name).definition.title,
				text: show(name, shownIn(name)),
				canOpen: true
			})),
			steps: stepsOf(folded, values)
		};
	}

	writeFormula(id: string, cells: Cells): string | null {
		const formula = this.#formulas.get(id);
		if (!formula) return null;
		const folded = foldUnits(formula, cells.unit(id), (name) => cells.unit(name));
		return contains(folded, 'function') ? null : writeFolded(folded, cells);
	}

	evaluateExact(id: string, read: (name: string) => ExactValue): Decimal {
		const formula = this.#formulas.get(id);
		if (!formula) throw new Error(`${id} is not a rule of this book`);
		const own = (name: string): string => this.#known(name).definition.unit;
		const folded = this.#folded.get(id) ?? foldUnits(formula, own(id), own);
		this.#folded.set(id, folded);
		try {
			const value = evaluateExactly(folded, (name) => read(name) ?? this.#exactBookValue(name, read));
			if (typeof value === 'boolean') return new Decimal(value ? 1 : 0);
			if (Decimal.isDecimal(value)) return value;
		} catch (error) {
			throw new Error(`${id}: ${error instanceof Error ? error.message : String(error)}`, { cause: error });
		}
		throw new Error(`${id}: its value is not a number`);
	}

	#known(name: string): Meaning {
		const meaning = this.#names.meaning(name);
		if (!meaning) throw new Error(`${name} is not a name of this rule book`);
		return meaning;
	}

	#reachOf(name: string): ReadonlySet<string> {
		const known = this.#reach.get(name);
		if (known) return known;
		const reach = new Set<string>();
		for (const needed of needs(name, this.#formulas, this.#names)) {
			reach.add(needed);
			for (const further of this.#reachOf(needed)) reach.add(further);
		}
		this.#reach.set(name, reach);
		return reach;
	}

	/** Values in the unit asked for, from the opening or else from the book. */
	#values(read: Read): ReadValue {
		return (name, text) => {
			const { kind } = this.#known(name).definition;
			const value = read(name) ?? this.#bookValueFor(name, read);
			if (kind === 'key') return typeof value === 'string' && value !== '' ? value : null;
			if (typeof value !== 'number') return NaN;
			return kind === 'flag' ? value : value / unit(text).scale;
		};
	}

	#bookValueFor(name: string, read: Read): number | string | null {
		const keyName = this.keyOfName(name);
		const key = keyName === null ? null : read(keyName);
		return this.bookValue(name, typeof key === 'string' ? key : null);
	}

	#exactBookValue(name: string, read: (name: string) => ExactValue): ExactValue {
		const keyName = this.keyOfName(name);
		const key = keyName === null ? null : read(keyName);
		const text = this.bookText(name, typeof key === 'string' ? key : null);
		if (text === null) return null;
		return this.definition(name)?.kind === 'key' ? text : new Decimal(text);
	}

	/** What is typed, chosen or looked up has no formula; it says where it comes from. */
	#given(
		meaning: Meaning,
		text: string,
		values: ReadValue
	): Pick<Explanation, 'formula' | 'substituted' | 'value' | 'text' | 'source' | 'from' | 'steps'> {
		const { definition } = meaning;
		const value = plain(values(definition.id, text));
		const shown = showValue(definition, value, text);
		const result = { formula: '', substituted: '', value, text: shown, from: [], steps: [] };
		if (meaning.kind === 'constant') return { ...result, source: meaning.constant.source };
		if (meaning.kind !== 'attribute') {
			return { ...result, source: { basis: 'definition', text: 'Given for this opening.' } };
		}
		const { scope, table } = meaning;
		const chooser = this.#known(scope.key).definition;
		const row = showValue(chooser, values(scope.key, '1'), '1');
		return {
			...result,
			formula: `${definition.title} of ${scope.key} in ${table.title}`,
			substituted: `${definition.title} of ${row} in ${table.title}`,
			source: table.source ?? { basis: 'shop', text: `Shop book, ${table.title}, row ${row}.` },
			from: [{ name: scope.key, title: chooser.title, text: row, canOpen: true }]
		};
	}
}

const definitionSource: Source = { basis: 'definition', text: 'What the word means.' };

const plain = (value: number | string | null): number | string | null =>
	typeof value === 'number' && !Number.isFinite(value) ? null : value;

/** A value as it stands in a working. */
function showValue({ kind }: QuantityDefinition, value: number | string | null, text: string): string {
	if (kind === 'key') return typeof value === 'string' ? value : 'none';
	if (typeof value !== 'number' || !Number.isFinite(value)) return 'not known';
	if (kind === 'flag') return value === 0 ? 'no' : 'yes';
	return figure(value, text);
}

/** A result as it stands in a column. */
function resultText(definition: QuantityDefinition, value: number | string | null, text: string): string {
	if (definition.kind === 'key' || definition.kind === 'flag' || typeof value !== 'number') {
		return showValue(definition, value, text);
	}
	return formatQuantity(value * unit(text).scale, text);
}
