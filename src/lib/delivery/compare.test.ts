import { describe, expect, it } from 'vitest';
import type { Part } from '../takeoff/result.ts';
import { compareDelivery, type Comparison } from './compare.ts';
import type { ComparedLine, DeliveryList } from './comparison.ts';
import type { LineState, PackingLine } from './line.ts';
import { comparisonRows, readinessRows } from './report.ts';
import { inches, mark, opening, packed, part } from './sample-parts.ts';

const list = (lines: readonly Partial<PackingLine>[], deliveryId = 'truck-1') => ({
	deliveryId,
	name: deliveryId === 'truck-1' ? 'Truck 1' : 'Truck 2',
	lines: lines.map((line, index) => packed({ line: index + 1, ...line }))
});

const compare = (parts: readonly Part[], ...lines: Partial<PackingLine>[]): Comparison =>
	compareDelivery(parts, [list(lines)]);

function only(comparison: Comparison): ComparedLine {
	const [line] = comparison.lines;
	if (!line) throw new Error('no line');
	return line;
}

const received = (comparison: Comparison): Record<string, string> =>
	Object.fromEntries(
		comparison.parts.filter((one) => one.received !== '0').map((one) => [one.partId, one.received])
	);

const stateOf = (comparison: Comparison, partId: string): LineState | undefined =>
	comparison.parts.find((one) => one.partId === partId)?.state;

// Four openings S-201.1 … S-201.4, each with its own parts (see sample-parts).
const four = mark('S-201', 4);

describe('a line by mark and kind', () => {
	it('covers the parts of the openings of its mark, in their order', () => {
		const comparison = compare(four, { mark: 'S-201', description: 'guides LH', quantity: 4 });
		expect(only(comparison)).toMatchObject({
			state: 'exact',
			reach: 'mark',
			partIds: ['S-201.1/guide/left', 'S-201.2/guide/left', 'S-201.3/guide/left', 'S-201.4/guide/left'],
			ordered: '4',
			received: '4',
			amounts: { listed: '4', here: '4', over: '0', unmatched: '0' }
		});
		expect(only(comparison).how).toContain('mark S-201, guide, left hand');
	});

	it('is short where fewer came, and the first openings have them', () => {
		const comparison = compare(four, { mark: 's 201', description: 'Guide, left', quantity: 3 });
		expect(only(comparison)).toMatchObject({ state: 'short', ordered: '4', received: '3' });
		expect(stateOf(comparison, 'S-201.3/guide/left')).toBe('exact');
		expect(stateOf(comparison, 'S-201.4/guide/left')).toBe('short');
		expect(stateOf(comparison, 'S-201.4/guide/right')).toBe('notListed');
	});

	it('is over where more came, told at the last part', () => {
		const comparison = compare(four, { mark: 'S-201', description: 'Guide LH', quantity: 6 });
		expect(only(comparison)).toMatchObject({ state: 'over', amounts: { here: '4', over: '2' } });
		expect(comparison.parts.find(({ partId }) => partId === 'S-201.4/guide/left')).toMatchObject({
			state: 'over',
			received: '1',
			over: '2'
		});
	});

	it('can name one opening', () => {
		const comparison = compare(four, { mark: 'S-201.3', description: 'Guide LH' });
		expect(received(comparison)).toEqual({ 'S-201.3/guide/left': '1' });
		expect(only(comparison)).toMatchObject({ state: 'exact', reach: 'opening' });
	});

	it('finds the mark in the words where it has no column, and an opening beside its mark', () => {
		const inWords = compare(four, { description: 'Guides LH for S-201', quantity: 4 });
		expect(only(inWords)).toMatchObject({ state: 'exact', reach: 'mark' });
		expect(only(inWords).how).toContain('mark read in its words');
		const narrower = compare(four, { mark: 'S-201', description: 'Guide LH (S-201.2)' });
		expect(received(narrower)).toEqual({ 'S-201.2/guide/left': '1' });
	});

	it('reads a mark without its dash and says so', () => {
		const comparison = compare(four, { mark: 'S201', description: 'Guides LH', quantity: 4 });
		expect(only(comparison)).toMatchObject({ state: 'exact' });
		expect(only(comparison).how).toContain('S201 read as S-201');
	});

	it('compares lengths within a sixteenth of an inch', () => {
		const at = (length: number): LineState =>
			only(compare(four, { mark: 'S-201', description: 'Guide LH', quantity: 4, length: inches(length) }))
				.state;
		// 110 in ordered: at, under and over 1/16 in.
		expect(at(110)).toBe('exact');
		expect(at(110.0625)).toBe('exact');
		expect(at(110 - 0.0625)).toBe('exact');
		expect(at(110.063)).toBe('wrong');
		expect(at(109.937)).toBe('wrong');
	});

	it('takes another tolerance', () => {
		const comparison = compareDelivery(
			four,
			[list([{ mark: 'S-201', description: 'Guide LH', quantity: 4, length: inches(110.25) }])],
			{ lengthTolerance: inches(0.25) }
		);
		expect(only(comparison).state).toBe('exact');
	});

	it('picks the opening of a mark that differs by its length', () => {
		const parts = [...mark('S-201', 2), ...opening('S-201.3', { length: 116 })];
		const long = compare(parts, { mark: 'S-201', description: 'Guide LH', length: inches(116) });
		expect(received(long)).toEqual({ 'S-201.3/guide/left': '1' });
		const unsaid = only(compare(parts, { mark: 'S-201', description: 'Guide LH', quantity: 3 }));
		expect(unsaid.state).toBe('notOrdered');
		expect(unsaid.text).toContain('2 parts of mark S-201 fit');
		expect(unsaid.proposals.map(({ partIds }) => partIds)).toEqual([
			['S-201.1/guide/left', 'S-201.2/guide/left'],
			['S-201.3/guide/left']
		]);
	});
});

