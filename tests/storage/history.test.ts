/** What became of a job, as it is read. */
import { describe, expect, it } from 'vitest';
import { roleIds } from '../../src/lib/changes/roles.ts';
import type { HistoryAnswer } from '../../src/lib/changes/history.ts';
import type { Change } from '../../src/lib/changes/message.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { changeJob } from '../../src/lib/server/operations/change-job.ts';
import { checkDelivery } from '../../src/lib/server/operations/check-delivery.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { freezeBid } from '../../src/lib/server/operations/freeze-bid.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import { readHistory, readHistoryLines } from '../../src/lib/server/operations/read-history.ts';
import { readPrice } from '../../src/lib/server/operations/read-price.ts';
import { removeDelivery } from '../../src/lib/server/operations/remove-delivery.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { redoEdit, undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { databases } from './databases.ts';
import {
	addRow,
	cells,
	counter,
	edit,
	refusal,
	setCell,
	temporaryServices,
	typed,
	value
} from './services.ts';

const wren: Actor = { id: 'wren', companyId: localActor.companyId, name: 'Wren', roles: roleIds };
const installer: Actor = { ...wren, id: 'hand', name: 'Hob', roles: ['installer'] };

interface Place {
	readonly services: Services;
	readonly job: string;
	readonly change: (changes: readonly Change[], title?: string, actor?: Actor) => Promise<void>;
	readonly history: (search?: unknown) => Promise<HistoryAnswer>;
}

