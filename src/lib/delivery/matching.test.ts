/** Order lines, decisions, counts, suppliers’ words, and lists that are asked about. Invented; see sample-parts. */
import { describe, expect, it } from 'vitest';
import { compareDelivery, type CompareOptions, type Comparison, type DeliveryList } from './compare.ts';
import type { ComparedLine } from './comparison.ts';
import type { SiteCount } from './count.ts';
import type { PackingFacts, PackingLine } from './line.ts';
import type { DecidedLine, LineDecision } from './line-decision.ts';
import type { PurchaseLine } from './ordering/purchase-order.ts';
import type { SentOrder } from './order-lines.ts';
import { inches, mark, opening, packed, part, purchaseOf } from './sample-parts.ts';

const parts = [...mark('S-201', 2), ...mark('S-202', 1, { length: 116 })];

const purchase = (number: number, ids: readonly string[], more: Partial<PurchaseLine> = {}): PurchaseLine =>
	purchaseOf(parts, number, ids, more);

const lefts = ['S-201.1/guide/left', 'S-201.2/guide/left'];
const barrels = ['S-201.1/barrel/4.5', 'S-201.2/barrel/4.5', 'S-202.1/barrel/4.5'];
const order: SentOrder = {
	orderNumber: '1042-01',
	revision: 2,
	lines: [
		purchase(1, lefts),
		purchase(2, barrels),
		purchase(3, ['S-202.1/guide/left']),
		purchase(9, [], { scope: 'stock', kind: 'anchor', title: 'Anchors to fill the box' })
	]
};

const facts = (some: Partial<PackingFacts>): PackingFacts => ({
	listNumber: null,
	orderNumber: null,
	orderRevision: null,
	jobName: null,
	handsFrom: null,
	sizes: null,
	crates: { all: null, named: [] },
	pages: { all: null, named: [] },
	...some
});

const list = (lines: readonly Partial<PackingLine>[], more: Partial<DeliveryList> = {}): DeliveryList => ({
	deliveryId: 'a',
	name: 'Truck A',
	lines: lines.map((line, at) => packed({ line: at + 1, ...line })),
	...more
});

const compare = (
	lines: readonly Partial<PackingLine>[],
	options: CompareOptions = {},
	more: Partial<DeliveryList> = {}
): Comparison => compareDelivery(parts, [list(lines, more)], { orders: [order], ...options });

function only({ lines: [line] }: Comparison): ComparedLine {
	if (!line) throw new Error('no line');
	return line;
}

const received = ({ parts: all }: Comparison): Record<string, string> =>
	Object.fromEntries(all.filter((one) => one.received !== '0').map((one) => [one.partId, one.received]));

const nothing = { here: '0', over: '0', damaged: '0', wrong: '0' };

