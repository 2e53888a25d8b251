/**
 * Text that a spreadsheet would run as a formula, wherever people type text: the files that go out carry it as text.
 * LibreOffice opens them for somebody who lets formulas run, and none of these was run.
 */
import { describe, expect, it } from 'vitest';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import { typedText } from '../../src/lib/takeoff/cell.ts';
import { formulaCells, open } from '../exchange/workbook-cells.ts';
import { needs, recalculate } from '../recalculate.ts';
import { addRow, cells, counter, edit, temporaryServices, typed, value } from './services.ts';

const jobName = '=HYPERLINK("http://elsewhere.example/","ran")';
/** With what each comes to where it is run. */
const texts: readonly (readonly [text: string, run: string])[] = [
	['=73000+191', '73191'],
	['+73000+192', '73192'],
	['-73000-193', '-73193'],
	['@SUM(73000,194)', '73194'],
	['=HYPERLINK("http://x.example/","ran")', 'ran'],
	['\t=73000+195', '73195'],
	['\r=73000+196', '73196'],
	[' =73000+197', '73197'],
	["'=73000+198", '73198'],
	['{=73000+199}', '73199'],
	['=73000+201,=73000+202;=73000+203', '73201'],
	['"=73000+204"', '73204'],
	['x\n=73000+205', '73205'],
	['=1e5', '100000'],
	['-5', ''],
	['=C3&"ran"', '']
];
const results = new Set(texts.map(([, run]) => run).filter((run) => run !== ''));
const fields = ['mark', 'location', 'phase', 'note'] as const;

const utf8 = new TextEncoder();
const bytesOf = (content: string | Uint8Array): Uint8Array =>
	typeof content === 'string' ? utf8.encode(content) : content;
const cellsOf = (sheets: ReadonlyMap<string, readonly (readonly string[])[]> | undefined): string[] =>
	[...(sheets?.values() ?? [])].flat(2);

/** A job with a row for each text, which stands in every field of it that takes it. */
async function written() {
	const services = await temporaryServices();
	const { id: job } = value(
		await operations.createJob(localActor, services, { name: jobName, measures: 'imperial' })
	);
	const rows = texts.map(([text], i) => {
		const oneLine = text.replace('\n', ' ');
		return {
			...counter('x'),
			...cells({ mark: oneLine, location: text, phase: text, note: text }),
			id: `r${i}`
		};
	});
	const changes = rows.map(({ id, ...rowCells }, i) => addRow(id, i === 0 ? null : `r${i - 1}`, rowCells));
	value(await operations.applyEdit(localActor, services, job, edit(changes)));
	const stored = value(await operations.readOpenings(localActor, services, job));
	const columns = 'mark,location,phase,note';
	const [schedule, scheduleText] = await Promise.all(
		(['xlsx', 'csv'] as const).map(
			async (as) => value(await operations.writeSchedule(localActor, services, job, { as, columns })).content
		)
	);
	const { content: material } = value(await operations.writeMaterialList(localActor, services, job));
	const { content: takeoff } = value(await operations.writeJobWorkbook(localActor, services, job));
	return {
		services,
		job,
		rows: stored.rows,
		schedule: schedule ?? '',
		scheduleText: scheduleText ?? '',
		material,
		takeoff
	};
}

describe.skipIf(needs('libreoffice'))('text that looks like a formula', () => {
	it('would be run by LibreOffice, were it not guarded', async () => {
		const list = texts.map(([text]) => `"${text.replaceAll('"', '""')}"`).join('\r\n');
		const opened = await recalculate([{ name: 'list', bytes: utf8.encode(list) }], 'text');
		const found = cellsOf(opened.get('list'));
		for (const run of ['73191', 'ran']) expect(found).toContain(run);
	});

	it('is the same text in all files that go out, and nothing of it is run', async () => {
		const { services, job, rows, schedule, scheduleText, material, takeoff } = await written();
		const stored = fields.flatMap((field) => rows.map(({ cells: row }) => typedText(row[field])));
		expect(stored).toContain(typed('note', '=73000+191'));
		const marks = rows.map(({ cells: row }) => typedText(row.mark));

		const workbooks = await recalculate([
			{ name: 'schedule', bytes: bytesOf(schedule) },
			{ name: 'takeoff', bytes: takeoff }
		]);
		const lists = await recalculate(
			[
				{ name: 'schedule', bytes: bytesOf(scheduleText) },
				{ name: 'material', bytes: bytesOf(material) }
			],
			'text'
		);
		const found = {
			schedule: cellsOf(workbooks.get('schedule')),
			takeoff: cellsOf(workbooks.get('takeoff')),
			scheduleText: cellsOf(lists.get('schedule')),
			material: cellsOf(lists.get('material'))
		};
		for (const [file, all] of Object.entries(found))
			expect([file, all.filter((cell) => results.has(cell))]).toEqual([file, []]);

		expect(stored.filter((text) => !found.schedule.includes(text))).toEqual([]);
		expect(marks.filter((text) => !found.takeoff.includes(text))).toEqual([]);
		expect(found.schedule).toContain(jobName);
		expect(found.takeoff.some((cell) => cell.includes(jobName))).toBe(true);
		// What opens delimited text shows the apostrophe that keeps it from being run.
		const shown = (all: readonly string[], text: string): boolean =>
			all.includes(text) || all.includes(`'${text}`);
		expect([jobName, ...stored].filter((text) => !shown(found.scheduleText, text))).toEqual([]);
		expect(marks.filter((text) => !shown(found.material, text))).toEqual([]);

		for (const bytes of [bytesOf(schedule), takeoff]) {
			const formulas = formulaCells(await open(bytes)).map(({ formula }) => formula);
			expect(formulas.filter((formula) => /73000|HYPERLINK|elsewhere/u.test(formula))).toEqual([]);
		}

		// And back in: cell by cell what it was.
		for (const [name, content] of [
			['pier.xlsx', schedule],
			['pier.csv', scheduleText]
		] as const) {
			const form = { name, bytes: bytesOf(content), field: () => null };
			const { rows: again } = value(await operations.previewSchedule(localActor, services, job, form));
			expect(again.map(({ cells: row }) => fields.map((field) => row[field]))).toEqual(
				rows.map(({ cells: row }) => fields.map((field) => row[field]))
			);
		}
	});
});
