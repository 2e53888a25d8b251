/** Answers to an order, invented, each with what must differ written by hand. */
import { describe, expect, it } from 'vitest';
import type { AcknowledgedLine, Acknowledgement } from './acknowledgement.ts';
import { compareAcknowledgement } from './compare-acknowledgement.ts';
import { openDifferences } from './open-differences.ts';
import { inch, line, northreach, order } from './sample-order.ts';

const guide = line({ number: 1 });
const right = line({ number: 2, title: 'Guide, right', hand: 'right' });
const bracket = line({
	number: 3,
	kind: 'bracket',
	title: 'Bracket, left',
	size: '16',
	length: null,
	hand: null,
	quantity: '8',
	finish: '',
	unitPrice: '29.00'
});
const ours = order([guide, right, bracket], { revision: 2 });

const agreeing = (number: number, more: Partial<AcknowledgedLine> = {}): AcknowledgedLine => ({
	line: number + 5,
	orderLine: number,
	mark: null,
	description: '',
	quantity: null,
	unit: null,
	unitPrice: null,
	length: null,
	width: null,
	size: null,
	hand: null,
	finish: null,
	promised: null,
	answer: null,
	...more
});

const whole = (lines: readonly AcknowledgedLine[], more: Partial<Acknowledgement> = {}): Acknowledgement => ({
	number: 'NA-77',
	orderNumber: '1042-03',
	orderRevision: 2,
	currency: 'USD',
	promised: null,
	whole: null,
	lines,
	...more
});

const options = { supplier: northreach, style: 'feetInches' as const };
const differences = (
	answer: Acknowledgement,
	more: Partial<Parameters<typeof compareAcknowledgement>[2]> = {}
) => compareAcknowledgement(ours, answer, { ...options, ...more });

/** The first line answered so, the others as ordered. */
const first = (more: Partial<AcknowledgedLine>, of = differences) =>
	of(whole([agreeing(1, more), agreeing(2), agreeing(3)]));
const attributes = (list: readonly { readonly attribute: string }[]): string[] =>
	list.map(({ attribute }) => attribute);

