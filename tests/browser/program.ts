/** The built program on a folder of its own, for a browser to look at. What `npm run serve` starts. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export class Program {
	readonly folder: string;
	address = '';
	#child: ChildProcess | null = null;
	#output = '';

	private constructor(folder: string) {
		this.folder = folder;
	}

	/**
	 * Starts it on a free port, with an empty database (the demo jobs come by themselves).
	 * @param prepare what is done to its folder first
	 */
	static async start(prepare?: (folder: string) => Promise<void>): Promise<Program> {
		if (!existsSync(join('build', 'handler.js')))
			throw new Error(
				'The program is not built. `npm test` builds it before the tests; `npm run build` does by hand.'
			);
		const program = new Program(await mkdtemp(join(tmpdir(), 'coilwright-browser-')));
		await prepare?.(program.folder);
		await program.#run('0');
		return program;
	}

	/** Starts it again after a stop, on the same folder and port. */
	async startAgain(): Promise<void> {
		await this.#run(new URL(this.address).port);
	}

	/** Ends it at once, as a power cut would. */
	async kill(): Promise<void> {
		await this.#end('SIGKILL');
	}

	async close(): Promise<void> {
		await this.#end('SIGTERM');
		await rm(this.folder, { recursive: true, force: true });
	}

	async #run(port: string): Promise<void> {
		this.#output = '';
		const child = spawn(process.execPath, ['src/cli/serve.ts'], {
			env: { PATH: process.env.PATH ?? '', PORT: port, COILWRIGHT_DATA: this.folder },
			stdio: ['ignore', 'pipe', 'pipe']
		});
		this.#child = child;
		for (const stream of [child.stdout, child.stderr])
			stream.on('data', (chunk) => (this.#output += String(chunk)));
		const deadline = Date.now() + 60_000;
		for (;;) {
			const ready = /ready: (http:\S+)\//u.exec(this.#output)?.[1];
			if (ready !== undefined) {
				this.address = ready;
				return;
			}
			if (child.exitCode !== null || Date.now() > deadline)
				throw new Error(`the program did not start: ${this.#output}`);
			await new Promise((resolve) => setTimeout(resolve, 20));
		}
	}

	async #end(signal: NodeJS.Signals): Promise<void> {
		const child = this.#child;
		this.#child = null;
		if (child?.exitCode !== null || child.signalCode !== null) return;
		const closed = once(child, 'close');
		child.kill(signal);
		await closed;
	}
}
