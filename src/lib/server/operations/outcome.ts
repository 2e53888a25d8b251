/** What an operation comes to: a value, or a refusal in words. */
import type { Refusal } from '../../changes/answer.ts';

export interface Done<T> {
	readonly ok: true;
	readonly value: T;
}

export interface Refused {
	readonly ok: false;
	/**
	 * 401 not signed in, 403 not theirs to do, 404 not there, 409 changed meanwhile, 413 too large, 422 not right, 429 too
	 * often, 503 can't be stored now.
	 */
	readonly status: 401 | 403 | 404 | 409 | 413 | 422 | 429 | 503;
	readonly refusal: Refusal;
	/** Seconds until it may be tried again, where that is known. */
	readonly retryAfter?: number;
}

export type Outcome<T> = Done<T> | Refused;

export const done = <T>(value: T): Done<T> => ({ ok: true, value });

export const refuse = (status: Refused['status'], refusal: Refusal, retryAfter?: number): Refused => ({
	ok: false,
	status,
	refusal,
	...(retryAfter === undefined ? {} : { retryAfter })
});
