/** What must stay true however a job is put: heavier, wider, stronger, split, turned, typed in other units. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoTechnicalBook as book } from '../src/lib/shopbook/demo/demo-book.ts';
import type { TechnicalBook } from '../src/lib/shopbook/schema.ts';
import type { Engine } from '../src/lib/takeoff/engine.ts';
import type { OpeningTakeoff } from '../src/lib/takeoff/result.ts';
import { engineOf, openingA, typedRow, type Typed } from './opening-rows.ts';

const engine = engineOf();

const take = (one: Engine, typed: Typed): OpeningTakeoff => {
	const [opening] = one.takeoff([typedRow({ ...openingA, ...typed })], 'imperial').openings;
	if (!opening) throw new Error('no opening');
	return opening;
};

const number = (opening: OpeningTakeoff, id: string): number => {
	const value = opening.get(id);
	return typeof value === 'number' ? value : Number.NaN;
};

const walls = fc.constantFrom('concrete', 'groutedBlock', 'structuralSteel', 'studWithBacking', 'wood');

/** Openings on the face of the wall that anchors can be found for. */
const openings: fc.Arbitrary<Typed> = fc.record({
	openingWidth: fc.integer({ min: 36, max: 300 }).map((n) => `${String(n)} 5/16"`),
	openingHeight: fc.integer({ min: 30, max: 160 }).map((n) => `${String(n)}"`),
	curtain: fc.constantFrom(...book.curtains.map(({ key }) => key)),
	guide: fc.constantFrom('counter-face', 'store-face'),
	leftSubstrate: walls,
	rightSubstrate: walls,
	operation: fc.constantFrom('tubeMotor', 'chain', 'crank', 'pushUp'),
	driveSide: fc.constantFrom('left', 'right'),
	designPressure: fc.integer({ min: 5, max: 60 }).map((n) => `${String(n)} psf`),
	exposure: fc.constantFrom('interior', 'exterior')
});

const heavier = (factor: number): TechnicalBook => ({
	...book,
	curtains: book.curtains.map((row) => ({ ...row, weight: (Number(row.weight) * factor).toFixed(4) }))
});

describe('a heavier curtain', () => {
	const heavy = engineOf(heavier(1.25));
	const torqueOf = (opening: OpeningTakeoff): number => number(opening, 'drive.torque');

	it('never needs a smaller drive or a lighter pipe', () => {
		fc.assert(
			fc.property(openings, (typed) => {
				const [light, more] = [engine, heavy].map((one) => take(one, { ...typed, operation: 'tubeMotor' }));
				if (!light?.computed || !more?.computed) {
					// Where nothing carries the light one, nothing carries the heavy one.
					expect([light?.computed, more?.computed]).not.toEqual([false, true]);
					return;
				}
				expect(torqueOf(more)).toBeGreaterThanOrEqual(torqueOf(light));
				expect(number(more, 'barrel.weight')).toBeGreaterThanOrEqual(number(light, 'barrel.weight'));
				expect(number(more, 'requiredTorque')).toBeGreaterThan(number(light, 'requiredTorque'));
			}),
			{ numRuns: 300 }
		);
	});
});

