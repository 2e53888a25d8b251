/**
 * `node tests/dependencies.mjs`: what every installed package is licensed under, and whether the registry knows of
 * something wrong with one that the program ships. Writes `test-results/licences.txt`. Fails for a licence that is not
 * on the list, a package without one, or a high or critical finding. Uses nothing but Node 20 itself.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(fileURLToPath(import.meta.url), '..', '..');

/** Licences that ask for no more than to be named, or (MPL-2.0) to give back changes to their own files. */
const allowed = new Set([
	'0BSD',
	'Apache-2.0',
	'BlueOak-1.0.0',
	'BSD-2-Clause',
	'BSD-3-Clause',
	'CC0-1.0',
	'ISC',
	'MIT',
	'MIT-0',
	'MPL-2.0',
	'OFL-1.1',
	'Python-2.0',
	'Unlicense',
	'Zlib'
]);
/** Packages that name no licence but carry its text, with its first words: read by a person, for this version only. */
const byText = new Map([['png-js 1.1.0', { licence: 'MIT', file: 'LICENSE', begins: 'MIT License' }]]);

/** Whether an SPDX expression leaves a choice that is on the list. @param {string} expression */
function isAllowed(expression) {
	const plain = expression.replace(/[()]/gu, ' ').trim();
	return plain
		.split(/\s+OR\s+/u)
		.some((choice) => choice.split(/\s+AND\s+/u).every((part) => allowed.has(part.trim())));
}

/** @param {string} folder */
function licenceOf(folder) {
	/** @type {{ name: string, version: string, license?: unknown, licenses?: unknown }} */
	const { name, version, license, licenses } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
	const named =
		license ?? (Array.isArray(licenses) ? licenses.map((one) => one.type).join(' OR ') : licenses);
	if (typeof named === 'string') return named;
	if (typeof named === 'object' && named !== null && 'type' in named) return String(named.type);
	const read = byText.get(`${name} ${version}`);
	return read && readFileSync(join(folder, read.file), 'utf8').startsWith(read.begins) ? read.licence : '';
}

function licences() {
	const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
	const rows = [];
	const problems = [];
	const elsewhere = [];
	for (const [path, entry] of Object.entries(lock.packages)) {
		if (path === '' || entry.link === true) continue;
		const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
		const folder = join(root, path);
		const tool = entry.dev === true;
		const here = existsSync(join(folder, 'package.json'));
		// What is made for another system is not installed here; the lock file says its licence, where it does.
		const licence = here ? licenceOf(folder) : (entry.license ?? '');
		if (!here && entry.optional !== true)
			problems.push(`${name} ${entry.version} is in package-lock.json but not installed; run npm ci`);
		if (!here) elsewhere.push(name);
		if (licence === '') problems.push(`${name} ${entry.version} names no licence`);
		else if (!isAllowed(licence))
			problems.push(`${name} ${entry.version} is under ${licence}, which is not on the list`);
		rows.push([name, entry.version, licence, tool ? 'tool' : 'shipped', here ? '' : 'for another system']);
	}
	rows.sort((a, b) => (a.join(' ') < b.join(' ') ? -1 : 1));
	mkdirSync(join(root, 'test-results'), { recursive: true });
	const text = rows.map((row) => row.join('\t').trimEnd()).join('\n');
	writeFileSync(join(root, 'test-results', 'licences.txt'), `${text}\n`);
	const counts = new Map();
	for (const row of rows) counts.set(row[2], (counts.get(row[2]) ?? 0) + 1);
	const sums = [...counts].sort((a, b) => b[1] - a[1]).map(([licence, count]) => `${licence} ${count}`);
	console.log(
		`${rows.length} packages (${elsewhere.length} of them for another system): ${sums.join(', ')}.`
	);
	return problems;
}

/** What the registry knows of the packages that are shipped; it may have no such service. */
function audit() {
	const { stdout, stderr } = spawnSync('npm', ['audit', '--omit=dev', '--json'], {
		cwd: root,
		encoding: 'utf8',
		timeout: 60_000,
		shell: process.platform === 'win32'
	});
	/** @type {{ vulnerabilities?: Record<string, { severity: string }>, message?: string, error?: { summary?: string } }} */
	let report = {};
	try {
		report = JSON.parse(stdout);
	} catch {
		// Said below.
	}
	if (!report.vulnerabilities) {
		const [first = 'no answer'] = [report.error?.summary, report.message, stderr?.split('\n')[0]].filter(
			Boolean
		);
		console.log(`NOT CHECKED for known vulnerabilities: this registry has no such service (${first}).`);
		return [];
	}
	const found = Object.entries(report.vulnerabilities);
	console.log(`Known vulnerabilities in what is shipped: ${found.length}.`);
	for (const [name, { severity }] of found) console.log(`  ${name}: ${severity}`);
	return found
		.filter(([, { severity }]) => severity === 'high' || severity === 'critical')
		.map(([name, { severity }]) => `${name} has a known vulnerability: ${severity}`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
	const problems = [...licences(), ...audit()];
	for (const problem of problems) console.error(problem);
	process.exit(problems.length > 0 ? 1 : 0);
}
