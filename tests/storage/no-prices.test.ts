/**
 * No price reaches who may not see it. A job is priced by a book whose numbers occur nowhere else; an installer and a
 * purchaser then visit every page and call every endpoint of the program, and every byte they receive is searched for
 * each figure of its price, in every way it is written.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { usualView } from '../../src/lib/changes/sheet-view.ts';
import { readZip } from '../../src/lib/exchange/workbook/zip-limits.ts';
import { trueOpening } from '../../src/lib/fieldwork/sample-measures.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { digestOf } from '../../src/lib/server/storage/digest.ts';
import { demoPriceBook, demoTechnicalBook } from '../../src/lib/shopbook/demo/demo-book.ts';
import { partCosts, priceBookSchema, type PriceBook } from '../../src/lib/shopbook/schema.ts';
import { partIdFor } from '../../src/lib/takeoff/parts.ts';
import { formWithFile, type RunningServer } from './built-server.ts';
import { databases } from './databases.ts';
import { office, type Colleague } from './office.ts';
import { addressOf, allRoutes } from './routes.ts';
import { addRow, cells, counter, edit, setCell, temporaryServices, value } from './services.ts';

/** The demo book with figures of its own: no two are alike, and each has digits enough to be met nowhere else. */
function distinctBook(): PriceBook {
	let next = 0;
	const money = (): string => (7000 + ++next * 13.37).toFixed(2);
	const share = (part: number): string => (part + ++next * 0.000_013).toFixed(6);
	const priced = <T extends { readonly cost: string }>(rows: readonly T[]): T[] =>
		rows.map((row) => ({ ...row, cost: money() }));
	return priceBookSchema.parse({
		...demoPriceBook,
		title: 'Book of figures that occur nowhere else',
		curtains: priced(demoPriceBook.curtains).map((row) => ({ ...row, bar: money() })),
		guides: priced(demoPriceBook.guides),
		barrels: priced(demoPriceBook.barrels),
		brackets: priced(demoPriceBook.brackets),
		drives: priced(demoPriceBook.drives),
		operators: priced(demoPriceBook.operators),
		hoods: priced(demoPriceBook.hoods).map((row) => ({ ...row, support: money(), endCap: money() })),
		anchors: priced(demoPriceBook.anchors),
		controls: priced(demoPriceBook.controls),
		consumables: priced(demoPriceBook.consumables),
		rates: demoPriceBook.rates.map((rate) => ({ ...rate, base: money(), burden: share(0.43) })),
		springPound: money(),
		liftDay: money(),
		mobilisation: money(),
		tax: share(0.07),
		freight: share(0.05),
		contingency: share(0.03),
		overhead: share(0.12),
		profit: share(0.1),
		bond: share(0.015),
		roundingStep: '0.01'
	});
}

/** The same figure in one writing: two decimals, or as many more as it has. */
function oneWriting(text: string): string {
	const [whole = '', decimals = ''] = text.replaceAll(',', '').split('.');
	return `${whole}.${decimals.replace(/0+$/u, '').padEnd(2, '0')}`;
}

/** Every decimal in texts and numbers of an answer. */
function decimalsIn(answer: unknown): string[] {
	if (typeof answer === 'number') return decimalsIn(String(answer));
	if (typeof answer === 'string')
		return Array.from(answer.matchAll(/\d[\d,]*\.\d+/gu), ([text]) => oneWriting(text));
	if (answer === null || typeof answer !== 'object') return [];
	return Object.values(answer).flatMap(decimalsIn);
}

/** Digits enough that nothing else is likely to be written so. */
const tells = (decimal: string): boolean => decimal.replace(/^0?\.?0*/u, '').replace('.', '').length >= 5;

const grouped = (whole: string): string => whole.replace(/\B(?=(?:\d{3})+$)/gu, ',');

