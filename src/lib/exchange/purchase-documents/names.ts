/**
 * Names of the OASIS Universal Business Language 2.1 (OASIS Standard, 4 November 2013,
 * http://docs.oasis-open.org/ubl/os-UBL-2.1/): the namespaces of its documents and of what they are made of.
 */
const schemas = 'urn:oasis:names:specification:ubl:schema:xsd:';

export const aggregates = `${schemas}CommonAggregateComponents-2`;
export const basics = `${schemas}CommonBasicComponents-2`;

export const documentSpace = (document: string): string => `${schemas}${document}-2`;

/** `Invoice` of the namespace of invoices; null for what is no document of this language. */
export function documentIn(space: string, name: string): string | null {
	return space === documentSpace(name) ? name : null;
}
