/** Torque and hand force over the travel, as plots in the units of the job. Points from `travelCurve`, peaks from the rules. */
import { inUnit } from '../../quantity/format.ts';
import type { Engine } from '../../takeoff/engine.ts';
import { travelCurve } from '../../takeoff/imbalance.ts';
import type { Measures } from '../../takeoff/inputs.ts';
import { unitFor } from '../../takeoff/vocabulary.ts';
import type { Read } from '../../drawing/readings.ts';
import { figures, type Figure } from './figure.ts';
import { operatedBy } from './sections.ts';

type Stroke = 'full' | 'dashed' | 'dotted' | 'long';

/** A line over the whole travel. */
interface Series {
	readonly name: string;
	readonly stroke: Stroke;
	/** In the unit of the axis. */
	readonly values: readonly number[];
	/** Figures of it that have a working. */
	readonly figures: readonly Figure[];
}

/** The same at any height. */
interface Level {
	readonly name: string;
	readonly stroke: Stroke;
	readonly value: number;
	readonly figures: readonly Figure[];
}

/** A point of a line that matters. */
export interface Peak {
	readonly at: number;
	readonly value: number;
	readonly text: string;
}

export interface Plot {
	readonly name: string;
	/** Said instead of the picture. */
	readonly description: string;
	readonly across: { readonly title: string; readonly unit: string; readonly values: readonly number[] };
	readonly up: { readonly title: string; readonly unit: string };
	readonly series: readonly Series[];
	readonly levels: readonly Level[];
	readonly peaks: readonly Peak[];
}

/** Points of a curve: a hundredth of the travel apart, so that a peak is met within a pixel. */
const points = 101;

const read = <K extends string>(ids: readonly K[], from: Read): Record<K, number> | null => {
	const values = ids.map((id) => [id, from(id)] as const);
	if (values.some(([, value]) => typeof value !== 'number')) return null;
	return Object.fromEntries(values) as Record<K, number>;
};

const hangingIds = [
	'closedWeight',
	'runWeight',
	'coilDiameterClosed',
	'curtain.wrap',
	'openingHeight',
	'peakTorque',
	'peakTorqueAt',
	'requiredTorque'
] as const;

const springIds = [
	'springRate',
	'springWoundTurns',
	'shop.guideFriction',
	'shop.handForceLimit',
	'worstImbalance',
	'worstImbalanceAt',
	'handForce',
	'handForceAt'
] as const;

