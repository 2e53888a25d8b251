import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dealOut, type Supply } from './deal-out.ts';
import { likenessReader } from './likeness.ts';
import { lotOf, readWanted, type Lot } from './wanted.ts';
import { part } from './sample-parts.ts';

interface Case {
	readonly rooms: readonly number[];
	readonly supplies: readonly Supply[];
}

/** Two marks of two openings with one barrel each, all alike, and a spare for the first: five parts. */
const sample = ['S-201.1', 'S-201.1', 'S-201.2', 'S-202.1', 'S-202.2'].map((openingId, index) =>
	part({ openingId, kind: 'barrel', partId: `B${index}`, interchangeKey: 'barrel' })
);

function lotsOf(rooms: readonly number[]): Lot[] {
	const likeness = likenessReader();
	const order = readWanted(
		sample.slice(0, rooms.length).map((one, at) => ({ ...one, quantity: String(rooms[at] ?? 0) })),
		likeness
	);
	const singles = order.parts.map((one) => lotOf('part', [one], likeness));
	const places = [...order.places.values()].flat().flatMap(({ lots }) => [...lots.values()].flat());
	return [...singles, ...places, ...[...order.job.values()].flat()];
}

const cases: fc.Arbitrary<Case> = fc
	.array(fc.integer({ min: 0, max: 2 }), { minLength: 1, maxLength: 5 })
	.chain((rooms) => {
		const lots = lotsOf(rooms);
		return fc
			.array(fc.record({ lot: fc.constantFrom(...lots), amount: fc.integer({ min: 0, max: 2 }) }), {
				maxLength: 4
			})
			.map((supplies) => ({
				rooms,
				supplies: supplies.map(({ lot, amount }) => ({ lot, amount: new Decimal(amount) }))
			}));
	});

const roomsOf = (rooms: readonly number[]): Decimal[] => rooms.map((room) => new Decimal(room));

function dealtTo({ rooms, supplies }: Case): number[] {
	const got = rooms.map(() => 0);
	for (const { dealt } of dealOut(roomsOf(rooms), supplies))
		for (const { at, amount } of dealt) got[at] = (got[at] ?? 0) + amount.toNumber();
	return got;
}

/** Tries every way to give each single piece to a part of its lot or to none; the best by the wanted order. */
function bestByTrying({ rooms, supplies }: Case): number[] {
	const pieces = supplies.flatMap(({ lot, amount }) =>
		Array.from({ length: amount.toNumber() }, () => lot.parts.map(({ at }) => at))
	);
	let best = rooms.map(() => 0);
	const better = (a: readonly number[], b: readonly number[]): boolean => {
		const at = a.findIndex((got, index) => got !== b[index]);
		return at >= 0 && (a[at] ?? 0) > (b[at] ?? 0);
	};
	const give = (index: number, got: readonly number[]): void => {
		const piece = pieces[index];
		if (!piece) {
			if (better(got, best)) best = [...got];
			return;
		}
		give(index + 1, got);
		for (const at of piece)
			if ((got[at] ?? 0) < (rooms[at] ?? 0))
				give(
					index + 1,
					got.map((one, place) => (place === at ? one + 1 : one))
				);
	};
	give(0, best);
	return best;
}

describe('dealing out in the wanted order', () => {
	it('gives what the first in order can have, as trying every way does', () => {
		fc.assert(
			fc.property(cases, (one) => {
				expect(dealtTo(one)).toEqual(bestByTrying(one));
			}),
			{ numRuns: 500 }
		);
	});

	it('gives as many pieces as any other way', () => {
		const all = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);
		// Only the total matters here: the most over all ways, counted by trying.
		const most = ({ rooms, supplies }: Case): number => {
			const pieces = supplies.flatMap(({ lot, amount }) =>
				Array.from({ length: amount.toNumber() }, () => lot.parts.map(({ at }) => at))
			);
			const count = (index: number, left: readonly number[]): number => {
				const piece = pieces[index];
				if (!piece) return 0;
				return Math.max(
					count(index + 1, left),
					...piece
						.filter((at) => (left[at] ?? 0) > 0)
						.map(
							(at) =>
								1 +
								count(
									index + 1,
									left.map((one, place) => (place === at ? one - 1 : one))
								)
						)
				);
			};
			return count(0, rooms);
		};
		fc.assert(
			fc.property(cases, (one) => {
				expect(all(dealtTo(one))).toBe(most(one));
			}),
			{ numRuns: 200 }
		);
	});

	it('loses nothing: every supply is dealt or left', () => {
		fc.assert(
			fc.property(cases, ({ rooms, supplies }) => {
				dealOut(roomsOf(rooms), supplies).forEach(({ dealt, left }, index) => {
					const gone = dealt.reduce((sum, { amount }) => sum.plus(amount), left);
					expect(gone.toFixed()).toBe(supplies[index]?.amount.toFixed());
				});
			})
		);
	});

	it('splits decimal amounts', () => {
		const lots = lotsOf([2, 2, 2]);
		const job = lots.at(-1);
		if (!job) throw new Error('no lot');
		const room = roomsOf([2, 2, 2]);
		const [deal] = dealOut(room, [{ lot: job, amount: new Decimal('3.3') }]);
		expect(deal?.dealt.map(({ at, amount }) => [at, amount.toFixed()])).toEqual([
			[0, '2'],
			[1, '1.3']
		]);
		expect(room.map((left) => left.toFixed())).toEqual(['0', '0.7', '2']);
	});
});
