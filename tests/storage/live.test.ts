/** What open pages are told: the changes of others, and where the others are. */
import { onTestFinished, describe, expect, it } from 'vitest';
import type { EndReason, JobNews, PeopleNews, PersonThere } from '../../src/lib/changes/live.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { usualLimits, usualTimes, type FeedLimits, type FeedTimes } from '../../src/lib/server/live/feed.ts';
import type { Signals } from '../../src/lib/server/live/signals.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { changeJob } from '../../src/lib/server/operations/change-job.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { followJob, tellWhereabouts } from '../../src/lib/server/operations/follow-job.ts';
import { feedOn, type Services } from '../../src/lib/server/operations/services.ts';
import { undoEdit } from '../../src/lib/server/operations/undo-edit.ts';
import { startServer } from './built-server.ts';
import { databases, postgres, temporaryFolder } from './databases.ts';
import { postgresIsThere } from './postgres-cluster.ts';
import { addRow, counter, edit, refusal, setCell, temporaryServices, value } from './services.ts';

const ada: Actor = { ...localActor, id: 'ada', name: 'Ada Lisle' };
const ben: Actor = { ...localActor, id: 'ben', name: 'Ben Vance' };

/** Short, so that a test does not wait as long as a person may. */
const quick: FeedTimes = { gather: 20, heartbeat: 100, silence: 600 };

interface Told {
	readonly event: string;
	readonly id: string | null;
	readonly data: unknown;
}

/** A page that reads what it is told. */
class Page {
	readonly told: Told[] = [];
	over = false;
	readonly #reader: ReadableStreamDefaultReader<Uint8Array>;

	constructor(stream: ReadableStream<Uint8Array>) {
		this.#reader = stream.getReader();
		onTestFinished(() => this.close());
		void this.#read();
	}

	async #read(): Promise<void> {
		const decoder = new TextDecoder();
		let text = '';
		for (;;) {
			const { done, value: chunk } = await this.#reader.read();
			if (done) break;
			text += decoder.decode(chunk, { stream: true });
			for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
				this.#take(text.slice(0, end));
				text = text.slice(end + 2);
			}
		}
		this.over = true;
	}

	#take(block: string): void {
		const field = (name: string): string | null =>
			block
				.split('\n')
				.find((line) => line.startsWith(`${name}: `))
				?.slice(name.length + 2) ?? null;
		const event = field('event');
		if (event !== null)
			this.told.push({ event, id: field('id'), data: JSON.parse(field('data') ?? '') as unknown });
	}

	async close(): Promise<void> {
		await this.#reader.cancel();
	}

	get news(): JobNews[] {
		return this.told.flatMap(({ event, data }) => (event === 'changed' ? [data as JobNews] : []));
	}

	/** Who is there now, as this page was told. */
	get people(): PersonThere[] {
		const there = new Map<string, PersonThere>();
		for (const { event, data } of this.told) {
			if (event !== 'people') continue;
			const { all, people } = data as PeopleNews;
			if (all) there.clear();
			for (const person of people) {
				if (person.place === null) there.delete(person.tabId);
				else there.set(person.tabId, person);
			}
		}
		return [...there.values()];
	}

	/** The last one told. */
	get revision(): number {
		return this.news.at(-1)?.revision ?? 0;
	}
}

const eventually = (check: () => unknown): Promise<void> =>
	expect.poll(check, { timeout: 20_000, interval: 10 }).toBeTruthy();

async function server(
	place: string,
	{
		times = quick,
		limits = usualLimits,
		signals
	}: { times?: FeedTimes; limits?: FeedLimits; signals?: Signals } = {}
): Promise<Services> {
	const services = await temporaryServices(place);
	services.feed.close();
	const feed = feedOn(services.storage, signals ?? services.signals, times, limits);
	onTestFinished(() => feed.close());
	return { ...services, feed };
}

async function newJob(services: Services): Promise<string> {
	return value(await createJob(ada, services, { name: 'Saltmarsh Pier', measures: 'imperial' })).id;
}

const revisionOf = async (services: Services, job: string): Promise<number> =>
	(await services.storage.jobs.find({ companyId: ada.companyId, jobId: job }))?.revision ?? Number.NaN;