describe('an answer', () => {
	it('that says the same differs in nothing', () => {
		const same = agreeing(1, {
			quantity: '2',
			unit: 'EA',
			unitPrice: '26.480',
			length: 50 * inch,
			hand: 'left',
			finish: 'Graphite powder coat',
			promised: '2026-12-10',
			answer: 'accepted'
		});
		expect(differences(whole([same, agreeing(2), agreeing(3, { size: '16 in', quantity: '8.0' })]))).toEqual(
			[]
		);
	});

	it.each([
		[
			'price',
			{ unitPrice: '26.49' },
			'line 1 (Guide, left, C-101): unit price 26.49 answered, 26.48 ordered.'
		],
		['quantity', { quantity: '3' }, 'line 1 (Guide, left, C-101): quantity 3 answered, 2 ordered.'],
		['length', { length: 51 * inch }, `line 1 (Guide, left, C-101): length 4'-3" answered, 4'-2" ordered.`],
		[
			'hand',
			{ hand: 'right' },
			'line 1 (Guide, left, C-101): hand right answered, left ordered, seen from the coil side.'
		],
		[
			'finish',
			{ finish: 'mill' },
			'line 1 (Guide, left, C-101): finish mill answered, powder-graphite ordered.'
		],
		[
			'promised',
			{ promised: '2026-12-11' },
			'line 1 (Guide, left, C-101): promised for 2026-12-11, wanted on site by 2026-12-10.'
		],
		['unit', { unit: 'pair' }, 'line 1 (Guide, left, C-101): counted in pair, ordered in each.'],
		['refused', { answer: 'refused' }, 'line 1 (Guide, left, C-101): the supplier does not deliver it.'],
		[
			'line',
			{ answer: 'changed' },
			'line 1 (Guide, left, C-101): the supplier calls it changed, and nothing that could be compared differs: ask what changed.'
		]
	] as const)('differs in its %s', (attribute, more, text) => {
		const [found, ...others] = first(more);
		expect(others).toEqual([]);
		expect(found).toMatchObject({ orderLine: 1, attribute, text, aboutMoney: attribute === 'price' });
	});

	it('keeps to the tolerance: under, at and over 1/16 in', () => {
		const sixteenth = inch / 16;
		expect(first({ length: 50 * inch + sixteenth - 1 })).toEqual([]);
		expect(first({ length: 50 * inch - sixteenth })).toEqual([]);
		const [over] = first({ length: 50 * inch + sixteenth + 1 });
		expect(over).toMatchObject({ attribute: 'length', ordered: `4'-2"`, answered: `4'-2 1/16"` });
		// Two lengths the style cannot tell apart are said exactly.
		const tight = (answer: Acknowledgement) => differences(answer, { tolerance: 0 });
		expect(first({ length: 50 * inch + 1000 }, tight)[0]).toMatchObject({
			ordered: '50"',
			answered: '1270.001 mm'
		});
	});

	it('is seen from the side the supplier stands on', () => {
		const farSide = { ...northreach, handsFrom: 'farSide' as const };
		const from = (answer: Acknowledgement) => differences(answer, { supplier: farSide });
		expect(first({ hand: 'right' }, from)).toEqual([]);
		expect(first({ description: 'Guide RH' }, from)).toEqual([]);
		expect(attributes(first({ hand: 'left' }, from))).toEqual(['hand']);
		expect(attributes(first({ description: 'Guide RH' }))).toEqual(['hand']);
	});

	it('counts pairs where that is plain, and has somebody look', () => {
		const pairs = agreeing(3, { quantity: '4', unit: 'PR', unitPrice: '58.00' });
		expect(attributes(differences(whole([agreeing(1), agreeing(2), pairs])))).toEqual(['unit']);
		// 3 pairs are 6 of 8; 59.00 a pair is 29.50.
		const fewer = differences(
			whole([agreeing(1), agreeing(2), { ...pairs, quantity: '3', unitPrice: '59.00' }])
		);
		expect(fewer.map(({ attribute, ordered, answered }) => [attribute, ordered, answered])).toEqual([
			['unit', '8', '3 PR'],
			['price', '29.00', '29.50'],
			['quantity', '8', '6']
		]);
		// Of a line of one hand a pair may be one of each: nothing is converted.
		expect(attributes(first({ quantity: '1', unit: 'pair' }))).toEqual(['unit']);
	});

	it('adds up a line that is sent in two', () => {
		const two = (a: string, b: string) =>
			differences(
				whole([agreeing(1), agreeing(2), agreeing(3, { quantity: a }), agreeing(3, { line: 9, quantity: b })])
			);
		expect(two('5', '3')).toEqual([]);
		expect(two('5', '2')[0]).toMatchObject({ attribute: 'quantity', ordered: '8', answered: '7' });
	});

	it('tells of another order, another revision, another currency', () => {
		const as = (more: Partial<Acknowledgement>) =>
			attributes(differences(whole([agreeing(1), agreeing(2), agreeing(3)], more)));
		expect(as({ orderRevision: 1 })).toEqual(['revision']);
		expect(as({ orderRevision: null, orderNumber: null, currency: null })).toEqual([]);
		expect(as({ orderNumber: 'PO 1042-3' })).toEqual([]);
		expect(as({ orderNumber: '1042-04' })).toEqual(['revision']);
		expect(as({ currency: 'CAD' })).toEqual(['price']);
	});

	it('tells what is missing and what was not ordered', () => {
		const found = differences(
			whole([agreeing(1), agreeing(3), agreeing(9, { description: 'Side channel', quantity: '2' })])
		);
		expect(found.map(({ orderLine, attribute, text }) => [orderLine, attribute, text])).toEqual([
			[2, 'line', 'line 2 (Guide, right, C-101): 2 ordered, and the answer says nothing of it.'],
			[null, 'line', 'Line 14 of the answer (order line 9, Side channel) is no line of the order.']
		]);
	});

	it('takes or refuses the whole order', () => {
		expect(differences(whole([], { whole: 'accepted', promised: '2026-12-10' }))).toEqual([]);
		const late = differences(whole([], { whole: 'accepted', promised: '2026-12-14' }));
		expect(late.map(({ orderLine, attribute }) => [orderLine, attribute])).toEqual([
			[1, 'promised'],
			[2, 'promised'],
			[3, 'promised']
		]);
		expect(attributes(differences(whole([], { whole: 'refused' })))).toEqual(['refused']);
		// Neither lines nor a word on the whole: every line is unanswered.
		expect(attributes(differences(whole([])))).toEqual(['line', 'line', 'line']);
	});

	it('finds its line by mark, words and sizes where only one fits', () => {
		const named = (more: Partial<AcknowledgedLine>) =>
			differences(whole([agreeing(2), agreeing(3), agreeing(1, { orderLine: null, ...more })]));
		expect(named({ mark: 'c-101', description: 'Guide, LH', length: 50 * inch })).toEqual([]);
		expect(attributes(named({ mark: 'C-101', description: 'Guide, LH', length: 52 * inch }))).toEqual([
			'length'
		]);
		// Without a hand it could be either: nobody guesses.
		const [asked] = named({ description: 'Guide', length: 50 * inch }).filter(
			({ orderLine }) => orderLine === null
		);
		expect(asked?.text).toBe('Line 6 of the answer (Guide) could be lines 1, 2 of the order.');
		expect(named({ mark: 'X-1', description: 'Guide, LH' }).map(({ attribute }) => attribute)).toEqual([
			'line',
			'line'
		]);
	});

	it('needs no word on a line that is cancelled, but tells of one that is delivered all the same', () => {
		const without = order([guide, { ...right, quantity: '0', partIds: [], openingIds: [] }], { revision: 2 });
		expect(compareAcknowledgement(without, whole([agreeing(1)]), options)).toEqual([]);
		const still = compareAcknowledgement(
			without,
			whole([agreeing(1), agreeing(2, { quantity: '2' })]),
			options
		);
		expect(still[0]).toMatchObject({ attribute: 'quantity', ordered: '0', answered: '2' });
	});
});

