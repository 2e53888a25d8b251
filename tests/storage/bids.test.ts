/** Bids: frozen once, read as they were frozen, and held against each other. */
import { describe, expect, it } from 'vitest';
import { isDamaged, type BidSide } from '../../src/lib/changes/bid.ts';
import { compareBidSides } from '../../src/lib/changes/bid-comparison.ts';
import type { Change } from '../../src/lib/changes/message.ts';
import { roleIds } from '../../src/lib/changes/roles.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { applyEdit } from '../../src/lib/server/operations/apply-edit.ts';
import { compareBids } from '../../src/lib/server/operations/compare-bids.ts';
import { createJob } from '../../src/lib/server/operations/create-job.ts';
import { freezeBid } from '../../src/lib/server/operations/freeze-bid.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import { listBids, readBid, readBidOpening } from '../../src/lib/server/operations/read-bids.ts';
import { readOpenings } from '../../src/lib/server/operations/read-openings.ts';
import { readPrice } from '../../src/lib/server/operations/read-price.ts';
import { openServices, type Services } from '../../src/lib/server/operations/services.ts';
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
	value
} from './services.ts';

const wren: Actor = { id: 'wren', companyId: localActor.companyId, name: 'Wren', roles: roleIds };

interface Place {
	readonly place: string;
	readonly services: Services;
	readonly job: string;
	readonly change: (...changes: readonly Change[]) => Promise<void>;
	readonly freeze: (title?: string) => Promise<number>;
}

