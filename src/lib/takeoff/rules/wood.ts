/**
 * Chapter 4: lag screws in the side grain of wood under a steel leg, by the National Design Specification for Wood
 * Construction (NDS 2018), allowable stress design.
 *
 * | symbol | quantity | unit |
 * | --- | --- | --- |
 * | D, Dr | nominal diameter ¼ to 1 in, root diameter of the thread | in |
 * | G | specific gravity of the wood, oven dry | 1 |
 * | W, W′p | withdrawal for an inch of thread; of the whole thread, adjusted | lb/in, lb |
 * | lm, ls | bearing length in wood (the thread without its tip) and in steel (the leg) | in |
 * | Fem, Fes | dowel bearing strength of wood and of steel | psi |
 * | Fyb | bending yield strength of the lag screw | psi |
 * | Re, Rt | Fem/Fes, lm/ls | 1 |
 * | Rd | reduction term | 1 |
 * | Z, Z′ | lateral value, reference and adjusted | lb |
 * | Z′α | value for a load at the angle α to the face of the wood | lb |
 *
 * W counts D as nominal; the yield equations count Dr, and the bearing strength across the grain D again. Lateral values
 * are known from a penetration of 4D on; the tip counts neither way. Group action and geometry factor (C_g, CΔ) are taken
 * as 1: few lag screws stand in line with the load, and full distances are asked for. Leg and wood touch, or solid shims
 * fill what is between them.
 */
import type { Source } from '../../rulebook/definition.ts';
import { byPlace, bySide, chapter, definition, published } from './rule.ts';

const nds = (clause: string): Source => published(`NDS 2018, ${clause}.`);
const remembered = (clause: string): Source => ({
	basis: 'fromMemory',
	text: `NDS 2018, ${clause}; from memory.`
});

const reduction = nds('Table 12.3.1B and its note 1');
const mode = (number: number): Source => nds(`Table 12.3.1A, equation 12.3-${String(number)}`);
const coefficient = nds('Table 12.3.1A, notes');
const adjusted = remembered('Table 11.3.1 (C_D, C_M)');
const combined = remembered('12.4.1, equation 12.4-1');
const leadHoles = remembered('12.1.4.2');

const lag = (formula: string): string => `if(anchorSide.kind == "lagScrew", ${formula}, unknown)`;
const lagInWood = (formula: string): string =>
	`if(anchorSide.kind == "lagScrew" && substrateSide.specificGravity > 0, ${formula}, unknown)`;

