/** What kind of document a file is, told by its root element and never by its name or prefixes. */
import { documentIn, documentSpace } from './names.ts';
import { readXml, type XmlElement } from './xml-tree.ts';

export type DocumentKind = 'OrderResponse' | 'DespatchAdvice';

const kinds: readonly DocumentKind[] = ['OrderResponse', 'DespatchAdvice'];

export interface DocumentRefusal {
	readonly ok: false;
	/** One sentence. */
	readonly message: string;
	readonly place: string;
}

const article = (word: string): string => `${/^[AEIO]/u.test(word) ? 'an' : 'a'} ${word}`;

/** `an OrderResponse or a DespatchAdvice` */
const wantedOf = (wanted: readonly DocumentKind[]): string => wanted.map(article).join(' or ');

/**
 * Reads the XML of a file and says which of the wanted documents it is.
 *
 * @param name of the file, for messages
 * @param wanted one or both; another document is named and refused
 */
export function openDocument(
	name: string,
	bytes: Uint8Array,
	wanted: readonly DocumentKind[] = kinds
): { ok: true; kind: DocumentKind; root: XmlElement } | DocumentRefusal {
	const reading = readXml(name, bytes);
	if (!reading.ok) return reading;
	const { root } = reading;
	const refuse = (what: string): DocumentRefusal => ({
		ok: false,
		place: `${name}, line ${root.line}`,
		message: `${name}: ${what}; ${wantedOf(wanted)} is wanted.`
	});
	const document = documentIn(root.space, root.name);
	if (document === null) {
		const kind = kinds.find((known) => known === root.name);
		return refuse(
			kind === undefined
				? `this is an XML file of another kind (${root.name}${root.space === '' ? '' : ` of ${root.space}`})`
				: root.space === ''
					? `its ${kind} has no namespace, where UBL 2.1 has ${documentSpace(kind)}`
					: `its ${kind} is of the namespace ${root.space}, where UBL 2.1 has ${documentSpace(kind)}`
		);
	}
	const kind = wanted.find((known) => known === document);
	return kind === undefined ? refuse(`this is ${article(document)}`) : { ok: true, kind, root };
}

/** Whether the beginning of a file looks like XML; what document it is, reading it tells. */
export const looksLikeXml = (bytes: Uint8Array): boolean => {
	const start = Array.from(bytes.subarray(0, 16), (byte) => String.fromCharCode(byte))
		.join('')
		.replace(/^(?:\u00ef\u00bb\u00bf|\u00ff\u00fe|\u00fe\u00ff)/u, '')
		.replaceAll('\u0000', '')
		.trimStart();
	return start.startsWith('<?xml') || /^<[A-Za-z_]/u.test(start);
};
