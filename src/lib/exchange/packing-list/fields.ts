/** What a column of a packing list may hold, and the words people write over it. Common practice, no source. */
import { headingNames, type HeadingField } from '../headings.ts';
import { readOrderLine } from './order-line.ts';

/** The fields with their names, to choose from. Weight and what came earlier are recognised and left out. */
export const packingFields = [
	{ value: 'partId', title: 'part id' },
	{ value: 'orderLine', title: 'line of our order' },
	{ value: 'orderNumber', title: 'our order' },
	{ value: 'mark', title: 'mark' },
	{ value: 'kind', title: 'kind of part' },
	{ value: 'description', title: 'description' },
	{ value: 'quantity', title: 'quantity on this list' },
	{ value: 'ordered', title: 'quantity ordered' },
	{ value: 'backordered', title: 'quantity to follow' },
	{ value: 'earlier', title: 'quantity shipped before' },
	{ value: 'unit', title: 'unit' },
	{ value: 'perBox', title: 'pieces in a box' },
	{ value: 'length', title: 'length or height' },
	{ value: 'width', title: 'width' },
	{ value: 'size', title: 'size' },
	{ value: 'hand', title: 'hand' },
	{ value: 'finish', title: 'finish' },
	{ value: 'substitute', title: 'substitution' },
	{ value: 'crate', title: 'crate' },
	{ value: 'remark', title: 'remark' },
	{ value: 'weight', title: 'weight' }
] as const;
export type PackingField = (typeof packingFields)[number]['value'];

const words = (text: string): boolean => /\p{L}{3}/u.test(text);
const numbersALine = (text: string): boolean => readOrderLine(text) !== null;

// prettier-ignore
const fields: readonly HeadingField<PackingField>[] = [
	{ field: 'partId', names: ['part id', 'part number', 'our part id', 'your part id', 'part code', 'piece id', 'piece mark'], perhaps: ['id', 'part'], fits: (text) => /\d/u.test(text) && !/\s/u.test(text) },
	{ field: 'orderLine', names: ['order line', 'order line number', 'order item', 'order position', 'po line', 'po line number', 'po item', 'po item number', 'po position', 'purchase order line', 'your line', 'your line number', 'your order line', 'customer line'], perhaps: ['line', 'line number', 'line item', 'item number', 'position', 'pos', 'number', 'item', 'po', 'order', 'your order'], fits: numbersALine },
	{ field: 'orderNumber', names: ['order number', 'po number', 'purchase order', 'purchase order number', 'your order number', 'customer order', 'customer po'], perhaps: ['po', 'order', 'your order'], fits: (text) => /\d/u.test(text) },
	{ field: 'mark', names: ['mark', 'type mark', 'opening mark', 'door mark', 'opening', 'tag', 'for mark', 'opening tag', 'mark number', 'opening number', 'door number', 'unit mark', 'suits', 'suit', 'fits', 'door tag', 'door mark number'], perhaps: ['door', 'reference'] },
	{ field: 'kind', names: ['kind', 'part kind', 'part type', 'component', 'part name'], perhaps: ['item', 'part', 'type', 'product'], fits: words },
	{ field: 'description', names: ['description', 'item description', 'part description', 'article', 'material', 'goods', 'what', 'contents', 'description goods'], perhaps: ['item', 'product', 'part'], fits: words },
	{ field: 'quantity', names: ['quantity shipped', 'shipped', 'number shipped', 'pieces shipped', 'pcs shipped', 'shipped now', 'quantity delivered', 'delivered', 'quantity sent', 'sent', 'quantity this shipment', 'this shipment', 'this delivery', 'this truck', 'this load', 'quantity packed', 'packed', 'quantity loaded', 'loaded'], perhaps: ['quantity', 'pieces', 'pcs', 'count', 'number off', 'quantity pcs', 'quantity pieces'] },
	{ field: 'unit', names: ['unit', 'um', 'uom', 'unit of measure', 'units'] },
	{ field: 'perBox', names: ['per box', 'per carton', 'per ctn', 'per pack', 'per case', 'per bag', 'pieces per box', 'pcs per box', 'quantity per box'] },
	{ field: 'length', names: ['length', 'lgth', 'lngth', 'lnth', 'cut length', 'length each', 'height', 'opening height', 'overall height', 'overall length', 'opening length'], perhaps: ['l'], fits: (text) => /\d/u.test(text) },
	{ field: 'width', names: ['width', 'curtain width', 'opening width', 'overall width'] },
	{ field: 'size', names: ['size', 'sz', 'nominal size', 'nominal', 'dimension', 'opening size', 'overall size', 'part size', 'dim', 'dims', 'dimensions', 'measure', 'measures'] },
	{ field: 'hand', names: ['hand', 'hd', 'hnd', 'handing', 'side', 'left right'] },
	{ field: 'finish', names: ['finish', 'colour', 'color'] },
	{ field: 'substitute', names: ['substitution', 'substitute', 'substituted', 'sub', 'substitute for', 'in lieu of', 'lieu', 'instead of', 'alternate', 'alternative', 'replaces'] },
	{ field: 'crate', names: ['crate', 'crate number', 'pkg', 'pkg number', 'ctn', 'ctn number', 'crt', 'box', 'box number', 'bundle', 'package', 'package number', 'carton', 'pallet', 'carton number', 'pallet number', 'bundle number', 'case', 'case number'] },
	{ field: 'remark', names: ['remark', 'note', 'comment', 'condition', 'state', 'status'] },
	{ field: 'ordered', names: ['ordered', 'quantity ordered', 'quantity on order', 'order quantity', 'po quantity', 'pieces ordered', 'pcs ordered', 'quantity required', 'required'] },
	{ field: 'backordered', names: ['backordered', 'back ordered', 'backorder', 'back order', 'quantity backordered', 'quantity back ordered', 'backorder quantity', 'quantity back order', 'bo', 'b/o', 'quantity bo', 'quantity b/o', 'bko', 'to follow', 'still to come', 'to come', 'to be shipped later', 'outstanding', 'quantity outstanding', 'owing', 'short shipped'], perhaps: ['balance', 'quantity balance', 'balance due', 'due', 'quantity due', 'remaining', 'quantity remaining', 'open', 'quantity open', 'rest'] },
	{ field: 'earlier', names: ['shipped to date', 'shipped before', 'previously shipped', 'quantity previously shipped', 'prior shipped', 'shipped earlier', 'previous shipments', 'previously', 'prev shipped', 'quantity prev shipped'] },
	{ field: 'weight', names: ['weight', 'gross weight', 'total weight', 'mass', 'net weight', 'wt', 'gross wt', 'net wt', 'weight lb', 'weight kg', 'kg', 'lb', 'lbs'] }
];

export const packingNames = headingNames(fields);

/** A line needs a count, and something that says of what. */
export const headsParts = (found: ReadonlySet<PackingField>): boolean =>
	(['quantity', 'ordered'] as const).some((field) => found.has(field)) &&
	(['partId', 'orderLine', 'mark', 'description', 'kind'] as const).some((field) => found.has(field));
