/**
 * Who may do what, written out by hand: every operation, every single role and none, the own company and a foreign one.
 * Each is really called, with right arguments, on the same job, put back after it; what is refused or foreign changes
 * nothing.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { nothing } from '../../src/lib/fieldwork/sample-measures.ts';
import { roleIds, type Role } from '../../src/lib/changes/roles.ts';
import { usualView } from '../../src/lib/changes/sheet-view.ts';
import { nobody, type Actor } from '../../src/lib/server/identity/actor.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Outcome } from '../../src/lib/server/operations/outcome.ts';
import { closeServicesOf, openServices, type Services } from '../../src/lib/server/operations/services.ts';
import { partIdFor } from '../../src/lib/takeoff/parts.ts';
import { databases } from './databases.ts';
import { KeptRows } from './kept-rows.ts';
import { employ, foundCompany, visitOf, type Employee } from './office.ts';
import { addRow, counter, edit, setCell, temporaryServices, value } from './services.ts';

const actor = (companyId: string, id: string, roles: readonly Role[]): Actor => ({
	id,
	companyId,
	name: 'Wren',
	roles
});

const bytesOf = (...path: string[]): Uint8Array => new Uint8Array(readFileSync(join('fixtures', ...path)));
const schedule = bytesOf('schedules', 'small', 'byte-order-mark.csv');
const model = bytesOf('models', 'market-hall-feet.ifc');
const packingList = bytesOf('deliveries', 'saltmarsh-truck-2.csv');

interface UploadForm {
	readonly name: string;
	readonly bytes: Uint8Array;
	field(name: string): string | null;
}
const form = (
	name: string,
	bytes: Uint8Array,
	fields: Readonly<Record<string, string>> = {}
): UploadForm => ({ name, bytes, field: (field) => fields[field] ?? null });

/** A picture by its first bytes; nothing here looks at the rest. */
const picture = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16]);
const foundCount = {
	line: null,
	crate: null,
	description: 'Chain hoist',
	amounts: { whole: '1', damaged: '0', wrong: '0' },
	note: '',
	photoIds: [],
	countedAt: '2026-12-01T09:30:00Z'
};

/** The packing list names marks of another job, and comes more than once. */
const allTheSame = { ours: 'yes', anotherTruck: 'yes' };

/** One job of the home company with something of everything in it. */
interface Scene {
	readonly services: Services;
	readonly owner: Actor;
	/** Somebody of the company who can sign in. */
	readonly member: Employee;
	readonly invitation: { readonly id: string; readonly token: string };
	readonly job: string;
	readonly delivery: string;
	readonly removedDelivery: string;
	readonly photo: string;
	readonly mappingKind: string;
	/** Of the company, with a word of theirs. */
	readonly supplier: string;
	readonly orders: OrdersOfScene;
	readonly view: string;
	/** Of the scene, and of the person whose it is. */
	readonly id: string;
}

/** What somebody sees of an order when they change it, and of what is still to be ordered. */
interface OrdersOfScene {
	readonly toWrite: object;
	/** Written, and not gone out. */
	readonly written: { readonly orderId: string; readonly version: string; readonly line: object };
	/** Gone out and answered: every line promised too late. */
	readonly sent: {
		readonly orderId: string;
		readonly version: string;
		readonly digest: string;
		readonly answerId: string;
		readonly difference: string;
	};
	/** With a second revision that has not gone out. */
	readonly revised: { readonly orderId: string; readonly version: string };
	readonly withdrawn: { readonly orderId: string; readonly version: string };
}

/** The one supplier of the company, of whom everything is bought. */
async function everythingOf(who: Actor, services: Services): Promise<string> {
	const { suppliers } = value(await operations.readSuppliers(who, services));
	const there = suppliers.find(({ scopes }) => scopes.length > 0);
	if (there) return there.id;
	const body = { ...supplierBody('of all'), scopes: ['unit', 'part', 'stock'] };
	return value(await operations.saveSupplier(who, services, null, body)).id;
}

