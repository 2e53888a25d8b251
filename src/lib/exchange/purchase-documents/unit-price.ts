/** Prices of an answer: in which currency, and what one costs. */
import { Decimal } from 'decimal.js';
import { Money } from '../../quantity/money.ts';
import { shown } from '../sheet.ts';
import { elementsAt, type DocumentPart, type DocumentQuantity } from './document-fields.ts';
import type { XmlElement } from './xml-tree.ts';

/** Currencies by their code of ISO 4217, as the runtime knows them. */
const currencies: ReadonlySet<string> = new Set(Intl.supportedValuesOf('currency'));

/** A price has two decimals or more. */
const priceText = (price: Decimal): string => price.toFixed(Math.max(2, price.decimalPlaces()));

/** Currency of the document, or the one all of its prices are in. */
export function readCurrency(root: XmlElement, header: DocumentPart): string | null {
	const element = header.one(root, 'DocumentCurrencyCode');
	const written = [
		...new Set(
			element !== null && element.text !== ''
				? [element.text]
				: elementsAt(root, 'OrderLine/LineItem/Price/PriceAmount').flatMap(
						(price) => price.attributes.get('currencyID') ?? []
					)
		)
	];
	const [code] = written;
	if (code === undefined) return null;
	if (written.length > 1)
		return header.ask(
			element,
			'currencyID',
			written.join(', '),
			'its prices are in several currencies; say which the order is in'
		);
	return currencies.has(code)
		? code
		: header.ask(
				element,
				'DocumentCurrencyCode',
				code,
				`“${shown(code)}” is no currency of ISO 4217; write one such as USD`
			);
}

/** Price for one of the unit of the quantity, as decimal text; null where there is none, or it can’t be taken for one (asked). */
export function readUnitPrice(
	lineItem: XmlElement,
	quantity: DocumentQuantity | null,
	currency: string | null,
	part: DocumentPart
): string | null {
	const price = part.one(lineItem, 'Price');
	const amount = price && part.required(price, 'PriceAmount');
	if (price === null || amount === null) return null;
	const value = part.decimal(amount, 'PriceAmount');
	const own = amount.attributes.get('currencyID')?.trim() ?? '';
	if (own === '')
		return part.ask(amount, 'PriceAmount', amount.text, 'it has no currencyID; the standard requires it');
	if (!currencies.has(own))
		return part.ask(
			amount,
			'PriceAmount',
			own,
			`“${shown(own)}” is no currency of ISO 4217; write one such as USD`
		);
	if (currency !== null && own !== currency)
		return part.ask(amount, 'PriceAmount', own, `its price is in ${own}, the document in ${currency}`);
	const factor = part.one(price, 'OrderableUnitFactorRate');
	if (factor !== null && part.decimal(factor, 'OrderableUnitFactorRate')?.eq(1) !== true)
		return part.ask(
			factor,
			'OrderableUnitFactorRate',
			factor.text,
			'its price is for another unit than the one ordered; ask for the price of one'
		);
	const base = part.quantity(price, 'BaseQuantity');
	if (value === null) return null;
	if (base === null) return priceText(value);
	const words = [
		base.unit?.word ?? base.code,
		quantity === null ? null : (quantity.unit?.word ?? quantity.code)
	];
	if (words[0] !== null && words[1] !== null && words[0] !== words[1])
		return part.ask(
			price,
			'BaseQuantity',
			base.value.toFixed(),
			`its price is for ${base.value.toFixed()} ${words[0] ?? ''}, its quantity in ${words[1] ?? ''}`
		);
	if (base.value.isZero())
		return part.ask(
			price,
			'BaseQuantity',
			base.value.toFixed(),
			'a price for nothing; its BaseQuantity is more than 0'
		);
	const one = new Money(value).div(base.value).toDecimalPlaces(10, Decimal.ROUND_HALF_EVEN);
	if (one.times(base.value).eq(value)) return priceText(one);
	return part.ask(
		price,
		'PriceAmount',
		value.toFixed(),
		`${value.toFixed()} for ${base.value.toFixed()} does not come out even for one; ask for the price of one`
	);
}
