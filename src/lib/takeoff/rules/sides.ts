/**
 * Chapter 1: which side is which. Everything left and right is reckoned standing on the coil side; a drawing seen from
 * the far side is turned here, once, before anything else is computed.
 */
import { bySide, chapter, commonPractice, definition } from './rule.ts';

const turned = 'Seen standing on the coil side; a drawing seen from the far side is turned.';

const walls = ['Left', 'Right'].flatMap((side) => {
	const other = side === 'Left' ? 'right' : 'left';
	const own = side.toLowerCase();
	return [
		{
			id: `substrate${side}`,
			title: `Wall ${own}`,
			unit: '1',
			kind: 'key' as const,
			vocabulary: 'substrates',
			formula: `if(drawnFrom == "farSide", ${other}Substrate, ${own}Substrate)`,
			sentence: turned,
			source: definition
		},
		{
			id: `sideRoom${side}`,
			title: `Side room ${own}`,
			unit: 'in',
			formula: `if(drawnFrom == "farSide", ${other}SideRoom, ${own}SideRoom)`,
			sentence: turned,
			source: definition
		}
	];
});

export const sideRules = chapter(1, [
	{
		id: 'mountingLeft',
		title: 'Mounting left',
		unit: '1',
		kind: 'key',
		vocabulary: 'mountings',
		formula: 'if(drawnFrom == "farSide" && rightMounting != "", rightMounting, mounting)',
		sentence: turned,
		source: definition
	},
	{
		id: 'mountingRight',
		title: 'Mounting right',
		unit: '1',
		kind: 'key',
		vocabulary: 'mountings',
		formula: 'if(drawnFrom != "farSide" && rightMounting != "", rightMounting, mounting)',
		sentence: turned,
		source: definition
	},
	{
		id: 'guideLeft',
		title: 'Guide left',
		unit: '1',
		kind: 'key',
		vocabulary: 'guides',
		formula: 'if(drawnFrom == "farSide" && rightGuide != "", rightGuide, guide)',
		sentence: turned,
		source: definition
	},
	{
		id: 'guideRight',
		title: 'Guide right',
		unit: '1',
		kind: 'key',
		vocabulary: 'guides',
		formula: 'if(drawnFrom != "farSide" && rightGuide != "", rightGuide, guide)',
		sentence: turned,
		source: definition
	},
	...walls,
	{
		id: 'driveAt',
		title: 'Drive at',
		unit: '1',
		kind: 'key',
		vocabulary: 'sides',
		formula: 'if(drawnFrom == "farSide", if(driveSide == "left", "right", "left"), driveSide)',
		sentence: turned,
		source: definition
	},
	...bySide([
		{
			id: 'anchorSide',
			title: 'Anchor {side}',
			unit: '1',
			kind: 'key' as const,
			vocabulary: 'anchors',
			formula: 'keyOf("anchors", fixing, substrateSide)',
			sentence: 'The anchor the fixing has for this wall; blank where it has none.',
			source: definition
		}
	]),
	{
		id: 'anchorHead',
		title: 'Anchor at the head',
		unit: '1',
		kind: 'key',
		vocabulary: 'anchors',
		formula: 'keyOf("anchors", fixing, headSubstrate)',
		sentence: 'The anchor the fixing has for the wall over the head.',
		source: definition
	},
	{
		id: 'sillAboveFloor',
		title: 'Sill above floor',
		unit: 'in',
		formula: 'if(known(sillHeight), sillHeight, if(sill == "counter", unknown, 0 * inch))',
		sentence: 'A floor sill is at the floor; a counter’s height has to be given.',
		source: commonPractice
	}
]);
