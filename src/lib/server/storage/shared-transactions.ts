/** Transactions that would wait for one another anyway share one, so that the database writes to its disk once for all. */
import { sql, type Kysely, type Transaction } from 'kysely';
import type { Tables } from './tables.ts';

interface Answer {
	readonly ok: boolean;
}

interface Waiting {
	readonly work: (inside: Transaction<Tables>) => Promise<Answer>;
	readonly resolve: (answer: Answer) => void;
	readonly reject: (reason: unknown) => void;
}

/** Carries an answer that must leave nothing behind out of its transaction. */
class RolledBack extends Error {
	readonly answer: Answer;

	constructor(answer: Answer) {
		super('rolled back');
		this.answer = answer;
	}
}

/** A transaction that shares with none. All of it is stored, or, when it throws or its answer is not ok, nothing of it. */
export async function alone<T extends Answer>(
	db: Kysely<Tables>,
	work: (inside: Transaction<Tables>) => Promise<T>
): Promise<T> {
	try {
		return await db.transaction().execute(async (inside) => {
			const answer = await work(inside);
			if (!answer.ok) throw new RolledBack(answer);
			return answer;
		});
	} catch (thrown) {
		if (thrown instanceof RolledBack) return thrown.answer as T;
		throw thrown;
	}
}

/** The embedded database lets nothing else happen while it works: first comes in what has arrived already. */
const requestsRead = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** More of them would keep the first one waiting for the last. */
const mostTogether = 32;

/**
 * Each is stored whole or not at all, by a savepoint of its own, whatever becomes of the others; and none is answered
 * before all of them are on the disk. Where that fails, all of them have failed.
 */
export class SharedTransactions {
	readonly #db: Kysely<Tables>;
	/** By what they wait for. Who finds none there begins at once. */
	readonly #queues = new Map<string, Waiting[]>();

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** @param line what it waits for: those of one line come one after the other, in the order they asked. */
	run<T extends Answer>(line: string, work: (inside: Transaction<Tables>) => Promise<T>): Promise<T> {
		return new Promise<T>((resolve, reject) => {
			const waiting: Waiting = { work, resolve: (answer) => resolve(answer as T), reject };
			const queue = this.#queues.get(line);
			if (queue) {
				queue.push(waiting);
				return;
			}
			this.#queues.set(line, [waiting]);
			void this.#serve(line);
		});
	}

	async #serve(line: string): Promise<void> {
		const queue = this.#queues.get(line) ?? [];
		while (queue.length > 0) {
			await requestsRead();
			await this.#together(queue.splice(0, mostTogether));
		}
		this.#queues.delete(line);
	}

	async #together(group: readonly Waiting[]): Promise<void> {
		const [first, second] = group;
		try {
			if (first && !second) first.resolve(await alone(this.#db, (inside) => first.work(inside)));
			else for (const settle of await this.#each(group)) settle();
		} catch (reason) {
			for (const waiting of group) waiting.reject(reason);
		}
	}

	#each(group: readonly Waiting[]): Promise<(() => void)[]> {
		return this.#db.transaction().execute(async (inside) => {
			const settled: (() => void)[] = [];
			for (const waiting of group) settled.push(await apart(inside, waiting));
			return settled;
		});
	}
}

/**
 * Does the work of one of them. @returns gives its answer, once all of it is stored.
 * @throws what the work threw, where the database could not go back to the moment before it.
 */
async function apart(inside: Transaction<Tables>, { work, resolve, reject }: Waiting): Promise<() => void> {
	await sql`savepoint one_of_many`.execute(inside);
	let answer: Answer;
	try {
		answer = await work(inside);
	} catch (reason) {
		try {
			await sql`rollback to savepoint one_of_many`.execute(inside);
		} catch {
			throw reason;
		}
		return () => reject(reason);
	}
	await (answer.ok ? sql`release savepoint one_of_many` : sql`rollback to savepoint one_of_many`).execute(
		inside
	);
	return () => resolve(answer);
}
