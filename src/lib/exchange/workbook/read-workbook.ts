/** Workbooks (`.xlsx`) from outside. They are taken for hostile: see `zip-limits`, `cut-workbook` and `read-worker`. */
import { resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { megabytes, mostBytes, mostColumns, mostRows, type SheetsReading } from '../sheet.ts';
import type { ReadTask } from './read-worker.ts';
import { readZip } from './zip-limits.ts';

export interface WorkbookLimits {
	/** Bytes of the file. */
	readonly fileBytes: number;
	/** Bytes of all parts unpacked. */
	readonly totalBytes: number;
	/** Bytes of one part unpacked. */
	readonly partBytes: number;
	readonly parts: number;
	/** Unpacked over packed. */
	readonly ratio: number;
	/** Filled rows in a sheet. */
	readonly rows: number;
	readonly columns: number;
	/** Filled cells in all sheets. */
	readonly cells: number;
	readonly seconds: number;
	readonly heapMegabytes: number;
}

const workbookLimits: WorkbookLimits = {
	fileBytes: mostBytes,
	totalBytes: 200 * 1024 * 1024,
	partBytes: 100 * 1024 * 1024,
	parts: 2000,
	ratio: 200,
	rows: mostRows,
	columns: mostColumns,
	cells: 500_000,
	seconds: 30,
	heapMegabytes: 1024
};

/** Seen from the project's root, where the server and the terminal command run, so that no bundler has to know it. */
const workerFile = 'src/lib/exchange/workbook/read-worker.ts';

/** Workbooks read at the same time; more wait. */
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

/**
 * Reads all sheets as rows of text. Numbers are plain decimals, a formula is its stored result, a date or an error is
 * marked as such, styled text is joined, a merged cell's value stands in its top left cell. What is wrong with the file
 * is told in the message, which names sheet, row and limit.
 *
 * @param name of the file, for the message
 * @throws Error when the program itself is at fault, never for what is in the file
 */
export async function readWorkbook(
	name: string,
	bytes: Uint8Array,
	limits: Partial<WorkbookLimits> = {}
): Promise<SheetsReading> {
	const all = { ...workbookLimits, ...limits };
	const refused = (reason: string): SheetsReading => ({
		ok: false,
		message: `${name} is not read: ${reason}.`
	});
	if (bytes.length > all.fileBytes)
		return refused(`it has ${megabytes(bytes.length)}; at most ${megabytes(all.fileBytes)} are read`);
	const zip = { totalBytes: all.totalBytes, entryBytes: all.partBytes, entries: all.parts, ratio: all.ratio };
	const directory = readZip(bytes, zip);
	if (!directory.ok) return refused(directory.reason);
	const names = new Set(directory.entries.map((entry) => entry.name));
	if (!names.has('xl/workbook.xml')) return refused(whatItIs(names));
	await turn();
	try {
		const reading = await runWorker({ bytes, zip, cut: all }, all);
		if (!reading.ok) return refused(reading.message);
		if (reading.sheets.every((sheet) => sheet.rows.length === 0)) return refused('all its sheets are empty');
		return reading;
	} finally {
		giveTurn();
	}
}

function whatItIs(names: ReadonlySet<string>): string {
	if (names.has('xl/workbook.bin')) return 'it is a binary workbook; save it as .xlsx';
	if (names.has('word/document.xml'))
		return 'it is a text document; save the table as .xlsx or delimited text';
	if (names.has('content.xml')) return 'it is an OpenDocument file; save it as .xlsx or delimited text';
	return 'it is a zip archive with no workbook in it; save the table as .xlsx or delimited text';
}

function runWorker(task: ReadTask, limits: WorkbookLimits): Promise<SheetsReading> {
	const failed = (message: string): SheetsReading => ({ ok: false, message });
	return new Promise((done, failedItself) => {
		const bytes = new Uint8Array(task.bytes);
		const worker = new Worker(resolve(process.cwd(), workerFile), {
			workerData: { ...task, bytes },
			transferList: [bytes.buffer],
			env: {},
			execArgv: [],
			resourceLimits: { maxOldGenerationSizeMb: limits.heapMegabytes }
		});
		const finish = (reading: SheetsReading): void => {
			clearTimeout(timer);
			void worker.terminate();
			done(reading);
		};
		const timer = setTimeout(() => {
			finish(failed(`it takes more than ${limits.seconds} seconds to read; take out what is not needed`));
		}, limits.seconds * 1000);
		worker.once('message', (reading: SheetsReading) => {
			finish(reading);
		});
		worker.once('error', (error: Error & { code?: string }) => {
			if (error.code === 'ERR_WORKER_OUT_OF_MEMORY')
				finish(failed('it needs too much memory; take out what is not needed'));
			else failedItself(error);
		});
		worker.once('exit', () => {
			finish(failed('reading it ended early'));
		});
	});
}
