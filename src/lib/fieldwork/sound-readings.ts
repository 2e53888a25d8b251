/** Readings that can't be, told one by one and left out of everything that is reckoned. */
import { substrates } from '../shopbook/words.ts';
import type { FieldReadings, PlumbReading } from './field-measure.ts';

interface ReadingProblem {
	/** What was read: `width at the sill`. */
	readonly reading: string;
	/** One sentence: what is wrong, and what would be right. */
	readonly text: string;
}

/** The longest a length of the program may be: 1 km. */
const longest = 1e12;

interface Sounded {
	/** As given, without what can't be: that is null, as if it had not been measured. */
	readonly readings: FieldReadings;
	readonly problems: readonly ReadingProblem[];
}

/** Parts what can be from what can't. Sizes are more than 0, rooms and heights 0 or more; all whole nm. */
export function soundReadings(given: FieldReadings): Sounded {
	const problems: ReadingProblem[] = [];
	const refuse = (reading: string, text: string): null => {
		problems.push({ reading, text });
		return null;
	};
	const length = (
		reading: string,
		value: number | null,
		range: 'size' | 'room' | 'signed'
	): number | null => {
		if (value === null) return null;
		if (!Number.isSafeInteger(value) || Math.abs(value) > longest)
			return refuse(reading, `The ${reading} is not a length; enter it again.`);
		if (range === 'size' && value <= 0)
			return refuse(reading, `The ${reading} is 0 or less; enter what the tape says, or leave it empty.`);
		if (range === 'room' && value < 0)
			return refuse(reading, `The ${reading} is less than 0; enter 0 or more, or leave it empty.`);
		return value;
	};
	const wall = (reading: string, value: string | null): string | null =>
		value === null || (substrates as readonly string[]).includes(value)
			? value
			: refuse(reading, `The ${reading} “${value}” is not known; one of: ${substrates.join(', ')}.`);
	const plumb = (side: 'left' | 'right', list: readonly PlumbReading[]): PlumbReading[] => {
		const sound = list.flatMap((reading): PlumbReading[] => {
			const height = length(`height of a plumb reading at the ${side} jamb`, reading.height, 'room');
			if (height === null) return [];
			return [
				{
					height,
					inPlane: length(`plumb reading in the wall at the ${side} jamb`, reading.inPlane, 'signed'),
					outOfPlane: length(
						`plumb reading out of the wall at the ${side} jamb`,
						reading.outOfPlane,
						'signed'
					)
				}
			];
		});
		const torn = new Set<number>();
		sound.forEach((one, i) => {
			const other = sound.slice(0, i).find(({ height }) => height === one.height);
			if (other && (other.inPlane !== one.inPlane || other.outOfPlane !== one.outOfPlane))
				torn.add(one.height);
		});
		if (torn.size > 0)
			refuse(
				`plumb readings at the ${side} jamb`,
				`The ${side} jamb has two plumb readings at one height that differ; keep one of them.`
			);
		return sound.filter(({ height }) => !torn.has(height));
	};
	const { widths, heights, diagonals } = given;
	const readings: FieldReadings = {
		widths: {
			bottom: length('width at the sill', widths.bottom, 'size'),
			middle: length('width at half height', widths.middle, 'size'),
			top: length('width at the head', widths.top, 'size')
		},
		heights: {
			left: length('height at the left', heights.left, 'size'),
			right: length('height at the right', heights.right, 'size')
		},
		diagonals: {
			rising: length('diagonal from the bottom left', diagonals.rising, 'size'),
			falling: length('diagonal from the bottom right', diagonals.falling, 'size')
		},
		plumb: { left: plumb('left', given.plumb.left), right: plumb('right', given.plumb.right) },
		sillRise: length('rise of the sill', given.sillRise, 'signed'),
		headroom: length('headroom', given.headroom, 'room'),
		leftSideRoom: length('side room at the left', given.leftSideRoom, 'room'),
		rightSideRoom: length('side room at the right', given.rightSideRoom, 'room'),
		leftSubstrate: wall('left wall', given.leftSubstrate),
		rightSubstrate: wall('right wall', given.rightSubstrate)
	};
	return { readings, problems };
}
