/** Reads a building model in a worker thread of its own: if a file is too much for it, only the thread ends. */
import { isUtf8, transcode } from 'node:buffer';
import { parentPort, workerData } from 'node:worker_threads';
import { IfcAPI } from 'web-ifc';
import { ModelLines } from './model-lines.ts';
import { modelOpenings } from './model-openings.ts';
import { ModelRefusal, type ModelReading } from './model.ts';
import { writingProblem } from './step-writing.ts';

export interface ModelTask {
	readonly bytes: Uint8Array;
	/** As the header says. */
	readonly schema: string;
	/** The most that the memory of web-ifc may grow to. */
	readonly wasmBytes: number;
}

/**
 * `resourceLimits` of a worker bind only the heap of JavaScript. The memory of WebAssembly grows through this one
 * function, so it is bound here, for this thread: beyond the limit it fails as if the machine had no more.
 */
function bindMemory(most: number): void {
	const memory: { grow: (this: WebAssembly.Memory, pages: number) => number } = WebAssembly.Memory.prototype;
	const { grow } = memory;
	const page = 65_536;
	memory.grow = function (pages) {
		if (this.buffer.byteLength + pages * page > most) throw new RangeError('the limit of memory');
		return grow.call(this, pages);
	};
}

async function read({ bytes, schema, wasmBytes }: ModelTask): Promise<ModelReading> {
	const problem = writingProblem(bytes);
	if (problem !== null) return { ok: false, message: `${problem}; export it again` };
	bindMemory(wasmBytes);
	const api = new IfcAPI();
	await api.Init();
	// Older programs write letters beyond ASCII in Latin-1, which the standard doesn't know.
	const text = isUtf8(bytes) ? bytes : transcode(bytes, 'latin1', 'utf8');
	return { ok: true, model: modelOpenings(new ModelLines(api, text), schema) };
}

read(workerData as ModelTask).then(
	(reading) => parentPort?.postMessage(reading),
	(problem: unknown) => {
		const message =
			problem instanceof ModelRefusal
				? problem.message
				: 'it is damaged, or needs too much memory; export it again with only what is needed';
		parentPort?.postMessage({ ok: false, message } satisfies ModelReading);
	}
);
