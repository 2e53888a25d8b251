/** Orders of a job all the way: planned, written, held, released, answered, decided, revised, on both databases. */
import { join } from 'node:path';
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import type { OrderAnswer, OrdersAnswer, ProposalView } from '../../src/lib/changes/orders.ts';
import { roleIds } from '../../src/lib/changes/roles.ts';
import type { FieldReadings } from '../../src/lib/fieldwork/field-measure.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { loadDemo } from '../../src/lib/server/operations/load-demo.ts';
import { openingKeysOf } from '../../src/lib/server/operations/opening-keys.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import type { Part } from '../../src/lib/takeoff/result.ts';
import { databases } from './databases.ts';
import { addRow, counter, edit, refusal, setCell, temporaryServices, typed, value } from './services.ts';

const wren: Actor = { id: 'wren', companyId: localActor.companyId, name: 'Wren', roles: roleIds };
const teal: Actor = { ...wren, id: 'teal', name: 'Teal' };

/** Noon of a Tuesday, wherever the server is. */
const today = '2026-12-01';
const atNoon = new Date(2026, 11, 1, 12);

interface Place {
	readonly services: Services;
	readonly job: string;
	/** Sets the clock on by so many days. */
	readonly later: (days: number) => void;
	readonly read: () => Promise<OrdersAnswer>;
	readonly order: (orderId: string) => Promise<OrderAnswer>;
	readonly write: (proposal: ProposalView | undefined) => Promise<string>;
}

const supplierBody = (name: string, scopes: readonly string[], leadDays: number, daysBefore: number) => ({
	name,
	scopes,
	leadDays,
	daysBefore,
	handsFrom: 'coilSide',
	sizes: 'part',
	concealedDamageDays: null
});

function placeOn(opened: Services, job: string): Place {
	let days = 0;
	const services = { ...opened, now: () => new Date(atNoon.getTime() + days * 86_400_000) };
	return {
		services,
		job,
		later: (more) => (days += more),
		read: async () => value(await operations.readOrders(wren, services, job)),
		order: async (orderId) => value(await operations.readOrder(wren, services, job, orderId)),
		write: async (proposal) => {
			if (!proposal) throw new Error('there is nothing to write');
			const { supplierId, phase, release, digest } = proposal;
			return value(await operations.writeOrder(wren, services, job, { supplierId, phase, release, digest }))
				.orderId;
		}
	};
}

/** A job with two openings of C-9, two suppliers, and the work at both openings planned for 2027-03-15, a Monday. */
async function counterJob(database: string): Promise<Place> {
	const opened = await temporaryServices(database);
	const { id: job } = value(
		await operations.createJob(wren, opened, { name: 'Saltmarsh Pier Market Hall', measures: 'imperial' })
	);
	value(await operations.applyEdit(wren, opened, job, edit([addRow('c9', null, counter('C-9'))])));
	for (const body of [
		supplierBody('Northreach Shutter Works', ['unit', 'part'], 42, 3),
		supplierBody('Dunlin Fixings & Seals', ['stock'], 7, 2)
	])
		value(await operations.saveSupplier(wren, opened, null, body));
	const plans = ['C-9.1', 'C-9.2'].map((openingId) => ({
		openingId,
		startsOn: '2027-03-15',
		release: 1,
		boughtAs: 'parts'
	}));
	value(await operations.savePlan(wren, opened, job, { plans }));
	return placeOn(opened, job);
}

const northreachOf = ({ proposals }: OrdersAnswer): ProposalView | undefined =>
	proposals.find(({ supplierName }) => supplierName.startsWith('Northreach'));

async function partsOf({ services, job }: Place): Promise<readonly Part[]> {
	const { parts } = value(await operations.readTakeoff(wren, services, job));
	return parts;
}

/** Releases the latest revision, whatever holds it. */
async function release({ services, job, order }: Place, orderId: string, who = wren): Promise<void> {
	const { version } = await order(orderId);
	value(
		await operations.releaseOrder(who, services, job, orderId, {
			version,
			reason: 'The fitter measures on Monday.'
		})
	);
}

const form = (name: string, text: string, fields: Readonly<Record<string, string>> = {}) => ({
	name,
	bytes: new TextEncoder().encode(text),
	field: (field: string) => fields[field] ?? null
});

