/**
 * What one person may lift with both hands: the revised NIOSH lifting equation, in inches and pounds. Applications
 * Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) Publication No. 94-110, revised 9/2021, section 1.3:
 * RWL = LC · HM · VM · DM · AM · FM · CM.
 *
 * It is for two hands, standing on firm ground with a good hold for the feet. It says nothing of a lift from a ladder,
 * with one hand, seated or kneeling, or by several people together (section 1.2). No law sets this limit.
 *
 * A multiplier outside its range is 0: the equation then gives no weight at all. Multipliers are not rounded; the
 * manual's worksheets multiply rounded ones and differ by up to 3 %.
 */
import type { NamedFunction, Source } from '../rulebook/definition.ts';

/** LC, load constant, lb. The metric 23 kg is a limit of its own, not a conversion. */
const loadConstant = 51;

const within = (value: number, most: number): boolean => value >= 0 && value <= most;

/**
 * HM = 10/H (1.3.1). Table 1 prints .46 and .44 at 22 and 23 in where the formula gives .4545 and .4348; the formula
 * governs.
 *
 * @param horizontal H, hands from the middle between the ankles, in; less than 10 counts as 10, more than 25 gives 0
 */
export const horizontalMultiplier = (horizontal: number): number =>
	within(horizontal, 25) ? 10 / Math.max(horizontal, 10) : 0;

/**
 * VM = 1 − 0.0075·|V − 30| (1.3.2).
 *
 * @param vertical V, hands above the floor, in; more than 70 gives 0
 */
export const verticalMultiplier = (vertical: number): number =>
	within(vertical, 70) ? 1 - 0.0075 * Math.abs(vertical - 30) : 0;

/**
 * DM = 0.82 + 1.8/D (1.3.3).
 *
 * @param distance D, how far up or down the hands go, in; less than 10 counts as 10, more than 70 gives 0
 */
export const distanceMultiplier = (distance: number): number =>
	within(distance, 70) ? 0.82 + 1.8 / Math.max(distance, 10) : 0;

/**
 * AM = 1 − 0.0032·A (1.3.4).
 *
 * @param asymmetry A, turned out of the middle plane to either side, degrees; more than 135 gives 0
 */
export const asymmetricMultiplier = (asymmetry: number): number =>
	within(asymmetry, 135) ? 1 - 0.0032 * asymmetry : 0;

/**
 * How long lifting goes on (1.3.5.2): `short` up to 1 h, then as long at light work; `moderate` up to 2 h, then 0.3 of
 * that; `long` up to 8 h.
 */
type LiftingDuration = 'short' | 'moderate' | 'long';

/**
 * Table 5: lifts a minute, then the multiplier for short, moderate and long duration, each for hands below 30 in and
 * from 30 in up. Every row from memory, compared with a public transcription of the 2021 print.
 */
// prettier-ignore
const frequencyTable: readonly (readonly [frequency: number, ...multipliers: readonly number[]])[] = [
	[0.2, 1.00, 1.00, 0.95, 0.95, 0.85, 0.85],
	[0.5, 0.97, 0.97, 0.92, 0.92, 0.81, 0.81],
	[1, 0.94, 0.94, 0.88, 0.88, 0.75, 0.75],
	[2, 0.91, 0.91, 0.84, 0.84, 0.65, 0.65],
	[3, 0.88, 0.88, 0.79, 0.79, 0.55, 0.55],
	[4, 0.84, 0.84, 0.72, 0.72, 0.45, 0.45],
	[5, 0.80, 0.80, 0.60, 0.60, 0.35, 0.35],
	[6, 0.75, 0.75, 0.50, 0.50, 0.27, 0.27],
	[7, 0.70, 0.70, 0.42, 0.42, 0.22, 0.22],
	[8, 0.60, 0.60, 0.35, 0.35, 0.18, 0.18],
	[9, 0.52, 0.52, 0.30, 0.30, 0.00, 0.15],
	[10, 0.45, 0.45, 0.26, 0.26, 0.00, 0.13],
	[11, 0.41, 0.41, 0.00, 0.23, 0.00, 0.00],
	[12, 0.37, 0.37, 0.00, 0.21, 0.00, 0.00],
	[13, 0.00, 0.34, 0.00, 0.00, 0.00, 0.00],
	[14, 0.00, 0.31, 0.00, 0.00, 0.00, 0.00],
	[15, 0.00, 0.28, 0.00, 0.00, 0.00, 0.00]
];

const durations: readonly LiftingDuration[] = ['short', 'moderate', 'long'];

/**
 * FM by Table 5 (1.3.5), in a straight line between its rows (section 1.3, p. 7). Between a row and one of 0, which the
 * manual leaves open, it is 0.
 *
 * @param frequency F, lifts a minute; less than 0.2 counts as 0.2, more than 15 gives 0
 * @param vertical V of the hands where the lift begins, in, also for its end (p. 15)
 */
