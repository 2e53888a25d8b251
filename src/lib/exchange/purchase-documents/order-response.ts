/** OrderResponse of UBL 2.1: what a supplier answers to an order. */
import type { AcknowledgedLine, Acknowledgement } from '../../delivery/ordering/acknowledgement.ts';
import type { Day } from '../../delivery/ordering/purchase-order.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { shown } from '../sheet.ts';
import { readLineCode, readOrderCode } from './answer-codes.ts';
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
import { readOrderLines, readOrderReferences } from './order-references.ts';
import { readCurrency, readUnitPrice } from './unit-price.ts';
import type { XmlElement } from './xml-tree.ts';

export interface OrderResponseReading {
	readonly ok: true;
	readonly kind: 'OrderResponse';
	readonly acknowledgement: Acknowledgement;
	readonly questions: readonly DocumentQuestion[];
	/** Lines that hold nothing to compare, with why. */
	readonly skipped: readonly { readonly line: number; readonly why: string }[];
}

const quantityText = (quantity: DocumentQuantity | null): string | null => quantity?.value.toFixed() ?? null;

/** The last of the promised days: what is promised in parts is there when the last part is. */
function readPromised(parent: XmlElement, part: DocumentPart): Day | null {
	const days = elementsAt(parent, 'Delivery/PromisedDeliveryPeriod')
		.map((period) => part.day(period, 'EndDate') ?? part.day(period, 'StartDate'))
		.filter((day) => day !== null);
	return days.sort().at(-1) ?? null;
}

class ResponseReader {
	readonly #name: string;
	readonly #root: XmlElement;
	readonly #measures: Measures;
	readonly #questions: DocumentQuestion[] = [];
	readonly #header: DocumentPart;

	constructor(name: string, root: XmlElement, measures: Measures) {
		this.#name = name;
		this.#root = root;
		this.#measures = measures;
		this.#header = new DocumentPart(0, name, this.#questions);
	}

