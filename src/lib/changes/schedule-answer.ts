/** What the server answers while a schedule is looked at, as JSON. */
import type { ScheduleComparison } from '../exchange/schedule-comparison.ts';
import type { SchedulePreview } from '../exchange/schedule.ts';
import type { JobFigures, PriceEffect } from '../price/effects.ts';

/** How a file of this kind was read before, and what of it was taken over. */
export interface RememberedReading {
	/** To forget it by. */
	readonly key: string;
	/** ISO 8601, UTC. */
	readonly confirmedAt: string;
	/** Ids of the questions that are answered as they were then. */
	readonly answers: readonly string[];
}

export interface ScheduleAnswer extends SchedulePreview {
	readonly remembered: RememberedReading | null;
	/** Rows the job has; with none there is nothing to compare. */
	readonly jobRows: number;
}

/** What the changes do to the price. */
export interface ScheduleCosts {
	/** ISO 4217 code. */
	readonly currency: string;
	/** The job as it stands. */
	readonly now: JobFigures;
	/** With all that is chosen. */
	readonly chosen: PriceEffect;
	/** By id of the change: the job with this one alone. The first of those asked for; the others can be asked for next. */
	readonly each: Readonly<Record<string, PriceEffect>>;
}

export interface ComparisonAnswer extends ScheduleComparison {
	/** Ids of what is taken. */
	readonly chosen: readonly string[];
	/** Only for those who may see the price. */
	readonly costs: ScheduleCosts | null;
}
