/**
 * The takeoff: from rows of the grid to every quantity of every opening. The shop book arrives as an argument, so the
 * same engine runs in the browser, on the server and in the terminal.
 */
import { unit } from '../quantity/units.ts';
import type { QuantityDefinition } from '../rulebook/definition.ts';
import { loadRuleBook, type Explanation, type RuleBook, type RuleProblem } from '../rulebook/rule-book.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import { scopes, technicalConstants, technicalTables, vocabularies } from '../shopbook/tables.ts';
import type { Cell, InputId, Measures, OpeningRow } from './inputs.ts';
import type { Check, OpeningTakeoff } from './result.ts';
import { readyRows, type ReadyRow } from './rows.ts';
import { coilLiftFunction } from './lifting-limit.ts';
import { compilePick, picks, type CompiledPick } from './picks.ts';
import { barrelRules } from './rules/barrel.ts';
import { checkFlags, checkRules, type CheckRule } from './rules/checks.ts';
import { circuitRules } from './rules/circuit.ts';
import { concreteRules } from './rules/concrete.ts';
import { counterbalanceRules } from './rules/counterbalance.ts';
import { driveRules } from './rules/drive.ts';
import { geometryRules } from './rules/geometry.ts';
import { holdingRules } from './rules/holding.ts';
import { hoodRules } from './rules/hood.ts';
import { consumableRules, labourRules } from './rules/labour.ts';
import { liftingRules } from './rules/lifting.ts';
import { masonryRules } from './rules/masonry.ts';
import { sideRules } from './rules/sides.ts';
import { steelRules } from './rules/steel.ts';
import { wallRules } from './rules/walls.ts';
import { woodRules } from './rules/wood.ts';
import { showQuantity, spaced } from './show.ts';
import { betterTry, buildSearch, type Failure, type Search } from './search.ts';
import { spiralFunction } from './spiral.ts';
import { chosenQuantities, inputQuantities, unitFor } from './vocabulary.ts';

export interface JobTakeoff {
	readonly openings: readonly OpeningTakeoff[];
	readonly measures: Measures;
}

export interface Engine {
	readonly book: TechnicalBook;
	readonly rules: RuleBook;
	/** Everything that can be shown as a result, in the order of the chapters; checks and inputs not among them. */
	readonly quantities: readonly QuantityDefinition[];
	takeoff(rows: readonly OpeningRow[], measures: Measures): JobTakeoff;
	/** The working of one quantity (or book value) of one opening. */
	explain(opening: OpeningTakeoff, id: string, measures: Measures): Explanation;
}

/** Openings worked through together: large enough to spread the cost of a rule, small enough to stay in the cache. */
const blockSize = 256;

/** A quantity in the sentence of a check: `{headroom}`. */
const placeholder = /\{([\w.]+)\}/gu;

/** What the search gives; the picks come after it. */
const searched = ['barrel', 'bracket', 'drive'] as const;

/** What search and picks give. */
const chosenIds: ReadonlySet<string> = new Set(chosenQuantities.map(({ id }) => id));

export function buildEngine(
	book: TechnicalBook
): { ok: true; engine: Engine } | { ok: false; problems: readonly RuleProblem[] } {
	const flags = checkFlags();
	const ruleList = [
		...sideRules,
		...geometryRules,
		...barrelRules,
		...driveRules,
		...circuitRules,
		...counterbalanceRules,
		...wallRules,
		...holdingRules,
		...woodRules,
		...steelRules,
		...concreteRules,
		...masonryRules,
		...hoodRules,
		...consumableRules(book),
		...liftingRules,
		...labourRules(book),
		...flags
	];
	const loaded = loadRuleBook({
		quantities: [...inputQuantities, ...chosenQuantities],
		vocabularies,
		tables: technicalTables(book),
		scopes,
		constants: technicalConstants(book),
		rules: ruleList,
		functions: [spiralFunction, coilLiftFunction]
	});
	if (!loaded.ok) return loaded;
	return { ok: true, engine: new CompiledEngine(book, loaded.book) };
}

/** Results of all openings, one column a quantity: value of quantity q for opening i stands at q · count + i. */
interface Results {
	readonly values: Float64Array;
	readonly count: number;
}

