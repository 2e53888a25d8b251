/**
 * Chapter 9: what would send a person back. A check is a rule too: a condition, and one sentence with the numbers in
 * it (`{headroom}` is the quantity with its unit). None of them approves anything.
 */
import type { RuleDefinition, Source } from '../../rulebook/definition.ts';
import type { Severity } from '../result.ts';
import { bySide, commonPractice, shop } from './rule.ts';

export interface CheckRule {
	readonly code: string;
	readonly severity: Severity;
	/** True where the check applies. */
	readonly when: string;
	readonly text: string;
	/** Quantity it is about. */
	readonly about: string;
	readonly source: Source;
	readonly clears: string;
}

const deferred: Source = {
	basis: 'commonPractice',
	text: 'Common practice; local codes and licensed people decide.'
};

const room = (
	what: string,
	id: string,
	have: string,
	need: string,
	title: string,
	/** `Side` where the check is written for both sides. */
	suffix = '',
	/** Where it applies at all. */
	where = ''
): readonly CheckRule[] => [
	{
		code: `${id}TooLittle${suffix}`,
		severity: 'stop',
		when: `${where}known(${have}) && ${have} < ${need}`,
		text: `${title} is {${have}}, needed {${need}}.`,
		about: need,
		source: shop,
		clears: `More ${what}, a smaller bracket or another guide.`
	},
	{
		code: `${id}Tight${suffix}`,
		severity: 'caution',
		when: `${where}known(${have}) && ${have} >= ${need} && ${have} < ${need} + shop.roomMargin`,
		text: `${title} is {${have}}, needed {${need}}: less than {shop.roomMargin} left over.`,
		about: need,
		source: shop,
		clears: `Measure it on site before ordering.`
	},
	{
		code: `${id}Unknown${suffix}`,
		severity: 'caution',
		when: `${where}!known(${have})`,
		text: `${title} is not given; needed {${need}}.`,
		about: need,
		source: commonPractice,
		clears: `Enter the ${what} from the drawing or the field measure.`
	}
];

