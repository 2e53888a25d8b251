import { answer, streamAnswer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params, request, url }) => {
	const outcome = await operations.followJob(locals.actor, await openedServices(), params.job, {
		after: request.headers.get('last-event-id') ?? url.searchParams.get('after'),
		tab: url.searchParams.get('tab'),
		recheck: () => locals.recheck()
	});
	return outcome.ok ? streamAnswer(outcome.value) : answer(outcome);
};