describe('a line of our order', () => {
	it.each(['1', '01', 'L1', 'Line 1', 'PO line 1', '1042-01/1', '1042-01 line 1', 'I'])(
		'is read from “%s”',
		(orderLine) => {
			const comparison = compare([{ orderLine, quantity: 2 }]);
			expect(only(comparison)).toMatchObject({
				state: 'exact',
				reach: 'orderLine',
				confidence: 0.95,
				asked: false
			});
			expect(Object.keys(received(comparison))).toEqual(lefts);
		}
	);

	it('covers several marks, and only the one that is named beside it', () => {
		expect(Object.keys(received(compare([{ orderLine: '2', quantity: 3 }])))).toEqual(barrels);
		expect(received(compare([{ orderLine: '2', mark: 'S-202', description: 'Barrel' }]))).toEqual({
			'S-202.1/barrel/4.5': '1'
		});
	});

	it('may stand beside another in one line', () => {
		// 2 of line 1 and 3 of line 2 are unlike things: which is meant is not said.
		expect(only(compare([{ orderLine: '1, 2', quantity: 5 }]))).toMatchObject({
			asked: true,
			amounts: nothing
		});
		expect(only(compare([{ orderLine: '1 & 2', description: 'Barrel', quantity: 3 }]))).toMatchObject({
			state: 'exact'
		});
	});

	it.each<[string, Partial<PackingLine>]>([
		['mark', { mark: 'S-202' }],
		['kind', { description: 'Barrel' }],
		['part id', { partId: 'S-202.1/guide/left' }],
		['mark that is not in the job', { mark: 'K-9' }]
	])('that contradicts the %s is asked about', (_, line) => {
		const comparison = compare([{ orderLine: '1', description: 'Guide LH', ...line }]);
		expect(only(comparison)).toMatchObject({ asked: true, amounts: nothing });
		expect(only(comparison).text).toContain('Line 1 of order 1042-01 is Guide, left for S-201');
		expect(only(comparison).proposals[0]?.partIds).toEqual(lefts);
	});

	it('that contradicts the length is wrong', () => {
		expect(only(compare([{ orderLine: '1', length: inches(116) }]))).toMatchObject({
			state: 'wrong',
			differences: [{ attribute: 'length' }]
		});
	});

	it('that contradicts the hand is asked about where the mark has the other hand too', () => {
		const line = only(compare([{ orderLine: '1', hand: 'right' }]));
		expect(line).toMatchObject({ asked: true, amounts: nothing });
		expect(line.proposals.map(({ partIds }) => partIds)).toEqual([
			lefts,
			['S-201.1/guide/right', 'S-201.2/guide/right']
		]);
	});

	it('that is not there leaves the rest to speak, and that is said', () => {
		const line = only(compare([{ orderLine: '77', mark: 'S-201', description: 'Guide LH', quantity: 2 }]));
		expect(line).toMatchObject({ state: 'exact', reach: 'mark' });
		expect(line.how).toContain('our order has no line 77');
	});

	it('of two orders is the one that agrees, else it is asked', () => {
		const other: SentOrder = {
			orderNumber: '1042-02',
			revision: 1,
			lines: [purchase(1, ['S-201.1/control/Key switch'])]
		};
		const orders = [order, other];
		expect(received(compare([{ orderLine: '1', description: 'Key switch' }], { orders }))).toEqual({
			'S-201.1/control/Key switch': '1'
		});
		expect(only(compare([{ orderLine: '1' }], { orders }))).toMatchObject({ asked: true, amounts: nothing });
		const named = { facts: facts({ orderNumber: 'PO 1042-01' }) };
		expect(Object.keys(received(compare([{ orderLine: '1', quantity: 2 }], { orders }, named)))).toEqual(
			lefts
		);
	});

	it('for whole openings brings everything of them', () => {
		const ids = parts.filter((one) => one.mark === 'S-201').map(({ partId }) => partId);
		const unit = purchase(1, ids, { scope: 'unit', kind: null, openingIds: ['S-201.1', 'S-201.2'] });
		const orders = [{ ...order, lines: [unit] }];
		const comparison = compare([{ orderLine: '1', description: 'Opening complete', quantity: 1 }], {
			orders
		});
		const first = comparison.parts.filter(({ openingId }) => openingId === 'S-201.1');
		expect(first.every((one) => one.received === one.ordered)).toBe(true);
		expect(
			comparison.parts.filter(({ openingId }) => openingId === 'S-201.2').every((one) => one.received === '0')
		).toBe(true);
	});

	it('that only fills a box is no question', () => {
		expect(only(compare([{ orderLine: '9', quantity: 50 }]))).toMatchObject({
			asked: false,
			amounts: nothing
		});
	});
});

