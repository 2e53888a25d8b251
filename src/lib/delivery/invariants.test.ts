/** What must hold for any packing list. */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareDelivery, type Comparison, type DeliveryList } from './compare.ts';
import { lineStates, type PackingLine } from './line.ts';
import type { DecidedLine, LineDecision } from './line-decision.ts';
import { inches, mark, opening, packed } from './sample-parts.ts';

const parts = [
	...mark('S-201', 2),
	...opening('S-201.3', { length: 116 }),
	...mark('S-202', 2, { driveAt: 'left' })
];

const ids = parts.map(({ partId }) => partId);
const descriptions = [
	...parts.map(({ title }) => title),
	'Guides',
	'Brackets',
	'Brackets, pair',
	'Hood and supports',
	'wedge anchors 3/8 x 3 3/4',
	'Hardware',
	'Bracket 18',
	'Guide LH S-202',
	''
];

const someLine: fc.Arbitrary<PackingLine> = fc
	.record({
		partId: fc.option(fc.constantFrom(...ids, 'NS-1', 'S-2O1.1/barrel/4.5'), { freq: 2 }),
		mark: fc.option(fc.constantFrom('S-201', 'S-202', 'S-201.1', 's202', 'S-2O1', 'C-199'), { freq: 8 }),
		description: fc.constantFrom(...descriptions),
		quantity: fc.option(fc.constantFrom(0, 1, 2, 3, 4, 5, 0.5, 2.25, -1, NaN), { freq: 12 }),
		unit: fc.option(fc.constantFrom('each', 'PR', 'tube', 'box'), { freq: 2 }),
		length: fc.option(fc.constantFrom(110, 116, 199, 100.5, 42).map(inches), { freq: 1 }),
		hand: fc.option(fc.constantFrom('left' as const, 'right' as const), { freq: 1 }),
		finish: fc.option(fc.constantFrom('Powder graphite', 'mill'), { freq: 1 }),
		remark: fc.option(
			fc.constantFrom(
				'1 damaged',
				'damaged',
				'B/O',
				'1 to follow',
				'one missing',
				'wrong part',
				'handle with care'
			),
			{ freq: 1 }
		)
	})
	.map((fields) => packed(fields));

const someLines = fc.array(someLine, { maxLength: 8 });

const listsOf = (...trucks: readonly (readonly PackingLine[])[]): DeliveryList[] =>
	trucks.map((lines, index) => ({
		deliveryId: `truck-${index}`,
		name: `Truck ${index}`,
		// Whether a list is ours, came before, or is seen from the other side is told by what else is on it; here a person said so.
		answers: { isOurs: true, isAnotherTruck: true, handsFrom: 'coilSide' as const },
		lines: lines.map((line, at) => ({ ...line, line: at + 1 }))
	}));

const sum = (texts: readonly string[]): string =>
	texts.reduce((all, text) => all.plus(text), new Decimal(0)).toFixed();

const received = (comparison: Comparison): string[] => comparison.parts.map((one) => one.received);

