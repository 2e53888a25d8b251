import { describe, expect, it } from 'vitest';
import { roleIds } from '../../src/lib/changes/roles.ts';
import type { Change } from '../../src/lib/changes/message.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { changeJob } from '../../src/lib/server/operations/change-job.ts';
import { copyJob } from '../../src/lib/server/operations/copy-job.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { issueParts } from '../../src/lib/server/operations/issue-parts.ts';
import { listJobs } from '../../src/lib/server/operations/list-jobs.ts';
import { openJob } from '../../src/lib/server/operations/open-job.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { explainPrice, readPrice } from '../../src/lib/server/operations/read-price.ts';
import { readTakeoff } from '../../src/lib/server/operations/read-takeoff.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { redoEdit, undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { engineOf } from '../opening-rows.ts';
import { databases } from './databases.ts';
import {
	addRow,
	cells,
	counter,
	edit,
	refusal,
	setCell,
	temporaryServices,
	typed,
	value,
	workplace
} from './services.ts';

const colleague: Actor = {
	id: 'other',
	companyId: localActor.companyId,
	name: 'A colleague',
	roles: roleIds
};
const stranger: Actor = { id: 'local', companyId: 'another-company', name: 'A stranger', roles: roleIds };

const rowsOf = async (services: Services, job: string) =>
	value(await readOpenings(localActor, services, job)).rows;
const cellOf = async (services: Services, job: string, field: string) =>
	Object.entries((await rowsOf(services, job))[0]?.cells ?? {}).find(([name]) => name === field)?.[1] ?? null;

