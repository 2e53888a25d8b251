/** What the pages of field measures are answered. No price is in any of it. */
import type { FieldReadings } from '../fieldwork/field-measure.ts';
import type { OrderLineOfPart } from '../fieldwork/part-changes.ts';
import type { OpeningRow } from '../takeoff/inputs.ts';
import type { Part } from '../takeoff/result.ts';

/** An opening as addresses call it, which stays when its mark is renamed, and as people do. */
export interface OpeningName {
	readonly openingKey: string;
	readonly openingId: string;
}

/** One opening in the list of those to measure. */
export interface MeasureListing extends OpeningName {
	readonly location: string;
	readonly phase: string;
	/** Its size is not final by the sheet. */
	readonly held: boolean;
	/** Of the measure that counts; null where there is none. */
	readonly verdict: {
		readonly outcome: 'agrees' | 'stop' | 'incomplete';
		/** One sentence, without the name of the opening. */
		readonly text: string;
		/** ISO 8601, UTC. */
		readonly at: string;
		readonly by: string;
	} | null;
}

/** The page `site/measure`: openings in the order of the sheet. */
export interface MeasuresAnswer {
	readonly openings: readonly MeasureListing[];
}

/** A measure as the office has it. */
export interface KnownMeasure {
	readonly measureId: string;
	readonly readings: FieldReadings;
	readonly note: string;
	readonly by: string;
	/** ISO 8601, UTC. */
	readonly measuredAt: string;
	readonly receivedAt: string;
	readonly withdrawn: boolean;
	/** The person who asks may withdraw it, or let it count again. */
	readonly mayWithdraw: boolean;
}

/** The page of one opening. The verdict is worked out from it by the same engine, here and there. */
export interface MeasureSheet extends OpeningName {
	readonly location: string;
	readonly phase: string;
	/** Rows of the mark and of its openings, in the order of the sheet. */
	readonly rows: readonly OpeningRow[];
	/** Of this opening, as they are stored. */
	readonly parts: readonly Part[];
	/** Lines of orders that stand, by the id of the part. */
	readonly orderLines: readonly (readonly [partId: string, lines: readonly OrderLineOfPart[]])[];
	/** The first measured first; the last that is not withdrawn counts. */
	readonly measures: readonly KnownMeasure[];
	readonly previous: OpeningName | null;
	readonly next: OpeningName | null;
}

/** `POST /api/jobs/:job/measures` */
export interface SentMeasure {
	/** Made on the phone: sent twice, it is one measure. */
	readonly measureId: string;
	readonly openingKey: string;
	readonly readings: FieldReadings;
	readonly note: string;
	/** By the clock of the phone, ISO 8601, UTC. */
	readonly measuredAt: string;
}

export interface MeasureTaken {
	readonly measureId: string;
	/** It had arrived before. */
	readonly known: boolean;
}

/** Plumb readings of one jamb, at most. */
export const mostPlumbReadings = 24;
