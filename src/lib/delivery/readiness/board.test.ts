import { describe, expect, it } from 'vitest';
import type { OpeningPlan } from '../ordering/purchase-order.ts';
import { boardOf, listForTheDay } from './board.ts';
import { clearToStart } from './clear-to-start.ts';
import type { ReadinessInputs } from './inputs.ts';
import { arrival, barrel, guide } from './sample-standings.ts';

const whole = arrival({ whole: '1' });
const ids = ['C-101.1', 'C-101.2', 'C-102.1', 'C-103.1'] as const;
const inputs: ReadinessInputs = {
	openings: ids.map((openingId) => ({ openingId, mark: openingId.slice(0, 5) })),
	parts: [
		// Clear; guides clear and barrel to come; stopped; guides only, and clear.
		guide(ids[0], [whole]),
		barrel(ids[0], [whole]),
		guide(ids[1], [whole]),
		barrel(ids[1], []),
		guide(ids[2], [arrival({ damaged: '1' })]),
		barrel(ids[2], [whole]),
		guide(ids[3], [whole])
	],
	stops: [{ openingId: ids[2], since: '2026-08-01T00:00:00Z', texts: ['Opening width is missing.'] }]
};
const start = clearToStart(inputs);
const plan = (openingId: string, startsOn: string | null): OpeningPlan => ({
	openingId,
	startsOn,
	release: 1,
	boughtAs: 'parts'
});

describe('the board', () => {
	it('has a cell for every opening and task, with what holds it', () => {
		const { rows, tasks, clear } = boardOf(start);
		expect(clear).toBe(2);
		expect(rows.map((row) => row.cells.map(({ state }) => state))).toEqual([
			['clear', 'nothing', 'clear', 'nothing', 'nothing'],
			['clear', 'nothing', 'held', 'nothing', 'nothing'],
			['held', 'nothing', 'held', 'nothing', 'nothing'],
			['clear', 'nothing', 'nothing', 'nothing', 'nothing']
		]);
		// The stop comes before the damaged guide.
		expect(rows[2]?.cells[0]).toMatchObject({ firstHold: { kind: 'stop' }, more: 1 });
		expect(rows[1]?.cells[2]).toMatchObject({ firstHold: { reason: 'acknowledged' }, more: 0 });
		expect(tasks.filter(({ of }) => of > 0)).toEqual([
			{ task: 'guides', clear: 3, of: 4 },
			{ task: 'coil', clear: 1, of: 3 }
		]);
	});
});

describe('the list for a day', () => {
	const plans = [
		plan(ids[0], '2026-12-02'),
		plan(ids[1], '2026-12-01'),
		plan(ids[2], '2026-11-30'),
		plan(ids[3], null)
	];

	it('has what may start with what to bring, and what is held by whom, in the wanted order', () => {
		const list = listForTheDay(start, inputs.parts, plans, '2026-12-02');
		expect(list.start.map(({ openingId, tasks }) => [openingId, tasks.map(({ task }) => task)])).toEqual([
			[ids[0], ['guides', 'coil']],
			[ids[1], ['guides']]
		]);
		expect(list.start[0]?.tasks[0]?.bring).toEqual([
			{ partId: `${ids[0]}/guide/left`, title: 'Guide, left', quantity: '1', unit: 'each' }
		]);
		expect(list.held.map(({ openingId, startsOn, tasks }) => [openingId, startsOn, tasks])).toEqual([
			[ids[1], '2026-12-01', ['coil']],
			[ids[2], '2026-11-30', ['guides', 'coil']]
		]);
		expect(list.held[1]?.holds).toMatchObject([
			{ kind: 'stop', who: 'estimator', since: '2026-08-01T00:00:00Z' },
			{ kind: 'part', reason: 'damaged', who: 'purchasing' }
		]);
		expect(list.withoutDay).toEqual([ids[3]]);
	});

	it('leaves out what is planned for later', () => {
		const list = listForTheDay(start, inputs.parts, plans, '2026-11-30');
		expect(list.start).toEqual([]);
		expect(list.held.map(({ openingId }) => openingId)).toEqual([ids[2]]);
	});

	it('refuses a day that is none', () => {
		expect(() => listForTheDay(start, inputs.parts, plans, '2/12/26')).toThrow(
			'"2/12/26" is not a day; write it as 2026-12-01'
		);
	});
});
