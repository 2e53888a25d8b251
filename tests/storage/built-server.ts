/** The built program as its own process, on a folder of its own: what `npm run serve` starts. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

interface Reply {
	readonly status: number;
	readonly headers: IncomingHttpHeaders;
	readonly text: string;
	readonly body: Readonly<Record<string, unknown>>;
}

export interface RunningServer {
	readonly address: string;
	readonly process: ChildProcess;
	/** All it has written so far. */
	output(): string;
	/** Sends a request as a page of the program would; `headers` replace or add to that. */
	ask(method: string, path: string, body?: unknown, headers?: Record<string, string>): Promise<Reply>;
	/** Ends it and waits. @returns its exit code, or null when a signal ended it. */
	end(signal: NodeJS.Signals): Promise<number | null>;
}

function start(environment: Record<string, string>): { process: ChildProcess; output: () => string } {
	if (!existsSync(join('build', 'handler.js')))
		throw new Error(
			'The program is not built. `npm test` builds it before the tests; `npm run build` does by hand.'
		);
	const child = spawn(process.execPath, ['src/cli/serve.ts'], {
		env: { PATH: process.env.PATH ?? '', PORT: '0', ...environment },
		stdio: ['ignore', 'pipe', 'pipe']
	});
	let text = '';
	for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => (text += String(chunk)));
	onTestFinished(() => {
		child.kill('SIGKILL');
	});
	return { process: child, output: () => text };
}

/** Starts it where it must refuse. @returns its exit code and what it said. */
export async function refusedStart(
	environment: Record<string, string>
): Promise<{ code: number; output: string }> {
	const { process: child, output } = start(environment);
	const [code] = (await once(child, 'close')) as [number];
	return { code, output: output() };
}

export async function startServer(environment: Record<string, string>): Promise<RunningServer> {
	const { process: child, output } = start(environment);
	const deadline = Date.now() + 30_000;
	let address: string | undefined;
	while (address === undefined) {
		address = /ready: (http:\S+)\//u.exec(output())?.[1];
		if (child.exitCode !== null || Date.now() > deadline)
			throw new Error(`the server did not start: ${output()}`);
		await new Promise((resolve) => setTimeout(resolve, 20));
	}
	const { host } = new URL(address);
	return {
		address,
		process: child,
		output,
		ask: (method, path, body, headers = {}) =>
			ask(`${address}${path}`, method, body, { host, origin: address, ...headers }),
		async end(signal) {
			const closed = once(child, 'close');
			child.kill(signal);
			const [code] = (await closed) as [number | null];
			return code;
		}
	};
}

function ask(url: string, method: string, body: unknown, headers: Record<string, string>): Promise<Reply> {
	const isRaw = typeof body === 'string' || body instanceof Uint8Array;
	const content = body === undefined ? null : isRaw ? body : JSON.stringify(body);
	return new Promise((resolve, reject) => {
		const sent = httpRequest(
			url,
			{
				method,
				headers: {
					accept: 'application/json',
					...(content === null
						? {}
						: { 'content-type': 'application/json', 'content-length': String(Buffer.byteLength(content)) }),
					...headers
				}
			},
			(response) => {
				const chunks: Buffer[] = [];
				response.on('data', (chunk: Buffer) => chunks.push(chunk));
				response.on('error', reject);
				response.on('end', () => {
					const text = Buffer.concat(chunks).toString('utf8');
					let parsed: Reply['body'] = {};
					try {
						parsed = JSON.parse(text) as Reply['body'];
					} catch {
						// A page, not an answer in JSON.
					}
					resolve({ status: response.statusCode ?? 0, headers: response.headers, text, body: parsed });
				});
			}
		);
		sent.on('error', reject);
		sent.end(content);
	});
}

/** A form with one file. */
export function formWithFile(
	name: string,
	content: Uint8Array | string,
	fields: Readonly<Record<string, string>> = {}
): { body: Uint8Array; headers: Record<string, string> } {
	const boundary = 'coilwright-test-boundary';
	const part = (disposition: string, value: Uint8Array | string): Buffer =>
		Buffer.concat([
			Buffer.from(`--${boundary}\r\ncontent-disposition: form-data; ${disposition}\r\n\r\n`),
			Buffer.from(value),
			Buffer.from('\r\n')
		]);
	return {
		body: Buffer.concat([
			part(`name="file"; filename="${name}"`, content),
			...Object.entries(fields).map(([field, value]) => part(`name="${field}"`, value)),
			Buffer.from(`--${boundary}--\r\n`)
		]),
		headers: { 'content-type': `multipart/form-data; boundary=${boundary}` }
	};
}
