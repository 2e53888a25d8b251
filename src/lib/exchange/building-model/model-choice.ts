/** What a person sees of a model for one job, and what they choose of it: passed between the page and the server. */
import { z } from 'zod';
import type { BuildingModel } from './model.ts';

export interface ModelPreview extends BuildingModel {
	/** Marks that the job has already. */
	readonly marks: readonly string[];
}

export const modelChoiceSchema = z.strictObject({
	/** Lines of the chosen openings. */
	lines: z.array(z.number().int().positive()).max(20_000),
	/** One row for each opening, or one for all alike of a type with their number as quantity. */
	grouping: z.enum(['each', 'type']),
	/**
	 * What becomes of rows whose mark the job has: left out; their size, quantity, place and exposure taken over (the note
	 * stays); or brought in beside the job's, to be given other marks.
	 */
	existing: z.enum(['leave', 'update', 'all'])
});

export type ModelChoice = z.infer<typeof modelChoiceSchema>;
