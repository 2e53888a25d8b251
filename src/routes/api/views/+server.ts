import { answer } from '$lib/server/http/answer.ts';
import { readJson } from '$lib/server/http/body.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { readViews } from '$lib/server/operations/read-views.ts';
import { saveView } from '$lib/server/operations/save-view.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals }) =>
	answer(await readViews(locals.actor, await openedServices()));

export const POST: RequestHandler = async ({ locals, request }) => {
	const body = await readJson(request);
	if (!body.ok) return answer(body);
	return answer(await saveView(locals.actor, await openedServices(), body.value), 201);
};
