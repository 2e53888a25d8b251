/** Views of the sheet: saved under a name, and how the sheet of each job was left. */
import { describe, expect, it } from 'vitest';
import { usualView, type SheetView } from '../../src/lib/changes/sheet-view.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { changeJob } from '../../src/lib/server/operations/change-job.ts';
import { removeView, renameView } from '../../src/lib/server/operations/change-view.ts';
import { copyJob } from '../../src/lib/server/operations/copy-job.ts';
import { keepLastView } from '../../src/lib/server/operations/keep-last-view.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { readLastView, readViews } from '../../src/lib/server/operations/read-views.ts';
import { saveView } from '../../src/lib/server/operations/save-view.ts';
import { startServer } from './built-server.ts';
import { databases, temporaryFolder, temporaryStorage } from './databases.ts';
import { refusal, temporaryServices, value, workplace } from './services.ts';

const at = new Date('2026-03-02T08:30:00Z');
const person = { companyId: 'tern-and-gannet', actorId: 'estimator' };

/** Every field differs from the usual view. */
const walls: SheetView = {
	side: 'typed',
	choice: { leftSubstrate: true, anchorTotal: false },
	order: ['quantity', 'leftSubstrate', 'rightSubstrate'],
	widths: { leftSubstrate: 180 },
	folded: ['Size'],
	frozen: ['checks', 'location'],
	rowHeight: 'comfortable',
	sort: { column: 'openingWidth', direction: 'down' },
	filter: { text: 'pier', checks: 'stop', values: { curtain: ['counter-slat', ''] } }
};

/** Filters by so many texts of 1,000 letters each. */
const filteredBy = (texts: number): SheetView => ({
	...usualView,
	filter: {
		text: '',
		checks: 'all',
		values: { location: Array.from({ length: texts }, (_, i) => String(i).padEnd(1000, 'x')) }
	}
});

