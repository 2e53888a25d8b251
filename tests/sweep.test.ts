/** What must hold for any opening. Random openings with the demo shop book (invented). */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoTechnicalBook as book } from '../src/lib/shopbook/demo/demo-book.ts';
import { substrates } from '../src/lib/shopbook/words.ts';
import type { OpeningTakeoff } from '../src/lib/takeoff/result.ts';
import { engineOf, openingA, typedRow, type Typed } from './opening-rows.ts';

const engine = engineOf();
const keys = (rows: readonly { key: string }[]): fc.Arbitrary<string> =>
	fc.constantFrom(...rows.map(({ key }) => key));
const inches = (least: number, most: number): fc.Arbitrary<string> =>
	fc
		.integer({ min: least * 16, max: most * 16 })
		.map((n) => `${String(Math.floor(n / 16))} ${String(n % 16)}/16"`);
const maybe = (text: fc.Arbitrary<string>): fc.Arbitrary<string> => fc.oneof(text, fc.constant(''));

const openings: fc.Arbitrary<Typed> = fc.record({
	openingWidth: inches(6, 420),
	openingHeight: inches(6, 240),
	sill: maybe(fc.constantFrom('counter', 'floor')),
	sillHeight: maybe(inches(0, 60)),
	curtain: keys(book.curtains),
	hood: fc.oneof(keys(book.hoods), fc.constant('none')),
	mounting: fc.constantFrom('faceOfWall', 'betweenJambs'),
	guide: keys(book.guides),
	rightMounting: maybe(fc.constantFrom('faceOfWall', 'betweenJambs')),
	rightGuide: maybe(keys(book.guides)),
	drawnFrom: maybe(fc.constantFrom('coilSide', 'farSide')),
	leftSubstrate: fc.constantFrom(...substrates),
	rightSubstrate: fc.constantFrom(...substrates),
	headSubstrate: maybe(fc.constantFrom(...substrates)),
	finishBuildUp: maybe(inches(0, 2)),
	fixing: keys(book.fixings),
	operation: keys(book.operators),
	driveSide: fc.constantFrom('left', 'right'),
	controls: maybe(keys(book.controls)),
	headroom: maybe(inches(0, 40)),
	leftSideRoom: maybe(inches(0, 20)),
	exposure: maybe(fc.constantFrom('interior', 'exterior')),
	designPressure: maybe(fc.integer({ min: 1, max: 3000 }).map((n) => `${String(n / 10)} psf`)),
	windlockPull: maybe(fc.integer({ min: 1, max: 2000 }).map((n) => `${String(n)} lb/ft`)),
	leftWallStrength: maybe(fc.integer({ min: 1, max: 90_000 }).map((n) => `${String(n)} psi`)),
	rightWallStrength: maybe(fc.integer({ min: 1, max: 90_000 }).map((n) => `${String(n)} psi`)),
	leftWallThickness: maybe(inches(1, 16)),
	rightWallThickness: maybe(inches(1, 16)),
	wallCondition: maybe(fc.constantFrom('cracked', 'uncracked')),
	supplyVoltage: maybe(fc.constantFrom('24 V', '115 V', '208 V', '230 V', '480 V')),
	feedLength: maybe(fc.integer({ min: 0, max: 900 }).map((n) => `${String(n)}'`)),
	drawingGuideDistance: maybe(inches(6, 420))
});

const take = (typed: Typed): OpeningTakeoff => {
	const [opening] = engine.takeoff([typedRow({ ...openingA, ...typed })], 'imperial').openings;
	if (!opening) throw new Error('no opening');
	return opening;
};

const number = (opening: OpeningTakeoff, id: string): number => {
	const value = opening.get(id);
	if (typeof value !== 'number') throw new Error(`${id} is ${String(value)}`);
	return value;
};

/** A computed opening where one of these is 0 has lost something. */
const neverZero = [
	'curtainWidth',
	'curtainRows',
	'curtainWeight',
	'barrelWeight',
	'coilWeight',
	'shippingWeight',
	'guideLength',
	'anchorsPerGuideLeft',
	'anchorsPerGuideRight',
	'anchorsPerBracket',
	'anchorTotal',
	'peakTorque',
	'driveTurns',
	'installerHours',
	'deadLoadLeft',
	'deadLoadRight'
] as const;

/** Stops that say why nothing is known of an anchor's capacity. */
const holdsUp = (stops: ReadonlySet<string>, side: 'Left' | 'Right'): boolean =>
	[`noAnchorForWall${side}`, `anchorNeedsReport${side}`, `capacityUnknown${side}`, 'pressureMissing'].some(
		(code) => stops.has(code)
	);

const mustComeUp = [
	'guideDoesNotHoldLeft',
	'bracketDoesNotHoldLeft',
	'edgeTooCloseLeft',
	'wallTooThinRight',
	'anchorNeedsReportLeft',
	'noAnchorForWallRight',
	'pressureMissing',
	'springFitsNowhere',
	'handForceTooMuch',
	'supplyNotInTable',
	'noConductor',
	'nothingPasses'
] as const;