/** Five openings in releases of their own, so that there is an order in every state. */
async function ordersIn(who: Actor, services: Services, job: string): Promise<OrdersOfScene> {
	await everythingOf(who, services);
	const add = addRow('o1', 'c1', { ...counter('C-7'), quantity: 5 });
	value(await operations.applyEdit(who, services, job, edit([add])));
	const plans = [1, 2, 3, 4, 5].map((number) => ({
		openingId: `C-7.${number}`,
		startsOn: '2027-03-01',
		release: 10 + number,
		boughtAs: 'parts'
	}));
	value(await operations.savePlan(who, services, job, { plans }));
	const proposalFor = async (release: number): Promise<object> => {
		const { proposals } = value(await operations.readOrders(who, services, job));
		const found = proposals.find((one) => one.release === release);
		if (!found) throw new Error(`nothing is to be ordered for release ${release}`);
		return { supplierId: found.supplierId, phase: found.phase, release, digest: found.digest };
	};
	const write = async (release: number): Promise<string> =>
		value(await operations.writeOrder(who, services, job, await proposalFor(release))).orderId;
	const see = async (orderId: string) => value(await operations.readOrder(who, services, job, orderId));
	const letGo = async (orderId: string): Promise<void> => {
		const { version } = await see(orderId);
		value(await operations.releaseOrder(who, services, job, orderId, { version, reason: 'for the test' }));
	};
	const [written, sent, revised, withdrawn] = [
		await write(11),
		await write(12),
		await write(13),
		await write(14)
	];
	await letGo(sent);
	await letGo(revised);
	const late = { number: null, promised: '2027-12-01' };
	value(await operations.takeAsOrdered(who, services, job, sent, late));
	const { version, next } = await see(revised);
	value(await operations.reviseJobOrder(who, services, job, revised, { version, digest: next?.digest }));
	value(
		await operations.withdrawOrder(who, services, job, withdrawn, { version: (await see(withdrawn)).version })
	);
	const [first] = (await see(written)).lines;
	const answered = await see(sent);
	const was = { unitPrice: first?.unitPrice ?? null, needBy: first?.needBy ?? null, note: first?.note ?? '' };
	return {
		toWrite: await proposalFor(15),
		written: {
			orderId: written,
			version: (await see(written)).version,
			line: { revision: 1, line: first?.number, was, now: { ...was, note: 'as told' } }
		},
		sent: {
			orderId: sent,
			version: answered.version,
			digest: answered.next?.digest ?? '',
			answerId: answered.answers[0]?.acknowledgementId ?? '',
			difference: answered.answer?.differences[0]?.key ?? ''
		},
		revised: { orderId: revised, version: (await see(revised)).version },
		withdrawn: { orderId: withdrawn, version: (await see(withdrawn)).version }
	};
}

/** An answer that says nothing of the one line that every order has. */
const answerFile = 'Order line,Quantity,Unit\n1,2,each\n';
const answer = form('answer.csv', new TextEncoder().encode(answerFile));

/** Nothing is bought of them, so that there can be many. */
const supplierBody = (id: string) => ({
	name: `Northreach ${id}`,
	scopes: [],
	leadDays: 42,
	daysBefore: 2,
	handsFrom: 'coilSide',
	sizes: 'part',
	concealedDamageDays: null
});
const planBody = { plans: [{ openingId: 'C-9.1', startsOn: '2027-03-01', release: 1, boughtAs: 'parts' }] };

/** One width of the first counter. */
const measureBody = (measureId: string) => ({
	measureId,
	openingKey: 'c1.1',
	readings: { ...nothing, widths: { bottom: 3_048_000_000, middle: null, top: null } },
	note: '',
	measuredAt: '2026-12-01T09:30:00.000Z'
});

