import { answer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params, url }) => {
	const row = url.searchParams.get('row') ?? '';
	const id = url.searchParams.get('id') ?? '';
	return answer(await operations.explainPrice(locals.actor, await openedServices(), params.job, row, id));
};
