/** Orders that are revised, compared and released. Jobs are invented; what must come of it is written by hand. */
import { describe, expect, it } from 'vitest';
import { orderedJob, type OrderedJob } from '../../../../tests/ordered-jobs.ts';
import { openingA, openingB, type Typed } from '../../../../tests/opening-rows.ts';
import type { Part } from '../../takeoff/result.ts';
import { orderChanges } from './order-changes.ts';
import { outOfStep } from './out-of-step.ts';
import { orderProposals } from './proposals.ts';
import type { OpeningPlan, PurchaseOrder } from './purchase-order.ts';
import { release, releaseHolds, type ReleaseFacts } from './release.ts';
import { reviseOrder } from './revise-order.ts';
import { dunlin, line, northreach, order } from './sample-order.ts';

const suppliers = [northreach, dunlin];

function ordered(
	job: OrderedJob,
	plans: ReadonlyMap<string, OpeningPlan> = new Map(),
	supplierId = 'northreach'
): PurchaseOrder {
	const { proposals } = orderProposals({
		...job.buying,
		plans,
		parts: job.parts,
		phases: job.phases,
		suppliers,
		ordered: new Set(),
		currency: 'USD'
	});
	const proposal = proposals.find((one) => one.supplierId === supplierId);
	if (!proposal) throw new Error(`nothing is ordered of ${supplierId}`);
	return { ...proposal, orderId: 'order-3', number: '1042-03', revision: 1 };
}

/** The job as it is now: parts that changed get ids of their own and name those before them, as the storage does it. */
function changedJob(before: OrderedJob, rows: readonly Typed[]): OrderedJob {
	const now = orderedJob(rows);
	const old = new Map(before.parts.map((part) => [part.partId, part]));
	const parts = now.parts.map((part): Part => {
		const was = old.get(part.partId);
		return was && was.interchangeKey !== part.interchangeKey
			? { ...part, partId: `${part.partId}-2`, supersedes: part.partId }
			: part;
	});
	const renamed = new Map(now.parts.map((part, i) => [part.partId, parts[i]?.partId ?? part.partId]));
	const prices = new Map([...now.buying.prices].map(([id, price]) => [renamed.get(id) ?? id, price]));
	return { ...now, parts, buying: { ...now.buying, prices } };
}

const revise = (
	last: PurchaseOrder,
	job: OrderedJob,
	more: Partial<Parameters<typeof reviseOrder>[1]> = {}
): PurchaseOrder =>
	reviseOrder(last, {
		...job.buying,
		parts: job.parts,
		phases: job.phases,
		suppliers,
		elsewhere: new Set(),
		...more
	});

const four: Typed = { ...openingA, quantity: '4' };
const before = orderedJob([four]);
const last = ordered(before);

