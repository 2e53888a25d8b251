/** Rooms and walls as they were found. */
import { spaced } from '../takeoff/show.ts';
import { notMeasured, type Finding } from './finding.ts';
import type { Side } from './governing.ts';
import type { Against } from './size-findings.ts';

/** One free room: enough or not. What the drawing gave is only told. */
function roomFinding(
	thing: 'headroom' | 'sideRoomLeft' | 'sideRoomRight',
	words: { readonly title: string; readonly room: string; readonly measure: string },
	figures: {
		readonly measured: number | null;
		readonly needed: number | null;
		readonly drawn: number | null;
	},
	{ say }: Pick<Against, 'say'>
): Finding {
	const { title, room, measure } = words;
	const { measured, needed, drawn } = figures;
	if (measured === null) return notMeasured(thing, title, `The ${room} is not measured.`, measure, needed);
	if (needed === null)
		return {
			...notMeasured(
				thing,
				title,
				`The ${room} is ${say(measured)}; what is needed is not known, since the takeoff has no result.`,
				'Clear the stops of the takeoff.'
			),
			measured
		};
	const difference = measured - needed;
	const told = drawn === null || drawn === measured ? '' : `, drawn ${say(drawn)}`;
	return {
		thing,
		title,
		state: difference < 0 ? 'stop' : 'within',
		measured,
		drawn: needed,
		difference,
		tolerance: 0,
		text: `The ${room} is ${say(measured)}${told}; ${say(needed)} is needed${difference < 0 ? `, ${say(-difference)} more` : ''}.`,
		clears: difference < 0 ? `${say(-difference)} more ${room}, or a smaller coil or bracket.` : ''
	};
}

/** Head of the opening upwards. */
export const headroomFinding = (needed: number | null, drawn: number | null, against: Against): Finding =>
	roomFinding(
		'headroom',
		{
			title: 'Headroom',
			room: 'headroom',
			measure: 'Measure from the head upwards to the first thing in the way.'
		},
		{ measured: against.readings.headroom, needed, drawn },
		against
	);

/** From where the mouth of the guide will stand outwards, as the takeoff has it. */
export const sideRoomFinding = (
	side: Side,
	needed: number | null,
	drawn: number | null,
	against: Against
): Finding =>
	roomFinding(
		side === 'left' ? 'sideRoomLeft' : 'sideRoomRight',
		{
			title: `Side room, ${side}`,
			room: `side room at the ${side}`,
			measure: `Measure from where the mouth of the ${side} guide will stand outwards to the first thing in the way.`
		},
		{ measured: against.readings[`${side}SideRoom`], needed, drawn },
		against
	);

/** The wall of a side as found against the row. */
export function wallFinding(
	side: Side,
	drawn: string | null,
	{ readings }: Pick<Against, 'readings'>
): Finding {
	const thing = side === 'left' ? 'wallLeft' : 'wallRight';
	const title = `Wall, ${side}`;
	const measured = readings[`${side}Substrate`];
	if (measured === null)
		return notMeasured(
			thing,
			title,
			`Nobody has looked what the ${side} wall is.`,
			`Look what the ${side} wall is, behind its board or tile.`,
			drawn
		);
	if (drawn === null)
		return notMeasured(
			thing,
			title,
			`The row does not say what the ${side} wall is.`,
			`Enter the ${side} wall in the row.`
		);
	const same = measured === drawn;
	return {
		thing,
		title,
		state: same ? 'within' : 'stop',
		measured,
		drawn,
		difference: null,
		tolerance: null,
		text: same
			? `The ${side} wall is ${spaced(measured)}, as drawn.`
			: `The ${side} wall is ${spaced(measured)}, drawn as ${spaced(drawn)}: its anchors are others.`,
		clears: same
			? ''
			: `A row of its own with that wall, with the strength and thickness found, and its anchors worked out anew.`
	};
}
