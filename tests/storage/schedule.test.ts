/** A schedule that is read as before, and one that comes again: through the operations, on a database of its own. */
import { describe, expect, it } from 'vitest';
import type { OpeningRow } from '../../src/lib/takeoff/inputs.ts';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { applySchedule } from '../../src/lib/server/operations/apply-schedule.ts';
import { compareJobSchedule } from '../../src/lib/server/operations/compare-schedule.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { forgetMapping } from '../../src/lib/server/operations/forget-mapping.ts';
import { previewSchedule } from '../../src/lib/server/operations/preview-schedule.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { readPrice } from '../../src/lib/server/operations/read-price.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { redoEdit, undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { databases } from './databases.ts';
import { counter, edit, refusal, setCell, temporaryServices, value, workplace } from './services.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';

const form = (content: string, fields: Readonly<Record<string, string>> = {}, name = 'pier.csv') => ({
	name,
	bytes: new TextEncoder().encode(content),
	field: (field: string) => fields[field] ?? null
});

const rowsOf = async (services: Services, job: string): Promise<readonly OpeningRow[]> =>
	value(await readOpenings(localActor, services, job)).rows;
const marksOf = async (services: Services, job: string) =>
	(await rowsOf(services, job)).map(({ cells }) => cells.mark);

const headings =
	'Mark,Qty,Width,Height,Curtain,Hood,Mounting,Guide,Left wall,Right wall,Fixing,Operation,Hand,Seen from';
/** Opening A of the demo book under another mark. */
const line = (mark: string, quantity: string, width = `10'-0"`, height = `4'-0"`): string =>
	[
		mark,
		quantity,
		`"${width.replaceAll('"', '""')}"`,
		`"${height.replaceAll('"', '""')}"`,
		'counter-slat,steel-24ga,faceOfWall,counter-face,groutedBlock,groutedBlock,standard,tubeMotor,left,coilSide'
	].join(',');
const schedule = (...lines: readonly string[]): string => [headings, ...lines].join('\n');

describe.each(databases)('$name', ({ place }) => {
	describe('a schedule that comes again', () => {
		/** The job with S-1, S-2 and S-3 out of a file. */
		async function first() {
			const services = await temporaryServices(await place());
			const { id: job } = value(
				await createJob(localActor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
			);
			const file = form(schedule(line('S-1', '1'), line('S-2', '2'), line('S-3', '1', `12'`)), {
				editId: 'first'
			});
			value(await applySchedule(localActor, services, job, file));
			return { services, job };
		}
		const revised = schedule(line('S-1', '2'), line('S-2A', '3'), line('S-3', '1', `12'-6"`));

		it('tells what it changes and what that costs, and the price is then as announced', async () => {
			const { services, job } = await first();
			const before = value(await readPrice(localActor, services, job)).price.totals;
			const answer = value(await compareJobSchedule(localActor, services, job, form(revised)));
			expect(answer.changes.map(({ kind }) => kind)).toEqual(['changed', 'added', 'changed', 'removed']);
			expect(answer.chosen).toHaveLength(3);
			expect(answer.costs?.now.price).toBe(before.price);
			expect(answer.costs?.currency).toBe('USD');

			const sent = { editId: 'again', chosen: JSON.stringify(answer.chosen) };
			const stored = value(await applySchedule(localActor, services, job, form(revised, sent)));
			expect(stored.undo).toBe('Bring in pier.csv');
			expect(await marksOf(services, job)).toEqual(['S-1', 'S-2A', 'S-2', 'S-3']);
			const after = value(await readPrice(localActor, services, job)).price.totals;
			expect(answer.costs?.chosen.after).toMatchObject({ price: after.price, material: after.materialCost });
			// Sent again when the answer was lost: nothing happens twice.
			expect(value(await applySchedule(localActor, services, job, form(revised, sent))).revision).toBe(
				stored.revision
			);

			value(await undoEdit(localActor, services, job));
			expect(value(await readPrice(localActor, services, job)).price.totals).toEqual(before);
			value(await redoEdit(localActor, services, job));
			expect(value(await readPrice(localActor, services, job)).price.totals).toEqual(after);
		});

		it('tells for each change what the job costs with that one alone', async () => {
			const { services, job } = await first();
			const answer = value(await compareJobSchedule(localActor, services, job, form(revised)));
			for (const change of answer.changes) {
				const ids =
					change.kind === 'changed'
						? change.cells.map(({ field }) => `cell:${change.row.id}:${field}`)
						: [change.id];
				const sent = { editId: `alone-${change.id.replaceAll(/[:.]/gu, '-')}`, chosen: JSON.stringify(ids) };
				value(await applySchedule(localActor, services, job, form(revised, sent)));
				const { totals } = value(await readPrice(localActor, services, job)).price;
				expect(answer.costs?.each[change.id]?.after).toMatchObject({
					price: totals.price,
					material: totals.materialCost
				});
				value(await undoEdit(localActor, services, job));
			}
			const some = form(revised, { priced: JSON.stringify([answer.changes[0]?.id]), chosen: '[]' });
			const again = value(await compareJobSchedule(localActor, services, job, some));
			expect(Object.keys(again.costs?.each ?? {})).toEqual([answer.changes[0]?.id]);
			expect(again.costs?.chosen.after).toEqual(again.costs?.now);
		});

		it('takes exactly what was chosen', async () => {
			const { services, job } = await first();
			const rows = await rowsOf(services, job);
			const chosen = [`removed:${rows[1]?.id ?? ''}`];
			value(
				await applySchedule(
					localActor,
					services,
					job,
					form(revised, { editId: 'e', chosen: JSON.stringify(chosen) })
				)
			);
			expect(await rowsOf(services, job)).toEqual([rows[0], rows[2]]);
		});

		it('shows both values when a cell was changed since the changes were looked at', async () => {
			const { services, job } = await first();
			const [row] = await rowsOf(services, job);
			const seen = JSON.stringify({ [row?.id ?? '']: { mark: 'S-1', quantity: 1 } });
			value(await applyEdit(localActor, services, job, edit([setCell(row?.id ?? '', 'quantity', 1, 5)])));
			const refused = refusal(
				await applySchedule(localActor, services, job, form(revised, { editId: 'late', seen }))
			);
			expect(refused).toMatchObject({
				status: 409,
				conflicts: [{ row: row?.id, field: 'quantity', yours: 2, theirs: 5 }]
			});
			expect(await marksOf(services, job)).toEqual(['S-1', 'S-2', 'S-3']);
		});

		it('is refused when a row it changes has gone, or one it adds has come, since', async () => {
			const { services, job } = await first();
			const [row] = await rowsOf(services, job);
			const id = row?.id ?? '';
			const seen = JSON.stringify({ [id]: { mark: 'S-1', quantity: 1 } });
			const removal = edit([{ kind: 'removeRow', row: id, after: null, cells: row?.cells ?? {} }]);
			value(await applyEdit(localActor, services, job, removal));
			const chosen = JSON.stringify([`cell:${id}:quantity`]);
			expect(
				refusal(await applySchedule(localActor, services, job, form(revised, { editId: 'x', seen, chosen })))
			).toMatchObject({ status: 409, conflicts: [{ row: id, yours: 2, theirs: null }] });
			const added = edit([{ kind: 'addRow', row: 'other', after: null, cells: counter('S-2A') }]);
			value(await applyEdit(localActor, services, job, added));
			expect(
				refusal(
					await applySchedule(
						localActor,
						services,
						job,
						form(revised, { editId: 'y', chosen: JSON.stringify(['added:3.0']) })
					)
				)
			).toMatchObject({
				status: 409,
				message: expect.stringContaining('look at the changes again') as string
			});
		});

		it('gives every mark of a range a row of its own', async () => {
			const { services, job } = await first();
			const ranged = schedule(
				line('S-1', '1'),
				line('S-2', '2'),
				line('S-3', '1', `12'`),
				line('S-7 thru S-9', '1')
			);
			value(await applySchedule(localActor, services, job, form(ranged, { editId: 'range' })));
			expect(await marksOf(services, job)).toEqual(['S-1', 'S-2', 'S-3', 'S-7', 'S-8', 'S-9']);
		});

		it('asks whether a mark was renamed before anything goes in', async () => {
			const { services, job } = await first();
			const [row] = await rowsOf(services, job);
			const file = schedule(line('S-1R', '1'), line('S-2', '2'), line('S-3', '1', `12'`));
			const id = `renamed:${row?.id ?? ''}`;
			expect(
				refusal(await applySchedule(localActor, services, job, form(file, { editId: 'r' })))
			).toMatchObject({
				status: 422,
				field: id
			});
			const mapping = JSON.stringify({ answers: { [id]: 'yes' } });
			value(await applySchedule(localActor, services, job, form(file, { editId: 'r', mapping })));
			expect((await rowsOf(services, job)).map(({ id: rowId, cells }) => [rowId, cells.mark])[0]).toEqual([
				row?.id,
				'S-1R'
			]);
		});

		it.each([
			['chosen', '{"a": 1}'],
			['chosen', '['],
			['seen', '{"a": {"__proto__x": 1}}'],
			['seen', '{"a": {"quantity": -1}}'],
			['priced', '7']
		])('is refused with %s of %s', async (field, text) => {
			const { services, job } = await first();
			expect(
				refusal(await compareJobSchedule(localActor, services, job, form(revised, { [field]: text })))
			).toMatchObject({ status: 422, field });
		});

		it('is not compared while a question about it is open', async () => {
			const { services, job } = await first();
			const twice = schedule(line('S-1', '1'), line('S-1', '1', `11'`));
			expect(refusal(await compareJobSchedule(localActor, services, job, form(twice)))).toMatchObject({
				status: 422,
				field: 'duplicate:S-1'
			});
		});
	});

	describe('the way a kind of file is read', () => {
		/** Headings that say nothing of the width, and a title that says nothing of the unit. */
		const kind = 'Mark,Qty,Ref 7,Height,Curtain';
		const one = [kind, 'S-1,1,120,48,counter-slat'].join('\n');
		const next = ['Saltmarsh Pier,,,,', 'Revision 2,,,,', kind, 'S-1,1,132,48,counter-slat'].join('\n');
		const mapping = JSON.stringify({
			columns: { '2': 'openingWidth' },
			answers: { unit: 'in', 'duplicate:S-1': 'error', quantity: 'times', 'date:C': 'probable' }
		});

		it('is remembered for the next file with the same headings, without what was said of single rows', async () => {
			const { services, job } = await workplace(await place());
			expect(value(await previewSchedule(localActor, services, job, form(one))).remembered).toBeNull();
			value(await applySchedule(localActor, services, job, form(one, { editId: 'i1', mapping })));

			const preview = value(await previewSchedule(localActor, services, job, form(next)));
			expect(preview.columns[2]).toMatchObject({ field: 'openingWidth' });
			expect(preview.questions.find(({ id }) => id === 'unit')?.answer).toBe('in');
			expect(preview.remembered?.answers).toEqual(['unit']);
			expect(preview.rows.find(({ status }) => status === 'opening')?.cells.openingWidth).toMatchObject({
				amount: 132 * 25_400_000
			});
			// Other headings are another kind.
			const other = one.replace('Ref 7', 'Ref 8');
			expect(value(await previewSchedule(localActor, services, job, form(other))).remembered).toBeNull();
		});

		it('is not that of a further table below, which stands elsewhere in the next file', async () => {
			const { services, job } = await workplace(await place());
			const first = ['Mark,Qty,Width,Height,Curtain', 'S-1,1,120",48",counter-slat'];
			const second = ['Mark,Height,Width,Curtain,Qty', "S-9,4',6',counter-slat,2"];
			const below = JSON.stringify({ headerRow: 3 });
			const chosen = form([...first, ...second].join('\n'), { editId: 'i1', mapping: below });
			value(await applySchedule(localActor, services, job, chosen));
			const longer = form([...first, 'S-2,1,120",48",counter-slat', ...second].join('\n'));
			const preview = value(await previewSchedule(localActor, services, job, longer));
			expect(preview).toMatchObject({ headerRow: 1, remembered: null });
		});

		it('gives way to what the next file says itself', async () => {
			const { services, job } = await workplace(await place());
			const inFeet = JSON.stringify({ columns: { '2': 'openingWidth' }, answers: { unit: 'ft' } });
			value(await applySchedule(localActor, services, job, form(one, { editId: 'i1', mapping: inFeet })));
			const said = ['All sizes in inches,,,,', kind, 'S-1,1,132,48,counter-slat'].join('\n');
			const preview = value(await previewSchedule(localActor, services, job, form(said)));
			expect(preview.columns[2]).toMatchObject({ field: 'openingWidth' });
			expect(preview.questions).toEqual([]);
			expect(preview.rows.find(({ status }) => status === 'opening')?.cells.openingWidth).toMatchObject({
				amount: 132 * 25_400_000
			});
		});

		it('gives way to what is said now, and that is remembered from then on', async () => {
			const { services, job } = await workplace(await place());
			value(await applySchedule(localActor, services, job, form(one, { editId: 'i1', mapping })));
			const otherwise = JSON.stringify({ columns: { '3': 'openingWidth' }, answers: { unit: 'ft' } });
			const preview = value(
				await previewSchedule(localActor, services, job, form(next, { mapping: otherwise }))
			);
			expect(preview.columns.map(({ field }) => field)).toEqual([
				'mark',
				'quantity',
				null,
				'openingWidth',
				'curtain'
			]);
			expect(preview.questions.find(({ id }) => id === 'unit')?.answer).toBe('ft');
			expect(preview.remembered?.answers).toEqual([]);
			const chosen = { editId: 'i2', mapping: otherwise, remembered: preview.remembered?.confirmedAt ?? '' };
			value(await applySchedule(localActor, services, job, form(next, chosen)));
			const later = value(await previewSchedule(localActor, services, job, form(next)));
			expect(later.columns[3]?.field).toBe('openingWidth');
		});

		it('holds the headings that were chosen, wherever the table begins', async () => {
			const { services, job } = await workplace(await place());
			// The row of the real headings stands two below one that looks like headings too.
			const table = ['Mark,Qty,Width,Height', 'Tag,Pieces,Clear,Clear', kind, 'S-1,1,120,48,counter-slat'];
			const chosen = JSON.stringify({
				headerRow: 3,
				columns: { '2': 'openingWidth' },
				answers: { unit: 'in' }
			});
			value(
				await applySchedule(
					localActor,
					services,
					job,
					form(table.join('\n'), { editId: 'i1', mapping: chosen })
				)
			);
			const lower = ['Saltmarsh Pier,,,,', ...table].join('\n');
			const preview = value(await previewSchedule(localActor, services, job, form(lower)));
			expect(preview.headerRow).toBe(4);
			expect(preview.columns[2]?.field).toBe('openingWidth');
		});

		it('is forgotten when asked to', async () => {
			const { services, job } = await workplace(await place());
			value(await applySchedule(localActor, services, job, form(one, { editId: 'i1', mapping })));
			const { remembered } = value(await previewSchedule(localActor, services, job, form(next)));
			value(await forgetMapping(localActor, services, job, remembered?.key ?? ''));
			expect(value(await previewSchedule(localActor, services, job, form(next))).remembered).toBeNull();
			expect(refusal(await forgetMapping(localActor, services, job, remembered?.key ?? '')).status).toBe(404);
		});

		it('is no one else’s, and stays as it is when nothing was brought in', async () => {
			const { services, job } = await workplace(await place());
			const stranger = { ...localActor, id: 'someone', companyId: 'another-company' };
			const refused = await applySchedule(localActor, services, job, form(one, { editId: '', mapping }));
			expect(refusal(refused).status).toBe(422);
			expect(value(await previewSchedule(localActor, services, job, form(one))).remembered).toBeNull();
			value(await applySchedule(localActor, services, job, form(one, { editId: 'i1', mapping })));
			const { remembered } = value(await previewSchedule(localActor, services, job, form(one)));
			expect(await services.storage.mappings.find(stranger.companyId, remembered?.key ?? '')).toBeNull();
			expect(refusal(await forgetMapping(stranger, services, job, remembered?.key ?? '')).status).toBe(404);
		});

		it('is not remembered when what it brings in conflicts', async () => {
			const { services, job } = await workplace(await place());
			const [row] = await rowsOf(services, job);
			const id = row?.id ?? '';
			const file = [kind, 'C-1,3,120,48,counter-slat'].join('\n');
			// The job has two of C-1, and the person saw seven.
			const sent = {
				editId: 'i1',
				mapping,
				seen: JSON.stringify({ [id]: { mark: 'C-1', quantity: 7 } }),
				chosen: JSON.stringify([`cell:${id}:quantity`])
			};
			expect(refusal(await applySchedule(localActor, services, job, form(file, sent)))).toMatchObject({
				status: 409,
				conflicts: [{ row: id, field: 'quantity', yours: 3, theirs: 2 }]
			});
			expect(value(await previewSchedule(localActor, services, job, form(file))).remembered).toBeNull();
		});

		it('is noticed when it was changed since the file was looked at', async () => {
			const { services, job } = await workplace(await place());
			value(await applySchedule(localActor, services, job, form(one, { editId: 'i1', mapping })));
			expect(
				refusal(await applySchedule(localActor, services, job, form(next, { editId: 'i2', remembered: '' })))
			).toMatchObject({ status: 409 });
		});
	});
});
