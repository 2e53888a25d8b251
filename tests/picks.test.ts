/**
 * What is picked against brute force: every candidate tried, its flag reckoned through the working of the rules, which
 * reads the same formulas another way. Random openings, invented.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unit } from '../src/lib/quantity/units.ts';
import { demoTechnicalBook as book } from '../src/lib/shopbook/demo/demo-book.ts';
import { picks, type Pick } from '../src/lib/takeoff/picks.ts';
import type { OpeningTakeoff } from '../src/lib/takeoff/result.ts';
import { engineOf, openingA, typedRow, type Typed } from './opening-rows.ts';

const engine = engineOf();
const { rules } = engine;
type Value = number | string | null;

/** A name with another candidate in place of the chosen one; what does not depend on it is as computed. */
function withCandidate(opening: OpeningTakeoff, pick: Pick, candidate: Value): (name: string) => Value {
	const own = new Set([pick.id]);
	const known = new Map<string, Value>([[pick.id, candidate]]);
	const value = (name: string): Value => {
		const before = known.get(name);
		if (before !== undefined) return before;
		let result: Value;
		if (!rules.dependsOn(name, own)) result = opening.get(name);
		else if (rules.rule(name)) {
			const { value: shown, unit: text } = rules.explain(name, value);
			result = typeof shown === 'number' ? shown * unit(text).scale : shown;
		} else {
			const keyName = rules.keyOfName(name);
			const key = keyName === null ? null : value(keyName);
			result = rules.bookValue(name, typeof key === 'string' ? key : null);
		}
		known.set(name, result);
		return result;
	};
	return value;
}

function candidatesOf(opening: OpeningTakeoff, { id, by, between }: Pick): Value[] {
	if (between) {
		const [least, most] = between.map((name) => Number(opening.get(name)));
		if (least === undefined || most === undefined) return [];
		return Array.from({ length: Math.max(most - least, 0) + 1 }, (_, i) => least + i);
	}
	const keys = [...(rules.keysOf(id) ?? [])];
	return by === undefined
		? keys
		: keys.sort((a, b) => Number(rules.bookValue(by, a)) - Number(rules.bookValue(by, b)));
}

/** The first candidate that passes, or the fallback; null where nothing is picked. */
function bruteForce(opening: OpeningTakeoff, pick: Pick): Value {
	if (pick.when && opening.get(pick.when) !== 1) return null;
	const list = candidatesOf(opening, pick);
	const first = (flag: string): Value =>
		list.find((candidate) => withCandidate(opening, pick, candidate)(flag) === 1) ?? null;
	for (const flag of [pick.flag, ...(pick.otherwise ?? [])]) {
		const found = first(flag);
		if (found !== null) return found;
	}
	return pick.between ? (list[0] ?? null) : null;
}

const walls = fc.constantFrom(
	'concrete',
	'groutedBlock',
	'hollowBlock',
	'structuralSteel',
	'studWithBacking',
	'wood'
);

const openings: fc.Arbitrary<Typed> = fc.record({
	openingWidth: fc.integer({ min: 36, max: 330 }).map((n) => `${String(n)} 1/4"`),
	openingHeight: fc.integer({ min: 30, max: 170 }).map((n) => `${String(n)}"`),
	curtain: fc.constantFrom(...book.curtains.map(({ key }) => key)),
	guide: fc.constantFrom('counter-face', 'store-face', 'store-between'),
	mounting: fc.constantFrom('faceOfWall', 'betweenJambs'),
	leftSubstrate: walls,
	rightSubstrate: walls,
	finishBuildUp: fc.constantFrom('', '1/2"', '1 1/4"', '3"'),
	operation: fc.constantFrom('tubeMotor', 'chain', 'crank', 'pushUp'),
	supplyVoltage: fc.constantFrom('115 V', '230 V', '480 V'),
	feedLength: fc.constantFrom('', `20'`, `150'`, `900'`),
	exposure: fc.constantFrom('interior', 'exterior'),
	designPressure: fc.integer({ min: 5, max: 120 }).map((n) => `${String(n)} psf`)
});

describe('every pick is what brute force finds', () => {
	const list = fc.sample(openings, { numRuns: 200, seed: 72 });
	const computed = engine
		.takeoff(
			list.map((typed, i) => typedRow({ ...openingA, ...typed, mark: `M${String(i)}` })),
			'imperial'
		)
		.openings.filter((opening) => opening.computed);

	it.each(picks.map((pick) => [pick.id, pick] as const))('%s', (id, pick) => {
		const found = computed.map((opening) => [opening.mark, opening.get(id)]);
		expect(found).toEqual(computed.map((opening) => [opening.mark, bruteForce(opening, pick)]));
		// More than one answer came up, so the comparison is not idle.
		expect(new Set(found.map(([, value]) => value)).size).toBeGreaterThan(1);
	});
});
