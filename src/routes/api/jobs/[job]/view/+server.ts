import { answer } from '$lib/server/http/answer.ts';
import { readJson } from '$lib/server/http/body.ts';
import { keepLastView } from '$lib/server/operations/keep-last-view.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { readLastView } from '$lib/server/operations/read-views.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params }) =>
	answer(await readLastView(locals.actor, await openedServices(), params.job));

export const PUT: RequestHandler = async ({ locals, params, request }) => {
	const body = await readJson(request);
	if (!body.ok) return answer(body);
	return answer(await keepLastView(locals.actor, await openedServices(), params.job, body.value));
};
