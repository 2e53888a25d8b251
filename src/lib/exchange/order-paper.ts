/** A purchase order as it goes to its supplier: what its workbook and its print both say, in words. */
import { Decimal } from 'decimal.js';
import type { OrderChange } from '../delivery/ordering/order-changes.ts';
import type { PurchaseLine, PurchaseOrder, Released } from '../delivery/ordering/purchase-order.ts';
import { cents, Money } from '../quantity/money.ts';
import { formatLength, type LengthStyle } from '../quantity/length.ts';

export interface OrderPaper {
	readonly order: PurchaseOrder;
	/** Since the revision before; empty for the first one. */
	readonly changes: readonly OrderChange[];
	readonly jobName: string;
	/** Who orders. */
	readonly buyerName: string;
	readonly released: Released | null;
	/** False for someone who may not see prices: neither a price nor a change of one is on the paper then. */
	readonly withPrices: boolean;
	readonly style: LengthStyle;
}

/** The one viewpoint of all hands on the paper. */
export const viewpoint = 'Left and right are seen standing on the coil side.';

export const orderTitle = ({ number, revision }: Pick<PurchaseOrder, 'number' | 'revision'>): string =>
	`Purchase order ${number}, revision ${revision}`;

/** What stands above the lines: names and values. */
export const orderFacts = ({
	order,
	jobName,
	buyerName,
	released
}: OrderPaper): readonly (readonly [string, string])[] => [
	['Supplier', order.supplierName],
	['Ordered by', buyerName],
	['Job', jobName],
	['Phase', order.phase === '' ? 'not named' : order.phase],
	['Release', String(order.release)],
	[
		'Released',
		released ? `${released.at.slice(0, 10)} by ${released.by}` : 'not released: a draft, not to be built from'
	]
];

/** Changes that the paper may tell. */
export const toldChanges = ({ changes, withPrices }: OrderPaper): readonly OrderChange[] =>
	withPrices ? changes : changes.filter(({ aboutMoney }) => !aboutMoney);

/** Amount of a line, to the cent, half to even; null without a price. */
export const lineAmount = ({
	quantity,
	unitPrice
}: Pick<PurchaseLine, 'quantity' | 'unitPrice'>): Decimal | null =>
	unitPrice === null ? null : cents(new Money(quantity).times(unitPrice));

/** The sum of all amounts, and how many lines that are ordered have none. */
export function orderTotal({ lines }: Pick<PurchaseOrder, 'lines'>): {
	readonly total: Decimal;
	readonly unpriced: number;
} {
	const amounts = lines.map(lineAmount);
	return {
		total: amounts.reduce((sum: Decimal, amount) => sum.plus(amount ?? 0), new Money(0)),
		unpriced: lines.filter(({ quantity }, at) => amounts[at] === null && !new Decimal(quantity).isZero())
			.length
	};
}

/** `C-101, C-102`; a line over many marks says how many more. */
export function marksText({ marks }: Pick<PurchaseLine, 'marks'>, most = 12): string {
	const more = marks.length - most;
	return more > 0 ? `${marks.slice(0, most).join(', ')} and ${more} more` : marks.join(', ');
}

export const handText = ({ hand }: Pick<PurchaseLine, 'hand'>): string =>
	hand === null ? '' : `${hand}, seen from the coil side`;

export const lengthText = (nm: number | null, style: LengthStyle): string =>
	nm === null ? '' : formatLength(nm, style);

/** Unit prices with all their decimals, two at least: `48.505`. */
export const priceText = (price: string): string => {
	const exact = new Decimal(price);
	return exact.toFixed(Math.max(2, exact.decimalPlaces()));
};
