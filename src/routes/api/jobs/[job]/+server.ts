import { answer } from '$lib/server/http/answer.ts';
import { readJson } from '$lib/server/http/body.ts';
import { changeJob } from '$lib/server/operations/change-job.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import type { RequestHandler } from './$types';

export const PATCH: RequestHandler = async ({ locals, params, request }) => {
	const body = await readJson(request);
	if (!body.ok) return answer(body);
	return answer(await changeJob(locals.actor, await openedServices(), params.job, body.value));
};
