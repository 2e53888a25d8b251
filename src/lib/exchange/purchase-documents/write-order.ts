/** A purchase order as an Order of UBL 2.1. */
import { Decimal } from 'decimal.js';
import type { Day, PurchaseLine, PurchaseOrder, Supplier } from '../../delivery/ordering/purchase-order.ts';
import { exactLength } from '../../quantity/length.ts';
import { cents, Money } from '../../quantity/money.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { aggregates, basics, documentSpace } from './names.ts';
import { lengthCodes, unitCodes } from './units-of-measure.ts';
import { nest, textElement, writeXml, type WrittenElement } from './xml-writing.ts';

export interface OrderFrame {
	readonly supplier: Supplier;
	readonly buyer: { readonly name: string };
	readonly job: { readonly name: string };
	readonly issuedOn: Day;
	readonly note?: string | undefined;
	/** What the sizes are written in. */
	readonly style: Measures;
}

type Written = WrittenElement | null;

const viewpoint = 'seen from the coil side';

/** Exact: inches where the length is a whole number of 64ths, else millimetres, which end after six decimals at most. */
function lengthQuantity(nm: number, style: Measures): Written {
	const inches = style === 'imperial' && nm % 396_875 === 0;
	return textElement('cbc:ValueQuantity', new Decimal(nm).div(inches ? 25_400_000 : 1_000_000).toFixed(), {
		unitCode: inches ? lengthCodes.inch : lengthCodes.millimetre
	});
}

const property = (name: string, value: string | null, ...more: readonly Written[]): Written => {
	const text = textElement('cbc:Value', value);
	return text && nest('cac:AdditionalItemProperty', textElement('cbc:Name', name), text, ...more);
};

const lengthProperty = (name: string, nm: number | null, style: Measures): Written =>
	nm === null
		? null
		: property(name, exactLength(nm, style === 'imperial' ? 'in' : 'mm'), lengthQuantity(nm, style));

const party = (role: string, name: string): Written =>
	nest(role, nest('cac:Party', nest('cac:PartyName', textElement('cbc:Name', name))));

const period = (start: Day | null, end: Day | null): Written =>
	nest('cac:RequestedDeliveryPeriod', textElement('cbc:StartDate', start), textElement('cbc:EndDate', end));

const amountOf = ({ unitPrice, quantity }: PurchaseLine): Decimal | null =>
	unitPrice === null ? null : cents(new Money(unitPrice).times(quantity));

/** A decimal of XML: no exponent, two decimals or more. */
function priceText(unitPrice: string): string {
	const price = new Money(unitPrice);
	return price.toFixed(Math.max(2, price.decimalPlaces()));
}

const amount = (name: string, value: Decimal | null, currency: string): Written =>
	value && textElement(name, value.toFixed(2), { currencyID: currency });

function orderLine(line: PurchaseLine, currency: string, style: Measures): Written {
	const unitCode = unitCodes[line.unit];
	const { unitPrice } = line;
	return nest(
		'cac:OrderLine',
		nest(
			'cac:LineItem',
			textElement('cbc:ID', String(line.number)),
			textElement('cbc:Note', line.note),
			// LineStatusCode-2.0 of UBL: a line that was ordered and is not wanted any more.
			textElement('cbc:LineStatusCode', new Money(line.quantity).isZero() ? 'Cancelled' : null),
			textElement('cbc:Quantity', new Money(line.quantity).toFixed(), { unitCode }),
			amount('cbc:LineExtensionAmount', amountOf(line), currency),
			nest('cac:Delivery', period(null, line.needBy)),
			unitPrice === null
				? null
				: nest(
						'cac:Price',
						textElement('cbc:PriceAmount', priceText(unitPrice), { currencyID: currency }),
						textElement('cbc:BaseQuantity', '1', { unitCode })
					),
			nest(
				'cac:Item',
				textElement('cbc:Description', [line.title, line.size].filter((text) => text !== '').join(', ')),
				textElement('cbc:Name', line.title),
				nest('cac:BuyersItemIdentification', textElement('cbc:ID', line.item)),
				...line.marks.map((mark) => property('Mark', mark)),
				...line.openingIds.map((opening) => property('Opening', opening)),
				property('Size', line.size),
				lengthProperty('Length', line.length, style),
				lengthProperty('Width', line.width, style),
				property('Hand', line.hand, textElement('cbc:ValueQualifier', viewpoint)),
				property('Finish', line.finish),
				...line.partIds.map((part) => property('Part', part))
			)
		)
	);
}