async function placeOf(database: (typeof databases)[number]): Promise<Place> {
	const services = await temporaryServices(await database.place());
	const { id: job } = value(
		await createJob(localActor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
	);
	const change = async (changes: readonly Change[], title?: string, actor = localActor): Promise<void> => {
		value(await applyEdit(actor, services, job, edit(changes, title)));
	};
	await change([addRow('c1', null, counter('C-1')), addRow('c2', 'c1', counter('C-2'))], 'Add two');
	return {
		services,
		job,
		change,
		history: async (search = {}) => value(await readHistory(localActor, services, job, search))
	};
}

const revisions = ({ entries }: HistoryAnswer): number[] => entries.map(({ revision }) => revision);

describe.each(databases)('the history of a job, $name', (database) => {
	it('says who changed what, when, and from what to what, the latest first', async () => {
		const { services, job, change, history } = await placeOf(database);
		const [before, after] = [typed('openingWidth', `10'-0"`), typed('openingWidth', '12 ft')];
		await change([setCell('c2', 'openingWidth', before, after)], 'Set the width of C-2', wren);
		value(await undoEdit(wren, services, job));
		value(await redoEdit(wren, services, job));
		await change([{ kind: 'moveRow', row: 'c2', after: null }], 'Move C-2');
		value(await changeJob(wren, services, job, { name: 'Saltmarsh Pier Market Hall' }));
		const { entries, earlier, wholeFrom, people } = await history();
		expect(entries.map(({ revision, kind, actorName, title }) => [revision, kind, actorName, title])).toEqual(
			[
				[6, 'job', 'Wren', 'Rename the job'],
				[5, 'edit', 'You, at this machine', 'Move C-2'],
				[4, 'redo', 'Wren', 'Set the width of C-2'],
				[3, 'undo', 'Wren', 'Set the width of C-2'],
				[2, 'edit', 'Wren', 'Set the width of C-2'],
				[1, 'edit', 'You, at this machine', 'Add two'],
				[0, 'job', 'You, at this machine', 'Make the job']
			]
		);
		const cell = { kind: 'cell', row: 'c2', name: 'C-2', field: 'openingWidth' };
		expect(entries.map(({ lines }) => lines)).toMatchObject([
			[],
			[{ kind: 'moved', row: 'c2', name: 'C-2', below: null }],
			[{ ...cell, before, after }],
			[{ ...cell, before: after, after: before }],
			[{ ...cell, before, after }],
			[
				{ kind: 'added', row: 'c1', name: 'C-1', cells: counter('C-1') },
				{ kind: 'added', row: 'c2', name: 'C-2' }
			],
			[]
		]);
		expect(entries[0]?.records).toEqual([
			{
				record: 'Job',
				name: 'Saltmarsh Pier',
				field: 'Name',
				before: 'Saltmarsh Pier',
				after: 'Saltmarsh Pier Market Hall'
			}
		]);
		for (const { madeAt } of entries) expect(new Date(madeAt).toISOString()).toBe(madeAt);
		expect({ earlier, wholeFrom }).toEqual({ earlier: null, wholeFrom: 0 });
		expect(new Set(people)).toEqual(
			new Set([
				{ id: 'local', name: 'You, at this machine' },
				{ id: 'wren', name: 'Wren' }
			])
		);
	});

	it('comes a page at a time', async () => {
		const { change, history } = await placeOf(database);
		for (let i = 0; i < 5; i++)
			await change([setCell('c1', 'note', i === 0 ? null : `note ${i - 1}`, `note ${i}`)]);
		const first = await history({ most: '3' });
		expect([revisions(first), first.earlier]).toEqual([[6, 5, 4], 4]);
		const second = await history({ most: '3', before: String(first.earlier) });
		expect([revisions(second), second.earlier]).toEqual([[3, 2, 1], 1]);
		const third = await history({ most: '3', before: '1' });
		expect([revisions(third), third.earlier]).toEqual([[0], null]);
	});

	it('is read for one opening, with the rows of its own', async () => {
		const { change, history } = await placeOf(database);
		await change([setCell('c2', 'note', null, 'not this one')]);
		await change([addRow('c1-2', 'c1', cells({ mark: 'C-1', openingNumber: '2' }))]);
		await change([setCell('c1-2', 'note', null, 'differs')]);
		await change([setCell('c1', 'note', null, 'the mark'), setCell('c2', 'phase', null, '2')]);
		// An id that another one looks like to a database's own search.
		await change([addRow('c_', 'c1', cells({ mark: 'C-9' }))]);
		const mark = await history({ row: 'c1' });
		expect(mark.row).toEqual({ id: 'c1', name: 'C-1' });
		expect(revisions(mark)).toEqual([5, 4, 3, 1]);
		expect(mark.entries.map(({ lines }) => lines.map(({ row }) => row))).toEqual([
			['c1'],
			['c1-2'],
			['c1-2'],
			['c1']
		]);
		const own = await history({ row: 'c1-2' });
		expect([own.row?.name, revisions(own)]).toEqual(['C-1.2', [4, 3]]);
		expect(revisions(await history({ row: 'c_' }))).toEqual([6]);
	});

	it('is read by person, by kind and up to a moment', async () => {
		const { services, job, change, history } = await placeOf(database);
		await change([setCell('c1', 'note', null, 'a')], 'Note', wren);
		value(await undoEdit(wren, services, job));
		value(await changeJob(localActor, services, job, { measures: 'metric' }));
		expect(revisions(await history({ actor: 'wren' }))).toEqual([3, 2]);
		expect(revisions(await history({ kind: 'undo' }))).toEqual([3]);
		expect(revisions(await history({ kind: 'job' }))).toEqual([4, 0]);
		expect(revisions(await history({ actor: 'local', kind: 'edit' }))).toEqual([1]);
		expect(revisions(await history({ until: '2001-01-01T00:00:00Z' }))).toEqual([]);
		expect(revisions(await history({ until: '2999-01-01T00:00:00+05:00', most: 1 }))).toEqual([4]);
		const [latest] = (await history()).entries;
		expect(revisions(await history({ until: latest?.madeAt, most: 1 }))).toEqual([4]);
		// There is nothing earlier of what is looked for.
		expect((await history({ kind: 'undo' })).earlier).toBeNull();
	});

	it('says nothing of a cell that is left as it was', async () => {
		const { change, history } = await placeOf(database);
		await change([setCell('c1', 'phase', null, null), setCell('c1', 'note', null, 'a')]);
		const [latest] = (await history()).entries;
		expect(latest?.lines).toMatchObject([{ kind: 'cell', field: 'note' }]);
		expect(latest?.lineCount).toBe(1);
	});

	it('sums up an import of a thousand rows, whose lines come a page at a time', async () => {
		const { services, job, change, history } = await placeOf(database);
		const rows = Array.from({ length: 1000 }, (_, i) =>
			addRow(`r${i}`, i === 0 ? 'c2' : `r${i - 1}`, cells({ mark: `R-${i}`, location: 'Fish dock' }))
		);
		await change(rows, 'Bring in 1,000 rows');
		const [entry] = (await history()).entries;
		expect(entry).toMatchObject({ lines: [], lineCount: null, rowCount: 1000, title: 'Bring in 1,000 rows' });
		const seen: string[] = [];
		for (;;) {
			const page = value(
				await readHistoryLines(localActor, services, job, '2', { from: String(seen.length) })
			);
			expect(page.lineCount).toBe(1000);
			if (page.lines.length === 0) break;
			seen.push(...page.lines.map(({ name }) => String(name)));
		}
		expect(seen).toEqual(Array.from({ length: 1000 }, (_, i) => `R-${i}`));
		// The lines of one opening are told from a large entry too.
		const one = await history({ row: 'r500' });
		expect(one.entries).toMatchObject([{ revision: 2, lineCount: 1, lines: [{ name: 'R-500' }] }]);
	});

	it('calls a row that was removed as it was called last', async () => {
		const { services, job, change, history } = await placeOf(database);
		await change([setCell('c2', 'mark', 'C-2', 'C-20')]);
		await change([{ kind: 'removeRow', row: 'c2', after: 'c1', cells: { ...counter('C-2'), mark: 'C-20' } }]);
		await change([setCell('c1', 'note', null, 'after')]);
		// On a page of its own, where the removal is not told of.
		const [older] = (await history({ before: '3', most: '1' })).entries;
		expect(older?.lines).toMatchObject([
			{ kind: 'cell', name: 'C-20', field: 'mark', before: 'C-2', after: 'C-20' }
		]);
		expect((await history({ row: 'c2' })).row?.name).toBe('C-20');
		value(await undoEdit(localActor, services, job));
		value(await undoEdit(localActor, services, job));
		expect((await history({ row: 'c2' })).entries[0]).toMatchObject({
			kind: 'undo',
			lines: [{ kind: 'added', name: 'C-20' }]
		});
	});

	it('tells of packing lists, and of bids without an amount', async () => {
		const { services, job, history } = await placeOf(database);
		const list = {
			name: 'truck 1.csv',
			bytes: new TextEncoder().encode('Mark,Item,Qty\nC-1,Barrel,1\n'),
			field: () => null
		};
		const { id } = value(await checkDelivery(wren, services, job, list));
		value(await removeDelivery(wren, services, job, id));
		const price = value(await readPrice(localActor, services, job)).price.totals.price ?? '';
		value(await freezeBid(localActor, services, job, { title: `For ${price} all in` }));
		const answer = value(await operations.readHistory(installer, services, job));
		expect(answer.entries.slice(0, 3)).toMatchObject([
			{ kind: 'bid', title: 'Freeze bid 1', records: [{ record: 'Bid', name: 'Bid 1', after: 'frozen' }] },
			{ kind: 'delivery', records: [{ name: 'truck 1.csv', before: 'in', after: 'taken out' }] },
			{ kind: 'delivery', records: [{ name: 'truck 1.csv', before: null, after: '1 lines' }] }
		]);
		expect(Number(price)).toBeGreaterThan(1000);
		expect(JSON.stringify(answer)).not.toContain(price);
		expect(JSON.stringify(answer)).not.toContain('all in');
		expect(revisions(await history({ kind: 'bid' }))).toEqual([4]);
	});

	it('refuses in words what it can’t look for', async () => {
		const { services, job } = await placeOf(database);
		const ask = async (search: unknown, actor = localActor) =>
			refusal(await readHistory(actor, services, job, search)).status;
		for (const search of [{ most: '0' }, { before: '-1' }, { kind: 'rumour' }, { until: 'soon' }, { x: '1' }])
			expect(await ask(search)).toBe(422);
		expect(await ask({ before: '99999999999' })).toBe(422);
		expect(await ask({ row: 'nothing' })).toBe(404);
		expect(await ask({ row: `c1" or '1'='1%_` })).toBe(404);
		expect(await ask({}, { ...wren, companyId: 'another-company' })).toBe(404);
		for (const revision of ['9', '-1', 'x', '99999999999', '2147483648'])
			expect(refusal(await readHistoryLines(localActor, services, job, revision)).status).toBe(404);
	});
});
