/** PostgreSQL, one pool a process. Its own words stay here. */
import { PostgresDialect } from 'kysely';
import pg from 'pg';

/** Connections of one process. Several processes share what the database allows (100 as it comes). */
const mostConnections = 10;
const connectWithin = 5_000;
/** A statement that takes longer has gone wrong, milliseconds. */
const statementWithin = 60_000;
/** A transaction that waits for its program longer than this is given up, milliseconds. */
const idleInTransaction = 30_000;

export const isPostgresUrl = (place: string): boolean => /^postgres(?:ql)?:\/\//u.test(place);

export function postgresPool(url: string): pg.Pool {
	const pool = new pg.Pool({
		connectionString: url,
		max: mostConnections,
		connectionTimeoutMillis: connectWithin,
		statement_timeout: statementWithin,
		idle_in_transaction_session_timeout: idleInTransaction,
		keepAlive: true,
		application_name: 'coilwright'
	});
	// A connection that waits in the pool and breaks is thrown away; whoever asks next gets a new one, or the failure.
	pool.on('error', () => undefined);
	return pool;
}

export const postgresDialect = (pool: pg.Pool): PostgresDialect => new PostgresDialect({ pool });
