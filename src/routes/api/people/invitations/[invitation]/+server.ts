import { answer } from '$lib/server/http/answer.ts';
import { openedServices } from '$lib/server/operations/opened-services.ts';
import { operations } from '$lib/server/operations/operations.ts';
import type { RequestHandler } from './$types';

export const DELETE: RequestHandler = async ({ locals, params }) =>
	answer(await operations.withdrawInvitation(locals.actor, await openedServices(), params.invitation));