/** The ways a figure is written: as it is, without zeros at its end, with commas, as per cent, in cents. */
function waysOf(decimal: string): RegExp {
	const [whole = '0', decimals = ''] = decimal.split('.');
	const short = decimals.replace(/0+$/u, '');
	const plain = [decimals, short].flatMap((end) =>
		end === '' ? [] : [`${whole}.${end}`, `${grouped(whole)}.${end}`]
	);
	const percent =
		whole === '0' && decimals.length >= 5 ? [String(Number((Number(decimal) * 100).toFixed(4)))] : [];
	const inText = [...plain, ...percent]
		.filter(tells)
		.map((text) => `(?<![\\d.,])${text.replaceAll('.', '\\.')}`);
	// Digits alone may be part of an id; an amount in cents stands alone.
	const inCents =
		decimals.length === 2 && whole.length >= 4 ? [`(?<![\\w.,-])${whole}${decimals}(?![\\w.-])`] : [];
	return new RegExp([...inText, ...inCents].join('|') || '(?!)', 'u');
}

interface Figures {
	/** Everything of the price. */
	readonly all: ReadonlySet<string>;
	/** What a purchaser may not see: all but what the parts cost. */
	readonly notForPurchasing: ReadonlySet<string>;
	readonly ofParts: ReadonlySet<string>;
}

/** Every figure of the price that the program works out, asked for as the estimator. */
async function figuresOf(
	estimator: Colleague,
	services: Services,
	job: string,
	book: PriceBook
): Promise<Figures> {
	const { actor } = estimator;
	const { price } = value(await operations.readPrice(actor, services, job));
	const { purchases } = value(await operations.readPurchasePrices(actor, services, job));
	const workings: string[] = [];
	for (const { rowId, amounts } of price.marks)
		for (const { id } of amounts ? price.lines : []) {
			const working = await operations.explainPrice(actor, services, job, rowId, id);
			if (working.ok) workings.push(...decimalsIn([working.value.value, working.value.text]));
		}
	const { marks, totals, byPhase } = price;
	const ofPrice = decimalsIn([
		marks.map(({ amounts, byOpening }) => [amounts, byOpening.map((share) => share.price)]),
		totals,
		byPhase.map((phase) => phase.price)
	]);
	const {
		rates,
		springPound,
		liftDay,
		mobilisation,
		tax,
		freight,
		contingency,
		overhead,
		profit,
		bond,
		...costs
	} = book;
	const ofShop = decimalsIn([
		rates,
		liftDay,
		mobilisation,
		tax,
		freight,
		contingency,
		overhead,
		profit,
		bond
	]);
	const ofParts = [
		...decimalsIn([costs, springPound]),
		...decimalsIn(
			[...purchases.items, ...purchases.marks.flatMap(({ bought }) => bought?.items ?? [])].map(
				({ unitCost, amount }) => [unitCost, amount]
			)
		),
		...decimalsIn([purchases.sums, purchases.marks.map(({ bought }) => bought?.sums)])
	];
	// Lines of material with several parts in them are sums of what the parts cost.
	const material = price.lines
		.slice(
			0,
			price.lines.findIndex(({ id }) => id === 'labourCost')
		)
		.map(({ id }) => id)
		.filter((id) => !id.endsWith('Labour'));
	const ofMaterial = decimalsIn(
		[totals, ...marks.map(({ amounts }) => amounts ?? {})].map((lines) => material.map((id) => lines[id]))
	);
	const all = new Set([...ofPrice, ...ofShop, ...ofParts, ...workings].filter(tells));
	const allowed = new Set([...ofParts, ...ofMaterial]);
	return {
		all,
		ofParts: new Set(ofParts.filter(tells)),
		notForPurchasing: new Set([...all].filter((figure) => !allowed.has(figure)))
	};
}

