/**
 * Chapter 4: anchors in grouted block, TMS 402 strength design, chapter 9 (lb, in, psi).
 *
 * Covers headed bolts cast into grout (`castIn`, embedment lb of at least 4 diameters and 2 in) and mechanical anchors
 * (`postInstalled`) in masonry that is grouted solid around them: area that lies in open cells is not taken off. The
 * edition comes from the shop book: TMS 402-16 (crushing 1750, interaction to the power 5/3) or 402-13 (1050, straight
 * sum). Both editions speak of cast-in bolts only; a post-installed anchor is held to them, to a breakout cone in the style
 * of TMS 402-22, and to the pull-out of its tested report, without which nothing is known. Not covered, and for an
 * engineer: bent bars, adhesive anchors, seismic provisions, bed joints and head joints.
 *
 * Everything is reckoned for ONE anchor. Projected areas that overlap or are cut off by an edge are reduced by the
 * share of their width that is left; a circle has at least that share of its area, so this is on the safe side.
 */
import type { RuleDefinition, Source } from '../../rulebook/definition.ts';
import { byPlace, bySide, chapter, definition, published } from './rule.ts';

const tms = (equation: string): Source => published(`TMS 402-13 and 402-16, strength design, ${equation}.`);

const remembered = (text: string): Source => ({ basis: 'fromMemory', text: `${text}; from memory.` });

const later: Source = published(
	'Post-installed anchors in masonry, a published worked example in the style of TMS 402-22.'
);

const practice = (text: string): Source => ({
	basis: 'commonPractice',
	text: `${text} Common practice, no source.`
});

/** For an anchor that is not in grouted block nothing is known. */
const inMasonry = (formula: string): string => `if(known(masonryEmbedmentSide), ${formula}, unknown)`;

