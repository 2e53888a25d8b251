/** The program from a terminal, as a person runs it: exit code, standard output, standard error. */
import { execFile } from 'node:child_process';
import { mkdtemp, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { takeoffReportSchema } from '../src/lib/takeoff/report.ts';

interface Run {
	readonly code: number;
	readonly out: string;
	readonly err: string;
}

const folder = await mkdtemp(join(tmpdir(), 'coilwright-terminal-'));

const run = (...args: string[]): Promise<Run> =>
	new Promise((resolve) => {
		const options = { maxBuffer: 64 * 1024 * 1024, env: { ...process.env, INIT_CWD: process.cwd() } };
		execFile('npm', ['run', '--silent', 'coilwright', '--', ...args], options, (error, out, err) => {
			resolve({ code: error ? Number(error.code) : 0, out, err });
		});
	});

async function schedule(name: string, ...rows: string[]): Promise<string> {
	const path = join(folder, name);
	await writeFile(path, [headings, ...rows].join('\n'));
	return path;
}

const headings =
	'Mark,Qty,Width,Height,Curtain,Hood,Mounting,Guide,Left wall,Right wall,Head wall,Fixing,Operation,Hand,Headroom,Left side room,Right side room,Front room,Supply (V)';
const good = `C-1,2,"10'-0""","4'-0""",counter-slat,steel-24ga,face of wall,counter-face,grouted block,grouted block,grouted block,standard,tube motor,left,"24""","12""","12""","24""",120`;

describe('takeoff', () => {
	it('gives the JSON of the published schema, exit 1 where stops have to be cleared', async () => {
		const { code, out } = await run('takeoff', 'fixtures/schedules/saltmarsh-pier.xlsx', '--json');
		const report = takeoffReportSchema.parse(JSON.parse(out));
		expect(code).toBe(1);
		expect(report.totals).toMatchObject({ marks: 24, openings: 40 });
		// Opening A of the hand work: 120 + 2 · 0.25; 120.5 + 2 · 1.25; 46 rows.
		const [first] = report.openings;
		expect(first?.quantities.guideDistance).toEqual({ value: 120.5, unit: 'in' });
		expect(first?.quantities.curtainWidth).toEqual({ value: 123, unit: 'in' });
		expect(first?.quantities.curtainRows).toEqual({ value: 46, unit: '1' });
	});

	it('exit 0 where there is no stop', async () => {
		const { code, out, err } = await run('takeoff', await schedule('good.csv', good), '--json');
		expect([code, err]).toEqual([0, '']);
		expect(takeoffReportSchema.parse(JSON.parse(out)).totals.openings).toBe(2);
	});

	it('metric units', async () => {
		const { code, out } = await run(
			'takeoff',
			'fixtures/schedules/kelpgate-ferry.csv',
			'--units',
			'metric',
			'--json'
		);
		const [first] = takeoffReportSchema.parse(JSON.parse(out)).openings;
		expect(code).toBe(0);
		// 3000 + 2 · 0.25 in of 25.4 mm
		expect(first?.quantities.guideDistance).toEqual({ value: 3012.7, unit: 'mm' });
	});

	it('reckons with another shop book', async () => {
		const args = ['--book', 'fixtures/books/small-shop.json', '--json'];
		const { code, out } = await run('takeoff', await schedule('small.csv', good), ...args);
		const [first] = takeoffReportSchema.parse(JSON.parse(out)).openings;
		expect(code).toBe(0);
		// The smallest bracket of that book is 12 and its smallest motor 54 lb-ft; the demo book gives 10 and 20.
		expect([first?.quantities.bracket?.value, first?.quantities.drive?.value]).toEqual(['12', 'tube-54']);
	});

	it('writes a workbook', async () => {
		const path = join(folder, 'out.xlsx');
		const { code, out } = await run('takeoff', await schedule('book.csv', good), '--out', path);
		expect([code, out]).toEqual([0, '']);
		expect((await readFile(path)).subarray(0, 2).toString()).toBe('PK');
	});

	it('bad input: exit 2, and the place and the reason on standard error', async () => {
		const path = await schedule(
			'bad.csv',
			good,
			good.replace('C-1', 'C-2').replace(`"10'-0"""`, '"ten feet"')
		);
		const { code, out, err } = await run('takeoff', path, '--json');
		expect([code, out]).toEqual([2, '']);
		expect(err).toMatch(/bad\.csv.*line 3, C “Width”: “ten feet”/u);
	});

	it.each([
		[['takeoff', 'fixtures/schedules/no-such-file.csv'], /no-such-file\.csv: there is no such file/u],
		[['takeoff', 'fixtures'], /fixtures: it is a folder/u],
		[['takeoff', 'fixtures/schedules/small/picture.xlsx'], /is a picture \(PNG\)/u],
		[
			['takeoff', 'fixtures/schedules/saltmarsh-pier.xlsx', '--units', 'cubits'],
			/--units cubits: it is imperial or metric/u
		],
		[['takeoff', 'fixtures/schedules/saltmarsh-pier.xlsx', '--book', 'package.json'], /package\.json: /u],
		[
			[
				'takeoff',
				'fixtures/schedules/saltmarsh-pier.xlsx',
				'--book',
				'fixtures/books/format-1/technical-book.json'
			],
			/format-1\/technical-book\.json: format: [^\n]*technical-book\.2[\s\S]*curtains\.0: missing: barStockLength, expansion, windlocks\n[\s\S]*and \d+ more like these\./u
		],
		[['estimate'], /estimate: not understood[\s\S]*Usage/u]
	])('%j is refused', async (args, reason) => {
		const { code, out, err } = await run(...args);
		expect([code, out]).toEqual([2, '']);
		expect(err).toMatch(reason);
	});
});

describe('compare', () => {
	it('says what each line is and what holds each opening', async () => {
		const { code, out } = await run(
			'compare',
			'fixtures/schedules/saltmarsh-pier.xlsx',
			'fixtures/deliveries/saltmarsh-truck-1.xlsx',
			'--json'
		);
		const report = JSON.parse(out) as {
			lines: { line: number | null; state: string }[];
			openings: { openingId: string; stops: string[]; clear: boolean }[];
		};
		const expected = JSON.parse(
			await readFile('fixtures/deliveries/saltmarsh-truck-1.expected.json', 'utf8')
		) as { states: { line: number; state: string }[] };
		expect(code).toBe(1);
		expect(
			report.lines.filter(({ line }) => line !== null).map(({ line, state }) => ({ line, state }))
		).toEqual(expected.states.map(({ line, state }) => ({ line, state })));
		// F-402 is exterior without a design pressure: a stop, whatever came.
		expect(report.openings.find(({ openingId }) => openingId === 'F-402.1')).toMatchObject({ clear: false });
		expect(report.openings.find(({ openingId }) => openingId === 'F-402.1')?.stops).toHaveLength(1);
	});

	it('needs a packing list', async () => {
		expect((await run('compare', 'fixtures/schedules/saltmarsh-pier.xlsx')).code).toBe(2);
	});
});
