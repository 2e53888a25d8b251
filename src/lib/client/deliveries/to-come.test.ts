import { describe, expect, it } from 'vitest';
import type { DeliveryPart } from '../../changes/deliveries.ts';
import { groupMatches, partGroups, quantityProblem } from './to-come.ts';

const part = (partId: string, more: Partial<DeliveryPart>): DeliveryPart => ({
	partId,
	openingId: 'C-1.1',
	mark: 'C-1',
	kind: 'guide',
	item: 'counter-face',
	title: 'Guide, left',
	hand: 'left',
	unit: 'each',
	supply: 'maker',
	measures: `4'-2"`,
	ordered: '1',
	toCome: '1',
	alike: 'C-1 left guide',
	orderLine: '1042-01, line 7',
	...more
});

describe('what is still to come', () => {
	const parts = [
		part('a', {}),
		part('b', { openingId: 'C-1.2' }),
		part('c', { openingId: 'C-1.3', toCome: '0' }),
		part('d', { title: 'Sealant', unit: 'tube', alike: 'sealant', toCome: '0.3' }),
		part('e', { title: 'Sealant', unit: 'tube', alike: 'sealant', toCome: '0.6' })
	];

	it('is grouped, without what is here, and added up to the last decimal', () => {
		// 1 + 1; 0.3 + 0.6.
		expect(partGroups(parts, false).map(({ partIds, toCome }) => [partIds, toCome])).toEqual([
			[['a', 'b'], '2'],
			[['d', 'e'], '0.9']
		]);
		expect(partGroups(parts, true)[0]?.partIds).toEqual(['a', 'b', 'c']);
	});

	it('is found by words of its name, sizes and order line', () => {
		const [guides] = partGroups(parts, false);
		if (!guides) throw new Error('no group');
		expect(['guide c-1', 'LINE 7', '', `4'-2"`].every((text) => groupMatches(guides, text))).toBe(true);
		expect(groupMatches(guides, 'guide right')).toBe(false);
	});

	it.each([
		['4', true],
		[' 2.5 ', true],
		['0', false],
		['-1', false],
		['1e3', false],
		['', false],
		['all', false]
	])('takes “%s” as a quantity: %s', (text, fine) => {
		expect(quantityProblem(text) === null).toBe(fine);
	});
});
