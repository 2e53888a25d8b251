/** Chapter 4: what pulls at guides and brackets, and how many anchors hold it. The standards stand in files of their own. */
import type { Source } from '../../rulebook/definition.ts';
import { arithmetic, byPlace, bySide, chapter, commonPractice, definition, shop } from './rule.ts';

const statics: Source = { basis: 'definition', text: 'Statics: forces and moments in balance.' };

const combinations: Source = {
	basis: 'fromMemory',
	text: 'ASCE 7-16, 2.3.1 and 2.4.1, load combinations; from memory. The factors are in the shop book.'
};

const bendingSteel: Source = { basis: 'fromMemory', text: 'ASTM A36: Fu = 58 ksi; from memory.' };

/** What a standard gives, by how the anchor holds and what it is in. */
const byStandard = (name: (standard: string) => string, nothing: string): string =>
	`if(anchorSide.kind == "lagScrew", ${name('wood')}, if(anchorSide.kind == "selfDrillingScrew", ${name('screw')}, if(anchorSide.kind == "throughBolt", ${name('bolt')}, if(anchorSide.kind == "reported", ${name('report')}, if(substrateSide == "concrete", ${name('concrete')}, if(substrateSide == "groutedBlock", ${name('masonry')}, ${nothing}))))))`;

// prettier-ignore
export const holdingRules = chapter(4, [
	{ id: 'motorised', title: 'Driven by a motor', unit: '1', kind: 'flag', formula: 'operation == "tubeMotor"', sentence: 'There is a circuit to reckon.', source: definition },
	{ id: 'handOperated', title: 'Operated by hand', unit: '1', kind: 'flag', formula: 'operation != "tubeMotor"', sentence: 'There are springs to reckon.', source: definition },
	{ id: 'loadPressure', title: 'Pressure on the curtain', unit: 'psf', formula: 'if(exposure == "exterior", designPressure, if(known(designPressure), max(designPressure, shop.interiorPressure), shop.interiorPressure))', sentence: 'Outside the engineer’s figure, at allowable level; inside at least the code’s minimum for partitions.', source: { basis: 'fromMemory', text: 'IBC 2021, 1607.15, interior partitions: 5 psf; from memory. The figure is in the shop book.' } },
	{ id: 'pressureFactor', title: 'Load factor of the pressure', unit: '1', formula: 'if(exposure == "exterior", shop.factorWind, shop.factorLive)', sentence: 'From allowable to strength level.', source: combinations },
	{ id: 'pressureDuration', title: 'Load duration of the pressure', unit: '1', formula: 'if(exposure == "exterior", shop.durationWind, shop.durationLive)', sentence: 'C_D of wood.', source: { basis: 'published', text: 'NDS 2018, Table 2.3.2: dead 0.9, live 1.0, wind 1.6.' } },
	{ id: 'guideLineLoad', title: 'Pressure along a guide', unit: 'lb/ft', formula: 'loadPressure * curtainWidth / 2', sentence: 'Each guide carries half the width.', source: statics },
	{ id: 'guidePull', title: 'Windlocks along a guide', unit: 'lb/ft', formula: 'if(known(windlockPull), windlockPull, 0 * lb / ft)', sentence: 'What windlocks pull towards the opening, the engineer’s figure; a curtain without them pulls nothing.', source: commonPractice },
	{ id: 'heldTorque', title: 'Torque held at the drive', unit: 'lb-ft', formula: 'if(operation == "tubeMotor", max(peakTorque, drive.stallTorque), peakTorque)', sentence: 'The larger of what the curtain pulls and what the motor gives when it stalls; by hand what the curtain pulls.', source: commonPractice },
	...bySide([
		{ id: 'deadLoadSide', title: 'Dead load, bracket {side}', unit: 'lb', formula: '(barrelWeight + curtainWeight + if(known(springWeight), springWeight, 0 * lb) + bracketWeight + hoodWeight) / 2 + if(driveAt == "side", driveWeight, 0 * lb)', sentence: 'Half of barrel, curtain, springs, brackets and hood; the drive hangs on its side alone.', source: statics },
		{ id: 'torqueSide', title: 'Torque, bracket {side}', unit: 'lb-ft', formula: 'if(driveAt == "side", heldTorque, 0 * lb * ft)', sentence: 'Only the drive’s bracket holds the torque.', source: statics },
		{ id: 'armMomentSide', title: 'Moment of the dead load, bracket {side}', unit: 'lb-ft', formula: 'deadLoadSide * wallToBarrelCentre', sentence: 'Dead load at its arm from the wall.', source: statics },
		{ id: 'bracketMomentSide', title: 'Moment on the wall, bracket {side}', unit: 'lb-ft', formula: 'if(mountingSide != "faceOfWall", 0 * lb * ft, if(guideSide.curtainLeaves == "front", armMomentSide + torqueSide, max(armMomentSide, torqueSide - 0.6 * armMomentSide)))', sentence: 'A curtain leaving the coil at the front adds its torque; on the wall side it subtracts, and the moment may turn over when the motor stalls: the worse of both.', source: combinations },
		{ id: 'factoredMomentSide', title: 'Moment on the wall at strength level, bracket {side}', unit: 'lb-ft', formula: 'if(mountingSide != "faceOfWall", 0 * lb * ft, max(shop.factorDeadAlone * armMomentSide, if(guideSide.curtainLeaves == "front", shop.factorDead * armMomentSide + shop.factorLive * torqueSide, shop.factorLive * torqueSide - 0.9 * armMomentSide)))', sentence: 'The same with load factors; where dead load helps, nine tenths of it.', source: combinations },
		{ id: 'patternInertiaSide', title: 'Polar sum of the pattern {side}', unit: 'in2', formula: 'anchorsPerBracket * (square(acrossBracketSide) * (square(holePattern.columns) - 1) / 12 + square(alongBracketSide) / 4)', sentence: 'Sum of the squared distances of the anchors from the middle of the pattern.', source: arithmetic },
		{ id: 'guideWeightSide', title: 'Weight of the guide {side}', unit: 'lb', formula: 'guideSide.weight * guideLength', sentence: 'It hangs on its anchors.', source: shop },

		{ id: 'tensionGuideSide', title: 'Tension, anchor of the {side} guide', unit: 'lb', formula: 'if(mountingSide == "faceOfWall", guideLineLoad * anchorPitchSide * (guideSide.pryingArm + guideSide.heel) / guideSide.heel, guidePull * anchorPitchSide)', sentence: 'On the face of the wall the curtain pulls beside the line of anchors and the leg turns about its heel: prying adds to the load. Between jambs only windlocks pull.', source: statics },
		{ id: 'shearGuideSide', title: 'Shear, anchor of the {side} guide', unit: 'lb', formula: 'sqrt(square(guideWeightSide / anchorsPerGuideSide) + square(if(mountingSide == "faceOfWall", guidePull, guideLineLoad) * anchorPitchSide))', sentence: 'Weight of the guide down; across it the pressure between jambs, windlocks on the face of the wall.', source: statics },
		{ id: 'factoredTensionGuideSide', title: 'Tension at strength level, anchor of the {side} guide', unit: 'lb', formula: 'pressureFactor * tensionGuideSide', sentence: 'With the load factor of the pressure.', source: combinations },
		{ id: 'factoredShearGuideSide', title: 'Shear at strength level, anchor of the {side} guide', unit: 'lb', formula: 'pressureFactor * shearGuideSide', sentence: 'With the load factor of the pressure.', source: combinations }
	]),
	{ id: 'bracketLever', title: 'Lever arm of the pulling anchors', unit: 'in', formula: 'bracketSize - bracket.holeEdge', sentence: 'From the edge of the plate that presses to the row at the other edge that pulls; the row in between is not counted on.', source: statics },
	...bySide([
		{ id: 'tensionBracketSide', title: 'Tension, anchor of the {side} bracket', unit: 'lb', formula: 'bracketMomentSide / (bracketLever * holePattern.columns)', sentence: 'The moment over the lever arm, shared by the anchors of one row.', source: statics },
		{ id: 'shearBracketSide', title: 'Shear, anchor of the {side} bracket', unit: 'lb', formula: 'if(mountingSide == "faceOfWall", deadLoadSide / anchorsPerBracket, sqrt(square(deadLoadSide / anchorsPerBracket + torqueSide * acrossBracketSide * (holePattern.columns - 1) / 2 / patternInertiaSide) + square(torqueSide * alongBracketSide / 2 / patternInertiaSide)))', sentence: 'Dead load shared by all; between jambs the torque turns the plate on its wall, and the outermost anchor takes most.', source: statics },
		{ id: 'factoredTensionBracketSide', title: 'Tension at strength level, anchor of the {side} bracket', unit: 'lb', formula: 'factoredMomentSide / (bracketLever * holePattern.columns)', sentence: 'The moment at strength level over the lever arm, shared by the anchors of one row.', source: combinations },
		{ id: 'factoredShearBracketSide', title: 'Shear at strength level, anchor of the {side} bracket', unit: 'lb', formula: 'if(mountingSide == "faceOfWall", shop.factorDeadAlone, shop.factorLive) * shearBracketSide', sentence: 'Dead load alone on the face of the wall; between jambs the torque with it.', source: combinations },

		{ id: 'edgeGuideSide', title: 'Edge distance, {side} guide', unit: 'in', formula: 'if(mountingSide == "faceOfWall", guideSide.setback + guideSide.anchorGauge, if(acrossWallSide, min(guideSide.anchorGauge, wallThicknessSide - guideSide.anchorGauge), guideSide.anchorGauge))', sentence: 'On the face of the wall from the jamb: setback and gauge. Between jambs to the nearer face of the wall.', source: arithmetic },
		{ id: 'acrossWallSide', title: 'Anchors stand in the thickness {side}', unit: '1', kind: 'flag' as const, formula: 'anchorSide.kind != "throughBolt" && anchorSide.kind != "selfDrillingScrew"', sentence: 'Between jambs an anchor in a solid wall has both faces of the wall beside it.', source: definition },
		{ id: 'edgeBracketSide', title: 'Edge distance, {side} bracket', unit: 'in', formula: 'if(mountingSide == "faceOfWall", guideSide.setback + guideSide.offset + bracket.holeGauge, if(acrossWallSide, min(bracket.holeGauge, wallThicknessSide - bracket.holeGauge - acrossBracketSide * (columnsBracketSide - 1)), bracket.holeGauge))', sentence: 'On the face of the wall from the jamb: setback, offset and hole gauge. Between jambs to the nearer face of the wall.', source: arithmetic },
		{ id: 'plateReachSide', title: 'Wall plate reaches {side}', unit: 'in', formula: 'if(mountingSide == "faceOfWall", guideSide.offset + bracket.holeGauge + acrossBracketSide * (columnsBracketSide - 1) + bracket.holeEdge, unknown)', sentence: 'From the guide mouth outwards, to the edge of the plate beyond the last column of holes.', source: arithmetic },
		{ id: 'columnsGuideSide', title: 'Columns of anchors, {side} guide', unit: '1', kind: 'count' as const, formula: '1', sentence: 'One line.', source: definition },
		{ id: 'acrossGuideSide', title: 'Columns apart, {side} guide', unit: 'in', formula: '0 * inch', sentence: 'There is one line only.', source: definition },
		{ id: 'alongGuideSide', title: 'Anchors apart, {side} guide', unit: 'in', formula: 'anchorPitchSide', sentence: 'Along the edge of the wall.', source: definition },
		{ id: 'columnsBracketSide', title: 'Columns of anchors, {side} bracket', unit: '1', kind: 'count' as const, formula: 'holePattern.columns', sentence: 'Away from the edge of the wall.', source: shop },
		{ id: 'acrossBracketSide', title: 'Columns apart, {side} bracket', unit: 'in', formula: 'bracket.holeAcross', sentence: 'Away from the edge of the wall.', source: shop },
		{ id: 'alongBracketSide', title: 'Rows apart, {side} bracket', unit: 'in', formula: 'bracketSize - 2 * bracket.holeEdge', sentence: 'Along the edge of the wall.', source: shop },
		{ id: 'legGuideSide', title: 'Under the head, {side} guide', unit: 'in', formula: 'guideSide.legThickness', sentence: 'Leg of the guide.', source: shop },
		{ id: 'legBracketSide', title: 'Under the head, {side} bracket', unit: 'in', formula: 'shop.plateThickness', sentence: 'Wall plate.', source: shop },
		{ id: 'legStrengthGuideSide', title: 'Tensile strength under the head, {side} guide', unit: 'psi', formula: 'guideSide.legStrength', sentence: 'Leg of the guide.', source: shop },
		{ id: 'legStrengthBracketSide', title: 'Tensile strength under the head, {side} bracket', unit: 'psi', formula: '58000 * psi', sentence: 'Wall plate of A36 steel.', source: bendingSteel },
		{ id: 'towardsEdgeGuideSide', title: 'Shear towards the edge, {side} guide', unit: '1', kind: 'flag' as const, formula: 'mountingSide == "betweenJambs" || guidePull > 0 * lb / ft', sentence: 'Weight runs along the edge; pressure between jambs and windlocks push towards it.', source: statics },
		{ id: 'towardsEdgeBracketSide', title: 'Shear towards the edge, {side} bracket', unit: '1', kind: 'flag' as const, formula: 'mountingSide == "betweenJambs" && driveAt == "side"', sentence: 'Weight runs along the edge; torque in the plane of the plate pushes every way.', source: statics },
		{ id: 'acrossGrainGuideSide', title: 'Shear across the grain, {side} guide', unit: '1', kind: 'flag' as const, formula: 'towardsEdgeGuideSide', sentence: 'The grain of a jamb stands upright.', source: commonPractice },
		{ id: 'acrossGrainBracketSide', title: 'Shear across the grain, {side} bracket', unit: '1', kind: 'flag' as const, formula: 'towardsEdgeBracketSide', sentence: 'The grain of a jamb stands upright.', source: commonPractice },
		{ id: 'durationGuideSide', title: 'Load duration, {side} guide', unit: '1', formula: 'pressureDuration', sentence: 'The pressure governs.', source: shop },
		{ id: 'durationBracketSide', title: 'Load duration, {side} bracket', unit: '1', formula: 'shop.durationDead', sentence: 'Dead load is always there.', source: shop }
	]),
	...byPlace([
		{ id: 'reportUsePlaceSide', title: 'Use by the report, {side} {place}', unit: '1', formula: 'if(anchorSide.kind == "reported" && anchorSide.hasReport == 1 && anchorSide.allowableTension > 0 * lb && anchorSide.allowableShear > 0 * lb, tensionPlaceSide / anchorSide.allowableTension + shearPlaceSide / anchorSide.allowableShear, unknown)', sentence: 'Allowable loads of the tested report, added up straight.', source: commonPractice },
		{ id: 'reportModePlaceSide', title: 'Governs by the report, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: 'if(tensionPlaceSide > 0 * lb && shearPlaceSide > 0 * lb, "reportCombined", if(tensionPlaceSide > 0 * lb, "reportTension", "reportShear"))', sentence: 'A report gives loads, not what breaks.', source: commonPractice },
		{ id: 'usePlaceSide', title: 'Use of the anchors, {side} {place}', unit: '1', formula: byStandard((standard) => `${standard}UsePlaceSide`, 'unknown'), sentence: 'Load over capacity of the anchor that has most to carry; 1 is full.', source: commonPractice },
		{ id: 'modePlaceSide', title: 'Governs, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: `if(known(usePlaceSide), ${byStandard((standard) => `${standard}ModePlaceSide`, 'concreteModePlaceSide')}, "")`, sentence: 'What would give way first.', source: commonPractice }
	]),
	...bySide([
		{ id: 'reportEdgeNeededSide', title: 'Edge distance by the report {side}', unit: 'in', formula: 'if(anchorSide.leastEdge > 0 * inch, anchorSide.leastEdge, 6 * anchorSide.diameter)', sentence: 'The report’s, or six diameters.', source: commonPractice },
		{ id: 'reportSpacingNeededSide', title: 'Spacing by the report {side}', unit: 'in', formula: 'if(anchorSide.leastSpacing > 0 * inch, anchorSide.leastSpacing, shop.leastSpacingDiameters * anchorSide.diameter)', sentence: 'The report’s, or the shop’s diameters.', source: commonPractice },
		{ id: 'edgeNeededSide', title: 'Least edge distance {side}', unit: 'in', formula: byStandard((standard) => `${standard}EdgeNeededSide`, 'unknown'), sentence: 'Nearer than this the wall splits or spalls.', source: commonPractice },
		{ id: 'spacingNeededSide', title: 'Least spacing {side}', unit: 'in', formula: byStandard((standard) => `${standard}SpacingNeededSide`, 'unknown'), sentence: 'Closer than this anchors weaken one another.', source: commonPractice },
		{ id: 'thicknessNeededSide', title: 'Least wall thickness {side}', unit: 'in', formula: 'if(anchorSide.kind == "lagScrew", woodThicknessNeededSide, if(anchorSide.kind == "castIn" || anchorSide.kind == "postInstalled", if(substrateSide == "concrete", concreteThicknessNeededSide, masonryThicknessNeededSide), if(anchorSide.kind == "reported", anchorSide.embedment, 0 * inch)))', sentence: 'For the embedment of the anchor.', source: commonPractice },

		{ id: 'anchorsBySpacingSide', title: 'Anchors by spacing, guide {side}', unit: '1', kind: 'count' as const, formula: 'max(2, ceil((guideLength - 2 * guideSide.endDistance) / substrateSide.anchorSpacing) + 1)', sentence: 'From end distance to end distance at no more than the wall’s spacing, never fewer than two.', source: shop },
		{ id: 'anchorsMostSide', title: 'Most anchors, guide {side}', unit: '1', kind: 'count' as const, formula: 'if(known(spacingNeededSide) && spacingNeededSide > 0 * inch, max(2, floor((guideLength - 2 * guideSide.endDistance) / spacingNeededSide) + 1), anchorsBySpacingSide)', sentence: 'At the least spacing.', source: arithmetic },
		{ id: 'anchorPitchSide', title: 'Anchor spacing, guide {side}', unit: 'in', formula: '(guideLength - 2 * guideSide.endDistance) / (anchorsPerGuideSide - 1)', sentence: 'The anchors stand equally apart.', source: definition },
		{ id: 'guideHoldsSide', title: 'Guide holds {side}', unit: '1', kind: 'flag' as const, formula: 'useGuideSide <= 1', sentence: 'Tested for every number of anchors.', source: commonPractice },
		{ id: 'anchorsSide', title: 'Anchors in the {side} wall', unit: '1', kind: 'count' as const, formula: 'anchorsPerGuideSide + anchorsPerBracket', sentence: 'Guide and bracket together.', source: definition },
		{ id: 'bitsSide', title: 'Bits used, {side} wall', unit: '1', formula: 'if(anchorSide.holesPerBit > 0, anchorsSide / anchorSide.holesPerBit, 0)', sentence: 'Holes over the holes one bit drills.', source: shop }
	]),
	{ id: 'patternFits', title: 'Pattern is on the bracket', unit: '1', kind: 'flag', formula: 'anchorsPerBracket >= bracket.anchors && anchorsPerBracket <= bracket.mostAnchors', sentence: 'No fewer than the bracket’s own, no more than it has holes for.', source: shop },
	{ id: 'patternIsLargest', title: 'Largest pattern of the bracket', unit: '1', kind: 'flag', formula: 'anchorsPerBracket >= bracket.anchors && anchorsPerBracket == bracket.mostAnchors && known(useBracketLeft) && known(useBracketRight)', sentence: 'All holes used.', source: shop },
	{ id: 'bracketsHold', title: 'Brackets hold', unit: '1', kind: 'flag', formula: 'patternFits && useBracketLeft <= 1 && useBracketRight <= 1', sentence: 'Tested for every hole pattern; both brackets of a pair take the same.', source: commonPractice },
	{ id: 'anchorsPerBracket', title: 'Anchors per bracket', unit: '1', kind: 'count', formula: '2 * holePattern.columns', sentence: 'Two rows of the hole pattern.', source: shop },
	{ id: 'guideAnchors', title: 'Anchors in both guides', unit: '1', kind: 'count', formula: 'anchorsPerGuideLeft + anchorsPerGuideRight', sentence: 'Left and right together.', source: definition },
	{ id: 'bracketAnchors', title: 'Anchors in both brackets', unit: '1', kind: 'count', formula: '2 * anchorsPerBracket', sentence: 'Left and right together.', source: definition },
	{ id: 'anchorTotal', title: 'Anchors', unit: '1', kind: 'count', formula: 'guideAnchors + bracketAnchors', sentence: 'Guides and brackets; those of hood supports are counted apart.', source: definition },
	{ id: 'guideAnchorMinutes', title: 'Time for guide anchors', unit: 'min', formula: 'anchorsPerGuideLeft * substrateLeft.anchorMinutes + anchorsPerGuideRight * substrateRight.anchorMinutes', sentence: 'Crew-minutes by the wall each stands in.', source: shop },
	{ id: 'bracketAnchorMinutes', title: 'Time for bracket anchors', unit: 'min', formula: 'anchorsPerBracket * (substrateLeft.anchorMinutes + substrateRight.anchorMinutes)', sentence: 'Crew-minutes by the wall each stands in.', source: shop },
	{ id: 'twoPartGuideLength', title: 'Two-part guide to assemble', unit: 'ft', formula: 'if(guideLeft.parts >= 2, guideLength, 0) + if(guideRight.parts >= 2, guideLength, 0)', sentence: 'Guides that come in two parts.', source: definition }
]);