describe('what is wrong does not count', () => {
	it.each<[string, Partial<PackingLine>, { attribute: string; ordered: string; shipped: string }[]]>([
		[
			'length',
			{ description: 'Guide LH', length: inches(108) },
			[{ attribute: 'length', ordered: `9'-2"`, shipped: `9'-0"` }]
		],
		[
			'hand',
			{ description: 'Tube motor 165 lb-ft', hand: 'left' },
			[{ attribute: 'hand', ordered: 'right', shipped: 'left' }]
		],
		[
			'finish',
			{ description: 'Guide RH', finish: 'Mill' },
			[{ attribute: 'finish', ordered: 'powder-graphite', shipped: 'Mill' }]
		],
		[
			'size',
			{ description: 'Bracket LH', size: '18' },
			[{ attribute: 'size', ordered: '16', shipped: '18' }]
		],
		[
			'size in the words',
			{ description: 'Bracket 18, left' },
			[{ attribute: 'size', ordered: '16', shipped: '18' }]
		],
		[
			'width',
			{ description: 'Grille curtain', width: inches(190) },
			[{ attribute: 'width', ordered: `16'-4 3/4"`, shipped: `15'-10"` }]
		],
		[
			'item',
			{ description: 'Slat curtain' },
			[{ attribute: 'item', ordered: 'grille, rod', shipped: 'slat' }]
		],
		[
			'two at once',
			{ description: 'Guide LH', length: inches(108), finish: 'mill' },
			[
				{ attribute: 'length', ordered: `9'-2"`, shipped: `9'-0"` },
				{ attribute: 'finish', ordered: 'powder-graphite', shipped: 'mill' }
			]
		]
	])('%s', (_, line, differences) => {
		const comparison = compare(four, { mark: 'S-201', quantity: 1, ...line });
		expect(only(comparison)).toMatchObject({
			state: 'wrong',
			differences,
			amounts: { wrong: '1', here: '0' }
		});
		expect(received(comparison)).toEqual({});
	});

	it('tells lengths that look alike in exact millimetres', () => {
		const comparison = compareDelivery(
			four,
			[list([{ mark: 'S-201', description: 'Guide LH', length: inches(110) + 1000 }])],
			{ lengthTolerance: 0 }
		);
		// 110 in = 2794 mm.
		expect(only(comparison).differences).toEqual([
			{ attribute: 'length', ordered: '2794 mm', shipped: '2794.001 mm' }
		]);
	});

	it('reads one length from the words, not two', () => {
		const one = compare(four, { mark: 'S-201', description: `Guide LH 9'-0"`, quantity: 4 });
		expect(only(one)).toMatchObject({ state: 'wrong', differences: [{ attribute: 'length' }] });
		const right = compare(four, { mark: 'S-201', description: 'Guide LH, 110 in', quantity: 4 });
		expect(only(right).state).toBe('exact');
		expect(only(right).how).toContain(`length 9'-2"`);
		const two = compare(four, { mark: 'S-201', description: `Guide LH for 16'-0" x 9'-0"`, quantity: 4 });
		expect(only(two).state).toBe('exact');
		expect(only(two).how).toContain('not compared');
	});

	it('does not take a quantity it can’t read for one', () => {
		const missing = compare(four, { mark: 'S-201', description: 'Barrel', quantity: null });
		expect(only(missing)).toMatchObject({ state: 'wrong', differences: [{ attribute: 'quantity' }] });
		const negative = compare(four, { mark: 'S-201', description: 'Barrel', quantity: -2 });
		expect(only(negative)).toMatchObject({ state: 'wrong', differences: [{ shipped: '-2' }] });
		const unreadable = compare(four, { mark: 'S-201', description: 'Barrel', quantity: NaN });
		expect(only(unreadable)).toMatchObject({ state: 'wrong', differences: [{ shipped: 'not a number' }] });
		expect(received(missing)).toEqual({});
		expect(received(negative)).toEqual({});
	});

	it('takes a substitute for wrong, because the remark says it is something else', () => {
		const comparison = compare(four, {
			mark: 'S-201',
			description: 'Barrel',
			quantity: 4,
			remark: '1 substituted'
		});
		expect(only(comparison)).toMatchObject({ state: 'wrong', amounts: { here: '3', wrong: '1' } });
	});
});