describe('a revision', () => {
	it('of nothing changed says the same, under the next number', () => {
		const next = revise(last, before);
		expect(next).toEqual({ ...last, revision: 2 });
		expect(orderChanges(last, next, 'feetInches')).toEqual([]);
		expect(outOfStep(last, before.parts)).toEqual([]);
	});

	it('keeps the number of a line whose parts all changed', () => {
		// 4'-6" instead of 4'-0": guides 50 + 6 = 56 in.
		const now = changedJob(before, [{ ...four, openingHeight: `4'-6"` }]);
		const next = revise(last, now);
		const [left] = next.lines;
		expect(left).toMatchObject({ number: 1, title: 'Guide, left', length: 56 * 25_400_000, quantity: '4' });
		expect(left?.partIds.every((id) => id.endsWith('-2'))).toBe(true);
		// 56 in = 4.67 ft · 6.35 = 29.6545
		expect(left?.unitPrice).toBe('29.65');
		const changes = orderChanges(last, next, 'feetInches').filter((change) => change.line === 1);
		expect(changes.map(({ attribute, before: was, after }) => [attribute, was, after]).slice(0, 2)).toEqual([
			['length', `4'-2"`, `4'-8"`],
			['price', '26.48', '29.65']
		]);
		expect(changes[0]?.text).toBe(`line 1 (Guide, left, A): length 4'-8", was 4'-2".`);
		const steps = outOfStep(last, now.parts).filter((step) => step.line === 1);
		expect(steps).toHaveLength(4);
		expect(steps[0]).toMatchObject({ kind: 'changed' });
		expect(steps[0]?.text).toContain('line 1 (Guide, left, A): guide, left of A.1 changed since');
		expect(outOfStep(next, now.parts)).toEqual([]);
	});

	it('leaves the number with the larger share, and gives the other a new one', () => {
		const now = changedJob(before, [four, { mark: 'A', openingNumber: '4', openingHeight: `4'-6"` }]);
		const next = revise(last, now);
		const guides = next.lines.filter(({ title }) => title === 'Guide, left');
		expect(guides.map(({ number, quantity, openingIds }) => [number, quantity, openingIds])).toEqual([
			[1, '3', ['A.1', 'A.2', 'A.3']],
			[expect.any(Number), '1', ['A.4']]
		]);
		expect(guides[1]?.number).toBeGreaterThan(last.lines.length);
		expect(new Set(next.lines.map(({ number }) => number)).size).toBe(next.lines.length);
	});

	it('lowers and cancels what is gone, and never gives a number again', () => {
		const two = orderedJob([{ ...openingA, quantity: '2' }]);
		const fewer = revise(last, two);
		expect(fewer.lines.map(({ quantity }) => quantity)).toEqual(last.lines.map(() => '2'));
		expect(
			outOfStep(last, two.parts)
				.filter(({ line: number }) => number === 1)
				.map(({ kind }) => kind)
		).toEqual(['gone', 'gone']);

		const bare = orderedJob([{ ...openingA, quantity: '2', hood: 'none' }]);
		const without = revise(fewer, bare);
		const hood = without.lines.filter(({ kind }) => kind === 'hoodPiece' || kind === 'endCap');
		expect(hood.map(({ number, quantity, partIds, note }) => [number, quantity, partIds, note])).toEqual([
			[9, '0', [], 'Cancelled in revision 3.'],
			[10, '0', [], 'Cancelled in revision 3.'],
			[11, '0', [], 'Cancelled in revision 3.']
		]);
		const cancelled = orderChanges(fewer, without, 'feetInches');
		expect(cancelled.map(({ text }) => text)).toEqual([
			'line 9 (Hood piece, A) is cancelled; it was 2.',
			'line 10 (End cap, left, A) is cancelled; it was 2.',
			'line 11 (End cap, right, A) is cancelled; it was 2.'
		]);

		// The hoods come back: they are new lines.
		const again = revise(without, two);
		expect(again.lines.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14]);
		expect(again.lines.slice(8).map(({ title, quantity }) => [title, quantity])).toEqual([
			['Hood piece', '0'],
			['End cap, left', '0'],
			['End cap, right', '0'],
			['Hood piece', '2'],
			['End cap, left', '2'],
			['End cap, right', '2']
		]);
	});

	it('takes up what is new for its phase and release, and nothing that is ordered elsewhere', () => {
		const more = orderedJob([four, openingB]);
		const isB = new Set(more.parts.filter(({ mark }) => mark === 'B').map(({ partId }) => partId));
		const next = revise(last, more);
		const added = next.lines.filter(({ number }) => number > last.lines.length);
		expect(added.length).toBeGreaterThan(8);
		expect(new Set(added.flatMap(({ marks }) => marks))).toEqual(new Set(['B']));
		expect(revise(last, more, { elsewhere: isB }).lines).toHaveLength(last.lines.length);
		const later = new Map([
			['B.1', { openingId: 'B.1', startsOn: null, release: 2, boughtAs: 'parts' as const }]
		]);
		expect(revise(last, more, { plans: later }).lines).toHaveLength(last.lines.length);
	});

	it('keeps a price that was agreed, and what somebody wrote, as long as the thing is the same', () => {
		const agreed = {
			...last,
			lines: last.lines.map((one) =>
				one.number <= 2 ? { ...one, unitPrice: '25.00', note: 'Label by opening.' } : one
			)
		};
		const five = revise(agreed, orderedJob([{ ...openingA, quantity: '5' }]));
		expect(five.lines[0]).toMatchObject({ quantity: '5', unitPrice: '25.00', note: 'Label by opening.' });
		const taller = revise(agreed, changedJob(before, [{ ...four, openingHeight: `4'-6"` }]));
		expect(taller.lines[0]).toMatchObject({ unitPrice: '29.65', note: 'Label by opening.' });
	});

	it('follows a part through two changes', () => {
		const [first] = before.parts;
		if (!first) throw new Error('the job has parts');
		const parts = before.parts.map((part) =>
			part === first ? { ...part, partId: 'P-3', supersedes: 'P-2' } : part
		);
		const predecessors = new Map([['P-2', first.partId]]);
		const next = revise(last, { ...before, parts }, { predecessors });
		const place = last.lines.find(({ partIds }) => partIds.includes(first.partId))?.number;
		expect(next.lines.find(({ partIds }) => partIds.includes('P-3'))?.number).toBe(place);
		expect(outOfStep(last, parts, predecessors).map(({ kind }) => kind)).toEqual(['changed']);
	});

	it('fills boxes up anew under the number they had', () => {
		const stock = ordered(before, new Map(), 'dunlin');
		const anchors = (of: PurchaseOrder) =>
			of.lines
				.filter(({ title }) => title.startsWith('Screw anchor'))
				.map(({ number, quantity }) => [number, quantity]);
		// 48 and 52 are 2 boxes of 50. 8 openings: 96 · 1.10 = 105.6, 3 boxes: 96 and 54.
		expect(anchors(stock)).toEqual([
			[1, '48'],
			[2, '52']
		]);
		expect(anchors(revise(stock, orderedJob([{ ...openingA, quantity: '8' }])))).toEqual([
			[1, '96'],
			[2, '54']
		]);
	});

	it('keeps complete units complete', () => {
		const plans = new Map(
			before.parts.map(({ openingId }) => [
				openingId,
				{ openingId, startsOn: null, release: 1, boughtAs: 'unit' as const }
			])
		);
		const units = ordered(before, plans);
		expect(units.lines).toHaveLength(1);
		const bare = orderedJob([{ ...four, hood: 'none' }]);
		const without = revise(units, bare, { plans });
		expect(without.lines).toHaveLength(1);
		expect(without.lines[0]?.quantity).toBe('4');
		// 1221.26 − 80.52 − 2 · 9.75
		expect(without.lines[0]?.unitPrice).toBe('1121.24');
		// And the other way: what a unit needs more is told, and taken up.
		const steps = outOfStep(without, before.parts);
		expect(steps.map(({ kind }) => kind)).toEqual(Array.from({ length: 12 }, () => 'missing'));
		expect(revise(without, before, { plans }).lines[0]?.partIds).toHaveLength(4 * 11);
		expect(revise(without, before).lines).toHaveLength(1);
	});
});

