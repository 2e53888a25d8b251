/** Days and readings of the invented job that is under way. */
import type { FieldReadings } from '../../fieldwork/field-measure.ts';
import type { OpeningTakeoff } from '../../takeoff/result.ts';
import type { JobBuying } from './job-buying.ts';

const dayMs = 86_400_000;
const dayAfter = (now: Date, days: number): string =>
	new Date(now.getTime() + days * dayMs).toISOString().slice(0, 10);

/** When the first phase starts, when the others do, and when a line comes late. */
export const firstDays = (
	now: Date
): { readonly soon: string; readonly later: string; readonly late: string } => ({
	soon: dayAfter(now, 1),
	later: dayAfter(now, 90),
	late: dayAfter(now, 20)
});

/** An inch, nm. */
const inch = 25_400_000;
const sixteenth = inch / 16;
const measured = 7;

/** How an opening leaned and how wide it was found against the drawing, in sixteenths of an inch: one after the other. */
const findings: readonly { readonly wider: number; readonly lean: number }[] = [
	// Half an inch too narrow: a stop.
	{ wider: -8, lean: 2 },
	{ wider: 1, lean: 2 },
	{ wider: 0, lean: 1 },
	{ wider: -1, lean: 3 }
];

/** As it was drawn; where it was not, three inches more than is needed. */
function roomFor(opening: OpeningTakeoff, drawn: string, needed: string): number | null {
	const [room, least] = [opening.get(drawn), opening.get(needed)];
	if (typeof room === 'number') return Math.round(room);
	return typeof least === 'number' ? Math.round(least) + 3 * inch : null;
}

/** As it was drawn. */
function wallAt(opening: OpeningTakeoff, id: string): string | null {
	const wall = opening.get(id);
	return typeof wall === 'string' ? wall : null;
}

interface ExampleMeasure {
	readonly openingKey: string;
	readonly readings: FieldReadings;
	readonly note: string;
	readonly measuredAt: string;
}

/** The first openings of the sheet, as somebody might have found them. */
export function exampleMeasures(
	{ takeoff, openingKeys }: Pick<JobBuying, 'takeoff' | 'openingKeys'>,
	now: Date
): ExampleMeasure[] {
	const openings = takeoff.openings.flatMap((opening) =>
		opening.openingIds.map((openingId) => ({ opening, openingId }))
	);
	return openings.slice(0, measured).flatMap(({ opening, openingId }, at): ExampleMeasure[] => {
		const openingKey = openingKeys.keys.get(openingId);
		const width = opening.get('openingWidth');
		const height = opening.get('openingHeight');
		const finding = findings[at % findings.length];
		if (openingKey === undefined || typeof width !== 'number' || typeof height !== 'number' || !finding)
			return [];
		const wide = Math.round(width) + finding.wider * sixteenth;
		const high = Math.round(height);
		const diagonal = Math.round(Math.hypot(wide, high) / sixteenth) * sixteenth;
		const heights = [0, Math.round(high / 2), high];
		const plumb = heights.map((height, step) => ({
			height,
			inPlane: 0,
			outOfPlane: step * finding.lean * sixteenth
		}));
		return [
			{
				openingKey,
				readings: {
					widths: { bottom: wide, middle: wide + sixteenth, top: wide },
					heights: { left: high, right: high },
					diagonals: { rising: diagonal, falling: diagonal },
					plumb: { left: plumb, right: plumb },
					sillRise: 0,
					headroom: roomFor(opening, 'headroom', 'requiredHeadroom'),
					leftSideRoom: roomFor(opening, 'sideRoomLeft', 'requiredSideRoomLeft'),
					rightSideRoom: roomFor(opening, 'sideRoomRight', 'requiredSideRoomRight'),
					leftSubstrate: wallAt(opening, 'substrateLeft'),
					rightSubstrate: wallAt(opening, 'substrateRight')
				},
				note: 'Invented readings',
				measuredAt: now.toISOString()
			}
		];
	});
}
