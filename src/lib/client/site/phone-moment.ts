/** The clock of the phone. */

/** Now, as ISO 8601 in UTC; later than `before`, although another phone's clock may be ahead. */
export const momentAfter = (before?: string): string =>
	new Date(Math.max(Date.now(), before === undefined ? 0 : Date.parse(before) + 1)).toISOString();
