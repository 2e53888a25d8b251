/**
 * The engine from a terminal: `coilwright takeoff SCHEDULE` and `coilwright compare SCHEDULE PACKINGLIST`. The same
 * readers and the same rules as the app; nothing is stored.
 */
import { readFile, writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import type { core } from 'zod';
import { compareDelivery } from '../lib/delivery/compare.ts';
import type { Comparison } from '../lib/delivery/comparison.ts';
import { comparisonRows } from '../lib/delivery/report.ts';
import { readPackingList } from '../lib/exchange/packing-list.ts';
import { readSchedule, scheduleProblems, scheduleRows } from '../lib/exchange/schedule.ts';
import type { Sheet } from '../lib/exchange/sheet.ts';
import { readTableFile } from '../lib/exchange/table-file.ts';
import { buildPricing } from '../lib/price/price.ts';
import { demoPriceBook, demoTechnicalBook } from '../lib/shopbook/demo/demo-book.ts';
import { technicalBookSchema, type TechnicalBook } from '../lib/shopbook/schema.ts';
import { buildEngine, type Engine, type JobTakeoff } from '../lib/takeoff/engine.ts';
import { lengthStyleOf, type Measures, type OpeningRow } from '../lib/takeoff/inputs.ts';
import { keysFor } from '../lib/takeoff/keys.ts';
import { materialList } from '../lib/takeoff/parts.ts';
import { takeoffReport } from '../lib/takeoff/report.ts';
import type { OpeningTakeoff } from '../lib/takeoff/result.ts';
import { showQuantity } from '../lib/takeoff/show.ts';
import { stopsOf } from '../lib/takeoff/stops.ts';
import { argumentsOf, BadInput, fromCaller, print } from './terminal.ts';

async function load(path: string): Promise<Uint8Array> {
	try {
		return new Uint8Array(await readFile(fromCaller(path)));
	} catch (error) {
		const code = error instanceof Error && 'code' in error ? String(error.code) : '';
		const reason =
			code === 'ENOENT'
				? 'there is no such file'
				: code === 'EISDIR'
					? 'it is a folder'
					: 'it cannot be read';
		throw new BadInput(`${path}: ${reason}.`);
	}
}

async function loadTable(path: string): Promise<readonly Sheet[]> {
	const file = await readTableFile(basename(path), await load(path));
	if (!file.ok) throw new BadInput(`${path}: ${file.message}`);
	return file.sheets;
}

async function loadBook(path: string | undefined): Promise<TechnicalBook> {
	if (path === undefined) return demoTechnicalBook;
	let json: unknown;
	try {
		json = JSON.parse(new TextDecoder().decode(await load(path)));
	} catch (error) {
		if (error instanceof BadInput) throw error;
		throw new BadInput(`${path}: it is not JSON (${error instanceof Error ? error.message : 'unreadable'}).`);
	}
	const parsed = technicalBookSchema.safeParse(json);
	if (parsed.success) return parsed.data;
	throw new BadInput(...bookProblems(json, parsed.error.issues).map((problem) => `${path}: ${problem}`));
}

const mostProblems = 8;

const memberOf = (value: unknown, path: readonly PropertyKey[]): unknown =>
	path.reduce<unknown>(
		(at, step) =>
			typeof at === 'object' && at !== null
				? (at as Readonly<Record<PropertyKey, unknown>>)[step]
				: undefined,
		value
	);

/**
 * What is wrong with a shop book, by place: first a handful, then how much more. Members that are missing are named
 * together, and what is the same in many rows is said of the first.
 */
function bookProblems(book: unknown, issues: readonly core.$ZodIssue[]): string[] {
	const problems = new Map<string, { place: string; missing: Set<string>; message: string }>();
	for (const { path, message } of issues) {
		const missing = path.length > 0 && memberOf(book, path) === undefined;
		const place = missing ? path.slice(0, -1) : path;
		const anyRow = place.filter((step) => typeof step !== 'number').join('.');
		const key = missing ? anyRow : `${anyRow}: ${message}`;
		const problem = problems.get(key) ?? { place: place.join('.'), missing: new Set(), message };
		if (missing) problem.missing.add(String(path.at(-1)));
		problems.set(key, problem);
	}
	const lines = Array.from(problems.values(), ({ place, missing, message }) => {
		const what = missing.size === 0 ? message : `missing: ${[...missing].join(', ')}`;
		return `${place === '' ? 'the book' : place}: ${what}`;
	});
	const left = lines.length - mostProblems;
	return left > 0 ? [...lines.slice(0, mostProblems), `and ${left} more like these.`] : lines;
}

interface Taken {
	readonly engine: Engine;
	readonly job: JobTakeoff;
}

async function takeOff(schedule: string, bookPath: string | undefined, measures: Measures): Promise<Taken> {
	const book = await loadBook(bookPath);
	const built = buildEngine(book);
	if (!built.ok)
		throw new BadInput(
			...built.problems.map(({ rule, problem }) => `${bookPath ?? 'shop book'}: ${rule}: ${problem}`)
		);
	const { engine } = built;
	const preview = readSchedule(await loadTable(schedule), {
		measures,
		keysFor: (input) => keysFor(book, input)
	});
	const problems = scheduleProblems(preview);
	if (problems.length > 0)
		throw new BadInput(...problems.map(({ place, reason }) => `${schedule}: ${place}: ${reason}`));
	const rows = scheduleRows(preview).map(({ line, cells }): OpeningRow => ({
		id: `line-${String(line)}`,
		cells
	}));
	if (rows.length === 0) throw new BadInput(`${schedule}: no row of it is an opening.`);
	return { engine, job: engine.takeoff(rows, measures) };
}

const hasStop = (opening: OpeningTakeoff): boolean =>
	opening.checks.some(({ severity }) => severity === 'stop');

function printTable(rows: readonly (readonly string[])[]): void {
	const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => (row[i] ?? '').length)));
	for (const row of rows)
		print(
			row
				.map((cell, i) => cell.padEnd(widths[i] ?? 0))
				.join('  ')
				.trimEnd()
		);
}

