/**
 * What is picked against brute force: every candidate tried, its flag reckoned through the working of the rules, which
 * reads the same formulas another way. Random openings, invented.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unit } from '../src/lib/quantity/units.ts';
import type { RuleBook } from '../src/lib/rulebook/rule-book.ts';
import { demoTechnicalBook as book } from '../src/lib/shopbook/demo/demo-book.ts';
import type { Engine } from '../src/lib/takeoff/engine.ts';
import { picks, type Pick } from '../src/lib/takeoff/picks.ts';
import type { OpeningTakeoff } from '../src/lib/takeoff/result.ts';
import { engineOf, openingA, typedRow, type Typed } from './opening-rows.ts';

type Value = number | string | null;

/** A name with another candidate in place of the chosen one; what does not depend on it is as computed. */
function withCandidate(
	rules: RuleBook,
	opening: OpeningTakeoff,
	pick: Pick,
	candidate: Value
): (name: string) => Value {
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

function candidatesOf(rules: RuleBook, opening: OpeningTakeoff, { id, by, between }: Pick): Value[] {
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
function bruteForce(rules: RuleBook, opening: OpeningTakeoff, pick: Pick): Value {
	if (pick.when && opening.get(pick.when) !== 1) return null;
	const list = candidatesOf(rules, opening, pick);
	const first = (flag: string): Value =>
		list.find((candidate) => withCandidate(rules, opening, pick, candidate)(flag) === 1) ?? null;
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
	const rows = fc
		.sample(openings, { numRuns: 120, seed: 72 })
		.map((typed, i) => typedRow({ ...openingA, ...typed, mark: `M${String(i)}` }));
	const computedBy = (engine: Engine): OpeningTakeoff[] =>
		engine.takeoff(rows, 'imperial').openings.filter((opening) => opening.computed);
	const engine = engineOf();
	const { rules } = engine;
	const computed = computedBy(engine);

	it.each(picks.map((pick) => [pick.id, pick] as const))('%s', (id, pick) => {
		const found = computed.map((opening) => [opening.mark, opening.get(id)]);
		expect(found).toEqual(computed.map((opening) => [opening.mark, bruteForce(rules, opening, pick)]));
		// More than one answer came up, so the comparison is not idle.
		expect(new Set(found.map(([, value]) => value)).size).toBeGreaterThan(1);
	});

	it.each(['Left', 'Right'] as const)('the fewest on a guide whose use is within 1: %s', (side) => {
		const pick = picks.find(({ id }) => id === `anchorsPerGuide${side}`);
		if (!pick) throw new Error('no such pick');
		let more = 0;
		for (const opening of computed) {
			const counts = candidatesOf(rules, opening, pick);
			const held = counts.find((count) => {
				const use = withCandidate(rules, opening, pick, count)(`useGuide${side}`);
				return typeof use === 'number' && use <= 1 + 1e-9;
			});
			expect([opening.mark, opening.get(pick.id)]).toEqual([opening.mark, held ?? counts[0]]);
			if (held !== undefined && held !== counts[0]) more += 1;
			const stopped = opening.checks.some(({ code }) => code === `guideDoesNotHold${side}`);
			if (held !== undefined) expect(stopped).toBe(false);
			else if (opening.get(`useGuide${side}`) !== null) expect(stopped).toBe(true);
		}
		expect(more).toBeGreaterThan(10);
	});

	it('the hole pattern with the fewest columns that both brackets hold by, motors stalling at 1 to 8 times their torque', () => {
		const pick = picks.find(({ id }) => id === 'holePattern');
		if (!pick) throw new Error('no such pick');
		const more = new Set<string>();
		for (const times of [1, 2, 3, 4, 6, 8]) {
			const stalling = engineOf({
				...book,
				drives: book.drives.map((row) => ({ ...row, stallTorque: String(Number(row.torque) * times) }))
			});
			for (const opening of computedBy(stalling)) {
				const patterns = candidatesOf(stalling.rules, opening, pick).filter((pattern) => {
					const value = withCandidate(stalling.rules, opening, pick, pattern);
					const anchors = 2 * Number(value('holePattern.columns'));
					return (
						anchors >= Number(value('bracket.anchors')) && anchors <= Number(value('bracket.mostAnchors'))
					);
				});
				const held = patterns.find((pattern) =>
					['useBracketLeft', 'useBracketRight'].every((id) => {
						const use = withCandidate(stalling.rules, opening, pick, pattern)(id);
						return typeof use === 'number' && use <= 1 + 1e-9;
					})
				);
				if (held === undefined) continue;
				expect([times, opening.mark, opening.get('holePattern')]).toEqual([times, opening.mark, held]);
				if (held !== patterns[0]) more.add(`${String(times)} ${opening.mark}`);
			}
		}
		expect(more.size).toBeGreaterThan(10);
	});
});
