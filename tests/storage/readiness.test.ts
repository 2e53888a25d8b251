/** What can start at the demo job, out of orders, trucks, counts and measures; cells worked out by hand, on both databases. */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { BoardAnswer, BoardRowView } from '../../src/lib/changes/readiness.ts';
import { roleIds } from '../../src/lib/changes/roles.ts';
import { holderText } from '../../src/lib/delivery/readiness/words.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { loadDemo } from '../../src/lib/server/operations/load-demo.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import { nextWorkday } from '../../src/lib/server/operations/read-day.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import type { TaskGroup } from '../../src/lib/takeoff/result.ts';
import { databases, temporaryFolder } from './databases.ts';
import { measureAsDrawn } from './measured-openings.ts';
import { refusal, temporaryServices, value } from './services.ts';

const wren: Actor = { id: 'wren', companyId: localActor.companyId, name: 'Wren', roles: roleIds };
const teal: Actor = { id: 'teal', companyId: localActor.companyId, name: 'Teal', roles: ['installer'] };

/** Noon of a Tuesday, wherever the server is. */
const atNoon = new Date(2026, 11, 1, 12);

interface Place {
	readonly services: Services;
	readonly job: string;
	readonly board: (query?: object) => Promise<BoardAnswer>;
}

async function demo(database: string): Promise<Place> {
	const opened = await temporaryServices(database);
	const services = { ...opened, now: () => atNoon };
	await loadDemo(wren, services, join('fixtures', 'schedules'));
	const { jobs } = value(await operations.listJobs(wren, services));
	const job = jobs.find(({ name }) => name.startsWith('Saltmarsh'))?.id ?? '';
	return {
		services,
		job,
		board: async (query = {}) => value(await operations.readBoard(teal, services, job, query))
	};
}

async function truck({ services, job }: Place, file: string): Promise<string> {
	const form = {
		name: file,
		bytes: new Uint8Array(readFileSync(join('fixtures', 'deliveries', file))),
		field: () => null
	};
	return value(await operations.checkDelivery(wren, services, job, form)).id;
}

const plan = async ({ services, job }: Place, days: Readonly<Record<string, string>>): Promise<void> => {
	const plans = Object.entries(days).map(([openingId, startsOn]) => ({
		openingId,
		startsOn,
		release: 1,
		boughtAs: 'parts'
	}));
	value(await operations.savePlan(wren, services, job, { plans }));
};

function rowOf({ rows }: BoardAnswer, openingId: string): BoardRowView {
	const row = rows.find((one) => one.openingId === openingId);
	if (!row) throw new Error(`${openingId} is not on the board`);
	return row;
}

const states = (row: BoardRowView): Record<string, string> =>
	Object.fromEntries(row.cells.map(({ task, state }) => [task, state]));

/** `Guide, right / wrong / purchasing` of each hold of a task. */
const holdsOf = (row: BoardRowView, task: TaskGroup): string[] =>
	(row.cells.find((cell) => cell.task === task)?.holds ?? []).map(
		({ text, reason, who }) => `${text.split(':')[0] ?? ''} / ${reason ?? ''} / ${holderText(who)}`
	);

let counts = 0;
const count = (deliveryId: string, line: number, whole: string, damaged = '0') => ({
	countId: `phone-1-${String(++counts).padStart(6, '0')}`,
	deliveryId,
	line,
	crate: null,
	description: '',
	amounts: { whole, damaged, wrong: '0' },
	note: '',
	photoIds: [],
	countedAt: '2026-12-01T09:30:00.000Z'
});

