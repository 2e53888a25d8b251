/**
 * `npm test`: brings what the tests need, builds the program for the browser tests and runs all tests. Further words go
 * to vitest: `npm test -- tests/storage`. Uses nothing but Node 20 itself.
 *
 * On Debian as root, Chromium, LibreOffice, Poppler, PostgreSQL, xmllint and faketime are installed where they are missing. Elsewhere what
 * is missing is named and its tests are skipped; with CI=true a missing one is a failure.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { built, installed, run } from '../src/cli/prepare.mjs';

const debian = existsSync('/etc/debian_version');

const needed = [
	{ what: 'Chromium', command: 'chromium', package: 'chromium', without: 'the browser tests' },
	{
		what: 'LibreOffice',
		// Debian's soffice is there without its spreadsheet too; that one brings localc.
		command: debian ? 'localc' : 'soffice',
		package: 'libreoffice-calc',
		without: 'the tests that recalculate an exported workbook'
	},
	{
		what: 'Poppler',
		command: 'pdftocairo',
		package: 'poppler-utils',
		without: 'the tests that read printed pages'
	},
	{
		what: 'PostgreSQL',
		command: 'initdb',
		package: 'postgresql',
		without: 'the tests on PostgreSQL'
	},
	{
		what: 'xmllint',
		command: 'xmllint',
		package: 'libxml2-utils',
		without: 'the tests that read our XML with another parser'
	},
	{
		what: 'faketime',
		command: 'faketime',
		package: 'faketime',
		without: 'the tests with another clock'
	}
];

/** Debian keeps the programs of PostgreSQL off the PATH, a folder a version. */
const offThePath = '/usr/lib/postgresql';
const folders = () => [
	...(process.env.PATH ?? '').split(':').filter((folder) => folder !== ''),
	...(existsSync(offThePath) ? readdirSync(offThePath).map((version) => `${offThePath}/${version}/bin`) : [])
];

/** @param {string} command */
const isThere = (command) => folders().some((folder) => existsSync(`${folder}/${command}`));

const missing = () => needed.filter(({ command }) => !isThere(command));

function installPrograms() {
	if (missing().length === 0) return;
	const canInstall = debian && process.getuid?.() === 0;
	if (canInstall) {
		const environment = { DEBIAN_FRONTEND: 'noninteractive' };
		const packages = missing().map((program) => program.package);
		console.log(`Installing ${packages.join(' and ')} …`);
		run('apt-get', ['-qq', 'update'], { environment });
		run('apt-get', ['-qq', '-y', '--no-install-recommends', 'install', ...packages], { environment });
	}
	for (const { what, without } of missing()) console.log(`${what} is not installed: ${without} are skipped.`);
	if (process.env.CI === 'true' && missing().length > 0) {
		console.error('With CI=true nothing may be skipped.');
		process.exit(1);
	}
}

installed();
installPrograms();
built();

const tests = spawnSync('npm', ['run', '--silent', 'vitest', '--', ...process.argv.slice(2)], {
	stdio: 'inherit',
	shell: process.platform === 'win32'
});
process.exit(tests.status ?? 1);
