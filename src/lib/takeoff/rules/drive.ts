/** Chapter 3, second part: torque over the travel, and the drive for it. */
import { arithmetic, chapter, commonPractice, shop } from './rule.ts';

// prettier-ignore
export const driveRules = chapter(3, [
	{ id: 'closedWeight', title: 'Hanging weight, closed', unit: 'lb', formula: 'runWeight * hangingLength + barWeight', sentence: 'Curtain below the barrel and the bar, bar just off the sill.', source: arithmetic },
	{ id: 'openWeight', title: 'Hanging weight, open', unit: 'lb', formula: 'runWeight * (throat - curtain.barHeight) + barWeight', sentence: 'Curtain in the throat and the bar, bar at the head.', source: arithmetic },
	{ id: 'closedTorque', title: 'Torque, closed', unit: 'lb-ft', formula: 'closedWeight * coilDiameterClosed / 2', sentence: 'Hanging weight times the radius it hangs at.', source: arithmetic },
	{ id: 'openTorque', title: 'Torque, open', unit: 'lb-ft', formula: 'openWeight * coilDiameter / 2', sentence: 'Hanging weight times the radius it hangs at.', source: arithmetic },
	{ id: 'peakTorqueAt', title: 'Peak torque at', unit: 'in', formula: 'min(max((4 * curtain.wrap / pi * closedWeight - 2 * runWeight * square(coilDiameterClosed)) / (3 * runWeight * 4 * curtain.wrap / pi), 0), openingHeight)', sentence: 'Going up, weight falls while the radius grows. Torque (a − λs)·√(b + ks)/2 has one maximum, at s = (ka − 2λb)/3kλ; outside the travel it is at an end.', source: { basis: 'definition', text: 'Calculus: where the derivative of the torque over the travel is zero.' } },
	{ id: 'peakTorque', title: 'Peak torque', unit: 'lb-ft', formula: '(closedWeight - runWeight * peakTorqueAt) * sqrt(square(coilDiameterClosed) + 4 * curtain.wrap * peakTorqueAt / pi) / 2', sentence: 'The largest torque anywhere between sill and head.', source: arithmetic },
	{ id: 'requiredTorque', title: 'Torque needed', unit: 'lb-ft', formula: 'peakTorque * (1 + shop.guideFriction) * shop.serviceFactor', sentence: 'Peak torque with guide friction and the service factor.', source: shop },
	{ id: 'driveTurns', title: 'Turns, closed to open', unit: '1', formula: '(coilDiameter - coilDiameterClosed) / (2 * curtain.wrap)', sentence: 'Each turn adds two thicknesses to the diameter.', source: arithmetic },
	{ id: 'driveEnters', title: 'Drive enters the bore', unit: '1', kind: 'flag', formula: 'drive.leastBore <= barrel.bore', sentence: 'Tested by the search for every drive.', source: shop },
	{ id: 'driveStrongEnough', title: 'Drive has the torque', unit: '1', kind: 'flag', formula: 'drive.torque >= requiredTorque', sentence: 'Tested by the search for every drive.', source: shop },
	{ id: 'driveTurnsEnough', title: 'Drive has the turns', unit: '1', kind: 'flag', formula: 'drive.turns >= driveTurns', sentence: 'Tested by the search for every drive.', source: shop },
	{ id: 'driveTorque', title: 'Drive torque', unit: 'lb-ft', formula: 'if(operation == "tubeMotor", drive.torque, unknown)', sentence: 'Rated torque of the tube motor chosen.', source: shop },
	{ id: 'travelTime', title: 'Travel time', unit: 's', formula: 'if(operation == "tubeMotor", driveTurns / drive.speed, unknown)', sentence: 'One way, at the motor’s speed.', source: arithmetic },
	{ id: 'cycleTime', title: 'Full cycle', unit: 's', formula: 'if(drive.speed > 0, 2 * driveTurns / drive.speed, unknown)', sentence: 'Up and down again, at the motor’s speed.', source: arithmetic },
	{ id: 'dutyNeeded', title: 'Time without a rest', unit: 'min', formula: 'shop.cyclesWithoutRest * cycleTime', sentence: 'The cycles that people will ask of it one after another.', source: shop },
	{ id: 'driveDutyEnough', title: 'Drive has the duty', unit: '1', kind: 'flag', formula: 'drive.thermalMinutes >= dutyNeeded', sentence: 'Runs so long before its thermal cut-out opens. Tested by the search for every drive.', source: shop },
	{ id: 'runInTime', title: 'Run-in', unit: 'min', formula: 'shop.runInCycles * cycleTime', sentence: 'The motor runs so long in all while it is run in.', source: shop },
	{ id: 'runInParts', title: 'Run-in, parts', unit: '1', kind: 'count', formula: 'ceil(runInTime / drive.thermalMinutes)', sentence: 'With a rest after each, so that the cut-out does not open.', source: arithmetic },
	{ id: 'barSpeed', title: 'Bar speed', unit: 'in/s', formula: 'if(drive.speed > 0, pi * coilDiameter * drive.speed, unknown)', sentence: 'At its fastest, on the full coil: v = 2πrn.', source: arithmetic },
	{ id: 'horsepowerNeeded', title: 'Power at the barrel, hp', unit: '1', formula: 'if(drive.speed > 0, 2 * pi * requiredTorque * drive.speed / (33000 * lb * ft / minute), unknown)', sentence: 'For information: T·n/5252, before the losses of the motor.', source: arithmetic },
	{ id: 'guideDrag', title: 'Drag in the guides', unit: 'lb', formula: '(guideLeft.drag + guideRight.drag) * guideLength', sentence: 'What the closing curtain has to overcome.', source: shop },
	{ id: 'closesByWeight', title: 'Closes by its weight', unit: '1', kind: 'flag', formula: 'openWeight > guideDrag', sentence: 'A tube motor lets the curtain down; the bar and what hangs in the throat must pull it.', source: commonPractice }
]);