describe('nothing is matched wrongly in silence', () => {
	const refused = (line: Partial<PackingLine>, parts = four): ComparedLine => {
		const comparison = compare(parts, line);
		expect(received(comparison)).toEqual({});
		expect(only(comparison).state).toBe('notOrdered');
		return only(comparison);
	};

	it('a mark that is not in the job', () => {
		expect(refused({ mark: 'C-199', description: 'Bottom bar' }).text).toBe(
			'There is no mark C-199 in the job.'
		);
	});

	it('a mark that only looks like one', () => {
		const line = refused({ mark: 'S-2O1', description: 'Barrel' });
		expect(line.proposals[0]?.partIds).toHaveLength(4);
		expect(line.text).toContain('it looks like S-201');
	});

	it('a mark in its column and another in its words', () => {
		const parts = [...mark('S-201', 1), ...mark('S-202', 1)];
		expect(refused({ mark: 'S-201', description: 'Barrel S-202' }, parts).text).toContain(
			'its words name S-202'
		);
		expect(refused({ description: 'Barrel, S-201 and S-202' }, parts).text).toContain('S-201 or S-202');
	});

	it('a kind that the mark has not on order', () => {
		expect(refused({ mark: 'S-201', description: 'End caps' }).text).toContain('no such end cap on order');
	});

	it('words that say nothing, or two things', () => {
		expect(refused({ mark: 'S-201', description: 'Oddments' }).text).toContain('says what it is');
		const line = refused({ mark: 'S-201', description: 'Hood and supports' });
		expect(line.text).toContain('one line can’t be both');
		expect(line.proposals.flatMap(({ partIds }) => partIds)).toContain('S-201.1/hoodPiece/steel-24ga');
	});

	it('a hand that is not said, where it may be either', () => {
		const line = refused({ mark: 'S-201', description: 'Guides', quantity: 4 });
		expect(line.text).toContain('left or right is not said');
	});

	it('two hands on one line', () => {
		expect(refused({ mark: 'S-201', description: 'Guide, right', hand: 'left' }).text).toContain(
			'hand column says left, its words say right'
		);
	});

	it('a line without mark, but proposes what would fit', () => {
		const line = refused({ description: 'Guide LH', length: inches(110), quantity: 4 });
		expect(line.proposals[0]).toMatchObject({
			partIds: ['S-201.1/guide/left', 'S-201.2/guide/left', 'S-201.3/guide/left', 'S-201.4/guide/left']
		});
		expect(refused({ description: 'Guide LH', length: inches(55), quantity: 4 }).proposals).toEqual([]);
	});

	it('a part of another sort within a kind of many sorts', () => {
		expect(refused({ mark: 'S-201', description: 'Push button station' }).text).toContain('no such control');
	});

	it('anything, where nothing is ordered', () => {
		expect(compare([], { mark: 'S-201', description: 'Guide LH', partId: 'P-1' })).toMatchObject({
			lines: [{ state: 'notOrdered' }],
			parts: [],
			openings: []
		});
	});
});

