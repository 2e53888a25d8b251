/** What a part is, in words that tell it from its neighbours. */
import { formatLength, type LengthStyle } from '../quantity/length.ts';
import type { Part } from '../takeoff/result.ts';

/** `16, 4'-2" × 9'-2"`; empty where it has no sizes. */
export function partSize(part: Pick<Part, 'size' | 'width' | 'length'>, style: LengthStyle): string {
	const sides = [part.width, part.length].flatMap((nm) => (nm === null ? [] : [formatLength(nm, style)]));
	return [part.size, sides.join(' × ')].filter((text) => text !== '').join(', ');
}

/** `Guide, left, 9'-2", graphite`: without its opening, since parts that are alike have the same words. */
export const partWords = (
	part: Pick<Part, 'title' | 'size' | 'width' | 'length' | 'finish'>,
	style: LengthStyle
): string => [part.title, partSize(part, style), part.finish].filter((text) => text !== '').join(', ');
