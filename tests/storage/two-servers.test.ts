/** Two servers on one PostgreSQL, each with connections of its own. */
import { join } from 'node:path';
import { sql } from 'kysely';
import { describe, expect, it } from 'vitest';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { issueParts } from '../../src/lib/server/operations/issue-parts.ts';
import { loadDemo } from '../../src/lib/server/operations/load-demo.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { openServices, type Services } from '../../src/lib/server/operations/services.ts';
import { undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import type { JobKey } from '../../src/lib/server/storage/keys.ts';
import type { PartRepository } from '../../src/lib/server/storage/part.repository.ts';
import type { Part } from '../../src/lib/takeoff/result.ts';
import { postgres, temporaryStorage } from './databases.ts';
import { postgresIsThere } from './postgres-cluster.ts';
import { addRow, counter, edit, setCell, temporaryServices, value } from './services.ts';

const colleague: Actor = { ...localActor, id: 'colleague', name: 'A colleague' };

async function twoServers(): Promise<{ one: Services; other: Services; job: string }> {
	const place = await postgres.place();
	const [one, other] = [await temporaryServices(place), await temporaryServices(place)];
	const { id: job } = value(
		await createJob(localActor, one, { name: 'Saltmarsh Pier', measures: 'imperial' })
	);
	return { one, other, job };
}

const key = (job: string): JobKey => ({ companyId: localActor.companyId, jobId: job });

describe.runIf(postgresIsThere)('two servers', () => {
	it('take 200 edits of one job at once: all are there, each with a revision of its own', async () => {
		const { one, other, job } = await twoServers();
		const start = (await one.storage.jobs.find(key(job)))?.revision ?? Number.NaN;
		const send = (i: number) =>
			applyEdit(i % 2 === 0 ? localActor : colleague, i % 2 === 0 ? one : other, job, {
				id: `both-${i}`,
				title: `Add ${i}`,
				changes: [addRow(`row-${i}`, null, counter(`C-${i}`))]
			});
		const outcomes = [];
		// Twenty at a time: more would wait longer for a connection than a server lets anybody wait.
		for (let first = 0; first < 200; first += 20)
			outcomes.push(...(await Promise.all(Array.from({ length: 20 }, (_, i) => send(first + i)))));
		const revisions = outcomes.map((outcome) => value(outcome).revision).sort((a, b) => a - b);
		expect(revisions).toEqual(Array.from({ length: 200 }, (_, i) => start + 1 + i));
		const { rows } = value(await readOpenings(localActor, other, job));
		expect(rows.map(({ id }) => id).sort()).toEqual(outcomes.map((_, i) => `row-${i}`).sort());
		const entries = await one.storage.history.after(key(job), start, 1000);
		expect(entries.map(({ revision }) => revision)).toEqual(revisions);
		// Everybody's own stack.
		expect(value(await undoEdit(localActor, other, job)).redo).toMatch(/^Add \d*[02468]$/u);
	});

	it('apply a message once that reaches both at once, and both answer it', async () => {
		const { one, other, job } = await twoServers();
		for (let i = 0; i < 20; i++) {
			const message = edit([addRow(`twice-${i}`, null, counter(`T-${i}`))]);
			const answers = await Promise.all(
				[one, other, one, other].map((services) => applyEdit(localActor, services, job, message))
			);
			const all = answers.map(value);
			expect(new Set(all.map(({ revision }) => revision)).size).toBe(1);
		}
		expect(value(await readOpenings(localActor, one, job)).rows).toHaveLength(20);
	});

	it('let one of two edits of the same cell win, and show the other both values', async () => {
		const { one, other, job } = await twoServers();
		value(await applyEdit(localActor, one, job, edit([addRow('c1', null, counter('C-1'))])));
		const outcomes = await Promise.all([
			applyEdit(localActor, one, job, edit([setCell('c1', 'phase', null, 'North')])),
			applyEdit(colleague, other, job, edit([setCell('c1', 'phase', null, 'South')]))
		]);
		const refused = outcomes.filter(({ ok }) => !ok);
		expect(refused).toMatchObject([{ status: 409, refusal: { conflicts: [{ row: 'c1', field: 'phase' }] } }]);
	});

	it('never give one id to two parts, also when a size changes while they are issued', async () => {
		const { one, other, job } = await twoServers();
		value(await applyEdit(localActor, one, job, edit([addRow('c1', null, counter('C-1'))])));
		const width = counter('C-1').openingWidth ?? null;
		const wider = { amount: 150 * 25_400_000, unit: 'nm' as const, typed: '150"' };
		const race: { changed?: Promise<readonly Part[]> } = {};
		const waits = async (): Promise<void> => {
			const { rows } = await sql`select 1 from pg_locks where not granted`.execute(
				other.storage.accountsDatabase.db
			);
			if (rows.length === 0) await waits();
		};
		// Stops between reading and writing until the other one has gone past it, or waits for it.
		const slow: Services = {
			...one,
			storage: {
				...one.storage,
				transaction: (work) =>
					one.storage.transaction(async (inside) => {
						const parts = {
							issued: (job: JobKey) => inside.parts.issued(job),
							save: async (...given: Parameters<PartRepository['save']>) => {
								race.changed ??= applyEdit(
									localActor,
									other,
									job,
									edit([setCell('c1', 'openingWidth', width, wider)])
								)
									.then(value)
									.then(() => issueParts(localActor, other, job))
									.then((issued) => value(issued).parts);
								await Promise.race([race.changed, waits()]);
								await inside.parts.save(...given);
							}
						} as unknown as PartRepository;
						return work({ ...inside, parts });
					})
			}
		};
		const narrow = value(await issueParts(localActor, slow, job)).parts;
		const wide = (await race.changed) ?? [];
		const keys = new Map(narrow.map(({ partId, interchangeKey }) => [partId, interchangeKey]));
		const shared = wide.filter(({ partId }) => keys.has(partId));
		expect(shared.length).toBeGreaterThan(0);
		expect(shared.length).toBeLessThan(wide.length);
		for (const { partId, interchangeKey } of shared) expect(interchangeKey).toBe(keys.get(partId));
	});

	it('load the demo jobs once between them', async () => {
		const place = await postgres.place();
		const both = [await temporaryServices(place), await temporaryServices(place)];
		await Promise.all(
			both.flatMap((services) =>
				[1, 2].map(() => loadDemo(localActor, services, join('fixtures', 'schedules')))
			)
		);
		expect(await both[0]?.storage.jobs.list(localActor.companyId)).toHaveLength(2);
	});

	it('that start at once on an empty database make its tables once', async () => {
		for (let i = 0; i < 5; i++) {
			const place = await postgres.place();
			const opened = await Promise.all([1, 2, 3, 4].map(() => temporaryStorage(place)));
			for (const { jobs } of opened) expect(await jobs.list('nobody')).toEqual([]);
		}
	});
});

it.runIf(postgresIsThere)('one server waits for what another holds', async () => {
	const { one, other, job } = await twoServers();
	let release = (): void => undefined;
	const held = new Promise<void>((resolve) => (release = resolve));
	let holding = (): void => undefined;
	const isHeld = new Promise<void>((resolve) => (holding = resolve));
	const first = one.storage.transaction(async ({ jobs }) => {
		await jobs.change(key(job), { name: 'Theirs' }, new Date());
		holding();
		await held;
		return { ok: true };
	});
	await isHeld;
	const order: string[] = [];
	const second = other.storage.transaction(async ({ jobs }) => {
		await jobs.hold(key(job));
		order.push('second');
		return { ok: true, name: (await jobs.find(key(job)))?.name };
	});
	order.push('released');
	release();
	await first;
	expect(await second).toEqual({ ok: true, name: 'Theirs' });
	expect(order).toEqual(['released', 'second']);
});

it.runIf(postgresIsThere)('says in words why a database can’t be used', async () => {
	const url = new URL(await postgres.place());
	const missing = new URL(url);
	missing.pathname = '/kelpgate-is-not-there';
	await expect(openServices(missing.href)).rejects.toThrow(
		'The database named by DATABASE_URL does not exist; create it first.'
	);
	const away = new URL(url);
	// Nobody listens there: it is below the ports that are given out.
	away.port = '1';
	await expect(openServices(away.href)).rejects.toThrow(
		'The database named by DATABASE_URL does not answer.'
	);
});
