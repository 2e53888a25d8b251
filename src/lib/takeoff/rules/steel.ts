/**
 * Chapter 4: through bolts in steel by AISC 360-16, and self-drilling screws in thin steel by AISI S100-16 (its J4 is
 * E4 of S100-12); allowable strength design, load at service level against nominal strength over Ω.
 *
 * Bolts: d nominal diameter, Ab = π/4·d², Fu tensile strength of the bolt or of what it bears on, lc clear distance from
 * the hole to the edge or to the next hole, t thickness; in, in², psi. Steel walls only.
 *
 * Screws: d nominal diameter, 0.08 to ¼ in; t1 and Fu1 of the leg under the head, t2 and Fu2 of the steel that the thread
 * holds in; d′w head or washer, counted up to ¾ in; in, psi. P are nominal strengths in lb. Interaction equations hold
 * inside the range they were tested in; outside of it shares are added up straight.
 *
 * Neither reckons the bending of a thin wall between its supports.
 */
import type { RuleDefinition, Source } from '../../rulebook/definition.ts';
import { byPlace, bySide, chapter, commonPractice, definition, published } from './rule.ts';

const remembered = (clause: string): Source => ({ basis: 'fromMemory', text: `${clause}; from memory.` });
const aisc = (clause: string): Source => remembered(`AISC 360-16, ${clause}`);
const aisi = (clause: string): Source => published(`AISI S100-16, ${clause}.`);
const interaction = (clause: string): Source => remembered(`AISI S100-16, ${clause}`);

const bolt = (formula: string): string => `if(anchorSide.kind == "throughBolt", ${formula}, unknown)`;
const screw = (formula: string): string => `if(anchorSide.kind == "selfDrillingScrew", ${formula}, unknown)`;
const steelWall = '(substrateSide == "structuralSteel" || substrateSide == "studWithBacking")';

