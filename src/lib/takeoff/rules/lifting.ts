/** Chapter 6: what is lifted, how high, and whether a person may lift it. */
import { liftingEquation } from '../lifting-limit.ts';
import { arithmetic, chapter, definition, published, shop } from './rule.ts';

const reachOut = published(
	'DHHS (NIOSH) 94-110, rev. 9/2021, 1.3.1.1: H = 8 + W/2 in, or 10 + W/2 in with the hands below 10 in.'
);

// prettier-ignore
export const liftingRules = chapter(6, [
	{ id: 'driveWeight', title: 'Drive weight', unit: 'lb', formula: 'if(operation == "tubeMotor", drive.weight, operator.weight)', sentence: 'The tube motor, or the hand operator.', source: shop },
	{ id: 'coilWeight', title: 'Coil weight', unit: 'lb', formula: 'barrelWeight + curtainWeight + driveWeight + if(known(springWeight), springWeight, 0 * lb)', sentence: 'What is lifted into the brackets in one piece, springs inside.', source: definition },
	{ id: 'bracketWeight', title: 'Brackets', unit: 'lb', formula: 'bracket.pairWeight', sentence: 'One pair an opening.', source: shop },
	{ id: 'guideWeight', title: 'Guides', unit: 'lb', formula: '(guideLeft.weight + guideRight.weight) * guideLength', sentence: 'Both guides.', source: shop },
	{ id: 'shippingWeight', title: 'Shipping weight', unit: 'lb', formula: '(coilWeight + bracketWeight + hoodWeight + guideWeight) * (1 + shop.crateShare)', sentence: 'With crate and packing.', source: shop },
	{ id: 'crateLength', title: 'Crate length', unit: 'in', formula: 'bracketDistance + shop.crateAllowance', sentence: 'To compare with lift, door and corridor.', source: shop },
	{ id: 'workHeight', title: 'Work height', unit: 'in', formula: 'sillAboveFloor + openingHeight + requiredHeadroom', sentence: 'Above the finished floor, to the top of what is worked at.', source: definition },
	{ id: 'liftTo', title: 'Coil lifted to', unit: 'in', formula: 'sillAboveFloor + openingHeight + throat', sentence: 'Centre of the barrel above the finished floor.', source: definition },
	{ id: 'liftTravel', title: 'Coil lifted by', unit: 'in', formula: 'abs(liftTo - shop.liftFrom)', sentence: 'From where it is gripped to the brackets.', source: arithmetic },
	{ id: 'coilReachOutFrom', title: 'Coil held out, gripped', unit: 'in', formula: 'if(shop.liftFrom < 10 * inch, 10 * inch, 8 * inch) + swingDiameter / 2', sentence: 'Hands at the middle of the coil, from the middle between the ankles.', source: reachOut },
	{ id: 'coilReachOutTo', title: 'Coil held out, set down', unit: 'in', formula: 'if(liftTo < 10 * inch, 10 * inch, 8 * inch) + swingDiameter / 2', sentence: 'The same at the brackets.', source: reachOut },
	{ id: 'handLiftFrom', title: 'Hand limit, gripped', unit: 'lb', formula: 'coilLiftLimit(coilReachOutFrom, shop.liftFrom, shop.liftFrom, liftTravel, shop.liftRate)', sentence: 'By the revised NIOSH equation where the lift begins.', source: liftingEquation },
	{ id: 'handLiftTo', title: 'Hand limit, set down', unit: 'lb', formula: 'coilLiftLimit(coilReachOutTo, liftTo, shop.liftFrom, liftTravel, shop.liftRate)', sentence: 'By the revised NIOSH equation at the brackets, where the coil has to be set in with care.', source: liftingEquation },
	{ id: 'handLiftLimit', title: 'Hand limit', unit: 'lb', formula: 'min(handLiftFrom, handLiftTo)', sentence: 'The lesser of both ends, for one person standing on the floor, with both hands. 0 where the equation allows no lift at all; from a ladder, one-handed or by several people together it says nothing.', source: liftingEquation },
	{ id: 'liftingIndex', title: 'Lifting index', unit: '1', formula: 'if(handLiftLimit > 0 * lb, coilWeight / handLiftLimit, unknown)', sentence: 'Weight over limit; not known where there is no limit to divide by.', source: liftingEquation },
	{ id: 'byHandAllowed', title: 'By hand within the limit', unit: '1', kind: 'flag', formula: 'handLiftLimit > 0 * lb && coilWeight <= handLiftLimit', sentence: 'Otherwise a lift carries the coil.', source: liftingEquation },
	{ id: 'liftHolds', title: 'Lift carries the coil', unit: '1', kind: 'flag', formula: 'lift.capacity >= coilWeight && lift.reach >= liftTo', sentence: 'Tested for every lift of the shop book.', source: shop },
	{ id: 'heaviestGuide', title: 'Heaviest guide', unit: 'lb', formula: 'max(guideWeightLeft, guideWeightRight)', sentence: 'What is carried and held up to the wall at once.', source: shop },
	{ id: 'hoodPieceWeight', title: 'Hood piece', unit: 'lb', formula: 'if(hoodPieces > 0, hoodWeight / hoodPieces, 0 * lb)', sentence: 'Sheet of one piece, without its supports.', source: arithmetic }
]);
