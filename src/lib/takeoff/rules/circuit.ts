/**
 * Chapter 3: the circuit of a tube motor, single-phase, by NEC 2023. What comes out is for a licensed electrician to
 * confirm; local codes decide.
 */
import type { Source } from '../../rulebook/definition.ts';
import { arithmetic, chapter, published, shop } from './rule.ts';

const currents = published(
	'NEC (NFPA 70) 2023, Table 430.248, with its ranges of 110 to 120 V and 220 to 240 V; 430.6(A)(1): the table, not the nameplate, sizes conductor and breaker.'
);
const conductors = published(
	'NEC (NFPA 70) 2023, 430.22: 125 % of the full-load current; Table 310.16, copper, 75 °C.'
);
const breakers = published(
	'NEC (NFPA 70) 2023, Table 430.52(C)(1), inverse-time breaker: 250 %, next standard size up allowed. Above the usual one of the wire is allowed for a motor, 240.4(G).'
);
const resistance = published('NEC (NFPA 70) 2023, Chapter 9, Table 8, with V = 2·L·I·R, out and back.');
const advice: Source = {
	basis: 'fromMemory',
	text: 'NEC (NFPA 70) 2023, 210.19, informational note: 3 % is advice, not a rule; from memory.'
};
const inSight: Source = {
	basis: 'fromMemory',
	text: 'NEC (NFPA 70) 2023, 430.102 and Article 100, in sight: visible and within 50 ft; from memory.'
};

const confirm = 'For a licensed electrician to confirm.';

// prettier-ignore
export const circuitRules = chapter(3, [
	{ id: 'motorSize', title: 'Motor size, hp', unit: '1', kind: 'key', vocabulary: 'motorCurrents', formula: 'drive.horsepower', sentence: 'As the code’s table of currents has it.', source: shop },
	{ id: 'fullLoadCurrent', title: 'Full-load current', unit: 'A', formula: 'if(motorised, if(supplyVoltage >= 110 * volt && supplyVoltage <= 120 * volt, motor.at115, if(supplyVoltage == 200 * volt, motor.at200, if(supplyVoltage == 208 * volt, motor.at208, if(supplyVoltage >= 220 * volt && supplyVoltage <= 240 * volt, motor.at230, unknown)))), unknown)', sentence: `By the table, for the motor and its supply; not known for a voltage the table does not have. ${confirm}`, source: currents },
	{ id: 'conductorAmpacityNeeded', title: 'Ampacity needed', unit: 'A', formula: '1.25 * fullLoadCurrent', sentence: `What the conductor must carry; the rule for continuous duty, on the safe side for a motor that rests. ${confirm}`, source: conductors },
	{ id: 'conductorCarries', title: 'Conductor carries the current', unit: '1', kind: 'flag', formula: 'conductor.ampacity75 >= conductorAmpacityNeeded && conductor.area >= 4110', sentence: `By the 75 °C column, for terminals marked for it, and not thinner than 14 AWG (4110 circular mils). ${confirm}`, source: conductors },
	{ id: 'voltageDrop', title: 'Voltage drop', unit: 'V', formula: '2 * feedLength * fullLoadCurrent * conductor.resistance', sentence: `Lost on the way there and back at full load; not known without the feed length. ${confirm}`, source: resistance },
	{ id: 'voltageDropShare', title: 'Voltage drop, share of the supply', unit: '1', formula: 'voltageDrop / supplyVoltage', sentence: 'To compare with the shop book’s limit.', source: arithmetic },
	{ id: 'conductorDropPasses', title: 'Voltage drop passes', unit: '1', kind: 'flag', formula: '!known(feedLength) || voltageDropShare <= shop.voltageDropLimit', sentence: 'Not held against a conductor while the feed length is not given.', source: advice },
	{ id: 'conductorHolds', title: 'Conductor will do', unit: '1', kind: 'flag', formula: 'conductorCarries && conductorDropPasses', sentence: `Tested for every size. ${confirm}`, source: conductors },
	{ id: 'breakerMost', title: 'Breaker by the code', unit: 'A', formula: '2.5 * fullLoadCurrent', sentence: `The most for an inverse-time breaker, before the next standard size up. ${confirm}`, source: breakers },
	{ id: 'breakerHolds', title: 'Breaker will do', unit: '1', kind: 'flag', formula: 'breaker.rating >= breakerMost', sentence: `Tested for every standard size. ${confirm}`, source: breakers },
	{ id: 'disconnectWithin', title: 'Disconnect within', unit: 'in', formula: 'if(motorised, 50 * ft, unknown)', sentence: `Where the motor can be seen from, and no further from it. ${confirm}`, source: inSight }
]);
