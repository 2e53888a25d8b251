/**
 * Openings for the tests of the drawings, their figures worked out by hand (inches) with the invented demo shop book:
 * A, B and C are the three worked openings of the book; the others say how they differ. All invented.
 */
import { names, type Read } from './readings.ts';
import type { DrawnOpening } from './scene.ts';

type Name = keyof typeof names;
type Sample = Readonly<Partial<Record<Name, number | string>>>;

/** Lengths in inches here, nm when read; these are counts. */
const counts = new Set<Name>([
	'anchorsLeft',
	'anchorsRight',
	'bracketAnchors',
	'holeColumns',
	'hoodPieces',
	'hoodSupports',
	'curtainRows'
]);

const faceOfWall = { mountingLeft: 'faceOfWall', mountingRight: 'faceOfWall' } as const;

/** 10'-0" × 4'-0" on a counter at 36 in, grouted block both sides. Closed coil √(4² + 4·0.5·15.5/π) = 5.086. */
const a: Sample = {
	...faceOfWall,
	openingWidth: 120,
	openingHeight: 48,
	sill: 'counter',
	sillHeight: 36,
	guideLeft: 'counter-face',
	guideRight: 'counter-face',
	substrateLeft: 'groutedBlock',
	substrateRight: 'groutedBlock',
	headSubstrate: 'groutedBlock',
	mouthLeft: 0.25,
	mouthRight: 0.25,
	guideDistance: 120.5,
	engagementLeft: 1.25,
	engagementRight: 1.25,
	curtainWidth: 123,
	offsetLeft: 2,
	offsetRight: 2,
	bracketDistance: 124.5,
	endDistanceLeft: 4,
	endDistanceRight: 4,
	anchorGaugeLeft: 2.25,
	anchorGaugeRight: 2.25,
	heelLeft: 1.5,
	heelRight: 1.5,
	anchorsLeft: 4,
	anchorsRight: 4,
	guideLength: 50,
	bracketSize: 10,
	bracketAnchors: 2,
	holeColumns: 1,
	holeGauge: 2.5,
	holeAcross: 3,
	holeEdge: 1.25,
	plateThickness: 0.25,
	throat: 7,
	barrelDiameter: 3.5,
	pitch: 1.5,
	wrap: 0.5,
	barHeight: 1.5,
	curtainRows: 46,
	coilDiameterClosed: 5.086,
	swingDiameter: 8.01,
	wallToBarrelCentre: 5,
	operation: 'tubeMotor',
	driveSide: 'right',
	overhang: 1.5,
	hoodPieces: 1,
	hoodSupports: 0,
	hoodPieceLength: 124.5,
	requiredHeadroom: 13.5,
	requiredSideRoomLeft: 3.25,
	requiredSideRoomRight: 4.75,
	requiredFrontRoom: 10.5,
	headroom: 24,
	frontRoom: 36
};

/** 16'-0" × 9'-0", concrete left, stud right, headroom short by 1 1/2". Closed coil √(5.4² + 4·0.9·21/π) = 7.295. */
const b: Sample = {
	...faceOfWall,
	openingWidth: 192,
	openingHeight: 108,
	sill: 'floor',
	sillHeight: 0,
	floorBuildUp: 2,
	finishBuildUp: 0.625,
	guideLeft: 'store-face',
	guideRight: 'store-face',
	substrateLeft: 'concrete',
	substrateRight: 'studWithBacking',
	headSubstrate: 'concrete',
	mouthLeft: 0.5,
	mouthRight: 0.5,
	guideDistance: 193,
	engagementLeft: 1.875,
	engagementRight: 1.875,
	curtainWidth: 196.75,
	offsetLeft: 3,
	offsetRight: 3,
	bracketDistance: 199,
	endDistanceLeft: 4,
	endDistanceRight: 4,
	anchorGaugeLeft: 3,
	anchorGaugeRight: 3,
	heelLeft: 1.75,
	heelRight: 1.75,
	anchorsLeft: 6,
	anchorsRight: 10,
	guideLength: 110,
	bracketSize: 16,
	bracketAnchors: 4,
	holeColumns: 2,
	holeGauge: 2.5,
	holeAcross: 3,
	holeEdge: 1.25,
	plateThickness: 0.25,
	throat: 10,
	barrelDiameter: 4.5,
	pitch: 2,
	wrap: 0.9,
	barHeight: 3,
	curtainRows: 68,
	coilDiameterClosed: 7.295,
	swingDiameter: 14.2,
	wallToBarrelCentre: 8,
	operation: 'tubeMotor',
	driveSide: 'left',
	overhang: 1.5,
	hoodPieces: 2,
	hoodSupports: 1,
	hoodPieceLength: 100.5,
	requiredHeadroom: 19.5,
	requiredSideRoomLeft: 5.75,
	requiredSideRoomRight: 4.25,
	requiredFrontRoom: 16.5,
	headroom: 18,
	sideRoomLeft: 5,
	sideRoomRight: 12,
	frontRoom: 17
};

