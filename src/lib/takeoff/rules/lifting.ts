/** Chapter 6: what is lifted, and how high. */
import { chapter, definition, shop } from './rule.ts';

// prettier-ignore
export const liftingRules = chapter(6, [
	{ id: 'driveWeight', title: 'Drive weight', unit: 'lb', formula: 'if(operation == "tubeMotor", drive.weight, operator.weight)', sentence: 'The tube motor, or the hand operator.', source: shop },
	{ id: 'coilWeight', title: 'Coil weight', unit: 'lb', formula: 'barrelWeight + curtainWeight + driveWeight', sentence: 'What is lifted into the brackets in one piece.', source: definition },
	{ id: 'bracketWeight', title: 'Brackets', unit: 'lb', formula: 'bracket.pairWeight', sentence: 'One pair an opening.', source: shop },
	{ id: 'guideWeight', title: 'Guides', unit: 'lb', formula: '(guideLeft.weight + guideRight.weight) * guideLength', sentence: 'Both guides.', source: shop },
	{ id: 'shippingWeight', title: 'Shipping weight', unit: 'lb', formula: '(coilWeight + bracketWeight + hoodWeight + guideWeight) * (1 + shop.crateShare)', sentence: 'With crate and packing.', source: shop },
	{ id: 'crateLength', title: 'Crate length', unit: 'in', formula: 'bracketDistance + shop.crateAllowance', sentence: 'To compare with lift, door and corridor.', source: shop },
	{ id: 'workHeight', title: 'Work height', unit: 'in', formula: 'sillAboveFloor + openingHeight + requiredHeadroom', sentence: 'Above the finished floor, to the top of what is worked at.', source: definition }
]);
