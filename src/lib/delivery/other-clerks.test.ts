/** What other clerks write otherwise: finishes cut short, measures in odd places, numbers of their own. Invented; see sample-parts. */
import { describe, expect, it } from 'vitest';
import { compareDelivery, type Comparison, type DeliveryList } from './compare.ts';
import type { ComparedLine } from './comparison.ts';
import type { PackingLine } from './line.ts';
import type { PurchaseLine } from './ordering/purchase-order.ts';
import type { SentOrder } from './order-lines.ts';
import { inches, mark, packed, part, purchaseOf } from './sample-parts.ts';

const hood = part({
	openingId: 'H-1.1',
	kind: 'hoodPiece',
	title: 'Hood piece',
	item: 'steel-24ga',
	size: '16',
	length: inches(100.5),
	finish: 'powder graphite'
});
const support = (openingId: string) =>
	part({ openingId, kind: 'hoodSupport', title: 'Hood support', item: 'steel-24ga' });
const dark = part({
	openingId: 'B-1.1',
	kind: 'endCap',
	title: 'End cap',
	finish: 'dark bronze anodised'
});
const uneven = (side: 'left' | 'right', length: number) =>
	part({
		openingId: 'W-1.1',
		kind: 'guide',
		title: `Guide, ${side}`,
		side,
		hand: side,
		length: inches(length)
	});
const parts = [
	uneven('left', 110),
	uneven('right', 111),
	...mark('S-201', 2),
	...mark('S-202', 1, { length: 116 }),
	hood,
	support('H-1.1'),
	support('H-1.2'),
	dark
];

const purchase = (number: number, ids: readonly string[]): PurchaseLine => purchaseOf(parts, number, ids);

const idsOf = (start: string): string[] =>
	parts.flatMap(({ partId }) => (partId.startsWith('S-201') && partId.includes(start) ? [partId] : []));
const order: SentOrder = {
	orderNumber: '1042-01',
	revision: 1,
	lines: [
		purchase(10, idsOf('guide/left')),
		purchase(20, idsOf('guide/right')),
		purchase(30, idsOf('barrel')),
		purchase(40, idsOf('curtain'))
	]
};

const list = (
	lines: readonly Partial<PackingLine>[],
	deliveryId = 'a',
	orders = order.orderNumber
): DeliveryList => ({
	deliveryId,
	name: `Truck ${deliveryId}`,
	lines: lines.map((line, at) => packed({ line: at + 1, ...line })),
	facts: {
		listNumber: null,
		orderNumber: orders,
		orderRevision: null,
		jobName: null,
		handsFrom: null,
		sizes: null,
		crates: { all: null, named: [] },
		pages: { all: null, named: [] }
	}
});

const compare = (...lists: readonly DeliveryList[]): Comparison =>
	compareDelivery(parts, lists, { orders: [order] });

function only({ lines: [line] }: Comparison): ComparedLine {
	if (!line) throw new Error('no line');
	return line;
}

const read = (line: Partial<PackingLine>): ComparedLine => only(compare(list([line])));
const listed = ({ lines }: Comparison): ComparedLine[] =>
	lines.filter(({ deliveryId }) => deliveryId !== null);
const differing = ({ differences }: ComparedLine): string[] => differences.map(({ attribute }) => attribute);

describe('a finish', () => {
	const guide = { mark: 'S-201', description: 'Guide LH', quantity: 2 };

	it.each(['graphite', 'Graphite', 'powder graphite', 'graph. powder', 'GRAPHITE POWDER COAT'])(
		'“%s” is powder-graphite',
		(finish) => expect(read({ ...guide, finish })).toMatchObject({ state: 'exact', differences: [] })
	);

	it.each(['white', 'powder white', 'grey', 'gr', 'powder', 'clear anodised'])('“%s” is another', (finish) =>
		expect(differing(read({ ...guide, finish }))).toEqual(['finish'])
	);

	it('without a word that makes it another one differs: bronze is not dark bronze', () => {
		const cap = { mark: 'B-1', description: 'End cap' };
		expect(differing(read({ ...cap, finish: 'bronze anodised' }))).toEqual(['finish']);
		expect(differing(read({ ...cap, finish: 'dark bronze' }))).toEqual([]);
		expect(differing(read({ ...cap, finish: 'dark bronze anod.' }))).toEqual([]);
	});
});