describe('part ids', () => {
	const guide = 'S-201.2/guide/left';

	it('name one part, whatever its mark line says otherwise', () => {
		const comparison = compare(four, { partId: guide, description: 'Guide LH', length: inches(110) });
		expect(received(comparison)).toEqual({ [guide]: '1' });
		expect(only(comparison)).toMatchObject({ state: 'exact', reach: 'part' });
		expect(received(compare(four, { partId: ` ${guide.toUpperCase()} ` }))).toEqual({ [guide]: '1' });
	});

	it.each<[string, Partial<PackingLine>]>([
		['mark', { mark: 'S-202' }],
		['kind', { description: 'Barrel' }],
		['hand', { description: 'Guide, right' }],
		['length', { length: inches(100) }]
	])('do not cover a wrong %s', (attribute, line) => {
		const comparison = compare(four, { partId: guide, ...line });
		expect(only(comparison)).toMatchObject({ state: 'wrong', differences: [{ attribute }] });
		expect(received(comparison)).toEqual({});
	});

	const coded = [
		part({ openingId: 'S-201.1', kind: 'barrel', partId: 'P-10X02-AB100', title: 'Barrel' }),
		part({
			openingId: 'S-201.2',
			kind: 'barrel',
			partId: 'P-99999-ZZZZZ',
			title: 'Barrel',
			supersedes: 'P-OLD'
		})
	];

	it('that only look alike are proposed', () => {
		const line = { partId: 'P-IOXO2-ABl00', mark: 'S-201', description: 'Barrel' };
		const comparison = compare(coded, { ...line, quantity: 2 });
		expect(received(comparison)).toEqual({});
		expect(only(comparison)).toMatchObject({
			state: 'notOrdered',
			proposals: [{ partIds: ['P-10X02-AB100'] }]
		});
		expect(only(comparison).text).toContain('it looks like P-10X02-AB100');
		// Kind, mark and count agree with the only one that it can be.
		expect(only(compare(coded, line))).toMatchObject({ state: 'exact', confidence: 0.7 });
	});

	it('of an old revision are wrong', () => {
		expect(only(compare(coded, { partId: 'P-OLD' }))).toMatchObject({
			state: 'wrong',
			differences: [{ attribute: 'revision', ordered: 'P-99999-ZZZZZ', shipped: 'P-OLD' }]
		});
	});

	it('that are the supplier’s own leave the rest of the line to speak, and that is said', () => {
		const comparison = compare(coded, {
			partId: 'NS-4411',
			mark: 'S-201',
			description: 'Barrel',
			quantity: 2
		});
		expect(only(comparison)).toMatchObject({ state: 'exact', reach: 'mark' });
		expect(only(comparison).how).toContain('"NS-4411" is no part id of this job');
	});
});

