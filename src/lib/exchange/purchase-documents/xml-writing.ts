/** Writing XML: elements as values, text escaped, nothing empty. */

export interface WrittenElement {
	/** With its prefix: `cbc:ID`. */
	readonly name: string;
	readonly attributes: Readonly<Record<string, string>>;
	readonly content: string | readonly WrittenElement[];
}

/**
 * Without the signs that XML 1.0 has no way to write, not even escaped: controls but tabs and line breaks, and the two that
 * are no characters. A half of a pair of surrogates becomes U+FFFD.
 */
const writable = (text: string): string =>
	text.toWellFormed().replace(/\p{Cc}|[\uFFFE\uFFFF]/gu, (sign) => ('\t\n\r'.includes(sign) ? sign : ''));

const escapeText = (text: string): string =>
	text
		.replaceAll('&', '&amp;')
		.replaceAll('<', '&lt;')
		.replaceAll('>', '&gt;')
		// A bare carriage return would be read as a line feed.
		.replaceAll('\r', '&#13;');

const escapeAttribute = (text: string): string =>
	escapeText(text).replaceAll('"', '&quot;').replaceAll('\n', '&#10;').replaceAll('\t', '&#9;');

/** An element with text; null when there is nothing to say, since UBL has no empty elements (rule IND5). */
export function textElement(
	name: string,
	text: string | null,
	attributes: Readonly<Record<string, string>> = {}
): WrittenElement | null {
	const content = writable(text ?? '').trim();
	return content === '' ? null : { name, attributes, content };
}

/** An element of elements; null when none of them says anything. */
export function nest(name: string, ...children: readonly (WrittenElement | null)[]): WrittenElement | null {
	const content = children.filter((child) => child !== null);
	return content.length === 0 ? null : { name, attributes: {}, content };
}

function write({ name, attributes, content }: WrittenElement, indent: string): string {
	const start = [
		name,
		...Object.entries(attributes).map(([key, value]) => `${key}="${escapeAttribute(writable(value))}"`)
	].join(' ');
	return typeof content === 'string'
		? `${indent}<${start}>${escapeText(content)}</${name}>\n`
		: `${indent}<${start}>\n${content.map((child) => write(child, `${indent}\t`)).join('')}${indent}</${name}>\n`;
}

/** The whole document, to be encoded as UTF-8. */
export const writeXml = (root: WrittenElement): string =>
	`<?xml version="1.0" encoding="UTF-8"?>\n${write(root, '')}`;