describe.each(databases)('$name', ({ place }) => {
	describe('the repository of views', () => {
		it('gives back what was saved, by name, and nothing of another person or company', async () => {
			const { views } = await temporaryStorage(await place());
			await views.save(person, { key: 'walls', name: 'Walls' }, walls, at);
			await views.save(person, { key: 'anchors', name: 'Anchors' }, usualView, at);
			await views.save({ ...person, actorId: 'foreman' }, { key: 'walls', name: 'Walls' }, usualView, at);
			expect(await views.list(person)).toEqual([
				{ name: 'Anchors', view: usualView, savedAt: '2026-03-02T08:30:00.000Z' },
				{ name: 'Walls', view: walls, savedAt: '2026-03-02T08:30:00.000Z' }
			]);
			expect(await views.count(person)).toBe(2);
			expect(await views.list({ ...person, companyId: 'northreach' })).toEqual([]);
			expect(await views.remove({ ...person, companyId: 'northreach' }, 'walls')).toBe(false);
			expect(await views.remove(person, 'walls')).toBe(true);
			expect(await views.nameOf(person, 'walls')).toBeNull();
			expect(await views.nameOf({ ...person, actorId: 'foreman' }, 'walls')).toBe('Walls');
		});

		it('keeps one view a name: the last one saved', async () => {
			const { views } = await temporaryStorage(await place());
			await views.save(person, { key: 'walls', name: 'walls' }, usualView, at);
			await views.save(person, { key: 'walls', name: 'Walls' }, walls, new Date('2026-03-03T00:00:00Z'));
			expect(await views.list(person)).toEqual([
				{ name: 'Walls', view: walls, savedAt: '2026-03-03T00:00:00.000Z' }
			]);
		});
	});

	describe('a saved view', () => {
		it('is there for every job, and after the program was started again', async () => {
			const where = await place();
			const services = await temporaryServices(where);
			const saved = value(await saveView(localActor, services, { name: '  Walls \n east ', view: walls }));
			expect(saved).toMatchObject({ name: 'Walls east', view: walls });
			const again = await temporaryServices(where);
			expect(value(await readViews(localActor, again))).toEqual([saved]);
		});

		it('is replaced only when that was asked for; names that differ in case are one', async () => {
			const services = await temporaryServices(await place());
			value(await saveView(localActor, services, { name: 'Walls', view: walls }));
			expect(refusal(await saveView(localActor, services, { name: 'WALLS', view: usualView }))).toMatchObject(
				{
					status: 409,
					field: 'name',
					message: 'Walls is there already. Replace it, or choose another name. Nothing was stored.'
				}
			);
			expect(value(await readViews(localActor, services))).toMatchObject([{ name: 'Walls', view: walls }]);
			value(await saveView(localActor, services, { name: 'WALLS', view: usualView, replace: true }));
			expect(value(await readViews(localActor, services))).toMatchObject([
				{ name: 'WALLS', view: usualView }
			]);
		});

		it('is renamed, to its own name in other letters too, but not over another one', async () => {
			const services = await temporaryServices(await place());
			value(await saveView(localActor, services, { name: 'Walls', view: walls }));
			value(await saveView(localActor, services, { name: 'Anchors', view: usualView }));
			const rename = (from: string, to: unknown) => renameView(localActor, services, from, { name: to });
			expect(value(await rename('walls', 'WALLS'))).toEqual({ name: 'WALLS' });
			expect(refusal(await rename('Walls', 'anchors'))).toMatchObject({ status: 409, field: 'name' });
			expect(refusal(await rename('Weights', 'Loads')).status).toBe(404);
			expect(refusal(await rename('Walls', ' ')).status).toBe(422);
			value(await rename('Walls', 'Loads'));
			expect(value(await readViews(localActor, services)).map(({ name }) => name)).toEqual([
				'Anchors',
				'Loads'
			]);
			expect(value(await readViews(localActor, services))[1]?.view).toEqual(walls);
		});

		it('is deleted by its person only', async () => {
			const services = await temporaryServices(await place());
			const colleague: Actor = { ...localActor, id: 'colleague', name: 'Colleague' };
			value(await saveView(localActor, services, { name: 'Walls', view: walls }));
			expect(value(await readViews(colleague, services))).toEqual([]);
			expect(refusal(await removeView(colleague, services, 'Walls'))).toMatchObject({
				status: 404,
				message: expect.stringMatching(/^There is no such view\./u) as string
			});
			value(await removeView(localActor, services, 'walls'));
			expect(value(await readViews(localActor, services))).toEqual([]);
			expect(refusal(await removeView(localActor, services, 'Walls')).status).toBe(404);
		});

		it.each([
			['no name', { name: ' \t', view: walls }, /needs a letter or a digit/u],
			['a name of dots', { name: '..', view: walls }, /needs a letter or a digit/u],
			['a name of 81 letters', { name: 'x'.repeat(81), view: walls }, /at most 80 characters/u],
			['a field that is none', { name: 'x', view: { ...walls, colour: 'red' } }, /not as expected at view/u],
			[
				'a width of nothing',
				{ name: 'x', view: { ...walls, widths: { mark: -1 } } },
				/at view\.widths\.mark/u
			],
			['half a view', { name: 'x', view: { side: 'both' } }, /not as expected at view\.choice/u],
			['nothing at all', null, /not as expected/u]
		])('is refused with %s', async (_, body, reason) => {
			const services = await temporaryServices(await place());
			const refused = refusal(await saveView(localActor, services, body));
			expect(refused.status).toBe(422);
			expect(refused.message).toMatch(reason);
			expect(value(await readViews(localActor, services))).toEqual([]);
		});

		it('takes at most 200 kB, and the refusal says how large it was', async () => {
			const services = await temporaryServices(await place());
			// 199 texts are 199 × 1,003 characters with their quotation marks and commas, and some 200 for the rest.
			value(await saveView(localActor, services, { name: 'Large', view: filteredBy(199) }));
			const refused = refusal(
				await saveView(localActor, services, { name: 'Larger', view: filteredBy(300) })
			);
			expect(refused).toMatchObject({
				status: 413,
				message: expect.stringMatching(/^This view is 302 kB large; at most 200 kB are kept\./u) as string
			});
		});

		it('is one of at most 100; one of them can still be replaced', async () => {
			const services = await temporaryServices(await place());
			for (let i = 1; i <= 100; i++)
				value(await saveView(localActor, services, { name: `View ${i}`, view: usualView }));
			const refused = refusal(await saveView(localActor, services, { name: 'One more', view: usualView }));
			expect(refused).toMatchObject({
				status: 422,
				message: expect.stringMatching(/^100 views are saved/u) as string
			});
			value(await saveView(localActor, services, { name: 'view 7', view: walls, replace: true }));
			expect(value(await readViews(localActor, services))).toHaveLength(100);
		});

		it('is saved once when two tabs save it at the same moment', async () => {
			const services = await temporaryServices(await place());
			const save = () => saveView(localActor, services, { name: 'Walls', view: walls });
			const both = await Promise.all([save(), save()]);
			expect(both.map(({ ok }) => ok).sort()).toEqual([false, true]);
		});
	});

	describe('how the sheet of a job was left', () => {
		it('comes with its rows, for this job and this person', async () => {
			const { services, job } = await workplace(await place());
			const colleague: Actor = { ...localActor, id: 'colleague', name: 'Colleague' };
			const { id: other } = value(await copyJob(localActor, services, job, { name: 'Copy' }));
			expect(value(await readOpenings(localActor, services, job)).lastView).toBeNull();
			value(await keepLastView(localActor, services, job, usualView));
			value(await keepLastView(localActor, services, job, walls));
			expect(value(await readOpenings(localActor, services, job)).lastView).toEqual(walls);
			expect(value(await readLastView(localActor, services, job))).toEqual(walls);
			expect(value(await readLastView(colleague, services, job))).toBeNull();
			expect(value(await readLastView(localActor, services, other))).toBeNull();
			// It is none of the views saved under a name.
			expect(value(await readViews(localActor, services))).toEqual([]);
		});

		it('is refused for what is no view, for one too large, and for a job that is not there', async () => {
			const { services, job } = await workplace(await place());
			const keep = (view: unknown, of = job) => keepLastView(localActor, services, of, view);
			expect(refusal(await keep({ ...walls, side: 'left' }))).toMatchObject({ status: 422, field: 'side' });
			expect(refusal(await keep(filteredBy(300))).status).toBe(413);
			expect(refusal(await keep(walls, 'none')).status).toBe(404);
			value(await changeJob(localActor, services, job, { deleted: true }));
			expect(refusal(await keep(walls)).status).toBe(404);
		});
	});
});