// prettier-ignore
export const woodRules = chapter(4, [
	...bySide([
		{ id: 'lagWithdrawalPerInchSide', title: 'Withdrawal for an inch of thread {side}', unit: 'lb/in', formula: lagInWood('1800 * power(substrateSide.specificGravity, 1.5) * power(anchorSide.diameter / inch, 0.75) * lb / inch'), sentence: 'W = 1800·G^1.5·D^0.75, D nominal, in side grain.', source: nds('12.2.1.1, equation 12.2-1') },
		{ id: 'lagSteelTensionSide', title: 'Tension of the lag screw’s steel {side}', unit: 'lb', formula: lag('anchorSide.tensileStrength * anchorSide.stressArea / shop.safetyBolt'), sentence: 'A long thread may hold more than the steel at its root: tensile strength there over the safety factor of bolts.', source: remembered('11.2.3 and 12.2.1 (tension at the net section)') },
		{ id: 'lagPenetrationNeededSide', title: 'Least penetration {side}', unit: 'in', formula: lag('4 * anchorSide.diameter'), sentence: 'Four diameters of thread without the tip, for any lateral load.', source: nds('12.1.4.6') },
		{ id: 'lagDiameterSide', title: 'Diameter in the yield equations {side}', unit: 'in', formula: lagInWood('if(anchorSide.embedment >= lagPenetrationNeededSide && anchorSide.diameter <= 1 * inch, anchorSide.rootDiameter, unknown)'), sentence: 'Root diameter of the thread, since thread bears at the face of the wood. Not known with less than the least penetration or over 1 in.', source: nds('12.3.7 and Table 12.3.1B') },
		{ id: 'lagDiameterFactorSide', title: 'Diameter factor K_D {side}', unit: '1', formula: 'max(2.2, 10 * lagDiameterSide / inch + 0.5)', sentence: '2.2 up to 0.17 in, 10·D + 0.5 above; for diameters in the yield equations below ¼ in.', source: reduction },
		{ id: 'leadHoleLeastSide', title: 'Lead hole, least {side}', unit: 'in', formula: lagInWood('anchorSide.diameter * if(substrateSide.specificGravity <= 0.5, 0.4, if(substrateSide.specificGravity <= 0.6, 0.6, 0.65))'), sentence: 'For the threaded part, by the density of the wood; the shank goes through a hole of its own diameter.', source: leadHoles },
		{ id: 'leadHoleMostSide', title: 'Lead hole, most {side}', unit: 'in', formula: lagInWood('anchorSide.diameter * if(substrateSide.specificGravity <= 0.5, 0.7, if(substrateSide.specificGravity <= 0.6, 0.75, 0.85))'), sentence: 'For the threaded part, by the density of the wood; the shank goes through a hole of its own diameter.', source: leadHoles },
		{ id: 'woodSpacingNeededSide', title: 'Least spacing in wood {side}', unit: 'in', formula: lag('if(anchorSide.leastSpacing > 0 * inch, anchorSide.leastSpacing, 4 * anchorSide.diameter)'), sentence: 'Four diameters in a row for the full value, or the report’s.', source: remembered('Table 12.5.1B') },
		{ id: 'woodThicknessNeededSide', title: 'Least thickness of the wood {side}', unit: 'in', formula: lag('anchorSide.embedment + anchorSide.tip'), sentence: 'Thread and tip stay in the wood.', source: definition }
	]),
	...byPlace([
		{ id: 'lagBearingMainPlaceSide', title: 'Bearing strength of the wood, {side} {place}', unit: 'psi', formula: lagInWood('if(anchorSide.diameter < 0.25 * inch, 16600 * power(substrateSide.specificGravity, 1.84), if(acrossGrainPlaceSide, 6100 * power(substrateSide.specificGravity, 1.45) / sqrt(anchorSide.diameter / inch), 11200 * substrateSide.specificGravity)) * psi'), sentence: 'Fem: 6100·G^1.45/√D across the grain with the nominal diameter, 11200·G along it; below ¼ in 16600·G^1.84 either way.', source: nds('Table 12.3.3, note 2') },
		{ id: 'lagBearingLegPlaceSide', title: 'Bearing strength of the leg, {side} {place}', unit: 'psi', formula: lag('1.375 * legStrengthPlaceSide'), sentence: 'Fes: 2.2·Fu of cold-formed steel over 1.6 for load duration; hot-rolled steel would give a little more.', source: remembered('Appendix I') },
		{ id: 'lagBearingRatioPlaceSide', title: 'Ratio of bearing strengths, {side} {place}', unit: '1', formula: 'lagBearingMainPlaceSide / lagBearingLegPlaceSide', sentence: 'Re, wood over steel.', source: coefficient },
		{ id: 'lagLengthRatioPlaceSide', title: 'Ratio of bearing lengths, {side} {place}', unit: '1', formula: lag('anchorSide.embedment / legPlaceSide'), sentence: 'Rt, wood over steel; the tip is left out.', source: coefficient },
		{ id: 'lagAnglePlaceSide', title: 'Grain angle factor, {side} {place}', unit: '1', formula: lag('if(acrossGrainPlaceSide && anchorSide.diameter >= 0.25 * inch, 1.25, 1)'), sentence: 'Kθ = 1 + 0.25·θ/90: 1 along the grain, 1.25 across; not below ¼ in.', source: reduction },
		{ id: 'lagRdIPlaceSide', title: 'Reduction term of modes Im and Is, {side} {place}', unit: '1', formula: 'lagAnglePlaceSide * if(lagDiameterSide >= 0.25 * inch, 4, lagDiameterFactorSide)', sentence: 'Rd: 4·Kθ; where the root is thinner than ¼ in, K_D·Kθ.', source: reduction },
		{ id: 'lagRdIIPlaceSide', title: 'Reduction term of mode II, {side} {place}', unit: '1', formula: 'lagAnglePlaceSide * if(lagDiameterSide >= 0.25 * inch, 3.6, lagDiameterFactorSide)', sentence: 'Rd: 3.6·Kθ; where the root is thinner than ¼ in, K_D·Kθ.', source: reduction },
		{ id: 'lagRdIIIPlaceSide', title: 'Reduction term of modes III and IV, {side} {place}', unit: '1', formula: 'lagAnglePlaceSide * if(lagDiameterSide >= 0.25 * inch, 3.2, lagDiameterFactorSide)', sentence: 'Rd: 3.2·Kθ; where the root is thinner than ¼ in, K_D·Kθ.', source: reduction },
		{ id: 'lagK1PlaceSide', title: 'Coefficient k1, {side} {place}', unit: '1', formula: '(sqrt(lagBearingRatioPlaceSide + 2 * square(lagBearingRatioPlaceSide) * (1 + lagLengthRatioPlaceSide + square(lagLengthRatioPlaceSide)) + square(lagLengthRatioPlaceSide) * lagBearingRatioPlaceSide * square(lagBearingRatioPlaceSide)) - lagBearingRatioPlaceSide * (1 + lagLengthRatioPlaceSide)) / (1 + lagBearingRatioPlaceSide)', sentence: 'k1 = (√(Re + 2·Re²·(1 + Rt + Rt²) + Rt²·Re³) − Re·(1 + Rt)) / (1 + Re).', source: coefficient },
		{ id: 'lagK2PlaceSide', title: 'Coefficient k2, {side} {place}', unit: '1', formula: 'sqrt(2 * (1 + lagBearingRatioPlaceSide) + 2 * anchorSide.bendingYield * (1 + 2 * lagBearingRatioPlaceSide) * square(lagDiameterSide) / (3 * lagBearingMainPlaceSide * square(anchorSide.embedment))) - 1', sentence: 'k2 = −1 + √(2·(1 + Re) + 2·Fyb·(1 + 2·Re)·D²/(3·Fem·lm²)).', source: coefficient },
		{ id: 'lagK3PlaceSide', title: 'Coefficient k3, {side} {place}', unit: '1', formula: 'sqrt(2 * (1 + lagBearingRatioPlaceSide) / lagBearingRatioPlaceSide + 2 * anchorSide.bendingYield * (2 + lagBearingRatioPlaceSide) * square(lagDiameterSide) / (3 * lagBearingMainPlaceSide * square(legPlaceSide))) - 1', sentence: 'k3 = −1 + √(2·(1 + Re)/Re + 2·Fyb·(2 + Re)·D²/(3·Fem·ls²)).', source: coefficient },
		{ id: 'lagImPlaceSide', title: 'Mode Im, {side} {place}', unit: 'lb', formula: 'lagDiameterSide * anchorSide.embedment * lagBearingMainPlaceSide / lagRdIPlaceSide', sentence: 'The wood is crushed along the whole thread.', source: mode(1) },
		{ id: 'lagIsPlaceSide', title: 'Mode Is, {side} {place}', unit: 'lb', formula: 'lagDiameterSide * legPlaceSide * lagBearingLegPlaceSide / lagRdIPlaceSide', sentence: 'The leg is crushed.', source: mode(2) },
		{ id: 'lagIIPlaceSide', title: 'Mode II, {side} {place}', unit: 'lb', formula: 'lagK1PlaceSide * lagDiameterSide * legPlaceSide * lagBearingLegPlaceSide / lagRdIIPlaceSide', sentence: 'The lag screw tilts and crushes both.', source: mode(3) },
		{ id: 'lagIIImPlaceSide', title: 'Mode IIIm, {side} {place}', unit: 'lb', formula: 'lagK2PlaceSide * lagDiameterSide * anchorSide.embedment * lagBearingMainPlaceSide / ((1 + 2 * lagBearingRatioPlaceSide) * lagRdIIIPlaceSide)', sentence: 'The lag screw bends once and crushes the wood.', source: mode(4) },
		{ id: 'lagIIIsPlaceSide', title: 'Mode IIIs, {side} {place}', unit: 'lb', formula: 'lagK3PlaceSide * lagDiameterSide * legPlaceSide * lagBearingMainPlaceSide / ((2 + lagBearingRatioPlaceSide) * lagRdIIIPlaceSide)', sentence: 'The lag screw bends once and crushes the leg.', source: mode(5) },
		{ id: 'lagIVPlaceSide', title: 'Mode IV, {side} {place}', unit: 'lb', formula: 'square(lagDiameterSide) / lagRdIIIPlaceSide * sqrt(2 * lagBearingMainPlaceSide * anchorSide.bendingYield / (3 * (1 + lagBearingRatioPlaceSide)))', sentence: 'The lag screw bends twice.', source: mode(6) },
		{ id: 'lagReferencePlaceSide', title: 'Lateral value, reference, {side} {place}', unit: 'lb', formula: 'min(lagImPlaceSide, lagIsPlaceSide, lagIIPlaceSide, lagIIImPlaceSide, lagIIIsPlaceSide, lagIVPlaceSide)', sentence: 'Z, the least of the six modes of single shear.', source: nds('12.3.1') },
		{ id: 'lagLateralPlaceSide', title: 'Lateral value, adjusted, {side} {place}', unit: 'lb', formula: 'lagReferencePlaceSide * durationPlaceSide * shop.wetService', sentence: 'Z′ = Z·C_D·C_M. Group action and geometry factor are taken as 1: few stand in line with the load, at full distances.', source: adjusted },
		{ id: 'lagLateralModePlaceSide', title: 'Governing mode, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: 'if(known(lagReferencePlaceSide), if(lagImPlaceSide <= lagReferencePlaceSide, "lagLateralIm", if(lagIsPlaceSide <= lagReferencePlaceSide, "lagLateralIs", if(lagIIPlaceSide <= lagReferencePlaceSide, "lagLateralII", if(lagIIImPlaceSide <= lagReferencePlaceSide, "lagLateralIIIm", if(lagIIIsPlaceSide <= lagReferencePlaceSide, "lagLateralIIIs", "lagLateralIV"))))), "")', sentence: 'The mode with the least lateral value.', source: nds('12.3.1') },
		{ id: 'lagWithdrawalPlaceSide', title: 'Withdrawal, adjusted, {side} {place}', unit: 'lb', formula: 'lagWithdrawalPerInchSide * anchorSide.embedment * durationPlaceSide * shop.wetService', sentence: 'W′p = W·p·C_D·C_M over the thread in the wood, its tip left out.', source: adjusted },
		{ id: 'lagCombinedPlaceSide', title: 'Pull and shear together, {side} {place}', unit: 'lb', formula: 'lagWithdrawalPlaceSide * lagLateralPlaceSide * (square(tensionPlaceSide) + square(shearPlaceSide)) / (lagWithdrawalPlaceSide * square(shearPlaceSide) + lagLateralPlaceSide * square(tensionPlaceSide))', sentence: 'Z′α = W′p·Z′/(W′p·cos²α + Z′·sin²α), α from the face of the wood, by the two loads.', source: combined },
		{ id: 'woodTensionUsePlaceSide', title: 'Use in tension in wood, {side} {place}', unit: '1', formula: 'tensionPlaceSide / min(lagWithdrawalPlaceSide, lagSteelTensionSide)', sentence: 'Against withdrawal and the steel at the root.', source: nds('12.2.1') },
		{ id: 'woodShearUsePlaceSide', title: 'Use in shear in wood, {side} {place}', unit: '1', formula: 'shearPlaceSide / lagLateralPlaceSide', sentence: 'Against the governing mode.', source: nds('12.3.1') },
		{ id: 'woodUsePlaceSide', title: 'Use in wood, {side} {place}', unit: '1', formula: 'max(woodTensionUsePlaceSide, woodShearUsePlaceSide, if(tensionPlaceSide > 0 * lb && shearPlaceSide > 0 * lb, sqrt(square(tensionPlaceSide) + square(shearPlaceSide)) / lagCombinedPlaceSide, 0))', sentence: 'The largest of tension, shear and both together; 1 is full.', source: combined },
		{ id: 'woodModePlaceSide', title: 'Governs in wood, {side} {place}', unit: '1', kind: 'key' as const, vocabulary: 'failureModes', formula: 'if(known(woodUsePlaceSide), if(woodUsePlaceSide <= woodTensionUsePlaceSide, if(lagSteelTensionSide < lagWithdrawalPlaceSide, "screwTension", "lagWithdrawal"), if(woodUsePlaceSide <= woodShearUsePlaceSide, lagLateralModePlaceSide, "lagCombined")), "")', sentence: 'What would give way first.', source: definition },
		{ id: 'woodEdgeNeededPlaceSide', title: 'Least edge distance in wood, {side} {place}', unit: 'in', formula: lag('if(anchorSide.leastEdge > 0 * inch, anchorSide.leastEdge, if(acrossGrainPlaceSide && towardsEdgePlaceSide, 4 * anchorSide.diameter, if(min(anchorSide.embedment, legPlaceSide) > 6 * anchorSide.diameter, max(1.5 * anchorSide.diameter, acrossPlaceSide / 2), 1.5 * anchorSide.diameter)))'), sentence: 'Four diameters at an edge that is loaded across the grain; else one and a half, and half the row spacing where even the shorter bearing length is over six diameters. The report’s wins.', source: nds('Table 12.5.1C with the errata of July 2020; the loaded edge from memory') },
		{ id: 'woodEndNeededPlaceSide', title: 'Least end distance in wood, {side} {place}', unit: 'in', formula: lag('if(acrossGrainPlaceSide, 4, 7) * anchorSide.diameter'), sentence: 'For the full value in softwood: seven diameters where the load runs along the grain towards an end, four across it.', source: remembered('Table 12.5.1A') }
	]),
	...bySide([
		{ id: 'woodEdgeNeededSide', title: 'Least edge distance in wood {side}', unit: 'in', formula: 'max(woodEdgeNeededGuideSide, woodEdgeNeededBracketSide)', sentence: 'The larger of guide and bracket.', source: definition }
	])
]);
