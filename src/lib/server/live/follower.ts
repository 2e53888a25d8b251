/** One open page that is told what happens in a job, as server-sent events (https://html.spec.whatwg.org/multipage/server-sent-events.html). */
import type { EndReason } from '../../changes/live.ts';
import type { Role } from '../../changes/roles.ts';

/** The roles of a person who is told, or why they may not be told any more. */
export type Standing = readonly Role[] | EndReason;

export interface Following {
	readonly personId: string;
	/** The page: one of the pages that the person has open. */
	readonly tabId: string;
	/** What the page shows is of this revision or a later one. */
	readonly after: number;
	/** Whether the person may still be told. */
	readonly check: () => Promise<Standing>;
}

const encoder = new TextEncoder();
/** How long a browser waits before it connects again by itself, ms. */
const retryAfter = 2000;

export class Follower {
	readonly personId: string;
	readonly tabId: string;
	/** All up to this revision was told. */
	revision: number;
	/** What the page reads. */
	readonly stream: ReadableStream<Uint8Array>;
	readonly #mostUnread: number;
	readonly #left: () => void;
	readonly #timer: ReturnType<typeof setInterval>;
	#controller: ReadableStreamDefaultController<Uint8Array> | null = null;

	/**
	 * @param mostUnread bytes that may wait to be read; who leaves more is dropped
	 * @param left called once, when nothing more will be read
	 */
	constructor(
		{ personId, tabId, after, check }: Following,
		{ heartbeat, mostUnread }: { readonly heartbeat: number; readonly mostUnread: number },
		left: (follower: Follower) => void
	) {
		this.personId = personId;
		this.tabId = tabId;
		this.revision = after;
		this.#mostUnread = mostUnread;
		this.#left = () => left(this);
		this.stream = new ReadableStream<Uint8Array>(
			{
				start: (controller) => {
					this.#controller = controller;
				},
				cancel: () => this.#over()
			},
			{ highWaterMark: mostUnread, size: (chunk) => chunk.byteLength }
		);
		this.#write(`retry: ${retryAfter}\n\n`);
		this.#timer = setInterval(() => void this.#beat(check), heartbeat);
		this.#timer.unref();
	}

	/** @param revision what the page knows when it has read this; a page that connects again names it */
	send(event: 'changed' | 'people' | 'roles' | 'reload' | 'ended', data: string, revision?: number): void {
		const id = revision === undefined ? '' : `id: ${revision}\n`;
		this.#write(`${id}event: ${event}\ndata: ${data}\n\n`);
	}

	/** Ends it; the page connects again unless it is told a reason. */
	end(reason: EndReason | null = null): void {
		if (reason !== null) this.send('ended', JSON.stringify({ reason }));
		const controller = this.#controller;
		this.#over();
		controller?.close();
	}

	async #beat(check: Following['check']): Promise<void> {
		this.#write(':\n\n');
		// While nobody can say, it goes on.
		const standing = await check().catch(() => null);
		if (typeof standing === 'string') this.end(standing);
		else if (standing !== null) this.send('roles', JSON.stringify(standing));
	}

	#write(text: string): void {
		const controller = this.#controller;
		if (!controller) return;
		const chunk = encoder.encode(text);
		const waiting = this.#mostUnread - (controller.desiredSize ?? 0);
		if (waiting > 0 && waiting + chunk.byteLength > this.#mostUnread) {
			this.#over();
			controller.error(new Error('what was told is not read'));
			return;
		}
		controller.enqueue(chunk);
	}

	#over(): void {
		if (!this.#controller) return;
		this.#controller = null;
		clearInterval(this.#timer);
		this.#left();
	}
}
