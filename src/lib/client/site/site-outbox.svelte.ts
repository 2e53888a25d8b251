/**
 * Counts and photos on their way to the office: kept on the phone first, sent when there is signal, counts before photos.
 * Each has an id made here, so one that arrives twice counts once.
 */
import { createContext } from 'svelte';
import type { MeasureTaken } from '../../changes/measures.ts';
import type { CountFinished, CountsTaken, PhotoTaken } from '../../changes/site.ts';
import { mostCounts } from '../../changes/site.ts';
import type { SentCount } from '../../delivery/count.ts';
import { send, sendForm, type Answer } from '../call.ts';
import { draftKey, KeptOnPhone, type CountDraft, type Kept, type ToKeep } from './kept-on-phone.ts';

/** `saved`: nothing waits that may be sent. */
export type SendingState = 'saved' | 'sending' | 'noConnection' | 'notStored' | 'signedOut';

const firstPause = 1000;
const longestPause = 30_000;

/** What somebody makes on a page; whose it is, the outbox knows. */
type Made<T> = T extends unknown ? Omit<T, 'person' | 'refused'> : never;
export type MadeOnSite = Made<ToKeep>;

/** The next things that go together: counts of one job in one request, everything else alone. Photos wait for all others. */
export function nextToSend(waiting: readonly Kept[], together: number): readonly Kept[] {
	const ready = waiting.filter(({ refused }) => refused === null);
	const first = ready.find(({ kind }) => kind !== 'photo') ?? ready[0];
	if (!first) return [];
	if (first.kind !== 'count') return [first];
	const others = ready.filter(({ kind }) => kind !== 'photo');
	const end = others.findIndex(({ kind, job }) => kind !== 'count' || job !== first.job);
	return others.slice(0, Math.min(end === -1 ? others.length : end, together));
}

export class SiteOutbox {
	/** Of the person at the screen, in the order in which they were made. */
	waiting: readonly Kept[] = $state.raw([]);
	/** How many of somebody else wait in this browser, by job. */
	ofOthers: Readonly<Record<string, number>> = $state.raw({});
	state: SendingState = $state('saved');
	/** This browser keeps nothing: what waits is lost when the page is closed. */
	inMemory = $state(false);
	/** Counts up whenever something has reached the office. */
	arrived = $state(0);

	readonly #kept = new KeptOnPhone();
	/** Counts that arrived, until the page has them from the office. */
	#sent: readonly SentCount[] = $state.raw([]);
	#person: string | null;
	#pause = firstPause;
	#timer: ReturnType<typeof setTimeout> | null = null;
	#sending = false;
	/** After a refusal, one by one: only what is refused stays behind. */
	#together: number = mostCounts;

	/** @param person id of the person at the screen; null before anybody has signed in. */
	constructor(person: string | null) {
		this.#person = person;
	}