describe('several lines and lists', () => {
	const left = { mark: 'S-201', description: 'Guide LH' };

	it('add up: the second truck brings the rest', () => {
		const first = list([{ ...left, quantity: 1 }]);
		const second = list([{ ...left, quantity: 3 }], 'truck-2');
		expect(compareDelivery(four, [first]).lines[0]?.state).toBe('short');
		const both = compareDelivery(four, [first, second]);
		expect(both.lines.slice(0, 2).map(({ state }) => state)).toEqual(['exact', 'exact']);
		expect(Object.keys(received(both))).toHaveLength(4);
	});

	it('a line repeated on the second truck is asked about, and is over when it is said to be another', () => {
		const trucks = (second: Partial<DeliveryList>) =>
			compareDelivery(four, [
				list([{ ...left, quantity: 4 }]),
				{ ...list([{ ...left, quantity: 4 }], 'truck-2'), ...second }
			]);
		const both = trucks({});
		expect(both.lines[1]).toMatchObject({
			state: 'notOrdered',
			asked: true,
			amounts: { unmatched: '4' },
			proposals: [
				{ decision: { kind: 'repeats', deliveryId: 'truck-1', line: 1 } },
				{ decision: { kind: 'means' } }
			]
		});
		const another = trucks({ answers: { isAnotherTruck: true } });
		expect(another.lines[1]).toMatchObject({
			state: 'over',
			amounts: { here: '0', over: '4' },
			received: '4'
		});
	});

	it('a line for one opening goes before one for the mark, wherever it stands', () => {
		const byMark = { ...left, quantity: 1 };
		const byOpening = { mark: 'S-201.1', description: 'Guide LH' };
		const expected = { 'S-201.1/guide/left': '1', 'S-201.2/guide/left': '1' };
		expect(received(compare(four, byMark, byOpening))).toEqual(expected);
		expect(received(compare(four, byOpening, byMark))).toEqual(expected);
	});

	it('what is over for one mark is proposed for another, not moved', () => {
		const parts = [...mark('S-201', 1), ...mark('S-202', 1)];
		const comparison = compare(parts, { ...left, quantity: 2 });
		expect(received(comparison)).toEqual({ 'S-201.1/guide/left': '1' });
		expect(only(comparison)).toMatchObject({
			state: 'over',
			proposals: [{ partIds: ['S-201.1/guide/left', 'S-202.1/guide/left'] }]
		});
	});

	it('refuses a list given twice', () => {
		expect(() => compareDelivery(four, [list([]), list([])])).toThrow('Truck 1 (truck-1) is given twice');
	});
});

describe('damaged, backordered and missing', () => {
	const barrels = { mark: 'S-201', description: 'Barrel' };

	it('a damaged piece does not count as whole', () => {
		const comparison = compare(four, { ...barrels, quantity: 4, remark: '1 bent' });
		expect(only(comparison)).toMatchObject({
			state: 'damaged',
			amounts: { listed: '4', here: '3', damaged: '1' },
			received: '3'
		});
		expect(stateOf(comparison, 'S-201.4/barrel/4.5')).toBe('damaged');
	});

	it('a whole piece replaces a damaged one', () => {
		const comparison = compare(
			four,
			{ ...barrels, quantity: 4, remark: '1 bent' },
			{ ...barrels, quantity: 1 }
		);
		expect(comparison.lines.slice(0, 2).map(({ state }) => state)).toEqual(['damaged', 'exact']);
		expect(stateOf(comparison, 'S-201.4/barrel/4.5')).toBe('exact');
	});

	it('without a number the whole line is damaged', () => {
		expect(only(compare(four, { ...barrels, quantity: 4, remark: 'damaged' })).amounts.damaged).toBe('4');
		expect(
			only(compare(four, { ...barrels, description: 'Barrel, damaged', quantity: 4 })).amounts.damaged
		).toBe('4');
	});

	it('a back order that makes up the rest is not taken off what is here', () => {
		// 3 + 1 to follow = 4 ordered.
		const added = only(compare(four, { ...barrels, quantity: 3, remark: '1 to follow' }));
		expect(added).toMatchObject({ state: 'short', amounts: { listed: '4', here: '3', backordered: '1' } });
		// 4 listed of which 1 is to follow.
		const within = only(compare(four, { ...barrels, quantity: 4, remark: '1 to follow' }));
		expect(within).toMatchObject({ state: 'short', amounts: { listed: '4', here: '3', backordered: '1' } });
	});

	it('a line of nothing but a back order is backordered', () => {
		const comparison = compare(four, { ...barrels, quantity: 0, remark: 'Backordered' });
		expect(only(comparison)).toMatchObject({
			state: 'backordered',
			amounts: { here: '0', backordered: '4' }
		});
		expect(stateOf(comparison, 'S-201.1/barrel/4.5')).toBe('backordered');
		expect(only(compare(four, { ...barrels, quantity: null, remark: 'B/O' })).state).toBe('backordered');
	});

	it('what is listed and missing is not here', () => {
		const comparison = compare(four, { ...barrels, quantity: 4, remark: 'one missing' });
		expect(only(comparison)).toMatchObject({
			state: 'short',
			amounts: { here: '3', missing: '1' },
			received: '3'
		});
	});
});