describe.each(databases)('$name', ({ place }) => {
	it('says of every opening and task what holds it, who can clear it and since when', async () => {
		const at = await demo(await place());
		const before = await at.board();
		// Nothing came and nothing is measured.
		expect(before.inOrder.clear).toEqual([]);
		expect(rowOf(before, 'C-101.1').holds.map(({ text, who }) => [text, who])).toEqual([
			['Not measured yet.', 'installer']
		]);
		await truck(at, 'saltmarsh-truck-1.xlsx');
		await truck(at, 'saltmarsh-truck-2.csv');
		for (const id of ['C-101.1', 'C-101.2', 'C-102.1', 'S-201.1', 'S-202.1', 'S-202.2'])
			await measureAsDrawn(wren, at.services, at.job, id);
		const board = await at.board();

		// C-101: both guides, brackets and hood came for all four, the barrels on two trucks (3 + 1), curtain and bottom bar
		// for all four; no list has a drive, which sits in the barrel. Its key switch is the shop's own. Nothing was ordered.
		const c101 = rowOf(board, 'C-101.1');
		expect(states(c101)).toEqual({
			guides: 'clear',
			brackets: 'clear',
			coil: 'held',
			hood: 'clear',
			power: 'clear'
		});
		expect(holdsOf(c101, 'coil')).toEqual(['Tube motor / notOrdered / purchasing']);
		expect([c101.holds, c101.clear]).toEqual([[], false]);
		// The same parts, but nobody measured it.
		const unmeasured = rowOf(board, 'C-101.4');
		expect(states(unmeasured).guides).toBe('held');
		expect(unmeasured.holds).toMatchObject([{ kind: 'measure', who: 'installer', since: null }]);
		// S-201: right guides 108 in on line 17 of truck 1, ordered are 110: as long as its opening is high, so somebody has
		// to say what that list's sizes measure, and none of it counts till then. Its drive is left instead of right (line
		// 19); bottom bars, end caps and hood supports are on no list. One of four hood pieces is dented (line 20), two for
		// each opening: the first has its two.
		const s201 = rowOf(board, 'S-201.1');
		expect(states(s201)).toEqual({
			guides: 'held',
			brackets: 'clear',
			coil: 'held',
			hood: 'held',
			power: 'clear'
		});
		expect(holdsOf(s201, 'guides')).toEqual([
			'Guide, right / notOrdered / purchasing',
			'saltmarsh-truck-1.xlsx, line 17 waits for an answer /  / purchasing'
		]);
		expect(s201.cells[0]?.holds[1]).toMatchObject({ kind: 'decision', since: atNoon.toISOString() });
		expect(holdsOf(s201, 'coil').toSorted()).toEqual([
			'Bottom bar / notOrdered / purchasing',
			'Tube motor / wrong / purchasing'
		]);
		const motor = s201.cells.flatMap(({ holds }) => holds).find(({ reason }) => reason === 'wrong');
		expect([motor?.text, motor?.since]).toEqual([
			'Tube motor: 1 of 1 wrong hand (saltmarsh-truck-1.xlsx, line 19).',
			atNoon.toISOString()
		]);
		expect(holdsOf(s201, 'hood').filter((text) => text.startsWith('Hood piece'))).toEqual([]);
		expect(holdsOf(rowOf(board, 'S-201.2'), 'hood')).toContain('Hood piece / damaged / purchasing');
		// S-202: one right guide of two came, and goes to the first in the wanted order.
		expect(states(rowOf(board, 'S-202.1')).guides).toBe('clear');
		expect(states(rowOf(board, 'S-202.2')).guides).toBe('held');
		// C-102: its curtain has another finish.
		const c102 = rowOf(board, 'C-102.1');
		expect(states(c102)).toMatchObject({ guides: 'clear', coil: 'held' });
		expect(holdsOf(c102, 'coil').join('\n')).toMatch(/^Curtain.* \/ wrong \/ purchasing$/mu);
		// Nobody counted: both trucks go by their list, and it is said.
		expect(board.byList.map(({ name }) => name)).toEqual(['saltmarsh-truck-1.xlsx', 'saltmarsh-truck-2.csv']);
		expect(board.notChecked).toContain('counts');
		expect(board.notChecked).not.toContain('fieldMeasure');
	});

	it('the order of a part tells who holds it: purchasing, then the supplier, with the day promised', async () => {
		const at = await demo(await place());
		const { services, job } = at;
		await plan(at, { 'C-101.1': '2027-03-15' });
		const motor = async () => {
			const cell = rowOf(await at.board(), 'C-101.1').cells.find(({ task }) => task === 'coil');
			const held = cell?.holds.find(({ text }) => text.startsWith('Tube motor'));
			return held ? [held.reason, holderText(held.who), held.since, held.text] : [];
		};
		expect((await motor()).slice(0, 3)).toEqual(['notOrdered', 'purchasing', null]);
		const { proposals } = value(await operations.readOrders(wren, services, job));
		const proposal = proposals.find(
			({ supplierName, phase, release }) =>
				supplierName.startsWith('Northreach') && phase === '1' && release === 1
		);
		if (!proposal) throw new Error('there is nothing to order');
		const { supplierId, phase, release, digest } = proposal;
		const { orderId, number } = value(
			await operations.writeOrder(wren, services, job, { supplierId, phase, release, digest })
		);
		// Written is not ordered.
		expect((await motor()).slice(0, 2)).toEqual(['notOrdered', 'purchasing']);
		const { version } = value(await operations.readOrder(wren, services, job, orderId));
		const reason = 'Measured by the architect; USD 77.77 agreed.';
		value(await operations.releaseOrder(wren, services, job, orderId, { version, reason }));
		const supplier = 'Northreach Shutter Works';
		expect(await motor()).toEqual([
			'ordered',
			supplier,
			atNoon.toISOString(),
			`Tube motor: 1 of 1 ordered, not acknowledged (order ${number}).`
		]);
		const answer = { number: null, promised: '2027-03-01' };
		value(await operations.takeAsOrdered(wren, services, job, orderId, answer));
		expect(await motor()).toEqual([
			'acknowledged',
			supplier,
			atNoon.toISOString(),
			`Tube motor: 1 of 1 promised for 2027-03-01 (order ${number}).`
		]);
		expect(JSON.stringify(await at.board())).not.toContain('77.77');
		// What is promised is one delivery to come. Its openings are not measured, so parts alone let nothing start.
		const freed = value(await operations.readFreed(teal, services, job, {}));
		expect(freed.deliveries).toMatchObject([
			{ label: `${supplier}, order ${number}`, day: '2027-03-01', more: 0 }
		]);
		await measureAsDrawn(wren, services, job, 'C-102.1');
		await measureAsDrawn(wren, services, job, 'C-102.2');
		expect(value(await operations.readFreed(teal, services, job, {})).deliveries[0]).toMatchObject({
			more: 2,
			frees: ['C-102.1', 'C-102.2'],
			proved: true
		});
	});

	it('deals short guides out in two ways, by the count, and lists the next working day', async () => {
		const at = await demo(await place());
		const { services, job } = at;
		const delivery = await truck(at, 'saltmarsh-truck-1.xlsx');
		const wanted = ['C-101.4', 'C-101.2', 'C-101.1'];
		for (const id of wanted.slice(1)) await measureAsDrawn(wren, services, job, id);
		await plan(at, { 'C-101.4': '2026-12-01', 'C-101.2': '2026-12-02', 'C-101.1': '2026-12-03' });
		// Of four left guides of C-101 (line 8) three are bent; with the one that came for C-110.1 (line 23), which is alike
		// (48 + 2 in), two are here. C-101.4 is wanted first and is not measured; C-101.3 and C-110.1 are not planned. In the wanted order C-101.4 and C-101.2 have the two; for the most guides C-101.2 and
		// C-101.1, since C-101.4 can't start with any.
		const counted = { counts: [count(delivery, 8, '1', '3')] };
		value(await operations.sendCounts(teal, services, job, counted));
		const inOrder = await at.board({ task: 'guides' });
		expect(inOrder.rows.slice(0, 3).map(({ openingId }) => openingId)).toEqual(wanted);
		expect(inOrder.inOrder.clear).toEqual(['C-101.2']);
		expect(inOrder.most).toMatchObject({ clear: ['C-101.2', 'C-101.1'], bound: 2, proved: true });
		expect(inOrder.lacks).toMatchObject([{ openingId: 'C-101.1', in: 'order' }]);
		expect(inOrder.lacks[0]?.parts.some((part) => part.startsWith('Guide, left, 4\'-2"'))).toBe(true);
		expect(states(rowOf(inOrder, 'C-101.1')).guides).toBe('held');
		const [held] = rowOf(inOrder, 'C-101.1').cells[0]?.holds ?? [];
		expect(held).toMatchObject({ reason: 'damaged', who: 'purchasing' });
		const most = await at.board({ task: 'guides', deal: 'most' });
		expect(states(rowOf(most, 'C-101.1')).guides).toBe('clear');
		expect(states(rowOf(most, 'C-101.2')).guides).toBe('clear');

		// The day after Tuesday; C-101.1 is planned for later.
		const day = value(await operations.readDay(teal, services, job, {}));
		expect(day.list.day).toBe('2026-12-02');
		const starting = day.list.start.map(({ openingId, tasks }) => [openingId, tasks.map(({ task }) => task)]);
		// Its coil waits for the drive.
		expect(starting).toEqual([['C-101.2', ['guides', 'brackets', 'hood', 'power']]]);
		expect(day.list.held.map(({ openingId, tasks }) => [openingId, tasks])).toEqual([
			['C-101.4', ['guides', 'brackets', 'coil', 'hood', 'power']],
			['C-101.2', ['coil']]
		]);
		const later = value(await operations.readDay(teal, services, job, { day: '2026-12-03', deal: 'most' }));
		expect(later.list.start.map(({ openingId }) => openingId)).toEqual(['C-101.2', 'C-101.1']);
		expect(refusal(await operations.readDay(teal, services, job, { day: '3/12/26' })).message).toBe(
			'A day is written as 2026-12-01.'
		);
		expect(refusal(await operations.readBoard(teal, services, job, { deal: 'all' })).status).toBe(422);

		// The same on paper.
		const { content } = value(await operations.writeDay(teal, services, job, { paper: 'a4' }));
		const file = join(temporaryFolder(), 'day.pdf');
		writeFileSync(file, content);
		const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
		for (const words of [
			'What can start, up to 2026-12-02',
			'Springs hold energy',
			'Planned, and held',
			'Not measured yet.',
			'Not counted to the end, so taken as listed: “saltmarsh-truck-1.xlsx”.'
		])
			expect(text.replace(/\s+/gu, ' ')).toContain(words);
	});
});

describe('the next working day', () => {
	it.each([
		// 2026-12-01 is a Tuesday.
		['2026-12-01', '2026-12-02'],
		['2026-12-04', '2026-12-07'],
		['2026-12-05', '2026-12-07'],
		['2026-12-06', '2026-12-07'],
		['2026-12-31', '2027-01-01']
	])('after %s is %s', (today, next) => {
		expect(nextWorkday(today)).toBe(next);
	});
});
