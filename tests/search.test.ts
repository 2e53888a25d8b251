/**
 * The search against brute force: every pipe, bracket and drive of a random book tried with arithmetic written out by
 * hand (`bench/straight-line.ts`, which knows nothing of the rule book), for random openings. Random data, invented.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoTechnicalBook } from '../src/lib/shopbook/demo/demo-book.ts';
import type { TechnicalBook } from '../src/lib/shopbook/schema.ts';
import { straightLine, written, type Columns, type Written } from './bench/straight-line.ts';
import { engineOf, openingA, typedRow, type Typed } from './opening-rows.ts';

const decimal = (least: number, most: number): fc.Arbitrary<string> =>
	fc.integer({ min: least * 1000, max: most * 1000 }).map((n) => (n / 1000).toFixed(3));

const [barrel] = demoTechnicalBook.barrels;
const [bracket] = demoTechnicalBook.brackets;
const [drive] = demoTechnicalBook.drives;
if (!barrel || !bracket || !drive) throw new Error('the demo book has no rows');

const distinct = <T extends { key: string }>(rows: readonly T[]): T[] =>
	rows.map((row, i) => ({ ...row, key: `${String(i)}-row` }));

const books: fc.Arbitrary<TechnicalBook> = fc
	.record({
		barrels: fc.array(
			fc.record({
				outsideDiameter: decimal(2, 10),
				bore: decimal(1, 9),
				weight: decimal(2, 15),
				secondMoment: decimal(1, 60),
				yieldStress: decimal(2, 40)
			}),
			{ minLength: 1, maxLength: 6 }
		),
		brackets: fc.array(fc.record({ size: decimal(8, 26) }), { minLength: 1, maxLength: 7 }),
		drives: fc.array(
			fc.record({
				leastBore: decimal(1, 5),
				torque: decimal(10, 260),
				turns: decimal(2, 12),
				thermalMinutes: decimal(1, 5)
			}),
			{
				minLength: 1,
				maxLength: 6
			}
		)
	})
	.map(({ barrels, brackets, drives }) => ({
		...demoTechnicalBook,
		barrels: distinct(barrels.map((row) => ({ ...barrel, ...row }))),
		brackets: distinct(brackets.map((row) => ({ ...bracket, ...row }))),
		drives: distinct(drives.map((row) => ({ ...drive, ...row })))
	}));

const openings: fc.Arbitrary<Typed> = fc.record({
	openingWidth: fc.integer({ min: 30, max: 380 }).map((n) => `${String(n)}"`),
	openingHeight: fc.integer({ min: 24, max: 200 }).map((n) => `${String(n)} 3/8"`),
	curtain: fc.constantFrom(...demoTechnicalBook.curtains.map(({ key }) => key)),
	guide: fc.constantFrom('counter-face', 'store-face'),
	operation: fc.constantFrom('tubeMotor', 'tubeMotor', 'tubeMotor', 'pushUp')
});

/**
 * Whether springs of the book hold, written out by hand: Shigley's Mechanical Engineering Design, section 10-12, fitted at
 * both ends of the travel. Inches, pounds, kips per square inch.
 */
function springsFit(
	book: TechnicalBook,
	bore: number,
	closed: number,
	open: number,
	turns: number,
	span: number
): boolean {
	const k = book.constants;
	if (!(open >= 0 && closed > open)) return false;
	const rate = (closed - open) / turns;
	const wound = closed / rate;
	const across = bore - 2 * Number(k.springClearance);
	return book.springWires.some(({ diameter, material }) => {
		const d = Number(diameter);
		const steel = book.springMaterials.find(({ key }) => key === material);
		if (!steel || across <= 2 * d) return false;
		const mean = across - d;
		const c = mean / d;
		const strength = Number(steel.strength) / d ** Number(steel.exponent);
		return Array.from({ length: Number(k.mostSprings) }, (_, i) => i + 1).some((count) => {
			const curvature = (4 * c * c - c - 1) / (4 * c * (c - 1));
			const stress = (curvature * 32 * closed) / count / (Math.PI * d ** 3) / 1000;
			const half = (0.53 * strength) / 2;
			const endurance = half / (1 - (half / strength) ** 2);
			const line = (closed - open) / (closed + open);
			const amplitude = (stress * (closed - open)) / (2 * closed);
			const allowed =
				((line * strength) ** 2 / (2 * endurance)) *
				(-1 + Math.sqrt(1 + ((2 * endurance) / (line * strength)) ** 2));
			const active = (d ** 4 * Number(steel.elasticModulus) * 1000 * count) / (10.8 * mean * rate);
			const length = count * (active + 1 + wound) * d + 2 * Number(k.springEndAllowance);
			const inside = (mean * active) / (active + wound) - d;
			return (
				c >= 4 - 1e-9 &&
				c <= 16 + 1e-9 &&
				stress <= 0.78 * strength + 1e-9 &&
				allowed / amplitude >= Number(k.springFatigueFactor) - 1e-9 &&
				length <= span + 1e-9 &&
				inside >= Number(k.springShaft) - 1e-9
			);
		});
	});
}

