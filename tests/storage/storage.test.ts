import { readdirSync, statSync, writeFileSync } from 'node:fs';
import { once } from 'node:events';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Worker } from 'node:worker_threads';
import { Kysely, sql } from 'kysely';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { SheetRow } from '../../src/lib/changes/apply.ts';
import type { JobKey } from '../../src/lib/server/storage/keys.ts';
import { sqliteDialect } from '../../src/lib/server/storage/sqlite-database.ts';
import { openStorage, type Storage } from '../../src/lib/server/storage/storage.ts';
import { databases, temporaryFolder, temporaryStorage } from './databases.ts';

const at = new Date('2026-03-02T08:30:00Z');
const key: JobKey = { companyId: 'tern-and-gannet', jobId: 'saltmarsh' };

/** Any content does: the storage never looks into a book. */
const anyBook = {} as never;

async function withJob(storage: Storage, { companyId, jobId }: JobKey = key): Promise<Storage> {
	await storage.books.putTechnical(companyId, 'aa', anyBook, at);
	await storage.books.putPrice(companyId, 'bb', anyBook, at);
	await storage.jobs.insert(
		{ companyId, jobId },
		{ name: 'Saltmarsh Pier', measures: 'imperial', technicalDigest: 'aa', priceDigest: 'bb', demo: false },
		at
	);
	return storage;
}

const row = (id: string): SheetRow => ({ id, cells: { mark: id, quantity: 2 }, removed: false });

describe('the embedded database', () => {
	function bare() {
		const db = new Kysely<Record<string, never>>({ dialect: sqliteDialect(':memory:') });
		onTestFinished(() => db.destroy());
		return db;
	}

	it('keeps a crash-proof journal and its foreign keys', async () => {
		const folder = temporaryFolder();
		const db = new Kysely<Record<string, never>>({ dialect: sqliteDialect(join(folder, 'x.sqlite')) });
		onTestFinished(() => db.destroy());
		const read = async (pragma: string) =>
			Object.values(
				(await sql.raw<Record<string, unknown>>(`pragma ${pragma}`).execute(db)).rows[0] ?? {}
			)[0];
		expect(await read('journal_mode')).toBe('wal');
		// 2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous
		expect(await read('synchronous')).toBe(2);
		expect(await read('foreign_keys')).toBe(1);
	});

	it('gives back rows of a statement that writes and returns', async () => {
		const db = bare();
		await sql`create table t (a integer primary key, b text)`.execute(db);
		const { rows } = await sql`insert into t (b) values (${'x'}), (${'y'}) returning a, b`.execute(db);
		expect(rows).toEqual([
			{ a: 1, b: 'x' },
			{ a: 2, b: 'y' }
		]);
		expect(Object.getPrototypeOf(rows[0])).toBe(Object.prototype);
	});

	// node:sqlite takes a plain object in first place for named parameters and shifts the values that follow.
	it.each([
		['a Date', new Date(0), 'value 1 of the statement is a Date'],
		['a plain object', { b: 1 }, 'value 1 of the statement is a object'],
		['yes or no', true, 'value 1 of the statement is a boolean'],
		['not a number', Number.NaN, 'value 1 of the statement is a number'],
		['nothing at all', undefined, 'value 1 of the statement is a undefined']
	])('refuses to bind %s', async (_, value, reason) => {
		const db = bare();
		await expect(sql`select ${value}, ${'x'}`.execute(db)).rejects.toThrow(reason);
	});

	it('is read by nobody but its owner: it holds prices, and what passwords are checked by', async () => {
		const folder = temporaryFolder();
		const storage = await withJob(await temporaryStorage(folder));
		await storage.jobs.find(key);
		for (const file of readdirSync(folder)) expect(statSync(join(folder, file)).mode & 0o077).toBe(0);
	});

	it('says so when its folder can’t be made', async () => {
		const folder = temporaryFolder();
		writeFileSync(join(folder, 'data'), '');
		await expect(openStorage(join(folder, 'data', 'deeper'))).rejects.toThrow(/can’t be made there/u);
	});

	it('refuses data that a newer version wrote', async () => {
		const folder = temporaryFolder();
		await (await openStorage(folder)).close();
		const database = new DatabaseSync(join(folder, 'coilwright.sqlite'));
		database.exec(
			`insert into kysely_migration (name, timestamp) values ('9999-later', '2030-01-01T00:00:00Z')`
		);
		database.close();
		await expect(openStorage(folder)).rejects.toThrow(/newer version of Coilwright/u);
	});

	it('waits for another one that writes to the same file', async () => {
		const folder = temporaryFolder();
		const storage = await withJob(await temporaryStorage(folder));
		const holder = new Worker(
			`const { DatabaseSync } = require('node:sqlite');
		const { parentPort, workerData } = require('node:worker_threads');
		const database = new DatabaseSync(workerData);
		database.exec("begin immediate; update job set name = 'Theirs'");
		parentPort.postMessage('holding');
		setTimeout(() => { database.exec('commit'); database.close(); }, 300);`,
			{ eval: true, workerData: join(folder, 'coilwright.sqlite') }
		);
		onTestFinished(async () => {
			await holder.terminate();
		});
		await once(holder, 'message');
		const name = await storage.transaction(async ({ jobs }) => {
			await jobs.nextRevision(key, at);
			return { ok: true, name: (await jobs.find(key))?.name };
		});
		expect(name).toEqual({ ok: true, name: 'Theirs' });
	});
});

