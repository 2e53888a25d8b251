/** DespatchAdvice of UBL 2.1: a packing list as a document. */
import type { PackingFacts, PackingLine } from '../../delivery/line.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { shown } from '../sheet.ts';
import { viewpointInNote } from '../table-notes.ts';
import { Crates } from './crate-names.ts';
import {
	childrenOf,
	DocumentPart,
	elementsAt,
	textsAt,
	type DocumentQuantity,
	type DocumentQuestion
} from './document-fields.ts';
import { openDocument, type DocumentRefusal } from './documents.ts';
import { readItem, type ItemFields } from './item-fields.ts';
import { readOrderLines, readOrderReferences, type AnsweredOrder } from './order-references.ts';
import type { XmlElement } from './xml-tree.ts';

export interface DespatchReading {
	readonly ok: true;
	readonly kind: 'DespatchAdvice';
	readonly facts: PackingFacts;
	readonly lines: readonly PackingLine[];
	/** Lines that hold no part, with why. */
	readonly skipped: readonly { readonly line: number; readonly why: string }[];
	/** What could not be read (it is null in its line). */
	readonly questions: readonly DocumentQuestion[];
}

/** Codes of LineStatusCode-2.0 of UBL in the words of a remark; others stand as they are. */
const statusWords: Readonly<Record<string, string>> = {
	NoStatus: '',
	Cancelled: 'cancelled by the supplier'
};

/** `Key switch, box of 2`: how many are in one, as a list on paper would write it. Not where single pieces are counted. */
function packed(description: string, size: string | undefined, delivered: DocumentQuantity | null): string {
	const word = delivered?.unit?.word ?? delivered?.code ?? null;
	if (size === undefined || !/^[1-9]\d{0,5}$/u.test(size) || word === null || word === 'each')
		return description;
	return [description, `box of ${size}`].filter((text) => text !== '').join(', ');
}

const jobInNote = /^(?:job|project)\s*(?:name)?\s*[:=]\s*(.{1,200})$/iu;

class DespatchReader {
	readonly #name: string;
	readonly #root: XmlElement;
	readonly #measures: Measures;
	readonly #questions: DocumentQuestion[] = [];
	readonly #crates: Crates;
	#handsFrom: PackingFacts['handsFrom'] = null;

	constructor(name: string, root: XmlElement, measures: Measures) {
		this.#name = name;
		this.#root = root;
		this.#measures = measures;
		this.#crates = new Crates(root);
	}