/** What a file says, unpacked. */
function textOf(bytes: Buffer): string {
	if (bytes.subarray(0, 4).toString('latin1') === 'PK\u0003\u0004') {
		const zip = readZip(bytes, { totalBytes: 1e9, entryBytes: 1e9, entries: 10_000, ratio: 1e6 });
		if (!zip.ok) throw new Error(zip.reason);
		return zip.entries
			.map(({ method, from, to }) => {
				const packed = bytes.subarray(from, to);
				return (method === 'stored' ? packed : inflateRawSync(packed)).toString('utf8');
			})
			.join('\n');
	}
	if (bytes.subarray(0, 5).toString('latin1') === '%PDF-') {
		const folder = mkdtempSync(join(tmpdir(), 'coilwright-print-'));
		try {
			writeFileSync(join(folder, 'file.pdf'), bytes);
			return execFileSync('pdftotext', ['-layout', join(folder, 'file.pdf'), '-'], { encoding: 'utf8' });
		} finally {
			rmSync(folder, { recursive: true });
		}
	}
	return bytes.toString('utf8');
}

interface Received {
	readonly what: string;
	readonly status: number;
	readonly text: string;
}

/** Asks, and reads to the end, or for a while where it has none. */
function receive(
	server: RunningServer,
	cookie: string,
	method: string,
	path: string,
	sent: { readonly body?: Uint8Array | string; readonly headers?: Readonly<Record<string, string>> } = {}
): Promise<Received> {
	const { host } = new URL(server.address);
	return new Promise((resolve, reject) => {
		const asked = httpRequest(
			`${server.address}${path}`,
			{ method, headers: { host, origin: server.address, cookie, accept: '*/*', ...sent.headers } },
			(response) => {
				const chunks: Buffer[] = [Buffer.from(JSON.stringify(response.headers)), Buffer.from('\n')];
				const file: Buffer[] = [];
				const whole = (): void => {
					const text = `${Buffer.concat(chunks).toString('utf8')}${textOf(Buffer.concat(file))}`;
					resolve({ what: `${method} ${path}`, status: response.statusCode ?? 0, text });
				};
				response.on('data', (chunk: Buffer) => file.push(chunk));
				response.on('end', whole);
				response.on('error', () => undefined);
				if (response.headers['content-type']?.startsWith('text/event-stream'))
					setTimeout(() => {
						whole();
						asked.destroy();
					}, 3_000);
			}
		);
		asked.on('error', reject);
		asked.end(sent.body);
	});
}

const json = (body: unknown) => ({
	body: JSON.stringify(body),
	headers: { 'content-type': 'application/json' }
});
const upload = (name: string, content: Uint8Array, fields: Readonly<Record<string, string>> = {}) =>
	formWithFile(name, content, fields);
const bytesOf = (...path: string[]): Uint8Array => new Uint8Array(readFileSync(join('fixtures', ...path)));
const schedule = bytesOf('schedules', 'small', 'byte-order-mark.csv');
const model = bytesOf('models', 'market-hall-feet.ifc');
const packingList = bytesOf('deliveries', 'saltmarsh-truck-2.csv');

/** A picture by its first bytes; nothing here looks at the rest. */
const picture = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16]);

const supplierBody = {
	name: 'Northreach',
	scopes: [],
	leadDays: 42,
	daysBefore: 3,
	handsFrom: 'coilSide',
	sizes: 'part',
	concealedDamageDays: null
};

/** A price that a supplier answers; it is in no book. */
const differentPrice = '86421.97';

interface Sent {
	readonly body?: Uint8Array | string;
	readonly headers?: Readonly<Record<string, string>>;
	readonly query?: string;
}

