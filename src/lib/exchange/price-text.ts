/** Prices as suppliers write them: `$58.00`, `1,234.50 USD`, `1.234,50 €`, `58,00`. Exact, as decimal text. */
import { shown } from './sheet.ts';

/** The sign before the decimals. */
export type DecimalMark = '.' | ',';

type PriceReading =
	| { readonly ok: true; readonly price: string; readonly currency: string | null }
	| { readonly ok: false; readonly reason: string };

/** Signs that stand for one currency only; a dollar sign does for many. */
const signs: ReadonlyMap<string, string> = new Map([
	['€', 'EUR'],
	['£', 'GBP']
]);

/** Codes of ISO 4217 that are read wherever they stand; others where a text speaks of currency. */
const usualCodes = 'USD|CAD|EUR|GBP|MXN|AUD|NZD|CHF|SEK|NOK|DKK|PLN|CZK|JPY';
const usual = new RegExp(`(?<!\\p{L})(?:${usualCodes})(?!\\p{L})`, 'u');

/** The currency a text names; null where it names none. */
export const currencyIn = (text: string): string | null =>
	usual.exec(text)?.[0] ??
	/\b(?:[Cc]urrency|CURRENCY|[Pp]rices? (?:are )?in)\b\W*([A-Z]{3})(?!\p{L})/u.exec(text)?.[1] ??
	signs.get(/[€£]/u.exec(text)?.[0] ?? '') ??
	null;

/** What is left when currency, unit and spaces are taken off. */
const bare = (text: string): string =>
	text
		.replace(usual, '')
		.replace(/[$€£]/gu, '')
		.replace(/\/\s*\p{L}+\.?$|\b(?:each|ea)\b\.?$/iu, '')
		.replace(/(?<=\d)[\s\u00A0\u202F'’](?=\d{3}(?!\d))/gu, '')
		.trim();

/** The decimal mark that some prices agree on; null where they say nothing, or contradict each other. */
export function decimalMarkOf(texts: readonly string[]): DecimalMark | null {
	const said = new Set<DecimalMark>();
	for (const text of texts.map(bare)) {
		const last = /([.,])(\d+)$/u.exec(text);
		if (!last) continue;
		const mark = last[1] === ',' ? ',' : '.';
		const both = text.includes('.') && text.includes(',');
		if (both || last[2]?.length !== 3) said.add(mark);
		else if (text.split(mark).length > 2) said.add(mark === ',' ? '.' : ',');
	}
	const [only, other] = said;
	return only !== undefined && other === undefined ? only : null;
}

const plainFigure = /^\d{1,12}(?:\.\d{1,6})?$/u;

/** Digits with `.` as their decimal mark, or null. */
function withMark(text: string, mark: DecimalMark): string | null {
	const grouping = mark === '.' ? ',' : '.';
	const [whole = '', ...rest] = text.split(mark);
	if (rest.length > 1) return null;
	if (whole.includes(grouping) && !/^\d{1,3}(?:[.,]\d{3})+$/u.test(whole)) return null;
	const figure = [whole.replaceAll(grouping, ''), ...rest].join('.');
	return plainFigure.test(figure) ? figure : null;
}

/**
 * Reads one price. `1,234` and `1.234` can be two prices a thousandfold apart: where nothing else says which, neither
 * is taken, and the reason says both.
 *
 * @param mark the decimal mark, where something else says which
 */
export function readPrice(written: string, mark: DecimalMark | null): PriceReading {
	const text = bare(written);
	const taken = (price: string): PriceReading => ({ ok: true, price, currency: currencyIn(written) });
	if (/^(?:[-−]\s*\d|\(\s*\d.*\)$)|\d[-−]$/u.test(text))
		return { ok: false, reason: `“${shown(written)}” is below 0; write the price of one, 0 or more` };
	const doubtful = /^(\d{1,3})([.,])(\d{3})$/u.exec(text);
	if (doubtful && mark === null && doubtful[1] !== '0') {
		const [, whole = '', , rest = ''] = doubtful;
		return {
			ok: false,
			reason: `“${shown(written)}” could be ${whole}${rest} or ${whole}.${rest}; write it as one of them, with a dot before decimals and nothing between thousands`
		};
	}
	const last = /[.,](?=\d+$)/u.exec(text)?.[0];
	const first = mark ?? (last === ',' && !/^\d{1,3}(?:,\d{3})+$/u.test(text) ? ',' : '.');
	const price = withMark(text, first);
	return price === null
		? { ok: false, reason: `“${shown(written)}” is not a price; write a number such as 58.00` }
		: taken(price);
}