describe('views through the server', () => {
	it('are saved, listed, renamed and deleted, whatever is in their name', async () => {
		const server = await startServer({ COILWRIGHT_DATA: temporaryFolder() });
		const name = `Pier 7/8 & "dock" 50%? #2 – Größe`;
		const made = await server.ask('POST', '/api/views', { name, view: walls });
		expect([made.status, made.body.name]).toEqual([201, name]);
		expect((await server.ask('POST', '/api/views', { name, view: walls })).status).toBe(409);
		expect((await server.ask('POST', '/api/views', { name: 'x', view: {} })).status).toBe(422);
		const path = `/api/views/${encodeURIComponent(name)}`;
		const renamed = await server.ask('PATCH', path, { name: 'Pier' });
		expect([renamed.status, renamed.body]).toEqual([200, { name: 'Pier' }]);
		expect((await server.ask('DELETE', path)).status).toBe(404);
		expect((await server.ask('GET', '/api/views')).body).toMatchObject([{ name: 'Pier', view: walls }]);
		expect((await server.ask('DELETE', '/api/views/PIER')).status).toBe(200);
		expect((await server.ask('GET', '/api/views')).body).toEqual([]);
	});

	it('are remembered for a job, also by a server that was killed', async () => {
		const folder = temporaryFolder();
		const server = await startServer({ COILWRIGHT_DATA: folder });
		const made = await server.ask('POST', '/api/jobs', { name: 'Saltmarsh Pier', measures: 'imperial' });
		const path = `/api/jobs/${String(made.body.id)}/view`;
		expect((await server.ask('GET', path)).text).toBe('null');
		expect((await server.ask('PUT', path, walls)).status).toBe(200);
		const refused = await server.ask('PUT', path, { ...walls, frozen: 'all' });
		expect([refused.status, refused.body.field]).toEqual([422, 'frozen']);
		expect((await server.ask('PUT', path, '{')).status).toBe(422);
		expect((await server.ask('PUT', '/api/jobs/none/view', walls)).status).toBe(404);
		await server.end('SIGKILL');
		const again = await startServer({ COILWRIGHT_DATA: folder });
		expect((await again.ask('GET', path)).body).toEqual(walls);
	});
});
