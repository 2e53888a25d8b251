/** Databases of every older step, brought up to date. */
import { join } from 'node:path';
import { sql, type Kysely } from 'kysely';
import { describe, expect, it, onTestFinished } from 'vitest';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { backUp, restore } from '../../src/lib/server/operations/backups.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { redoEdit, undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { connect, migrate, type Database } from '../../src/lib/server/storage/database.ts';
import { digestOf } from '../../src/lib/server/storage/digest.ts';
import { migrations } from '../../src/lib/server/storage/migrations/all.ts';
import { demoPriceBook, demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { databases, temporaryFolder } from './databases.ts';
import { counter, temporaryServices, value } from './services.ts';

const steps = Object.keys(migrations);
const at = '2026-03-02T08:30:00.000Z';
const { companyId } = localActor;

function opened(place: string): Database {
	const database = connect(place);
	onTestFinished(() => database.db.destroy());
	return database;
}

const insert = async (
	db: Kysely<never>,
	table: string,
	row: Readonly<Record<string, unknown>>
): Promise<void> => {
	const columns = sql.join(Object.keys(row).map((column) => sql.ref(column)));
	await sql`insert into ${sql.table(table)} (${columns}) values (${sql.join(Object.values(row))})`.execute(
		db
	);
};

/** Tables and columns, as text. */
async function shapeOf({ db }: Database): Promise<string[]> {
	return (await db.introspection.getTables())
		.flatMap(({ name, columns }) => columns.map((column) => `${name}.${column.name} ${column.dataType}`))
		.sort();
}

/**
 * Two jobs as the program stored them before there was a history: one of three edits of which the last is undone, one
 * of a single edit that never was.
 */
async function beforeTheHistory(database: Database): Promise<void> {
	await migrate(database, '0004-views');
	const db = database.db as unknown as Kysely<never>;
	const book = { company_id: companyId, stored_at: at };
	const [technical, price] = [digestOf(demoTechnicalBook), digestOf(demoPriceBook)];
	await insert(db, 'book', {
		...book,
		digest: technical,
		kind: 'technical',
		content: JSON.stringify(demoTechnicalBook)
	});
	await insert(db, 'book', { ...book, digest: price, kind: 'price', content: JSON.stringify(demoPriceBook) });
	for (const [job, revision] of [
		['pier', 4],
		['kelpgate', 1]
	] as const) {
		const key = { company_id: companyId, job_id: job };
		await insert(db, 'job', {
			...key,
			name: job,
			measures: 'imperial',
			revision,
			technical_digest: technical,
			price_digest: price,
			demo: 0,
			created_at: at,
			changed_at: at,
			deleted_at: null
		});
		const cells = { ...counter('C-1'), ...(job === 'pier' ? { phase: 'North' } : {}) };
		await insert(db, 'opening', {
			...key,
			row_id: 'c1',
			position: 1024,
			cells: JSON.stringify(cells),
			mark: 'C-1',
			opening_number: null,
			quantity: 2,
			removed: 0
		});
		const edit = (sequence: number, title: string, state: string, change: object, inverse: object) =>
			insert(db, 'edit', {
				...key,
				edit_id: `${job}-${sequence}`,
				sequence,
				actor_id: localActor.id,
				title,
				changes: JSON.stringify([change]),
				inverse: JSON.stringify([inverse]),
				row_ids: '["c1"]',
				state,
				made_at: at
			});
		const added = { kind: 'addRow', row: 'c1', after: null, cells: counter('C-1') };
		await edit(1, 'Add C-1', 'done', added, { ...added, kind: 'removeRow' });
		if (job !== 'pier') continue;
		const phase = (before: string | null, after: string | null) => ({
			kind: 'setCell',
			row: 'c1',
			field: 'phase',
			before,
			after
		});
		await edit(2, 'Phase', 'done', phase(null, 'North'), phase('North', null));
		// Undone by revision 4, of which nothing was written down.
		await edit(3, 'Phase again', 'undone', phase('North', 'South'), phase('South', 'North'));
	}
}

describe.each(databases)('the tables on $name', ({ emptyPlace: place }) => {
	it('are the same from whichever step they start', async () => {
		const newest = opened(await place());
		await migrate(newest);
		const shape = await shapeOf(newest);
		for (const step of steps) {
			const database = opened(await place());
			await migrate(database, step);
			await migrate(database);
			expect(await shapeOf(database)).toEqual(shape);
		}
	});

	it('stay as they are when a step fails half way', async () => {
		const database = opened(await place());
		await migrate(database, '0004-views');
		const db = database.db as unknown as Kysely<never>;
		// The fifth step makes it, after it has made another.
		await sql`create table bid (x integer)`.execute(db);
		const before = await shapeOf(database);
		await expect(migrate(database)).rejects.toThrow(/can’t be used as it is\. Nothing of it was changed\.$/u);
		expect(await shapeOf(database)).toEqual(before);
	});
});

describe.each(databases)('edits from before there was a history, on $name,', ({ emptyPlace: place }) => {
	async function expectHistory(where: string): Promise<void> {
		const services = await temporaryServices(where);
		const { history, jobs } = services.storage;
		const key = (jobId: string) => ({ companyId, jobId });
		expect(
			(await history.after(key('pier'), 0, 10)).map((entry) => [
				entry.revision,
				entry.kind,
				entry.title,
				entry.actorId,
				entry.madeAt
			])
		).toEqual([
			[1, 'edit', 'Add C-1', localActor.id, at],
			[2, 'edit', 'Phase', localActor.id, at],
			[3, 'edit', 'Phase again', localActor.id, at]
		]);
		expect((await history.find(key('pier'), 2))?.changes).toEqual([
			{ kind: 'setCell', row: 'c1', field: 'phase', before: null, after: 'North' }
		]);
		// The undo that made revision 4 is not in it: whole from there on only. The other job is whole from its beginning.
		expect((await jobs.find(key('pier')))?.historyFrom).toBe(4);
		expect((await jobs.find(key('kelpgate')))?.historyFrom).toBe(0);

		expect(value(await readOpenings(localActor, services, 'pier'))).toMatchObject({
			undo: 'Phase',
			redo: 'Phase again'
		});
		const again = value(await redoEdit(localActor, services, 'pier'));
		expect(again).toMatchObject({ revision: 5, undo: 'Phase again' });
		expect(again.rows[0]?.cells.phase).toBe('South');
		for (const phase of ['North', undefined])
			expect(value(await undoEdit(localActor, services, 'pier')).rows[0]?.cells.phase).toBe(phase);
		expect(value(await undoEdit(localActor, services, 'kelpgate')).removed).toEqual(['c1']);
	}

	it('are its entries, and can be undone', async () => {
		const where = await place();
		const database = connect(where);
		await beforeTheHistory(database);
		await database.db.destroy();
		await expectHistory(where);
	});

	it('come out of a backup of that time, too', async () => {
		const folder = temporaryFolder();
		const old = connect(folder);
		await beforeTheHistory(old);
		await old.db.destroy();
		const file = join(temporaryFolder(), 'old.backup');
		value(await backUp(folder, file, '0.3.0', new Date(at)));
		const where = await place();
		value(await restore(where, file));
		await expectHistory(where);
	});
});
