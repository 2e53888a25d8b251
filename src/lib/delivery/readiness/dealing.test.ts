import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	dealForMost,
	dealInOrder,
	type Dealing,
	type DealingInput,
	type KeyQuantity,
	type Need,
	type WantingOpening
} from './dealing.ts';

const tasks = ['guides', 'coil'] as const;

/** `wants('C-1', { guide: '2' })`: one need a key, for the guides. */
function wants(
	openingId: string,
	quantities: Readonly<Record<string, string>>,
	held = false
): WantingOpening {
	const needs = Object.entries(quantities).map(([interchangeKey, quantity]): Need => ({
		partId: `${openingId}/${interchangeKey}`,
		interchangeKey,
		task: 'guides',
		quantity
	}));
	return { openingId, needs, held };
}

const here = (quantities: Readonly<Record<string, string>>): KeyQuantity[] =>
	Object.entries(quantities).map(([interchangeKey, quantity]) => ({ interchangeKey, quantity }));

const clearOf = ({ openings }: Dealing): string[] =>
	openings.filter(({ clear }) => clear).map(({ openingId }) => openingId);

const keys = ['guide', 'bracket', 'barrel', 'drive'];

/** Small enough that every set of openings can be tried: up to nine openings, four kinds of part. */
const smallCase: fc.Arbitrary<DealingInput> = fc.record({
	openings: fc
		.array(
			fc.record({
				held: fc.boolean(),
				needs: fc.array(
					fc.record({
						interchangeKey: fc.constantFrom(...keys),
						task: fc.constantFrom(...tasks),
						quantity: fc.constantFrom('0', '1', '1', '1', '2', '3', '0.5', '1.25')
					}),
					{ maxLength: 4 }
				),
				chance: fc.nat(3)
			}),
			{ maxLength: 9 }
		)
		.map((openings) =>
			openings.map(({ held, needs, chance }, at) => ({
				openingId: `C-${at + 1}`,
				held: held && chance === 0,
				needs: needs.map((need, index) => ({ ...need, partId: `C-${at + 1}/${index}` }))
			}))
		),
	supplies: fc.array(
		fc.record({
			interchangeKey: fc.constantFrom(...keys),
			quantity: fc.constantFrom('0', '1', '2', '3', '5', '2.5', '0.75')
		}),
		{ maxLength: 6 }
	),
	task: fc.constantFrom(null, ...tasks)
});

/** Tries every set of openings; of the largest that can all be served the one that comes first in the wanted order. */
function bestByTrying({ openings, supplies, task }: DealingInput): number[] {
	const all = new Map<string, Decimal>();
	for (const { interchangeKey, quantity } of supplies)
		all.set(interchangeKey, (all.get(interchangeKey) ?? new Decimal(0)).plus(quantity));
	let best: number[] = [];
	const search = (at: number, left: ReadonlyMap<string, Decimal>, chosen: readonly number[]): void => {
		const opening = openings[at];
		if (!opening) {
			// Those that take the next opening are tried first, so the first of a size is the earliest of its size.
			if (chosen.length > best.length) best = [...chosen];
			return;
		}
		const after = new Map(left);
		for (const { interchangeKey, quantity, task: of } of opening.needs)
			if (task === null || of === task)
				after.set(interchangeKey, (after.get(interchangeKey) ?? new Decimal(0)).minus(quantity));
		if (!opening.held && [...after.values()].every((amount) => amount.gte(0)))
			search(at + 1, after, [...chosen, at]);
		search(at + 1, left, chosen);
	};
	search(0, all, []);
	return best;
}

function addUp(quantities: readonly { interchangeKey: string; quantity: string }[]): Map<string, string> {
	const sums = new Map<string, Decimal>();
	for (const { interchangeKey, quantity } of quantities)
		sums.set(interchangeKey, (sums.get(interchangeKey) ?? new Decimal(0)).plus(quantity));
	return new Map([...sums].filter(([, sum]) => sum.gt(0)).map(([key, sum]) => [key, sum.toFixed()]));
}

