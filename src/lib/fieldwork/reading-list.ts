/** The readings of an opening in the order of measuring: what each is called, how it is taken, and where it is kept. */
import { spaced } from '../takeoff/show.ts';
import type { FieldReadings, PlumbReading } from './field-measure.ts';
import type { Side } from './governing.ts';
import { sides } from './governing.ts';
import type { SayLength } from './sentence.ts';

export type ReadingId =
	| 'widthBottom'
	| 'widthMiddle'
	| 'widthTop'
	| 'heightLeft'
	| 'heightRight'
	| 'diagonalRising'
	| 'diagonalFalling'
	| 'sillRise'
	| 'headroom'
	| 'sideRoomLeft'
	| 'sideRoomRight';

interface ReadingDefinition {
	readonly id: ReadingId;
	readonly title: string;
	/** `size` is more than 0, `room` 0 or more, `signed` either way. */
	readonly range: 'size' | 'room' | 'signed';
	/** Where the tape goes. */
	readonly how: string;
	/** Whole nm; null was not measured. */
	readonly of: (readings: FieldReadings) => number | null;
}

// prettier-ignore
export const readingList: readonly ReadingDefinition[] = [
	{ id: 'widthBottom', title: 'Width at the sill', range: 'size', how: 'Jamb to jamb, just above the finished sill.', of: ({ widths }) => widths.bottom },
	{ id: 'widthMiddle', title: 'Width at half height', range: 'size', how: 'Jamb to jamb, halfway up.', of: ({ widths }) => widths.middle },
	{ id: 'widthTop', title: 'Width at the head', range: 'size', how: 'Jamb to jamb, just below the head.', of: ({ widths }) => widths.top },
	{ id: 'heightLeft', title: 'Height at the left', range: 'size', how: 'From the finished sill to the head, at the left jamb.', of: ({ heights }) => heights.left },
	{ id: 'heightRight', title: 'Height at the right', range: 'size', how: 'From the finished sill to the head, at the right jamb.', of: ({ heights }) => heights.right },
	{ id: 'diagonalRising', title: 'Diagonal, bottom left to top right', range: 'size', how: 'Corner to corner.', of: ({ diagonals }) => diagonals.rising },
	{ id: 'diagonalFalling', title: 'Diagonal, bottom right to top left', range: 'size', how: 'Corner to corner.', of: ({ diagonals }) => diagonals.falling },
	{ id: 'sillRise', title: 'Rise of the sill to the right', range: 'signed', how: 'How much higher the sill is at the right than at the left; minus where it is lower.', of: ({ sillRise }) => sillRise },
	{ id: 'headroom', title: 'Headroom', range: 'room', how: 'From the head upwards to the first thing in the way.', of: ({ headroom }) => headroom },
	{ id: 'sideRoomLeft', title: 'Side room at the left', range: 'room', how: 'From where the mouth of the left guide will stand outwards to the first thing in the way.', of: ({ leftSideRoom }) => leftSideRoom },
	{ id: 'sideRoomRight', title: 'Side room at the right', range: 'room', how: 'From where the mouth of the right guide will stand outwards to the first thing in the way.', of: ({ rightSideRoom }) => rightSideRoom }
];

/** Everything that may be read at an opening, before it is put together. */
interface ReadingValues {
	/** Whole nm; null was not measured. */
	readonly lengths: Readonly<Record<ReadingId, number | null>>;
	readonly plumb: Readonly<Record<Side, readonly PlumbReading[]>>;
	/** Key of the wall as found; null where nobody looked. */
	readonly walls: Readonly<Record<Side, string | null>>;
}

export const readingsFrom = ({ lengths, plumb, walls }: ReadingValues): FieldReadings => ({
	widths: { bottom: lengths.widthBottom, middle: lengths.widthMiddle, top: lengths.widthTop },
	heights: { left: lengths.heightLeft, right: lengths.heightRight },
	diagonals: { rising: lengths.diagonalRising, falling: lengths.diagonalFalling },
	plumb,
	sillRise: lengths.sillRise,
	headroom: lengths.headroom,
	leftSideRoom: lengths.sideRoomLeft,
	rightSideRoom: lengths.sideRoomRight,
	leftSubstrate: walls.left,
	rightSubstrate: walls.right
});

/** Whether anything at all was read. */
export const isMeasured = (readings: FieldReadings): boolean =>
	readingList.some(({ of }) => of(readings) !== null) ||
	sides.some(
		(side) =>
			readings[`${side}Substrate`] !== null ||
			readings.plumb[side].some(({ inPlane, outOfPlane }) => inPlane !== null || outOfPlane !== null)
	);

/** A plumb reading with the way it leans: `1/8" into the opening`, `plumb`. */
export function leanWords(off: number, plane: 'inPlane' | 'outOfPlane', say: SayLength): string {
	if (off === 0) return 'plumb';
	const ways =
		plane === 'inPlane'
			? ['into the opening', 'into the wall']
			: ['towards the coil side', 'away from the coil side'];
	return `${say(Math.abs(off))} ${ways[off > 0 ? 0 : 1] ?? ''}`;
}

const plumbWords = (side: Side, list: readonly PlumbReading[], say: SayLength): string[] =>
	list.flatMap(({ height, inPlane, outOfPlane }) => {
		const read = [
			...(inPlane === null ? [] : [leanWords(inPlane, 'inPlane', say)]),
			...(outOfPlane === null ? [] : [leanWords(outOfPlane, 'outOfPlane', say)])
		];
		const words = new Set(read);
		return read.length === 0 ? [] : [`${side} jamb at ${say(height)} ${[...words].join(' and ')}`];
	});

/** All readings that were taken, in one line, for the history. */
export function readingWords(readings: FieldReadings, say: SayLength): string {
	return [
		...readingList.flatMap(({ title, of }) => {
			const nm = of(readings);
			return nm === null ? [] : [`${title.toLowerCase()} ${say(nm)}`];
		}),
		...sides.flatMap((side) => plumbWords(side, readings.plumb[side], say)),
		...sides.flatMap((side) => {
			const wall = readings[`${side}Substrate`];
			return wall === null ? [] : [`${side} wall ${spaced(wall)}`];
		})
	].join('; ');
}
