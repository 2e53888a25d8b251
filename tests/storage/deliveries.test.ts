/** Packing lists on the server: read before they are taken in, never doubled, decided line by line, and all of it taken back. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { roleIds } from '../../src/lib/changes/roles.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { answerDelivery } from '../../src/lib/server/operations/answer-delivery.ts';
import { changeAlias, saveSupplier } from '../../src/lib/server/operations/change-supplier.ts';
import { checkDelivery } from '../../src/lib/server/operations/check-delivery.ts';
import { decideLine } from '../../src/lib/server/operations/decide-line.ts';
import { loadDemo } from '../../src/lib/server/operations/load-demo.ts';
import { previewDelivery } from '../../src/lib/server/operations/preview-delivery.ts';
import { readDeliveries } from '../../src/lib/server/operations/read-deliveries.ts';
import { readHistory } from '../../src/lib/server/operations/read-history.ts';
import { readSuppliers } from '../../src/lib/server/operations/read-suppliers.ts';
import { removeDelivery, restoreDelivery } from '../../src/lib/server/operations/remove-delivery.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { typeDelivery } from '../../src/lib/server/operations/type-delivery.ts';
import { databases } from './databases.ts';
import { refusal, setCell, temporaryServices, typed, value, workplace } from './services.ts';

const teal: Actor = { ...localActor, id: 'teal', name: 'Teal', roles: roleIds };

const form = (name: string, content: string | Uint8Array, fields: Readonly<Record<string, string>> = {}) => ({
	name,
	bytes: typeof content === 'string' ? new TextEncoder().encode(content) : content,
	field: (field: string) => fields[field] ?? null
});
const fixture = (name: string): Uint8Array =>
	new Uint8Array(readFileSync(join('fixtures', 'deliveries', name)));

/** C-1 stands for two openings as the worked opening A of demo-book.md: guides of 50 in, one of each hand an opening. */
const list = (lines: string) => `Mark,Description,Qty shipped,Length (in)\n${lines}\n`;
const guides = list('C-1,"Guide, left",2,50\nC-1,"Guide, right",2,50');

const supplierBody = {
	name: 'Northreach Shutter Works',
	scopes: [],
	leadDays: 42,
	daysBefore: 2,
	handsFrom: 'coilSide',
	sizes: 'part',
	concealedDamageDays: null
};

interface Place {
	readonly services: Services;
	readonly job: string;
	readonly supplier: string;
	readonly another: string;
	readonly send: Awaited<ReturnType<typeof workplace>>['send'];
}

async function placeOf(folder: string): Promise<Place> {
	const { services, job, send } = await workplace(folder);
	const save = async (name: string): Promise<string> =>
		value(await saveSupplier(localActor, services, null, { ...supplierBody, name })).id;
	const supplier = await save('Northreach Shutter Works');
	return { services, job, send, supplier, another: await save('Dunlin Fixings & Seals') };
}

const read = async ({ services, job }: Pick<Place, 'services' | 'job'>) =>
	value(await readDeliveries(localActor, services, job));
const linesOf = async (place: Pick<Place, 'services' | 'job'>, deliveryId: string) =>
	(await read(place)).comparison?.lines.filter((line) => line.deliveryId === deliveryId) ?? [];
const take = async (
	{ services, job }: Pick<Place, 'services' | 'job'>,
	name: string,
	content: string | Uint8Array,
	fields: Readonly<Record<string, string>> = {}
): Promise<string> => value(await checkDelivery(localActor, services, job, form(name, content, fields))).id;

/** The left guides of both openings. */
async function leftGuides(place: Place): Promise<string[]> {
	const { parts } = await read(place);
	const ids = parts.filter(({ title }) => title === 'Guide, left').map(({ partId }) => partId);
	expect(ids).toHaveLength(2);
	return ids;
}

