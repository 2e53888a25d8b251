import { describe, expect, it } from 'vitest';
import { part } from '../sample-parts.ts';
import { clearToStart, type ClearToStart } from './clear-to-start.ts';
import { dealForMost, dealInOrder } from './dealing.ts';
import type { Hold } from './holds.ts';
import type { Arrival, MeasureStanding, OrderStanding, PartStanding, ReadinessInputs } from './inputs.ts';
import { arrival, barrel, guide } from './sample-standings.ts';
import { toDeal } from './to-deal.ts';

const [one, two] = ['C-101.1', 'C-101.2'];
const openingsOf = (...ids: readonly string[]): ReadinessInputs['openings'] =>
	ids.map((openingId) => ({ openingId, mark: openingId.replace(/\.\d+$/u, '') }));

/** Everything was asked for, and nothing but the parts holds anything. */
function judge(parts: readonly PartStanding[], more: Partial<ReadinessInputs> = {}): ClearToStart {
	const openings = openingsOf(...new Set(parts.map(({ part: { openingId } }) => openingId)));
	const measures = openings.map(({ openingId }): MeasureStanding => ({
		openingId,
		verdict: 'agrees',
		at: '2026-09-01T10:00:00Z',
		by: 'Installer 1',
		texts: []
	}));
	return clearToStart({ openings, parts, stops: [], measures, decisions: [], ...more });
}

const whole = arrival({ whole: '1' });
const holdsOf = ({ openings }: ClearToStart, at = 0): readonly Hold[] => [
	...(openings[at]?.holds ?? []),
	...(openings[at]?.tasks.flatMap(({ holds }) => holds) ?? [])
];

