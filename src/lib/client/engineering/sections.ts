/** What stands together in the engineering of an opening: the quantities of each part, and the checks that are about them. */
import type { Check } from '../../takeoff/result.ts';
import type { Read } from '../../drawing/readings.ts';

export type Side = 'Left' | 'Right';
export type Place = 'Guide' | 'Bracket';

/** In the order of the table: the two things that one wall holds stand side by side. */
export const places: readonly { readonly place: Place; readonly side: Side }[] = [
	{ place: 'Guide', side: 'Left' },
	{ place: 'Bracket', side: 'Left' },
	{ place: 'Guide', side: 'Right' },
	{ place: 'Bracket', side: 'Right' }
];

/** Quantities of what one place is held by. */
export function heldBy(place: Place, side: Side) {
	const guide = place === 'Guide';
	return {
		anchors: guide ? `anchorsPerGuide${side}` : 'anchorsPerBracket',
		apart: guide ? `anchorPitch${side}` : 'holePattern',
		tension: `tension${place}${side}`,
		shear: `shear${place}${side}`,
		edge: `edge${place}${side}`,
		mode: `mode${place}${side}`,
		use: `use${place}${side}`
	} as const;
}

/** Quantities of a wall that guide and bracket share. */
export const wallOf = (side: Side) =>
	({
		substrate: `substrate${side}`,
		stock: `anchorStock${side}`,
		edgeNeeded: `edgeNeeded${side}`
	}) as const;

export const driveIds = [
	'drive',
	'driveTorque',
	'requiredTorque',
	'driveTurns',
	'travelTime',
	'barSpeed',
	'dutyNeeded',
	'drive.thermalMinutes',
	'runInTime',
	'runInParts'
] as const;

export const circuitIds = [
	'motorSize',
	'supplyVoltage',
	'fullLoadCurrent',
	'conductorAmpacityNeeded',
	'conductor',
	'breaker',
	'feedLength',
	'voltageDrop',
	'voltageDropShare',
	'disconnectWithin'
] as const;

export const springIds = [
	'springSet',
	'springRate',
	'springInitialTurns',
	'springWoundTurns',
	'springMeanDiameter',
	'springIndex',
	'springStress',
	'springAllowed',
	'springFatigueFactor',
	'springBodyLength',
	'springsLength',
	'springWeight',
	'springEnergy',
	'worstImbalance',
	'handForce',
	'shop.handForceLimit'
] as const;

export const liftingIds = [
	'coilWeight',
	'liftTo',
	'handLiftLimit',
	'liftingIndex',
	'lift',
	'heaviestGuide',
	'hoodPieceWeight',
	'crateLength'
] as const;

const holdingIds: readonly string[] = [
	...places.flatMap(({ place, side }) => Object.values(heldBy(place, side))),
	...(['Left', 'Right'] as const).flatMap((side) => [
		...Object.values(wallOf(side)),
		`anchor${side}`,
		`anchorLengthNeeded${side}`,
		`thicknessNeeded${side}`,
		`stack${side}`
	]),
	'anchorTotal',
	'guidePull'
];

export type Section = 'holding' | 'drive' | 'springs' | 'lifting';

const subjects: Readonly<Record<Section, ReadonlySet<string>>> = {
	holding: new Set(holdingIds),
	drive: new Set<string>([...driveIds, ...circuitIds, 'closesByWeight']),
	springs: new Set<string>(springIds),
	lifting: new Set<string>([...liftingIds, 'workHeight'])
};

/** Stops and cautions about what a section shows, stops first; what is only worth a note stands with all checks. */
export const checksAbout = (section: Section, checks: readonly Check[]): readonly Check[] =>
	checks.filter(({ severity, rule }) => severity !== 'note' && rule !== null && subjects[section].has(rule));

/** Driven by a tube motor, by hand, or not said yet. */
export function operatedBy(read: Read): 'motor' | 'hand' | null {
	const operation = read('operation');
	if (operation === null) return null;
	return operation === 'tubeMotor' ? 'motor' : 'hand';
}
