/** What must hold for any opening. Random openings with the demo shop book (invented). */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unit } from '../src/lib/quantity/units.ts';
import { demoTechnicalBook as book } from '../src/lib/shopbook/demo/demo-book.ts';
import { substrates } from '../src/lib/shopbook/words.ts';
import { inputs, type InputId, type OpeningRow } from '../src/lib/takeoff/inputs.ts';
import { takeoffReport, takeoffReportSchema } from '../src/lib/takeoff/report.ts';
import type { OpeningTakeoff } from '../src/lib/takeoff/result.ts';
import { totalsOf } from '../src/lib/takeoff/totals.ts';
import { engineOf, openingA, pricingOf, typedRow, type Typed } from './opening-rows.ts';

const engine = engineOf();
const pricing = pricingOf(engine);
const keys = (rows: readonly { key: string }[]): fc.Arbitrary<string> =>
	fc.constantFrom(...rows.map(({ key }) => key));
const inches = (least: number, most: number): fc.Arbitrary<string> =>
	fc
		.integer({ min: least * 16, max: most * 16 })
		.map((n) => `${String(Math.floor(n / 16))} ${String(n % 16)}/16"`);
const maybe = (text: fc.Arbitrary<string>): fc.Arbitrary<string> => fc.oneof(text, fc.constant(''));
/** Sizes of the trade, and from half a foot to sixty feet; one in four in millimetres. */
const size = (least: number, most: number): fc.Arbitrary<string> =>
	fc.oneof(
		{ weight: 4, arbitrary: inches(least, most) },
		{ weight: 2, arbitrary: inches(6, 720) },
		{ weight: 2, arbitrary: fc.integer({ min: 153, max: most * 25 }).map((n) => `${String(n)} mm`) }
	);

