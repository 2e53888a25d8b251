/**
 * XML of strangers as a tree. Only what documents of trade need: elements with their namespaces, attributes without one,
 * text. A document type declaration is refused, so there are no entities to grow and nothing is fetched; size, depth and
 * number are bounded.
 */
import { SaxesParser } from 'saxes';
import { grouped, megabytes, oneLine, shown } from '../sheet.ts';

export interface XmlElement {
	/** Namespace; empty where there is none. */
	readonly space: string;
	/** Name without prefix. */
	readonly name: string;
	/** Those without a namespace, by name. */
	readonly attributes: ReadonlyMap<string, string>;
	readonly children: readonly XmlElement[];
	/** What stands in it outside its children, on one line. */
	readonly text: string;
	/** Line of the file, from 1. */
	readonly line: number;
}

export type XmlReading = { ok: true; root: XmlElement } | { ok: false; message: string; place: string };

/** Some four thousand lines; read at once, so that larger ones would keep everybody waiting. */
export const mostBytes = 5 * 1024 * 1024;
export const mostElements = 100_000;
export const deepest = 64;
export const mostAttributes = 64;

class Refused extends Error {
	readonly line: number;

	constructor(message: string, line: number) {
		super(message);
		this.line = line;
	}
}

/** Encodings by the names they are declared with; others are refused. */
const encodings: ReadonlyMap<string, string> = new Map([
	['utf-8', 'utf-8'],
	['us-ascii', 'utf-8'],
	['utf-16', 'utf-16'],
	['utf-16le', 'utf-16'],
	['utf-16be', 'utf-16'],
	['iso-8859-1', 'windows-1252'],
	['windows-1252', 'windows-1252']
]);

const startsWith = (bytes: Uint8Array, ...start: number[]): boolean =>
	start.every((byte, i) => bytes[i] === byte);

/** What the bytes say, or the reason why not. */
function decode(bytes: Uint8Array): { ok: true; text: string } | { ok: false; reason: string } {
	const wide = startsWith(bytes, 0xff, 0xfe) ? 'utf-16le' : startsWith(bytes, 0xfe, 0xff) ? 'utf-16be' : null;
	const start = Array.from(bytes.subarray(0, 200), (byte) => String.fromCharCode(byte)).join('');
	const declared = /^(?:\u00ef\u00bb\u00bf)?<\?xml[^>]{0,120}?\bencoding\s*=\s*["']([^"']{1,40})["']/u.exec(
		start
	)?.[1];
	const encoding = wide ?? encodings.get((declared ?? 'utf-8').toLowerCase());
	if (encoding === undefined || encoding === 'utf-16')
		return {
			ok: false,
			reason: `its encoding ${shown(declared ?? '')} is not read; save it as UTF-8`
		};
	try {
		return { ok: true, text: new TextDecoder(encoding, { fatal: true }).decode(bytes) };
	} catch {
		return { ok: false, reason: `its bytes are not ${encoding.toUpperCase()} throughout; save it as UTF-8` };
	}
}

interface Open {
	readonly space: string;
	readonly name: string;
	readonly attributes: ReadonlyMap<string, string>;
	readonly children: XmlElement[];
	readonly line: number;
	text: string;
}

/**
 * Reads XML 1.0 with namespaces. Refused, with a sentence that says where: what is empty or larger than 5 MB, an
 * encoding other than UTF-8, UTF-16, Latin 1 or Windows 1252, what is not well-formed, a document type declaration, more
 * than 64 levels, 100,000 elements or 64 attributes on one. Comments and instructions to programs are passed over.
 *
 * @param name of the file, for messages
 */
export function readXml(name: string, bytes: Uint8Array): XmlReading {
	const refuse = (message: string, place = name): XmlReading => ({ ok: false, message, place });
	if (bytes.length === 0) return refuse(`${name} is empty.`);
	if (bytes.length > mostBytes)
		return refuse(`${name} has ${megabytes(bytes.length)}; at most ${megabytes(mostBytes)} are read.`);
	const decoded = decode(bytes);
	if (!decoded.ok) return refuse(`${name} can’t be read: ${decoded.reason}.`);
	if (!decoded.text.trimStart().startsWith('<'))
		return refuse(`${name} is not XML: it does not begin with “<”.`);
	const declaration = doctypeAt(decoded.text);
	if (declaration !== null)
		return refuse(
			`${name}, line ${declaration}: it has a document type declaration (DOCTYPE), which is not read; send it without one.`,
			`${name}, line ${declaration}`
		);
	try {
		return { ok: true, root: buildTree(decoded.text) };
	} catch (problem) {
		if (problem instanceof Refused)
			return refuse(`${name}, line ${problem.line}: ${problem.message}.`, `${name}, line ${problem.line}`);
		throw problem;
	}
}

/**
 * Line of the document type declaration, or null where there is none. It may only stand before the root, so that it is
 * found without reading a word of it, however long it is.
 */
function doctypeAt(text: string): number | null {
	let at = 0;
	for (;;) {
		while (/\s|\uFEFF/u.test(text.charAt(at))) at++;
		const end = text.startsWith('<?', at) ? '?>' : text.startsWith('<!--', at) ? '-->' : null;
		if (end === null) return text.startsWith('<!DOCTYPE', at) ? text.slice(0, at).split('\n').length : null;
		const found = text.indexOf(end, at + 2);
		if (found < 0) return null;
		at = found + end.length;
	}
}

function buildTree(text: string): XmlElement {
	const parser = new SaxesParser({ xmlns: true, position: true });
	const open: Open[] = [];
	/** Roots: well-formed XML has one. */
	const roots: XmlElement[] = [];
	let elements = 0;
	let attributes = 0;
	let line = 1;
	const refuse = (message: string): never => {
		throw new Refused(message, parser.line);
	};

	parser.on('error', (problem) => {
		const what = problem.message.replace(/^\d+:\d+: /u, '').replace(/\.$/u, '');
		refuse(
			what.includes('undefined entity')
				? `it uses an entity that XML does not know; write the character itself (${shown(what)})`
				: `it is not well-formed XML (${shown(oneLine(what))})`
		);
	});
	parser.on('opentagstart', () => {
		line = parser.line;
		attributes = 0;
		if (++elements > mostElements) refuse(`it has more than ${grouped(mostElements)} elements`);
		if (open.length >= deepest) refuse(`its elements are nested deeper than ${deepest} levels`);
	});
	parser.on('attribute', () => {
		if (++attributes > mostAttributes) refuse(`an element has more than ${mostAttributes} attributes`);
	});
	parser.on('opentag', (tag) => {
		open.push({
			space: tag.uri,
			name: tag.local,
			attributes: new Map(
				Object.values(tag.attributes)
					.filter((attribute) => attribute.uri === '' && attribute.name !== 'xmlns')
					.map((attribute) => [attribute.local, attribute.value])
			),
			children: [],
			line,
			text: ''
		});
	});
	const addText = (more: string): void => {
		const inside = open.at(-1);
		if (inside) inside.text += more;
	};
	parser.on('text', addText);
	parser.on('cdata', addText);
	parser.on('closetag', () => {
		const closed = open.pop();
		if (!closed) return;
		const element: XmlElement = { ...closed, text: oneLine(closed.text) };
		const parent = open.at(-1);
		(parent?.children ?? roots).push(element);
	});

	parser.write(text).close();
	return roots[0] ?? refuse('it has no element');
}
