/** The pages of one server that follow one job, and the people who are in it, on all servers. */
import type { JobNews, PeopleNews, PersonThere } from '../../changes/live.ts';
import type { Follower } from './follower.ts';

/** Too much has happened to be told one by one: the page loads again what it shows. */
export interface TooMuch {
	readonly tooMuch: true;
	readonly revision: number;
}

/** What a room asks of what is stored. Null: there is no such job. */
export interface Stored {
	news(after: number): Promise<JobNews | TooMuch | null>;
	revision(): Promise<number | null>;
}

interface Present {
	readonly person: PersonThere;
	/** When they were heard of last, ms of a clock that only goes on. */
	heardAt: number;
}

/** People of one job who are kept in mind. */
const mostPeople = 500;

const personKey = ({ personId, tabId }: { readonly personId: string; readonly tabId: string }): string =>
	`${personId} ${tabId}`;

/** The same person, gone. */
export const gone = (person: PersonThere): PersonThere => ({
	...person,
	place: null,
	row: null,
	field: null,
	editing: false
});

export class JobRoom {
	readonly followers = new Set<Follower>();
	readonly #stored: Stored;
	/** What happens within so many ms is told together. */
	readonly #gather: number;
	readonly #people = new Map<string, Present>();
	/** Those of whom something changed since it was told, as they are now. */
	readonly #moved = new Map<string, PersonThere>();
	/** The highest revision heard of. */
	#heard = 0;
	#newsTimer: ReturnType<typeof setTimeout> | null = null;
	#peopleTimer: ReturnType<typeof setTimeout> | null = null;
	#telling = false;

	constructor(stored: Stored, gather: number) {
		this.#stored = stored;
		this.#gather = gather;
	}

	close(): void {
		if (this.#newsTimer) clearTimeout(this.#newsTimer);
		if (this.#peopleTimer) clearTimeout(this.#peopleTimer);
		for (const follower of [...this.followers]) follower.end();
	}

	add(follower: Follower): void {
		this.followers.add(follower);
		const people = [...this.#people.values()].map(({ person }) => person);
		this.#tellPeople(follower, { all: true, people });
	}

	/** @returns whether the person has no other page under the same id, as when a page connects again. */
	remove(follower: Follower): boolean {
		this.followers.delete(follower);
		return ![...this.followers].some((other) => personKey(other) === personKey(follower));
	}

	// What is stored.

	heard(revision: number): void {
		this.#heard = Math.max(this.#heard, revision);
		this.#tellSoon(this.#gather);
	}

	/** Looks at what is stored: a signal may have been lost. */
	async look(): Promise<void> {
		try {
			const revision = await this.#stored.revision();
			if (revision === null) this.#endAll();
			else this.heard(revision);
		} catch {
			// The database is away: it is looked at again.
		}
	}

	#tellSoon(pause: number): void {
		if (this.#newsTimer || this.#telling) return;
		if (![...this.followers].some(({ revision }) => revision < this.#heard)) return;
		this.#newsTimer = setTimeout(() => {
			this.#newsTimer = null;
			void this.#tell();
		}, pause);
	}

	async #tell(): Promise<void> {
		this.#telling = true;
		let pause = this.#gather;
		try {
			for (const revision of new Set([...this.followers].map((follower) => follower.revision)))
				if (revision < this.#heard) await this.#tellThoseAt(revision);
		} catch {
			// The database is away.
			pause = this.#gather * 10;
		}
		this.#telling = false;
		this.#tellSoon(pause);
	}

	/** Reads once for all followers who know the job as it was at a revision. */
	async #tellThoseAt(revision: number): Promise<void> {
		const news = await this.#stored.news(revision);
		const those = [...this.followers].filter((follower) => follower.revision === revision);
		if (news === null) {
			for (const follower of those) follower.end('deleted');
			return;
		}
		// Nothing is stored after it, whatever was heard.
		if (news.revision <= revision) {
			this.#heard = revision;
			return;
		}
		this.#heard = Math.max(this.#heard, news.revision);
		const event = 'tooMuch' in news ? 'reload' : 'changed';
		const data = 'tooMuch' in news ? '{}' : JSON.stringify(news);
		for (const follower of those) {
			follower.revision = news.revision;
			follower.send(event, data, news.revision);
			if (!('tooMuch' in news) && news.job?.deleted) follower.end('deleted');
		}
	}

	#endAll(): void {
		for (const follower of [...this.followers]) follower.end('deleted');
	}

	// People.

	/** People of the pages that are open on this server. */
	get peopleHere(): PersonThere[] {
		return [...this.followers].flatMap((follower) => this.#people.get(personKey(follower))?.person ?? []);
	}

	/** Somebody is somewhere, on this server or another. */
	present(person: PersonThere, now: number): void {
		const key = personKey(person);
		const before = this.#people.get(key);
		if (person.place === null) {
			if (!before) return;
			this.#people.delete(key);
		} else {
			if (!before && this.#people.size >= mostPeople) return;
			this.#people.set(key, { person, heardAt: now });
			if (before && JSON.stringify(before.person) === JSON.stringify(person)) return;
		}
		this.#moveSoon(key, person);
	}

	/** Forgets those of whom nothing was heard since a moment. */
	forgetSilent(since: number): void {
		for (const [key, { person, heardAt }] of this.#people) {
			if (heardAt >= since) continue;
			this.#people.delete(key);
			this.#moveSoon(key, gone(person));
		}
	}

	#moveSoon(key: string, person: PersonThere): void {
		this.#moved.set(key, person);
		this.#peopleTimer ??= setTimeout(() => {
			this.#peopleTimer = null;
			const people = [...this.#moved.values()];
			this.#moved.clear();
			for (const follower of this.followers) this.#tellPeople(follower, { all: false, people });
		}, this.#gather);
	}

	/** A page is not told of itself. */
	#tellPeople(follower: Follower, { all, people }: PeopleNews): void {
		const others = people.filter((person) => personKey(person) !== personKey(follower));
		if (all || others.length > 0) follower.send('people', JSON.stringify({ all, people: others }));
	}
}
