import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { applySchedule } from '../../src/lib/server/operations/apply-schedule.ts';
import { checkDelivery } from '../../src/lib/server/operations/check-delivery.ts';
import { loadDemo } from '../../src/lib/server/operations/load-demo.ts';
import { previewSchedule } from '../../src/lib/server/operations/preview-schedule.ts';
import { readDeliveries } from '../../src/lib/server/operations/read-deliveries.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { removeDelivery, restoreDelivery } from '../../src/lib/server/operations/remove-delivery.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { writeMaterialList } from '../../src/lib/server/operations/write-material-list.ts';
import { writeJobWorkbook } from '../../src/lib/server/operations/write-workbook.ts';
import { databases } from './databases.ts';
import { addRow, counter, refusal, temporaryServices, value, workplace } from './services.ts';

const form = (name: string, content: string | Uint8Array, fields: Readonly<Record<string, string>> = {}) => ({
	name,
	bytes: typeof content === 'string' ? new TextEncoder().encode(content) : content,
	field: (field: string) => fields[field] ?? null
});

const rowsOf = async (services: Services, job: string) =>
	value(await readOpenings(localActor, services, job)).rows;

/** Two counters as the worked opening A of the demo book, and one line that is no opening. */
const schedule = [
	'Mark,Qty,Width,Height,Curtain,Hood,Mounting,Guide,Left wall,Right wall,Fixing,Operation,Hand,Seen from',
	`S-1,2,"10'-0""","4'-0""",counter-slat,steel-24ga,faceOfWall,counter-face,groutedBlock,groutedBlock,standard,tubeMotor,left,coilSide`,
	`S-2,1,"twelve","4'-0""",counter-slat,steel-24ga,faceOfWall,counter-face,groutedBlock,groutedBlock,standard,tubeMotor,left,coilSide`,
	'Total,3'
].join('\n');

