/** A database with shop books of format 1, as the program wrote it before there was any engineering. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Kysely, sql } from 'kysely';
import { Migrator } from 'kysely/migration';
import { describe, expect, it } from 'vitest';
import { buildPricing } from '../../src/lib/price/price.ts';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { readPrice } from '../../src/lib/server/operations/read-price.ts';
import { readTakeoff } from '../../src/lib/server/operations/read-takeoff.ts';
import { digestOf } from '../../src/lib/server/storage/digest.ts';
import { BookRepository } from '../../src/lib/server/storage/book.repository.ts';
import type { JobKey } from '../../src/lib/server/storage/keys.ts';
import { migrations } from '../../src/lib/server/storage/migrations/all.ts';
import { OpeningRepository } from '../../src/lib/server/storage/opening.repository.ts';
import { sqliteDialect } from '../../src/lib/server/storage/sqlite-database.ts';
import type { Tables } from '../../src/lib/server/storage/tables.ts';
import type { Storage } from '../../src/lib/server/storage/storage.ts';
import {
	priceBookSchema,
	technicalBookSchema,
	type PriceBook,
	type TechnicalBook
} from '../../src/lib/shopbook/schema.ts';
import { engineOf } from '../opening-rows.ts';
import { temporaryFolder, temporaryStorage } from './databases.ts';
import { counter, temporaryServices, value } from './services.ts';

const at = new Date('2026-03-02T08:30:00Z');
const { companyId } = localActor;

interface OldRow {
	readonly key: string;
	readonly [field: string]: unknown;
}
interface OldAnchor {
	readonly substrate: string;
	readonly length: string;
	readonly [field: string]: unknown;
}
interface OldFixing {
	readonly key: string;
	readonly anchors: readonly OldAnchor[];
	readonly [field: string]: unknown;
}
interface OldBook {
	readonly title: string;
	readonly guides: readonly OldRow[];
	readonly drives: readonly OldRow[];
	readonly fixings: readonly OldFixing[];
	readonly constants: Readonly<Record<string, string>>;
	readonly [member: string]: unknown;
}
interface OldPrices {
	readonly anchors: readonly { readonly key: string; readonly cost: string }[];
	readonly [member: string]: unknown;
}

const read = (name: string): unknown =>
	JSON.parse(readFileSync(`fixtures/books/format-1/${name}.json`, 'utf8'));
const oldBook = read('technical-book') as OldBook;
const oldPrices = read('price-book') as OldPrices;

const jobKey = (jobId: string): JobKey => ({ companyId, jobId });

interface OldJob {
	readonly id: string;
	readonly book: object;
	readonly prices: object;
}

/** Jobs with one mark each, in a database whose tables and books are those of format 1. */
async function oldDatabase(jobs: readonly OldJob[]): Promise<string> {
	const folder = temporaryFolder();
	const db = new Kysely<Tables>({ dialect: sqliteDialect(join(folder, 'coilwright.sqlite')) });
	const first = Object.fromEntries(Object.entries(migrations).slice(0, 1));
	const migrator = new Migrator({ db, provider: { getMigrations: () => Promise.resolve(first) } });
	const { error } = await migrator.migrateToLatest();
	expect(error).toBeUndefined();
	for (const { id, book, prices } of jobs) {
		const [technicalDigest, priceDigest] = [digestOf(book), digestOf(prices)];
		await new BookRepository(db).putTechnical(companyId, technicalDigest, book as TechnicalBook, at);
		await new BookRepository(db).putPrice(companyId, priceDigest, prices as PriceBook, at);
		const moment = at.toISOString();
		// As it was written then: columns that came later are not there.
		await sql`insert into job values (${companyId}, ${id}, ${id}, 'imperial', 0, ${technicalDigest},
			${priceDigest}, 0, ${moment}, ${moment}, null)`.execute(db);
		const rows = [{ id: 'c1', cells: counter('C-1'), removed: false }];
		await new OpeningRepository(db).arrange(jobKey(id), rows, new Set(['c1']));
	}
	await db.destroy();
	return folder;
}