/** An answer as delimited text: every line as it was ordered, but for what is changed. */
function answerText(
	{ number, lines, currency }: OrderAnswer,
	change: (line: { quantity: string; price: string; promised: string }, number: number) => void = () =>
		undefined
): string {
	const rows = lines.map((line) => {
		const said = { quantity: line.quantity, price: line.unitPrice ?? '', promised: '2027-03-01' };
		change(said, line.number);
		return [line.number, said.quantity, line.unit, said.price, said.promised].join(',');
	});
	return [
		`Your order: ${number}`,
		`Prices in ${currency}`,
		'Order line,Quantity,Unit,Unit price,Promised date',
		...rows
	].join('\n');
}

/** The same answer as an OrderResponse of UBL 2.1; its codes of lines are 5, accepted as it is, and 3, changed (UN/ECE 1229). */
function answerDocument(
	{ number, lines, currency }: OrderAnswer,
	change: Parameters<typeof answerText>[1] = () => undefined
): string {
	const namespace = 'urn:oasis:names:specification:ubl:schema:xsd:';
	const rows = lines.map((line) => {
		const said = { quantity: line.quantity, price: line.unitPrice ?? '', promised: '2027-03-01' };
		const before = { ...said };
		change(said, line.number);
		const status = Object.entries(before).every(([field, text]) => said[field as keyof typeof said] === text)
			? 5
			: 3;
		const price =
			said.price === ''
				? ''
				: `<cac:Price><cbc:PriceAmount currencyID="${currency}">${said.price}</cbc:PriceAmount></cac:Price>`;
		return `<cac:OrderLine><cac:LineItem><cbc:ID>${line.number}</cbc:ID><cbc:LineStatusCode>${status}</cbc:LineStatusCode>
			<cbc:Quantity unitCode="${line.unit === 'ft' ? 'FOT' : 'EA'}">${said.quantity}</cbc:Quantity>
			<cac:Delivery><cac:PromisedDeliveryPeriod><cbc:EndDate>${said.promised}</cbc:EndDate></cac:PromisedDeliveryPeriod></cac:Delivery>
			${price}<cac:Item><cbc:Name>as ordered</cbc:Name></cac:Item></cac:LineItem>
			<cac:OrderLineReference><cbc:LineID>${line.number}</cbc:LineID></cac:OrderLineReference></cac:OrderLine>`;
	});
	return `<?xml version="1.0" encoding="UTF-8"?>
		<OrderResponse xmlns="${namespace}OrderResponse-2" xmlns:cac="${namespace}CommonAggregateComponents-2"
			xmlns:cbc="${namespace}CommonBasicComponents-2">
			<cbc:UBLVersionID>2.1</cbc:UBLVersionID><cbc:ID>NSW-A-7</cbc:ID><cbc:IssueDate>2026-12-02</cbc:IssueDate>
			<cac:OrderReference><cbc:ID>${number}</cbc:ID></cac:OrderReference>
			<cac:SellerSupplierParty><cac:Party/></cac:SellerSupplierParty>
			<cac:BuyerCustomerParty><cac:Party/></cac:BuyerCustomerParty>
			${rows.join('\n')}
		</OrderResponse>`;
}

/** Everything that is in the history of the job, as everybody on it may read it. */
const historyText = async ({ services, job }: Place): Promise<string> =>
	JSON.stringify(value(await operations.readHistory(wren, services, job, {})));

/** Read in a way of its own: the parts of an order's lines, against the material list. */
function sums(things: readonly { readonly key: string; readonly quantity: string }[]): Map<string, string> {
	const totals = new Map<string, Decimal>();
	for (const { key, quantity } of things) totals.set(key, (totals.get(key) ?? new Decimal(0)).plus(quantity));
	return new Map([...totals].map(([key, total]) => [key, total.toFixed()]));
}

