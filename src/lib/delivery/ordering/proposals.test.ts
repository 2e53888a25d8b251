/** Orders against the takeoff they come from: nothing lost, nothing twice. Both demo jobs are invented. */
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { demoJob, orderedJob, type OrderedJob } from '../../../../tests/ordered-jobs.ts';
import { engineOf, openingA, openingB } from '../../../../tests/opening-rows.ts';
import { totalsOf } from '../../takeoff/totals.ts';
import type { Part } from '../../takeoff/result.ts';
import type { OpeningPlan, PurchaseLine, Supplier } from './purchase-order.ts';
import { orderProposals, type ProposalRequest, type Proposals } from './proposals.ts';
import { dunlin, northreach } from './sample-order.ts';

const requestFor = (job: OrderedJob, more: Partial<ProposalRequest> = {}): ProposalRequest => ({
	...job.buying,
	parts: job.parts,
	phases: job.phases,
	suppliers: [northreach, dunlin],
	ordered: new Set(),
	currency: 'USD',
	...more
});

const linesOf = ({ proposals }: Proposals): PurchaseLine[] => proposals.flatMap(({ lines }) => lines);

/** What of each thing is in a list, exact. */
function sums<T>(
	list: readonly T[],
	key: (one: T) => string,
	quantity: (one: T) => string
): Record<string, string> {
	const totals = new Map<string, Decimal>();
	for (const one of list) totals.set(key(one), (totals.get(key(one)) ?? new Decimal(0)).plus(quantity(one)));
	return Object.fromEntries([...totals].sort().map(([name, total]) => [name, total.toFixed()]));
}

const thing = (one: Part | PurchaseLine): string =>
	JSON.stringify([one.kind, one.item, one.size, one.length, one.width, one.hand, one.finish, one.unit]);

/** Openings in two releases, every third of them bought complete. */
function mixedPlans(job: OrderedJob): ReadonlyMap<string, OpeningPlan> {
	const openings = [...new Set(job.parts.map(({ openingId }) => openingId))];
	return new Map(
		openings.map((openingId, i) => [
			openingId,
			{ openingId, startsOn: null, release: 1 + (i % 2), boughtAs: i % 3 === 0 ? 'unit' : 'parts' }
		])
	);
}

const both: Supplier = {
	...northreach,
	id: 'second',
	name: 'Second Shutter Works (invented)',
	scopes: ['part', 'stock', 'unit']
};

describe.each(['saltmarsh-pier', 'kelpgate-ferry'])('what the takeoff of %s comes to', (schedule) => {
	const job = demoJob(schedule);

	it.each<readonly [string, Partial<ProposalRequest>]>([
		['two suppliers', {}],
		['one supplier for all', { suppliers: [both] }],
		['suppliers that overlap', { suppliers: [northreach, both, dunlin] }]
	])('is what the orders come to, bought in parts: %s', (_, more) => {
		const answer = orderProposals(requestFor(job, more));
		const covering = linesOf(answer).filter(({ partIds }) => partIds.length > 0);
		expect(sums(covering, thing, ({ quantity }) => quantity)).toEqual(
			sums(job.parts, thing, ({ quantity }) => quantity)
		);
		expect(covering.flatMap(({ partIds }) => partIds).sort()).toEqual(
			job.parts.map(({ partId }) => partId).sort()
		);
		expect(answer.notPlaced).toEqual([]);
	});

	it('is what the orders come to, some openings complete and in two releases', () => {
		const plans = mixedPlans(job);
		const answer = orderProposals(requestFor(job, { plans, suppliers: [northreach, both, dunlin] }));
		const lines = linesOf(answer);
		const ids = lines.flatMap(({ partIds }) => partIds);
		expect(ids.toSorted()).toEqual(job.parts.map(({ partId }) => partId).sort());
		const byId = new Map(job.parts.map((part) => [part.partId, part]));
		for (const line of lines) {
			const parts = line.partIds.flatMap((id) => byId.get(id) ?? []);
			if (line.scope === 'unit') {
				// As many as openings, each with all that the maker supplies for it.
				expect(line.quantity).toBe(String(line.openingIds.length));
				const whole = job.parts.filter(
					({ openingId, supply }) => line.openingIds.includes(openingId) && supply === 'maker'
				);
				expect(line.partIds.toSorted()).toEqual(whole.map(({ partId }) => partId).sort());
			} else if (line.partIds.length > 0)
				expect(line.quantity).toBe(Decimal.sum(...parts.map(({ quantity }) => quantity)).toFixed());
		}
		for (const { lines: own, release, phase } of answer.proposals) {
			expect(own.map(({ number }) => number)).toEqual(own.map((_line, at) => at + 1));
			for (const openingId of own.flatMap(({ openingIds }) => openingIds)) {
				expect(plans.get(openingId)?.release).toBe(release);
				expect(job.phases.get(openingId)).toBe(phase);
			}
		}
	});

	it('buys the boxes of the takeoff where all stock is in one order', () => {
		const phases = new Map<string, string>();
		const lines = linesOf(orderProposals(requestFor(job, { phases })));
		const totals = totalsOf(engineOf(), job.takeoff);
		expect(totals.anchors.length).toBeGreaterThan(2);
		for (const { anchor, boxes, perBox, total } of totals.anchors) {
			const anchors = lines.filter(({ scope, item }) => scope === 'stock' && item === anchor);
			const [own, fill, ...more] = anchors;
			expect(more).toEqual([]);
			expect(own?.quantity).toBe(String(total));
			expect(Number(own?.quantity) + Number(fill?.quantity ?? 0)).toBe(boxes * perBox);
		}
	});
});

