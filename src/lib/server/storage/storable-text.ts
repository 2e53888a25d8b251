/** Text that every database keeps exactly as it is. */

/** Text that no database could give back as it was. */
export class UnstorableText extends Error {
	constructor() {
		super('a text has a sign that the database can’t keep: U+0000, or half of a pair of surrogates');
		this.name = 'UnstorableText';
	}
}

/**
 * PostgreSQL has no place for U+0000, and half of a surrogate pair has no form in UTF-8: drivers put another sign in its
 * place silently.
 * @throws UnstorableText
 */
export function checkText(value: unknown): void {
	if (typeof value === 'string' && (value.includes('\0') || !value.isWellFormed()))
		throw new UnstorableText();
}
