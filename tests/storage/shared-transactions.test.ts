/** Edits that wait for one another share a transaction: each is stored whole or not at all, whatever becomes of the others. */
import { sql } from 'kysely';
import { describe, expect, it } from 'vitest';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import type { JobKey } from '../../src/lib/server/storage/keys.ts';
import type { Storage } from '../../src/lib/server/storage/storage.ts';
import { databases } from './databases.ts';
import { addRow, counter, edit, temporaryServices, value } from './services.ts';

const at = new Date('2026-03-02T08:00:00Z');

async function onJob(place: string): Promise<{ storage: Storage; key: JobKey; start: number }> {
	const services = await temporaryServices(place);
	const { storage } = services;
	const asked = { name: 'Kelpgate Ferry Terminal', measures: 'metric' };
	const { id: jobId } = value(await createJob(localActor, services, asked));
	const key = { companyId: localActor.companyId, jobId };
	return { storage, key, start: (await storage.jobs.find(key))?.revision ?? Number.NaN };
}

/** Counts the revision up, and then does as it is told. */
const counting = (storage: Storage, key: JobKey, then: (revision: number) => boolean | Promise<boolean>) =>
	storage.transaction(async ({ jobs }) => {
		const revision = (await jobs.nextRevision(key, at)) ?? Number.NaN;
		return { ok: await then(revision), revision };
	}, key);

describe.each(databases)('$name', ({ place }) => {
	it('leaves nothing of those that are refused or fail, and all of the others, in the order they came', async () => {
		const { storage, key, start } = await onJob(await place());
		const settled = await Promise.allSettled(
			Array.from({ length: 100 }, (_, i) =>
				counting(storage, key, () => {
					if (i % 10 === 7) throw new Error(`number ${i} fails`);
					return i % 10 !== 3;
				})
			)
		);
		let revision = start;
		for (const [i, one] of settled.entries()) {
			if (i % 10 === 7) expect(one).toMatchObject({ reason: { message: `number ${i} fails` } });
			else if (i % 10 === 3) expect(one).toMatchObject({ value: { ok: false, revision: revision + 1 } });
			else expect(one).toMatchObject({ value: { ok: true, revision: ++revision } });
		}
		expect(revision).toBe(start + 80);
		expect((await storage.jobs.find(key))?.revision).toBe(revision);
	});

	it('goes on for the others when a statement of one fails', async () => {
		const { storage, key, start } = await onJob(await place());
		const settled = await Promise.allSettled(
			[0, 1, 2, 3].map((i) =>
				storage.transaction(async ({ jobs, edits }) => {
					const revision = (await jobs.nextRevision(key, at)) ?? Number.NaN;
					await edits.add(key, i === 2 ? 'edit-0' : `edit-${i}`, localActor.id, revision);
					return { ok: true, revision };
				}, key)
			)
		);
		expect(settled.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled', 'rejected', 'fulfilled']);
		expect((await storage.jobs.find(key))?.revision).toBe(start + 3);
	});

	it('answers none before it is stored: another connection has it by then', async () => {
		const where = await place();
		const { storage, key } = await onJob(where);
		const other = (await temporaryServices(where)).storage;
		await Promise.all(
			Array.from({ length: 40 }, async () => {
				const { revision } = await counting(storage, key, () => true);
				expect((await other.jobs.find(key))?.revision).toBeGreaterThanOrEqual(revision);
			})
		);
	});
});

describe('SQLite', () => {
	it('refuses in words what no longer fits, and has stored whole what it said it had', async () => {
		const sqlite = databases.find(({ name }) => name === 'SQLite');
		const services = await temporaryServices(await sqlite?.place());
		const { db } = services.storage.accountsDatabase;
		const asked = { name: 'Saltmarsh Pier Market Hall', measures: 'imperial' };
		const { id: job } = value(await createJob(localActor, services, asked));
		const { rows } = await sql<{ page_count: number }>`pragma page_count`.execute(db);
		// An edit takes about two and a half pages of 4 kB: there is room for the 32 that go together first, not for all.
		await sql.raw(`pragma max_page_count = ${(rows[0]?.page_count ?? 0) + 110}`).execute(db);
		const outcomes = await Promise.all(
			Array.from({ length: 60 }, (_, i) =>
				applyEdit(
					localActor,
					services,
					job,
					edit([addRow(`r${i}`, null, { ...counter(`C-${i}`), note: 'x'.repeat(1900) })])
				)
			).map(async (pending) => pending.catch((thrown: unknown) => thrown))
		);
		await sql`pragma max_page_count = 1000000`.execute(db);
		const stored = outcomes.flatMap((outcome, i) =>
			typeof outcome === 'object' && outcome !== null && 'ok' in outcome && outcome.ok === true
				? [`r${i}`]
				: []
		);
		expect(stored.length).toBeGreaterThan(0);
		expect(stored.length).toBeLessThan(60);
		const key = { companyId: localActor.companyId, jobId: job };
		expect((await services.storage.openings.order(key)).sort()).toEqual(stored.sort());
		const again = await applyEdit(localActor, services, job, edit([addRow('later', null, counter('L-1'))]));
		expect(value(again).rows.map(({ id }) => id)).toEqual(['later']);
	});
});
