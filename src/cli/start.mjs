/**
 * `npm start`: installs and builds where something changed since the last time, then serves. Runs on Node 20 before
 * anything is installed, so it uses nothing but Node; the program itself runs on the Node of the package.
 */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { built, installed, programNode, root } from './prepare.mjs';

installed();
built();

// Not through npm, which does not hand every signal on.
const server = spawn(programNode(), [join(root, 'src', 'cli', 'serve.ts')], { stdio: 'inherit' });
for (const signal of /** @type {const} */ (['SIGTERM', 'SIGINT', 'SIGHUP']))
	process.on(signal, () => server.kill(signal));
server.on('exit', (code) => process.exit(code ?? 0));

// When npm is told to end, it ends the shell it started and not this process: the server follows the shell.
const parent = process.ppid;
if (process.env.npm_lifecycle_event === 'start')
	setInterval(() => {
		if (process.ppid !== parent) server.kill('SIGTERM');
	}, 500).unref();