describe.each(databases)('$name', ({ place }) => {
	it(
		'the orders of both demo jobs come to their material lists, each part once',
		{ timeout: 240_000 },
		async () => {
			const opened = await temporaryServices(await place());
			await loadDemo(wren, opened, join('fixtures', 'schedules'));
			const jobs = value(await operations.listJobs(wren, opened)).jobs;
			expect(jobs).toHaveLength(2);
			for (const { id } of jobs) {
				const at = placeOn(opened, id);
				const parts = await partsOf(at);
				// Some openings are bought complete, and a few are sent for later.
				const openings = [...new Set(parts.map(({ openingId }) => openingId))];
				const plans = openings.map((openingId, i) => ({
					openingId,
					startsOn: i % 7 === 6 ? null : '2027-03-15',
					release: i % 5 === 4 ? 2 : 1,
					boughtAs: i % 3 === 2 ? 'unit' : 'parts'
				}));
				value(await operations.savePlan(wren, at.services, id, { plans }));
				const { proposals, notPlaced } = await at.read();
				expect(notPlaced).toEqual([]);
				expect(proposals.length).toBeGreaterThan(3);
				for (const proposal of proposals) await at.write(proposal);
				expect((await at.read()).proposals).toEqual([]);

				const stored = await at.services.storage.orders.all({ companyId: wren.companyId, jobId: id });
				const lines = stored.flatMap(({ revisions }) => revisions.at(-1)?.order.lines ?? []);
				const ordered = lines.flatMap(({ partIds }) => partIds);
				expect(ordered.toSorted()).toEqual(parts.map(({ partId }) => partId).toSorted());
				// By kind and unit, of what is bought by the part; complete units are counted by their openings.
				const byPart = lines.filter(({ scope, kind }) => scope !== 'unit' && kind !== null);
				const units = lines.filter(({ scope }) => scope === 'unit');
				const inUnits = new Set(units.flatMap(({ partIds }) => partIds));
				expect(
					sums(byPart.map(({ kind, unit, quantity }) => ({ key: `${kind} ${unit}`, quantity })))
				).toEqual(
					sums(
						parts
							.filter(({ partId }) => !inUnits.has(partId))
							.map(({ kind, unit, quantity }) => ({ key: `${kind} ${unit}`, quantity }))
					)
				);
				const complete = plans
					.filter(({ boughtAs }) => boughtAs === 'unit')
					.map(({ openingId }) => openingId);
				const makers = new Set(
					parts.filter(({ supply }) => supply === 'maker').map(({ openingId }) => openingId)
				);
				expect(units.flatMap(({ openingIds }) => openingIds).toSorted()).toEqual(
					complete.filter((openingId) => makers.has(openingId)).toSorted()
				);
				for (const { quantity, openingIds } of units) expect(quantity).toBe(String(openingIds.length));
				// Numbers are of this job, one after the other.
				const [signs] = (stored[0]?.number ?? '').split('-');
				expect(signs).toMatch(/^[0-9A-Z]{5}$/u);
				expect(stored.map(({ number }) => number)).toEqual(
					stored.map((_, i) => `${signs}-${String(i + 1).padStart(2, '0')}`)
				);
			}
			const [first, second] = await Promise.all(
				jobs.map(({ id }) => opened.storage.orders.all({ companyId: wren.companyId, jobId: id }))
			);
			expect(first?.[0]?.number.slice(0, 5)).not.toBe(second?.[0]?.number.slice(0, 5));
		}
	);

	it('splits what is to be ordered by supplier, with the days it has to be sent and be there', async () => {
		const at = await counterJob(await place());
		const read = await at.read();
		const { today: day, proposals, open, plans } = read;
		expect(day).toBe(today);
		expect(plans.map(({ openingId, startsOn }) => [openingId, startsOn])).toEqual([
			['C-9.1', '2027-03-15'],
			['C-9.2', '2027-03-15']
		]);
		const northreach = northreachOf(read);
		// Monday 2027-03-15 less 3 days is Friday 03-12; less 42 days is Friday 2027-01-29.
		expect([northreach?.needBy, northreach?.orderBy]).toEqual(['2027-03-12', '2027-01-29']);
		const dunlin = proposals.find(({ supplierName }) => supplierName.startsWith('Dunlin'));
		// Less 2 days is Saturday 03-13, so Friday 03-12; less 7 days is Friday 03-05.
		expect([dunlin?.needBy, dunlin?.orderBy]).toEqual(['2027-03-12', '2027-03-05']);
		expect(open.map(({ kind, day: until, supplierName }) => [kind, until, supplierName])).toEqual([
			['toWrite', '2027-01-29', 'Northreach Shutter Works'],
			['toWrite', '2027-03-05', 'Dunlin Fixings & Seals']
		]);
		expect(northreach?.holds.map(({ text }) => text)).toEqual([
			'C-9.1 is not measured.',
			'C-9.2 is not measured.'
		]);
		at.later(60);
		// 2027-01-30: the day before was the last.
		expect((await at.read()).open[0]).toMatchObject({ kind: 'toWrite', overdue: true });
	});

	it('without a supplier says what is in no order', async () => {
		const at = await counterJob(await place());
		const { suppliers } = value(await operations.readSuppliers(wren, at.services));
		for (const { id, name } of suppliers)
			if (name.startsWith('Dunlin')) value(await operations.removeSupplier(wren, at.services, id));
		const { notPlaced } = await at.read();
		expect(notPlaced).toHaveLength(1);
		expect(notPlaced[0]?.text).toMatch(
			/^Nobody is named for stock: \d+ parts of 2 openings are in no order/u
		);
	});

	it('an order is written once, and only as it was seen', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const proposal = northreachOf(await at.read());
		if (!proposal) throw new Error('there is no proposal');
		const { supplierId, phase, release: number, digest } = proposal;
		const body = { supplierId, phase, release: number, digest };
		// Both at once: one of them writes it.
		const outcomes = await Promise.all([
			operations.writeOrder(wren, services, job, body),
			operations.writeOrder(teal, services, job, body)
		]);
		expect(outcomes.filter(({ ok }) => ok)).toHaveLength(1);
		const refused = outcomes.find(({ ok }) => !ok);
		expect(refused && refusal(refused).status).toBe(409);
		expect((await at.read()).orders).toHaveLength(1);
		expect(refusal(await operations.writeOrder(wren, services, job, body)).message).toContain(
			'Nothing is left to order of this'
		);
		// Another start is another order: its digest is not the one that was seen.
		const before = (await at.read()).proposals[0];
		const plans = [{ openingId: 'C-9.1', startsOn: '2027-02-15', release: 1, boughtAs: 'parts' }];
		value(await operations.savePlan(wren, services, job, { plans }));
		const stale = await operations.writeOrder(wren, services, job, {
			supplierId: before?.supplierId,
			phase: before?.phase,
			release: before?.release,
			digest: before?.digest
		});
		expect(refusal(stale)).toMatchObject({ status: 409 });
		expect((await at.read()).orders).toHaveLength(1);
		expect(refusal(await operations.writeOrder(wren, services, job, { ...body, release: 0 })).status).toBe(
			422
		);
	});

	it('goes out only when measured, or for a reason somebody answers for, and once', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const orderId = await at.write(northreachOf(await at.read()));
		const written = await at.order(orderId);
		expect(written).toMatchObject({ state: 'written', revision: 1, editable: true });
		expect(written.holds).toHaveLength(2);
		const { version } = written;
		const attempt = (reason: string | null) =>
			operations.releaseOrder(wren, services, job, orderId, { version, reason });
		expect(refusal(await attempt(null))).toMatchObject({ status: 422, field: 'reason' });
		expect(refusal(await attempt(' \u200B\t'))).toMatchObject({ status: 422 });
		expect((await at.order(orderId)).state).toBe('written');
		value(await attempt('The fitter measures on Monday; USD 77.77 agreed.'));
		const out = await at.order(orderId);
		expect(out).toMatchObject({ state: 'released', editable: false, holds: [] });
		expect(out.revisions[0]?.released).toEqual({
			at: atNoon.toISOString(),
			by: 'Wren',
			reason: 'The fitter measures on Monday; USD 77.77 agreed.'
		});
		// Twice, with what was seen before and with what is seen now.
		expect(refusal(await attempt('again'))).toMatchObject({ status: 409 });
		const again = await operations.releaseOrder(wren, services, job, orderId, {
			version: out.version,
			reason: 'again'
		});
		expect(refusal(again).message).toContain('went out already, released by Wren');
		expect(await historyText(at)).not.toContain('77.77');
	});

	it('is let go by measures that agree', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const orderId = await at.write(northreachOf(await at.read()));
		await measure(at, 'C-9.1', 'm1', atNoon);
		expect((await at.order(orderId)).holds.map(({ openingId }) => openingId)).toEqual(['C-9.2']);
		await measure(at, 'C-9.2', 'm2', atNoon);
		const { holds, version } = await at.order(orderId);
		expect(holds).toEqual([]);
		value(await operations.releaseOrder(wren, services, job, orderId, { version, reason: null }));
		expect((await at.order(orderId)).revisions[0]?.released?.reason).toBeNull();
	});

	it('prices, days and notes are written while it has not gone out, and against what was seen', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const orderId = await at.write(northreachOf(await at.read()));
		const [line] = (await at.order(orderId)).lines;
		if (!line) throw new Error('there is no line');
		const { number, unitPrice, needBy, note } = line;
		const was = { unitPrice, needBy, note };
		const change = (who: Actor, now: object, seen: object = was) =>
			operations.changeOrderLine(who, services, job, orderId, {
				revision: 1,
				line: number,
				was: seen,
				now: { ...was, ...now }
			});
		for (const wrong of ['-1', '1e3', '1,000.00', 'free', '1.1234567', ''])
			expect(refusal(await change(wren, { unitPrice: wrong })).message).toContain('A price is a number');
		for (const wrong of ['2027-02-29', '01.03.2027', '2027-13-01'])
			expect(refusal(await change(wren, { needBy: wrong })).message).toContain('A day is written as');
		expect((await at.order(orderId)).lines[0]).toEqual(line);

		value(await change(wren, { unitPrice: '8123.5', needBy: '2027-03-05', note: 'as told\nby telephone' }));
		const changed = (await at.order(orderId)).lines[0];
		expect(changed).toMatchObject({
			unitPrice: '8123.50',
			needBy: '2027-03-05',
			// 42 days before.
			orderBy: '2027-01-22',
			note: 'as told by telephone',
			amount: new Decimal('8123.5').times(line.quantity).toFixed(2)
		});
		// Somebody who still sees what was there before.
		expect(refusal(await change(teal, { unitPrice: '9000.00' }))).toMatchObject({ status: 409 });
		expect((await at.order(orderId)).lines[0]).toEqual(changed);
		const text = await historyText(at);
		expect(text).toContain(`Line ${number}, price`);
		expect(text).not.toContain('8123');
		await release(at, orderId);
		const seen = { unitPrice: '8123.50', needBy: '2027-03-05', note: 'as told by telephone' };
		expect(refusal(await change(wren, { unitPrice: '1.00' }, seen)).message).toContain(
			'it stays as it was sent'
		);
	});

	it('an answer says the same as a table and as a document of UBL', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const orderId = await at.write(northreachOf(await at.read()));
		await release(at, orderId);
		const written = await at.order(orderId);
		const [first, second, third] = written.lines;
		const change: Parameters<typeof answerText>[1] = (said, number) => {
			if (number === first?.number) said.price = '9999.99';
			if (number === second?.number) said.promised = '2027-04-30';
			if (number === third?.number) said.quantity = '1';
		};
		const found: unknown[] = [];
		for (const [name, text] of [
			['answer.csv', answerText(written, change)],
			['answer.xml', answerDocument(written, change)]
		] as const) {
			const taken = await operations.takeAnswer(wren, services, job, orderId, form(name, text, {}));
			expect(value(taken)).toMatchObject({ taken: true, differences: 3 });
			const { answer, answers } = await at.order(orderId);
			expect(answers[0]).toMatchObject({ name });
			found.push(
				answer?.differences.map(({ orderLine, attribute, ordered, answered }) => [
					orderLine,
					attribute,
					ordered,
					answered
				])
			);
			at.later(1);
		}
		expect(found[1]).toEqual(found[0]);
		expect(found[1]).toEqual([
			[first?.number, 'price', first?.unitPrice, '9999.99'],
			[second?.number, 'promised', second?.needBy, '2027-04-30'],
			[third?.number, 'quantity', third?.quantity, '1']
		]);
		// Cut off in the middle, it is told where, and nothing is kept.
		const half = answerDocument(written).slice(0, 900);
		const broken = await operations.takeAnswer(wren, services, job, orderId, form('half.xml', half, {}));
		expect(refusal(broken).message).toContain('half.xml');
		expect((await at.order(orderId)).answers).toHaveLength(2);
	});

	it('every difference of an answer is decided, and the open list tells until when', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const orderId = await at.write(northreachOf(await at.read()));
		const take = (text: string, fields: Readonly<Record<string, string>> = {}) =>
			operations.takeAnswer(wren, services, job, orderId, form('answer.csv', text, fields));
		const written = await at.order(orderId);
		expect(refusal(await take(answerText(written))).message).toContain('has not gone out');
		await release(at, orderId);
		expect((await at.read()).open.find(({ kind }) => kind === 'answer')).toMatchObject({
			// Five days after 2026-12-01 is Sunday 12-06, so the Friday before.
			day: '2026-12-04',
			overdue: false
		});
		at.later(1);
		const [first, second] = written.lines;
		if (!first || !second) throw new Error('there are no two lines');
		const text = answerText(written, (said, number) => {
			if (number === first.number) said.price = '9999.99';
			if (number === second.number) said.promised = '2027-04-30';
		});
		expect(value(await take(text))).toMatchObject({ taken: true, differences: 2 });
		// The same once more, under another name: told, and nothing doubled.
		const twice = await operations.takeAnswer(wren, services, job, orderId, form('again.csv', text));
		expect(refusal(twice).message).toContain('in already: answer.csv');
		const answered = await at.order(orderId);
		expect(answered.state).toBe('answered');
		expect(answered.answers).toHaveLength(1);
		const differences = answered.answer?.differences ?? [];
		expect(differences.map(({ orderLine, attribute }) => [orderLine, attribute])).toEqual([
			[first.number, 'price'],
			[second.number, 'promised']
		]);
		expect(answered.answer?.byLine[first.number]).toMatchObject([{ unitPrice: '9999.99' }]);
		expect(
			(await at.read()).open
				.filter(({ kind }) => kind === 'difference')
				.map(({ day, overdue }) => [day, overdue])
		).toEqual([
			['2027-01-29', false],
			['2027-01-29', false]
		]);

		const decide = (keys: readonly string[], decision: string, reason = '') =>
			operations.decideDifferences(teal, services, job, orderId, { keys, decision, reason });
		const [price = '', promised = ''] = differences.map(({ key }) => key);
		expect(refusal(await decide([price], 'sentBack', '  ')).field).toBe('reason');
		expect(refusal(await decide(['unknown'], 'signedOff')).status).toBe(409);
		value(await decide([price], 'sentBack', 'The price of the offer was 12.34.'));
		value(await decide([promised], 'signedOff'));
		const decided = (await at.order(orderId)).answer?.differences ?? [];
		expect(decided.map(({ decision }) => [decision?.decision, decision?.by])).toEqual([
			['sentBack', 'Teal'],
			['signedOff', 'Teal']
		]);
		// What was sent back is open until an answer agrees; what was signed off is not.
		const kindsOpen = async () =>
			(await at.read()).open.filter(({ order }) => order !== null).map(({ kind }) => kind);
		expect(await kindsOpen()).toEqual(['sentBack']);
		value(await decide([promised], 'open'));
		expect(await kindsOpen()).toEqual(['sentBack', 'difference']);
		value(await decide([promised], 'signedOff', 'It is late enough.'));

		at.later(1);
		const another = answerText(written, (said, number) => {
			if (number === first.number) said.price = '8888.88';
			if (number === second.number) said.promised = '2027-04-30';
		});
		expect(value(await take(another))).toMatchObject({ taken: true, differences: 2 });
		// Another price is another difference; the day that was signed off stays signed off.
		expect(await kindsOpen()).toEqual(['difference']);
		at.later(1);
		const right = answerText(written, (said, number) => {
			if (number === second.number) said.promised = '2027-04-30';
		});
		value(await take(right));
		expect(await kindsOpen()).toEqual([]);
		// Taken out, the answer before counts again.
		const [latest] = (await at.order(orderId)).answers;
		const ids = { orderId, answerId: latest?.acknowledgementId ?? '' };
		value(await operations.withdrawAnswer(wren, services, job, ids, { withdrawn: true }));
		expect(await kindsOpen()).toEqual(['difference']);
		const text2 = await historyText(at);
		for (const amount of ['9999', '8888', '12.34']) expect(text2).not.toContain(amount);
	});

	it('takes no answer to another order, and asks what can be read two ways', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const first = await at.write(northreachOf(await at.read()));
		const second = await at.write((await at.read()).proposals[0]);
		await release(at, first);
		await release(at, second);
		const [one, other] = [await at.order(first), await at.order(second)];
		const take = (text: string, fields: Readonly<Record<string, string>> = {}) =>
			operations.takeAnswer(wren, services, job, first, form('answer.csv', text, fields));
		expect(refusal(await take(answerText(other))).message).toContain(
			`answers order ${other.number}, not ${one.number}`
		);
		expect(refusal(await take(answerText({ ...one, number: 'ZZZZZ-01' }))).message).toContain(
			'is no order of this job'
		);
		expect(refusal(await take('one two three')).status).toBe(422);
		expect(refusal(await take('<?xml version="1.0"?><a/>')).status).toBe(422);
		// 03/04/2027 is the 3rd of April or the 4th of March.
		const doubtful = answerText(one, (said) => (said.promised = '03/04/2027'));
		const asked = value(await take(doubtful));
		expect(asked.taken).toBe(false);
		expect((await at.order(first)).answers).toEqual([]);
		expect(value(await take(doubtful, { dayOrder: 'monthFirst' }))).toMatchObject({
			taken: true,
			differences: 0
		});
		// As it stands, by hand; a day later than wanted is told.
		const byHand = { number: 'N-77', promised: '2027-03-20' };
		expect(value(await operations.takeAsOrdered(wren, services, job, second, byHand))).toMatchObject({
			taken: true,
			differences: other.lines.filter(({ needBy }) => needBy !== null).length
		});
		expect(refusal(await operations.takeAsOrdered(wren, services, job, second, byHand)).status).toBe(409);
	});

	it('a revision keeps the numbers of lines, waits for what is undecided, and leaves what was sent', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const orderId = await at.write(northreachOf(await at.read()));
		await release(at, orderId);
		const sent = await at.order(orderId);
		const answer = answerText(sent, (said, number) => {
			if (number === 1) said.quantity = '7';
		});
		at.later(1);
		value(await operations.takeAnswer(wren, services, job, orderId, form('answer.csv', answer)));
		// One opening more, and another width.
		const { rows } = value(await operations.readOpenings(wren, services, job));
		const before = rows[0]?.cells.openingWidth ?? null;
		const wider = typed('openingWidth', '5\'-0"');
		value(
			await operations.applyEdit(wren, services, job, edit([setCell('c9', 'openingWidth', before, wider)]))
		);
		const stale = await at.order(orderId);
		expect(stale.outOfStep.length).toBeGreaterThan(0);
		expect((await at.read()).open.map(({ kind }) => kind)).toContain('outOfStep');
		const { next, version } = stale;
		expect(next?.revision).toBe(2);
		expect(next?.changes.length).toBeGreaterThan(0);
		const revise = (digest: string | undefined) =>
			operations.reviseJobOrder(teal, services, job, orderId, { version, digest });
		expect(refusal(await revise('another')).status).toBe(409);
		value(await revise(next?.digest));
		const revised = await at.order(orderId);
		expect(revised).toMatchObject({ state: 'revised', revision: 2, editable: true, outOfStep: [] });
		expect(revised.revisions.map(({ revision, madeBy }) => [revision, madeBy])).toEqual([
			[2, 'Teal'],
			[1, 'Wren']
		]);
		const titles = new Map(sent.lines.map(({ number, title }) => [number, title]));
		for (const { number, title } of revised.lines)
			expect(titles.get(number) ?? 'new', `line ${number}`).toBe(titles.has(number) ? title : 'new');
		for (const { number } of sent.lines) expect(revised.lines.map((line) => line.number)).toContain(number);
		// The quantity that was answered otherwise is not decided: it holds the new revision.
		expect(revised.holds.map(({ kind }) => kind)).toContain('difference');
		// What was sent stands as it was sent.
		const key = { companyId: wren.companyId, jobId: job };
		const [stored] = await services.storage.orders.all(key);
		expect(stored?.revisions[0]?.order.lines.map(({ number, quantity }) => [number, quantity])).toEqual(
			sent.lines.map(({ number, quantity }) => [number, quantity])
		);
		// Somebody who saw the first revision changes nothing.
		const late = await operations.withdrawOrder(wren, services, job, orderId, { version });
		expect(refusal(late).message).toContain('revision 2 stands as Teal wrote it');
		// Taken back, the first stands again.
		const drop = { version: revised.version };
		value(await operations.dropRevision(wren, services, job, orderId, drop));
		expect(await at.order(orderId)).toMatchObject({ state: 'answered', revision: 1 });
		const again = await at.order(orderId);
		value(
			await operations.reviseJobOrder(teal, services, job, orderId, {
				version: again.version,
				digest: again.next?.digest
			})
		);
		at.later(1);
		await release(at, orderId, teal);
		// The new revision wants an answer of its own.
		expect((await at.order(orderId)).state).toBe('released');
		expect((await at.order(orderId)).answer).toBeNull();
	});

	it('parts of a withdrawn order are there to be ordered again, and never twice', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const orderId = await at.write(northreachOf(await at.read()));
		expect(northreachOf(await at.read())).toBeUndefined();
		const withdraw = async () =>
			operations.withdrawOrder(wren, services, job, orderId, { version: (await at.order(orderId)).version });
		const restore = async () =>
			operations.restoreOrder(wren, services, job, orderId, { version: (await at.order(orderId)).version });
		value(await withdraw());
		expect(refusal(await withdraw()).status).toBe(409);
		expect(northreachOf(await at.read())).toBeDefined();
		value(await restore());
		value(await withdraw());
		const second = await at.write(northreachOf(await at.read()));
		expect(refusal(await restore()).message).toContain((await at.order(second)).number);
		const { number } = await at.order(second);
		expect(number.endsWith('-02')).toBe(true);
	});

	it(
		'is written as a workbook, pages and a document, with prices or without',
		{ timeout: 60_000 },
		async () => {
			const at = await counterJob(await place());
			const { services, job } = at;
			const orderId = await at.write(northreachOf(await at.read()));
			const write = (query: object) => operations.writeOrderFile(wren, services, job, orderId, query);
			expect(refusal(await write({ as: 'ubl', prices: 'yes' })).message).toContain('Release it first');
			await release(at, orderId);
			const { lines, number } = await at.order(orderId);
			const start = (content: Uint8Array | string): string =>
				typeof content === 'string' ? content.slice(0, 5) : String.fromCharCode(...content.subarray(0, 4));
			expect(start(value(await write({ as: 'xlsx', prices: 'yes' })).content)).toBe('PK\u0003\u0004');
			expect(start(value(await write({ as: 'pdf', prices: 'no', paper: 'a4' })).content)).toBe('%PDF');
			const priced = value(await write({ as: 'ubl', prices: 'yes' }));
			expect(priced.fileName).toBe(`order ${number} revision 1.xml`);
			const price = lines.find(({ unitPrice }) => unitPrice !== null)?.unitPrice ?? 'none';
			expect(priced.content).toContain(`>${price}<`);
			expect(value(await write({ as: 'ubl', prices: 'no' })).content).not.toContain('PriceAmount');
			expect(refusal(await write({ as: 'ubl', prices: 'yes', revision: '3' })).status).toBe(404);
			expect(refusal(await write({ as: 'doc', prices: 'yes' })).status).toBe(422);
		}
	);
});

