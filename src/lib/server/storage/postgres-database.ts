/** PostgreSQL, one pool a process. Its own words stay here. */
import {
	PostgresDialect,
	PostgresDriver,
	type CompiledQuery,
	type DatabaseConnection,
	type Driver,
	type PostgresDialectConfig
} from 'kysely';
import pg from 'pg';
import { checkText } from './storable-text.ts';

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
	// One that breaks while a transaction has it and asks nothing: its next statement fails. Unheard it would end the process.
	pool.on('connect', (client) => client.on('error', () => undefined));
	return pool;
}

/** Looks at every value before it is sent. */
class CheckingDriver extends PostgresDriver {
	readonly #checking = new WeakSet<DatabaseConnection>();

	override async acquireConnection(
		...options: Parameters<PostgresDriver['acquireConnection']>
	): Promise<DatabaseConnection> {
		const connection = await super.acquireConnection(...options);
		if (this.#checking.has(connection)) return connection;
		const execute = connection.executeQuery.bind(connection);
		connection.executeQuery = async <R>(query: CompiledQuery) => {
			query.parameters.forEach(checkText);
			return execute<R>(query);
		};
		this.#checking.add(connection);
		return connection;
	}
}

class Dialect extends PostgresDialect {
	readonly #config: PostgresDialectConfig;

	constructor(config: PostgresDialectConfig) {
		super(config);
		this.#config = config;
	}

	override createDriver(): Driver {
		return new CheckingDriver(this.#config);
	}
}

export const postgresDialect = (pool: pg.Pool): PostgresDialect => new Dialect({ pool });
