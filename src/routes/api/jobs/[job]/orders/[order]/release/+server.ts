import { answer } from '$lib/server/http/answer.ts';
import { readJson } from '$lib/server/http/body.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const POST: RequestHandler = async ({ locals, params, request }) => {
	const body = await readJson(request);
	if (!body.ok) return answer(body);
	return answer(
		await operations.releaseOrder(locals.actor, await openedServices(), params.job, params.order, body.value)
	);
};
