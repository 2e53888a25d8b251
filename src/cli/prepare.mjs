/** What has to be there before the program or its tests can run. Uses nothing but Node 20. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's own folder; everything here works on it, wherever it was called from. */
export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
process.chdir(root);

/**
 * Runs a command with its output shown.
 * @param {string} command
 * @param {readonly string[]} parameters
 * @param {{ readonly environment?: Readonly<Record<string, string>> }} [options]
 * @returns {number} its exit code
 */
export function run(command, parameters, { environment = {} } = {}) {
	const ended = spawnSync(command, parameters, {
		cwd: root,
		stdio: 'inherit',
		env: { ...process.env, ...environment },
		shell: process.platform === 'win32'
	});
	return ended.status ?? 1;
}

/**
 * Every file in a folder, by path.
 * @param {string} path
 * @returns {string[]}
 */
function filesIn(path) {
	if (!existsSync(path)) return [];
	if (!statSync(path).isDirectory()) return [path];
	return readdirSync(path)
		.sort()
		.flatMap((name) => filesIn(join(path, name)));
}

/** @param {readonly string[]} paths */
function digest(paths) {
	const hash = createHash('sha256');
	for (const file of paths.flatMap(filesIn)) hash.update(`${file}\0`).update(readFileSync(file)).update('\0');
	return hash.digest('hex');
}

/**
 * Does something once for a state of files, and again when they change.
 * @param {{
 *   what: string,
 *   made: string,
 *   stamp: string,
 *   from: readonly string[],
 *   make: () => number,
 *   madeByHand?: () => boolean
 * }} step
 */
function keepCurrent({ what, made, stamp, from, make, madeByHand = () => false }) {
	const state = digest(from);
	const current = existsSync(made) && existsSync(stamp) && readFileSync(stamp, 'utf8') === state;
	if (current) return;
	if (!madeByHand()) {
		console.log(`${what} …`);
		const code = make();
		if (code !== 0) {
			console.error(`${what} failed.`);
			process.exit(code);
		}
	}
	mkdirSync(dirname(stamp), { recursive: true });
	writeFileSync(stamp, state);
}

/** npm writes its own record last: one that is newer than the lock file is of a whole installation. */
function installedByHand() {
	const record = join('node_modules', '.package-lock.json');
	return existsSync(record) && statSync(record).mtimeMs >= statSync('package-lock.json').mtimeMs;
}

/** Installs the packages where they are missing or the lock file changed. */
export function installed() {
	keepCurrent({
		what: 'Installing packages',
		made: 'node_modules',
		stamp: join('node_modules', '.coilwright-installed'),
		from: ['package-lock.json'],
		make: () => run('npm', ['ci', '--no-audit', '--no-fund']),
		madeByHand: installedByHand
	});
}

/**
 * The Node that runs the program: the one of the package, else this one where it is new enough (it runs TypeScript as
 * it is and has SQLite in it).
 * @returns {string} its path
 */
export function programNode() {
	const packaged = ['node', 'node.exe']
		.map((name) => join(root, 'node_modules', 'node', 'bin', name))
		.find(existsSync);
	if (packaged) return packaged;
	if (Number(process.versions.node.split('.')[0]) >= 24) return process.execPath;
	console.error(
		`Coilwright needs Node 24; here is ${process.versions.node}, and npm has no Node for this machine.`
	);
	process.exit(1);
}

/** Builds the program where a source is newer than the build. */
export function built() {
	keepCurrent({
		what: 'Building',
		made: join('build', 'handler.js'),
		stamp: join('build', '.coilwright-built'),
		from: ['src', 'static', 'package-lock.json', 'svelte.config.js', 'vite.config.ts', 'tsconfig.json'],
		make: () => run('npm', ['run', '--silent', 'build', '--', '--logLevel', 'error'])
	});
}
