import { sayLength } from '../../fieldwork/sentence.ts';
import type { Actor } from '../identity/actor.ts';
import type { StoredMeasure } from '../storage/measure.repository.ts';
import { changeRecords } from './change-records.ts';
import { findJob } from './find-job.ts';
import { findOpening } from './find-opening.ts';
import { bodyProblem } from './job-bodies.ts';
import { withdrawBody } from './measure-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import { measureWords } from './save-measure.ts';
import type { Services } from './services.ts';

/** Who measured may withdraw it, and who sees to the orders. */
export const mayWithdraw = (actor: Actor, { byId }: Pick<StoredMeasure, 'byId'>): boolean =>
	byId === actor.id || actor.roles.some((role) => role === 'estimator' || role === 'purchasing');

/** Takes a measure out of what counts, or lets it count again. It is kept either way. */
export async function withdrawMeasure(
	actor: Actor,
	services: Services,
	jobId: string,
	measureId: string,
	request: unknown
): Promise<Outcome<null>> {
	const parsed = withdrawBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { withdrawn } = parsed.data;
	const found = await findJob(actor, services, jobId);
	if (!found.ok) return found;
	const { measures, technicalDigest } = found.value;
	const engine = await services.engines.engine(actor.companyId, technicalDigest);
	return changeRecords(actor, services, jobId, async (inside, key, at) => {
		const measure = await inside.measures.find(key, measureId);
		if (!measure) return refuse(404, { message: 'This job has no such measure.' });
		if (!mayWithdraw(actor, measure))
			return refuse(403, {
				message: `${measure.by} took this measure. They, an estimator or purchasing may withdraw it.`
			});
		const opening = await findOpening(inside, engine, key, measures, measure.openingKey);
		const name = opening?.openingId ?? 'an opening that is gone';
		const title = withdrawn ? `Withdraw a measure of ${name}` : `Let a measure of ${name} count again`;
		if (measure.withdrawn === withdrawn)
			return done({ kind: 'measure' as const, title, records: [], value: null });
		await inside.measures.setWithdrawn(key, measureId, withdrawn, at);
		const words = measureWords(measure, sayLength(measures));
		const [before, after] = withdrawn ? [words, 'withdrawn'] : ['withdrawn', words];
		const record = { record: 'Measure', name, field: 'Readings', before, after };
		return done({ kind: 'measure' as const, title, records: [record], value: null });
	});
}
