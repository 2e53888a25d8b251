/** Chapter 2: where everything goes, how long the curtain is, and how thick its coil. */
import { arithmetic, bySide, chapter, commonPractice, definition, published, shop } from './rule.ts';

const spiral = published(
	'Mean-diameter form of the Archimedean spiral, L = π(D² − d²)/4t; within 0.1 % of the exact length for coils of three turns and more.'
);

// prettier-ignore
export const geometryRules = chapter(2, [
	...bySide([
		{ id: 'wallOffsetSide', title: 'Guide mouth {side} of the jamb', unit: 'in', formula: 'if(mountingSide == "faceOfWall", guideSide.setback, -guideSide.projection)', sentence: 'On the face of the wall the mouth stands behind the jamb by the setback; between jambs it stands before it by the projection.', source: shop }
	]),
	{ id: 'guideDistance', title: 'Guide distance', unit: 'in', formula: 'openingWidth + wallOffsetLeft + wallOffsetRight', sentence: 'Mouth to mouth: what the guides are set to.', source: definition },
	{ id: 'curtainWidth', title: 'Curtain width', unit: 'in', formula: 'guideDistance + guideLeft.engagement + guideRight.engagement', sentence: 'The curtain reaches into both guides by their engagement.', source: definition },
	{ id: 'heldLeft', title: 'Held left, shoved right', unit: 'in', formula: 'guideLeft.engagement + guideRight.engagement - guideRight.groove', sentence: 'Engagement left over on the left when the curtain is shoved to the bottom of the right groove.', source: arithmetic },
	{ id: 'heldRight', title: 'Held right, shoved left', unit: 'in', formula: 'guideRight.engagement + guideLeft.engagement - guideLeft.groove', sentence: 'Engagement left over on the right when the curtain is shoved to the bottom of the left groove.', source: arithmetic },
	{ id: 'curtainGrowth', title: 'Curtain growth', unit: 'in', formula: 'curtain.expansion * curtainWidth * if(exposure == "exterior", shop.temperatureRangeExterior, shop.temperatureRangeInterior)', sentence: 'How much wider it gets from the coldest to the warmest: α·L·ΔT.', source: { basis: 'fromMemory', text: 'Handbook coefficients of expansion for one °F: carbon steel 6.5, stainless 9.6, aluminium 13 millionths; from memory.' } },
	{ id: 'growthRoom', title: 'Room to grow', unit: 'in', formula: 'guideLeft.groove - guideLeft.engagement + guideRight.groove - guideRight.engagement', sentence: 'Left in both grooves with the curtain in the middle.', source: arithmetic },
	{ id: 'bracketDistance', title: 'Bracket distance', unit: 'in', formula: 'guideDistance + guideLeft.offset + guideRight.offset', sentence: 'The span of the barrel, bracket to bracket.', source: definition },
	{ id: 'clearWidth', title: 'Clear width', unit: 'in', formula: 'min(openingWidth, guideDistance)', sentence: 'What stays free to walk or reach through.', source: definition },
	{ id: 'clearHeight', title: 'Clear height', unit: 'in', formula: 'openingHeight', sentence: 'Between jambs the height is what stays clear below the coil.', source: definition },
	{ id: 'extension', title: 'Guide above head', unit: 'in', formula: 'max(guideLeft.extension, guideRight.extension)', sentence: 'Both brackets stand at one level, so the longer extension serves both sides.', source: commonPractice },
	{ id: 'guideLength', title: 'Guide length', unit: 'in', formula: 'openingHeight + extension', sentence: 'From the finished sill to the underside of the bracket.', source: definition },
	{ id: 'bracketSize', title: 'Bracket size', unit: 'in', formula: 'bracket.size', sentence: 'The bracket the search chose: the smallest that takes the coil with its clearance.', source: shop },
	{ id: 'throat', title: 'Throat', unit: 'in', formula: 'extension + bracketSize / 2', sentence: 'Head of the opening to the centre of the barrel.', source: definition },
	{ id: 'requiredHeadroom', title: 'Headroom needed', unit: 'in', formula: 'extension + bracketSize + shop.headAccess', sentence: 'Guide above the head, bracket, and room to get at it.', source: shop },
	...bySide([
		{ id: 'requiredSideRoomSide', title: 'Side room needed {side}', unit: 'in', formula: 'guideSide.offset + shop.plateThickness + shop.sideAccess + if(driveAt == "side", operator.overhang, 0)', sentence: 'From the guide mouth outwards: bracket, plate and access, and on the drive side what the drive adds.', source: shop },
		{ id: 'betweenRoomSide', title: 'Room left to the jamb {side}', unit: 'in', formula: 'if(mountingSide == "betweenJambs", guideSide.projection - guideSide.offset - shop.plateThickness - shop.betweenShim - if(driveAt == "side", operator.overhang, 0), unknown)', sentence: 'Between jambs bracket, plate, shims and drive must fit between mouth and jamb.', source: arithmetic },
		{ id: 'betweenLackSide', title: 'Too wide for the projection {side}', unit: 'in', formula: 'if(known(betweenRoomSide), max(0, -betweenRoomSide), unknown)', sentence: 'What bracket, plate, shims and drive are wider than mouth to jamb.', source: arithmetic }
	]),
	{ id: 'requiredFrontRoom', title: 'Front room needed', unit: 'in', formula: 'bracketSize + shop.frontClearance', sentence: 'The bracket stands off the wall by its size.', source: shop },
	{ id: 'wallToBarrelCentre', title: 'Wall to barrel centre', unit: 'in', formula: 'bracketSize / 2', sentence: 'The barrel sits in the middle of the bracket.', source: shop },
	{ id: 'firstTurn', title: 'First turn, centreline', unit: 'in', formula: 'barrel.outsideDiameter + curtain.wrap', sentence: 'Diameter of the first turn’s centreline on the barrel.', source: arithmetic },
	{ id: 'hangingLength', title: 'Hanging, closed', unit: 'in', formula: 'openingHeight + throat - curtain.barHeight', sentence: 'Curtain from the barrel to the top of the bottom bar, bar on the sill.', source: definition },
	{ id: 'holdLength', title: 'Hold turns', unit: 'in', formula: 'pi * curtain.holdTurns * (firstTurn + curtain.holdTurns * curtain.wrap)', sentence: 'Curtain that stays on the barrel when closed, so that its fastening never carries the weight.', source: commonPractice },
	{ id: 'curtainRows', title: 'Curtain rows', unit: '1', kind: 'count', formula: 'ceil((hangingLength + holdLength) / curtain.pitch)', sentence: 'Whole rows; what rounding up adds stays on the barrel.', source: commonPractice },
	{ id: 'curtainLength', title: 'Curtain length', unit: 'in', formula: 'curtainRows * curtain.pitch', sentence: 'Without the bottom bar.', source: definition },
	{ id: 'woundLengthClosed', title: 'Wound, closed', unit: 'in', formula: 'curtainLength - hangingLength', sentence: 'On the barrel with the bar on the sill.', source: arithmetic },
	{ id: 'woundLength', title: 'Wound, open', unit: 'in', formula: 'curtainLength - (throat - curtain.barHeight)', sentence: 'On the barrel with the bar at the head.', source: arithmetic },
	{ id: 'coilDiameterClosed', title: 'Coil centreline, closed', unit: 'in', formula: 'sqrt(square(firstTurn) + 4 * curtain.wrap * woundLengthClosed / pi)', sentence: 'Centreline of the outer turn with the bar on the sill.', source: spiral },
	{ id: 'coilDiameter', title: 'Coil centreline, open', unit: 'in', formula: 'sqrt(square(firstTurn) + 4 * curtain.wrap * woundLength / pi)', sentence: 'Centreline of the outer turn with the bar at the head.', source: spiral },
	{ id: 'exactWoundLength', title: 'Wound, open, exact spiral', unit: 'in', formula: 'spiralLength(firstTurn, coilDiameter, curtain.wrap)', sentence: 'The exact Archimedean length of the same coil, to check the closed form by.', source: published('Arc length of the Archimedean spiral (calculus).') },
	{ id: 'swingDiameter', title: 'Swing diameter', unit: 'in', formula: 'coilDiameter + curtain.wrap', sentence: 'Outside of the coil when open.', source: definition },
	{ id: 'bracketNeeded', title: 'Bracket needed', unit: 'in', formula: 'swingDiameter + 2 * shop.coilClearance', sentence: 'The coil with its clearance on both sides.', source: shop },
	{ id: 'bracketFits', title: 'Coil fits the bracket', unit: '1', kind: 'flag', formula: 'bracketSize >= bracketNeeded', sentence: 'Tested by the search for every bracket.', source: shop },
	{ id: 'curtainArea', title: 'Curtain area', unit: 'ft2', formula: 'curtainWidth * curtainLength', sentence: 'What is bought.', source: definition },
	{ id: 'openingArea', title: 'Opening area', unit: 'ft2', formula: 'openingWidth * openingHeight', sentence: 'What is seen.', source: definition },
	{ id: 'runWeight', title: 'Curtain per length', unit: 'lb/ft', formula: 'curtain.weight * curtainWidth', sentence: 'Weight of the curtain for each length of travel.', source: arithmetic },
	{ id: 'sheetWeight', title: 'Curtain without bar', unit: 'lb', formula: 'curtainArea * curtain.weight', sentence: 'Rods, links or slats.', source: arithmetic },
	{ id: 'barWeight', title: 'Bottom bar', unit: 'lb', formula: 'curtainWidth * curtain.barWeight', sentence: 'The bottom bar is as wide as the curtain.', source: arithmetic },
	{ id: 'curtainWeight', title: 'Curtain weight', unit: 'lb', formula: 'curtainArea * curtain.weight + curtainWidth * curtain.barWeight', sentence: 'Curtain and bottom bar.', source: definition },
	{ id: 'bottomBarLength', title: 'Bottom bar length', unit: 'in', formula: 'curtainWidth', sentence: 'As wide as the curtain.', source: definition },
	{ id: 'rodCount', title: 'Rods', unit: '1', kind: 'count', formula: 'if(curtain.rowPart == "rod", curtainRows, 0)', sentence: 'One a row in a grille.', source: definition },
	{ id: 'slatCount', title: 'Slats', unit: '1', kind: 'count', formula: 'if(curtain.rowPart == "slat", curtainRows, 0)', sentence: 'One a row in a shutter.', source: definition },
	{ id: 'linkCount', title: 'Links', unit: '1', kind: 'count', formula: 'if(curtain.linkSpacing > 0, curtainRows * (ceil(curtainWidth / curtain.linkSpacing) + 1), 0)', sentence: 'Links on every rod, both ends included.', source: shop },
	{ id: 'endLocks', title: 'End locks', unit: '1', kind: 'count', formula: 'ceil(curtainRows * curtain.endLocksPerRow)', sentence: 'They keep the rows from drifting sideways.', source: shop },
	{ id: 'assemblyBolts', title: 'Guide assembly bolts', unit: '1', kind: 'count', formula: 'if(guideLeft.assemblyBoltSpacing > 0, ceil(guideLength / guideLeft.assemblyBoltSpacing) + 1, 0) + if(guideRight.assemblyBoltSpacing > 0, ceil(guideLength / guideRight.assemblyBoltSpacing) + 1, 0)', sentence: 'They hold the parts of a two-part guide together.', source: shop }
]);
