/** The life of one part, found from both ends, through a changed size; an old id never means another part. Both databases. */
import { describe, expect, it } from 'vitest';
import { roleIds } from '../../src/lib/changes/roles.ts';
import { localActor, type Actor } from '../../src/lib/server/identity/actor.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import type { Part } from '../../src/lib/takeoff/result.ts';
import { databases } from './databases.ts';
import { measureAsDrawn } from './measured-openings.ts';
import { addRow, counter, edit, refusal, setCell, temporaryServices, typed, value } from './services.ts';

const wren: Actor = { id: 'wren', companyId: localActor.companyId, name: 'Wren', roles: roleIds };
const teal: Actor = { id: 'teal', companyId: localActor.companyId, name: 'Teal', roles: ['installer'] };

const form = (name: string, text: string) => ({
	name,
	bytes: new TextEncoder().encode(text),
	field: () => null
});

interface Place {
	readonly services: Services;
	readonly job: string;
	readonly parts: () => Promise<readonly Part[]>;
	/** Sets the clock on by an hour. */
	readonly later: () => number;
}

/** Two openings of C-9, planned, and two suppliers. */
async function counterJob(database: string): Promise<Place> {
	const opened = await temporaryServices(database);
	let hours = 0;
	const services = { ...opened, now: () => new Date(Date.UTC(2026, 11, 1, 12 + hours)) };
	const { id: job } = value(
		await operations.createJob(wren, services, { name: 'Saltmarsh Pier Market Hall', measures: 'imperial' })
	);
	value(await operations.applyEdit(wren, services, job, edit([addRow('c9', null, counter('C-9'))])));
	for (const [name, scopes] of [
		['Northreach Shutter Works', ['unit', 'part']],
		['Dunlin Fixings & Seals', ['stock']]
	])
		value(
			await operations.saveSupplier(wren, services, null, {
				...{ name, scopes, leadDays: 42, daysBefore: 3, handsFrom: 'coilSide', sizes: 'part' },
				concealedDamageDays: null
			})
		);
	const plans = ['C-9.1', 'C-9.2'].map((openingId) => ({
		...{ openingId, startsOn: '2027-03-15', release: 1, boughtAs: 'parts' }
	}));
	value(await operations.savePlan(wren, services, job, { plans }));
	const parts = async () => value(await operations.readTakeoff(wren, services, job)).parts;
	return { services, job, parts, later: () => (hours += 1) };
}

const leftGuide = (parts: readonly Part[], openingId: string): Part => {
	const found = parts.find((part) => part.openingId === openingId && part.title === 'Guide, left');
	if (!found) throw new Error(`${openingId} has no left guide`);
	return found;
};

/** Writes the order of Northreach and sends it. */
async function sendOrder({ services, job }: Place): Promise<{ orderId: string; number: string }> {
	const { proposals } = value(await operations.readOrders(wren, services, job));
	const proposal = proposals.find(({ supplierName }) => supplierName.startsWith('Northreach'));
	if (!proposal) throw new Error('there is nothing to order');
	const { supplierId, phase, release, digest } = proposal;
	const written = value(
		await operations.writeOrder(wren, services, job, { supplierId, phase, release, digest })
	);
	const { version } = value(await operations.readOrder(wren, services, job, written.orderId));
	const reason = 'Not measured; USD 77.77 agreed.';
	value(await operations.releaseOrder(wren, services, job, written.orderId, { version, reason }));
	return written;
}

