/**
 * Signals between the servers of one PostgreSQL database, by LISTEN and NOTIFY on a connection of their own: outside of
 * every transaction, since a commit that notifies waits for all others that do.
 */
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { z } from 'zod';
import type { Heard, Signal, Signals } from '../live/signals.ts';

const channel = 'coilwright';
/** Longer ones PostgreSQL does not carry (8000 bytes). */
const longestMessage = 7900;
/** Signals that wait for the connection; beyond that they are lost, and what is stored is looked at again. */
const mostWaiting = 2000;
/** Messages of one statement. */
const batch = 200;
const connectWithin = 5_000;
/** Pauses between attempts to connect, ms. */
const firstPause = 200;
const longestPause = 5_000;

const id = z.string().max(200);
const of = { companyId: id, jobId: id };
const signalSchema = z.discriminatedUnion('kind', [
	z.strictObject({ kind: z.literal('changed'), ...of, revision: z.number().int() }),
	z.strictObject({ kind: z.literal('who'), ...of }),
	z.strictObject({
		kind: z.literal('present'),
		...of,
		tabId: id,
		personId: id,
		name: z.string().max(400),
		place: id.nullable(),
		row: id.nullable(),
		field: id.nullable(),
		editing: z.boolean()
	})
]);
const messageSchema = z.strictObject({ from: id, signal: signalSchema });

/** Of signals about the same thing only the last one is sent. */
function subjectOf(signal: Signal): string {
	const { kind, companyId, jobId } = signal;
	return JSON.stringify([
		kind,
		companyId,
		jobId,
		...(kind === 'present' ? [signal.personId, signal.tabId] : [])
	]);
}

class PostgresSignals implements Signals {
	readonly #url: string;
	readonly #server = randomUUID();
	readonly #listeners = new Set<(heard: Heard) => void>();
	/** By subject, in the order in which they came up. */
	readonly #waiting = new Map<string, Signal>();
	#client: pg.Client | null = null;
	#sending = false;
	#closed = false;
	#pause = firstPause;
	#timer: ReturnType<typeof setTimeout> | null = null;
	/** The connection was away for a while. */
	#mayHaveMissed = false;
	#connecting: Promise<void>;

	constructor(url: string) {
		this.#url = url;
		this.#connecting = this.#connect();
	}

	send(signal: Signal): void {
		if (this.#closed) return;
		queueMicrotask(() => this.#tell(signal));
		const subject = subjectOf(signal);
		const before = this.#waiting.get(subject);
		const later =
			before?.kind === 'changed' && signal.kind === 'changed' && before.revision > signal.revision;
		if (!before && this.#waiting.size >= mostWaiting) return;
		if (!later) this.#waiting.set(subject, signal);
		void this.#pump();
	}

	listen(listener: (heard: Heard) => void): () => void {
		this.#listeners.add(listener);
		return () => {
			this.#listeners.delete(listener);
		};
	}

	async close(): Promise<void> {
		this.#closed = true;
		this.#listeners.clear();
		this.#waiting.clear();
		if (this.#timer) clearTimeout(this.#timer);
		await this.#connecting;
		const client = this.#client;
		this.#client = null;
		await client?.end().catch(() => undefined);
	}

	#tell(heard: Heard): void {
		for (const listener of this.#listeners) listener(heard);
	}

	async #connect(): Promise<void> {
		const client = new pg.Client({
			connectionString: this.#url,
			connectionTimeoutMillis: connectWithin,
			keepAlive: true,
			application_name: 'coilwright signals'
		});
		client.on('error', () => this.#lost(client));
		client.on('end', () => this.#lost(client));
		client.on('notification', ({ payload }) => this.#hear(payload ?? ''));
		try {
			await client.connect();
			await client.query(`listen ${channel}`);
		} catch {
			await client.end().catch(() => undefined);
			this.#again();
			return;
		}
		this.#client = client;
		this.#pause = firstPause;
		if (this.#mayHaveMissed) this.#tell({ kind: 'missed' });
		this.#mayHaveMissed = false;
		void this.#pump();
	}

	#lost(client: pg.Client): void {
		if (this.#client !== client) return;
		this.#client = null;
		client.end().catch(() => undefined);
		this.#again();
	}

	#again(): void {
		this.#mayHaveMissed = true;
		if (this.#closed || this.#timer) return;
		this.#timer = setTimeout(() => {
			this.#timer = null;
			this.#connecting = this.#connect();
		}, this.#pause);
		this.#timer.unref();
		this.#pause = Math.min(this.#pause * 2, longestPause);
	}

	#hear(payload: string): void {
		let read: unknown;
		try {
			read = JSON.parse(payload);
		} catch {
			return;
		}
		const message = messageSchema.safeParse(read);
		// Its own are told at once.
		if (message.success && message.data.from !== this.#server) this.#tell(message.data.signal);
	}

	/** Sends what waits, as many as there are with one statement. */
	async #pump(): Promise<void> {
		if (this.#sending) return;
		this.#sending = true;
		try {
			while (this.#client && this.#waiting.size > 0) {
				const taken = [...this.#waiting].slice(0, batch);
				const messages = taken
					.map(([, signal]) => JSON.stringify({ from: this.#server, signal }))
					.filter((message) => Buffer.byteLength(message) <= longestMessage);
				for (const [subject] of taken) this.#waiting.delete(subject);
				await this.#client.query('select pg_notify($1, message) from unnest($2::text[]) as message', [
					channel,
					messages
				]);
			}
		} catch {
			// Lost: the others find what is stored without it. Where the connection broke, that is noticed by itself.
		} finally {
			this.#sending = false;
		}
	}
}

/** @param url of the database that all servers share */
export const postgresSignals = (url: string): Signals => new PostgresSignals(url);
