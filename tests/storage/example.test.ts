/** The invented job that is under way: made by the operations that people use, so that its pages have something to show. */
import { describe, expect, it } from 'vitest';
import { localActor } from '../../src/lib/server/identity/actor.ts';
import { readBuying } from '../../src/lib/server/operations/job-buying.ts';
import { verdictsOf } from '../../src/lib/server/operations/measure-verdicts.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import { databases } from './databases.ts';
import { temporaryServices, value } from './services.ts';

describe.each(databases)('the job that is under way on $name', ({ place }) => {
	it('is ordered, answered, delivered, counted and measured', { timeout: 600_000 }, async () => {
		const services = await temporaryServices(await place());
		const { id } = value(await operations.makeExample(localActor, services));
		const orders = value(await operations.readOrders(localActor, services, id));
		// Two suppliers for the first phase; each answered one piece short in one line and late in another.
		expect(orders.orders.map(({ supplierName, state, open }) => [supplierName, state, open]).sort()).toEqual([
			['Dunlin Fixings & Seals', 'answered', 2],
			['Northreach Shutter Works', 'answered', 2]
		]);
		// The other two phases are not written yet, of neither.
		expect(orders.proposals.map(({ phase }) => phase).sort()).toEqual(['2', '2', '3', '3']);

		const buying = value(await readBuying(localActor, services, id));
		expect(buying.deliveries.map(({ name, counted }) => [name, counted !== null])).toEqual([
			['saltmarsh-truck-1.xlsx', true],
			['saltmarsh-truck-2.csv', false],
			['Van, typed', false]
		]);
		expect(buying.counts).toHaveLength(17);
		// The readings differ by 8/16, 1/16, 0 and 1/16 in from the drawing; 1/4 in is allowed.
		const verdicts = verdictsOf(buying);
		expect(
			['C-101.1', 'C-101.2', 'C-101.3', 'C-101.4'].map((one) => verdicts.get(one)?.verdict).sort()
		).toEqual(['agrees', 'agrees', 'agrees', 'stop']);
		// The first wanted is held by its measure and would have one of the two motors; so only one of the others starts.
		const board = value(await operations.readBoard(localActor, services, id, {}));
		expect([board.inOrder.clear, board.most.clear]).toEqual([['C-101.2'], ['C-101.2', 'C-101.4']]);
		expect(board.most).toMatchObject({ proved: true, bound: 2 });
		// A second one stands beside it.
		value(await operations.makeExample(localActor, services));
		expect(value(await operations.listJobs(localActor, services)).jobs).toHaveLength(2);
	});
});