export function frequencyMultiplier(frequency: number, duration: LiftingDuration, vertical: number): number {
	if (!within(frequency, 15)) return 0;
	const rate = Math.max(frequency, 0.2);
	const column = 1 + 2 * durations.indexOf(duration) + (vertical < 30 ? 0 : 1);
	const above = frequencyTable.findIndex(([row]) => row >= rate);
	const [next = 0, high = 0] = [frequencyTable[above]?.[0], frequencyTable[above]?.[column]];
	const [last = next, low = high] = [frequencyTable[above - 1]?.[0], frequencyTable[above - 1]?.[column]];
	if (rate === next || high === 0) return high;
	return low + ((high - low) * (rate - last)) / (next - last);
}

/** Table 6: `good` handles; `fair` fingers bent under it; `poor` bulky, or longer than 16 in. */
type Coupling = 'good' | 'fair' | 'poor';

/** Table 7: below 30 in and from 30 in up. */
const couplingTable: Readonly<Record<Coupling, readonly [below: number, above: number]>> = {
	good: [1, 1],
	fair: [0.95, 1],
	poor: [0.9, 0.9]
};

/**
 * CM by Table 7 (1.3.6).
 *
 * @param vertical V of the hands at the end of the lift that is reckoned, in
 */
export const couplingMultiplier = (coupling: Coupling, vertical: number): number =>
	couplingTable[coupling][vertical < 30 ? 0 : 1];

/** One end of a lift. The lesser limit of both ends holds where the load is set down with care (2.1.1). */
export interface HandLift {
	/** H, in. */
	readonly horizontal: number;
	/** V at this end, in. */
	readonly vertical: number;
	/** V where the lift begins, in. */
	readonly origin: number;
	/** D, in. */
	readonly distance: number;
	/** A, degrees. */
	readonly asymmetry: number;
	/** F, lifts a minute. */
	readonly frequency: number;
	readonly duration: LiftingDuration;
	readonly coupling: Coupling;
}

/** HM, VM, DM, AM, FM and CM, in this order. */
const multipliers = (lift: HandLift): readonly number[] => [
	horizontalMultiplier(lift.horizontal),
	verticalMultiplier(lift.vertical),
	distanceMultiplier(lift.distance),
	asymmetricMultiplier(lift.asymmetry),
	frequencyMultiplier(lift.frequency, lift.duration, lift.origin),
	couplingMultiplier(lift.coupling, lift.vertical)
];

/** RWL, recommended weight limit, lb; 0 where the equation allows no lift at all. */
export const recommendedWeight = (lift: HandLift): number =>
	multipliers(lift).reduce((product, multiplier) => product * multiplier, loadConstant);

/** A coil lifted into its brackets: no twist, one lift now and then, nothing to hold on to. */
const coilLift = (
	horizontal: number,
	vertical: number,
	origin: number,
	distance: number,
	frequency: number
): HandLift => ({
	horizontal,
	vertical,
	origin,
	distance,
	asymmetry: 0,
	frequency,
	duration: 'short',
	coupling: 'poor'
});

export const liftingEquation: Source = {
	basis: 'published',
	text: 'Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021, section 1.3. Guidance, no legal limit; not from a ladder, not one-handed, not by several people together.'
};

export const coilLiftFunction: NamedFunction = {
	name: 'coilLiftLimit',
	parameters: [
		{ name: 'horizontal', unit: 'in' },
		{ name: 'vertical', unit: 'in' },
		{ name: 'origin', unit: 'in' },
		{ name: 'distance', unit: 'in' },
		{ name: 'frequency', unit: '1' }
	],
	unit: 'lb',
	compute: (h, v, from, d, f) => recommendedWeight(coilLift(h, v, from, d, f)),
	explain: (h, v, from, d, f) => {
		const lift = coilLift(h, v, from, d, f);
		const [hm, vm, dm, am, fm, cm] = multipliers(lift).map((multiplier) => multiplier.toFixed(3));
		return [
			`HM = 10 / H = ${hm} at H = ${h.toFixed(2)} in (0 beyond 25 in)`,
			`VM = 1 − 0.0075 · |V − 30| = ${vm} at V = ${v.toFixed(2)} in (0 above 70 in)`,
			`DM = 0.82 + 1.8 / D = ${dm} at D = ${d.toFixed(2)} in (0 beyond 70 in)`,
			`AM = 1 − 0.0032 · A = ${am}: no twist`,
			`FM = ${fm} by Table 5: ${String(f)} lifts a minute for up to an hour, begun at ${from.toFixed(2)} in`,
			`CM = ${cm} by Table 7: a coil is bulky, a poor grip`,
			`RWL = 51 lb · HM · VM · DM · AM · FM · CM = ${recommendedWeight(lift).toFixed(1)} lb`
		];
	},
	sentence: 'What one person standing on the floor may lift with both hands, at one end of the lift.',
	source: liftingEquation
};
