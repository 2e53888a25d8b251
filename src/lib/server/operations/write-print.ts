import { z } from 'zod';
import { paperIds } from '../../exchange/paper-sizes.ts';
import { printJob } from '../../exchange/print/print-job.ts';
import type { Actor } from '../identity/actor.ts';
import { findJob, keyOf } from './find-job.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

const id = z.string().min(1).max(200);

const printRequestSchema = z
	.strictObject({
		what: z.enum(['schedule', 'drawings', 'opening'], 'Print the schedule, the drawings or one opening.'),
		paper: z.enum(paperIds, `The paper is one of ${paperIds.join(', ')}.`).default('letter'),
		/** Rows to print, in this order; all where none are named. */
		rows: z.array(id).max(20_000, 'At most 20,000 rows are printed at once.').optional(),
		/** Columns of the schedule, in this order; every one that holds something where none are named. */
		columns: z.array(id).max(2000, 'At most 2,000 columns are printed.').optional()
	})
	.refine(({ what, rows }) => what !== 'opening' || rows?.length === 1, {
		message: 'Choose the one opening whose drawing is to be printed.',
		path: ['rows']
	});

/** The schedule of a job, or the drawings of its openings, as pages to print. No price is on any of them. */
export async function writePrint(
	actor: Actor,
	services: Services,
	jobId: string,
	body: unknown
): Promise<Outcome<{ content: Uint8Array; jobName: string; what: string }>> {
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const request = printRequestSchema.safeParse(body);
	if (!request.success) {
		const [issue] = request.error.issues;
		return refuse(422, {
			message: issue?.message ?? 'The request is not right.',
			...(issue && issue.path.length > 0 ? { field: issue.path.join('.') } : {})
		});
	}
	const { what, paper, rows = null, columns = null } = request.data;
	const { name, measures, technicalDigest } = found.value;
	const { book } = await services.engines.engine(actor.companyId, technicalDigest);
	const print = await printJob({
		what: what === 'schedule' ? 'schedule' : 'drawings',
		book,
		rows: await services.storage.openings.live(keyOf(actor, jobId)),
		measures,
		chosen: rows,
		columns,
		paper,
		jobName: name,
		printedAt: services.now()
	});
	if (!print.ok) return refuse(print.problem === 'tooLarge' ? 413 : 422, { message: print.message });
	return done({ content: print.content, jobName: name, what: what === 'opening' ? 'drawing' : what });
}
