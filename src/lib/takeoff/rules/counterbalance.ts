/**
 * Chapter 3, third part: torsion springs for hand operation, and what is left for the hand.
 *
 * Springs turn with the coil, so their torque is a straight line over the coil's diameter C. The curtain's torque over C
 * is pC − qC³, with q = πλ/8t (λ weight per travel, t wrap). Springs that fit it at both ends C₀ and C₁ are its chord, so
 * the curtain outweighs them everywhere between by q·(C − C₀)(C₁ − C)(C + C₀ + C₁). Every maximum below follows from
 * that in closed form; there is nothing to scan.
 */
import type { Source } from '../../rulebook/definition.ts';
import { arithmetic, chapter, commonPractice, definition, published, shop } from './rule.ts';

const shigley = (what: string): Source =>
	published(`Shigley’s Mechanical Engineering Design, 10th ed., section 10-12, ${what}.`);

const calculus: Source = {
	basis: 'definition',
	text: 'Calculus: where the derivative over the coil’s diameter is zero.'
};

const cycleShares: Source = {
	basis: 'fromMemory',
	text: 'Shigley’s Mechanical Engineering Design, 10th ed., Table 10-10, ASTM A228, not shot-peened: 0.50 at 1 000 000 cycles as printed with Example 10-8; 0.53 at 100 000 from memory. Taken for every wire; the table begins at 100 000 and ends at 1 000 000.'
};

const steelWeight: Source = {
	basis: 'commonPractice',
	text: 'Steel at 0.284 lb/in³, common practice; the steel manual’s 490 lb/ft³ is 0.2836.'
};

