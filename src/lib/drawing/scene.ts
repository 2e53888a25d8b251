/** The drawings of an opening, as shapes in real-world millimetres. */
import type { Measures } from '../takeoff/inputs.ts';
import type { OpeningTakeoff } from '../takeoff/result.ts';
import { elevationScene } from './elevation.ts';
import { sectionScene, type SectionOptions } from './section.ts';
import type { Scene, Side } from './shapes.ts';
import { stackScene, type Place } from './stack.ts';

export { elevationScene, sectionScene };

/** What a drawing takes from an opening. */
export type DrawnOpening = Pick<OpeningTakeoff, 'mark' | 'openingId' | 'get'>;

const nameOf = (opening: DrawnOpening): string => opening.openingId ?? opening.mark;

/** The elevation of an opening from the coil side; null while its size is not known. */
export function elevationOf(opening: DrawnOpening, measures: Measures, open = false): Scene | null {
	return elevationScene((id) => opening.get(id), {
		measures,
		open,
		mark: nameOf(opening)
	});
}

/** The section of an opening; null while its height is not known. */
export function sectionOf(
	opening: DrawnOpening,
	measures: Measures,
	view: Pick<SectionOptions, 'open' | 'looking' | 'part'> = { open: false, looking: 'right', part: 'whole' }
): Scene | null {
	return sectionScene((id) => opening.get(id), { measures, mark: nameOf(opening), ...view });
}

/** One anchor of an opening cut along its axis; null where the wall has none. */
export function stackOf(opening: DrawnOpening, measures: Measures, place: Place, side: Side): Scene | null {
	return stackScene((id) => opening.get(id), { measures, mark: nameOf(opening), place, side });
}
