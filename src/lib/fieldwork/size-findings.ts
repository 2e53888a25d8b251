/** Width, heights, skew and sill against the drawing. */
import type { FieldReadings } from './field-measure.ts';
import { notMeasured, type Finding } from './finding.ts';
import type { GoverningSizes, Side } from './governing.ts';
import { listed, type SayLength } from './sentence.ts';
import { skewOf } from './skew.ts';
import { sillAllowed, type Tolerances } from './tolerances.ts';

export interface Against {
	readonly readings: FieldReadings;
	readonly tolerances: Tolerances;
	readonly say: SayLength;
}

const moreOrLess = (difference: number, say: SayLength, more: string, less: string): string =>
	difference === 0 ? 'as drawn' : `${say(Math.abs(difference))} ${difference > 0 ? more : less} than drawn`;

export function widthFinding(
	governing: GoverningSizes,
	drawn: number | null,
	{ readings, tolerances, say }: Against
): Finding {
	const title = 'Width';
	const { width, widthAsRead, which } = governing;
	const { bottom, middle, top } = readings.widths;
	const missing = [
		...(bottom === null ? ['at the sill'] : []),
		...(middle === null ? ['at half height'] : []),
		...(top === null ? ['at the head'] : [])
	];
	if (width === null || widthAsRead === null)
		return notMeasured(
			'width',
			title,
			'No width is measured.',
			'Measure it at the sill, at half height and at the head.',
			drawn
		);
	if (drawn === null)
		return notMeasured(
			'width',
			title,
			'The row has no width to compare with.',
			'Enter the opening width in the row.'
		);
	const difference = width - drawn;
	const beyond = Math.abs(difference) > tolerances.width;
	// What is still to measure can only make the least less and the greatest greater.
	const certain = beyond && (which === 'least' ? difference < 0 : difference > 0);
	const leaning =
		width === widthAsRead
			? ''
			: `, ${say(Math.abs(width - widthAsRead))} ${width < widthAsRead ? 'less' : 'more'} than the ${which} width for the lean of the jambs`;
	const text = `Width that governs is ${say(width)}${leaning}: ${moreOrLess(difference, say, 'more', 'less')}, ${say(tolerances.width)} is allowed`;
	const state =
		certain || (beyond && missing.length === 0) ? 'stop' : missing.length > 0 ? 'notMeasured' : 'within';
	return {
		thing: 'width',
		title,
		state,
		measured: width,
		drawn,
		difference,
		tolerance: tolerances.width,
		text: missing.length === 0 ? `${text}.` : `${text}; not measured ${listed(missing)}.`,
		clears:
			state === 'stop'
				? `A row of its own with a width of ${say(width)}, or jambs ${say(Math.abs(difference))} ${difference > 0 ? 'closer' : 'further apart'}.`
				: state === 'notMeasured'
					? `Measure the width ${listed(missing)}.`
					: ''
	};
}

export function heightFinding(
	side: Side,
	drawn: number | null,
	{ readings, tolerances, say }: Against
): Finding {
	const thing = side === 'left' ? 'heightLeft' : 'heightRight';
	const title = `Height, ${side}`;
	const measured = readings.heights[side];
	if (measured === null)
		return notMeasured(
			thing,
			title,
			`The height at the ${side} is not measured.`,
			`Measure from the finished sill to the head at the ${side} jamb.`,
			drawn
		);
	if (drawn === null)
		return notMeasured(
			thing,
			title,
			'The row has no height to compare with.',
			'Enter the opening height in the row.'
		);
	const difference = measured - drawn;
	const beyond = Math.abs(difference) > tolerances.height;
	return {
		thing,
		title,
		state: beyond ? 'stop' : 'within',
		measured,
		drawn,
		difference,
		tolerance: tolerances.height,
		text: `Height at the ${side} is ${say(measured)}: ${moreOrLess(difference, say, 'more', 'less')}, ${say(tolerances.height)} is allowed.`,
		clears: beyond
			? `A ${side} guide for ${say(measured)}, or a head ${say(Math.abs(difference))} ${difference > 0 ? 'lower' : 'higher'} there.`
			: ''
	};
}

export function skewFinding({ readings, tolerances, say }: Against): Finding {
	const title = 'Skew';
	const skew = skewOf(readings, tolerances.closure, say);
	if (skew.state === 'notMeasured') {
		const { rising, falling } = readings.diagonals;
		const both = rising !== null && falling !== null;
		return notMeasured(
			'skew',
			title,
			both ? 'The skew needs a width beside the diagonals.' : 'The diagonals are not both measured.',
			both ? 'Measure the widths.' : 'Measure both diagonals.',
			0
		);
	}
	if (skew.state === 'impossible')
		return {
			...notMeasured('skew', title, skew.reason, 'Measure the diagonals, widths and heights again.', 0),
			state: 'stop'
		};
	const { lean } = skew;
	const size = Math.abs(lean);
	const beyond = size > tolerances.skew;
	const leans =
		lean === 0
			? 'The diagonals are alike'
			: `The head stands ${say(size)} to the ${lean > 0 ? 'right' : 'left'} of the sill`;
	return {
		thing: 'skew',
		title,
		state: beyond ? 'stop' : 'within',
		measured: lean,
		drawn: 0,
		difference: lean,
		tolerance: tolerances.skew,
		text: `${leans}; ${say(tolerances.skew)} is allowed.`,
		clears: beyond ? 'Jambs set plumb, or the designer’s word on how the opening is to be closed.' : ''
	};
}

export function sillFinding(width: number | null, { readings, tolerances, say }: Against): Finding {
	const title = 'Sill';
	const rise = readings.sillRise;
	if (rise === null)
		return notMeasured(
			'sill',
			title,
			'The level of the sill is not measured.',
			'Measure how much higher the sill is at the right than at the left.',
			0
		);
	if (width === null)
		return notMeasured(
			'sill',
			title,
			'What the sill may be out of level goes by the width, which is not known.',
			'Measure the width.',
			0
		);
	const allowed = sillAllowed(tolerances, width);
	const beyond = Math.abs(rise) > allowed;
	const stands =
		rise === 0
			? 'The sill is level'
			: `The sill is ${say(Math.abs(rise))} ${rise > 0 ? 'higher' : 'lower'} at the right`;
	return {
		thing: 'sill',
		title,
		state: beyond ? 'stop' : 'within',
		measured: rise,
		drawn: 0,
		difference: rise,
		tolerance: allowed,
		text: `${stands}; ${say(allowed)} is allowed over ${say(width)}.`,
		clears: beyond ? 'A sill made level, or a bottom seal that takes it up.' : ''
	};
}