let made = 0;
async function sceneOf(services: Services, owner: Actor): Promise<Scene> {
	const id = `s${++made}`;
	const everything = actor(owner.companyId, id, roleIds);
	const who = { name: 'Teal', email: `${id}@tern.example` };
	const member = await employ(services, owner, who, ['installer', 'purchasing']);
	const another = { name: 'Plover', email: `plover-${id}@tern.example`, roles: ['installer'] };
	const { invitation, path } = value(await operations.invite(owner, services, another));
	const { id: job } = value(
		await operations.createJob(everything, services, { name: `Saltmarsh ${id}`, measures: 'imperial' })
	);
	const send = async (...changes: Parameters<typeof edit>[0]): Promise<void> => {
		value(await operations.applyEdit(everything, services, job, edit(changes)));
	};
	await send(addRow('c1', null, counter('C-9')));
	await send(setCell('c1', 'note', null, 'one'));
	const take = async (name: string): Promise<string> =>
		value(await operations.checkDelivery(everything, services, job, form(name, packingList, allTheSame))).id;
	const delivery = await take('truck 1.csv');
	const removedDelivery = await take('truck 2.csv');
	value(await operations.removeDelivery(everything, services, job, removedDelivery));
	const photo = `photo-of-${id}`;
	value(
		await operations.sendPhoto(everything, services, job, form('photo.jpg', picture, { photoId: photo }))
	);
	const counted = { ...foundCount, countId: `count-of-${id}`, deliveryId: delivery };
	value(await operations.sendCounts(everything, services, job, { counts: [counted] }));
	await services.storage.deliveries.change({ companyId: owner.companyId, jobId: job }, delivery, {
		counted: { by: 'Wren', at: '2026-12-01T09:40:00.000Z' }
	});
	value(await operations.freezeBid(everything, services, job, { title: 'To the owner' }));
	const view = `View ${id}`;
	value(await operations.saveView(everything, services, { name: view, view: usualView }));
	const supplier = value(await operations.saveSupplier(everything, services, null, supplierBody(id))).id;
	const word = { aliasId: 'word', supplierId: supplier, phrase: ' roll tube ', kind: 'barrel' } as const;
	await services.storage.suppliers.addAlias(
		owner.companyId,
		{ ...word, item: null, hand: null },
		everything,
		services.now()
	);
	value(await operations.saveMeasure(everything, services, job, measureBody(`measure-${id}`)));
	const mappingKind = `kind-${id}`;
	await services.storage.mappings.put(owner.companyId, mappingKind, { sheet: 0 } as never, services.now());
	const orders = await ordersIn(everything, services, job);
	// Something to undo and something to do again.
	await send(setCell('c1', 'note', 'one', 'two'));
	value(await operations.undoEdit(everything, services, job));
	return {
		services,
		owner,
		member,
		invitation: { id: invitation.id, token: path.slice(path.lastIndexOf('/') + 1) },
		job,
		delivery,
		removedDelivery,
		photo,
		mappingKind,
		supplier,
		orders,
		view,
		id
	};
}

type Call = (actor: Actor, scene: Scene) => Promise<Outcome<unknown>>;

/** The person of the scene who can sign in, with the roles of the one who acts. */
const asMember = (who: Actor, { member }: Scene): Actor =>
	who.id === '' ? who : { ...who, id: member.actor.id };

/** E estimator, P purchasing, I installer, O owner, in this order; then - without a role, and ? before signing in. */
type Letters = string;
const letters: Readonly<Record<Role, string>> = {
	estimator: 'E',
	purchasing: 'P',
	installer: 'I',
	owner: 'O'
};
const order: readonly Role[] = ['estimator', 'purchasing', 'installer', 'owner'];

/**
 * What a foreign company gets of it: 404; `own` when it acts on what is its own and reaches nothing else; `nothing`
 * when there is nothing to find; `book` for the shop book that comes with the program; `link` for whoever holds it.
 */
type Foreign = 404 | 'own' | 'nothing' | 'book' | 'link';

async function changePasswordAndBack(
	member: Actor,
	{ services, member: { password } }: Scene
): Promise<Outcome<unknown>> {
	const next = 'heron on the long pier';
	const outcome = await operations.changePassword(member, services, visitOf(), { current: password, next });
	if (outcome.ok)
		value(await operations.changePassword(member, services, visitOf(), { current: next, next: password }));
	return outcome;
}

async function endNewSession(
	member: Actor,
	{ services, member: credentials }: Scene
): Promise<Outcome<unknown>> {
	const { email, password } = credentials;
	value(await operations.signIn(nobody, services, visitOf(), { email, password }));
	const [session] = await services.accounts.sessions(member.id);
	return operations.endSession(member, services, session?.id ?? '');
}

async function follow(who: Actor, { services, job }: Scene): Promise<Outcome<unknown>> {
	const request = { after: '0', tab: 'tab-1', recheck: () => Promise.resolve(who) };
	const outcome = await operations.followJob(who, services, job, request);
	if (outcome.ok) await outcome.value.cancel();
	return outcome;
}

