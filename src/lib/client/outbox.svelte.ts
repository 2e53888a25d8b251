/**
 * Edits on their way to the server: sent one after the other, kept in this browser until the server has stored them,
 * sent again when the connection was lost. An edit has an id, so one that arrives twice is applied once.
 */
import { createContext } from 'svelte';
import { SvelteMap, SvelteSet } from 'svelte/reactivity';
import type { EditResult } from '../changes/answer.ts';
import type { Conflict, Edit } from '../changes/message.ts';
import { send } from './call.ts';
import { KeptEdits, type TakenUp } from './kept-edits.ts';
import { settleConflict } from './settle-conflict.ts';

/** Where the edits of this tab stand. */
export type SavingState =
	| { readonly kind: 'saved' }
	| { readonly kind: 'saving'; readonly count: number }
	/** The server was not reached or could not store; it is tried again by itself. */
	| { readonly kind: 'waiting'; readonly count: number; readonly why: 'noConnection' | 'notStored' }
	/** Nobody is signed in any more, or somebody else. */
	| { readonly kind: 'signedOut'; readonly count: number }
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
	/** Others changed what an edit replaces. */
	conflicting(conflicts: readonly Conflict[]): void;
	/** A conflict was settled. */
	settled(): void;
	/** Edits of an earlier page were taken up, or those of this one thrown away. */
	tookUp(): void;
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
			return state.why === 'noConnection'
				? `No connection: ${changes} kept here`
				: `Not stored by the server yet: ${changes} kept here`;
		case 'signedOut':
			return `Sign in again: ${changes} ${state.count === 1 ? 'is' : 'are'} kept here`;
		case 'conflict':
			return `Not saved: ${changes} to settle`;
		case 'stuck':
			return `Not saved: ${state.why}`;
	}
}

const firstPause = 500;
const longestPause = 15_000;

export class Outbox {
	/** In the order in which they were made. */
	waiting: readonly Edit[] = $state.raw([]);
	state: SavingState = $state.raw({ kind: 'saved' });
	/** Revision of the job as the server last told it. */
	revision = $state(0);
	listener: OutboxListener | null = null;

	/** Whose edits they are. */
	readonly person: string;
	readonly job: string;
	readonly #keeping: KeptEdits;
	#pause = firstPause;
	#timer: ReturnType<typeof setTimeout> | null = null;
	#sending = false;
	#opened = false;
	/** The last edit sent again with "keep mine", and against what. */
	#kept: { readonly id: string; readonly against: string } | null = null;
	#idle: (() => void)[] = [];

	constructor(person: string, job: string, revision: number, keeping: KeptEdits) {
		this.person = person;
		this.job = job;
		this.#keeping = keeping;
		this.revision = revision;
	}