describe('what a person decided', () => {
	const decide = (decision: LineDecision, line = 1): DecidedLine => ({
		deliveryId: 'a',
		line,
		decision,
		by: 'Purchasing',
		at: '2026-12-01T08:00:00Z'
	});
	const unknown = { mark: 'S-201', description: 'Oddments', quantity: 2 };

	it('means: counts for the parts it names, and what differs is still told', () => {
		const decisions = [decide({ kind: 'means', partIds: lefts })];
		expect(received(compare([unknown], { decisions }))).toEqual({
			[lefts[0] ?? '']: '1',
			[lefts[1] ?? '']: '1'
		});
		const short = compare([{ ...unknown, length: inches(100) }], { decisions });
		expect(only(short)).toMatchObject({ state: 'wrong', differences: [{ attribute: 'length' }] });
		expect(received(short)).toEqual({});
	});

	it('opens: counts what is in the kit', () => {
		const kit = { description: 'Hardware carton', quantity: 1, mark: 'S-202' };
		const asked = only(compare([kit]));
		expect(asked).toMatchObject({ asked: true, amounts: nothing });
		// Of what comes in kits S-202 has a hood support, a key switch and a lock cylinder.
		expect(asked.proposals[0]?.decision).toMatchObject({
			kind: 'opens',
			contents: [
				{ partIds: ['S-202.1/hoodSupport/steel-24ga'], quantity: '1' },
				{ partIds: ['S-202.1/control/Key switch'], quantity: '1' },
				{ partIds: ['S-202.1/control/Lock cylinder'], quantity: '1' }
			]
		});
		const contents = [{ partIds: ['S-202.1/control/Key switch'], quantity: '1' }];
		const opened = compare([kit], { decisions: [decide({ kind: 'opens', contents })] });
		expect(received(opened)).toEqual({ 'S-202.1/control/Key switch': '1' });
		expect(() =>
			compare([kit], {
				decisions: [decide({ kind: 'opens', contents: [{ partIds: lefts, quantity: '-1' }] })]
			})
		).toThrow('is not a quantity');
	});

	it('substitutes: counts as here, and is called substituted', () => {
		const line = { mark: 'S-201', description: 'Guide LH', finish: 'mill', quantity: 2 };
		expect(only(compare([line])).state).toBe('wrong');
		const taken = compare([line], {
			decisions: [decide({ kind: 'substitutes', partIds: lefts, reason: 'hidden by the hood' })]
		});
		expect(only(taken)).toMatchObject({ state: 'substituted', received: '2', differences: [] });
		expect(only(taken).text).toContain('hidden by the hood');
	});

	it('in lieu, by its own remark, is asked and proposed to be taken', () => {
		const line = only(
			compare([{ mark: 'S-201', description: 'Barrel', quantity: 2, remark: '5 in pipe in lieu of 4.5' }])
		);
		expect(line).toMatchObject({
			asked: true,
			amounts: { here: '0', wrong: '2' },
			proposals: [{ decision: { kind: 'substitutes' } }]
		});
	});

	it('not ours, and repeats: nothing is counted and nothing asked', () => {
		const sure = { orderLine: '1', quantity: 2 };
		for (const decision of [
			{ kind: 'notOurs', reason: 'for the ferry terminal' } as const,
			{ kind: 'repeats', deliveryId: 'a', line: 4 } as const
		])
			expect(only(compare([sure], { decisions: [decide(decision)] }))).toMatchObject({
				asked: false,
				amounts: nothing
			});
	});

	it('reads: replaces what was misread, and keeps what stood there', () => {
		const decisions = [decide({ kind: 'reads', fields: { description: 'Guide LH' } })];
		const line = only(compare([unknown], { decisions }));
		expect(line).toMatchObject({ state: 'exact', received: '2', description: 'Guide LH' });
		expect(line.how).toContain('description “Oddments” read as “Guide LH”');
	});

	it('for parts that are gone is asked again; an older id is the part that took its place', () => {
		const revised = parts.map((one) => (one.partId === lefts[0] ? { ...one, supersedes: 'OLD' } : one));
		const by = (partIds: string[]): Comparison =>
			compareDelivery(revised, [list([{ ...unknown, quantity: 1 }])], {
				decisions: [decide({ kind: 'means', partIds })]
			});
		expect(received(by(['OLD']))).toEqual({ [lefts[0] ?? '']: '1' });
		expect(only(by(['GONE']))).toMatchObject({
			asked: true,
			text: 'GONE is no longer in the material list; decide again.'
		});
	});
});

