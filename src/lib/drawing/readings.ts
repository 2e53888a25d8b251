/** What a drawing needs to know of an opening: every quantity it reads, by its name in the takeoff, in one table. */

/** Reads one quantity of an opening: lengths in nm, counts, keys as words, null where it is not known. */
export type Read = (id: string) => number | string | null;

const lengthNames = {
	openingWidth: 'openingWidth',
	openingHeight: 'openingHeight',
	sillHeight: 'sillAboveFloor',
	floorBuildUp: 'floorBuildUp',
	finishBuildUp: 'finishBuildUp',
	guideDistance: 'guideDistance',
	mouthLeft: 'wallOffsetLeft',
	mouthRight: 'wallOffsetRight',
	engagementLeft: 'guideLeft.engagement',
	engagementRight: 'guideRight.engagement',
	offsetLeft: 'guideLeft.offset',
	offsetRight: 'guideRight.offset',
	endDistanceLeft: 'guideLeft.endDistance',
	endDistanceRight: 'guideRight.endDistance',
	anchorGaugeLeft: 'guideLeft.anchorGauge',
	anchorGaugeRight: 'guideRight.anchorGauge',
	heelLeft: 'guideLeft.heel',
	heelRight: 'guideRight.heel',
	curtainWidth: 'curtainWidth',
	pitch: 'curtain.pitch',
	wrap: 'curtain.wrap',
	barHeight: 'curtain.barHeight',
	bracketDistance: 'bracketDistance',
	bracketSize: 'bracketSize',
	holeGauge: 'bracket.holeGauge',
	holeAcross: 'bracket.holeAcross',
	holeEdge: 'bracket.holeEdge',
	plateThickness: 'shop.plateThickness',
	guideLength: 'guideLength',
	throat: 'throat',
	barrelDiameter: 'barrel.outsideDiameter',
	coilDiameterClosed: 'coilDiameterClosed',
	swingDiameter: 'swingDiameter',
	wallToBarrelCentre: 'wallToBarrelCentre',
	overhang: 'operator.overhang',
	hoodPieceLength: 'hoodPieceLength',
	headroom: 'headroom',
	sideRoomLeft: 'sideRoomLeft',
	sideRoomRight: 'sideRoomRight',
	frontRoom: 'frontRoom',
	requiredHeadroom: 'requiredHeadroom',
	requiredSideRoomLeft: 'requiredSideRoomLeft',
	requiredSideRoomRight: 'requiredSideRoomRight',
	requiredFrontRoom: 'requiredFrontRoom'
} as const;

const countNames = {
	anchorsLeft: 'anchorsPerGuideLeft',
	anchorsRight: 'anchorsPerGuideRight',
	bracketAnchors: 'anchorsPerBracket',
	holeColumns: 'holePattern.columns',
	hoodPieces: 'hoodPieces',
	hoodSupports: 'hoodSupports',
	curtainRows: 'curtainRows'
} as const;

const keyNames = {
	mountingLeft: 'mountingLeft',
	mountingRight: 'mountingRight',
	guideLeft: 'guideLeft',
	guideRight: 'guideRight',
	substrateLeft: 'substrateLeft',
	substrateRight: 'substrateRight',
	headSubstrate: 'headSubstrate',
	drawnFrom: 'drawnFrom',
	driveSide: 'driveAt',
	operation: 'operation',
	sill: 'sill'
} as const;

/** Names of the takeoff that the drawings read. */
export const names = { ...lengthNames, ...countNames, ...keyNames } as const;

/** Everything a drawing reads: lengths in mm. Left and right are seen from the coil side. */
export type Readings = Readonly<
	Record<keyof typeof lengthNames | keyof typeof countNames, number | null> &
		Record<keyof typeof keyNames, string | null>
>;

const nanometresInMillimetre = 1e6;

function figure(value: number | string | null): number | null {
	return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

function entries<K extends string, V>(
	table: Readonly<Record<K, string>>,
	make: (id: string) => V
): Record<K, V> {
	const pairs = Object.entries<string>(table).map(([key, id]) => [key, make(id)] as const);
	return Object.fromEntries(pairs) as Record<K, V>;
}

/** Reads what a drawing needs. A figure that is not finite counts as not known. */
export function readingsOf(read: Read): Readings {
	return {
		...entries(lengthNames, (id) => {
			const value = figure(read(id));
			return value === null ? null : value / nanometresInMillimetre;
		}),
		...entries(countNames, (id) => figure(read(id))),
		...entries(keyNames, (id) => {
			const value = read(id);
			return typeof value === 'string' && value !== '' ? value : null;
		})
	};
}
