/** A building model on its way into a job. The models in `fixtures/models` are invented. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ModelChoice } from '../../src/lib/exchange/building-model/model-choice.ts';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { applyModel } from '../../src/lib/server/operations/apply-model.ts';
import { previewModel } from '../../src/lib/server/operations/preview-model.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { formWithFile, startServer } from './built-server.ts';
import { databases, temporaryFolder } from './databases.ts';
import { refusal, setCell, typed, value, workplace } from './services.ts';

const file = (name: string): Uint8Array => new Uint8Array(readFileSync(join('fixtures', 'models', name)));
const terminal = file('ferry-terminal-metres.ifc');

const form = (
	bytes: Uint8Array,
	{ editId = 'model-1', ...choice }: Partial<ModelChoice> & { editId?: string } = {}
) => {
	const fields = new Map([
		['editId', editId],
		['choice', JSON.stringify({ lines: [], grouping: 'each', existing: 'leave', ...choice })]
	]);
	return { name: 'terminal.ifc', bytes, field: (name: string) => fields.get(name) ?? null };
};

const rowsOf = async (services: Services, job: string) =>
	value(await readOpenings(localActor, services, job)).rows;
const marksOf = async (services: Services, job: string) =>
	(await rowsOf(services, job)).map(({ cells }) => cells.mark);

describe.each(databases)('$name', ({ place }) => {
	describe('a building model', () => {
		it('is shown before anything is stored', async () => {
			const { services, job } = await workplace(await place());
			const preview = value(await previewModel(localActor, services, job, form(terminal)));
			expect(preview.openings).toHaveLength(6);
			expect(preview.marks).toEqual(['C-1']);
			expect(await marksOf(services, job)).toEqual(['C-1']);
		});

		it('comes in as one edit after the rows of the job, once, and one undo takes it back', async () => {
			const { services, job } = await workplace(await place());
			const sent = form(terminal, { lines: [43, 40] });
			const first = value(await applyModel(localActor, services, job, sent));
			expect(first).toMatchObject({ undo: 'Bring in terminal.ifc', revision: 2 });
			const rows = await rowsOf(services, job);
			expect(rows.map(({ cells }) => cells.mark)).toEqual(['C-1', 'K-1', 'K-3']);
			// An imperial job: 3.048 m is 10 ft, 2.4 m is no whole number of 64ths of an inch.
			expect(rows[1]?.cells).toMatchObject({
				quantity: 1,
				location: 'Quay level, Baggage hall',
				openingWidth: { amount: 3_048_000_000, unit: 'nm', typed: '10\'-0"' },
				openingHeight: { amount: 2_400_000_000, unit: 'nm', typed: '2400 mm' },
				note: 'From model terminal.ifc, type Shutter S2, GlobalId 0KelpgateFerryTerm0040.'
			});
			expect(value(await applyModel(localActor, services, job, sent))).toEqual(first);
			expect(await marksOf(services, job)).toHaveLength(3);
			value(await undoEdit(localActor, services, job));
			expect(await marksOf(services, job)).toEqual(['C-1']);
		});

		it('comes in by type with a quantity', async () => {
			const { services, job } = await workplace(await place());
			value(
				await applyModel(localActor, services, job, form(terminal, { lines: [40, 41], grouping: 'type' }))
			);
			expect((await rowsOf(services, job))[1]?.cells).toMatchObject({ mark: 'K-1', quantity: 2 });
		});

		it('leaves the job’s rows alone, takes its sizes over, or comes in beside them, as it is asked', async () => {
			const { services, job, send } = await workplace(await place());
			const lines = [40, 43];
			value(await applyModel(localActor, services, job, form(terminal, { lines: [40] })));
			const row = (await rowsOf(services, job))[1];
			value(
				await send([
					setCell(
						row?.id ?? '',
						'openingWidth',
						row?.cells.openingWidth ?? null,
						typed('openingWidth', "9'")
					),
					setCell(row?.id ?? '', 'note', row?.cells.note ?? null, 'measured')
				])
			);
			const width = async () => (await rowsOf(services, job))[1]?.cells.openingWidth;

			const nothing = form(terminal, { lines: [40], editId: 'model-2' });
			expect(refusal(await applyModel(localActor, services, job, nothing))).toMatchObject({
				status: 422,
				message: expect.stringContaining('Nothing was stored') as string
			});
			value(await applyModel(localActor, services, job, form(terminal, { lines, editId: 'model-3' })));
			expect(await marksOf(services, job)).toEqual(['C-1', 'K-1', 'K-3']);
			expect(await width()).toMatchObject({ typed: "9'" });

			const update = form(terminal, { lines, existing: 'update', editId: 'model-4' });
			value(await applyModel(localActor, services, job, update));
			expect(await marksOf(services, job)).toEqual(['C-1', 'K-1', 'K-3']);
			expect(await width()).toMatchObject({ amount: 3_048_000_000 });
			expect((await rowsOf(services, job))[1]?.cells.note).toBe('measured');

			const all = form(terminal, { lines, existing: 'all', editId: 'model-5' });
			value(await applyModel(localActor, services, job, all));
			expect(await marksOf(services, job)).toEqual(['C-1', 'K-1', 'K-3', 'K-1', 'K-3']);
		});

		it('takes over what differs only: exposure too, and nothing the second time', async () => {
			const { services, job, send } = await workplace(await place());
			// #82 stands outside (the plan of the model).
			const hall = file('market-hall-millimetres.ifc');
			value(await applyModel(localActor, services, job, form(hall, { lines: [82] })));
			const row = (await rowsOf(services, job))[1];
			expect(row?.cells).toMatchObject({ mark: 'D-202', exposure: 'exterior' });
			value(await send([setCell(row?.id ?? '', 'exposure', 'exterior', 'interior')]));
			const update = (editId: string) =>
				applyModel(localActor, services, job, form(hall, { lines: [82], existing: 'update', editId }));
			value(await update('model-2'));
			expect((await rowsOf(services, job))[1]?.cells).toEqual(row?.cells);
			expect(refusal(await update('model-3'))).toMatchObject({
				status: 422,
				message: expect.stringContaining('Nothing was stored') as string
			});
		});

		it.each([
			['nothing is chosen', {}, /Nothing of terminal\.ifc was chosen/u],
			['the lines are of another file', { lines: [4711] }, /another file/u],
			['the edit has no id', { lines: [40], editId: '' }, /no id of its own/u],
			['the grouping is none', { grouping: 'both' as 'each' }, /choice of openings is not as expected/u]
		])('is refused where %s', async (_, choice, reason) => {
			const { services, job } = await workplace(await place());
			const refused = refusal(await applyModel(localActor, services, job, form(terminal, choice)));
			expect(refused.status).toBe(422);
			expect(refused.message).toMatch(reason);
			expect(await marksOf(services, job)).toEqual(['C-1']);
		});
	});
});

describe('the built server', () => {
	it('reads a model, says what is wrong with others, and lives', { timeout: 120_000 }, async () => {
		const server = await startServer({ COILWRIGHT_DATA: temporaryFolder() });
		const made = await server.ask('POST', '/api/jobs', { name: 'Kelpgate', measures: 'metric' });
		const path = `/api/jobs/${String(made.body.id)}/model`;
		const ask = (step: string, bytes: Uint8Array | string, fields: Record<string, string> = {}) => {
			const { body, headers } = formWithFile('terminal.ifc', bytes, fields);
			return server.ask('POST', `${path}/${step}`, body, headers);
		};
		const preview = await ask('preview', terminal);
		expect(preview).toMatchObject({ status: 200, body: { schema: 'IFC2X3', unit: 'METRE' } });
		const choice = JSON.stringify({ lines: [40], grouping: 'each', existing: 'leave' });
		expect(await ask('apply', terminal, { choice, editId: 'model-1' })).toMatchObject({ status: 200 });

		const cut = await ask('preview', terminal.subarray(0, 2000));
		expect(cut.status).toBe(422);
		expect(cut.body.message).toMatch(/^terminal\.ifc is not read: it ends in the middle/u);
		const large = await ask('preview', Buffer.alloc(101 * 1024 * 1024, 'ISO-10303-21;'));
		expect(large.status).toBe(413);
		expect(large.body.message).toContain('at most 100 MB');
		expect(await ask('preview', terminal)).toMatchObject({ status: 200 });
	});
});