describe('what was counted on site', () => {
	const count = (amounts: Partial<SiteCount['amounts']>, more: Partial<SiteCount> = {}): SiteCount => ({
		countId: 'c1',
		deliveryId: 'a',
		line: 1,
		crate: null,
		description: '',
		amounts: { whole: '0', damaged: '0', wrong: '0', ...amounts },
		note: '',
		photoIds: [],
		by: 'Installer',
		countedAt: '2026-12-01T08:00:00Z',
		...more
	});
	const line = { orderLine: '2', description: 'Barrel', quantity: 3 };

	it('goes before what the list says', () => {
		// 3 listed; 1 whole and 1 damaged found: 1 is missing.
		const comparison = compare([line], { counts: [count({ whole: '1', damaged: '1' })] });
		expect(only(comparison)).toMatchObject({
			state: 'damaged',
			amounts: { listed: '3', here: '1', damaged: '1', missing: '1' }
		});
		expect(only(comparison).text).toContain('counted on site: 1 whole, 1 damaged; the list says 3');
	});

	it('is the latest of several, in whatever order they came', () => {
		const later = count({ whole: '3' }, { countId: 'c2', countedAt: '2026-12-01T09:00:00Z' });
		for (const counts of [
			[count({ whole: '1' }), later],
			[later, count({ whole: '1' })]
		])
			expect(only(compare([line], { counts })).received).toBe('3');
	});

	it('that is on no line is asked about, never counted', () => {
		const comparison = compare([line], {
			counts: [count({ whole: '1' }, { line: null, description: 'Guide LH S-201' })]
		});
		expect(comparison.lines[1]).toMatchObject({ line: null, deliveryId: 'a', asked: true, amounts: nothing });
		expect(comparison.lines[1]?.proposals[0]?.partIds).toEqual(lefts);
	});

	it('of both hands together that is fewer than listed is asked about', () => {
		const both = { mark: 'S-201', description: 'Brackets', quantity: 4 };
		expect(only(compare([both])).received).toBe('4');
		expect(only(compare([both], { counts: [count({ whole: '3' })] }))).toMatchObject({
			asked: true,
			amounts: nothing
		});
	});
});

describe('words of a supplier', () => {
	const alias = {
		aliasId: 'x',
		supplierId: 'north',
		phrase: 'side channel',
		kind: 'guide',
		item: null,
		hand: null
	} as const;
	const line = { mark: 'S-201', description: 'Side channels LH', length: inches(110), quantity: 2 };

	it('are asked about, with what the measures speak for; then known, for that supplier only', () => {
		const asked = only(compare([line], {}, { supplierId: 'north' }));
		expect(asked).toMatchObject({ asked: true, amounts: nothing, proposals: [{ partIds: lefts }] });
		const known = only(compare([line], { aliases: [alias] }, { supplierId: 'north' }));
		expect(known).toMatchObject({ state: 'exact', confidence: 0.75, alias });
		expect(only(compare([line], { aliases: [alias] }, { supplierId: 'dunlin' })).asked).toBe(true);
		expect(only(compare([line], { aliases: [alias] })).asked).toBe(true);
	});

	it('that mean two things mean nothing', () => {
		const other = { ...alias, aliasId: 'y', kind: 'bracket' } as const;
		expect(only(compare([line], { aliases: [alias, other] }, { supplierId: 'north' })).asked).toBe(true);
	});
});