describe('pairs and other units', () => {
	it('a pair of handed parts is a left and a right', () => {
		const comparison = compare(four, { mark: 'S-201', description: 'Brackets', quantity: 3, unit: 'PR' });
		expect(only(comparison)).toMatchObject({ state: 'short', ordered: '8', received: '6' });
		expect(Object.keys(received(comparison)).sort()).toEqual(
			['1', '2', '3'].flatMap((n) => [`S-201.${n}/bracket/left`, `S-201.${n}/bracket/right`])
		);
	});

	it('all pieces of both hands need no hand; what is more is of unknown hand', () => {
		expect(
			only(compare(four, { mark: 'S-201', description: 'Brackets', quantity: 8, unit: 'ea' }))
		).toMatchObject({
			state: 'exact',
			received: '8'
		});
		expect(only(compare(four, { mark: 'S-201', description: 'Brackets', quantity: 9 }))).toMatchObject({
			state: 'over',
			amounts: { here: '8', over: '1' },
			proposals: []
		});
	});

	it('a pair of unhanded parts is two of them', () => {
		expect(
			only(compare(four, { mark: 'S-201', description: 'Hood pieces', quantity: 4, unit: 'pair' }))
		).toMatchObject({ state: 'exact', received: '8' });
	});

	it('a pair of one hand is asked about', () => {
		const comparison = compare(four, { mark: 'S-201', description: 'Guides LH', quantity: 2, unit: 'pair' });
		expect(only(comparison)).toMatchObject({ state: 'notOrdered', asked: true });
		expect(only(comparison).text).toContain('counted in pair, ordered in each; these are all left hand');
	});

	it('decimal amounts add up exactly', () => {
		// 4 × 1.25 = 5 tubes.
		const tubes = (quantity: number) => ({ mark: 'S-201', description: 'Sealant', quantity, unit: 'tubes' });
		const comparison = compare(four, tubes(0.1), tubes(0.2), tubes(4.7));
		expect(only(comparison)).toMatchObject({ state: 'exact', ordered: '5', received: '5', unit: 'tube' });
	});
});

describe('loose goods and the shop’s own stock', () => {
	it('anchors need no mark', () => {
		// 4 openings × 2 sides × 6 = 48.
		const comparison = compare(four, { description: 'Wedge anchors 3/8" x 3 3/4"', quantity: 50 });
		expect(only(comparison)).toMatchObject({
			state: 'over',
			reach: 'job',
			ordered: '48',
			amounts: { over: '2' }
		});
	});

	it('anchors of another size or sort are not taken', () => {
		const size = only(compare(four, { description: 'Wedge anchors', size: '1/2 x 4', quantity: 48 }));
		expect(size.state).toBe('notOrdered');
		const sort = only(compare(four, { mark: 'S-201', description: 'Lag screws', quantity: 48 }));
		expect(sort).toMatchObject({ state: 'wrong', differences: [{ attribute: 'item' }] });
	});

	it('stock that no list names holds nothing and is said not to be checked', () => {
		const comparison = compare(four);
		expect(comparison.notChecked).toEqual(['fieldMeasure', 'stock']);
		expect(comparison.lines.some(({ kind }) => kind === 'anchor' || kind === 'consumable')).toBe(false);
		expect(comparison.openings[0]?.tasks[0]?.holds).toEqual([
			'Guide, left: 0 of 1 here (on no packing list).',
			'Guide, right: 0 of 1 here (on no packing list).'
		]);
	});

	it('stock that a list names holds when it is short', () => {
		const comparison = compare(four, { mark: 'S-201', description: 'Anchors', quantity: 6, remark: null });
		expect(comparison.openings[0]?.tasks[0]?.holds).toContain('Wedge anchor, right wall: 0 of 6 here.');
	});
});