export const checkRules: readonly CheckRule[] = [
	...room('headroom', 'headroom', 'headroom', 'requiredHeadroom', 'Headroom'),
	...bySide(
		// Between the jambs the projection of the guide gives the room: see betweenJambsTooTight.
		room(
			'side room',
			'sideRoom',
			'sideRoomSide',
			'requiredSideRoomSide',
			'Side room {side}',
			'Side',
			'mountingSide == "faceOfWall" && '
		)
	),
	...room('front room', 'frontRoom', 'frontRoom', 'requiredFrontRoom', 'Front room'),
	...bySide([
		{
			code: 'guideMountingDiffersSide',
			severity: 'stop' as const,
			when: 'guideSide.mounting != mountingSide',
			text: 'The {side} guide {guideSide} is made for {guideSide.mounting}, the row says {mountingSide}.',
			about: 'mountingSide',
			source: shop,
			clears: 'Choose a guide for this mounting.'
		},
		{
			code: 'heldTooLittleSide',
			severity: 'stop' as const,
			when: 'heldSide < guideSide.retention',
			text: 'Shoved to the other side the curtain stays in the {side} guide by {heldSide}; at least {guideSide.retention} is asked.',
			about: 'heldSide',
			source: shop,
			clears: 'A guide with more engagement or a shallower groove.'
		},
		{
			code: 'betweenJambsTooTightSide',
			severity: 'stop' as const,
			when: 'known(betweenRoomSide) && betweenRoomSide < 0',
			text: 'Between the jambs, {side}: bracket, plate, shims and drive are {betweenLackSide} too wide for the guide’s projection.',
			about: 'betweenRoomSide',
			source: commonPractice,
			clears: 'Another operation or hand, a guide that stands further in, or the face of the wall.'
		},
		{
			code: 'noAnchorForWallSide',
			severity: 'stop' as const,
			when: 'anchorSide == ""',
			text: 'Fixing {fixing} has no anchor for {substrateSide} ({side} wall).',
			about: 'anchorSide',
			source: shop,
			clears: 'Another fixing, or a row for this wall in the shop book.'
		},
		{
			code: 'anchorNeedsReportSide',
			severity: 'stop' as const,
			when: 'substrateSide.needsTestedReport == 1 && anchorSide != "" && anchorSide.hasReport == 0',
			text: 'What an anchor holds in {substrateSide} ({side} wall) only a tested report can say, and the shop book names none.',
			about: 'anchorSide',
			source: commonPractice,
			clears: 'An anchor with its report number in the shop book, or another wall to fix to.'
		},
		{
			code: 'finishUnderGuideSide',
			severity: 'caution' as const,
			when: 'known(finishBuildUp) && finishBuildUp > 0 && mountingSide == "faceOfWall"',
			text: 'Board or tile of {finishBuildUp} lies under the {side} guide and takes anchor length.',
			about: 'anchorSide',
			source: commonPractice,
			clears: 'Cut the finish back to the structure, or a longer anchor with a spacer that can carry it.'
		}
	]),
	{
		code: 'noWidthLeft',
		severity: 'stop',
		when: 'guideDistance <= 0',
		text: 'The guides leave no width: mouth to mouth is {guideDistance}.',
		about: 'guideDistance',
		source: commonPractice,
		clears: 'A wider opening, a guide that stands in less, or the face of the wall.'
	},
	{
		code: 'bracketsTooClose',
		severity: 'stop',
		when: 'bracketDistance < curtainWidth',
		text: 'Brackets {bracketDistance} apart do not clear a curtain {curtainWidth} wide.',
		about: 'bracketDistance',
		source: commonPractice,
		clears: 'A guide with more bracket offset.'
	},
	{
		code: 'hoodSupportNeedsWall',
		severity: 'stop',
		when: 'hoodSupports > 0 && headSubstrate == ""',
		text: 'The hood needs supports ({hoodSupports}), and the wall over the head is not given.',
		about: 'hoodSupports',
		source: commonPractice,
		clears: 'Enter the wall over the head.'
	},
	{
		code: 'noAnchorForHead',
		severity: 'stop',
		when: 'hoodSupports > 0 && headSubstrate != "" && anchorHead == ""',
		text: 'Fixing {fixing} has no anchor for {headSubstrate} (over the head), and the hood needs supports ({hoodSupports}).',
		about: 'hoodSupports',
		source: shop,
		clears: 'Another fixing, or a row for this wall in the shop book.'
	},
	{
		code: 'drawingDiffers',
		severity: 'stop',
		when: 'known(drawingGuideDistance) && abs(drawingGuideDistance - guideDistance) > shop.drawingTolerance',
		text: 'The drawing shows guides {drawingGuideDistance} apart, the takeoff {guideDistance}.',
		about: 'guideDistance',
		source: commonPractice,
		clears: 'Find out which is right before anything is ordered.'
	},
	{
		code: 'pressureMissing',
		severity: 'stop',
		when: 'exposure == "exterior" && !known(designPressure)',
		text: 'Exterior opening without a design pressure.',
		about: 'anchorTotal',
		source: deferred,
		clears: 'The engineer’s figure for this wall.'
	},
	{
		code: 'closesNotByWeight',
		severity: 'caution',
		when: 'operation == "tubeMotor" && !closesByWeight',
		text: 'Open, {openWeight} hangs against a drag of {guideDrag}: it may not start closing.',
		about: 'closesByWeight',
		source: shop,
		clears: 'A heavier bottom bar.'
	},
	{
		code: 'anchorsBySpacingOnly',
		severity: 'caution',
		when: 'anchorTotal > 0',
		text: 'Anchors by spacing only; load not checked.',
		about: 'anchorTotal',
		source: deferred,
		clears: 'A load check of guides and brackets by a qualified person.'
	},
	{
		code: 'springsNotReckoned',
		severity: 'caution',
		when: 'operation != "tubeMotor"',
		text: 'Operated by hand: counterbalance springs are not reckoned. Wound springs store energy that can kill.',
		about: 'peakTorque',
		source: deferred,
		clears: 'The maker’s spring design; winding only by trained people with the proper bars.'
	},
	{
		code: 'supplyUnknown',
		severity: 'caution',
		when: 'operation == "tubeMotor" && !known(supplyVoltage)',
		text: 'Tube motor, and the supply voltage is not given.',
		about: 'requiredTorque',
		source: deferred,
		clears: 'The voltage at the opening; connection by a licensed electrician.'
	},
	{
		code: 'isolatePower',
		severity: 'note',
		when: 'operation == "tubeMotor"',
		text: 'Powered: isolate and lock off before hands go near the coil; circuit and connection are for a licensed electrician.',
		about: 'requiredTorque',
		source: deferred,
		clears: 'Stays; it belongs to the work.'
	},
	{
		code: 'controlsUnwired',
		severity: 'caution',
		when: 'controls != "" && controls.nobodyWires == 1',
		text: 'Nobody is named to supply or wire the controls {controls}.',
		about: 'requiredTorque',
		source: commonPractice,
		clears: 'Name who supplies and who wires them in the shop book.'
	},
	{
		code: 'heavyCoil',
		severity: 'caution',
		when: 'coilWeight > 50 * lb',
		text: 'The coil weighs {coilWeight}: not to be lifted by hand from a ladder. Plan the lift and keep clear below.',
		about: 'coilWeight',
		source: deferred,
		clears: 'Lifting gear rated for the load, and a plan.'
	},
	{
		code: 'workAtHeight',
		severity: 'caution',
		when: 'known(workHeight) && workHeight > shop.reachHeight',
		text: 'Work goes up to {workHeight} above the floor.',
		about: 'workHeight',
		source: deferred,
		clears: 'A platform or lift with fall protection by the local rules.'
	},
	{
		code: 'counterSillUnknown',
		severity: 'caution',
		when: 'sill == "counter" && !known(sillHeight)',
		text: 'A counter, and the height of its sill is not given: work height and lift time are left out.',
		about: 'workHeight',
		source: commonPractice,
		clears: 'Enter the sill height above the finished floor.'
	},
	{
		code: 'drillingDust',
		severity: 'note',
		when: 'substrateLeft == "concrete" || substrateRight == "concrete" || substrateLeft == "groutedBlock" || substrateRight == "groutedBlock" || substrateLeft == "hollowBlock" || substrateRight == "hollowBlock" || substrateLeft == "brick" || substrateRight == "brick"',
		text: 'Drilling into masonry or concrete makes silica dust: extraction at the bit and a respirator by the local rules.',
		about: 'anchorTotal',
		source: deferred,
		clears: 'Stays; it belongs to the work.'
	},
	{
		code: 'wayOut',
		severity: 'note',
		when: 'sill == "floor" && curtain.rowPart == "rod"',
		text: 'A grille down to the floor: if people leave through here, the local code says whether and how it may close.',
		about: 'clearWidth',
		source: deferred,
		clears: 'The word of the authority for ways out.'
	},
	{
		code: 'counterHeight',
		severity: 'note',
		when: 'sill == "counter" && known(sillHeight) && sillHeight > shop.counterHeight',
		text: 'Counter at {sillHeight}: higher than {shop.counterHeight}; access rules may ask for a lower part.',
		about: 'sillAboveFloor',
		source: deferred,
		clears: 'The local access rules.'
	},
	{
		code: 'floorStillToCome',
		severity: 'note',
		when: 'sill == "floor" && known(floorBuildUp) && floorBuildUp > 0',
		text: 'A floor finish of {floorBuildUp} is still to come: lengths are from the finished floor.',
		about: 'guideLength',
		source: commonPractice,
		clears: 'Measure from the datum, not from the slab.'
	},
	{
		code: 'turnedDrawing',
		severity: 'note',
		when: 'drawnFrom == "farSide"',
		text: 'The drawing is seen from the far side: left and right are turned, the drive is on the {driveAt} standing on the coil side.',
		about: 'driveAt',
		source: commonPractice,
		clears: 'Stays; check it against the order.'
	}
];

/** The same as rules, so that the rule book tests, computes and exports them. */
export function checkFlags(): RuleDefinition[] {
	return checkRules.map((check) => ({
		id: check.code,
		title: check.code,
		kind: 'flag',
		unit: '1',
		chapter: 9,
		sentence: check.text,
		formula: check.when,
		source: check.source
	}));
}