describe.each(databases)('$name', ({ place }) => {
	it('goes from the takeoff to the count and back, and through a changed size', async () => {
		const at = await counterJob(await place());
		const { services, job } = at;
		const guide = leftGuide(await at.parts(), 'C-9.2');
		const other = leftGuide(await at.parts(), 'C-9.1');
		const chain = async (who: Actor, partId: string) =>
			value(await operations.readChain(who, services, job, partId));
		const fresh = await chain(teal, guide.partId);
		expect(fresh.part).toMatchObject({
			partId: guide.partId,
			openingId: 'C-9.2',
			issuedAt: '2026-12-01T12:00:00.000Z',
			retiredAt: null
		});
		expect([fresh.before, fresh.after, fresh.orders, fresh.lines, fresh.measures]).toEqual([
			[],
			[],
			[],
			[],
			[]
		]);

		at.later();
		const { orderId, number } = await sendOrder(at);
		at.later();
		// The line of both left guides, promised too late.
		const { lines } = value(await operations.readOrder(wren, services, job, orderId));
		const line = lines.find(({ title }) => title === 'Guide, left');
		if (!line) throw new Error('the order has no left guide');
		const answer = [
			`Your order: ${number}`,
			'Order line,Quantity,Unit,Unit price,Promised date',
			...lines.map(({ number: n, quantity, unit }) =>
				[n, quantity, unit, '8765.43', n === line.number ? '2027-04-30' : '2027-03-01'].join(',')
			)
		].join('\n');
		value(await operations.takeAnswer(wren, services, job, orderId, form('answer.csv', answer)));
		at.later();
		// A truck with both, and one of them is bent.
		const list = [
			'Part id,Description,Shipped,U/M',
			`${other.partId},"Guide, left",1,EA`,
			`${guide.partId},"Guide, left",1,EA`
		].join('\n');
		const { id: delivery } = value(
			await operations.checkDelivery(wren, services, job, form('truck 1.csv', list))
		);
		at.later();
		const counts = [
			{
				...{ countId: 'phone-1-000001', deliveryId: delivery, line: 3, crate: null, description: '' },
				amounts: { whole: '0', damaged: '1', wrong: '0' },
				...{ note: 'bent at the foot', photoIds: [], countedAt: '2026-12-01T15:30:00.000Z' }
			}
		];
		value(await operations.sendCounts(teal, services, job, { counts }));
		await measureAsDrawn(teal, services, job, 'C-9.2');

		const bought = await chain(wren, guide.partId);
		expect(bought.orders).toMatchObject([
			{
				number,
				supplierName: 'Northreach Shutter Works',
				line: line.number,
				parts: 2,
				revisions: [
					{
						...{ revision: 1, releasedBy: 'Wren', releasedAt: '2026-12-01T13:00:00.000Z' },
						reason: 'Not measured; USD 77.77 agreed.'
					}
				],
				answers: [
					{
						name: 'answer.csv',
						by: 'Wren',
						counts: true,
						lines: [{ promised: '2027-04-30' }],
						differences: [{ decision: null }]
					}
				],
				moneyDiffers: true
			}
		]);
		expect(bought.lines).toMatchObject([
			{
				delivery: 'truck 1.csv',
				line: 3,
				counts: [{ by: 'Teal', note: 'bent at the foot', amounts: { damaged: '1' } }]
			}
		]);
		expect(bought.measures).toMatchObject([{ by: 'Teal', withdrawn: false, verdict: { outcome: 'agrees' } }]);
		// Damaged, and an answer that promises it too late: both hold it.
		expect(bought.holds.map(({ kind, reason }) => [kind, reason])).toEqual([
			['part', 'damaged'],
			['decision', null]
		]);
		// Its own line and its neighbour's are not mixed up.
		expect((await chain(wren, other.partId)).lines.map((one) => [one.line, one.counts.length])).toEqual([
			[2, 0]
		]);
		const kinds = new Set(bought.history.map(({ kind }) => kind));
		expect([...kinds].toSorted()).toEqual(['count', 'delivery', 'edit', 'measure', 'order', 'plan']);
		expect(bought.history.every(({ actorName, madeAt }) => actorName !== '' && madeAt !== '')).toBe(true);

		// Found by its line from either end.
		const found = async (text: string) =>
			value(await operations.findParts(teal, services, job, text)).parts.map(({ partId }) => partId);
		expect(await found(`${number}/${line.number}`)).toEqual(
			expect.arrayContaining([guide.partId, other.partId])
		);
		expect(await found(`${number} line ${line.number}`)).toHaveLength(2);
		expect(await found('truck 1.csv line 3')).toEqual([guide.partId]);
		expect(await found('c-9.2 guide left')).toEqual([guide.partId]);
		expect(await found(` ${guide.partId.toLowerCase()} `)).toEqual([guide.partId]);
		expect(await found('')).toEqual([]);

		// The installer sees the same without reasons and without a word of money.
		const seen = await chain(teal, guide.partId);
		expect(JSON.stringify(seen)).not.toMatch(/77\.77|8765|USD/u);
		expect(seen.orders[0]?.revisions[0]).toMatchObject({ releasedBy: 'Wren', reason: null });
		expect(seen.orders[0]?.moneyDiffers).toBe(false);
		expect(JSON.stringify(bought)).not.toContain('8765');

		// Higher by a foot: other guides. The old id stays what it was, and says what took its place.
		at.later();
		const rows = value(await operations.readOpenings(wren, services, job)).rows;
		const height = rows[0]?.cells.openingHeight ?? null;
		value(
			await operations.applyEdit(
				wren,
				services,
				job,
				edit([setCell('c9', 'openingHeight', height, typed('openingHeight', '5\'-0"'))])
			)
		);
		const longer = leftGuide(await at.parts(), 'C-9.2');
		expect(longer.partId).not.toBe(guide.partId);
		const old = await chain(teal, guide.partId);
		expect(old.part).toMatchObject({
			partId: guide.partId,
			size: fresh.part.size,
			retiredAt: '2026-12-01T17:00:00.000Z'
		});
		expect(old.after.map(({ partId }) => partId)).toEqual([longer.partId]);
		expect(old.orders.map((order) => [order.number, order.line])).toEqual([[number, line.number]]);
		expect(old.lines.map((one) => [one.line, one.counts.length])).toEqual([[3, 1]]);
		const now = await chain(teal, longer.partId);
		expect(now.before.map(({ partId }) => partId)).toEqual([guide.partId]);
		expect([now.orders, now.part.issuedAt]).toEqual([[], '2026-12-01T17:00:00.000Z']);
		// Not ordered as it is now; the order with the old one is told.
		const texts = now.holds.map(({ text }) => text).join('\n');
		expect(texts).toContain(`part ${longer.partId} took the place of ${guide.partId}`);

		expect(refusal(await operations.readChain(teal, services, job, 'P-00000-00000'))).toMatchObject({
			status: 404
		});
	});
});
