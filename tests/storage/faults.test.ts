/** The faults of `npm run faults`, a few rounds each. */
import { describe, expect, it } from 'vitest';
import { clockBack, clocksCanBeSet } from '../faults/clock-back.ts';
import { databaseAway } from '../faults/database-away.ts';
import { diskFull, disksCanBeMade } from '../faults/disk-full.ts';
import { kill } from '../faults/kill.ts';
import { Person } from '../faults/person.ts';
import { promisesKept } from '../faults/promises.ts';
import { found, type DatabaseName } from '../faults/stage.ts';
import { twoServers } from '../faults/two-servers.ts';
import { temporaryFolder } from './databases.ts';
import { postgresIsThere } from './postgres-cluster.ts';
import { addRow, counter, edit } from './services.ts';

const databases: readonly DatabaseName[] = postgresIsThere ? ['SQLite', 'PostgreSQL'] : ['SQLite'];

describe.each(databases)('%s', (database) => {
	it('has every answered edit whole and once after the server was killed', async () => {
		const { broken, kills, answered } = await kill(database, 4);
		expect(broken).toEqual([]);
		expect(kills).toBe(4);
		expect(answered).toBeGreaterThan(4);
	});

	it.runIf(disksCanBeMade)(
		'refuses plainly while its disk is full, and goes on when there is room',
		async () => {
			const { broken, refusals, said } = await diskFull(database, 1);
			expect(broken).toEqual([]);
			expect(refusals).toBeGreaterThan(0);
			expect(said).toContain('There is no room left where the database is kept.');
		}
	);

	it.runIf(clocksCanBeSet)(
		'keeps the order of edits, and lets people in, when the clock is set back',
		async () => {
			expect((await clockBack(database)).broken).toEqual([]);
		}
	);
});

describe.runIf(postgresIsThere)('PostgreSQL', () => {
	it('may go down and come back while the server stays up', async () => {
		const { broken, refusals } = await databaseAway(2);
		expect(broken).toEqual([]);
		expect(refusals).toBeGreaterThan(0);
	});

	it('serves on by one server when the other is killed', async () => {
		const { broken, reconnected } = await twoServers(2);
		expect(broken).toEqual([]);
		expect(reconnected).toBeGreaterThan(0);
	});
});

it('notices an edit that was answered and is not there', async () => {
	const { place, keys } = await found(temporaryFolder(), 1);
	const [key] = keys;
	if (!key) throw new Error('no job');
	const person = new Person({ number: 1, job: key.jobId, cookie: '', address: () => '' });
	expect((await promisesKept(place, key, [person])).broken).toEqual([]);
	const lost = edit([addRow('lost', null, counter('C-1'))]);
	person.stored.push(lost);
	expect((await promisesKept(place, key, [person])).broken).toEqual([
		`${lost.id} was answered as stored, and is not there`
	]);
});