describe('a whole list', () => {
	const sure = { orderLine: '1', quantity: 2 };

	it('for another order is asked about, and counted once a person says it is ours', () => {
		const other = { facts: facts({ orderNumber: '1077-02', jobName: 'Kelpgate Ferry Terminal' }) };
		const asked = compare([{ ...sure, partId: lefts[0] ?? '' }], {}, other);
		expect(asked.lists[0]?.question).toMatchObject({ kind: 'isOurs' });
		expect(asked.lists[0]?.question?.reason).toContain(
			`although part id ${lefts[0] ?? ''} on line 1 is of this job`
		);
		expect(received(asked)).toEqual({});
		const ours = compare(
			[{ mark: 'S-201', description: 'Guide LH', quantity: 2 }],
			{},
			{ ...other, answers: { isOurs: true } }
		);
		expect(ours.lists[0]?.question).toBeNull();
		expect(Object.keys(received(ours))).toEqual(lefts);
	});

	it('that names nothing of the job counts nothing, not even loose goods', () => {
		const comparison = compare([
			{ mark: 'KF-1', description: 'Barrel' },
			{ description: 'Wedge anchors 3/8" x 3 3/4"', quantity: 12 }
		]);
		expect(comparison.lists[0]?.question?.kind).toBe('isOurs');
		expect(received(comparison)).toEqual({});
	});

	it('that is there under its number already is asked about; another page of it is not', () => {
		const numbered = (deliveryId: string, lines: Partial<PackingLine>[]): DeliveryList =>
			list(lines, { deliveryId, name: deliveryId, facts: facts({ listNumber: 'PL-1' }) });
		const again = compareDelivery(parts, [numbered('a', [sure]), numbered('b', [sure])], { orders: [order] });
		expect(again.lists[1]?.question).toMatchObject({ kind: 'isAnotherTruck', deliveryId: 'a' });
		expect(again.lines[1]).toMatchObject({ asked: true, amounts: nothing });
		const page = compareDelivery(parts, [numbered('a', [sure]), numbered('b', [{ orderLine: '3' }])], {
			orders: [order]
		});
		expect(page.lists[1]?.question).toBeNull();
	});

	it('whose hands are all the other way round is asked about once', () => {
		// Motors are ordered right; from the far side right is left.
		const motors = [
			{ mark: 'S-201', description: 'Tube motor', hand: 'left', quantity: 2 } as const,
			{ mark: 'S-202', description: 'Tube motor', hand: 'left' } as const,
			{ mark: 'S-201', description: 'Barrel', quantity: 2 }
		];
		const asked = compare(motors);
		expect(asked.lists[0]?.question?.kind).toBe('handsFrom');
		expect(asked.lines.slice(0, 3).map((line) => line.asked)).toEqual([true, true, false]);
		const far = compare(motors, {}, { answers: { handsFrom: 'farSide' } });
		expect(far.lines.slice(0, 3).map(({ state }) => state)).toEqual(['exact', 'exact', 'exact']);
		const coil = compare(motors, {}, { handsFrom: 'coilSide' });
		expect(coil.lines[0]).toMatchObject({ state: 'wrong', differences: [{ attribute: 'hand' }] });
		// One that is right as it stands: the others are wrong hands.
		const mixed = compare([...motors, { mark: 'S-201', description: 'Tube motor', hand: 'right' }]);
		expect(mixed.lists[0]?.question).toBeNull();
	});

	it('of which crates and pages are missing says so, and beside the parts that are on none', () => {
		const said = facts({
			crates: { all: 3, named: ['1'] },
			pages: { all: 2, named: [1] },
			orderRevision: 1,
			orderNumber: '1042-01'
		});
		const comparison = compare([sure], {}, { facts: said });
		expect(comparison.lists[0]).toMatchObject({ missingCrates: ['2', '3'], missingPages: ['2'] });
		expect(comparison.lists[0]?.notes).toEqual([
			'Crates 2 and 3 and page 2 of Truck A: on no list that was read.',
			'It answers revision 1 of order 1042-01; revision 2 is the last that was sent.'
		]);
		expect(comparison.lines.at(-1)?.text).toContain('it may be in crates 2 and 3 and page 2 of Truck A');
	});
});

