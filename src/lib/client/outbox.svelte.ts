/**
 * Edits on their way to the server: sent one after the other, kept in this browser tab until the server has stored
 * them, sent again when the connection was lost. An edit has an id, so one that arrives twice is applied once.
 */
import { createContext } from 'svelte';
import { SvelteMap } from 'svelte/reactivity';
import type { EditResult } from '../changes/answer.ts';
import type { Conflict, Edit } from '../changes/message.ts';
import { send } from './call.ts';
import { settleConflict } from './settle-conflict.ts';

/** Where the edits of this tab stand. */
export type SavingState =
	| { readonly kind: 'saved' }
	| { readonly kind: 'saving'; readonly count: number }
	/** The server was not reached or could not store; it is tried again by itself. */
	| { readonly kind: 'waiting'; readonly count: number; readonly why: string }
	/** Someone else changed what an edit replaces: the person decides. */
	| {
			readonly kind: 'conflict';
			readonly count: number;
			readonly edit: Edit;
			readonly conflicts: readonly Conflict[];
	  }
	/** The server will not take it and says why; the person tries again or lets it go. */
	| { readonly kind: 'stuck'; readonly count: number; readonly edit: Edit; readonly why: string };

/** Who wants to know what became of an edit: the sheet that shows the rows. */
export interface OutboxListener {
	stored(edit: Edit, result: EditResult): void;
	/** Taken out: refused by the server, or let go by the person. */
	dropped(edit: Edit, why: string): void;
	/** A conflict was settled; `by` took the place of the edit, null where nothing of it is left. */
	settled(edit: Edit, by: Edit | null, conflicts: readonly Conflict[]): void;
	/** A row in words, for the person who has to decide. */
	nameOf(row: string): string;
}

/** The state in words, for the place where it is always visible. */
export function savingWords(state: SavingState): string {
	const changes = 'count' in state ? `${state.count} ${state.count === 1 ? 'change' : 'changes'}` : '';
	switch (state.kind) {
		case 'saved':
			return 'All saved';
		case 'saving':
			return `Saving ${changes}`;
		case 'waiting':
			return `Not saved: ${state.why}, trying again`;
		case 'conflict':
			return `Not saved: ${changes} to settle`;
		case 'stuck':
			return `Not saved: ${state.why}`;
	}
}

const storagePrefix = 'coilwright.outbox.';
const firstPause = 500;
const longestPause = 15_000;

export class Outbox {
	/** In the order in which they were made. */
	waiting: readonly Edit[] = $state.raw([]);
	state: SavingState = $state.raw({ kind: 'saved' });
	/** Revision of the job as the server last told it. */
	revision = $state(0);
	listener: OutboxListener | null = null;

	readonly job: string;
	readonly #storageKey: string;
	#pause = firstPause;
	#timer: ReturnType<typeof setTimeout> | null = null;
	#sending = false;
	#opened = false;
	/** The last edit sent again with "keep mine", and against what. */
	#kept: { readonly id: string; readonly against: string } | null = null;
	#idle: (() => void)[] = [];

	constructor(job: string, revision: number) {
		this.job = job;
		this.#storageKey = storagePrefix + job;
		this.revision = revision;
	}

