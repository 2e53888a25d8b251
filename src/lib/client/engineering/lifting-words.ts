/** Whether a person may lift the coil, in words. */
import { unit } from '../../quantity/units.ts';
import { distanceMultiplier, horizontalMultiplier, verticalMultiplier } from '../../takeoff/lifting-limit.ts';
import type { Read } from '../../drawing/readings.ts';
import type { Figure } from './figure.ts';

const inch = unit('in').scale;

/** Which figure the lifting equation has no weight for. */
const outside: readonly {
	readonly id: string;
	readonly multiplier: (inches: number) => number;
	readonly says: (text: string) => string;
}[] = [
	{
		id: 'coilReachOutTo',
		multiplier: horizontalMultiplier,
		says: (text) => `the hands would be ${text} out from the body`
	},
	{
		id: 'liftTo',
		multiplier: verticalMultiplier,
		says: (text) => `the hands would end ${text} above the floor`
	},
	{ id: 'liftTravel', multiplier: distanceMultiplier, says: (text) => `the coil goes ${text} up or down` }
];

/** What the hand limit means for this coil; the equation is for one person who stands on the floor. */
export function handLiftWords(read: Read, figure: (id: string) => Figure): string {
	const limit = read('handLiftLimit');
	const weight = read('coilWeight');
	if (typeof limit !== 'number' || typeof weight !== 'number')
		return 'Whether one person may lift the coil is not known.';
	if (limit <= 0) {
		const reasons = outside.flatMap(({ id, multiplier, says }) => {
			const value = read(id);
			return typeof value === 'number' && multiplier(value / inch) <= 0 ? [says(figure(id).text)] : [];
		});
		const why = reasons.length === 0 ? '' : `: ${reasons.join(', and ')}`;
		return `The lifting equation allows no lift by hand here${why}. A lift carries the coil.`;
	}
	return weight <= limit
		? 'Within the limit for one person standing on the floor with both hands.'
		: 'Over the limit for one person standing on the floor with both hands. A lift carries the coil.';
}
