/** Chapter 5: hood, its supports and ends. */
import { arithmetic, chapter, commonPractice, definition, shop } from './rule.ts';

// prettier-ignore
export const hoodRules = chapter(5, [
	{ id: 'hoodLength', title: 'Hood length', unit: 'in', formula: 'if(hood == "none", 0, bracketDistance)', sentence: 'Bracket to bracket.', source: definition },
	{ id: 'hoodPieces', title: 'Hood pieces', unit: '1', kind: 'count', formula: 'if(hood == "none", 0, max(1, ceil((hoodLength - hood.lap) / (hood.longestPiece - hood.lap))))', sentence: 'Pieces no longer than the longest, lapped at the joints.', source: arithmetic },
	{ id: 'hoodPieceLength', title: 'Hood piece length', unit: 'in', formula: 'if(hood == "none", 0, (hoodLength + (hoodPieces - 1) * hood.lap) / hoodPieces)', sentence: 'All pieces equally long.', source: arithmetic },
	{ id: 'hoodSupports', title: 'Hood supports', unit: '1', kind: 'count', formula: 'if(hood == "none", 0, hoodPieces - 1 + hoodPieces * (ceil(hoodPieceLength / hood.freeSpan) - 1))', sentence: 'One under every joint, and more where a piece spans further than it may.', source: commonPractice },
	{ id: 'hoodGirth', title: 'Hood girth', unit: 'in', formula: 'if(hood == "none", 0, hood.girthFactor * bracketSize + hood.girthAllowance)', sentence: 'Sheet around the coil.', source: shop },
	{ id: 'hoodArea', title: 'Hood area', unit: 'ft2', formula: 'hoodGirth * hoodLength', sentence: 'Laps not counted.', source: definition },
	{ id: 'hoodWeight', title: 'Hood weight', unit: 'lb', formula: 'if(hood == "none", 0, hoodArea * hood.weight)', sentence: 'Sheet only.', source: arithmetic },
	{ id: 'endCaps', title: 'End caps', unit: '1', kind: 'count', formula: 'if(hood == "none", 0, 2)', sentence: 'One at either end of the hood.', source: commonPractice },
	{ id: 'hoodSupportAnchors', title: 'Anchors for hood supports', unit: '1', kind: 'count', formula: 'hoodSupports * shop.anchorsPerHoodSupport', sentence: 'Into the wall over the head.', source: shop }
]);
