/** Chapter 4: what holds it to the building, by spacing and hole pattern. Loads are not checked here. */
import { bySide, chapter, definition, shop } from './rule.ts';

// prettier-ignore
export const holdingRules = chapter(4, [
	...bySide([
		{ id: 'anchorsPerGuideSide', title: 'Anchors, guide {side}', unit: '1', kind: 'count' as const, formula: 'max(2, ceil((guideLength - 2 * guideSide.endDistance) / substrateSide.anchorSpacing) + 1)', sentence: 'From end distance to end distance at no more than the wall’s spacing, never fewer than two.', source: shop },
		{ id: 'anchorPitchSide', title: 'Anchor spacing, guide {side}', unit: 'in', formula: '(guideLength - 2 * guideSide.endDistance) / (anchorsPerGuideSide - 1)', sentence: 'The anchors stand equally apart.', source: definition },
		{ id: 'anchorsSide', title: 'Anchors in the {side} wall', unit: '1', kind: 'count' as const, formula: 'anchorsPerGuideSide + anchorsPerBracket', sentence: 'Guide and bracket together.', source: definition },
		{ id: 'bitsSide', title: 'Bits used, {side} wall', unit: '1', formula: 'if(anchorSide.holesPerBit > 0, anchorsSide / anchorSide.holesPerBit, 0)', sentence: 'Holes over the holes one bit drills.', source: shop }
	]),
	{ id: 'anchorsPerBracket', title: 'Anchors per bracket', unit: '1', kind: 'count', formula: 'bracket.anchors', sentence: 'Hole pattern of the bracket.', source: shop },
	{ id: 'guideAnchors', title: 'Anchors in both guides', unit: '1', kind: 'count', formula: 'anchorsPerGuideLeft + anchorsPerGuideRight', sentence: 'Left and right together.', source: definition },
	{ id: 'bracketAnchors', title: 'Anchors in both brackets', unit: '1', kind: 'count', formula: '2 * anchorsPerBracket', sentence: 'Left and right together.', source: definition },
	{ id: 'anchorTotal', title: 'Anchors', unit: '1', kind: 'count', formula: 'guideAnchors + bracketAnchors', sentence: 'Guides and brackets; those of hood supports are counted apart.', source: definition },
	{ id: 'guideAnchorMinutes', title: 'Time for guide anchors', unit: 'min', formula: 'anchorsPerGuideLeft * substrateLeft.anchorMinutes + anchorsPerGuideRight * substrateRight.anchorMinutes', sentence: 'Crew-minutes by the wall each stands in.', source: shop },
	{ id: 'bracketAnchorMinutes', title: 'Time for bracket anchors', unit: 'min', formula: 'anchorsPerBracket * (substrateLeft.anchorMinutes + substrateRight.anchorMinutes)', sentence: 'Crew-minutes by the wall each stands in.', source: shop },
	{ id: 'twoPartGuideLength', title: 'Two-part guide to assemble', unit: 'ft', formula: 'if(guideLeft.parts >= 2, guideLength, 0) + if(guideRight.parts >= 2, guideLength, 0)', sentence: 'Guides that come in two parts.', source: definition }
]);