// prettier-ignore
const boltRules = chapter(4, [
	...bySide([
		{ id: 'boltAreaSide', title: 'Area of the bolt {side}', unit: 'in2', formula: `if(anchorSide.kind == "throughBolt" && ${steelWall}, pi / 4 * square(anchorSide.diameter), unknown)`, sentence: 'Ab, of the nominal diameter; a bolt through anything but steel is not reckoned here.', source: aisc('J3.6') },
		{ id: 'boltTensionSide', title: 'Tension of the bolt {side}', unit: 'lb', formula: '0.75 * anchorSide.tensileStrength * boltAreaSide / shop.safetyBolt', sentence: 'Fnt·Ab/Ω with Fnt = 0.75·Fu: the nominal area stands for the thread’s.', source: aisc('J3.6 and Table J3.2') },
		{ id: 'boltShearSide', title: 'Shear of the bolt {side}', unit: 'lb', formula: '0.45 * anchorSide.tensileStrength * boltAreaSide / shop.safetyBolt', sentence: 'Fnv·Ab/Ω with Fnv = 0.45·Fu: thread in the plane of shear.', source: aisc('J3.6 and Table J3.2') },
		{ id: 'boltHoleSide', title: 'Hole of the bolt {side}', unit: 'in', formula: bolt('anchorSide.diameter + if(anchorSide.diameter < 1 * inch, 0.0625, 0.125) * inch'), sentence: 'Standard hole: 1/16 in over the bolt, 1/8 in from 1 in on.', source: aisc('Table J3.3') },
		{ id: 'boltEdgeNeededSide', title: 'Least edge distance in steel, bolt {side}', unit: 'in', formula: bolt('if(anchorSide.leastEdge > 0 * inch, anchorSide.leastEdge, if(anchorSide.diameter <= 1 * inch, anchorSide.diameter + 0.25 * inch, if(anchorSide.diameter <= 1.25 * inch, anchorSide.diameter + 0.375 * inch, 1.25 * anchorSide.diameter)))'), sentence: 'The table, which begins at ½ in, adds ¼ in to the diameter up to 1 in and 3/8 in up to 1¼ in; above that 1.25 diameters. Thinner bolts keep its ¼ in. The report’s wins.', source: aisc('Table J3.4') },
		{ id: 'boltSpacingNeededSide', title: 'Least spacing in steel, bolt {side}', unit: 'in', formula: bolt('if(anchorSide.leastSpacing > 0 * inch, anchorSide.leastSpacing, 8 / 3 * anchorSide.diameter)'), sentence: '2⅔ diameters, or the report’s.', source: aisc('J3.3') }
	]),
	...byPlace([
		{ id: 'boltClearPlaceSide', title: 'Steel before the bolt, {side} {place}', unit: 'in', formula: 'max(0 * inch, if(towardsEdgePlaceSide, min(edgePlaceSide - boltHoleSide / 2, alongPlaceSide - boltHoleSide, if(columnsPlaceSide > 1, acrossPlaceSide - boltHoleSide, edgePlaceSide - boltHoleSide / 2)), alongPlaceSide - boltHoleSide))', sentence: 'lc, from the hole to the edge or to the next hole in the way of the load; where it may push towards the edge the least of them.', source: aisc('J3.10') },
		{ id: 'boltBearingPlaceSide', title: 'Bearing and tear-out at the bolt, {side} {place}', unit: 'lb', formula: bolt('min(1.2 * boltClearPlaceSide * wallThicknessSide * wallStrengthSide, 2.4 * anchorSide.diameter * wallThicknessSide * wallStrengthSide, 2.4 * anchorSide.diameter * legPlaceSide * legStrengthPlaceSide) / shop.safetyBolt'), sentence: '1.2·lc·t·Fu of the wall, no more than 2.4·d·t·Fu of wall or leg, over Ω; the leg’s own edge is its maker’s.', source: aisc('J3.10(a)') },
		{ id: 'boltTensionUsePlaceSide', title: 'Use in tension, bolt, {side} {place}', unit: '1', formula: 'tensionPlaceSide / boltTensionSide', sentence: 'Against the bolt.', source: aisc('J3.6') },
		{ id: 'boltShearUsePlaceSide', title: 'Use in shear, bolt, {side} {place}', unit: '1', formula: 'shearPlaceSide / min(boltShearSide, boltBearingPlaceSide)', sentence: 'Against the bolt and what it bears on.', source: aisc('J3.6 and J3.10') },
		{ id: 'boltUsePlaceSide', title: 'Use of the bolt, {side} {place}', unit: '1', formula: 'max(boltTensionUsePlaceSide, boltShearUsePlaceSide, (boltTensionUsePlaceSide + shearPlaceSide / boltShearSide) / 1.3)', sentence: 'The largest of tension, shear and both together. F′nt = 1.3·Fnt − Ω·Fnt/Fnv·frv ≤ Fnt is met where the two shares of the bolt add up to no more than 1.3.', source: aisc('J3.7, equation J3-3b') },
		{ id: 'boltModePlaceSide', title: 'Governs at the bolt, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: 'if(known(boltUsePlaceSide), if(boltUsePlaceSide <= boltTensionUsePlaceSide, "boltTension", if(boltUsePlaceSide <= boltShearUsePlaceSide, if(boltShearSide <= boltBearingPlaceSide, "boltShear", "boltBearing"), "boltCombined")), "")', sentence: 'What would give way first.', source: definition }
	])
]);

// prettier-ignore
const screwRules = chapter(4, [
	...bySide([
		{ id: 'screwDiameterSide', title: 'Diameter of the screw {side}', unit: 'in', formula: `if(anchorSide.kind == "selfDrillingScrew" && ${steelWall} && anchorSide.diameter >= 0.08 * inch && anchorSide.diameter <= 0.25 * inch, anchorSide.diameter, unknown)`, sentence: 'The equations hold from 0.08 to ¼ in and in steel.', source: interaction('J4, range of diameters') },
		{ id: 'screwTiltingSide', title: 'Tilting of the screw {side}', unit: 'lb', formula: '4.2 * sqrt(square(wallThicknessSide) * wallThicknessSide * screwDiameterSide) * wallStrengthSide', sentence: '4.2·√(t2³·d)·Fu2: a screw in thin steel tilts before it crushes.', source: aisi('J4.3.1') },
		{ id: 'screwBearingWallSide', title: 'Bearing of the screw on the wall {side}', unit: 'lb', formula: '2.7 * wallThicknessSide * screwDiameterSide * wallStrengthSide', sentence: '2.7·t2·d·Fu2.', source: aisi('J4.3.1') },
		{ id: 'screwPullOutSide', title: 'Pull-out of the screw {side}', unit: 'lb', formula: '0.85 * wallThicknessSide * screwDiameterSide * wallStrengthSide', sentence: 'Pnot = 0.85·tc·d·Fu2; the thread goes through the whole thickness.', source: aisi('J4.4.1') },
		{ id: 'screwSteelTensionSide', title: 'Tension of the screw’s steel {side}', unit: 'lb', formula: screw('anchorSide.tensileStrength * anchorSide.stressArea'), sentence: 'Pts is the maker’s to test; here its tensile strength at the stress area stands for it.', source: interaction('J4.4.3') },
		{ id: 'screwSteelShearSide', title: 'Shear of the screw’s steel {side}', unit: 'lb', formula: '0.6 * screwSteelTensionSide', sentence: 'Pss is the maker’s to test; here six tenths of the tension stand for it, the usual ratio in steel.', source: commonPractice },
		{ id: 'screwEdgeNeededSide', title: 'Least edge distance in steel, screw {side}', unit: 'in', formula: screw('if(anchorSide.leastEdge > 0 * inch, anchorSide.leastEdge, 1.5 * anchorSide.diameter)'), sentence: 'One and a half diameters, or the report’s.', source: aisi('J4.2') },
		{ id: 'screwSpacingNeededSide', title: 'Least spacing in steel, screw {side}', unit: 'in', formula: screw('if(anchorSide.leastSpacing > 0 * inch, anchorSide.leastSpacing, 3 * anchorSide.diameter)'), sentence: 'Three diameters, or the report’s.', source: aisi('J4.1') },
		{ id: 'screwPullOutTestedSide', title: 'Wall in the tested range of pull-out with shear {side}', unit: '1', kind: 'flag' as const, formula: 'wallThicknessSide >= 0.0297 * inch && wallThicknessSide <= 0.0724 * inch && wallStrengthSide <= 121 * ksi', sentence: '0.0297 ≤ t2 ≤ 0.0724 in and Fu2 ≤ 121 ksi.', source: interaction('J4.5.2') }
	]),
	...byPlace([
		{ id: 'screwBearingLegPlaceSide', title: 'Bearing of the screw on the leg, {side} {place}', unit: 'lb', formula: '2.7 * legPlaceSide * screwDiameterSide * legStrengthPlaceSide', sentence: '2.7·t1·d·Fu1.', source: aisi('J4.3.1') },
		{ id: 'screwThicknessSharePlaceSide', title: 'Between thin and thick wall, {side} {place}', unit: '1', formula: 'min(1, max(0, (wallThicknessSide / legPlaceSide - 1) / 1.5))', sentence: '0 up to t2/t1 = 1, where a screw may tilt; 1 from 2.5 on, where the wall holds it upright; in a straight line between.', source: aisi('J4.3.1') },
		{ id: 'screwConnectionPlaceSide', title: 'Shear by tilting and bearing, {side} {place}', unit: 'lb', formula: 'min(screwBearingLegPlaceSide, screwBearingWallSide, screwTiltingSide) * (1 - screwThicknessSharePlaceSide) + min(screwBearingLegPlaceSide, screwBearingWallSide) * screwThicknessSharePlaceSide', sentence: 'Pns: least of tilting and bearing for a thin wall, of bearing alone for a thick one.', source: aisi('J4.3.1') },
		{ id: 'screwTearOutPlaceSide', title: 'Tear-out towards the edge, {side} {place}', unit: 'lb', formula: '1.2 * wallThicknessSide * max(0 * inch, edgePlaceSide - screwDiameterSide / 2) * wallStrengthSide', sentence: '0.6·Fu2 on both sides of the way from the hole to the edge, 2·t2·(e − d/2).', source: interaction('J6.1') },
		{ id: 'screwWallShearPlaceSide', title: 'Shear of leg and wall at the screw, {side} {place}', unit: 'lb', formula: 'if(towardsEdgePlaceSide, min(screwConnectionPlaceSide, screwTearOutPlaceSide), screwConnectionPlaceSide)', sentence: 'Tear-out too where the load pushes towards the edge.', source: aisi('J4.3') },
		{ id: 'screwPullOverPlaceSide', title: 'Pull-over of the leg, {side} {place}', unit: 'lb', formula: screw('1.5 * legPlaceSide * min(anchorSide.headDiameter, 0.75 * inch) * legStrengthPlaceSide'), sentence: 'Pnov = 1.5·t1·d′w·Fu1, d′w no more than ¾ in.', source: aisi('J4.4.2') },
		{ id: 'screwTensionPlaceSide', title: 'Tension of the screw, {side} {place}', unit: 'lb', formula: 'min(screwPullOutSide, screwPullOverPlaceSide, screwSteelTensionSide) / shop.safetyScrew', sentence: 'Least of pull-out, pull-over and the screw’s own, over Ω.', source: aisi('J4.4') },
		{ id: 'screwShearPlaceSide', title: 'Shear of the screw, {side} {place}', unit: 'lb', formula: 'min(screwWallShearPlaceSide, screwSteelShearSide) / shop.safetyScrew', sentence: 'Least of leg, wall and the screw’s own, over Ω.', source: aisi('J4.3') },
		{ id: 'screwTensionUsePlaceSide', title: 'Use in tension, screw, {side} {place}', unit: '1', formula: 'tensionPlaceSide / screwTensionPlaceSide', sentence: 'Load over what is allowed.', source: aisi('J4.4') },
		{ id: 'screwShearUsePlaceSide', title: 'Use in shear, screw, {side} {place}', unit: '1', formula: 'shearPlaceSide / screwShearPlaceSide', sentence: 'Load over what is allowed.', source: aisi('J4.3') },
		{ id: 'screwPullOverUsePlaceSide', title: 'Use by shear and pull-over, {side} {place}', unit: '1', formula: 'if(legPlaceSide >= 0.0285 * inch && legPlaceSide <= 0.0445 * inch && wallThicknessSide >= 2.5 * legPlaceSide && legStrengthPlaceSide <= 70 * ksi, 2.35 / 1.1 * (shearPlaceSide / screwBearingLegPlaceSide + 0.71 * tensionPlaceSide / screwPullOverPlaceSide), shop.safetyScrew * (shearPlaceSide / screwBearingLegPlaceSide + tensionPlaceSide / screwPullOverPlaceSide))', sentence: 'V/Pns + 0.71·T/Pnov ≤ 1.10/2.35 for legs of 0.0285 to 0.0445 in, Fu1 ≤ 70 ksi, on a wall 2.5 times as thick or more; otherwise both shares added up straight.', source: interaction('J4.5.1') },
		{ id: 'screwPullOutUsePlaceSide', title: 'Use by shear and pull-out, {side} {place}', unit: '1', formula: 'if(screwPullOutTestedSide, 2.55 / 1.15 * (shearPlaceSide / screwTiltingSide + tensionPlaceSide / screwPullOutSide), shop.safetyScrew * (shearPlaceSide / min(screwTiltingSide, screwBearingWallSide) + tensionPlaceSide / screwPullOutSide))', sentence: 'V/Pns + T/Pnot ≤ 1.15/2.55 with Pns of tilting; outside the tested range both shares added up straight.', source: interaction('J4.5.2') },
		{ id: 'screwUsePlaceSide', title: 'Use of the screw, {side} {place}', unit: '1', formula: 'max(screwTensionUsePlaceSide, screwShearUsePlaceSide, screwPullOverUsePlaceSide, screwPullOutUsePlaceSide, shop.safetyScrew / 1.3 * (shearPlaceSide / screwSteelShearSide + tensionPlaceSide / screwSteelTensionSide))', sentence: 'The largest of tension, shear, and both together against pull-over, pull-out and the screw’s own steel (shares no more than 1.3 together).', source: interaction('J4.5.1 to J4.5.3') },
		{ id: 'screwModePlaceSide', title: 'Governs at the screw, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: 'if(known(screwUsePlaceSide), if(screwUsePlaceSide <= screwTensionUsePlaceSide, if(screwSteelTensionSide <= min(screwPullOutSide, screwPullOverPlaceSide), "screwTension", if(screwPullOutSide <= screwPullOverPlaceSide, "screwPullOut", "screwPullOver")), if(screwUsePlaceSide <= screwShearUsePlaceSide, if(screwSteelShearSide <= screwWallShearPlaceSide, "screwShear", if(screwConnectionPlaceSide <= screwWallShearPlaceSide && screwConnectionPlaceSide < min(screwBearingLegPlaceSide, screwBearingWallSide), "screwTilting", "screwBearing")), "screwCombined")), "")', sentence: 'What would give way first.', source: definition }
	])
]);

export const steelRules: readonly RuleDefinition[] = [...boltRules, ...screwRules];