describe('parts', () => {
	it('one whose parts are all whole and right here is clear, and everything was checked', () => {
		const found = judge([guide(one, [whole]), barrel(one, [whole])]);
		expect(found).toEqual({
			openings: [
				{
					openingId: one,
					mark: 'C-101',
					clear: true,
					holds: [],
					tasks: [
						{ task: 'guides', partsHere: true, clear: true, holds: [] },
						{ task: 'coil', partsHere: true, clear: true, holds: [] }
					]
				}
			],
			notChecked: [],
			byList: []
		});
	});

	it('guides may start while the barrel is missing', () => {
		const { openings } = judge([guide(one, [whole]), barrel(one, [])]);
		expect(openings[0]?.clear).toBe(false);
		expect(openings[0]?.tasks.map(({ task, clear }) => [task, clear])).toEqual([
			['guides', true],
			['coil', false]
		]);
	});

	const northreach = { supplier: 'Northreach Shutter Works' };
	const order = (state: OrderStanding['state'], promised: string | null = null): OrderStanding => {
		if (state === 'notOrdered') return { state };
		const named = { orderNumber: '1042-03', supplier: northreach.supplier };
		if (state === 'ordered') return { state, ...named, sentAt: '2026-10-05T08:00:00Z' };
		return { state, ...named, answeredAt: '2026-10-12T08:00:00Z', promised };
	};
	const came = '2026-11-03T09:00:00Z';
	it.each<[string, Arrival[], OrderStanding | null, Pick<Hold, 'reason' | 'text' | 'who' | 'since'>]>([
		[
			'not ordered',
			[],
			order('notOrdered'),
			{ reason: 'notOrdered', text: '1 of 1 not ordered.', who: 'purchasing', since: null }
		],
		[
			'ordered and not acknowledged',
			[],
			order('ordered'),
			{
				reason: 'ordered',
				text: '1 of 1 ordered, not acknowledged (order 1042-03).',
				who: northreach,
				since: '2026-10-05T08:00:00Z'
			}
		],
		[
			'promised',
			[],
			order('acknowledged', '2026-12-01'),
			{
				reason: 'acknowledged',
				text: '1 of 1 promised for 2026-12-01 (order 1042-03).',
				who: northreach,
				since: '2026-10-12T08:00:00Z'
			}
		],
		[
			'acknowledged without a day',
			[],
			order('acknowledged'),
			{
				reason: 'acknowledged',
				text: '1 of 1 acknowledged without a day (order 1042-03).',
				who: northreach,
				since: '2026-10-12T08:00:00Z'
			}
		],
		[
			'refused',
			[],
			order('refused'),
			{
				reason: 'refused',
				text: '1 of 1 refused by the supplier (order 1042-03).',
				who: 'purchasing',
				since: '2026-10-12T08:00:00Z'
			}
		],
		[
			'on no list, its order not looked at',
			[],
			null,
			{ reason: 'notListed', text: '1 of 1 on no packing list.', who: 'purchasing', since: null }
		],
		[
			'backordered',
			[arrival({ backordered: '1' })],
			order('acknowledged'),
			{ reason: 'backordered', text: '1 of 1 backordered (Truck 1, line 7).', who: northreach, since: came }
		],
		[
			'damaged',
			[arrival({ damaged: '1' }, { lines: [7, 9] })],
			order('acknowledged'),
			{ reason: 'damaged', text: '1 of 1 damaged (Truck 1, lines 7, 9).', who: 'purchasing', since: came }
		],
		[
			'wrong, and in what',
			[arrival({ wrong: '1' }, { wrongIn: ['length', 'hand'] })],
			order('acknowledged'),
			{
				reason: 'wrong',
				text: '1 of 1 wrong length, hand (Truck 1, line 7).',
				who: 'purchasing',
				since: came
			}
		],
		[
			'short of the list',
			[arrival({ missing: '1' }, { lines: [] })],
			order('acknowledged'),
			{ reason: 'missing', text: '1 of 1 missing (Truck 1).', who: 'purchasing', since: came }
		]
	])('%s: says so, who can do something about it, and since when', (_, arrivals, standing, expected) => {
		const [hold, ...others] = holdsOf(judge([guide(one, arrivals, standing)]));
		expect(others).toEqual([]);
		expect(hold).toEqual({
			task: 'guides',
			kind: 'part',
			partIds: [`${one}/guide/left`],
			...expected,
			text: `Guide, left: ${expected.text}`
		});
	});

	it('says every reason of a lot with its pieces: 4 needed, 1 whole, 1 damaged, 2 on order', () => {
		const four = guide(one, [arrival({ whole: '1', damaged: '1' })]);
		const found = judge([{ ...four, part: { ...four.part, quantity: '4' } }]);
		expect(holdsOf(found).map(({ text }) => text)).toEqual([
			'Guide, left: 1 of 4 damaged (Truck 1, line 7).',
			'Guide, left: 2 of 4 promised for 2026-12-01 (order 1042-03).'
		]);
	});

	it('a damaged piece that a later truck made good holds nothing', () => {
		const later = arrival({ whole: '1' }, { deliveryId: 'truck-2', name: 'Truck 2' });
		expect(judge([guide(one, [arrival({ damaged: '1' }), later])]).openings[0]?.clear).toBe(true);
	});

	it('the shop’s own stock holds only where a list names it', () => {
		const anchors = part({ openingId: one, kind: 'anchor', quantity: '6', supply: 'stock', task: 'guides' });
		const unlisted = judge([
			guide(one, [whole]),
			{ part: anchors, listed: false, arrivals: [], order: null }
		]);
		expect(unlisted.openings[0]?.clear).toBe(true);
		expect(unlisted.notChecked).toEqual(['stock']);
		const listed = judge([
			guide(one, [whole]),
			{ part: anchors, listed: true, arrivals: [arrival({ whole: '4', missing: '2' })], order: null }
		]);
		expect(listed.openings[0]?.clear).toBe(false);
		expect(listed.notChecked).toEqual(['orders']);
	});
});

