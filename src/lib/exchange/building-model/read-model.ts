/** Building models (`.ifc`, ISO 10303-21 with a schema of ISO 16739) from outside. They are taken for hostile: see `model-worker`. */
import { resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { megabytes } from '../sheet.ts';
import type { ModelTask } from './model-worker.ts';
import type { ModelReading } from './model.ts';

export interface ModelLimits {
	/** Bytes of the file. */
	readonly fileBytes: number;
	/** Bytes of the memory of WebAssembly, in which the library keeps the file. */
	readonly wasmBytes: number;
	/** Megabytes of the heap of JavaScript. */
	readonly heapMegabytes: number;
	readonly seconds: number;
}

const megabyte = 1024 * 1024;

/** The largest model that is read, megabytes. */
export const largestModel = 100;

const modelLimits: ModelLimits = {
	fileBytes: largestModel * megabyte,
	wasmBytes: 1024 * megabyte,
	heapMegabytes: 512,
	seconds: 60
};

/** Seen from the project's root, where the server runs, so that no bundler has to know it. */
const workerFile = 'src/lib/exchange/building-model/model-worker.ts';

/** The header is within the first bytes; programs write long lists of views into it. */
const headerBytes = 65_536;
const schemas: ReadonlySet<string> = new Set(['IFC2X3', 'IFC4', 'IFC4X3', 'IFC4X3_ADD2']);
const schemaWords = 'IFC2X3, IFC4 or IFC4X3';

/** Models are read one after the other: each may take a good part of the machine's memory. */
let last: Promise<unknown> = Promise.resolve();

/**
 * Reads the doors, windows and openings of a building model, without any geometry. What is wrong with the file is told
 * in the message.
 *
 * @param name of the file, for the message
 * @throws Error when the program itself is at fault, never for what is in the file
 */
export async function readModel(
	name: string,
	bytes: Uint8Array,
	limits: Partial<ModelLimits> = {}
): Promise<ModelReading> {
	const all = { ...modelLimits, ...limits };
	const content = startsWithMark(bytes) ? bytes.subarray(byteOrderMark.length) : bytes;
	const header = readHeader(content, all.fileBytes);
	const reading = header.ok
		? await inTurn(() => runWorker({ bytes: content, schema: header.schema, wasmBytes: all.wasmBytes }, all))
		: header;
	return reading.ok ? reading : { ok: false, message: `${name} is not read: ${reading.message}.` };
}

const byteOrderMark = [0xef, 0xbb, 0xbf];
const startsWithMark = (bytes: Uint8Array): boolean => byteOrderMark.every((byte, i) => bytes[i] === byte);

function inTurn<T>(work: () => Promise<T>): Promise<T> {
	const mine = last.then(work);
	last = mine.catch(() => undefined);
	return mine;
}

type Header = { ok: true; schema: string } | { ok: false; message: string };

function readHeader(bytes: Uint8Array, most: number): Header {
	const refused = (message: string): Header => ({ ok: false, message });
	if (bytes.length > most)
		return refused(
			`it has ${megabytes(bytes.length)}; at most ${megabytes(most)} are read, so export only the part that is needed`
		);
	const start = Array.from(bytes.subarray(0, headerBytes), (byte) => String.fromCharCode(byte)).join('');
	if (start.startsWith('PK'))
		return refused('it is a zip archive (.ifczip or the like); unpack it and choose the .ifc file in it');
	if (/^\s*<\?xml/u.test(start))
		return refused('it is written as XML; export it as .ifc, the text form of ISO 10303-21');
	if (!/^\s*ISO-10303-21\s*;/u.test(start))
		return refused('it does not begin with ISO-10303-21; export the building model as .ifc');
	const schema = /FILE_SCHEMA\s*\(\s*\(\s*'([^']{1,60})'\s*\)/u.exec(start)?.[1]?.toUpperCase();
	if (schema === undefined)
		return refused(`its header names no schema (FILE_SCHEMA); export it as ${schemaWords}`);
	if (!schemas.has(schema)) return refused(`its schema is ${schema}; export it as ${schemaWords}`);
	return { ok: true, schema };
}

function runWorker(task: ModelTask, limits: ModelLimits): Promise<ModelReading> {
	const failed = (message: string): ModelReading => ({ ok: false, message });
	return new Promise((done, failedItself) => {
		const bytes = new Uint8Array(task.bytes);
		const worker = new Worker(resolve(process.cwd(), workerFile), {
			workerData: { ...task, bytes },
			transferList: [bytes.buffer],
			env: {},
			execArgv: [],
			// What the library writes may quote the file, which is nobody's business in a log.
			stdout: true,
			stderr: true,
			resourceLimits: { maxOldGenerationSizeMb: limits.heapMegabytes }
		});
		const finish = (reading: ModelReading): void => {
			clearTimeout(timer);
			void worker.terminate();
			done(reading);
		};
		const timer = setTimeout(() => {
			finish(
				failed(`it takes more than ${limits.seconds} seconds to read; export only the part that is needed`)
			);
		}, limits.seconds * 1000);
		worker.once('message', (reading: ModelReading) => {
			finish(reading);
		});
		worker.once('error', (error: Error & { code?: string }) => {
			if (error.code === 'ERR_WORKER_OUT_OF_MEMORY')
				finish(failed('it needs too much memory; export only the part that is needed'));
			else failedItself(error);
		});
		worker.once('exit', () => {
			finish(failed('reading it ended early'));
		});
	});
}
