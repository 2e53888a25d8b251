/** The disk of the database runs full while several people edit, and there is room again later. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, statfsSync, writeFileSync, chmodSync } from 'node:fs';
import { join } from 'node:path';
import pg from 'pg';
import { ask, Person } from './person.ts';
import { promisesKept, type Kept } from './promises.ts';
import { found, signIn, Stage, until, type DatabaseName } from './stage.ts';

const people = 3;
const mebibyte = 1024 * 1024;
/** Of the small disk, and what is taken away from it until there is to be room again, MiB. */
const disk = 48;
const leftFree = 3;

/** A disk can only be made by root. */
export const disksCanBeMade = process.getuid?.() === 0 && process.platform === 'linux';

function smallDisk(stage: Stage): string {
	const outer = stage.folder();
	// PostgreSQL runs as somebody else.
	chmodSync(outer, 0o755);
	const folder = join(outer, 'disk');
	mkdirSync(folder);
	const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${disk}m`, 'coilwright-fault', folder]);
	if (mounted.status !== 0) throw new Error(`no small disk could be made: ${String(mounted.stderr)}`);
	stage.after(() => spawnSync('umount', ['-l', folder]));
	chmodSync(folder, 0o777);
	return folder;
}

/** PostgreSQL keeps its log on another disk: a full one there is a crash, which is tried by stopping it. */
async function placeOn(stage: Stage, folder: string, database: DatabaseName): Promise<string> {
	if (database === 'SQLite') return folder;
	const cluster = await stage.cluster();
	const space = join(folder, 'tables');
	mkdirSync(space);
	spawnSync('chown', ['postgres', space]);
	const client = new pg.Client({ connectionString: cluster.url('postgres') });
	await client.connect();
	try {
		await client.query(`create tablespace small location ${pg.escapeLiteral(space)}`);
		await client.query('create database coilwright tablespace small');
	} finally {
		await client.end();
	}
	return cluster.url('coilwright');
}

export async function diskFull(
	database: DatabaseName,
	rounds: number
): Promise<Kept & { timesFull: number; refusals: number; said: string }> {
	const stage = new Stage();
	try {
		const folder = smallDisk(stage);
		const place = await placeOn(stage, folder, database);
		const company = await found(place, people);
		const [key] = company.keys;
		if (!key) throw new Error('no job');
		const server = await stage.serve(stage.environmentOn(place));
		const { address } = server;
		const editing: Person[] = [];
		let firstCookie = '';
		for (const [number, who] of company.people.entries()) {
			const cookie = await signIn(address, who);
			firstCookie ||= cookie;
			const padding = 1800;
			editing.push(new Person({ number, job: key.jobId, cookie, address: () => address, padding }));
		}
		for (const person of editing) person.begin();
		const ballast = join(folder, 'ballast');
		const broken: string[] = [];
		let timesFull = 0;
		let said = '';
		const allWell = (): boolean => editing.every((person) => person.broken.length === 0);
		for (; timesFull < rounds && allWell(); timesFull++) {
			const { bavail, bsize } = statfsSync(folder);
			writeFileSync(ballast, new Uint8Array(Math.max(0, bavail * bsize - leftFree * mebibyte)));
			const refused = editing.map((person) => person.count(503));
			await until(
				'everybody is told that the disk is full',
				() => !allWell() || editing.every((person, i) => person.count(503) > (refused[i] ?? 0) + 3),
				180_000
			);
			said = editing[0]?.lastRefusal ?? '';
			const path = `/api/jobs/${key.jobId}/history`;
			const read = await ask(address, 'GET', path, { cookie: firstCookie });
			if (read.status !== 200) broken.push(`while it is full, ${path} is answered with ${read.status}`);
			rmSync(ballast);
			const stored = editing.map((person) => person.stored.length);
			await until(
				'everybody has edits stored again',
				() => !allWell() || editing.every((person, i) => person.stored.length > (stored[i] ?? 0) + 2)
			);
		}
		for (const person of editing) await person.finish();
		await server.end('SIGTERM');
		const kept = await promisesKept(place, key, editing);
		const refusals = editing.reduce((sum, person) => sum + person.count(503), 0);
		return { timesFull, refusals, said, ...kept, broken: [...kept.broken, ...broken] };
	} finally {
		await stage.close();
	}
}