describe('changes', () => {
	it('tell prices apart from everything else', () => {
		const a = order([line({ number: 1 })]);
		const b = order(
			[
				line({ number: 1, unitPrice: '26.50', hand: 'right', needBy: null, partIds: ['P-1', 'P-9'] }),
				line({ number: 2 })
			],
			{
				revision: 2,
				currency: 'CAD'
			}
		);
		expect(
			orderChanges(a, b, 'feetInches').map(({ line: number, attribute, text, aboutMoney }) => [
				number,
				attribute,
				text,
				aboutMoney
			])
		).toEqual([
			[null, 'currency', 'The order is in CAD, was in USD.', true],
			[1, 'hand', 'line 1 (Guide, left, C-101): hand right, was left.', false],
			[1, 'price', 'line 1 (Guide, left, C-101): unit price 26.50, was 26.48.', true],
			[1, 'needBy', 'line 1 (Guide, left, C-101): wanted on site none, was 2026-12-10.', false],
			[1, 'parts', 'line 1 (Guide, left, C-101): parts without P-2, now with P-9.', false],
			[2, 'line', 'line 2 (Guide, left, C-101) is new: 2.', false]
		]);
	});

	it('are of one order', () => {
		expect(() => orderChanges(order([]), order([], { orderId: 'other' }), 'mm')).toThrow(
			'not revisions of one order'
		);
	});
});