describe('a measure in the column of sizes', () => {
	it.each(['110', '110"', `9'-2"`, '2794', '2794 mm'])('%s is the length of a guide', (size) =>
		expect(read({ mark: 'S-201', description: 'Guide LH', size, quantity: 2 })).toMatchObject({
			state: 'exact',
			confidence: 0.9
		})
	);

	it.each(['109', `9'-1"`, '2768'])('%s is not: a guide 1 in short is told', (size) => {
		const line = read({ mark: 'S-201', description: 'Guide LH', size, quantity: 2 });
		expect(differing(line)).toEqual(['length']);
		expect(line.amounts.wrong).toBe('2');
	});

	it('nearer to the length than to the nominal size is the length', () => {
		const of = (size: string) => differing(read({ mark: 'H-1', description: 'Hood piece', size }));
		expect(of(`8'-4 1/2"`)).toEqual([]);
		expect(of('100.5')).toEqual([]);
		expect(of(`8'-3"`)).toEqual(['length']);
		expect(of('16')).toEqual([]);
		expect(of('16"')).toEqual([]);
		expect(of('18"')).toEqual(['size']);
	});

	it('of the part on a list that says it gives openings is asked about', () => {
		const opening = (length: number) => {
			const one = list([{ mark: 'S-201', description: 'Guide LH', length: inches(length), quantity: 2 }]);
			const sizes = { openingWidth: inches(192), openingHeight: inches(108), overallWidth: inches(200) };
			return only(
				compareDelivery(parts, [{ ...one, sizes: null, answers: { sizes: 'opening' } }], {
					placesSizes: [{ name: 'S-201', ...sizes }]
				})
			);
		};
		expect(opening(108)).toMatchObject({ asked: false, state: 'exact' });
		expect(opening(110)).toMatchObject({ asked: true });
		expect(differing(opening(109))).toEqual(['length']);
	});

	it('that would fit the other hand is wrong for its own', () => {
		const line = read({ mark: 'W-1', description: 'Guide RH', length: inches(110) });
		expect(differing(line)).toEqual(['length']);
		expect(line.partIds).toEqual(['W-1.1/guide/right']);
	});

	it('or in its words, width and length in either order: each is compared', () => {
		// The curtain is 196 3/4 wide and 136 long.
		const of = (words: string) =>
			differing(read({ mark: 'S-201', description: `Curtain ${words}`, quantity: 2 }));
		expect(of('196 3/4" x 136"')).toEqual([]);
		expect(of('136" x 196 3/4"')).toEqual([]);
		expect(of('196 3/4" x 134"')).toEqual(['length']);
		expect(of('190 3/4" x 136"')).toEqual(['width']);
		expect(of('190 3/4" x 134"')).toEqual(['length', 'width']);
	});
});

describe('numbers of the lines', () => {
	const lines = [
		{ orderLine: '10', mark: 'S-201', description: 'Curtain', quantity: 2 },
		{ orderLine: '20', mark: 'S-201', description: 'Guide LH', quantity: 2 },
		{ orderLine: '30', mark: 'S-201', description: 'Guide RH', quantity: 2 },
		{ orderLine: '40', mark: 'S-201', description: 'Barrel 4.5', quantity: 2 }
	];

	it('that contradict our order in most lines are the list’s own', () => {
		const compared = compare(list(lines));
		expect(listed(compared).map(({ kind, state }) => [kind, state])).toEqual([
			['curtain', 'exact'],
			['guide', 'exact'],
			['guide', 'exact'],
			['barrel', 'exact']
		]);
		expect(compared.lines[0]?.how).toContain('its number 10 is the list’s own');
	});

	it('are ours where only some contradict: those are asked about', () => {
		const some = [
			...lines.slice(0, 3),
			{ orderLine: '30', mark: 'S-201', description: 'Barrel 4.5', quantity: 2 }
		];
		expect(listed(compare(list(some))).map(({ asked }) => asked)).toEqual([true, true, true, false]);
	});
});

