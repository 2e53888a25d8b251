/** Tells the open pages of this server what happens in their jobs: one room a job, for as long as somebody follows it. */
import type { PersonThere } from '../../changes/live.ts';
import { Follower, type Following } from './follower.ts';
import { gone, JobRoom, type Stored } from './job-room.ts';
import type { Heard, Signals } from './signals.ts';

interface JobOf {
	readonly companyId: string;
	readonly jobId: string;
}

/** Milliseconds. */
export interface FeedTimes {
	/** What happens within it is told together. */
	readonly gather: number;
	/** Every so often a sign of life is sent, and what was missed is looked for. */
	readonly heartbeat: number;
	/** Who says nothing for so long is taken to have gone. */
	readonly silence: number;
}

export interface FeedLimits {
	/** Pages of one person. */
	readonly ofPerson: number;
	/** Pages of all people. */
	readonly ofServer: number;
	/** Bytes that may wait for a page to read them. */
	readonly unread: number;
	/** Words on where a person is, a second. */
	readonly words: number;
}

export const usualTimes: FeedTimes = { gather: 100, heartbeat: 15_000, silence: 45_000 };
export const usualLimits: FeedLimits = { ofPerson: 20, ofServer: 500, unread: 4 * 1024 * 1024, words: 20 };

export interface FeedHost {
	readonly signals: Signals;
	readonly times: FeedTimes;
	readonly limits: FeedLimits;
	storedOf(job: JobOf): Stored;
	/** Milliseconds of a clock that only goes on. */
	clock(): number;
}

const nameOf = ({ companyId, jobId }: JobOf): string => JSON.stringify([companyId, jobId]);

export class Feed {
	readonly #host: FeedHost;
	readonly #rooms = new Map<string, JobRoom>();
	readonly #pages = new Map<string, number>();
	/** By person: words within the second that began at a moment. */
	readonly #words = new Map<string, { readonly since: number; count: number }>();
	readonly #endListening: () => void;
	readonly #timers: readonly ReturnType<typeof setInterval>[];
	#all = 0;
	#closed = false;

	constructor(host: FeedHost) {
		this.#host = host;
		const { signals, times } = host;
		this.#endListening = signals.listen((heard) => this.#hear(heard));
		this.#timers = [
			setInterval(() => this.#lookAll(), times.heartbeat),
			setInterval(() => this.#forgetSilent(), times.silence / 9)
		];
		for (const timer of this.#timers) timer.unref();
	}

	/**
	 * Begins to tell a page.
	 * @param revision of the job now
	 * @returns what the page reads; null where there are too many pages, or the server stops.
	 */
	follow(job: JobOf, following: Following, revision: number): ReadableStream<Uint8Array> | null {
		const { signals, times, limits } = this.#host;
		const { personId, after } = following;
		const pages = this.#pages.get(personId) ?? 0;
		if (this.#closed || this.#all >= limits.ofServer || pages >= limits.ofPerson) return null;
		this.#all++;
		this.#pages.set(personId, pages + 1);
		const name = nameOf(job);
		let room = this.#rooms.get(name);
		if (!room) {
			room = new JobRoom(this.#host.storedOf(job), times.gather);
			this.#rooms.set(name, room);
			signals.send({ kind: 'who', ...job });
		}
		const there = room;
		const follower = new Follower(
			{ ...following, after: Math.min(after, revision) },
			{ heartbeat: times.heartbeat, mostUnread: limits.unread },
			(left) => this.#left(job, there, left)
		);
		there.add(follower);
		// What the page knows is not stored (any more), as after a backup was brought back.
		if (after > revision) follower.send('reload', '{}', revision);
		there.heard(revision);
		return follower.stream;
	}

	/** Somebody of this job is somewhere. @returns false when they say so too often. */
	tell(job: JobOf, person: PersonThere): boolean {
		const { signals, limits } = this.#host;
		const now = this.#host.clock();
		const words = this.#words.get(person.personId);
		const current = words && now - words.since < 1000 ? words : { since: now, count: 0 };
		this.#words.set(person.personId, current);
		if (++current.count > limits.words) return false;
		signals.send({ kind: 'present', ...job, ...person });
		return true;
	}

	isFollowed(job: JobOf): boolean {
		return this.#rooms.has(nameOf(job));
	}

	/** Ends what every page reads. */
	close(): void {
		this.#closed = true;
		this.#endListening();
		for (const timer of this.#timers) clearInterval(timer);
		for (const room of [...this.#rooms.values()]) room.close();
	}

	#left(job: JobOf, room: JobRoom, follower: Follower): void {
		const { personId, tabId } = follower;
		this.#all--;
		const pages = (this.#pages.get(personId) ?? 1) - 1;
		if (pages === 0) this.#pages.delete(personId);
		else this.#pages.set(personId, pages);
		const wasThere = room.peopleHere.find((person) => person.personId === personId && person.tabId === tabId);
		const isGone = room.remove(follower);
		if (isGone && wasThere) this.#host.signals.send({ kind: 'present', ...job, ...gone(wasThere) });
		if (room.followers.size > 0) return;
		room.close();
		this.#rooms.delete(nameOf(job));
	}

	#hear(heard: Heard): void {
		if (heard.kind === 'missed') {
			this.#lookAll();
			return;
		}
		const room = this.#rooms.get(nameOf(heard));
		if (!room) return;
		const { companyId, jobId } = heard;
		switch (heard.kind) {
			case 'changed':
				room.heard(heard.revision);
				break;
			case 'present': {
				const { tabId, personId, name, place, row, field, editing } = heard;
				room.present({ tabId, personId, name, place, row, field, editing }, this.#host.clock());
				break;
			}
			case 'who':
				for (const person of room.peopleHere)
					this.#host.signals.send({ kind: 'present', companyId, jobId, ...person });
		}
	}

	#lookAll(): void {
		for (const room of this.#rooms.values()) void room.look();
	}

	#forgetSilent(): void {
		const now = this.#host.clock();
		for (const room of this.#rooms.values()) room.forgetSilent(now - this.#host.times.silence);
		for (const [person, { since }] of this.#words) if (now - since >= 1000) this.#words.delete(person);
	}
}