	read(): OrderResponseReading | DocumentRefusal {
		const header = this.#header;
		const number = header.requiredText(this.#root, 'ID');
		for (const path of ['IssueDate', 'OrderReference', 'SellerSupplierParty', 'BuyerCustomerParty'])
			if (childrenOf(this.#root, path).length === 0) header.required(this.#root, path);
		const order = readOrderReferences(this.#root, header);
		const code = this.#code();
		const elements = childrenOf(this.#root, 'OrderLine');
		if (elements.length === 0 && code === null) {
			const why = this.#questions.find(({ place }) => place.includes('OrderResponseCode'))?.reason;
			return {
				ok: false,
				place: `${this.#name}, line ${this.#root.line}`,
				message: `${this.#name}: there is nothing to compare in this OrderResponse: ${why ?? 'it has neither an OrderLine nor an OrderResponseCode'}.`
			};
		}
		const currency = readCurrency(this.#root, header);
		const lines: AcknowledgedLine[] = [];
		const skipped: { line: number; why: string }[] = [];
		for (const [index, element] of elements.entries()) {
			const line = index + 1;
			const part = new DocumentPart(line, `${this.#name}, answered line ${line}`, this.#questions);
			const item = part.required(element, 'LineItem');
			if (item === null) skipped.push({ line, why: 'it has no LineItem' });
			else lines.push(this.#line(element, item, part, order.number, currency, code));
		}
		return {
			ok: true,
			kind: 'OrderResponse',
			acknowledgement: {
				number,
				orderNumber: order.number,
				orderRevision: order.revision,
				currency,
				promised: readPromised(this.#root, header),
				whole: elements.length === 0 && (code === 'accepted' || code === 'refused') ? code : null,
				lines
			},
			questions: this.#questions,
			skipped
		};
	}

	/** What the whole answer says; null where it says nothing that can be acted on. */
	#code(): AcknowledgedLine['answer'] {
		const element = this.#header.one(this.#root, 'OrderResponseCode');
		if (element === null || element.text === '') return null;
		const read = readOrderCode(element.text);
		if (read === null)
			return this.#header.ask(
				element,
				'OrderResponseCode',
				element.text,
				`the code “${shown(element.text)}” is not known here; ask whether the order is accepted (AP), accepted with changes (CA) or rejected (RE)`
			);
		if (read === 'none')
			return this.#header.ask(
				element,
				'OrderResponseCode',
				element.text,
				`${element.text} says only that the order has been received; an answer is still to come`
			);
		if (read === 'changed' && childrenOf(this.#root, 'OrderLine').length === 0)
			return this.#header.ask(
				element,
				'OrderResponseCode',
				element.text,
				'the order is accepted with changes, but no line says which; ask for them'
			);
		return read;
	}

	#line(
		element: XmlElement,
		ordered: XmlElement,
		part: DocumentPart,
		order: string | null,
		currency: string | null,
		whole: AcknowledgedLine['answer']
	): AcknowledgedLine {
		const substitute = this.#substitute(element, part);
		// What is put in its place is what would come: that is what has to be compared.
		const subject = substitute ?? ordered;
		const itemElement = part.required(subject, 'Item');
		const item: ItemFields | null = itemElement && readItem(itemElement, part, this.#measures);
		const quantity = part.quantity(subject, 'Quantity');
		const status = this.#status(ordered, part);
		return {
			line: part.line,
			orderLine: this.#orderLine(element, order, part),
			mark: item?.mark ?? null,
			description: item?.description ?? '',
			quantity: quantityText(quantity),
			unit: quantity === null ? null : (quantity.unit?.word ?? quantity.code),
			unitPrice: readUnitPrice(subject, quantity, currency, part),
			length: item?.length ?? null,
			width: item?.width ?? null,
			size: item?.size ?? null,
			hand: item?.hand ?? null,
			finish: item?.finish ?? null,
			promised: readPromised(ordered, part),
			answer: status ?? (substitute === null ? (whole === 'changed' ? null : whole) : 'changed')
		};
	}

	#substitute(element: XmlElement, part: DocumentPart): XmlElement | null {
		const proposed = childrenOf(element, 'SellerProposedSubstituteLineItem');
		const found = [...childrenOf(element, 'SellerSubstitutedLineItem'), ...proposed];
		const [first] = found;
		if (first === undefined) return null;
		const what = textsAt(first, 'Item/Name')[0] ?? textsAt(first, 'Item/Description')[0] ?? 'something else';
		if (found.length > 1)
			return part.ask(
				first,
				first.name,
				what,
				`the supplier offers ${found.length} things in its place; say which is taken`
			);
		part.ask(
			first,
			first.name,
			what,
			proposed.length > 0
				? `the supplier proposes ${shown(what)} in its place; the line is read as that`
				: `the supplier puts ${shown(what)} in its place; the line is read as that`
		);
		return first;
	}

	#orderLine(element: XmlElement, order: string | null, part: DocumentPart): number | null {
		const [written, ...more] = readOrderLines(element, order, part);
		if (written === undefined) return null;
		if (more.length > 0)
			return part.ask(
				element,
				'OrderLineReference',
				[written, ...more].join(', '),
				`it answers ${more.length + 1} lines of the order at once; say which of them is meant`
			);
		const digits = /^(?:line\s*|l\s*)?0*(\d{1,6})$/iu.exec(written)?.[1];
		if (digits !== undefined && Number(digits) > 0) return Number(digits);
		return part.ask(
			elementsAt(element, 'OrderLineReference/LineID')[0] ?? null,
			'OrderLineReference/LineID',
			written,
			`“${shown(written)}” is no line of an order of ours; write its number`
		);
	}

	#status(lineItem: XmlElement, part: DocumentPart): AcknowledgedLine['answer'] {
		const element = part.one(lineItem, 'LineStatusCode');
		if (element === null || element.text === '') return null;
		if (element.text === '42')
			return part.ask(
				element,
				'LineStatusCode',
				'42',
				'the supplier says it has been delivered already; look for the delivery'
			);
		const read = readLineCode(element.text);
		if (read !== null) return read === 'none' ? null : read;
		return part.ask(
			element,
			'LineStatusCode',
			element.text,
			`the status “${shown(element.text)}” is not known here; ask whether the line is accepted (5), changed (3) or not accepted (7)`
		);
	}
}

/**
 * Reads an OrderResponse. Codes, units and currencies that are not known, and whatever the standard requires and is not
 * there, are asked; the field is then null.
 *
 * @param name of the file, for messages
 * @param measures of the job: what a comma in a written length means
 */
export function readOrderResponse(
	name: string,
	bytes: Uint8Array,
	{ measures = 'imperial' }: { readonly measures?: Measures } = {}
): OrderResponseReading | DocumentRefusal {
	const opened = openDocument(name, bytes, ['OrderResponse']);
	return opened.ok ? readResponse(name, opened.root, measures) : opened;
}

/** The same from a document that is open already. */
export const readResponse = (
	name: string,
	root: XmlElement,
	measures: Measures
): OrderResponseReading | DocumentRefusal => new ResponseReader(name, root, measures).read();
