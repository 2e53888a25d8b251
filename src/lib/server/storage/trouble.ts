/** Tells what a database is short of from what its driver throws. */

import { UnstorableText } from './storable-text.ts';

/**
 * `unreachable`: it does not answer, or not in time. `full`: there is no room to write. `readOnly`: nothing can be written.
 * `unstorable`: a text has a sign that it can't keep. `taken`: another has stored meanwhile what there may be only one of.
 */
export type Trouble = 'unreachable' | 'full' | 'readOnly' | 'unstorable' | 'taken';

/** SQLite's result codes: https://www.sqlite.org/rescode.html; the lower byte is the primary one. */
const sqlite: Readonly<Record<number, Trouble>> = {
	5: 'unreachable',
	6: 'unreachable',
	8: 'readOnly',
	10: 'full',
	13: 'full',
	14: 'unreachable'
};
/** Of its constraints only those that ask for one of a kind: 1555 of a primary key, 2067 of another. */
const sqliteTaken: ReadonlySet<number> = new Set([1555, 2067]);

/**
 * PostgreSQL's, by their beginning: https://www.postgresql.org/docs/current/errcodes-appendix.html. 08 connection
 * exceptions, 53100 disk full, other 53 short of connections or memory, 57P0x shutting down or starting up, 57014 and 25P03
 * given up for taking too long, 40001, 40P01 and 55P03 stood in each other's way, 25006 a copy that only reads, 22021 a sign
 * that text can't have, 23505 a second one of what is unique.
 */
const postgres: readonly (readonly [string, Trouble])[] = [
	['53100', 'full'],
	['53', 'unreachable'],
	['57P0', 'unreachable'],
	['57014', 'unreachable'],
	['25P03', 'unreachable'],
	['40001', 'unreachable'],
	['40P01', 'unreachable'],
	['55P03', 'unreachable'],
	['25006', 'readOnly'],
	['22021', 'unstorable'],
	['23505', 'taken'],
	['08', 'unreachable']
];

const network = /^(ECONNREFUSED|ECONNRESET|EPIPE|ETIMEDOUT|EHOSTUNREACH|ENOTFOUND|EAI_AGAIN|ENOENT)$/u;
/** The PostgreSQL driver gives no code when a connection ends under a statement or can't be had in time. */
const ended =
	/^(Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error|Query read timeout)/u;

/** Null when it is no trouble of the database but a fault of the program. */
export function troubleOf(thrown: unknown): Trouble | null {
	if (!(thrown instanceof Error)) return null;
	if (thrown instanceof UnstorableText) return 'unstorable';
	const { code, errcode } = thrown as Error & { readonly code?: unknown; readonly errcode?: unknown };
	if (code === 'ERR_SQLITE_ERROR' && typeof errcode === 'number')
		return sqliteTaken.has(errcode) ? 'taken' : (sqlite[errcode & 0xff] ?? null);
	if (typeof code === 'string') {
		if (network.test(code)) return 'unreachable';
		return postgres.find(([start]) => code.startsWith(start))?.[1] ?? null;
	}
	return ended.test(thrown.message) ? 'unreachable' : null;
}
