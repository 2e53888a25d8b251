/** What a line of an order says, attribute by attribute, as a person reads it. */
import { formatLength, exactLength, type LengthStyle } from '../../quantity/length.ts';
import type { PurchaseLine } from './purchase-order.ts';

/** For what is not there. */
export const nothing = 'none';

export const orNothing = (text: string | null): string => (text === null || text === '' ? nothing : text);

/** Two lengths in the style, exactly where it can't tell them apart. */
export function lengthPair(a: number | null, b: number | null, style: LengthStyle): [string, string] {
	const text = (nm: number | null): string => (nm === null ? nothing : formatLength(nm, style));
	const [one, other] = [text(a), text(b)];
	if (one !== other || a === null || b === null || a === b) return [one, other];
	const unit = style === 'mm' ? 'mm' : 'in';
	return [exactLength(a, unit), exactLength(b, unit)];
}

/** `line 3 (Guide, left, C-101)` */
export function lineName({ number, title, marks }: Pick<PurchaseLine, 'number' | 'title' | 'marks'>): string {
	const named =
		marks.length > 3 ? `${marks.slice(0, 3).join(', ')} and ${marks.length - 3} more` : marks.join(', ');
	return `line ${number} (${title}${named === '' ? '' : `, ${named}`})`;
}

/** What only fills up a box: it covers no part and never did. */
export const isFill = ({ scope, kind }: Pick<PurchaseLine, 'scope' | 'kind'>): boolean =>
	scope === 'stock' && kind === null;

/** Taken out of the order; it stays on the paper with its number. */
export const isCancelled = ({ quantity }: Pick<PurchaseLine, 'quantity'>): boolean =>
	/^0*(?:\.0*)?$/u.test(quantity);
