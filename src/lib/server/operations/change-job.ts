import { z } from 'zod';
import type { RecordChange } from '../../changes/history.ts';
import type { Actor } from '../identity/actor.ts';
import { keyOf, noSuchJob } from './find-job.ts';
import { bodyProblem, jobName, measures } from './job-bodies.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { fieldChange, tellOthers, writeHistory } from './write-history.ts';

const body = z
	.strictObject({ name: jobName.optional(), measures: measures.optional(), deleted: z.boolean().optional() })
	.refine((change) => Object.keys(change).length > 0, 'Nothing to change was named.');

/** `Rename the job`, `Delete the job` */
function titleOf(records: readonly RecordChange[]): string {
	const [first] = records;
	if (records.length !== 1 || !first) return 'Change the job';
	if (first.field === 'Name') return 'Rename the job';
	if (first.field === 'Measures') return `Measure the job in ${first.after ?? ''} units`;
	return first.after === 'deleted' ? 'Delete the job' : 'Put the job back';
}

/** Renames a job, changes its measures, deletes it, or brings it back: deleting keeps everything. */
export async function changeJob(
	actor: Actor,
	services: Services,
	jobId: string,
	request: unknown
): Promise<Outcome<{ id: string }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const key = keyOf(actor, jobId);
	const { name, measures: newMeasures, deleted } = parsed.data;
	const at = services.now();
	let made = 0;
	const outcome = await services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		const { jobs } = inside;
		const revision = await jobs.nextRevision(key, at, { deletedToo: true });
		const job = await jobs.find(key);
		// A deleted job can be brought back, and nothing else.
		if (!job || revision === null || (job.deleted && deleted !== false)) return noSuchJob;
		await jobs.change(
			key,
			{
				...(name === undefined ? {} : { name }),
				...(newMeasures === undefined ? {} : { measures: newMeasures }),
				...(deleted === undefined ? {} : { deleted })
			},
			at
		);
		const record = { record: 'Job', name: job.name };
		const state = (gone: boolean): string => (gone ? 'deleted' : 'there');
		const records = [
			...fieldChange(record, 'Name', job.name, name ?? job.name),
			...fieldChange(record, 'Measures', job.measures, newMeasures ?? job.measures),
			...fieldChange(record, 'State', state(job.deleted), state(deleted ?? job.deleted))
		];
		await writeHistory(inside, key, actor, { revision, kind: 'job', title: titleOf(records), records }, at);
		made = revision;
		return done({ id: jobId });
	});
	if (outcome.ok) tellOthers(services, key, made);
	return outcome;
}
