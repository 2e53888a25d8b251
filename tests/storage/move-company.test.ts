/** A company that moves out of a folder into PostgreSQL. */
import { execFile } from 'node:child_process';
import { sql, type Kysely } from 'kysely';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { moveToDatabase } from '../../src/lib/server/operations/backups.ts';
import { makeAccount } from '../../src/lib/server/operations/make-account.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { readPrice } from '../../src/lib/server/operations/read-price.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { databases, temporaryFolder } from './databases.ts';
import { everyRow, fill, type Filled } from './filled-place.ts';
import { refusal, temporaryServices, value } from './services.ts';

const run = promisify(execFile);

interface Source {
	readonly folder: string;
	readonly services: Services;
	readonly ours: Filled;
	readonly theirs: Filled;
}

/** Two companies in one folder. */
async function twoCompanies(): Promise<Source> {
	const folder = temporaryFolder();
	const services = await temporaryServices(folder);
	const ours = await fill(services, 'Tern & Gannet Door Co.', 'ada@tern-and-gannet.example');
	const theirs = await fill(services, 'Northreach Shutter Works', 'ines@northreach.example');
	return { folder, services, ours, theirs };
}

/** The rows of one company by table, of its people too. */
function ofCompany(
	rows: Awaited<ReturnType<typeof everyRow>>,
	{ actor }: Filled
): Readonly<Record<string, readonly string[]>> {
	const own = [`["company_id","${actor.companyId}"]`, `["id","${actor.id}"]`, `["user_id","${actor.id}"]`];
	return Object.fromEntries(
		Object.entries(rows)
			.filter(([table]) => table !== 'kysely_migration')
			.map(([table, all]) => [table, all.filter((row) => own.some((one) => row.includes(one)))])
	);
}

describe.each(databases)('a company that moves into $name', ({ name, emptyPlace: place }) => {
	it('is there with all that is its own, and nothing of another; the source stays as it is', async () => {
		const { folder, services, ours } = await twoCompanies();
		const before = await everyRow(services);
		const where = await place();
		const moved = value(await moveToDatabase(folder, 'Tern & Gannet Door Co.', where));
		expect(await everyRow(services)).toEqual(before);
		const there = await temporaryServices(where);
		const { kysely_migration: steps, ...arrived } = await everyRow(there);
		expect(steps).toEqual(before.kysely_migration);
		expect(arrived).toEqual(ofCompany(before, ours));
		for (const [table, rows] of Object.entries(arrived))
			expect([table, rows.length > 0]).toEqual([table, true]);
		expect(moved.tables.map((table) => [table.name, table.rows]).sort()).toEqual(
			Object.entries(arrived)
				.map(([table, rows]) => [table, rows.length])
				.sort()
		);
		const { actor, job } = ours;
		expect(value(await readOpenings(actor, there, job))).toEqual(
			value(await readOpenings(actor, services, job))
		);
		expect(value(await readPrice(actor, there, job))).toEqual(value(await readPrice(actor, services, job)));
		value(await undoEdit(actor, there, job));
	});

	it('joins others there, by its id as well as by its name', async () => {
		const { folder, services, ours, theirs } = await twoCompanies();
		const where = await place();
		value(await moveToDatabase(folder, ours.actor.companyId, where));
		value(await moveToDatabase(folder, 'Northreach Shutter Works', where));
		expect(await everyRow(await temporaryServices(where))).toEqual(await everyRow(services));
		expect(theirs.actor.companyId).not.toBe(ours.actor.companyId);
	});

	it('is refused when it, or one of its people, is there already, and nothing is moved', async () => {
		const { folder } = await twoCompanies();
		const where = await place();
		value(await moveToDatabase(folder, 'Tern & Gannet Door Co.', where));
		const there = await temporaryServices(where);
		value(
			await makeAccount(
				there,
				{
					company: 'Another',
					name: 'Ines',
					email: 'ines@northreach.example',
					password: 'quite another long one'
				},
				null
			)
		);
		const before = await everyRow(there);
		expect(refusal(await moveToDatabase(folder, 'Tern & Gannet Door Co.', where)).message).toMatch(
			/holds something of Tern & Gannet Door Co\. already \(in the table company\)\. Nothing was moved\.$/u
		);
		expect(refusal(await moveToDatabase(folder, 'Northreach Shutter Works', where)).message).toMatch(
			/^ines@northreach\.example has an account in the database .* already\. Nothing was moved\.$/u
		);
		expect(await everyRow(there)).toEqual(before);
	});

	it('is refused when there is none of that name, and those that are there are named', async () => {
		const { folder } = await twoCompanies();
		const where = await place();
		expect(refusal(await moveToDatabase(folder, 'Tern', where)).message).toMatch(
			/has no company Tern\. There: Northreach Shutter Works \(.+\), Tern & Gannet Door Co\. \(.+\)\.$/u
		);
		const empty = temporaryFolder();
		await temporaryServices(empty);
		expect(refusal(await moveToDatabase(empty, 'Tern', where)).message).toMatch(
			/coilwright account makes the first/u
		);
	});

	it('is refused whole when the other place reads back otherwise', async () => {
		const { folder } = await twoCompanies();
		const where = await place();
		const there = await temporaryServices(where);
		const db = there.storage.accountsDatabase.db as unknown as Kysely<never>;
		// As a database would that keeps something else than it was given.
		const spoil = sql`update job set name = 'spoilt' where name <> 'spoilt'`;
		await (
			name === 'SQLite'
				? sql`create trigger spoil after insert on job begin ${spoil}; end`
				: sql`create function spoil() returns trigger language plpgsql as 'begin new.name := ''spoilt''; return new; end'`
		).execute(db);
		if (name === 'PostgreSQL')
			await sql`create trigger spoil before insert on job for each row execute function spoil()`.execute(db);
		const before = await everyRow(there);
		expect(refusal(await moveToDatabase(folder, 'Tern & Gannet Door Co.', where)).message).toMatch(
			/^The table job reads back otherwise than it was written \(1 of 1 rows\)\. Nothing was kept\.$/u
		);
		expect(await everyRow(there)).toEqual(before);
	});
});

describe.each(databases.filter(({ name }) => name === 'PostgreSQL'))(
	'the command, into $name,',
	({ emptyPlace: place }) => {
		it('says counts and digests, and exit 2 where it can’t', async () => {
			const { folder } = await twoCompanies();
			const where = await place();
			const command = (...args: readonly string[]) =>
				run(process.execPath, ['src/cli/coilwright.ts', 'move-company', ...args], {
					env: { PATH: process.env.PATH ?? '', COILWRIGHT_DATA: folder, DATABASE_URL: where }
				});
			const { stdout } = await command('--company', 'Tern & Gannet Door Co.', '--to', where);
			expect(stdout).toMatch(/^job: 1 row, digest [0-9a-f]{64}$/mu);
			expect(stdout).toMatch(/counts and digests the same in both\. It is still where it was/u);
			await expect(command('--company', 'Tern & Gannet Door Co.', '--to', where)).rejects.toMatchObject({
				code: 2
			});
			await expect(command('--company', 'Tern & Gannet Door Co.')).rejects.toMatchObject({ code: 2 });
		});
	}
);