const openings: fc.Arbitrary<Typed> = fc.record({
	quantity: fc.constantFrom('1', '2', '7'),
	phase: fc.constantFrom('', 'P1', 'P2'),
	openingWidth: size(30, 300),
	openingHeight: size(24, 180),
	floorBuildUp: maybe(inches(0, 4)),
	finish: maybe(keys(book.finishes)),
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
	rightSideRoom: maybe(inches(0, 20)),
	frontRoom: maybe(inches(0, 30)),
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

/** One row in ten lacks something that it can’t do without. */
const required = inputs.flatMap(({ id, required: asked }) =>
	asked && id !== 'mark' && id !== 'quantity' ? [id] : []
);
const rowsAsTyped: fc.Arbitrary<Typed> = fc
	.tuple(openings, fc.integer({ min: 0, max: 9 }), fc.constantFrom<InputId>(...required))
	.map(([typed, chance, missing]) => (chance === 0 ? { ...typed, [missing]: '' } : typed));

/** Faults of a sweep: what is wrong, and the first row it is wrong in. */
class Faults {
	readonly #first = new Map<string, string>();
	add(what: string, typed: unknown): void {
		if (!this.#first.has(what)) this.#first.set(what, JSON.stringify(typed));
	}
	get all(): readonly (readonly [string, string])[] {
		return [...this.#first];
	}
}

/** Everything in a value, however deep: numbers that are none, and what JSON would drop. */
function holes(value: unknown, at = ''): string[] {
	if (value === undefined) return [`${at} is undefined`];
	if (typeof value === 'number' && !Number.isFinite(value)) return [`${at} is ${String(value)}`];
	if (typeof value === 'string') return hole.test(value) ? [`${at} says “${value}”`] : [];
	if (Array.isArray(value)) return value.flatMap((one) => holes(one, `${at}[]`));
	if (typeof value === 'object' && value !== null)
		return Object.entries(value).flatMap(([key, one]) => holes(one, `${at}.${key}`));
	return [];
}
const hole = /NaN|Infinity|undefined|null|not known|\{/u;

/** In jobs of `size` rows, every other one in metric measures. */
function* jobsOf(rows: readonly OpeningRow[], jobSize: number) {
	for (let from = 0; from < rows.length; from += jobSize) {
		const measures = (from / jobSize) % 2 === 0 ? ('imperial' as const) : ('metric' as const);
		yield { from, job: engine.takeoff(rows.slice(from, from + jobSize), measures) };
	}
}

const rowsFrom = (list: readonly Typed[]): OpeningRow[] =>
	list.map((typed, i) => typedRow({ ...openingA, ...typed, mark: `M${String(i)}` }));

describe('any opening', () => {
	const list = fc.sample(rowsAsTyped, { numRuns: 20_000, seed: 20_261 });
	const rows = rowsFrom(list);

	it('20,000 of them: figures or nothing, never NaN, Infinity or a silent zero, and sentences without holes', () => {
		const faults = new Faults();
		const raised = new Set<string>();
		const look = (opening: OpeningTakeoff, typed: Typed | undefined): void => {
			const fault = (what: string): void => {
				faults.add(what, typed);
			};
			for (const { id } of engine.quantities) {
				const value = opening.get(id);
				if (typeof value === 'number' && !Number.isFinite(value)) fault(`${id} is ${String(value)}`);
			}
			for (const { code, text, clears } of opening.checks) {
				raised.add(code);
				const found = hole.exec(`${text} ${clears}`);
				if (found) fault(`${code} says “${found[0]}”`);
			}
			const stopped = new Set(
				opening.checks.flatMap(({ severity, code }) => (severity === 'stop' ? [code] : []))
			);
			if (!opening.computed) {
				if (stopped.size === 0) fault('not computed, and no stop');
				for (const id of ['barrel', 'anchorTotal', 'modeBracketLeft', 'labourHours'])
					if (opening.get(id) !== null) fault(`${id} of what is not computed`);
				return;
			}
			for (const id of neverZero) if (!(number(opening, id) > 0)) fault(`${id} is not more than 0`);
			for (const side of ['Left', 'Right'] as const)
				for (const place of ['Guide', 'Bracket'] as const) {
					const use = opening.get(`use${place}${side}`);
					const load =
						number(opening, 'anchorTotal') > 0 &&
						(opening.get(`tension${place}${side}`) !== null || opening.get(`shear${place}${side}`) !== null);
					if (use === null && load && !holdsUp(stopped, side)) fault(`no use of the ${place} and no stop`);
					if (typeof use !== 'number') continue;
					if (!(use > 0)) fault(`use of the ${place} is ${String(use)}`);
					const stop = `${place.toLowerCase()}DoesNotHold${side}`;
					if (use > 1 + 1e-9 && !stopped.has(stop)) fault(`use of the ${place} over 1 and no stop`);
					if (use <= 1 && stopped.has(stop)) fault(`use of the ${place} within 1 and a stop`);
					if (opening.get(`mode${place}${side}`) === null) fault(`nothing governs the ${place}`);
				}
			if (opening.get('operation') !== 'tubeMotor') {
				const force = opening.get('handForce');
				if (force === null && !stopped.has('springsCannotBalance') && !stopped.has('springFitsNowhere'))
					fault('no hand force and no stop');
			}
		};
		for (const { from, job } of jobsOf(rows, 1000))
			job.openings.forEach((opening, i) => {
				look(opening, list[from + i]);
			});
		expect(faults.all).toEqual([]);
		// The hard cases came up, so the sweep is not idle.
		for (const code of mustComeUp) expect([...raised], code).toContain(code);
	}, 120_000);

	it('the same in totals: whole, and no item without its amounts', () => {
		const faults = new Faults();
		for (const { from, job } of jobsOf(rows, 1000)) {
			const totals = totalsOf(engine, job);
			for (const what of holes(totals, 'totals')) faults.add(what, from);
			const computed = job.openings.filter((opening) => opening.computed);
			const count = (items: readonly { count: number }[]): number =>
				items.reduce((sum, item) => sum + item.count, 0);
			const doors = computed.reduce((sum, opening) => sum + opening.quantity, 0);
			// One curtain, one pipe and one pair of brackets for each door, two guides.
			for (const items of [totals.curtains, totals.barrels, totals.bracketPairs])
				if (count(items) !== doors) faults.add(`${String(count(items))} of ${String(doors)}`, from);
			if (count(totals.guides) !== 2 * doors) faults.add('guides', from);
			if (totals.notComputed.length !== job.openings.length - computed.length)
				faults.add('not computed', from);
		}
		expect(faults.all).toEqual([]);
	}, 60_000);

	it('the same in the price: a mark has every line and a price above 0, or none and is named', () => {
		const faults = new Faults();
		for (const { from, job } of jobsOf(rows.slice(0, 4000), 500)) {
			const price = pricing.price(job);
			for (const what of holes(price, 'price')) if (!what.endsWith('amounts is null')) faults.add(what, from);
			const unpriced = new Set(price.notPriced);
			price.marks.forEach(({ mark, amounts }, i) => {
				if ((amounts === null) !== unpriced.has(mark)) faults.add('no price and not named', list[from + i]);
				if (amounts === null) return;
				for (const { id } of price.lines) {
					const text = amounts[id] ?? 'missing';
					// Only rounding to the step of the price may take something off.
					if (!(id === 'rounding' ? /^-?\d+\.\d\d$/u : /^\d+\.\d\d$/u).test(text))
						faults.add(`${id} is ${text}`, list[from + i]);
				}
				for (const id of ['materialCost', 'price'])
					if (!(Number(amounts[id]) > 0)) faults.add(`${id} is nothing`, list[from + i]);
			});
		}
		expect(faults.all).toEqual([]);
	}, 60_000);

	it('the same in the report: it fits its schema', () => {
		const faults = new Faults();
		for (const { from, job } of jobsOf(rows.slice(0, 600), 30)) {
			const report = takeoffReport(engine, job);
			for (const what of holes(report, 'report')) faults.add(what, from);
			expect(takeoffReportSchema.safeParse(JSON.parse(JSON.stringify(report))).error).toBeUndefined();
		}
		expect(faults.all).toEqual([]);
	}, 60_000);

	it('the working of every quantity comes to the same figure, by another reading of its formula', () => {
		const faults = new Faults();
		for (const { from, job } of jobsOf(rows.slice(0, 60), 30))
			job.openings.forEach((opening, i) => {
				if (!opening.computed) return;
				for (const id of engine.rules.order) {
					const { value: shown, unit: text, steps } = engine.explain(opening, id, job.measures);
					const value = typeof shown === 'number' ? shown * unit(text).scale : shown;
					const kept = opening.get(id);
					const same =
						typeof value === 'number' && typeof kept === 'number'
							? Math.abs(value - kept) <= 1e-9 * Math.max(Math.abs(kept), unit(text).scale)
							: value === kept;
					if (!same) faults.add(`${id}: ${String(value)} and ${String(kept)}`, list[from + i]);
					for (const step of steps)
						if (/NaN|undefined/u.test(step)) faults.add(`${id}: ${step}`, list[from + i]);
				}
			});
		expect(faults.all).toEqual([]);
	}, 60_000);

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
