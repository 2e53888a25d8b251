/** What is measured at an opening before anything is drilled. */

/** How far a jamb is from plumb at a height above the finished sill, in nm; in the plane of the wall plus is into the opening, out of it plus is towards the coil side. */
export interface PlumbReading {
	readonly height: number;
	readonly inPlane: number | null;
	readonly outOfPlane: number | null;
}

/** Readings of one opening, whole nanometres, left and right seen from the coil side. Null was not measured. */
export interface FieldReadings {
	readonly widths: {
		readonly bottom: number | null;
		readonly middle: number | null;
		readonly top: number | null;
	};
	readonly heights: { readonly left: number | null; readonly right: number | null };
	/** From the bottom left to the top right, and from the bottom right to the top left. */
	readonly diagonals: { readonly rising: number | null; readonly falling: number | null };
	readonly plumb: { readonly left: readonly PlumbReading[]; readonly right: readonly PlumbReading[] };
	/** How much higher the sill is at the right than at the left; minus is lower. */
	readonly sillRise: number | null;
	/** Free room, as measured. */
	readonly headroom: number | null;
	readonly leftSideRoom: number | null;
	readonly rightSideRoom: number | null;
	/** What the wall was found to be, by side; null where nobody looked. */
	readonly leftSubstrate: string | null;
	readonly rightSubstrate: string | null;
}

/** A measure as somebody took it. The latest that is not withdrawn counts. */
export interface FieldMeasure {
	readonly measureId: string;
	readonly openingId: string;
	readonly readings: FieldReadings;
	readonly note: string;
	readonly by: string;
	/** ISO 8601, UTC. */
	readonly measuredAt: string;
}