let tabs = 0;
interface Asks {
	readonly tab?: string;
	readonly after?: number;
	readonly recheck?: () => Promise<Actor | null>;
}
const ask = async (services: Services, job: string, who: Actor, { tab, after, recheck }: Asks = {}) =>
	followJob(who, services, job, {
		after: String(after ?? (await revisionOf(services, job))),
		tab: tab ?? `tab-${++tabs}`,
		recheck: recheck ?? (() => Promise.resolve(who))
	});

const follow = async (...asked: Parameters<typeof ask>): Promise<Page> =>
	new Page(value(await ask(...asked)));

const at = (tab: string, row: string, editing = false) => ({
	tab,
	place: 'openings',
	row,
	field: 'openingWidth',
	editing
});

describe.each(databases)('open pages on $name', ({ place }) => {
	it('are told what another person did: rows as stored, who, and up to which revision', async () => {
		const services = await server(await place());
		const job = await newJob(services);
		const start = await revisionOf(services, job);
		const page = await follow(services, job, ben);
		value(await applyEdit(ada, services, job, edit([addRow('c1', null, counter('C-1'))], 'Add C-1')));
		await eventually(() => page.news.length === 1);
		expect(page.news).toEqual([
			{
				after: start,
				revision: start + 1,
				rows: [{ id: 'c1', cells: counter('C-1') }],
				order: ['c1'],
				removed: [],
				job: null,
				by: [{ revision: start + 1, personId: 'ada', name: 'Ada Lisle', kind: 'edit', title: 'Add C-1' }]
			}
		]);
		expect(page.told.find(({ event }) => event === 'changed')?.id).toBe(String(start + 1));
		value(await applyEdit(ada, services, job, edit([setCell('c1', 'location', null, 'North aisle')])));
		value(await undoEdit(ada, services, job));
		value(await undoEdit(ada, services, job));
		await eventually(() => page.revision === start + 4);
		const last = page.news.at(-1);
		expect([last?.rows, last?.removed, last?.order]).toEqual([[], ['c1'], []]);
	});

	it('are told together what happens at once, without gap, and all of it', async () => {
		const services = await server(await place());
		const job = await newJob(services);
		const start = await revisionOf(services, job);
		const pages = [await follow(services, job, ben), await follow(services, job, ada)];
		for (let first = 0; first < 30; first += 5)
			await Promise.all(
				Array.from({ length: 5 }, (_, i) =>
					applyEdit(ada, services, job, edit([addRow(`r${first + i}`, null, counter(`C-${first + i}`))]))
				)
			);
		for (const page of pages) {
			await eventually(() => page.revision === start + 30);
			expect(page.news.length).toBeLessThan(30);
			let known = start;
			for (const { after, revision } of page.news) {
				expect(after).toBe(known);
				known = revision;
			}
			expect(new Set(page.news.flatMap(({ rows }) => rows.map(({ id }) => id))).size).toBe(30);
		}
	});

	it('connect again where they were, and load again when they are too far behind', async () => {
		const services = await server(await place());
		const job = await newJob(services);
		const start = await revisionOf(services, job);
		value(await applyEdit(ada, services, job, edit([addRow('c1', null, counter('C-1'))])));
		value(await applyEdit(ada, services, job, edit([addRow('c2', 'c1', counter('C-2'))])));
		const again = await follow(services, job, ben, { after: start });
		await eventually(() => again.news.length === 1);
		expect(again.news[0]?.rows.map(({ id }) => id).sort()).toEqual(['c1', 'c2']);
		let before: string | null = null;
		for (let i = 0; i < 201; i++) {
			value(await applyEdit(ada, services, job, edit([setCell('c1', 'location', before, `Stall ${i}`)])));
			before = `Stall ${i}`;
		}
		const behind = await follow(services, job, ben, { after: start });
		await eventually(() => behind.told.some(({ event }) => event === 'reload'));
		expect(behind.news).toEqual([]);
		// From a place where more was stored, as before a backup was brought back.
		const ahead = await follow(services, job, ben, { after: 100_000 });
		await eventually(() => ahead.told.some(({ event }) => event === 'reload'));
	});

	it('find what no signal told them of at the next sign of life', async () => {
		const lost: Signals = {
			send: () => undefined,
			listen: () => () => undefined,
			close: () => Promise.resolve()
		};
		const services = await server(await place(), { signals: lost });
		const job = await newJob(services);
		const page = await follow(services, job, ben);
		value(await applyEdit(ada, services, job, edit([addRow('c1', null, counter('C-1'))])));
		await eventually(() => page.news.length === 1);
	});

	it('are told nothing more when the session ends, the role goes or the job is deleted', async () => {
		const services = await server(await place());
		const job = await newJob(services);
		let standing: Actor | null = ben;
		const recheck = () => Promise.resolve(standing);
		const reasonOf = async (page: Page): Promise<EndReason | undefined> => {
			await eventually(() => page.over);
			const last = page.told.at(-1);
			return last?.event === 'ended' ? (last.data as { reason: EndReason }).reason : undefined;
		};
		const signedOut = await follow(services, job, ben, { recheck });
		standing = null;
		expect(await reasonOf(signedOut)).toBe('signedOut');
		standing = ben;
		const notAllowed = await follow(services, job, ben, { recheck });
		standing = { ...ben, roles: ['owner'] };
		expect(await reasonOf(notAllowed)).toBe('notAllowed');
		// Somebody else signed in with the same browser.
		const other = await follow(services, job, ben, { recheck: () => Promise.resolve(ada) });
		expect(await reasonOf(other)).toBe('signedOut');
		const page = await follow(services, job, ben);
		value(await changeJob(ada, services, job, { name: 'Saltmarsh Pier, north' }));
		await eventually(() => page.news.length === 1);
		expect(page.news[0]?.job).toEqual({
			name: 'Saltmarsh Pier, north',
			measures: 'imperial',
			deleted: false
		});
		value(await changeJob(ada, services, job, { deleted: true }));
		expect(await reasonOf(page)).toBe('deleted');
		expect(refusal(await ask(services, job, ben, { after: 0 })).status).toBe(404);
	});

	it('are told the roles of their person as they are', async () => {
		const services = await server(await place());
		const job = await newJob(services);
		let standing: Actor = { ...ben, roles: ['estimator'] };
		const page = await follow(services, job, ben, { recheck: () => Promise.resolve(standing) });
		const rolesTold = () => page.told.filter(({ event }) => event === 'roles').at(-1)?.data;
		await expect.poll(rolesTold).toEqual(['estimator']);
		standing = { ...ben, roles: ['purchasing', 'installer'] };
		await expect.poll(rolesTold).toEqual(['purchasing', 'installer']);
		expect(page.over).toBe(false);
	});

	it('are dropped when they do not read, and others go on', async () => {
		const services = await server(await place(), { limits: { ...usualLimits, unread: 20_000 } });
		const job = await newJob(services);
		const slow = value(await ask(services, job, ada));
		const page = await follow(services, job, ben);
		for (let i = 0; i < 30; i++) {
			value(await applyEdit(ada, services, job, edit([addRow(`r${i}`, null, counter(`C-${i}`))])));
			await eventually(() => page.news.some(({ rows }) => rows.some(({ id }) => id === `r${i}`)));
		}
		await expect(slow.getReader().read()).rejects.toThrow('what was told is not read');
		expect(page.over).toBe(false);
	});

	it('are no more than a person and a server may have', async () => {
		const services = await server(await place(), { limits: { ...usualLimits, ofPerson: 2, ofServer: 3 } });
		const job = await newJob(services);
		const first = await follow(services, job, ada);
		await follow(services, job, ada);
		expect(refusal(await ask(services, job, ada)).status).toBe(429);
		await follow(services, job, ben);
		expect(refusal(await ask(services, job, ben)).status).toBe(429);
		await first.close();
		await follow(services, job, ben);
	});

	it('know who is there and where, until they say nothing any more or their page is closed', async () => {
		const services = await server(await place());
		const job = await newJob(services);
		const page = await follow(services, job, ben, { tab: 'bens' });
		const adas = await follow(services, job, ada, { tab: 'adas' });
		value(await tellWhereabouts(ada, services, job, at('adas', 'c1', true)));
		const adaThere = {
			tabId: 'adas',
			personId: 'ada',
			name: 'Ada Lisle',
			place: 'openings',
			row: 'c1',
			field: 'openingWidth',
			editing: true
		};
		await eventually(() => page.people.length === 1);
		expect(page.people).toEqual([adaThere]);
		// Nobody is told of themselves, and whoever comes later is told at once.
		expect(adas.people).toEqual([]);
		const late = await follow(services, job, ben, { tab: 'bens-other' });
		await eventually(() => late.people.length === 1);
		await adas.close();
		await eventually(() => page.people.length === 0);
		// A page that says nothing more, though nobody closed it here, as one of a server that broke down.
		value(await tellWhereabouts(ada, services, job, at('elsewhere', 'c2')));
		await eventually(() => page.people.length === 1);
		await eventually(() => page.people.length === 0);
	});

	it('take no word that is not as expected, nor too many', async () => {
		const services = await server(await place(), { limits: { ...usualLimits, words: 3 } });
		const job = await newJob(services);
		for (const body of [
			null,
			{},
			{ ...at('t', 'c1'), name: 'Somebody else' },
			{ ...at('t', 'c1'), row: 'x'.repeat(65) },
			{ ...at('t', '<b>') },
			{ ...at('', 'c1') }
		])
			expect(refusal(await tellWhereabouts(ada, services, job, body)).status).toBe(422);
		expect(refusal(await tellWhereabouts(ada, services, 'no-such-job', at('t', 'c1'))).status).toBe(404);
		const elsewhere: Actor = { ...ada, companyId: 'another' };
		expect(refusal(await tellWhereabouts(elsewhere, services, job, at('t', 'c1'))).status).toBe(404);
		expect(refusal(await ask(services, job, elsewhere, { after: 0 })).status).toBe(404);
		for (const after of ['-1', 'x', '1e3', ''])
			expect(
				refusal(await followJob(ada, services, job, { after, tab: 't', recheck: () => Promise.resolve(ada) }))
					.status
			).toBe(422);
		const outcomes = await Promise.all(
			Array.from({ length: 5 }, () => tellWhereabouts(ada, services, job, at('t', 'c1')))
		);
		expect(outcomes.map((outcome) => (outcome.ok ? 200 : outcome.status)).sort()).toEqual([
			200, 200, 200, 429, 429
		]);
	});

	it('end when the server stops', async () => {
		const services = await server(await place());
		const job = await newJob(services);
		const page = await follow(services, job, ben);
		services.feed.close();
		await eventually(() => page.over);
		expect(page.told.some(({ event }) => event === 'ended')).toBe(false);
		expect(refusal(await ask(services, job, ben)).status).toBe(429);
	});
});

