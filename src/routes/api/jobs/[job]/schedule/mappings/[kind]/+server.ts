import { answer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { forgetMapping } from '$lib/server/operations/forget-mapping.ts';
import type { RequestHandler } from './$types';

export const DELETE: RequestHandler = async ({ locals, params }) =>
	answer(await forgetMapping(locals.actor, await openedServices(), params.job, params.kind));
