/** The digest by which a job pins a book: the same content gives the same digest, however its members are ordered. */
import { createHash } from 'node:crypto';

function canonical(value: unknown): string {
	if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
	if (typeof value === 'object' && value !== null) {
		const members = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
		return `{${members.map(([name, member]) => `${JSON.stringify(name)}:${canonical(member)}`).join(',')}}`;
	}
	return JSON.stringify(value);
}

/** SHA-256, hexadecimal. */
export const digestOf = (book: object): string => createHash('sha256').update(canonical(book)).digest('hex');

/** SHA-256, hexadecimal, of texts as they stand, one after the other. */
export function digestOfText(...texts: readonly string[]): string {
	const hash = createHash('sha256');
	for (const text of texts) hash.update(text).update('\n');
	return hash.digest('hex');
}