describe.each(databases)('undo of two people on $name', ({ place }) => {
	it('takes back one’s own edits only, and says whose value stands where that can’t be', async () => {
		const services = await server(await place());
		const job = await newJob(services);
		const cellNow = async (row: string, field: 'location' | 'phase') =>
			(await services.storage.openings.some({ companyId: ada.companyId, jobId: job }, [row]))[0]?.cells[
				field
			] ?? null;
		value(await applyEdit(ada, services, job, edit([addRow('c1', null, counter('C-1'))], 'Add C-1')));
		value(await applyEdit(ada, services, job, edit([setCell('c1', 'location', null, 'North')], 'Adas')));
		value(await applyEdit(ben, services, job, edit([setCell('c1', 'phase', null, '2')], 'Bens')));
		value(
			await applyEdit(ada, services, job, edit([setCell('c1', 'location', 'North', 'East')], 'Adas again'))
		);
		expect(value(await undoEdit(ben, services, job))).toMatchObject({ undo: null, redo: 'Bens' });
		expect([await cellNow('c1', 'phase'), await cellNow('c1', 'location')]).toEqual([null, 'East']);
		value(
			await applyEdit(ben, services, job, edit([setCell('c1', 'location', 'East', 'West')], 'Bens other'))
		);
		const refused = refusal(await undoEdit(ada, services, job));
		expect(refused).toMatchObject({
			status: 409,
			conflicts: [{ row: 'c1', field: 'location', yours: 'North', theirs: 'West', by: { name: 'Ben Vance' } }]
		});
		expect(await cellNow('c1', 'location')).toBe('West');
		// When Ben has taken his back, Ada's stack goes on where it was.
		value(await undoEdit(ben, services, job));
		expect(value(await undoEdit(ada, services, job))).toMatchObject({ undo: 'Adas', redo: 'Adas again' });
		expect(await cellNow('c1', 'location')).toBe('North');
	});
});

