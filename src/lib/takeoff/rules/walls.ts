/** Chapter 4: the walls, what lies on them, and the anchors that go through it. */
import { bySide, chapter, commonPractice, definition, published, shop } from './rule.ts';

const turned = 'Seen standing on the coil side; blank takes the shop book’s figure for this wall.';

const typed = ['Left', 'Right'].flatMap((side) => {
	const other = side === 'Left' ? 'right' : 'left';
	const own = side.toLowerCase();
	const turn = (what: string): string => `if(drawnFrom == "farSide", ${other}Wall${what}, ${own}Wall${what})`;
	return [
		{
			id: `typedStrength${side}`,
			title: `Wall strength ${own}, given`,
			unit: 'psi',
			formula: turn('Strength'),
			sentence: 'Seen standing on the coil side; a drawing seen from the far side is turned.',
			source: definition
		},
		{
			id: `typedThickness${side}`,
			title: `Wall thickness ${own}, given`,
			unit: 'in',
			formula: turn('Thickness'),
			sentence: 'Seen standing on the coil side; a drawing seen from the far side is turned.',
			source: definition
		}
	];
});

// prettier-ignore
export const wallRules = chapter(4, [
	...typed,
	...bySide([
		{ id: 'wallStrengthSide', title: 'Wall strength {side}', unit: 'psi', formula: 'if(known(typedStrengthSide), typedStrengthSide, if(substrateSide.strength > 0 * psi, substrateSide.strength, unknown))', sentence: `f′c of concrete, f′m of masonry, Fu of steel. ${turned}`, source: shop },
		{ id: 'wallThicknessSide', title: 'Wall thickness {side}', unit: 'in', formula: 'if(known(typedThicknessSide), typedThicknessSide, substrateSide.thickness)', sentence: `Of the wall, the steel, the backing or the wood; between jambs what the anchors stand across. ${turned}`, source: shop },
		{ id: 'wallCrackedSide', title: 'Concrete cracked {side}', unit: '1', kind: 'flag' as const, formula: 'wallCondition == "cracked" || wallCondition == "" && substrateSide.cracked == 1', sentence: 'Cracked unless the row or the shop book says otherwise.', source: commonPractice },
		{ id: 'stackSide', title: 'Under the nut {side}', unit: 'in', formula: 'max(guideSide.legThickness, shop.plateThickness) + shop.shimAllowance + if(known(finishBuildUp), finishBuildUp, 0 * inch)', sentence: 'Guide leg or wall plate, whichever is thicker, shims, and board or tile: shims eat embedment. One length serves guide and bracket.', source: commonPractice },
		{ id: 'throughSide', title: 'In or through the wall {side}', unit: 'in', formula: 'if(anchorSide.kind == "throughBolt" || anchorSide.kind == "selfDrillingScrew", wallThicknessSide, anchorSide.embedment)', sentence: 'Embedment in solid walls, the whole thickness of steel or backing.', source: commonPractice },
		{ id: 'anchorLengthNeededSide', title: 'Anchor length needed {side}', unit: 'in', formula: 'throughSide + anchorSide.tip + stackSide + anchorSide.nut', sentence: 'Embedment and tip, what lies under the head or nut, and the nut with its tail.', source: commonPractice },
		{ id: 'anchorReachesSide', title: 'Anchor long enough {side}', unit: '1', kind: 'flag' as const, formula: 'anchorStockSide.anchor == anchorSide && anchorStockSide.length >= anchorLengthNeededSide', sentence: 'Tested for every length the anchor is bought in.', source: shop },
		{ id: 'anchorLengthSide', title: 'Anchor length {side}', unit: 'in', formula: 'anchorStockSide.length', sentence: 'As bought.', source: shop },
		{ id: 'tighteningTorqueSide', title: 'Tightening torque {side}', unit: 'lb-ft', formula: 'if(anchorSide.torque > 0 * lb * ft, anchorSide.torque, if(anchorSide.kind == "throughBolt" && anchorSide.proofStress > 0 * psi, shop.nutFactor * anchorSide.diameter * boltClampSide, unknown))', sentence: 'The report’s figure wins; a through bolt takes T = K·d·P.', source: commonPractice },
		{ id: 'boltClampSide', title: 'Clamp of a through bolt {side}', unit: 'lb', formula: 'if(anchorSide.proofStress > 0 * psi, 0.75 * anchorSide.proofStress * anchorSide.stressArea, unknown)', sentence: 'P, three quarters of the proof load: 0.75·Sp·At.', source: published('SAE J429 (2014) proof stress with T = K·D·P; 75 % of proof is the usual preload.') }
	]),
	{ id: 'stackHead', title: 'Under the nut at the head', unit: 'in', formula: 'shop.plateThickness + shop.shimAllowance + if(known(finishBuildUp), finishBuildUp, 0 * inch)', sentence: 'Foot of the hood support, shims, and board or tile.', source: commonPractice },
	{ id: 'throughHead', title: 'In or through the wall at the head', unit: 'in', formula: 'if(anchorHead.kind == "throughBolt" || anchorHead.kind == "selfDrillingScrew", substrateHead.thickness, anchorHead.embedment)', sentence: 'Embedment in solid walls, the whole thickness of steel or backing.', source: commonPractice },
	{ id: 'anchorLengthNeededHead', title: 'Anchor length needed at the head', unit: 'in', formula: 'throughHead + anchorHead.tip + stackHead + anchorHead.nut', sentence: 'Embedment and tip, what lies under the head or nut, and the nut with its tail.', source: commonPractice },
	{ id: 'anchorReachesHead', title: 'Anchor long enough at the head', unit: '1', kind: 'flag', formula: 'anchorStockHead.anchor == anchorHead && anchorStockHead.length >= anchorLengthNeededHead', sentence: 'Tested for every length the anchor is bought in.', source: shop },
	{ id: 'anchorLengthHead', title: 'Anchor length at the head', unit: 'in', formula: 'anchorStockHead.length', sentence: 'As bought.', source: shop }
]);