/** Plots of an opening: torque, and by hand what is left for the hand. None while nothing is computed. */
export function travelPlots(engine: Engine, measures: Measures, of: Read): readonly Plot[] {
	const hanging = read(hangingIds, of);
	const by = operatedBy(of);
	if (!hanging || by === null) return [];
	const figure = figures(engine, measures, of);
	const unitOf = (id: string): string => {
		const definition = engine.rules.definition(id);
		return definition ? unitFor(definition, measures) : '1';
	};
	const travelUnit = measures === 'metric' ? 'm' : 'ft';
	const torqueUnit = unitOf('peakTorque');
	const forceUnit = unitOf('handForce');

	const springs = by === 'hand' ? read(springIds, of) : null;
	const lever = of('gearLever');
	const curve = travelCurve(
		{
			closedWeight: hanging.closedWeight,
			runWeight: hanging.runWeight,
			coilDiameterClosed: hanging.coilDiameterClosed,
			wrap: hanging['curtain.wrap'],
			openingHeight: hanging.openingHeight
		},
		springs && {
			rate: springs.springRate,
			woundTurns: springs.springWoundTurns,
			friction: springs['shop.guideFriction'],
			lever: typeof lever === 'number' ? lever : null
		},
		points
	);
	const travel = curve.travel.map((s) => inUnit(s, travelUnit));
	const torques = (values: readonly number[]): number[] => values.map((value) => inUnit(value, torqueUnit));
	const peak = (at: string, value: string, unit: string, word: string): Peak[] => {
		const [s, v] = [of(at), of(value)];
		if (typeof s !== 'number' || typeof v !== 'number') return [];
		return [
			{
				at: inUnit(s, travelUnit),
				value: inUnit(v, unit),
				text: `${word} ${figure(value).text} at ${figure(at).text}`
			}
		];
	};
	const across = { title: 'Bar above the sill', unit: travelUnit, values: travel };
	const curtain: Series = {
		name: 'Curtain',
		stroke: 'full',
		values: torques(curve.curtainTorque),
		figures: ['peakTorque', 'peakTorqueAt', 'closedTorque', 'openTorque'].map(figure)
	};
	const peakWords = `The curtain pulls ${figure('closedTorque').text} closed, ${figure('openTorque').text} open and at most ${figure('peakTorque').text}, with the bar ${figure('peakTorqueAt').text} above the sill.`;
	const torquePlot = {
		name: 'Torque over the travel',
		across,
		up: { title: 'Torque', unit: torqueUnit }
	};

	if (by === 'motor') {
		const rated = of('driveTorque');
		const share = hanging.peakTorque > 0 ? hanging.requiredTorque / hanging.peakTorque : 1;
		const needed: Series = {
			name: 'Needed, with friction and service factor',
			stroke: 'dashed',
			values: curtain.values.map((value) => value * share),
			figures: [figure('requiredTorque')]
		};
		return [
			{
				...torquePlot,
				description: `${peakWords} With guide friction and the service factor ${figure('requiredTorque').text} is needed; the drive gives ${figure('driveTorque').text}.`,
				series: [curtain, needed],
				levels:
					typeof rated === 'number'
						? [
								{
									name: 'Drive, rated',
									stroke: 'long',
									value: inUnit(rated, torqueUnit),
									figures: [figure('driveTorque')]
								}
							]
						: [],
				peaks: peak('peakTorqueAt', 'peakTorque', torqueUnit, 'peak')
			}
		];
	}

	const { balance } = curve;
	if (!springs || !balance)
		return [
			{
				...torquePlot,
				description: `${peakWords} There are no springs to set against it.`,
				series: [curtain],
				levels: [],
				peaks: peak('peakTorqueAt', 'peakTorque', torqueUnit, 'peak')
			}
		];
	return [
		{
			...torquePlot,
			description: `${peakWords} The springs balance it closed and open; between, the curtain outweighs them by at most ${figure('worstImbalance').text}, with the bar ${figure('worstImbalanceAt').text} above the sill.`,
			series: [
				curtain,
				{
					name: 'Springs',
					stroke: 'dashed',
					values: torques(balance.springTorque),
					figures: [figure('springRate')]
				},
				{
					name: 'Imbalance',
					stroke: 'dotted',
					values: torques(balance.imbalance),
					figures: ['worstImbalance', 'worstImbalanceAt'].map(figure)
				}
			],
			levels: [],
			peaks: peak('worstImbalanceAt', 'worstImbalance', torqueUnit, 'imbalance')
		},
		{
			name: 'Hand force over the travel',
			description: `Raising the curtain takes at most ${figure('handForce').text} by hand, with the bar ${figure('handForceAt').text} above the sill; the limit of the shop book is ${figure('shop.handForceLimit').text}.`,
			across,
			up: { title: 'Hand force', unit: forceUnit },
			series: [
				{
					name: 'Hand force, going up',
					stroke: 'full',
					values: balance.handForce.map((value) => inUnit(value, forceUnit)),
					figures: ['handForce', 'handForceAt'].map(figure)
				}
			],
			levels: [
				{
					name: 'Limit',
					stroke: 'long',
					value: inUnit(springs['shop.handForceLimit'], forceUnit),
					figures: [figure('shop.handForceLimit')]
				}
			],
			peaks: peak('handForceAt', 'handForce', forceUnit, 'most')
		}
	];
}
