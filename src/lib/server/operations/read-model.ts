/** A building model as it would come into one job: the reading of the file, and the rows that the job has already. */
import type { BuildingModel } from '../../exchange/building-model/model.ts';
import { readModel } from '../../exchange/building-model/read-model.ts';
import type { OpeningRow } from '../../takeoff/inputs.ts';
import type { Actor } from '../identity/actor.ts';
import type { JobRecord } from '../storage/job.repository.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { ScheduleForm } from './read-schedule.ts';
import type { Services } from './services.ts';

export interface JobModel {
	readonly job: JobRecord;
	/** The job's rows, in order. */
	readonly rows: readonly OpeningRow[];
	readonly model: BuildingModel;
}

/** Reads a building model for a job. Nothing is stored. */
export async function readJobModel(
	actor: Actor,
	services: Services,
	jobId: string,
	{ name, bytes }: ScheduleForm
): Promise<Outcome<JobModel>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const read = await readModel(name, bytes);
	if (!read.ok) return refuse(422, { message: read.message });
	const rows = await services.storage.openings.live(keyOf(actor, jobId));
	return done({ job: found.value, rows, model: read.model });
}

/** The job's rows that stand for a whole mark, by mark. */
export const rowsByMark = (rows: readonly OpeningRow[]): Map<string, OpeningRow> =>
	new Map(
		rows.flatMap((row): [string, OpeningRow][] => {
			const { mark, openingNumber } = row.cells;
			return typeof mark === 'string' && typeof openingNumber !== 'number' ? [[mark, row]] : [];
		})
	);