describe('any opening', () => {
	it('20,000 of them: figures or nothing, never NaN, Infinity or a silent zero, and sentences without holes', () => {
		const list = fc.sample(openings, { numRuns: 20_000, seed: 20_261 });
		const rows = list.map((typed, i) => typedRow({ ...openingA, ...typed, mark: `M${String(i)}` }));
		const faults = new Map<string, string>();
		const fault = (what: string, i: number): void => {
			if (!faults.has(what)) faults.set(what, JSON.stringify(list[i]));
		};
		const raised = new Set<string>();
		engine.takeoff(rows, 'imperial').openings.forEach((opening, i) => {
			for (const { id } of engine.quantities) {
				const value = opening.get(id);
				if (typeof value === 'number' && !Number.isFinite(value)) fault(`${id} is ${String(value)}`, i);
			}
			for (const { code, text, clears } of opening.checks) {
				raised.add(code);
				const hole = /NaN|Infinity|undefined|null|not known|\{/u.exec(`${text} ${clears}`);
				if (hole) fault(`${code} says “${hole[0]}”`, i);
			}
			if (!opening.computed) return;
			const stopped = new Set(
				opening.checks.flatMap(({ severity, code }) => (severity === 'stop' ? [code] : []))
			);
			for (const id of neverZero) if (!(number(opening, id) > 0)) fault(`${id} is not more than 0`, i);
			for (const side of ['Left', 'Right'] as const)
				for (const place of ['Guide', 'Bracket'] as const) {
					const use = opening.get(`use${place}${side}`);
					const load =
						number(opening, 'anchorTotal') > 0 &&
						(opening.get(`tension${place}${side}`) !== null || opening.get(`shear${place}${side}`) !== null);
					if (use === null && load && !holdsUp(stopped, side)) fault(`no use of the ${place} and no stop`, i);
					if (typeof use !== 'number') continue;
					if (!(use > 0)) fault(`use of the ${place} is ${String(use)}`, i);
					const stop = `${place.toLowerCase()}DoesNotHold${side}`;
					if (use > 1 + 1e-9 && !stopped.has(stop)) fault(`use of the ${place} over 1 and no stop`, i);
					if (opening.get(`mode${place}${side}`) === null) fault(`nothing governs the ${place}`, i);
				}
			if (opening.get('operation') !== 'tubeMotor') {
				const force = opening.get('handForce');
				if (force === null && !stopped.has('springsCannotBalance') && !stopped.has('springFitsNowhere'))
					fault('no hand force and no stop', i);
			}
		});
		expect([...faults]).toEqual([]);
		// The hard cases came up, so the sweep is not idle.
		for (const code of mustComeUp) expect([...raised], code).toContain(code);
	}, 120_000);

	it('has its peak torque where a scan of the travel finds it', () => {
		fc.assert(
			fc.property(openings, (typed) => {
				const opening = take(typed);
				if (!opening.computed) return;
				const travel = number(opening, 'openingHeight');
				const run = number(opening, 'runWeight');
				const closed = number(opening, 'closedWeight');
				const wrap = number(opening, 'curtain.wrap');
				const first = number(opening, 'coilDiameterClosed');
				const torque = (s: number): number =>
					((closed - run * s) * Math.sqrt(first ** 2 + (4 * wrap * s) / Math.PI)) / 2;
				const scan = Math.max(...Array.from({ length: 2001 }, (_, i) => torque((travel * i) / 2000)));
				const peak = number(opening, 'peakTorque');
				expect(peak).toBeGreaterThanOrEqual(scan * (1 - 1e-9));
				expect(peak).toBeLessThanOrEqual(scan * (1 + 1e-5));
			}),
			{ numRuns: 300 }
		);
	});

	it('comes out the same whether it is typed in inches or in millimetres', () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 600, max: 8000 }),
				fc.integer({ min: 600, max: 4000 }),
				(width, height) => {
					const sizes = (openingWidth: string, openingHeight: string): Typed => ({
						openingWidth,
						openingHeight
					});
					// Tenths of a millimetre are exact in both: 25.4 mm to the inch.
					const metric = take(sizes(`${String(width)} mm`, `${String(height)} mm`));
					const metres = take(sizes(`${String(width / 1000)} m`, `${String(height / 10)} cm`));
					for (const { id } of engine.quantities) expect([id, metres.get(id)]).toEqual([id, metric.get(id)]);
				}
			),
			{ numRuns: 100 }
		);
	});

	it('does not depend on the job it stands in', () => {
		fc.assert(
			fc.property(fc.array(openings, { minLength: 2, maxLength: 12 }), (list) => {
				const rows = list.map((typed, i) => typedRow({ ...openingA, ...typed, mark: `M${String(i)}` }));
				const together = engine.takeoff(rows, 'imperial').openings;
				rows.forEach((row, i) => {
					const [alone] = engine.takeoff([row], 'imperial').openings;
					for (const { id } of engine.quantities)
						expect([id, together[i]?.get(id)]).toEqual([id, alone?.get(id)]);
				});
			}),
			{ numRuns: 60 }
		);
	});

	it('closer anchors are never fewer anchors', () => {
		const spaced = (spacing: string) =>
			engineOf({ ...book, substrates: book.substrates.map((row) => ({ ...row, anchorSpacing: spacing })) });
		const [wide, close] = [spaced('24'), spaced('15')];
		fc.assert(
			fc.property(openings, (typed) => {
				const row = typedRow({ ...openingA, ...typed });
				const count = (one: typeof wide): number => {
					const [opening] = one.takeoff([row], 'imperial').openings;
					return opening?.computed ? number(opening, 'guideAnchors') : 0;
				};
				expect(count(close)).toBeGreaterThanOrEqual(count(wide));
			}),
			{ numRuns: 200 }
		);
	});
});
