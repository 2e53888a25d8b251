/** Amounts that somebody counts: how they are read where they are typed, and how they are said. */
import { Decimal } from 'decimal.js';
import { conditions, type Condition, type SiteCount } from '../count.ts';
import { plainUnit } from '../count-unit.ts';

export type Amounts = SiteCount['amounts'];

export type AmountsReading =
	| { readonly ok: true; /** Each without needless zeros: `3`, `2.5`. */ readonly amounts: Amounts }
	| { readonly ok: false; readonly condition: Condition; /** A sentence. */ readonly reason: string };

/** More of one line than any truck brings: a slip of the finger. */
const mostOfALine = 100_000;

/** Units that come in whole pieces. A half pair is one piece; a box or a length in feet may be begun. */
const wholeUnits: ReadonlySet<string> = new Set(['', 'each', 'length', 'tube']);

/** @param unit as the packing list writes it; null where it writes none: then pieces are counted. */
const comesWhole = (unit: string | null): boolean => wholeUnits.has(plainUnit(unit ?? ''));

function readAmount(typed: string, condition: Condition, unit: string | null): string | { reason: string } {
	const text = typed.trim();
	if (text === '') return { reason: `Type how many are ${condition}; 0 where none are.` };
	if (/^[-−]/u.test(text)) return { reason: `${text} ${condition} can’t be: a count is 0 or more.` };
	if (/^\d+,\d{3}$/u.test(text))
		return {
			reason: `${text} may mean ${text.replace(',', '')} or ${text.replace(',', '.')}: type that one.`
		};
	const plain = /^\d+,\d{1,3}$/u.test(text) ? text.replace(',', '.') : text;
	if (!/^\d{1,12}(?:\.\d{1,12})?$/u.test(plain))
		return { reason: `“${text.slice(0, 40)}” is not a number. Type how many are ${condition}, such as 3.` };
	const amount = new Decimal(plain);
	if (amount.gt(mostOfALine))
		return { reason: `${text} ${condition} is more than any truck brings. Look at the number again.` };
	if (!amount.isInteger() && comesWhole(unit))
		return { reason: `${text} ${condition} can’t be: this is counted in whole pieces.` };
	if (amount.decimalPlaces() > 3) return { reason: `${text}: three decimals are enough.` };
	return amount.toFixed();
}

/**
 * Reads what was typed of one line, condition by condition. What can't be read is refused; a blank is no 0. Reading what
 * it gives again gives the same.
 */
export function readAmounts(typed: Readonly<Record<Condition, string>>, unit: string | null): AmountsReading {
	const amounts: Record<Condition, string> = { whole: '0', damaged: '0', wrong: '0' };
	for (const condition of conditions) {
		const read = readAmount(typed[condition], condition, unit);
		if (typeof read !== 'string') return { ok: false, condition, reason: read.reason };
		amounts[condition] = read;
	}
	return { ok: true, amounts };
}

/** All that were there, in whatever condition. */
export const countedInAll = (amounts: Amounts): Decimal =>
	conditions.reduce((sum, condition) => sum.plus(amounts[condition]), new Decimal(0));

/** `3 whole, 1 damaged`; `none` where nothing was there. */
export function amountsWords(amounts: Amounts): string {
	const said = conditions
		.filter((condition) => !new Decimal(amounts[condition]).isZero())
		.map((condition) => `${amounts[condition]} ${condition}`);
	return said.length === 0 ? 'none' : said.join(', ');
}

/** `1 short`, `2 more than listed`; null where it agrees, or the list gives no quantity. */
export function againstList(amounts: Amounts, listed: number | null): string | null {
	if (listed === null) return null;
	const more = countedInAll(amounts).minus(listed);
	if (more.isZero()) return null;
	return more.isNegative() ? `${more.abs().toFixed()} short` : `${more.toFixed()} more than listed`;
}

/** What the history says of a count: amounts, note and photos, never a name. */
export function countWords({
	amounts,
	note,
	photoIds
}: Pick<SiteCount, 'amounts' | 'note' | 'photoIds'>): string {
	const photos = photoIds.length;
	return [
		amountsWords(amounts),
		...(note === '' ? [] : [`“${note}”`]),
		...(photos === 0 ? [] : [`${photos} ${photos === 1 ? 'photo' : 'photos'}`])
	].join('; ');
}
