/** Which order a document answers, in which revision. */
import { childrenOf, elementsAt, textsAt, type DocumentPart } from './document-fields.ts';
import type { XmlElement } from './xml-tree.ts';

export interface AnsweredOrder {
	readonly number: string | null;
	readonly revision: number | null;
	/** What the customer called it beside its number: our orders give the job. */
	readonly customerReference: string | null;
}

/** `1042-03 rev 2`, `1042-03 (Revision 2)` */
const withRevision = /^(.*?\S)[\s,;/(-]+rev(?:ision)?\.?\s*(\d{1,4})\)?$/iu;

const revisionIn = (text: string): number | null => {
	const digits = /^(?:rev(?:ision)?\.?\s*)?(\d{1,4})$/iu.exec(text)?.[1];
	return digits === undefined || Number(digits) === 0 ? null : Number(digits);
};

/**
 * Reads OrderReference of a header. The revision is looked for where the standard has a version: VersionID of the
 * DocumentReference in the OrderReference, then VersionID of an AdditionalDocumentReference of the same number, as our
 * own orders carry it, and then behind the number itself.
 */
export function readOrderReferences(root: XmlElement, part: DocumentPart): AnsweredOrder {
	const references = childrenOf(root, 'OrderReference');
	const named = [...new Set(references.flatMap((reference) => textsAt(reference, 'ID')))];
	const [written] = named;
	if (written === undefined || named.length > 1) {
		if (named.length > 1)
			part.ask(
				references[1] ?? null,
				'OrderReference',
				named.join(', '),
				'it names several orders; one document for each is read'
			);
		return { number: null, revision: null, customerReference: null };
	}
	const [, stem, behind] = withRevision.exec(written) ?? [];
	const number = stem ?? written;
	const versions = [
		...references.flatMap((reference) => elementsAt(reference, 'DocumentReference/VersionID')),
		...childrenOf(root, 'AdditionalDocumentReference')
			.filter((reference) => textsAt(reference, 'ID')[0] === number)
			.flatMap((reference) => childrenOf(reference, 'VersionID'))
	].filter(({ text }) => text !== '');
	const [version] = versions;
	let revision = behind === undefined ? null : revisionIn(behind);
	if (version !== undefined) {
		const said = revisionIn(version.text);
		const agree =
			said !== null &&
			(revision === null || revision === said) &&
			versions.every(({ text }) => revisionIn(text) === said);
		revision = agree
			? said
			: part.ask(
					version,
					'VersionID',
					version.text,
					'it does not say one revision of the order; write a number from 1'
				);
	}
	return {
		number,
		revision,
		customerReference: references.flatMap((reference) => textsAt(reference, 'CustomerReference'))[0] ?? null
	};
}

/**
 * Lines of the order a line of a document is about, as written; none where it names none, or where the line is of another
 * order than the document (asked).
 */
export function readOrderLines(
	line: XmlElement,
	order: string | null,
	part: DocumentPart
): readonly string[] {
	const references = childrenOf(line, 'OrderLineReference');
	const other = references
		.flatMap((reference) => elementsAt(reference, 'OrderReference/ID'))
		.find(({ text }) => order !== null && text !== '' && (withRevision.exec(text)?.[1] ?? text) !== order);
	if (other) {
		part.ask(
			other,
			'OrderLineReference',
			other.text,
			`the line is of order ${other.text}, the document of ${order ?? ''}; say which it is`
		);
		return [];
	}
	return [...new Set(references.flatMap((reference) => textsAt(reference, 'LineID')))];
}