describe.runIf(postgresIsThere)('pages of two servers on one database', () => {
	/** Signals alone carry it: the next sign of life is far off. */
	const patient: FeedTimes = { ...quick, heartbeat: usualTimes.heartbeat * 100, silence: 45_000 };

	async function twoServers(times = patient) {
		const place = await postgres.place();
		const [one, other] = [await server(place, { times }), await server(place, { times })];
		return { one, other, job: await newJob(one) };
	}

	it('are told what is done on the other one', async () => {
		const { one, other, job } = await twoServers();
		const page = await follow(other, job, ben);
		// The first signal may be sent before the other server listens; the second may not be lost.
		await eventually(async () => {
			value(
				await applyEdit(ada, one, job, edit([addRow(`r${Math.random().toString(36).slice(2)}`, null, {})]))
			);
			return page.news.length > 0;
		});
		const told = page.news.length;
		value(await applyEdit(ada, one, job, edit([addRow('last', null, counter('C-9'))], 'Add C-9')));
		await eventually(() => page.news.length > told && page.news.at(-1)?.by.at(-1)?.title === 'Add C-9');
		expect(page.news.at(-1)?.rows).toContainEqual({ id: 'last', cells: counter('C-9') });
	});

	it('know people of both', async () => {
		const { one, other, job } = await twoServers();
		await follow(one, job, ada, { tab: 'adas' });
		value(await tellWhereabouts(ada, one, job, at('adas', 'c1')));
		await eventually(() => one.feed.isFollowed({ companyId: ada.companyId, jobId: job }));
		const page = await follow(other, job, ben);
		await eventually(() => page.people.some(({ tabId, row }) => tabId === 'adas' && row === 'c1'));
		// The word arrives at another server than the one that tells the page.
		value(await tellWhereabouts(ada, other, job, at('adas', 'c2', true)));
		await eventually(() => page.people.some(({ row, editing }) => row === 'c2' && editing));
	});

	it('go on after the connection that carries the signals was cut', async () => {
		const { one, other, job } = await twoServers();
		const page = await follow(other, job, ben);
		const { sql } = await import('kysely');
		await sql`select pg_terminate_backend(pid) from pg_stat_activity
			where application_name = 'coilwright signals' and datname = current_database()`.execute(
			one.storage.accountsDatabase.db
		);
		value(await applyEdit(ada, one, job, edit([addRow('c1', null, counter('C-1'))])));
		await eventually(() => page.news.some(({ rows }) => rows.some(({ id }) => id === 'c1')));
		const told = page.news.length;
		value(await applyEdit(ada, one, job, edit([addRow('c2', null, counter('C-2'))])));
		await eventually(() => page.news.length > told);
	});
});

it('a server that is stopped ends what its pages read, and itself', async () => {
	const running = await startServer({ COILWRIGHT_DATA: temporaryFolder() });
	const { body } = await running.ask('POST', '/api/jobs', { name: 'Saltmarsh Pier', measures: 'imperial' });
	const answer = await fetch(`${running.address}/api/jobs/${String(body.id)}/events?after=0&tab=t1`);
	expect(answer.headers.get('content-type')).toBe('text/event-stream');
	if (!answer.body) throw new Error('nothing is told');
	const page = new Page(answer.body);
	await eventually(() => page.told.length > 0);
	expect(await running.end('SIGTERM')).toBe(0);
	// To its end, not cut off.
	await eventually(() => page.over);
});