	/** Somebody is at the screen now: takes up what they left here. In the browser only. */
	async become(person: string | null): Promise<void> {
		if (person !== this.#person) this.#sent = [];
		this.#person = person;
		await this.#look();
		this.retry();
	}

	/** Something waits that this browser does not keep. */
	get isLostWithPage(): boolean {
		return this.inMemory && this.waiting.some(({ number }) => number < 0);
	}

	/** Tries again when the signal or the person is back. @returns what ends it. */
	watch(): () => void {
		const again = (): void => {
			if (document.visibilityState === 'visible') this.retry();
		};
		window.addEventListener('online', again);
		document.addEventListener('visibilitychange', again);
		return () => {
			window.removeEventListener('online', again);
			document.removeEventListener('visibilitychange', again);
		};
	}

	/** Keeps what was made, then sends it. */
	async add(made: readonly MadeOnSite[]): Promise<void> {
		const person = this.#person;
		if (person === null) return;
		const where = await this.#kept.keep(made.map((one): ToKeep => ({ ...one, person, refused: null })));
		if (where === 'memory') this.inMemory = true;
		// Browsers clear what sites keep when room is short, unless they were asked not to.
		else if ('storage' in navigator) void navigator.storage.persist().catch(() => false);
		await this.#look();
		void this.#work();
	}

	retry(): void {
		if (this.#timer) clearTimeout(this.#timer);
		this.#timer = null;
		this.#pause = firstPause;
		void this.#work();
	}

	/** Sends again what the office would not take. */
	async sendAgain(kept: Kept): Promise<void> {
		await this.#kept.setRefused(kept, null);
		await this.#look();
		this.retry();
	}

	/** Throws away what the office would not take. */
	async letGo(kept: Kept): Promise<void> {
		await this.#kept.forget([kept.number]);
		await this.#look();
	}

	/** Counts of a truck that the office has not, or had not when the page was loaded. */
	countsOf(job: string, deliveryId: string): readonly SentCount[] {
		const waiting = this.waiting.flatMap((one) =>
			one.kind === 'count' && one.refused === null && one.job === job ? [one.count] : []
		);
		return [...this.#sent, ...waiting].filter((count) => count.deliveryId === deliveryId);
	}

	/** What was said last on this phone of whether the truck is counted, and has not reached the office. */
	finishedHere(job: string, deliveryId: string): boolean | null {
		const said = this.waiting.findLast(
			(one) =>
				one.kind === 'finish' && one.refused === null && one.job === job && one.deliveryId === deliveryId
		);
		return said?.kind === 'finish' ? said.finished : null;
	}

	/** The page has these from the office now. */
	known(countIds: readonly string[]): void {
		if (this.#sent.some(({ countId }) => countIds.includes(countId)))
			this.#sent = this.#sent.filter(({ countId }) => !countIds.includes(countId));
	}

	draft(...key: readonly string[]): Promise<CountDraft | null> {
		return this.#kept.draft(draftKey(this.#person ?? '', ...key));
	}

	setDraft(draft: CountDraft | null, ...key: readonly string[]): Promise<void> {
		return this.#kept.setDraft(draftKey(this.#person ?? '', ...key), draft);
	}

	async #look(): Promise<void> {
		const all = await this.#kept.all().catch(() => []);
		this.waiting = all.filter(({ person }) => person === this.#person);
		const others = all.filter(({ person }) => person !== this.#person);
		this.ofOthers = Object.fromEntries(
			Object.entries(Object.groupBy(others, ({ job }) => job)).map(([job, some = []]) => [job, some.length])
		);
	}

	async #work(): Promise<void> {
		if (this.#sending || this.#timer || this.#person === null) return;
		this.#sending = true;
		try {
			await this.#look();
			for (;;) {
				const next = nextToSend(this.waiting, this.#together);
				const [first] = next;
				if (!first) break;
				if (this.state === 'saved') this.state = 'sending';
				if (!(await this.#sendThese(first, next))) return;
			}
			this.state = 'saved';
			this.#pause = firstPause;
			this.#together = mostCounts;
		} finally {
			this.#sending = false;
		}
	}

	/** True when the next may go. */
	async #sendThese(first: Kept, all: readonly Kept[]): Promise<boolean> {
		const person = this.#person;
		const answer = await this.#post(first, all);
		if (person !== this.#person) return false;
		if (answer.ok) {
			this.#sent = [...this.#sent, ...all.flatMap((one) => (one.kind === 'count' ? [one.count] : []))];
			await this.#kept.forget(all.map(({ number }) => number));
			await this.#look();
			this.arrived++;
			this.#pause = firstPause;
			this.state = 'sending';
			return true;
		}
		const { status } = answer;
		if (status === 0 || status === 401 || status === 408 || status === 429 || status >= 500) {
			this.state = status === 0 ? 'noConnection' : status === 401 ? 'signedOut' : 'notStored';
			this.#timer = setTimeout(() => {
				this.#timer = null;
				void this.#work();
			}, this.#pause);
			this.#pause = Math.min(this.#pause * 2, longestPause);
			return false;
		}
		if (all.length > 1) {
			this.#together = 1;
			return true;
		}
		await this.#kept.setRefused(first, answer.message);
		await this.#look();
		return true;
	}

	#post(
		first: Kept,
		all: readonly Kept[]
	): Promise<Answer<CountsTaken | CountFinished | PhotoTaken | MeasureTaken>> {
		const { job, person } = first;
		const base = `/api/jobs/${job}`;
		switch (first.kind) {
			case 'count': {
				const counts = all.flatMap((one) => (one.kind === 'count' ? [one.count] : []));
				return send<CountsTaken>('POST', `${base}/counts`, { counts }, person);
			}
			case 'finish': {
				const { deliveryId, finished, at } = first;
				return send<CountFinished>('PUT', `${base}/counts/${deliveryId}`, { finished, at }, person);
			}
			case 'measure':
				return send<MeasureTaken>('POST', `${base}/measures`, first.measure, person);
			case 'photo': {
				const { photoId, bytes, type } = first.picture;
				const form = new FormData();
				form.set('photoId', photoId);
				form.set('file', new Blob([bytes], { type }), 'photo');
				return sendForm<PhotoTaken>(`${base}/photos`, form, person);
			}
		}
	}
}

export const [useSiteOutbox, provideSiteOutbox] = createContext<SiteOutbox>();