describe('letting an order go', () => {
	const facts = (more: Partial<ReleaseFacts> = {}): ReleaseFacts => ({
		measures: new Map([
			['C-101.1', { verdict: 'agrees', text: '' }],
			['C-101.2', { verdict: 'agrees', text: '' }]
		]),
		stops: new Map(),
		undecided: [],
		outOfStep: [],
		...more
	});
	const sent = order([line({ number: 1 })]);
	const who = { by: 'Ines', at: '2026-09-01T09:00:00.000Z' };

	it('is free where every opening agrees', () => {
		expect(releaseHolds(sent, facts())).toEqual([]);
		expect(release([], { ...who, reason: 'not needed' })).toEqual({
			ok: true,
			released: { ...who, reason: null }
		});
	});

	it('is held by what is not measured, stopped, out of step or undecided', () => {
		const holds = releaseHolds(
			sent,
			facts({
				measures: new Map([['C-101.2', { verdict: 'stop', text: `the width is 1/2" less than drawn.` }]]),
				stops: new Map([['C-101.2', ['Headroom 10 in, 12 in needed.']]]),
				undecided: ['line 1: price 27.00 answered, 26.48 ordered.'],
				outOfStep: ['line 1: part P-1 is not needed any more.']
			})
		);
		expect(holds.map(({ kind, openingId, text }) => [kind, openingId, text])).toEqual([
			['notMeasured', 'C-101.1', 'C-101.1 is not measured.'],
			['measure', 'C-101.2', `C-101.2: the width is 1/2" less than drawn.`],
			['stop', 'C-101.2', 'C-101.2: Headroom 10 in, 12 in needed.'],
			['outOfStep', null, 'line 1: part P-1 is not needed any more.'],
			['difference', null, 'line 1: price 27.00 answered, 26.48 ordered.']
		]);
	});

	it('holds for a measure that is not finished, and for nothing to order; cancelled lines hold nothing', () => {
		const some = facts({ measures: new Map([['C-101.1', { verdict: 'incomplete', text: 'no height.' }]]) });
		expect(releaseHolds(sent, some).map(({ kind }) => kind)).toEqual(['incomplete', 'notMeasured']);
		const none = order([line({ number: 1, quantity: '0', partIds: [] })]);
		expect(releaseHolds(none, facts({ measures: new Map() })).map(({ kind }) => kind)).toEqual(['empty']);
		// A later revision that cancels everything has to go out too.
		expect(releaseHolds({ ...none, revision: 2 }, facts({ measures: new Map() }))).toEqual([]);
		const unit = order([line({ number: 1, scope: 'unit', kind: null, title: 'Complete unit' })]);
		expect(releaseHolds(unit, facts()).map(({ text }) => text)).toEqual([
			'line 1 (Complete unit, C-101) says no size of its opening.'
		]);
	});

	it('takes a reason that says something', () => {
		const holds = releaseHolds(sent, facts({ measures: new Map() }));
		for (const reason of [null, '', '  \t\n', '\u200B', '\u00A0'])
			expect(release(holds, { ...who, reason })).toMatchObject({ ok: false });
		expect(release(holds, { ...who, reason: null })).toEqual({
			ok: false,
			message:
				'2 things hold this order: C-101.1 is not measured. And others. Clear them, or write why it goes out all the same.'
		});
		expect(release(holds, { ...who, reason: ' x ' })).toEqual({
			ok: true,
			released: { ...who, reason: 'x' }
		});
	});
});