describe('an order', () => {
	const job = orderedJob([{ ...openingA, quantity: '4', controls: 'key-switch' }]);
	const { proposals } = orderProposals(requestFor(job));
	const [made, stock] = proposals;

	it('has a line for each thing in the order of hanging, by hand', () => {
		expect(
			made?.lines.map(({ number, title, quantity, unit, hand }) => [number, title, quantity, unit, hand])
		).toEqual([
			[1, 'Guide, left', '4', 'each', 'left'],
			[2, 'Guide, right', '4', 'each', 'right'],
			[3, 'Bracket, left, drive side', '4', 'each', 'left'],
			[4, 'Bracket, right', '4', 'each', 'right'],
			[5, 'Barrel', '4', 'each', null],
			[6, 'Tube motor', '4', 'each', 'left'],
			[7, 'Curtain, counter slat, aluminium', '4', 'each', null],
			[8, 'Bottom bar', '4', 'each', null],
			[9, 'Hood piece', '4', 'each', null],
			[10, 'End cap, left', '4', 'each', 'left'],
			[11, 'End cap, right', '4', 'each', 'right']
		]);
	});

	it('adds stock up exactly and fills it up', () => {
		// 6 anchors a side and opening: 48; · 1.10 = 52.8, two boxes of 50. Shims 2 · 8 · 4 = 64.
		// Sealant 0.69 · 4 = 2.76; · 1.10 = 3.036: 4 tubes. Drill bits 6/30 + 6/30 = 0.40 · 4 = 1.6: 2.
		expect(stock?.lines.map(({ number, title, quantity, note }) => [number, title, quantity, note])).toEqual([
			[1, 'Key switch', '4', ''],
			[2, 'Lock cylinder', '4', ''],
			[3, 'Screw anchor', '48', ''],
			[
				4,
				'Screw anchor, to fill up',
				'52',
				'Needed 48, with 10 % for waste 52.8; bought 2 full boxes of 50.'
			],
			[5, 'Shims', '64', ''],
			[6, 'Sealant', '2.76', ''],
			[
				7,
				'Sealant, to fill up',
				'1.24',
				'Needed 2.76, with 10 % for waste 3.036; bought to the whole tube: 4.'
			],
			[8, 'Drill bits', '1.6', ''],
			[9, 'Drill bits, to fill up', '0.4', 'Needed 1.6; bought to the whole one: 2.']
		]);
		for (const line of stock?.lines ?? [])
			if (line.title.endsWith('to fill up'))
				expect([line.kind, line.partIds, line.openingIds]).toEqual([null, [], []]);
	});

	it('takes complete openings by their number, with size, hand and finish', () => {
		const plans = new Map(
			job.parts.map(({ openingId }) => [
				openingId,
				{ openingId, startsOn: '2026-12-15', release: 1, boughtAs: 'unit' as const }
			])
		);
		const [unit] = orderProposals(requestFor(job, { plans })).proposals;
		expect(unit?.lines).toHaveLength(1);
		expect(unit?.lines[0]).toMatchObject({
			scope: 'unit',
			kind: null,
			quantity: '4',
			unit: 'each',
			size: `10'-0" x 4'-0"`,
			hand: 'left',
			needBy: '2026-12-10',
			orderBy: '2026-10-29',
			note: 'Each: 2 guides, 2 brackets, 1 barrel, 1 drive, 1 curtain, 1 bottom bar, 1 hood piece, 2 end caps.',
			// 2 · 26.48 + 58.00 + 64.36 + 212.00 + 58.94 · 11.60 = 683.70 + 50.22 + 23.34 · 3.45 = 80.52 + 2 · 9.75
			unitPrice: '1221.26'
		});
		expect(unit?.lines[0]?.partIds).toHaveLength(4 * 11);
	});
});