describe.each(databases)('$name', ({ place }) => {
	it('shows what a file would be taken for, and stores nothing', async () => {
		const here = await placeOf(await place());
		const { services, job } = here;
		const preview = value(await previewDelivery(localActor, services, job, form('truck.csv', guides)));
		expect(preview.columns.map(({ heading, field }) => [heading, field])).toEqual([
			['Mark', 'mark'],
			['Description', 'description'],
			['Qty shipped', 'quantity'],
			['Length (in)', 'length']
		]);
		expect(preview).toMatchObject({ headerRow: 1, plain: 2, asked: 0, same: null, question: null });
		// 50 in of 25 400 000 nm.
		expect(preview.lines[0]).toMatchObject({ mark: 'C-1', quantity: 2, length: 1_270_000_000 });
		expect((await read(here)).deliveries).toEqual([]);
		// The job was made and C-1 added; nothing since.
		expect(value(await readHistory(localActor, services, job)).entries).toHaveLength(2);
	});

	it('takes the columns as a person says', async () => {
		const here = await placeOf(await place());
		const { services, job } = here;
		const text = 'Mark,Description,Sent for good,Lg\nC-1,"Guide, left",2,50\n';
		const sent = (fields: Readonly<Record<string, string>>) => form('truck.csv', text, fields);
		expect(refusal(await previewDelivery(localActor, services, job, sent({}))).status).toBe(422);
		const mapping = JSON.stringify({ headerRow: 1, columns: { 2: 'quantity', 3: 'length' }, unit: 'in' });
		const preview = value(await previewDelivery(localActor, services, job, sent({ mapping })));
		expect(preview.lines).toMatchObject([{ mark: 'C-1', quantity: 2, length: 1_270_000_000 }]);
		const id = value(await checkDelivery(localActor, services, job, sent({ mapping }))).id;
		expect(await linesOf(here, id)).toMatchObject([{ state: 'exact', received: '2' }]);
		for (const [wrong, reason] of [
			['{', 'not readable'],
			['{"columns": {"0": "__proto__"}}', 'not as expected']
		] as const)
			expect(
				refusal(await checkDelivery(localActor, services, job, sent({ mapping: wrong }))).message
			).toContain(reason);
	});

	it('knows the same truck again, whatever the file is called', async () => {
		const here = await placeOf(await place());
		const { services, job } = here;
		const first = await take(here, 'truck 1.csv', guides);
		const again = form('truck one, copy.csv', guides);
		const preview = value(await previewDelivery(localActor, services, job, again));
		expect(preview.same).toMatchObject({ name: 'truck 1.csv', removed: false });
		const refused = refusal(await checkDelivery(localActor, services, job, again));
		expect(refused).toMatchObject({ status: 409, field: 'anotherTruck' });
		expect(refused.message).toMatch(/same list as truck 1\.csv, taken in on \d{4}-\d\d-\d\d/u);
		expect((await read(here)).deliveries).toHaveLength(1);
		// At the same moment too.
		const outcomes = await Promise.all(
			Array.from({ length: 4 }, () =>
				checkDelivery(localActor, services, job, form('twice.csv', list('C-1,Barrel,2,')))
			)
		);
		expect(outcomes.filter(({ ok }) => ok)).toHaveLength(1);

		// It really is another truck: two more of each, and none was wanted.
		const second = await take(here, 'truck 2.csv', guides, { anotherTruck: 'yes' });
		expect(await linesOf(here, second)).toMatchObject([{ state: 'over' }, { state: 'over' }]);
		expect(await linesOf(here, first)).toMatchObject([{ state: 'exact' }, { state: 'exact' }]);
		value(await removeDelivery(localActor, services, job, first));
		value(await removeDelivery(localActor, services, job, second));
		expect(refusal(await checkDelivery(localActor, services, job, again)).message).toContain('taken out');
	});

	it('asks about the list of another job before anything is stored', async () => {
		const services = await temporaryServices(await place());
		await loadDemo(localActor, services, join('fixtures', 'schedules'));
		const jobs = await services.storage.jobs.list(localActor.companyId);
		const job = jobs.find(({ measures }) => measures === 'imperial')?.id ?? '';
		const here = { services, job };
		const other = form('truck.csv', fixture('kelpgate-truck-1.csv'));
		const preview = value(await previewDelivery(localActor, services, job, other));
		expect(preview.question).toMatchObject({ kind: 'isOurs' });
		const refused = refusal(await checkDelivery(localActor, services, job, other));
		expect(refused).toMatchObject({ status: 409, field: 'ours' });
		expect((await read(here)).deliveries).toEqual([]);

		const id = await take(here, 'truck.csv', fixture('kelpgate-truck-1.csv'), { ours: 'yes' });
		expect((await read(here)).deliveries).toMatchObject([{ id, answers: { isOurs: true }, question: null }]);
		// Said to be none of ours after all: nothing of it is asked or counted.
		const no = { about: 'isOurs', before: true, after: false };
		value(await answerDelivery(localActor, services, job, id, no));
		expect((await read(here)).deliveries).toMatchObject([{ asked: 0, question: null }]);

		// And the job's own list is plain: no question about the whole of it.
		const own = value(
			await previewDelivery(localActor, services, job, form('t.xlsx', fixture('saltmarsh-truck-1.xlsx')))
		);
		expect(own.question).toBeNull();
		expect(own.plain).toBeGreaterThan(own.asked);
	});

	it('takes in what was ticked and typed by hand', async () => {
		const here = await placeOf(await place());
		const { services, job, supplier } = here;
		const partIds = await leftGuides(here);
		const body = {
			name: 'Truck 1, typed',
			supplierId: supplier,
			lines: [
				{ mark: 'C-1', description: 'Guide, left', quantity: '2', partIds },
				{ mark: 'C-1', description: 'Guide, right', quantity: '1', length: '50 in' }
			]
		};
		const { id } = value(await typeDelivery(localActor, services, job, body));
		expect(await linesOf(here, id)).toMatchObject([
			{ state: 'exact', received: '2', decision: { by: localActor.name } },
			{ state: 'short', received: '1', decision: null }
		]);
		const [entry] = value(await readHistory(localActor, services, job)).entries;
		expect(entry).toMatchObject({ kind: 'delivery', title: 'Type Truck 1, typed' });
		for (const [wrong, status, reason] of [
			[{ ...body, name: ' ' }, 422, 'needs a name'],
			[{ ...body, lines: [] }, 422, 'at least one line'],
			[{ ...body, lines: [{ description: 'Guide, left', quantity: '-2' }] }, 422, 'Nothing was taken in'],
			[{ ...body, lines: [{ description: 'Guide, left' }] }, 422, 'no quantity'],
			[{ ...body, lines: [{ description: 'Guide', quantity: '1', partIds: ['gone'] }] }, 409, 'meanwhile'],
			[{ ...body, supplierId: 'nobody' }, 422, 'no such supplier'],
			[{ ...body, price: '1' }, 422, 'not as expected']
		] as const) {
			const refused = refusal(await typeDelivery(localActor, services, job, wrong));
			expect([refused.status, refused.message]).toEqual([status, expect.stringContaining(reason)]);
		}
		expect((await read(here)).deliveries).toHaveLength(1);
	});

	it('remembers what a supplier calls a part, for the lists to come, until it is forgotten', async () => {
		const here = await placeOf(await place());
		const { services, job, supplier, another } = here;
		const partIds = await leftGuides(here);
		const words = list('C-1,Side channel LH,1,50');
		const first = await take(here, 'truck 1.csv', words, { supplierId: supplier });
		const before = await linesOf(here, first);
		expect(before).toMatchObject([{ asked: true, state: 'notOrdered' }]);
		const whole = await read(here);

		const decided = value(
			await decideLine(
				localActor,
				services,
				job,
				{ deliveryId: first, line: '2' },
				{
					decision: { kind: 'means', partIds },
					seen: null,
					remember: true
				}
			)
		);
		expect(decided.remembered).toMatchObject({ supplierId: supplier, phrase: 'side channel' });
		expect(await linesOf(here, first)).toMatchObject([
			{ asked: false, received: '1', ordered: '2', decision: { by: localActor.name, at: decided.at } }
		]);
		const [entry] = value(await readHistory(localActor, services, job)).entries;
		expect(entry).toMatchObject({
			kind: 'delivery',
			records: [
				{
					record: 'Packing list',
					name: 'truck 1.csv',
					field: 'Line 2, Side channel LH',
					before: null,
					after: 'it means Guide, left for C-1.1 and C-1.2'
				}
			]
		});

		// The next list of theirs is plain; the same words of somebody else are asked about.
		const next = `${words}\n`.replace(',1,50', ',1,50\nC-1,Side channel RH,2,50');
		const second = await take(here, 'truck 2.csv', next, { supplierId: supplier });
		expect(await linesOf(here, second)).toMatchObject([
			{ asked: false, alias: { aliasId: decided.remembered?.aliasId }, kind: 'guide' },
			{ asked: false, alias: { aliasId: decided.remembered?.aliasId }, received: '2' }
		]);
		const foreign = value(
			await previewDelivery(localActor, services, job, form('truck 3.csv', next, { supplierId: another }))
		);
		expect(foreign.asked).toBe(2);

		const word = { supplierId: supplier, aliasId: decided.remembered?.aliasId ?? '' };
		value(await changeAlias(localActor, services, word, { withdrawn: true }));
		expect((await linesOf(here, second)).map(({ asked }) => asked)).toEqual([true, true]);
		// Said again, the same word is taken up again and none is doubled.
		const again = { decision: { kind: 'means', partIds }, seen: decided.at, remember: true };
		value(await decideLine(localActor, services, job, { deliveryId: first, line: '2' }, again));
		expect(
			value(await readSuppliers(localActor, services)).suppliers.flatMap(({ words: theirs }) => theirs)
		).toHaveLength(1);

		// Everything taken back is as it was.
		value(await removeDelivery(localActor, services, job, second));
		value(await changeAlias(localActor, services, word, { withdrawn: true }));
		const now = (await linesOf(here, first))[0]?.decision?.at ?? '';
		const back = { decision: null, seen: now, remember: false };
		value(await decideLine(localActor, services, job, { deliveryId: first, line: '2' }, back));
		expect(await linesOf(here, first)).toEqual(before);
		expect((await read(here)).parts).toEqual(whole.parts);
		value(await restoreDelivery(localActor, services, job, second));
	});

	it('opens a kit, takes something instead, and corrects what was misread', async () => {
		const here = await placeOf(await place());
		const { services, job } = here;
		const partIds = await leftGuides(here);
		const id = await take(
			here,
			'truck 1.csv',
			list('C-1,Hardware kit,1,\nC-1,Aluminium track,2,50\nC-7,"Guide, right",2,50')
		);
		const decide = async (line: string, decision: unknown, who: Actor = localActor) =>
			decideLine(who, services, job, { deliveryId: id, line }, { decision, seen: null, remember: false });
		const { parts } = await read(here);
		const endCaps = parts.filter(({ kind }) => kind === 'endCap').map(({ partId }) => partId);
		expect(endCaps.length).toBeGreaterThan(0);
		value(await decide('2', { kind: 'opens', contents: [{ partIds: endCaps, quantity: '1' }] }));
		value(await decide('3', { kind: 'substitutes', partIds, reason: 'the job may use it' }, teal));
		value(await decide('4', { kind: 'reads', typed: { mark: 'C-1' } }));
		const lines = await linesOf(here, id);
		expect(lines).toMatchObject([
			{ kind: 'endCap', amounts: { here: '1' } },
			{ state: 'substituted', amounts: { here: '2' }, decision: { by: 'Teal' } },
			{ state: 'exact', mark: 'C-1', amounts: { here: '2' } }
		]);
		// What stood there is told.
		expect(lines[2]?.how).toContain('C-7');

		for (const [line, decision, status, reason] of [
			['2', { kind: 'opens', contents: [{ partIds: endCaps, quantity: '0' }] }, 422, 'above 0'],
			[
				'2',
				{
					kind: 'opens',
					contents: [
						{ partIds: endCaps, quantity: '1' },
						{ partIds: endCaps, quantity: '1' }
					]
				},
				422,
				'twice'
			],
			['2', { kind: 'means', partIds: [] }, 422, 'at least one part'],
			['2', { kind: 'means', partIds: ['nobody'] }, 409, 'changed meanwhile'],
			['2', { kind: 'repeats', deliveryId: id, line: 2 }, 422, 'no such earlier line'],
			['4', { kind: 'reads', typed: { mark: 'C-7' } }, 422, 'reads as before'],
			['4', { kind: 'reads', typed: { length: 'long' } }, 422, 'Nothing was changed'],
			['4', { kind: 'substitutes', partIds, reason: ' ' }, 422, 'Say why'],
			['99', { kind: 'notOurs', reason: 'x' }, 404, 'no line 99'],
			['4', { kind: 'guess' }, 422, 'not as expected']
		] as const) {
			const refused = refusal(await decide(line, decision));
			expect([refused.status, refused.message]).toEqual([status, expect.stringContaining(reason)]);
		}
		expect(await linesOf(here, id)).toEqual(lines);
	});

	it('writes nothing over what somebody else decided meanwhile, and tells both', async () => {
		const here = await placeOf(await place());
		const { services, job } = here;
		const partIds = await leftGuides(here);
		const id = await take(here, 'truck 1.csv', list('C-1,Side channel,1,50'));
		const at = { deliveryId: id, line: '2' };
		const mine = { decision: { kind: 'means', partIds }, seen: null, remember: false };
		const theirs = {
			decision: { kind: 'notOurs', reason: 'nobody ordered it' },
			seen: null,
			remember: false
		};
		value(await decideLine(teal, services, job, at, theirs));
		const refused = refusal(await decideLine(localActor, services, job, at, mine));
		expect(refused.status).toBe(409);
		expect(refused.message).toContain('Teal decided about line 2 meanwhile: not ours: nobody ordered it');
		expect(refused.message).toContain('You meant: it means Guide, left for C-1.1 and C-1.2');
		expect(await linesOf(here, id)).toMatchObject([{ decision: { by: 'Teal' } }]);
		// Of ten at once, one stands.
		const seen = (await linesOf(here, id))[0]?.decision?.at ?? null;
		const back = { decision: null, seen, remember: false };
		const outcomes = await Promise.all(
			Array.from({ length: 10 }, () => decideLine(localActor, services, job, at, back))
		);
		expect(outcomes.filter(({ ok }) => ok)).toHaveLength(1);
		// The same for what is said of the whole list.
		const said = { about: 'handsFrom', before: null, after: 'farSide' };
		value(await answerDelivery(teal, services, job, id, said));
		const late = { about: 'handsFrom', before: null, after: 'coilSide' };
		expect(refusal(await answerDelivery(localActor, services, job, id, late)).message).toContain(
			'left and right seen from: the far side. You meant: the coil side'
		);
	});

	it('holds a decision to the part that took the place of the one it named, and refuses one made on an old list', async () => {
		const here = await placeOf(await place());
		const { services, job, send } = here;
		const partIds = await leftGuides(here);
		const id = await take(here, 'truck 1.csv', list('C-1,Side channel,2,50'));
		const at = { deliveryId: id, line: '2' };
		const means = { decision: { kind: 'means', partIds }, seen: null, remember: false };
		value(await decideLine(localActor, services, job, at, means));
		// Higher openings have longer guides: the parts have other ids from then on.
		const height = typed('openingHeight', `4'-0"`);
		value(await send([setCell('c1', 'openingHeight', height, typed('openingHeight', `5'-0"`))]));
		const [line] = await linesOf(here, id);
		// The decision still says which part is meant: the one that took its place, which is longer than what came.
		expect(line).toMatchObject({ state: 'wrong', amounts: { here: '0', wrong: '2' } });
		// A decision made on the old material list is refused.
		const late = { ...means, seen: line?.decision?.at ?? null };
		expect(refusal(await decideLine(localActor, services, job, at, late)).status).toBe(409);
	});
});
