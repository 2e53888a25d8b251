import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Supplier } from '../../delivery/ordering/purchase-order.ts';
import { scheduleRows } from '../../exchange/schedule.ts';
import type { Actor } from '../identity/actor.ts';
import { checkDelivery } from './check-delivery.ts';
import { exampleMeasures, firstDays } from './example-days.ts';
import { keyOf } from './find-job.ts';
import { finishCount } from './finish-count.ts';
import { readBuying } from './job-buying.ts';
import { done, type Outcome } from './outcome.ts';
import { readOrder } from './read-order.ts';
import { readOrders } from './read-orders.ts';
import { readScheduleFile } from './read-schedule.ts';
import { releaseOrder } from './release-order.ts';
import { saveMeasure } from './save-measure.ts';
import { savePlan } from './save-plan.ts';
import { sendCounts } from './send-count.ts';
import type { Services } from './services.ts';
import { pinShopBooks } from './shop-books.ts';
import { takeAnswer } from './take-answer.ts';
import { typeDelivery } from './type-delivery.ts';
import { writeHistory } from './write-history.ts';
import { writeOrder } from './write-order.ts';

/** As the examples lie beside the program. */
const fixtures = join(process.cwd(), 'fixtures');
const name = 'Saltmarsh Pier Market Hall, under way';
const trucks = ['saltmarsh-truck-1.xlsx', 'saltmarsh-truck-2.csv'] as const;

/** An example that can't be made is a fault of the program: its files come with it. */
function must<T>(outcome: Outcome<T>): T {
	if (!outcome.ok) throw new Error(`the example could not be made: ${outcome.refusal.message}`);
	return outcome.value;
}

async function scheduleJob(actor: Actor, services: Services): Promise<string> {
	const { technicalDigest, priceDigest } = await pinShopBooks(actor, services);
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const file = 'saltmarsh-pier.xlsx';
	const bytes = new Uint8Array(await readFile(join(fixtures, 'schedules', file)));
	const read = must(await readScheduleFile(file, bytes, engine, 'imperial', {}));
	const rows = scheduleRows(read).map(({ cells }) => ({ id: services.newId(), cells, removed: false }));
	const key = keyOf(actor, services.newId());
	const at = services.now();
	await services.storage.transaction(async (inside) => {
		const job = { name, measures: 'imperial', technicalDigest, priceDigest, demo: true } as const;
		await inside.jobs.insert(key, job, at);
		await inside.openings.arrange(key, rows, new Set(rows.map((row) => row.id)));
		const records = [{ record: 'Job', name, field: 'Name', before: null, after: name }];
		const entry = { revision: 0, kind: 'job' as const, title: 'Make the invented example', records };
		await writeHistory(inside, key, actor, entry, at);
		return done(null);
	});
	return key.jobId;
}

/** Invented, for the invented jobs; only where nobody is bought of yet. */
const exampleSuppliers: readonly Omit<Supplier, 'id'>[] = [
	{
		name: 'Northreach Shutter Works',
		scopes: ['unit', 'part'],
		leadDays: 42,
		daysBefore: 3,
		handsFrom: 'coilSide',
		sizes: 'part',
		concealedDamageDays: 5
	},
	{
		name: 'Dunlin Fixings & Seals',
		scopes: ['stock'],
		leadDays: 7,
		daysBefore: 2,
		handsFrom: 'coilSide',
		sizes: 'part',
		concealedDamageDays: null
	}
];

/** Writes them down once in the life of a company. */
export async function writeExampleSuppliers({ companyId }: Actor, services: Services): Promise<void> {
	const at = services.now();
	await services.storage.transaction(async ({ milestones, suppliers }) => {
		if (!(await milestones.reach(companyId, 'demo-suppliers', at))) return { ok: false };
		if ((await suppliers.list(companyId)).length > 0) return done(null);
		for (const supplier of exampleSuppliers)
			await suppliers.put(companyId, { id: services.newId(), ...supplier }, at);
		return done(null);
	});
}

