/** A job brought back as a copy: whatever two people did, it stands as it stood right after each change. */
import fc from 'fast-check';
import { describe, expect, it, onTestFinished } from 'vitest';
import { roleIds } from '../../src/lib/changes/roles.ts';
import type { Change } from '../../src/lib/changes/message.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { changeJob } from '../../src/lib/server/operations/change-job.ts';
import { checkDelivery } from '../../src/lib/server/operations/check-delivery.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { issueParts } from '../../src/lib/server/operations/issue-parts.ts';
import { openJob } from '../../src/lib/server/operations/open-job.ts';
import { readDeliveries } from '../../src/lib/server/operations/read-deliveries.ts';
import { readHistory } from '../../src/lib/server/operations/read-history.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { readPrice } from '../../src/lib/server/operations/read-price.ts';
import { removeDelivery, restoreDelivery } from '../../src/lib/server/operations/remove-delivery.ts';
import { restoreJob } from '../../src/lib/server/operations/restore-job.ts';
import { openServices, type Services } from '../../src/lib/server/operations/services.ts';
import { redoEdit, undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import type { OpeningRow } from '../../src/lib/takeoff/inputs.ts';
import { databases } from './databases.ts';
import { addRow, counter, edit, refusal, setCell, temporaryServices, typed, value } from './services.ts';

const colleague: Actor = { id: 'other', companyId: localActor.companyId, name: 'Wren', roles: roleIds };

const rowsOf = async (services: Services, job: string): Promise<OpeningRow[]> =>
	value(await readOpenings(localActor, services, job)).rows;

const headingOf = async (services: Services, job: string) =>
	value(await openJob(localActor, services, job)).job;

const newJob = async (services: Services): Promise<string> =>
	value(await createJob(localActor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })).id;

/** What a person does next; `at` and `to` choose among the rows that are there. */
interface Deed {
	readonly person: Actor;
	readonly kind: 'set' | 'add' | 'remove' | 'move' | 'several' | 'undo' | 'redo' | 'rename' | 'measures';
	readonly at: number;
	readonly to: number;
	readonly text: string;
}

const deeds: fc.Arbitrary<Deed[]> = fc.array(
	fc.record({
		person: fc.constantFrom(localActor, colleague),
		kind: fc.constantFrom(
			...(['set', 'set', 'add', 'add', 'remove', 'move', 'move', 'several'] as const),
			...(['undo', 'undo', 'undo', 'redo', 'redo', 'rename', 'measures'] as const)
		),
		at: fc.nat(50),
		to: fc.nat(50),
		text: fc.constantFrom('', 'by the fish dock', 'ticket office', 'see sketch')
	}),
	{ minLength: 12, maxLength: 28 }
);

let added = 0;

/** The changes of an edit that a person may make of these rows. */
function changesOf({ kind, at, to, text }: Deed, rows: readonly OpeningRow[]): Change[] {
	const row = rows[at % Math.max(rows.length, 1)];
	const after = [null, ...rows.map(({ id }) => id)][to % (rows.length + 1)] ?? null;
	const cells = { mark: `N-${++added}`, location: 'new' };
	if (kind === 'add' || !row) return [addRow(`row-${added}`, after, cells)];
	const set = setCell(row.id, 'note', row.cells.note ?? null, text === '' ? null : text);
	const remove: Change = { kind: 'removeRow', row: row.id, after: null, cells: row.cells };
	const move: Change = { kind: 'moveRow', row: row.id, after };
	if (kind === 'set') return [set];
	if (kind === 'remove') return [remove];
	if (kind === 'move') return [move];
	// A new row, another moved below it, a cell changed, and that row taken out.
	const id = `row-${added}`;
	const wider: Change = { kind: 'removeRow', row: row.id, after: null, cells: { ...row.cells, note: text } };
	return [
		addRow(id, after, cells),
		{ kind: 'moveRow', row: row.id, after: id },
		set,
		...(text === '' ? [] : [wider])
	];
}

