/** Backups of both databases, restored into either. */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { gunzipSync, gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type SheetRow } from '../../src/lib/changes/apply.ts';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { backUp, restore } from '../../src/lib/server/operations/backups.ts';
import type { Outcome } from '../../src/lib/server/operations/outcome.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { readPrice } from '../../src/lib/server/operations/read-price.ts';
import { readTakeoff } from '../../src/lib/server/operations/read-takeoff.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { connect } from '../../src/lib/server/storage/database.ts';
import { isPostgresUrl } from '../../src/lib/server/storage/postgres-database.ts';
import { databases, temporaryFolder } from './databases.ts';
import { everyRow, fill } from './filled-place.ts';
import { addRow, counter, edit, refusal, setCell, temporaryServices, value } from './services.ts';

const at = new Date('2026-03-02T08:30:00Z');
const version = '0.3.0';

const pairs = databases.flatMap((from) =>
	databases.map((to) => ({ from, to, name: `${from.name} to ${to.name}` }))
);

/** The program at a terminal, as another process beside the one that works. */
const run = promisify(execFile);
const atTheTerminal = (place: string, ...args: readonly string[]) =>
	run(process.execPath, ['src/cli/coilwright.ts', ...args], {
		env: {
			PATH: process.env.PATH ?? '',
			...(isPostgresUrl(place) ? { DATABASE_URL: place } : { COILWRIGHT_DATA: place })
		}
	});

/** The rows as the entries of the history make them, one after the other; each entry has the next revision. */
async function replayed(
	services: Services,
	job: string
): Promise<{ rows: readonly SheetRow[]; last: number }> {
	const key = { companyId: localActor.companyId, jobId: job };
	const entries = await services.storage.history.after(key, -1, 100_000);
	const first = entries[0]?.revision ?? 0;
	expect(entries.map(({ revision }) => revision)).toEqual(entries.map((_, i) => first + i));
	let rows: readonly SheetRow[] = [];
	for (const { changes } of entries) {
		if (changes.length === 0) continue;
		const applied = applyChanges(rows, changes, { reinstate: true });
		if (!applied.ok) throw new Error('the history does not apply');
		({ rows } = applied);
	}
	return { rows: rows.filter(({ removed }) => !removed), last: first + entries.length - 1 };
}

