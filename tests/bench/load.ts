/**
 * `npm run bench:load`: fifty people edit at once, over HTTP, signed in, on this machine alone; for both databases, beside the
 * rate at which the same database takes bare rows in the same run. Nothing here is asserted as a time.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { availableParallelism, loadavg } from 'node:os';
import { join } from 'node:path';
import { json } from 'node:stream/consumers';
import { DatabaseSync } from 'node:sqlite';
import type { Change } from '../../src/lib/changes/message.ts';
import { isPostgresUrl, postgresPool } from '../../src/lib/server/storage/postgres-database.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { closeServicesOf, openServices } from '../../src/lib/server/operations/services.ts';
import { signIn, Stage, type DatabaseName } from '../faults/stage.ts';
import { foundCompany, type Credentials } from '../storage/office.ts';
import { postgresIsThere } from '../storage/postgres-cluster.ts';
import { counter, value } from '../storage/services.ts';
import { firstWidth, type Plan, type Seen } from './load-plan.ts';

const people = 50;
const rowsOfOneJob = 1000;
const manyJobs = 200;
const rowsOfEach = 10;
const secondsOfRun = 12;
const secondsOfRaw = 4;
/** Milliseconds from one edit of a person to the next, as somebody who types all day. */
const realistic = 2000;
/** About what an edit of one cell leaves in the history. */
const rawText = 'x'.repeat(500);

type Row = Plan['people'][number]['rows'][number];

interface Places {
	readonly people: readonly Credentials[];
	/** Of each job, its rows. */
	readonly one: readonly Row[];
	readonly many: readonly (readonly Row[])[];
}

async function fill(place: string): Promise<Places> {
	const services = await openServices(place);
	try {
		const roles = Array.from({ length: people }, () => 'estimator' as const);
		const { owner, people: employees } = await foundCompany(services, roles);
		const job = async (number: number, rows: number): Promise<Row[]> => {
			const asked = { name: `Saltmarsh Pier Market Hall ${number}`, measures: 'imperial' };
			const { id } = value(await createJob(owner.actor, services, asked));
			const ids = Array.from({ length: rows }, (_, i) => `j${number}-r${i}`);
			const changes = ids.map((row, i): Change => {
				const cells = { ...counter(`M-${i}`), openingWidth: firstWidth };
				return { kind: 'addRow', row, after: ids[i - 1] ?? null, cells };
			});
			value(await applyEdit(owner.actor, services, id, { id: `fill-${number}`, title: 'Fill', changes }));
			return ids.map((row) => ({ job: id, row }));
		};
		const one = await job(0, rowsOfOneJob);
		const many: Row[][] = [];
		for (let i = 1; i <= manyJobs; i++) many.push(await job(i, rowsOfEach));
		return { people: employees, one, many };
	} finally {
		await closeServicesOf(services);
	}
}

/** Rows a second, each in a transaction of its own, by so many writers at once: the driver and settings of the program. */
async function rawRate(place: string, folder: string, writers: number): Promise<number> {
	const create =
		'create table raw (company text, job text, revision integer, body text, primary key (company, job, revision))';
	let stored = 0;
	const until = performance.now() + secondsOfRaw * 1000;
	if (!isPostgresUrl(place)) {
		const database = new DatabaseSync(join(folder, 'raw.sqlite'));
		database.exec(`pragma journal_mode = WAL; pragma synchronous = FULL; ${create}`);
		const insert = database.prepare('insert into raw values (?, ?, ?, ?)');
		while (performance.now() < until) {
			database.exec('begin immediate');
			insert.run('company', 'job', stored++, rawText);
			database.exec('commit');
		}
		database.close();
		return stored / secondsOfRaw;
	}
	const pool = postgresPool(place);
	await pool.query(`drop table if exists raw; ${create}`);
	const write = async (job: string): Promise<void> => {
		const connection = await pool.connect();
		for (let revision = 0; performance.now() < until; revision++) {
			await connection.query('begin');
			await connection.query('insert into raw values ($1, $2, $3, $4)', ['company', job, revision, rawText]);
			await connection.query('commit');
			stored++;
		}
		connection.release();
	};
	await Promise.all(Array.from({ length: writers }, (_, i) => write(`job-${i}`)));
	await pool.query('drop table raw');
	await pool.end();
	return stored / secondsOfRaw;
}