/** A job with C-1, C-2 and C-3, two openings each. */
async function placeOf(database: (typeof databases)[number]): Promise<Place> {
	const place = await database.place();
	const services = await temporaryServices(place);
	const { id: job } = value(
		await createJob(localActor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
	);
	const change = async (...changes: readonly Change[]): Promise<void> => {
		value(await applyEdit(localActor, services, job, edit(changes)));
	};
	await change(
		addRow('c1', null, counter('C-1')),
		addRow('c2', 'c1', counter('C-2')),
		addRow('c3', 'c2', counter('C-3'))
	);
	const freeze = async (title = 'To the owner'): Promise<number> =>
		value(await freezeBid(wren, services, job, { title })).number;
	return { place, services, job, change, freeze };
}

const priceOf = async ({ services, job }: Place) => value(await readPrice(localActor, services, job)).price;
const rowsOf = async ({ services, job }: Place) => value(await readOpenings(localActor, services, job)).rows;

/** Whole cents of an amount with two decimals. */
function centsOf(amount: string): bigint {
	expect(amount).toMatch(/^-?\d+\.\d\d$/u);
	return BigInt(amount.replace('.', ''));
}
const sumOf = (amounts: readonly string[]): bigint => amounts.reduce((sum, one) => sum + centsOf(one), 0n);

/** Widens C-2, takes C-3 out and brings C-4 in. */
const threeChanges: readonly Change[] = [
	setCell('c2', 'openingWidth', typed('openingWidth', `10'-0"`), typed('openingWidth', `12'-0"`)),
	{ kind: 'removeRow', row: 'c3', after: 'c2', cells: counter('C-3') },
	addRow('c4', 'c2', counter('C-4'))
];

describe.each(databases)('bids, $name', (database) => {
	it('are numbered, and say who froze what, when and with how many stops', async () => {
		const place = await placeOf(database);
		const { services, job, change, freeze } = place;
		const price = await priceOf(place);
		expect(await freeze('To the owner\n')).toBe(1);
		// A mark without a width has a stop and no price; it is frozen all the same.
		await change(addRow('c4', 'c3', cells({ mark: 'C-4', quantity: '3' })));
		// One opening of C-1 that differs is no mark of its own.
		await change(addRow('c1-2', 'c1', cells({ mark: 'C-1', openingNumber: '2', note: 'by the dock' })));
		expect(await freeze('Second round')).toBe(2);
		const { bids } = value(await listBids(localActor, services, job));
		expect(bids).toMatchObject([
			{ number: 2, title: 'Second round', revision: 5, marks: 4, openings: 9, notPriced: 1 },
			{
				number: 1,
				title: 'To the owner',
				revision: 2,
				actorId: 'wren',
				actorName: 'Wren',
				marks: 3,
				openings: 6,
				notPriced: 0,
				price: price.totals.price,
				currency: price.currency
			}
		]);
		const [second, first] = bids.map((bid) => (isDamaged(bid) ? 0 : bid.stops));
		expect((second ?? 0) - (first ?? 0)).toBeGreaterThan(0);
	});

	it('are read as they were frozen, whatever becomes of rows and books', async () => {
		const place = await placeOf(database);
		const { services, job, change, freeze } = place;
		const [rows, price] = [await rowsOf(place), await priceOf(place)];
		await freeze();
		const read = async (by: Services) => value(await readBid(localActor, by, job, '1'));
		const before = await read(services);
		expect(before.content).toMatchObject({ rows, price, job: { name: 'Saltmarsh Pier' } });
		const opening = value(await readBidOpening(localActor, services, job, '1', 'c1'));
		// guideDistance = width + 2 · 0.25 in for counter-face (demo-book.md): 120 + 0.5 = 120.5 in.
		const distance = opening.quantities.find(({ id }) => id === 'guideDistance');
		expect(distance).toMatchObject({ unit: 'in', title: expect.any(String) as string });
		expect(Number(distance?.value) / 25_400_000).toBeCloseTo(120.5, 9);

		await change(...threeChanges);
		// Every rate of the stored books becomes another one; only a new process reads them again.
		const { db } = services.storage.accountsDatabase;
		const books = await db.selectFrom('book').select(['digest', 'kind', 'content']).execute();
		for (const { digest, kind, content } of books)
			if (kind === 'price')
				await db
					.updateTable('book')
					.set({ content: content.replaceAll('"base":"', '"base":"9') })
					.where('digest', '=', digest)
					.execute();
		const later = await openServices(place.place);
		try {
			expect((await priceOf({ ...place, services: later })).totals).not.toEqual(price.totals);
			expect(await read(later)).toEqual(before);
			expect(value(await readBidOpening(localActor, later, job, '1', 'c1'))).toEqual(opening);
			// Even the books gone, it is there.
			await db.updateTable('book').set({ content: '{}' }).execute();
			expect(await read(later)).toEqual(before);
		} finally {
			await later.storage.close();
		}
	});

	it('say when they are not what was frozen', async () => {
		const { services, job, freeze } = await placeOf(database);
		await freeze();
		await freeze();
		const { db } = services.storage.accountsDatabase;
		const stored = await db
			.selectFrom('bid')
			.select(['content', 'summary'])
			.where('number', '=', 1)
			.executeTakeFirstOrThrow();
		const damage = async (change: { content?: string; summary?: string }): Promise<void> => {
			await db
				.updateTable('bid')
				.set({ ...stored, ...change })
				.where('number', '=', 1)
				.execute();
		};
		const told = /^Bid 1 is not what was frozen/u;
		await damage({ content: stored.content.replace('"totals":{', '"totals":{"gift":"1.00",') });
		expect(refusal(await readBid(localActor, services, job, '1'))).toMatchObject({ status: 409 });
		expect(refusal(await readBid(localActor, services, job, '1')).message).toMatch(told);
		const compared = await compareBids(localActor, services, job, { first: '2', second: '1' });
		expect(refusal(compared).message).toMatch(told);
		await damage({ content: stored.content.slice(0, 100) });
		expect(refusal(await readBidOpening(localActor, services, job, '1', 'c1')).message).toMatch(told);
		await damage({ summary: stored.summary.replace('"stops":', '"stops":1') });
		expect(refusal(await readBid(localActor, services, job, '1')).message).toMatch(told);
		await damage({ summary: 'lost' });
		expect(value(await listBids(localActor, services, job)).bids).toMatchObject([
			{ number: 2 },
			{ number: 1, damaged: true }
		]);
		await damage({});
		expect((await readBid(localActor, services, job, '1')).ok).toBe(true);
	});

	it('are compared: openings, quantities, and prices whose differences add up', async () => {
		const place = await placeOf(database);
		const { services, job, change, freeze } = place;
		const was = await priceOf(place);
		await freeze();
		await change(...threeChanges, setCell('c1', 'note', null, 'by the fish dock'));
		const is = await priceOf(place);
		const now = value(await compareBids(localActor, services, job, { first: '1', second: 'now' }));
		await freeze();
		const frozen = value(await compareBids(localActor, services, job, { first: '1', second: '2' }));
		expect(frozen).toEqual(now);

		expect(now.added).toEqual([{ rowId: 'c4', name: 'C-4', openings: 2 }]);
		expect(now.removed).toEqual([{ rowId: 'c3', name: 'C-3', openings: 2 }]);
		expect(now.changed).toMatchObject([
			{ name: 'C-1', cells: [{ field: 'note', before: null, after: 'by the fish dock' }] },
			{
				name: 'C-2',
				cells: [{ field: 'openingWidth', before: { typed: `10'-0"` }, after: { typed: `12'-0"` } }]
			}
		]);
		// A note changes nothing that is worked out.
		expect(now.quantities.map(({ name }) => name)).toEqual(['C-2']);
		const distance = now.quantities[0]?.quantities.find(({ id }) => id === 'guideDistance');
		expect([distance?.before, distance?.after].map((nm) => Number(nm) / 25_400_000)).toEqual([120.5, 144.5]);
		expect(now.quantities[0]?.quantities.some(({ id }) => id === 'openingWidth')).toBe(false);
		expect(now.sameBooks).toEqual({ technical: true, price: true });
		expect([now.leftOut, now.notCompared]).toEqual([0, []]);

		const { price } = now;
		if (!price) throw new Error('both are in one currency');
		expect([price.total.before, price.total.after]).toEqual([was.totals.price, is.totals.price]);
		const difference = centsOf(is.totals.price ?? '') - centsOf(was.totals.price ?? '');
		expect(difference).not.toBe(0n);
		expect(centsOf(price.total.difference)).toBe(difference);
		expect(sumOf(price.marks.map((mark) => mark.difference))).toBe(difference);
		// What is added up above it, and the price itself, are no kinds of cost.
		const sums = ['materialCost', 'labourCost', 'directCost', 'unroundedPrice', 'price'];
		const kinds = price.lines.filter(({ id }) => !sums.includes(id));
		expect(sumOf(kinds.map((line) => line.difference))).toBe(difference);
		for (const line of price.lines)
			expect([line.before, line.after]).toEqual([was.totals[line.id], is.totals[line.id]]);

		const back = value(await compareBids(localActor, services, job, { first: '2', second: '1' }));
		expect(back.price?.total.difference).toBe((-Number(price.total.difference)).toFixed(2));
		const same = value(await compareBids(localActor, services, job, { first: '2', second: 'now' }));
		expect(same).toMatchObject({ added: [], removed: [], changed: [], quantities: [] });
		expect([same.price?.total.difference, same.price?.marks]).toEqual(['0.00', []]);
	});

	it('are for those who see prices, and asked for by numbers that there are', async () => {
		const { services, job, freeze } = await placeOf(database);
		await freeze();
		for (const role of ['installer', 'purchasing', 'owner'] as const) {
			const person: Actor = { ...wren, roles: [role] };
			for (const outcome of [
				await operations.listBids(person, services, job),
				await operations.readBid(person, services, job, '1'),
				await operations.readBidOpening(person, services, job, '1', 'c1'),
				await operations.compareBids(person, services, job, { first: '1', second: 'now' }),
				await operations.freezeBid(person, services, job, { title: 'x' })
			])
				expect(refusal<unknown>(outcome).status).toBe(403);
		}
		for (const number of ['2', '0', '-1', '1.0', 'now', '99999999999999'])
			expect(refusal(await readBid(localActor, services, job, number)).status).toBe(404);
		expect(refusal(await readBidOpening(localActor, services, job, '1', 'c9')).status).toBe(404);
		expect(refusal(await compareBids(localActor, services, job, { first: '1' })).status).toBe(422);
		expect(refusal(await freezeBid(localActor, services, job, { title: '  ' })).message).toBe(
			'The bid needs a title, such as what it was sent out for.'
		);
		const stranger: Actor = { ...wren, companyId: 'another-company' };
		expect(refusal(await readBid(stranger, services, job, '1')).status).toBe(404);
		const empty = value(await createJob(localActor, services, { name: 'Kelpgate', measures: 'metric' }));
		expect(refusal(await freezeBid(localActor, services, empty.id, { title: 'x' })).message).toBe(
			'There is nothing to freeze yet: the job has no openings.'
		);
	});
});

describe('a comparison', () => {
	const side = (value: number | null, unit = 'in'): BidSide => ({
		number: null,
		technicalDigest: 't',
		priceDigest: 'p',
		content: {
			format: 1,
			job: { name: 'Saltmarsh Pier', measures: 'imperial' },
			rows: [{ id: 'c1', cells: { mark: 'C-1' } }],
			openings: [{ rowId: 'c1', name: 'C-1', openings: 1, computed: true, stops: 0, cautions: 0 }],
			quantities: [{ id: 'guideDistance', title: 'Guide distance', unit, input: false }],
			values: { guideDistance: [value] },
			price: {
				currency: 'USD',
				lines: [],
				marks: [],
				totals: {},
				byPhase: [],
				notPriced: [],
				notIncluded: []
			}
		}
	});

	it('takes what the order of arithmetic does for no difference, and anything larger for one', () => {
		const differing = (a: number | null, b: number | null) =>
			compareBidSides(side(a), side(b)).quantities.length;
		expect(differing(0.1 + 0.2, 0.3)).toBe(0);
		expect(differing(3_060_700_000 * (1 + 2 ** -45), 3_060_700_000)).toBe(0);
		expect(differing(3_060_700_000, 3_060_700_004)).toBe(1);
		expect(differing(0, 1e-6)).toBe(1);
		expect(differing(0, 1e-12)).toBe(0);
		expect(differing(null, 0)).toBe(1);
		expect(differing(null, null)).toBe(0);
	});

	it('of two currencies has no difference of prices', () => {
		const euros = side(1);
		const other: BidSide = {
			...euros,
			content: { ...euros.content, price: { ...euros.content.price, currency: 'EUR' } }
		};
		expect(compareBidSides(side(1), other).price).toBeNull();
	});

	const [before, after] = [side(1), side(1)];

	it('finds the value of an opening where it stood, and says which quantities only one of the two knows', () => {
		const [first, second] = ['c1', 'c2'].map((rowId) => ({
			rowId,
			name: rowId.toUpperCase(),
			openings: 1,
			computed: true,
			stops: 0,
			cautions: 0
		}));
		if (!first || !second) throw new Error('there are two');
		const quantity = (id: string) => ({ id, title: `Of ${id}`, unit: 'in', input: false });
		const was: BidSide = {
			...before,
			content: {
				...before.content,
				openings: [first, second],
				quantities: [quantity('guideDistance'), quantity('slatCount')],
				values: { guideDistance: [10, 20], slatCount: [1, 1] }
			}
		};
		const is: BidSide = {
			...after,
			content: {
				...after.content,
				job: { name: 'Saltmarsh Pier', measures: 'metric' },
				openings: [second, first],
				quantities: [quantity('guideDistance'), quantity('hoodLength')],
				values: { guideDistance: [21, 10], hoodLength: [2, 2] }
			}
		};
		const { quantities, notCompared, measures } = compareBidSides(was, is);
		expect(quantities).toEqual([
			{ rowId: 'c2', name: 'C2', quantities: [{ id: 'guideDistance', before: 20, after: 21 }] }
		]);
		expect(notCompared).toEqual(['Of slatCount', 'Of hoodLength']);
		// It is shown as the later of the two is measured.
		expect(measures).toBe('metric');
	});

	it('tells of no more quantities than can be looked through, and how many it leaves out', () => {
		const of = (value: number): BidSide => {
			const ids = Array.from({ length: 5003 }, (_, i) => `q${i}`);
			const quantities = ids.map((id) => ({ id, title: id, unit: 'in', input: false }));
			const values = Object.fromEntries(ids.map((id) => [id, [value]]));
			return { ...before, content: { ...before.content, quantities, values } };
		};
		const { quantities, titles, leftOut } = compareBidSides(of(1), of(2));
		expect(quantities.map((opening) => opening.quantities.length)).toEqual([5000]);
		expect([Object.keys(titles).length, leftOut]).toEqual([5000, 3]);
	});

	it('takes a line or a mark that only one of the two prices has for nothing in the other', () => {
		const priced = (
			lines: Readonly<Record<string, string>>,
			marks: Readonly<Record<string, string | null>>
		): BidSide => ({
			...before,
			content: {
				...before.content,
				price: {
					...before.content.price,
					lines: Object.keys(lines).map((id) => ({ id, title: `Of ${id}` })),
					totals: lines,
					marks: Object.entries(marks).map(([mark, price]) => ({
						rowId: mark,
						mark,
						openingId: null,
						openings: 1,
						phase: '',
						amounts: price === null ? null : { price },
						byOpening: []
					}))
				}
			}
		});
		const { price } = compareBidSides(
			priced({ crane: '250.00', price: '950.00' }, { 'C-1': '700.00', 'C-2': '0.00', 'C-3': '250.00' }),
			priced({ freight: '40.00', price: '740.00' }, { 'C-1': '700.00', 'C-2': null, 'C-4': '40.00' })
		);
		expect(price?.lines.map(({ id, difference }) => [id, difference])).toEqual([
			['crane', '-250.00'],
			['freight', '40.00'],
			['price', '-210.00']
		]);
		expect(price?.total).toEqual({ before: '950.00', after: '740.00', difference: '-210.00' });
		expect(price?.marks.map(({ name, priced: has, difference }) => [name, has, difference])).toEqual([
			['C-2', { before: true, after: false }, '0.00'],
			['C-4', { before: false, after: true }, '40.00'],
			['C-3', { before: true, after: false }, '-250.00']
		]);
	});
});