class CompiledEngine implements Engine {
	readonly book: TechnicalBook;
	readonly rules: RuleBook;
	readonly quantities: readonly QuantityDefinition[];
	readonly #position: ReadonlyMap<string, number>;
	readonly #before;
	readonly #after;
	readonly #search: Search;
	readonly #picks: readonly CompiledPick[];
	readonly #picked: ReadonlyMap<string, Float64Array>;
	readonly #dependsOnChoice: ReadonlySet<string>;
	readonly #keyPosition = new Map<string, ReadonlyMap<string, number>>();
	readonly #keys = new Map<string, readonly string[]>();

	constructor(book: TechnicalBook, rules: RuleBook) {
		this.book = book;
		this.rules = rules;
		const checkCodes = new Set(checkRules.map((check) => check.code));
		this.#dependsOnChoice = new Set(rules.order.filter((id) => rules.dependsOn(id, chosenIds)));
		const before = rules.order.filter((id) => !this.#dependsOnChoice.has(id));
		const inputIds = inputQuantities.map((quantity) => quantity.id);
		this.#before = rules.program({ rules: before, given: inputIds, capacity: blockSize });
		this.#after = rules.program({
			rules: [...this.#dependsOnChoice],
			given: [...inputIds, ...before, ...chosenIds],
			capacity: blockSize
		});
		this.#search = buildSearch(rules, book, new Set([...inputIds, ...before]));
		const known = new Set([...inputIds, ...before, ...searched]);
		this.#picks = picks.map((pick) => {
			const compiled = compilePick(rules, pick, new Set(known), blockSize);
			known.add(pick.id);
			return compiled;
		});
		this.#picked = new Map([...chosenIds].map((id) => [id, new Float64Array(blockSize)]));
		this.#position = new Map([...inputIds, ...chosenIds, ...rules.order].map((id, i) => [id, i]));
		for (const id of this.#position.keys()) {
			const keys = rules.keysOf(id);
			if (!keys) continue;
			this.#keys.set(id, keys);
			this.#keyPosition.set(id, new Map(keys.map((key, i) => [key, i])));
		}
		this.quantities = [
			...chosenQuantities,
			...rules.order.flatMap((id) => {
				const rule = rules.rule(id);
				return rule && !checkCodes.has(id) ? [rule] : [];
			})
		].sort((a, b) => a.chapter - b.chapter);
	}

	takeoff(rows: readonly OpeningRow[], measures: Measures): JobTakeoff {
		const ready = readyRows(rows, this.book);
		const results: Results = {
			values: new Float64Array(this.#position.size * ready.length).fill(Number.NaN),
			count: ready.length
		};
		const complete = ready.flatMap((row, i) => (row.complete ? [i] : []));
		for (let from = 0; from < complete.length; from += blockSize)
			this.#runBlock(ready, complete.slice(from, from + blockSize), results);
		return {
			measures,
			openings: ready.map((row, i) => new ComputedOpening(this, row, i, results, measures))
		};
	}

	#runBlock(ready: readonly ReadyRow[], indexes: readonly number[], results: Results): void {
		const { values, count } = results;
		const size = indexes.length;
		const before = this.#before;
		const after = this.#after;
		for (const { id } of inputQuantities) {
			const offset = (this.#position.get(id) ?? 0) * count;
			const keys = this.#keyPosition.get(id);
			const column = before.column(id);
			for (let i = 0; i < size; i++) {
				const index = indexes[i] ?? 0;
				const value = this.#number(ready[index]?.cells[id as keyof ReadyRow['cells']], keys);
				column[i] = value;
				values[offset + index] = value;
			}
		}
		before.run(size);
		const operation = before.column('operation');
		const tubeMotor = this.#keyPosition.get('operation')?.get('tubeMotor') ?? -1;
		const trial = this.#search.given.map((id) => [id, before.column(id)] as const);
		const position = new Map(trial.map(([id, column]) => [id, column]));
		const barrel = this.#chosen('barrel');
		const bracket = this.#chosen('bracket');
		const drive = this.#chosen('drive');
		for (let i = 0; i < size; i++) {
			const choice = this.#search.run(
				(id) => position.get(id)?.[i] ?? Number.NaN,
				operation[i] === tubeMotor
			);
			barrel[i] = choice ? choice.barrel : -1;
			bracket[i] = choice ? choice.bracket : -1;
			drive[i] = choice ? choice.drive : -1;
		}
		const read = (id: string): Float64Array => this.#picked.get(id) ?? before.column(id);
		for (const compiled of this.#picks) compiled.run(read, size, this.#chosen(compiled.pick.id));
		for (const id of after.given) after.column(id).set(read(id).subarray(0, size));
		after.run(size);
		for (const [id, at] of this.#position) {
			const column = this.#picked.get(id) ?? (this.#dependsOnChoice.has(id) ? after : before).column(id);
			const offset = at * count;
			for (let i = 0; i < size; i++) values[offset + (indexes[i] ?? 0)] = column[i] ?? Number.NaN;
		}
	}

	/** Column of a chosen quantity, for the block at work. */
	#chosen(id: string): Float64Array {
		const column = this.#picked.get(id);
		if (!column) throw new Error(`${id} is not chosen`);
		return column;
	}

	#number(cell: Cell | undefined, keys: ReadonlyMap<string, number> | undefined): number {
		if (keys) return typeof cell === 'string' ? (keys.get(cell) ?? -1) : -1;
		if (cell === undefined || cell === null || typeof cell === 'string') return Number.NaN;
		if (typeof cell === 'number') return cell;
		return cell.amount * unit(cell.unit).scale;
	}

	/** Value of a quantity for opening `i`, by the column kept for it. */
	read(results: Results, i: number, id: string, failed: boolean): number | string | null {
		const at = this.#position.get(id);
		if (at === undefined) return this.#readBook(results, i, id, failed);
		if (failed && (this.#dependsOnChoice.has(id) || chosenIds.has(id))) return null;
		const value = results.values[at * results.count + i] ?? Number.NaN;
		const keys = this.#keys.get(id);
		if (keys) return keys[value] ?? null;
		return Number.isFinite(value) ? value : null;
	}

	#readBook(results: Results, i: number, name: string, failed: boolean): number | string | null {
		const keyId = this.rules.keyOfName(name);
		const key = keyId === null ? null : this.read(results, i, keyId, failed);
		return this.rules.bookValue(name, typeof key === 'string' ? key : null);
	}

	/** Whether the search found a barrel. */
	chose(results: Results, i: number): boolean {
		const at = this.#position.get('barrel') ?? 0;
		return (results.values[at * results.count + i] ?? -1) >= 0;
	}

	/** Whether a check or a quantity its sentence names depends on what the search chose. */
	#needsChoice({ code, text }: CheckRule): boolean {
		return [code, ...Array.from(text.matchAll(placeholder), ([, name = '']) => name)].some((name) =>
			this.#dependsOnChoice.has(name)
		);
	}

	/** The flag of a check; false where it could not be computed. */
	raised(results: Results, i: number, check: CheckRule, failed: boolean): boolean {
		if (failed && this.#needsChoice(check)) return false;
		const { code } = check;
		const at = this.#position.get(code) ?? 0;
		return results.values[at * results.count + i] === 1;
	}

	/** What the search tried for an opening: the failures in order, and whether one passed. */
	tries(opening: ComputedOpening): Failure[] {
		const failures: Failure[] = [];
		this.#search.run(
			(id) => opening.raw(id),
			opening.get('operation') === 'tubeMotor',
			(failure) => failures.push(failure)
		);
		return failures;
	}

	position(id: string, key: string): number {
		return this.#keyPosition.get(id)?.get(key) ?? -1;
	}

	explain(opening: OpeningTakeoff, id: string, measures: Measures): Explanation {
		const chosen = chosenQuantities.find((quantity) => quantity.id === id);
		if (chosen && opening instanceof ComputedOpening) {
			const pick = this.#picks.find((compiled) => compiled.pick.id === id);
			return pick
				? this.#explainPick(opening, chosen, pick, measures)
				: this.#explainChoice(opening, chosen, measures);
		}
		return this.rules.explain(
			id,
			(name) => opening.get(name),
			(definition) => unitFor(definition, measures)
		);
	}

	#explainChoice(opening: ComputedOpening, chosen: QuantityDefinition, measures: Measures): Explanation {
		const failures = this.tries(opening);
		const key = opening.get(chosen.id);
		const found = opening.get('barrel') !== null;
		const steps = failures.map((failure) => this.describe(failure, measures));
		const last = found
			? [
					`Barrel ${String(opening.get('barrel'))}, bracket ${String(opening.get('bracket'))}, drive ${String(opening.get('drive'))}: all pass; taken.`
				]
			: ['None passes.'];
		const asked = ['bracketNeeded', 'barrelDeflection', 'deflectionLimit', 'barrelStress', 'stressLimit'];
		const names =
			opening.get('operation') === 'tubeMotor' ? [...asked, 'requiredTorque', 'driveTurns'] : asked;
		return {
			id: chosen.id,
			title: chosen.title,
			unit: '1',
			formula:
				'search: pipes lightest up, brackets smallest up, drives smallest up; the first that passes all',
			substituted: `${String(failures.length)} tries failed before it`,
			value: key,
			text: key === null ? 'none passes' : String(key),
			why: chosen.sentence,
			source: { basis: 'commonPractice', text: 'Common practice: the lightest that passes every test.' },
			from: names.map((name) => {
				const definition = this.rules.definition(name);
				const value = opening.get(name);
				return {
					name,
					title: definition?.title ?? name,
					text: typeof value === 'number' && definition ? showQuantity(value, definition, measures) : '—',
					canOpen: true
				};
			}),
			steps: [...steps, ...last]
		};
	}

	/** What was tried for a pick, in the order tried, with what each try came to. */
	#explainPick(
		opening: ComputedOpening,
		chosen: QuantityDefinition,
		compiled: CompiledPick,
		measures: Measures
	): Explanation {
		const { pick } = compiled;
		const list = opening.computed ? compiled.tries((id) => opening.raw(id)) : [];
		const keys = this.#keys.get(pick.id);
		const value = opening.get(pick.id);
		const show = (id: string, figure: number): string => {
			const definition = this.rules.definition(id);
			const text =
				definition && Number.isFinite(figure) ? showQuantity(figure, definition, measures) : 'not known';
			return `${definition?.title.toLowerCase() ?? id} ${text}`;
		};
		const steps = list.map(({ candidate, passed, values }) => {
			const name = keys?.[candidate] ?? String(candidate);
			const judged = pick.shows.map((id, i) => show(id, values[i] ?? Number.NaN)).join(', ');
			return `${name}: ${judged}: ${passed ? 'passes; taken.' : 'does not pass.'}`;
		});
		const passed = list.at(-1)?.passed === true;
		return {
			id: chosen.id,
			title: chosen.title,
			unit: '1',
			formula: `the first that passes: ${this.rules.rule(pick.flag)?.formula ?? pick.flag}`,
			substituted: passed
				? `${String(list.length - 1)} tried before it`
				: list.length === 0
					? 'nothing to choose for this opening'
					: `none of ${String(list.length)} passes`,
			value,
			text: value === null ? 'none' : String(value),
			why: chosen.sentence,
			source: { basis: 'commonPractice', text: 'Common practice: the least that passes every test.' },
			from: [pick.flag, ...pick.shows].map((name) => {
				const definition = this.rules.definition(name);
				const own = opening.get(name);
				return {
					name,
					title: definition?.title ?? name,
					text: typeof own === 'number' && definition ? showQuantity(own, definition, measures) : '—',
					canOpen: true
				};
			}),
			steps
		};
	}

	/** One failed trial in words. */
	describe(failure: Failure, measures: Measures): string {
		const { criterion, have, need } = failure;
		const name = (id: string): string => this.rules.definition(id)?.title.toLowerCase() ?? id;
		const show = (id: string, value: number): string => {
			const definition = this.rules.definition(id);
			return definition ? showQuantity(value, definition, measures) : String(value);
		};
		const withDrive = criterion.flag.startsWith('drive');
		const on = [
			`barrel ${this.#keys.get('barrel')?.[failure.barrel] ?? '?'}`,
			`bracket ${this.#keys.get('bracket')?.[failure.bracket] ?? '?'}`,
			...(withDrive ? [`drive ${this.#keys.get('drive')?.[failure.drive] ?? '?'}`] : [])
		].join(', ');
		const sense = criterion.sense === 'atLeast' ? 'less than' : 'more than';
		return `${on}: ${name(criterion.have)} ${show(criterion.have, have)} is ${sense} ${name(criterion.need)} ${show(criterion.need, need)}`;
	}
}

