/** Lines of our order as suppliers write them: `14`, `L14`, `PO line 14`, `1042-01/14`. */

export interface OrderLineReading {
	/** The order named with it, as written; null for most. */
	readonly order: string | null;
	/** The number alone, without zeros in front. */
	readonly number: string;
}

const before = String.raw`(?:(?:your|our|customer)\s+)?(?:(?:p\.?\s?o\.?|purchase order|order)\s*)?`;
const lineWord = String.raw`(?:lines?|ln|l|items?|it|pos(?:ition)?|no|nr|#)\.?\s*[#:.-]?\s*`;
const alone = new RegExp(String.raw`^${before}(?:${lineWord})?0*(\d{1,5})(?:\.0+)?$`, 'iu');
/** An order number has three figures or more, so that `14/15` stays two lines. */
const withOrder = new RegExp(
	String.raw`^${before}#?\s*((?=(?:[a-z-]*\d){3})[a-z]{0,6}-?\d[a-z\d]*(?:-[a-z\d]+)*)(?:\s*[/:,]\s*(?:${lineWord})?|\s+${lineWord})0*(\d{1,5})$`,
	'iu'
);

/** Null for what names no single line: `14/15`, `C-101`. */
export function readOrderLine(text: string): OrderLineReading | null {
	const number = alone.exec(text)?.[1];
	if (number !== undefined) return { order: null, number };
	const both = withOrder.exec(text);
	return both?.[1] === undefined || both[2] === undefined ? null : { order: both[1], number: both[2] };
}

/** Whether two writings are one order: capitals, spaces and dashes of another length do not matter. */
export const sameOrder = (a: string, b: string): boolean => plainOrder(a) === plainOrder(b);

const plainOrder = (text: string): string =>
	text
		.toUpperCase()
		.replace(/[‐-―−]/gu, '-')
		.replace(/^P\.?\s?O\.?\s*#?/u, '')
		.replace(/\s/gu, '');