const summaryIds = [
	'guideDistance',
	'curtainWidth',
	'barrel',
	'bracket',
	'drive',
	'guideLength',
	'anchorTotal',
	'coilWeight',
	'labourHours'
];

function printSummary({ engine, job }: Taken): void {
	const titles = summaryIds.map((id) => engine.rules.definition(id)?.title ?? id);
	printTable([
		['Mark', 'No.', ...titles],
		...job.openings.map((opening) => [
			opening.openingId ?? opening.mark,
			String(opening.quantity),
			...summaryIds.map((id) => {
				const value = opening.get(id);
				const definition = engine.rules.definition(id);
				return typeof value === 'number' && definition
					? showQuantity(value, definition, job.measures)
					: (value ?? '—').toString();
			})
		])
	]);
	const said = new Map<string, string[]>();
	for (const opening of job.openings)
		for (const { severity, text, clears } of opening.checks) {
			if (severity === 'note') continue;
			const sentence = `${severity}: ${text} To clear it: ${clears}`;
			said.set(sentence, [...(said.get(sentence) ?? []), opening.openingId ?? opening.mark]);
		}
	print('');
	for (const severity of ['stop', 'caution'])
		for (const [sentence, marks] of said)
			if (sentence.startsWith(severity)) print(`${marks.join(', ')}: ${sentence}`);
}

