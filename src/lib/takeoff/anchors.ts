/** Anchors by their key (`standard.concrete`): what they are, and how many a row uses where. */
import { formatLength } from '../quantity/length.ts';
import { Money } from '../quantity/money.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';
import type { OpeningTakeoff } from './result.ts';

type Anchor = TechnicalBook['fixings'][number]['anchors'][number];

export type AnchorUse = 'guides' | 'brackets' | 'hoodSupports';

/** The anchor of a key; undefined where the fixing has none for the wall. */
export function anchorOf(book: TechnicalBook, key: string): Anchor | undefined {
	const [fixing, substrate] = key.split('.');
	return book.fixings.find((row) => row.key === fixing)?.anchors.find((row) => row.substrate === substrate);
}

/** Diameter and length as bought: `3/8" x 3 3/4"`. */
export function anchorSize({ diameter, length }: Anchor): string {
	const inches = (text: string): string => formatLength(Math.round(Number(text) * 25_400_000), 'inches');
	return `${inches(diameter)} x ${inches(length)}`;
}

/** Anchors of all openings a row stands for, by what they hold; none where nothing was computed. */
export function anchorUses(
	opening: OpeningTakeoff
): { readonly anchor: string; readonly use: AnchorUse; readonly count: number }[] {
	if (!opening.computed) return [];
	const uses: readonly (readonly [anchor: string, use: AnchorUse, count: string])[] = [
		['anchorLeft', 'guides', 'anchorsPerGuideLeft'],
		['anchorLeft', 'brackets', 'anchorsPerBracket'],
		['anchorRight', 'guides', 'anchorsPerGuideRight'],
		['anchorRight', 'brackets', 'anchorsPerBracket'],
		['anchorHead', 'hoodSupports', 'hoodSupportAnchors']
	];
	return uses.flatMap(([id, use, countId]) => {
		const anchor = opening.get(id);
		const each = opening.get(countId);
		const count = typeof each === 'number' ? each * opening.quantity : 0;
		return typeof anchor === 'string' && count > 0 ? [{ anchor, use, count }] : [];
	});
}

/** Boxes of anchors for the job: with waste, to the full box. */
export const boxesOf = (count: number, waste: string, perBox: string): number =>
	new Money(count).times(new Money(waste).plus(1)).div(perBox).ceil().toNumber();