/** Orders what the maker sends for the first phase, lets it go, and takes in an answer that differs in two lines. */
async function order(actor: Actor, services: Services, job: string): Promise<void> {
	const { proposals } = must(await readOrders(actor, services, job));
	for (const { supplierId, phase, release, digest } of proposals.filter((one) => one.phase === '1')) {
		const written = must(await writeOrder(actor, services, job, { supplierId, phase, release, digest }));
		const { orderId } = written;
		const { version, lines } = must(await readOrder(actor, services, job, orderId));
		const reason = 'The lead time leaves no room: openings are measured before anything is cut to length.';
		must(await releaseOrder(actor, services, job, orderId, { version, reason }));
		// The first line one short, the second at a later day; everything else as ordered.
		const rows = lines.map(({ number, quantity, needBy }, at) => {
			const answered = at === 0 && Number(quantity) > 1 ? String(Number(quantity) - 1) : quantity;
			return [number, answered, at === 1 ? firstDays(services.now()).late : (needBy ?? '')].join(',');
		});
		const text = [`Answer to order ${written.number}`, 'Line,Qty confirmed,Promised date', ...rows].join(
			'\n'
		);
		const bytes = new TextEncoder().encode(text);
		const fields = { dayOrder: null, decimalMark: null, unit: null, sure: 'yes' };
		const form = {
			name: `answer ${written.number}.csv`,
			bytes,
			field: (field: string) => new Map(Object.entries(fields)).get(field) ?? null
		};
		must(await takeAnswer(actor, services, job, orderId, form));
	}
}

/**
 * Takes in both trucks and a van with two of the four motors that C-101 waits for, and counts the first: one piece of its
 * first line is damaged, the rest is as listed.
 */
async function deliver(actor: Actor, services: Services, job: string): Promise<void> {
	const { suppliers } = must(await readBuying(actor, services, job));
	const supplierId = suppliers.find(({ scopes }) => scopes.includes('part'))?.id ?? null;
	for (const file of trucks) {
		const bytes = new Uint8Array(await readFile(join(fixtures, 'deliveries', file)));
		const field = (name: string): string | null => (name === 'supplierId' ? supplierId : null);
		must(await checkDelivery(actor, services, job, { name: file, bytes, field }));
	}
	const lines = [{ mark: 'C-101', description: 'Tube motor', quantity: '2', unit: 'each' }];
	must(await typeDelivery(actor, services, job, { name: 'Van, typed', supplierId, lines }));
	const [first] = must(await readBuying(actor, services, job)).deliveries;
	if (!first) throw new Error('no truck was taken in');
	const countedAt = services.now().toISOString();
	const counts = first.lines.map(({ line, crate, quantity }, at) => {
		const listed = quantity ?? 0;
		const damaged = at === 0 && listed > 0 ? 1 : 0;
		return {
			countId: services.newId(),
			deliveryId: first.deliveryId,
			line,
			crate,
			description: '',
			amounts: { whole: String(listed - damaged), damaged: String(damaged), wrong: '0' },
			note: damaged > 0 ? 'Slats bent at one end; crate was open' : '',
			photoIds: [],
			countedAt
		};
	});
	must(await sendCounts(actor, services, job, { counts }));
	must(await finishCount(actor, services, job, first.deliveryId, { finished: true, at: countedAt }));
}

/**
 * Makes an invented job that is under way, by what a person would do one after the other: planned, ordered, answered,
 * delivered, counted, measured.
 */
export async function makeExample(actor: Actor, services: Services): Promise<Outcome<{ id: string }>> {
	await writeExampleSuppliers(actor, services);
	const job = await scheduleJob(actor, services);
	const buying = must(await readBuying(actor, services, job));
	const days = firstDays(services.now());
	const plans = buying.plans.map(({ openingId }) => ({
		openingId,
		startsOn: buying.phases.get(openingId) === '1' ? days.soon : days.later,
		release: 1,
		boughtAs: 'parts' as const
	}));
	must(await savePlan(actor, services, job, { plans }));
	await order(actor, services, job);
	await deliver(actor, services, job);
	for (const measure of exampleMeasures(buying, services.now()))
		must(await saveMeasure(actor, services, job, { ...measure, measureId: services.newId() }));
	return done({ id: job });
}