describe('sizes, units and revisions', () => {
	const placesSizes = [
		{ name: 'S-201', openingWidth: inches(192), openingHeight: inches(108), overallWidth: inches(200) }
	];
	const guide = { mark: 'S-201', description: 'Guide LH', quantity: 2 };

	it('of the opening are asked about where the list does not say so, and compared where it does', () => {
		const tall = { ...guide, length: inches(108) };
		const asked = only(compare([tall], { placesSizes }));
		expect(asked).toMatchObject({ asked: true, amounts: nothing });
		expect(asked.text).toContain('is the size of its opening');
		const said = { facts: facts({ sizes: 'opening' }) };
		expect(only(compare([tall], { placesSizes }, said)).state).toBe('exact');
		expect(only(compare([{ ...guide, length: inches(107) }], { placesSizes }, said)).state).toBe('wrong');
		expect(only(compare([tall], { placesSizes }, { facts: facts({ sizes: 'part' }) })).state).toBe('wrong');
		expect(only(compare([{ ...guide, length: inches(110) }], { placesSizes })).state).toBe('exact');
	});

	it.each<[string, Partial<PackingLine>, string | null]>([
		// 2 openings: 2 sets of a left and a right are 4.
		['set', { description: 'Guides', unit: 'set', quantity: 2 }, '4'],
		['set that fits no count', { description: 'Guides', unit: 'set', quantity: 1 }, null],
		// Hood pieces: 2 an opening.
		['set of one sort', { description: 'Hood pieces', unit: 'set', quantity: 2 }, '4'],
		['box whose contents are said', { description: 'Hood pieces, box of 2', unit: 'box', quantity: 2 }, '4'],
		// Our 4 repeated as 2 boxes: 2 in each.
		['box told by the order', { description: 'Hood pieces', unit: 'ctn', quantity: 1, ordered: 2 }, '2'],
		['box', { description: 'Hood pieces', unit: 'box', quantity: 2 }, null],
		[
			'box where the order is repeated in pieces',
			{ description: 'Hood pieces', unit: 'box', quantity: 2, ordered: 4 },
			null
		]
	])('%s', (_, line, here) => {
		const found = only(compare([{ mark: 'S-201', ...line }]));
		if (here === null) expect(found).toMatchObject({ asked: true, amounts: nothing });
		else expect(found).toMatchObject({ asked: false, amounts: { here } });
	});

	it('the length of an older revision is told as such, over any number of revisions', () => {
		const now = part({
			openingId: 'S-9.1',
			kind: 'guide',
			title: 'Guide, left',
			hand: 'left',
			length: inches(110),
			partId: 'P-3',
			supersedes: 'P-2'
		});
		const retired = [
			{ ...now, partId: 'P-2', length: inches(109), supersedes: 'P-1' },
			{ ...now, partId: 'P-1', length: inches(108), supersedes: null }
		];
		const of = (line: Partial<PackingLine>): ComparedLine =>
			only(compareDelivery([now], [list([line])], { retired }));
		for (const line of [
			{ mark: 'S-9', description: 'Guide', length: inches(108) },
			{ partId: 'P-1', length: inches(108) }
		])
			expect(
				of(line)
					.differences.map(({ attribute }) => attribute)
					.sort()
			).toEqual(['length', 'revision']);
		expect(of({ partId: 'P-1', mark: 'S-8' })).toMatchObject({ asked: true, amounts: nothing });
	});

	it('two marks in one line count only when all of both are there', () => {
		const both = { mark: 'S-201/S-202', description: 'Barrel' };
		// 2 + 1 = 3.
		expect(only(compare([{ ...both, quantity: 3 }]))).toMatchObject({
			state: 'exact',
			received: '3',
			mark: 'S-201, S-202'
		});
		expect(only(compare([{ ...both, quantity: 2 }]))).toMatchObject({ asked: true, amounts: nothing });
		expect(only(compare([{ ...both, mark: 'S-201 & 202', quantity: 3 }])).received).toBe('3');
	});

	it('a misread mark is sure only where kind and a measure or the count agree', () => {
		const counters = [...opening('T-001.1'), ...mark('T-100', 2)];
		const of = (line: Partial<PackingLine>): ComparedLine => only(compareDelivery(counters, [list([line])]));
		expect(of({ mark: 'T-1', description: 'Barrel', length: inches(199) })).toMatchObject({
			state: 'exact',
			confidence: 0.7,
			mark: 'T-001'
		});
		expect(of({ mark: 'T-IOO', description: 'Barrel', quantity: 2 })).toMatchObject({
			state: 'exact',
			mark: 'T-100'
		});
		expect(of({ mark: 'T-1', description: 'Barrel', length: inches(198) })).toMatchObject({
			asked: true,
			amounts: nothing
		});
		expect(of({ mark: 'T-IOO', description: 'Barrel', quantity: 1 })).toMatchObject({
			asked: true,
			amounts: nothing
		});
	});
});
