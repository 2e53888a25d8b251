/** Holds a document against the restated schema. */
import { lineStatusCodes, sequences, typesOfElements, unitCodes } from './schema.ts';
import type { Node } from './tree.ts';

const prefix = 'urn:oasis:names:specification:ubl:schema:xsd:';
const basics = `${prefix}CommonBasicComponents-2`;
const aggregates = `${prefix}CommonAggregateComponents-2`;

interface Slot {
	readonly space: string;
	readonly name: string;
	readonly least: number;
	readonly most: number;
}

const bounds: Readonly<Record<string, readonly [number, number]>> = {
	'!': [1, 1],
	'?': [0, 1],
	'*': [0, Infinity],
	'+': [1, Infinity]
};

function slotsOf(type: string): readonly Slot[] | null {
	const sequence = sequences[type];
	if (!sequence) return null;
	const slots = (words: string, space: string): Slot[] =>
		words
			.split(' ')
			.filter((word) => word !== '')
			.map((word) => {
				const bound = bounds[word.slice(-1)];
				if (!bound) throw new Error(`${word} of ${type} has no number`);
				return { space, name: word.slice(0, -1), least: bound[0], most: bound[1] };
			});
	return [...slots(sequence.basic, basics), ...slots(sequence.aggregate, aggregates)];
}

/** Lexical forms of XML Schema part 2, for the representation term at the end of a name (UBL naming rules). */
const forms: readonly (readonly [RegExp, RegExp])[] = [
	[/(?:Amount|Quantity|Measure|Numeric|Percent|Rate)$/u, /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/u],
	[/Date$/u, /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])(?:Z|[+-]\d\d:\d\d)?$/u],
	[/Indicator$/u, /^(?:true|false|0|1)$/u],
	[/(?:ID|Code)$/u, /^[^\t\r\n]+$/u]
];

/**
 * Asked of our own documents only, since the schema itself lets it pass: elements of type text that may stand several times: rule IND8 of the UBL additional document constraints lets no two
 * siblings omit languageID.
 */
const texts = new Set([
	'Note',
	'Description',
	'AdditionalInformation',
	'Keyword',
	'BackorderReason',
	'OutstandingReason',
	'WorkPhase',
	'ValueQualifier',
	'ShippingMarks',
	'DocumentDescription'
]);

interface Options {
	/** Our own documents: the codes have to be those that we write, and what the schema alone does not say is asked too. */
	readonly own: boolean;
}

/** Everything in which a document is not what the schema wants, with its place; empty when it is. */
export function violations(root: Node, options: Options): string[] {
	const found: string[] = [];
	if (root.space !== `${prefix}${root.name}-2`) found.push(`${root.name}: namespace ${root.space}`);
	check(root, root.name, root.name, options, found);
	return found;
}

function check(node: Node, type: string, place: string, options: Options, found: string[]): void {
	const slots = slotsOf(type);
	if (slots === null) {
		found.push(`${place}: the type ${type} is not restated, or there is none`);
		return;
	}
	if (node.text.trim() !== '') found.push(`${place}: text between elements`);
	// IND5: no element without content.
	if (node.children.length === 0) found.push(`${place}: empty`);
	let at = 0;
	const counts = new Map<string, number>();
	for (const child of node.children) {
		const here = `${place}/${child.name}`;
		const slot = slots.findIndex(({ space, name }) => space === child.space && name === child.name);
		if (slot < 0) {
			found.push(`${here}: not in ${type}`);
			continue;
		}
		if (slot < at) found.push(`${here}: out of order`);
		at = Math.max(at, slot);
		counts.set(child.name, (counts.get(child.name) ?? 0) + 1);
		if (child.space === basics) checkBasic(child, here, options, found);
		else check(child, typesOfElements[child.name] ?? child.name, here, options, found);
	}
	for (const { name, least, most } of slots) {
		const count = counts.get(name) ?? 0;
		if (count < least) found.push(`${place}/${name}: missing`);
		if (count > most) found.push(`${place}/${name}: ${count} times`);
		const silent = node.children.filter(
			(child) => child.name === name && texts.has(name) && child.attributes.languageID === undefined
		);
		if (options.own && silent.length > 1) found.push(`${place}/${name}: several without languageID (IND8)`);
	}
}

function checkBasic(node: Node, place: string, { own }: Options, found: string[]): void {
	const { name, attributes } = node;
	if (node.children.length > 0) found.push(`${place}: elements in a basic one`);
	const text = node.text;
	if (text.trim() === '') found.push(`${place}: empty`);
	for (const [ending, form] of forms)
		if (ending.test(name) && !form.test(text)) found.push(`${place}: “${text}” is not of its type`);
	if (name.endsWith('Amount') && attributes.currencyID === undefined) found.push(`${place}: no currencyID`);
	if (name.endsWith('Measure') && attributes.unitCode === undefined) found.push(`${place}: no unitCode`);
	for (const [key, value] of Object.entries(attributes))
		if (value === '') found.push(`${place}/@${key}: empty`);
	if (!own) return;
	const unit = attributes.unitCode;
	if (name.endsWith('Quantity') && (unit === undefined || !unitCodes.has(unit)))
		found.push(`${place}: unit code ${unit ?? 'missing'}`);
	if (name.endsWith('Amount') && !/^[A-Z]{3}$/u.test(attributes.currencyID ?? ''))
		found.push(`${place}: currency ${attributes.currencyID ?? 'missing'}`);
	if (name === 'LineStatusCode' && !lineStatusCodes.has(text)) found.push(`${place}: status ${text}`);
}
