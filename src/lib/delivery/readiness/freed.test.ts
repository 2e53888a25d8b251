import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dealForMost, type DealingInput, type WantingOpening } from './dealing.ts';
import { whatFrees } from './freed.ts';

function wants(openingId: string, quantities: Readonly<Record<string, string>>): WantingOpening {
	return {
		openingId,
		needs: Object.entries(quantities).map(([interchangeKey, quantity]) => ({
			partId: `${openingId}/${interchangeKey}`,
			interchangeKey,
			task: 'guides',
			quantity
		})),
		held: false
	};
}

describe('what one more delivery would free', () => {
	// Guides: 6 needed, 1 here. Barrels: 5 needed, 4 here. C-4 needs a guide and a drive, and there is no drive.
	const input: DealingInput = {
		openings: [
			wants('C-1', { guide: '1', barrel: '1' }),
			wants('C-2', { guide: '2', barrel: '1' }),
			wants('C-3', { guide: '1', barrel: '1' }),
			wants('C-4', { guide: '1', drive: '1' }),
			wants('C-5', { guide: '1', barrel: '1' }),
			wants('C-6', { barrel: '1' })
		],
		supplies: [
			{ interchangeKey: 'guide', quantity: '1' },
			{ interchangeKey: 'barrel', quantity: '4' }
		],
		task: null
	};

	it('the part to chase is the one that alone frees the most, and no more of it than that takes', () => {
		// Now: C-1 (the guide) and C-6. Two barrels are left, so guides free two more: C-3 and C-5, with two guides.
		const { now, parts, chase } = whatFrees(input, []);
		expect(now).toMatchObject({ clear: 2, proved: true });
		expect(parts).toEqual([
			{
				interchangeKey: 'guide',
				quantity: '2',
				missing: '5',
				more: 2,
				frees: ['C-3', 'C-5'],
				instead: [],
				proved: true
			},
			// A drive alone does free C-4: the guide of C-1 goes to it, but then C-1 gives way. So nothing is won.
			{
				interchangeKey: 'barrel',
				quantity: '1',
				missing: '1',
				more: 0,
				frees: [],
				instead: [],
				proved: true
			},
			{ interchangeKey: 'drive', quantity: '1', missing: '1', more: 0, frees: [], instead: [], proved: true }
		]);
		expect(chase).toBe(parts[0]);
	});

	it('deliveries are sorted by what they free, then by their day', () => {
		const guides = (quantity: string) => [{ interchangeKey: 'guide', quantity }];
		const { deliveries } = whatFrees(input, [
			{ label: 'no day', day: null, supplies: guides('1') },
			{ label: 'late', day: '2026-12-09', supplies: guides('1') },
			{ label: 'early', day: '2026-12-01', supplies: guides('1') },
			{
				label: 'with a drive',
				day: '2026-12-24',
				supplies: [...guides('3'), { interchangeKey: 'drive', quantity: '1' }]
			}
		]);
		// With four guides and a drive: C-1, C-3, C-5 with the three barrels that C-6 leaves, and C-4.
		expect(deliveries.map(({ delivery, more, frees }) => [delivery.label, more, frees])).toEqual([
			['with a drive', 3, ['C-3', 'C-4', 'C-5']],
			['early', 1, ['C-3']],
			['late', 1, ['C-3']],
			['no day', 1, ['C-3']]
		]);
	});

	it('where no single kind of part frees anything there is none to chase', () => {
		const both = { openings: [wants('C-1', { guide: '1', drive: '1' })], supplies: [], task: null };
		const { chase, parts } = whatFrees(both, []);
		expect(chase).toBeNull();
		expect(parts.map(({ interchangeKey, more }) => [interchangeKey, more])).toEqual([
			['drive', 0],
			['guide', 0]
		]);
	});

	it('is what dealing out afresh says, with the fewest pieces (random cases)', () => {
		const quantity = fc.constantFrom('0', '1', '2', '3');
		const opening = fc.record({ guide: quantity, barrel: quantity, drive: quantity });
		fc.assert(
			fc.property(
				fc.array(opening, { minLength: 1, maxLength: 7 }),
				fc.record({ guide: quantity, barrel: quantity, drive: quantity }),
				(openings, here) => {
					const some: DealingInput = {
						openings: openings.map((needs, at) => wants(`C-${at + 1}`, needs)),
						supplies: Object.entries(here).map(([interchangeKey, amount]) => ({
							interchangeKey,
							quantity: amount
						})),
						task: null
					};
					const clear = (interchangeKey: string, amount: number): number =>
						dealForMost({
							...some,
							supplies: [...some.supplies, { interchangeKey, quantity: String(amount) }]
						}).clear;
					const { now, parts } = whatFrees(some, []);
					for (const { interchangeKey, quantity: fewest, missing, more, frees, instead } of parts) {
						expect(more).toBe(clear(interchangeKey, Number(missing)) - now.clear);
						expect(more).toBe(frees.length - instead.length);
						expect(clear(interchangeKey, Number(fewest)) - now.clear).toBe(more);
						if (more > 0) expect(clear(interchangeKey, Number(fewest) - 1) - now.clear).toBeLessThan(more);
					}
				}
			),
			{ numRuns: 100, seed: 7 }
		);
	});
});