/** One note in words: several without a language would break rule IND8. */
function noteOf(order: PurchaseOrder, { note, job }: OrderFrame): string {
	const revised =
		order.revision > 1
			? [
					`Revision ${order.revision} takes the place of revision ${order.revision - 1} of this order as a whole.`
				]
			: [];
	return [
		`Job ${job.name}${order.phase === '' ? '' : `, phase ${order.phase}`}, release ${order.release}.`,
		...revised,
		`Left and right are ${viewpoint}.`,
		...(note === undefined || note.trim() === '' ? [] : [note.trim()])
	].join(' ');
}

/** The revision before, which this one takes the place of, and this one's own number. */
function references(order: PurchaseOrder): readonly Written[] {
	const version = (name: string, revision: number, type: string): Written =>
		nest(
			name,
			textElement('cbc:ID', order.number),
			textElement('cbc:DocumentType', type),
			textElement('cbc:VersionID', String(revision))
		);
	return [
		order.revision > 1
			? version('cac:OrderDocumentReference', order.revision - 1, 'Order that this one takes the place of')
			: null,
		version('cac:AdditionalDocumentReference', order.revision, 'Revision of this order')
	];
}

/**
 * Writes an order as an Order of UBL 2.1, to be encoded as UTF-8.
 *
 * A revision is the whole order anew under its own number: the standard has OrderChange for a change alone, which the
 * receiver has to put together with what went before. Which revision it is stands in an AdditionalDocumentReference with
 * the order's own number (VersionID); from the second on, an OrderDocumentReference names the one it takes the place of.
 * A line of quantity 0 is `Cancelled`. CustomerReference and ProjectReference give the job, WorkPhaseReference the phase.
 * A line without a price has no Price, and the document then no total. Amounts are rounded to the cent, half-even, once a
 * line. Sizes are exact in ValueQuantity, and in words in Value.
 *
 * @throws RangeError when the order has no lines, no number, nobody who buys or sells (the standard requires all of them), or
 *   `issuedOn` is no day.
 */
export function writeOrderDocument(order: PurchaseOrder, frame: OrderFrame): string {
	if (order.lines.length === 0) throw new RangeError(`order ${order.number} has no lines`);
	for (const [what, text] of [
		['number', order.number],
		['buyer', frame.buyer.name],
		['supplier', frame.supplier.name]
	] as const)
		if (text.trim() === '') throw new RangeError(`order ${order.number} has no ${what}`);
	if (!/^\d{4}-\d\d-\d\d$/u.test(frame.issuedOn)) throw new RangeError(`${frame.issuedOn} is not a day`);
	const { currency, lines } = order;
	const amounts = lines.map(amountOf).filter((value) => value !== null);
	const total =
		amounts.length === lines.length ? amounts.reduce((sum, value) => sum.plus(value), new Money(0)) : null;
	const needed = lines.flatMap(({ needBy }) => needBy ?? []).sort();
	const [first] = needed;
	const last = needed.at(-1);
	const root: WrittenElement = {
		name: 'Order',
		attributes: { xmlns: documentSpace('Order'), 'xmlns:cac': aggregates, 'xmlns:cbc': basics },
		content: [
			textElement('cbc:UBLVersionID', '2.1'),
			textElement('cbc:ID', order.number),
			textElement('cbc:IssueDate', frame.issuedOn),
			textElement('cbc:Note', noteOf(order, frame)),
			textElement('cbc:DocumentCurrencyCode', currency),
			textElement('cbc:CustomerReference', frame.job.name),
			textElement('cbc:LineCountNumeric', String(lines.length)),
			...references(order),
			nest(
				'cac:ProjectReference',
				textElement('cbc:ID', frame.job.name),
				nest('cac:WorkPhaseReference', textElement('cbc:WorkPhase', order.phase))
			),
			party('cac:BuyerCustomerParty', frame.buyer.name),
			party('cac:SellerSupplierParty', frame.supplier.name),
			last === undefined
				? null
				: nest('cac:Delivery', period(first === undefined || first === last ? null : first, last)),
			nest(
				'cac:AnticipatedMonetaryTotal',
				amount('cbc:LineExtensionAmount', total, currency),
				amount('cbc:PayableAmount', total, currency)
			),
			...lines.map((line) => orderLine(line, currency, frame.style))
		].filter((element) => element !== null)
	};
	return writeXml(root);
}