class ComputedOpening implements OpeningTakeoff {
	readonly row: OpeningRow;
	readonly mark: string;
	readonly openingId: string | null;
	readonly openingIds: readonly string[];
	readonly quantity: number;
	readonly phase: string;
	readonly location: string;
	readonly computed: boolean;
	readonly #engine: CompiledEngine;
	readonly #ready: ReadyRow;
	readonly #index: number;
	readonly #results: Results;
	readonly #measures: Measures;
	#checks: readonly Check[] | null = null;

	constructor(engine: CompiledEngine, ready: ReadyRow, index: number, results: Results, measures: Measures) {
		this.#engine = engine;
		this.#ready = ready;
		this.#index = index;
		this.#results = results;
		this.#measures = measures;
		this.row = ready.row;
		this.mark = ready.mark;
		this.openingId = ready.openingId;
		this.openingIds = ready.openingIds;
		this.quantity = ready.openingIds.length;
		this.phase = typeof ready.cells.phase === 'string' ? ready.cells.phase : '';
		this.location = typeof ready.cells.location === 'string' ? ready.cells.location : '';
		this.computed = ready.complete && engine.chose(results, index);
	}

	get(id: string): number | string | null {
		return this.#engine.read(this.#results, this.#index, id, !this.computed);
	}

	/** A cell with what the row takes from its mark. */
	cell(id: InputId): Cell {
		return this.#ready.cells[id] ?? null;
	}

