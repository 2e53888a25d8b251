import { answer, fileAnswer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params, url }) => {
	const query = Object.fromEntries(url.searchParams);
	const written = await operations.writeMeasureSheet(locals.actor, await openedServices(), params.job, query);
	if (!written.ok) return answer(written);
	const { content, jobName } = written.value;
	return fileAnswer(content, 'application/pdf', { job: jobName, what: 'field measure.pdf' });
};