/** Seconds that a process has computed. Linux counts in hundredths. */
function computed(pid: number): number {
	const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
	return (Number(fields[11]) + Number(fields[12])) / 100;
}

async function run(plan: Plan): Promise<Seen> {
	const child = spawn(process.execPath, [join(import.meta.dirname, 'load-people.ts')], {
		stdio: ['pipe', 'pipe', 'inherit']
	});
	child.stdin.end(JSON.stringify(plan));
	const closed = once(child, 'close');
	const seen = (await json(child.stdout)) as Seen;
	await closed;
	return seen;
}

const table: string[][] = [];
const whole = (number: number): string => Math.round(number).toLocaleString('en-US');
const tenth = (number: number): string => number.toFixed(1);

function report(what: string, seen: Seen, server: number, raw: number): void {
	const { latencies, seconds, errors, processor, bytes } = seen;
	const sorted = [...latencies].sort((a, b) => a - b);
	const within = (share: number): string => tenth(sorted[Math.floor(sorted.length * share)] ?? Number.NaN);
	const rate = latencies.length / seconds;
	table.push([
		what,
		whole(rate),
		within(0.5),
		within(0.95),
		within(0.99),
		String(errors),
		whole(raw),
		(rate / raw).toFixed(2),
		`${whole((server / seconds) * 100)} %`,
		((server / latencies.length) * 1000).toFixed(2),
		`${whole((processor / seconds) * 100)} %`,
		tenth(bytes / latencies.length / 1000)
	]);
	if (seen.firstError !== null) console.log(`first error: ${seen.firstError}`);
	if (errors > 0) process.exitCode = 1;
}

async function measure(name: DatabaseName): Promise<void> {
	const stage = new Stage();
	try {
		const place = await stage.place(name);
		const filled = await fill(place);
		// Writers of one job wait for each other, and the embedded database has one writer whatever it writes.
		const rawOfOne = await rawRate(place, stage.folder(), 1);
		const rawOfMany = name === 'SQLite' ? rawOfOne : await rawRate(place, stage.folder(), 10);
		const server = await stage.serve(stage.environmentOn(place));
		const cookies: string[] = [];
		for (const who of filled.people) cookies.push(await signIn(server.address, who));
		// Each run changes rows that no other has changed.
		const rowsOf = (kind: 'one' | 'many', person: number, part: 0 | 1): Row[] => {
			if (kind === 'one')
				return filled.one.filter((_, i) => i % people === person && (i / people) % 2 >= 1 === (part === 1));
			const jobs = filled.many.filter((_, i) => i % people === person);
			const half = rowsOfEach / 2;
			return Array.from({ length: half }, (_, i) =>
				jobs.flatMap((rows) => rows[part * half + i] ?? [])
			).flat();
		};
		const runs = [
			['one', 0, 'one job, without a pause'],
			['many', 0, `${manyJobs} jobs, without a pause`],
			['one', realistic, `one job, an edit every ${realistic / 1000} s`],
			['many', realistic, `${manyJobs} jobs, an edit every ${realistic / 1000} s`]
		] as const;
		for (const [kind, every, what] of runs) {
			const before = computed(server.process.pid ?? 0);
			const seen = await run({
				address: server.address,
				people: cookies.map((cookie, i) => ({ cookie, rows: rowsOf(kind, i, every === 0 ? 0 : 1) })),
				seconds: secondsOfRun,
				every
			});
			const raw = kind === 'one' ? rawOfOne : rawOfMany;
			report(`${name}, ${what}`, seen, computed(server.process.pid ?? 0) - before, raw);
		}
		await server.end('SIGTERM');
	} finally {
		await stage.close();
	}
}

console.log(
	`${people} people; ${availableParallelism()} processors, of which others use ${tenth(loadavg()[0] ?? 0)} at the start.`
);
for (const name of postgresIsThere ? (['SQLite', 'PostgreSQL'] as const) : (['SQLite'] as const))
	await measure(name);
const headings = [
	'',
	'edits/s',
	'p50 ms',
	'p95 ms',
	'p99 ms',
	'errors',
	'bare rows/s',
	'ratio',
	'server CPU',
	'ms CPU/edit',
	'people CPU',
	'kB/answer'
];
const widths = headings.map((heading, i) =>
	Math.max(heading.length, ...table.map((row) => row[i]?.length ?? 0))
);
for (const row of [headings, ...table])
	console.log(
		row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0))).join('  ')
	);