/** All combinations in the order of the search: pipes by weight, brackets by size, drives by torque. */
function bruteForce(book: TechnicalBook, typed: Typed): string {
	const by = (rows: readonly object[], id: string): number[] =>
		rows
			.map((_, i) => i)
			.sort(
				(a, b) =>
					Number((rows[a] as Record<string, string>)[id]) - Number((rows[b] as Record<string, string>)[id])
			);
	const motor = typed.operation === 'tubeMotor';
	const drives = motor ? by(book.drives, 'torque') : [book.drives.length];
	const combinations = by(book.barrels, 'weight').flatMap((pipe) =>
		by(book.brackets, 'size').flatMap((size) => drives.map((motorRow) => [pipe, size, motorRow] as const))
	);
	const count = combinations.length;
	const all = (value: number): Float64Array => new Float64Array(count).fill(value);
	const index = (rows: readonly { key: string }[], key: string | undefined): number =>
		rows.findIndex((row) => row.key === key);
	const guide = index(book.guides, typed.guide);
	const block = index(book.substrates, 'groutedBlock');
	const columns: Columns = {
		count,
		openingWidth: all(Number.parseFloat(typed.openingWidth ?? '')),
		openingHeight: all(Number.parseFloat(typed.openingHeight ?? '') + 0.375),
		sillHeight: all(0),
		curtain: all(index(book.curtains, typed.curtain)),
		guideLeft: all(guide),
		guideRight: all(guide),
		substrateLeft: all(block),
		substrateRight: all(block),
		hood: all(0),
		operation: all(index(book.operators, typed.operation)),
		driveAt: all(0),
		faceLeft: all(1),
		faceRight: all(1),
		exterior: all(0),
		barrel: Float64Array.from(combinations, ([pipe]) => pipe),
		bracket: Float64Array.from(combinations, ([, size]) => size),
		drive: Float64Array.from(combinations, ([, , motorRow]) => motorRow),
		holesLeft: all(0),
		holesRight: all(0)
	};
	const out = Object.fromEntries(written.map((id) => [id, new Float64Array(count)])) as Record<
		Written,
		Float64Array
	>;
	straightLine(book)(columns, out);
	const at = (id: Written, i: number): number => out[id][i] ?? Number.NaN;
	const passes = ([pipe, , motorRow]: readonly [number, number, number], i: number): boolean => {
		const tube = book.drives[motorRow];
		const running =
			(Number(book.constants.cyclesWithoutRest) * 2 * at('driveTurns', i)) / Number(tube?.speed);
		return (
			at('bracketSize', i) >= at('bracketNeeded', i) - 1e-9 &&
			at('barrelDeflection', i) <= at('deflectionLimit', i) + 1e-9 &&
			at('barrelStress', i) <= at('stressLimit', i) + 1e-9 &&
			(!motor ||
				(tube !== undefined &&
					Number(tube.leastBore) <= Number(book.barrels[pipe]?.bore) &&
					Number(tube.torque) >= at('requiredTorque', i) / 12 - 1e-9 &&
					Number(tube.turns) >= at('driveTurns', i) - 1e-9 &&
					Number(tube.thermalMinutes) >= running - 1e-9))
		);
	};
	// By hand the first that springs fit in; where none takes springs, the first that passes the rest.
	const withSprings = motor
		? -1
		: combinations.findIndex(
				(combination, i) =>
					passes(combination, i) &&
					springsFit(
						book,
						Number(book.barrels[combination[0]]?.bore),
						at('closedTorque', i),
						at('openTorque', i),
						at('driveTurns', i),
						at('guideDistance', i) + 2 * Number(book.guides[guide]?.offset)
					)
			);
	const choice = combinations[withSprings >= 0 ? withSprings : combinations.findIndex(passes)];
	if (!choice) return 'none passes';
	const [pipe, size, motorRow] = choice;
	return [
		book.barrels[pipe]?.key,
		book.brackets[size]?.key,
		motor ? book.drives[motorRow]?.key : 'none'
	].join(' ');
}

describe('the search', () => {
	it('finds what brute force finds: 100 random books, 20 random openings each', () => {
		const seen = new Set<string>();
		fc.assert(
			fc.property(books, fc.array(openings, { minLength: 20, maxLength: 20 }), (book, list) => {
				const engine = engineOf(book);
				const rows = list.map((typed, i) =>
					typedRow(
						{ ...openingA, ...typed, mark: `M${String(i)}`, leftSubstrate: 'groutedBlock' },
						'imperial',
						book
					)
				);
				engine.takeoff(rows, 'imperial').openings.forEach((opening, i) => {
					const typed = list[i];
					if (!typed) throw new Error('no opening');
					const found = opening.computed
						? [opening.get('barrel'), opening.get('bracket'), opening.get('drive')].join(' ')
						: 'none passes';
					expect([typed, found]).toEqual([typed, bruteForce(book, typed)]);
					seen.add(found === 'none passes' ? found : 'found');
				});
			}),
			{ numRuns: 100 }
		);
		// Both outcomes came up, so neither half of the comparison is idle.
		expect(seen).toEqual(new Set(['found', 'none passes']));
	});

	it('says what failed on the best try when nothing passes', () => {
		const engine = engineOf({ ...demoTechnicalBook, drives: demoTechnicalBook.drives.slice(0, 1) });
		const [opening] = engine.takeoff(
			[typedRow({ ...openingA, openingHeight: `8'-0"` })],
			'imperial'
		).openings;
		const stop = opening?.checks.find(({ code }) => code === 'nothingPasses');
		expect(stop?.text).toMatch(
			/Best try: barrel .*, bracket .*, drive tube-20: torque 20\.00 lb-ft is less than torque needed/u
		);
	});
});