const inch = 25_400_000;

/** Measures an opening as it is drawn, true and plumb, with room around it. */
async function measure(
	{ services, job }: Place,
	openingId: string,
	measureId: string,
	at: Date
): Promise<void> {
	const rows = await services.storage.openings.live({ companyId: wren.companyId, jobId: job });
	const { technicalDigest } =
		(await services.storage.jobs.find({ companyId: wren.companyId, jobId: job })) ?? {};
	const engine = await services.engines.engine(wren.companyId, technicalDigest ?? '');
	const takeoff = engine.takeoff(rows, 'imperial');
	const [opening] = takeoff.openings;
	const nm = (id: string): number => {
		const figure = opening?.get(id);
		if (typeof figure !== 'number') throw new Error(`${id} is not known`);
		return figure;
	};
	const [width, height] = [nm('openingWidth'), nm('openingHeight')];
	const diagonal = Math.round(Math.hypot(width, height));
	const jamb = [0, height / 2, height].map((level) => ({ height: level, inPlane: 0, outOfPlane: 0 }));
	const wall = (side: string): string => String(opening?.get(`substrate${side}`));
	const readings: FieldReadings = {
		widths: { bottom: width, middle: width, top: width },
		heights: { left: height, right: height },
		diagonals: { rising: diagonal, falling: diagonal },
		plumb: { left: jamb, right: jamb },
		sillRise: 0,
		headroom: 60 * inch,
		leftSideRoom: 36 * inch,
		rightSideRoom: 36 * inch,
		leftSubstrate: wall('Left'),
		rightSubstrate: wall('Right')
	};
	await services.storage.measures.add(
		{ companyId: wren.companyId, jobId: job },
		{
			measureId,
			openingKey: openingKeysOf(takeoff).keys.get(openingId) ?? '',
			readings,
			note: '',
			measuredAt: at.toISOString()
		},
		wren,
		at
	);
}