async function doDeed(services: Services, job: string, deed: Deed): Promise<boolean> {
	const { person, kind, text, at } = deed;
	if (kind === 'undo') return (await undoEdit(person, services, job)).ok;
	if (kind === 'redo') return (await redoEdit(person, services, job)).ok;
	if (kind === 'rename')
		return (await changeJob(person, services, job, { name: `Saltmarsh ${text || 'Pier'}` })).ok;
	if (kind === 'measures')
		return (await changeJob(person, services, job, { measures: at % 2 === 0 ? 'metric' : 'imperial' })).ok;
	const changes = changesOf(deed, await rowsOf(services, job));
	return (await applyEdit(person, services, job, edit(changes))).ok;
}

/** Services with a clock that the test sets. */
async function clocked(place: string): Promise<{ services: Services; set: (moment: string) => void }> {
	let now = new Date('2025-03-03T14:00:00.000Z');
	const services: Services = { ...(await openServices(place)), now: () => now };
	onTestFinished(() => services.storage.close());
	return { services, set: (moment) => (now = new Date(moment)) };
}

describe.each(databases)('a job brought back, $name', (database) => {
	it('stands as it stood after each change, whatever two people did', async () => {
		const services = await temporaryServices(await database.place());
		let compared = 0;
		await fc.assert(
			fc.asyncProperty(deeds, async (list) => {
				const job = await newJob(services);
				const snapshots = new Map<number, { rows: OpeningRow[]; name: string; measures: string }>();
				const take = async (): Promise<void> => {
					const { revision, name, measures } = await headingOf(services, job);
					snapshots.set(revision, { rows: await rowsOf(services, job), name, measures });
				};
				await take();
				for (const deed of list) if (await doDeed(services, job, deed)) await take();
				for (const [revision, { rows, name, measures }] of snapshots) {
					const { id } = value(await restoreJob(localActor, services, job, { revision }));
					expect(await rowsOf(services, id)).toEqual(rows);
					expect(await headingOf(services, id)).toMatchObject({ name, measures, demo: false });
					compared++;
				}
				// Bringing back leaves the job as it was.
				expect(await rowsOf(services, job)).toEqual([...snapshots.values()].at(-1)?.rows);
			}),
			{ numRuns: 8, seed: 4 }
		);
		expect(compared).toBeGreaterThan(60);
	});

	it('is told of in both jobs, and the copy can be brought back to its own beginning', async () => {
		const services = await temporaryServices(await database.place());
		const job = await newJob(services);
		value(await applyEdit(localActor, services, job, edit([addRow('c1', null, counter('C-1'))])));
		value(await applyEdit(localActor, services, job, edit([addRow('c2', 'c1', counter('C-2'))])));
		const copy = value(await restoreJob(colleague, services, job, { revision: 1, name: 'As first sent' }));
		expect(copy.revision).toBe(1);
		const told = value(await readHistory(localActor, services, job)).entries[0];
		expect(told).toMatchObject({
			revision: 3,
			kind: 'job',
			actorName: 'Wren',
			title: 'Copy the job as it stood after change 1',
			records: [{ record: 'Job', field: 'Copied to', after: 'As first sent' }]
		});
		const first = value(await readHistory(localActor, services, copy.id)).entries;
		expect(first).toMatchObject([
			{ revision: 0, title: 'Make the job as Saltmarsh Pier stood after change 1', actorName: 'Wren' }
		]);
		value(await applyEdit(localActor, services, copy.id, edit([setCell('c1', 'note', null, 'later')])));
		const again = value(await restoreJob(localActor, services, copy.id, { revision: 0 }));
		expect((await rowsOf(services, again.id)).map(({ id, cells }) => [id, cells.note])).toEqual([
			['c1', undefined]
		]);
	});

	it('goes by the order of the changes where the clock went back', async () => {
		const { services, set } = await clocked(await database.place());
		const job = await newJob(services);
		const note = (before: string | null, after: string) =>
			applyEdit(localActor, services, job, edit([setCell('c1', 'note', before, after)]));
		set('2025-03-03T14:01:00.000Z');
		value(await applyEdit(localActor, services, job, edit([addRow('c1', null, counter('C-1'))])));
		set('2025-03-03T14:10:00.000Z');
		value(await note(null, 'second'));
		// The clock is set back, and change 3 bears an earlier time than change 2.
		set('2025-03-03T14:05:00.000Z');
		value(await note('second', 'third'));
		set('2025-03-03T15:00:00.000Z');
		value(await note('third', 'fourth'));
		set('2025-03-03T16:00:00.000Z');

		const at = async (moment: string): Promise<[number, unknown]> => {
			const { id, revision } = value(await restoreJob(localActor, services, job, { moment, name: 'Then' }));
			return [revision, (await rowsOf(services, id))[0]?.cells.note];
		};
		expect(await at('2025-03-03T14:04:59Z')).toEqual([1, undefined]);
		expect(await at('2025-03-03T14:05:00Z')).toEqual([3, 'third']);
		expect(await at('2025-03-03T16:59:59+02:00')).toEqual([3, 'third']);
		expect(await at('2025-03-03T15:00:00.000Z')).toEqual([4, 'fourth']);
		expect(
			refusal(await restoreJob(localActor, services, job, { moment: '2025-03-02T09:00:00Z' }))
		).toMatchObject({ status: 422, message: 'At that moment there was nothing of this job yet.' });
	});

	it('refuses in words what can’t be brought back', async () => {
		const services = await temporaryServices(await database.place());
		const job = await newJob(services);
		const back = async (request: unknown) => refusal(await restoreJob(localActor, services, job, request));
		expect(await back({ revision: 7 })).toMatchObject({
			status: 422,
			message: 'The last change of this job is number 0; there is no change 7 yet.'
		});
		expect((await back({})).message).toBe('Name either a change or a moment.');
		expect((await back({ revision: 0, moment: '2025-03-03T14:00:00Z' })).status).toBe(422);
		expect((await back({ moment: 'last Tuesday' })).message).toBe(
			'A moment is a date and a time in ISO 8601.'
		);
		expect((await back({ revision: -1 })).status).toBe(422);
		expect((await headingOf(services, job)).revision).toBe(0);
		const stranger: Actor = { ...colleague, companyId: 'another-company' };
		expect(refusal(await restoreJob(stranger, services, job, { revision: 0 })).status).toBe(404);

		// A job from before a history was written, of which there are changes only since.
		value(await applyEdit(localActor, services, job, edit([addRow('c1', null, counter('C-1'))])));
		value(await applyEdit(localActor, services, job, edit([setCell('c1', 'note', null, 'a')])));
		const { db } = services.storage.accountsDatabase;
		await db.updateTable('job').set({ history_from: 1 }).where('job_id', '=', job).execute();
		expect(await back({ revision: 0 })).toMatchObject({
			status: 422,
			message:
				'The history of this job is whole only from change 1 on. It can be brought back to that and to any later one.'
		});
		value(await restoreJob(localActor, services, job, { revision: 1 }));
	});

	it('has the price it had, and the others in the job it was made of are told', async () => {
		const services = await temporaryServices(await database.place());
		const told: number[] = [];
		const end = services.signals.listen((heard) => {
			if (heard.kind === 'changed' && heard.jobId === job) told.push(heard.revision);
		});
		onTestFinished(end);
		const job = await newJob(services);
		value(await applyEdit(localActor, services, job, edit([addRow('c1', null, counter('C-1'))])));
		const { price } = value(await readPrice(localActor, services, job));
		value(await applyEdit(localActor, services, job, edit([addRow('c2', 'c1', counter('C-2'))])));
		const { id } = value(await restoreJob(localActor, services, job, { revision: 1 }));
		expect(value(await readPrice(localActor, services, id)).price).toEqual(price);
		await expect.poll(() => told, { timeout: 20_000 }).toContain(3);
		// The last change is one too.
		const last = value(await restoreJob(localActor, services, job, { revision: 3 }));
		expect((await rowsOf(services, last.id)).map((row) => row.id)).toEqual(['c1', 'c2']);
	});

	it('brings the packing lists along that were in, and the ids of the parts they name', async () => {
		const { services, set } = await clocked(await database.place());
		const job = await newJob(services);
		value(await applyEdit(localActor, services, job, edit([addRow('c1', null, counter('C-1'))])));
		set('2025-03-03T14:10:00.000Z');
		const issued = value(await issueParts(localActor, services, job)).parts;
		const barrel = issued.find(({ kind }) => kind === 'barrel');
		const list = (id: string | undefined) => ({
			name: 'truck 1.csv',
			bytes: new TextEncoder().encode(`Part id,Qty\n${id ?? ''},1\n`),
			field: (name: string) => (name === 'anotherTruck' ? 'yes' : null)
		});
		const first = value(await checkDelivery(localActor, services, job, list(barrel?.partId)));
		// Another list under the same name: they are told apart by more than what they are called.
		const second = value(await checkDelivery(localActor, services, job, list(barrel?.partId)));
		value(await removeDelivery(localActor, services, job, first.id));
		set('2025-03-03T14:20:00.000Z');
		// A wider opening has another barrel, under an id of its own.
		const width = typed('openingWidth', `10'-0"`);
		const wider = setCell('c1', 'openingWidth', width, typed('openingWidth', `12'-0"`));
		value(await applyEdit(localActor, services, job, edit([wider])));
		set('2025-03-03T14:30:00.000Z');
		const now = value(await issueParts(localActor, services, job)).parts;
		expect(now.map(({ partId }) => partId)).not.toContain(barrel?.partId);
		value(await restoreDelivery(localActor, services, job, first.id));
		value(await removeDelivery(localActor, services, job, second.id));

		// Changes: 1 row, 2 and 3 lists in, 4 first out, 5 wider, 6 first back, 7 second out.
		const inAfter = async (revision: number): Promise<string[]> => {
			const { id } = value(await restoreJob(localActor, services, job, { revision }));
			const answer = value(await readDeliveries(localActor, services, id));
			return answer.deliveries.filter(({ removed }) => !removed).map((one) => one.id);
		};
		expect(await inAfter(1)).toEqual([]);
		expect(await inAfter(2)).toEqual([first.id]);
		expect(new Set(await inAfter(3))).toEqual(new Set([first.id, second.id]));
		expect(await inAfter(4)).toEqual([second.id]);
		expect(new Set(await inAfter(6))).toEqual(new Set([first.id, second.id]));
		expect(await inAfter(7)).toEqual([first.id]);

		const { id } = value(await restoreJob(localActor, services, job, { revision: 4 }));
		const copied = value(await issueParts(localActor, services, id)).parts;
		expect(copied.map((part) => part.partId).sort()).toEqual(issued.map((part) => part.partId).sort());
		const answer = value(await readDeliveries(localActor, services, id));
		const arrivals = ({ deliveries }: typeof answer) =>
			new Map(deliveries.map((one) => [one.id, one.receivedAt]));
		const arrived = arrivals(value(await readDeliveries(localActor, services, job)));
		expect(answer.deliveries.map((one) => one.receivedAt)).toEqual(
			answer.deliveries.map((one) => arrived.get(one.id))
		);
		const line = answer.comparison?.lines.find((one) => JSON.stringify(one).includes(String(barrel?.partId)));
		expect(line).toBeDefined();

		// Nor does a part begin again under an id that was given to the one before it.
		const last = value(await restoreJob(localActor, services, job, { revision: 7 }));
		const later = value(await issueParts(localActor, services, last.id)).parts;
		expect(later.map((part) => part.partId).sort()).toEqual(now.map((part) => part.partId).sort());
	});
});