async function takeoff(schedule: string, options: Options): Promise<number> {
	const taken = await takeOff(schedule, options.book, options.measures);
	const { engine, job } = taken;
	if (options.out !== undefined) {
		// The workbook library is large; it is loaded only when one is asked for.
		const { writeWorkbook } = await import('../lib/exchange/workbook/write-workbook.ts');
		const pricing = buildPricing(engine, demoPriceBook);
		const bytes = await writeWorkbook({
			name: basename(schedule),
			engine,
			job,
			pricing: options.book === undefined && pricing.ok ? pricing.pricing : null,
			madeAt: new Date()
		});
		try {
			await writeFile(fromCaller(options.out), bytes);
		} catch {
			throw new BadInput(`${options.out}: it cannot be written.`);
		}
		process.stderr.write(`${options.out} written: ${String(job.openings.length)} rows.\n`);
	} else if (options.json) print(JSON.stringify(takeoffReport(engine, job), null, 2));
	else printSummary(taken);
	return job.openings.some(hasStop) ? 1 : 0;
}

async function compare(schedule: string, packingLists: readonly string[], options: Options): Promise<number> {
	const { engine, job } = await takeOff(schedule, options.book, options.measures);
	const lists = [];
	for (const [i, path] of packingLists.entries()) {
		const read = readPackingList(await loadTable(path), { measures: options.measures });
		if (!read.ok) throw new BadInput(`${path}: ${read.place}: ${read.message}`);
		for (const { place, text, reason } of read.questions)
			process.stderr.write(`${path}: ${place}: “${text}”: ${reason}\n`);
		lists.push({ deliveryId: `list-${String(i + 1)}`, name: basename(path), lines: read.lines });
	}
	const comparison = compareDelivery(materialList(engine, job), lists, {
		stopped: stopsOf(job),
		lengthStyle: lengthStyleOf(options.measures)
	});
	if (options.json) print(JSON.stringify(comparison, null, 2));
	else printComparison(comparison);
	return comparison.openings.every(({ clear }) => clear) &&
		comparison.lines.every(({ state }) => state === 'exact')
		? 0
		: 1;
}

/** Part ids and what is on no list at all are in the JSON; a person reads the lines and what each opening waits for. */
function printComparison(comparison: Comparison): void {
	const listed = comparison.lines.filter(({ delivery }) => delivery !== null);
	printTable(comparisonRows({ ...comparison, lines: listed }).map((row) => row.slice(0, -1)));
	const unlisted = comparison.lines.length - listed.length;
	if (unlisted > 0)
		print(`\n${String(unlisted)} more kinds of parts are on no packing list; --json names them.`);
	print('\nClear to start (parts only; the field measure is not in it):');
	for (const { openingId, stops, tasks } of comparison.openings) {
		const words = tasks.map(
			({ task, clear, holds }) => `${task} ${clear ? 'clear' : `held (${String(holds.length)})`}`
		);
		print(`${openingId}: ${[...stops.map((stop) => `stop: ${stop}`), ...words].join(', ')}`);
	}
}

interface Options {
	readonly book: string | undefined;
	readonly measures: Measures;
	readonly json: boolean;
	readonly out: string | undefined;
}

function optionsOf(args: readonly string[]): { options: Options; files: readonly string[] } {
	const { values, positionals } = argumentsOf(args, {
		book: { type: 'string' },
		units: { type: 'string', default: 'imperial' },
		json: { type: 'boolean', default: false },
		out: { type: 'string' }
	});
	const { units, book, json, out } = values;
	if (units !== 'imperial' && units !== 'metric')
		throw new BadInput(`--units ${units}: it is imperial or metric.`);
	if (json && out !== undefined) throw new BadInput('--json and --out: one of them.');
	return { options: { book, measures: units, json, out }, files: positionals };
}

export async function takeoffCommand(args: readonly string[]): Promise<number> {
	const { options, files } = optionsOf(args);
	const [schedule, ...more] = files;
	if (schedule === undefined || more.length > 0) throw new BadInput('takeoff: it reads one schedule.');
	return takeoff(schedule, options);
}

export async function compareCommand(args: readonly string[]): Promise<number> {
	const { options, files } = optionsOf(args);
	const [schedule, ...lists] = files;
	if (schedule === undefined || lists.length === 0 || options.out !== undefined)
		throw new BadInput('compare: it reads a schedule and one packing list or more, and writes no file.');
	return compare(schedule, lists, options);
}