/** How each endpoint is called rightly. `last`: it ends the person's own session. */
// prettier-ignore
const calls: Readonly<Record<string, readonly (Sent & { readonly last?: true })[]>> = {
	'GET /api/account': [{}],
	'POST /api/account/password': [json({ current: 'not this one at all', next: 'another long one' })],
	'DELETE /api/account/sessions': [{ last: true }],
	'DELETE /api/account/sessions/[session]': [{}],
	'GET /api/invitations/[token]': [{}],
	'POST /api/invitations/[token]': [json({ name: 'Wren', password: 'a long one, of nobody' })],
	'POST /api/jobs': [json({ name: 'Another', measures: 'metric' })],
	'POST /api/jobs/example': [json({})],
	'PATCH /api/jobs/[job]': [json({ name: 'Saltmarsh Pier' })],
	'GET /api/jobs/[job]/bids': [{}],
	'POST /api/jobs/[job]/bids': [json({ title: 'Again' })],
	'GET /api/jobs/[job]/bids/[bid]': [{}],
	'GET /api/jobs/[job]/bids/[bid]/openings/[row]': [{}],
	'GET /api/jobs/[job]/bids/compare': [{ query: '?first=1&second=now' }],
	'POST /api/jobs/[job]/copy': [json({ name: 'Copy' })],
	'POST /api/jobs/[job]/counts': [json({ counts: [{ countId: 'count-0001', deliveryId: 'unknown', line: 5, crate: null, description: '', amounts: { whole: '1', damaged: '0', wrong: '0' }, note: '', photoIds: [], countedAt: '2026-12-01T09:30:00Z' }] })],
	'PUT /api/jobs/[job]/counts/[delivery]': [json({ finished: false, at: '2026-12-01T09:30:00Z' })],
	'GET /api/jobs/[job]/counts/[delivery]/damage-notes/print': [{ query: '?delivered=2026-12-01' }],
	'POST /api/jobs/[job]/photos': [upload('photo.jpg', picture, { photoId: 'photo-0002' })],
	'GET /api/jobs/[job]/photos/[photo]': [{}],
	'POST /api/jobs/[job]/deliveries': [upload('truck.csv', packingList, { ours: 'yes', anotherTruck: 'yes' })],
	'POST /api/jobs/[job]/deliveries/preview': [upload('truck.csv', packingList)],
	'POST /api/jobs/[job]/deliveries/typed': [json({ name: 'Truck 3, typed', supplierId: null, lines: [{ mark: 'C-9', description: 'Guide, left', quantity: '1' }] })],
	'PATCH /api/jobs/[job]/deliveries/[delivery]': [json({ about: 'handsFrom', before: null, after: 'farSide' })],
	'PUT /api/jobs/[job]/deliveries/[delivery]/lines/[line]': [json({ decision: { kind: 'notOurs', reason: 'nobody ordered it' }, seen: null, remember: false })],
	'DELETE /api/jobs/[job]/deliveries/[delivery]': [{}],
	'POST /api/jobs/[job]/deliveries/[delivery]/restore': [{}],
	'POST /api/jobs/[job]/edits': [json(edit([setCell('c1', 'phase', null, 'one')]))],
	'GET /api/jobs/[job]/events': [{ query: '?after=0&tab=tab-1' }],
	'POST /api/jobs/[job]/orders': [json({ supplierId: 'unknown', phase: '', release: 1, digest: 'unknown' })],
	'PATCH /api/jobs/[job]/orders/[order]': [json({ revision: 1, line: 1, was: { unitPrice: null, needBy: null, note: '' }, now: { unitPrice: null, needBy: null, note: 'as told' } })],
	'DELETE /api/jobs/[job]/orders/[order]': [json({ version: 'unknown' })],
	'POST /api/jobs/[job]/orders/[order]/restore': [json({ version: 'unknown' })],
	'POST /api/jobs/[job]/orders/[order]/release': [json({ version: 'unknown', reason: null })],
	'POST /api/jobs/[job]/orders/[order]/revisions': [json({ version: 'unknown', digest: 'unknown' })],
	'DELETE /api/jobs/[job]/orders/[order]/revisions': [json({ version: 'unknown' })],
	'PUT /api/jobs/[job]/orders/[order]/differences': [json({ keys: ['unknown'], decision: 'signedOff', reason: '' })],
	'POST /api/jobs/[job]/orders/[order]/answers': [upload('answer.csv', new TextEncoder().encode('Order line,Unit price\n1,7654.32\n'))],
	'POST /api/jobs/[job]/orders/[order]/answers/as-ordered': [json({ number: null, promised: null })],
	'PATCH /api/jobs/[job]/orders/[order]/answers/[answer]': [json({ withdrawn: false })],
	'GET /api/jobs/[job]/orders/[order]/file': [{ query: '?as=xlsx&prices=yes' }, { query: '?as=pdf&prices=yes' }, { query: '?as=ubl&prices=yes' }],
	'PUT /api/jobs/[job]/plan': [json({ plans: [{ openingId: 'C-9.1', startsOn: '2027-03-01', release: 1, boughtAs: 'parts' }] })],
	'POST /api/jobs/[job]/presence': [json({ tab: 'tab-1', place: 'openings', row: 'c1', field: 'note', editing: true })],
	'GET /api/jobs/[job]/history': [{}, { query: '?row=c1' }],
	'GET /api/jobs/[job]/history/[revision]': [{}],
	'GET /api/jobs/[job]/material-list': [{}],
	'POST /api/jobs/[job]/measures': [json({ measureId: 'measure-0001', openingKey: 'c1.1', readings: trueOpening(120, 48, { left: 'groutedBlock', right: 'groutedBlock' }), note: '', measuredAt: '2026-12-01T09:30:00.000Z' })],
	'PATCH /api/jobs/[job]/measures/[measure]': [json({ withdrawn: false })],
	'GET /api/jobs/[job]/readiness/freed': [{}],
	'GET /api/jobs/[job]/readiness/day/print': [{ query: '?day=2027-03-01' }],
	'GET /api/jobs/[job]/measures/print': [{ query: '?what=blank' }, { query: '?what=measured' }],
	'POST /api/jobs/[job]/model/apply': [upload('hall.ifc', model, { editId: 'model', choice: JSON.stringify({ lines: [20], grouping: 'each', existing: 'leave' }) })],
	'POST /api/jobs/[job]/model/preview': [upload('hall.ifc', model)],
	'GET /api/jobs/[job]/price/working': [{ query: '?row=c1&id=price' }, { query: '?row=c1&id=curtainAmount' }, { query: '?row=c1&id=curtainPrice.cost' }],
	'GET /api/jobs/[job]/print': [{ query: '?what=schedule' }, { query: '?what=drawings' }],
	'POST /api/jobs/[job]/print': [json({ what: 'opening', rows: ['c1'] })],
	'POST /api/jobs/[job]/redo': [json({})],
	'POST /api/jobs/[job]/restore': [json({ revision: 1 })],
	'GET /api/jobs/[job]/schedule': [{ query: '?as=xlsx&columns=' }, { query: '?as=csv&columns=mark,price,directCost,curtainAmount' }],
	'POST /api/jobs/[job]/schedule/apply': [upload('pier.csv', schedule, { editId: 'pier' })],
	'POST /api/jobs/[job]/schedule/compare': [upload('pier.csv', schedule)],
	'DELETE /api/jobs/[job]/schedule/mappings/[kind]': [{}],
	'POST /api/jobs/[job]/schedule/preview': [upload('pier.csv', schedule)],
	'POST /api/jobs/[job]/undo': [json({})],
	'GET /api/jobs/[job]/view': [{}],
	'PUT /api/jobs/[job]/view': [json(usualView)],
	'GET /api/jobs/[job]/workbook': [{}],
	'GET /api/people': [{}],
	'PATCH /api/people/[person]': [json({ roles: ['installer'] })],
	'DELETE /api/people/[person]': [{}],
	'POST /api/people/invitations': [json({ name: 'Teal', email: 'teal@tern.example', roles: ['installer'] })],
	'DELETE /api/people/invitations/[invitation]': [{}],
	'POST /api/sign-in': [json({ email: 'nobody@tern.example', password: 'a long one, of nobody' })],
	'POST /api/sign-out': [{ last: true }],
	'POST /api/suppliers': [json(supplierBody)],
	'PUT /api/suppliers/[supplier]': [json(supplierBody)],
	'DELETE /api/suppliers/[supplier]': [{}],
	'PATCH /api/suppliers/[supplier]/words/[word]': [json({ withdrawn: true })],
	'GET /api/views': [{}],
	'POST /api/views': [json({ name: 'Mine', view: usualView })],
	'PATCH /api/views/[name]': [json({ name: 'Mine' })],
	'DELETE /api/views/[name]': [{}]
};