/** The books that a job pins now; both fit the schema. */
async function pinned(storage: Storage, id: string): Promise<{ book: TechnicalBook; prices: PriceBook }> {
	const job = await storage.jobs.find(jobKey(id));
	const book = await storage.books.technical(companyId, job?.technicalDigest ?? '');
	const prices = await storage.books.price(companyId, job?.priceDigest ?? '');
	expect([job?.technicalDigest, job?.priceDigest]).toEqual([digestOf(book ?? {}), digestOf(prices ?? {})]);
	return { book: technicalBookSchema.parse(book), prices: priceBookSchema.parse(prices) };
}

const costs = ({ anchors }: PriceBook, fixing: string): Record<string, string> =>
	Object.fromEntries(
		anchors.flatMap(({ key, cost }) => (key.startsWith(`${fixing}.`) ? [[key, cost] as const] : []))
	);

describe('a job that pins the invented book of format 1', () => {
	const saltmarsh: OldJob = { id: 'saltmarsh', book: oldBook, prices: oldPrices };

	it('is computed and priced again', async () => {
		const services = await temporaryServices(await oldDatabase([saltmarsh]));
		const { totals, parts } = value(await readTakeoff(localActor, services, 'saltmarsh'));
		expect(totals).toMatchObject({ marks: 1, openings: 2 });
		expect(parts.length).toBeGreaterThan(0);
		const { price } = value(await readPrice(localActor, services, 'saltmarsh'));
		expect(price.notPriced).toEqual([]);
		expect(Number(price.totals.price)).toBeGreaterThan(0);
	});

	it('keeps every figure it had', async () => {
		const { book } = await pinned(await temporaryStorage(await oldDatabase([saltmarsh])), 'saltmarsh');
		const { format, fixings, ...others } = oldBook;
		expect(format).toBe('coilwright.technical-book.1');
		expect(book).toMatchObject(others);
		fixings.forEach(({ anchors, ...fixing }, i) => {
			expect(book.fixings[i]).toMatchObject(fixing);
			anchors.forEach(({ length, reportNumber, ...anchor }, j) => {
				expect(book.fixings[i]?.anchors[j]).toMatchObject(anchor);
				expect(book.fixings[i]?.anchors[j]?.lengths).toContain(length);
				expect(reportNumber).toBe('');
			});
		});
	});

	it('has a price for each length of an anchor, and for its first one the same', async () => {
		const { book, prices } = await pinned(
			await temporaryStorage(await oldDatabase([saltmarsh])),
			'saltmarsh'
		);
		// 0.92 was the price of the 3.75 in wedge anchor.
		expect(costs(prices, 'standard.concrete')).toMatchObject({ 'standard.concrete.3.75': '0.92' });
		const built = buildPricing(engineOf(book), prices);
		expect(built.ok ? [] : built.problems).toEqual([]);
	});

	it('is left alone when the database is opened again', async () => {
		const folder = await oldDatabase([saltmarsh]);
		const first = await temporaryStorage(folder);
		const before = await first.jobs.find(jobKey('saltmarsh'));
		await first.close();
		expect(await (await temporaryStorage(folder)).jobs.find(jobKey('saltmarsh'))).toEqual(before);
	});
});

