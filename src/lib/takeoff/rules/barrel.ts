/** Chapter 3, first part: the barrel as a simple beam under curtain, bar and its own weight. */
import type { Source } from '../../rulebook/definition.ts';
import { chapter, commonPractice, published, shop } from './rule.ts';

const beam = (what: string) =>
	published(
		`AISC Steel Construction Manual, 15th ed., Table 3-23, case 1 (simple beam, uniform load): ${what}.`
	);

const perFoot: Source = { basis: 'commonPractice', text: 'Common practice: 0.03 in per foot of span.' };

const yielding: Source = {
	basis: 'fromMemory',
	text: 'AISC 360-16, F1, Ω = 1.67 for flexural yielding, on the elastic modulus; from memory.'
};

// prettier-ignore
export const barrelRules = chapter(3, [
	{ id: 'barrelWeight', title: 'Barrel weight', unit: 'lb', formula: 'barrel.weight * bracketDistance', sentence: 'Pipe over the span.', source: shop },
	{ id: 'barrelLoad', title: 'Load on the barrel', unit: 'lb/ft', formula: '(curtainWeight + barrelWeight) / bracketDistance', sentence: 'Curtain, bar and pipe spread over the span, all wound up.', source: commonPractice },
	{ id: 'barrelDeflection', title: 'Barrel deflection', unit: 'in', formula: '5 * barrelLoad * square(bracketDistance) * square(bracketDistance) / (384 * barrel.elasticModulus * barrel.secondMoment)', sentence: 'At mid-span.', source: beam('Δ = 5wL⁴/384EI') },
	{ id: 'deflectionLimit', title: 'Deflection limit', unit: 'in', formula: 'bracketDistance / shop.deflectionRatio', sentence: 'A span over 400 is 0.03 in per foot, the usual specification.', source: perFoot },
	{ id: 'deflectionPasses', title: 'Deflection passes', unit: '1', kind: 'flag', formula: 'barrelDeflection <= deflectionLimit', sentence: 'Tested by the search for every barrel.', source: perFoot },
	{ id: 'barrelStress', title: 'Barrel bending stress', unit: 'ksi', formula: 'barrelLoad * square(bracketDistance) / 8 * (barrel.outsideDiameter / 2) / barrel.secondMoment', sentence: 'Moment wL²/8 over the elastic section modulus.', source: beam('M = wL²/8') },
	{ id: 'stressLimit', title: 'Stress limit', unit: 'ksi', formula: 'barrel.yieldStress / shop.stressFactor', sentence: 'Yield stress over the factor of the shop book.', source: yielding },
	{ id: 'stressPasses', title: 'Stress passes', unit: '1', kind: 'flag', formula: 'barrelStress <= stressLimit', sentence: 'Tested by the search for every barrel.', source: yielding },
	{ id: 'barrelEndSlope', title: 'Barrel end slope', unit: '1', formula: 'barrelLoad * square(bracketDistance) * bracketDistance / (24 * barrel.elasticModulus * barrel.secondMoment)', sentence: 'What the bearings must take, in radians.', source: beam('θ = wL³/24EI') }
]);