/** Everything a person receives from every address of the program. */
async function visitAll(
	server: RunningServer,
	{ cookie }: Colleague,
	values: Readonly<Record<string, string>>
): Promise<Received[]> {
	const received: Received[] = [];
	const last: (() => Promise<void>)[] = [];
	for (const { route, methods, page } of allRoutes()) {
		const path = addressOf(route, values);
		if (page) {
			received.push(await receive(server, cookie, 'GET', path, { headers: { accept: 'text/html' } }));
			received.push(await receive(server, cookie, 'GET', `${path === '/' ? '' : path}/__data.json`));
			continue;
		}
		for (const method of methods) {
			const ways = calls[`${method} ${route}`];
			if (!ways) throw new Error(`${method} ${route}: say in this test how it is called`);
			for (const way of ways) {
				const ask = async (): Promise<void> => {
					received.push(await receive(server, cookie, method, `${path}${way.query ?? ''}`, way));
				};
				if (way.last) last.push(ask);
				else await ask();
			}
		}
	}
	for (const ask of last) await ask();
	return received;
}

/** Where figures were found, and which. */
const foundIn = (received: readonly Received[], figures: ReadonlySet<string>): string[] => {
	const ways = [...figures].map((figure) => [figure, waysOf(figure)] as const);
	return received.flatMap(({ what, text }) =>
		ways.flatMap(([figure, way]) => (way.test(text) ? [`${what}: ${figure}`] : []))
	);
};

