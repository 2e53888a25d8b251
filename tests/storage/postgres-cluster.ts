/** Throw-away clusters of PostgreSQL on this machine, each in a folder and on a port of its own. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';

/** Debian keeps them off the PATH, a folder a version. */
const debianFolder = '/usr/lib/postgresql';

function programFolder(): string | null {
	const versions = existsSync(debianFolder)
		? readdirSync(debianFolder).sort((a, b) => Number(b) - Number(a))
		: [];
	const folders = [
		...versions.map((version) => join(debianFolder, version, 'bin')),
		...(process.env.PATH ?? '').split(':').filter((folder) => folder !== '')
	];
	return folders.find((folder) => existsSync(join(folder, 'initdb'))) ?? null;
}

const programs = programFolder();

export const postgresIsThere = programs !== null;

/** PostgreSQL does not run as root: then its own account runs it. */
function account(): { uid: number; gid: number } | null {
	if (process.getuid?.() !== 0) return null;
	const id = (which: string): number => {
		const { stdout, status } = spawnSync('id', [which, 'postgres'], { encoding: 'utf8' });
		if (status !== 0) throw new Error('there is no account postgres to run PostgreSQL as');
		return Number(stdout);
	};
	return { uid: id('-u'), gid: id('-g') };
}

async function freePort(): Promise<number> {
	const server = createServer().listen(0, '127.0.0.1');
	await once(server, 'listening');
	const address = server.address();
	server.close();
	await once(server, 'close');
	if (typeof address !== 'object' || address === null) throw new Error('no port');
	return address.port;
}

/** `fast` ends all connections and writes everything down; `immediate` is as if the power had gone. */
type StopMode = 'fast' | 'immediate';

export interface Cluster {
	/** URL of one of its databases; `postgres` is there from the beginning. */
	readonly url: (name: string) => string;
	/** A copy of another one that nobody is connected to, or empty. */
	readonly createDatabase: (name: string, copyOf?: string) => Promise<void>;
	readonly dropDatabase: (name: string) => Promise<void>;
	/** Sends one statement to a database of it. */
	readonly tell: (database: string, statement: string) => Promise<void>;
	readonly stop: (mode: StopMode) => Promise<void>;
	/** Starts it again, on the same port. */
	readonly start: () => Promise<void>;
	/** Stops it and removes its folder. */
	readonly close: () => Promise<void>;
}

export interface ClusterChoice {
	/** Without it nothing waits for the disk: what was committed survives the end of PostgreSQL, but not of the machine. */
	readonly durable: boolean;
	/** Further settings as the command line of PostgreSQL takes them: `max_connections=20`. */
	readonly settings?: readonly string[];
}

/** Text is ordered by rules of language, as on most servers, and not by its bytes: what relies on bytes shows. */
const locale = ['--encoding=UTF8', '--locale=C', '--locale-provider=icu', '--icu-locale=en'];

/**
 * Makes a cluster and starts it. It listens on 127.0.0.1 alone and lets everybody there in as `postgres`.
 * @throws Error with what PostgreSQL said when it can't be made or started.
 */
export async function startCluster({ durable, settings = [] }: ClusterChoice): Promise<Cluster> {
	if (programs === null) throw new Error('PostgreSQL is not installed');
	const as = account();
	const folder = mkdtempSync(join(tmpdir(), 'coilwright-postgres-'));
	if (as) chownSync(folder, as.uid, as.gid);
	const [data, log] = [join(folder, 'data'), join(folder, 'log')];
	const port = await freePort();
	let running = false;

	async function run(program: string, parameters: readonly string[]): Promise<void> {
		// Output goes nowhere: the server would inherit a pipe and keep it open.
		const child = spawn(join(programs ?? '', program), parameters, { cwd: folder, stdio: 'ignore', ...as });
		const [code] = (await once(child, 'close')) as [number];
		if (code === 0) return;
		const said = existsSync(log) ? readFileSync(log, 'utf8').slice(-2000) : '';
		throw new Error(`${program} ${parameters.join(' ')} failed with ${code}: ${said}`);
	}
	const make = (choice: readonly string[]) =>
		run('initdb', ['-D', data, '--username=postgres', '--auth=trust', '--no-sync', ...choice]);

	const options = [
		'listen_addresses=127.0.0.1',
		`port=${port}`,
		`unix_socket_directories=${folder}`,
		'max_connections=400',
		...(durable ? [] : ['fsync=off', 'full_page_writes=off']),
		...settings
	].flatMap((setting) => ['-c', setting]);

	async function start(): Promise<void> {
		await run('pg_ctl', ['start', '-w', '-t', '120', '-D', data, '-l', log, '-o', options.join(' ')]);
		running = true;
	}
	async function stop(mode: StopMode): Promise<void> {
		await run('pg_ctl', ['stop', '-w', '-t', '120', '-D', data, '-m', mode]);
		running = false;
	}
	// Should this process end before it closes it.
	const atExit = (): void => {
		if (running) spawnSync(join(programs, 'pg_ctl'), ['stop', '-D', data, '-m', 'immediate'], { ...as });
		rmSync(folder, { recursive: true, force: true });
	};
	process.once('exit', atExit);

	try {
		// Where PostgreSQL was built without these rules, by bytes.
		await make(locale).catch(() => make(['--encoding=UTF8', '--locale=C']));
		await start();
	} catch (error) {
		atExit();
		throw error;
	}

	const url = (name: string): string => `postgres://postgres@127.0.0.1:${port}/${name}`;
	async function tell(database: string, statement: string): Promise<void> {
		const client = new pg.Client({ connectionString: url(database) });
		await client.connect();
		try {
			await client.query(statement);
		} finally {
			await client.end();
		}
	}
	return {
		url,
		createDatabase: (name, copyOf = 'template1') =>
			tell(
				'postgres',
				`create database ${pg.escapeIdentifier(name)} template ${pg.escapeIdentifier(copyOf)}`
			),
		dropDatabase: (name) =>
			tell('postgres', `drop database if exists ${pg.escapeIdentifier(name)} with (force)`),
		tell,
		start,
		stop,
		async close() {
			if (running) await stop('immediate');
			process.off('exit', atExit);
			rmSync(folder, { recursive: true, force: true });
		}
	};
}
