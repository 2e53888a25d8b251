/** The request by which somebody is here, as far as accounts have to know. */
export interface Visit {
	/** Network address of the person. */
	readonly address: string;
	/** What the browser says of itself. */
	readonly browser: string | null;
	/** The `Cookie` header. */
	readonly cookies: string | null;
	/** Of the session they are signed in with. */
	readonly sessionId: string | null;
}

/** A value, and what the browser is to keep or to forget: `Set-Cookie`. */
export interface WithCookies<T> {
	readonly value: T;
	readonly cookies: readonly string[];
}
