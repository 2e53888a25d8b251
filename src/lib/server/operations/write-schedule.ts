import { z } from 'zod';
import { scheduleText } from '../../exchange/schedule-file.ts';
import { writeScheduleWorkbook } from '../../exchange/workbook/write-schedule.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const wishSchema = z.strictObject({
	/** The kind of file. */
	as: z.enum(['xlsx', 'csv']),
	/** Ids of the columns shown in the grid, from the left, with commas between. */
	columns: z
		.string()
		.max(50_000)
		.transform((list) => list.split(',').filter((id) => id !== ''))
});

export interface WrittenSchedule {
	readonly content: string | Uint8Array;
	readonly as: 'xlsx' | 'csv';
	readonly jobName: string;
}

/** The grid as a file that reads back to the same rows; no prices. */
export async function writeSchedule(
	actor: Actor,
	services: Services,
	jobId: string,
	wish: Readonly<Record<string, string>>
): Promise<Outcome<WrittenSchedule>> {
	const parsed = wishSchema.safeParse(wish);
	if (!parsed.success) return bodyProblem(parsed.error);
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { name, measures, technicalDigest } = found.value;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	const rows = await services.storage.openings.live(keyOf(actor, jobId));
	const { openings } = engine.takeoff(rows, measures);
	const { as, columns } = parsed.data;
	const file = { name, measures, engine, openings, columns };
	const content =
		as === 'csv'
			? scheduleText(file)
			: await writeScheduleWorkbook(new Map([['Schedule', file]]), services.now());
	return done({ content, as, jobName: name });
}
