/** From packing lists to what may start. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareDelivery, type DeliveryList } from '../compare.ts';
import type { SiteCount } from '../count.ts';
import { mark, packed } from '../sample-parts.ts';
import { clearToStart } from './clear-to-start.ts';
import { dealForMost, dealInOrder } from './dealing.ts';
import type { ReadinessInputs } from './inputs.ts';
import { standingsOf, type DeliveryStanding } from './standings.ts';
import { toDeal } from './to-deal.ts';

const parts = mark('S-201', 2);
const openings: ReadinessInputs['openings'] = ['S-201.1', 'S-201.2'].map((openingId) => ({
	openingId,
	mark: 'S-201'
}));
const truck = (
	lines: readonly Partial<Parameters<typeof packed>[0]>[],
	deliveryId = 'truck-1'
): DeliveryList => ({
	deliveryId,
	name: deliveryId === 'truck-1' ? 'Truck 1' : 'Truck 2',
	lines: lines.map((line, at) => packed({ ...line, line: at + 1 }))
});
/** A line for every part, by its id. */
const everything = parts.map(({ partId, quantity, unit }) => ({ partId, quantity: Number(quantity), unit }));
const guideOfSecond = everything.findIndex(({ partId }) => partId === 'S-201.2/guide/left');

function inputsOf(
	lists: readonly DeliveryList[],
	deliveries: readonly DeliveryStanding[] = [],
	counts: readonly SiteCount[] = []
): ReadinessInputs {
	const standings = standingsOf(parts, compareDelivery(parts, lists, { counts }), deliveries, null);
	return { openings, ...standings };
}

const count = (line: number, amounts: SiteCount['amounts']): SiteCount => ({
	countId: `count-${String(line)}`,
	deliveryId: 'truck-1',
	line,
	crate: null,
	description: '',
	amounts,
	note: '',
	photoIds: [],
	by: 'Installer 1',
	countedAt: '2026-11-03T10:00:00Z'
});

describe('from packing lists to what may start', () => {
	it('everything on the list: both may start, by the list', () => {
		const found = clearToStart(inputsOf([truck(everything)]));
		expect(found.openings.map(({ clear }) => clear)).toEqual([true, true]);
		expect(found.byList).toEqual([{ deliveryId: 'truck-1', name: 'Truck 1' }]);
	});

	it('a count finds a guide damaged: its opening waits since the truck came, by the count alone', () => {
		const damaged = count(guideOfSecond + 1, { whole: '0', damaged: '1', wrong: '0' });
		const received = { deliveryId: 'truck-1', receivedAt: '2026-11-03T09:00:00Z', countFinished: true };
		const found = clearToStart({
			...inputsOf([truck(everything)], [received], [damaged]),
			counted: 'required'
		});
		expect(found.byList).toEqual([]);
		expect(found.openings.map(({ clear }) => clear)).toEqual([true, false]);
		expect(found.openings[1]?.tasks.flatMap(({ holds }) => holds)).toMatchObject([
			{
				task: 'guides',
				reason: 'damaged',
				text: `Guide, left: 1 of 1 damaged (Truck 1, line ${String(guideOfSecond + 1)}).`,
				since: '2026-11-03T09:00:00Z',
				partIds: ['S-201.2/guide/left']
			}
		]);
	});

	it('where counts are required only the line that was counted is here before the count is finished', () => {
		const whole = count(guideOfSecond + 1, { whole: '1', damaged: '0', wrong: '0' });
		const found = clearToStart({ ...inputsOf([truck(everything)], [], [whole]), counted: 'required' });
		const guides = found.openings[1]?.tasks.find(({ task }) => task === 'guides')?.holds ?? [];
		expect(guides.some(({ partIds }) => partIds.includes('S-201.2/guide/left'))).toBe(false);
		expect(guides.some(({ partIds }) => partIds.includes('S-201.2/guide/right'))).toBe(true);
		expect(new Set(guides.map(({ reason }) => reason))).toEqual(new Set(['notCounted']));
	});

	it('what came too many for one part is dealt out to another', () => {
		const twice = everything
			.filter((_, at) => at !== guideOfSecond)
			.map((line) => (line.partId === 'S-201.1/guide/left' ? { ...line, quantity: 2 } : line));
		const inputs = inputsOf([truck(twice)]);
		expect(clearToStart(inputs).openings[1]?.clear).toBe(false);
		expect(clearToStart({ ...inputs, dealing: dealInOrder(toDeal(inputs, null)) }).openings[1]?.clear).toBe(
			true
		);
	});

	it('agrees with the comparison of any lists, and dealing out never lets fewer start', () => {
		const line = fc.record({
			partId: fc.constantFrom(...parts.map(({ partId }) => partId)),
			quantity: fc.constantFrom(0, 1, 2, 3),
			remark: fc.option(fc.constantFrom('damaged', '1 to follow', 'wrong part'), { freq: 2 })
		});
		const some = fc.array(line, { maxLength: 24 });
		fc.assert(
			fc.property(some, some, (first, second) => {
				const lists = [truck([...everything.slice(0, 20), ...first]), truck(second, 'truck-2')];
				const inputs = inputsOf(lists);
				const compared = compareDelivery(parts, lists).openings;
				const own = clearToStart(inputs).openings;
				expect(own.map(({ clear, tasks }) => [clear, tasks.map((one) => one.clear)])).toEqual(
					compared.map(({ clear, tasks }) => [clear, tasks.map((one) => one.clear)])
				);
				const clear = own.filter((opening) => opening.clear).length;
				for (const dealing of [dealInOrder(toDeal(inputs, null)), dealForMost(toDeal(inputs, null))]) {
					const dealt = clearToStart({ ...inputs, dealing }).openings;
					expect(dealt.filter((opening) => opening.clear)).toHaveLength(dealing.clear);
					expect(dealing.clear).toBeGreaterThanOrEqual(dealing.way === 'forMost' ? clear : 0);
				}
			}),
			{ numRuns: 150 }
		);
	});
});