const figuresFound = (received: readonly Received[], figures: ReadonlySet<string>): Set<string> => {
	const text = received.map((one) => one.text).join('\n');
	return new Set([...figures].filter((figure) => waysOf(figure).test(text)));
};

/** Words of the price book that no page of an installer has a reason to hold. */
const namesOfPrices =
	/["{,](?:priceBook|springPound|liftDay|profitBasis|burden|directCost|unroundedPrice|purchases|unitCost)"?:/u;

/** Figures of the book in force that its technical half does not have: what the shop pays, and what it adds to that. */
const ofTechnicalBook = new Set(decimalsIn(demoTechnicalBook));
const costsInForce = new Set(
	decimalsIn(partCosts(demoPriceBook)).filter((figure) => !ofTechnicalBook.has(figure))
);
/** A size or weight may come out as 4.90 by chance; with three digits that count it hardly does. */
const digitsThatCount = (figure: string): number => figure.replace(/^[0.]+|0+$|\./gu, '').length;
const tellingCosts = new Set([...costsInForce].filter((figure) => digitsThatCount(figure) >= 3));
const addedInForce = new Set(
	decimalsIn(demoPriceBook).filter((figure) => !ofTechnicalBook.has(figure) && !costsInForce.has(figure))
);
/** Names of what is added, as data and as the script of a page have them. */
const namesOfAdded =
	/["{,](?:rates|burden|liftDay|mobilisation|contingency|overhead|profit|profitBasis|bond|roundingStep)"?:/u;

/** Which of them the page of the shop book and its data have, however they are written there. */
function inShopBook(received: readonly Received[], figures: ReadonlySet<string>): string[] {
	const pages = received.filter(({ what }) => what.startsWith('GET /shop-book'));
	expect(pages.map(({ status }) => status)).toEqual([200, 200]);
	const found = new Set(decimalsIn(pages.map(({ text }) => text)));
	const names = pages.filter(({ text }) => namesOfAdded.test(text)).map(({ what }) => `${what}: names`);
	return [...[...figures].filter((figure) => found.has(figure)), ...(figures === addedInForce ? names : [])];
}

describe.each(databases)('$name', ({ place }) => {
	it('sends no figure of a price to who may not see it', { timeout: 600_000 }, async () => {
		const where = await place();
		const { server, people } = await office(where, 'estimator', 'purchasing', 'installer');
		const [estimator, purchasing, installer] = people;
		if (!estimator || !purchasing || !installer) throw new Error('somebody is missing');
		const services = await temporaryServices(where);
		const { actor } = estimator;
		const { id: job } = value(
			await operations.createJob(actor, services, { name: 'Saltmarsh Pier', measures: 'imperial' })
		);
		const book = distinctBook();
		const digest = digestOf(book);
		await services.storage.books.putPrice(actor.companyId, digest, book, services.now());
		await services.storage.accountsDatabase.db
			.updateTable('job')
			.set({ price_digest: digest })
			.where('job_id', '=', job)
			.execute();

		const send = async (...changes: Parameters<typeof edit>[0]): Promise<void> => {
			value(await operations.applyEdit(actor, services, job, edit(changes)));
		};
		await send(
			addRow('c1', null, counter('C-9')),
			addRow('c2', 'c1', { ...counter('C-3'), ...cells({ operation: 'chain', phase: 'two' }) })
		);
		await send(setCell('c1', 'note', null, 'one'));
		await send(setCell('c1', 'note', 'one', 'two'));
		value(await operations.undoEdit(actor, services, job));
		value(await operations.freezeBid(actor, services, job, { title: 'To the owner' }));
		const delivery = value(
			await operations.checkDelivery(actor, services, job, {
				name: 'truck 1.csv',
				bytes: packingList,
				// The list names marks of another job.
				field: (name) => (name === 'ours' ? 'yes' : null)
			})
		).id;

		const photo = { name: 'photo.jpg', bytes: picture, field: () => 'photo-0001' };
		value(await operations.sendPhoto(installer.actor, services, job, photo));
		const damaged = {
			countId: 'count-0002',
			deliveryId: delivery,
			line: 5,
			crate: null,
			description: '',
			amounts: { whole: '0', damaged: '1', wrong: '0' },
			note: 'dent at mid-span',
			photoIds: ['photo-0001'],
			countedAt: '2026-12-01T09:30:00Z'
		};
		value(await operations.sendCounts(installer.actor, services, job, { counts: [damaged] }));

		// An order that went out and was answered with another price: its lines are priced by the book.
		const everything = { ...supplierBody, name: 'Dunlin', scopes: ['unit', 'part', 'stock'] };
		value(await operations.saveSupplier(actor, services, null, everything));
		const [proposal] = value(await operations.readOrders(actor, services, job)).proposals;
		const { orderId } = value(
			await operations.writeOrder(actor, services, job, {
				supplierId: proposal?.supplierId,
				phase: proposal?.phase,
				release: proposal?.release,
				digest: proposal?.digest
			})
		);
		const { version } = value(await operations.readOrder(actor, services, job, orderId));
		value(await operations.releaseOrder(actor, services, job, orderId, { version, reason: 'for the test' }));
		const answered = {
			name: 'answer.csv',
			bytes: new TextEncoder().encode(`Order line,Unit price\n1,${differentPrice}\n`),
			field: () => null
		};
		value(await operations.takeAnswer(actor, services, job, orderId, answered));
		const order = value(await operations.readOrder(actor, services, job, orderId));
		const price = order.answer?.differences.find(({ attribute }) => attribute === 'price');
		value(
			await operations.decideDifferences(actor, services, job, orderId, {
				keys: [price?.key],
				decision: 'signedOff',
				reason: `agreed at ${differentPrice}`
			})
		);

		const ofBook = await figuresOf(estimator, services, job, book);
		const ofOrders = decimalsIn([
			differentPrice,
			order.total,
			order.lines.map(({ unitPrice, amount }) => [unitPrice, amount])
		]).filter(tells);
		expect(ofOrders.length).toBeGreaterThan(20);
		const figures = { ...ofBook, all: new Set([...ofBook.all, ...ofOrders]) };
		expect(figures.all.size).toBeGreaterThan(150);
		expect(figures.notForPurchasing.size).toBeGreaterThan(30);
		const values = {
			job,
			delivery,
			bid: '1',
			row: 'c1',
			revision: '2',
			kind: 'unknown',
			name: 'Mine',
			token: 'unknown',
			session: 'unknown',
			invitation: 'unknown',
			person: 'unknown',
			supplier: 'unknown',
			order: orderId,
			answer: 'unknown',
			photo: 'photo-0001',
			word: 'unknown',
			line: '5',
			measure: 'measure-0001',
			opening: 'c1.1',
			part: partIdFor('C-9.1|guide|left|', 1),
			entry: '2'
		};

		const toInstaller = await visitAll(server, installer, values);
		expect(foundIn(toInstaller, figures.all)).toEqual([]);
		expect(toInstaller.filter(({ text }) => namesOfPrices.test(text)).map(({ what }) => what)).toEqual([]);
		expect(inShopBook(toInstaller, tellingCosts)).toEqual([]);
		expect(inShopBook(toInstaller, addedInForce)).toEqual([]);
		// The pages of the job really came.
		const came = (received: readonly Received[], path: string): number | undefined =>
			received.find(({ what }) => what === `GET ${path}`)?.status;
		expect(came(toInstaller, `/jobs/${job}/openings`)).toBe(200);
		expect(came(toInstaller, `/api/jobs/${job}/print?what=drawings`)).toBe(200);
		expect(came(toInstaller, `/jobs/${job}/site/damage/${delivery}`)).toBe(200);
		expect(came(toInstaller, `/jobs/${job}/site/board`)).toBe(200);
		expect(came(toInstaller, `/jobs/${job}/parts/${values.part}`)).toBe(200);
		expect(came(toInstaller, `/jobs/${job}/price`)).toBe(403);
		for (const path of ['', `/${orderId}`]) expect(came(toInstaller, `/jobs/${job}/orders${path}`)).toBe(403);

		const toPurchasing = await visitAll(server, purchasing, values);
		expect(foundIn(toPurchasing, figures.notForPurchasing)).toEqual([]);
		// Whoever buys sees what an order costs, on its page and on its paper.
		const orderSeen = foundIn(toPurchasing, new Set(ofOrders)).map((text) => text.split(/[:?]/u, 1)[0]);
		for (const path of [`/jobs/${job}/orders/${orderId}`, `/api/jobs/${job}/orders/${orderId}/file`])
			expect(orderSeen).toContain(`GET ${path}`);
		const partsSeen = figuresFound(toPurchasing, figures.ofParts).size;
		expect(partsSeen).toBeGreaterThan(20);
		expect(inShopBook(toPurchasing, costsInForce)).toHaveLength(costsInForce.size);
		expect(inShopBook(toPurchasing, addedInForce)).toEqual([]);

		// The same search finds them where they may be: it can fail.
		const toEstimator = await visitAll(server, estimator, values);
		const seen = figuresFound(toEstimator, figures.all);
		expect(seen.size).toBeGreaterThan(figures.notForPurchasing.size);
		expect([costsInForce.size > 60, tellingCosts.size > 20, addedInForce.size]).toEqual([true, true, 9]);
		expect(inShopBook(toEstimator, costsInForce)).toHaveLength(costsInForce.size);
		// And both pages with their names.
		expect(inShopBook(toEstimator, addedInForce)).toHaveLength(11);
		const priced = new Set(
			foundIn(toEstimator, figures.notForPurchasing).map((text) => text.split(/[ ?:]/u, 2).join(' '))
		);
		for (const path of [
			`/jobs/${job}/price`,
			`/jobs/${job}/price/__data.json`,
			`/api/jobs/${job}/workbook`,
			`/api/jobs/${job}/price/working`,
			`/api/jobs/${job}/bids/1`
		])
			expect([...priced]).toContain(`GET ${path}`);
	});
});