	/** As the rules see it: keys by their row number. */
	raw(id: string): number {
		const value = this.get(id);
		if (typeof value === 'string') return this.#engine.position(id, value);
		return value ?? (this.#engine.rules.keysOf(id) ? -1 : Number.NaN);
	}

	get checks(): readonly Check[] {
		this.#checks ??= this.#collect();
		return this.#checks;
	}

	#collect(): Check[] {
		const checks = [...this.#ready.checks];
		if (!this.#ready.complete) return checks;
		if (!this.computed) checks.push(this.#nothingPasses());
		for (const rule of checkRules) {
			if (this.#engine.raised(this.#results, this.#index, rule, !this.computed))
				checks.push(this.#raised(rule));
		}
		const order = { stop: 0, caution: 1, note: 2 } as const;
		return checks.sort((a, b) => order[a.severity] - order[b.severity]);
	}

	/** Its sentence is made when somebody reads it: a sheet counts thousands of checks and shows a few. */
	#raised(rule: CheckRule): Check {
		const { severity, code, about, source, clears } = rule;
		let sentence: string | null = null;
		const fill = (): string => (sentence ??= this.#fill(rule));
		return {
			severity,
			code,
			get text() {
				return fill();
			},
			rule: about,
			source,
			clears
		};
	}

	#nothingPasses(): Check {
		const best = this.#engine.tries(this).reduce<Failure | null>(betterTry, null);
		return {
			severity: 'stop',
			code: 'nothingPasses',
			text: best
				? `No barrel, bracket and drive of the shop book passes. Best try: ${this.#engine.describe(best, this.#measures)}.`
				: 'No barrel, bracket and drive of the shop book passes.',
			rule: 'barrel',
			source: { basis: 'commonPractice', text: 'Common practice: the lightest that passes every test.' },
			clears: 'A lighter curtain, a smaller opening, or a heavier pipe, bracket or drive in the shop book.'
		};
	}

	#fill(rule: CheckRule): string {
		return rule.text.replace(placeholder, (_, name: string) => {
			const value = this.get(name);
			if (typeof value === 'string') return spaced(value);
			const definition = this.#engine.rules.definition(name);
			if (value === null || !definition) return 'not known';
			return showQuantity(value, definition, this.#measures);
		});
	}
}