describe('clear to start', () => {
	const one = mark('S-201', 1);
	const everything: Partial<PackingLine>[] = one.map(({ partId, quantity, unit }) => ({
		partId,
		quantity: Number(quantity),
		unit
	}));

	it('an opening is clear when everything is here', () => {
		const { openings, lines, notChecked } = compare(one, ...everything);
		expect(lines.every(({ state }) => state === 'exact')).toBe(true);
		expect(openings).toEqual([
			{
				openingId: 'S-201.1',
				mark: 'S-201',
				clear: true,
				stops: [],
				tasks: ['guides', 'brackets', 'coil', 'hood', 'power'].map((task) => ({
					task,
					clear: true,
					holds: []
				}))
			}
		]);
		expect(notChecked).toEqual(['fieldMeasure']);
	});

	it('a stop of the takeoff holds an opening though everything is here, and one that could not be computed', () => {
		const stopped = [
			{ openingId: 'S-201.1', mark: 'S-201', stops: ['Headroom is 13 in, needed 13 1/2 in.'] },
			{ openingId: 'S-299.1', mark: 'S-299', stops: ['Opening width is missing.'] }
		];
		const { openings } = compareDelivery(one, [list(everything)], { stopped });
		expect(
			openings.map(({ openingId, clear, stops, tasks }) => [openingId, clear, stops.length, tasks.length])
		).toEqual([
			['S-201.1', false, 1, 5],
			['S-299.1', false, 1, 0]
		]);
	});

	it('guides may start while a hood piece is missing', () => {
		const lines = everything.map((line) =>
			line.partId === 'S-201.1/hoodPiece/steel-24ga' ? { ...line, quantity: 1 } : line
		);
		const [opened] = compare(one, ...lines).openings;
		expect(opened?.clear).toBe(false);
		expect(opened?.tasks.filter(({ clear }) => !clear)).toEqual([
			{ task: 'hood', clear: false, holds: ['Hood piece: 1 of 2 here.'] }
		]);
	});

	it('says on which line of which list a piece is damaged or wrong', () => {
		const guide = one[0]?.partId ?? '';
		const damaged = { ...packed({ line: 7, partId: guide, remark: 'damaged' }) };
		const wrong = { ...packed({ line: 8, partId: guide, length: inches(100) }) };
		const holds = (lines: PackingLine[][]): readonly string[] | undefined =>
			compareDelivery(
				one,
				lines.map((some, index) => ({ deliveryId: `d${index}`, name: `Truck ${index + 1}`, lines: some }))
			).openings[0]?.tasks[0]?.holds.slice(0, 1);
		expect(holds([[damaged]])).toEqual(['Guide, left: 0 of 1 here (1 damaged on line 7).']);
		expect(holds([[], [wrong]])).toEqual(['Guide, left: 0 of 1 here (1 wrong length on line 8 of Truck 2).']);
	});
});

describe('orders and options that make no sense', () => {
	it('refuses a part id that stands twice', () => {
		expect(() => compareDelivery([...four, ...four], [])).toThrow('is in the material list twice');
	});

	it.each(['', 'four', '-1', 'NaN', '1e3'])('refuses the part quantity "%s"', (quantity) => {
		const parts = [part({ openingId: 'S-201.1', kind: 'barrel', quantity })];
		expect(() => compareDelivery(parts, [])).toThrow(`"${quantity}" is not a quantity`);
	});

	it.each([-1, NaN])('refuses a tolerance of %s', (lengthTolerance) => {
		expect(() => compareDelivery([], [], { lengthTolerance })).toThrow('write 0 or more');
	});
});

describe('rows for the terminal', () => {
	it('has a heading and one row a line, each as long as the heading', () => {
		const comparison = compare(four, { mark: 'S-201', description: 'Guides LH', quantity: 4 });
		const [heading, first, ...rest] = comparisonRows(comparison);
		expect(first?.slice(0, 9)).toEqual([
			'Truck 1',
			'1',
			'S-201',
			'Guides LH',
			'exact',
			'each',
			'4',
			'4',
			'4'
		]);
		expect([first, ...rest].every((row) => row?.length === heading?.length)).toBe(true);
		expect(rest.every((row) => row[4] === 'notListed')).toBe(true);
	});

	it('has one row a task of an opening', () => {
		const rows = readinessRows(compare(mark('S-201', 1)));
		expect(rows.slice(1).map((row) => row.slice(0, 4))).toEqual(
			['guides', 'brackets', 'coil', 'hood', 'power'].map((task) => ['S-201.1', 'S-201', task, 'no'])
		);
	});
});