describe('a job that pins books of its own', () => {
	const own: OldBook = {
		...oldBook,
		title: 'Gannet shop book (invented)',
		guides: oldBook.guides.map((row) => ({ ...row, key: `gannet-${row.key}` })),
		drives: oldBook.drives.map((row) => ({ ...row, key: `gannet-${row.key}`, torque: '40' })),
		fixings: oldBook.fixings.map((row) => ({ ...row, key: `gannet-${row.key}` })),
		constants: { ...oldBook.constants, guideFriction: '0.2' }
	};
	const gannet: OldJob = {
		id: 'gannet',
		book: own,
		prices: {
			...oldPrices,
			anchors: oldPrices.anchors.map((row) => ({ ...row, key: `gannet-${row.key}` }))
		}
	};

	it('gets neutral figures for what the invented book does not have', async () => {
		const { book } = await pinned(await temporaryStorage(await oldDatabase([gannet])), 'gannet');
		expect(book.title).toBe('Gannet shop book (invented)');
		expect(book.constants).toMatchObject({ guideFriction: '0.2', safetyScrew: '3' });
		expect(
			book.guides.map(({ mounting, pryingArm, stockLength }) => [mounting, pryingArm, stockLength])
		).toEqual([
			['faceOfWall', '2.5', '0'],
			['betweenJambs', '0', '0'],
			['faceOfWall', '2.5', '0'],
			['betweenJambs', '0', '0']
		]);
		// 40 lb-ft · 1.5
		expect(book.drives[0]).toMatchObject({ stallTorque: '60', horsepower: '1/2' });
	});

	it('its anchors are bought in the one length they had, and hold nothing before a report says so', async () => {
		const { book, prices } = await pinned(await temporaryStorage(await oldDatabase([gannet])), 'gannet');
		const [wedge] = book.fixings[0]?.anchors ?? [];
		expect(wedge).toMatchObject({
			anchor: 'Wedge anchor',
			kind: 'reported',
			lengths: ['3.75'],
			allowableTension: '0',
			allowableShear: '0',
			reportNumber: ''
		});
		expect(costs(prices, 'gannet-standard.concrete')).toEqual({ 'gannet-standard.concrete.3.75': '0.92' });
	});

	it('an anchor of another diameter is another anchor, whatever its key', async () => {
		const [standard, ...others] = oldBook.fixings;
		const thick = { ...standard, anchors: standard?.anchors.map((row) => ({ ...row, diameter: '0.5' })) };
		const job = { id: 'thick', book: { ...oldBook, fixings: [thick, ...others] }, prices: oldPrices };
		const { book } = await pinned(await temporaryStorage(await oldDatabase([job])), 'thick');
		for (const { kind, diameter } of book.fixings[0]?.anchors ?? [])
			expect([kind, diameter]).toEqual(['reported', '0.5']);
	});

	it('an anchor with a price of its own has it in every length', async () => {
		const prices = {
			...oldPrices,
			anchors: oldPrices.anchors.map((row) =>
				row.key === 'standard.concrete' ? { ...row, cost: '1.50' } : row
			)
		};
		const job: OldJob = { id: 'own-prices', book: oldBook, prices };
		const found = await pinned(await temporaryStorage(await oldDatabase([job])), 'own-prices');
		const [wedge] = found.book.fixings[0]?.anchors ?? [];
		expect(wedge?.lengths.length).toBeGreaterThan(1);
		expect(costs(found.prices, 'standard.concrete')).toEqual(
			Object.fromEntries(wedge?.lengths.map((length) => [`standard.concrete.${length}`, '1.50']) ?? [])
		);
	});

	it('one price book with two technical books becomes two', async () => {
		const shorter: OldBook = { ...oldBook, fixings: oldBook.fixings.slice(0, 1) };
		const jobs = [
			{ id: 'one', book: oldBook, prices: oldPrices },
			{ id: 'two', book: shorter, prices: oldPrices },
			{ id: 'three', book: oldBook, prices: oldPrices }
		];
		const storage = await temporaryStorage(await oldDatabase(jobs));
		const [one, two, three] = await Promise.all(
			jobs.map(async ({ id }) => {
				const { prices } = await pinned(storage, id);
				return prices;
			})
		);
		if (!one || !two || !three) throw new Error('a job is missing');
		expect(three).toEqual(one);
		expect(Object.keys(costs(one, 'stainless')).length).toBeGreaterThan(0);
		expect(costs(two, 'stainless')).toEqual({});
		expect(costs(two, 'standard')).toEqual(costs(one, 'standard'));
	});
});