describe.each(databases)('$name', ({ place }) => {
	describe('a schedule', () => {
		it('is shown before anything is stored, with what can’t be read', async () => {
			const { services, job } = await workplace(await place());
			const preview = value(await previewSchedule(localActor, services, job, form('pier.csv', schedule)));
			expect(preview.rows.map(({ status }) => status)).toEqual(['opening', 'opening', 'skipped']);
			expect(preview.rows[1]?.problems).toMatchObject([{ field: 'openingWidth', text: 'twelve' }]);
			expect(await rowsOf(services, job)).toHaveLength(1);
		});

		it('comes in as one edit after the rows of the job, and one undo takes it back', async () => {
			const { services, job } = await workplace(await place());
			const sent = form('pier.csv', schedule, { editId: 'import-1' });
			const first = value(await applySchedule(localActor, services, job, sent));
			expect(first).toMatchObject({ undo: 'Bring in pier.csv', revision: 2 });
			const rows = await rowsOf(services, job);
			expect(rows.map((row) => row.cells.mark)).toEqual(['C-1', 'S-1', 'S-2']);
			expect(rows[2]?.cells.openingWidth).toBeUndefined();
			// Sent again when the answer was lost: nothing comes in twice.
			expect(value(await applySchedule(localActor, services, job, sent))).toEqual(first);
			value(await undoEdit(localActor, services, job));
			expect((await rowsOf(services, job)).map((row) => row.cells.mark)).toEqual(['C-1']);
		});

		it.each([
			['an empty file', '', {}, /pier.csv is empty/u],
			['a file that is no table', new Uint8Array([0x25, 0x50, 0x44, 0x46, 0x2d]), {}, /PDF/u],
			['text with no headings', 'a,b\n1,2\n', {}, /no heading row/u],
			['headings and nothing below', 'Mark,Qty,Width,Height\n', {}, /no openings below the headings/u],
			[
				'a choice of columns that is none',
				schedule,
				{ mapping: '{"columns": {"0": "__proto__"}}' },
				/choice of columns/u
			],
			['a choice of columns that is not readable', schedule, { mapping: '{' }, /choice of columns/u],
			['no id', schedule, { editId: '' }, /no id of its own/u],
			['an id with a path in it', schedule, { editId: '../../x' }, /no id of its own/u]
		] as const)('is refused: %s', async (_, content, fields, reason) => {
			const { services, job } = await workplace(await place());
			const sent = form('pier.csv', content, { editId: 'import-1', ...fields });
			const refused = refusal(await applySchedule(localActor, services, job, sent));
			expect(refused.status).toBe(422);
			expect(refused.message).toMatch(reason);
			expect(await rowsOf(services, job)).toHaveLength(1);
		});
	});

	describe('the material list', () => {
		it('is text that no spreadsheet runs', async () => {
			const { services, job, send } = await workplace(await place());
			value(await send([addRow('evil', 'c1', counter(`=HYPERLINK("http://evil.example")`))]));
			const { content } = value(await writeMaterialList(localActor, services, job));
			const lines = content.split('\r\n');
			expect(lines.length).toBeGreaterThan(20);
			expect(content).toContain(`'=HYPERLINK`);
			// No field, quoted or not, begins with a sign that a spreadsheet takes for a formula.
			expect(content.match(/(^|,)"?[=+@]/gmu)).toBeNull();
			// guideLength of worked opening A: 50 in (demo-book.md), 4'-2" with its sign doubled between quotation marks.
			expect(lines.find((line) => line.includes('Guide, left'))).toContain(`"4'-2"""`);
		});
	});

	describe('the workbook', () => {
		it('is a workbook, under the name of the job', async () => {
			const { services, job } = await workplace(await place());
			const { content, jobName } = value(await writeJobWorkbook(localActor, services, job));
			expect(jobName).toBe('Saltmarsh Pier');
			// A workbook is a zip archive: it begins with PK.
			expect(new TextDecoder().decode(content.subarray(0, 2))).toBe('PK');
			expect(refusal(await writeJobWorkbook(localActor, services, 'none')).status).toBe(404);
		});
	});

	describe('a packing list', () => {
		const list = (mark: string, quantity: string) =>
			`Mark,Description,Qty shipped,Length (in)\n${mark},"Guide, left",${quantity},50\n`;

		it('is kept with the job, compared, taken out and put back', async () => {
			const { services, job } = await workplace(await place());
			expect(value(await readDeliveries(localActor, services, job))).toEqual({
				deliveries: [],
				comparison: null,
				parts: expect.any(Array) as unknown,
				suppliers: []
			});
			const { id, lines } = value(
				await checkDelivery(localActor, services, job, form('truck.csv', list('C-1', '1')))
			);
			expect(lines).toBe(1);
			const { deliveries, comparison } = value(await readDeliveries(localActor, services, job));
			expect(deliveries).toMatchObject([{ id, name: 'truck.csv', lines: 1, removed: false }]);
			// Two openings of C-1 need a left guide each; one came.
			expect(comparison?.lines[0]).toMatchObject({ state: 'short', ordered: '2', received: '1' });

			value(await removeDelivery(localActor, services, job, id));
			expect(value(await readDeliveries(localActor, services, job))).toMatchObject({
				deliveries: [{ removed: true }],
				comparison: null
			});
			value(await restoreDelivery(localActor, services, job, id));
			expect(value(await readDeliveries(localActor, services, job)).comparison).toEqual(comparison);
			expect(refusal(await removeDelivery(localActor, services, job, 'none')).status).toBe(404);
		});

		it('that can’t be read is refused with the reason, and nothing is kept', async () => {
			const { services, job } = await workplace(await place());
			for (const content of [
				'',
				'a,b\n1,2\n',
				'Mark,Description,Qty shipped\n',
				new Uint8Array([0xd0, 0xcf, 0x11, 0xe0])
			])
				expect(
					refusal(await checkDelivery(localActor, services, job, form('truck.csv', content))).status
				).toBe(422);
			expect(value(await readDeliveries(localActor, services, job)).deliveries).toEqual([]);
		});
	});

	describe('the demo jobs', () => {
		it('are loaded once, with their packing lists at hand', async () => {
			const services = await temporaryServices(await place());
			const load = () => loadDemo(localActor, services, join('fixtures', 'schedules'));
			await Promise.all([load(), load()]);
			await load();
			const jobs = await services.storage.jobs.list(localActor.companyId);
			// look.md: a fictional food hall of 24 marks, about 40 openings; and a second, metric job.
			expect(jobs.map(({ name }) => name).sort()).toEqual([
				'Kelpgate Ferry Terminal',
				'Saltmarsh Pier Market Hall'
			]);
			const pier = jobs.find(({ measures }) => measures === 'imperial');
			expect(pier).toMatchObject({ marks: 24, openings: 40, demo: true });
			const truck = readFileSync(join('fixtures', 'deliveries', 'saltmarsh-truck-1.xlsx'));
			value(
				await checkDelivery(localActor, services, pier?.id ?? '', form('truck 1.xlsx', new Uint8Array(truck)))
			);
			const { comparison, parts } = value(await readDeliveries(localActor, services, pier?.id ?? ''));
			expect(new Set(parts.map(({ openingId }) => openingId)).size).toBeGreaterThanOrEqual(40);
			expect(comparison?.lines.some(({ state }) => state === 'exact')).toBe(true);
		});
	});
});
