/** What the material of a job costs to buy: every quantity at its price in the book, and nothing that is the shop's own. */
import type { Decimal } from 'decimal.js';
import { cents, Money } from '../quantity/money.ts';
import type { RuleDefinition } from '../rulebook/definition.ts';
import type { RuleBook } from '../rulebook/rule-book.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import { anchorSize, anchorStockOf } from '../takeoff/anchors.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import { materialLines, type Bought } from './material.ts';

/** Quantities and amounts are decimals as text; amounts have two decimals, in the currency of the price book. */
export interface PurchaseItem {
	/** What it is: `guideLeft`. */
	readonly id: string;
	readonly title: string;
	/** Row of the shop book; null where there is only one of it. */
	readonly key: string | null;
	/** That row in words. */
	readonly what: string;
	/** With its waste. */
	readonly quantity: string;
	/** `ft²`, `ft`, `lb`, or what one of it is called; empty for pieces. */
	readonly unit: string;
	/** As it stands in the price book. */
	readonly unitCost: string;
	readonly amount: string;
}

/** What stands below the items. */
export interface PurchaseSums {
	/** Anchors left over in full boxes. */
	readonly boxRounding: string;
	/** The items and the full boxes. */
	readonly materialCost: string;
	readonly freight: string;
	readonly tax: string;
	/** Material with its freight and tax. */
	readonly total: string;
}

export interface MarkPurchases {
	readonly rowId: string;
	readonly mark: string;
	readonly openingId: string | null;
	readonly openings: number;
	/** For all openings of the mark; null where it has no price because of a stop. */
	readonly bought: { readonly items: readonly PurchaseItem[]; readonly sums: PurchaseSums } | null;
}

export interface PurchasePrices {
	readonly currency: string;
	/** Of the whole job: the items of all marks, added up by what is bought. */
	readonly items: readonly PurchaseItem[];
	readonly sums: PurchaseSums;
	readonly marks: readonly MarkPurchases[];
	/** Marks with no price, because of a stop. */
	readonly notPriced: readonly string[];
}

const boughtRule = (id: string): string => `${id}Bought`;

/** Rules of the quantities bought, beside the rules of the price. */
export const boughtRules = (book: TechnicalBook): RuleDefinition[] =>
	materialLines(book).flatMap(({ bought, sentence }) =>
		bought.map(({ id, title, quantity, unit, when }) => ({
			id: boughtRule(id),
			title,
			unit,
			formula: when === undefined ? quantity : `if(${when}, ${quantity}, 0)`,
			sentence,
			source: { basis: 'shop' as const, text: 'The shop’s own price book.' },
			kind: 'number' as const,
			chapter: 8
		}))
	);

const unitWords: Readonly<Record<Bought['unit'], string>> = { ft2: 'ft²', ft: 'ft', lb: 'lb', '1': '' };

/** A row of the shop book in words, by the price that names it. */
function rowWords(book: TechnicalBook, cost: string, key: string): string {
	const [scope = ''] = cost.split('.');
	if (scope.startsWith('anchor')) {
		const stock = anchorStockOf(book, key);
		return stock ? `${stock.anchor.anchor}, ${anchorSize(stock)}` : key;
	}
	const tables: Readonly<Record<string, readonly { readonly key: string; readonly title: string }[]>> = {
		curtainPrice: book.curtains,
		guideLeftPrice: book.guides,
		guideRightPrice: book.guides,
		barrelPrice: book.barrels,
		bracketPrice: book.brackets,
		drivePrice: book.drives,
		operatorPrice: book.operators,
		hoodPrice: book.hoods,
		controlPrice: book.controls
	};
	return tables[scope]?.find((row) => row.key === key)?.title ?? key;
}

/** What is bought for a mark; nothing of which none is. @param evaluate a rule in exact decimals */
export function purchaseItems(
	book: TechnicalBook,
	rules: RuleBook,
	opening: OpeningTakeoff,
	evaluate: (id: string) => Decimal
): PurchaseItem[] {
	return materialLines(book).flatMap(({ bought }) =>
		bought.flatMap(({ id, title, unit, measure, cost }): PurchaseItem[] => {
			const keyName = rules.keyOfName(cost);
			const key = keyName === null ? null : opening.get(keyName);
			const quantity = evaluate(boughtRule(id));
			const unitCost = rules.bookText(cost, typeof key === 'string' ? key : null);
			if (unitCost === null || quantity.isZero() || Number(unitCost) === 0) return [];
			return [
				{
					id,
					title,
					key: typeof key === 'string' ? key : null,
					what: typeof key === 'string' ? rowWords(book, cost, key) : '',
					quantity: quantity.toFixed(),
					unit: measure ?? unitWords[unit],
					unitCost,
					amount: cents(quantity.times(unitCost)).toFixed(2)
				}
			];
		})
	);
}

/** @param amounts lines of the price by their ids */
export function purchaseSums(amounts: ReadonlyMap<string, Decimal>): PurchaseSums {
	const amount = (id: string): Decimal => amounts.get(id) ?? new Money(0);
	const of = (id: string): string => amount(id).toFixed(2);
	const total = ['materialCost', 'freight', 'tax'].reduce((sum, id) => sum.plus(amount(id)), new Money(0));
	return {
		boxRounding: of('boxRounding'),
		materialCost: of('materialCost'),
		freight: of('freight'),
		tax: of('tax'),
		total: total.toFixed(2)
	};
}

const add = (a: string, b: string, decimals?: number): string => {
	const sum = new Money(a).plus(b);
	return decimals === undefined ? sum.toFixed() : sum.toFixed(decimals);
};

/** The same things of all marks added up, in the order in which they first come. */
function addUp(items: readonly PurchaseItem[]): PurchaseItem[] {
	const sums = new Map<string, PurchaseItem>();
	for (const item of items) {
		const at = `${item.id} ${item.key ?? ''}`;
		const sum = sums.get(at);
		sums.set(
			at,
			sum
				? {
						...sum,
						quantity: add(sum.quantity, item.quantity),
						amount: add(sum.amount, item.amount, 2)
					}
				: item
		);
	}
	return [...sums.values()];
}

const nothing: PurchaseSums = {
	boxRounding: '0.00',
	materialCost: '0.00',
	freight: '0.00',
	tax: '0.00',
	total: '0.00'
};

/** The marks and their sum. */
export function purchasePrices(currency: string, marks: readonly MarkPurchases[]): PurchasePrices {
	const bought = marks.flatMap((mark) => mark.bought ?? []);
	return {
		currency,
		items: addUp(bought.flatMap(({ items }) => items)),
		sums: bought.reduce(
			(sum, { sums }) => ({
				boxRounding: add(sum.boxRounding, sums.boxRounding, 2),
				materialCost: add(sum.materialCost, sums.materialCost, 2),
				freight: add(sum.freight, sums.freight, 2),
				tax: add(sum.tax, sums.tax, 2),
				total: add(sum.total, sums.total, 2)
			}),
			nothing
		),
		marks,
		notPriced: marks.filter((mark) => mark.bought === null).map(({ mark, openingId }) => openingId ?? mark)
	};
}
