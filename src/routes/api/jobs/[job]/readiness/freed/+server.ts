import { answer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params, url }) => {
	const query = Object.fromEntries(url.searchParams);
	return answer(await operations.readFreed(locals.actor, await openedServices(), params.job, query));
};