// prettier-ignore
const expected: Readonly<Record<string, readonly [may: Letters, foreign: Foreign, call: Call]>> = {
	listJobs:           ['EPIO', 'nothing', (a, s) => operations.listJobs(a, s.services)],
	createJob:          ['E',    'own', (a, s) => operations.createJob(a, s.services, { name: 'New', measures: 'metric' })],
	copyJob:            ['E',    404, (a, s) => operations.copyJob(a, s.services, s.job, { name: 'Copy' })],
	changeJob:          ['E',    404, (a, s) => operations.changeJob(a, s.services, s.job, { name: 'Renamed' })],
	openJob:            ['EPI',  404, (a, s) => operations.openJob(a, s.services, s.job)],
	followJob:          ['EPI',  404, (a, s) => follow(a, s)],
	tellWhereabouts:    ['EPI',  404, (a, s) => operations.tellWhereabouts(a, s.services, s.job, { tab: 't', place: null, row: null, field: null, editing: false })],

	readOpenings:       ['EPI',  404, (a, s) => operations.readOpenings(a, s.services, s.job)],
	applyEdit:          ['E',    404, (a, s) => operations.applyEdit(a, s.services, s.job, edit([setCell('c1', 'phase', null, 'one')]))],
	undoEdit:           ['E',    404, (a, s) => operations.undoEdit(a, s.services, s.job)],
	redoEdit:           ['E',    404, (a, s) => operations.redoEdit(a, s.services, s.job)],
	previewSchedule:    ['E',    404, (a, s) => operations.previewSchedule(a, s.services, s.job, form('pier.csv', schedule))],
	compareJobSchedule: ['E',    404, (a, s) => operations.compareJobSchedule(a, s.services, s.job, form('pier.csv', schedule))],
	applySchedule:      ['E',    404, (a, s) => operations.applySchedule(a, s.services, s.job, form('pier.csv', schedule, { editId: `in-${s.id}` }))],
	forgetMapping:      ['E',    404, (a, s) => operations.forgetMapping(a, s.services, s.job, s.mappingKind)],
	previewModel:       ['E',    404, (a, s) => operations.previewModel(a, s.services, s.job, form('hall.ifc', model))],
	applyModel:         ['E',    404, (a, s) => operations.applyModel(a, s.services, s.job, form('hall.ifc', model, { editId: `model-${s.id}`, choice: JSON.stringify({ lines: [20, 21], grouping: 'each', existing: 'leave' }) }))],

	readTakeoff:        ['EPI',  404, (a, s) => operations.readTakeoff(a, s.services, s.job)],
	readPrice:          ['E',    404, (a, s) => operations.readPrice(a, s.services, s.job)],
	explainPrice:       ['E',    404, (a, s) => operations.explainPrice(a, s.services, s.job, 'c1', 'price')],
	readPurchasePrices: ['EP',   404, (a, s) => operations.readPurchasePrices(a, s.services, s.job)],

	listBids:           ['E',    404, (a, s) => operations.listBids(a, s.services, s.job)],
	readBid:            ['E',    404, (a, s) => operations.readBid(a, s.services, s.job, '1')],
	readBidOpening:     ['E',    404, (a, s) => operations.readBidOpening(a, s.services, s.job, '1', 'c1')],
	compareBids:        ['E',    404, (a, s) => operations.compareBids(a, s.services, s.job, { first: '1', second: 'now' })],
	freezeBid:          ['E',    404, (a, s) => operations.freezeBid(a, s.services, s.job, { title: 'Again' })],

	readHistory:        ['EPI',  404, (a, s) => operations.readHistory(a, s.services, s.job)],
	readHistoryLines:   ['EPI',  404, (a, s) => operations.readHistoryLines(a, s.services, s.job, '1')],
	restoreJob:         ['E',    404, (a, s) => operations.restoreJob(a, s.services, s.job, { revision: 1 })],

	recognise:          ['EPIO-?', 'own', (a, s) => operations.recognise(a, s.services, null)],
	signIn:             ['EPIO-?', 'own', (a, s) => operations.signIn(a, s.services, visitOf(), { email: s.member.email, password: s.member.password })],
	signOut:            ['EPIO-?', 'own', (a, s) => operations.signOut(a, s.services, visitOf())],
	readInvitation:     ['EPIO-?', 'link', (a, s) => operations.readInvitation(a, s.services, visitOf(), s.invitation.token)],
	acceptInvitation:   ['EPIO-?', 'link', (a, s) => operations.acceptInvitation(a, s.services, visitOf(), s.invitation.token, { name: 'Plover', password: 'heron on the long pier' })],

	readAccount:        ['EPIO-', 404, (a, s) => operations.readAccount(asMember(a, s), s.services, visitOf())],
	changePassword:     ['EPIO-', 404, (a, s) => changePasswordAndBack(asMember(a, s), s)],
	endSession:         ['EPIO-', 'own', (a, s) => endNewSession(asMember(a, s), s)],
	endOtherSessions:   ['EPIO-', 'own', (a, s) => operations.endOtherSessions(asMember(a, s), s.services, visitOf())],

	readPeople:         ['O',    'nothing', (a, s) => operations.readPeople(a, s.services)],
	invite:             ['O',    'own', (a, s) => operations.invite(a, s.services, { name: 'Dunlin', email: `dunlin-${s.id}-${a.companyId}@tern.example`, roles: ['installer'] })],
	withdrawInvitation: ['O',    404, (a, s) => operations.withdrawInvitation(a, s.services, s.invitation.id)],
	changeRoles:        ['O',    404, (a, s) => operations.changeRoles(a, s.services, s.member.actor.id, { roles: ['installer'] })],
	removePerson:       ['O',    404, (a, s) => operations.removePerson(a, s.services, s.member.actor.id)],

	readSuppliers:      ['EP',   'nothing', (a, s) => operations.readSuppliers(a, s.services)],
	saveSupplier:       ['EP',   404, (a, s) => operations.saveSupplier(a, s.services, s.supplier, { ...supplierBody(s.id), leadDays: 30 })],
	removeSupplier:     ['EP',   404, (a, s) => operations.removeSupplier(a, s.services, s.supplier)],
	changeAlias:        ['EP',   404, (a, s) => operations.changeAlias(a, s.services, { supplierId: s.supplier, aliasId: 'word' }, { withdrawn: true })],
	savePlan:           ['EP',   404, (a, s) => operations.savePlan(a, s.services, s.job, planBody)],

	readOrders:         ['EP',   404, (a, s) => operations.readOrders(a, s.services, s.job)],
	readOrder:          ['EP',   404, (a, s) => operations.readOrder(a, s.services, s.job, s.orders.sent.orderId)],
	writeOrder:         ['EP',   404, (a, s) => operations.writeOrder(a, s.services, s.job, s.orders.toWrite)],
	changeOrderLine:    ['EP',   404, (a, s) => operations.changeOrderLine(a, s.services, s.job, s.orders.written.orderId, s.orders.written.line)],
	reviseJobOrder:     ['EP',   404, (a, s) => operations.reviseJobOrder(a, s.services, s.job, s.orders.sent.orderId, { version: s.orders.sent.version, digest: s.orders.sent.digest })],
	dropRevision:       ['EP',   404, (a, s) => operations.dropRevision(a, s.services, s.job, s.orders.revised.orderId, { version: s.orders.revised.version })],
	releaseOrder:       ['EP',   404, (a, s) => operations.releaseOrder(a, s.services, s.job, s.orders.written.orderId, { version: s.orders.written.version, reason: 'for the test' })],
	withdrawOrder:      ['EP',   404, (a, s) => operations.withdrawOrder(a, s.services, s.job, s.orders.written.orderId, { version: s.orders.written.version })],
	restoreOrder:       ['EP',   404, (a, s) => operations.restoreOrder(a, s.services, s.job, s.orders.withdrawn.orderId, { version: s.orders.withdrawn.version })],
	takeAnswer:         ['EP',   404, (a, s) => operations.takeAnswer(a, s.services, s.job, s.orders.sent.orderId, answer)],
	takeAsOrdered:      ['EP',   404, (a, s) => operations.takeAsOrdered(a, s.services, s.job, s.orders.sent.orderId, { number: 'N-2', promised: null })],
	withdrawAnswer:     ['EP',   404, (a, s) => operations.withdrawAnswer(a, s.services, s.job, { orderId: s.orders.sent.orderId, answerId: s.orders.sent.answerId }, { withdrawn: true })],
	decideDifferences:  ['EP',   404, (a, s) => operations.decideDifferences(a, s.services, s.job, s.orders.sent.orderId, { keys: [s.orders.sent.difference], decision: 'signedOff', reason: '' })],
	writeOrderFile:     ['EP',   404, (a, s) => operations.writeOrderFile(a, s.services, s.job, s.orders.sent.orderId, { as: 'ubl', prices: 'yes' })],

	readDeliveries:     ['EPI',  404, (a, s) => operations.readDeliveries(a, s.services, s.job)],
	checkDelivery:      ['EP',   404, (a, s) => operations.checkDelivery(a, s.services, s.job, form('truck 3.csv', packingList, allTheSame))],
	previewDelivery:    ['EP',   404, (a, s) => operations.previewDelivery(a, s.services, s.job, form('truck 3.csv', packingList))],
	typeDelivery:       ['EP',   404, (a, s) => operations.typeDelivery(a, s.services, s.job, { name: 'Truck 4, typed', supplierId: null, lines: [{ mark: 'C-9', description: 'Guide, left', quantity: '1' }] })],
	decideLine:         ['EP',   404, (a, s) => operations.decideLine(a, s.services, s.job, { deliveryId: s.delivery, line: '5' }, { decision: { kind: 'notOurs', reason: 'nobody ordered it' }, seen: null, remember: false })],
	answerDelivery:     ['EP',   404, (a, s) => operations.answerDelivery(a, s.services, s.job, s.delivery, { about: 'handsFrom', before: null, after: 'farSide' })],
	removeDelivery:     ['EP',   404, (a, s) => operations.removeDelivery(a, s.services, s.job, s.delivery)],
	restoreDelivery:    ['EP',   404, (a, s) => operations.restoreDelivery(a, s.services, s.job, s.removedDelivery)],

	readSite:           ['EPI',  404, (a, s) => operations.readSite(a, s.services, s.job)],
	readCountSheet:     ['EPI',  404, (a, s) => operations.readCountSheet(a, s.services, s.job, s.delivery)],
	sendCounts:         ['EPI',  404, (a, s) => operations.sendCounts(a, s.services, s.job, { counts: [{ ...foundCount, countId: `another-${s.id}`, deliveryId: s.delivery }] })],
	finishCount:        ['EPI',  404, (a, s) => operations.finishCount(a, s.services, s.job, s.delivery, { finished: false, at: '2026-12-01T10:00:00Z' })],
	sendPhoto:          ['EPI',  404, (a, s) => operations.sendPhoto(a, s.services, s.job, form('photo.jpg', picture, { photoId: `another-${s.id}` }))],
	readPhoto:          ['EPI',  404, (a, s) => operations.readPhoto(a, s.services, s.job, s.photo)],
	readDamage:         ['EPI',  404, (a, s) => operations.readDamage(a, s.services, s.job, s.delivery)],
	writeDamageNotes:   ['EPI',  404, (a, s) => operations.writeDamageNotes(a, s.services, s.job, s.delivery, {})],
	readBoard:          ['EPI',  404, (a, s) => operations.readBoard(a, s.services, s.job, {})],
	readFreed:          ['EPI',  404, (a, s) => operations.readFreed(a, s.services, s.job, {})],
	readDay:            ['EPI',  404, (a, s) => operations.readDay(a, s.services, s.job, {})],
	writeDay:           ['EPI',  404, (a, s) => operations.writeDay(a, s.services, s.job, {})],
	readChain:          ['EPI',  404, (a, s) => operations.readChain(a, s.services, s.job, partIdFor('C-9.1|guide|left|', 1))],
	findParts:          ['EPI',  404, (a, s) => operations.findParts(a, s.services, s.job, 'guide')],

	readMeasures:       ['EPI',  404, (a, s) => operations.readMeasures(a, s.services, s.job)],
	readMeasure:        ['EPI',  404, (a, s) => operations.readMeasure(a, s.services, s.job, 'c1.1')],
	saveMeasure:        ['EPI',  404, (a, s) => operations.saveMeasure(a, s.services, s.job, measureBody(`another-${s.id}`))],
	/** The one who asks took it; what others may is in measures.test.ts. */
	withdrawMeasure:    ['EPI',  404, (a, s) => operations.withdrawMeasure(a, s.services, s.job, `measure-${s.id}`, { withdrawn: true })],
	writeMeasureSheet:  ['EPI',  404, (a, s) => operations.writeMeasureSheet(a, s.services, s.job, {})],

	writeMaterialList:  ['EPI',  404, (a, s) => operations.writeMaterialList(a, s.services, s.job)],
	writeSchedule:      ['EPI',  404, (a, s) => operations.writeSchedule(a, s.services, s.job, { as: 'csv', columns: '' })],
	writePrint:         ['EPI',  404, (a, s) => operations.writePrint(a, s.services, s.job, { what: 'schedule' })],
	writeJobWorkbook:   ['E',    404, (a, s) => operations.writeJobWorkbook(a, s.services, s.job)],

	readViews:          ['EPIO', 'nothing', (a, s) => operations.readViews(a, s.services)],
	readLastView:       ['EPI',  404, (a, s) => operations.readLastView(a, s.services, s.job)],
	keepLastView:       ['EPI',  404, (a, s) => operations.keepLastView(a, s.services, s.job, usualView)],
	saveView:           ['EPIO', 'own', (a, s) => operations.saveView(a, s.services, { name: `Another ${s.id}`, view: usualView })],
	renameView:         ['EPIO', 404, (a, s) => operations.renameView(a, s.services, s.view, { name: `Renamed ${s.id}` })],
	removeView:         ['EPIO', 404, (a, s) => operations.removeView(a, s.services, s.view)],

	readTechnicalBook:  ['EPIO', 'book', (a, s) => operations.readTechnicalBook(a, s.services)],
	readPartCosts:      ['EPO',  'book', (a, s) => operations.readPartCosts(a, s.services)],
	readPriceBook:      ['EO',   'book', (a, s) => operations.readPriceBook(a, s.services)],

	makeExample:        ['E',    'own', (a, s) => operations.makeExample(a, s.services)]
};