describe('who gets what', () => {
	const job = orderedJob([{ ...openingA, quantity: '2' }, openingB]);

	it('tells what nobody is named for, and drops nothing', () => {
		const { proposals, notPlaced } = orderProposals(requestFor(job, { suppliers: [northreach] }));
		const stock = job.parts.filter(({ supply }) => supply === 'stock');
		expect(notPlaced).toEqual([
			{
				scope: 'stock',
				partIds: stock.map(({ partId }) => partId),
				openingIds: ['A.1', 'A.2', 'B.1'],
				text: `Nobody is named for stock: ${stock.length} parts of 3 openings are in no order. Name a supplier for it.`
			}
		]);
		expect(proposals.map(({ supplierId }) => supplierId)).toEqual(['northreach']);
	});

	it('gives things that two sell to the first, and says so', () => {
		const { proposals, notes } = orderProposals(requestFor(job, { suppliers: [northreach, both, dunlin] }));
		expect(proposals.map(({ supplierId }) => supplierId)).toEqual(['northreach', 'second']);
		expect(notes).toEqual([
			'Northreach Shutter Works and Second Shutter Works (invented) are both named for complete units; Northreach Shutter Works has it.',
			'Northreach Shutter Works and Second Shutter Works (invented) are both named for parts made to order; Northreach Shutter Works has it.',
			'Second Shutter Works (invented) and Dunlin Fixings & Seals are both named for stock; Second Shutter Works (invented) has it.'
		]);
	});

	it('leaves out what is ordered, and tells what changed since, also twice', () => {
		const [first, second, third] = job.parts;
		if (!first || !second || !third) throw new Error('the job has parts');
		const parts = job.parts.map((part) => {
			if (part === second) return { ...part, partId: 'P-NEW', supersedes: 'P-OLD' };
			return part === third ? { ...part, partId: 'P-THIRD', supersedes: 'P-SECOND' } : part;
		});
		const answer = orderProposals(
			requestFor(job, {
				parts,
				ordered: new Set([first.partId, 'P-OLD', 'P-FIRST']),
				predecessors: new Map([['P-SECOND', 'P-FIRST']])
			})
		);
		expect(answer.toRevise.map(({ partId, orderedAs }) => [partId, orderedAs])).toEqual([
			['P-NEW', 'P-OLD'],
			['P-THIRD', 'P-FIRST']
		]);
		expect(answer.toRevise[0]?.text).toBe(
			`${second.title} of ${second.openingId} changed since it was ordered: revise its order.`
		);
		const ids = linesOf(answer).flatMap(({ partIds }) => partIds);
		expect(ids).toHaveLength(parts.length - 3);
		for (const id of [first.partId, 'P-NEW', 'P-THIRD']) expect(ids).not.toContain(id);
	});

	it('refuses a part that stands twice', () => {
		const [first] = job.parts;
		if (!first) throw new Error('the job has parts');
		expect(() => orderProposals(requestFor(job, { parts: [first, first] }))).toThrow(
			`part ${first.partId} is in the list twice`
		);
	});
});
