/**
 * `npm run faults`: everything that may go wrong under a record, tried out on the built program, with its numbers. Ends with 1
 * when a promise is broken. Names behind it choose: `npm run faults -- kill two-servers`; `--rounds 5` makes it short.
 */
import { parseArgs } from 'node:util';
import { postgresIsThere } from '../storage/postgres-cluster.ts';
import { clockBack, clocksCanBeSet } from './clock-back.ts';
import { databaseAway } from './database-away.ts';
import { diskFull, disksCanBeMade } from './disk-full.ts';
import { kill } from './kill.ts';
import type { Kept } from './promises.ts';
import type { DatabaseName } from './stage.ts';
import { twoServers } from './two-servers.ts';

interface Fault {
	readonly name: string;
	readonly what: string;
	/** Why it can't be tried here; null when it can. */
	readonly skipped: string | null;
	readonly run: (rounds: number | null) => Promise<Kept>;
}

const noPostgres = postgresIsThere ? null : 'PostgreSQL is not installed';
const noDisk = disksCanBeMade ? null : 'only root can make a small disk';
const noClock = clocksCanBeSet ? null : 'faketime is not installed';
const databases: readonly DatabaseName[] = ['SQLite', 'PostgreSQL'];
const needs = (database: DatabaseName): string | null => (database === 'SQLite' ? null : noPostgres);

const faults: readonly Fault[] = [
	...databases.map((database) => ({
		name: 'kill',
		what: `server killed, ${database}`,
		skipped: needs(database),
		run: (rounds: number | null) => kill(database, rounds ?? 100)
	})),
	{
		name: 'database-away',
		what: 'PostgreSQL stopped hard and started',
		skipped: noPostgres,
		run: (rounds) => databaseAway(rounds ?? 10)
	},
	...databases.map((database) => ({
		name: 'disk-full',
		what: `disk full, ${database}`,
		skipped: needs(database) ?? noDisk,
		run: (rounds: number | null) => diskFull(database, rounds ?? 3)
	})),
	{
		name: 'two-servers',
		what: 'one of two servers killed, PostgreSQL',
		skipped: noPostgres,
		run: (rounds) => twoServers(rounds ?? 10)
	},
	...databases.map((database) => ({
		name: 'clock-back',
		what: `clock set back, ${database}`,
		skipped: needs(database) ?? noClock,
		run: () => clockBack(database)
	}))
];

const { values, positionals } = parseArgs({
	options: { rounds: { type: 'string' } },
	allowPositionals: true
});
const rounds = values.rounds === undefined ? null : Number(values.rounds);
const unknown = positionals.find((name) => !faults.some((fault) => fault.name === name));
if (unknown !== undefined || (rounds !== null && !(rounds >= 1))) {
	console.error(
		`Usage: npm run faults -- [${[...new Set(faults.map(({ name }) => name))].join(' | ')}] [--rounds N]`
	);
	process.exit(2);
}

for (const { name, what, skipped, run } of faults) {
	if (positionals.length > 0 && !positionals.includes(name)) continue;
	if (skipped !== null) {
		console.log(`${what}: not tried, ${skipped}`);
		continue;
	}
	const { broken, ...numbers } = await run(rounds);
	const written = Object.entries(numbers).map(([number, value]) => `${number} ${String(value)}`);
	console.log(`${what}: ${written.join(', ')}; promises broken: ${broken.length}`);
	for (const promise of broken.slice(0, 20)) console.log(`  ${promise}`);
	if (broken.length > 0) process.exitCode = 1;
}