it('has a row for every operation, and for nothing else', () => {
	expect(Object.keys(expected).sort()).toEqual(Object.keys(operations).sort());
});

interface Companies {
	readonly services: Services;
	/** Owners of the company of these tests, and of another one. */
	readonly owner: Actor;
	readonly foreign: Actor;
}

async function companiesOn(place: () => Promise<string>): Promise<Companies> {
	const where = await place();
	const founding = await openServices(where);
	const owners = [await foundCompany(founding), await foundCompany(founding)].map(({ owner }) => owner.actor);
	await closeServicesOf(founding);
	const [owner = nobody, foreign = nobody] = owners;
	return { services: await temporaryServices(where), owner, foreign };
}

describe.each(databases)('$name', ({ place }) => {
	it('each role may do what is written here, and what is refused changes nothing', async () => {
		const { services, owner } = await companiesOn(place);
		const { companyId } = owner;
		const scene = await sceneOf(services, owner);
		const actors: readonly (readonly [letter: string, who: Actor])[] = [
			...order.map((role) => [letters[role], actor(companyId, scene.id, [role])] as const),
			['-', actor(companyId, scene.id, [])],
			['?', nobody]
		];
		const before = await KeptRows.of(services.storage, { companyId });
		for (const [name, [may, , call]] of Object.entries(expected)) {
			const isRefused = ([letter]: readonly [string, Actor]): boolean => !may.includes(letter);
			for (const [letter, who] of actors.filter(isRefused)) {
				const outcome = await call(who, scene);
				const refused = letter === '?' ? 401 : 403;
				expect(`${name} ${letter} ${outcome.ok ? 'done' : outcome.status}`).toBe(
					`${name} ${letter} ${refused}`
				);
			}
			expect(before.changesTo(await before.now()), name).toEqual([]);
			for (const one of actors.filter((one) => !isRefused(one))) {
				const [letter, who] = one;
				const outcome = await call(who, scene);
				expect(`${name} ${letter} ${outcome.ok ? 'done' : outcome.refusal.message}`).toBe(
					`${name} ${letter} done`
				);
				// What was changed may not be there to be changed again.
				await before.putBack(await before.now());
			}
		}
		expect(before.changesTo(await before.now())).toEqual([]);
	});

	it('another company reaches nothing of it, whoever asks', async () => {
		const { services, owner, foreign } = await companiesOn(place);
		const scene = await sceneOf(services, owner);
		const before = await KeptRows.of(services.storage, { companyId: owner.companyId });
		// The same id with all roles: nothing but the company tells them apart.
		const stranger = actor(foreign.companyId, scene.id, roleIds);
		for (const [name, [, reach, call]] of Object.entries(expected)) {
			if (reach === 'link') continue;
			const outcome = await call(stranger, scene);
			const got = outcome.ok ? 'done' : outcome.status;
			expect([name, got]).toEqual([name, reach === 404 ? 404 : 'done']);
			// Every name in the scene ends with its id, and so do its addresses; what the stranger made is listed there.
			if (outcome.ok && reach === 'nothing')
				expect(JSON.stringify(outcome.value), name).not.toMatch(
					new RegExp(`(Saltmarsh|View) ${scene.id}|${scene.id}@|plover-`, 'u')
				);
			expect(before.changesTo(await before.now()), name).toEqual([]);
		}
	});
});