describe('the key of a difference', () => {
	const key = (more: Partial<AcknowledgedLine>): string => first(more)[0]?.key ?? '';

	it('is the same for the same difference, however it is spelled', () => {
		expect(key({ unitPrice: '27' })).toBe(key({ unitPrice: '27.00' }));
		expect(key({ finish: 'Bronze powder' })).toBe(key({ finish: 'powder-bronze', line: 30 }));
	});

	it('is another for another figure, line or attribute', () => {
		const keys = [
			key({ unitPrice: '27' }),
			key({ unitPrice: '27.01' }),
			key({ length: 52 * inch }),
			key({ length: 53 * inch }),
			key({ promised: '2026-12-11' }),
			key({ promised: '2026-12-14' })
		];
		expect(new Set(keys).size).toBe(keys.length);
		// The order itself says another figure now: what was signed off was against the old one.
		const dearer = order([line({ number: 1, unitPrice: '30.00' })], { revision: 2 });
		const [found] = compareAcknowledgement(dearer, whole([agreeing(1, { unitPrice: '27' })]), options);
		expect(found?.key).not.toBe(key({ unitPrice: '27' }));
	});
});

describe('what is open', () => {
	const late = line({ number: 2, orderBy: '2026-11-05' });
	const never = line({ number: 3, orderBy: null });
	const dated = order([guide, late, never]);
	const found = compareAcknowledgement(
		dated,
		whole(
			[agreeing(1, { unitPrice: '30' }), agreeing(2, { unitPrice: '31' }), agreeing(3, { unitPrice: '32' })],
			{ orderRevision: 3 }
		),
		options
	);
	const at = (today: string, decisions: Parameters<typeof openDifferences>[2] = []) =>
		openDifferences(dated, found, decisions, today).map(({ difference, due, overdue, state }) => [
			difference.orderLine,
			due,
			overdue,
			state
		]);
	const decision = (index: number, kind: 'signedOff' | 'sentBack', moment: string) => ({
		key: found[index]?.key ?? '',
		decision: kind,
		reason: 'agreed by telephone',
		by: 'Ines',
		at: moment
	});

	it('is dated, the most urgent first, and overdue from the day after', () => {
		expect(at('2026-10-29')).toEqual([
			[null, '2026-10-29', false, 'undecided'],
			[1, '2026-10-29', false, 'undecided'],
			[2, '2026-11-05', false, 'undecided'],
			[3, null, false, 'undecided']
		]);
		expect(at('2026-10-30').map(([, , overdue]) => overdue)).toEqual([true, true, false, false]);
	});

	it('is closed by a sign-off, and not by sending it back', () => {
		expect(at('2026-10-01', [decision(1, 'signedOff', '2026-10-01T08:00:00Z')])).toHaveLength(3);
		const back = [
			decision(1, 'signedOff', '2026-10-01T08:00:00Z'),
			decision(1, 'sentBack', '2026-10-01T09:00:00Z')
		];
		expect(at('2026-10-01', back).find(([number]) => number === 1)).toEqual([
			1,
			'2026-10-29',
			false,
			'sentBack'
		]);
		expect(at('2026-10-01', back.toReversed()).find(([number]) => number === 1)?.[3]).toBe('sentBack');
	});

	it('is not closed for another figure than was signed off', () => {
		const signed = [decision(1, 'signedOff', '2026-10-01T08:00:00Z')];
		const again = compareAcknowledgement(
			dated,
			whole([agreeing(1, { unitPrice: '30.50' }), agreeing(2), agreeing(3)], { orderRevision: 1 }),
			options
		);
		expect(openDifferences(dated, again, signed, '2026-10-01')).toHaveLength(1);
		const agreed = compareAcknowledgement(
			dated,
			whole([agreeing(1, { unitPrice: '26.48' }), agreeing(2), agreeing(3)], { orderRevision: 1 }),
			options
		);
		expect(openDifferences(dated, agreed, signed, '2026-10-01')).toEqual([]);
	});
});
