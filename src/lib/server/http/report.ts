/** What the program writes to its own log when something fails. Never what a person typed, nor what a message quotes. */
import { randomBytes } from 'node:crypto';

/** The kind of the error and the places in the program it went through; its message is left out. */
function traceOf(thrown: unknown): string {
	if (!(thrown instanceof Error)) return typeof thrown;
	const frames = (thrown.stack ?? '').split('\n').filter((line) => /^\s+at /u.test(line));
	return [thrown.name, ...frames.slice(0, 12)].join('\n');
}

/** Writes the failure down. @returns a reference that a person can pass on. */
export function reportFailure(thrown: unknown, route: string | null): string {
	const reference = randomBytes(4).toString('hex');
	console.error(`failure ${reference} at ${route ?? 'no route'}: ${traceOf(thrown)}`);
	return reference;
}
