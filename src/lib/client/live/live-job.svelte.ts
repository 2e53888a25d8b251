/**
 * What the server tells of one job while its pages are open: what others did, and where they are. Everything that is
 * told can be had again, so that a connection that was lost costs nothing but time.
 */
import { createContext } from 'svelte';
import type {
	EndReason,
	FeedEnded,
	JobNews,
	PeopleNews,
	PersonThere,
	Whereabouts
} from '../../changes/live.ts';
import type { Role } from '../../changes/roles.ts';
import { send } from '../call.ts';
import { opaqueId } from '../opaque-id.ts';

/** `resting`: nobody looks at the page. `lost`: it is tried again. */
export type Connection = 'opening' | 'open' | 'lost' | 'resting' | 'ended';

/** Who shows the rows. */
export interface NewsListener {
	/** @returns false where something before it is missing. */
	hear(news: JobNews): boolean;
}

export interface LiveHost {
	readonly job: string;
	/** Revision of the page as it was loaded. */
	readonly revision: number;
	/** Loads again what is shown. */
	reload(): Promise<void>;
	/** Whether what is shown was loaded for somebody with these roles. */
	isFor(roles: readonly Role[]): boolean;
	/** Whether something is told that this person did on another page. */
	isOwn(news: JobNews): boolean;
}

const firstPause = 1000;
const longestPause = 15_000;
/** Words on where the person is are no more frequent than this, ms, and are repeated after a while. */
const tellPause = 250;
const tellAgain = 20_000;
/** A page that is out of sight for so long lets its connection go: a browser has few for one server. */
const restAfter = 5000;
const reloadPause = 1000;

const nowhere: Omit<Whereabouts, 'tab'> = { place: null, row: null, field: null, editing: false };

export class LiveJob {
	connection: Connection = $state('opening');
	/** Why nothing more is told. */
	ended: EndReason | null = $state(null);
	/** The latest revision heard of. */
	revision = $state(0);
	/** The others who are there, and other pages of this person. */
	people: readonly PersonThere[] = $state.raw([]);
	listener: NewsListener | null = null;

	readonly #host: LiveHost;
	readonly #tab = opaqueId();
	#listeners: readonly ((people: readonly PersonThere[]) => void)[] = [];
	#source: EventSource | null = null;
	#pause = firstPause;
	#timer: ReturnType<typeof setTimeout> | null = null;
	#restTimer: ReturnType<typeof setTimeout> | null = null;
	#tellTimer: ReturnType<typeof setTimeout> | null = null;
	#where = nowhere;
	#told = '';
	#reloading = false;
	#reloadAgain = false;
	#gone = false;

	constructor(host: LiveHost) {
		this.#host = host;
		this.revision = host.revision;
	}

