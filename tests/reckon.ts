/**
 * Evaluates rules of the takeoff with figures of a publication in place of an opening's: what is given stands for a
 * quantity, an attribute of the shop book (`anchorLeft.diameter`) or a constant (`shop.durationWind`); everything else
 * is reckoned from the formulas or read from the demo shop book.
 */
import { convert, unit } from '../src/lib/quantity/units.ts';
import { demoTechnicalBook } from '../src/lib/shopbook/demo/demo-book.ts';
import { buildEngine } from '../src/lib/takeoff/engine.ts';

const built = buildEngine(demoTechnicalBook);
if (!built.ok) throw new Error(built.problems.map(({ rule, problem }) => `${rule}: ${problem}`).join('\n'));
const { rules } = built.engine;

/** A key or flag as it is, a number in the unit written after it: `{ 'anchorLeft.diameter': [0.375, 'in'] }`. */
export type Given = Readonly<Record<string, string | number | readonly [value: number, unit: string]>>;

function base(name: string, given: Given, seen: Map<string, number | string | null>): number | string | null {
	const own = given[name];
	if (own !== undefined) {
		if (typeof own === 'string') return own;
		return typeof own === 'number' ? own : own[0] * unit(own[1]).scale;
	}
	const known = seen.get(name);
	if (known !== undefined) return known;
	const value = rules.rule(name) ? ofRule(name, given, seen) : ofBook(name, given, seen);
	seen.set(name, value);
	return value;
}

function ofRule(
	name: string,
	given: Given,
	seen: Map<string, number | string | null>
): number | string | null {
	const { value, unit: shown } = rules.explain(name, (id) => base(id, given, seen));
	return typeof value === 'number' ? value * unit(shown).scale : value;
}

function ofBook(
	name: string,
	given: Given,
	seen: Map<string, number | string | null>
): number | string | null {
	const keyName = rules.keyOfName(name);
	const key = keyName === null ? null : base(keyName, given, seen);
	return rules.bookValue(name, typeof key === 'string' ? key : null);
}

/** The value of a rule, in `as` (its own unit without). Null where it is not known. */
export function reckon(id: string, given: Given, as?: string): number | string | null {
	const value = base(id, given, new Map());
	const definition = rules.definition(id);
	if (typeof value !== 'number' || !definition) return value;
	const inOwn = value / unit(definition.unit).scale;
	return as === undefined ? inOwn : convert(inOwn, definition.unit, as);
}

/** The same where a figure is expected. @throws Error where it is not known */
export function figureOf(id: string, given: Given, as?: string): number {
	const value = reckon(id, given, as);
	if (typeof value !== 'number') throw new Error(`${id} is ${String(value)}`);
	return value;
}
