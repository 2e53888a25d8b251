/**
 * `npm run bench`: how fast and how large, as ratios within this one run. Nothing here is asserted as a time.
 */
import { once } from 'node:events';
import { PassThrough } from 'node:stream';
import ExcelJS from 'exceljs';
import { demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { unit } from '../../src/lib/quantity/units.ts';
import { writeWorkbook } from '../../src/lib/exchange/workbook/write-workbook.ts';
import type { OpeningRow } from '../../src/lib/takeoff/inputs.ts';
import { inputQuantities } from '../../src/lib/takeoff/vocabulary.ts';
import { engineOf, openingA, openingB, openingC, pricingOf, typedRow, type Typed } from '../opening-rows.ts';
import { cuttingRows } from './cutting.ts';
import { deliveryRows } from './delivery.ts';
import { dealingRows } from './dealing.ts';
import { straightLine, written, type Columns, type Output, type Written } from './straight-line.ts';

const engine = engineOf();
const book = demoTechnicalBook;

/** A job of openings that all differ a little. */
function jobOf(count: number, more: (i: number) => Typed = () => ({})): OpeningRow[] {
	const kinds: readonly Typed[] = [openingA, openingB, openingC];
	return Array.from({ length: count }, (_, i) => {
		const base = kinds[i % kinds.length] ?? openingA;
		const row = typedRow({
			...base,
			mark: `M-${String(i + 1)}`,
			openingWidth: `${String(96 + ((i * 7) % 160))} ${String(i % 16)}/16"`,
			openingHeight: `${String(40 + ((i * 5) % 72))}"`,
			driveSide: i % 2 === 0 ? 'left' : 'right',
			...more(i)
		});
		return { ...row, id: `r${String(i)}` };
	});
}

/** What asks most of the picks: springs, circuits, five walls, and wind that asks for more anchors than the spacing. */
function hardest(i: number): Typed {
	const walls = ['concrete', 'wood', 'groutedBlock', 'structuralSteel', 'studWithBacking'];
	return {
		operation: ['tubeMotor', 'chain', 'crank', 'pushUp'][i % 4] ?? '',
		supplyVoltage: '115 V',
		feedLength: `${String(20 + (i % 200))}'`,
		exposure: 'exterior',
		designPressure: `${String(5 + (i % 40))} psf`,
		leftSubstrate: walls[i % walls.length] ?? '',
		rightSubstrate: walls[(i * 3) % walls.length] ?? ''
	};
}

/** Median of several runs, in milliseconds. */
function median(runs: number, work: () => unknown): number {
	const times = Array.from({ length: runs }, () => {
		const start = performance.now();
		work();
		return performance.now() - start;
	}).sort((a, b) => a - b);
	return times[Math.floor(times.length / 2)] ?? Number.NaN;
}

const rows: (readonly [what: string, value: string, goal: string])[] = [];
const ms = (value: number): string => `${value.toFixed(value < 10 ? 2 : 0)} ms`;

// The whole takeoff.
const many = jobOf(10_000);
engine.takeoff(many.slice(0, 600), 'imperial');
const before = process.memoryUsage();
const whole = median(5, () => engine.takeoff(many, 'imperial'));
const job = engine.takeoff(many, 'imperial');
const after = process.memoryUsage();
rows.push(['takeoff of 10,000 openings', ms(whole), '800 ms']);
const sentences = median(3, () =>
	engine.takeoff(many, 'imperial').openings.reduce((n, opening) => n + opening.checks.length, 0)
);
rows.push(['the same with every check as a sentence', ms(sentences), '']);
rows.push(['openings computed', `${String(job.openings.filter((o) => o.computed).length)} of 10,000`, '']);
rows.push([
	'memory of the process with them',
	`${(after.rss / 2 ** 20).toFixed(0)} MB (${((after.rss - before.rss) / 2 ** 20).toFixed(0)} MB more)`,
	'300 MB'
]);

const hard = jobOf(10_000, hardest);
rows.push([
	'10,000 with springs, circuits, wind',
	ms(median(5, () => engine.takeoff(hard, 'imperial'))),
	'2 s'
]);

// One edited opening.
const one = many.slice(0, 1);
const perEdit = median(9, () => {
	for (let i = 0; i < 100; i++) engine.takeoff(one, 'imperial');
});
rows.push(['one edited opening', ms(perEdit / 100), '2 ms']);

rows.push([
	`engine of ${String(engine.rules.order.length)} rules from a shop book`,
	ms(median(9, () => engineOf())),
	''
]);

// The rules themselves against the same arithmetic written out in one loop.
const { ratio, worst, rules, loop } = compareWithLoop();
rows.push(['the rules alone, 10,000 openings', ms(rules), '']);
rows.push(['hand-written loop, same arithmetic', ms(loop), '']);
rows.push(['rules over loop', `${ratio.toFixed(2)} ×`, '5 ×']);
rows.push(['largest difference between the two', worst.toExponential(1), 'noise']);

// The workbook against the same cells raw.
const thousand = engine.takeoff(jobOf(1000), 'imperial');
const pricing = pricingOf(engine);
const input = { name: 'Benchmark', engine, job: thousand, pricing, madeAt: new Date(0) };
await writeWorkbook({ ...input, job: engine.takeoff(many.slice(0, 20), 'imperial') });
const start = performance.now();
const bytes = await writeWorkbook(input);
const ours = performance.now() - start;
const raw = await writeRaw(await rawCells(bytes));
rows.push(['workbook of 1,000 openings', ms(ours), '']);
rows.push(['its cells written raw with exceljs', ms(raw), '']);
rows.push(['workbook over raw', `${(ours / raw).toFixed(2)} ×`, '3 ×']);

rows.push(...cuttingRows(median));
rows.push(...deliveryRows(median));
rows.push(...dealingRows());

const width = Math.max(...rows.map(([what]) => what.length));
for (const [what, value, goal] of rows)
	process.stdout.write(`${what.padEnd(width)}  ${value.padEnd(24)}${goal === '' ? '' : `goal ${goal}`}\n`);

function compareWithLoop(): { ratio: number; worst: number; rules: number; loop: number } {
	const count = job.openings.length;
	const block = 256;
	const keys = [
		'curtain',
		'guideLeft',
		'guideRight',
		'substrateLeft',
		'substrateRight',
		'hood',
		'operation',
		'barrel',
		'bracket',
		'drive'
	];
	// What is chosen is given to both; springs are, because the loop knows none.
	const given = [
		...inputQuantities.map(({ id }) => id),
		'mountingLeft',
		'mountingRight',
		'guideLeft',
		'guideRight',
		'substrateLeft',
		'substrateRight',
		'driveAt',
		'anchorLeft',
		'anchorRight',
		'springWeight'
	];
	const program = engine.rules.program({ rules: [...written], given, capacity: block });
	const rawOf = (id: string): Float64Array => {
		const words = engine.rules.keysOf(id);
		return Float64Array.from(job.openings, (opening) => {
			const value = opening.get(id);
			if (words) return typeof value === 'string' ? words.indexOf(value) : -1;
			return typeof value === 'number' ? value : Number.NaN;
		});
	};
	const filled = program.given.map((id) => [program.column(id), rawOf(id)] as const);
	const results = written.map((id) => [program.column(id), new Float64Array(count)] as const);
	const runRules = (): void => {
		for (let from = 0; from < count; from += block) {
			const size = Math.min(block, count - from);
			for (const [column, all] of filled) column.set(all.subarray(from, from + size));
			program.run(size);
			for (const [column, all] of results) all.set(column.subarray(0, size), from);
		}
	};

	const inches = (id: string): Float64Array => rawOf(id).map((nm) => nm / unit('in').scale);
	const holes = (side: string): Float64Array =>
		Float64Array.from(job.openings, (opening) => {
			const value = opening.get(`anchor${side}.holesPerBit`);
			return typeof value === 'number' ? value : 0;
		});
	const isKey = (id: string, key: string): Float64Array =>
		Float64Array.from(job.openings, (opening) => (opening.get(id) === key ? 1 : 0));
	const columns = {
		count,
		openingWidth: inches('openingWidth'),
		openingHeight: inches('openingHeight'),
		sillHeight: inches('sillAboveFloor'),
		...Object.fromEntries(keys.map((id) => [id, rawOf(id)])),
		driveAt: rawOf('driveAt'),
		faceLeft: isKey('mountingLeft', 'faceOfWall'),
		faceRight: isKey('mountingRight', 'faceOfWall'),
		exterior: isKey('exposure', 'exterior'),
		holesLeft: holes('Left'),
		holesRight: holes('Right')
	} as unknown as Columns;
	const output = Object.fromEntries(written.map((id) => [id, new Float64Array(count)])) as Record<
		Written,
		Float64Array
	> satisfies Output;
	const run = straightLine(book);
	for (let i = 0; i < 20; i++) {
		run(columns, output);
		runRules();
	}
	const loopTime = median(25, () => {
		run(columns, output);
	});
	const rulesTime = median(25, runRules);

	// Both must have done the same work: every figure of the two agrees.
	const worstDifference = Math.max(
		...written.map((id, k) => {
			const shown = engine.rules.definition(id)?.unit ?? '1';
			const loopUnit = { 'lb-ft': 12, 'lb/ft': 1 / 12, ft: 12, h: 1, s: 1 }[shown] ?? 1;
			const scale = unit(shown).scale;
			const [, all] = results[k] ?? [null, new Float64Array(0)];
			let largest = 0;
			for (let i = 0; i < count; i++) {
				if (job.openings[i]?.computed !== true) continue;
				const expected = (all[i] ?? Number.NaN) / scale;
				const got = (output[id][i] ?? Number.NaN) / loopUnit;
				largest = Math.max(largest, Math.abs(got - expected) / Math.max(1, Math.abs(expected)));
			}
			if (largest > 1e-9) process.stdout.write(`differs: ${id} by ${largest.toExponential(2)}\n`);
			return largest;
		})
	);
	return { ratio: rulesTime / loopTime, worst: worstDifference, rules: rulesTime, loop: loopTime };
}

interface RawSheet {
	readonly name: string;
	readonly rows: readonly ExcelJS.CellValue[][];
}

/** Every cell of a workbook; what is read it with is let go. */
async function rawCells(bytes: Uint8Array): Promise<RawSheet[]> {
	const book = new ExcelJS.Workbook();
	await book.xlsx.load(
		bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer
	);
	return book.worksheets.map((sheet) => ({
		name: sheet.name,
		rows: Array.from({ length: sheet.rowCount }, (_, r) =>
			Array.from(
				{ length: sheet.columnCount },
				(__, c) => sheet.getRow(r + 1).findCell(c + 1)?.value ?? undefined
			)
		)
	}));
}

/** Writes them again the same way, streamed, with no work of our own. */
async function writeRaw(sheets: readonly RawSheet[]): Promise<number> {
	const from = performance.now();
	const stream = new PassThrough();
	stream.resume();
	const ended = once(stream, 'end');
	const copy = new ExcelJS.stream.xlsx.WorkbookWriter({ stream, useStyles: true, useSharedStrings: true });
	for (const { name, rows: cells } of sheets) {
		const sheet = copy.addWorksheet(name);
		for (const row of cells) sheet.addRow(row).commit();
		sheet.commit();
	}
	await copy.commit();
	await ended;
	return performance.now() - from;
}