describe.each(databases)('$name', ({ place }) => {
	describe('an edit', () => {
		it('is answered with the rows as stored and the figures of the marks concerned', async () => {
			const { send, services, job } = await workplace(await place());
			const result = value(
				await send([
					setCell('c1', 'openingWidth', typed('openingWidth', `10'-0"`), typed('openingWidth', `16'`))
				])
			);
			expect(result).toMatchObject({ revision: 2, order: null, removed: [], undo: 'Change', redo: null });
			expect(result.rows).toEqual(await rowsOf(services, job));
			// guideDistance = width + 2 · 0.25 in for counter-face (demo-book.md): 192 + 0.5 = 192.5 in.
			const { quantities } = engineOf();
			expect(result.figures.c1).toHaveLength(quantities.length);
			const guideDistance = quantities.findIndex(({ id }) => id === 'guideDistance');
			expect(result.figures.c1?.[guideDistance]).toBeCloseTo(192.5 * 25_400_000, 3);
		});

		it('takes the rows of the same mark along in its figures', async () => {
			const { send } = await workplace(await place());
			const own = cells({ mark: 'C-1', openingNumber: '2', leftSubstrate: 'concrete' });
			value(await send([addRow('c1-2', 'c1', own)]));
			const result = value(
				await send([
					setCell('c1', 'openingHeight', typed('openingHeight', `4'-0"`), typed('openingHeight', `5'`))
				])
			);
			expect(Object.keys(result.figures).sort()).toEqual(['c1', 'c1-2']);
			expect(result.rows.map(({ id }) => id)).toEqual(['c1']);
		});

		it('that arrives twice is applied once and answered twice', async () => {
			const { services, job } = await workplace(await place());
			const message = edit([addRow('c2', 'c1', counter('C-2'))]);
			const first = value(await applyEdit(localActor, services, job, message));
			const second = value(await applyEdit(localActor, services, job, message));
			expect(second).toEqual(first);
			expect(await rowsOf(services, job)).toHaveLength(2);
			const other = { ...message, changes: [addRow('c3', 'c1', {})] };
			expect(refusal(await applyEdit(localActor, services, job, other)).status).toBe(422);
		});

		it('that arrives twice at the same time is applied once', async () => {
			const { services, job } = await workplace(await place());
			const message = edit([addRow('c2', 'c1', counter('C-2'))]);
			const both = await Promise.all([1, 2].map(() => applyEdit(localActor, services, job, message)));
			expect(both.map((one) => value(one).revision)).toEqual([2, 2]);
			expect(await rowsOf(services, job)).toHaveLength(2);
		});

		it('is a conflict when a cell is not what it replaces, shows both values and stores nothing', async () => {
			const { send, services, job } = await workplace(await place());
			value(await applyEdit(colleague, services, job, edit([setCell('c1', 'phase', null, 'North')])));
			const refused = refusal(
				await send([setCell('c1', 'location', null, 'Stall 4'), setCell('c1', 'phase', null, 'South')])
			);
			expect(refused.status).toBe(409);
			const entries = await services.storage.history.after({ companyId: 'local', jobId: job }, 0, 100);
			const by = { name: colleague.name, at: entries.at(-1)?.madeAt };
			expect(refused.conflicts).toEqual([{ row: 'c1', field: 'phase', yours: 'South', theirs: 'North', by }]);
			expect(await cellOf(services, job, 'location')).toBeNull();
			// Edits of other cells of the row don't stand in each other's way.
			value(await send([setCell('c1', 'location', null, 'Stall 4')]));
		});

		it('of a paste is stored whole or not at all', async () => {
			const { send, services, job } = await workplace(await place());
			const paste: Change[] = [
				...Array.from({ length: 40 }, (_, i) =>
					addRow(`p${i}`, i === 0 ? 'c1' : `p${i - 1}`, counter(`P-${i}`))
				),
				addRow('bad', 'p39', { mark: 'P-3' })
			];
			expect(refusal(await send(paste))).toMatchObject({ status: 422, row: 'bad', field: 'mark' });
			expect(await rowsOf(services, job)).toHaveLength(1);
			const result = value(await send(paste.slice(0, -1)));
			expect(result.order).toHaveLength(41);
			expect(Object.keys(result.figures)).toHaveLength(40);
		});
	});

	describe('undo', () => {
		it('goes back over a person’s own edits, also after a restart, and forth again', async () => {
			const where = await place();
			const { send, services, job } = await workplace(where);
			value(await send([setCell('c1', 'phase', null, 'North')], 'Phase'));
			value(
				await send(
					[{ kind: 'removeRow', row: 'c1', after: null, cells: { ...counter('C-1'), phase: 'North' } }],
					'Delete'
				)
			);
			value(await applyEdit(colleague, services, job, edit([addRow('theirs', null, {})], 'Theirs')));

			const restarted = await temporaryServices(where);
			expect(value(await readOpenings(localActor, restarted, job))).toMatchObject({
				undo: 'Delete',
				redo: null
			});
			const back = value(await undoEdit(localActor, restarted, job));
			// Back to the top, where it stood.
			expect(back).toMatchObject({ undo: 'Phase', redo: 'Delete', removed: [], order: ['c1', 'theirs'] });
			expect(back.rows[0]?.cells.phase).toBe('North');
			expect(value(await undoEdit(localActor, restarted, job)).rows[0]?.cells.phase).toBeUndefined();
			expect(value(await undoEdit(localActor, restarted, job))).toMatchObject({
				removed: ['c1'],
				undo: null
			});
			expect(refusal(await undoEdit(localActor, restarted, job))).toMatchObject({
				status: 409,
				message: 'There is nothing to undo.'
			});

			const again = await temporaryServices(where);
			for (const title of ['Add C-1', 'Phase', 'Delete']) {
				const forth = value(await redoEdit(localActor, again, job));
				expect(forth.undo).toBe(title);
			}
			expect(refusal(await redoEdit(localActor, again, job)).status).toBe(409);
			expect((await rowsOf(again, job)).map(({ id }) => id)).toEqual(['theirs']);
		});

		it('keeps two hundred steps and brings back every one', async () => {
			const { send, services, job } = await workplace(await place());
			for (let i = 0; i < 200; i++)
				value(await send([setCell('c1', 'note', i === 0 ? null : `n${i - 1}`, `n${i}`)]));
			for (let i = 198; i >= 0; i--) {
				value(await undoEdit(localActor, services, job));
				expect(await cellOf(services, job, 'note')).toBe(`n${i}`);
			}
			expect(value(await undoEdit(localActor, services, job)).undo).toBe('Add C-1');
			expect(await cellOf(services, job, 'note')).toBeNull();
		});

		it('brings moved rows back to where they stood, many times over', async () => {
			const { send, services, job } = await workplace(await place());
			value(await send(['c2', 'c3', 'c4'].map((id, i) => addRow(id, `c${i + 1}`, counter(`C-${i + 2}`)))));
			const order = async () => (await rowsOf(services, job)).map(({ id }) => id);
			const move = (row: string, after: string | null): Change => ({ kind: 'moveRow', row, after });
			for (let turn = 0; turn < 40; turn++) {
				const moved = value(await send([move('c4', 'c1'), move('c1', 'c3')], 'Move 2 rows'));
				expect(moved).toMatchObject({ order: ['c4', 'c2', 'c3', 'c1'], undo: 'Move 2 rows', rows: [] });
				value(await undoEdit(localActor, services, job));
				expect(await order()).toEqual(['c1', 'c2', 'c3', 'c4']);
			}
			value(await redoEdit(localActor, services, job));
			expect(await order()).toEqual(['c4', 'c2', 'c3', 'c1']);
		});

		it('forgets what was undone when a new edit is made', async () => {
			const { send, services, job } = await workplace(await place());
			value(await send([setCell('c1', 'phase', null, 'North')]));
			value(await undoEdit(localActor, services, job));
			expect(value(await send([setCell('c1', 'phase', null, 'South')])).redo).toBeNull();
			expect(refusal(await redoEdit(localActor, services, job)).status).toBe(409);
			value(await undoEdit(localActor, services, job));
			expect(await cellOf(services, job, 'phase')).toBeNull();
		});

		it('is a conflict when another person changed the cell since, with both values', async () => {
			const { send, services, job } = await workplace(await place());
			value(await send([setCell('c1', 'phase', null, 'North')]));
			value(await applyEdit(colleague, services, job, edit([setCell('c1', 'phase', 'North', 'South')])));
			expect(refusal(await undoEdit(localActor, services, job))).toMatchObject({
				status: 409,
				conflicts: [{ row: 'c1', field: 'phase', yours: null, theirs: 'South' }]
			});
			expect(await cellOf(services, job, 'phase')).toBe('South');
		});
	});

	describe('a cell that arrives', () => {
		it.each([
			['a size of zero', 'openingWidth', { amount: 0, unit: 'nm', typed: '0' }, /Opening width/u],
			[
				'a negative size',
				'openingHeight',
				{ amount: -25_400_000, unit: 'nm', typed: '-1"' },
				/Opening height/u
			],
			[
				'a length finer than a nanometre',
				'openingWidth',
				{ amount: 1.5, unit: 'nm', typed: '1' },
				/do not agree/u
			],
			[
				'a length that is not what was typed',
				'openingWidth',
				{ amount: 25_400_000, unit: 'nm', typed: '2"' },
				/do not agree/u
			],
			[
				'a pressure as a length',
				'openingWidth',
				{ amount: 20, unit: 'psf', typed: '20 psf' },
				/Opening width/u
			],
			['text as a length', 'openingWidth', 'wide', /Opening width/u],
			['a word the shop book does not have', 'curtain', 'velvet', /Curtain.*velvet/u],
			['no openings', 'quantity', 0, /Quantity.*whole number from 1/u],
			['a mark of two lines', 'mark', 'C-1\nC-2', /one line/u],
			['invisible characters', 'mark', 'C-\u202E9', /do not agree/u]
		] as const)('is refused: %s', async (_, field, after, reason) => {
			const { send, services, job } = await workplace(await place());
			const before = (await rowsOf(services, job))[0]?.cells[field] ?? null;
			const refused = refusal(await send([setCell('c1', field, before, after)]));
			expect(refused).toMatchObject({ status: 422, row: 'c1', field });
			expect(refused.message).toMatch(reason);
		});

		it('stands in both measures, since a job may have changed them', async () => {
			const { send } = await workplace(await place());
			const metric = { amount: 3_000_000_000, unit: 'nm', typed: '3000' } as const;
			value(await send([setCell('c1', 'openingWidth', typed('openingWidth', `10'-0"`), metric)]));
		});

		it('is kept as text, whatever it says', async () => {
			const { send, services, job } = await workplace(await place());
			const texts = [`=cmd()`, `<script>alert(1)</script>`, `'; drop table opening; --`, `{__proto__: 1}`];
			for (const [i, text] of texts.entries())
				value(await send([addRow(`h${i}`, 'c1', { mark: text, location: text })]));
			const stored = await rowsOf(services, job);
			expect(
				stored
					.map((row) => row.cells.location)
					.filter(Boolean)
					.sort()
			).toEqual([...texts].sort());
		});

		it('with the mark of another row is refused by name; one opening of its mark is not', async () => {
			const { send } = await workplace(await place());
			const refused = refusal(await send([addRow('c2', 'c1', { mark: 'C-1' })]));
			expect(refused).toMatchObject({ status: 422, row: 'c2', field: 'mark' });
			expect(refused.message).toContain('C-1 stands in another row already');
			value(await send([addRow('c2', 'c1', { mark: 'C-1', openingNumber: 2 })]));
			expect(refusal(await send([addRow('c3', 'c1', { mark: 'C-1', openingNumber: 2 })])).field).toBe(
				'openingNumber'
			);
			value(await send([addRow('empty-1', 'c1', {}), addRow('empty-2', 'c1', {})]));
		});
	});

	describe('a message that is not right', () => {
		it.each([
			['nothing', null],
			['text', 'edit'],
			['no changes', { id: 'x', title: 'x', changes: [] }],
			[
				'an id with a path in it',
				{ id: '../x', title: 'x', changes: [{ kind: 'removeRow', row: 'c1', after: null, cells: {} }] }
			],
			[
				'an input that is none',
				{
					id: 'x',
					title: 'x',
					changes: [{ kind: 'setCell', row: 'c1', field: '__proto__', before: null, after: 'x' }]
				}
			],
			[
				'more than it should say',
				{
					id: 'x',
					title: 'x',
					admin: true,
					changes: [{ kind: 'removeRow', row: 'c1', after: null, cells: {} }]
				}
			]
		])('is refused: %s', async (_, message) => {
			const { services, job } = await workplace(await place());
			expect(refusal(await applyEdit(localActor, services, job, message)).status).toBe(422);
			expect(await rowsOf(services, job)).toHaveLength(1);
		});

		it('is refused when it makes a job of 100,000 rows, and the job is as it was', async () => {
			const { send, services, job } = await workplace(await place());
			const rows = Array.from({ length: 100_000 }, (_, i) =>
				addRow(`r${i}`, i === 0 ? 'c1' : `r${i - 1}`, {})
			);
			expect(refusal(await send(rows))).toMatchObject({
				status: 422,
				message: 'A job holds at most 20,000 rows; this would make 100,001.'
			});
			expect(await rowsOf(services, job)).toHaveLength(1);
		});

		it('is refused when it makes more openings than a job holds', async () => {
			const { send } = await workplace(await place());
			const many = [1, 2, 3].map((i) => addRow(`m${i}`, 'c1', { mark: `M-${i}`, quantity: 10_000 }));
			expect(refusal(await send(many)).message).toBe(
				'A job holds at most 20,000 openings; this would make 30,002.'
			);
		});

		it('never reaches a row of another job or company', async () => {
			const { services, job } = await workplace(await place());
			const { id: other } = value(
				await createJob(localActor, services, { name: 'Kelpgate', measures: 'metric' })
			);
			const change = edit([setCell('c1', 'phase', null, 'x')]);
			expect(refusal(await applyEdit(localActor, services, other, change))).toMatchObject({
				status: 422,
				row: 'c1'
			});
			expect(refusal(await applyEdit(stranger, services, job, change)).status).toBe(404);
			expect(refusal(await openJob(stranger, services, job)).status).toBe(404);
			expect(refusal(await readTakeoff(stranger, services, job)).status).toBe(404);
			expect(value(await listJobs(stranger, services)).jobs).toEqual([]);
			expect(await cellOf(services, job, 'phase')).toBeNull();
		});
	});

	describe('a job', () => {
		it('can be renamed, and a name is text on one line', async () => {
			const { services, job } = await workplace(await place());
			value(
				await changeJob(localActor, services, job, { name: '  <b>Pier</b>\n hall ', measures: 'metric' })
			);
			expect(value(await openJob(localActor, services, job)).job).toMatchObject({
				name: '<b>Pier</b> hall',
				measures: 'metric'
			});
			for (const body of [
				{ name: ' ' },
				{ name: 'x'.repeat(201) },
				{ measures: 'cubits' },
				{},
				{ revision: 9 }
			])
				expect(refusal(await changeJob(localActor, services, job, body)).status).toBe(422);
		});

		it('that is copied has the same rows under ids of their own, and nothing to undo', async () => {
			const { send, services, job } = await workplace(await place());
			value(await send([addRow('c2', 'c1', counter('C-2'))]));
			const { id } = value(await copyJob(localActor, services, job, { name: 'Copy' }));
			const [first, copy] = [
				await rowsOf(services, job),
				value(await readOpenings(localActor, services, id))
			];
			expect(copy.rows.map((row) => row.cells)).toEqual(first.map((row) => row.cells));
			expect(copy.undo).toBeNull();
			expect(copy.rows.some((row) => first.some((one) => one.id === row.id))).toBe(false);
			expect(
				value(await listJobs(localActor, services)).jobs.map(({ name, marks, openings }) => [
					name,
					marks,
					openings
				])
			).toContainEqual(['Copy', 2, 4]);
		});

		it('that is deleted is out of reach and comes back whole', async () => {
			const { send, services, job } = await workplace(await place());
			value(await changeJob(localActor, services, job, { deleted: true }));
			expect(refusal(await openJob(localActor, services, job)).status).toBe(404);
			expect(refusal(await send([addRow('late', null, {})])).status).toBe(404);
			expect(refusal(await changeJob(localActor, services, job, { name: 'x' })).status).toBe(404);
			const listed = value(await listJobs(localActor, services));
			expect([listed.jobs.length, listed.deletedJobs.map(({ id }) => id)]).toEqual([0, [job]]);
			value(await changeJob(localActor, services, job, { deleted: false }));
			expect(value(await undoEdit(localActor, services, job)).removed).toEqual(['c1']);
		});
	});

	describe('parts', () => {
		const partsOf = async (services: Services, job: string) =>
			value(await issueParts(localActor, services, job)).parts;

		it('keep their ids when the mark is renamed', async () => {
			const { send, services, job } = await workplace(await place());
			const before = await partsOf(services, job);
			value(await send([setCell('c1', 'mark', 'C-1', 'T-9')]));
			// Another row takes the name: its parts are others.
			value(await send([addRow('c2', 'c1', counter('C-1'))]));
			const after = await partsOf(services, job);
			const renamed = after.filter(({ mark }) => mark === 'T-9');
			expect(renamed.map(({ partId }) => partId)).toEqual(before.map(({ partId }) => partId));
			expect(new Set(after.map(({ partId }) => partId)).size).toBe(after.length);
		});

		it('are others when their size changes, and say what they take the place of', async () => {
			const { send, services, job } = await workplace(await place());
			const guide = (parts: Awaited<ReturnType<typeof partsOf>>, kind: string) =>
				parts.find((part) => part.kind === kind && part.side === 'left' && part.openingId === 'C-1.1');
			const before = await partsOf(services, job);
			const [from, to] = [typed('openingHeight', `4'-0"`), typed('openingHeight', `4'-1"`)];
			value(await send([setCell('c1', 'openingHeight', from, to)]));
			const taller = await partsOf(services, job);
			expect(guide(taller, 'guide')?.supersedes).toBe(guide(before, 'guide')?.partId);
			expect(guide(taller, 'guide')?.partId).not.toBe(guide(before, 'guide')?.partId);
			// An inch more turns up by a fraction: the bracket stays 10 (8.01 + 1.5 of the worked opening A), so the end cap does.
			expect(guide(taller, 'endCap')?.partId).toBe(guide(before, 'endCap')?.partId);
			value(await send([setCell('c1', 'openingHeight', to, from)]));
			const back = await partsOf(services, job);
			expect(guide(back, 'guide')?.supersedes).toBe(guide(taller, 'guide')?.partId);
			const ids = [before, taller, back].map((parts) => guide(parts, 'guide')?.partId);
			expect(new Set(ids).size).toBe(3);
			expect(await partsOf(services, job)).toEqual(back);
		});

		it('retire with their row and come back with it', async () => {
			const { send, services, job } = await workplace(await place());
			const before = await partsOf(services, job);
			value(await send([{ kind: 'removeRow', row: 'c1', after: null, cells: counter('C-1') }]));
			expect(await partsOf(services, job)).toEqual([]);
			value(await undoEdit(localActor, services, job));
			expect(await partsOf(services, job)).toEqual(before);
		});

		it('of an opening that gets a row of its own stay the same where nothing changed', async () => {
			const { send, services, job } = await workplace(await place());
			const before = (await partsOf(services, job)).filter(({ openingId }) => openingId === 'C-1.2');
			value(await send([addRow('own', 'c1', { mark: 'C-1', openingNumber: 2, location: 'Stall 12' })]));
			const after = (await partsOf(services, job)).filter(({ openingId }) => openingId === 'C-1.2');
			expect(after).toEqual(before);
		});
	});

	describe('the price', () => {
		it('comes line by line, with the working of each', async () => {
			const { services, job } = await workplace(await place());
			const { price } = value(await readPrice(localActor, services, job));
			const [mark] = price.marks;
			expect(mark?.rowId).toBe('c1');
			for (const { id } of price.lines.filter((line) => line.id !== 'boxRounding')) {
				const working = value(await explainPrice(localActor, services, job, 'c1', id));
				expect(working.id).toBe(id);
			}
			expect(refusal(await explainPrice(localActor, services, job, 'c1', 'nothing')).status).toBe(404);
			expect(refusal(await explainPrice(localActor, services, job, 'no-row', 'price')).status).toBe(404);
		});
	});
});
