/**
 * How much one person may ask of this process: changes a second, files a minute, heavy work at once. Generous enough for
 * a paste of a whole job; what goes beyond is refused in words, with the time to wait. Who is signed in is counted by
 * person, everybody else by network address.
 */
import { json, text } from '@sveltejs/kit';

/** A bucket of so many tokens that fills again by so many a second. */
export interface Allowance {
	readonly most: number;
	readonly perSecond: number;
}

interface Bucket {
	left: number;
	at: number;
}

/** Buckets beyond this many are looked through, and full ones forgotten. */
const mostBuckets = 10_000;

export class TokenBuckets {
	readonly #allowance: Allowance;
	readonly #buckets = new Map<string, Bucket>();

	constructor(allowance: Allowance) {
		this.#allowance = allowance;
	}

	/**
	 * Takes one token from the bucket of a key.
	 * @param now ms
	 * @returns 0, or the seconds until there is one again.
	 */
	take(key: string, now: number): number {
		const { most, perSecond } = this.#allowance;
		const bucket = this.#buckets.get(key) ?? { left: most, at: now };
		// A clock that is set back fills nothing.
		const left = Math.min(most, bucket.left + (Math.max(0, now - bucket.at) / 1000) * perSecond);
		const enough = left >= 1;
		if (!this.#buckets.has(key) && this.#buckets.size >= mostBuckets) this.#forgetFull(now);
		this.#buckets.set(key, { left: enough ? left - 1 : left, at: now });
		return enough ? 0 : Math.max(1, Math.ceil((1 - left) / perSecond));
	}

	#forgetFull(now: number): void {
		const { most, perSecond } = this.#allowance;
		for (const [key, { left, at }] of this.#buckets)
			if (left + ((now - at) / 1000) * perSecond >= most) this.#buckets.delete(key);
	}
}

/** Counts what a key has under way. */
export class AtOnce {
	readonly #most: number;
	readonly #underWay = new Map<string, number>();

	constructor(most: number) {
		this.#most = most;
	}

	/** @returns to be called when it is done; null when as much as may be is under way. */
	enter(key: string): (() => void) | null {
		const count = this.#underWay.get(key) ?? 0;
		if (count >= this.#most) return null;
		this.#underWay.set(key, count + 1);
		return () => {
			const now = (this.#underWay.get(key) ?? 1) - 1;
			if (now === 0) this.#underWay.delete(key);
			else this.#underWay.set(key, now);
		};
	}
}

const writesOfPerson = new TokenBuckets({ most: 200, perSecond: 50 });
const uploadsOfPerson = new TokenBuckets({ most: 20, perSecond: 20 / 60 });
const requestsOfAddress = new TokenBuckets({ most: 120, perSecond: 10 });
const heavyOfPerson = new AtOnce(3);
/** A file that is looked through is read again with every question that is answered, and a keyboard answers fast. */
const readingsOfPerson = new TokenBuckets({ most: 120, perSecond: 2 });
const readingsAtOnce = new AtOnce(12);

/** Workbooks, pages to print, schedules and models read or compared, bids: each takes a good part of a second. */
const heavyRoute =
	/\/(?:workbook|print|schedule|model|deliveries|material-list|bids|restore|copy|example|file|answers|freed)(?:\/|$)/u;

const reading = /\/(?:schedule|model|deliveries)\/(?:preview|compare)$/u;

export interface Asker {
	/** Null when nobody has signed in. */
	readonly personId: string | null;
	readonly address: string;
	/** The one person at this machine: only the work at once is counted. */
	readonly alone: boolean;
}

export interface Asked {
	readonly method: string;
	/** Id of the route; null for none. */
	readonly route: string | null;
	readonly headers: Headers;
}

function tooMuch(asked: Asked, message: string, wait: number): Response {
	const headers = { 'retry-after': String(wait) };
	const asPage = asked.headers.get('accept')?.includes('text/html') ?? false;
	return asPage ? text(message, { status: 429, headers }) : json({ message }, { status: 429, headers });
}

const waiting = (wait: number): string => (wait === 1 ? 'a second' : `${wait} seconds`);

/** Seconds to wait and what to say; null when there is room. */
function refusalFor(
	asked: Asked,
	{ personId, address, alone }: Asker,
	now: number
): { wait: number; message: string } | null {
	if (alone) return null;
	if (personId === null) {
		const wait = requestsOfAddress.take(address, now);
		if (wait === 0) return null;
		return { wait, message: `Too much is asked for from your network. Try again in ${waiting(wait)}.` };
	}
	if (asked.method === 'GET' || asked.method === 'HEAD') return null;
	const upload = asked.headers.get('content-type')?.startsWith('multipart/form-data') ?? false;
	const files = reading.test(asked.route ?? '') ? readingsOfPerson : uploadsOfPerson;
	const forUpload = upload ? files.take(personId, now) : 0;
	if (forUpload > 0)
		return {
			wait: forUpload,
			message: `That is many files within a minute. Nothing was stored; send this one again in ${waiting(forUpload)}.`
		};
	const wait = writesOfPerson.take(personId, now);
	if (wait === 0) return null;
	return {
		wait,
		message: `That is more changes than are taken at once. Nothing was stored; try again in ${waiting(wait)}.`
	};
}

/** Answers when there is room for it, or says when there is. */
export async function withinBudget(
	asked: Asked,
	asker: Asker,
	answer: () => Response | Promise<Response>
): Promise<Response> {
	const refused = refusalFor(asked, asker, Date.now());
	if (refused) return tooMuch(asked, refused.message, refused.wait);
	if (asked.route === null || !heavyRoute.test(asked.route)) return answer();
	const atOnce = reading.test(asked.route) ? readingsAtOnce : heavyOfPerson;
	const leave = atOnce.enter(asker.personId ?? asker.address);
	if (!leave)
		return tooMuch(
			asked,
			'Three files of yours are being worked on already. Try again when one of them is done.',
			5
		);
	try {
		return await answer();
	} finally {
		leave();
	}
}