/** 24'-0" × 10'-0", steel both sides, rooms not known. Closed coil √(7.375² + 4·0.75·26/π) = 8.901. */
const c: Sample = {
	...b,
	openingWidth: 288,
	openingHeight: 120,
	floorBuildUp: 0,
	finishBuildUp: 0,
	substrateLeft: 'structuralSteel',
	substrateRight: 'structuralSteel',
	headSubstrate: 'structuralSteel',
	guideDistance: 289,
	curtainWidth: 292.75,
	bracketDistance: 295,
	anchorsRight: 6,
	guideLength: 122,
	bracketSize: 18,
	throat: 11,
	barrelDiameter: 6.625,
	wrap: 0.75,
	curtainRows: 77,
	coilDiameterClosed: 8.901,
	swingDiameter: 14.67,
	wallToBarrelCentre: 9,
	driveSide: 'right',
	hoodPieces: 3,
	hoodSupports: 2,
	// (295 + 2 · 2) / 3
	hoodPieceLength: 299 / 3,
	requiredHeadroom: 21.5,
	requiredSideRoomLeft: 4.25,
	requiredSideRoomRight: 5.75,
	requiredFrontRoom: 18.5
};
const withoutRooms = (sample: Sample): Sample =>
	Object.fromEntries(
		Object.entries(sample).filter(
			([name]) => !['headroom', 'sideRoomLeft', 'sideRoomRight', 'frontRoom'].includes(name)
		)
	);

/** A between the jambs: mouths 2 in before the jambs, 120 − 4 = 116; curtain 118.5; brackets 116 + 3 = 119. */
const between: Sample = {
	...a,
	mountingLeft: 'betweenJambs',
	mountingRight: 'betweenJambs',
	guideLeft: 'counter-between',
	guideRight: 'counter-between',
	mouthLeft: -2,
	mouthRight: -2,
	anchorGaugeLeft: 2,
	anchorGaugeRight: 2,
	guideDistance: 116,
	curtainWidth: 118.5,
	offsetLeft: 1.5,
	offsetRight: 1.5,
	bracketDistance: 119,
	hoodPieceLength: 119,
	requiredSideRoomLeft: 2.75,
	requiredSideRoomRight: 4.25,
	headroom: 14,
	operation: 'crank',
	overhang: 4
};

/**
 * B turned over, its right side between the jambs (mouth 3 in before, offset 2.5): 192 + 0.5 − 3 = 189.5; curtain
 * 193.25; brackets 195. The job's drawing is seen from the far side; left and right here are the coil side's.
 */
const mixed: Sample = {
	...b,
	mountingRight: 'betweenJambs',
	guideRight: 'store-between',
	substrateLeft: 'studWithBacking',
	substrateRight: 'concrete',
	mouthRight: -3,
	guideDistance: 189.5,
	curtainWidth: 193.25,
	offsetRight: 2.5,
	anchorGaugeRight: 2.5,
	bracketDistance: 195,
	anchorsLeft: 10,
	anchorsRight: 6,
	hoodPieceLength: 98.5,
	driveSide: 'right',
	drawnFrom: 'farSide',
	operation: 'chain',
	overhang: 6,
	requiredSideRoomLeft: 4.25,
	requiredSideRoomRight: 9.75,
	sideRoomRight: 10
};

/** Only what was typed: nothing passed the search. */
const typed: Sample = {
	...faceOfWall,
	openingWidth: 120,
	openingHeight: 48,
	substrateLeft: 'brick',
	substrateRight: 'wood',
	driveSide: 'left'
};

export const samples = { a, b, c: withoutRooms(c), between, mixed, typed } as const;

/** Reads a sample as the takeoff would: lengths in nm, null for what is not there. @throws Error for an unknown id. */
export function reading(sample: Sample): Read {
	const byId = new Map<string, Name>(Object.entries(names).map(([name, id]) => [id, name as Name]));
	return (id) => {
		const name = byId.get(id);
		if (name === undefined) throw new Error(`${id} is not a quantity that the drawings read`);
		const value = sample[name] ?? null;
		return typeof value === 'number' && !counts.has(name) ? Math.round(value * 25_400_000) : value;
	};
}

/** A sample as an opening of a job. */
export const sampleOpening = (mark: string, sample: Sample): DrawnOpening => ({
	mark,
	openingId: null,
	get: reading(sample)
});