describe('a packing list is a promise', () => {
	const listed = guide(one, [arrival({ whole: '1' }, { counted: false })]);

	it('counts where nobody counted, and the answer names the delivery', () => {
		const found = judge([listed]);
		expect(found.openings[0]?.clear).toBe(true);
		expect(found.byList).toEqual([{ deliveryId: 'truck-1', name: 'Truck 1' }]);
		expect(found.notChecked).toEqual(['counts']);
	});

	it('holds until it is counted, where counts are required', () => {
		const found = judge([listed], { counted: 'required' });
		expect(found.byList).toEqual([]);
		expect(found.notChecked).toEqual([]);
		expect(holdsOf(found)).toMatchObject([
			{
				reason: 'notCounted',
				text: 'Guide, left: 1 of 1 listed, not counted yet (Truck 1, line 7).',
				who: 'installer'
			}
		]);
	});
});

describe('what holds the whole opening', () => {
	it('a stop, with everything here: the estimator, since when', () => {
		const text = 'Headroom is 13 in, needed 13 1/2 in.';
		const stops = [{ openingId: one, since: '2026-08-01T00:00:00Z', texts: [text] }];
		const { openings } = judge([guide(one, [whole]), barrel(one, [whole])], { stops });
		expect(openings[0]).toMatchObject({ clear: false });
		expect(openings[0]?.holds).toEqual([
			{
				task: null,
				kind: 'stop',
				reason: null,
				text,
				who: 'estimator',
				since: '2026-08-01T00:00:00Z',
				partIds: []
			}
		]);
		expect(openings[0]?.tasks.map(({ partsHere, clear }) => [partsHere, clear])).toEqual([
			[true, false],
			[true, false]
		]);
	});

	it.each<[string, MeasureStanding | null, string, Hold['who']]>([
		['nobody took', null, 'Not measured yet.', 'installer'],
		[
			'that was taken back',
			{ openingId: one, verdict: 'none', at: null, by: null, texts: [] },
			'Not measured yet.',
			'installer'
		],
		[
			'that is not complete',
			{
				openingId: one,
				verdict: 'incomplete',
				at: '2026-11-01T10:00:00Z',
				by: 'Installer 1',
				texts: ['No diagonals.']
			},
			'The field measure is not complete. No diagonals. Measured by Installer 1.',
			'installer'
		],
		[
			'that does not agree',
			{
				openingId: one,
				verdict: 'stop',
				at: '2026-11-01T10:00:00Z',
				by: null,
				texts: ['Width is 9 ft 11 in, ordered for 10 ft 0 in.']
			},
			'The field measure does not agree with what was ordered. Width is 9 ft 11 in, ordered for 10 ft 0 in.',
			'purchasing'
		]
	])('a measure %s', (_, measure, text, who) => {
		const found = judge([guide(one, [whole])], { measures: measure ? [measure] : [] });
		expect(found.openings[0]?.clear).toBe(false);
		expect(found.openings[0]?.holds).toMatchObject([
			{ kind: 'measure', text, who, since: measure?.at ?? null }
		]);
	});

	it('what was not asked for is said not to be checked, and holds nothing', () => {
		const found = clearToStart({ openings: openingsOf(one), parts: [guide(one, [whole], null)] });
		expect(found.openings[0]?.clear).toBe(true);
		expect(found.notChecked).toEqual(['stops', 'fieldMeasure', 'orders', 'decisions']);
	});

	it('an opening without parts is not clear', () => {
		const found = clearToStart({ openings: openingsOf(one), parts: [] });
		expect(found.openings).toMatchObject([{ clear: false, tasks: [] }]);
		expect(dealForMost(toDeal({ openings: openingsOf(one), parts: [] }, null)).clear).toBe(0);
	});
});

describe('open questions', () => {
	const question = {
		partIds: [`${one}/guide/left`, `${two}/guide/left`],
		text: 'Line 4 of Truck 1 may be for C-101.1 or C-101.2.',
		who: 'purchasing' as const,
		since: '2026-11-03T09:00:00Z'
	};

	it('stand at the tasks of parts that are short, and nowhere else', () => {
		const found = judge([guide(one, [whole]), guide(two, [])], { decisions: [question] });
		expect(holdsOf(found, 0)).toEqual([]);
		expect(holdsOf(found, 1)).toMatchObject([
			{ kind: 'part' },
			{ kind: 'decision', text: question.text, who: 'purchasing', partIds: [`${two}/guide/left`] }
		]);
	});
});