	read(): DespatchReading | DocumentRefusal {
		const header = new DocumentPart(0, this.#name, this.#questions);
		const elements = childrenOf(this.#root, 'DespatchLine');
		if (elements.length === 0)
			return {
				ok: false,
				place: `${this.#name}, line ${this.#root.line}`,
				message: `${this.#name}: this DespatchAdvice has no DespatchLine; the standard requires one or more.`
			};
		const listNumber = header.requiredText(this.#root, 'ID');
		for (const path of ['IssueDate', 'DespatchSupplierParty', 'DeliveryCustomerParty'])
			if (childrenOf(this.#root, path).length === 0) header.required(this.#root, path);
		const order = this.#order(header);
		const lines: PackingLine[] = [];
		const skipped: { line: number; why: string }[] = [];
		for (const [index, element] of elements.entries()) {
			const line = index + 1;
			const part = new DocumentPart(line, `${this.#name}, despatch line ${line}`, this.#questions);
			const item = part.required(element, 'Item');
			if (item === null) skipped.push({ line, why: 'it has no Item' });
			else lines.push(this.#line(element, readItem(item, part, this.#measures), part, order));
		}
		const notes = textsAt(this.#root, 'Note');
		const noted = notes.map(viewpointInNote).find((side) => side !== null) ?? null;
		return {
			ok: true,
			kind: 'DespatchAdvice',
			facts: {
				listNumber,
				orderNumber: order.number,
				orderRevision: order.revision,
				jobName:
					order.customerReference ??
					notes
						.map((note) => jobInNote.exec(note)?.[1])
						.find(Boolean)
						?.trim() ??
					null,
				handsFrom: noted ?? this.#handsFrom,
				sizes: null,
				crates: this.#crates.facts(),
				pages: { all: null, named: [] }
			},
			lines,
			skipped,
			questions: this.#questions
		};
	}

	/** The order of the header; where it names none, the one that all lines name. */
	#order(header: DocumentPart): AnsweredOrder {
		const order = readOrderReferences(this.#root, header);
		if (order.number !== null || childrenOf(this.#root, 'OrderReference').length > 0) return order;
		const named = [
			...new Set(
				elementsAt(this.#root, 'DespatchLine/OrderLineReference/OrderReference/ID')
					.map(({ text }) => text)
					.filter((text) => text !== '')
			)
		];
		const [number] = named;
		if (named.length > 1)
			header.ask(
				null,
				'OrderReference',
				named.join(', '),
				'its lines are of several orders; one list for each is read'
			);
		return { ...order, number: named.length === 1 ? (number ?? null) : null };
	}

	#line(element: XmlElement, item: ItemFields, part: DocumentPart, order: AnsweredOrder): PackingLine {
		if (childrenOf(element, 'OrderLineReference').length === 0) part.required(element, 'OrderLineReference');
		const delivered = part.quantity(element, 'DeliveredQuantity');
		if (delivered === null && childrenOf(element, 'DeliveredQuantity').length === 0)
			part.ask(element, 'DeliveredQuantity', '', 'nothing says how many are in this delivery');
		this.#noteHands(item, part);
		return {
			line: part.line,
			// Several are left together, as a list on paper would write them: whose pieces they are is not for a reader to say.
			orderLine: readOrderLines(element, order.number, part).join(', ') || null,
			partId: item.partId,
			mark: item.mark,
			description: packed(item.description, textsAt(element, 'Item/PackSizeNumeric')[0], delivered),
			quantity: delivered?.value.toNumber() ?? null,
			ordered: item.ordered?.toNumber() ?? null,
			backordered: this.#backordered(element, delivered, part),
			unit: delivered === null ? null : (delivered.unit?.word ?? delivered.code),
			length: item.length,
			width: item.width,
			size: item.size,
			hand: item.hand,
			finish: item.finish,
			crate: this.#crates.of(element, item.crate),
			remark: this.#remark(element, part)
		};
	}

	#noteHands({ handsFrom }: ItemFields, part: DocumentPart): void {
		if (handsFrom === null) return;
		if (this.#handsFrom === null) this.#handsFrom = handsFrom;
		else if (this.#handsFrom !== handsFrom)
			part.ask(
				null,
				'property hand',
				'',
				'hands are seen from the coil side on one line and from the far side on another'
			);
	}

	/**
	 * Still to come: BackorderQuantity (not at hand at the supplier) or OutstandingQuantity (follows in a later despatch). They may
	 * be two names of the same pieces or not, so two different figures are asked.
	 */
	#backordered(element: XmlElement, delivered: DocumentQuantity | null, part: DocumentPart): number | null {
		const found = ['BackorderQuantity', 'OutstandingQuantity']
			.map((path) => part.quantity(element, path))
			.filter((quantity) => quantity !== null);
		const [first, second] = found;
		if (first === undefined) return null;
		if (second !== undefined && !second.value.eq(first.value))
			return part.ask(
				element,
				'OutstandingQuantity',
				second.value.toFixed(),
				`${first.value.toFixed()} on back order and ${second.value.toFixed()} outstanding; say how many are still to come in all`
			);
		const words = [first, delivered].map((quantity) => quantity && (quantity.unit?.word ?? quantity.code));
		if (words[0] && words[1] && words[0] !== words[1])
			return part.ask(
				element,
				'BackorderQuantity',
				first.value.toFixed(),
				`what is to come is counted in ${shown(words[0])}, what is here in ${shown(words[1])}`
			);
		return first.value.toNumber();
	}

	#remark(element: XmlElement, part: DocumentPart): string | null {
		const status = part.text(element, 'LineStatusCode');
		const words = [
			...textsAt(element, 'Note'),
			...textsAt(element, 'BackorderReason'),
			...textsAt(element, 'OutstandingReason'),
			...(status === null ? [] : [statusWords[status] ?? status])
		].filter((text) => text !== '');
		return [...new Set(words)].join('; ') || null;
	}
}

/**
 * Reads a DespatchAdvice into the lines of a packing list. The line number is the position of its DespatchLine, from 1.
 * What can’t be read is null in its line and asked; fails only when it is no DespatchAdvice with lines.
 *
 * @param name of the file, for messages
 * @param measures of the job: what a comma in a written length means
 */
export function readDespatchAdvice(
	name: string,
	bytes: Uint8Array,
	{ measures }: { readonly measures: Measures }
): DespatchReading | DocumentRefusal {
	const opened = openDocument(name, bytes, ['DespatchAdvice']);
	return opened.ok ? readDespatch(name, opened.root, measures) : opened;
}

/** The same from a document that is open already. */
export const readDespatch = (
	name: string,
	root: XmlElement,
	measures: Measures
): DespatchReading | DocumentRefusal => new DespatchReader(name, root, measures).read();