	/** Begins to send. In the browser only. */
	open(): void {
		if (this.#opened) return;
		this.#opened = true;
		this.retry();
	}

	/** Sends nothing until it is opened again. */
	close(): void {
		this.#opened = false;
		if (this.#timer) clearTimeout(this.#timer);
		this.#timer = null;
	}

	add(edit: Edit): void {
		this.waiting = [...this.waiting, edit];
		this.#keeping.keep(this.job, edit);
		void this.#work();
	}

	/** Takes edits of an earlier page, which are kept already. */
	takeUp(edits: readonly Edit[], place: 'first' | 'last'): void {
		this.waiting = place === 'first' ? [...edits, ...this.waiting] : [...this.waiting, ...edits];
		this.listener?.tookUp();
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
		if (next) this.#keeping.replace(edit.id, next);
		else this.#keeping.forget(edit.id);
		this.listener?.settled();
		this.state = { kind: 'saving', count: this.waiting.length };
		void this.#work();
	}

	async #work(): Promise<void> {
		if (this.#sending || this.#timer || !this.#opened) return;
		if (this.state.kind === 'conflict' || this.state.kind === 'stuck') return;
		this.#sending = true;
		try {
			for (let edit = this.waiting[0]; edit; edit = this.waiting[0]) {
				if (this.state.kind !== 'waiting' && this.state.kind !== 'signedOut')
					this.state = { kind: 'saving', count: this.waiting.length };
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
		const answer = await send<EditResult>('POST', `/api/jobs/${this.job}/edits`, edit, this.person);
		// Thrown away or put to rest meanwhile; sent again, it is answered again.
		if (!this.#opened || !this.waiting.includes(edit)) return this.#opened;
		const count = this.waiting.length;
		if (answer.ok) {
			this.#pause = firstPause;
			this.#take(edit);
			this.revision = Math.max(this.revision, answer.value.revision);
			this.state = { kind: 'saving', count: count - 1 };
			this.listener?.stored(edit, answer.value);
			return true;
		}
		if (answer.status === 409 && Array.isArray(answer.body.conflicts)) {
			const conflicts = answer.body.conflicts as Conflict[];
			this.listener?.conflicting(conflicts);
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
		if (answer.status === 0 || answer.status === 401 || answer.status === 429 || answer.status >= 500) {
			const why = answer.status === 0 ? 'noConnection' : 'notStored';
			this.state = answer.status === 401 ? { kind: 'signedOut', count } : { kind: 'waiting', count, why };
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
		this.#keeping.forget(edit.id);
	}
}

/** A page does not wait longer than this for what earlier ones have left, ms. */
const takeUpWithin = 3000;

/**
 * The outboxes of the jobs this tab has edits for: they go on sending while another place is looked at. They belong to
 * the person at the screen; those of somebody who was there before rest until that person is back.
 */
export class Outboxes {
	/** By person and job. */
	#all = new SvelteMap<string, Outbox>();
	readonly #kept = new SvelteMap<string, KeptEdits>();
	/** People whose earlier edits were taken up. */
	readonly #ready = new SvelteSet<string>();
	#person: string | null = $state(null);

	/** @param person id of the person at the screen; null before anybody has signed in. */
	constructor(person: string | null) {
		this.#person = person;
	}

	/** The outbox of a job; `revision` as its page was loaded. */
	of(job: string, revision: number): Outbox {
		const person = this.#person ?? '';
		const known = this.#all.get(keyOf(person, job));
		if (known) {
			known.revision = Math.max(known.revision, revision);
			return known;
		}
		const outbox = new Outbox(person, job, revision, this.#keptOf(person));
		this.#all.set(keyOf(person, job), outbox);
		if (this.#ready.has(person)) outbox.open();
		return outbox;
	}

	/** What is known of a job's edits; null where this person made none here. */
	find(job: string): Outbox | null {
		return this.#all.get(keyOf(this.#person ?? '', job)) ?? null;
	}

	/** Somebody is at the screen now: takes up everything that earlier pages of theirs left unsent. In the browser only. */
	async become(person: string | null): Promise<void> {
		this.#person = person;
		for (const outbox of this.#all.values()) if (outbox.person !== person) outbox.close();
		if (person === null) return;
		if (!this.#ready.has(person)) {
			const takingUp = this.#keptOf(person).takeUp('first');
			const late = new Promise<null>((resolve) => setTimeout(() => resolve(null), takeUpWithin));
			const taken = await Promise.race([takingUp, late]);
			this.#ready.add(person);
			if (taken) this.#take(person, taken, 'first');
			else void takingUp.then((edits) => this.#take(person, edits, 'last'));
		}
		if (this.#person === person) for (const outbox of this.#mine()) outbox.open();
	}

	/** Tries again when the connection is back, or the person is. @returns what ends it. */
	watch(): () => void {
		const again = (): void => {
			if (document.visibilityState === 'visible') void this.#again();
		};
		window.addEventListener('online', again);
		document.addEventListener('visibilitychange', again);
		return () => {
			window.removeEventListener('online', again);
			document.removeEventListener('visibilitychange', again);
		};
	}

	/** Edits of the person at the screen that are kept in this tab. */
	get unsaved(): number {
		return this.#mine().reduce((sum, outbox) => sum + outbox.waiting.length, 0);
	}

	async #again(): Promise<void> {
		const person = this.#person;
		if (person === null || !this.#ready.has(person)) return;
		for (const outbox of this.#mine()) outbox.retry();
		this.#take(person, await this.#keptOf(person).takeUp('last'), 'last');
	}

	#take(person: string, taken: readonly TakenUp[], place: 'first' | 'last'): void {
		for (const [job, those = []] of Object.entries(Object.groupBy(taken, (one) => one.job))) {
			const edits = those.map(({ edit }) => edit);
			const known = this.#all.get(keyOf(person, job));
			const outbox = known ?? new Outbox(person, job, 0, this.#keptOf(person));
			this.#all.set(keyOf(person, job), outbox);
			outbox.takeUp(edits, place);
			if (person === this.#person) outbox.open();
		}
	}

	#mine(): Outbox[] {
		return [...this.#all.values()].filter(({ person }) => person === this.#person);
	}

	#keptOf(person: string): KeptEdits {
		const known = this.#kept.get(person);
		if (known) return known;
		const kept = new KeptEdits(person);
		this.#kept.set(person, kept);
		return kept;
	}
}

const keyOf = (person: string, job: string): string => `${person} ${job}`;

export const [useOutboxes, provideOutboxes] = createContext<Outboxes>();
export const [useOutbox, provideOutbox] = createContext<Outbox>();