	/** Begins to follow. In the browser only. @returns what ends it. */
	open(): () => void {
		const look = (): void => this.#look();
		const online = (): void => this.#connect();
		document.addEventListener('visibilitychange', look);
		window.addEventListener('online', online);
		const again = setInterval(() => this.#tell(true), tellAgain);
		this.#connect();
		return () => {
			this.#gone = true;
			this.#let();
			clearInterval(again);
			if (this.#restTimer) clearTimeout(this.#restTimer);
			if (this.#tellTimer) clearTimeout(this.#tellTimer);
			document.removeEventListener('visibilitychange', look);
			window.removeEventListener('online', online);
		};
	}

	/** Hears when people come, go or move. @returns what ends it. */
	listen(listener: (people: readonly PersonThere[]) => void): () => void {
		this.#listeners = [...this.#listeners, listener];
		return () => {
			this.#listeners = this.#listeners.filter((other) => other !== listener);
		};
	}

	/** Says where this person is: on which page, and at which cell. */
	isAt(place: string | null, row: string | null = null, field: string | null = null, editing = false): void {
		this.#where = { place, row, field, editing };
		this.#tellTimer ??= setTimeout(() => {
			this.#tellTimer = null;
			this.#tell(false);
		}, tellPause);
	}

	/** Loads again what is shown, not more often than is good for the server. */
	async reload(): Promise<void> {
		this.#reloadAgain = true;
		if (this.#reloading) return;
		this.#reloading = true;
		try {
			while (this.#isReloadAsked()) {
				this.#reloadAgain = false;
				await this.#host.reload();
				await new Promise((resolve) => setTimeout(resolve, reloadPause));
			}
		} finally {
			this.#reloading = false;
		}
	}

	#isReloadAsked(): boolean {
		return this.#reloadAgain && !this.#gone;
	}

	#look(): void {
		if (this.#restTimer) clearTimeout(this.#restTimer);
		this.#restTimer = null;
		if (document.visibilityState === 'visible') this.#connect();
		else
			this.#restTimer = setTimeout(() => {
				this.#let();
				if (this.connection !== 'ended') this.connection = 'resting';
			}, restAfter);
	}

	#let(): void {
		if (this.#timer) clearTimeout(this.#timer);
		this.#timer = null;
		this.#source?.close();
		this.#source = null;
	}

	#connect(): void {
		if (this.#gone || this.#source?.readyState === EventSource.OPEN) return;
		if (this.ended !== null && this.ended !== 'signedOut') return;
		this.#let();
		const source = new EventSource(
			`/api/jobs/${this.#host.job}/events?after=${this.revision}&tab=${this.#tab}`
		);
		this.#source = source;
		source.onopen = () => {
			this.#pause = firstPause;
			// Whoever has signed in since may be somebody else.
			if (this.ended !== null) void this.reload();
			this.ended = null;
			this.connection = 'open';
			this.#tell(true);
		};
		source.onerror = () => {
			this.#setPeople([]);
			if (this.connection !== 'ended') this.connection = 'lost';
			// It tries again by itself unless the server refused.
			if (source.readyState === EventSource.CLOSED) this.#connectLater();
		};
		const data = (event: Event): unknown => JSON.parse((event as MessageEvent<string>).data);
		source.addEventListener('changed', (event) => this.#changed(data(event) as JobNews));
		source.addEventListener('reload', (event) => {
			this.revision = Number((event as MessageEvent<string>).lastEventId);
			void this.reload();
		});
		source.addEventListener('roles', (event) => {
			if (!this.#host.isFor(data(event) as Role[])) void this.reload();
		});
		source.addEventListener('people', (event) => this.#move(data(event) as PeopleNews));
		source.addEventListener('ended', (event) => this.#end((data(event) as FeedEnded).reason));
	}

	#connectLater(): void {
		this.#let();
		if (document.visibilityState !== 'visible') return;
		this.#timer = setTimeout(() => {
			this.#timer = null;
			this.#connect();
		}, this.#pause);
		this.#pause = Math.min(this.#pause * 2, longestPause);
	}

	#end(reason: EndReason): void {
		this.#setPeople([]);
		this.ended = reason;
		this.connection = 'ended';
		this.#let();
		if (reason === 'signedOut') this.#connectLater();
	}

	#changed(news: JobNews): void {
		const missing = news.after > this.revision;
		this.revision = Math.max(this.revision, news.revision);
		const complete = this.listener?.hear(news) ?? true;
		const jobChanged = news.job !== null && !news.job.deleted;
		if (missing || !complete || jobChanged || this.#host.isOwn(news)) void this.reload();
	}

	#move({ all, people }: PeopleNews): void {
		const same = (a: PersonThere, b: PersonThere): boolean =>
			a.personId === b.personId && a.tabId === b.tabId;
		const others = all ? [] : this.people.filter((one) => !people.some((moved) => same(one, moved)));
		this.#setPeople([...others, ...people.filter(({ place }) => place !== null)]);
	}

	#setPeople(people: readonly PersonThere[]): void {
		this.people = people;
		for (const listener of this.#listeners) listener(people);
	}

	/** @param again also where it was told before. */
	#tell(again: boolean): void {
		if (this.connection !== 'open' || this.#where.place === null) return;
		const where: Whereabouts = { tab: this.#tab, ...this.#where };
		const words = JSON.stringify(where);
		if (!again && words === this.#told) return;
		this.#told = words;
		void send('POST', `/api/jobs/${this.#host.job}/presence`, where);
	}
}

export const [useLiveJob, provideLiveJob] = createContext<LiveJob>();
