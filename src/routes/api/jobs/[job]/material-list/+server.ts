import { answer, fileAnswer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params }) => {
	const written = await operations.writeMaterialList(locals.actor, await openedServices(), params.job);
	if (!written.ok) return answer(written);
	const { content, jobName } = written.value;
	return fileAnswer(content, 'text/csv; charset=utf-8', { job: jobName, what: 'material list.csv' });
};
