import { answer, answerWithCookies } from '$lib/server/http/answer.ts';
import { readJson } from '$lib/server/http/body.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, params }) =>
	answer(await operations.readInvitation(locals.actor, await openedServices(), locals.visit, params.token));

export const POST: RequestHandler = async ({ locals, params, request }) => {
	const body = await readJson(request);
	if (!body.ok) return answer(body);
	return answerWithCookies(
		await operations.acceptInvitation(
			locals.actor,
			await openedServices(),
			locals.visit,
			params.token,
			body.value
		)
	);
};
