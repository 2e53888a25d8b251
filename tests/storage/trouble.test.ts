/** Databases that fail, really: what they throw is taken for what it is, and people are told in words. */
import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { sql, type Kysely } from 'kysely';
import pg from 'pg';
import { describe, expect, it, onTestFinished } from 'vitest';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { postgresPool } from '../../src/lib/server/storage/postgres-database.ts';
import { troubleOf, type Trouble } from '../../src/lib/server/storage/trouble.ts';
import { databases, postgres, temporaryFolder } from './databases.ts';
import { postgresIsThere, startCluster, type Cluster } from './postgres-cluster.ts';
import { addRow, counter, edit, refusal, setCell, temporaryServices, value } from './services.ts';

async function thrownBy(work: Promise<unknown>): Promise<unknown> {
	try {
		await work;
	} catch (thrown) {
		return thrown;
	}
	throw new Error('nothing was thrown');
}

const bare = ({ storage }: Services) => storage.accountsDatabase.db as unknown as Kysely<never>;

async function withJob(services: Services): Promise<string> {
	return value(
		await operations.createJob(localActor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
	).id;
}

const attempt = (services: Services, job: string, row = 'c1') =>
	operations.applyEdit(localActor, services, job, edit([addRow(row, null, counter(`C-${row}`))]));

async function temporaryCluster(settings: readonly string[] = []): Promise<Cluster> {
	const cluster = await startCluster({ durable: false, settings });
	onTestFinished(() => cluster.close());
	return cluster;
}

describe('an embedded database', () => {
	async function limited(pragma: string): Promise<{ services: Services; job: string }> {
		const services = await temporaryServices(temporaryFolder());
		const job = await withJob(services);
		await sql.raw(pragma).execute(bare(services));
		return { services, job };
	}

	it('without room takes nothing more, says so, and goes on when there is room', async () => {
		const { services, job } = await limited('pragma max_page_count = 1');
		let last = await attempt(services, job, 'r0');
		for (let i = 1; last.ok && i < 1000; i++) last = await attempt(services, job, `r${i}`);
		expect(refusal(last)).toMatchObject({
			status: 503,
			message: expect.stringMatching(/^There is no room left/u) as string
		});
		const { revision } =
			(await services.storage.jobs.find({ companyId: localActor.companyId, jobId: job })) ?? {};
		const rows = value(await operations.readOpenings(localActor, services, job)).rows.length;
		await sql.raw('pragma max_page_count = 1000000').execute(bare(services));
		expect(value(await attempt(services, job, 'after')).revision).toBe((revision ?? Number.NaN) + 1);
		expect(value(await operations.readOpenings(localActor, services, job)).rows).toHaveLength(rows + 1);
	});

	it('that may only be read says so', async () => {
		const { services, job } = await limited('pragma query_only = on');
		expect(refusal(await attempt(services, job))).toMatchObject({
			status: 503,
			message: expect.stringMatching(/can only be read just now/u) as string
		});
		expect(value(await operations.readOpenings(localActor, services, job)).rows).toEqual([]);
	});

	it('that another holds for too long says so', async () => {
		const folder = temporaryFolder();
		const services = await temporaryServices(folder);
		const job = await withJob(services);
		await sql.raw('pragma busy_timeout = 50').execute(bare(services));
		const other = new DatabaseSync(join(folder, 'coilwright.sqlite'));
		other.exec('begin immediate');
		expect(refusal(await attempt(services, job))).toMatchObject({
			status: 503,
			message: expect.stringMatching(/does not answer just now/u) as string
		});
		other.exec('rollback');
		other.close();
		value(await attempt(services, job));
	});

	it.skipIf(process.getuid?.() === 0)('in a file that can’t be written is refused at the start', async () => {
		const folder = temporaryFolder();
		await (await temporaryServices(folder)).storage.close();
		chmodSync(join(folder, 'coilwright.sqlite'), 0o400);
		await expect(temporaryServices(folder)).rejects.toThrow(/^The database in /u);
	});
});

describe.runIf(postgresIsThere)('PostgreSQL', () => {
	it.each(['fast', 'immediate'] as const)(
		'that is stopped (%s) says so, and goes on when it is back',
		async (mode) => {
			const cluster = await temporaryCluster();
			const services = await temporaryServices(cluster.url('postgres'));
			const job = await withJob(services);
			value(await attempt(services, job, 'before'));
			await cluster.stop(mode);
			for (let i = 0; i < 3; i++)
				expect(refusal(await attempt(services, job, 'while'))).toMatchObject({
					status: 503,
					message: expect.stringMatching(/does not answer just now/u) as string
				});
			expect(refusal(await operations.listJobs(localActor, services)).status).toBe(503);
			await cluster.start();
			value(await attempt(services, job, 'after'));
			expect(
				value(await operations.readOpenings(localActor, services, job)).rows.map(({ id }) => id)
			).toEqual(['after', 'before']);
		}
	);

	it('that ends the connections says so, or goes on with new ones', async () => {
		const cluster = await temporaryCluster();
		const services = await temporaryServices(cluster.url('postgres'));
		const job = await withJob(services);
		const thrown = await thrownBy(
			services.storage.transaction(async ({ jobs }) => {
				await jobs.list(localActor.companyId);
				await cluster.tell(
					'template1',
					`select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'coilwright'`
				);
				await jobs.list(localActor.companyId);
				return { ok: true };
			})
		);
		expect(troubleOf(thrown)).toBe<Trouble>('unreachable');
		value(await attempt(services, job));
	});

	it('that has no connection left says so', async () => {
		const cluster = await temporaryCluster([
			'max_connections=8',
			'superuser_reserved_connections=0',
			'max_wal_senders=0'
		]);
		const services = await temporaryServices(cluster.url('postgres'));
		const job = await withJob(services);
		const others: pg.Client[] = [];
		const full = async (): Promise<void> => {
			const client = new pg.Client({ connectionString: cluster.url('postgres') });
			await client.connect();
			others.push(client);
			await full();
		};
		const thrown = await thrownBy(full());
		expect(troubleOf(thrown)).toBe<Trouble>('unreachable');
		// The one connection that the services have goes on; a second one is refused.
		const outcomes = await Promise.all([attempt(services, job, 'a'), attempt(services, job, 'b')]);
		for (const outcome of outcomes) if (!outcome.ok) expect(outcome.status).toBe(503);
		await Promise.all(others.map((client) => client.end()));
		value(await attempt(services, job, 'c'));
	});

	it.each<[string, string, Trouble]>([
		['gives up a statement', `set statement_timeout = 20; select pg_sleep(5)`, 'unreachable'],
		['gives up waiting for a lock', `set lock_timeout = 20; select 1 from job for update`, 'unreachable'],
		['may only be read', `set default_transaction_read_only = on; update job set name = name`, 'readOnly'],
		['has no room', `do $$ begin raise sqlstate '53100'; end $$`, 'full'],
		['could not put two in one order', `do $$ begin raise sqlstate '40001'; end $$`, 'unreachable']
	])('that %s is in trouble, and no fault of the program', async (_, statements, trouble) => {
		const place = await postgres.place();
		const services = await temporaryServices(place);
		await withJob(services);
		const pool = postgresPool(place);
		onTestFinished(() => pool.end());
		const [one, other] = [await pool.connect(), await pool.connect()];
		await other.query('begin; select 1 from job for update');
		try {
			const thrown = await thrownBy(
				statements.split('; ').reduce<Promise<unknown>>((before, text, i, all) => {
					const statement = all[0]?.startsWith('do ') ? (i === 0 ? statements : 'select 1') : text;
					return before.then(() => one.query(statement));
				}, Promise.resolve())
			);
			expect(troubleOf(thrown)).toBe(trouble);
		} finally {
			await other.query('rollback');
			other.release();
			one.release(true);
		}
	});
});

describe.each(databases)('text on $name', ({ place }) => {
	it.each(['\0', 'a\0b', '\ud800', 'x\udfff'])(
		'that it can’t keep (%j) is refused, never changed',
		async (text) => {
			const services = await temporaryServices(await place());
			const job = await withJob(services);
			value(await attempt(services, job));
			const before = value(await operations.readOpenings(localActor, services, job));
			const mark = counter('C-c1').mark ?? null;
			const outcomes = [
				await operations.applyEdit(localActor, services, job, edit([setCell('c1', 'mark', mark, text)])),
				await operations.applyEdit(localActor, services, job, {
					...edit([setCell('c1', 'phase', null, 'x')]),
					title: text
				}),
				await operations.changeJob(localActor, services, job, { name: `Pier ${text}` }),
				await operations.readOpenings(localActor, services, text),
				await operations.removeView(localActor, services, text)
			];
			for (const outcome of outcomes) if (!outcome.ok) expect([404, 422]).toContain(outcome.status);
			// A name loses signs that are none of a text; the others are refused.
			expect(outcomes.map(({ ok }) => ok)).toEqual([false, false, expect.any(Boolean), false, false]);
			const after = value(await operations.readOpenings(localActor, services, job));
			expect(after.rows[0]?.cells.mark).toBe(before.rows[0]?.cells.mark);
		}
	);

	it('is put in the order of its bytes', async () => {
		const services = await temporaryServices(await place());
		const names = [
			'b',
			'B',
			'a',
			'ä',
			'Z',
			'_',
			'a b',
			'ab',
			'10',
			'9',
			'ß',
			'é',
			'日本',
			'ｚ',
			'🚪',
			'-a',
			"'",
			'İ',
			'ı'
		];
		const person = { companyId: 'tern-and-gannet', actorId: 'ada' };
		for (const name of names)
			await services.storage.views.save(person, { key: name, name }, {} as never, new Date());
		const bytes = (text: string): Buffer => Buffer.from(text, 'utf8');
		expect((await services.storage.views.list(person)).map(({ name }) => name)).toEqual(
			[...names].sort((x, y) => bytes(x).compare(bytes(y)))
		);
		expect(await services.storage.views.nameOf(person, 'A')).toBeNull();
	});
});
