/** Somebody who goes on editing as a page does: one edit after the other, each sent again until it is answered. */
import { Agent, request } from 'node:http';
import type { Change, Edit } from '../../src/lib/changes/message.ts';
import { counter, setCell } from '../storage/services.ts';

interface Asked {
	readonly body?: unknown;
	readonly cookie?: string;
	readonly agent?: Agent;
}

interface Reply {
	readonly status: number;
	readonly text: string;
	readonly cookies: readonly string[];
}

/** A request as a page of the program would send it. */
export function ask(
	address: string,
	method: string,
	path: string,
	{ body, cookie, agent }: Asked = {}
): Promise<Reply> {
	const content = body === undefined ? '' : JSON.stringify(body);
	const { host } = new URL(address);
	return new Promise((resolve, reject) => {
		const sent = request(
			`${address}${path}`,
			{
				method,
				...(agent ? { agent } : {}),
				// Longer than the server waits for its database.
				timeout: 90_000,
				headers: {
					host,
					origin: address,
					accept: 'application/json',
					'content-type': 'application/json',
					'content-length': String(Buffer.byteLength(content)),
					...(cookie === undefined ? {} : { cookie })
				}
			},
			(response) => {
				const chunks: Buffer[] = [];
				response.on('data', (chunk: Buffer) => chunks.push(chunk));
				response.on('error', reject);
				response.on('end', () =>
					resolve({
						status: response.statusCode ?? 0,
						text: Buffer.concat(chunks).toString('utf8'),
						cookies: response.headers['set-cookie'] ?? []
					})
				);
			}
		);
		sent.on('timeout', () => sent.destroy(new Error('no answer')));
		sent.on('error', reject);
		sent.end(content);
	});
}

interface Made {
	readonly edit: Edit;
	/** Rows of the edit, and what it leaves in their notes. */
	readonly rows: readonly string[];
	readonly note: string;
}

/** Rows that one edit adds or changes together. */
const together = ['a', 'b', 'c'];
/** An edit in so many adds rows; the others change cells. */
const addsEvery = 12;
const retryAfter = 40;

export class Person {
	/** Edits that were answered as stored, in order. */
	readonly stored: Edit[] = [];
	/** What the rows of this person have in their note, as far as it was answered. */
	readonly notes = new Map<string, string>();
	/** Answers by status; 0: none came. */
	readonly answers = new Map<number, number>();
	/** Edits that were sent again because nothing or a refusal came back. */
	sentAgain = 0;
	/** What must never be answered: any other status, or a refusal without words. */
	readonly broken: string[] = [];
	/** What the last refusal said. */
	lastRefusal = '';

	readonly #number: number;
	readonly #job: string;
	readonly #cookie: string;
	readonly #address: () => string;
	readonly #agent = new Agent({ keepAlive: true, maxSockets: 1 });
	readonly #padding: string;
	#made = 0;
	#group = 0;
	#stopping = false;
	#working: Promise<void> | null = null;

	/** @param padding characters that every note is made longer by */
	constructor(at: {
		readonly number: number;
		readonly job: string;
		readonly cookie: string;
		readonly address: () => string;
		readonly padding?: number;
	}) {
		this.#number = at.number;
		this.#job = at.job;
		this.#cookie = at.cookie;
		this.#address = at.address;
		this.#padding = 'x'.repeat(at.padding ?? 0);
	}

	begin(): void {
		this.#working = this.#work();
	}

	/** Stops when the edit on its way is stored. */
	async finish(): Promise<void> {
		this.#stopping = true;
		await this.#working;
		this.#agent.destroy();
	}

	count(status: number): number {
		return this.answers.get(status) ?? 0;
	}

	async #work(): Promise<void> {
		while (!this.#stopping) await this.#send(this.#next());
	}

	#next(): Made {
		const number = this.#made++;
		const adds = number % addsEvery === 0;
		if (adds) this.#group++;
		const rows = together.map((one) => `p${this.#number}-${this.#group}-${one}`);
		const note = `edit ${number}${this.#padding}`;
		const changes = rows.map((row, i): Change =>
			adds
				? {
						kind: 'addRow',
						row,
						after: rows[i - 1] ?? null,
						cells: { ...counter(row.toUpperCase()), note }
					}
				: setCell(row, 'note', this.notes.get(row) ?? null, note)
		);
		const title = adds ? 'Add 3 rows' : 'Change 3 cells';
		return { edit: { id: `p${this.#number}-${number}`, title, changes }, rows, note };
	}

	async #send({ edit, rows, note }: Made): Promise<void> {
		for (let time = 0; ; time++) {
			if (time === 1) this.sentAgain++;
			const reply = await ask(this.#address(), 'POST', `/api/jobs/${this.#job}/edits`, {
				body: edit,
				cookie: this.#cookie,
				agent: this.#agent
			}).catch(() => null);
			const status = reply?.status ?? 0;
			this.answers.set(status, this.count(status) + 1);
			if (status === 200) break;
			if (reply) {
				this.lastRefusal = reply.text.slice(0, 300);
				if ((status !== 503 && status !== 429) || !/"message":"[A-Z][^"]+\."/u.test(reply.text)) {
					this.broken.push(`${edit.id}: ${status} ${this.lastRefusal}`);
					this.#stopping = true;
					return;
				}
			}
			await new Promise((resolve) => setTimeout(resolve, retryAfter));
		}
		this.stored.push(edit);
		for (const row of rows) this.notes.set(row, note);
	}
}