describe('a line of a crate on a second truck', () => {
	const guides = { orderLine: '10', crate: '6', description: 'Guide left', quantity: 1, backordered: 1 };
	const here = ({ parts: all }: Comparison) => all.filter(({ received }) => received === '1').length;

	it('is asked about though one is outstanding: a crate comes once', () => {
		const compared = compare(list([guides], 'a'), list([guides], 'b'));
		expect(listed(compared).map(({ asked }) => asked)).toEqual([false, true]);
		expect(listed(compared)[1]?.proposals.map(({ decision }) => decision.kind)).toEqual(['repeats', 'means']);
		expect(here(compared)).toBe(1);
	});

	it('of another supplier counts, though its list has the same number', () => {
		const from = (deliveryId: string, supplierId: string): DeliveryList => {
			const one = list([{ ...guides, crate: null }], deliveryId);
			return { ...one, supplierId, facts: one.facts ? { ...one.facts, listNumber: 'PL-1' } : null };
		};
		const asked = (other: string) =>
			listed(compare(from('a', 'northreach'), from('b', other))).map((line) => line.asked);
		expect(compare(from('a', 'northreach'), from('b', 'northreach')).lists[1]?.question?.kind).toBe(
			'isAnotherTruck'
		);
		expect(asked('dunlin')).toEqual([false, false]);
	});

	it('twice on one list is two lines: what is beyond the order is over', () => {
		const compared = compare(list([guides, guides, { ...guides, quantity: 2 }]));
		expect(listed(compared).map(({ asked }) => asked)).toEqual([false, false, false]);
		const both = { ...guides, quantity: 2, backordered: null };
		expect(listed(compare(list([both, both]))).map(({ asked, amounts }) => [asked, amounts.over])).toEqual([
			[false, '0'],
			[false, '2']
		]);
	});

	it.each<[string, Partial<PackingLine>]>([
		['another crate', { crate: '7' }],
		['no crate', { crate: null }],
		['another rest', { backordered: 0 }],
		['another line of our order', { orderLine: '20', description: 'Guide right' }]
	])('counts with %s', (_, more) => {
		const compared = compare(list([guides], 'a'), list([{ ...guides, ...more }], 'b'));
		expect(listed(compared).map(({ asked }) => asked)).toEqual([false, false]);
		expect(here(compared)).toBe(2);
	});
});

describe('words beside a part', () => {
	it.each(['Guide bolts', 'Barrel springs', 'Spare keys for key switch', 'Curtain clips'])(
		'“%s” are not the part',
		(description) => expect(read({ mark: 'S-201', description })).toMatchObject({ asked: true })
	);

	it('that say what it comes with, or whom it is for, change nothing', () => {
		for (const description of ['Key switch c/w 2 keys', 'Key switch with bolts', 'For S-201: key switch'])
			expect(read({ mark: 'S-201', description, quantity: 2 })).toMatchObject({
				kind: 'control',
				state: 'exact'
			});
	});

	it('of a scan are put right, where they are words of the trade', () => {
		expect(read({ mark: 'S-201', description: 'Gu1de, 1eft', quantity: 2 })).toMatchObject({
			state: 'exact'
		});
		expect(read({ mark: 'S-201', description: 'Barre1 4.5', quantity: 2 })).toMatchObject({
			kind: 'barrel',
			state: 'exact'
		});
		expect(read({ mark: 'S-201', description: 'Gvide, left' })).toMatchObject({ asked: true });
	});
});

describe('counts', () => {
	it('of one set with its pieces beside it; of two sets that may be the sum', () => {
		const supports = { mark: 'H-1', unit: 'SET' };
		expect(read({ ...supports, description: 'Hood supports (2 pcs)', quantity: 1 }).amounts.here).toBe('2');
		// Two sets are what is ordered of two openings: one each.
		expect(read({ ...supports, description: 'Hood supports (2 pcs)', quantity: 2 }).amounts.here).toBe('2');
		expect(read({ ...supports, description: 'Hood supports', quantity: 1 }).asked).toBe(true);
	});

	it('for two marks on a line of our order for one of them are asked about', () => {
		expect(read({ orderLine: '10', mark: 'S-201/S-202', quantity: 3 }).asked).toBe(true);
	});

	it('of left and right on a line of our order for one of them are asked about', () => {
		expect(read({ orderLine: '10', description: 'Guides left + right', quantity: 4 }).asked).toBe(true);
	});
});

describe('a mark', () => {
	it('with a letter for a figure, or a sign that can’t be read, is the one that the line bears out', () => {
		const guide = { description: 'Guide LH', quantity: 2 };
		expect(read({ ...guide, mark: '5-201', length: inches(110) }).state).toBe('exact');
		expect(read({ ...guide, mark: 'S-Z01', length: inches(110) }).state).toBe('exact');
		// S-202 has guides of 116.
		expect(read({ ...guide, mark: 'S-20?', length: inches(110) })).toMatchObject({ state: 'exact' });
		expect(read({ ...guide, mark: 'S-20?', quantity: 3 }).asked).toBe(true);
		expect(read({ ...guide, mark: '?', length: inches(110) }).asked).toBe(true);
	});
});