describe('any packing list', () => {
	it('has every line in exactly one state, and its quantity accounted for', () => {
		fc.assert(
			fc.property(someLines, someLines, (first, second) => {
				const lists = listsOf(first, second);
				const { lines } = compareDelivery(parts, lists);
				const read = lists.flatMap((list) => list.lines.map((line) => ({ id: list.deliveryId, line })));
				expect(lines.slice(0, read.length).map(({ deliveryId, line }) => [deliveryId, line])).toEqual(
					read.map(({ id, line }) => [id, line.line])
				);
				expect(lines.slice(read.length).every(({ state }) => state === 'notListed')).toBe(true);
				lines.forEach(({ state, amounts }, index) => {
					expect(lineStates).toContain(state);
					const { listed, ...others } = amounts;
					expect(sum(Object.values(others))).toBe(listed);
					const line = read[index]?.line;
					if (!line) return;
					const quantity = line.quantity !== null && line.quantity >= 0 ? line.quantity : 0;
					const backorder = line.remark === 'B/O' || line.remark === '1 to follow';
					const inPairs = line.unit === 'PR' || line.description === 'Brackets, pair';
					if (!backorder && !inPairs) expect(listed).toBe(new Decimal(quantity).toFixed());
				});
			}),
			{ numRuns: 200 }
		);
	});

	it('gives to parts what its lines say is here, and never more than ordered', () => {
		fc.assert(
			fc.property(someLines, (some) => {
				const comparison = compareDelivery(parts, listsOf(some));
				expect(sum(received(comparison))).toBe(sum(comparison.lines.map(({ amounts }) => amounts.here)));
				expect(sum(comparison.parts.map(({ over }) => over))).toBe(
					sum(comparison.lines.map(({ amounts }) => amounts.over))
				);
				for (const one of comparison.parts) expect(new Decimal(one.received).lte(one.ordered)).toBe(true);
			}),
			{ numRuns: 200 }
		);
	});

	it('gives the same to every part whatever the order of its lines', () => {
		const shuffled = someLines.chain((lines) =>
			fc.tuple(
				fc.constant(lines),
				fc.shuffledSubarray(lines, { minLength: lines.length }),
				fc.nat(lines.length)
			)
		);
		fc.assert(
			fc.property(shuffled, ([lines, other, cut]) => {
				const together = received(compareDelivery(parts, listsOf(lines)));
				expect(received(compareDelivery(parts, listsOf(other)))).toEqual(together);
				expect(received(compareDelivery(parts, listsOf(other.slice(0, cut), other.slice(cut))))).toEqual(
					together
				);
			}),
			{ numRuns: 150 }
		);
	});

	it('never makes a part less received by one line more', () => {
		fc.assert(
			fc.property(someLines, someLine, fc.nat(8), (lines, more, at) => {
				const before = received(compareDelivery(parts, listsOf(lines)));
				const after = received(
					compareDelivery(parts, listsOf([...lines.slice(0, at), more, ...lines.slice(at)]))
				);
				after.forEach((amount, index) => expect(new Decimal(amount).gte(before[index] ?? '0')).toBe(true));
			}),
			{ numRuns: 200 }
		);
	});

	it('is clear exactly where nothing that holds is short', () => {
		fc.assert(
			fc.property(someLines, (some) => {
				const comparison = compareDelivery(parts, listsOf(some));
				for (const { openingId, clear, tasks } of comparison.openings) {
					const short = comparison.parts.filter(
						(one) =>
							one.openingId === openingId &&
							new Decimal(one.received).lt(one.ordered) &&
							(one.supply === 'maker' || one.state !== 'notListed')
					);
					expect(clear).toBe(short.length === 0);
					expect(tasks.flatMap(({ holds }) => holds)).toHaveLength(short.length);
					for (const task of tasks) expect(task.clear).toBe(task.holds.length === 0);
				}
			}),
			{ numRuns: 200 }
		);
	});

	it('with any text in it neither fails nor counts by halves', () => {
		const text = fc.oneof(
			fc.string({ unit: 'grapheme', maxLength: 60 }),
			fc.string({ unit: 'binary', maxLength: 60 })
		);
		fc.assert(
			fc.property(
				fc.record({
					partId: text,
					mark: text,
					description: text,
					unit: text,
					size: text,
					finish: text,
					remark: text
				}),
				fc.double(),
				(fields, quantity) => {
					const comparison = compareDelivery(parts, listsOf([packed({ ...fields, quantity })]));
					expect(JSON.stringify(comparison)).not.toMatch(/NaN|Infinity|undefined/u);
				}
			),
			{ numRuns: 200 }
		);
	});

	it('is as before when a decision is taken back, and counts nothing twice while it stands', () => {
		const decision = fc.oneof<fc.Arbitrary<LineDecision>[]>(
			fc.subarray(ids, { minLength: 1, maxLength: 4 }).map((partIds) => ({ kind: 'means', partIds })),
			fc
				.subarray(ids, { minLength: 1, maxLength: 3 })
				.map((partIds) => ({ kind: 'opens', contents: [{ partIds, quantity: '2.5' }] })),
			fc
				.subarray(ids, { minLength: 1, maxLength: 3 })
				.map((partIds) => ({ kind: 'substitutes', partIds, reason: 'as good' })),
			fc.constant({ kind: 'notOurs', reason: 'elsewhere' }),
			fc.constant({ kind: 'repeats', deliveryId: 'truck-0', line: 1 }),
			fc.constant({ kind: 'reads', fields: { mark: 'S-201', description: 'Barrel' } })
		);
		fc.assert(
			fc.property(someLines, fc.array(fc.tuple(fc.nat(7), decision), { maxLength: 4 }), (some, made) => {
				const lists = listsOf(some);
				const decisions = made.map(([at, one]): DecidedLine => {
					return {
						deliveryId: 'truck-0',
						line: at + 1,
						decision: one,
						by: 'somebody',
						at: '2026-12-01T08:00:00Z'
					};
				});
				const before = JSON.stringify(compareDelivery(parts, lists));
				const decided = compareDelivery(parts, lists, { decisions });
				expect(JSON.stringify(compareDelivery(parts, lists, { decisions: [] }))).toBe(before);
				expect(sum(received(decided))).toBe(sum(decided.lines.map(({ amounts }) => amounts.here)));
				for (const one of decided.parts) expect(new Decimal(one.received).lte(one.ordered)).toBe(true);
				for (const { amounts } of decided.lines) {
					const { listed, ...others } = amounts;
					expect(sum(Object.values(others))).toBe(listed);
				}
			}),
			{ numRuns: 150 }
		);
	});

	it('counts nothing of a line that is asked about, unless it is known what it is in place of', () => {
		fc.assert(
			fc.property(someLines, someLines, (first, second) => {
				const lists = listsOf(first, second).map((list): DeliveryList => ({ ...list, answers: {} }));
				for (const { asked, amounts, reach } of compareDelivery(parts, lists).lines)
					if (asked && reach === null)
						expect([amounts.here, amounts.over, amounts.damaged, amounts.wrong]).toEqual([
							'0',
							'0',
							'0',
							'0'
						]);
			}),
			{ numRuns: 150 }
		);
	});
});