describe('anchors', () => {
	const counts = (opening: OpeningTakeoff): number[] =>
		['anchorsPerGuideLeft', 'anchorsPerGuideRight', 'anchorsPerBracket'].map((id) => number(opening, id));
	const held = (opening: OpeningTakeoff): boolean =>
		!opening.checks.some(({ code }) => /DoesNotHold|capacityUnknown/u.test(code));

	it('wider spacing never gives more', () => {
		const spaced = (spacing: string): Engine =>
			engineOf({ ...book, substrates: book.substrates.map((row) => ({ ...row, anchorSpacing: spacing })) });
		const [close, wide] = [spaced('14'), spaced('22')];
		fc.assert(
			fc.property(openings, (typed) => {
				const [many, few] = [counts(take(close, typed)), counts(take(wide, typed))];
				few.forEach((n, i) => {
					if (Number.isFinite(n)) expect(n).toBeLessThanOrEqual(many[i] ?? Number.NaN);
				});
			}),
			{ numRuns: 200 }
		);
	});

	it('more pressure never gives fewer in a guide that holds', () => {
		fc.assert(
			fc.property(openings, fc.integer({ min: 1, max: 40 }), (typed, more) => {
				const before = take(engine, typed);
				const after = take(engine, {
					...typed,
					designPressure: `${String(Number.parseInt(typed.designPressure ?? '', 10) + more)} psf`
				});
				if (!before.computed || !held(before) || !held(after)) return;
				for (const side of ['Left', 'Right'])
					expect(number(after, `anchorsPerGuide${side}`)).toBeGreaterThanOrEqual(
						number(before, `anchorsPerGuide${side}`)
					);
			}),
			{ numRuns: 300 }
		);
	});

	it('stronger concrete or block never needs more', () => {
		fc.assert(
			fc.property(openings, fc.constantFrom('concrete', 'groutedBlock'), (typed, wall) => {
				const strong = (psi: string): OpeningTakeoff =>
					take(engine, { ...typed, leftSubstrate: wall, leftWallStrength: psi });
				const [weak, firm] = [strong('2000 psi'), strong('4000 psi')];
				if (!weak.computed || !held(weak)) return;
				expect(held(firm)).toBe(true);
				expect(number(firm, 'anchorsPerGuideLeft')).toBeLessThanOrEqual(number(weak, 'anchorsPerGuideLeft'));
				expect(number(firm, 'anchorsPerBracket')).toBeLessThanOrEqual(number(weak, 'anchorsPerBracket'));
			}),
			{ numRuns: 200 }
		);
	});

	it('are the fewest that hold: one less is against spacing or load', () => {
		let byLoad = 0;
		fc.assert(
			fc.property(openings, (typed) => {
				const opening = take(engine, typed);
				if (!opening.computed) return;
				for (const side of ['Left', 'Right']) {
					const count = number(opening, `anchorsPerGuide${side}`);
					const bySpacing = number(opening, `anchorsBySpacing${side}`);
					expect(count).toBeGreaterThanOrEqual(bySpacing);
					if (count === bySpacing) continue;
					byLoad += 1;
					// Tension by hand at one anchor less: the pitch grows to L/(n − 2), and the load with it.
					const steps = engine.explain(opening, `anchorsPerGuide${side}`, 'imperial').steps;
					expect(steps.at(-1)).toMatch(new RegExp(`^${String(count)}: .*passes; taken\\.$`, 'u'));
					expect(steps.at(-2)).toMatch(new RegExp(`^${String(count - 1)}: .*does not pass\\.$`, 'u'));
				}
			}),
			{ numRuns: 300 }
		);
		expect(byLoad).toBeGreaterThan(10);
	});
});

describe('a job', () => {
	const named = (list: readonly Typed[]) =>
		list.map((typed, i) => typedRow({ ...openingA, ...typed, mark: `M${String(i)}` }));

	it('split in two, or in another order, changes nothing of an opening', () => {
		fc.assert(
			fc.property(fc.array(openings, { minLength: 4, maxLength: 14 }), (list) => {
				const rows = named(list);
				const figures = (opening: OpeningTakeoff | undefined) =>
					engine.quantities.map(({ id }) => [id, opening?.get(id)]);
				const whole = engine.takeoff(rows, 'imperial').openings.map(figures);
				const middle = Math.floor(rows.length / 2);
				const halves = [rows.slice(0, middle), rows.slice(middle)].flatMap((half) =>
					engine.takeoff(half, 'imperial').openings.map(figures)
				);
				expect(halves).toEqual(whole);
				const turned = engine.takeoff(rows.toReversed(), 'imperial').openings.map(figures);
				expect(turned.toReversed()).toEqual(whole);
			}),
			{ numRuns: 40 }
		);
	});

	it('drawn from the far side with left and right changed over is the same job', () => {
		const other = { left: 'right', right: 'left' } as const;
		fc.assert(
			fc.property(openings, (typed) => {
				const near = take(engine, { ...typed, leftWallStrength: '3500 psi', rightWallThickness: '9 1/2"' });
				const far = take(engine, {
					...typed,
					drawnFrom: 'farSide',
					leftSubstrate: typed.rightSubstrate ?? '',
					rightSubstrate: typed.leftSubstrate ?? '',
					driveSide: other[typed.driveSide === 'right' ? 'right' : 'left'],
					rightWallStrength: '3500 psi',
					leftWallThickness: '9 1/2"'
				});
				for (const { id } of engine.quantities) expect([id, far.get(id)]).toEqual([id, near.get(id)]);
			}),
			{ numRuns: 100 }
		);
	});

	it('typed in millimetres, kPa and MPa is the same to twelve figures', () => {
		const [imperial, metric] = [
			take(engine, {
				openingWidth: '120"',
				openingHeight: '90"',
				designPressure: '20.8854342 psf',
				exposure: 'exterior',
				leftWallStrength: '3000 psi'
			}),
			take(engine, {
				openingWidth: '3048 mm',
				openingHeight: '2286 mm',
				// 1 psf = 47.88025898 Pa, 1 psi = 6894.757293 Pa (NIST SP 811, B.8)
				designPressure: '1 kPa',
				exposure: 'exterior',
				leftWallStrength: '20.684271879 MPa'
			})
		];
		for (const { id, kind } of engine.quantities) {
			const [a, b] = [imperial.get(id), metric.get(id)];
			if (typeof a !== 'number' || kind === 'flag') expect([id, b]).toEqual([id, a]);
			else expect(Math.abs(number(metric, id) - a)).toBeLessThanOrEqual(1e-8 * Math.abs(a));
		}
	});
});