describe('dealing out by hand', () => {
	// Three guides are here. The first wanted needs all three; two others need one each.
	const openings = [wants('C-1', { guide: '3' }), wants('C-2', { guide: '1' }), wants('C-3', { guide: '1' })];
	const input: DealingInput = { openings, supplies: here({ guide: '3' }), task: null };

	it('in the wanted order the first has them, for the most the others do', () => {
		expect(clearOf(dealInOrder(input))).toEqual(['C-1']);
		const most = dealForMost(input);
		expect(clearOf(most)).toEqual(['C-2', 'C-3']);
		expect(most).toMatchObject({ clear: 2, bound: 2, proved: true, earliest: true });
		// One guide is left over by the two; the first wanted has it although it cannot start.
		expect(most.openings[0]).toEqual({
			openingId: 'C-1',
			clear: false,
			gets: [{ partId: 'C-1/guide', interchangeKey: 'guide', quantity: '1' }],
			lacks: [{ partId: 'C-1/guide', interchangeKey: 'guide', quantity: '2' }]
		});
	});

	it('one that is held takes nothing from those that could start', () => {
		const held = [wants('C-1', { guide: '1' }, true), wants('C-2', { guide: '1' })];
		const one = { openings: held, supplies: here({ guide: '1' }), task: null };
		expect(dealInOrder(one).openings[0]?.gets).toHaveLength(1);
		expect(clearOf(dealInOrder(one))).toEqual([]);
		expect(clearOf(dealForMost(one))).toEqual(['C-2']);
	});

	it('where several choices are as good the first wanted start', () => {
		const four = ['C-1', 'C-2', 'C-3', 'C-4'].map((id) => wants(id, { guide: '1', bracket: '2' }));
		const some = { openings: four, supplies: here({ guide: '2', bracket: '9' }), task: null };
		expect(clearOf(dealForMost(some))).toEqual(['C-1', 'C-2']);
		expect(clearOf(dealForMost(some, { prefer: ['C-4'] }))).toEqual(['C-1', 'C-4']);
	});

	it('only the parts of the task that should start are looked at', () => {
		const needs: Need[] = [
			{ partId: 'g', interchangeKey: 'guide', task: 'guides', quantity: '1' },
			{ partId: 'b', interchangeKey: 'barrel', task: 'coil', quantity: '1' }
		];
		const one = { openings: [{ openingId: 'C-1', needs, held: false }], supplies: here({ guide: '1' }) };
		expect(dealForMost({ ...one, task: 'guides' })).toMatchObject({ clear: 1, bound: 1 });
		expect(dealForMost({ ...one, task: null })).toMatchObject({ clear: 0, bound: 0 });
		expect(dealInOrder({ ...one, task: 'guides' }).openings[0]).toMatchObject({
			clear: true,
			lacks: [{ partId: 'b', quantity: '1' }]
		});
	});

	it.each(['', '-1', '1e3', 'two', '1.'])('refuses the quantity "%s"', (quantity) => {
		const wrong = { openings: [], supplies: here({ guide: quantity }), task: null };
		expect(() => dealInOrder(wrong)).toThrow(`guide: "${quantity}" is not a quantity`);
		expect(() => dealForMost(wrong)).toThrow(`guide: "${quantity}" is not a quantity`);
	});

	it('refuses what is too long to be counted exactly, and an opening that stands twice', () => {
		const long = '123456789.123456789';
		const wide = { openings: [wants('C-1', { guide: long })], supplies: here({ guide: long }), task: null };
		expect(() => dealForMost(wide)).toThrow('too many digits to be dealt out exactly');
		const twice = { openings: [wants('C-1', {}), wants('C-1', {})], supplies: [], task: null };
		expect(() => dealInOrder(twice)).toThrow('C-1 stands in the wanted order twice');
	});
});

describe('any small case', () => {
	it('the most is what trying every set of openings finds, and the set is the earliest of them (500 cases)', () => {
		fc.assert(
			fc.property(smallCase, (input) => {
				const best = bestByTrying(input);
				const found = dealForMost(input);
				expect(found).toMatchObject({
					clear: best.length,
					bound: best.length,
					proved: true,
					earliest: true
				});
				expect(clearOf(found)).toEqual(best.map((at) => `C-${at + 1}`));
			}),
			{ numRuns: 500, seed: 20_261_130 }
		);
	});

	it('in the wanted order every opening has what those before it left', () => {
		fc.assert(
			fc.property(smallCase, (input) => {
				const left = new Map<string, Decimal>();
				for (const { interchangeKey, quantity } of input.supplies)
					left.set(interchangeKey, (left.get(interchangeKey) ?? new Decimal(0)).plus(quantity));
				const dealt = dealInOrder(input);
				input.openings.forEach(({ needs }, at) => {
					const got = new Map(dealt.openings[at]?.gets.map(({ partId, quantity }) => [partId, quantity]));
					for (const { partId, interchangeKey, quantity } of needs) {
						const all = left.get(interchangeKey) ?? new Decimal(0);
						const expected = Decimal.min(all, quantity);
						expect(got.get(partId) ?? '0').toBe(expected.toFixed());
						left.set(interchangeKey, all.minus(expected));
					}
				});
			}),
			{ numRuns: 300 }
		);
	});

	it('deals out exactly what is here: nothing more, nothing lost, and lacks what it does not get', () => {
		fc.assert(
			fc.property(smallCase, (input) => {
				for (const dealt of [dealInOrder(input), dealForMost(input)]) {
					const gets = dealt.openings.flatMap((opening) => opening.gets);
					expect(addUp([...gets, ...dealt.left])).toEqual(addUp(input.supplies));
					const lacks = dealt.openings.flatMap((opening) => opening.lacks);
					expect(addUp([...gets, ...lacks])).toEqual(addUp(input.openings.flatMap(({ needs }) => needs)));
					// What is left is left because nobody lacks it.
					const lacking = addUp(lacks);
					expect(dealt.left.filter(({ interchangeKey }) => lacking.has(interchangeKey))).toEqual([]);
				}
			}),
			{ numRuns: 300 }
		);
	});

	it('lets no fewer start with one supply more, and never fewer than in the wanted order', () => {
		fc.assert(
			fc.property(smallCase, fc.constantFrom(...keys), (input, interchangeKey) => {
				const before = dealForMost(input).clear;
				const more = { ...input, supplies: [...input.supplies, { interchangeKey, quantity: '1' }] };
				expect(dealForMost(more).clear).toBeGreaterThanOrEqual(before);
				expect(before).toBeGreaterThanOrEqual(dealInOrder(input).clear);
			}),
			{ numRuns: 300 }
		);
	});

	it('lets as many start whatever the order of openings and supplies', () => {
		const shuffled = smallCase.chain((input) =>
			fc.tuple(
				fc.constant(input),
				fc.shuffledSubarray([...input.openings], { minLength: input.openings.length }),
				fc.shuffledSubarray([...input.supplies], { minLength: input.supplies.length })
			)
		);
		fc.assert(
			fc.property(shuffled, ([input, openings, supplies]) => {
				expect(dealForMost({ ...input, openings, supplies }).clear).toBe(dealForMost(input).clear);
			}),
			{ numRuns: 300 }
		);
	});
});