describe.each(pairs)('a backup, $name,', ({ from, to }) => {
	it('gives back every row of every table, and the same figures and price', async () => {
		const where = await from.emptyPlace();
		const source = await temporaryServices(where);
		const { actor, job } = await fill(source, 'Tern & Gannet Door Co.', 'ada@tern-and-gannet.example');
		const file = join(temporaryFolder(), 'all.backup');
		const before = await everyRow(source);
		for (const [table, rows] of Object.entries(before))
			expect([table, rows.length > 0]).toEqual([table, true]);
		value(await backUp(where, file, version, at));
		expect(await everyRow(source)).toEqual(before);

		const other = await to.emptyPlace();
		value(await restore(other, file));
		const restored = await temporaryServices(other);
		expect(await everyRow(restored)).toEqual(before);
		for (const read of [readOpenings, readTakeoff, readPrice] as readonly ((
			...given: Parameters<typeof readPrice>
		) => Promise<Outcome<unknown>>)[])
			expect(value(await read(actor, restored, job))).toEqual(value(await read(actor, source, job)));
		expect(await restored.accounts.find('ada@tern-and-gannet.example')).toBe(actor.id);
		// Work goes on where it was.
		value(await undoEdit(actor, restored, job));
		value(await applyEdit(actor, restored, job, edit([addRow('next', null, counter('N-1'))])));
	});

	it('under a stream of edits holds each job as it stood at one moment', async () => {
		const where = await from.emptyPlace();
		const services = await temporaryServices(where);
		const { id: job } = value(
			await createJob(localActor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
		);
		const files = ['one.backup', 'two.backup'].map((name) => join(temporaryFolder(), name));
		const stream = { goesOn: true, edits: 0 };
		const editing = (async () => {
			for (; stream.goesOn; stream.edits++) {
				const row = `k${stream.edits}`;
				value(
					await applyEdit(localActor, services, job, edit([addRow(row, null, counter(`K-${stream.edits}`))]))
				);
				const phase = setCell(row, 'phase', null, `Phase ${stream.edits}`);
				value(await applyEdit(localActor, services, job, edit([phase])));
				if (stream.edits % 3 === 0) value(await undoEdit(localActor, services, job));
				// Lets the process of the backup have the machine, too.
				await new Promise((resolve) => setTimeout(resolve, 5));
			}
		})();
		const revisions: number[] = [];
		try {
			for (const file of files) {
				await expect.poll(() => stream.edits, { timeout: 60_000 }).toBeGreaterThan(revisions.length * 10);
				const { stdout } = await atTheTerminal(where, 'backup', file);
				expect(stdout).toMatch(/written: [\d,]+ rows\. Keep it safe/u);
				revisions.push(stream.edits);
			}
		} finally {
			stream.goesOn = false;
			await editing;
		}
		let earlier = 0;
		for (const file of files) {
			const other = await to.emptyPlace();
			const { stdout } = await atTheTerminal(other, 'restore', file);
			expect(stdout).toMatch(/read back and the same/u);
			const restored = await temporaryServices(other);
			const stored = await restored.storage.jobs.find({ companyId: localActor.companyId, jobId: job });
			const { rows, last } = await replayed(restored, job);
			expect(stored?.revision).toBe(last);
			expect(last).toBeGreaterThan(earlier);
			earlier = last;
			expect(value(await readOpenings(localActor, restored, job)).rows).toEqual(
				rows.map(({ id, cells }) => ({ id, cells }))
			);
		}
	});
});

describe.each(databases)('a place on $name', ({ name, emptyPlace: place }) => {
	it('that holds anything takes no backup in', async () => {
		const where = await place();
		const services = await temporaryServices(where);
		await fill(services, 'Tern & Gannet Door Co.', 'ada@tern-and-gannet.example');
		const file = join(temporaryFolder(), 'all.backup');
		value(await backUp(where, file, version, at));
		const before = await everyRow(services);
		expect(refusal(await restore(where, file))).toMatchObject({
			status: 422,
			message: expect.stringMatching(
				/has tables already\. A backup is restored into an empty one only\.$/u
			) as string
		});
		expect(await everyRow(services)).toEqual(before);
	});

	it('that holds nothing gives no backup', async () => {
		const where = await place();
		await connect(where).db.destroy();
		if (name === 'SQLite') writeFileSync(join(where, 'coilwright.sqlite'), '');
		const file = join(temporaryFolder(), 'none.backup');
		expect(refusal(await backUp(where, file, version, at)).message).toBe(
			'The database holds nothing of Coilwright.'
		);
		expect(existsSync(file)).toBe(false);
	});

	it('stays empty when a backup does not fit together', async () => {
		const { lines } = await smallBackup();
		// Every job is gone, but what belongs to it is there, and the digest is right.
		const head = JSON.parse(lines[0] ?? '') as { tables: { name: string; rows: number }[] };
		const tables = head.tables.map((table) => (table.name === 'job' ? { ...table, rows: 0 } : table));
		const start = head.tables.slice(
			0,
			head.tables.findIndex((table) => table.name === 'job')
		);
		const skipped = 1 + start.reduce((sum, { rows }) => sum + rows, 0);
		const changed = [
			JSON.stringify({ ...head, tables }),
			...lines.slice(1, skipped),
			...lines.slice(skipped + 1, -1)
		];
		const where = await place();
		expect(refusal(await restore(where, written(changed)))).toMatchObject({
			message: 'What it holds does not fit together. Nothing was kept.'
		});
		// Nothing is in its way.
		value(await restore(where, written(lines.slice(0, -1))));
		if (name === 'SQLite') expect(readdirSync(where)).toContain('coilwright.sqlite');
	});
});

/** The lines of a backup with one company and one job. */
async function smallBackup(): Promise<{
	file: string;
	lines: string[];
	rows: Awaited<ReturnType<typeof everyRow>>;
}> {
	const folder = temporaryFolder();
	const services = await temporaryServices(folder);
	await fill(services, 'Tern & Gannet Door Co.', 'ada@tern-and-gannet.example');
	const file = join(temporaryFolder(), 'small.backup');
	value(await backUp(folder, file, version, at));
	const lines = gunzipSync(readFileSync(file)).toString('utf8').split('\n').slice(0, -1);
	return { file, lines, rows: await everyRow(services) };
}

/** A file of these lines, ended as a backup ends. */
function written(lines: readonly string[]): string {
	const text = lines.map((line) => `${line}\n`).join('');
	const sha256 = createHash('sha256').update(text).digest('hex');
	const file = join(temporaryFolder(), 'changed.backup');
	writeFileSync(file, gzipSync(`${text}${JSON.stringify({ end: true, sha256 })}\n`));
	return file;
}

describe('the file of a backup', () => {
	it('is for its owner alone, takes no other file’s place, and leaves nothing else behind', async () => {
		const { file } = await smallBackup();
		expect(statSync(file).mode & 0o777).toBe(0o600);
		const folder = temporaryFolder();
		await temporaryServices(folder);
		const there = readFileSync(file);
		expect(refusal(await backUp(folder, file, version, at)).message).toMatch(/is there already/u);
		expect(readFileSync(file)).toEqual(there);
		expect(refusal(await backUp(folder, join(folder, 'none', 'x'), version, at)).message).toMatch(
			/its folder is not there\.$/u
		);
		expect(readdirSync(join(file, '..'))).toEqual(['small.backup']);
	});

	it('says where its database is missing, and makes none', async () => {
		const folder = join(temporaryFolder(), 'none');
		expect(refusal(await backUp(folder, join(temporaryFolder(), 'x'), version, at)).message).toBe(
			`There is no database in ${folder}. COILWRIGHT_DATA names the folder it is in.`
		);
		expect(existsSync(folder)).toBe(false);
		expect(refusal(await restore(folder, join(folder, 'none'))).message).toBe('There is no such file.');
		expect(existsSync(folder)).toBe(false);
	});

	it('that is damaged anywhere is refused in words, or all that it holds is as it was', async () => {
		const { file, rows } = await smallBackup();
		const whole = readFileSync(file);
		const broken = join(temporaryFolder(), 'broken.backup');
		const place = fc.nat(whole.length - 1);
		const damage = fc.oneof(
			fc.record({ flipped: place, by: fc.integer({ min: 1, max: 255 }) }),
			fc.record({ cutFrom: place, length: fc.integer({ min: 1, max: 4000 }) }),
			fc.record({ endsAt: place })
		);
		const damaged = (what: typeof damage extends fc.Arbitrary<infer T> ? T : never): Uint8Array => {
			if ('endsAt' in what) return whole.subarray(0, what.endsAt);
			if ('cutFrom' in what)
				return Buffer.concat([whole.subarray(0, what.cutFrom), whole.subarray(what.cutFrom + what.length)]);
			return whole.map((byte, i) => (i === what.flipped ? byte ^ what.by : byte));
		};
		let empty = temporaryFolder();
		let refused = 0;
		await fc.assert(
			fc.asyncProperty(damage, async (what) => {
				writeFileSync(broken, damaged(what));
				const outcome = await restore(empty, broken);
				if (outcome.ok) {
					// A few bytes of gzip say nothing of what it holds, such as on which system it was packed.
					expect(await everyRow(await temporaryServices(empty))).toEqual(rows);
					empty = temporaryFolder();
				} else {
					refused++;
					expect([outcome.status, outcome.refusal.message]).toEqual([422, expect.stringMatching(/\.$/u)]);
				}
			}),
			{
				numRuns: 300,
				seed: 20_260_302,
				examples: [[{ endsAt: 0 }], [{ endsAt: 12 }], [{ flipped: 9, by: 1 }], [{ flipped: 0, by: 1 }]]
			}
		);
		expect(refused).toBeGreaterThan(280);
		// None of them left anything behind.
		value(await restore(empty, file));
	});

	it.each([
		[
			'is text',
			(): Buffer => Buffer.from('Mark,Qty\nC-1,2\n'),
			/^It is no backup of Coilwright, or its beginning/u
		],
		[
			'is of another kind',
			() => gzipSync('{"format":"something else"}\n'),
			/^It is no backup of Coilwright\.$/u
		],
		[
			'is of a later format',
			() => gzipSync('{"format":"Coilwright backup 2"}\n'),
			/a newer version of Coilwright wrote/u
		],
		['is empty', () => Buffer.alloc(0), /^It (is empty|ends in the middle)/u],
		['holds nothing', () => gzipSync(''), /^It is empty\.$/u]
	])('that %s is refused', async (_, content, reason) => {
		const file = join(temporaryFolder(), 'x');
		writeFileSync(file, content());
		expect(refusal(await restore(temporaryFolder(), file)).message).toMatch(reason);
	});

	it('that is not there, or a folder, is refused', async () => {
		const folder = temporaryFolder();
		expect(refusal(await restore(folder, join(folder, 'none'))).message).toBe('There is no such file.');
		expect(refusal(await restore(temporaryFolder(), folder)).message).toBe('It is a folder.');
	});

	it.each([
		[
			'a step that this version does not know',
			{ migrations: ['0001-jobs', '9999-later'] },
			/^Coilwright 9\.9\.9 wrote it/u
		],
		['no step', { migrations: [] }, /^Line 1 is damaged\.$/u],
		[
			'a table that this version does not know',
			{ tables: [{ name: 'pg_shadow', columns: ['x'], rows: 0 }] },
			/^Coilwright 9\.9\.9 wrote it/u
		]
	])('that names %s is refused', async (_, change, reason) => {
		const { lines } = await smallBackup();
		const head = { ...(JSON.parse(lines[0] ?? '') as object), program: '9.9.9', ...change };
		const outcome = await restore(temporaryFolder(), written([JSON.stringify(head), ...lines.slice(1, -1)]));
		expect(refusal(outcome).message).toMatch(reason);
	});

	it('that was changed by hand is refused, with the line', async () => {
		const { lines } = await smallBackup();
		const attempt = async (changed: readonly string[], end = true) => {
			const file = end ? written(changed) : join(temporaryFolder(), 'open');
			if (!end) writeFileSync(file, gzipSync(changed.map((line) => `${line}\n`).join('')));
			return refusal(await restore(temporaryFolder(), file)).message;
		};
		const rows = lines.slice(0, -1);
		expect(await attempt([...rows, lines[1] ?? ''])).toMatch(/is not the end that should stand there\.$/u);
		expect(await attempt(rows.toSpliced(1, 1, '["too short"]'))).toMatch(
			/^Line 2 is no row of the table company\.$/u
		);
		expect(await attempt(rows.toSpliced(1, 1, 'no JSON'))).toBe('Line 2 is damaged.');
		expect(await attempt(rows, false)).toMatch(/^It ends after line \d+, before its end\.$/u);
		expect(await attempt([...rows, lines.at(-1) ?? '', 'more'], false)).toMatch(/comes after its end\.$/u);
		expect(
			await attempt(
				rows.toSpliced(1, 1, (lines[1] ?? '').replace('Tern', 'Turn')).concat(lines.at(-1) ?? ''),
				false
			)
		).toBe('Its digest is not that of what it holds: it was damaged or changed.');
	});
});
