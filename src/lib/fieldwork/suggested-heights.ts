/** Heights at which the plumb of a jamb is best read. */
import type { TechnicalBook } from '../shopbook/schema.ts';
import type { Measures } from '../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import type { Side } from './governing.ts';
import { standingGuide } from './shims.ts';
import { lengthOf } from './taken-sizes.ts';

/** More than these are no help with a level in one hand. The shop’s own, invented. */
const mostSuggested = 5;

/**
 * The anchors of the guide on that side, of many the lowest, the middle one and the highest; without a guide sill, half
 * height and head. In whole inches or centimetres, each once, from the sill up, nm. Empty where nothing is known.
 */
export function suggestedHeights(
	opening: OpeningTakeoff,
	side: Side,
	book: TechnicalBook,
	measures: Measures
): number[] {
	const height = lengthOf(opening, 'openingHeight');
	const anchors = standingGuide(opening, side, book)?.anchors ?? [];
	const last = anchors.length - 1;
	const at =
		anchors.length > mostSuggested
			? [0, Math.round(last / 2), last].flatMap((i) => anchors[i] ?? [])
			: anchors.length > 0
				? anchors
				: height === null
					? []
					: [0, height / 2, height];
	const step = measures === 'metric' ? 10_000_000 : 25_400_000;
	return [...new Set(at.map((nm) => Math.round(nm / step) * step))];
}