// prettier-ignore
export const masonryRules: readonly RuleDefinition[] = chapter(4, [
	{ id: 'masonryPhi', title: 'φ of masonry', unit: '1', formula: '0.5', sentence: 'Breakout, crushing and pry-out.', source: remembered('TMS 402, 9.1.4.1') },
	{ id: 'masonryPhiPullOut', title: 'φ of pull-out from masonry', unit: '1', formula: '0.65', sentence: 'Taken for the pull-out of a report.', source: remembered('TMS 402, 9.1.4.1') },
	...bySide([
		{ id: 'masonryEmbedmentSide', title: 'Effective depth in masonry {side}', unit: 'in', formula: 'if(substrateSide == "groutedBlock" && (anchorSide.kind == "castIn" && anchorSide.embedment >= max(4 * anchorSide.diameter, 2 * inch) || anchorSide.kind == "postInstalled" && anchorSide.embedment > 0 * inch), anchorSide.embedment, unknown)', sentence: 'lb, or hef where post-installed; a bolt cast in shallower than 4 diameters or 2 in does not count.', source: remembered('TMS 402, 6.3') },
		{ id: 'masonryStrengthSide', title: 'Masonry strength reckoned with {side}', unit: 'psi', formula: inMasonry('min(wallStrengthSide, 4000 * psi)'), sentence: 'f′m, no more than the standard takes for concrete masonry.', source: remembered('TMS 402, 9.1.9.1') },
		{ id: 'masonryWholeAreaSide', title: 'Projected tension area of one anchor alone {side}', unit: 'in2', formula: 'pi * square(masonryEmbedmentSide)', sentence: 'Apt = π·lb².', source: tms('projected tension area') },
		{ id: 'masonrySteelTensionSide', title: 'Steel in tension, masonry {side}', unit: 'lb', formula: inMasonry('anchorSide.stressArea * if(anchorSide.kind == "castIn", anchorSide.yieldStrength, min(anchorSide.tensileStrength, 1.9 * anchorSide.yieldStrength, 125 * ksi))'), sentence: 'Cast in: Bans = Ab·fy. Post-installed: Ase·futa. Ab is the stress area.', source: tms('Bans = Ab·fy (Eq. 9-2); post-installed as TMS 402-22') },
		{ id: 'masonrySteelShearSide', title: 'Steel in shear, masonry {side}', unit: 'lb', formula: '0.6 * masonrySteelTensionSide', sentence: 'Cast in: Bvns = 0.6·Ab·fy. Post-installed: 0.6·Ase·futa.', source: tms('Bvns = 0.6·Ab·fy (Eq. 9-9); post-installed as TMS 402-22') },
		{ id: 'masonryCrushingSide', title: 'Crushing of masonry {side}', unit: 'lb', formula: inMasonry('shop.masonryCrushing * power(masonryStrengthSide * anchorSide.stressArea / lb, 0.25) * lb'), sentence: 'Bvnc = 1750·(f′m·Ab)^0.25, 1050 before 2016.', source: tms('Eq. 9-7') },
		{ id: 'masonryBasicBreakoutSide', title: 'Basic breakout from masonry, post-installed {side}', unit: 'lb', formula: 'if(anchorSide.kind == "postInstalled", 17 * sqrt(masonryStrengthSide / psi) * power(masonryEmbedmentSide / inch, 1.5) * lb, unknown)', sentence: 'Nb,m = 17·√f′m·hef^1.5.', source: later },
		{ id: 'masonryPullOutSide', title: 'Pull-out from masonry {side}', unit: 'lb', formula: 'if(known(masonryEmbedmentSide) && anchorSide.kind == "postInstalled" && anchorSide.pullOut > 0 * lb, anchorSide.pullOut, unknown)', sentence: 'Only the tested report can say it; a headed bolt cast in does not pull out.', source: definition },
		{ id: 'masonryPhiSteelTensionSide', title: 'φ of the steel in tension, masonry {side}', unit: '1', formula: 'if(anchorSide.kind == "castIn", 0.9, concretePhiSteelTensionSide)', sentence: 'Cast in 0.90; post-installed as in concrete.', source: remembered('TMS 402, 9.1.4.1') },
		{ id: 'masonryPhiSteelShearSide', title: 'φ of the steel in shear, masonry {side}', unit: '1', formula: 'if(anchorSide.kind == "castIn", 0.9, concretePhiSteelShearSide)', sentence: 'Cast in 0.90; post-installed as in concrete.', source: remembered('TMS 402, 9.1.4.1') },

		{ id: 'masonryEdgeNeededSide', title: 'Least edge distance in masonry {side}', unit: 'in', formula: inMasonry('if(anchorSide.leastEdge > 0 * inch, anchorSide.leastEdge, if(anchorSide.kind == "castIn", max(4 * anchorSide.diameter, 1.5 * inch + anchorSide.headDiameter / 2), 12 * anchorSide.diameter))'), sentence: 'The report’s; without one 12 diameters post-installed, 4 cast in and 1 1/2 in over the head.', source: practice('Edge distance where no report gives one.') },
		{ id: 'masonrySpacingNeededSide', title: 'Least spacing in masonry {side}', unit: 'in', formula: inMasonry('if(anchorSide.leastSpacing > 0 * inch, anchorSide.leastSpacing, if(anchorSide.kind == "castIn", 4, 8) * anchorSide.diameter)'), sentence: 'The report’s; without one 8 diameters post-installed, 4 cast in.', source: practice('Spacing where no report gives one.') },
		{ id: 'masonryThicknessNeededSide', title: 'Least thickness of masonry {side}', unit: 'in', formula: inMasonry('if(mountingSide == "betweenJambs", 2 * masonryEdgeNeededSide, if(anchorSide.kind == "castIn", masonryEmbedmentSide + 1.5 * inch, 1.5 * masonryEmbedmentSide))'), sentence: 'One and a half times the depth, 1 1/2 in behind what is cast in; between jambs an edge distance to either face.', source: practice('Thickness behind an anchor.') }
	]),
	...byPlace([
		{ id: 'masonryAreaPlaceSide', title: 'Projected tension area of an anchor, {side} {place}', unit: 'in2', formula: 'if(edgePlaceSide > 0 * inch, masonryWholeAreaSide * (min(edgePlaceSide, masonryEmbedmentSide) + (columnsPlaceSide - 1) * min(acrossPlaceSide, 2 * masonryEmbedmentSide) + if(mountingSide == "betweenJambs", min(farEdgePlaceSide, masonryEmbedmentSide), masonryEmbedmentSide)) / (columnsPlaceSide * 2 * masonryEmbedmentSide) * min(alongPlaceSide, 2 * masonryEmbedmentSide) / (2 * masonryEmbedmentSide), unknown)', sentence: 'Apt times the share of its width that edges leave and neighbours do not claim, across and along.', source: practice('Shares of width for what overlaps; a circle keeps at least that share of its area.') },
		{ id: 'masonryBreakoutPlaceSide', title: 'Breakout from masonry, {side} {place}', unit: 'lb', formula: '4 * masonryAreaPlaceSide / (inch * inch) * sqrt(masonryStrengthSide / psi) * lb', sentence: 'Banb = 4·Apt·√f′m.', source: tms('Eq. 9-1') },
		{ id: 'masonryAnchorAreaPlaceSide', title: 'Breakout area of a post-installed anchor, {side} {place}', unit: 'in2', formula: 'if(anchorSide.kind == "postInstalled" && edgePlaceSide > 0 * inch, (min(edgePlaceSide, 1.5 * masonryEmbedmentSide) + (columnsPlaceSide - 1) * min(acrossPlaceSide, 3 * masonryEmbedmentSide) + if(mountingSide == "betweenJambs", min(farEdgePlaceSide, 1.5 * masonryEmbedmentSide), 1.5 * masonryEmbedmentSide)) / columnsPlaceSide * min(alongPlaceSide, 3 * masonryEmbedmentSide), unknown)', sentence: 'ANm shared equally, as in concrete.', source: later },
		{ id: 'masonryEdgeFactorPlaceSide', title: 'Edge factor in masonry, {side} {place}', unit: '1', formula: 'if(anchorSide.kind == "postInstalled", min(1, 0.7 + 0.3 * edgePlaceSide / (1.5 * masonryEmbedmentSide)), unknown)', sentence: 'ψed: 1 from 1.5·hef off the edge.', source: later },
		{ id: 'masonryAnchorBreakoutPlaceSide', title: 'Breakout of a post-installed anchor, {side} {place}', unit: 'lb', formula: 'masonryAnchorAreaPlaceSide / (9 * square(masonryEmbedmentSide)) * masonryEdgeFactorPlaceSide * masonryBasicBreakoutSide', sentence: 'Nmb = ANm/ANmo·ψed·Nb,m with ANmo = 9·hef².', source: later },
		{ id: 'masonryTensionStrengthPlaceSide', title: 'Design strength in tension, masonry, {side} {place}', unit: 'lb', formula: 'min(masonryPhiSteelTensionSide * masonrySteelTensionSide, masonryPhi * masonryBreakoutPlaceSide, if(anchorSide.kind == "castIn", masonryPhi * masonryBreakoutPlaceSide, min(masonryPhi * masonryAnchorBreakoutPlaceSide, masonryPhiPullOut * masonryPullOutSide)))', sentence: 'φBan: the least of steel and breakout; post-installed also of its own breakout and its reported pull-out.', source: tms('9.1.6') },
		{ id: 'masonryTensionUsePlaceSide', title: 'Use in tension, masonry, {side} {place}', unit: '1', formula: 'factoredTensionPlaceSide / masonryTensionStrengthPlaceSide', sentence: 'baf/φBan.', source: tms('9.1.6') },

		{ id: 'masonryShearAreaPlaceSide', title: 'Projected shear area of an anchor, {side} {place}', unit: 'in2', formula: inMasonry('if(edgePlaceSide > 0 * inch, pi * square(edgePlaceSide) / 2 * min(1, alongPlaceSide / (2 * edgePlaceSide)) * if(mountingSide == "betweenJambs", 1, min(1, wallThicknessSide / edgePlaceSide)), unknown)'), sentence: 'Apv = π·lbe²/2, lbe to the nearest edge, times the share of its width that neighbours do not claim and of its depth that is wall.', source: practice('Shares of width for what overlaps; a half circle keeps at least that share of its area.') },
		{ id: 'masonryShearBreakoutPlaceSide', title: 'Shear breakout from masonry, {side} {place}', unit: 'lb', formula: '4 * masonryShearAreaPlaceSide / (inch * inch) * sqrt(masonryStrengthSide / psi) * lb * if(towardsEdgePlaceSide, 1, 2) / if(acrossPlaceSide < edgePlaceSide, columnsPlaceSide, 1)', sentence: 'Bvnb = 4·Apv·√f′m. Where shear runs along the edge the standard asks nothing; twice that is taken, as in concrete. Columns nearer to each other than to the edge all load the first.', source: tms('Eq. 9-6') },
		{ id: 'masonryPryOutPlaceSide', title: 'Pry-out from masonry, {side} {place}', unit: 'lb', formula: '8 * masonryAreaPlaceSide / (inch * inch) * sqrt(masonryStrengthSide / psi) * lb', sentence: 'Bvnpry = 8·Apt·√f′m.', source: tms('Eq. 9-8') },
		{ id: 'masonryShearStrengthPlaceSide', title: 'Design strength in shear, masonry, {side} {place}', unit: 'lb', formula: 'min(masonryPhiSteelShearSide * masonrySteelShearSide, masonryPhi * min(masonryShearBreakoutPlaceSide, masonryCrushingSide, masonryPryOutPlaceSide))', sentence: 'φBvn: the least of steel, breakout, crushing and pry-out.', source: tms('9.1.6') },
		{ id: 'masonryShearUsePlaceSide', title: 'Use in shear, masonry, {side} {place}', unit: '1', formula: 'factoredShearPlaceSide / masonryShearStrengthPlaceSide', sentence: 'bvf/φBvn.', source: tms('9.1.6') },

		{ id: 'masonryCombinedPlaceSide', title: 'Use in tension and shear together, masonry, {side} {place}', unit: '1', formula: 'power(masonryTensionUsePlaceSide, shop.masonryInteraction) + power(masonryShearUsePlaceSide, shop.masonryInteraction)', sentence: '(baf/φBan)^(5/3) + (bvf/φBvn)^(5/3) from 2016, the straight sum before.', source: tms('9.1.6') },
		{ id: 'masonryUsePlaceSide', title: 'Use of the anchors in masonry, {side} {place}', unit: '1', formula: 'max(masonryTensionUsePlaceSide, masonryShearUsePlaceSide, masonryCombinedPlaceSide)', sentence: 'The largest of tension, shear and both together.', source: tms('9.1.6') },
		{ id: 'masonryTensionModePlaceSide', title: 'Governs in tension, masonry, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: 'if(known(masonryTensionStrengthPlaceSide), if(masonryPhiSteelTensionSide * masonrySteelTensionSide <= masonryTensionStrengthPlaceSide, "masonrySteelTension", if(known(masonryPullOutSide) && masonryPhiPullOut * masonryPullOutSide <= masonryTensionStrengthPlaceSide, "masonryPullOut", "masonryBreakout")), "")', sentence: 'What has the least strength.', source: definition },
		{ id: 'masonryShearModePlaceSide', title: 'Governs in shear, masonry, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: 'if(known(masonryShearStrengthPlaceSide), if(masonryPhiSteelShearSide * masonrySteelShearSide <= masonryShearStrengthPlaceSide, "masonrySteelShear", if(masonryPhi * masonryCrushingSide <= masonryShearStrengthPlaceSide, "masonryCrushing", if(masonryPhi * masonryPryOutPlaceSide <= masonryShearStrengthPlaceSide, "masonryPryOut", "masonryShearBreakout"))), "")', sentence: 'What has the least strength.', source: definition },
		{ id: 'masonryModePlaceSide', title: 'Governs in masonry, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: 'if(known(masonryUsePlaceSide), if(masonryUsePlaceSide > masonryTensionUsePlaceSide && masonryUsePlaceSide > masonryShearUsePlaceSide, "masonryCombined", if(masonryTensionUsePlaceSide >= masonryShearUsePlaceSide, masonryTensionModePlaceSide, masonryShearModePlaceSide)), "")', sentence: 'Tension or shear, whichever is used more, or both together.', source: definition }
	])
]);
