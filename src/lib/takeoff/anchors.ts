/** Anchors by what is bought (`standard.concrete.3.75`): what they are, and how many a row uses where. */
import { formatLength } from '../quantity/length.ts';
import { Money } from '../quantity/money.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import { anchorKey, stockKey } from '../shopbook/tables.ts';
import type { OpeningTakeoff } from './result.ts';

type Anchor = TechnicalBook['fixings'][number]['anchors'][number];

export type AnchorUse = 'guides' | 'brackets' | 'hoodSupports';

/** An anchor in one of the lengths it is bought in. */
export interface AnchorStock {
	/** `standard.concrete.3.75` */
	readonly key: string;
	readonly anchor: Anchor;
	/** in */
	readonly length: string;
}

/** What is bought under a key; undefined where the book has no such anchor or length. */
export function anchorStockOf(book: TechnicalBook, key: string): AnchorStock | undefined {
	for (const fixing of book.fixings)
		for (const anchor of fixing.anchors)
			for (const length of anchor.lengths)
				if (stockKey(anchorKey(fixing.key, anchor.substrate), length) === key) return { key, anchor, length };
	return undefined;
}

/** Diameter and length as bought: `3/8" x 3 3/4"`. */
export function anchorSize({ anchor, length }: AnchorStock): string {
	const inches = (text: string): string => formatLength(Math.round(Number(text) * 25_400_000), 'inches');
	return `${inches(anchor.diameter)} x ${inches(length)}`;
}

/** Anchors of all openings a row stands for, by what they hold; none where nothing was computed. */
export function anchorUses(
	opening: OpeningTakeoff
): { readonly stock: string; readonly use: AnchorUse; readonly count: number }[] {
	if (!opening.computed) return [];
	const uses: readonly (readonly [anchor: string, use: AnchorUse, count: string])[] = [
		['anchorStockLeft', 'guides', 'anchorsPerGuideLeft'],
		['anchorStockLeft', 'brackets', 'anchorsPerBracket'],
		['anchorStockRight', 'guides', 'anchorsPerGuideRight'],
		['anchorStockRight', 'brackets', 'anchorsPerBracket'],
		['anchorStockHead', 'hoodSupports', 'hoodSupportAnchors']
	];
	return uses.flatMap(([id, use, countId]) => {
		const stock = opening.get(id);
		const each = opening.get(countId);
		const count = typeof each === 'number' ? each * opening.quantity : 0;
		return typeof stock === 'string' && count > 0 ? [{ stock, use, count }] : [];
	});
}

/** Boxes of anchors for the job: with waste, to the full box. */
export const boxesOf = (count: number, waste: string, perBox: string): number =>
	new Money(count).times(new Money(waste).plus(1)).div(perBox).ceil().toNumber();
