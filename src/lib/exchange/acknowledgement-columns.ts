/** Columns of an acknowledgement, and the words its cells are written in. */
import { headingNames, type HeadingField } from './headings.ts';

/** What a column holds. Amounts of whole lines are recognised and left out. */
export type AnswerField =
	| 'orderLine'
	| 'mark'
	| 'kind'
	| 'description'
	| 'quantity'
	| 'unit'
	| 'unitPrice'
	| 'amount'
	| 'length'
	| 'width'
	| 'size'
	| 'hand'
	| 'finish'
	| 'promised'
	| 'answer';

// prettier-ignore
const fields: readonly HeadingField<AnswerField>[] = [
	{ field: 'orderLine', names: ['line', 'order line', 'line number', 'order line number', 'po line', 'your line', 'item number', 'position', 'pos'], perhaps: ['number', 'item'], fits: (text) => /^\D{0,12}\d+$/u.test(text) },
	{ field: 'mark', names: ['mark', 'type mark', 'opening mark', 'door mark', 'opening', 'tag', 'for mark', 'mark number', 'opening number'], perhaps: ['door', 'reference'] },
	{ field: 'kind', names: ['kind', 'part kind', 'part type', 'component', 'part name'], perhaps: ['item', 'part', 'type', 'product'], fits: (text) => /\p{L}{3}/u.test(text) },
	{ field: 'description', names: ['description', 'item description', 'part description', 'article', 'material'], perhaps: ['item', 'product', 'part'], fits: (text) => /\p{L}{3}/u.test(text) },
	{ field: 'quantity', names: ['quantity', 'quantity acknowledged', 'acknowledged', 'confirmed quantity', 'quantity confirmed', 'quantity accepted', 'quantity ordered', 'order quantity', 'pieces', 'pcs', 'count'] },
	{ field: 'unit', names: ['unit', 'um', 'uom', 'unit of measure', 'units'] },
	{ field: 'unitPrice', names: ['unit price', 'price', 'price each', 'price unit', 'net price', 'unit cost', 'net unit price', 'price per unit', 'each price'] },
	{ field: 'amount', names: ['amount', 'extended', 'extension', 'extended price', 'total', 'line total', 'net amount', 'total price', 'value'] },
	{ field: 'length', names: ['length', 'cut length'] },
	{ field: 'width', names: ['width', 'curtain width'] },
	{ field: 'size', names: ['size', 'nominal size', 'nominal', 'dimension'] },
	{ field: 'hand', names: ['hand', 'handing', 'side', 'left right'] },
	{ field: 'finish', names: ['finish', 'colour', 'color'] },
	{ field: 'promised', names: ['promised', 'promised date', 'promise date', 'delivery', 'delivery date', 'ship date', 'shipping date', 'estimated delivery', 'confirmed date', 'expected', 'expected date', 'date', 'eta', 'delivery day', 'promised for'] },
	{ field: 'answer', names: ['answer', 'status', 'response', 'state', 'accepted', 'result'] }
];

export const answerNames = headingNames(fields);

/** A line needs something that says which it is, and something that is answered. */
export const headsAnswers = (found: ReadonlySet<AnswerField>): boolean =>
	(['orderLine', 'mark', 'kind', 'description'] as const).some((field) => found.has(field)) &&
	(['quantity', 'unitPrice', 'promised', 'answer'] as const).some((field) => found.has(field));

const words = <T extends string>(lists: Readonly<Record<T, string>>): ReadonlyMap<string, T> =>
	new Map(
		(Object.entries(lists) as [T, string][]).flatMap(([value, list]) =>
			list.split(',').map((word) => [word, value] as const)
		)
	);

// Common practice, no source.
export const handWords = words({
	left: 'left,l,lh,l.h.,left hand,left-hand',
	right: 'right,r,rh,r.h.,right hand,right-hand'
});
export const answerWords = words({
	accepted: 'accepted,accept,ok,okay,yes,confirmed,acknowledged,as ordered,agreed',
	changed: 'changed,change,amended,accepted with changes,accepted with change,modified,revised,substituted',
	refused:
		'refused,rejected,no,cancelled,canceled,declined,not available,unavailable,discontinued,not supplied'
});
/** Cells that say nothing. */
export const blank = new Set(['', '-', '–', '—', 'n/a', 'na']);