	/** Takes up what an earlier page of this tab left unsent, and begins to send. In the browser only. */
	open(): void {
		if (this.#opened) return;
		this.#opened = true;
		try {
			const kept = sessionStorage.getItem(this.#storageKey);
			if (kept !== null) this.waiting = JSON.parse(kept) as Edit[];
		} catch {
			// Unreadable or no storage: there is nothing to take up.
		}
		this.retry();
	}

	add(edit: Edit): void {
		this.waiting = [...this.waiting, edit];
		this.#keep();
		void this.#work();
	}

	/** Tries at once, for instance when the connection is back. */
	retry(): void {
		if (this.#timer) clearTimeout(this.#timer);
		this.#timer = null;
		this.#pause = firstPause;
		if (this.state.kind === 'stuck') this.state = { kind: 'saving', count: this.waiting.length };
		void this.#work();
	}

	/** Resolves when nothing waits any more. */
	idle(): Promise<void> {
		if (this.waiting.length === 0) return Promise.resolve();
		return new Promise((resolve) => this.#idle.push(resolve));
	}

	/** Lets the edit go that the server will not take. */
	letGo(): void {
		if (this.state.kind !== 'stuck') return;
		this.#drop(this.state.edit, this.state.why);
	}

	/**
	 * Settles a conflict. `mine`: the same edit again, now replacing their values. `theirs`: without the cells in
	 * conflict; what is left of the edit is sent.
	 */
	settle(choice: 'mine' | 'theirs', nextId: string): void {
		if (this.state.kind !== 'conflict') return;
		const { edit, conflicts } = this.state;
		const changes = settleConflict(edit.changes, conflicts, choice);
		const next = changes.length === 0 ? null : { ...edit, id: nextId, changes };
		this.#kept = choice === 'mine' ? { id: nextId, against: JSON.stringify(conflicts) } : null;
		this.waiting = next
			? this.waiting.map((waiting) => (waiting.id === edit.id ? next : waiting))
			: this.waiting.filter((waiting) => waiting.id !== edit.id);
		this.#keep();
		this.listener?.settled(edit, next, conflicts);
		this.state = { kind: 'saving', count: this.waiting.length };
		void this.#work();
	}

	async #work(): Promise<void> {
		if (this.#sending || this.#timer || !this.#opened) return;
		if (this.state.kind === 'conflict' || this.state.kind === 'stuck') return;
		this.#sending = true;
		try {
			for (let edit = this.waiting[0]; edit; edit = this.waiting[0]) {
				if (this.state.kind !== 'waiting') this.state = { kind: 'saving', count: this.waiting.length };
				if (!(await this.#sendOne(edit))) return;
			}
			this.state = { kind: 'saved' };
			for (const resolve of this.#idle.splice(0)) resolve();
		} finally {
			this.#sending = false;
		}
	}

	/** True when the next edit may go. */
	async #sendOne(edit: Edit): Promise<boolean> {
		const answer = await send<EditResult>('POST', `/api/jobs/${this.job}/edits`, edit);
		const count = this.waiting.length;
		if (answer.ok) {
			this.#pause = firstPause;
			this.#take(edit);
			this.revision = answer.value.revision;
			this.state = { kind: 'saving', count: count - 1 };
			this.listener?.stored(edit, answer.value);
			return true;
		}
		if (answer.status === 409 && Array.isArray(answer.body.conflicts)) {
			const conflicts = answer.body.conflicts as Conflict[];
			const again = this.#kept?.id === edit.id && this.#kept.against === JSON.stringify(conflicts);
			this.state = again
				? { kind: 'stuck', count, edit, why: 'the row was removed by someone else' }
				: { kind: 'conflict', count, edit, conflicts };
			return false;
		}
		if (answer.status === 422) {
			this.#drop(edit, answer.message);
			return true;
		}
		if (answer.status === 0 || answer.status === 429 || answer.status >= 500) {
			const why = answer.status === 0 ? 'no connection' : 'the server could not store it';
			this.state = { kind: 'waiting', count, why };
			this.#timer = setTimeout(() => {
				this.#timer = null;
				void this.#work();
			}, this.#pause);
			this.#pause = Math.min(this.#pause * 2, longestPause);
			return false;
		}
		this.state = { kind: 'stuck', count, edit, why: answer.message };
		return false;
	}

	#drop(edit: Edit, why: string): void {
		this.#take(edit);
		this.state = { kind: 'saving', count: this.waiting.length };
		this.listener?.dropped(edit, why);
		if (!this.#sending) void this.#work();
	}

	#take(edit: Edit): void {
		this.waiting = this.waiting.filter((waiting) => waiting.id !== edit.id);
		this.#keep();
	}

	#keep(): void {
		try {
			if (this.waiting.length === 0) sessionStorage.removeItem(this.#storageKey);
			else sessionStorage.setItem(this.#storageKey, JSON.stringify(this.waiting));
		} catch {
			// No storage or no room in it: the edits are kept in memory, and leaving the page asks first.
		}
	}
}

/** The outboxes of the jobs this tab has edits for: they go on sending while another place is looked at. */
export class Outboxes {
	/** By job. */
	#all = new SvelteMap<string, Outbox>();

	/** The outbox of a job; `revision` as its page was loaded. */
	of(job: string, revision: number): Outbox {
		const known = this.#all.get(job);
		if (known) {
			known.revision = Math.max(known.revision, revision);
			return known;
		}
		const outbox = new Outbox(job, revision);
		this.#all.set(job, outbox);
		return outbox;
	}

	/** What is known of a job's edits; null where this tab made none. */
	find(job: string): Outbox | null {
		return this.#all.get(job) ?? null;
	}

	/** Takes up everything earlier pages of this tab left unsent, and tries when the connection is back. */
	open(): () => void {
		try {
			for (const key of Object.keys(sessionStorage))
				if (key.startsWith(storagePrefix)) this.of(key.slice(storagePrefix.length), 0).open();
		} catch {
			// No storage: there is nothing to take up.
		}
		const retry = (): void => {
			for (const outbox of this.#all.values()) outbox.retry();
		};
		window.addEventListener('online', retry);
		return () => window.removeEventListener('online', retry);
	}

	get unsaved(): number {
		return [...this.#all.values()].reduce((sum, outbox) => sum + outbox.waiting.length, 0);
	}
}

export const [useOutboxes, provideOutboxes] = createContext<Outboxes>();
export const [useOutbox, provideOutbox] = createContext<Outbox>();