describe.each(databases)('$name', ({ place }) => {
	describe('a transaction', () => {
		it('stores nothing when its answer is not ok', async () => {
			const storage = await withJob(await temporaryStorage(await place()));
			const answer = await storage.transaction(async ({ jobs }) => {
				await jobs.change(key, { name: 'Changed' }, at);
				return { ok: false, why: 'on purpose' } as const;
			});
			expect(answer).toEqual({ ok: false, why: 'on purpose' });
			expect((await storage.jobs.find(key))?.name).toBe('Saltmarsh Pier');
		});

		it('stores nothing when it throws, and the next one works', async () => {
			const storage = await withJob(await temporaryStorage(await place()));
			await expect(
				storage.transaction(async ({ jobs }): Promise<{ ok: true }> => {
					await jobs.change(key, { name: 'Changed' }, at);
					throw new Error('half way');
				})
			).rejects.toThrow('half way');
			expect((await storage.jobs.find(key))?.name).toBe('Saltmarsh Pier');
			await storage.transaction(async ({ jobs }) => {
				await jobs.change(key, { name: 'Changed' }, at);
				return { ok: true };
			});
			expect((await storage.jobs.find(key))?.name).toBe('Changed');
		});

		it('runs after another when many are asked for at once', async () => {
			const storage = await withJob(await temporaryStorage(await place()));
			const revisions = await Promise.all(
				Array.from({ length: 20 }, () =>
					storage.transaction(async ({ jobs }) => ({ ok: true, revision: await jobs.nextRevision(key, at) }))
				)
			);
			// Which of them comes first is open.
			expect(revisions.map(({ revision }) => revision).sort((a, b) => (a ?? 0) - (b ?? 0))).toEqual(
				Array.from({ length: 20 }, (_, i) => i + 1)
			);
		});
	});

	describe('rows', () => {
		const order = (ids: readonly string[]): SheetRow[] => ids.map(row);

		it('come back in order, and a row put between two stays there', async () => {
			const storage = await withJob(await temporaryStorage(await place()));
			await storage.openings.arrange(key, order(['a', 'b', 'c']), new Set(['a', 'b', 'c']));
			await storage.openings.arrange(key, order(['a', 'x', 'b', 'c']), new Set(['x']));
			await storage.openings.arrange(
				key,
				order(['first', 'a', 'x', 'b', 'c', 'last']),
				new Set(['first', 'last'])
			);
			expect(await storage.openings.order(key)).toEqual(['first', 'a', 'x', 'b', 'c', 'last']);
		});

		it('keep their order when a hundred are put one after the other into the same place', async () => {
			const storage = await withJob(await temporaryStorage(await place()));
			let ids = ['top', 'bottom'];
			await storage.openings.arrange(key, order(ids), new Set(ids));
			for (let i = 0; i < 100; i++) {
				ids = ['top', `n${i}`, ...ids.slice(1)];
				await storage.openings.arrange(key, order(ids), new Set([`n${i}`]));
			}
			expect(await storage.openings.order(key)).toEqual(ids);
		});

		it('keep their order when more are put between two than there is room for', async () => {
			const storage = await withJob(await temporaryStorage(await place()));
			const inner = Array.from({ length: 3000 }, (_, i) => `n${i}`);
			await storage.openings.arrange(key, order(['a', 'b']), new Set(['a', 'b']));
			await storage.openings.arrange(key, order(['a', ...inner, 'b']), new Set(inner));
			expect(await storage.openings.order(key)).toEqual(['a', ...inner, 'b']);
		});

		it('belong to one job of one company', async () => {
			const storage = await temporaryStorage(await place());
			const others: JobKey[] = [
				{ companyId: key.companyId, jobId: 'kelpgate' },
				{ companyId: 'northreach', jobId: key.jobId }
			];
			for (const job of [key, ...others]) {
				await withJob(storage, job);
				await storage.openings.arrange(job, [row('same-id')], new Set(['same-id']));
			}
			await storage.openings.change(key, [{ ...row('same-id'), cells: { mark: 'changed' } }]);
			expect((await storage.openings.live(key))[0]?.cells.mark).toBe('changed');
			for (const job of others) expect((await storage.openings.live(job))[0]?.cells.mark).toBe('same-id');
			expect(await storage.jobs.list('northreach')).toHaveLength(1);
			expect(await storage.jobs.find({ companyId: 'nobody', jobId: key.jobId })).toBeNull();
		});

		it('are counted: marks, and the openings of their quantities', async () => {
			const storage = await withJob(await temporaryStorage(await place()));
			const rows: SheetRow[] = [
				row('a'),
				row('b'),
				// One opening of a that differs is none more.
				{ id: 'a2', cells: { mark: 'a', openingNumber: 2 }, removed: false },
				{ id: 'gone', cells: {}, removed: true }
			];
			await storage.openings.arrange(key, rows, new Set(rows.map(({ id }) => id)));
			expect(await storage.openings.countOpenings(key)).toBe(4);
			expect(await storage.jobs.list(key.companyId)).toMatchObject([{ marks: 2, openings: 4 }]);
		});
	});

	it('a milestone is reached once', async () => {
		const storage = await temporaryStorage(await place());
		expect(await storage.milestones.reach('a', 'demo', at)).toBe(true);
		expect(await storage.milestones.reach('a', 'demo', at)).toBe(false);
		expect(await storage.milestones.reach('b', 'demo', at)).toBe(true);
	});
});
