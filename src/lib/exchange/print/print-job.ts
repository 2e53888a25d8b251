/** Prints a job in a worker: a page takes some 20 to 60 ms of work, and no request should wait for that. */
import { resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Print, PrintTask } from './make-print.ts';

/** Seen from the project's root, where the server runs, so that no bundler has to know it. */
const workerFile = 'src/lib/exchange/print/print-worker.ts';

const limits = { seconds: 180, heapMegabytes: 2048 } as const;

/** Files printed at the same time; more wait. */
const most = 2;
let running = 0;
const waiting: (() => void)[] = [];

async function turn(): Promise<void> {
	if (running < most) running++;
	else await new Promise<void>((go) => waiting.push(go));
}

function giveTurn(): void {
	const next = waiting.shift();
	if (next) next();
	else running--;
}

/** @throws Error when the program itself is at fault */
export async function printJob(task: PrintTask): Promise<Print> {
	await turn();
	try {
		return await inWorker(task);
	} finally {
		giveTurn();
	}
}

function inWorker(task: PrintTask): Promise<Print> {
	const tooLarge = (message: string): Print => ({ ok: false, problem: 'tooLarge', message });
	return new Promise((done, failed) => {
		const worker = new Worker(resolve(process.cwd(), workerFile), {
			workerData: task,
			env: {},
			execArgv: [],
			resourceLimits: { maxOldGenerationSizeMb: limits.heapMegabytes }
		});
		const finish = (print: Print): void => {
			clearTimeout(timer);
			void worker.terminate();
			done(print);
		};
		const timer = setTimeout(() => {
			finish(tooLarge(`Printing takes more than ${limits.seconds} seconds. Print fewer rows at once.`));
		}, limits.seconds * 1000);
		worker.once('message', finish);
		worker.once('error', (error: Error & { code?: string }) => {
			if (error.code === 'ERR_WORKER_OUT_OF_MEMORY')
				finish(tooLarge('Printing this needs too much memory. Print fewer rows at once.'));
			else {
				clearTimeout(timer);
				failed(error);
			}
		});
		worker.once('exit', (code) => {
			clearTimeout(timer);
			failed(new Error(`the print worker ended early with ${code}`));
		});
	});
}