// prettier-ignore
export const counterbalanceRules = chapter(3, [
	{ id: 'springRate', title: 'Spring rate, one turn', unit: 'lb-ft', formula: 'if(handOperated && openTorque >= 0 && closedTorque > openTorque, (closedTorque - openTorque) / driveTurns, unknown)', sentence: 'Torque that all springs together gain with each turn, so that they balance the curtain closed and open. A torque that does not fall as the curtain rises no spring can follow.', source: arithmetic },
	{ id: 'springInitialTurns', title: 'Spring turns, open', unit: '1', formula: 'openTorque / springRate', sentence: 'Wound up already with the bar at the head.', source: arithmetic },
	{ id: 'springWoundTurns', title: 'Spring turns, closed', unit: '1', formula: 'closedTorque / springRate', sentence: 'To wind with the bar on the sill: the turns of the travel on top of those open.', source: arithmetic },
	{ id: 'springEnergy', title: 'Energy in the springs', unit: 'lb-ft', formula: 'pi * closedTorque * springWoundTurns', sentence: 'What the springs give back if they come loose with the bar on the sill: half of torque times angle, 2π to the turn.', source: arithmetic },
	{ id: 'springTorqueClosed', title: 'Torque of one spring, closed', unit: 'lb-ft', formula: 'closedTorque / springSet.count', sentence: 'Springs on one shaft share the torque.', source: arithmetic },
	{ id: 'springTorqueOpen', title: 'Torque of one spring, open', unit: 'lb-ft', formula: 'openTorque / springSet.count', sentence: 'Springs on one shaft share the torque.', source: arithmetic },
	{ id: 'springMeanDiameter', title: 'Mean diameter of the springs', unit: 'in', formula: 'if(barrel.bore - 2 * shop.springClearance > 2 * springSet.wire, barrel.bore - 2 * shop.springClearance - springSet.wire, unknown)', sentence: 'The largest that turns freely inside the barrel; wound up it only grows smaller.', source: shop },
	{ id: 'springIndex', title: 'Spring index', unit: '1', formula: 'springMeanDiameter / springSet.wire', sentence: 'Mean diameter over wire, C.', source: definition },
	{ id: 'springIndexPasses', title: 'Spring index passes', unit: '1', kind: 'flag', formula: 'springIndex >= 4 && springIndex <= 16', sentence: 'Tighter is hard to wind, wider buckles and tangles.', source: commonPractice },
	{ id: 'springCurvature', title: 'Curvature factor', unit: '1', formula: '(4 * square(springIndex) - springIndex - 1) / (4 * springIndex * (springIndex - 1))', sentence: 'Bending is greatest at the inside of the coil: Ki = (4C² − C − 1)/(4C(C − 1)).', source: shigley('Eq. 10-43') },
	{ id: 'springStress', title: 'Spring stress, closed', unit: 'ksi', formula: 'springCurvature * 32 * springTorqueClosed / (pi * springSet.wire * square(springSet.wire))', sentence: 'Bending of the wire, Ki·32M/πd³, with the bar on the sill.', source: shigley('Eq. 10-44') },
	{ id: 'springStrength', title: 'Tensile strength of the wire', unit: 'ksi', formula: 'springSet.strength / power(springSet.wire / inch, springSet.exponent)', sentence: 'Thin wire is stronger: Sut = A/dᵐ with d in inches.', source: published('Shigley’s Mechanical Engineering Design, 10th ed., Eq. 10-14 and Table 10-4.') },
	{ id: 'springAllowed', title: 'Allowed spring stress', unit: 'ksi', formula: '0.78 * springStrength', sentence: 'Yield in bending of music and cold-drawn wire, 0.78 Sut; oil-tempered wire would stand more.', source: shigley('yield strength of Example 10-8') },
	{ id: 'springStressPasses', title: 'Spring stress passes', unit: '1', kind: 'flag', formula: 'springStress <= springAllowed', sentence: 'Tested for every set of springs.', source: shigley('yield strength of Example 10-8') },
	{ id: 'springCycleShare', title: 'Share of strength at the cycles', unit: '1', formula: 'if(shop.springCycles <= 100000, 0.53, if(shop.springCycles <= 1000000, 0.5, unknown))', sentence: 'Stress from zero that the wire stands for the cycles asked, as a share of its strength. Fewer than 100 000 are reckoned as 100 000; beyond 1 000 000 there is no figure.', source: cycleShares },
	{ id: 'springRepeatedStrength', title: 'Strength from zero at the cycles', unit: 'ksi', formula: 'springCycleShare * springStrength', sentence: 'Sr: bending stress that may come and go from zero for the cycles asked.', source: cycleShares },
	{ id: 'springEndurance', title: 'Strength fully reversed', unit: 'ksi', formula: 'springRepeatedStrength / 2 / (1 - square(springRepeatedStrength / 2 / springStrength))', sentence: 'Se by Gerber’s line through the strength from zero.', source: shigley('Eq. 10-58') },
	{ id: 'springStressAmplitude', title: 'Stress amplitude', unit: 'ksi', formula: 'springStress * (springTorqueClosed - springTorqueOpen) / (2 * springTorqueClosed)', sentence: 'Half the stress between open and closed, σa.', source: shigley('Example 10-8(c)') },
	{ id: 'springStressMean', title: 'Mean stress', unit: 'ksi', formula: 'springStress * (springTorqueClosed + springTorqueOpen) / (2 * springTorqueClosed)', sentence: 'Midway between open and closed, σm.', source: shigley('Example 10-8(c)') },
	{ id: 'springLoadLine', title: 'Load line', unit: '1', formula: 'springStressAmplitude / springStressMean', sentence: 'Amplitude over mean, the same for stress as for torque.', source: shigley('Example 10-8(c)') },
	{ id: 'springStrengthAmplitude', title: 'Strength amplitude', unit: 'ksi', formula: 'square(springLoadLine * springStrength) / (2 * springEndurance) * (sqrt(1 + square(2 * springEndurance / (springLoadLine * springStrength))) - 1)', sentence: 'Sa: where the load line meets Gerber’s line.', source: shigley('Eq. 10-59') },
	{ id: 'springFatigueFactor', title: 'Fatigue factor', unit: '1', formula: 'springStrengthAmplitude / springStressAmplitude', sentence: 'Strength amplitude over stress amplitude, nf.', source: shigley('Eq. 10-60') },
	{ id: 'springFatiguePasses', title: 'Springs last the cycles', unit: '1', kind: 'flag', formula: 'springFatigueFactor >= shop.springFatigueFactor', sentence: 'Tested for every set of springs.', source: shop },
	{ id: 'springActiveTurns', title: 'Active turns of one spring', unit: '1', formula: 'square(square(springSet.wire)) * springSet.elasticModulus * springSet.count / (10.8 * springMeanDiameter * springRate)', sentence: 'Na = d⁴E/(10.8·D·k′), each spring with its share of the rate. The ends are held by plugs, so there are no legs to add.', source: shigley('Eq. 10-51') },
	{ id: 'springBodyLength', title: 'Length of one spring, wound up', unit: 'in', formula: '(springActiveTurns + 1 + springWoundTurns) * springSet.wire', sentence: 'Closed wound, turn against turn; every turn wound up adds one thickness of wire.', source: arithmetic },
	{ id: 'springsLength', title: 'Springs along the barrel', unit: 'in', formula: 'springSet.count * springBodyLength + 2 * shop.springEndAllowance', sentence: 'All springs one after the other, and the plugs at both ends.', source: shop },
	{ id: 'springLengthPasses', title: 'Springs fit along the barrel', unit: '1', kind: 'flag', formula: 'springsLength <= bracketDistance', sentence: 'Tested for every set of springs.', source: arithmetic },
	{ id: 'springInsideWound', title: 'Inside of the springs, wound up', unit: 'in', formula: 'springMeanDiameter * springActiveTurns / (springActiveTurns + springWoundTurns) - springSet.wire', sentence: 'The same wire in more turns makes a smaller coil.', source: shigley('diameter under load') },
	{ id: 'springShaftPasses', title: 'Springs clear the shaft', unit: '1', kind: 'flag', formula: 'springInsideWound >= shop.springShaft', sentence: 'Wound up they must not bind on the shaft.', source: arithmetic },
	{ id: 'springSetHolds', title: 'Springs pass', unit: '1', kind: 'flag', formula: 'handOperated && springIndexPasses && springStressPasses && springFatiguePasses && springLengthPasses && springShaftPasses', sentence: 'Index, stress, fatigue, length and shaft; tested for one spring after the other, thin wire first.', source: definition },
	{ id: 'springWeight', title: 'Weight of the springs', unit: 'lb', formula: '0.284 * lb * (pi * square(springSet.wire / inch) / 4) * (pi * springMeanDiameter / inch * springActiveTurns) * springSet.count', sentence: 'Wire of all springs, its volume in cubic inches; plugs and shaft are not in it.', source: steelWeight },

	{ id: 'worstImbalanceCoil', title: 'Coil at the largest imbalance', unit: 'in', formula: 'if(known(springRate), sqrt((square(coilDiameterClosed) + coilDiameterClosed * coilDiameter + square(coilDiameter)) / 3), unknown)', sentence: 'Between the ends the curtain outweighs the springs by q·(C − C₀)(C₁ − C)(C + C₀ + C₁), most at C² = (C₀² + C₀C₁ + C₁²)/3.', source: calculus },
	{ id: 'worstImbalanceAt', title: 'Largest imbalance at', unit: 'in', formula: 'pi * (square(worstImbalanceCoil) - square(coilDiameterClosed)) / (4 * curtain.wrap)', sentence: 'Travel from the sill, from the coil’s diameter there.', source: arithmetic },
	{ id: 'worstImbalance', title: 'Largest imbalance', unit: 'lb-ft', formula: '(closedWeight - runWeight * worstImbalanceAt) * worstImbalanceCoil / 2 - (closedTorque - springRate * (worstImbalanceCoil - coilDiameterClosed) / (2 * curtain.wrap))', sentence: 'Torque of the curtain less that of the springs; nowhere between sill and head is it larger.', source: arithmetic },
	{ id: 'worstRimForceCoil', title: 'Coil at the largest pull', unit: 'in', formula: 'if(known(springRate), coilDiameterClosed * power(coilDiameter / coilDiameterClosed * (1 + coilDiameter / coilDiameterClosed) / 2, 1 / 3), unknown)', sentence: 'Imbalance over radius is greatest at C³ = C₀C₁(C₀ + C₁)/2.', source: calculus },
	{ id: 'worstRimForceAt', title: 'Largest pull at', unit: 'in', formula: 'pi * (square(worstRimForceCoil) - square(coilDiameterClosed)) / (4 * curtain.wrap)', sentence: 'Travel from the sill, from the coil’s diameter there.', source: arithmetic },
	{ id: 'worstRimForce', title: 'Largest pull, before friction', unit: 'lb', formula: 'closedWeight - runWeight * worstRimForceAt - (closedTorque - springRate * (worstRimForceCoil - coilDiameterClosed) / (2 * curtain.wrap)) / (worstRimForceCoil / 2)', sentence: 'Hanging weight less what the springs carry at the coil’s radius; nowhere between sill and head is it larger.', source: arithmetic },
	{ id: 'gearLever', title: 'Lever of hand on barrel', unit: 'in', formula: 'if(operation == "crank", shop.crankRatio * shop.crankArm * shop.gearEfficiency, if(operation == "chain", shop.chainRatio * shop.chainWheelRadius * shop.gearEfficiency, unknown))', sentence: 'Gearing times arm or wheel, less what the gears lose. A curtain pushed up by its bar has none: there the coil’s radius counts.', source: shop },
	{ id: 'handForceBeforeFriction', title: 'Hand force before friction', unit: 'lb', formula: 'if(springSet == "", unknown, if(operation == "pushUp", worstRimForce, worstImbalance / gearLever))', sentence: 'Largest imbalance at the bar, the crank or the chain. Not known without springs: an unbalanced curtain is not to be moved by hand.', source: arithmetic },
	{ id: 'handForceCoil', title: 'Coil at the largest hand force', unit: 'in', formula: 'min(max(if(operation == "pushUp", worstRimForceCoil / power(1 + shop.guideFriction, 1 / 3), sqrt((square(worstImbalanceCoil) + shop.guideFriction * (square(coilDiameterClosed) + 4 * curtain.wrap * closedWeight / (pi * runWeight)) / 3) / (1 + shop.guideFriction))), coilDiameterClosed), coilDiameter)', sentence: 'Friction f follows the hanging weight and so moves the maximum: at the bar C³ is less by 1 + f, at gears C² is the mean of that without friction and (C₀² + 4tW₀/πλ)/3, where the torque peaks, by 1 and f; or it is an end of the travel.', source: calculus },
	{ id: 'handForceAt', title: 'Largest hand force at', unit: 'in', formula: 'pi * (square(handForceCoil) - square(coilDiameterClosed)) / (4 * curtain.wrap)', sentence: 'Travel from the sill, from the coil’s diameter there.', source: arithmetic },
	{ id: 'handForce', title: 'Hand force', unit: 'lb', formula: 'if(springSet == "", unknown, ((1 + shop.guideFriction) * (closedWeight - runWeight * handForceAt) * handForceCoil / 2 - (closedTorque - springRate * (handForceCoil - coilDiameterClosed) / (2 * curtain.wrap))) / if(operation == "pushUp", handForceCoil / 2, gearLever))', sentence: 'Largest on the way up, with guide friction as a share of the hanging weight; the springs do not carry friction. Down it is less, since the curtain outweighs the springs.', source: shop },
	{ id: 'handForcePasses', title: 'Hand force passes', unit: '1', kind: 'flag', formula: 'handForce <= shop.handForceLimit', sentence: 'What one person is asked to push or pull.', source: shop }
]);