describe('parts that may stand in for one another', () => {
	// The guide of the first is here, that of the second is damaged; the barrel of the second is here, that of the first is not.
	const inputs: ReadinessInputs = {
		openings: openingsOf(one, two),
		parts: [
			guide(one, [whole]),
			barrel(one, [], { state: 'notOrdered' }),
			guide(two, [arrival({ damaged: '1' })]),
			barrel(two, [whole])
		],
		stops: [],
		decisions: []
	};
	const clear = (found: ClearToStart): string[] =>
		found.openings.filter((opening) => opening.clear).map(({ openingId }) => openingId);

	it('each keeping what came for it, nobody is clear', () => {
		expect(clear(clearToStart(inputs))).toEqual([]);
	});

	it('dealt in the wanted order or for the most the first is clear, and the second says why', () => {
		for (const dealing of [dealInOrder(toDeal(inputs, null)), dealForMost(toDeal(inputs, null))]) {
			const found = clearToStart({ ...inputs, dealing });
			expect(clear(found)).toEqual([one]);
			expect(holdsOf(found, 1)).toMatchObject([
				{ reason: 'damaged', text: 'Guide, left: 1 of 1 damaged (Truck 1, line 7).' },
				{
					reason: 'notOrdered',
					text: 'Barrel: 1 of 1 dealt to another opening; that for C-101.1 is not ordered.',
					partIds: ['C-101.2/barrel']
				}
			]);
		}
	});

	it('one that is held gives its parts to another', () => {
		const stopped: ReadinessInputs = {
			...inputs,
			stops: [{ openingId: one, since: null, texts: ['Opening width is missing.'] }]
		};
		const dealing = dealForMost(toDeal(stopped, null));
		const found = clearToStart({ ...stopped, dealing });
		expect(clear(found)).toEqual([two]);
		expect(holdsOf(found, 0).map(({ text }) => text)).toEqual([
			'Opening width is missing.',
			'Guide, left: 1 of 1 dealt to another opening; that for C-101.2 is damaged (Truck 1, line 7).',
			'Barrel: 1 of 1 not ordered.'
		]);
	});

	it('what came beyond the order is dealt out too', () => {
		const { interchangeKey } = guide(one, []).part;
		const more = { ...inputs, spare: [{ interchangeKey, quantity: '1' }] };
		const dealing = dealInOrder(toDeal(more, 'guides'));
		expect(dealing.clear).toBe(2);
		const found = clearToStart({ ...more, dealing });
		expect(found.openings.map(({ tasks }) => tasks[0]?.clear)).toEqual([true, true]);
	});

	it('a dealing of other parts is refused', () => {
		const none = dealInOrder({ ...toDeal(inputs, null), supplies: [] });
		expect(() => clearToStart({ ...inputs, dealing: none })).toThrow(
			'the dealing gave C-101.1 fewer pieces of Guide, left than are here for it'
		);
	});
});

describe('inputs that make no sense', () => {
	it('are refused by name', () => {
		const parts = [guide(one, [])];
		expect(() => clearToStart({ openings: [], parts })).toThrow(
			'Guide, left is for C-101.1, which is not in the wanted order'
		);
		expect(() => clearToStart({ openings: openingsOf(one, one), parts })).toThrow('twice');
		expect(() => clearToStart({ openings: openingsOf(one), parts: [...parts, ...parts] })).toThrow(
			'part C-101.1/guide/left (Guide, left) is given twice'
		);
		const torn = [guide(one, [arrival({ whole: 'some' })])];
		expect(() => clearToStart({ openings: openingsOf(one), parts: torn })).toThrow(
			'"some" is not a quantity'
		);
	});
});
