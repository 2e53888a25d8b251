/**
 * Chapter 9: what would send a person back. A check is a rule too: a condition, and one sentence with the numbers in
 * it (`{headroom}` is the quantity with its unit). None of them approves anything.
 */
import type { RuleDefinition, Source } from '../../rulebook/definition.ts';
import { liftingEquation } from '../lifting-limit.ts';
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

const electrical: Source = {
	basis: 'published',
	text: 'NEC (NFPA 70) 2023, articles 240, 310 and 430; local codes and a licensed electrician decide.'
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
			code: 'guideDoesNotHoldSide',
			severity: 'stop' as const,
			when: 'known(useGuideSide) && useGuideSide > 1',
			text: 'The {side} guide: at {anchorPitchSide} apart its anchors are used to {useGuideSide} ({modeGuideSide}), and no spacing down to {spacingNeededSide} holds. Each pulls {tensionGuideSide} and shears {shearGuideSide}.',
			about: 'anchorsPerGuideSide',
			source: deferred,
			clears:
				'A larger or deeper anchor, a stronger wall, more edge distance, or steel that takes the guide to the structure.'
		},
		{
			code: 'bracketDoesNotHoldSide',
			severity: 'stop' as const,
			when: 'known(useBracketSide) && useBracketSide > 1',
			text: 'The {side} bracket: with {anchorsPerBracket} anchors they are used to {useBracketSide} ({modeBracketSide}), and no hole pattern of the bracket holds. Each pulls {tensionBracketSide} and shears {shearBracketSide}.',
			about: 'anchorsPerBracket',
			source: deferred,
			clears:
				'A larger or deeper anchor, a stronger wall, more edge distance, or steel that takes the bracket to the structure.'
		},
		{
			code: 'capacityUnknownSide',
			severity: 'stop' as const,
			when: 'anchorSide != "" && !(substrateSide.needsTestedReport == 1 && anchorSide.hasReport == 0) && known(loadPressure) && (!known(useGuideSide) || !known(useBracketSide))',
			text: 'What an anchor of {fixing} holds in {substrateSide} ({side} wall) can’t be reckoned: the shop book lacks a figure, or the anchor is not made for this wall.',
			about: 'useGuideSide',
			source: commonPractice,
			clears:
				'The reported pull-out or allowable loads of the anchor with the report’s number, the strength of the wall, or another fixing.'
		},
		{
			code: 'edgeTooCloseSide',
			severity: 'stop' as const,
			when: 'known(edgeNeededSide) && (edgeGuideSide < edgeNeededSide || edgeBracketSide < edgeNeededSide)',
			text: 'Anchors stand {edgeGuideSide} (guide) and {edgeBracketSide} (bracket) from the edge of the {side} wall; at least {edgeNeededSide} is needed.',
			about: 'edgeGuideSide',
			source: deferred,
			clears:
				'A guide with more setback or gauge, a smaller anchor, or steel that takes the load past the edge.'
		},
		{
			code: 'wallTooThinSide',
			severity: 'stop' as const,
			when: 'mountingSide == "faceOfWall" && known(thicknessNeededSide) && wallThicknessSide < thicknessNeededSide',
			text: 'The {side} wall is {wallThicknessSide} thick; the embedment of {anchorSide.embedment} needs {thicknessNeededSide}.',
			about: 'thicknessNeededSide',
			source: deferred,
			clears: 'A shorter anchor that holds, a bolt through the wall, or another wall to fix to.'
		},
		{
			code: 'plateBeyondRoomSide',
			severity: 'stop' as const,
			when: 'known(sideRoomSide) && known(plateReachSide) && sideRoomSide < plateReachSide',
			text: 'The wall plate of the {side} bracket reaches {plateReachSide} from the guide mouth, side room {side} is {sideRoomSide}.',
			about: 'plateReachSide',
			source: shop,
			clears: 'More side room, or a bracket with fewer columns of holes.'
		},
		{
			code: 'lagTooShortSide',
			severity: 'stop' as const,
			when: 'anchorSide.kind == "lagScrew" && anchorSide.embedment < lagPenetrationNeededSide',
			text: 'Lag screws have {anchorSide.embedment} of thread in the {side} wall; {lagPenetrationNeededSide} is the least for a load across them.',
			about: 'lagPenetrationNeededSide',
			source: deferred,
			clears: 'A deeper lag screw in the shop book.'
		},
		{
			code: 'guideEndTooCloseSide',
			severity: 'caution' as const,
			when: 'anchorSide.kind == "lagScrew" && known(woodEndNeededGuideSide) && guideSide.endDistance < woodEndNeededGuideSide',
			text: 'The first lag screw of the {side} guide stands {guideSide.endDistance} from its end; where the wood ends there too, {woodEndNeededGuideSide} is needed.',
			about: 'woodEndNeededGuideSide',
			source: deferred,
			clears: 'Wood that runs on past the guide, or a longer end distance.'
		},
		{
			code: 'noAnchorLengthSide',
			severity: 'stop' as const,
			when: 'anchorSide != "" && anchorStockSide == ""',
			text: 'No length of the anchor for the {side} wall reaches {anchorLengthNeededSide}: {throughSide} in the wall and {stackSide} that lies on it.',
			about: 'anchorLengthNeededSide',
			source: commonPractice,
			clears: 'A longer anchor in the shop book, fewer shims, or board and tile cut back to the structure.'
		},
		{
			code: 'wallAssumedSide',
			severity: 'note' as const,
			when: 'substrateSide != "" && (substrateSide == "concrete" || substrateSide == "groutedBlock") && !known(typedStrengthSide)',
			text: 'Strength of the {side} wall is not given; {wallStrengthSide} of the shop book is taken.',
			about: 'wallStrengthSide',
			source: commonPractice,
			clears: 'The strength from the drawings or a test.'
		},
		{
			code: 'finishUnderGuideSide',
			severity: 'caution' as const,
			when: 'known(finishBuildUp) && finishBuildUp > 0 && mountingSide == "faceOfWall"',
			text: 'Board or tile of {finishBuildUp} lies under the {side} guide: the anchor is longer by that, and bends in it.',
			about: 'stackSide',
			source: commonPractice,
			clears: 'Cut the finish back to the structure, or put a spacer under the guide that can carry it.'
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
		code: 'growthTight',
		severity: 'caution',
		when: 'curtainGrowth > growthRoom',
		text: 'From the coldest to the warmest the curtain grows {curtainGrowth}; the grooves leave {growthRoom}.',
		about: 'curtainGrowth',
		source: commonPractice,
		clears: 'A deeper groove or less engagement, or a curtain that grows less.'
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
		code: 'anchorNeedsReportHead',
		severity: 'stop',
		when: 'hoodSupports > 0 && anchorHead != "" && substrateHead.needsTestedReport == 1 && anchorHead.hasReport == 0',
		text: 'What an anchor holds in {headSubstrate} (over the head) only a tested report can say, and the shop book names none; the hood needs supports ({hoodSupports}).',
		about: 'hoodSupports',
		source: commonPractice,
		clears: 'An anchor with its report number in the shop book, or another wall to fix to.'
	},
	{
		code: 'noAnchorLengthHead',
		severity: 'stop',
		when: 'hoodSupports > 0 && anchorHead != "" && anchorStockHead == ""',
		text: 'No length of the anchor over the head reaches {anchorLengthNeededHead}.',
		about: 'anchorLengthNeededHead',
		source: commonPractice,
		clears: 'A longer anchor in the shop book, or board and tile cut back to the structure.'
	},
	{
		code: 'heldForMeasure',
		severity: 'stop',
		when: 'hold == "fieldMeasure"',
		text: 'Held for field measure: the size is not final.',
		about: 'openingWidth',
		source: commonPractice,
		clears: 'Measure the opening, enter what was measured and clear the hold.'
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
		code: 'windlockPullUnknown',
		severity: 'stop',
		when: 'exposure == "exterior" && curtain.windlocks == 1 && !known(windlockPull)',
		text: 'Exterior curtain with windlocks: what they pull on the guides is not given.',
		about: 'guidePull',
		source: deferred,
		clears: 'The engineer’s figure for the pull along a guide.'
	},
	{
		code: 'springsCannotBalance',
		severity: 'stop',
		when: 'handOperated && !known(springRate)',
		text: 'Torque is {closedTorque} closed and {openTorque} open: springs can’t balance a curtain whose torque does not fall as it rises.',
		about: 'springRate',
		source: commonPractice,
		clears:
			'A curtain of another weight or wrap, a heavier bottom bar where the open torque is negative, or a tube motor.'
	},
	{
		code: 'springFitsNowhere',
		severity: 'stop',
		when: 'handOperated && known(springRate) && springSet == ""',
		text: 'No spring of the shop book, up to {shop.mostSprings} on one shaft, gives {springRate} a turn over {springWoundTurns} turns for {shop.springCycles} cycles in a bore of {barrel.bore}, {bracketDistance} long. Hand force is not reckoned.',
		about: 'springSet',
		source: shop,
		clears: 'Other wire in the shop book, a larger barrel, a lighter curtain, or a tube motor.'
	},
	{
		code: 'handForceTooMuch',
		severity: 'stop',
		when: 'known(handForce) && handForce > shop.handForceLimit',
		text: 'Raising it takes {handForce} by hand at {handForceAt} above the sill ({handForceBeforeFriction} before friction); the limit is {shop.handForceLimit}.',
		about: 'handForce',
		source: shop,
		clears: 'A side-mounted geared operator, more gearing, or a tube motor.'
	},
	{
		code: 'storedEnergy',
		severity: 'caution',
		when: 'handOperated',
		text: 'Wound springs store energy that can kill (bar on the sill: {springEnergy}).',
		about: 'springWoundTurns',
		source: deferred,
		clears:
			'Winding and letting down only by trained people with the proper bars; the spring maker confirms the design.'
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
		code: 'supplyNotInTable',
		severity: 'caution',
		when: 'motorised && known(supplyVoltage) && !known(fullLoadCurrent)',
		text: 'The code’s table of single-phase motor currents has no column for {supplyVoltage}: the circuit is not reckoned.',
		about: 'fullLoadCurrent',
		source: electrical,
		clears: 'A supply of 110 to 120, 200, 208 or 220 to 240 V, or the electrician’s own figures.'
	},
	{
		code: 'noConductor',
		severity: 'caution',
		when: 'motorised && known(fullLoadCurrent) && conductor == ""',
		text: 'No copper conductor of the table carries {conductorAmpacityNeeded} over {feedLength} within the voltage drop of the shop book.',
		about: 'conductor',
		source: electrical,
		clears: 'A shorter feed, a higher voltage, or the electrician’s own conductor.'
	},
	{
		code: 'noBreaker',
		severity: 'caution',
		when: 'motorised && known(fullLoadCurrent) && breaker == ""',
		text: 'No standard breaker of the table reaches {breakerMost}.',
		about: 'breaker',
		source: electrical,
		clears: 'The electrician’s own protection.'
	},
	{
		code: 'feedLengthUnknown',
		severity: 'caution',
		when: 'motorised && known(fullLoadCurrent) && !known(feedLength)',
		text: 'The feed length is not given: {conductor} AWG carries the current, the voltage drop is not reckoned.',
		about: 'voltageDrop',
		source: electrical,
		clears: 'Panel to opening along the cable.'
	},
	{
		code: 'circuit',
		severity: 'note',
		when: 'motorised && known(fullLoadCurrent) && conductor != "" && breaker != ""',
		text: 'Motor of {motorSize} hp at {supplyVoltage}: {fullLoadCurrent}, copper {conductor} AWG, breaker {breaker} A (above the wire’s usual one is allowed for a motor), disconnect in sight within {disconnectWithin}. For a licensed electrician to confirm.',
		about: 'fullLoadCurrent',
		source: electrical,
		clears: 'Stays; a licensed electrician confirms and connects.'
	},
	{
		code: 'runIn',
		severity: 'note',
		when: 'motorised && known(runInParts)',
		text: 'Run in {shop.runInCycles} full cycles, {runInTime} of running. The motor runs {drive.thermalMinutes} before its cut-out opens; parts with a rest between them: {runInParts}.',
		about: 'runInParts',
		source: commonPractice,
		clears: 'Stays; signed for at handover.'
	},
	{
		code: 'travelLimits',
		severity: 'note',
		when: 'motorised',
		text: 'Set the limits in single small steps within the last {shop.limitApproach} before sill and head. The stop on the brackets never stops the bar.',
		about: 'driveTurns',
		source: commonPractice,
		clears: 'Stays; signed for at handover.'
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
		when: '!known(liftTo) && coilWeight > 50 * lb',
		text: 'The coil weighs {coilWeight}, and how high it goes is not given: no lift is named. Not by hand from a ladder.',
		about: 'coilWeight',
		source: deferred,
		clears: 'The height of the sill above the finished floor.'
	},
	{
		code: 'byHand',
		severity: 'note',
		when: 'byHandAllowed',
		text: 'The coil weighs {coilWeight}; one person standing on the floor with both hands may lift {handLiftLimit} there. From a ladder, one-handed or by several people together that limit does not apply: then by a lift.',
		about: 'handLiftLimit',
		source: liftingEquation,
		clears: 'Stays; it belongs to the work.'
	},
	{
		code: 'liftNeeded',
		severity: 'caution',
		when: 'known(liftTo) && !byHandAllowed && lift != ""',
		text: 'The coil weighs {coilWeight} and goes up to {liftTo}. The limit by hand is {handLiftLimit}, and it does not apply from a ladder, one-handed or for several people together: lift it with {lift} and keep clear below.',
		about: 'lift',
		source: liftingEquation,
		clears: 'Lifting gear rated for the load, a trained operator, and a plan.'
	},
	{
		code: 'noLift',
		severity: 'stop',
		when: 'known(liftTo) && !byHandAllowed && lift == ""',
		text: 'No lift of the shop book carries {coilWeight} up to {liftTo}, and the limit by hand is {handLiftLimit}.',
		about: 'lift',
		source: shop,
		clears: 'A lift with the capacity and the reach in the shop book.'
	},
	{
		code: 'heavyPieces',
		severity: 'caution',
		when: 'heaviestGuide > 51 * lb || hoodPieceWeight > 51 * lb',
		text: 'A guide weighs up to {heaviestGuide}, a hood piece {hoodPieceWeight}: the best lift there is allows one person 51 lb.',
		about: 'heaviestGuide',
		source: liftingEquation,
		clears: 'A lift, or pieces that are joined in place.'
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
		text: 'A counter, and the height of its sill is not given: work height, lift and hand limit are left out.',
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
